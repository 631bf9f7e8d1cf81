// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How far a polynomial span strays from the exact curve, proved.
#ifndef RACKWORK_CURVE_DETAIL_SPAN_DEVIATION_HPP
#define RACKWORK_CURVE_DETAIL_SPAN_DEVIATION_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "../offset_segment.hpp"
#include "exact_curve.hpp"
#include "interval.hpp"
#include "jet.hpp"
#include "natural_shares.hpp"
#include "proven_maximum.hpp"
#include "span_fit.hpp"

#include <array>
#include <limits>

namespace rackwork::detail {

/// Bounds for the distance between a span and its piece of the curve: no point of either is farther from the other than the bound.
///
/// Proof, part by part of the curve. A polynomial u = mu(t), growing, maps the curve's parameters to the span's, so that every point
/// C(t) has the partner P(mu(t)) and the other way round: no point is farther from the other curve than the greatest length of E =
/// P(mu(t)) - C(t). That is a good bound where mu is good; where it holds there is a better one. Let E have the part n square to the
/// curve and h along it. From C(t) the curve goes on by the length h to a point that is at most K h^2/2 away from where its tangent
/// leads, K being the greatest curvature on the way; so that point and P(mu(t)) are at most |n| + K h^2/2 apart. Those points cover the
/// curve, too, as long as they never turn back: if |E'| + K |C'| |E| < |C'|. E and its derivatives are enclosed by jets of intervals.
///
/// Which polynomial mu is does not matter for the truth of the bound, only for its sharpness; it is made to meet the normals of the curve
/// at some nodes.
template <scalar T>
class span_deviation {
public:
    /// `allowed`: the deviation below which it does not matter how much smaller it is.
    span_deviation(const span<T>& s, const offset_segment<T>& curve, const T& allowed) : span_(s), curve_(curve), exact_(curve) {
        make_powers();
        T u = T(0);
        const natural_shares<T> shares(curve, s.from, s.to);
        for (int i = 0; i <= guides; ++i) {
            const T t = shares.parameter(T(T(i) / T(guides)));
            u = i == 0 ? T(0) : s.abreast(curve.position(t), curve.tangent(t), T(u + T(1) / T(guides)));
            guide_[index(i)] = {t, u};
        }
        const T size = larger(length(s.control[0]), length(s.control[index(s.degree)]));
        result_ = proven_maximum([&](const T& from, const T& to) { return bounds(from, to); }, s.from, s.to,
                                 T(T(512) * epsilon<T>() * size), allowed, 4);
    }

    const distance_bounds<T>& result() const { return result_; }

private:
    using J = proof_jet<T>;
    static constexpr int nodes = 7;
    static constexpr int guides = 16;

    struct pair_of_parameters {
        T t;
        T u;
    };

    /// Newton's form of mu: u = c_0 + (x - x_0)(c_1 + (x - x_1)(c_2 + ...)), x from -1 to 1. The ends come first, so that they are met.
    struct partner {
        T middle;
        T half;
        std::array<T, nodes> node{};
        std::array<T, nodes> newton{};
    };

    /// The span's parameter abreast of a point of the curve. The same for the same t, whatever part asks.
    T abreast(const T& t) const {
        if (t == span_.from) return T(0);
        if (t == span_.to) return T(1);
        int low = 0;
        while (low + 2 <= guides && guide_[index(low + 1)].t <= t) ++low;
        const pair_of_parameters& a = guide_[index(low)];
        const pair_of_parameters& b = guide_[index(low + 1)];
        const T guess = a.u + (b.u - a.u) * ((t - a.t) / (b.t - a.t));
        return span_.abreast(curve_.position(t), curve_.tangent(t), guess);
    }

    partner partner_between(const T& from, const T& to) const {
        partner mu{.middle = T(from + (to - from) / T(2)), .half = T((to - from) / T(2))};
        for (int i = 0; i < nodes; ++i) {
            const int turn = i == 0 ? 0 : (i == 1 ? nodes - 1 : i - 1);
            mu.node[index(i)] = turn == 0           ? T(-1)
                                : turn == nodes - 1 ? T(1)
                                                    : T(T(-1) * elementary::cos(T(T(turn) * pi<T>() / T(nodes - 1))));
            const T t = turn == 0 ? from : (turn == nodes - 1 ? to : T(mu.middle + mu.node[index(i)] * mu.half));
            mu.newton[index(i)] = abreast(t);
            for (int j = 0; j < i; ++j) {
                mu.newton[index(i)] = (mu.newton[index(i)] - mu.newton[index(j)]) / (mu.node[index(i)] - mu.node[index(j)]);
            }
        }
        return mu;
    }

    template <class J_or_interval>
    static J_or_interval parameter(const partner& mu, const J_or_interval& x) {
        using I = interval<T>;
        J_or_interval u = J_or_interval(I(mu.newton[nodes - 1]));
        for (int i = nodes - 1; i-- > 0;) {
            u = u * (x - J_or_interval(I(mu.node[index(i)]))) + J_or_interval(I(mu.newton[index(i)]));
        }
        return u;
    }

