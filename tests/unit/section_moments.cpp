// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Area, second moments and inertia: closed forms against quadrature, polygons and everyday bodies.
#include "form_gears.hpp"

#include "ulp.hpp"

#include <rackwork/curve/polyline.hpp>
#include <rackwork/form/section.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <variant>
#include <vector>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <doctest/doctest.h>

using rackwork::body_properties;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_blank;
using rackwork::gear_parameters;
using rackwork::point;
using rackwork::section_properties;
using support::wide;

namespace {

constexpr double pi = rackwork::pi<double>();
constexpr double epsilon = std::numeric_limits<double>::epsilon();

/// 1/4 integral r^2 (x dy - y dx) over a segment, from its points and velocities alone.
wide moment_by_quadrature(const rackwork::segment<wide>& s) {
    const auto integrand = [&](const wide& t) {
        const point<wide> p = std::visit([&](const auto& c) { return c.position(t); }, s.curve);
        const point<wide> v = std::visit([&](const auto& c) { return c.velocity(t); }, s.curve);
        return wide(rackwork::dot(p, p) * rackwork::cross(p, v) / 4);
    };
    return boost::math::quadrature::gauss_kronrod<wide, 61>::integrate(integrand, s.from, s.to, 12, wide("1e-30"));
}

gear<double> with_face_width(double width, double helix = 0) {
    return gear<double>{{.normal_module = 2, .teeth = 30, .helix_angle = deg(helix), .face_width = width}};
}

} // namespace

TEST_CASE("the polar moment of every kind of segment is what quadrature finds") {
    double worst = 0;
    for (const gear<double>& g : form_gears::named_and_random_gears(25, 88)) {
        for (const auto& s : form_gears::one_tooth(form_gears::at_precision<wide>(g))) {
            const wide exact = moment_by_quadrature(s);
            worst = std::max(worst, static_cast<double>(abs(wide(rackwork::swept_polar_moment(s) / exact - 1))));
        }
    }
    MESSAGE("largest relative difference at fifty digits: " << worst);
    CHECK(worst < 1e-25);
}

TEST_CASE("the polar moment of a circle that is not about the axis is what quadrature finds, and Steiner says") {
    const rackwork::circle<wide> c{{wide("1.25"), wide("-0.75")}, wide("0.5")};
    const rackwork::segment<wide> arc{c, wide("0.3"), wide("2.9"), {}, {}};
    CHECK(abs(wide(rackwork::swept_polar_moment(arc) / moment_by_quadrature(arc) - 1)) < wide("1e-40"));
    const wide whole =
        rackwork::swept_polar_moment(c, wide(2 * rackwork::pi<wide>())) - rackwork::swept_polar_moment(c, wide(0));
    const wide r2 = c.radius * c.radius;
    const wide steiner = rackwork::pi<wide>() * r2 * (r2 / 2 + rackwork::dot(c.centre, c.centre));
    CHECK(abs(wide(whole / steiner - 1)) < wide("1e-45"));
}

TEST_CASE("area and polar moment are right to the bound that is stated, against fifty digits") {
    double worst = 0; // share of the bound
    int count = 0;
    for (const gear<double>& g : form_gears::named_and_random_gears(400, 7)) {
        if (g.teeth() < 3) continue;
        const double tangent = tan(g.transverse_pressure_angle());
        const double bound = (32 + g.teeth() * tangent * tangent) * epsilon;
        const section_properties<double> ours = rackwork::transverse_section(g);
        const section_properties<wide> exact = rackwork::transverse_section(form_gears::at_precision<wide>(g));
        const double off = std::max(static_cast<double>(abs(wide(ours.area / exact.area - 1))),
                                    static_cast<double>(abs(wide(ours.polar_moment / exact.polar_moment - 1))));
        INFO(form_gears::described(g));
        CHECK(off <= bound);
        worst = std::max(worst, off / bound);
        ++count;
    }
    MESSAGE(count << " gears: at most " << worst << " of the bound");
}

