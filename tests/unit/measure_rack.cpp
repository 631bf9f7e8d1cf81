// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What is measured on a rack: from its straight flanks, and as what gears of ever more teeth come to.
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/rack.hpp>

#include "measure_helicoid.hpp"
#include "random_source.hpp"
#include "refusal.hpp"

#include <cmath>
#include <limits>
#include <string>

#include <doctest/doctest.h>

using measure::circle;
using rackwork::deg;
using rackwork::gear;
using support::refused_quantity;
using rackwork::toothed_rack;

namespace {

toothed_rack<double> random_rack(support::random_source& random) {
    const double m = random.uniform(0.5, 10);
    return {.normal_module = m,
            .profile = {.pressure_angle = deg(random.uniform(14.5, 25)),
                        .addendum = random.uniform(0.8, 1.1),
                        .dedendum = 1.25,
                        .root_fillet_radius = 0.2},
            .thickness_allowance = random.uniform(-0.1, 0) * m,
            .datum_height = random.coin() ? random.uniform(5, 30) * m : 0};
}

/// A point of a flank of the tooth that stands over the middle of the coordinates, at a height over the datum line: its straight line
/// leans by the pressure angle. x runs along the datum line.
double flank_x(const toothed_rack<double>& r, double side, double height) {
    const double half = (circle * r.normal_module / 2 + r.thickness_allowance) / 2;
    return side * (half - height * std::tan(r.profile.pressure_angle.rad()));
}

/// Shortest distance of a point from that flank, and the height at which the line comes nearest.
measure::least_value nearest_on_flank(const toothed_rack<double>& r, double side, double x, double y) {
    return measure::least([&](double h) { return std::hypot(flank_x(r, side, h) - x, h - y); }, -5 * r.normal_module,
                          5 * r.normal_module);
}

} // namespace

TEST_CASE("a pin in a rack's space touches the flanks of both teeth where it should") {
    support::random_source random{641};
    for (int i = 0; i < 200; ++i) {
        const toothed_rack<double> r = random_rack(random);
        const double pin = ideal_pin_diameter(r) * random.uniform(0.9, 1.2);
        const auto lies = position_of_pin(r, pin);
        const double pitch = circle * r.normal_module;
        // In the middle between the tooth at 0 and the next.
        const auto right_of_first = nearest_on_flank(r, 1, pitch / 2, lies.centre_height);
        const auto left_of_next = nearest_on_flank(r, -1, pitch / 2 - pitch, lies.centre_height);
        CHECK(right_of_first.value == doctest::Approx(pin / 2).epsilon(1e-12));
        CHECK(left_of_next.value == doctest::Approx(pin / 2).epsilon(1e-12));
        CHECK(std::fabs(right_of_first.argument - lies.contact_height) < 1e-6 * r.normal_module);
        CHECK(height_over_pin(r, pin) == doctest::Approx(r.datum_height + lies.centre_height + pin / 2).epsilon(1e-14));
        CHECK(pin_diameter_touching_at(r, lies.contact_height) == doctest::Approx(pin).epsilon(1e-13));
        CHECK(std::fabs(position_of_pin(r, ideal_pin_diameter(r)).contact_height) < 1e-13 * r.normal_module);
        CHECK(length_over_pins(r, 3, pin) == doctest::Approx(3 * pitch + pin).epsilon(1e-14));
    }
}

TEST_CASE("chords and spans of a rack are distances of its flanks along the datum line") {
    support::random_source random{642};
    for (int i = 0; i < 200; ++i) {
        const toothed_rack<double> r = random_rack(random);
        const double m = r.normal_module;
        const double height = random.uniform(-0.9, 0.8) * m;
        const auto c = chord_at(r, height);
        CHECK(c.thickness == doctest::Approx(flank_x(r, 1, height) - flank_x(r, -1, height)).epsilon(1e-12));
        CHECK(c.height + height == doctest::Approx(r.profile.addendum * m).epsilon(1e-13));
        for (const int k : {1, 2, 7}) {
            const double across = (k - 1) * circle * m + flank_x(r, 1, height) - flank_x(r, -1, height);
            CHECK(span_measurement(r, k, height) == doctest::Approx(across).epsilon(1e-12));
        }
        // From a point of one flank square to it to the third next flank of its hand.
        const double alpha = r.profile.pressure_angle.rad();
        const auto to_third = measure::least(
            [&](double h) { return std::hypot(flank_x(r, 1, h) + 3 * circle * m - flank_x(r, 1, 0), h); }, -10 * m, 10 * m);
        CHECK(length_over_pitches(r, 3) == doctest::Approx(to_third.value).epsilon(1e-12));
        CHECK(length_over_pitches(r, 3) == doctest::Approx(3 * circle * m * std::cos(alpha)).epsilon(1e-13));
    }
}

