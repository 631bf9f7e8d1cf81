// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Solids by their boundary: watertight, right side out, edges on the surfaces of both their faces, surfaces on the exact form.
#include "solid_support.hpp"

#include <rackwork/solid/gear_solid.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace {

using namespace solid_support;
using rackwork::brep_edge;
using rackwork::brep_face;
using rackwork::brep_of;

/// Point of a curve given by control points and perhaps weights.
point3 rational_point(int degree, const std::vector<double>& knots, const std::vector<point3>& control,
                      const std::vector<double>& weights, double u) {
    if (weights.empty()) return spline_point(degree, knots, control, u);
    std::vector<point3> weighted;
    for (std::size_t i = 0; i < weights.size(); ++i) weighted.push_back(weights[i] * control[i]);
    return (1 / spline_point(degree, knots, weights, u)) * spline_point(degree, knots, weighted, u);
}

/// Point of an edge at a share of the way from its first to its second vertex.
point3 point_of(const brep& b, const brep_edge& e, double share) {
    const point3& from = b.vertices[e.first];
    const point3& to = b.vertices[e.second];
    if (const auto* spline = std::get_if<rackwork::bspline_curve>(&e.curve)) {
        return rational_point(spline->degree, spline->knots, spline->control_points, spline->weights, share);
    }
    if (const auto* circle = std::get_if<rackwork::circle_curve>(&e.curve)) {
        const point<double> radial{from.x - circle->centre.x, from.y - circle->centre.y};
        const point<double> last{to.x - circle->centre.x, to.y - circle->centre.y};
        double turning = std::atan2(cross(radial, last), dot(radial, last));
        if (turning <= 0) turning += 2 * std::numbers::pi;
        const point<double> p = turned(radial, turning * share);
        return {circle->centre.x + p.x, circle->centre.y + p.y, circle->centre.z};
    }
    return from + share * (to - from);
}

/// Distance of a point from the curve that a wall is built on: the nearest of many points, then golden sections.
template <class Curve>
double distance_along(const Curve& position, const point3& p) {
    constexpr int parts = 40;
    const auto at = [&](double u) { return length(position(u) - p); };
    int best = 0;
    for (int i = 1; i <= parts; ++i) {
        if (at(1. * i / parts) < at(1. * best / parts)) best = i;
    }
    double low = std::max(0., (best - 1.) / parts);
    double high = std::min(1., (best + 1.) / parts);
    for (int i = 0; i < 75; ++i) { // 0.618^75: to the last place
        const double a = high - (high - low) * 0.6180339887498949;
        const double b = low + (high - low) * 0.6180339887498949;
        (at(a) < at(b) ? high : low) = at(a) < at(b) ? b : a;
    }
    return std::min({at(low), at(high), at((low + high) / 2)});
}

/// Distance of a point from a surface; from one that is built on a curve, at the point's own height.
struct distance_from {
    const point3& p;
    double operator()(const rackwork::plane_surface& s) const { return std::abs(dot(p - s.origin, s.normal)); }
    double operator()(const rackwork::cylinder_surface& s) const {
        return std::abs(std::hypot(p.x - s.centre.x, p.y - s.centre.y) - s.radius);
    }
    double operator()(const rackwork::cone_surface& s) const {
        return std::abs(std::hypot(p.x - s.centre.x, p.y - s.centre.y) - s.radius - s.slope * (p.z - s.centre.z));
    }
    double operator()(const rackwork::extrusion_surface& s) const {
        const auto level = [&](double u) {
            point3 q = rational_point(s.curve.degree, s.curve.knots, s.curve.control_points, s.curve.weights, u);
            q.z = p.z;
            return q;
        };
        return distance_along(level, p);
    }
    double operator()(const rackwork::bspline_surface& s) const {
        // The heights of its control points are the same in each row and rise evenly: the section at the point's height is a curve.
        const double low = s.control_points.front().z;
        const double share = std::clamp((p.z - low) / (s.control_points.back().z - low), 0., 1.);
        std::vector<point3> section;
        std::vector<double> weights;
        for (std::size_t i = 0; i < s.control_points.size(); i += s.across) {
            const auto row = s.control_points.begin() + static_cast<std::ptrdiff_t>(i);
            section.push_back(spline_point(s.degree_across, s.knots_across,
                                           std::vector<point3>(row, row + static_cast<std::ptrdiff_t>(s.across)), share));
            if (!s.weights.empty()) weights.push_back(s.weights[i]);
        }
        return distance_along(
            [&](double u) { return rational_point(s.degree_along, s.knots_along, section, weights, u); }, p);
    }
};