TEST_CASE("a gear's axial moments about all lines through its axis are half the polar one, from three teeth on") {
    // A fine polygon through the outline, whose own moments have schoolbook formulas.
    for (const int teeth : {3, 4, 5, 17}) {
        const gear<double> g{{.normal_module = 3,
                              .teeth = teeth,
                              .rack = {.addendum = 0.8, .dedendum = 1, .root_fillet_radius = 0.2},
                              .profile_shift = 0.6}};
        const auto polygon = rackwork::polyline_of(rackwork::outline_of(g), 1e-8).points;
        double area = 0;
        double about_x = 0;
        double about_y = 0;
        double mixed = 0;
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const point<double> a = polygon[i];
            const point<double> b = polygon[(i + 1) % polygon.size()];
            const double w = rackwork::cross(a, b);
            area += w / 2;
            about_x += w * (a.y * a.y + a.y * b.y + b.y * b.y) / 12;
            about_y += w * (a.x * a.x + a.x * b.x + b.x * b.x) / 12;
            mixed += w * (a.x * b.y + 2 * a.x * a.y + 2 * b.x * b.y + b.x * a.y) / 24;
        }
        const section_properties<double> section = rackwork::transverse_section(g);
        CHECK(section.area == doctest::Approx(area).epsilon(1e-7));
        CHECK(section.axial_moment() == doctest::Approx(about_x).epsilon(1e-7));
        CHECK(section.axial_moment() == doctest::Approx(about_y).epsilon(1e-7));
        CHECK(std::fabs(mixed) < 1e-7 * about_x);
        CHECK(section.polar_moment == doctest::Approx(about_x + about_y).epsilon(1e-7));
        CHECK(section.radius_of_gyration() == doctest::Approx(std::sqrt((about_x + about_y) / area)).epsilon(1e-7));
    }
}

TEST_CASE("one pitch times the teeth is the whole outline") {
    for (const int teeth : {3, 12, 41}) {
        const gear<double> g{{.normal_module = 2.5,
                              .teeth = teeth,
                              .rack = {.addendum = 0.8, .dedendum = 1, .root_fillet_radius = 0.2},
                              .profile_shift = 0.5}};
        const section_properties<double> whole = rackwork::section_of(rackwork::outline_of(g));
        CHECK(rackwork::transverse_section(g).area == doctest::Approx(whole.area).epsilon(1e-13));
        CHECK(rackwork::transverse_section(g).polar_moment == doctest::Approx(whole.polar_moment).epsilon(1e-13));
        CHECK(whole.area == doctest::Approx(rackwork::outline_of(g).area()).epsilon(1e-13));
    }
}

TEST_CASE("a section lies between those of its root and its tip circle, and scales with the second and fourth power") {
    for (const gear<double>& g : form_gears::named_and_random_gears(60, 3)) {
        if (g.teeth() < 3) continue;
        const section_properties<double> section = rackwork::transverse_section(g);
        const section_properties<double> inner = rackwork::disc_section(g.generated_root_diameter());
        const section_properties<double> outer = rackwork::disc_section(g.effective_tip_diameter());
        CHECK(section.area > inner.area);
        CHECK(section.area < outer.area);
        CHECK(section.polar_moment > inner.polar_moment);
        CHECK(section.polar_moment < outer.polar_moment);
        gear_parameters<double> doubled = g.parameters();
        doubled.normal_module *= 2;
        doubled.thickness_allowance *= 2;
        const section_properties<double> larger = rackwork::transverse_section(gear<double>{doubled});
        CHECK(larger.area == doctest::Approx(4 * section.area).epsilon(1e-12));
        CHECK(larger.polar_moment == doctest::Approx(16 * section.polar_moment).epsilon(1e-12));
    }
}

TEST_CASE("a gear's moment of inertia is within a few per cent of the disc of its reference diameter") {
    // Common practice: the disc of the reference diameter stands for the gear.
    const body_properties<double> body = rackwork::body_of(with_face_width(20));
    const double radius = 30;
    const double disc = pi * radius * radius * 20;
    CHECK(body.volume / disc == doctest::Approx(1).epsilon(0.03));
    CHECK(body.moment_about_axis / (disc * radius * radius / 2) == doctest::Approx(1).epsilon(0.06));
}

TEST_CASE("bore, web and hub are taken off and put on as rings are") {
    const gear<double> g = with_face_width(20);
    const body_properties<double> solid = rackwork::body_of(g);
    const auto cylinder = [](double diameter, double length) {
        const double volume = pi * diameter * diameter / 4 * length;
        return body_properties<double>{.volume = volume,
                                       .moment_about_axis = volume * diameter * diameter / 8,
                                       .moment_across_axis =
                                           volume * (diameter * diameter / 16 + length * length / 12)};
    };
    const body_properties<double> bored = rackwork::body_of(g, gear_blank<double>{.bore_diameter = 16});
    CHECK(bored.volume == doctest::Approx(solid.volume - cylinder(16, 20).volume).epsilon(1e-13));
    CHECK(bored.moment_about_axis ==
          doctest::Approx(solid.moment_about_axis - cylinder(16, 20).moment_about_axis).epsilon(1e-13));
    CHECK(bored.moment_across_axis ==
          doctest::Approx(solid.moment_across_axis - cylinder(16, 20).moment_across_axis).epsilon(1e-13));

    const gear_blank<double> blank{
        .bore_diameter = 16, .rim_inner_diameter = 46, .hub_diameter = 28, .hub_length = 26, .web_thickness = 6};
    const body_properties<double> webbed = rackwork::body_of(g, blank);
    const auto sum = [&](auto member) {
        return solid.*member - cylinder(46, 20).*member + cylinder(46, 6).*member - cylinder(28, 6).*member +
               cylinder(28, 26).*member - cylinder(16, 26).*member;
    };
    CHECK(webbed.volume == doctest::Approx(sum(&body_properties<double>::volume)).epsilon(1e-13));
    CHECK(webbed.moment_about_axis == doctest::Approx(sum(&body_properties<double>::moment_about_axis)).epsilon(1e-13));
    CHECK(webbed.moment_across_axis ==
          doctest::Approx(sum(&body_properties<double>::moment_across_axis)).epsilon(1e-13));

    // A web and a hub as thick as the rim is wide make the blank solid again, wherever their borders are.
    const gear_blank<double> filled{
        .bore_diameter = 16, .rim_inner_diameter = 46, .hub_diameter = 28, .hub_length = 20, .web_thickness = 20};
    CHECK(rackwork::body_of(g, filled).moment_across_axis == doctest::Approx(bored.moment_across_axis).epsilon(1e-13));
}

