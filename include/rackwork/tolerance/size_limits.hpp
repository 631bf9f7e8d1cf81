// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Lower and upper limit of a size.
#ifndef RACKWORK_TOLERANCE_SIZE_LIMITS_HPP
#define RACKWORK_TOLERANCE_SIZE_LIMITS_HPP

#include "../core/error.hpp"
#include "../core/scalar.hpp"

namespace rackwork {

/// The limits between which a size must lie, in the unit of the size.
template <scalar T = double>
struct size_limits {
    T lower{0};
    T upper{0};

    /// Their difference.
    constexpr T tolerance() const { return T(upper - lower); }
    /// Their mean.
    constexpr T middle() const { return T((lower + upper) / T(2)); }
    /// True for a size between the limits or on one of them.
    constexpr bool contains(const T& size) const { return lower <= size && size <= upper; }
};

/// What is impossible about limits, or nothing: they must be finite, the upper one not below the lower one.
template <scalar T>
constexpr violation check(const size_limits<T>& limits) {
    return first_of(check_finite("lower limit", limits.lower), check_at_least("upper limit", limits.upper, limits.lower));
}

/// The limits that two sizes are, in whichever order they come.
template <scalar T>
constexpr size_limits<T> limits_between(const T& one, const T& other) {
    return {.lower = smaller(one, other), .upper = larger(one, other)};
}

/// The narrowest limits that hold both: the extremes over several conditions.
template <scalar T>
constexpr size_limits<T> limits_around(const size_limits<T>& one, const size_limits<T>& other) {
    return {.lower = smaller(one.lower, other.lower), .upper = larger(one.upper, other.upper)};
}

} // namespace rackwork

#endif
