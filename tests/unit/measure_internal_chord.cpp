// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Chords of internal teeth, and of the spaces of both kinds, from first principles.
#include <rackwork/measure/chord.hpp>

#include "measure_internal.hpp"

#include <cmath>

#include <doctest/doctest.h>

using measure::helicoid;
using measure::ring_in_space;
using measure::roll_at;
using measure::teeth_in_space;
using measure::vector3;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::geometry_error;

namespace {

/// Shortest distance of the lines in which a cylinder cuts two flanks, and the distance of its middle from the axis.
struct shortest {
    double length;
    double middle;
};
shortest between(const helicoid& one, const helicoid& other, double roll, double reach) {
    const vector3 from = one.at(roll, 0);
    const measure::least_value found =
        measure::least([&](double z) { return measure::distance(other.at(roll, z), from); }, -reach, reach);
    const vector3 middle = 0.5 * (from + other.at(roll, found.argument));
    return {found.value, std::hypot(middle.x, middle.y)};
}

} // namespace

TEST_CASE("a chord of an internal tooth is the shortest distance of its flanks' lines on a cylinder, and the tip stands inside it") {
    support::random_source random{621};
    for (int i = 0; i < 200; ++i) {
        const gear_parameters<double> p = measure::random_ring(random);
        const gear<double> g{p};
        const double diameter = random.uniform(g.tip_diameter(), rackwork::root_form_diameter(g));
        const double roll = roll_at(g, diameter);
        const ring_in_space ring{p};
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        const shortest found = between(ring.left_flank(0), ring.right_flank(0), roll, 3 * p.normal_module);
        const rackwork::chord<double> c = chord_at(g, diameter);
        CHECK(c.thickness == doctest::Approx(found.length).epsilon(1e-12));
        CHECK(std::fabs(c.height - (found.middle - g.tip_diameter() / 2)) < 1e-7 * g.tip_diameter());
        const double read = normal_tooth_thickness_from_chord(g, diameter, c.thickness);
        CHECK(std::fabs(read - g.normal_tooth_thickness()) < 1e-12 * p.normal_module);
    }
}

TEST_CASE("a chord of a space is the shortest distance from tooth to tooth, on external and internal gears") {
    support::random_source random{622};
    for (int i = 0; i < 200; ++i) {
        const bool internal = i % 2 != 0;
        const gear_parameters<double> p = internal ? measure::random_ring(random) : measure::random_gear(random);
        const gear<double> g{p};
        const double form = rackwork::root_form_diameter(g);
        const double diameter = random.uniform(std::fmin(form, g.tip_diameter()), std::fmax(form, g.tip_diameter()));
        const double roll = roll_at(g, diameter);
        CAPTURE(internal);
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        const shortest found =
            internal ? between(ring_in_space(p).left_flank(0), ring_in_space(p).right_flank(1), roll, 3 * p.normal_module)
                     : between(teeth_in_space(p).left_flank(0), teeth_in_space(p).right_flank(1), roll, 3 * p.normal_module);
        const rackwork::space_chord<double> c = space_chord_at(g, diameter);
        CHECK(c.width == doctest::Approx(found.length).epsilon(1e-12));
        const double below_tip = internal ? found.middle - g.tip_diameter() / 2 : g.tip_diameter() / 2 - found.middle;
        CHECK(std::fabs(c.depth - below_tip) < 1e-7 * g.tip_diameter());
        const double read = normal_tooth_thickness_from_space_chord(g, diameter, c.width);
        CHECK(std::fabs(read - g.normal_tooth_thickness()) < 2e-12 * p.normal_module);
    }
}

TEST_CASE("tooth and space share the pitch: on a spur gear their chords belong to angles that make it up") {
    for (const gear_kind kind : {gear_kind::external, gear_kind::internal}) {
        const gear<double> g{{.normal_module = 3, .teeth = 45, .kind = kind, .profile_shift = 0.2}};
        const double d = g.reference_diameter();
        const double tooth = 2 * std::asin(chord_at(g, d).thickness / d);
        const double space = 2 * std::asin(space_chord_at(g, d).width / d);
        CHECK(tooth + space == doctest::Approx(2 * measure::circle / 45).epsilon(1e-14));
    }
}

