// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Area and second moments of the transverse section, exact for teeth; volume and moments of inertia of the body.
#ifndef RACKWORK_FORM_SECTION_HPP
#define RACKWORK_FORM_SECTION_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "fillet_area.hpp"
#include "outline.hpp"
#include "segment.hpp"
#include "tooth.hpp"

#include <cstddef>
#include <variant>
#include <vector>

namespace rackwork {

/// Polar second moment about the gear's axis of the area that the line from the axis sweeps while the parameter goes from 0 to
/// t; only differences have a meaning. 1/4 integral r^2 (x dy - y dx) [length^4], counter-clockwise positive.
///
/// Circle about (x_c, y_c): with w = x_c cos t + y_c sin t and e^2 = x_c^2 + y_c^2 the integrand is
/// R ((e^2 + R^2) R + (e^2 + 3 R^2) w + 2 R w^2).
template <scalar T>
constexpr T swept_polar_moment(const circle<T>& c, const T& t) {
    const T R = c.radius;
    const T squared_offset = dot(c.centre, c.centre);
    const point<T> radial = direction(t);
    const T of_w = cross(radial, c.centre) * T(-1);
    // w^2 = (e^2 + (x_c^2 - y_c^2) cos 2t + 2 x_c y_c sin 2t)/2
    const T of_w_squared = (squared_offset * t + (square(c.centre.x) - square(c.centre.y)) * radial.x * radial.y +
                            T(2) * c.centre.x * c.centre.y * square(radial.y)) /
                           T(2);
    return T(
        R / T(4) *
        ((squared_offset + square(R)) * R * t + (squared_offset + T(3) * square(R)) * of_w + T(2) * R * of_w_squared));
}

/// Involute: r_b^4/4 integral (1 + t^2) t^2 dt = r_b^4 t^3 (1/12 + t^2/20), counter-clockwise positive.
template <scalar T>
constexpr T swept_polar_moment(const involute<T>& c, const T& t) {
    const T hand = T(static_cast<int>(c.unwinding));
    return T(hand * square(square(c.base_radius)) * t * square(t) * (T(1) / T(12) + square(t) / T(20)));
}

/// Root fillet: from its shape.
template <scalar T, class Shape>
T swept_polar_moment(const root_fillet<T, Shape>& c, const T& t) {
    return T(T(static_cast<int>(c.side)) * polar_moment_under(c.shape, t));
}

/// A segment's exact share in the polar second moment of the area that its outline encloses.
template <scalar T>
T swept_polar_moment(const segment<T>& s) {
    return std::visit([&](const auto& c) { return T(swept_polar_moment(c, s.to) - swept_polar_moment(c, s.from)); },
                      s.curve);
}

/// Area and second moment of a section about the gear's axis.
template <scalar T>
struct section_properties {
    /// Area [length^2].
    T area{0};
    /// Polar second moment of area about the axis, J = integral r^2 dA [length^4].
    T polar_moment{0};

    /// Axial second moment of area, I = integral x^2 dA = J/2 [length^4]: the same about every line through the axis, which
    /// holds for circles and for gears of three teeth and more.
    constexpr T axial_moment() const { return T(polar_moment / T(2)); }
    /// Radius of gyration about the axis, sqrt(J/A).
    constexpr T radius_of_gyration() const { return elementary::sqrt(T(polar_moment / area)); }

