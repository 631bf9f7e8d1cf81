// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The proof of how far a polynomial span lies from the piece of an exact curve for which it stands.
#ifndef RACKWORK_CURVE_DETAIL_SPAN_DEVIATION_HPP
#define RACKWORK_CURVE_DETAIL_SPAN_DEVIATION_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "../offset_segment.hpp"
#include "interval.hpp"
#include "local_curve.hpp"
#include "majorant.hpp"
#include "natural_shares.hpp"
#include "span.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <vector>

namespace rackwork::detail {

/// How far one of the curves can be from the other.
///
/// Proof, part by part of the curve, which has a parameter x from -1 to 1 there. A polynomial u = mu(x), growing, maps it to the span's
/// parameter, so that every point C(x) has the partner P(mu(x)) and the other way round: no point is farther from the other curve than the
/// greatest length of E = P(mu(x)) - C(x). Which polynomial mu is does not matter for the truth of the bound, only for its sharpness; it is
/// made to meet the normals of the curve at some nodes.
///
/// The greatest length of E follows from its values at M points and from one derivative. The polynomial of degree n that meets E in
/// Chebyshev's points is off by no more than r = |E^(n+1)|/(n+1)!/2^n; the derivative is majorised. A polynomial of degree n is nowhere greater
/// than 1/cos(pi n/(2 M)) times its greatest value at M > n of Chebyshev's points (Ehlich and Zeller): with x = cos a it is a cosine polynomial
/// in a, which cannot fall from its maximum faster than cos(n a), and the nearest point is at most pi/(2 M) away. So
/// |E| <= (max |E(x_k)| + r)/cos(pi n/(2 M)) + r; what holds for E in each direction holds of its length.
template <scalar T>
class span_deviation {
public:
    /// The curve in standard position. `allowed`: the deviation below which it does not matter how much smaller it is.
    span_deviation(const span<T>& s, const offset_segment<T>& curve, const T& allowed) : span_(s), curve_(curve), allowed_(allowed) {
        make_powers();
        constexpr std::size_t most_parts = 256;
        const T rounding = T(512) * epsilon<T>() * larger(length(s.control[0]), length(s.control[index(s.degree)]));
        std::vector<part> parts{proven({.from = s.from, .to = s.to, .u_from = T(0), .u_to = T(1)})};
        const auto nearer = [](const part& a, const part& b) { return a.bound < b.bound; };
        while (parts.size() < most_parts && !(reached_ > allowed)) {
            const part worst = parts.front();
            // Halving makes r smaller, nothing else.
            const bool close = worst.bound <= reached_ * T(3) / T(2) + rounding &&
                               (worst.bound <= allowed || worst.bound <= reached_ * table().stretch * T(65) / T(64) + rounding);
            if (close) break;
            if (magnitude(T(worst.to - worst.from)) < magnitude(T(s.to - s.from)) / T(1 << 12)) break; // rounding is all that is left
            const T middle = local_curve<T>(curve, worst.from, worst.to).parameter(T(0));
            const T u = span_.abreast(curve.position(middle), curve.tangent(middle), T((worst.u_from + worst.u_to) / T(2)));
            if (!(worst.u_from < u && u < worst.u_to)) break; // the span turns back: nothing will be proved
            std::pop_heap(parts.begin(), parts.end(), nearer);
            parts.pop_back();
            // What is proved of a part holds for its halves.
            parts.push_back(proven({.from = worst.from, .to = middle, .u_from = worst.u_from, .u_to = u, .bound = worst.bound}));
            std::push_heap(parts.begin(), parts.end(), nearer);
            parts.push_back(proven({.from = middle, .to = worst.to, .u_from = u, .u_to = worst.u_to, .bound = worst.bound}));
            std::push_heap(parts.begin(), parts.end(), nearer);
        }
        bound_ = parts.front().bound;
    }

