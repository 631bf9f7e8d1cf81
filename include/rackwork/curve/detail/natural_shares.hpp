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
/// the arc length that affine maps, and so the form of polynomial curves, leave alone.
template <scalar T>
class natural_shares {
public:
    natural_shares(const offset_segment<T>& s, const T& from, const T& to) : table_(weight_of(s, from, to), from, to) {}

    T parameter(const T& share) const { return table_.parameter(share); }

private:
    static auto weight_of(const offset_segment<T>& s, const T& from, const T& to) {
        const bool natural = std::visit(
            [](const auto& c) { return has_natural_parameter<std::remove_cvref_t<decltype(c)>>; }, s.curve);
        const T size = length(s.position(to) - s.position(from));
        return [&s, natural, size](const T& t) {
            if (natural) return T(1);
            // Where the curve is straight it still has a length.
            return T(s.speed(t) * elementary::cbrt_estimate(T(magnitude(s.curvature(t)) * size + T(1) / T(64))));
        };
    }

    integral_table<T> table_;
};

} // namespace rackwork::detail

#endif
