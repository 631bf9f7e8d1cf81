// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a tooth caliper reads: chordal thickness and height at a diameter, and the constant chord.
#ifndef RACKWORK_MEASURE_CHORD_HPP
#define RACKWORK_MEASURE_CHORD_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "helix_distance.hpp"

namespace rackwork {

/// A chord of a tooth as a caliper takes it: its length, and the height of the tip above its middle.
template <scalar T>
struct chord {
    /// Chordal thickness.
    T thickness;
    /// Chordal height (chordal addendum): from the chord to the tip of the tooth.
    T height;
};

/// Chord at a diameter, s-bar and h-bar: the shortest distance between the two flanks' lines on that cylinder, as caliper jaws take it.
/// Spur gears: s-bar = d_y sin(s_y/d_y). Helical gears: the exact distance of the two helices,
///   s-bar = d_y sin phi sqrt(1 + tan^2 beta_y cos^2 phi)  with  phi + tan^2 beta_y sin phi cos phi = s_y/d_y,
/// and h-bar = (d_a - d_y cos phi)/2. Accuracy: 4 ulp of the diameter; the height 4 ulp of
/// the tip diameter.
/// Throws geometry_error below the base diameter, above the tip, and where the flanks are further apart than half a turn.
template <scalar T>
constexpr chord<T> chord_at(const gear<T>& g, const T& diameter) {
    const T tip = g.effective_tip_diameter();
    require(first_of(check_at_least("diameter", diameter, g.base_diameter()), check_at_most("diameter", diameter, tip)));
    const T half_angle = g.tooth_thickness(diameter) / diameter;
    require(check_at_most("half the tooth's angle at the diameter (rad)", half_angle, T(pi<T>() / T(2))));
    const T squared_helix = square(tan(g.helix_angle(diameter)));
    const T phi = detail::kepler_angle(larger(half_angle, T(0)), squared_helix);
    const T cosine = elementary::cos(phi);
    return {.thickness = T(diameter * elementary::sin(phi) * elementary::sqrt(T(T(1) + squared_helix * square(cosine)))),
            .height = T((tip - diameter * cosine) / T(2))};
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose chordal thickness at a diameter has been measured.
/// The gear gives all but its own thickness. Throws geometry_error below the base diameter and for a chord that cannot be one there.
template <scalar T>
constexpr T normal_tooth_thickness_from_chord(const gear<T>& g, const T& diameter, const T& chordal_thickness) {
    require(first_of(check_at_least("diameter", diameter, g.base_diameter()),
                     check_greater("chordal_thickness", chordal_thickness, T(0)),
                     check_less("chordal_thickness", chordal_thickness, diameter)));
    // chord_at solved for y = sin^2 phi: tan^2 beta_y y^2 - (1 + tan^2 beta_y) y + (s-bar/d_y)^2 = 0, the smaller root.
    const T squared_helix = square(tan(g.helix_angle(diameter)));
    const T squared_chord = square(T(chordal_thickness / diameter));
    const T b = T(1) + squared_helix;
    const T y = T(2) * squared_chord / (b + elementary::sqrt(T(square(b) - T(4) * squared_helix * squared_chord)));
    const T sine = elementary::sqrt(y);
    const T cosine = elementary::sqrt(T(T(1) - y));
    const T half_angle = elementary::atan(T(sine / cosine)) + squared_helix * sine * cosine;
    const T at_base = half_angle + inv_from_tangent(g.tangent_of_pressure_angle(diameter));
    return T(T(g.teeth()) * g.normal_module() * (at_base - inv(g.transverse_pressure_angle())));
}

/// Constant chord, s-bar_c and h-bar_c: between the points in which the flanks touch the basic rack that lies symmetrically over the
/// tooth. The same for all gears of a module, pressure angle and shift, spur or helical (in the normal section).
/// s-bar_c = s_n cos^2 alpha_n;  h-bar_c = h_a - s_n/2 sin alpha_n cos alpha_n. Accuracy: 8 ulp; the height 4 ulp of
/// the tip diameter.
template <scalar T>
constexpr chord<T> constant_chord(const gear<T>& g) {
    const T cosine = cos(g.normal_pressure_angle());
    const T sine = sin(g.normal_pressure_angle());
    const T thickness = g.normal_tooth_thickness();
    return {.thickness = T(thickness * square(cosine)),
            .height = T((g.effective_tip_diameter() - g.reference_diameter()) / T(2) - thickness / T(2) * sine * cosine)};
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose constant chord has been measured.
/// Throws geometry_error unless the chord is greater than 0.
template <scalar T>
constexpr T normal_tooth_thickness_from_constant_chord(const gear<T>& g, const T& chordal_thickness) {
    require(check_greater("constant chord", chordal_thickness, T(0)));
    const T thickness = chordal_thickness / square(cos(g.normal_pressure_angle()));
    require(check_finite("normal_tooth_thickness", thickness));
    return thickness;
}

/// Diameter on which the ends of the constant chord lie. In the normal section they are at the height s_n/2 sin alpha_n cos alpha_n
/// over the reference cylinder and half the chord to either side, turned by the helix:
/// (d_c/2)^2 = (d/2 + h)^2 + (s-bar_c/2 cos beta)^2.
template <scalar T>
constexpr T constant_chord_diameter(const gear<T>& g) {
    const T cosine = cos(g.normal_pressure_angle());
    const T half = g.normal_tooth_thickness() / T(2) * cosine;
    const T radial = g.reference_diameter() / T(2) + half * sin(g.normal_pressure_angle());
    return T(T(2) * elementary::sqrt(T(square(radial) + square(T(half * cosine * cos(g.helix_angle()))))));
}

} // namespace rackwork

#endif