    /// No point of either curve is farther from the other one. (std::numeric_limits<T>::max)() where nothing could be proved.
    const T& bound() const { return bound_; }
    /// A distance across the span that was met on the way.
    const T& reached() const { return reached_; }

private:
    static constexpr int degree = 10; // n
    static constexpr int points = 24; // M
    static constexpr int nodes = 12;  // of mu
    using I = interval<T>;
    using bounds = majorant<T, degree + 2>;

    struct part {
        T from;
        T to;
        T u_from; // the span's parameter abreast of the ends; neighbouring parts have the same
        T u_to;
        T bound = (std::numeric_limits<T>::max)();
    };

    /// Chebyshev's polynomials in the nodes of mu and in the points, and their derivatives.
    struct chebyshev_table {
        std::array<T, nodes> node{};
        std::array<T, points> point{};
        std::array<std::array<T, nodes>, nodes> at_node{};
        std::array<std::array<T, nodes>, points> at_point{};
        std::array<bounds, nodes> derivatives{}; // T_j^(k)(1)/k!, the greatest from -1 to 1
        T stretch{1};

        chebyshev_table() {
            const auto cosine = [](int numerator, int denominator) {
                return T(elementary::cos(T(T(numerator) * pi<T>() / T(denominator))));
            };
            for (int k = 0; k < nodes; ++k) {
                node[index(k)] = cosine(k, nodes - 1);
                for (int j = 0; j < nodes; ++j) at_node[index(k)][index(j)] = cosine(j * k % (2 * (nodes - 1)), nodes - 1);
            }
            for (int k = 0; k < points; ++k) {
                point[index(k)] = cosine(2 * k + 1, 2 * points);
                for (int j = 0; j < nodes; ++j) {
                    at_point[index(k)][index(j)] = cosine(j * (2 * k + 1) % (4 * points), 2 * points);
                }
            }
            for (int j = 0; j < nodes; ++j) {
                T product = T(1);
                for (int k = 0; k < degree + 2; ++k) {
                    derivatives[index(j)][k] = product;
                    product *= T(j * j - k * k) / T((2 * k + 1) * (k + 1));
                }
            }
            stretch = T(T(1) / cosine(degree, 2 * points)) * (T(1) + T(64) * epsilon<T>());
        }
    };
    static const chebyshev_table& table() {
        static const chebyshev_table made;
        return made;
    }

    /// mu, as the factors of Chebyshev's polynomials.
    using partner = std::array<T, nodes>;

    partner partner_over(const part& p, const local_curve<T>& local) const {
        std::array<T, nodes> u{};
        u[0] = p.u_to;
        u[nodes - 1] = p.u_from;
        for (int k = 1; k + 1 < nodes; ++k) {
            const T t = local.parameter(table().node[index(k)]);
            // As far on as the nodes are.
            const T before = table().node[index(k - 1)];
            const T way = (before - table().node[index(k)]) / (before + T(1));
            const T guess = T(u[index(k - 1)] + (p.u_from - u[index(k - 1)]) * way);
            u[index(k)] = span_.abreast(curve_.position(t), curve_.tangent(t), guess);
        }
        partner mu{};
        for (int k = 0; k < nodes; ++k) {
            const T share = u[index(k)] / T(k == 0 || k == nodes - 1 ? 2 * (nodes - 1) : nodes - 1);
            for (int j = 0; j < nodes; ++j) {
                mu[index(j)] += T(j == 0 || j == nodes - 1 ? 1 : 2) * share * table().at_node[index(k)][index(j)];
            }
        }
        return mu;
    }

