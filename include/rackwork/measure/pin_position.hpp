// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Where a pin or ball lies in a tooth space, and which pins to use.
#ifndef RACKWORK_MEASURE_PIN_POSITION_HPP
#define RACKWORK_MEASURE_PIN_POSITION_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "kind_check.hpp"

#include <array>

namespace rackwork {

/// Largest error of sizes over and between pins and balls for float, double and long double, in units in the last place (ulp). Of places of a
/// pin divided by the smaller of 1 and the tangent of alpha_K.
inline constexpr int pin_error_bound = 16;

/// Where a pin or ball lies in a tooth space.
template <scalar T>
struct pin_position {
    /// Diameter of the circle through the pin's (ball's) centre, d_K.
    T centre_diameter;
    /// Diameter at which it touches the flanks, d_M.
    T contact_diameter;
};

/// Where a pin or ball of a diameter lies in the space: inv alpha_K = sigma (D_M / (z m_n cos alpha_n) - (pi/z - s_b/d_b)),
/// d_K = d_b / cos alpha_K; it touches where tan alpha_M = tan alpha_K - sigma D_M cos beta_b / d_b. Pin and ball lie alike in external
/// spaces and in internal spur ones. In a helical internal space only a ball finds room.
/// Throws geometry_error for a pin so small that it falls through the external space without touching both involutes, or so large that
/// the edges of the internal space hold it.
/// Accuracy: pin_error_bound.
template <scalar T>
constexpr pin_position<T> position_of_pin(const gear<T>& g, const T& pin_diameter) {
    const T sign = g.kind_sign();
    const T per_involute = T(g.teeth()) * g.normal_module() * detail::cosine_of_normal_pressure_angle(g);
    const T space = detail::base_space_half_angle(g);
    const T limit = per_involute * space;
    require(first_of(check_greater("pin_diameter", pin_diameter, T(0)),
                     g.is_internal() ? check_at_most("pin_diameter", pin_diameter, limit)
                                     : check_greater("pin_diameter", pin_diameter, limit)));
    const T pin_angle = pin_diameter / per_involute;
    const T involute = sign * (pin_angle - space);
    const T at_centre = inverse_inv(involute).rad();
    const T tangent = involute + at_centre;
    // tan alpha_K - sigma D_M cos beta_b / d_b without its cancellation, since cos beta_b / d_b = cos^2 beta_b / (z m_n cos alpha_n).
    const T squared_slope = square(g.tangent_of_base_helix_angle());
    const T touching = at_centre - sign * (space - pin_angle * (squared_slope / (T(1) + squared_slope)));
    if (touching < T(0)) {
        impossible_geometry({"pin_diameter", static_cast<double>(pin_diameter),
                             "must be great enough to touch both flanks above the base circle", 0, false});
    }
    const T centre = g.base_diameter() * elementary::sqrt(T(T(1) + square(tangent)));
    require(check_finite("diameter of the circle through the pin's centre", centre));
    return {.centre_diameter = centre, .contact_diameter = T(g.base_diameter() * elementary::sqrt(T(T(1) + square(touching))))};
}

/// Diameter of the pin or ball that touches the flanks at a diameter. With R = tan alpha_M / cos^2 beta_b + sigma (pi/z - s_b/d_b),
/// alpha_K + tan^2 beta_b tan alpha_K = R and D_M = sigma d_b (tan alpha_K - tan alpha_M) / cos beta_b.
/// Throws geometry_error below the base diameter and where the space is too narrow or too open there for any pin.
template <scalar T>
constexpr T pin_diameter_touching_at(const gear<T>& g, const T& contact_diameter) {
    const T sign = g.kind_sign();
    const T touching = g.tangent_of_pressure_angle(contact_diameter);
    const T squared_tangent = square(g.tangent_of_base_helix_angle());
    const T sum = touching * (T(1) + squared_tangent) + sign * detail::base_space_half_angle(g);
    // The tangent of alpha_K is the unknown. Both of the sum's terms grow with it and either alone gives an upper end; in internal spaces
    // the centre lies further inward than the contact.
    const bool angle_alone = sum < T(3) / T(2);
    const violation nothing_fits{"contact_diameter", static_cast<double>(contact_diameter),
                                 "must be where a pin of usable size can touch both flanks of the space", 0, false};
    const auto excess = [&](const T& tangent) { return T(elementary::atan(tangent) + squared_tangent * tangent - sum); };
    if (!(sum > T(0))) impossible_geometry(nothing_fits);
    T upper = touching;
    if (g.is_internal()) {
        if (!(excess(touching) > T(0))) impossible_geometry(nothing_fits);
    } else {
        if (!angle_alone && squared_tangent * T(64) < T(1)) impossible_geometry(nothing_fits);
        upper = (angle_alone ? T(elementary::tan(sum)) : T(sum / squared_tangent)) * (T(1) + T(8) * epsilon<T>());
    }
    const T found = bracketed_root(excess, T(0), upper);
    const T tangent = found - excess(found) / (T(1) / (T(1) + square(found)) + squared_tangent);
    const T way = sign * (tangent - touching);
    if (!(way > T(0))) impossible_geometry(nothing_fits);
    return T(g.base_diameter() * way * detail::secant_of_base_helix_angle(g));
}

/// Pin or ball diameter to use on a gear whose root is known, exactly: the one that touches at d_v = d + 2 sigma x m_n, or in the middle of
/// the involute, between root form and tip form diameter, where that circle is not on it. Real pins come in steps; see
/// nearest_preferred_pin_diameter. Throws geometry_error where no pin fits.
template <scalar T>
constexpr T ideal_pin_diameter(const gear<T>& g, const generated_root<T>& root) {
    const T form = root.root_form_diameter();
    const T tip = g.tip_form_diameter();
    const T shifted = g.shifted_reference_diameter();
    const bool on_involute = smaller(form, tip) < shifted && shifted < larger(form, tip);
    return pin_diameter_touching_at(g, on_involute ? shifted : T((form + tip) / T(2)));
}

/// The same with the root that the customary tool makes. Throws geometry_error also as generated_root does.
template <scalar T>
constexpr T ideal_pin_diameter(const gear<T>& g) {
    return ideal_pin_diameter(g, generated_root<T>(g));
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

/// Pin diameters of the American wire tables in inches, 1.728/P for external and 1.44/P for internal gears, as factors of the module.
/// Source: Machinery's Handbook, from memory.
inline constexpr double wire_table_pin_factor = 1.728;
inline constexpr double wire_table_internal_pin_factor = 1.44;

namespace detail {

/// Normal tooth thickness at the reference cylinder of a gear in whose spaces pins of a diameter lie on a circle d_K.
template <scalar T>
constexpr T normal_tooth_thickness_from_pin_centre(const gear<T>& g, const T& pin_diameter, const T& centre_diameter) {
    const T sign = g.kind_sign();
    const T per_involute = T(g.teeth()) * g.normal_module() * cosine_of_normal_pressure_angle(g);
    const T at_base = pi<T>() / T(g.teeth()) - pin_diameter / per_involute +
                      sign * inv_from_tangent(g.tangent_of_pressure_angle(centre_diameter));
    return T(T(g.teeth()) * g.normal_module() * (at_base - sign * g.involute_of_transverse_pressure_angle()));
}

} // namespace detail

} // namespace rackwork

#endif
