// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Dimensions between balls and pins of internal gears from first principles: spheres and straight lines in the spaces of a ring.
#include <rackwork/measure/pins.hpp>

#include "measure_internal.hpp"
#include "refusal.hpp"

#include <array>
#include <cmath>
#include <string>

#include <doctest/doctest.h>

using measure::circle;
using measure::distance;
using measure::ring_in_space;
using measure::roll_at;
using measure::vector3;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::geometry_error;
using support::refusal;

namespace {

/// A point in the middle of the space between tooth 0 and tooth 1 at z = 0.
vector3 in_space(const gear_parameters<double>& p, double radius) {
    return {radius * std::cos(circle / p.teeth), radius * std::sin(circle / p.teeth), 0};
}

/// Shortest distance of the straight line that is tangent to the helix through a ball's centre from the flank of tooth 0, near the place
/// where the ball touches it.
double nearest_to_pin(const gear_parameters<double>& p, double centre_radius, double roll, double reach) {
    const ring_in_space ring{p};
    const vector3 through = in_space(p, centre_radius);
    const vector3 along = measure::unit({-ring.twist * through.y, ring.twist * through.x, 1});
    const measure::helicoid flank = ring.left_flank(0);
    const auto apart = [&](const std::array<double, 2>& on_flank) {
        const vector3 from = flank.at(on_flank[0], on_flank[1]) - through;
        return measure::length(from - measure::dot(from, along) * along);
    };
    std::array<double, 2> best{roll, 0};
    for (int i = -20; i <= 20; ++i) {
        for (int j = -20; j <= 20; ++j) {
            const std::array<double, 2> trial{std::fmax(roll + 0.01 * i, 0.0), reach * j / 20};
            if (apart(trial) < apart(best)) best = trial;
        }
    }
    return measure::least_nearby<2>(apart, best, {0.005, reach / 40}, 40);
}

} // namespace

TEST_CASE("a ball of the recommended size touches both flanks of an internal space where it should, and not the root") {
    support::random_source random{601};
    for (int i = 0; i < 40; ++i) {
        const gear_parameters<double> p = measure::random_ring(random);
        const gear<double> g{p};
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        CAPTURE(p.profile_shift);
        const double ball = rackwork::ideal_pin_diameter(g);
        const rackwork::pin_position<double> lies = rackwork::position_of_pin(g, ball);
        const vector3 centre = in_space(p, lies.centre_diameter / 2);
        const ring_in_space ring{p};
        const double low = roll_at(g, g.tip_diameter());
        const double high = roll_at(g, rackwork::root_form_diameter(g));
        const auto left = measure::nearest(ring.left_flank(0), centre, low, high, 2 * ball);
        const auto right = measure::nearest(ring.right_flank(1), centre, low, high, 2 * ball);
        CHECK(left.distance == doctest::Approx(ball / 2).epsilon(1e-11));
        CHECK(right.distance == doctest::Approx(ball / 2).epsilon(1e-11));
        // A flat least distance is found at a place known to the root of what its value is known to.
        CHECK(left.roll == doctest::Approx(roll_at(g, lies.contact_diameter)).epsilon(1e-5));
        CHECK(right.roll == doctest::Approx(roll_at(g, lies.contact_diameter)).epsilon(1e-5));
        CHECK(lies.contact_diameter == doctest::Approx(g.shifted_reference_diameter()).epsilon(1e-12));
        CHECK(lies.centre_diameter < lies.contact_diameter);
    }
}

TEST_CASE("balls of other sizes lie as deep in internal spaces as they are said to") {
    support::random_source random{602};
    for (int i = 0; i < 40; ++i) {
        const gear_parameters<double> p = measure::random_ring(random);
        const gear<double> g{p};
        const double ball = rackwork::ideal_pin_diameter(g) * random.uniform(0.85, 1.15);
        const rackwork::pin_position<double> lies = rackwork::position_of_pin(g, ball);
        const vector3 centre = in_space(p, lies.centre_diameter / 2);
        // The involute goes on beyond tip and root here; whether the tooth does is another question.
        const double roll = roll_at(g, lies.contact_diameter);
        const auto left =
            measure::nearest(ring_in_space(p).left_flank(0), centre, std::fmax(roll - 0.1, 0.0), roll + 0.1, 2 * ball);
        CHECK(left.distance == doctest::Approx(ball / 2).epsilon(1e-11));
        CHECK(left.roll == doctest::Approx(roll).epsilon(1e-5));
        CHECK(rackwork::pin_diameter_touching_at(g, lies.contact_diameter) == doctest::Approx(ball).epsilon(1e-11));
    }
}

