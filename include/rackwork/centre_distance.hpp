// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Centre distance and profile shift of a pair, both ways.
#ifndef RACKWORK_CENTRE_DISTANCE_HPP
#define RACKWORK_CENTRE_DISTANCE_HPP

#include "core/angle.hpp"
#include "core/elementary.hpp"
#include "core/error.hpp"
#include "core/scalar.hpp"
#include "gear_parameters.hpp"
#include "involute.hpp"

#include <limits>

namespace rackwork {

/// A value for each gear of a pair.
template <class V>
struct for_both {
    V pinion;
    V wheel;
};

/// What two gears that run together have in common, and their tooth numbers. The pinion is external; the wheel may be internal.
///
/// Wherever the formulas below have z_2, an internal wheel's counts as negative, and so do z_1 + z_2 and the centre distances in
/// them (ISO 21771); what the functions take and return is positive.
template <scalar T = double>
struct pair_proportions {
    /// Normal module, m_n. Greater than 0; must be given.
    T normal_module{0};
    /// Number of teeth of the pinion, z_1, and of the wheel, z_2. At least 1; must be given.
    int pinion_teeth = 0;
    int wheel_teeth = 0;
    /// Helix angle at the reference cylinder; its hand does not matter here.
    angle<T> helix_angle{};
    /// Normal pressure angle, alpha_n.
    angle<T> normal_pressure_angle = deg(T(20));
    /// External or internal wheel. An internal wheel has more teeth than its pinion.
    gear_kind wheel_kind = gear_kind::external;

