// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What is measured on a toothed rack: height over a pin, length over pins, chord and length over teeth.
#ifndef RACKWORK_MEASURE_RACK_HPP
#define RACKWORK_MEASURE_RACK_HPP

#include "../basic_rack.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../rack_mesh.hpp"
#include "chord.hpp"

namespace rackwork {

/// A toothed rack as it lies on the inspector's table. Lengths are in one unit of the caller's choice; all sizes of a helical rack are
/// those of its normal section, square to the teeth, which does not ask for the helix.
template <scalar T = double>
struct toothed_rack {
    /// Normal module, m_n. Greater than 0; must be given.
    T normal_module{0};
    /// Its profile: pressure angle, addendum, dedendum as factors of the module.
    basic_rack<T> profile = iso_53_a;
    /// Tooth thickness allowance on the datum line, normal section, E_sn. Negative thins the teeth.
    T thickness_allowance{0};
    /// Height of the datum line over the face on which the rack lies. 0: heights then count from the datum line.
    T datum_height{0};
};

/// What makes a toothed rack impossible, or nothing.
template <scalar T>
constexpr violation check(const toothed_rack<T>& rack) {
    const T half_pitch = pi<T>() / T(2) * rack.normal_module;
    return first_of(check_greater("normal_module", rack.normal_module, T(0)), check(rack.profile),
                    check_greater("thickness_allowance", rack.thickness_allowance, T(-half_pitch)),
                    check_less("thickness_allowance", rack.thickness_allowance, half_pitch),
                    check_finite("datum_height", rack.datum_height));
}

/// The rack of a rack and pinion, ready to be measured.
template <scalar T>
constexpr toothed_rack<T> rack_to_measure(const rack_mesh<T>& pair) {
    toothed_rack<T> rack{.normal_module = pair.pinion().normal_module(),
                         .profile = pair.rack().profile,
                         .thickness_allowance = pair.rack().thickness_allowance,
                         .datum_height = pair.rack().datum_height};
    rack.profile.pressure_angle = pair.pinion().normal_pressure_angle();
    return rack;
}

/// Normal tooth thickness on the datum line, s_n = pi m_n / 2 + E_sn. Accuracy: 2 ulp of the pitch.
template <scalar T>
constexpr T normal_tooth_thickness(const toothed_rack<T>& rack) {
    require(check(rack));
    return T(pi<T>() / T(2) * rack.normal_module + rack.thickness_allowance);
}

namespace detail {

/// Space on the datum line, e_n.
template <scalar T>
constexpr T space_of_rack(const toothed_rack<T>& rack) {
    return T(pi<T>() / T(2) * rack.normal_module - rack.thickness_allowance);
}

/// A height over the datum line must lie between root line and tip line. (The flank ends at the root fillet, above the root line.)
template <scalar T>
constexpr violation check_on_rack(const char* quantity, const toothed_rack<T>& rack, const T& height) {
    return first_of(check_at_least(quantity, height, T(-rack.normal_module * rack.profile.dedendum)),
                    check_at_most(quantity, height, T(rack.normal_module * rack.profile.addendum)));
}

} // namespace detail

/// Where a pin lies in the space of a rack: heights over the datum line, positive towards the tips.
template <scalar T>
struct pin_on_rack {
    /// Of the pin's axis.
    T centre_height;
    /// Of the lines in which it touches the flanks.
    T contact_height;
};

/// Where a pin of a diameter lies in the space: y_K = (D_M / cos alpha_n - e_n) / (2 tan alpha_n), and it touches D_M/2 sin alpha_n below.
/// Throws geometry_error for an impossible rack and for a pin that would touch below the root line or above the tip line.
/// Accuracy for double: 8 ulp of D_M / tan alpha_n.
template <scalar T>
constexpr pin_on_rack<T> position_of_pin(const toothed_rack<T>& rack, const T& pin_diameter) {
    require(first_of(check(rack), check_greater("pin_diameter", pin_diameter, T(0))));
    const angle<T> alpha = rack.profile.pressure_angle;
    const T centre = (pin_diameter / cos(alpha) - detail::space_of_rack(rack)) / (T(2) * tan(alpha));
    const T contact = centre - pin_diameter / T(2) * sin(alpha);
    require(detail::check_on_rack("height of the pin's contact over the datum line", rack, contact));
    return {.centre_height = centre, .contact_height = contact};
}

/// Diameter of the pin that touches the flanks at a height over the datum line: D_M = (e_n + 2 y tan alpha_n) / cos alpha_n. At height 0 the
/// pin to use. Throws geometry_error for an impossible rack, for a height off the teeth, and where the space has no width.
template <scalar T>
constexpr T pin_diameter_touching_at(const toothed_rack<T>& rack, const T& height) {
    require(first_of(check(rack), detail::check_on_rack("height over the datum line", rack, height)));
    const angle<T> alpha = rack.profile.pressure_angle;
    const T width = detail::space_of_rack(rack) + T(2) * height * tan(alpha);
    require(check_greater("space width at the height", width, T(0)));
    return T(width / cos(alpha));
}

/// Pin diameter to use: the one that touches on the datum line, e_n / cos alpha_n.
template <scalar T>
constexpr T ideal_pin_diameter(const toothed_rack<T>& rack) {
    return pin_diameter_touching_at(rack, T(0));
}

/// Height over a pin, from the face on which the rack lies (or from the datum line where its height is not stated) to the pin's top.
/// Throws geometry_error as position_of_pin does. Accuracy for double: 8 ulp of its terms.
template <scalar T>
constexpr T height_over_pin(const toothed_rack<T>& rack, const T& pin_diameter) {
    return T(rack.datum_height + position_of_pin(rack, pin_diameter).centre_height + pin_diameter / T(2));
}

/// Normal tooth thickness on the datum line of a rack whose height over a pin has been measured:
/// s_n = pi m_n - D_M / cos alpha_n + 2 y_K tan alpha_n. The rack gives all but its own thickness. Throws geometry_error for an impossible
/// rack or pin.
template <scalar T>
constexpr T normal_tooth_thickness_from_height_over_pin(const toothed_rack<T>& rack, const T& pin_diameter, const T& height) {
    require(first_of(check(rack), check_greater("pin_diameter", pin_diameter, T(0)), check_finite("height over the pin", height)));
    const angle<T> alpha = rack.profile.pressure_angle;
    const T centre = height - rack.datum_height - pin_diameter / T(2);
    return T(pi<T>() * rack.normal_module - pin_diameter / cos(alpha) + T(2) * centre * tan(alpha));
}

/// Length over two pins that lie a number of pitches apart, k pi m_n + D_M. It tells of the pitch alone and not of the thickness.
/// Throws geometry_error as position_of_pin does, or unless there is at least one pitch.
template <scalar T>
constexpr T length_over_pins(const toothed_rack<T>& rack, int pitches, const T& pin_diameter) {
    require(check_at_least("pitches", T(pitches), T(1)));
    static_cast<void>(position_of_pin(rack, pin_diameter));
    return T(T(pitches) * (pi<T>() * rack.normal_module) + pin_diameter);
}

/// Chord of a tooth at a height over the datum line: s-bar = s_n - 2 y tan alpha_n, h-bar from there to the tip line. On a rack it is exact
/// without any bend. Throws geometry_error for an impossible rack and for a height off the teeth.
template <scalar T>
constexpr chord<T> chord_at(const toothed_rack<T>& rack, const T& height) {
    require(first_of(check(rack), detail::check_on_rack("height over the datum line", rack, height)));
    const T thickness = normal_tooth_thickness(rack) - T(2) * height * tan(rack.profile.pressure_angle);
    return {.thickness = thickness, .height = T(rack.normal_module * rack.profile.addendum - height)};
}

/// Span over teeth of a rack with jaws that reach down to a height over the datum line: (k - 1) pi m_n + s_n - 2 y tan alpha_n, parallel to
/// the datum line. A gear's base tangent length has no counterpart here: opposite flanks of a rack have no common normal along which
/// flat anvils could settle, so the jaws' depth must be set, and goes into the reading.
/// Throws geometry_error for an impossible rack, for a height off the teeth, and unless at least one tooth is spanned.
template <scalar T>
constexpr T span_measurement(const toothed_rack<T>& rack, int teeth_spanned, const T& height) {
    require(check_at_least("teeth_spanned", T(teeth_spanned), T(1)));
    return T(T(teeth_spanned - 1) * (pi<T>() * rack.normal_module) + chord_at(rack, height).thickness);
}

/// Normal tooth thickness on the datum line of a rack whose span over teeth has been measured at a height over the datum line; over one tooth
/// from its chord. The rack gives all but its own thickness. Throws geometry_error as span_measurement does.
template <scalar T>
constexpr T normal_tooth_thickness_from_span(const toothed_rack<T>& rack, int teeth_spanned, const T& height, const T& span) {
    require(first_of(check_at_least("teeth_spanned", T(teeth_spanned), T(1)), check_greater("span_measurement", span, T(0)), check(rack),
                     detail::check_on_rack("height over the datum line", rack, height)));
    const T thickness =
        span - T(teeth_spanned - 1) * (pi<T>() * rack.normal_module) + T(2) * height * tan(rack.profile.pressure_angle);
    require(check_finite("normal_tooth_thickness", thickness));
    return thickness;
}

/// Length of the base tangent over a number of pitches, k pi m_n cos alpha_n: square to flanks of one hand, from one to the k-th next. It tells
/// of pitch and pressure angle alone. Throws geometry_error for an impossible rack or unless there is at least one pitch.
template <scalar T>
constexpr T length_over_pitches(const toothed_rack<T>& rack, int pitches) {
    require(first_of(check(rack), check_at_least("pitches", T(pitches), T(1))));
    return T(T(pitches) * (pi<T>() * rack.normal_module * cos(rack.profile.pressure_angle)));
}

} // namespace rackwork

#endif