/// Twice the area that a loop encloses, seen along the axis from above; positive where it runs counter-clockwise.
double twice_area_from_above(const brep& b, const std::vector<brep_edge_use>& loop) {
    double twice_area = 0;
    for (const brep_edge_use& use : loop) {
        for (int k = 0; k < 16; ++k) {
            const double from = use.forward ? k / 16. : 1 - k / 16.;
            const double to = use.forward ? (k + 1) / 16. : 1 - (k + 1) / 16.;
            const point3 p = point_of(b, b.edges[use.edge], from);
            const point3 q = point_of(b, b.edges[use.edge], to);
            twice_area += p.x * q.y - p.y * q.x;
        }
    }
    return twice_area;
}

/// Direction of the control polygon's first leg, which is the curve's own at its start.
point3 first_direction(const std::vector<point3>& control, std::size_t step) { return control[step] - control[0]; }

/// The surface's own normal, not of unit length, at the start of the edge that a wall has at its bottom; `p` is that point.
struct normal_at {
    const point3& p;
    point3 operator()(const rackwork::plane_surface& s) const { return s.normal; }
    point3 operator()(const rackwork::cylinder_surface& s) const { return {p.x - s.centre.x, p.y - s.centre.y, 0}; }
    point3 operator()(const rackwork::cone_surface& s) const {
        const double radius = std::hypot(p.x - s.centre.x, p.y - s.centre.y);
        return {p.x - s.centre.x, p.y - s.centre.y, -s.slope * radius};
    }
    point3 operator()(const rackwork::extrusion_surface& s) const {
        return cross(first_direction(s.curve.control_points, 1), {0, 0, s.height});
    }
    point3 operator()(const rackwork::bspline_surface& s) const {
        return cross(first_direction(s.control_points, s.across), first_direction(s.control_points, 1));
    }
};

/// Volume by the divergence of (0, 0, z): each plane end counts its height times its area, here of the polygon of finely sampled edges.
/// Helical walls have a normal with a share along z in proportion to r dr, which cancels all the way round a section.
double volume_by_ends(const brep& b) {
    double volume = 0;
    for (const brep_face& f : b.faces) {
        const auto* plane = std::get_if<rackwork::plane_surface>(&f.surface);
        if (plane == nullptr || plane->normal.z == 0) continue;
        for (const auto& loop : f.loops) {
            double twice = 0;
            for (const brep_edge_use& use : loop) {
                const brep_edge& e = b.edges[use.edge];
                constexpr int parts = 2000;
                point3 before = point_of(b, e, use.forward ? 0 : 1);
                for (int i = 1; i <= parts; ++i) {
                    const double share = i / static_cast<double>(parts);
                    const point3 next = point_of(b, e, use.forward ? share : 1 - share);
                    twice += before.x * next.y - before.y * next.x;
                    before = next;
                }
            }
            volume += plane->origin.z * twice / 2;
        }
    }
    return volume;
}

} // namespace

TEST_CASE("each edge of a solid is shared by exactly two faces, once forward and once backward") {
    for (const named_body& each : bodies()) {
        CAPTURE(each.name);
        const brep b = brep_of(each.g, each.body);
        std::vector<int> forward(b.edges.size());
        std::vector<int> backward(b.edges.size());
        for (const brep_face& f : b.faces) {
            for (const auto& loop : f.loops) {
                REQUIRE(!loop.empty());
                for (std::size_t i = 0; i < loop.size(); ++i) {
                    const brep_edge_use& use = loop[i];
                    const brep_edge_use& next = loop[(i + 1) % loop.size()];
                    ++(use.forward ? forward : backward)[use.edge];
                    // Edges follow one another.
                    const std::size_t end = use.forward ? b.edges[use.edge].second : b.edges[use.edge].first;
                    const std::size_t begin = next.forward ? b.edges[next.edge].first : b.edges[next.edge].second;
                    REQUIRE(end == begin);
                }
            }
        }
        CHECK(std::all_of(forward.begin(), forward.end(), [](int n) { return n == 1; }));
        CHECK(std::all_of(backward.begin(), backward.end(), [](int n) { return n == 1; }));
        // Euler and Poincare: v - e + f - (holes in faces) = 2 (1 - holes through the body).
        long holes_in_faces = 0;
        for (const brep_face& f : b.faces) holes_in_faces += static_cast<long>(f.loops.size()) - 1;
        const bool through = each.g.is_internal() || each.body.blank.bore_diameter > 0;
        CHECK(static_cast<long>(b.vertices.size()) - static_cast<long>(b.edges.size()) +
                  static_cast<long>(b.faces.size()) - holes_in_faces ==
              (through ? 0 : 2));
    }
}

