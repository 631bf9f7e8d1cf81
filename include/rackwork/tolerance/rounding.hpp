// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How the standards round their tolerances.
#ifndef RACKWORK_TOLERANCE_ROUNDING_HPP
#define RACKWORK_TOLERANCE_ROUNDING_HPP

#include "../core/error.hpp"
#include "../core/scalar.hpp"

namespace rackwork {

namespace detail {

/// The nearest multiple of 1/steps; ties go up, and rounding errors of the value do not decide them.
template <scalar T>
constexpr T nearest_step(const T& value, int steps) {
    const T scaled = value * T(steps);
    return T(T(whole_part(T(scaled + T(1) / T(2) + T(64) * epsilon<T>() * scaled))) / T(steps));
}

/// No tolerance is negative, or longer than a metre.
template <scalar T>
constexpr void require_tolerance(const T& micrometres) {
    require(first_of(check_at_least("tolerance (um)", micrometres, T(0)), check_at_most("tolerance (um)", micrometres, T(1000000))));
}

} // namespace detail

/// A tolerance rounded as ISO 1328-1:2013 does it [micrometres]: above 10 to whole ones, from 5 to 10 to halves, below 5 to tenths.
/// Ties go up. Source: from memory. Throws geometry_error unless the tolerance is in [0, 1000000].
template <scalar T>
constexpr T rounded_flank_tolerance(const T& micrometres) {
    detail::require_tolerance(micrometres);
    return detail::nearest_step(micrometres, micrometres > T(10) ? 1 : micrometres < T(5) ? 10 : 2);
}

/// A tolerance rounded as ISO 1328-2:1997 does it [micrometres]: above 10 to whole ones, otherwise to halves. Ties go up.
/// Source: from memory. Throws geometry_error unless the tolerance is in [0, 1000000].
template <scalar T>
constexpr T rounded_radial_composite_tolerance(const T& micrometres) {
    detail::require_tolerance(micrometres);
    return detail::nearest_step(micrometres, micrometres > T(10) ? 1 : 2);
}

} // namespace rackwork

#endif
