// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// For which gears a measure is: external or internal, spur or helical. And what all measures make of a gear's angles.
#ifndef RACKWORK_MEASURE_KIND_CHECK_HPP
#define RACKWORK_MEASURE_KIND_CHECK_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"

namespace rackwork::detail {

/// A violation unless the gear is external. The requirement is the rest of a sentence that begins "kind is ... but".
template <scalar T>
constexpr violation check_external(const gear<T>& g, const char* requirement) {
    if (!g.is_internal()) return {};
    return {"kind", static_cast<double>(static_cast<int>(g.kind())), requirement, 0, false};
}

/// A violation unless the gear is internal.
template <scalar T>
constexpr violation check_internal(const gear<T>& g, const char* requirement) {
    if (g.is_internal()) return {};
    return {"kind", static_cast<double>(static_cast<int>(g.kind())), requirement, 0, false};
}

/// A violation if the gear is internal and helical.
template <scalar T>
constexpr violation check_spur_if_internal(const gear<T>& g, const char* requirement) {
    if (!g.is_internal() || g.helix_angle().rad() == T(0)) return {};
    return {"helix_angle (deg)", static_cast<double>(g.helix_angle().deg()), requirement, 0, false};
}

/// cos alpha_n, from the tangent that the gear keeps.
template <scalar T>
constexpr T cosine_of_normal_pressure_angle(const gear<T>& g) {
    return T(T(1) / elementary::sqrt(T(T(1) + square(g.tangent_of_normal_pressure_angle()))));
}

/// 1 / cos beta_b.
template <scalar T>
constexpr T secant_of_base_helix_angle(const gear<T>& g) {
    return T(elementary::sqrt(T(T(1) + square(g.tangent_of_base_helix_angle()))));
}

/// Half the space's angle at the base circle, radians. Of an external gear negative when the teeth would overlap down there.
template <scalar T>
constexpr T base_space_half_angle(const gear<T>& g) {
    return T(pi<T>() / T(g.teeth()) - g.base_half_angle());
}

} // namespace rackwork::detail

#endif