TEST_CASE("at the tip of an internal tooth the chord lies before the hollow tip, by its sagitta") {
    const gear<double> g{{.normal_module = 4, .teeth = 40, .kind = gear_kind::internal}};
    const rackwork::chord<double> c = chord_at(g, g.tip_diameter());
    const double radius = g.tip_diameter() / 2;
    CHECK(c.height == doctest::Approx(std::sqrt(radius * radius - c.thickness * c.thickness / 4) - radius).epsilon(1e-11));
    CHECK(c.height < 0);
}

TEST_CASE("the constant chord of an internal tooth stands where the normals from its middle on the reference circle meet the flanks") {
    support::random_source random{623};
    for (int i = 0; i < 60; ++i) {
        const gear_parameters<double> p = measure::random_ring(random);
        const gear<double> g{p};
        const ring_in_space ring{p};
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        const vector3 middle{ring.reference_radius, 0, 0};
        const auto foot = [&](const helicoid& flank) {
            const auto found = measure::nearest(flank, middle, 0, 1.2, 2 * p.normal_module);
            // The shortest way to a flank is its normal, and it is as long as half the tooth times cos alpha_n.
            CHECK(found.distance ==
                  doctest::Approx(g.normal_tooth_thickness() / 2 * cos(p.rack.pressure_angle)).epsilon(1e-11));
            return flank.at(found.roll, found.height);
        };
        const vector3 left = foot(ring.left_flank(0));
        const vector3 right = foot(ring.right_flank(0));
        const rackwork::chord<double> c = constant_chord(g);
        // Feet are found to the root of what the distance is found to.
        CHECK(c.thickness == doctest::Approx(measure::distance(left, right)).epsilon(1e-5));
        const vector3 between = 0.5 * (left + right);
        CHECK(std::fabs(c.height - (std::hypot(between.x, between.y) - g.tip_diameter() / 2)) < 1e-5 * p.normal_module);
        CHECK(std::fabs(constant_chord_diameter(g) - 2 * std::hypot(left.x, left.y)) < 2e-5 * p.normal_module);
        CHECK(normal_tooth_thickness_from_constant_chord(g, c.thickness) ==
              doctest::Approx(g.normal_tooth_thickness()).epsilon(1e-14));
    }
}

TEST_CASE("chords are refused off the teeth") {
    const gear<double> ring{{.normal_module = 2, .teeth = 50, .kind = gear_kind::internal}};
    CHECK_NOTHROW(static_cast<void>(chord_at(ring, ring.tip_diameter())));
    CHECK_THROWS_AS(static_cast<void>(chord_at(ring, ring.tip_diameter() - 1e-9)), geometry_error);
    CHECK_THROWS_AS(static_cast<void>(space_chord_at(ring, ring.tip_diameter() - 1e-9)), geometry_error);
    // Where the flanks have closed the space there is neither tooth nor space.
    CHECK_THROWS_AS(static_cast<void>(chord_at(ring, 130.0)), geometry_error);
    CHECK_THROWS_AS(static_cast<void>(space_chord_at(ring, 130.0)), geometry_error);
    const gear<double> wheel{{.normal_module = 2, .teeth = 50}};
    CHECK_THROWS_AS(static_cast<void>(space_chord_at(wheel, wheel.tip_diameter() + 1e-9)), geometry_error);
    CHECK_THROWS_AS(static_cast<void>(normal_tooth_thickness_from_space_chord(wheel, 100.0, 0.0)), geometry_error);
    CHECK_THROWS_AS(static_cast<void>(normal_tooth_thickness_from_space_chord(wheel, 100.0, 101.0)), geometry_error);
    // Thick teeth of many: at the base circle the spaces have closed.
    const gear<double> shifted{{.normal_module = 2, .teeth = 400, .profile_shift = 3}};
    CHECK_THROWS_AS(static_cast<void>(space_chord_at(shifted, shifted.base_diameter())), geometry_error);
}