    /// z_1 + z_2, with z_2 less than 0 for an internal wheel.
    constexpr T sum_of_teeth() const {
        return wheel_kind == gear_kind::internal ? T(T(pinion_teeth) - T(wheel_teeth)) : T(T(pinion_teeth) + T(wheel_teeth));
    }
};

/// What is impossible about the proportions of a pair, or nothing.
template <scalar T>
constexpr violation check(const pair_proportions<T>& p) {
    const auto one_gear = [&](int teeth) {
        return check_each(gear_parameters<T>{.normal_module = p.normal_module,
                                             .teeth = teeth,
                                             .helix_angle = p.helix_angle,
                                             // As low a rack as there is: only its pressure angle counts here.
                                             .rack = {.pressure_angle = p.normal_pressure_angle,
                                                      .addendum = epsilon<T>(),
                                                      .dedendum = epsilon<T>(),
                                                      .root_fillet_radius = T(0)}});
    };
    if (const violation v = first_of(one_gear(p.pinion_teeth), one_gear(p.wheel_teeth),
                                     check_at_most("wheel_kind", T(static_cast<int>(p.wheel_kind)), T(1)))) {
        return v;
    }
    if (p.wheel_kind == gear_kind::external) return {};
    return check_greater("teeth of the internal wheel", T(p.wheel_teeth), T(p.pinion_teeth));
}

/// Transverse pressure angle of a pair, tan alpha_t = tan alpha_n / cos beta. Throws geometry_error for impossible proportions.
template <scalar T>
constexpr angle<T> transverse_pressure_angle(const pair_proportions<T>& p) {
    require(check(p));
    return arctangent(T(tan(p.normal_pressure_angle) / cos(p.helix_angle)));
}

namespace detail {

/// Centre distance at which the base circles would touch, a_d cos alpha_t, by its shorter way m_n (z_1 + z_2) / (2 sqrt(cos^2 beta +
/// tan^2 alpha_n)), which loses less.
template <scalar T>
constexpr T distance_of_touching_base_circles(const pair_proportions<T>& p) {
    return T(p.normal_module * magnitude(p.sum_of_teeth()) /
             (T(2) * elementary::sqrt(T(square(cos(p.helix_angle)) + square(tan(p.normal_pressure_angle))))));
}

} // namespace detail

/// Reference centre distance, a_d = m_n (z_1 + z_2) / (2 cos beta). Throws geometry_error for impossible proportions.
template <scalar T>
constexpr T reference_centre_distance(const pair_proportions<T>& p) {
    require(check(p));
    return T(p.normal_module * magnitude(p.sum_of_teeth()) / (T(2) * cos(p.helix_angle)));
}

/// What is impossible about a sum of profile shift coefficients for a pair, or nothing: so negative a sum (of an internal pair: so great a
/// one) that teeth of that thickness never touch on both flanks.
template <scalar T>
constexpr violation check_shift_sum(const pair_proportions<T>& p, const T& profile_shift_sum) {
    if (const violation v = check(p)) return v;
    const T limit = T(-inv(transverse_pressure_angle(p)) * p.sum_of_teeth() / (T(2) * tan(p.normal_pressure_angle)));
    // Beyond 1/epsilon it would swallow the rack's own proportions.
    return first_of(check_magnitude("sum of profile shift coefficients", profile_shift_sum, T(T(1) / epsilon<T>())),
                    p.wheel_kind == gear_kind::internal ? check_less("sum of profile shift coefficients", profile_shift_sum, limit)
                                                        : check_greater("sum of profile shift coefficients", profile_shift_sum, limit));
}

/// What is impossible about a centre distance for a pair, or nothing: one not greater than the sum of the base radii (of an internal pair:
/// than their difference).
template <scalar T>
constexpr violation check_centre_distance(const pair_proportions<T>& p, const T& centre_distance) {
    if (const violation v = check(p)) return v;
    return first_of(check_greater("centre_distance", centre_distance, detail::distance_of_touching_base_circles(p)),
                    // Its square must not overflow.
                    check_at_most("centre_distance", centre_distance, T(elementary::sqrt(T((std::numeric_limits<T>::max)())) / T(16))));
}

namespace detail {

/// inv of the working pressure angle at which teeth with a sum of profile shift coefficients mesh without backlash.
template <scalar T>
constexpr T working_involute(const pair_proportions<T>& p, const T& profile_shift_sum) {
    require(check_shift_sum(p, profile_shift_sum));
    return T(inv(transverse_pressure_angle(p)) + T(2) * tan(p.normal_pressure_angle) / p.sum_of_teeth() * profile_shift_sum);
}

} // namespace detail

/// Working pressure angle at which teeth with a sum of profile shift coefficients x_1 + x_2 mesh without backlash:
/// inv alpha_wt = inv alpha_t + 2 (x_1 + x_2) tan alpha_n / (z_1 + z_2).
/// Throws geometry_error for impossible proportions and for a sum so negative that no such angle exists.
template <scalar T>
constexpr angle<T> working_pressure_angle(const pair_proportions<T>& p, const T& profile_shift_sum) {
    return inverse_inv(detail::working_involute(p, profile_shift_sum));
}

/// Centre distance at which teeth with a sum of profile shift coefficients mesh without backlash,
/// a = a_d cos alpha_t / cos alpha_wt. Throws as working_pressure_angle does.
template <scalar T>
constexpr T centre_distance(const pair_proportions<T>& p, const T& profile_shift_sum) {
    const T involute = detail::working_involute(p, profile_shift_sum);
    const T working = inverse_inv(involute).rad();
    const T cosine = cos(transverse_pressure_angle(p));
    // Exact for a sum of zero; beyond 1 rad the tangent, involute + working, keeps the places that the angle loses.
    if (working <= T(1)) return T(reference_centre_distance(p) * (cosine / elementary::cos(working)));
    return T(reference_centre_distance(p) * (cosine * elementary::sqrt(T(T(1) + square(T(involute + working))))));
}

/// Tangent of the working pressure angle at a centre distance: cos alpha_wt = a_d cos alpha_t / a.
/// Throws geometry_error as check_centre_distance says.
template <scalar T>
constexpr T tangent_of_working_pressure_angle(const pair_proportions<T>& p, const T& centre_distance) {
    require(check_centre_distance(p, centre_distance));
    const T base = detail::distance_of_touching_base_circles(p);
    return T(elementary::sqrt(T((centre_distance - base) * (centre_distance + base))) / base);
}

/// Largest error of a sum of profile shift coefficients for float, double and long double, in units in the last place of
/// (z_1 + z_2) tan alpha / (2 tan alpha_n), where alpha is the greater of alpha_wt and alpha_t: it is a difference of two involute functions,
/// and hangs on the last places of cos alpha_wt, of which one is tan alpha_wt places of inv alpha_wt.
inline constexpr int profile_shift_sum_error_bound = 8;

/// Sum of the profile shift coefficients with which a pair meshes without backlash at a centre distance,
/// x_1 + x_2 = (z_1 + z_2) (inv alpha_wt - inv alpha_t) / (2 tan alpha_n).
/// Throws geometry_error as check_centre_distance says.
/// Accuracy: profile_shift_sum_error_bound.
template <scalar T>
constexpr T profile_shift_sum(const pair_proportions<T>& p, const T& centre_distance) {
    const T working = inv_from_tangent(tangent_of_working_pressure_angle(p, centre_distance));
    const T tangent = tan(p.normal_pressure_angle);
    return T(p.sum_of_teeth() * (working - inv_from_tangent(T(tangent / cos(p.helix_angle)))) / (T(2) * tangent));
}

/// A customary split of a sum of profile shift coefficients of an external pair, u = z_2/z_1:
///   x_1 = lambda (u - 1)/(u + 1) + (x_1 + x_2)/(u + 1).
/// lambda between 0.5 and 0.75 suits speed-reducing pairs, 0 to 0.5 speed-increasing ones; it gives the smaller gear the larger shift.
/// Source: ISO/TR 4467, from memory. Throws geometry_error for impossible tooth numbers or numbers that are not finite.
template <scalar T>
constexpr for_both<T> split_profile_shift(const T& sum, int pinion_teeth, int wheel_teeth, const T& lambda = T(T(1) / T(2))) {
    require(first_of(check_finite("sum of profile shift coefficients", sum), check_finite("lambda", lambda),
                     check_at_least("pinion_teeth", T(pinion_teeth), T(1)),
                     check_at_least("wheel_teeth", T(wheel_teeth), T(1))));
    const T teeth = T(pinion_teeth) + T(wheel_teeth);
    const T pinion = (lambda * (T(wheel_teeth) - T(pinion_teeth)) + sum * T(pinion_teeth)) / teeth;
    const T wheel = sum - pinion;
    require(first_of(check_finite("profile shift coefficient of the pinion", pinion),
                     check_finite("profile shift coefficient of the wheel", wheel)));
    return {.pinion = pinion, .wheel = wheel};
}

/// Tip alteration coefficient that gives both gears back the bottom clearance of their basic rack,
/// k = (a - a_d)/m_n - (x_1 + x_2). For external pairs never positive at the backlash-free centre distance.
/// Throws geometry_error for impossible proportions or numbers that are not finite.
template <scalar T>
constexpr T tip_alteration_for_clearance(const pair_proportions<T>& p, const T& centre_distance, const T& profile_shift_sum) {
    require(first_of(check_finite("centre_distance", centre_distance),
                     check_finite("sum of profile shift coefficients", profile_shift_sum)));
    const T opening = (centre_distance - reference_centre_distance(p)) / p.normal_module;
    const T alteration = (p.wheel_kind == gear_kind::internal ? T(-opening) : opening) - profile_shift_sum;
    require(check_finite("tip_alteration", alteration));
    return alteration;
}

} // namespace rackwork

#endif