TEST_CASE("each face says which side of its surface is outside, and its boundary agrees") {
    for (const named_body& each : bodies()) {
        CAPTURE(each.name);
        const brep b = brep_of(each.g, each.body);
        int inward = 0;
        for (const brep_face& f : b.faces) {
            const auto* plane = std::get_if<rackwork::plane_surface>(&f.surface);
            if (plane != nullptr && plane->normal.z != 0) {
                // Seen against the normal the outer loop runs counter-clockwise, a hole's clockwise.
                REQUIRE(f.outward);
                for (std::size_t i = 0; i < f.loops.size(); ++i) {
                    REQUIRE(twice_area_from_above(b, f.loops[i]) * plane->normal.z * (i == 0 ? 1 : -1) > 0);
                }
                continue;
            }
            REQUIRE(f.loops.size() == 1);
            if (!f.outward) ++inward;
            if (const auto* cone = std::get_if<rackwork::cone_surface>(&f.surface)) {
                // A cone covers each point of the plane once: seen from the side where its normal points, the loop runs counter-clockwise.
                const double up = -cone->slope * (f.outward ? 1 : -1);
                REQUIRE(twice_area_from_above(b, f.loops.front()) * up > 0);
                continue;
            }
            // A wall: its lower edge, run through as the face has it, and the way up into the face. To the left of the edge, seen from
            // outside, is the face. A chamfer may leave of it two upright edges and more than one at its ends, or none of those that are level.
            REQUIRE(f.loops.front().size() >= 3);
            const brep_edge_use* lower = nullptr;
            for (const brep_edge_use& use : f.loops.front()) {
                const brep_edge& e = b.edges[use.edge];
                const double z = std::min(b.vertices[e.first].z, b.vertices[e.second].z);
                const bool level = b.vertices[e.first].z == b.vertices[e.second].z;
                if (level && (lower == nullptr || z < b.vertices[b.edges[lower->edge].first].z)) lower = &use;
            }
            double lowest = std::numeric_limits<double>::infinity();
            for (const brep_edge_use& use : f.loops.front())
                lowest = std::min({lowest, b.vertices[b.edges[use.edge].first].z, b.vertices[b.edges[use.edge].second].z});
            const bool at_bottom = lower != nullptr && b.vertices[b.edges[lower->edge].first].z == lowest;
            if (!at_bottom && has_chamfers(each.body)) continue;
            REQUIRE(at_bottom);
            const brep_edge& e = b.edges[lower->edge];
            const point3 start = point_of(b, e, 0);
            const point3 along = (lower->forward ? 1. : -1.) * (point_of(b, e, 1e-4) - start);
            const point3 outside = (f.outward ? 1. : -1.) * std::visit(normal_at{start}, f.surface);
            REQUIRE(cross(outside, along).z > 0);
        }
        CHECK((inward > 0) == (each.g.is_internal() || each.body.blank.bore_diameter > 0));
    }
}

TEST_CASE("edges begin and end in their vertices and lie on both surfaces within the stated deviation") {
    for (const named_body& each : bodies()) {
        CAPTURE(each.name);
        const brep b = brep_of(each.g, each.body);
        CHECK(b.edge_deviation <= b.deviation);
        for (const brep_edge& e : b.edges) {
            REQUIRE(length(point_of(b, e, 0) - b.vertices[e.first]) <= b.edge_deviation);
            REQUIRE(length(point_of(b, e, 1) - b.vertices[e.second]) <= b.edge_deviation);
        }
        double worst = 0;
        for (std::size_t n = 0; n < b.faces.size(); ++n) {
            const brep_face& f = b.faces[n];
            // Built on curves: of two teeth only, or it would take too long.
            const bool on_curve = std::holds_alternative<rackwork::extrusion_surface>(f.surface) ||
                                  std::holds_alternative<rackwork::bspline_surface>(f.surface);
            if (on_curve && n > 16 && n + 16 < b.faces.size()) continue;
            for (const auto& loop : f.loops) {
                for (const brep_edge_use& use : loop) {
                    for (const double share : {0., 0.17, 0.5, 0.71, 1.}) {
                        const point3 p = point_of(b, b.edges[use.edge], share);
                        worst = std::max(worst, std::visit(distance_from{p}, f.surface));
                        REQUIRE(std::max({std::abs(p.x), std::abs(p.y), std::abs(p.z)}) <= b.size * (1 + 1e-9));
                    }
                }
            }
        }
        CHECK(worst <= b.edge_deviation);
    }
}

