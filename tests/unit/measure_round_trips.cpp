// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// From the thickness of a tooth to what the inspector reads and back again, for every measure.
#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>

#include "measure_helicoid.hpp"

#include <cmath>

#include <doctest/doctest.h>

using rackwork::gear;
using rackwork::gear_parameters;

namespace {

/// A gear as drawn, and the same gear as it came from the machine: with a tooth of its own thickness.
struct drawn_and_made {
    gear<double> drawn;
    gear<double> made;
};
drawn_and_made random_pair(support::random_source& random) {
    for (;;) {
        gear_parameters<double> p = measure::random_gear(random, {.steepest_helix = 38});
        const gear<double> drawn{p};
        p.thickness_allowance = random.uniform(-0.1, 0.02) * p.normal_module;
        if (check(p)) continue;
        const gear<double> made{p};
        if (rackwork::root_form_diameter(made) >= made.shifted_reference_diameter() ||
            made.shifted_reference_diameter() >= made.tip_diameter()) {
            continue;
        }
        return {drawn, made};
    }
}

/// The same gear with teeth thicker by a bit.
gear<double> thicker(const gear<double>& g, double by) {
    gear_parameters<double> p = g.parameters();
    p.thickness_allowance += by;
    return gear<double>{p};
}

constexpr int gears = 500;
// Rounding errors of a reading are some places of the gear's diameter, and a diameter holds up to 100 modules; through the slope of
// a measure (down to a half or so) they come back into the thickness.
constexpr double places = 1e-12;

} // namespace

TEST_CASE("the thickness read by a span is the one that was made") {
    support::random_source random{401};
    for (int i = 0; i < gears; ++i) {
        const auto [drawn, made] = random_pair(random);
        const int k = rackwork::recommended_teeth_spanned(made);
        const double read = normal_tooth_thickness_from_span(drawn, k, span_measurement(made, k));
        CHECK(std::fabs(read - made.normal_tooth_thickness()) < places * made.normal_module());
    }
}

TEST_CASE("the thickness read over balls is the one that was made") {
    support::random_source random{402};
    for (int i = 0; i < gears; ++i) {
        const auto [drawn, made] = random_pair(random);
        const double ball = ideal_pin_diameter(made);
        const double read = normal_tooth_thickness_from_balls(drawn, ball, dimension_over_balls(made, ball));
        CHECK(std::fabs(read - made.normal_tooth_thickness()) < places * made.normal_module());
    }
}

TEST_CASE("the thickness read over pins is the one that was made") {
    support::random_source random{403};
    for (int i = 0; i < gears; ++i) {
        const drawn_and_made pair = random_pair(random);
        const gear<double>& made = pair.made;
        const double pin = ideal_pin_diameter(made);
        if (std::fabs(made.helix_angle(position_of_pin(made, pin).centre_diameter).deg()) > 44) continue;
        CAPTURE(made.teeth());
        CAPTURE(made.helix_angle().deg());
        const double read = normal_tooth_thickness_from_pins(pair.drawn, pin, dimension_over_pins(made, pin));
        CHECK(std::fabs(read - made.normal_tooth_thickness()) < places * made.normal_module());
    }
}

TEST_CASE("the thickness read by a chord at any diameter is the one that was made") {
    support::random_source random{404};
    for (int i = 0; i < gears; ++i) {
        const auto [drawn, made] = random_pair(random);
        const double low = std::fmax(made.base_diameter(), made.root_diameter());
        const double diameter = random.uniform(low, made.tip_diameter());
        const double chord = chord_at(made, diameter).thickness;
        const double read = normal_tooth_thickness_from_chord(drawn, diameter, chord);
        CHECK(std::fabs(read - made.normal_tooth_thickness()) < places * made.normal_module());
    }
}

TEST_CASE("the thickness read by the constant chord is the one that was made") {
    support::random_source random{405};
    for (int i = 0; i < gears; ++i) {
        const auto [drawn, made] = random_pair(random);
        const double read = normal_tooth_thickness_from_constant_chord(drawn, constant_chord(made).thickness);
        CHECK(std::fabs(read - made.normal_tooth_thickness()) < places * made.normal_module());
    }
}

