// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// One polynomial span laid close to an exact curve. How close it really lies is proved elsewhere; here it is only made.
#ifndef RACKWORK_CURVE_DETAIL_SPAN_FIT_HPP
#define RACKWORK_CURVE_DETAIL_SPAN_FIT_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "../offset_segment.hpp"
#include "least_squares.hpp"
#include "natural_shares.hpp"
#include "span.hpp"

#include <array>
#include <cstddef>
#include <limits>
#include <tuple>

namespace rackwork::detail {

/// Where a span should cross the curve, as parameters from -1 to 1, the positive ones: the zeros of the polynomial q of degree 2 p - 4 for
/// which the greatest value of (1 - x^2)^2 q is least. Between them, and in 0, are its equal extremes.
/// Computed by exchange of the extremes (Remez); a test looks at the extremes.
struct crossings_and_extremes {
    std::array<double, highest_degree - 2> crossings;
    std::array<double, highest_degree - 2> extremes;
};
inline constexpr std::array<crossings_and_extremes, highest_degree - lowest_degree + 1> least_distance{{
    {{0.32541134433977204}, {0.6355535870535847}},
    {{0.21941600085989105, 0.6271224570891007}, {0.43087459678262274, 0.8033782110945793}},
    {{0.16818760991931087, 0.4884427459031191, 0.7627227088246582},
     {0.3323123688264904, 0.632937161365823, 0.8762685058001116}},
    {{0.13712902957615808, 0.40212427220611247, 0.6400608648887898, 0.8356585782039143},
     {0.27193122103326817, 0.5255167707632673, 0.7439262959280875, 0.914814422081746}},
    {{0.11605115097653057, 0.3423598664540872, 0.5515978702087778, 0.733441234721629, 0.8794342387861613},
     {0.23064908020746444, 0.44978831463517255, 0.646532123534973, 0.8113243960169254, 0.9377295361314943}},
}};

/// Fits a span to a piece of a curve.
///
/// Both ends and the tangents there are given; free are the lengths of the two end legs and the control points between them. A span of
/// degree p has so 2 p - 4 numbers to choose and can cross the curve as often, which is why its distance falls with the 2 p-th power
/// of its length (and not with the (p + 1)-th, as that of an interpolating polynomial does). It is made to cross the curve where it should:
/// a handful of points of the curve are all that it takes.
///
/// Some changes of the unknowns shift the span mostly along itself. What such a shift h does to the distance, about k h^2/2 where the
/// curvature is k, is beyond a linear condition; so each step also keeps h small, with just the weight that leaves k h^2 no greater than the
/// distances that are still to be removed. As they vanish the step becomes Newton's.
template <scalar T>
class span_fitter {
public:
    /// From share to share of the curve. `goal`: a distance that is near enough, so that nothing better is looked for.
    span_fitter(const offset_segment<T>& curve, const natural_shares<T>& shares, const T& from, const T& to, int degree, const T& goal)
        : curve_(curve), shares_(shares), from_(from), to_(to), goal_(goal) {
        fitted_.from = shares.parameter(from);
        fitted_.to = shares.parameter(to);
        choice_ = {.degree = degree,
                   .start = curve.position(fitted_.from),
                   .end = curve.position(fitted_.to),
                   .start_tangent = curve.tangent(fitted_.from),
                   .end_tangent = curve.tangent(fitted_.to)};
        const T chord = length(choice_.end - choice_.start);
        // A shorter leg would make a control polygon that other programs take for a cusp.
        shortest_leg_ = chord / T(64 * degree);
        curvature_ = length(choice_.end_tangent - choice_.start_tangent) / chord;
        fit();
    }

    const span<T>& fitted() const { return fitted_; }
    /// Greatest distance found at the crossings and between them; (std::numeric_limits<T>::max)() where there is no sense in the span.
    const T& greatest_distance() const { return greatest_; }

private:
    struct sample {
        point<T> position;
        point<T> tangent;
        T u;
    };
    using row = span_row<T>;
    static constexpr std::size_t most_unknowns = std::tuple_size_v<row>;

    const crossings_and_extremes& table() const { return least_distance[index(choice_.degree - lowest_degree)]; }

    /// At a share given by a parameter from -1 to 1.
    sample sample_at(double x) const {
        const T share = T((T(1) + T(x)) / T(2));
        const T t = shares_.parameter(T(from_ + (to_ - from_) * share));
        return {curve_.position(t), curve_.tangent(t), share};
    }

