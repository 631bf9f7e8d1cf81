// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The span over spaces of an internal spur gear: how far apart two hollow flanks are, from first principles. And spans on chamfered teeth.
#include <rackwork/measure/span.hpp>

#include "measure_internal.hpp"
#include "refusal.hpp"

#include <cmath>
#include <string>

#include <doctest/doctest.h>

using measure::ring_in_space;
using measure::vector3;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;

TEST_CASE("a rod of the span's length just turns over between the outer flanks of k spaces, wherever it is set") {
    // The flanks are hollow: from a point of the one, the furthest point of the other is a span away.
    support::random_source random{611};
    for (int i = 0; i < 60; ++i) {
        const gear_parameters<double> p = measure::random_spur_ring(random);
        const gear<double> g{p};
        const ring_in_space ring{p};
        const int k = rackwork::recommended_teeth_spanned(g);
        CAPTURE(p.teeth);
        CAPTURE(k);
        // k spaces from the flank of tooth 0 that looks counter-clockwise to the flank of tooth k that looks clockwise.
        const measure::helicoid first = ring.left_flank(0);
        const measure::helicoid last = ring.right_flank(k);
        const double span = rackwork::span_measurement(g, k);
        const double middle = span / 2 / ring.base_radius;
        for (const double off : {-0.04, 0.0, 0.05}) {
            const vector3 set = first.at(middle + off, 0);
            const measure::least_value found = measure::least(
                [&](double u) { return -measure::distance(last.at(u, 0), set); }, std::fmax(middle - 0.2, 0.0), middle + 0.2);
            CHECK(-found.value == doctest::Approx(span).epsilon(1e-12));
            // What the one end is set further out, the other touches further in.
            CHECK(found.argument == doctest::Approx(middle - off).epsilon(1e-5));
        }
        CHECK(rackwork::span_contact_diameter(g, k) ==
              doctest::Approx(2 * ring.base_radius * std::hypot(1.0, middle)).epsilon(1e-13));
        CHECK(rackwork::span_face_width(g, k) == 0);
    }
}

TEST_CASE("one space more is one base pitch more, and thicker internal teeth span less") {
    support::random_source random{612};
    for (int i = 0; i < 200; ++i) {
        gear_parameters<double> p = measure::random_spur_ring(random);
        const gear<double> g{p};
        const int k = rackwork::recommended_teeth_spanned(g);
        const double span = rackwork::span_measurement(g, k);
        CHECK(rackwork::span_measurement(g, k + 1) - span == doctest::Approx(g.normal_base_pitch()).epsilon(1e-10));
        p.thickness_allowance -= 0.03 * p.normal_module;
        if (check(p)) continue;
        const gear<double> made{p};
        const double longer = rackwork::span_measurement(made, k);
        CHECK(longer - span == doctest::Approx(0.03 * p.normal_module * cos(g.normal_pressure_angle())).epsilon(1e-9));
        CHECK(std::fabs(rackwork::normal_tooth_thickness_from_span(g, k, longer) - made.normal_tooth_thickness()) <
              1e-12 * p.normal_module);
    }
}

TEST_CASE("the recommended number of spaces touches the involute nearest to the circle d - 2 x m") {
    support::random_source random{613};
    for (int i = 0; i < 300; ++i) {
        const gear<double> g{measure::random_spur_ring(random)};
        const int k = rackwork::recommended_teeth_spanned(g);
        CAPTURE(g.teeth());
        CAPTURE(k);
        const double form = rackwork::root_form_diameter(g);
        const auto on_flank = [&](int spaces) {
            const double d = rackwork::span_contact_diameter(g, spaces);
            return g.tip_diameter() <= d && d <= form;
        };
        const double wanted = std::sqrt(std::pow(g.shifted_reference_diameter(), 2) - std::pow(g.base_diameter(), 2));
        const auto off = [&](int spaces) { return std::fabs(rackwork::span_measurement(g, spaces) - wanted); };
        CHECK(on_flank(k));
        for (const int other : {k - 1, k + 1}) {
            if (other < 2 || other >= g.teeth() || !on_flank(other)) continue;
            CHECK(off(k) <= off(other) + 1e-10 * g.normal_module());
        }
        CHECK(rackwork::recommended_teeth_spanned(g, rackwork::generated_root<double>(g)) == k);
    }
}

TEST_CASE("a helical internal gear has no span") {
    const gear<double> g{{.normal_module = 2, .teeth = 60, .kind = gear_kind::internal, .helix_angle = deg(12.0)}};
    CHECK(support::refused_quantity([&] { return rackwork::span_measurement(g, 7); }) == "helix_angle (deg)");
    CHECK(support::refused_quantity([&] { return rackwork::span_contact_diameter(g, 7); }) == "helix_angle (deg)");
    CHECK(support::refused_quantity([&] { return rackwork::recommended_teeth_spanned(g); }) == "helix_angle (deg)");
    CHECK(support::refused_quantity([&] { return rackwork::normal_tooth_thickness_from_span(g, 7, 40.0); }) == "helix_angle (deg)");
    const gear<double> spur{{.normal_module = 2, .teeth = 60, .kind = gear_kind::internal}};
    for (const int spaces : {-1, 0, 60, 61}) CHECK(support::refused_quantity([&] { return rackwork::span_measurement(spur, spaces); }) == "teeth_spanned");
}

TEST_CASE("the number of teeth to span on chamfered teeth keeps the anvils off the chamfer") {
    int moved = 0;
    for (int teeth = 12; teeth <= 90; ++teeth) {
        for (const double shift : {0.3, 0.5, 0.7}) {
            gear_parameters<double> p{.normal_module = 3, .teeth = teeth, .profile_shift = shift};
            const int sharp = rackwork::recommended_teeth_spanned(gear<double>{p});
            p.tip_chamfer = 2.4;
            p.tip_chamfer_angle = deg(25);
            if (check(p)) continue;
            const gear<double> g{p};
            const int k = rackwork::recommended_teeth_spanned(g);
            moved += k != sharp;
            CAPTURE(teeth);
            const double form = rackwork::root_form_diameter(g);
            const auto on_flank = [&](int spanned) {
                const double d = rackwork::span_contact_diameter(g, spanned);
                return form <= d && d <= g.tip_form_diameter();
            };
            if (on_flank(sharp)) CHECK(k == sharp);
            if (sharp > 2 && (on_flank(sharp - 1) || on_flank(sharp))) CHECK(on_flank(k));
        }
    }
    CHECK(moved > 5);
}
