// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Chamfers at the ends of teeth and in bores with keyways: edges on cone and flank within their bound, nothing left beyond the cone.
#include "solid_support.hpp"

#include <rackwork/solid/facets.hpp>
#include <rackwork/solid/gear_solid.hpp>
#include <rackwork/solid/trimmed_edge.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace {

using namespace solid_support;
using rackwork::brep_of;
using rackwork::facets_of;
using rackwork::detail::clamped_spline;
using rackwork::detail::end_chamfer;
using rackwork::detail::trimmed_edge_fitter;

/// A curve of three spans with points (x w, y w, w), here of weight 1, at radii from about 8 to 11.
const clamped_spline flank{.degree = 3,
                           .knots = {0, 0, 0, 0, 0.3, 0.3, 0.7, 0.7, 1, 1, 1, 1},
                           .points = {{8, 0, 1},
                                      {8.4, 0.1, 1},
                                      {8.7, 0.25, 1},
                                      {9.4, 0.5, 1},
                                      {9.9, 0.75, 1},
                                      {10.4, 1.1, 1},
                                      {10.7, 1.4, 1},
                                      {11, 1.7, 1}}};

point<double> plane_point(const clamped_spline& c, double u) {
    const point3 p = spline_point(c.degree, c.knots, c.points, u);
    return {p.x / p.z, p.y / p.z};
}

/// Distances of an edge from the cone and, at its own height, from the turned curve.
struct strays {
    double from_cone = 0;
    double from_flank = 0;
};

strays measured(const rackwork::bspline_curve& edge, const clamped_spline& section, const end_chamfer& cone, double twist) {
    strays worst;
    for (int i = 0; i <= 400; ++i) {
        const double u = i / 400.;
        const point3 p = spline_point(edge.degree, edge.knots, edge.control_points, u);
        const double radius = std::hypot(p.x, p.y);
        const double of_cone = cone.end_radius + (p.z - cone.end_height) * cone.slope();
        worst.from_cone = std::max(worst.from_cone, std::abs(radius - of_cone));
        const point<double> q = turned(plane_point(section, u), twist * p.z);
        worst.from_flank = std::max(worst.from_flank, std::hypot(p.x - q.x, p.y - q.y));
    }
    return worst;
}

/// The radius of the cone at a height, or infinity where it does not reach; both ends of a body that is symmetrical to the middle plane.
double allowed_radius(const gear<double>& g, const body_parameters& body, double z) {
    const double before_end = g.parameters().face_width / 2 - std::abs(z);
    return g.tip_diameter() / 2 - body.tip_end_chamfer + before_end / std::tan(body.tip_end_chamfer_angle.rad());
}

} // namespace

TEST_CASE("a part of a curve is the same curve between two of its points") {
    for (const double from : {0., 0.1, 0.3, 0.55}) {
        for (const double to : {0.2, 0.3, 0.7, 0.85, 1.}) {
            if (!(from < to)) continue;
            const clamped_spline part = rackwork::detail::part_of(flank, from, to);
            CHECK(part.knots.size() == part.points.size() + 4);
            CHECK(part.knots.front() == 0);
            CHECK(part.knots.back() == 1);
            CHECK(std::is_sorted(part.knots.begin(), part.knots.end()));
            for (int i = 0; i <= 20; ++i) {
                const double u = i / 20.;
                CHECK(length(plane_point(part, u) - plane_point(flank, from + (to - from) * u)) <= 1e-14 * 11);
            }
        }
    }
}

