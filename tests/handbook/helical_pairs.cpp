// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Worked examples of helical gear pairs.
#include <rackwork/mesh.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using handbook::prints;
using handbook::prints_off_by_one;
using rackwork::basic_rack;
using rackwork::deg;
using rackwork::gear;
using rackwork::mesh;
using rackwork::pair_proportions;

TEST_CASE("12 and 60 teeth of normal module 3 and 30 degrees helix at a centre distance of 125") {
    // Elements of Metric Gear Technology, table 11-1, page T-109 (read).
    const pair_proportions<double> proportions{
        .normal_module = 3, .pinion_teeth = 12, .wheel_teeth = 60, .helix_angle = deg(30.0)};
    const double alteration = tip_alteration_for_clearance(proportions, 125.0, 0.09809);
    const gear<double> pinion{{.normal_module = 3,
                               .teeth = 12,
                               .helix_angle = deg(30.0),
                               .profile_shift = 0.09809,
                               .tip_alteration = alteration}};
    const gear<double> wheel{
        {.normal_module = 3, .teeth = 60, .helix_angle = deg(-30.0), .tip_alteration = alteration}};
    const mesh<double> pair{pinion, wheel, 125.0};
    CHECK(prints(pinion.transverse_pressure_angle().deg(), 22.79588, 5));
    CHECK(prints(pair.working_pressure_angle().deg(), 23.1126, 4));
    CHECK(prints(pinion.transverse_module(), 3.46410, 5));
    CHECK(prints_off_by_one(pinion.tip_diameter(), 48.153, 3));
    CHECK(prints(wheel.tip_diameter(), 213.842, 3));
    CHECK(prints(pinion.base_diameter(), 38.322, 3));
    CHECK(prints(wheel.base_diameter(), 191.611, 3));
    CHECK(prints(centre_distance(proportions, 0.09809), 125.000, 3));
    // The same page. The book lets the path of contact end at the tips; the pinion's involute begins below where the wheel's tip works.
    CHECK(prints(pair.transverse_contact_ratio(), 1.2939, 4));
    // The same book, table 6-2 (centre distance given); from memory.
    CHECK(prints(profile_shift_sum(proportions, 125.0), 0.09809, 5));
    CHECK(prints((125.0 - reference_centre_distance(proportions)) / 3, 0.097447, 6));
}

TEST_CASE(
    "12 and 60 teeth of transverse module 3, pressure angle 20 degrees in the transverse section, 30 degrees helix") {
    // Elements of Metric Gear Technology, table 6-3; from memory. All of its proportions are those of the transverse section; a basic
    // rack has them in the normal section, so lengths are counted in the smaller normal module and the pressure angle is flatter:
    //   m_n = m_t cos beta, tan alpha_n = tan alpha_t cos beta, and every factor of the module is divided by cos beta.
    const double cosine = cos(deg(30.0));
    const double normal_module = 3 * cosine;
    const basic_rack<double> rack{.pressure_angle = rackwork::arctangent(tan(deg(20.0)) * cosine),
                                  .addendum = 1 / cosine,
                                  .dedendum = 1.25 / cosine,
                                  .root_fillet_radius = 0.25};
    const pair_proportions<double> proportions{.normal_module = normal_module,
                                               .pinion_teeth = 12,
                                               .wheel_teeth = 60,
                                               .helix_angle = deg(30.0),
                                               .normal_pressure_angle = rack.pressure_angle};
    const double shift = 0.34462 / cosine;
    const double distance = centre_distance(proportions, shift);
    const double alteration = tip_alteration_for_clearance(proportions, distance, shift);
    const gear<double> pinion{{.normal_module = normal_module,
                               .teeth = 12,
                               .helix_angle = deg(30.0),
                               .rack = rack,
                               .profile_shift = shift,
                               .tip_alteration = alteration}};
    const gear<double> wheel{{.normal_module = normal_module,
                              .teeth = 60,
                              .helix_angle = deg(-30.0),
                              .rack = rack,
                              .tip_alteration = alteration}};
    const mesh<double> pair{pinion, wheel};
    CHECK(prints(inv(pair.working_pressure_angle()), 0.0183886, 7));
    CHECK(prints(pair.working_pressure_angle().deg(), 21.3975, 4));
    CHECK(prints((distance - pair.reference_centre_distance()) / 3, 0.33333, 5));
    CHECK(prints(pair.centre_distance(), 109.0000, 4));
    CHECK(prints(pinion.reference_diameter(), 36.000, 3));
    CHECK(prints(wheel.reference_diameter(), 180.000, 3));
    CHECK(prints(pinion.base_diameter(), 33.8289, 4));
    CHECK(prints(wheel.base_diameter(), 169.1447, 4));
    CHECK(prints(pair.working_diameter().pinion, 36.3333, 4));
    CHECK(prints(pair.working_diameter().wheel, 181.6667, 4));
    CHECK(prints(pinion.tip_diameter(), 44.000, 3));
    CHECK(prints(wheel.tip_diameter(), 185.932, 3));
    CHECK(prints(pinion.root_diameter(), 30.568, 3));
    CHECK(prints(wheel.root_diameter(), 172.500, 3));
}