TEST_CASE("the corners of a helical flank's surface and its borders are the very edges") {
    const brep b = brep_of(bodies()[6].g, bodies()[6].body);
    int surfaces = 0;
    for (const brep_face& f : b.faces) {
        const auto* s = std::get_if<rackwork::bspline_surface>(&f.surface);
        if (s == nullptr) continue;
        ++surfaces;
        const auto& loop = f.loops.front();
        REQUIRE(loop.size() == 4);
        const std::size_t along = s->control_points.size() / s->across;
        std::vector<point3> bottom;
        for (std::size_t i = 0; i < along; ++i) bottom.push_back(s->control_points[i * s->across]);
        CHECK(bottom == std::get<rackwork::bspline_curve>(b.edges[loop[0].edge].curve).control_points);
        const std::vector<point3> left(s->control_points.begin(),
                                       s->control_points.begin() + static_cast<std::ptrdiff_t>(s->across));
        CHECK(left == std::get<rackwork::bspline_curve>(b.edges[loop[3].edge].curve).control_points);
    }
    CHECK(surfaces == 4 * 17);
}

TEST_CASE("surfaces of flanks stay within the stated deviation of the exact helicoid") {
    // The exact involute at a point's radius: its polar angle, turned by the helix at the point's height.
    for (const double tolerance : {1e-3, 1e-5, 1e-8}) {
        CAPTURE(tolerance);
        const gear<double> g(
            {.normal_module = 3, .teeth = 21, .helix_angle = deg(24.), .profile_shift = 0.1, .face_width = 30});
        const brep b = brep_of(g, {}, {.tolerance = tolerance});
        CHECK(b.deviation <= tolerance);
        const double base = g.base_diameter() / 2;
        const double twist = 2 * std::tan(g.helix_angle().rad()) / g.reference_diameter();
        const double form = rackwork::generated_root<double>(g).root_form_diameter() / 2;
        double worst = 0;
        int checked = 0;
        for (const brep_face& f : b.faces) {
            const auto* s = std::get_if<rackwork::bspline_surface>(&f.surface);
            if (s == nullptr) continue;
            for (int i = 0; i <= 20; ++i) {
                for (int j = 0; j <= 6; ++j) {
                    std::vector<point3> section;
                    for (std::size_t k = 0; k < s->control_points.size(); k += s->across) {
                        const std::vector<point3> row(s->control_points.begin() + static_cast<std::ptrdiff_t>(k),
                                                      s->control_points.begin() +
                                                          static_cast<std::ptrdiff_t>(k + s->across));
                        section.push_back(spline_point(s->degree_across, s->knots_across, row, j / 6.));
                    }
                    const point3 p = spline_point(s->degree_along, s->knots_along, section, i / 20.);
                    const double radius = std::hypot(p.x, p.y);
                    if (radius < form + tolerance || radius > g.tip_diameter() / 2 - tolerance) continue;
                    ++checked;
                    const double roll = std::sqrt(radius * radius / (base * base) - 1);
                    const double half = g.base_half_angle() - (roll - std::atan(roll));
                    const double polar = std::atan2(p.y, p.x) - twist * p.z;
                    const double pitch = 2 * std::numbers::pi / g.teeth();
                    const double in_tooth = polar - pitch * std::round(polar / pitch);
                    // Along the base tangent, square to the flank, the distance is the base circle's arc.
                    worst = std::max(worst, std::abs(std::abs(in_tooth) - half) * base);
                }
            }
        }
        CHECK(checked > 21 * 2 * 50);
        CHECK(worst <= b.deviation * 1.001 + 1e-13);
        CHECK(worst > 0);
    }
}

TEST_CASE("the ends of a solid alone, height times area, already give the exact volume, so nothing is inside out") {
    for (const named_body& each : bodies()) {
        if (has_chamfers(each.body)) continue; // their cones count as well
        CAPTURE(each.name);
        CHECK(volume_by_ends(brep_of(each.g, each.body)) ==
              doctest::Approx(exact_volume(each.g, each.body)).epsilon(3e-6));
    }
}