TEST_CASE("the edge of a cone and a flank stays within its bound of both, which is hardly above what it strays") {
    for (const int degree : {3, 5, 7}) {
        for (const double twist : {0., 0.03, -0.2}) {
            for (const double tolerance : {1e-3, 1e-6, 1e-9}) {
                CAPTURE(degree);
                CAPTURE(twist);
                CAPTURE(tolerance);
                const end_chamfer cone{.end_radius = 8.5, .tip_radius = 11, .end_height = 10, .depth = 1.8};
                trimmed_edge_fitter fitter(cone, twist, degree, tolerance);
                const rackwork::bspline_curve edge = fitter.edge(flank);
                CHECK(edge.degree == degree);
                CHECK(edge.knots.size() == edge.control_points.size() + static_cast<std::size_t>(degree) + 1);
                CHECK(fitter.deviation() <= tolerance);
                const strays worst = measured(edge, flank, cone, twist);
                const double rounding = 1e-13;
                CHECK(std::max(worst.from_cone, worst.from_flank) <= fitter.deviation() + rounding);
                // Up to a 64th of the tolerance it leaves to the remainder of the turn's Taylor polynomial.
                CHECK(fitter.deviation() <= 8 * std::max(worst.from_cone, worst.from_flank) + tolerance / 64 + rounding);
                // It begins and ends on the cone above the curve's own ends, turned as high as that is.
                for (const double u : {0., 1.}) {
                    const point3 end = fitter.raised(plane_point(flank, u));
                    CHECK(length((u == 0 ? edge.control_points.front() : edge.control_points.back()) - end) <= rounding);
                    CHECK(end.z == doctest::Approx(10 - (std::hypot(end.x, end.y) - 8.5) / 2.5 * 1.8));
                }
            }
        }
    }
}

TEST_CASE("the edge's velocity goes on where its spans meet") {
    const end_chamfer cone{.end_radius = 8, .tip_radius = 11, .end_height = 0, .depth = 2};
    trimmed_edge_fitter fitter(cone, 0.1, 5, 1e-9);
    const rackwork::bspline_curve edge = fitter.edge(flank);
    const auto at = [&](double u) { return spline_point(edge.degree, edge.knots, edge.control_points, u); };
    const double step = 1e-6;
    int joints = 0;
    for (std::size_t i = 6; edge.knots[i] < 1; ++i) {
        if (edge.knots[i] == edge.knots[i - 1]) continue;
        ++joints;
        const double u = edge.knots[i];
        const point3 before = (1 / step) * (at(u) - at(u - step));
        const point3 after = (1 / step) * (at(u + step) - at(u));
        CHECK(length(after - before) <= 200 * step); // no acceleration is greater
    }
    CHECK(joints >= 2);
}

TEST_CASE("a tip's edge on the cone is the exact involute, raised and turned") {
    const gear<double> g({.normal_module = 2, .teeth = 23, .helix_angle = deg(-17.), .face_width = 20});
    const body_parameters body{.tip_end_chamfer = 1.5};
    const rackwork::brep solid = brep_of(g, body);
    const double base = g.base_diameter() / 2;
    const double twist = 2 * std::tan(g.helix_angle().rad()) / g.reference_diameter();
    const double pitch = 2 * std::numbers::pi / g.teeth();
    double worst = 0;
    int edges = 0;
    for (const auto& e : solid.edges) {
        const auto* c = std::get_if<rackwork::bspline_curve>(&e.curve);
        const point3& first = solid.vertices[e.first];
        const point3& last = solid.vertices[e.second];
        if (c == nullptr || first.z == last.z || first.z * last.z < 0) continue;
        ++edges;
        for (int i = 0; i <= 16; ++i) {
            const point3 p = spline_point(c->degree, c->knots, c->control_points, i / 16.);
            const double radius = std::hypot(p.x, p.y);
            CHECK(std::abs(radius - allowed_radius(g, body, p.z)) <= solid.edge_deviation);
            const double roll = std::sqrt(radius * radius / (base * base) - 1);
            const double polar = std::atan2(p.y, p.x) - twist * p.z;
            const double in_tooth = std::abs(polar - pitch * std::round(polar / pitch));
            worst = std::max(worst, std::abs(in_tooth - (g.base_half_angle() - (roll - std::atan(roll)))) * base);
        }
    }
    CHECK(edges == 4 * g.teeth()); // two flanks, two ends
    CHECK(worst <= solid.deviation);
    CHECK(worst > 0);
}

