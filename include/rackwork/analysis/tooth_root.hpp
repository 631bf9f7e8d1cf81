// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The critical section of a tooth root on its exact fillet, and the form factors that are built from it.
#ifndef RACKWORK_ANALYSIS_TOOTH_ROOT_HPP
#define RACKWORK_ANALYSIS_TOOTH_ROOT_HPP

#include "../centre_distance.hpp"
#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../gear_parameters.hpp"
#include "../mesh.hpp"
#include "virtual_spur_gear.hpp"

#include <cmath>

/// Geometry only: there is no stress, no material, no load and no safety in these headers. Rating a gear is for ISO 6336, or
/// the code that is in force where it will run, in the hands of those who are licensed to it; the numbers here are inputs of
/// such a rating.
namespace rackwork {

/// The root section in which a tooth is supposed to break, and the load's arm on it. Lengths in the module's unit, normal
/// section.
template <scalar T>
struct tooth_root {
    T normal_module;
    angle<T> normal_pressure_angle;
    /// Chord of the critical section, s_Fn.
    T chord;
    /// Radius of curvature of the fillet where the section begins, rho_F.
    T fillet_radius;
    /// Bending arm: from the section to where the load's line crosses the tooth's centre line; h_Fa for a load at the tip, h_Fe
    /// for one at the outer point of single contact.
    T arm;
    /// Angle between the load and the perpendicular to the tooth's centre line, alpha_Fan or alpha_Fen.
    angle<T> load_angle;

