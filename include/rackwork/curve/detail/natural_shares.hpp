// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A piece of a curve shared out so that equal shares are about equally hard for a polynomial.
#ifndef RACKWORK_CURVE_DETAIL_NATURAL_SHARES_HPP
#define RACKWORK_CURVE_DETAIL_NATURAL_SHARES_HPP

#include "../../core/elementary.hpp"
#include "../../core/scalar.hpp"
#include "../offset_segment.hpp"
#include "exact_curve.hpp"

#include <array>
#include <cstddef>
#include <type_traits>
#include <variant>

namespace rackwork::detail {

constexpr std::size_t index(int i) { return static_cast<std::size_t>(i); }

/// A table of some weight's integral over the parameter of a piece of a curve, and its inverse, linear in between. Good for choosing
/// points; what is proved of them does not rest on it.
template <scalar T>
class integral_table {
public:
    template <class Weight>
    integral_table(const Weight& weight, const T& from, const T& to) : from_(from), to_(to) {
        // Simpson's rule.
        T before = weight(at(0));
        for (int i = 0; i < intervals; ++i) {
            const T here = at(i);
            const T next = at(i + 1);
            const T after = weight(next);
            const T sum = (before + T(4) * weight(T(here + (next - here) / T(2))) + after) / T(6);
            sums_[index(i + 1)] = sums_[index(i)] + magnitude(T(sum * (next - here)));
            before = after;
        }
    }

    const T& total() const { return sums_[intervals]; }

    /// The parameter up to which the given share of the total is reached; exact for 0 and 1.
    T parameter(const T& share) const {
        if (!(share > T(0))) return from_;
        if (!(share < T(1))) return to_;
        const T wanted = total() * share;
        int low = 0;
        int high = intervals;
        while (high - low > 1) {
            const int between = (low + high) / 2;
            (sums_[index(between)] < wanted ? low : high) = between;
        }
        const T step = sums_[index(high)] - sums_[index(low)];
        if (!(step > T(0))) return at(low);
        return T(at(low) + (at(high) - at(low)) * ((wanted - sums_[index(low)]) / step));
    }

private:
    static constexpr int intervals = 48;

    T at(int i) const { return i == intervals ? to_ : T(from_ + (to_ - from_) * (T(i) / T(intervals))); }

    T from_;
    T to_;
    std::array<T, intervals + 1> sums_{};
};

/// Shares by the curve's own parameter where that is a natural one, otherwise by the integral of the cube root of the curvature, which is
/// the arc length that affine maps, and so the form of polynomial curves, leave alone. They are smooth: a polynomial in the shares can follow
/// the curve the better for it.
template <scalar T>
class natural_shares {
public:
    explicit natural_shares(const offset_segment<T>& s) : middle_((s.from + s.to) / T(2)), half_((s.to - s.from) / T(2)) {
        std::visit(
            [&](const auto& c) {
                using Curve = std::remove_cvref_t<decltype(c)>;
                if constexpr (!has_natural_parameter<Curve>) integrate(s, c);
            },
            s.curve);
    }

    /// The parameter up to which the given share is reached; exact for 0 and 1.
    T parameter(const T& share) const {
        T x = T(2) * share - T(1);
        if (total_ > T(0) && magnitude(x) < T(1)) {
            const T wanted = total_ * share;
            for (int step = 0; step < 8; ++step) {
                const integral here = up_to(x);
                const T change = (here.sum - wanted) / here.weight;
                x = smaller(larger(T(x - change), T(-1)), T(1));
                if (!(square(change) > epsilon<T>())) break; // the next one is about the square of this one
            }
        }
        return x == T(-1) ? T(middle_ - half_) : (x == T(1) ? T(middle_ + half_) : T(middle_ + half_ * x));
    }

private:
    static constexpr int terms = 12;

    struct integral {
        T sum;
        T weight;
    };

    template <class Curve>
    void integrate(const offset_segment<T>& s, const Curve& c) {
        // The weight at Chebyshev's points gives its coefficients; those of its integral follow.
        const T size = length(s.end - s.start);
        for (int k = 0; k < terms; ++k) {
            const T x = elementary::cos(T(T(2 * k + 1) * pi<T>() / T(2 * terms)));
            const T t = T(middle_ + half_ * x);
            const T of_curve = c.curvature(t);
            const T bend = of_curve / (T(1) - s.distance * of_curve) * size;
            // Where the curve is straight it still has a length.
            const T weight = s.speed(t) * elementary::cbrt_estimate(elementary::sqrt(T(square(bend) + T(1) / T(4096))));
            if (!(weight > T(0) && is_finite(weight))) return;
            T before = T(1);
            T here = x;
            weight_[0] += weight / T(terms);
            for (int j = 1; j < terms; ++j) {
                weight_[index(j)] += T(2) * weight * here / T(terms);
                const T next = T(2) * x * here - before;
                before = here;
                here = next;
            }
        }
        T others = T(0);
        for (int j = 1; j < terms; ++j) others += magnitude(weight_[index(j)]);
        if (!(others < weight_[0])) return; // would not always grow
        total_ = up_to(T(1)).sum;
    }

    /// The integral from -1 to x, and the weight in x. With T_j the integral of T_j is (T_(j + 1)/(j + 1) - T_(j - 1)/(j - 1))/2.
    integral up_to(const T& x) const {
        T before = T(1);
        T here = x;
        integral result{T(weight_[0] * (x + T(1)) + weight_[1] * (square(x) - T(1)) / T(2)), T(weight_[0] + weight_[1] * x)};
        for (int j = 2; j < terms; ++j) {
            const T lower = here; // T_(j - 1)
            const T at = T(2) * x * here - before;
            const T upper = T(2) * x * at - here;
            // Both terms are (-1)^(j + 1) at -1.
            const T start = T(j % 2 == 0 ? -1 : 1);
            result.sum += weight_[index(j)] * ((upper - start) / T(j + 1) - (lower - start) / T(j - 1)) / T(2);
            result.weight += weight_[index(j)] * at;
            before = here;
            here = at;
        }
        return result;
    }

    T middle_;
    T half_;
    std::array<T, terms> weight_{};
    T total_{0}; // 0: shares by the parameter
};

} // namespace rackwork::detail

#endif