TEST_CASE("a pin of the diameter that touches at a circle touches there") {
    support::random_source random{406};
    for (int i = 0; i < gears; ++i) {
        const gear<double> made = random_pair(random).made;
        const double diameter = random.uniform(rackwork::root_form_diameter(made), made.tip_diameter());
        const double pin = pin_diameter_touching_at(made, diameter);
        CHECK(position_of_pin(made, pin).contact_diameter == doctest::Approx(diameter).epsilon(1e-12));
    }
}

TEST_CASE("thicker teeth read larger by every measure") {
    support::random_source random{407};
    for (int i = 0; i < gears; ++i) {
        const gear<double> g = random_pair(random).made;
        const gear<double> more = thicker(g, 1e-6 * g.normal_module());
        const double added = more.normal_tooth_thickness() - g.normal_tooth_thickness();
        CAPTURE(g.teeth());
        CAPTURE(g.helix_angle().deg());
        const int k = rackwork::recommended_teeth_spanned(g);
        // A span takes up the cosine of the pressure angle of it, a chord all but the bend of the circle.
        CHECK(span_measurement(more, k) - span_measurement(g, k) ==
              doctest::Approx(added * cos(g.normal_pressure_angle())).epsilon(1e-5));
        const double d = g.reference_diameter();
        const double chord_gain = chord_at(more, d).thickness - chord_at(g, d).thickness;
        CHECK(chord_gain > 0.9 * added);
        CHECK(chord_gain <= added * (1 + 1e-5));
        CHECK(constant_chord(more).thickness > constant_chord(g).thickness);
        CHECK(constant_chord(more).height < constant_chord(g).height);
        // Pins and balls rise by more than the teeth thicken: they sit in a wedge.
        const double pin = ideal_pin_diameter(g);
        CHECK(dimension_over_balls(more, pin) - dimension_over_balls(g, pin) > added);
        if (std::fabs(g.helix_angle(position_of_pin(more, pin).centre_diameter).deg()) < 44) {
            CHECK(dimension_over_pins(more, pin) - dimension_over_pins(g, pin) > added);
        }
    }
}

TEST_CASE("a larger pin reads larger and touches further out") {
    support::random_source random{408};
    for (int i = 0; i < gears; ++i) {
        const gear<double> g = random_pair(random).made;
        const double pin = ideal_pin_diameter(g);
        const double larger = pin * 1.001;
        CHECK(position_of_pin(g, larger).centre_diameter > position_of_pin(g, pin).centre_diameter);
        CHECK(position_of_pin(g, larger).contact_diameter > position_of_pin(g, pin).contact_diameter);
        CHECK(dimension_over_balls(g, larger) - dimension_over_balls(g, pin) > larger - pin);
    }
}

TEST_CASE("the hand of the helix makes no difference to any measure") {
    support::random_source random{409};
    for (int i = 0; i < gears; ++i) {
        const gear<double> g = random_pair(random).made;
        gear_parameters<double> p = g.parameters();
        p.helix_angle = -p.helix_angle;
        const gear<double> mirrored{p};
        const int k = rackwork::recommended_teeth_spanned(g);
        const double pin = ideal_pin_diameter(g);
        const double d = g.reference_diameter();
        CHECK(rackwork::recommended_teeth_spanned(mirrored) == k);
        CHECK(span_measurement(mirrored, k) == span_measurement(g, k));
        CHECK(span_contact_diameter(mirrored, k) == span_contact_diameter(g, k));
        CHECK(span_face_width(mirrored, k) == span_face_width(g, k));
        CHECK(ideal_pin_diameter(mirrored) == pin);
        CHECK(dimension_over_balls(mirrored, pin) == dimension_over_balls(g, pin));
        if (std::fabs(g.helix_angle(position_of_pin(g, pin).centre_diameter).deg()) < 44) {
            CHECK(dimension_over_pins(mirrored, pin) == dimension_over_pins(g, pin));
        }
        CHECK(chord_at(mirrored, d).thickness == chord_at(g, d).thickness);
        CHECK(chord_at(mirrored, d).height == chord_at(g, d).height);
        CHECK(constant_chord_diameter(mirrored) == constant_chord_diameter(g));
    }
}