TEST_CASE("a helical gear's body is its section drawn out along a screw, which does not change its moments") {
    const gear<double> g = with_face_width(20, 25);
    const section_properties<double> section = rackwork::transverse_section(g);
    const body_properties<double> body = rackwork::body_of(g);
    CHECK(body.volume == doctest::Approx(section.area * 20).epsilon(1e-14));
    CHECK(body.moment_about_axis == doctest::Approx(section.polar_moment * 20).epsilon(1e-14));
    // Across the axis: slices of a polygon, each turned by the helix.
    const auto polygon = rackwork::polyline_of(rackwork::outline_of(g), 1e-6).points;
    const double twist = std::tan(25 * pi / 180) / (g.reference_diameter() / 2);
    constexpr int slices = 40;
    double across = 0;
    for (int k = 0; k < slices; ++k) {
        const double z = 20 * ((k + 0.5) / slices - 0.5);
        const point<double> by = rackwork::direction(twist * z);
        double about_x = 0;
        double area = 0;
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const point<double> a = rackwork::turned(polygon[i], by);
            const point<double> b = rackwork::turned(polygon[(i + 1) % polygon.size()], by);
            const double w = rackwork::cross(a, b);
            about_x += w * (a.y * a.y + a.y * b.y + b.y * b.y) / 12;
            area += w / 2;
        }
        const double thickness = 20.0 / slices;
        across += thickness * (about_x + area * (z * z + thickness * thickness / 12));
    }
    CHECK(body.moment_across_axis == doctest::Approx(across).epsilon(1e-6));
}

TEST_CASE("blanks that cannot be made are refused, and so are gears whose section has two different axial moments") {
    const gear<double> g = with_face_width(20);
    const double root = g.generated_root_diameter();
    using blank = gear_blank<double>;
    CHECK_THROWS_AS(rackwork::body_of(with_face_width(0)), rackwork::geometry_error);
    for (const blank& impossible :
         {blank{.bore_diameter = -1}, blank{.bore_diameter = root},
          blank{.bore_diameter = std::numeric_limits<double>::quiet_NaN()}, blank{.rim_inner_diameter = root + 1},
          blank{.bore_diameter = 20, .rim_inner_diameter = 40, .hub_diameter = 10},
          blank{.rim_inner_diameter = 40, .hub_diameter = 41}, blank{.rim_inner_diameter = 40, .web_thickness = -1},
          blank{.rim_inner_diameter = 40, .hub_length = std::numeric_limits<double>::infinity()}}) {
        CHECK(rackwork::check(impossible, g));
        CHECK_THROWS_AS(rackwork::body_of(g, impossible), rackwork::geometry_error);
    }
    CHECK_FALSE(rackwork::check(blank{}, g));
    const gear<double> vast{{.normal_module = 1e90, .teeth = 30, .face_width = 1}};
    CHECK_THROWS_AS(rackwork::transverse_section(vast), rackwork::geometry_error);
    const gear<double> long_one{{.normal_module = 1, .teeth = 30, .face_width = 1e120}};
    CHECK_THROWS_AS(rackwork::body_of(long_one), rackwork::geometry_error);
    const gear<double> two{{.normal_module = 3, .teeth = 2, .helix_angle = deg(40.), .profile_shift = 0.7}};
    CHECK_THROWS_AS(rackwork::transverse_section(two), rackwork::geometry_error);
    CHECK(rackwork::section_of(rackwork::outline_of(two)).polar_moment > 0);
    CHECK_THROWS_AS(rackwork::disc_section(-1.0), rackwork::geometry_error);
}