TEST_CASE("the dimension between balls is the gap between two balls in one transverse plane, with even and odd tooth numbers") {
    support::random_source random{603};
    int odd = 0;
    for (int i = 0; i < 200; ++i) {
        const gear_parameters<double> p = measure::random_ring(random);
        const gear<double> g{p};
        odd += p.teeth % 2;
        const double ball = rackwork::ideal_pin_diameter(g);
        const double radius = rackwork::position_of_pin(g, ball).centre_diameter / 2;
        // The greatest gap over all pairs of spaces is what is measured.
        double widest = 0;
        for (int space = 1; space < p.teeth; ++space) {
            const double angle = 2 * circle * space / p.teeth;
            widest = std::fmax(widest, distance({radius, 0, 0}, {radius * std::cos(angle), radius * std::sin(angle), 0}));
        }
        CHECK(rackwork::dimension_between_balls(g, ball) == doctest::Approx(widest - ball).epsilon(1e-13));
        if (p.helix_angle.rad() == 0) {
            CHECK(rackwork::dimension_between_pins(g, ball) == rackwork::dimension_between_balls(g, ball));
        }
    }
    CHECK(odd > 50);
}

TEST_CASE("a straight pin lies in internal spur spaces as a ball does, and would cut into the teeth of helical ones") {
    support::random_source random{604};
    int spur = 0;
    int helical = 0;
    while (spur < 5 || helical < 15) {
        const gear_parameters<double> p = measure::random_ring(random);
        const gear<double> g{p};
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        const double pin = rackwork::ideal_pin_diameter(g);
        const rackwork::pin_position<double> lies = rackwork::position_of_pin(g, pin);
        // A pin three times as long as thick.
        const double gap = nearest_to_pin(p, lies.centre_diameter / 2, roll_at(g, lies.contact_diameter), 1.5 * pin);
        if (p.helix_angle.rad() == 0) {
            ++spur;
            CHECK(gap == doctest::Approx(pin / 2).epsilon(1e-11));
        } else {
            ++helical;
            CHECK(gap < pin / 2 * (1 - 1e-6));
            CHECK_NOTHROW(static_cast<void>(rackwork::dimension_between_balls(g, pin)));
            CHECK(refusal([&] { return rackwork::dimension_between_pins(g, pin); }).quantity == std::string{"helix_angle (deg)"});
            CHECK(refusal([&] { return rackwork::normal_tooth_thickness_from_pins(g, pin, 100.0); }).quantity ==
                  std::string{"helix_angle (deg)"});
        }
    }
}

TEST_CASE("internal gears are not measured over pins nor external ones between them, and the refusal names the kind") {
    const gear<double> ring{{.normal_module = 2, .teeth = 50, .kind = gear_kind::internal}};
    const gear<double> wheel{{.normal_module = 2, .teeth = 50}};
    for (const auto& v : {refusal([&] { return rackwork::dimension_over_pins(ring, 3.5); }),
                          refusal([&] { return rackwork::dimension_over_balls(ring, 3.5); })}) {
        REQUIRE(v);
        CHECK(v.quantity == std::string{"kind"});
        CHECK(v.value == 1);
        CHECK(v.requirement == doctest::Contains("external"));
    }
    for (const auto& v : {refusal([&] { return rackwork::dimension_between_pins(wheel, 3.5); }),
                          refusal([&] { return rackwork::dimension_between_balls(wheel, 3.5); })}) {
        REQUIRE(v);
        CHECK(v.quantity == std::string{"kind"});
        CHECK(v.value == 0);
        CHECK(v.requirement == doctest::Contains("internal"));
    }
    CHECK_NOTHROW(static_cast<void>(rackwork::dimension_between_pins(ring, 3.5)));
    CHECK_NOTHROW(static_cast<void>(rackwork::dimension_over_pins(wheel, 3.5)));
}

