// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A pair whose profile shifts are still to be chosen.
#ifndef RACKWORK_DESIGN_SHIFTABLE_PAIR_HPP
#define RACKWORK_DESIGN_SHIFTABLE_PAIR_HPP

#include "../basic_rack.hpp"
#include "../centre_distance.hpp"
#include "../core/angle.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../gear_parameters.hpp"
#include "../mesh.hpp"
#include "../undercut_limits.hpp"

#include <limits>

namespace rackwork {

/// From a least to a greatest value, both included.
template <class V>
struct closed_range {
    V least;
    V greatest;

    constexpr bool contains(const V& value) const { return !(value < least) && !(greatest < value); }
};

/// What is done to the tips of a pair whose profile shifts do not sum to nothing.
enum class tip_rule : unsigned char {
    clearance, ///< both are shortened until the bottom clearance is the basic rack's: k = (a - a_d)/m_n - (x_1 + x_2); internal pairs
               ///< have no less than that clearance with whole tips, which then stay whole
    full_depth ///< nothing: k = 0, and the bottom clearance gives way
};

/// A pair of which everything is known but the profile shifts; it is to run without backlash (thickness allowances
/// come later and do not count here). An internal wheel is cut by its customary cutter.
template <scalar T = double>
struct shiftable_pair {
    /// Normal module, m_n.
    T normal_module{1};
    /// Numbers of teeth. Must be given.
    int pinion_teeth = 0;
    int wheel_teeth = 0;
    /// Helix angle of the pinion at the reference cylinder; an external wheel has the opposite hand, an internal one the same.
    angle<T> helix_angle{};
    /// The basic rack that generates both gears.
    basic_rack<T> rack = iso_53_a;
    /// What is done to the tips.
    tip_rule tips = tip_rule::clearance;
    /// Face width of both gears, b; 0 where it is not stated.
    T face_width{0};
    /// External or internal wheel. An internal wheel has more teeth than its pinion, and its shift has the sign that thickens its teeth.
    gear_kind wheel_kind = gear_kind::external;

    constexpr bool is_internal() const { return wheel_kind == gear_kind::internal; }

    /// What the two gears have in common, as centre_distance.hpp takes it.
    constexpr pair_proportions<T> proportions() const {
        return {.normal_module = normal_module,
                .pinion_teeth = pinion_teeth,
                .wheel_teeth = wheel_teeth,
                .helix_angle = helix_angle,
                .normal_pressure_angle = rack.pressure_angle,
                .wheel_kind = wheel_kind};
    }

    /// Tip alteration coefficient of both gears, k, at a sum of profile shift coefficients. Throws geometry_error for a sum with
    /// which the pair cannot run.
    constexpr T tip_alteration(const T& profile_shift_sum) const {
        if (tips == tip_rule::full_depth || is_internal()) return T(0);
        const pair_proportions<T> p = proportions();
        return tip_alteration_for_clearance(p, centre_distance(p, profile_shift_sum), profile_shift_sum);
    }

    /// The parameters of the two gears with their shifts.
    constexpr for_both<gear_parameters<T>> parameters(const for_both<T>& profile_shift) const {
        gear_parameters<T> pinion{.normal_module = normal_module,
                                  .teeth = pinion_teeth,
                                  .helix_angle = helix_angle,
                                  .rack = rack,
                                  .profile_shift = profile_shift.pinion,
                                  .tip_alteration = tip_alteration(T(profile_shift.pinion + profile_shift.wheel)),
                                  .face_width = face_width};
        gear_parameters<T> wheel = pinion;
        wheel.teeth = wheel_teeth;
        wheel.kind = wheel_kind;
        if (!is_internal()) wheel.helix_angle = -helix_angle;
        wheel.profile_shift = profile_shift.wheel;
        return {.pinion = pinion, .wheel = wheel};
    }

    /// The pair with its shifts, at the centre distance that they make. Throws geometry_error when it cannot be made.
    constexpr mesh<T> with(const for_both<T>& profile_shift) const {
        const for_both<gear_parameters<T>> p = parameters(profile_shift);
        return mesh<T>(gear<T>(p.pinion), gear<T>(p.wheel));
    }

    /// Least profile shift coefficients with which neither gear is undercut, one by one; for an internal wheel, which no rack cuts, the
    /// least number there is. Throws as check(rack) and the teeth say.
    constexpr for_both<T> least_profile_shift_without_undercut() const {
        return {.pinion = rackwork::least_profile_shift_without_undercut(rack, pinion_teeth, helix_angle),
                .wheel = is_internal() ? T(-(std::numeric_limits<T>::max)())
                                       : rackwork::least_profile_shift_without_undercut(rack, wheel_teeth, helix_angle)};
    }
};

/// What is impossible about a pair whatever its shifts, or nothing.
template <scalar T>
constexpr violation check(const shiftable_pair<T>& p) {
    return first_of(check(p.rack), check(p.proportions()), check_at_least("face_width", p.face_width, T(0)));
}

} // namespace rackwork

#endif
