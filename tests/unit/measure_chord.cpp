// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Chords of teeth from first principles: shortest distances of lines on the flanks, and the rack laid over a tooth.
#include <rackwork/measure/chord.hpp>

#include "measure_helicoid.hpp"

#include <cmath>
#include <optional>

#include <doctest/doctest.h>

using measure::helicoid;
using measure::teeth_in_space;
using measure::vector3;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;

namespace {

/// A diameter on the tooth, between the base circle and the tip, not too near to either.
double diameter_on_tooth(support::random_source& random, const gear<double>& g) {
    const double low = std::fmax(g.base_diameter(), g.root_diameter());
    return random.uniform(low + 0.02 * (g.tip_diameter() - low), g.tip_diameter());
}

} // namespace

TEST_CASE("a chord is the shortest distance of the two flanks' lines on a cylinder") {
    support::random_source random{301};
    for (int i = 0; i < 200; ++i) {
        const gear_parameters<double> p = measure::random_gear(random);
        const gear<double> g{p};
        const double diameter = diameter_on_tooth(random, g);
        const teeth_in_space teeth{p};
        const double roll = std::sqrt(std::pow(diameter / g.base_diameter(), 2) - 1);
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        const auto from_left = teeth.left_flank(0).at(roll, 0);
        const measure::least_value found =
            measure::least([&](double z) { return measure::distance(teeth.right_flank(0).at(roll, z), from_left); },
                           -3 * p.normal_module, 3 * p.normal_module);
        const rackwork::chord<double> c = chord_at(g, diameter);
        CHECK(c.thickness == doctest::Approx(found.value).epsilon(1e-12));
        // The height is that of the tip over the middle of the chord.
        const vector3 middle = 0.5 * (from_left + teeth.right_flank(0).at(roll, found.argument));
        CHECK(c.height == doctest::Approx(g.tip_diameter() / 2 - std::hypot(middle.x, middle.y)).epsilon(1e-7));
        if (p.helix_angle.rad() == 0) CHECK(std::fabs(found.argument) < 1e-6 * p.normal_module);
    }
}

TEST_CASE("at the tip of a spur gear the chordal height is the sagitta of the tip land") {
    const gear<double> g{{.normal_module = 4, .teeth = 20}};
    const rackwork::chord<double> c = chord_at(g, g.tip_diameter());
    const double radius = g.tip_diameter() / 2;
    CHECK(c.height ==
          doctest::Approx(radius - std::sqrt(radius * radius - c.thickness * c.thickness / 4)).epsilon(1e-11));
}

TEST_CASE("the constant chord joins the points that the rack laid over the tooth touches") {
    support::random_source random{302};
    for (int i = 0; i < 60; ++i) {
        const gear_parameters<double> p = measure::random_gear(random);
        const gear<double> g{p};
        const teeth_in_space teeth{p};
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        const double alpha = p.rack.pressure_angle.rad();
        const double beta = p.helix_angle.rad();
        // The rack lies square over tooth 0. Its flanks are planes; their normals are inclined by the pressure angle in the normal
        // section, which is turned by the helix. The plane is brought up to the flank of the tooth until it touches.
        const auto touched = [&](double side) {
            const vector3 normal{std::sin(alpha), side * std::cos(alpha) * std::cos(beta),
                                 -side * std::cos(alpha) * std::sin(beta)};
            const helicoid flank = side > 0 ? teeth.left_flank(0) : teeth.right_flank(0);
            const double place =
                -measure::least([&](double u) { return -measure::dot(flank.at(u, 0), normal); }, 0.0, 3.0).value;
            // Rack and tooth touch in a line. Square under the pitch point, where they roll, lies the end of the chord.
            const vector3 pitch_point{teeth.reference_radius, 0, 0};
            const vector3 foot = pitch_point + (place - measure::dot(pitch_point, normal)) * normal;
            CHECK(measure::nearest(flank, foot, 0, 2.5, p.normal_module).distance < 1e-7 * p.normal_module);
            return foot;
        };
        const vector3 left = touched(1);
        const vector3 right = touched(-1);
        const rackwork::chord<double> c = constant_chord(g);
        CHECK(c.thickness == doctest::Approx(measure::distance(left, right)).epsilon(1e-12));
        const vector3 middle = 0.5 * (left + right);
        CHECK(c.height == doctest::Approx(g.tip_diameter() / 2 - std::hypot(middle.x, middle.y)).epsilon(1e-11));
        CHECK(constant_chord_diameter(g) == doctest::Approx(2 * std::hypot(left.x, left.y)).epsilon(1e-12));
        CHECK(constant_chord_diameter(g) == doctest::Approx(2 * std::hypot(right.x, right.y)).epsilon(1e-12));
    }
}

TEST_CASE("the constant chord is the same for all tooth numbers and helices of a module, pressure angle and shift") {
    support::random_source random{303};
    for (int i = 0; i < 20; ++i) {
        gear_parameters<double> p{.normal_module = random.uniform(1, 10), .profile_shift = random.uniform(0.2, 0.4)};
        std::optional<rackwork::chord<double>> first;
        for (const int teeth : {12, 17, 30, 101, 500}) {
            for (const double helix : {0.0, 15.0, -30.0}) {
                p.teeth = teeth;
                p.helix_angle = deg(helix);
                const rackwork::chord<double> c = constant_chord(gear<double>{p});
                if (!first) first = c;
                CHECK(c.thickness == doctest::Approx(first->thickness).epsilon(1e-14));
                // The height is the difference of two radii, which grow with the tooth number.
                CHECK(c.height == doctest::Approx(first->height).epsilon(1e-12));
            }
        }
    }
}