TEST_CASE("no corner of solid or facets is left beyond the cone, and the tips reach it") {
    for (const named_body& each : bodies()) {
        if (each.body.tip_end_chamfer == 0) continue;
        CAPTURE(each.name);
        const double sign = each.g.is_internal() ? -1 : 1;
        const double tip = each.g.tip_diameter() / 2;
        const auto beyond = [&](const point3& p) {
            const double radius = std::hypot(p.x, p.y);
            const double depth = each.g.parameters().face_width / 2 - std::abs(p.z);
            // Hubs may be longer than the face.
            if (depth < 0) return -1.;
            const double cone =
                tip - sign * (each.body.tip_end_chamfer - depth / std::tan(each.body.tip_end_chamfer_angle.rad()));
            return sign * (radius - cone);
        };
        double worst = -1;
        for (const point3& p : brep_of(each.g, each.body).vertices) worst = std::max(worst, beyond(p));
        CHECK(std::abs(worst) <= 1e-8);
        worst = -1;
        for (const point3& p : facets_of(each.g, each.body).points) worst = std::max(worst, beyond(p));
        CHECK(std::abs(worst) <= 1e-8);
    }
}

TEST_CASE("a double helical gear's teeth are chamfered at their outer ends only") {
    const gear<double> g({.normal_module = 2, .teeth = 17, .helix_angle = deg(22.), .face_width = 25});
    const rackwork::brep solid =
        brep_of(g, {.halves = {{.gap_width = 6, .gap_diameter = 26}}, .tip_end_chamfer = 1});
    int at_gap = 0;
    int at_end = 0;
    for (const point3& p : solid.vertices) {
        const bool tip = std::abs(std::hypot(p.x, p.y) - g.tip_diameter() / 2) < 1e-9;
        if (!tip) continue;
        CHECK(std::abs(p.z) <= 11.5 + 1e-9);
        at_gap += std::abs(std::abs(p.z) - 3) < 1e-9 ? 1 : 0;
        at_end += std::abs(std::abs(p.z) - 11.5) < 1e-9 ? 1 : 0;
    }
    CHECK(at_gap == 4 * g.teeth());
    CHECK(at_end == 4 * g.teeth());
}

TEST_CASE("a chamfer that ends where the flank begins meets it there, without slivers") {
    const gear<double> g({.normal_module = 2, .teeth = 30, .helix_angle = deg(12.), .face_width = 15});
    const double form = rackwork::generated_root<double>(g).root_form_diameter() / 2;
    for (const double off : {0., 1e-9, -1e-9}) {
        const body_parameters body{.tip_end_chamfer = g.tip_diameter() / 2 - form + off};
        const rackwork::brep solid = brep_of(g, body);
        CHECK(solid.deviation <= 2e-6);
        for (const auto& e : solid.edges) CHECK(length(solid.vertices[e.first] - solid.vertices[e.second]) > 1e-3);
    }
}

TEST_CASE("what a small chamfer takes is a triangle on the tip lands") {
    // The exact volume that the other tests of solids compare with, against Pappus: a ring, as much of it as there are tip lands.
    const gear<double> g({.normal_module = 2, .teeth = 20, .face_width = 10});
    const double radius = g.tip_diameter() / 2;
    const double share = g.tip_thickness() * g.teeth() / (2 * std::numbers::pi * radius);
    for (const double size : {1e-3, 1e-4}) {
        const double volume = tip_end_volume(g, outline_of(g), {.tip_end_chamfer = size});
        CHECK(volume / (share * chamfer_ring(radius, size)) == doctest::Approx(1).epsilon(2 * size));
    }
    const gear<double> ring({.normal_module = 2, .teeth = 40, .kind = gear_kind::internal, .face_width = 10});
    const double tip = ring.tip_diameter() / 2;
    const double lands = ring.tip_thickness() * ring.teeth() / (2 * std::numbers::pi * tip);
    const double volume = tip_end_volume(ring, outline_of(ring), {.tip_end_chamfer = 1e-4});
    CHECK(volume / (lands * chamfer_ring(tip, -1e-4)) == doctest::Approx(1).epsilon(2e-4));
}

