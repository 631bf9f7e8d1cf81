// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Sizes with other numbers of balls or pins than two: the radial dimension over one ball, and over three pins.
#ifndef RACKWORK_MEASURE_RADIAL_BALL_HPP
#define RACKWORK_MEASURE_RADIAL_BALL_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "kind_check.hpp"
#include "pin_position.hpp"

namespace rackwork {

/// Radial dimension over one ball or pin, M_rK = (d_K + sigma D_M) / 2: from the gear's axis to the ball's far side on an external gear, to
/// its near side on an internal one. Taken from the axis, so runout of the teeth is in it: its mean round the gear is the size, its spread
/// the runout. Pins only where they can lie: not in helical internal spaces.
/// Source: ISO 21771:2007, from memory. Throws as position_of_pin does, and for a ball that would reach the axis of an internal gear.
/// Accuracy: pin_error_bound ulp of d_K, divided by the smaller of 1 and the tangent of alpha_K.
template <scalar T>
constexpr T radial_dimension_over_ball(const gear<T>& g, const T& ball_diameter) {
    const T centre = position_of_pin(g, ball_diameter).centre_diameter;
    const T dimension = (centre + g.kind_sign() * ball_diameter) / T(2);
    require(check_greater("radial dimension of the ball", dimension, T(0)));
    return dimension;
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose radial dimension over one ball has been measured. The gear gives
/// all but its own thickness. Throws geometry_error for a dimension that puts the ball's centre inside the base circle.
template <scalar T>
constexpr T normal_tooth_thickness_from_radial_dimension(const gear<T>& g, const T& ball_diameter, const T& dimension) {
    require(first_of(check_greater("pin_diameter", ball_diameter, T(0)), check_greater("radial dimension of the ball", dimension, T(0))));
    return detail::normal_tooth_thickness_from_pin_centre(g, ball_diameter,
                                                          T(T(2) * dimension - g.kind_sign() * ball_diameter));
}

namespace detail {

template <scalar T>
constexpr violation check_three_pins(const gear<T>& g) {
    if (const violation v = first_of(check_external(g, "must be external to be measured over three pins"),
                                     check_at_least("teeth", T(g.teeth()), T(3)))) {
        return v;
    }
    if (g.teeth() % 2 == 0) return {"teeth", static_cast<double>(g.teeth()), "must be odd to be measured over three pins", 0, false};
    if (g.helix_angle().rad() == T(0)) return {};
    return {"helix_angle (deg)", static_cast<double>(g.helix_angle().deg()), "must be 0 to be measured over three pins", 0, false};
}

/// How much of d_K flat anvils see: (1 + cos(180 degrees / z)) / 2 = cos^2(90 degrees / z).
template <scalar T>
constexpr T seen_over_three_pins(int teeth) {
    return T(square(elementary::cos(T(pi<T>() / (T(2) * T(teeth))))));
}

} // namespace detail

/// Dimension over three pins of an external spur gear with an odd tooth number: two pins in neighbouring spaces under one flat anvil, the
/// third in the space that faces the tooth between them. M_3 = d_K cos^2(90 degrees / z) + D_M. Unlike over two pins, the anvils cannot rock.
/// Follows from where the pins lie; given without a printed source. Throws geometry_error as position_of_pin does, for internal and helical
/// gears and even tooth numbers, and for pins so large that neighbours would touch each other. Accuracy: pin_error_bound.
template <scalar T>
constexpr T dimension_over_three_pins(const gear<T>& g, const T& pin_diameter) {
    require(detail::check_three_pins(g));
    const T centre = position_of_pin(g, pin_diameter).centre_diameter;
    require(check_less("pin_diameter", pin_diameter, T(centre * elementary::sin(T(pi<T>() / T(g.teeth()))))));
    return T(centre * detail::seen_over_three_pins<T>(g.teeth()) + pin_diameter);
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose dimension over three pins has been measured. The gear gives all
/// but its own thickness. Throws geometry_error for gears that are not measured so and for a dimension that puts the pins' centres
/// inside the base circle.
template <scalar T>
constexpr T normal_tooth_thickness_from_three_pins(const gear<T>& g, const T& pin_diameter, const T& dimension) {
    require(first_of(detail::check_three_pins(g), check_greater("pin_diameter", pin_diameter, T(0)),
                     check_greater("dimension_over_three_pins", dimension, pin_diameter)));
    const T centre = (dimension - pin_diameter) / detail::seen_over_three_pins<T>(g.teeth());
    return detail::normal_tooth_thickness_from_pin_centre(g, pin_diameter, centre);
}

} // namespace rackwork

#endif
