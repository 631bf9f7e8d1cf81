// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How much backlash a pair should have, and how little and how much it can come to have.
#ifndef RACKWORK_TOLERANCE_BACKLASH_HPP
#define RACKWORK_TOLERANCE_BACKLASH_HPP

#include "../centre_distance.hpp"
#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../finding.hpp"
#include "../gear.hpp"
#include "../involute.hpp"
#include "../mesh.hpp"
#include "size_limits.hpp"
#include "thickness.hpp"

#include <limits>
#include <type_traits>

namespace rackwork {

/// Recommended minimum normal backlash of steel gears in a cast iron or steel housing [MILLIMETRES, and so are both arguments]:
///   j_bn,min = 2/3 (0.06 + 0.0005 a + 0.03 m_n).
/// Meant for machinery of ordinary accuracy with pitch line speeds below 15 m/s; tabulated, rounded up to hundredths, for modules 1.5 to 18 mm
/// and centre distances 50 to 1600 mm. Source: ISO/TR 10064-2, from memory.
/// Throws geometry_error unless both lengths are greater than 0.
template <scalar T>
constexpr T recommended_minimum_backlash_in_millimetres(const T& centre_distance_in_millimetres,
                                                        const std::type_identity_t<T>& normal_module_in_millimetres) {
    require(first_of(check_greater("centre_distance (mm)", centre_distance_in_millimetres, T(0)),
                     check_greater("normal_module (mm)", normal_module_in_millimetres, T(0))));
    const T sum = T(6) / T(100) + centre_distance_in_millimetres / T(2000) + normal_module_in_millimetres * T(3) / T(100);
    require(check_finite("recommended backlash (mm)", sum));
    return T(sum * T(2) / T(3));
}

/// Sum of the thickness allowances of pinion and wheel, E_sn1 + E_sn2, that gives a pair a normal backlash at its centre distance. Exact:
/// in the normal section a thinning by E opens E cos alpha_n, whatever the centre distance. How the sum is shared is the designer's choice.
/// Throws geometry_error unless the backlash is finite.
template <scalar T>
constexpr T allowance_sum_for_backlash(const mesh<T>& pair, const std::type_identity_t<T>& normal_backlash) {
    require(check_finite("normal_backlash", normal_backlash));
    const T present = pair.pinion().parameters().thickness_allowance + pair.wheel().parameters().thickness_allowance;
    const T tangent = pair.pinion().tangent_of_normal_pressure_angle();
    return T(present - (normal_backlash - pair.normal_backlash()) * elementary::sqrt(T(T(1) + square(tangent))));
}

/// Linear expansion per kelvin of materials that gears and housings are made of. Common practice, near 20 degrees Celsius: use the values of
/// the very material where it matters.
inline constexpr double expansion_of_steel = 11.5e-6;
inline constexpr double expansion_of_cast_iron = 10.5e-6;
inline constexpr double expansion_of_bronze = 17.5e-6;
inline constexpr double expansion_of_aluminium = 23.5e-6;
inline constexpr double expansion_of_polyoxymethylene = 110e-6;

/// A value for each of the three bodies that carry a pair.
template <class V>
struct for_bodies {
    V pinion;
    V wheel;
    V housing;
};

/// Everything that decides how much backlash a pair comes to have.
template <scalar T = double>
struct backlash_conditions {
    /// Limits of the tooth thickness of either gear.
    for_both<thickness_allowances<T>> allowances{};
    /// Limits of the centre distance, in the module's unit, at the temperature of reference. Must be given.
    size_limits<T> centre_distance{};
    /// Linear expansion per kelvin.
    for_bodies<T> expansion{T(expansion_of_steel), T(expansion_of_steel), T(expansion_of_steel)};
    /// Temperatures, in degrees Celsius.
    for_bodies<T> temperature{T(20), T(20), T(20)};
    /// Temperature at which all sizes are stated, in degrees Celsius.
    T reference_temperature{20};
};

/// Backlash of a pair. Negative when the teeth would have to overlap.
template <scalar T>
struct backlash {
    /// Normal backlash, j_bn [length].
    T normal;
    /// Circumferential backlash on the working pitch circles, j_wt [length].
    T circumferential;
    /// Angular backlash: how far one gear can be turned while the other stands.
    for_both<angle<T>> angular;
};

/// Least and greatest backlash.
template <scalar T>
struct backlash_range {
    backlash<T> least;
    backlash<T> greatest;
};

namespace detail {

/// By how much lengths grow: 1 + expansion (temperature - reference).
template <scalar T>
constexpr T growth(const char* quantity, const T& expansion, const T& temperature, const T& reference) {
    const T factor = T(1) + expansion * (temperature - reference);
    require(first_of(check_finite(quantity, expansion), check_finite("temperature", temperature), check_finite("temperature", reference),
                     check_greater("growth of a length by temperature", factor, T(0)),
                     check_less("growth of a length by temperature", factor, T(2))));
    return factor;
}

/// Backlash of two gears that have each grown by a factor, at a centre distance. With base radii R and the half angles psi of the teeth on
/// the base circles, along the line of action: j_bt = p_bt + 2 ((R_1 + sigma R_2) inv alpha_wt - R_1 psi_1 - R_2 psi_2), p_bt the mean of both.
template <scalar T>
constexpr backlash<T> backlash_of_grown(const gear<T>& pinion, const gear<T>& wheel, const for_both<T>& grown, const T& centre_distance) {
    const T pinion_base = pinion.base_diameter() / T(2) * grown.pinion;
    const T wheel_base = wheel.base_diameter() / T(2) * grown.wheel;
    const T base_sum = pinion_base + wheel.kind_sign() * wheel_base;
    const T base = magnitude(base_sum);
    const T greatest = T(elementary::sqrt(T((std::numeric_limits<T>::max)())) / T(16)); // its square must not overflow
    require(first_of(check_greater("centre_distance", centre_distance, base), check_at_most("centre_distance", centre_distance, greatest)));
    const T tangent = elementary::sqrt(T((centre_distance - base) * (centre_distance + base))) / base;
    const T pitch = pi<T>() * (pinion_base / T(pinion.teeth()) + wheel_base / T(wheel.teeth()));
    const T transverse = pitch + T(2) * (base_sum * inv_from_tangent(tangent) - pinion_base * pinion.base_half_angle() -
                                         wheel_base * wheel.base_half_angle());
    const T squared_base_helix = square(pinion.tangent_of_base_helix_angle());
    return {.normal = T(transverse / elementary::sqrt(T(T(1) + squared_base_helix))),
            .circumferential = T(transverse * elementary::sqrt(T(T(1) + square(tangent)))),
            .angular = {.pinion = rad(T(transverse / pinion_base)), .wheel = rad(T(transverse / wheel_base))}};
}

} // namespace detail

/// What is impossible about conditions of backlash, or nothing.
template <scalar T>
constexpr violation check(const backlash_conditions<T>& conditions) {
    return first_of(check(conditions.allowances.pinion), check(conditions.allowances.wheel), check(conditions.centre_distance),
                    check_greater("lower limit of the centre distance", conditions.centre_distance.lower, T(0)));
}

/// Least and greatest backlash of two gears within the limits of their tooth thickness and centre distance, at stated temperatures. The
/// gears' own thickness allowances do not matter: the limits take their place.
///
/// Model: each gear has one temperature and grows evenly about its axis, so that it stays an involute gear of the same tooth number and
/// angles with a greater module; the centre distance grows with the housing. Gears of unequal growth have unequal base pitches: the mean of
/// the two is taken; a tooth of the gear with the smaller pitch has half their difference more, one of the other gear as much less.
/// Neglected: form and pitch deviations, runout, bearing play, shafts out of parallel, bending, moisture, and temperatures uneven within
/// a body. For several states of temperature take the extremes of each one's range.
/// Accuracy for double: 8 ulp of the greater working pitch diameter, of which it is a small difference.
/// Throws geometry_error when the gears do not fit, for impossible conditions, and where the base circles grow beyond the centre distance.
template <scalar T>
constexpr backlash_range<T> backlash_between_limits(const gear<T>& pinion, const gear<T>& wheel, const backlash_conditions<T>& conditions) {
    require(check(conditions));
    const auto& c = conditions;
    require(mesh<T>::check(pinion, wheel, c.centre_distance.middle()));
    const T at = c.reference_temperature;
    const for_both<T> grown{
        .pinion = detail::growth("expansion of the pinion", c.expansion.pinion, c.temperature.pinion, at),
        .wheel = detail::growth("expansion of the wheel", c.expansion.wheel, c.temperature.wheel, at)};
    const T housing = detail::growth("expansion of the housing", c.expansion.housing, c.temperature.housing, at);
    // Internal gears come nearer to touching as the axes move apart.
    const bool internal = wheel.is_internal();
    const T& tight = internal ? c.centre_distance.upper : c.centre_distance.lower;
    const T& loose = internal ? c.centre_distance.lower : c.centre_distance.upper;
    return {.least = detail::backlash_of_grown(with_thickness_allowance(pinion, c.allowances.pinion.upper),
                                               with_thickness_allowance(wheel, c.allowances.wheel.upper), grown, T(tight * housing)),
            .greatest = detail::backlash_of_grown(with_thickness_allowance(pinion, c.allowances.pinion.lower),
                                                  with_thickness_allowance(wheel, c.allowances.wheel.lower), grown, T(loose * housing))};
}

/// Findings about the least backlash of a range: teeth that would have to overlap, or backlash below a minimum (0 unless one is asked for;
/// in the module's unit).
template <scalar T>
constexpr finding_list<T> backlash_findings(const backlash_range<T>& range, const std::type_identity_t<T>& minimum = T(0)) {
    finding_list<T> list;
    if (range.least.normal < T(0)) {
        list.add({.code = finding_code::overlap,
                  .severity = severity::fault,
                  .subject = finding_subject::pair,
                  .quantity = "least normal_backlash",
                  .value = range.least.normal,
                  .limit = larger(T(minimum), T(0)),
                  .sentence = "At the limits the backlash closes: the teeth would have to overlap."});
    } else if (range.least.normal < minimum || range.least.normal == T(0)) {
        list.add({.code = finding_code::no_backlash,
                  .severity = severity::warning,
                  .subject = finding_subject::pair,
                  .quantity = "least normal_backlash",
                  .value = range.least.normal,
                  .limit = minimum,
                  .sentence = "At the limits too little backlash is left: thin the teeth or open the centre distance."});
    }
    return list;
}

} // namespace rackwork

#endif