TEST_CASE("chamfers that cannot be are refused with the reason") {
    const gear<double> spur({.normal_module = 2, .teeth = 32, .face_width = 20});
    const gear<double> helical({.normal_module = 2, .teeth = 32, .helix_angle = deg(15.), .face_width = 20});
    const gear<double> ring({.normal_module = 2, .teeth = 36, .kind = gear_kind::internal, .face_width = 15});
    CHECK(quantity_refused(spur, {.tip_end_chamfer = -1}) == "tip_end_chamfer");
    CHECK(quantity_refused(spur, {.tip_end_chamfer = 4.6}) == "tip_end_chamfer");
    CHECK(quantity_refused(spur, {.tip_end_chamfer = 1, .tip_end_chamfer_angle = deg(0.)}) == "tip_end_chamfer_angle (deg)");
    CHECK(quantity_refused(spur, {.tip_end_chamfer = 1, .tip_end_chamfer_angle = deg(90.)}) == "tip_end_chamfer_angle (deg)");
    CHECK(quantity_refused(spur, {.tip_end_chamfer = 2, .tip_end_chamfer_angle = deg(79.)}) == "tip_end_chamfer along the axis");
    CHECK(quantity_refused(helical, {.halves = {{.gap_width = 16, .gap_diameter = 50}}, .tip_end_chamfer = 2.1}) ==
          "tip_end_chamfer along the axis");
    CHECK(quantity_refused(gear<double>({.normal_module = 1.5,
                                 .teeth = 5,
                                 .helix_angle = deg(62.),
                                 .profile_shift = 0.4,
                                 .face_width = 60}),
                   {.tip_end_chamfer = 2, .tip_end_chamfer_angle = deg(70.)}) ==
          "turn of the helix within tip_end_chamfer (rad)");
    CHECK(quantity_refused(spur, {.rim_chamfer = 1}) == "rim_chamfer of a gear without a web");
    CHECK(quantity_refused(spur, {.hub_chamfer = 1}) == "hub_chamfer of a gear without a hub");
    CHECK(quantity_refused(ring, {.rim_diameter = 95, .rim_chamfer = 9}) == "rim_diameter less its chamfer");
    CHECK(quantity_refused(ring, {.rim_diameter = 120, .rim_chamfer = 7.5}) == "rim_chamfer at both ends");
    CHECK(quantity_refused(ring, {.rim_diameter = 95, .hub_chamfer = 1}) == "hub_chamfer of an internal gear");
    const auto with_web = [](double rim_chamfer, double hub_chamfer, double bore_chamfer) {
        return body_parameters{
            .blank =
                {.bore_diameter = 16, .rim_inner_diameter = 50, .hub_diameter = 24, .hub_length = 30, .web_thickness = 8},
            .bore_chamfer = bore_chamfer,
            .rim_chamfer = rim_chamfer,
            .hub_chamfer = hub_chamfer};
    };
    CHECK(quantity_refused(spur, with_web(1, 1, 1)) == "");
    CHECK(quantity_refused(spur, with_web(5, 1, 1)) == "rim_inner_diameter with its chamfer");
    CHECK(quantity_refused(gear<double>({.normal_module = 2, .teeth = 50, .face_width = 20}), with_web(6, 1, 1)) == "rim_chamfer");
    CHECK(quantity_refused(spur, with_web(1, 11, 1)) == "hub_chamfer");
    CHECK(quantity_refused(spur, with_web(1, 4, 0)) == "hub_diameter less its chamfer");
    CHECK(quantity_refused(spur, with_web(1, 2, 2)) == "diameter of the bore's chamfer");
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK(quantity_refused(spur, {.tip_end_chamfer = nan}) == "tip_end_chamfer");
    CHECK(quantity_refused(spur, {.rim_chamfer = nan}) == "rim_chamfer");
    CHECK(quantity_refused(spur, {.hub_chamfer = nan}) == "hub_chamfer");
}
