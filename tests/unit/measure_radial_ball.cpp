// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The radial dimension over one ball, and the dimension over three pins as the width of what flat anvils hold.
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/radial_ball.hpp>

#include "measure_internal.hpp"
#include "refusal.hpp"

#include <array>
#include <cmath>
#include <string>

#include <doctest/doctest.h>

using measure::circle;
using measure::vector3;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::geometry_error;
using support::refused_quantity;

namespace {

/// What flat parallel anvils square to a direction read over round pins in the transverse plane.
template <std::size_t n>
double reading(const std::array<vector3, n>& centres, double pin, double direction) {
    double most = -1e300;
    double least = 1e300;
    for (const vector3& c : centres) {
        const double along = c.x * std::cos(direction) + c.y * std::sin(direction);
        most = std::fmax(most, along);
        least = std::fmin(least, along);
    }
    return most - least + pin;
}

vector3 at_angle(double radius, double angle) { return {radius * std::cos(angle), radius * std::sin(angle), 0}; }

gear<double> random_odd_spur_gear(support::random_source& random) {
    for (;;) {
        gear_parameters<double> p = measure::random_gear(random);
        p.helix_angle = deg(0.0);
        if (p.teeth % 2 == 0 || check(p)) continue;
        const gear<double> g{p};
        if (rackwork::root_form_diameter(g) < g.shifted_reference_diameter()) return g;
    }
}

} // namespace

TEST_CASE("the radial dimension is the greatest or least distance of the ball from the axis, and tells the thickness") {
    support::random_source random{631};
    for (int i = 0; i < 200; ++i) {
        const bool internal = i % 2 != 0;
        gear_parameters<double> p = internal ? measure::random_ring(random) : measure::random_gear(random);
        const gear<double> drawn{p};
        const double ball = rackwork::ideal_pin_diameter(drawn);
        p.thickness_allowance -= 0.03 * p.normal_module;
        if (check(p)) continue;
        const gear<double> made{p};
        const double radius = rackwork::position_of_pin(made, ball).centre_diameter / 2;
        // Along the ball's surface in the transverse plane.
        const auto from_axis = [&](double turn) {
            return std::hypot(radius + ball / 2 * std::cos(turn), ball / 2 * std::sin(turn));
        };
        const double extreme = internal ? measure::least(from_axis, 2.0, 4.5).value
                                        : -measure::least([&](double turn) { return -from_axis(turn); }, -1.5, 1.5).value;
        const double size = rackwork::radial_dimension_over_ball(made, ball);
        CHECK(size == doctest::Approx(extreme).epsilon(1e-12));
        CHECK(std::fabs(rackwork::normal_tooth_thickness_from_radial_dimension(drawn, ball, size) - made.normal_tooth_thickness()) <
              1e-12 * p.normal_module);
        if (p.teeth % 2 == 0) {
            const double two = internal ? rackwork::dimension_between_balls(made, ball) : rackwork::dimension_over_balls(made, ball);
            CHECK(2 * size == doctest::Approx(two).epsilon(1e-14));
        }
    }
}

TEST_CASE("the dimension over three pins is the width at which flat anvils come to rest on two neighbours and the pin that faces them") {
    support::random_source random{632};
    for (int i = 0; i < 100; ++i) {
        const gear<double> g = random_odd_spur_gear(random);
        const double pin = rackwork::ideal_pin_diameter(g);
        const double radius = rackwork::position_of_pin(g, pin).centre_diameter / 2;
        const double pitch = 2 * circle / g.teeth();
        CAPTURE(g.teeth());
        // Neighbours on either side of tooth 0, which is on the x axis; the third pin in the space that is furthest round.
        const std::array<vector3, 3> centres{at_angle(radius, pitch / 2), at_angle(radius, -pitch / 2),
                                             at_angle(radius, pitch / 2 + pitch * (g.teeth() / 2))};
        const double three = rackwork::dimension_over_three_pins(g, pin);
        CHECK(reading(centres, pin, 0) == doctest::Approx(three).epsilon(1e-13));
        // Tilted either way they read more.
        for (const double tilt : {-0.02, -0.001, 0.001, 0.02}) CHECK(reading(centres, pin, tilt) > three * (1 + 1e-12));
        // Over two pins they read more, since one of the neighbours is not there to hold the anvil in.
        CHECK(three < rackwork::dimension_over_pins(g, pin));
        CHECK(std::fabs(rackwork::normal_tooth_thickness_from_three_pins(g, pin, three) - g.normal_tooth_thickness()) <
              1e-12 * g.normal_module());
    }
}

TEST_CASE("three pins are for external spur gears with odd tooth numbers, and must not touch each other") {
    const gear<double> odd{{.normal_module = 2, .teeth = 21}};
    CHECK(refused_quantity([&] { return rackwork::dimension_over_three_pins(odd, 3.5); }).empty());
    CHECK(refused_quantity([&] { return rackwork::dimension_over_three_pins(gear<double>{{.normal_module = 2, .teeth = 20}}, 3.5); }) == "teeth");
    CHECK(refused_quantity([&] {
              return rackwork::dimension_over_three_pins(gear<double>{{.normal_module = 2, .teeth = 21, .helix_angle = deg(10.0)}}, 3.5);
          }) == "helix_angle (deg)");
    CHECK(refused_quantity([&] {
              return rackwork::dimension_over_three_pins(gear<double>{{.normal_module = 2, .teeth = 51, .kind = gear_kind::internal}}, 3.5);
          }) == "kind");
    // Neighbours 2 r_K sin(pitch/2) apart touch when they are as thick as that.
    double pin = 3.5;
    while (refused_quantity([&] { return rackwork::dimension_over_three_pins(odd, pin); }).empty()) pin += 0.001;
    CHECK(refused_quantity([&] { return rackwork::dimension_over_three_pins(odd, pin); }) == "pin_diameter");
    CHECK(rackwork::position_of_pin(odd, pin).centre_diameter * std::sin(circle / 21) == doctest::Approx(pin).epsilon(1e-3));
}

TEST_CASE("one ball is enough for a gear of one tooth, and none that reaches the axis of a ring is measured") {
    const gear<double> worm{{.normal_module = 2, .teeth = 1, .helix_angle = deg(70.0), .profile_shift = 1}};
    CHECK(rackwork::radial_dimension_over_ball(worm, 3.5) > worm.tip_diameter() / 2 - 2);
    for (const double size : {0.0, -1.0, std::nan("")}) {
        CHECK_THROWS_AS(static_cast<void>(rackwork::normal_tooth_thickness_from_radial_dimension(worm, 3.5, size)), geometry_error);
        CHECK_THROWS_AS(static_cast<void>(rackwork::radial_dimension_over_ball(worm, size)), geometry_error);
    }
}
