// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Worked examples of internal pairs. The books count a profile shift of the internal gear as positive when it makes its tip circle larger;
// here, as in ISO 21771, that is a negative one.
#include <rackwork/generated_root.hpp>
#include <rackwork/mesh.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using handbook::prints;
using handbook::prints_off_by_one;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::mesh;
using rackwork::pair_proportions;

namespace {

/// With the sign of the books.
gear_parameters<double> ring(double module, int teeth, double shift_of_the_books) {
    return {.normal_module = module,
            .teeth = teeth,
            .kind = gear_kind::internal,
            .rack = handbook::full_depth_rack(20),
            .profile_shift = -shift_of_the_books};
}

} // namespace

TEST_CASE("16 teeth in 24, module 3: shift coefficients 0 and 0.5") {
    // Elements of Metric Gear Technology, table 5-1; from memory.
    const gear<double> pinion{gear_parameters<double>{.normal_module = 3, .teeth = 16}};
    const gear_parameters<double> of_wheel = ring(3, 24, 0.5);
    const gear<double> wheel{of_wheel};
    // The centre distance follows from the shifts alone.
    const pair_proportions<double> pair{.normal_module = 3, .pinion_teeth = 16, .wheel_teeth = 24, .wheel_kind = gear_kind::internal};
    const auto working = working_pressure_angle(pair, -0.5);
    CHECK(prints(inv(working), 0.060401, 6));
    // The book goes through a table of the involute function and stops at its last digit.
    CHECK(prints_off_by_one(working.deg(), 31.0937, 4));
    CHECK(prints(centre_distance(pair, -0.5), 13.1683, 4));
    // Its centre distance modification coefficient, 0.389426, is that of the angle that it has rounded; not rounded it is a little less.
    CHECK(prints(4 * (std::cos(rackwork::deg(20.0).rad()) / std::cos(rackwork::deg(31.0937).rad()) - 1), 0.389426, 6));
    CHECK(prints((centre_distance(pair, -0.5) - reference_centre_distance(pair)) / 3, 0.389423, 6));

    CHECK(prints(pinion.reference_diameter(), 48.000, 3));
    CHECK(prints(wheel.reference_diameter(), 72.000, 3));
    CHECK(prints(pinion.base_diameter(), 45.105, 3));
    CHECK(prints(wheel.base_diameter(), 67.658, 3));
    CHECK(prints(pinion.addendum(), 3.000, 3));
    CHECK(prints(wheel.addendum(), 1.500, 3));
    CHECK(prints(pinion.tooth_depth(), 6.75, 2));
    CHECK(prints(wheel.tooth_depth(), 6.75, 2));
    CHECK(prints(pinion.tip_diameter(), 54.000, 3));
    CHECK(prints(wheel.tip_diameter(), 69.000, 3));
    CHECK(prints(pinion.root_diameter(), 40.500, 3));
    CHECK(prints(wheel.root_diameter(), 82.500, 3));
    const mesh<double> as_built{pinion, wheel};
    CHECK(prints(as_built.centre_distance(), 13.1683, 4));
    CHECK(prints(as_built.working_diameter().pinion, 52.673, 3));
    CHECK(prints(as_built.working_diameter().wheel, 79.010, 3));
}

TEST_CASE("the profile shift that brings 16 teeth in 24 of module 3 to a centre distance of 13.1683") {
    // Elements of Metric Gear Technology, table 5-2; from memory.
    const pair_proportions<double> pair{.normal_module = 3, .pinion_teeth = 16, .wheel_teeth = 24, .wheel_kind = gear_kind::internal};
    CHECK(prints((13.1683 - reference_centre_distance(pair)) / 3, 0.38943, 5));
    // The book's difference x_2 - x_1 is minus our sum.
    CHECK(prints(-profile_shift_sum(pair, 13.1683), 0.5, 4));
    const double tangent = tangent_of_working_pressure_angle(pair, 13.1683);
    // The angle of the book, 31.0937, is that of table 5-1; from the centre distance as printed it is two units of the last digit more.
    CHECK(prints(rackwork::rad(std::atan(tangent)).deg(), 31.0939, 4));
}

TEST_CASE("internal pairs of small tooth number difference, wheel of 50 teeth, module 1") {
    // Elements of Metric Gear Technology, table 5-4, page T-46; read (sdp-si.com/D785/HTML1/D785T043_4.html).
    // The book counts the contact from tip to tip; with a sharp tool the pinion's involute reaches as deep as the wheel's tips do.
    struct row {
        int pinion_teeth;
        double shift; // of the wheel, in the book's sign
        double working_angle;
        double centre_distance;
        double contact_ratio;
    };
    const row rows[] = {{49, 1.00, 61.0605, 0.971, 1.105}, {48, 0.60, 46.0324, 1.354, 1.512}, {47, 0.40, 37.4155, 1.775, 1.726},
                        {45, 0.20, 28.2019, 2.666, 1.933}, {44, 0.11, 24.5356, 3.099, 2.014}, {43, 0.06, 22.3755, 3.557, 2.053},
                        {42, 0.01, 20.3854, 4.010, 2.088}};
    for (const row& each : rows) {
        CAPTURE(each.pinion_teeth);
        const gear<double> pinion{
            gear_parameters<double>{.normal_module = 1, .teeth = each.pinion_teeth, .rack = handbook::full_depth_rack(20)}};
        const gear_parameters<double> of_wheel = ring(1, 50, each.shift);
        const mesh<double> pair{pinion, gear<double>{of_wheel}};
        CHECK(prints(pair.working_pressure_angle().deg(), each.working_angle, 4));
        CHECK(prints(pair.centre_distance(), each.centre_distance, 3));
        CHECK(prints(pair.transverse_contact_ratio(), each.contact_ratio, 3));
    }
}

TEST_CASE("without shift an internal pair works at the pressure angle of its rack, and its clearance is the rack's") {
    // Common practice: a = m (z_2 - z_1)/2, d_a2 = m (z_2 - 2), d_f2 = m (z_2 + 2.5), c = 0.25 m.
    const gear<double> pinion{gear_parameters<double>{.normal_module = 2, .teeth = 20}};
    const gear_parameters<double> of_wheel = ring(2, 80, 0);
    const gear<double> wheel{of_wheel};
    CHECK(wheel.tip_diameter() == 156);
    CHECK(wheel.root_diameter() == 165);
    const mesh<double> pair{pinion, wheel};
    CHECK(pair.centre_distance() == 60);
    CHECK(prints(pair.working_pressure_angle().deg(), 20, 12));
    CHECK(prints(pair.bottom_clearance().pinion, 0.5, 12));
    CHECK(prints(pair.bottom_clearance().wheel, 0.5, 12));
    CHECK(pair.circumferential_backlash() == 0);
    CHECK(pair.gear_ratio() == 4);
}
