// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The Lewis parabola against a search over the tooth's outline.
#include <rackwork/analysis/lewis_form_factor.hpp>
#include <rackwork/form/tooth.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <doctest/doctest.h>

using rackwork::basic_rack;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::lewis_section;
using rackwork::point;

namespace {

gear<double> spur(int teeth, double shift = 0, const basic_rack<double>& rack = rackwork::iso_53_a) {
    return gear<double>{{.normal_module = 2, .teeth = teeth, .rack = rack, .profile_shift = shift}};
}

/// Points of the lower half of tooth 0, from the root land to the tip: fillet and right flank of the tooth form.
std::vector<point<double>> lower_outline(const gear<double>& g) {
    std::vector<rackwork::segment<double>> tooth;
    rackwork::tooth_form<double>(g).append_tooth(tooth, 0);
    std::vector<point<double>> points;
    for (const std::size_t which : {0u, 1u}) {
        for (int i = 0; i <= 20000; ++i)
            points.push_back(
                tooth[which].position(tooth[which].from + (tooth[which].to - tooth[which].from) * i / 20000));
    }
    return points;
}

/// Where the normal of the flank at the tip's edge crosses the tooth's middle.
double vertex(const gear<double>& g) {
    std::vector<rackwork::segment<double>> tooth;
    rackwork::tooth_form<double>(g).append_tooth(tooth, 0);
    const point<double> edge = tooth[1].end;
    const point<double> tangent = tooth[1].tangent(tooth[1].to);
    return edge.x + edge.y * tangent.y / tangent.x; // along the normal (tangent.y, -tangent.x)
}

} // namespace

TEST_CASE("the Lewis section is the weakest of all sections of the tooth under a load at the tip") {
    for (const int teeth : {8, 12, 17, 30, 60, 120, 300, 1000}) {
        for (const double shift : {-0.2, 0.0, 0.4}) {
            if (teeth == 8 && shift < 0) continue; // no flank is left
            CAPTURE(teeth);
            CAPTURE(shift);
            const gear<double> g = spur(teeth, shift);
            const lewis_section<double> section = rackwork::lewis_section_under_tip_load(g);
            const double top = vertex(g);
            double weakest = std::numeric_limits<double>::infinity();
            for (const point<double>& p : lower_outline(g)) {
                if (p.x < top) weakest = std::min(weakest, 4 * p.y * p.y / (6 * (top - p.x) * g.normal_module()));
            }
            CHECK(section.form_factor() == doctest::Approx(weakest).epsilon(1e-7));
            // So the parabola y^2 = (s/2)^2 x/h stays inside the tooth all the way.
            CHECK(section.form_factor() <= weakest * (1 + 1e-12));
        }
    }
}

TEST_CASE("with many teeth the parabola touches the flank, whose rack has a formula") {
    CHECK_FALSE(rackwork::lewis_section_under_tip_load(spur(20)).on_flank);
    CHECK(rackwork::lewis_section_under_tip_load(spur(400)).on_flank);
    // Rack: the straight flanks meet the load's line in the width 2 n, n = (pi/4 - tan alpha)(1 + tan^2 alpha); the weakest
    // section lies n/tan alpha below it and is twice as wide: Y = 16 n tan alpha / 6.
    const double t = std::tan(20 * rackwork::pi<double>() / 180);
    const double n = (rackwork::pi<double>() / 4 - t) * (1 + t * t);
    CHECK(rackwork::lewis_form_factor(spur(2'000'000)) == doctest::Approx(16 * n * t / 6).epsilon(1e-5));
}

TEST_CASE(
    "the form factor does not depend on the module, grows with the number of teeth and is a constant expression") {
    constexpr lewis_section<double> section =
        rackwork::lewis_section_under_tip_load(gear<double>{gear_parameters<double>{.normal_module = 2, .teeth = 24}});
    static_assert(section.form_factor() > 0.3 && section.form_factor() < 0.4);
    const gear<double> same{{.normal_module = 7, .teeth = 24}};
    CHECK(rackwork::lewis_form_factor(same) == doctest::Approx(section.form_factor()).epsilon(1e-13));
    double before = 0;
    for (int teeth = 9; teeth < 400; ++teeth) {
        const double y = rackwork::lewis_form_factor(spur(teeth));
        CHECK(y > before);
        before = y;
    }
}

TEST_CASE(
    "a helical gear has the form factor of its virtual spur gear, between those of the whole tooth numbers beside it") {
    const gear<double> helical{{.normal_module = 2, .teeth = 21, .helix_angle = deg(18.0)}};
    const double teeth = rackwork::virtual_spur_gear<double>(helical).teeth();
    const int below = static_cast<int>(teeth);
    CHECK(below > 21);
    CHECK(rackwork::lewis_form_factor(helical) > rackwork::lewis_form_factor(spur(below)));
    CHECK(rackwork::lewis_form_factor(helical) < rackwork::lewis_form_factor(spur(below + 1)));
}

TEST_CASE("a tooth whose load crosses its middle below the root has no Lewis section") {
    gear_parameters<double> stub{.normal_module = 2, .teeth = 6, .profile_shift = 1.2, .tip_alteration = -1.2};
    stub.rack = {.pressure_angle = deg(28.0), .addendum = 0.5, .dedendum = 0.6, .root_fillet_radius = 0.1};
    CHECK_THROWS_AS(rackwork::lewis_form_factor(gear<double>{stub}), rackwork::geometry_error);
}

TEST_CASE("a pointed tooth breaks at its fillet, or has no Lewis section at all") {
    const auto pointed = [](double shift, double addendum) {
        const gear<double> g({.normal_module = 1,
                              .teeth = 40,
                              .rack = {.pressure_angle = rackwork::deg(20.), .addendum = addendum, .dedendum = 1.25, .root_fillet_radius = 0.2},
                              .profile_shift = shift});
        CHECK(g.tip_thickness() < 0);
        return g;
    };
    CHECK_FALSE(rackwork::lewis_section_under_tip_load(pointed(0.5, 1.8)).on_flank);
    // No parabola from the point fits between the flanks.
    CHECK_THROWS_AS(static_cast<void>(rackwork::lewis_section_under_tip_load(pointed(1.5, 1.4))), rackwork::geometry_error);
}
