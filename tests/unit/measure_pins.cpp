// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Dimensions over balls and pins from first principles: spheres and straight lines against the tooth flanks.
#include <rackwork/measure/pins.hpp>

#include "measure_helicoid.hpp"

#include <array>
#include <cmath>

#include <doctest/doctest.h>

using measure::circle;
using measure::distance;
using measure::teeth_in_space;
using measure::vector3;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::geometry_error;

namespace {

/// Roll angle, which is the tangent of the pressure angle, at a diameter.
double roll_at(const gear<double>& g, double diameter) {
    return std::sqrt(std::pow(diameter / g.base_diameter(), 2) - 1);
}

/// Middle of the space between tooth 0 and tooth 1 at z = 0, and a point there at a radius.
vector3 in_space(const gear_parameters<double>& p, double radius) {
    return {radius * std::cos(circle / p.teeth), radius * std::sin(circle / p.teeth), 0};
}

/// A straight pin's axis: a point of it and its direction.
struct line {
    vector3 through;
    vector3 along;
};

/// The axis of a pin that lies in the space whose middle is at an angle at z = 0, moved along that space to a height: it follows the
/// helix through its middle.
line axis_of_pin(const teeth_in_space& teeth, double radius, double angle, double height) {
    const double a = angle + teeth.twist * height;
    return {{radius * std::cos(a), radius * std::sin(a), height},
            measure::unit({-radius * teeth.twist * std::sin(a), radius * teeth.twist * std::cos(a), 1})};
}

/// What flat parallel anvils read over two pins: they lie square to the common perpendicular of the axes.
double reading(const line& a, const line& b, double pin_diameter) {
    const vector3 normal = measure::cross(a.along, b.along);
    const double size = measure::length(normal);
    if (size < 1e-9) { // parallel pins: the anvils lie square to the shortest way from one to the other
        const vector3 between = b.through - a.through;
        const vector3 across = between - measure::dot(between, a.along) * a.along;
        return measure::length(across) + pin_diameter;
    }
    return std::fabs(measure::dot(b.through - a.through, normal)) / size + pin_diameter;
}

/// Least reading over all positions of both pins in two spaces that face each other as nearly as they can.
double least_reading(const gear_parameters<double>& p, double radius, double pin_diameter) {
    const teeth_in_space teeth{p};
    const double opposite = (p.teeth / 2) * 2 * circle / p.teeth;
    const auto at = [&](const std::array<double, 2>& heights) {
        return reading(axis_of_pin(teeth, radius, 0, heights[0]), axis_of_pin(teeth, radius, opposite, heights[1]),
                       pin_diameter);
    };
    // Everywhere within a quarter turn of the screw to either side, then closely.
    const double range = circle / 4 / std::fabs(teeth.twist);
    std::array<double, 2> best{0, 0};
    const int steps = 30;
    for (int i = -steps; i <= steps; ++i) {
        for (int j = -steps; j <= steps; ++j) {
            const std::array<double, 2> trial{range * i / steps, range * j / steps};
            if (at(trial) < at(best)) best = trial;
        }
    }
    return measure::least_nearby<2>(at, best, {range / steps, range / steps}, 26);
}

/// Shortest distance of a straight line from a flank, near a point of the flank.
double nearest_to_line(const measure::helicoid& flank, const line& axis, double roll, double height, double reach) {
    const auto apart = [&](const std::array<double, 2>& on_flank) {
        const vector3 from = flank.at(on_flank[0], on_flank[1]) - axis.through;
        return measure::length(from - measure::dot(from, axis.along) * axis.along);
    };
    std::array<double, 2> best{roll, height};
    for (int i = -20; i <= 20; ++i) {
        for (int j = -20; j <= 20; ++j) {
            const std::array<double, 2> trial{std::fmax(roll + 0.02 * i, 0.0), height + reach * j / 20};
            if (apart(trial) < apart(best)) best = trial;
        }
    }
    return measure::least_nearby<2>(apart, best, {0.01, reach / 40}, 40);
}

/// Draws gears on whose spaces a pin of the recommended size lies.
gear_parameters<double> with_room_for_a_pin(support::random_source& random, const measure::bounds& limits = {}) {
    for (;;) {
        const gear_parameters<double> p = measure::random_gear(random, limits);
        const gear<double> g{p};
        if (rackwork::root_form_diameter(g) < g.shifted_reference_diameter() &&
            g.shifted_reference_diameter() < g.tip_diameter()) {
            return p;
        }
    }
}

} // namespace