    /// Form factor, Y_Fa (load at the tip) or Y_F: 6 (h_F/m_n) cos alpha_F / ((s_Fn/m_n)^2 cos alpha_n).
    /// Source: ISO 6336-3:2006, from memory, without the factor f_epsilon for the load's share that the edition of 2019
    /// multiplies it with.
    constexpr T form_factor() const {
        return T(T(6) * arm * normal_module * cos(load_angle) / (square(chord) * cos(normal_pressure_angle)));
    }
    /// Notch parameter, q_s = s_Fn / (2 rho_F).
    constexpr T notch_parameter() const { return T(chord / (T(2) * fillet_radius)); }
    /// Stress correction factor, Y_Sa or Y_S: (1.2 + 0.13 L) q_s^(1/(1.21 + 2.3/L)), L = s_Fn/h_F. The formula is fitted for
    /// q_s from 1 to 8. Source: ISO 6336-3, from memory. T needs pow, found by argument-dependent look-up.
    T stress_correction_factor() const {
        using std::pow;
        const T slenderness = chord / arm;
        const T exponent = T(1) / (T(121) / T(100) + T(23) / (T(10) * slenderness));
        return T((T(6) / T(5) + T(13) * slenderness / T(100)) * pow(notch_parameter(), exponent));
    }
};

namespace detail {

/// Parameter of the fillet at which its tangent leans by an angle (radians) towards the tooth's centre line. The inclination
/// falls from the root land outward; where a large shift makes it rise again further out, the first place counts.
template <scalar T>
constexpr T fillet_parameter_at_inclination(const virtual_spur_gear<T>& g, const T& inclination) {
    const rack_trochoid<T>& fillet = g.fillet();
    // The inclination turns back where cos^2 phi = -h_c/r.
    T last = g.last_parameter();
    const T lift = -fillet.centre_depth / fillet.rolling_radius;
    if (lift > T(0)) {
        require(check_less("height of the tool's tip rounding over the reference circle, over its radius", lift, T(1)));
        last = smaller(last, elementary::atan(elementary::sqrt(T(T(1) / lift - T(1)))));
    }
    const auto excess = [&](const T& phi) { return T(g.on_fillet(phi).inclination - inclination); };
    const auto degrees = [](const T& radians) { return rad(radians).deg(); };
    const T needed = degrees(inclination);
    require(first_of(
        check_at_least("inclination of the fillet at the root land (deg)", degrees(g.on_fillet(T(0)).inclination),
                       needed),
        check_at_most("least inclination of the fillet (deg)", degrees(g.on_fillet(last).inclination), needed)));
    const T found = bracketed_root(excess, T(0), last);
    // A step of Newton's carries derivatives through the search.
    const T slope = g.on_fillet(found).inclination_rate;
    return slope == T(0) ? found : T(found - excess(found) / slope);
}

/// The root section at a tangent, under a load that touches the involute at a roll angle.
template <scalar T>
constexpr tooth_root<T> root_of(const virtual_spur_gear<T>& g, const T& roll, const angle<T>& tangent_angle) {
    using place = typename virtual_spur_gear<T>::place;
    const T phi = fillet_parameter_at_inclination(g, tangent_angle.rad());
    const place root = g.on_fillet(phi);
    const T load_angle = roll - g.base_half_angle();
    require(first_of(check_greater("chord of the critical section", root.half_chord, T(0)),
                     check_magnitude("load angle (deg)", rad(load_angle).deg(), T(90))));
    return {.normal_module = g.normal_module(),
            .normal_pressure_angle = g.normal_pressure_angle(),
            .chord = T(T(2) * root.half_chord),
            .fillet_radius = magnitude(T(root.speed / root.inclination_rate)),
            .arm = T(g.base_diameter() / (T(2) * elementary::cos(load_angle)) - root.height),
            .load_angle = rad(load_angle)};
}

/// Roll angle of the load at the outer point of single contact: (eps_alpha_n - 1) base pitches below the active tip, but never
/// above it.
template <scalar T>
constexpr T roll_of_single_contact(const virtual_spur_gear<T>& g, const T& active_tip_diameter,
                                   const T& transverse_contact_ratio) {
    const T contact_ratio = transverse_contact_ratio / g.squared_cos_base_helix();
    const T below_tip = larger(T((contact_ratio - T(1)) * g.base_pitch()), T(0));
    return T(g.roll_angle(active_tip_diameter) - below_tip / (g.base_diameter() / T(2)));
}

} // namespace detail

/// The angle between tooth centre line and fillet tangent that marks the critical section: 30 degrees on external, 60 degrees on internal
/// gears (ISO 6336-3).
template <scalar T>
constexpr angle<T> critical_tangent_angle(gear_kind kind = gear_kind::external) {
    return rad(T(pi<T>() / T(kind == gear_kind::internal ? 3 : 6)));
}

/// Critical section at the 30 degree tangent of the exact fillet, with the load at the tip: s_Fn, rho_F, h_Fa, alpha_Fan, for
/// Y_Fa and Y_Sa. Helical gears through their virtual spur gear, as ISO 6336-3 does.
///
/// Throws geometry_error where no tangent of that angle touches the fillet: at pressure angles beyond it (the fillet then leans
/// more all the way up to the flank), for one or two teeth (less, already at the root land), and for shifts so large that the
/// fillet turns outward again.
/// Accuracy for double: lengths 4 ulp of the virtual reference diameter.
template <scalar T>
constexpr tooth_root<T> root_under_tip_load(const gear<T>& g,
                                            const angle<T>& tangent_angle = critical_tangent_angle<T>()) {
    const virtual_spur_gear<T> v(g);
    return detail::root_of(v, v.roll_angle(v.tip_diameter()), tangent_angle);
}

/// The same with the load at the outer point of single contact, for Y_F and Y_S: the pinion's point D, the wheel's point B. It
/// lies (eps_alpha_n - 1) base pitches p_bn below the active tip of the virtual spur gear, with eps_alpha_n = eps_alpha / cos^2
/// beta_b; for spur gears these are D and B of path_of_contact. With a contact ratio below 1 the load is at the active tip.
///
/// Active tip and contact ratio are the real ones, so contact that is lost to undercut counts as lost.
/// Throws geometry_error as root_under_tip_load does.
template <scalar T>
constexpr for_both<tooth_root<T>>
root_under_single_contact_load(const mesh<T>& pair, const angle<T>& tangent_angle = critical_tangent_angle<T>()) {
    const T contact_ratio = pair.transverse_contact_ratio();
    const for_both<T> active_tip = pair.active_tip_diameter();
    const auto one_gear = [&](const gear<T>& g, const T& tip) {
        const virtual_spur_gear<T> v(g);
        const T virtual_tip = v.reference_diameter() + (tip - g.reference_diameter());
        return detail::root_of(v, detail::roll_of_single_contact(v, virtual_tip, contact_ratio), tangent_angle);
    };
    return {.pinion = one_gear(pair.pinion(), active_tip.pinion), .wheel = one_gear(pair.wheel(), active_tip.wheel)};
}

} // namespace rackwork

#endif