TEST_CASE("the thickness read on a rack is the one that was made") {
    support::random_source random{643};
    for (int i = 0; i < 300; ++i) {
        const toothed_rack<double> made = random_rack(random);
        toothed_rack<double> drawn = made;
        drawn.thickness_allowance = 0;
        const double pin = ideal_pin_diameter(drawn);
        const double places = 1e-13 * (made.normal_module + made.datum_height);
        const double thickness = normal_tooth_thickness(made);
        CHECK(std::fabs(thickness - (circle * made.normal_module / 2 + made.thickness_allowance)) < places);
        CHECK(std::fabs(normal_tooth_thickness_from_height_over_pin(drawn, pin, height_over_pin(made, pin)) - thickness) < places);
        for (const int k : {1, 5}) {
            const double height = random.uniform(-0.5, 0.5) * made.normal_module;
            const double span = span_measurement(made, k, height);
            CHECK(std::fabs(normal_tooth_thickness_from_span(drawn, k, height, span) - thickness) < 10 * places);
        }
        // Thinner teeth let the pin sink.
        CHECK(height_over_pin(made, pin) <= height_over_pin(drawn, pin));
    }
}

TEST_CASE("external and internal gears of ever more teeth come to the rack, from either side") {
    const toothed_rack<double> rack{.normal_module = 2, .thickness_allowance = -0.1};
    const double pin = 3.5;
    const auto on_rack = position_of_pin(rack, pin);
    for (const double sign : {1.0, -1.0}) {
        double before = 0;
        for (const int teeth : {1000, 10000, 100000}) {
            const gear<double> g{{.normal_module = 2,
                                  .teeth = teeth,
                                  .kind = sign > 0 ? rackwork::gear_kind::external : rackwork::gear_kind::internal,
                                  .thickness_allowance = -0.1}};
            const auto lies = rackwork::position_of_pin(g, pin);
            const double off = sign * (lies.centre_diameter - g.reference_diameter()) / 2 - on_rack.centre_height;
            CHECK(std::fabs(off) < 10.0 * rack.normal_module / teeth);
            CHECK(std::fabs(sign * (lies.contact_diameter - g.reference_diameter()) / 2 - on_rack.contact_height) <
                  10.0 * rack.normal_module / teeth);
            CHECK(std::fabs(chord_at(g, g.reference_diameter()).thickness - chord_at(rack, 0.0).thickness) <
                  10.0 * rack.normal_module / teeth);
            if (before != 0) CHECK(before / off == doctest::Approx(10).epsilon(0.02));
            before = off;
        }
    }
}

TEST_CASE("the rack of a rack and pinion can be measured as it stands there") {
    const gear<double> pinion{{.normal_module = 3, .teeth = 20, .helix_angle = deg(12.0)}};
    const rackwork::rack_mesh<double> pair{pinion, {.thickness_allowance = -0.08, .datum_height = 30}};
    const toothed_rack<double> r = rack_to_measure(pair);
    CHECK(r.normal_module == 3);
    CHECK(r.profile.pressure_angle.rad() == pinion.normal_pressure_angle().rad());
    CHECK(normal_tooth_thickness(r) == doctest::Approx(3 * circle / 2 - 0.08).epsilon(1e-15));
    CHECK(height_over_pin(r, 5.0) > 30);
}

TEST_CASE("what is off a rack's teeth is refused") {
    const toothed_rack<double> r{.normal_module = 2};
    CHECK(refused_quantity([&] { return position_of_pin(r, 0.0); }) == "pin_diameter");
    CHECK(refused_quantity([&] { return position_of_pin(r, std::nan("")); }) == "pin_diameter");
    // The pin that touches at the tip line is the last, and so is the one at the root line.
    const double tip = pin_diameter_touching_at(r, 2.0);
    CHECK(refused_quantity([&] { return position_of_pin(r, tip * (1 - 1e-12)); }).empty());
    CHECK(refused_quantity([&] { return position_of_pin(r, tip * (1 + 1e-12)); }) == "height of the pin's contact over the datum line");
    const double root = pin_diameter_touching_at(r, -2.5);
    CHECK(refused_quantity([&] { return position_of_pin(r, root * (1 + 1e-12)); }).empty());
    CHECK(refused_quantity([&] { return position_of_pin(r, root * (1 - 1e-12)); }) == "height of the pin's contact over the datum line");
    CHECK(refused_quantity([&] { return chord_at(r, 2.1); }) == "height over the datum line");
    CHECK(refused_quantity([&] { return chord_at(r, -2.6); }) == "height over the datum line");
    CHECK(refused_quantity([&] { return span_measurement(r, 0, 0.0); }) == "teeth_spanned");
    CHECK(refused_quantity([&] { return length_over_pitches(r, 0); }) == "pitches");
    CHECK(refused_quantity([&] { return length_over_pins(r, 0, 3.4); }) == "pitches");
    CHECK(refused_quantity([&] { return ideal_pin_diameter(toothed_rack<double>{}); }) == "normal_module");
    CHECK(refused_quantity([&] { return ideal_pin_diameter(toothed_rack<double>{.normal_module = 1, .thickness_allowance = 1.6}); }) ==
          "thickness_allowance");
    CHECK(refused_quantity([&] { return height_over_pin(toothed_rack<double>{.normal_module = 1, .datum_height = std::numeric_limits<double>::infinity()}, 1.7); }) ==
          "datum_height");
}