    part proven(part p) {
        const local_curve<T> local(curve_, p.from, p.to);
        const bounds of_curve = local.template bounds<degree + 2>();
        // Too long a part is not worth more: what the curve alone leaves is too much.
        if (!(of_curve[degree + 1] / T(1 << degree) < allowed_ / T(8))) return p;
        const partner mu = partner_over(p, local);

        // What a polynomial leaves, from the span in powers of v = 2 u - 1, |v| <= 1. mu grows: mu' >= c_1 - sum of k^2 |c_k|.
        T size = T(0); // of mu's factors
        T slope = mu[1];
        bounds v{};
        for (int j = 0; j < nodes; ++j) {
            const T factor = magnitude(mu[index(j)]);
            size += factor;
            if (j > 1) slope -= T(j * j) * factor;
            for (int k = 1; k < degree + 2; ++k) v[k] += T(2) * factor * table().derivatives[index(j)][k];
        }
        v[0] = T(1);
        const T rounded_power = T(512) * epsilon<T>() * reach_; // of a power: at most 10 epsilon times binomial(p, k) times the reach
        bounds of_span{};
        for (int k = span_.degree; k >= 0; --k) of_span = bounds::constant(T(length(power_[index(k)]) + rounded_power)) + v * of_span;
        const T rest = (of_span[degree + 1] + of_curve[degree + 1]) / T(1 << degree);
        if (!(slope > T(0) && rest < allowed_ / T(4))) return p;

        T greatest = T(0);
        for (int k = 0; k < points; ++k) {
            T u = T(0);
            for (int j = 0; j < nodes; ++j) u += mu[index(j)] * table().at_point[index(k)][index(j)];
            const auto here = span_.at(u);
            const point<I> curve = local.position(table().point[index(k)]);
            const point<I> error{I(here.position.x) - curve.x, I(here.position.y) - curve.y};
            greatest = larger(greatest, T(square(error.x.greatest_magnitude()) + square(error.y.greatest_magnitude())));
            // A partner far along the curve is no measure: the curve bends away from it.
            const point<T> off_curve{error.x.centre(), error.y.centre()};
            const T across = magnitude(cross(here.velocity, off_curve));
            if (magnitude(dot(here.velocity, off_curve)) > across) continue;
            reached_ = larger(reached_, T(across / length(here.velocity) - error.x.radius() - error.y.radius()));
        }
        greatest = elementary::sqrt(greatest);

        // Rounding: of the factors' sums and of the points x_k, which shift points of the span along it, here and at the part's ends; and of
        // the span's points, whose weights are sums and products of positive numbers.
        const T rounded = epsilon<T>() * (T(16 * nodes) * size * way_ + T(128) * size_);
        const T bound = T((greatest + rest + rounded) * table().stretch + rest + rounded) * (T(1) + T(4096) * epsilon<T>());
        if (is_finite(bound)) p.bound = smaller(bound, p.bound);
        return p;
    }

    /// The span from its start on, in powers of v = 2 u - 1: binomial(p, k) ((1 - v)/2)^(p - k) ((1 + v)/2)^k, summed over its
    /// control points.
    void make_powers() {
        const int p = span_.degree;
        int binomial = 1;
        for (int k = 0; k <= p; ++k) {
            const point<T> from_start = span_.control[index(k)] - span_.control[0];
            reach_ = larger(reach_, length(from_start));
            std::array<int, highest_degree + 1> product{binomial};
            for (int factor = 0; factor < p; ++factor) {
                const int sign = factor < k ? 1 : -1;
                for (int j = factor + 1; j > 0; --j) product[index(j)] += sign * product[index(j - 1)];
            }
            for (int j = 0; j <= p; ++j) {
                power_[index(j)] = power_[index(j)] + T(T(product[index(j)]) / T(1 << p)) * from_start;
            }
            binomial = binomial * (p - k) / (k + 1);
            size_ = larger(size_, length(span_.control[index(k)]));
            if (k < p) way_ = larger(way_, T(T(2 * p) * length(span_.control[index(k + 1)] - span_.control[index(k)])));
        }
    }

    const span<T>& span_;
    const offset_segment<T>& curve_;
    T allowed_;
    std::array<point<T>, highest_degree + 1> power_{};
    T size_{0};  // greatest distance of a control point from the axis
    T reach_{0}; // greatest distance of a control point from the first one
    T way_{0};   // not less than the span's speed, twice over
    T reached_{0};
    T bound_{0};
};

} // namespace rackwork::detail

#endif
