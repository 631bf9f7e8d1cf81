// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The least profile shift and the least number of teeth that a rack-type tool does not undercut.
#ifndef RACKWORK_UNDERCUT_LIMITS_HPP
#define RACKWORK_UNDERCUT_LIMITS_HPP

#include "basic_rack.hpp"
#include "core/angle.hpp"
#include "core/error.hpp"
#include "core/scalar.hpp"
#include "gear_parameters.hpp"

namespace rackwork {

/// Least generating profile shift coefficient at which a rack-type tool does not undercut the teeth,
/// x_E,min = h_FfP* - z sin^2 alpha_t / (2 cos beta). Throws geometry_error for an impossible rack, tooth number or helix.
template <scalar T>
constexpr T least_profile_shift_without_undercut(const basic_rack<T>& rack, int teeth, const angle<T>& helix_angle = {}) {
    require(check_each(gear_parameters<T>{.normal_module = T(1), .teeth = teeth, .helix_angle = helix_angle, .rack = rack}));
    // sin^2 alpha_t = tan^2 alpha_n / (cos^2 beta + tan^2 alpha_n)
    const T squared_tangent = square(tan(rack.pressure_angle));
    const T cosine = cos(helix_angle);
    return T(rack.form_dedendum() - T(teeth) * (squared_tangent / ((square(cosine) + squared_tangent) * T(2) * cosine)));
}

/// Least number of teeth that a rack-type tool does not undercut, as the exact (broken) number of the formula
/// z_min = 2 cos beta (h_FfP* - x_E) / sin^2 alpha_t.
template <scalar T>
constexpr T least_teeth_without_undercut(const basic_rack<T>& rack, const T& profile_shift = T(0),
                                         const angle<T>& helix_angle = {}) {
    require(first_of(check_each(gear_parameters<T>{.normal_module = T(1), .teeth = 1, .helix_angle = helix_angle, .rack = rack}),
                     check_finite("profile_shift", profile_shift)));
    const T squared_tangent = square(tan(rack.pressure_angle));
    const T cosine = cos(helix_angle);
    const T teeth = (rack.form_dedendum() - profile_shift) * T(2) * cosine * (square(cosine) + squared_tangent) / squared_tangent;
    require(check_finite("least number of teeth", teeth));
    return teeth;
}

} // namespace rackwork

#endif