TEST_CASE("a ball too large for the internal space has no place at which it touches both flanks") {
    support::random_source random{605};
    for (int i = 0; i < 100; ++i) {
        const gear_parameters<double> p = measure::random_ring(random);
        const gear<double> g{p};
        // The largest ball that can touch both flanks has its centre on the base circle: there the flanks' normals end.
        const double largest = 2 * ring_in_space{p}.base_radius * (circle / p.teeth - ring_in_space{p}.half_angle) *
                               cos(g.base_helix_angle());
        CHECK(rackwork::position_of_pin(g, largest * (1 - 1e-9)).centre_diameter ==
              doctest::Approx(g.base_diameter()).epsilon(1e-5));
        const rackwork::violation v = refusal([&] { return rackwork::position_of_pin(g, largest * (1 + 1e-9)); });
        REQUIRE(v);
        CHECK(v.quantity == std::string{"pin_diameter"});
        CHECK(v.limit == doctest::Approx(largest).epsilon(1e-11));
    }
    const gear<double> small{{.normal_module = 2, .teeth = 50, .kind = gear_kind::internal}};
    for (const double pin : {0.0, -1.0, std::nan("")}) {
        CHECK_THROWS_AS(static_cast<void>(rackwork::dimension_between_balls(small, pin)), geometry_error);
    }
}

TEST_CASE("the thickness read between balls and pins is the one that was made") {
    support::random_source random{606};
    for (int i = 0; i < 500; ++i) {
        gear_parameters<double> p = measure::random_ring(random);
        const gear<double> drawn{p};
        p.thickness_allowance = random.uniform(-0.1, 0.02) * p.normal_module;
        if (check(p)) continue;
        const gear<double> made{p};
        const double ball = rackwork::ideal_pin_diameter(drawn);
        const double reading = rackwork::dimension_between_balls(made, ball);
        const double places = 1e-12 * p.normal_module;
        CHECK(std::fabs(rackwork::normal_tooth_thickness_from_balls(drawn, ball, reading) - made.normal_tooth_thickness()) < places);
        if (p.helix_angle.rad() != 0) continue;
        CHECK(std::fabs(rackwork::normal_tooth_thickness_from_pins(drawn, ball, reading) - made.normal_tooth_thickness()) < places);
    }
}

TEST_CASE("thicker internal teeth and larger balls read smaller, and the hand of the helix makes no difference") {
    support::random_source random{607};
    for (int i = 0; i < 300; ++i) {
        gear_parameters<double> p = measure::random_ring(random);
        const gear<double> g{p};
        const double ball = rackwork::ideal_pin_diameter(g);
        const double reading = rackwork::dimension_between_balls(g, ball);
        p.thickness_allowance += 1e-6 * p.normal_module;
        CHECK(rackwork::dimension_between_balls(gear<double>{p}, ball) < reading - 1e-6 * p.normal_module);
        // Beyond its own growth a larger ball is pressed out of the wedge.
        CHECK(rackwork::dimension_between_balls(g, ball * 1.001) < reading - 0.001 * ball);
        gear_parameters<double> mirrored = g.parameters();
        mirrored.helix_angle = -mirrored.helix_angle;
        CHECK(rackwork::dimension_between_balls(gear<double>{mirrored}, ball) == reading);
    }
}

TEST_CASE("the recommended ball of a chamfered gear touches the involute below the chamfer") {
    // The circle d + 2 x m of this external gear lies on the chamfer, so the middle of what is left of the involute is taken.
    gear_parameters<double> p{.normal_module = 4, .teeth = 40, .tip_chamfer = 4.4};
    p.tip_chamfer_angle = deg(30);
    p.tip_alteration = 0;
    const gear<double> chamfered{p};
    CHECK(chamfered.tip_form_diameter() < chamfered.shifted_reference_diameter());
    const double contact = rackwork::position_of_pin(chamfered, rackwork::ideal_pin_diameter(chamfered)).contact_diameter;
    CHECK(contact < chamfered.tip_form_diameter());
    CHECK(contact > rackwork::root_form_diameter(chamfered));
}
