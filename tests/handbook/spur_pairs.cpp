// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Worked examples of spur gear pairs.
#include <rackwork/measure/chord.hpp>
#include <rackwork/mesh.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using handbook::prints;
using rackwork::gear;
using rackwork::mesh;
using rackwork::pair_proportions;

TEST_CASE("standard spur gears of 12 and 24 teeth, module 3") {
    // Elements of Metric Gear Technology, table 4-1; from memory.
    const gear<double> pinion{{.normal_module = 3, .teeth = 12}};
    const gear<double> wheel{{.normal_module = 3, .teeth = 24}};
    CHECK(prints(mesh<double>{pinion, wheel}.centre_distance(), 54.000, 3));
    CHECK(prints(pinion.reference_diameter(), 36.000, 3));
    CHECK(prints(wheel.reference_diameter(), 72.000, 3));
    CHECK(prints(pinion.base_diameter(), 33.829, 3));
    CHECK(prints(wheel.base_diameter(), 67.658, 3));
    CHECK(prints(pinion.addendum(), 3.000, 3));
    CHECK(prints(pinion.tip_diameter(), 42.000, 3));
    CHECK(prints(wheel.tip_diameter(), 78.000, 3));
    CHECK(prints(pinion.root_diameter(), 28.500, 3));
    CHECK(prints(wheel.root_diameter(), 64.500, 3));
}

TEST_CASE("the profile shift that brings 12 and 24 teeth of module 3 to a centre distance of 56.4999") {
    // Elements of Metric Gear Technology, table 4-4; from memory.
    const pair_proportions<double> pair{.normal_module = 3, .pinion_teeth = 12, .wheel_teeth = 24};
    const double sum = profile_shift_sum(pair, 56.4999);
    CHECK(prints(sum, 0.9600, 4));
    CHECK(prints(working_pressure_angle(pair, sum).deg(), 26.0886, 4));
    // The book's centre distance modification coefficient, (a - a_d)/m.
    CHECK(prints((56.4999 - reference_centre_distance(pair)) / 3, 0.8333, 4));
    CHECK(prints(centre_distance(pair, 0.96), 56.4999, 4));
}

TEST_CASE("a pinion of 16 teeth drives a wheel of 40, diametral pitch 2") {
    // Shigley's Mechanical Engineering Design, example 13-1; from memory. Inches.
    const double module = rackwork::module_from_diametral_pitch(2.0);
    const gear<double> pinion{{.normal_module = module, .teeth = 16, .rack = rackwork::ansi_b6_1_coarse_20}};
    const gear<double> wheel{{.normal_module = module, .teeth = 40, .rack = rackwork::ansi_b6_1_coarse_20}};
    CHECK(prints(pinion.addendum(), 0.5, 3));
    CHECK(prints(pinion.dedendum(), 0.625, 3));
    CHECK(prints(pinion.transverse_pitch(), 1.57, 2));
    CHECK(prints(mesh<double>{pinion, wheel}.centre_distance(), 14.00, 2));
    CHECK(prints(pinion.reference_diameter(), 8.00, 2));
    CHECK(prints(wheel.reference_diameter(), 20.00, 2));
    CHECK(prints(pinion.base_diameter(), 7.52, 2));
    CHECK(prints(wheel.base_diameter(), 18.79, 2));

    SUBCASE("and is mounted a quarter of an inch further apart") {
        // The same example, part (b).
        const mesh<double> wider{pinion, wheel, 14.25};
        CHECK(prints(wider.working_diameter().pinion, 8.143, 3));
        CHECK(prints(wider.working_diameter().wheel, 20.357, 3));
        // The book is remembered with 22.56 degrees, which is what the diameters give as it prints them, 7.52 and 8.143; not rounded
        // it is 22.60.
        CHECK(prints(std::acos(7.52 / 8.143) * 180 / rackwork::pi<double>(), 22.56, 2));
        CHECK(prints(wider.working_pressure_angle().deg(), 22.60, 2));
    }
}