TEST_CASE("a ball of the recommended size touches both flanks where it should, and nothing else") {
    support::random_source random{201};
    for (int i = 0; i < 30; ++i) {
        const gear_parameters<double> p = with_room_for_a_pin(random);
        const gear<double> g{p};
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        CAPTURE(p.profile_shift);
        const double ball = rackwork::ideal_pin_diameter(g);
        const rackwork::pin_position<double> lies = rackwork::position_of_pin(g, ball);
        const vector3 centre = in_space(p, lies.centre_diameter / 2);
        const teeth_in_space teeth{p};
        const double tip_roll = roll_at(g, g.tip_diameter());
        const auto left = measure::nearest(teeth.left_flank(0), centre, 0, tip_roll, 2 * ball);
        const auto right = measure::nearest(teeth.right_flank(1), centre, 0, tip_roll, 2 * ball);
        CHECK(left.distance == doctest::Approx(ball / 2).epsilon(1e-11));
        CHECK(right.distance == doctest::Approx(ball / 2).epsilon(1e-11));
        // A flat least distance is found at a place known to the root of what its value is known to.
        CHECK(left.roll == doctest::Approx(roll_at(g, lies.contact_diameter)).epsilon(1e-5));
        CHECK(right.roll == doctest::Approx(roll_at(g, lies.contact_diameter)).epsilon(1e-5));
        CHECK(lies.contact_diameter == doctest::Approx(g.shifted_reference_diameter()).epsilon(1e-12));
        // On either side the ball touches the sound part of the flank, and stays clear of the root fillet in every section.
        CHECK(lies.contact_diameter > rackwork::root_form_diameter(g));
        CHECK(lies.contact_diameter < g.tip_diameter());
        const rackwork::generated_root<double> root{g};
        double clear = 1e300;
        for (int section = -20; section <= 20; ++section) {
            const double z = ball / 2 * section / 20;
            for (int step = 0; step <= 40; ++step) {
                const auto at = root.fillet().at(root.end_parameter() * step / 40);
                for (const double side : {1.0, -1.0}) {
                    const rackwork::point<double> q = at.position();
                    const double a = circle / p.teeth + teeth.twist * z + side * std::atan2(q.y, q.x);
                    const double r = std::hypot(q.x, q.y);
                    clear = std::fmin(clear, distance(centre, {r * std::cos(a), r * std::sin(a), z}));
                }
            }
        }
        CHECK(clear > ball / 2);
        CHECK(lies.centre_diameter - ball > g.generated_root_diameter());
    }
}

TEST_CASE("balls of other sizes lie as deep as they are said to") {
    support::random_source random{202};
    for (int i = 0; i < 30; ++i) {
        const gear_parameters<double> p = with_room_for_a_pin(random);
        const gear<double> g{p};
        const double ball = rackwork::ideal_pin_diameter(g) * random.uniform(0.97, 1.1);
        const rackwork::pin_position<double> lies = rackwork::position_of_pin(g, ball);
        const vector3 centre = in_space(p, lies.centre_diameter / 2);
        // The involute goes on beyond the tip circle here; whether the tooth does is another question.
        const auto left = measure::nearest(teeth_in_space(p).left_flank(0), centre, 0, 2, 2 * ball);
        CHECK(left.distance == doctest::Approx(ball / 2).epsilon(1e-11));
        CHECK(left.roll == doctest::Approx(roll_at(g, lies.contact_diameter)).epsilon(1e-5));
        // The pin that touches there is this one.
        CHECK(rackwork::pin_diameter_touching_at(g, lies.contact_diameter) == doctest::Approx(ball).epsilon(1e-12));
    }
}

TEST_CASE("a ball smaller than the space at the base circle falls through") {
    support::random_source random{203};
    int fell = 0;
    for (int i = 0; i < 200; ++i) {
        const gear_parameters<double> p = with_room_for_a_pin(random);
        const gear<double> g{p};
        // The smallest ball that can touch both involutes touches them where they begin, at the base circle.
        const double space = circle / p.teeth - teeth_in_space(p).half_angle;
        if (space < 0.01) continue; // the teeth overlap down there, and every ball touches somewhere
        const double smallest = rackwork::pin_diameter_touching_at(g, g.base_diameter());
        CHECK_NOTHROW(static_cast<void>(rackwork::position_of_pin(g, smallest * (1 + 1e-9))));
        CHECK_THROWS_AS(static_cast<void>(rackwork::position_of_pin(g, smallest * (1 - 1e-9))), geometry_error);
        ++fell;
    }
    CHECK(fell > 20);
}

TEST_CASE("a straight pin lies in a helical space as a ball of its diameter does") {
    support::random_source random{204};
    for (int i = 0; i < 15; ++i) {
        const gear_parameters<double> p = with_room_for_a_pin(random, {.spur_too = false});
        const gear<double> g{p};
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        const double pin = rackwork::ideal_pin_diameter(g);
        const rackwork::pin_position<double> lies = rackwork::position_of_pin(g, pin);
        const teeth_in_space teeth{p};
        const line axis = axis_of_pin(teeth, lies.centre_diameter / 2, circle / p.teeth, 0);
        const double roll = roll_at(g, lies.contact_diameter);
        CHECK(nearest_to_line(teeth.left_flank(0), axis, roll, 0, 2 * pin) == doctest::Approx(pin / 2).epsilon(1e-11));
        CHECK(nearest_to_line(teeth.right_flank(1), axis, roll, 0, 2 * pin) == doctest::Approx(pin / 2).epsilon(1e-11));
    }
}