    void fit() {
        const int half = choice_.degree - 2;
        for (int i = 0; i < half; ++i) {
            const double x = table().crossings[index(i)];
            samples_[index(half - 1 - i)] = sample_at(-x);
            samples_[index(half + i)] = sample_at(x);
        }
        fit_at_shares();
        constexpr int most_steps = 16;
        T before = T(0);
        for (int step = 0;; ++step) {
            const T left = greatest_at_crossings();
            // Eight more steps as good as the last one would not do, or it is too far away for that.
            const bool vain = step > 4 ? square(square(square(T(left / before)))) * left > goal_ : step > 1 && left > T(10000) * goal_;
            const bool last = vain || step == most_steps || !is_finite(left) || left == (std::numeric_limits<T>::max)();
            if (last || left <= goal_) {
                greatest_ = larger(left, greatest_between_crossings());
                if (last || greatest_ <= goal_) return;
            }
            change(left);
            before = left;
        }
    }

    void set(const row& x) {
        x_ = x;
        x_[0] = larger(x_[0], shortest_leg_);
        x_[1] = larger(x_[1], shortest_leg_);
        choice_.set(fitted_, x_);
    }

    /// The span whose points at the crossings' shares of its parameter are nearest to the curve's.
    void fit_at_shares() {
        const int p = choice_.degree;
        least_squares<T, most_unknowns> least{choice_.unknowns()};
        for (int i = 0; i < choice_.unknowns(); ++i) {
            const sample& s = samples_[index(i)];
            const auto b = bernstein(p, s.u);
            const point<T> rest = s.position - (b[0] + b[1]) * choice_.start - (b[index(p - 1)] + b[index(p)]) * choice_.end;
            least.add(choice_.effects(b, {T(1), T(0)}), rest.x);
            least.add(choice_.effects(b, {T(0), T(1)}), rest.y);
        }
        set(least.solution());
    }

    /// Finds the points of the span abreast of the crossings.
    T greatest_at_crossings() {
        T greatest = T(0);
        T before = T(0);
        for (int i = 0; i < choice_.unknowns(); ++i) {
            sample& s = samples_[index(i)];
            s.u = fitted_.abreast(s.position, s.tangent, s.u);
            if (!(before < s.u && s.u < T(1))) return (std::numeric_limits<T>::max)();
            before = s.u;
            greatest = larger(greatest, distance(s));
        }
        return greatest;
    }

    T greatest_between_crossings() const {
        const int half = choice_.degree - 2;
        T greatest = T(0);
        for (int i = -half; i <= half; ++i) {
            sample s = sample_at(i == 0 ? 0. : (i < 0 ? -table().extremes[index(-i - 1)] : table().extremes[index(i - 1)]));
            const T low = i == -half ? T(0) : samples_[index(i + half - 1)].u;
            const T high = i == half ? T(1) : samples_[index(i + half)].u;
            s.u = fitted_.abreast(s.position, s.tangent, T((low + high) / T(2)));
            if (!(T(0) < s.u && s.u < T(1))) return (std::numeric_limits<T>::max)();
            greatest = larger(greatest, distance(s));
        }
        return greatest;
    }

    T distance(const sample& s) const { return magnitude(cross(s.tangent, fitted_.at(s.u).position - s.position)); }

    void change(const T& left) {
        least_squares<T, most_unknowns> least{choice_.unknowns()};
        const T weight = elementary::sqrt(T(curvature_ * left / T(10)));
        for (int i = 0; i < choice_.unknowns(); ++i) {
            const sample& s = samples_[index(i)];
            const auto here = fitted_.at(s.u);
            // A span that moves along the curve and is not quite parallel to it changes its distance all the same.
            const point<T> normal = to_the_left(s.tangent);
            const point<T> seen = normal - T(dot(here.velocity, normal) / dot(here.velocity, s.tangent)) * s.tangent;
            const auto b = bernstein(choice_.degree, s.u);
            least.add(choice_.effects(b, seen), dot(s.position - here.position, seen));
            least.add(choice_.effects(b, weight * s.tangent), T(0));
        }
        const row by = least.solution();
        row x = x_;
        for (int i = 0; i < choice_.unknowns(); ++i) x[index(i)] += by[index(i)];
        set(x);
    }

    const offset_segment<T>& curve_;
    const natural_shares<T>& shares_;
    T from_; // shares
    T to_;
    T goal_;
    span_choice<T> choice_;
    span<T> fitted_;
    std::array<sample, most_unknowns> samples_{};
    row x_{};
    T shortest_leg_{0};
    T curvature_{0};
    T greatest_{0};
};

} // namespace rackwork::detail

#endif