TEST_CASE("a gearset of 19 and 37 teeth, diametral pitch 6, as built and mounted two per cent further apart") {
    // Norton, Machine Design, example of gear mesh parameters; from memory. Inches.
    const double module = rackwork::module_from_diametral_pitch(6.0);
    const gear<double> pinion{{.normal_module = module, .teeth = 19, .rack = rackwork::ansi_b6_1_coarse_20}};
    const gear<double> wheel{{.normal_module = module, .teeth = 37, .rack = rackwork::ansi_b6_1_coarse_20}};
    const mesh<double> pair{pinion, wheel};
    CHECK(prints(pinion.transverse_pitch(), 0.524, 3));
    CHECK(prints(pinion.transverse_base_pitch(), 0.492, 3));
    CHECK(prints(pinion.reference_diameter(), 3.167, 3));
    CHECK(prints(wheel.reference_diameter(), 6.167, 3));
    CHECK(prints(pair.centre_distance(), 4.667, 3));
    CHECK(prints(pinion.addendum(), 0.167, 3));
    CHECK(prints(pinion.dedendum(), 0.208, 3));
    CHECK(prints(pinion.tooth_depth(), 0.375, 3));
    CHECK(prints(pair.bottom_clearance().pinion, 0.042, 3));
    CHECK(prints(pinion.tip_diameter(), 3.500, 3));
    CHECK(prints(wheel.tip_diameter(), 6.500, 3));
    CHECK(prints(pair.length_of_path_of_contact(), 0.798, 3));
    CHECK(prints(pair.transverse_contact_ratio(), 1.62, 2));

    const mesh<double> wider{pinion, wheel, 1.02 * pair.centre_distance()};
    CHECK(prints(wider.working_pressure_angle().deg(), 22.89, 2));
    // The book's 171 minutes of backlash at the pinion come from a formula that holds for small moves,
    // 43200 / pi * (a - a_d) / d_1 * tan(alpha_w). The slope of the backlash is taken at the new place, where it is steepest.
    const double approximation = 43200 / rackwork::pi<double>() * (wider.centre_distance() - pair.centre_distance()) /
                                 pinion.reference_diameter() * tan(wider.working_pressure_angle());
    CHECK(prints(approximation, 171, 0));
    // Exactly: both flanks touch at the old centre distance, so the arc at the new pitch circle is what the thicknesses leave of it.
    const double pitch = rackwork::pi<double>() * wider.working_diameter().pinion / 19;
    const double left = pitch - pinion.tooth_thickness(wider.working_diameter().pinion) -
                        wheel.tooth_thickness(wider.working_diameter().wheel);
    const double minutes = 60 * wider.angular_backlash().pinion.deg();
    CHECK(minutes ==
          doctest::Approx(60 * rackwork::rad(2 * left / wider.working_diameter().pinion).deg()).epsilon(1e-12));
    CHECK(minutes < approximation);
    CHECK(minutes > 0.9 * approximation);
}

TEST_CASE("the test gears of type C, 16 and 24 teeth of module 4.5") {
    // FVA information sheets on gears of type C; from memory. The tips are shortened to keep the bottom clearance.
    const pair_proportions<double> proportions{.normal_module = 4.5, .pinion_teeth = 16, .wheel_teeth = 24};
    CHECK(prints(centre_distance(proportions, 0.1817 + 0.1715), 91.5, 1));
    const double alteration = tip_alteration_for_clearance(proportions, 91.5, 0.1817 + 0.1715);
    const gear<double> pinion{
        {.normal_module = 4.5, .teeth = 16, .profile_shift = 0.1817, .tip_alteration = alteration}};
    const gear<double> wheel{
        {.normal_module = 4.5, .teeth = 24, .profile_shift = 0.1715, .tip_alteration = alteration}};
    const mesh<double> pair{pinion, wheel, 91.5};
    CHECK(prints(pinion.tip_diameter(), 82.46, 2));
    CHECK(prints(wheel.tip_diameter(), 118.36, 2));
    CHECK(prints(pair.working_pressure_angle().deg(), 22.44, 2));
    CHECK(prints(pair.transverse_contact_ratio(), 1.44, 2));
}

TEST_CASE("the fatigue test gear of 28 teeth, diametral pitch 8") {
    // NASA Lewis reports on spur gear fatigue, table of gear data; from memory. Inches.
    const gear<double> g{{.normal_module = rackwork::module_from_diametral_pitch(8.0),
                          .teeth = 28,
                          .rack = rackwork::ansi_b6_1_coarse_20,
                          .thickness_allowance = -0.005}};
    CHECK(prints(g.transverse_pitch(), 0.3927, 4));
    CHECK(prints(g.reference_diameter(), 3.500, 3));
    CHECK(prints(g.tip_diameter(), 3.750, 3));
    CHECK(prints(g.addendum(), 0.125, 3));
    CHECK(prints(chord_at(g, g.reference_diameter()).thickness, 0.191, 3));
}
