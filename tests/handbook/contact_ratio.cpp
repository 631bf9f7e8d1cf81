// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Printed contact ratios and paths of contact. (The helical pair of the contact ratio chapter stands in helical_pairs.cpp.)
#include <rackwork/mesh.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using handbook::prints;
using handbook::prints_off_by_one;
using rackwork::deg;
using rackwork::gear;
using rackwork::mesh;

namespace {

constexpr double pi = rackwork::pi<double>();

mesh<double> standard_pair(double module, int pinion_teeth, int wheel_teeth, double addendum = 1) {
    const rackwork::basic_rack<double> rack{.addendum = addendum};
    return mesh<double>{gear<double>{{.normal_module = module, .teeth = pinion_teeth, .rack = rack}},
                        gear<double>{{.normal_module = module, .teeth = wheel_teeth, .rack = rack}}};
}

/// The parts of the path of contact before and after the pitch point, from the tip circles alone, as the books have them.
struct path_parts {
    double approach;
    double recess;
};
path_parts parts_of_path(const mesh<double>& pair) {
    const double tangent = tan(pair.working_pressure_angle());
    return {.approach = pair.pinion().base_diameter() / 2 * tangent - pair.reach_of_mating_tip().pinion,
            .recess = pair.wheel().base_diameter() / 2 * tangent - pair.reach_of_mating_tip().wheel};
}

} // namespace

TEST_CASE("the contact ratios of standard spur gears are those of the table") {
    // A gear maker's technical data, table of contact ratios of standard 20 degree gears; from memory.
    struct entry {
        int pinion;
        int wheel;
        double contact_ratio;
    };
    constexpr entry table[] = {{20, 20, 1.557}, {17, 25, 1.563}, {20, 25, 1.584}, {17, 30, 1.584}, {20, 30, 1.605},
                               {30, 30, 1.654}, {20, 35, 1.622}, {25, 35, 1.649}, {30, 35, 1.670}, {17, 40, 1.614},
                               {20, 40, 1.635}, {25, 40, 1.663}, {30, 40, 1.684}};
    for (const entry& e : table) {
        CAPTURE(e.pinion);
        CAPTURE(e.wheel);
        CHECK(prints(standard_pair(1, e.pinion, e.wheel).transverse_contact_ratio(), e.contact_ratio, 3));
    }
    CHECK(prints_off_by_one(standard_pair(1, 17, 20).transverse_contact_ratio(), 1.535, 3));
    // The table is remembered with 1.603 for 17 and 35 teeth; the formula gives 1.601, between its neighbours 1.584 and 1.614.
    CHECK(prints(standard_pair(1, 17, 35).transverse_contact_ratio(), 1.601, 3));
}

TEST_CASE("the contact ratio of a 17-tooth pinion with a rack, which a wheel of ten million teeth stands for") {
    // The same table, row of the rack, 1.748; from memory.
    const mesh<double> pair = standard_pair(1, 17, 10'000'000);
    const path_parts parts = parts_of_path(pair);
    CHECK(prints((parts.approach + parts.recess) / pair.pinion().transverse_base_pitch(), 1.748, 3));
    // The table counts the path from tip to tip. 17 teeth are just under the limit of 17.097: the rack's tip reaches beyond the
    // involute's beginning, and a real pinion, a little undercut, loses that bit and a little more.
    CHECK(pair.reach_of_mating_tip().pinion < 0);
    CHECK(rackwork::generated_root<double>{pair.pinion()}.is_undercut());
    CHECK(pair.transverse_contact_ratio() <
          1.748 + pair.reach_of_mating_tip().pinion / pair.pinion().transverse_base_pitch());
    CHECK(pair.transverse_contact_ratio() > 1.6);
}

TEST_CASE("approach and recess of the test gears of type A") {
    // ISO 14635-1, table of gear data, 3.3 and 14.7 mm; from memory, and written down with the formula's result in view, so a weak
    // witness. Module 4.5, 16 and 24 teeth, centre distance 91.5, tip diameters 88.77 and 112.5. The published shift coefficients
    // are 0.8532 and -0.5; the tip alterations are what the tip diameters leave.
    const gear<double> pinion{{.normal_module = 4.5,
                               .teeth = 16,
                               .profile_shift = 0.8532,
                               .tip_alteration = (88.77 - 72.0) / 9 - 1 - 0.8532}};
    const gear<double> wheel{
        {.normal_module = 4.5, .teeth = 24, .profile_shift = -0.5, .tip_alteration = (112.5 - 108.0) / 9 - 1 + 0.5}};
    CHECK(prints(pinion.tip_diameter(), 88.77, 10));
    CHECK(prints(wheel.tip_diameter(), 112.5, 10));
    const mesh<double> pair{pinion, wheel, 91.5};
    CHECK(prints(parts_of_path(pair).approach, 3.3, 1));
    CHECK(prints_off_by_one(parts_of_path(pair).recess, 14.7, 1));
}