TEST_CASE("17 and 103 teeth of module 8 and 15.8 degrees helix at a centre distance of 500") {
    // ISO/TR 6336-30, example 1, table of input; from memory.
    const pair_proportions<double> proportions{
        .normal_module = 8, .pinion_teeth = 17, .wheel_teeth = 103, .helix_angle = deg(15.8)};
    CHECK(prints(profile_shift_sum(proportions, 500.0), 0.145, 3));
    const gear<double> pinion{
        {.normal_module = 8, .teeth = 17, .helix_angle = deg(15.8), .profile_shift = 0.145, .face_width = 100}};
    const gear<double> wheel{{.normal_module = 8, .teeth = 103, .helix_angle = deg(-15.8), .face_width = 100}};
    CHECK(prints(pinion.reference_diameter(), 141.340, 3));
    CHECK(prints(wheel.reference_diameter(), 856.355, 3));
    // Without tip alteration, as the example has it.
    CHECK(prints(pinion.tip_diameter(), 159.66, 2));
    CHECK(prints(wheel.tip_diameter(), 872.35, 2));
}

TEST_CASE("16 teeth at 25 degrees helix are cut like 21.4928 teeth of a spur gear") {
    // Elements of Metric Gear Technology, table 10-3 (read). The spur gear has the radius of curvature of the ellipse in which the
    // normal plane cuts the reference cylinder, d / (2 cos^2 beta).
    const gear<double> g{{.normal_module = 1, .teeth = 16, .helix_angle = deg(25.0)}};
    const double cosine = cos(g.helix_angle());
    CHECK(prints(g.reference_diameter() / (cosine * cosine * g.normal_module()), 21.4928, 4));
}

TEST_CASE("a helical pinion of 20 teeth that moves its rack by 160 mm a turn") {
    // Elements of Metric Gear Technology, table 6-5; from memory. Helix angle 10 degrees 57 minutes 49 seconds.
    const gear<double> g{{.normal_module = 2.5, .teeth = 20, .helix_angle = deg(10 + 57 / 60.0 + 49 / 3600.0)}};
    CHECK(prints(g.transverse_pressure_angle().deg(), 20.34160, 5));
    CHECK(prints(g.reference_diameter(), 50.92956, 5));
    CHECK(prints(g.base_diameter(), 47.75343, 5));
    CHECK(prints_off_by_one(g.tip_diameter(), 55.929, 3));
    CHECK(prints(rackwork::pi<double>() * g.reference_diameter(), 160.000, 3)); // the rack's travel
    CHECK(prints(g.reference_diameter() / 2 + 27.5, 52.965, 3)); // mounting distance over a rack 27.5 high
}
