// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// One polynomial span laid close to an exact curve. How close it really lies is proved elsewhere; here it is only made.
#ifndef RACKWORK_CURVE_DETAIL_SPAN_FIT_HPP
#define RACKWORK_CURVE_DETAIL_SPAN_FIT_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "../offset_segment.hpp"
#include "natural_shares.hpp"

#include <array>
#include <cstddef>
#include <limits>
#include <vector>

namespace rackwork::detail {

inline constexpr int highest_degree = 7;

/// The weights of the control points at a parameter: binomial(p, k) (1 - u)^(p - k) u^k.
template <scalar T>
constexpr std::array<T, highest_degree + 1> bernstein(int degree, const T& u) {
    std::array<T, highest_degree + 1> b{T(1)};
    for (int p = 1; p <= degree; ++p) {
        T carried = T(0);
        for (int k = 0; k < p; ++k) {
            const T before = b[index(k)];
            b[index(k)] = carried + (T(1) - u) * before;
            carried = u * before;
        }
        b[index(p)] = carried;
    }
    return b;
}

/// A polynomial curve over [0, 1] by its control points, and the piece of the exact curve for which it stands.
template <scalar T>
struct span {
    int degree = 0;
    std::array<point<T>, highest_degree + 1> control{};
    /// Parameters of the exact curve.
    T from{0};
    T to{0};

    constexpr point<T> position(const T& u) const {
        const auto b = bernstein(degree, u);
        point<T> p{};
        for (int k = 0; k <= degree; ++k) p = p + b[index(k)] * control[index(k)];
        return p;
    }
    constexpr point<T> velocity(const T& u) const {
        const auto b = bernstein(degree - 1, u);
        point<T> v{};
        for (int k = 0; k < degree; ++k) v = v + b[index(k)] * (control[index(k + 1)] - control[index(k)]);
        return T(degree) * v;
    }
    /// The parameter at which the span passes the normal of the curve at a point of it, looked for from `u` on.
    constexpr T abreast(const point<T>& on_curve, const point<T>& tangent, T u) const {
        for (int step = 0; step < 4; ++step) {
            const T ahead = dot(position(u) - on_curve, tangent);
            const T change = ahead / dot(velocity(u), tangent);
            if (!(magnitude(change) < T(1))) break;
            u -= change;
            if (magnitude(change) < T(8) * epsilon<T>()) break;
        }
        return u;
    }
};

/// Fits a span to a piece of a curve by least squares of the distances square to the curve, from the parametric least squares on.
///
/// Both ends and the tangents there are given; free are the lengths of the two end legs and the control points between them. A span of
/// degree p has so 2 p - 4 numbers to choose and can cross the curve as often, which is why its distance falls with the 2 p-th power
/// of its length (and not with the (p + 1)-th, as that of an interpolating polynomial does).
template <scalar T>
class span_fitter {
public:
    /// `goal`: a distance that is near enough, so that nothing better is looked for.
    span_fitter(const offset_segment<T>& curve, const T& from, const T& to, int degree, const T& goal) : degree_(degree), goal_(goal) {
        fitted_.degree = degree;
        fitted_.from = from;
        fitted_.to = to;
        start_ = curve.position(from);
        end_ = curve.position(to);
        start_tangent_ = curve.tangent(from);
        end_tangent_ = curve.tangent(to);
        // Roots of a Chebyshev polynomial: least squares over them come close to the least maximum.
        const natural_shares<T> natural(curve, from, to);
        const int count = 4 * degree + 4;
        samples_.reserve(index(count));
        for (int i = 0; i < count; ++i) {
            const T share = (T(1) - elementary::cos(T(T(2 * i + 1) * pi<T>() / T(2 * count)))) / T(2);
            const T t = natural.parameter(share);
            samples_.push_back({curve.position(t), curve.tangent(t), share});
        }
        // A shorter leg would make a control polygon that other programs take for a cusp.
        shortest_leg_ = length(end_ - start_) / T(64 * degree);
        fit_parametric();
        fit_geometric();
    }

    const span<T>& fitted() const { return fitted_; }
    /// Greatest distance found at the samples.
    const T& greatest_distance() const { return greatest_; }

private:
    static constexpr int most_unknowns = 2 * highest_degree - 4;

    struct sample {
        point<T> position;
        point<T> tangent;
        T u;
    };
    using row = std::array<T, most_unknowns>;

    int unknowns() const { return 2 * degree_ - 4; }

    /// What a unit of each unknown does to the span's point, seen in a direction.
    row effects(const std::array<T, highest_degree + 1>& b, const point<T>& seen) const {
        row r{};
        r[0] = b[1] * dot(start_tangent_, seen);
        r[1] = -b[index(degree_ - 1)] * dot(end_tangent_, seen);
        for (int k = 2; k <= degree_ - 2; ++k) {
            r[index(2 * k - 2)] = b[index(k)] * seen.x;
            r[index(2 * k - 1)] = b[index(k)] * seen.y;
        }
        return r;
    }