TEST_CASE("paths and arcs of contact of textbook pairs") {
    // Khurmi and Gupta, Theory of Machines, worked examples of the chapter on toothed gearing; from memory. The arc of contact is the
    // path divided by the cosine of the pressure angle.
    SUBCASE("30 and 80 teeth of module 12, addendum 10") {
        const mesh<double> pair = standard_pair(12, 30, 80, 10.0 / 12);
        const double path = pair.length_of_path_of_contact();
        CHECK(prints(path, 52.3, 1));
        CHECK(prints(pair.transverse_contact_ratio(), 1.5, 1));
        // The arc is printed as 55.66, from the rounded path; exactly 55.61.
        CHECK(prints(52.3 / cos(deg(20.0)), 55.66, 2));
        CHECK(prints(path / cos(deg(20.0)), 55.61, 2));
    }
    SUBCASE("20 and 40 teeth of module 5") {
        const path_parts parts = parts_of_path(standard_pair(5, 20, 40));
        CHECK(prints(parts.approach, 12.65, 2));
        CHECK(prints(parts.recess, 11.5, 1));
    }
    SUBCASE("17 and 49 teeth of module 6") {
        const mesh<double> pair = standard_pair(6, 17, 49);
        const path_parts parts = parts_of_path(pair);
        CHECK(prints(parts.approach, 15.5, 1));
        CHECK(prints_off_by_one(parts.recess, 13.41, 2));
        const double arc = (parts.approach + parts.recess) / cos(deg(20.0));
        CHECK(prints(arc, 30.8, 1));
        CHECK(prints(rackwork::rad(arc / (pair.pinion().reference_diameter() / 2)).deg(), 34.6, 1));
    }
}

TEST_CASE("20 and 40 teeth of module 10 whose approach and recess are half of what is possible") {
    // Khurmi and Gupta, Theory of Machines, worked example; from memory: addenda 6.5 (wheel) and 16.2 (pinion), path 51.3, arc 54.6,
    // contact ratio 1.74.
    const mesh<double> standard = standard_pair(10, 20, 40);
    // Possible are the distances from the pitch point to the points where the line of action touches the base circles.
    const double half_approach = standard.pinion().reference_diameter() / 4 * sin(deg(20.0));
    const double half_recess = standard.wheel().reference_diameter() / 4 * sin(deg(20.0));
    const auto addendum = [](const gear<double>& g, double half) {
        const double beyond_base_point = g.reference_diameter() / 2 * sin(deg(20.0)) + half;
        return std::hypot(g.base_diameter() / 2, beyond_base_point) - g.reference_diameter() / 2;
    };
    const double of_wheel = addendum(standard.wheel(), half_approach);
    const double of_pinion = addendum(standard.pinion(), half_recess);
    CHECK(prints(of_wheel, 6.5, 1));
    CHECK(prints(of_pinion, 16.2, 1));
    CHECK(prints(half_approach + half_recess, 51.3, 1));
    CHECK(prints((half_approach + half_recess) / cos(deg(20.0)), 54.6, 1));
    CHECK(prints((half_approach + half_recess) / (10 * pi * cos(deg(20.0))), 1.74, 2));

    const gear<double> pinion{{.normal_module = 10, .teeth = 20, .tip_alteration = of_pinion / 10 - 1}};
    const gear<double> wheel{{.normal_module = 10, .teeth = 40, .tip_alteration = of_wheel / 10 - 1}};
    const mesh<double> pair{pinion, wheel};
    CHECK(parts_of_path(pair).approach == doctest::Approx(half_approach).epsilon(1e-12));
    // The book does not look at the tip: the pinion's tooth comes to a point before it is that long, and contact ends there.
    CHECK(pinion.pointed_tip_diameter() < pinion.tip_diameter());
    CHECK(parts_of_path(pair).recess < half_recess);
    CHECK(pair.transverse_contact_ratio() < 1.74);
}
