// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Printed limits of undercut and interference.
#include <rackwork/generated_root.hpp>
#include <rackwork/mesh.hpp>
#include <rackwork/undercut_limits.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using handbook::prints;
using handbook::prints_off_by_one;
using handbook::rack_without_clearance;
using rackwork::basic_rack;
using rackwork::deg;
using rackwork::gear;
using rackwork::least_teeth_without_undercut;
using rackwork::mesh;

namespace {

/// Two standard gears without clearance.
mesh<double> pair_of(int pinion_teeth, int wheel_teeth, double pressure_angle, double helix_angle = 0) {
    const basic_rack<double> rack = rack_without_clearance(pressure_angle);
    return mesh<double>{
        gear<double>{{.normal_module = 1, .teeth = pinion_teeth, .helix_angle = deg(helix_angle), .rack = rack}},
        gear<double>{{.normal_module = 1, .teeth = wheel_teeth, .helix_angle = deg(-helix_angle), .rack = rack}}};
}

/// Radius of the wheel's largest tip circle that does not interfere: it ends where the line of action touches the pinion's base circle.
double largest_tip_radius(const mesh<double>& pair) {
    return std::hypot(pair.wheel().base_diameter() / 2, pair.path_between_base_circles());
}

/// How far the wheel's tip stays above the point where the line of action touches the pinion's base circle, in modules. Negative: the
/// wheel's tip interferes.
double room_for_the_tip(int pinion_teeth, int wheel_teeth, double pressure_angle, double helix_angle = 0) {
    return pair_of(pinion_teeth, wheel_teeth, pressure_angle, helix_angle).reach_of_mating_tip().pinion;
}

/// Broken number of pinion teeth at which a wheel of addendum 1 just does not interfere, at the gear ratio of a pair: the largest
/// possible addendum grows like every other length of the pair.
double least_pinion_teeth(const mesh<double>& pair) {
    const double largest_addendum = largest_tip_radius(pair) - pair.wheel().reference_diameter() / 2;
    return pair.pinion().teeth() / (largest_addendum / pair.wheel().normal_module());
}

} // namespace

TEST_CASE("the least number of teeth that a rack does not undercut") {
    // Elements of Metric Gear Technology, section 4.3, 2 / sin^2 alpha rounded: 32, 17, 12; from memory. The last is rounded up.
    CHECK(prints(least_teeth_without_undercut(rack_without_clearance(14.5)), 32, 0));
    CHECK(prints(least_teeth_without_undercut(rack_without_clearance(20)), 17, 0));
    CHECK(std::ceil(least_teeth_without_undercut(rack_without_clearance(25))) == 12);
    // Norton, Machine Design, least pinion teeth that run with a rack: 32, 18, 12; from memory. All rounded up.
    CHECK(std::ceil(least_teeth_without_undercut(rack_without_clearance(14.5))) == 32);
    CHECK(std::ceil(least_teeth_without_undercut(rack_without_clearance(20))) == 18);
    CHECK(std::ceil(least_teeth_without_undercut(rack_without_clearance(25))) == 12);
    // Khurmi and Gupta, Theory of Machines, table of least teeth, stub and full depth: 14 and 32; from memory.
    CHECK(std::ceil(least_teeth_without_undercut(rack_without_clearance(20, 0.8))) == 14);
    CHECK(std::ceil(least_teeth_without_undercut(rack_without_clearance(14.5, 1.0))) == 32);
    // Common practice.
    CHECK(prints(least_teeth_without_undercut(rack_without_clearance(20)), 17.097, 3));
}

TEST_CASE("the shift that saves 12 teeth from undercut") {
    // The workshop's (17 - z)/17 prints 0.294 (textbook rule; from memory). It rounds the limit of 17.097 teeth; exactly it is 0.298.
    const double exact = least_profile_shift_without_undercut(rack_without_clearance(20), 12);
    CHECK(prints((17 - 12) / 17.0, 0.294, 3));
    CHECK(prints(exact, 0.298133, 6));
    const double limit = least_teeth_without_undercut(rack_without_clearance(20));
    CHECK(exact == doctest::Approx((limit - 12) / limit).epsilon(1e-14));
}

TEST_CASE("the largest wheel that a small pinion runs with") {
    // Norton, Machine Design, table of most gear teeth without interference; from memory.
    struct entry {
        double degrees;
        int pinion;
        int wheel;
    };
    constexpr entry table[] = {{20, 15, 45}, {20, 14, 26}, {20, 13, 16}, {25, 11, 249}, {25, 10, 32}};
    for (const entry& e : table) {
        CAPTURE(e.degrees);
        CAPTURE(e.pinion);
        CHECK(room_for_the_tip(e.pinion, e.wheel, e.degrees) >= 0);
        CHECK(room_for_the_tip(e.pinion, e.wheel + 1, e.degrees) < 0);
    }
}

TEST_CASE("the smallest pinion for a gear ratio of 4") {
    // Shigley's Mechanical Engineering Design, section 13-7: 15.4, so 16; from memory.
    CHECK(prints(least_pinion_teeth(pair_of(20, 80, 20)), 15.4, 1));
    CHECK(room_for_the_tip(15, 60, 20) < 0);
    CHECK(room_for_the_tip(16, 64, 20) > 0);
}

TEST_CASE("the smallest helical gears that run together, at 30 degrees") {
    // Shigley's Mechanical Engineering Design, section 13-10; from memory.
    CHECK(prints(pair_of(9, 9, 20, 30).pinion().transverse_pressure_angle().deg(), 22.80, 2));
    CHECK(prints(least_pinion_teeth(pair_of(9, 9, 20, 30)), 8.48, 2));
    CHECK(room_for_the_tip(8, 8, 20, 30) < 0);
    CHECK(room_for_the_tip(9, 9, 20, 30) > 0);
    // The largest wheel of 9 teeth is printed as 12.02. Between 12 and 13 the room falls almost on a straight line.
    const double room_at_12 = room_for_the_tip(9, 12, 20, 30);
    const double room_at_13 = room_for_the_tip(9, 13, 20, 30);
    CHECK(room_at_12 > 0);
    CHECK(room_at_13 < 0);
    CHECK(prints(12 + room_at_12 / (room_at_12 - room_at_13), 12.02, 2));
}

TEST_CASE("how far a wheel of 36 teeth may reach into a pinion of 12, diametral pitch 6") {
    // Juvinall and Marshek, Fundamentals of Machine Component Design, sample problem on interference; from memory. Inches.
    const double module = rackwork::module_from_diametral_pitch(6.0);
    const auto pair_at = [&](double pressure_angle) {
        const basic_rack<double> rack = rack_without_clearance(pressure_angle);
        return mesh<double>{gear<double>{{.normal_module = module, .teeth = 12, .rack = rack}},
                            gear<double>{{.normal_module = module, .teeth = 36, .rack = rack}}};
    };
    const mesh<double> at_20 = pair_at(20);
    CHECK(prints(at_20.centre_distance(), 4, 12));
    CHECK(prints(at_20.pinion().base_diameter() / 2, 0.940, 3));
    CHECK(prints(at_20.wheel().base_diameter() / 2, 2.819, 3));
    CHECK(prints_off_by_one(largest_tip_radius(at_20), 3.133, 3));
    CHECK(prints(at_20.wheel().tip_diameter() / 2, 3.167, 3));
    CHECK(at_20.reach_of_mating_tip().pinion < 0);
    const mesh<double> at_25 = pair_at(25);
    CHECK(prints(largest_tip_radius(at_25), 3.202, 3));
    CHECK(at_25.reach_of_mating_tip().pinion > 0);
}