TEST_CASE("the dimension over balls is what flat anvils read over two balls in one transverse plane") {
    support::random_source random{205};
    for (int i = 0; i < 200; ++i) {
        const gear_parameters<double> p = with_room_for_a_pin(random);
        const gear<double> g{p};
        const double ball = rackwork::ideal_pin_diameter(g);
        const double radius = rackwork::position_of_pin(g, ball).centre_diameter / 2;
        const double opposite = (p.teeth / 2) * 2 * circle / p.teeth;
        const vector3 first{radius, 0, 0};
        const vector3 second{radius * std::cos(opposite), radius * std::sin(opposite), 0};
        CHECK(rackwork::dimension_over_balls(g, ball) ==
              doctest::Approx(distance(first, second) + ball).epsilon(1e-13));
    }
}

TEST_CASE("pins and balls read alike on spur gears and on even tooth numbers") {
    support::random_source random{206};
    int compared = 0;
    while (compared < 200) {
        const gear_parameters<double> p = with_room_for_a_pin(random);
        if (p.helix_angle.rad() != 0 && p.teeth % 2 != 0) continue;
        const gear<double> g{p};
        const double pin = rackwork::ideal_pin_diameter(g);
        CHECK(rackwork::dimension_over_pins(g, pin) ==
              doctest::Approx(rackwork::dimension_over_balls(g, pin)).epsilon(1e-14));
        ++compared;
    }
}

TEST_CASE(
    "the dimension over pins is the least that flat anvils read over any two places of them, to 44 degrees of helix") {
    support::random_source random{207};
    int odd = 0;
    int even = 0;
    while (odd < 20 || even < 6) {
        const gear_parameters<double> p = with_room_for_a_pin(
            random, {.least_teeth = 5, .most_teeth = 45, .steepest_helix = 42.5, .spur_too = false});
        const gear<double> g{p};
        const double pin = rackwork::ideal_pin_diameter(g);
        const double centre = rackwork::position_of_pin(g, pin).centre_diameter;
        if (std::fabs(g.helix_angle(centre).deg()) > 44) continue;
        ++(p.teeth % 2 != 0 ? odd : even);
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        CAPTURE(g.helix_angle(centre).deg());
        const double least = least_reading(p, centre / 2, pin);
        CHECK(rackwork::dimension_over_pins(g, pin) == doctest::Approx(least).epsilon(1e-10));
        if (p.teeth % 2 != 0) {
            // Pins find places that face each other better than two balls in one transverse plane can.
            CHECK(rackwork::dimension_over_pins(g, pin) < rackwork::dimension_over_balls(g, pin));
        }
    }
}

TEST_CASE("where the helix is 45 degrees or steeper at the pins they have no least reading") {
    const auto gear_of = [](double degrees, int teeth) {
        return gear_parameters<double>{.normal_module = 2, .teeth = teeth, .helix_angle = deg(degrees)};
    };
    for (const int teeth : {20, 21}) {
        for (const double degrees : {45.0, 50.0, -60.0}) {
            const gear<double> g{gear_of(degrees, teeth)};
            CHECK_THROWS_AS(static_cast<void>(rackwork::dimension_over_pins(g, 3.5)), geometry_error);
            CHECK_NOTHROW(static_cast<void>(rackwork::dimension_over_balls(g, 3.5)));
        }
    }
    // With an even tooth number the pins can face each other. When one is moved away from there, steep pins read less, not more.
    const gear_parameters<double> steep = gear_of(45, 20);
    const double radius = rackwork::position_of_pin(gear<double>{steep}, 3.5).centre_diameter / 2;
    CHECK(gear<double>{steep}.helix_angle(2 * radius).deg() > 45);
    const teeth_in_space teeth{steep};
    const double in_the_middle = reading(axis_of_pin(teeth, radius, 0, 0), axis_of_pin(teeth, radius, circle, 0), 3.5);
    const double moved = reading(axis_of_pin(teeth, radius, 0, 0), axis_of_pin(teeth, radius, circle, 2), 3.5);
    CHECK(in_the_middle == doctest::Approx(2 * radius + 3.5).epsilon(1e-13));
    CHECK(moved < in_the_middle);
    // Just below 45 degrees they read more when moved, as they should.
    const gear_parameters<double> flatter = gear_of(42, 20);
    const double flatter_radius = rackwork::position_of_pin(gear<double>{flatter}, 3.5).centre_diameter / 2;
    CHECK(gear<double>{flatter}.helix_angle(2 * flatter_radius).deg() < 45);
    const teeth_in_space flatter_teeth{flatter};
    CHECK(reading(axis_of_pin(flatter_teeth, flatter_radius, 0, 0),
                  axis_of_pin(flatter_teeth, flatter_radius, circle, 2), 3.5) > 2 * flatter_radius + 3.5);
}
