// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Published values on the choice of profile shifts.
#include <doctest/doctest.h>

#include "printed.hpp"

#include <rackwork/core/error.hpp>
#include <rackwork/design/profile_shift.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace {

using namespace rackwork;

/// Tools with a sharp tip corner at one module, as the old rules take them.
constexpr basic_rack<double> sharp_rack{.pressure_angle = deg(20.), .addendum = 1, .dedendum = 1.25, .root_fillet_radius = 0.38};

shift_line<double> standard_line(int pinion, int wheel) {
    return shift_line<double>({.pinion_teeth = pinion, .wheel_teeth = wheel, .tips = tip_rule::full_depth}, 0.0);
}

/// Greatest shift of a gear whose tip circle follows its shift, for a tip thickness in modules.
double greatest_shift(int teeth, double tip) {
    const shift_line<double> line({.pinion_teeth = teeth, .wheel_teeth = 60, .rack = sharp_rack, .tips = tip_rule::full_depth}, 0.0,
                                  {.tip_thickness = tip});
    return line.limit(shift_limit::pinion_tip).value();
}

} // namespace

TEST_CASE("the greatest wheels that standard pinions run with before the tip reaches the base circle's point of contact") {
    // Norton, Design of Machinery, table of maximum gear teeth without interference, 20 degrees, full depth; from memory:
    // pinions of 13, 14, 15 teeth run with wheels of up to 16, 26, 45.
    for (const std::pair<int, int>& teeth : {std::pair{13, 16}, std::pair{14, 26}, std::pair{15, 45}}) {
        CAPTURE(teeth.first);
        CHECK(standard_line(teeth.first, teeth.second).specific_sliding(0.0).pinion < 0);
        // With one tooth more the sliding is without bound.
        CHECK_THROWS_AS(standard_line(teeth.first, teeth.second + 1).specific_sliding(0.0), geometry_error);
    }
}

TEST_CASE("seven teeth are the fewest between the practical undercut limit and a pointed tip") {
    // DIN 3960, diagram of the shifts that undercut and pointed teeth leave, with the practical limit x = (14 - z)/17 at 20 degrees; from
    // memory.
    const auto practical_undercut = [](int teeth) { return (14.0 - teeth) / 17; };
    CHECK(greatest_shift(7, 0) > practical_undercut(7));
    CHECK(greatest_shift(6, 0) < practical_undercut(6));
}

TEST_CASE("undercut and pointed tip of the exact geometry leave eight teeth") {
    // The theoretical limit x = (17 - z)/17 instead; textbooks on gear geometry, from memory.
    const auto undercut = [](int teeth) {
        return shiftable_pair<double>{.pinion_teeth = teeth, .wheel_teeth = 60, .rack = sharp_rack}
            .least_profile_shift_without_undercut()
            .pinion;
    };
    for (int teeth = 5; teeth <= 16; ++teeth) CHECK(std::fabs(undercut(teeth) - (17.0 - teeth) / 17) < 0.006); // 17 stands for 17.097
    CHECK(greatest_shift(8, 0) > undercut(8));
    CHECK(greatest_shift(7, 0) < undercut(7));
}

TEST_CASE("the shifts of an old British rule are permissible") {
    // BS PD 6457: x_1 = 0.4 (1 - z_1/z_2) or 0.02 (30 - z_1), whichever is greater, x_2 = -x_1, for sums of 60 teeth and more; below,
    // 0.02 (30 - z) for each gear. From memory. The rule is held to what it is for: no undercut and tips that are not pointed.
    for (const int z1 : {12, 15, 17, 20, 25, 30}) {
        for (const int z2 : {35, 45, 60, 80, 120}) {
            if (z1 + z2 < 60) continue;
            const double x = std::max(0.4 * (1 - static_cast<double>(z1) / z2), 0.02 * (30 - z1));
            const shift_range<double> range = shift_line<double>({.pinion_teeth = z1, .wheel_teeth = z2}, 0.0).permissible();
            CAPTURE(z1);
            CAPTURE(z2);
            CHECK(x >= range.least);
            CHECK(x <= range.greatest);
        }
    }
}

TEST_CASE("a well-known scuffing pair slides unevenly by design, and equal sliding would have shifted it otherwise") {
    // ISO 14635-1, type A: 16 and 24 teeth, module 4.5, 91.5 mm, x_1 = 0.8532, x_2 = -0.5; from memory. There the wheel slides by -5.96 at
    // the pinion's tip, the pinion by no more than -0.52 at the wheel's.
    const shiftable_pair<double> pair{.normal_module = 4.5, .pinion_teeth = 16, .wheel_teeth = 24, .tips = tip_rule::full_depth};
    const double sum = profile_shift_sum(pair.proportions(), 91.5);
    CHECK(handbook::prints(sum, 0.8532 - 0.5, 4));
    const shift_line<double> line(pair, sum);
    CHECK(handbook::prints(line.specific_sliding(0.8532).pinion, -0.52, 2));
    CHECK(line.specific_sliding(0.8532).wheel < -5);
    // Equal sliding takes from the pinion's shift until the worse of both is less than half of that.
    const double balanced = *line.shift_of_equal_sliding();
    CHECK(balanced < 0.8532);
    CHECK(line.specific_sliding(balanced).pinion > line.specific_sliding(0.8532).wheel / 2);
    CHECK(line.specific_sliding(balanced).wheel == doctest::Approx(line.specific_sliding(balanced).pinion).epsilon(1e-12));
}
