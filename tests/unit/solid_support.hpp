// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What the tests of solids share: gears and bodies of every kind, and a look at boundaries that knows nothing of how they were made.
#pragma once

#include <rackwork/form/section.hpp>
#include <rackwork/solid/body.hpp>
#include <rackwork/solid/brep.hpp>

#include <cmath>
#include <cstddef>
#include <map>
#include <numbers>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace solid_support {

using rackwork::body_parameters;
using rackwork::brep;
using rackwork::brep_edge_use;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::point;
using rackwork::point3;

struct named_body {
    std::string name;
    gear<double> g;
    body_parameters body;
};

inline std::vector<named_body> bodies() {
    const gear<double> spur({.normal_module = 2, .teeth = 32, .face_width = 20});
    const gear<double> helical(
        {.normal_module = 2, .teeth = 17, .helix_angle = deg(-22.), .profile_shift = 0.2, .face_width = 25});
    const gear<double> ring(
        {.normal_module = 2, .teeth = 36, .kind = gear_kind::internal, .helix_angle = deg(15.), .face_width = 15});
    return {
        {"spur, no bore", spur, {}},
        {"spur, bore", spur, {.blank = {.bore_diameter = 14}}},
        {"spur, chamfered bore", spur, {.blank = {.bore_diameter = 14}, .bore_chamfer = 1}},
        {"spur, keyway", spur, {.blank = {.bore_diameter = 20}, .key_slot = rackwork::metric_keyway(20)}},
        {"spur, web and hub",
         spur,
         {.blank =
              {.bore_diameter = 16, .rim_inner_diameter = 50, .hub_diameter = 28, .hub_length = 30, .web_thickness = 8},
          .bore_chamfer = 1}},
        {"spur, web as wide as the face, hub shorter than the face",
         spur,
         {.blank = {.bore_diameter = 16,
                    .rim_inner_diameter = 50,
                    .hub_diameter = 28,
                    .hub_length = 20,
                    .web_thickness = 20}}},
        {"helical", helical, {.blank = {.bore_diameter = 12}}},
        {"steep helix",
         gear<double>(
             {.normal_module = 1.5, .teeth = 5, .helix_angle = deg(62.), .profile_shift = 0.4, .face_width = 60}),
         {}},
        {"pointed", gear<double>({.normal_module = 2, .teeth = 8, .profile_shift = 0.9, .face_width = 12}), {}},
        {"undercut", gear<double>({.normal_module = 5, .teeth = 9, .face_width = 12}), {.blank = {.bore_diameter = 8}}},
        {"double helical with a gap",
         helical,
         {.blank = {.bore_diameter = 10}, .halves = {{.gap_width = 6, .gap_diameter = 26}}}},
        {"double helical", helical, {.halves = {{}}}},
        {"tip chamfers, helical",
         gear<double>({.normal_module = 2, .teeth = 15, .helix_angle = deg(20.), .face_width = 14, .tip_chamfer = 0.3}),
         {.blank = {.bore_diameter = 10}}},
        {"tip roundings, spur",
         gear<double>({.normal_module = 2, .teeth = 15, .face_width = 14, .tip_rounding = 0.2}),
         {.blank = {.bore_diameter = 10}}},
        {"tip roundings, helical",
         gear<double>(
             {.normal_module = 2, .teeth = 15, .helix_angle = deg(20.), .face_width = 14, .tip_rounding = 0.2}),
         {}},
        {"internal, tip roundings",
         gear<double>({.normal_module = 2,
                       .teeth = 36,
                       .kind = gear_kind::internal,
                       .helix_angle = deg(15.),
                       .face_width = 15,
                       .tip_rounding = 0.2}),
         {.rim_diameter = 95}},
        {"internal", ring, {.rim_diameter = 95}},
        {"internal, double helical with a gap",
         ring,
         {.rim_diameter = 95, .halves = {{.gap_width = 3, .gap_diameter = 85}}}},
    };
}

/// Volume of the exact body, from the areas of its sections.
inline double exact_volume(const gear<double>& g, const body_parameters& body) {
    const auto disc = [](double diameter) { return std::numbers::pi / 4 * diameter * diameter; };
    const double width = g.parameters().face_width;
    const double gap = body.halves ? body.halves->gap_width : 0;
    const double teeth = outline_of(g).area() * (width - gap) + (gap > 0 ? disc(body.halves->gap_diameter) * gap : 0);
    if (g.is_internal()) return disc(body.rim_diameter) * width - teeth;
    const rackwork::gear_blank<double>& b = body.blank;
    const double r = b.bore_diameter / 2;
    double bore = disc(b.bore_diameter);
    if (body.key_slot) {
        const double h = body.key_slot->width / 2;
        bore += 2 * h * (r + body.key_slot->hub_depth) - (h * std::sqrt(r * r - h * h) + r * r * std::asin(h / r));
    }
    const double R = r + body.bore_chamfer;
    const double chamfers = 2 * std::numbers::pi * body.bore_chamfer * ((r * r + r * R + R * R) / 3 - r * r);
    if (b.rim_inner_diameter == 0) return teeth - bore * width - chamfers;
    const double hub = b.hub_diameter > b.bore_diameter ? disc(b.hub_diameter) : bore;
    const double hub_length = b.hub_diameter > b.bore_diameter ? b.hub_length : b.web_thickness;
    return teeth - disc(b.rim_inner_diameter) * width + (disc(b.rim_inner_diameter) - hub) * b.web_thickness +
           (hub - bore) * hub_length - chamfers;
}

/// Point of a clamped B-spline at a parameter in [0, 1], by de Boor's recursion; any type of point.
template <class Point>
Point spline_point(int degree, const std::vector<double>& knots, const std::vector<Point>& control, double u) {
    const std::size_t p = static_cast<std::size_t>(degree);
    std::size_t k = p;
    while (k + 1 < control.size() && knots[k + 1] <= u) ++k;
    std::vector<Point> d(control.begin() + static_cast<std::ptrdiff_t>(k - p),
                         control.begin() + static_cast<std::ptrdiff_t>(k + 1));
    for (std::size_t level = 1; level <= p; ++level) {
        for (std::size_t j = p; j >= level; --j) {
            const double low = knots[k - p + j];
            const double share = (u - low) / (knots[k + 1 + j - level] - low);
            d[j] = (1 - share) * d[j - 1] + share * d[j];
        }
    }
    return d[p];
}

} // namespace solid_support