    struct expansion {
        point<J> on_curve; // C
        point<J> error;    // E
        J u;
    };

    expansion expanded(const partner& mu, const J& t) const {
        using I = interval<T>;
        const point<J> on_curve = exact_.position(t);
        const J u = parameter(mu, J((t - J(I(mu.middle))) / J(I(mu.half))));
        const J v = u + u - J(1);
        point<J> p{power_x_[index(span_.degree)], power_y_[index(span_.degree)]};
        for (int k = span_.degree; k-- > 0;) p = {p.x * v + J(power_x_[index(k)]), p.y * v + J(power_y_[index(k)])};
        return {on_curve, p - on_curve, u};
    }

    static point<J> derivative(const point<J>& p) { return {p.x.derivative(), p.y.derivative()}; }

    /// The part n of the error that is square to the curve, and nothing, so that it can pass for a vector.
    static point<J> square_to_curve(const expansion& e) {
        const point<J> velocity = derivative(e.on_curve);
        return {cross(velocity, e.error) / length(velocity), J(0)};
    }

    distance_bounds<T> bounds(const T& from, const T& to) const {
        using I = interval<T>;
        const partner mu = partner_between(from, to);
        const T w = half_width(from, to);
        // The curve is known a little farther than the part goes, for the steps along it.
        const T step = w / T(8);
        const expansion here = expanded(mu, J::linear(I(mu.middle), I(1)));
        expansion wide = expanded(mu, J::linear(I::around(mu.middle, T(w + step)), I(1)));
        wide = {narrowed(here.on_curve, wide.on_curve, T(w + step)), narrowed(here.error, wide.error, T(w + step)),
                narrowed(here.u, wide.u, T(w + step))};
        const point<J> normal_here = square_to_curve(here);
        const T whole = bound_of_length(here.error, wide.error, proof_coefficients - 1, w);
        const T normal = bound_of_length(normal_here, square_to_curve(wide), proof_coefficients - 2, w);

        const point<J> velocity = derivative(wide.on_curve);
        const I speed = length(point<I>{velocity.x[0], velocity.y[0]});
        const I turning = (velocity.x[0] * velocity.y[1] - velocity.y[0] * velocity.x[1]) / (speed * speed * speed);
        const T curvature = turning.greatest_magnitude();
        const T drift = length(point<T>{wide.error.x[1].greatest_magnitude(), wide.error.y[1].greatest_magnitude()});
        const T better = T((normal + curvature * square(whole)) * (T(1) + T(64) * epsilon<T>())); // twice what is needed
        const bool holds = is_finite(better) && whole < step * speed.lower() &&
                           drift + curvature * speed.greatest_magnitude() * whole < speed.lower() / T(2);
        T bound = holds && better < whole ? better : whole;

        // What neighbouring parts, which meet the same ends but for rounding, leave out of the span between them.
        const I first = parameter(mu, I(-1)) - I(abreast(from));
        const I last = parameter(mu, I(1)) - I(abreast(to));
        bound += T(T(2 * span_.degree) * longest_leg_ * (first.greatest_magnitude() + last.greatest_magnitude()));
        // A partner that turned back would leave more of it out: then nothing is proved.
        if (!(wide.u[1].lower() > T(0)) || !is_finite(bound)) bound = (std::numeric_limits<T>::max)();

        const T at_middle = magnitude(normal_here.x[0].centre()) - normal_here.x[0].radius() -
                            curvature * (square(here.error.x[0].greatest_magnitude()) + square(here.error.y[0].greatest_magnitude()));
        return {is_finite(at_middle) ? larger(at_middle, T(0)) : T(0), bound};
    }

    /// The span in powers of v = 2 u - 1: binomial(p, k) ((1 - v)/2)^(p - k) ((1 + v)/2)^k, summed over the control points.
    void make_powers() {
        const int p = span_.degree;
        int binomial = 1;
        for (int k = 0; k <= p; ++k) {
            std::array<int, highest_degree + 1> product{binomial};
            for (int factor = 0; factor < p; ++factor) {
                const int sign = factor < k ? 1 : -1;
                for (int j = factor + 1; j > 0; --j) product[index(j)] += sign * product[index(j - 1)];
            }
            for (int j = 0; j <= p; ++j) {
                const interval<T> share = interval<T>(product[index(j)]) / interval<T>(1 << p);
                power_x_[index(j)] = power_x_[index(j)] + share * interval<T>(span_.control[index(k)].x);
                power_y_[index(j)] = power_y_[index(j)] + share * interval<T>(span_.control[index(k)].y);
            }
            binomial = binomial * (p - k) / (k + 1);
            if (k < p) longest_leg_ = larger(longest_leg_, length(span_.control[index(k + 1)] - span_.control[index(k)]));
        }
    }

    span<T> span_;
    offset_segment<T> curve_;
    exact_curve<J> exact_;
    T longest_leg_{0};
    std::array<pair_of_parameters, guides + 1> guide_{};
    std::array<interval<T>, highest_degree + 1> power_x_{};
    std::array<interval<T>, highest_degree + 1> power_y_{};
    distance_bounds<T> result_{};
};

} // namespace rackwork::detail

#endif
