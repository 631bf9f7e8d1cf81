// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Volume of a gear's body by first principles: areas of sections times their lengths, less what chamfers take, by Pappus and by quadrature.
#pragma once

#include <rackwork/form/outline.hpp>
#include <rackwork/solid/body.hpp>

#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <cmath>
#include <numbers>

namespace solid_support {

inline double disc(double diameter) { return std::numbers::pi / 4 * diameter * diameter; }

/// A triangle with two equal legs and its right angle at a radius, turned round the axis (Pappus): what a chamfer takes off an outer edge there
/// (towards the axis), or with a negative size off an inner edge.
inline double chamfer_ring(double radius, double size) {
    return std::numbers::pi * (radius - size / 3) * size * size;
}

template <class F>
double integral(const F& f, double from, double to) {
    return boost::math::quadrature::gauss_kronrod<double, 31>::integrate(f, from, to, 12, 1e-11);
}

/// What the cone of one end takes off the teeth: the integral of its height over the section beyond the end's circle. In polar
/// coordinates that is the integral of G(r) over the angle along the outline, dG = height(r) r dr.
inline double tip_end_volume(const rackwork::gear<double>& g, const rackwork::outline<double>& section,
                             const rackwork::body_parameters& body) {
    if (body.tip_end_chamfer == 0) return 0;
    const double sign = g.is_internal() ? -1 : 1;
    const double circle = g.tip_diameter() / 2 - sign * body.tip_end_chamfer;
    const double rise = std::tan(body.tip_end_chamfer_angle.rad());
    // Of rise (r - circle) r from the circle to r.
    const auto G = [&](double r) {
        return sign * rise * (r * r * r / 3 - circle * r * r / 2 + circle * circle * circle / 6);
    };
    const auto is_cut = [&](double r) { return sign * (r - circle) > 0; };
    double volume = 0;
    for (const auto& s : section.segments) {
        const bool first = is_cut(length(s.start));
        const bool last = is_cut(length(s.end));
        if (!first && !last) continue;
        double from = s.from;
        double to = s.to;
        if (first != last) {
            double low = s.from;
            double high = s.to;
            for (int i = 0; i < 80; ++i) {
                const double middle = (low + high) / 2;
                (is_cut(length(s.position(middle))) == first ? low : high) = middle;
            }
            (first ? to : from) = low;
        }
        const auto of_angle = [&](double t) {
            const auto p = s.position(t);
            const auto v = std::visit([&](const auto& c) { return c.velocity(t); }, s.curve);
            return G(length(p)) * cross(p, v) / dot(p, p);
        };
        volume += integral(of_angle, from, to);
    }
    return sign * volume;
}

/// What the bore's chamfer takes at one end: circle by circle, where no keyway is; beyond the keyway's bottom also in its width.
inline double bore_end_volume(const rackwork::body_parameters& body) {
    const double r = body.blank.bore_diameter / 2;
    const double c = body.bore_chamfer;
    if (!body.key_slot) return chamfer_ring(r, -c);
    const double half = body.key_slot->width / 2;
    const double bottom = r + body.key_slot->hub_depth;
    const auto height = [&](double radius) { return (r + c - radius) * radius; };
    double volume = integral(
        [&](double radius) { return height(radius) * 2 * (std::numbers::pi - std::asin(half / radius)); }, r, r + c);
    if (r + c > bottom) {
        volume += integral([&](double radius) { return height(radius) * 2 * std::acos(bottom / radius); }, bottom, r + c);
    }
    return volume;
}

/// Volume of the exact body.
inline double exact_volume(const rackwork::gear<double>& g, const rackwork::outline<double>& section,
                           const rackwork::body_parameters& body) {
    const double width = g.parameters().face_width;
    const double gap = body.halves ? body.halves->gap_width : 0;
    const double within = section.area() * (width - gap) + (gap > 0 ? disc(body.halves->gap_diameter) * gap : 0);
    const double of_tips = 2 * tip_end_volume(g, section, body);
    if (g.is_internal())
        return disc(body.rim_diameter) * width - within - of_tips - 2 * chamfer_ring(body.rim_diameter / 2, body.rim_chamfer);
    const double teeth = within - of_tips;
    const rackwork::gear_blank<double>& b = body.blank;
    const double r = b.bore_diameter / 2;
    double bore = disc(b.bore_diameter);
    if (body.key_slot) {
        // A rectangle from the axis to the keyway's bottom, less the part of the bore in it.
        const double h = body.key_slot->width / 2;
        bore += 2 * h * (r + body.key_slot->hub_depth) - (h * std::sqrt(r * r - h * h) + r * r * std::asin(h / r));
    }
    const double of_bore = body.bore_chamfer > 0 ? 2 * bore_end_volume(body) : 0;
    if (b.rim_inner_diameter == 0) return teeth - bore * width - of_bore;
    const bool has_hub = b.hub_diameter > b.bore_diameter;
    const double hub = has_hub ? disc(b.hub_diameter) : bore;
    const double hub_length = has_hub ? b.hub_length : b.web_thickness;
    return teeth - disc(b.rim_inner_diameter) * width + (disc(b.rim_inner_diameter) - hub) * b.web_thickness +
           (hub - bore) * hub_length - of_bore - 2 * chamfer_ring(b.rim_inner_diameter / 2, -body.rim_chamfer) -
           2 * chamfer_ring(b.hub_diameter / 2, body.hub_chamfer);
}

inline double exact_volume(const rackwork::gear<double>& g, const rackwork::body_parameters& body) {
    return exact_volume(g, outline_of(g), body);
}

} // namespace solid_support