    friend constexpr section_properties operator+(const section_properties& a, const section_properties& b) {
        return {T(a.area + b.area), T(a.polar_moment + b.polar_moment)};
    }
    friend constexpr section_properties operator-(const section_properties& a, const section_properties& b) {
        return {T(a.area - b.area), T(a.polar_moment - b.polar_moment)};
    }
};

/// Section of a full disc: pi d^2/4 and pi d^4/32. Throws geometry_error unless the diameter is finite and at least 0.
template <scalar T>
constexpr section_properties<T> disc_section(const T& diameter) {
    require(check_at_least("diameter", diameter, T(0)));
    const T squared = square(diameter);
    return {.area = T(pi<T>() * squared / T(4)), .polar_moment = T(pi<T>() * square(squared) / T(32))};
}

/// Area and polar second moment of what an outline encloses, exact up to rounding.
template <scalar T>
section_properties<T> section_of(const outline<T>& o) {
    section_properties<T> sum;
    for (const segment<T>& s : o.segments) sum = sum + section_properties<T>{s.swept_area(), swept_polar_moment(s)};
    return sum;
}

namespace detail {

/// What the outline of a tooth form encloses, from one pitch in closed form.
template <scalar T>
section_properties<T> section_inside(const tooth_form<T>& form) {
    require(check_at_least("teeth", T(form.teeth()), T(3)));
    outline<T> pitch;
    form.append_tooth(pitch.segments, 0);
    const section_properties<T> one = section_of(pitch);
    const section_properties<T> all{.area = T(T(form.teeth()) * one.area),
                                    .polar_moment = T(T(form.teeth()) * one.polar_moment)};
    // The fourth power of a length leaves the range of T sooner than the gear does.
    require(check_greater("polar second moment", all.polar_moment, T(0)));
    return all;
}

} // namespace detail

/// Transverse section of an external gear, teeth included, solid to the axis: one pitch in closed form, times z.
/// Accuracy for double, in units of epsilon: 32 + z tan^2 alpha_t. The second part comes from the flanks' angles, which are
/// small differences of involute functions where the teeth are many and steep; 8 for a standard spur gear of 60 teeth.
/// Throws geometry_error as generated_root does, where the moment leaves the range of T, and for fewer than three teeth, whose
/// section has two different axial moments. (Its area and polar moment are those of section_of(outline_of(g)).)
template <scalar T>
section_properties<T> transverse_section(const gear<T>& g) {
    if (g.is_internal()) impossible_geometry({"kind", 1, "must be external; see ring_section", 0, false});
    return detail::section_inside(tooth_form<T>(g));
}

/// Transverse section of an internal gear with a round rim. Throws geometry_error for an external gear, unless the rim is larger than the
/// root diameter, and as transverse_section does. Accuracy as there, of the disc's properties.
template <scalar T>
section_properties<T> ring_section(const gear<T>& g, const T& rim_diameter) {
    if (!g.is_internal()) impossible_geometry({"kind", 0, "must be internal", 0, false});
    const tooth_form<T> form(g);
    require(check_greater("rim_diameter", rim_diameter, form.root().root_diameter()));
    return disc_section(rim_diameter) - detail::section_inside(form);
}

/// The body on which the teeth sit, apart from its face width: a bore, and, where there is a web, hub and rim. Diameters and
/// lengths in the module's unit; rim, web and hub have their middle planes in common.
template <scalar T = double>
struct gear_blank {
    /// Bore diameter. 0 for a gear without bore.
    T bore_diameter{0};
    /// Inner diameter of the rim. 0 for a gear without web: then it is solid from the bore to the teeth.
    T rim_inner_diameter{0};
    /// Outer diameter of the hub, from the bore diameter to the rim's inner diameter; equal to the bore diameter where there is
    /// no hub.
    T hub_diameter{0};
    /// Length of the hub.
    T hub_length{0};
    /// Thickness of the web between hub and rim.
    T web_thickness{0};
};

/// What is impossible about a blank for an external gear, or nothing.
template <scalar T>
constexpr violation check(const gear_blank<T>& blank, const gear<T>& g) {
    if (g.is_internal()) return {"kind", 1, "must be external for a blank with a bore; see ring_body_of", 0, false};
    const T root = g.generated_root_diameter();
    if (const violation v = first_of(check_greater("face_width", g.parameters().face_width, T(0)),
                                     check_at_least("bore_diameter", blank.bore_diameter, T(0)),
                                     check_less("bore_diameter", blank.bore_diameter, root),
                                     check_at_least("rim_inner_diameter", blank.rim_inner_diameter, T(0)),
                                     check_less("rim_inner_diameter", blank.rim_inner_diameter, root))) {
        return v;
    }
    if (blank.rim_inner_diameter == T(0)) return {};
    return first_of(check_at_least("hub_diameter", blank.hub_diameter, blank.bore_diameter),
                    check_at_most("hub_diameter", blank.hub_diameter, blank.rim_inner_diameter),
                    check_at_least("hub_length", blank.hub_length, T(0)),
                    check_at_least("web_thickness", blank.web_thickness, T(0)));
}

/// Volume and moments of inertia of a body for a density of 1: times the density they are mass and moments of inertia.
template <scalar T>
struct body_properties {
    /// Volume, V [length^3].
    T volume{0};
    /// Moment of inertia about the gear's axis [length^5].
    T moment_about_axis{0};
    /// Moment of inertia about any line through the centre of gravity and square to the axis [length^5].
    T moment_across_axis{0};

    friend constexpr body_properties operator+(const body_properties& a, const body_properties& b) {
        return {T(a.volume + b.volume), T(a.moment_about_axis + b.moment_about_axis),
                T(a.moment_across_axis + b.moment_across_axis)};
    }
};

/// A section drawn out along the axis, from -length/2 to length/2, straight or, as a helical gear's, along a screw: V = A b,
/// about the axis J b, across it J b/2 + A b^3/12. Turning the section does not change them, because its axial moments are
/// equal.
template <scalar T>
constexpr body_properties<T> prism_of(const section_properties<T>& section, const T& length) {
    require(check_at_least("length of the body", length, T(0)));
    const body_properties<T> body{
        .volume = T(section.area * length),
        .moment_about_axis = T(section.polar_moment * length),
        .moment_across_axis = T(section.axial_moment() * length + section.area * length * square(length) / T(12))};
    require(first_of(check_finite("moment of inertia about the axis", body.moment_about_axis),
                     check_finite("moment of inertia across the axis", body.moment_across_axis)));
    return body;
}

/// Volume and moments of inertia of a whole external gear, spur or helical: teeth and rim over the face width, web, hub, less the bore.
/// Exact up to rounding for teeth with sharp edges; there are no chamfers, roundings, keyways or holes in the web.
/// Accuracy for double: that of transverse_section. Throws geometry_error as transverse_section does, and if check(blank, g)
/// finds something.
template <scalar T>
body_properties<T> body_of(const gear<T>& g, const gear_blank<T>& blank = {}) {
    require(check(blank, g));
    const T width = g.parameters().face_width;
    const section_properties<T> teeth = transverse_section(g);
    const section_properties<T> bore = disc_section(blank.bore_diameter);
    if (blank.rim_inner_diameter == T(0)) return prism_of(teeth - bore, width);
    const section_properties<T> inside_rim = disc_section(blank.rim_inner_diameter);
    const section_properties<T> hub = disc_section(blank.hub_diameter);
    return prism_of(teeth - inside_rim, width) + prism_of(inside_rim - hub, blank.web_thickness) +
           prism_of(hub - bore, blank.hub_length);
}

/// The same for an internal gear with a round rim, as wide as its face. Throws geometry_error as ring_section does and unless the face width is
/// stated.
template <scalar T>
body_properties<T> ring_body_of(const gear<T>& g, const T& rim_diameter) {
    require(check_greater("face_width", g.parameters().face_width, T(0)));
    return prism_of(ring_section(g, rim_diameter), g.parameters().face_width);
}

} // namespace rackwork

#endif
