// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Dimension over two pins or balls.
#ifndef RACKWORK_MEASURE_PINS_HPP
#define RACKWORK_MEASURE_PINS_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "helix_distance.hpp"

#include <array>

namespace rackwork {

/// Where a pin or ball lies in a tooth space.
template <scalar T>
struct pin_position {
    /// Diameter of the circle through the pin's (ball's) centre, d_K.
    T centre_diameter;
    /// Diameter at which it touches the flanks, d_M.
    T contact_diameter;
};

namespace detail {

/// Half the space's angle at the base circle, radians: negative when the teeth would overlap down there.
template <scalar T>
constexpr T base_space_half_angle(const gear<T>& g) {
    return T(pi<T>() / T(g.teeth()) - g.base_half_angle());
}

/// Two pins or balls need two spaces: over the single one of a one-tooth gear nothing of its thickness can be read.
template <scalar T>
constexpr violation check_two_spaces(const gear<T>& g) {
    return check_at_least("teeth", T(g.teeth()), T(2));
}

/// Half the pitch angle by which two spaces of an odd gear miss facing each other, radians; 0 for even tooth numbers.
template <scalar T>
constexpr T facing_error(int teeth) {
    return teeth % 2 == 0 ? T(0) : T(pi<T>() / (T(2) * T(teeth)));
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
    const T squared_helix = square(tangent_of_helix_at_centre);
    const T eta = kepler_angle(facing_error<T>(teeth), T(-squared_helix));
    return T(centre_diameter / T(2) * elementary::cos(eta) *
             elementary::sqrt(T(T(1) + squared_helix * square(elementary::sin(eta)))));
}

/// Tangent of the helix angle at the diameter of the pins' centres. Throws where pins have no least reading.
template <scalar T>
constexpr T helix_of_pins(const gear<T>& g, const T& centre_diameter) {
    const T tangent = tan(g.helix_angle(centre_diameter));
    const angle<T> helix = arctangent(magnitude(tangent));
    require(check_less("helix angle at the pin's centre (deg)", helix.deg(), T(45)));
    return tangent;
}

} // namespace detail

/// Where a pin or ball of a diameter lies in the space: inv alpha_K = D_M / (z m_n cos alpha_n) - (pi/z - s_b/d_b), d_K = d_b / cos alpha_K;
/// it touches where tan alpha_M = tan alpha_K - D_M cos beta_b / d_b. Pin and ball lie alike.
/// Throws geometry_error for a pin so small that it falls through the space without touching both involutes.
/// Accuracy for double: 16 ulp, divided by the tangent of alpha_K.
template <scalar T>
constexpr pin_position<T> position_of_pin(const gear<T>& g, const T& pin_diameter) {
    const T per_involute = T(g.teeth()) * g.normal_module() * cos(g.normal_pressure_angle());
    const T space = detail::base_space_half_angle(g);
    require(first_of(check_greater("pin_diameter", pin_diameter, T(0)),
                     check_greater("pin_diameter", pin_diameter, T(per_involute * space))));
    const T pin_angle = pin_diameter / per_involute;
    const T at_centre = inverse_inv(T(pin_angle - space)).rad();
    const T tangent = T(pin_angle - space) + at_centre;
    // tan alpha_K - D_M cos beta_b / d_b without its cancellation, since cos beta_b / d_b = cos^2 beta_b / (z m_n cos alpha_n).
    const T touching = at_centre - space + pin_angle * square(sin(g.base_helix_angle()));
    if (touching < T(0)) {
        impossible_geometry({"pin_diameter", static_cast<double>(pin_diameter),
                             "must be great enough to touch both flanks above the base circle", 0, false});
    }
    const T centre = g.base_diameter() * elementary::sqrt(T(T(1) + square(tangent)));
    require(check_finite("diameter of the circle through the pin's centre", centre));
    return {.centre_diameter = centre, .contact_diameter = T(g.base_diameter() * elementary::sqrt(T(T(1) + square(touching))))};
}

/// Diameter of the pin or ball that touches the flanks at a diameter. With R = tan alpha_M / cos^2 beta_b + (pi/z - s_b/d_b),
/// alpha_K + tan^2 beta_b tan alpha_K = R and D_M = d_b (tan alpha_K - tan alpha_M) / cos beta_b.
/// Throws geometry_error below the base diameter and where the space is too narrow or too open there for any pin.
template <scalar T>
constexpr T pin_diameter_touching_at(const gear<T>& g, const T& contact_diameter) {
    const T touching = g.tangent_of_pressure_angle(contact_diameter);
    const T squared_cosine = square(cos(g.base_helix_angle()));
    const T squared_tangent = (T(1) - squared_cosine) / squared_cosine;
    const T sum = touching / squared_cosine + detail::base_space_half_angle(g);
    // The tangent of alpha_K is the unknown. Both of the sum's terms grow with it and either alone gives an upper end.
    const bool angle_alone = sum < T(3) / T(2);
    const violation nothing_fits{"contact_diameter", static_cast<double>(contact_diameter),
                                 "must be where a pin can touch both flanks of the space", 0, false};
    if (!(sum > T(0)) || (!angle_alone && squared_tangent * T(64) < T(1))) impossible_geometry(nothing_fits);
    const T upper = angle_alone ? T(elementary::tan(sum)) : T(sum / squared_tangent);
    const auto excess = [&](const T& tangent) { return T(elementary::atan(tangent) + squared_tangent * tangent - sum); };
    const T found = bracketed_root(excess, T(0), T(upper * (T(1) + T(8) * epsilon<T>())));
    const T tangent = found - excess(found) / (T(1) / (T(1) + square(found)) + squared_tangent);
    if (!(tangent > touching)) impossible_geometry(nothing_fits);
    return T(g.base_diameter() * (tangent - touching) / cos(g.base_helix_angle()));
}

/// Pin or ball diameter to use, exactly: the one that touches at d_v = d + 2 x m_n, or in the middle of the involute where that circle is
/// not on it. Real pins come in steps; see nearest_preferred_pin_diameter. Throws geometry_error where no pin fits.
template <scalar T>
constexpr T ideal_pin_diameter(const gear<T>& g) {
    const T form = generated_root<T>(g).root_form_diameter();
    const T tip = g.effective_tip_diameter();
    const T shifted = g.shifted_reference_diameter();
    const bool on_involute = form < shifted && shifted < tip;
    return pin_diameter_touching_at(g, on_involute ? shifted : T((form + tip) / T(2)));
}

/// Preferred diameters of measuring pins and balls in millimetres. Source: DIN 3977, from memory.
inline constexpr std::array preferred_pin_diameters_in_millimetres{
    0.5, 0.55, 0.6, 0.7, 0.8, 0.9,  1.0, 1.1,  1.25, 1.4, 1.5, 1.75, 2.0, 2.25, 2.5,  2.75, 3.0,  3.25, 3.5,  3.75, 4.0,
    4.25, 4.5, 5.0,  5.25, 5.5, 6.0, 6.5,  7.0,  7.5, 8.0, 9.0,  10.0, 10.5, 11.0, 12.0, 14.0, 16.0, 18.0, 20.0, 22.0,
    25.0, 28.0, 30.0, 35.0, 40.0, 45.0, 50.0};

/// The preferred pin diameter nearest to a diameter; the diameter itself where the series does not reach (below 0.5 mm, above 50 mm).
template <scalar T>
constexpr T nearest_preferred_pin_diameter(const T& diameter_in_millimetres) {
    require(check_greater("pin_diameter", diameter_in_millimetres, T(0)));
    const auto& series = preferred_pin_diameters_in_millimetres;
    if (diameter_in_millimetres < T(series.front()) || diameter_in_millimetres > T(series.back())) return diameter_in_millimetres;
    T nearest = T(series.front());
    for (const double d : series) {
        if (magnitude(T(T(d) - diameter_in_millimetres)) < magnitude(T(nearest - diameter_in_millimetres))) nearest = T(d);
    }
    return nearest;
}

/// Pin diameter of the American wire tables for external gears in inches, 1.728/P, as a factor of the module.
/// Source: Machinery's Handbook, from memory.
inline constexpr double wire_table_pin_factor = 1.728;

/// Dimension over two balls in the same transverse plane, M_dK = d_K cos(90 degrees / z) + D_M for odd tooth numbers, d_K + D_M for even.
/// Source: ISO 21771:2007. Throws as position_of_pin does. Accuracy for double: 16 ulp.
template <scalar T>
constexpr T dimension_over_balls(const gear<T>& g, const T& ball_diameter) {
    require(detail::check_two_spaces(g));
    const T centre = position_of_pin(g, ball_diameter).centre_diameter;
    return T(centre * elementary::cos(detail::facing_error<T>(g.teeth())) + ball_diameter);
}

/// Dimension over two cylindrical pins, M_dR: the least that flat parallel anvils read. For spur gears and for even tooth numbers the
/// same as over balls. For helical gears with odd tooth numbers the pins cross at a slant and the reading is the distance of two
/// skew cylinders (see detail::half_distance_of_pins).
/// Throws geometry_error as position_of_pin does, and when the helix angle at the pin's centre is 45 degrees or more: then the reading has
/// no least value in that position, and balls must be used.
template <scalar T>
constexpr T dimension_over_pins(const gear<T>& g, const T& pin_diameter) {
    require(detail::check_two_spaces(g));
    const T centre = position_of_pin(g, pin_diameter).centre_diameter;
    return T(T(2) * detail::half_distance_of_pins(g.teeth(), centre, detail::helix_of_pins(g, centre)) + pin_diameter);
}

namespace detail {

/// Normal tooth thickness at the reference cylinder of a gear in whose spaces pins of a diameter lie on a circle d_K.
template <scalar T>
constexpr T normal_tooth_thickness_from_pin_centre(const gear<T>& g, const T& pin_diameter, const T& centre_diameter) {
    const T per_involute = T(g.teeth()) * g.normal_module() * cos(g.normal_pressure_angle());
    const T at_base = pi<T>() / T(g.teeth()) - pin_diameter / per_involute +
                      inv_from_tangent(g.tangent_of_pressure_angle(centre_diameter));
    return T(T(g.teeth()) * g.normal_module() * (at_base - inv(g.transverse_pressure_angle())));
}

} // namespace detail

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose dimension over two balls has been measured. The gear gives all
/// but its own thickness. Throws geometry_error for a dimension that puts the balls' centres inside the base circle.
template <scalar T>
constexpr T normal_tooth_thickness_from_balls(const gear<T>& g, const T& ball_diameter, const T& dimension) {
    require(first_of(detail::check_two_spaces(g), check_greater("pin_diameter", ball_diameter, T(0)),
                     check_greater("dimension_over_balls", dimension, ball_diameter)));
    const T centre = (dimension - ball_diameter) / elementary::cos(detail::facing_error<T>(g.teeth()));
    return detail::normal_tooth_thickness_from_pin_centre(g, ball_diameter, T(centre));
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose dimension over two pins has been measured. The gear gives all
/// but its own thickness. Throws geometry_error as normal_tooth_thickness_from_balls and dimension_over_pins do.
template <scalar T>
constexpr T normal_tooth_thickness_from_pins(const gear<T>& g, const T& pin_diameter, const T& dimension) {
    require(first_of(detail::check_two_spaces(g), check_greater("pin_diameter", pin_diameter, T(0)),
                     check_greater("dimension_over_pins", dimension, pin_diameter)));
    const T reading = dimension - pin_diameter;
    if (g.helix_angle().rad() == T(0) || g.teeth() % 2 == 0) {
        static_cast<void>(detail::helix_of_pins(g, reading));
        return normal_tooth_thickness_from_balls(g, pin_diameter, dimension);
    }
    // The pins stand less than 1/2 + eps (radians) from the middle, so their centres lie between the reading itself and
    // reading / cos(1/2 + eps); beyond the circle on which the helix reaches 45 degrees pins cannot be used.
    const T per_diameter = tan(g.helix_angle()) / g.reference_diameter();
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