TEST_CASE("a solid that is moved keeps its shape") {
    const named_body each = bodies()[10];
    const brep before = brep_of(each.g, each.body);
    const brep after = moved(before, 0.7, {40, -3, 11});
    CHECK(after.deviation >= before.deviation);
    for (std::size_t i = 1; i < before.vertices.size(); i += 7) {
        const double distance = length(before.vertices[i] - before.vertices[i - 1]);
        CHECK(length(after.vertices[i] - after.vertices[i - 1]) == doctest::Approx(distance));
        CHECK(std::max(std::abs(after.vertices[i].x), std::abs(after.vertices[i].y)) <= after.size);
    }
    const point3 axis = after.vertices[0] - point3{40, -3, 11};
    CHECK(std::hypot(axis.x, axis.y) == doctest::Approx(std::hypot(before.vertices[0].x, before.vertices[0].y)));
    CHECK(axis.z == doctest::Approx(before.vertices[0].z));
}

TEST_CASE("bodies that cannot be are refused with the reason") {
    const gear<double> spur({.normal_module = 2, .teeth = 32, .face_width = 20});
    const gear<double> helical({.normal_module = 2, .teeth = 32, .helix_angle = deg(15.), .face_width = 20});
    const gear<double> ring({.normal_module = 2, .teeth = 36, .kind = gear_kind::internal, .face_width = 15});
    CHECK(quantity_refused(gear<double>({.normal_module = 2, .teeth = 32}), {}) == "face_width");
    CHECK(quantity_refused(spur, {.blank = {.bore_diameter = 60}}) == "bore_diameter");
    CHECK(quantity_refused(spur, {.rim_diameter = 90}) == "rim_diameter of an external gear");
    CHECK(quantity_refused(spur, {.halves = {{}}}) == "helix_angle (deg)");
    CHECK(quantity_refused(helical, {.halves = {{.gap_width = 20}}}) == "gap_width");
    CHECK(quantity_refused(helical, {.halves = {{.gap_width = 4, .gap_diameter = 62}}}) == "gap_diameter");
    CHECK(quantity_refused(helical, {.blank = {.bore_diameter = 30}, .halves = {{.gap_width = 4, .gap_diameter = 28}}}) ==
          "gap_diameter");
    CHECK(quantity_refused(spur, {.key_slot = {{.width = 5, .hub_depth = 2}}}) == "bore_diameter of a bore with a keyway");
    CHECK(quantity_refused(spur, {.blank = {.bore_diameter = 10}, .key_slot = {{.width = 10, .hub_depth = 2}}}) ==
          "width of the keyway");
    CHECK(quantity_refused(spur, {.blank = {.bore_diameter = 50}, .key_slot = {{.width = 10, .hub_depth = 8}}}) ==
          "diameter that the keyway's corners reach");
    CHECK(quantity_refused(spur,
                   {.blank = {.bore_diameter = 20}, .key_slot = {{.width = 6, .hub_depth = 2}}, .bore_chamfer = 2.5}) ==
          "diameter of the chamfer of a bore with a keyway");
    CHECK(quantity_refused(spur, {.blank = {.bore_diameter = 20}, .bore_chamfer = 10}) == "bore_chamfer at both ends");
    CHECK(quantity_refused(spur, {.blank = {.bore_diameter = 20}, .bore_chamfer = std::numeric_limits<double>::quiet_NaN()}) ==
          "bore_chamfer");
    CHECK(quantity_refused(spur,
                   {.blank = {.bore_diameter = 16, .rim_inner_diameter = 50, .hub_diameter = 28, .hub_length = 30}}) ==
          "web_thickness");
    CHECK(quantity_refused(spur, {.blank = {.bore_diameter = 16,
                                    .rim_inner_diameter = 50,
                                    .hub_diameter = 28,
                                    .hub_length = 5,
                                    .web_thickness = 8}}) == "hub_length");
    CHECK(quantity_refused(ring, {}) == "rim_diameter");
    CHECK(quantity_refused(ring, {.blank = {.bore_diameter = 10}, .rim_diameter = 95}) == "bore_diameter of an internal gear");
    // A tool that goes deeper leaves less room, which only the outline knows.
    const double bore = spur.generated_root_diameter() - 0.1;
    CHECK_FALSE(check({.blank = {.bore_diameter = bore}}, spur));
    const rackwork::cutter<double> deep(rackwork::rack_type_cutter<double>{.addendum = 1.4, .tip_radius = 0.2});
    CHECK_THROWS_AS(brep_of(spur, outline_of(spur, deep), {.blank = {.bore_diameter = bore}}),
                    rackwork::geometry_error);
    CHECK_NOTHROW(brep_of(spur, outline_of(spur, deep), {.blank = {.bore_diameter = 20}}));
    for (const double tolerance : {0., -1., 1e-13, std::numeric_limits<double>::quiet_NaN()}) {
        CHECK_THROWS_AS(brep_of(spur, {}, {.tolerance = tolerance}), rackwork::geometry_error);
    }
}
