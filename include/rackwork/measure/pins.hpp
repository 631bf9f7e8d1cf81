// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Dimension over two pins or balls of external gears, between two of internal gears, and the thickness read from them.
#ifndef RACKWORK_MEASURE_PINS_HPP
#define RACKWORK_MEASURE_PINS_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "helix_distance.hpp"
#include "kind_check.hpp"
#include "pin_position.hpp"

namespace rackwork {

namespace detail {

/// Two pins or balls need two spaces: over the single one of a one-tooth gear nothing of its thickness can be read.
template <scalar T>
constexpr violation check_two_spaces(const gear<T>& g) {
    return check_at_least("teeth", T(g.teeth()), T(2));
}

template <scalar T>
constexpr violation check_measured_over(const gear<T>& g) {
    return first_of(check_external(g, "must be external to be measured over pins or balls; between them internal gears are"),
                    check_two_spaces(g));
}
template <scalar T>
constexpr violation check_measured_between(const gear<T>& g) {
    return first_of(check_internal(g, "must be internal to be measured between pins or balls; over them external gears are"),
                    check_two_spaces(g));
}
/// The space of a helical internal gear bends away from a straight pin to the teeth on either side.
template <scalar T>
constexpr violation check_pins_between(const gear<T>& g) {
    return check_spur_if_internal(g, "must be 0 for straight pins in the spaces of an internal gear; balls can lie in helical ones");
}

/// Half the pitch angle by which two spaces of an odd gear miss facing each other, radians; 0 for even tooth numbers.
template <scalar T>
constexpr T facing_error(int teeth) {
    return teeth % 2 == 0 ? T(0) : T(pi<T>() / (T(2) * T(teeth)));
}
template <scalar T>
constexpr T cosine_of_facing_error(int teeth) {
    return teeth % 2 == 0 ? T(1) : T(elementary::cos(facing_error<T>(teeth)));
}

/// Half the distance of the axes of two pins, in spaces as nearly opposite as there are, when flat parallel anvils read least.
///
/// A pin's axis is tangent to the helix through its centre at the radius r_K. Let the pins be moved along their spaces until one stands
/// at the angle eta from the middle, the other at 180 degrees - eta: then the reading is the distance of the two skew axes,
///   2 r_K (cos eta + (eta - eps) sin eta) cos beta_K / sqrt(cos^2 beta_K + sin^2 beta_K sin^2 eta),
/// with eps = 90 degrees / z for odd z and 0 for even. It is least where 2 eta - tan^2 beta_K sin 2 eta = 2 eps, which has one
/// solution as long as beta_K is below 45 degrees, and there equals 2 r_K cos eta sqrt(1 + tan^2 beta_K sin^2 eta).
template <scalar T>
constexpr T half_distance_of_pins(int teeth, const T& centre_diameter, const T& tangent_of_helix_at_centre) {
    if (teeth % 2 == 0) return T(centre_diameter / T(2)); // eta is 0 at every helix
    const T squared_helix = square(tangent_of_helix_at_centre);
    const T eta = kepler_angle(facing_error<T>(teeth), T(-squared_helix));
    return T(centre_diameter / T(2) * elementary::cos(eta) *
             elementary::sqrt(T(T(1) + squared_helix * square(elementary::sin(eta)))));
}

/// Tangent of the helix angle at the diameter of the pins' centres. Throws where pins have no least reading.
template <scalar T>
constexpr T helix_of_pins(const gear<T>& g, const T& centre_diameter) {
    const T tangent = g.tangent_of_helix_angle() * (centre_diameter / g.reference_diameter());
    if (!(magnitude(tangent) < T(1))) {
        const angle<T> helix = arctangent(magnitude(tangent));
        impossible_geometry({"helix angle at the pin's centre (deg)", static_cast<double>(helix.deg()), "must be less than", 45});
    }
    return tangent;
}

} // namespace detail

/// Dimension over two balls in the same transverse plane, M_dK = d_K cos(90 degrees / z) + D_M for odd tooth numbers, d_K + D_M for even.
/// Source: ISO 21771:2007. Throws as position_of_pin does, and for internal gears. Accuracy: pin_error_bound.
template <scalar T>
constexpr T dimension_over_balls(const gear<T>& g, const T& ball_diameter) {
    require(detail::check_measured_over(g));
    const T centre = position_of_pin(g, ball_diameter).centre_diameter;
    return T(centre * detail::cosine_of_facing_error<T>(g.teeth()) + ball_diameter);
}

/// Dimension over two cylindrical pins, M_dR: the least that flat parallel anvils read. For spur gears and for even tooth numbers the
/// same as over balls. For helical gears with odd tooth numbers the pins cross at a slant and the reading is the distance of two
/// skew cylinders (see detail::half_distance_of_pins).
/// Throws geometry_error as position_of_pin does, for internal gears, and when the helix angle at the pin's centre is 45 degrees or more:
/// then the reading has no least value in that position, and balls must be used. Accuracy: pin_error_bound.
template <scalar T>
constexpr T dimension_over_pins(const gear<T>& g, const T& pin_diameter) {
    require(detail::check_measured_over(g));
    const T centre = position_of_pin(g, pin_diameter).centre_diameter;
    return T(T(2) * detail::half_distance_of_pins(g.teeth(), centre, detail::helix_of_pins(g, centre)) + pin_diameter);
}

/// Dimension between two balls in the same transverse plane of an internal gear, M_dK = d_K cos(90 degrees / z) - D_M for odd tooth numbers,
/// d_K - D_M for even. Source: ISO 21771:2007. Throws as position_of_pin does, for external gears, and for balls that would not leave
/// anything between them. Accuracy: pin_error_bound ulp of d_K, divided by the smaller of 1 and the tangent of alpha_K.
template <scalar T>
constexpr T dimension_between_balls(const gear<T>& g, const T& ball_diameter) {
    require(detail::check_measured_between(g));
    const T centre = position_of_pin(g, ball_diameter).centre_diameter;
    const T dimension = centre * detail::cosine_of_facing_error<T>(g.teeth()) - ball_diameter;
    require(check_greater("dimension_between_balls", dimension, T(0)));
    return dimension;
}

/// Dimension between two cylindrical pins of an internal spur gear, M_dR: the same as between balls. Throws as dimension_between_balls
/// does, and for helical gears, in whose internal spaces straight pins do not lie.
template <scalar T>
constexpr T dimension_between_pins(const gear<T>& g, const T& pin_diameter) {
    require(first_of(detail::check_measured_between(g), detail::check_pins_between(g)));
    return dimension_between_balls(g, pin_diameter);
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose dimension over two balls (of an internal gear: between two) has
/// been measured. The gear gives all but its own thickness. Throws geometry_error for a dimension that puts the balls' centres inside the
/// base circle.
template <scalar T>
constexpr T normal_tooth_thickness_from_balls(const gear<T>& g, const T& ball_diameter, const T& dimension) {
    require(first_of(detail::check_two_spaces(g), check_greater("pin_diameter", ball_diameter, T(0)),
                     g.is_internal() ? check_greater("dimension_between_balls", dimension, T(0))
                                     : check_greater("dimension_over_balls", dimension, ball_diameter)));
    const T centre = (dimension - g.kind_sign() * ball_diameter) / detail::cosine_of_facing_error<T>(g.teeth());
    return detail::normal_tooth_thickness_from_pin_centre(g, ball_diameter, T(centre));
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose dimension over two pins (of an internal gear: between two) has
/// been measured. The gear gives all but its own thickness. Throws geometry_error as normal_tooth_thickness_from_balls,
/// dimension_over_pins and dimension_between_pins do.
template <scalar T>
constexpr T normal_tooth_thickness_from_pins(const gear<T>& g, const T& pin_diameter, const T& dimension) {
    if (g.is_internal()) {
        require(detail::check_pins_between(g));
        return normal_tooth_thickness_from_balls(g, pin_diameter, dimension);
    }
    require(first_of(detail::check_two_spaces(g), check_greater("pin_diameter", pin_diameter, T(0)),
                     check_greater("dimension_over_pins", dimension, pin_diameter)));
    const T reading = dimension - pin_diameter;
    if (g.helix_angle().rad() == T(0) || g.teeth() % 2 == 0) {
        static_cast<void>(detail::helix_of_pins(g, reading));
        return normal_tooth_thickness_from_balls(g, pin_diameter, dimension);
    }
    // The pins stand less than 1/2 + eps (radians) from the middle, so their centres lie between the reading itself and
    // reading / cos(1/2 + eps); beyond the circle on which the helix reaches 45 degrees pins cannot be used.
    const T per_diameter = g.tangent_of_helix_angle() / g.reference_diameter();
    const T steepest = T(1) / magnitude(per_diameter);
    const T slant = smaller(T(detail::facing_error<T>(g.teeth()) + T(1) / T(2)), T(T(3) / T(2)));
    const T largest = smaller(T(reading / elementary::cos(slant)), steepest);
    const auto excess = [&](const T& centre) {
        return T(T(2) * detail::half_distance_of_pins(g.teeth(), centre, T(per_diameter * centre)) - reading);
    };
    require(first_of(check_less("dimension_over_pins", dimension, T(steepest + pin_diameter)),
                     check_at_most("dimension_over_pins", dimension, T(dimension + excess(largest)))));
    const T found = bracketed_root(excess, reading, largest);
    return detail::normal_tooth_thickness_from_pin_centre(g, pin_diameter, found);
}

} // namespace rackwork

#endif
