// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Factors of ISO 6336 that are geometry alone: zone factor, contact ratio factors, helix factors.
#ifndef RACKWORK_ANALYSIS_PAIR_FACTORS_HPP
#define RACKWORK_ANALYSIS_PAIR_FACTORS_HPP

#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../mesh.hpp"

/// Geometry only: no load, no material, no safety. They are inputs of a rating, which is for ISO 6336, or the code in force, in
/// licensed hands.
namespace rackwork {

/// Zone factor, Z_H = sqrt(2 cos beta_b cos alpha_wt / (cos^2 alpha_t sin alpha_wt)): the flanks' relative curvature at the
/// pitch point, and the tangential force at the reference circle made a normal one. 2.495 for standard spur gears of 20
/// degrees.
/// Source: ISO 6336-2, from memory. Accuracy for double: 8 ulp.
template <scalar T>
constexpr T zone_factor(const mesh<T>& pair) {
    const T tangent = tan(pair.working_pressure_angle());
    const T cosine = cos(pair.pinion().transverse_pressure_angle());
    return elementary::sqrt(T(T(2) * cos(pair.pinion().base_helix_angle()) / (square(cosine) * tangent)));
}

/// Contact ratio factor for the flank, Z_eps: sqrt((4 - eps_alpha)/3 (1 - eps_beta) + eps_beta/eps_alpha), with eps_beta no
/// more than 1.
/// Throws geometry_error unless eps_alpha is in [1, 4), and for a helical pair without face width. Source: ISO 6336-2, from
/// memory. Accuracy for double: 8 ulp.
template <scalar T>
constexpr T contact_ratio_factor_for_flank(const mesh<T>& pair) {
    const T transverse = pair.transverse_contact_ratio();
    require(first_of(check_at_least("transverse_contact_ratio", transverse, T(1)),
                     check_less("transverse_contact_ratio", transverse, T(4))));
    const T overlap = smaller(pair.overlap_contact_ratio(), T(1));
    return elementary::sqrt(T((T(4) - transverse) / T(3) * (T(1) - overlap) + overlap / transverse));
}

/// Contact ratio factor for the root, Y_eps = 0.25 + 0.75/eps_alpha_n, eps_alpha_n = eps_alpha/cos^2 beta_b: it belongs to a
/// load at the tip (Y_Fa, Y_Sa). Throws geometry_error unless eps_alpha_n is at least 1. Source: ISO 6336-3:1996, method C, from memory.
/// Accuracy for double: 8 ulp.
template <scalar T>
constexpr T contact_ratio_factor_for_root(const mesh<T>& pair) {
    const T virtual_ratio = pair.transverse_contact_ratio() / square(cos(pair.pinion().base_helix_angle()));
    require(check_at_least("virtual contact ratio", virtual_ratio, T(1)));
    return T(T(1) / T(4) + T(3) / (T(4) * virtual_ratio));
}

/// Helix angle factor for the flank, Z_beta = 1/sqrt(cos beta). Source: ISO 6336-2 as corrected in 2008, from memory; editions
/// before that print sqrt(cos beta). Accuracy for double: 4 ulp.
template <scalar T>
constexpr T helix_factor_for_flank(const mesh<T>& pair) {
    return T(T(1) / elementary::sqrt(cos(pair.pinion().helix_angle())));
}

/// Helix angle factor for the root, Y_beta = 1 - eps_beta |beta|/120 degrees, with eps_beta no more than 1 and beta no more
/// than 30 degrees.
/// Throws geometry_error for a helical pair without face width. Source: ISO 6336-3:2006, from memory. Accuracy for double: 4 ulp.
template <scalar T>
constexpr T helix_factor_for_root(const mesh<T>& pair) {
    const T overlap = smaller(pair.overlap_contact_ratio(), T(1));
    const T helix = smaller(magnitude(pair.pinion().helix_angle().rad()), T(pi<T>() / T(6)));
    return T(T(1) - overlap * helix / (T(2) * pi<T>() / T(3)));
}

} // namespace rackwork

#endif