    void set(const row& x) {
        fitted_.control[0] = start_;
        fitted_.control[1] = start_ + x[0] * start_tangent_;
        fitted_.control[index(degree_)] = end_;
        fitted_.control[index(degree_ - 1)] = end_ - x[1] * end_tangent_;
        for (int k = 2; k <= degree_ - 2; ++k) fitted_.control[index(k)] = {x[index(2 * k - 2)], x[index(2 * k - 1)]};
    }

    /// Normal equations of least squares, and their solution by Cholesky's method.
    struct equations {
        int n;
        std::array<row, most_unknowns> matrix{};
        row right{};

        void add(const row& effect, const T& wanted) {
            for (int i = 0; i < n; ++i) {
                for (int j = 0; j <= i; ++j) matrix[index(i)][index(j)] += effect[index(i)] * effect[index(j)];
                right[index(i)] += effect[index(i)] * wanted;
            }
        }
        /// The diagonal is raised by a share of itself, which shortens the solution.
        row solution(const T& damping) const {
            std::array<row, most_unknowns> l = matrix;
            row x = right;
            for (int i = 0; i < n; ++i) {
                row& here = l[index(i)];
                here[index(i)] *= T(1) + damping;
                for (int j = 0; j < i; ++j) {
                    for (int k = 0; k < j; ++k) here[index(j)] -= here[index(k)] * l[index(j)][index(k)];
                    here[index(j)] /= l[index(j)][index(j)];
                    here[index(i)] -= square(here[index(j)]);
                    x[index(i)] -= here[index(j)] * x[index(j)];
                }
                const T least = matrix[index(i)][index(i)] * epsilon<T>();
                here[index(i)] = elementary::sqrt(larger(here[index(i)], larger(least, T((std::numeric_limits<T>::min)()))));
                x[index(i)] /= here[index(i)];
            }
            for (int i = n; i-- > 0;) {
                for (int j = i + 1; j < n; ++j) x[index(i)] -= l[index(j)][index(i)] * x[index(j)];
                x[index(i)] /= l[index(i)][index(i)];
            }
            return x;
        }
    };

    /// The span whose point at each sample's share of the parameter is nearest to the sample.
    void fit_parametric() {
        equations least_squares{unknowns()};
        for (const sample& s : samples_) {
            const auto b = bernstein(degree_, s.u);
            const point<T> rest =
                s.position - (b[0] + b[1]) * start_ - (b[index(degree_ - 1)] + b[index(degree_)]) * end_;
            least_squares.add(effects(b, {T(1), T(0)}), rest.x);
            least_squares.add(effects(b, {T(0), T(1)}), rest.y);
        }
        x_ = least_squares.solution(T(0));
        x_[0] = larger(x_[0], shortest_leg_);
        x_[1] = larger(x_[1], shortest_leg_);
        set(x_);
        sum_ = sum_of_squares();
    }

    /// Finds the points of the span abreast of the samples; their distances make the sum.
    T sum_of_squares() {
        T sum = T(0);
        greatest_ = T(0);
        for (sample& s : samples_) {
            s.u = fitted_.abreast(s.position, s.tangent, s.u);
            const T distance = magnitude(cross(s.tangent, fitted_.position(s.u) - s.position));
            if (!(T(0) < s.u && s.u < T(1)) || !is_finite(distance)) return (std::numeric_limits<T>::max)();
            greatest_ = larger(greatest_, distance);
            sum += square(distance);
        }
        return sum;
    }

    /// Levenberg's and Marquardt's method.
    void fit_geometric() {
        constexpr int most_steps = 40;
        T damping = T(1) / T(1000);
        for (int step = 0; step < most_steps && greatest_ > goal_; ++step) {
            equations least_squares{unknowns()};
            for (const sample& s : samples_) {
                // A span that moves along the curve and is not quite parallel to it changes its distance all the same.
                const point<T> normal = to_the_left(s.tangent);
                const point<T> v = fitted_.velocity(s.u);
                const T slope = dot(v, normal) / dot(v, s.tangent);
                least_squares.add(effects(bernstein(degree_, s.u), normal - slope * s.tangent),
                                  dot(s.position - fitted_.position(s.u), normal));
            }
            const row change = least_squares.solution(damping);
            const span_fitter before = *this;
            for (int i = 0; i < unknowns(); ++i) x_[index(i)] += change[index(i)];
            x_[0] = larger(x_[0], shortest_leg_);
            x_[1] = larger(x_[1], shortest_leg_);
            set(x_);
            const T sum = sum_of_squares();
            if (sum < before.sum_) {
                sum_ = sum;
                damping /= T(10);
                if (sum > before.sum_ * T(99) / T(100)) return;
            } else {
                *this = before;
                damping *= T(10);
                if (damping > T(1000)) return;
            }
        }
    }

    int degree_;
    T goal_;
    span<T> fitted_;
    point<T> start_;
    point<T> end_;
    point<T> start_tangent_;
    point<T> end_tangent_;
    std::vector<sample> samples_;
    row x_{};
    T shortest_leg_{0};
    T sum_{0};
    T greatest_{0};
};

} // namespace rackwork::detail

#endif
