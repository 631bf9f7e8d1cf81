// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a tooth caliper reads: chordal thickness and height at a diameter, chords of spaces, and the constant chord.
#ifndef RACKWORK_MEASURE_CHORD_HPP
#define RACKWORK_MEASURE_CHORD_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "helix_distance.hpp"
#include "kind_check.hpp"

namespace rackwork {

/// A chord of a tooth as a caliper takes it: its length, and the height of the tip above its middle.
template <scalar T>
struct chord {
    /// Chordal thickness.
    T thickness;
    /// Chordal height (chordal addendum): from the chord to the tip of the tooth. Close to the tips of internal teeth negative, because
    /// there the chord lies before the hollow tip.
    T height;
};

/// A chord of a space: its length, and how deep its middle lies below the tip circle.
template <scalar T>
struct space_chord {
    T width;
    T depth;
};

namespace detail {

/// Where a chord can be: between the base circle and the tip; of internal teeth between the tip and where they close the space.
template <scalar T>
constexpr violation check_chord(const gear<T>& g, const T& diameter) {
    if (const violation v = g.is_internal() ? check_at_least("diameter", diameter, g.effective_tip_diameter())
                                            : first_of(check_at_least("diameter", diameter, g.base_diameter()),
                                                       check_at_most("diameter", diameter, g.effective_tip_diameter()))) {
        return v;
    }
    return g.is_internal() ? check_at_least("space width at the diameter", g.space_width(diameter), T(0)) : violation{};
}

/// Shortest distance of two helices on a cylinder that are an angle apart in each transverse section, and the cosine by which its middle is
/// nearer to the axis:  d_y sin phi sqrt(1 + tan^2 beta_y cos^2 phi)  with  phi + tan^2 beta_y sin phi cos phi = half the angle.
template <scalar T>
struct helix_chord {
    T length;
    T cosine;
};
template <scalar T>
constexpr T squared_tangent_of_helix(const gear<T>& g, const T& diameter) {
    return T(square(T(g.tangent_of_helix_angle() * (diameter / g.reference_diameter()))));
}
template <scalar T>
constexpr helix_chord<T> chord_of_helices(const gear<T>& g, const T& diameter, const T& half_angle) {
    const T squared_helix = squared_tangent_of_helix(g, diameter);
    const T phi = kepler_angle(larger(half_angle, T(0)), squared_helix);
    const T cosine = elementary::cos(phi);
    return {T(diameter * elementary::sin(phi) * elementary::sqrt(T(T(1) + squared_helix * square(cosine)))), cosine};
}

/// The same solved for half the angle. With y = sin^2 phi:
/// tan^2 beta_y y^2 - (1 + tan^2 beta_y) y + (s-bar/d_y)^2 = 0, the smaller root.
template <scalar T>
constexpr T half_angle_from_chord(const gear<T>& g, const T& diameter, const T& length) {
    const T squared_helix = squared_tangent_of_helix(g, diameter);
    const T squared_chord = square(T(length / diameter));
    const T b = T(1) + squared_helix;
    const T y = T(2) * squared_chord / (b + elementary::sqrt(T(square(b) - T(4) * squared_helix * squared_chord)));
    const T sine = elementary::sqrt(y);
    const T cosine = elementary::sqrt(T(T(1) - y));
    return T(elementary::atan(T(sine / cosine)) + squared_helix * sine * cosine);
}

/// Normal tooth thickness at the reference cylinder of a gear that has half an angle of tooth at a diameter.
template <scalar T>
constexpr T normal_tooth_thickness_from_half_angle(const gear<T>& g, const T& diameter, const T& half_angle) {
    const T sign = g.kind_sign();
    const T at_base = half_angle + sign * inv_from_tangent(g.tangent_of_pressure_angle(diameter));
    return T(T(g.teeth()) * g.normal_module() * (at_base - sign * g.involute_of_transverse_pressure_angle()));
}

} // namespace detail

/// Largest error of a chord at a diameter for float, double and long double, in units in the last place (ulp) of that diameter; of its height in
/// those of the greater of tip diameter and diameter.
inline constexpr int chord_error_bound = 4;

/// Chord at a diameter, s-bar and h-bar: the shortest distance between the two flanks' lines on that cylinder, as caliper jaws take it.
/// Spur gears: s-bar = d_y sin(s_y/d_y). Helical gears: the exact distance of the two helices,
///   s-bar = d_y sin phi sqrt(1 + tan^2 beta_y cos^2 phi)  with  phi + tan^2 beta_y sin phi cos phi = s_y/d_y,
/// and h-bar = sigma (d_a - d_y cos phi)/2. Accuracy: chord_error_bound.
/// Throws geometry_error below the base diameter, beyond the tip, where internal teeth have no space between them, and where the flanks are
/// further apart than half a turn.
template <scalar T>
constexpr chord<T> chord_at(const gear<T>& g, const T& diameter) {
    require(detail::check_chord(g, diameter));
    const T half_angle = g.tooth_half_angle(diameter);
    require(check_at_most("half the tooth's angle at the diameter (rad)", half_angle, T(pi<T>() / T(2))));
    const detail::helix_chord<T> across = detail::chord_of_helices(g, diameter, half_angle);
    return {.thickness = across.length,
            .height = T(g.kind_sign() * (g.effective_tip_diameter() - diameter * across.cosine) / T(2))};
}

/// Chord of the space at a diameter, e-bar: as chord_at, but from tooth to tooth across the space, e_y for s_y. Measured with inside jaws.
/// Accuracy and errors as chord_at, and an external gear must have a space at the diameter, too.
template <scalar T>
constexpr space_chord<T> space_chord_at(const gear<T>& g, const T& diameter) {
    require(detail::check_chord(g, diameter));
    const T half_angle = g.space_width(diameter) / diameter;
    require(first_of(check_at_least("half the space's angle at the diameter (rad)", half_angle, T(0)),
                     check_at_most("half the space's angle at the diameter (rad)", half_angle, T(pi<T>() / T(2)))));
    const detail::helix_chord<T> across = detail::chord_of_helices(g, diameter, half_angle);
    return {.width = across.length,
            .depth = T(g.kind_sign() * (g.effective_tip_diameter() - diameter * across.cosine) / T(2))};
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose chordal thickness at a diameter has been measured.
/// The gear gives all but its own thickness. Throws geometry_error below the base diameter and for a chord that cannot be one there.
template <scalar T>
constexpr T normal_tooth_thickness_from_chord(const gear<T>& g, const T& diameter, const T& chordal_thickness) {
    require(first_of(check_at_least("diameter", diameter, g.base_diameter()),
                     check_greater("chordal_thickness", chordal_thickness, T(0)),
                     check_less("chordal_thickness", chordal_thickness, diameter)));
    return detail::normal_tooth_thickness_from_half_angle(g, diameter, detail::half_angle_from_chord(g, diameter, chordal_thickness));
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear of which the chord of a space at a diameter has been measured.
/// The gear gives all but its own thickness. Throws geometry_error below the base diameter and for a chord that cannot be one there.
template <scalar T>
constexpr T normal_tooth_thickness_from_space_chord(const gear<T>& g, const T& diameter, const T& chordal_width) {
    require(first_of(check_at_least("diameter", diameter, g.base_diameter()), check_greater("chordal_width", chordal_width, T(0)),
                     check_less("chordal_width", chordal_width, diameter)));
    const T space = detail::half_angle_from_chord(g, diameter, chordal_width);
    return detail::normal_tooth_thickness_from_half_angle(g, diameter, T(pi<T>() / T(g.teeth()) - space));
}

/// Constant chord, s-bar_c and h-bar_c: between the points in which the flanks touch the basic rack that lies symmetrically over the
/// tooth. The same for all gears of a module, pressure angle and shift, spur or helical (in the normal section).
/// s-bar_c = s_n cos^2 alpha_n;  h-bar_c = h_a - s_n/2 sin alpha_n cos alpha_n. Accuracy: 8 ulp; the height 4 ulp of
/// the tip diameter.
///
/// No rack rolls in an internal gear, but the points are there, and the formulas are the same: where the flanks' normals through the tooth's
/// middle on the reference circle stand on the flanks. Throws geometry_error for internal gears of so few teeth that these
/// normals would meet the base circle first.
template <scalar T>
constexpr chord<T> constant_chord(const gear<T>& g) {
    const T tangent = g.tangent_of_normal_pressure_angle();
    const T squared_cosine = T(1) / (T(1) + square(tangent));
    const T thickness = g.normal_tooth_thickness();
    if (g.is_internal()) {
        const T along = thickness / T(2) * detail::cosine_of_normal_pressure_angle(g) / detail::secant_of_base_helix_angle(g);
        require(check_at_most("way from the middle of the tooth to its flank along the base tangent", along,
                              T(g.base_diameter() / T(2) * g.tangent_of_transverse_pressure_angle())));
    }
    const bool pointed = g.effective_tip_diameter() != g.tip_diameter();
    const T addendum =
        pointed ? T(g.kind_sign() * (g.effective_tip_diameter() - g.reference_diameter()) / T(2)) : g.addendum();
    return {.thickness = T(thickness * squared_cosine), .height = T(addendum - thickness / T(2) * (tangent * squared_cosine))};
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose constant chord has been measured.
/// Throws geometry_error unless the chord is greater than 0.
template <scalar T>
constexpr T normal_tooth_thickness_from_constant_chord(const gear<T>& g, const T& chordal_thickness) {
    require(check_greater("constant chord", chordal_thickness, T(0)));
    const T thickness = chordal_thickness * (T(1) + square(g.tangent_of_normal_pressure_angle()));
    require(check_finite("normal_tooth_thickness", thickness));
    return thickness;
}

/// Diameter on which the ends of the constant chord lie. In the normal section they are at the height s_n/2 sin alpha_n cos alpha_n
/// from the reference cylinder towards the tip and half the chord to either side, turned by the helix:
/// (d_c/2)^2 = (d/2 + sigma h)^2 + (s-bar_c/2 cos beta)^2.
template <scalar T>
constexpr T constant_chord_diameter(const gear<T>& g) {
    const T half = constant_chord(g).thickness / T(2);
    const T radial = g.reference_diameter() / T(2) + g.kind_sign() * half * g.tangent_of_normal_pressure_angle();
    return T(T(2) * elementary::sqrt(T(square(radial) + square(T(half * g.cosine_of_helix_angle())))));
}

} // namespace rackwork

#endif
