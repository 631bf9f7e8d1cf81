// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What the tests of solids share: gears and bodies of every kind, and a look at boundaries that knows nothing of how they were made.
#pragma once

#include "refusal.hpp"
#include "solid_volume.hpp"

#include <rackwork/solid/body.hpp>
#include <rackwork/solid/brep.hpp>
#include <rackwork/solid/gear_solid.hpp>

#include <doctest/doctest.h>

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
        {"spur, chamfered tooth ends", spur, {.blank = {.bore_diameter = 14}, .tip_end_chamfer = 1}},
        {"helical, chamfered tooth ends",
         helical,
         {.blank = {.bore_diameter = 12}, .tip_end_chamfer = 1.1, .tip_end_chamfer_angle = deg(30.)}},
        {"helical, tooth ends chamfered almost to the root",
         helical,
         {.tip_end_chamfer = 4.2, .tip_end_chamfer_angle = deg(60.)}},
        {"pointed, chamfered tooth ends",
         gear<double>({.normal_module = 2, .teeth = 8, .profile_shift = 0.9, .face_width = 12}),
         {.tip_end_chamfer = 1.5}},
        {"undercut, tooth ends chamfered far into the fillets",
         gear<double>({.normal_module = 5, .teeth = 9, .face_width = 30}),
         {.blank = {.bore_diameter = 8}, .tip_end_chamfer = 9}},
        {"steep helix, chamfered tooth ends",
         gear<double>(
             {.normal_module = 1.5, .teeth = 5, .helix_angle = deg(62.), .profile_shift = 0.4, .face_width = 16}),
         {.tip_end_chamfer = 1}},
        {"double helical, chamfered tooth ends", helical, {.halves = {{}}, .tip_end_chamfer = 1}},
        {"double helical with a gap, chamfered tooth ends",
         helical,
         {.blank = {.bore_diameter = 10},
          .halves = {{.gap_width = 6, .gap_diameter = 26}},
          .tip_end_chamfer = 1}},
        {"tip chamfers, chamfered tooth ends",
         gear<double>({.normal_module = 2, .teeth = 15, .helix_angle = deg(20.), .face_width = 14, .tip_chamfer = 0.3}),
         {.tip_end_chamfer = 0.7}},
        {"tip roundings, chamfered tooth ends",
         gear<double>(
             {.normal_module = 2, .teeth = 15, .helix_angle = deg(-20.), .face_width = 14, .tip_rounding = 0.2}),
         {.tip_end_chamfer = 0.1}},
        {"internal, chamfered tooth ends and rim",
         ring,
         {.rim_diameter = 95, .tip_end_chamfer = 1, .rim_chamfer = 1.5}},
        {"keyway, chamfered bore",
         spur,
         {.blank = {.bore_diameter = 20}, .key_slot = rackwork::metric_keyway(20), .bore_chamfer = 1}},
        {"keyway, bore chamfered deeper than the keyway",
         spur,
         {.blank = {.bore_diameter = 20}, .key_slot = rackwork::metric_keyway(20), .bore_chamfer = 2.85}},
        {"web and hub, everything chamfered",
         spur,
         {.blank =
              {.bore_diameter = 16, .rim_inner_diameter = 50, .hub_diameter = 28, .hub_length = 30, .web_thickness = 8},
          .key_slot = rackwork::metric_keyway(16),
          .bore_chamfer = 0.8,
          .tip_end_chamfer = 1,
          .rim_chamfer = 1,
          .hub_chamfer = 1.2}},
    };
}

inline bool has_chamfers(const body_parameters& b) {
    return b.bore_chamfer > 0 || b.tip_end_chamfer > 0 || b.rim_chamfer > 0 || b.hub_chamfer > 0;
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

/// The quantity for which a body is refused, by check and by whatever builds it; empty for one that can be.
inline std::string quantity_refused(const rackwork::gear<double>& g, const rackwork::body_parameters& body) {
    const rackwork::violation v = check(body, g);
    if (v) CHECK(support::refused_quantity([&] { return rackwork::brep_of(g, body); }) == v.quantity);
    return v ? v.quantity : "";
}

} // namespace solid_support
