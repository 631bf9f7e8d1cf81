// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Where undercutting begins.
#include <rackwork/generated_root.hpp>
#include <rackwork/undercut_limits.hpp>

#include "measure_helicoid.hpp"
#include "undercut_sweep.hpp"

#include <cmath>

#include <doctest/doctest.h>

using rackwork::basic_rack;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::generated_root;
using rackwork::least_profile_shift_without_undercut;
using rackwork::least_teeth_without_undercut;
using undercut::blank;

namespace {

generated_root<double> root_of(const gear_parameters<double>& p) { return generated_root<double>{gear<double>{p}}; }

/// What the tool takes away of the involute, at most: an arc, in modules. Zero or less when it takes nothing.
double bite(const gear_parameters<double>& p) {
    const blank swept{p};
    double most = -1;
    for (int i = 1; i <= 200; ++i) {
        // Undercut begins at the base circle, so that is where to look closely.
        const double share = std::pow(i / 200.0, 3);
        const double radius = swept.base_radius + share * (swept.tip_radius - swept.base_radius);
        if (radius <= swept.root_radius()) continue;
        most = std::fmax(most, (swept.at(radius).half_angle - swept.involute(radius)) * radius / p.normal_module);
    }
    return most;
}

/// Parameters at the limit of undercut.
gear_parameters<double> at_the_limit(support::random_source& random) {
    for (;;) {
        gear_parameters<double> p{.normal_module = random.uniform(0.5, 6),
                                  .teeth = random.integer(7, 40),
                                  .rack = {.pressure_angle = deg(random.uniform(14.5, 25)),
                                           .dedendum = 1.25,
                                           .root_fillet_radius = random.uniform(0, 0.25)}};
        if (random.coin()) p.helix_angle = deg(random.uniform(-35, 35));
        p.profile_shift = least_profile_shift_without_undercut(p.rack, p.teeth, p.helix_angle);
        if (std::fabs(p.profile_shift) > 0.8 || check(p)) continue;
        if (gear<double>{p}.tip_thickness() > 0.1 * p.normal_module) return p;
    }
}

} // namespace

TEST_CASE("undercut begins exactly at the least profile shift") {
    support::random_source random{901};
    for (int i = 0; i < 300; ++i) {
        const gear_parameters<double> limit = at_the_limit(random);
        CAPTURE(limit.teeth);
        CAPTURE(limit.helix_angle.deg());
        gear_parameters<double> above = limit;
        above.profile_shift += 1e-12;
        gear_parameters<double> below = limit;
        below.profile_shift -= 1e-12;
        CHECK_FALSE(root_of(above).is_undercut());
        CHECK(root_of(below).is_undercut());
        // There the involute begins on the base circle itself, and on either side above it.
        const double base = gear<double>{limit}.base_diameter();
        CHECK(root_of(above).root_form_diameter() == doctest::Approx(base).epsilon(1e-11));
        CHECK(root_of(below).root_form_diameter() == doctest::Approx(base).epsilon(1e-6));
        above.profile_shift = limit.profile_shift + 0.05;
        below.profile_shift = limit.profile_shift - 0.05;
        CHECK(root_of(above).root_form_diameter() > base);
        CHECK(root_of(below).root_form_diameter() > base);
    }
}

TEST_CASE("a swept tool bites into the involute just below that shift, and not just above it") {
    support::random_source random{902};
    for (int i = 0; i < 20; ++i) {
        const gear_parameters<double> limit = at_the_limit(random);
        CAPTURE(limit.teeth);
        CAPTURE(limit.helix_angle.deg());
        CAPTURE(limit.rack.root_fillet_radius);
        gear_parameters<double> above = limit;
        above.profile_shift += 0.01;
        gear_parameters<double> below = limit;
        below.profile_shift -= 0.01;
        // A bite grows from nothing with a higher power of the shift that is missing. Rounding makes none above 1e-12.
        CHECK(bite(above) < 1e-12);
        CHECK(bite(below) > 1e-9);
    }
}

TEST_CASE("thinning the teeth of a gear at the limit makes the tool undercut them") {
    support::random_source random{903};
    for (int i = 0; i < 50; ++i) {
        gear_parameters<double> p = at_the_limit(random);
        p.profile_shift += 1e-9;
        CHECK_FALSE(root_of(p).is_undercut());
        p.thickness_allowance = -1e-3 * p.normal_module;
        CHECK(root_of(p).is_undercut());
    }
}

TEST_CASE("standard teeth are undercut from 17 down at 20 degrees, from 31 down at 14.5, from 11 down at 25") {
    // Common practice. The rack's straight flank reaches one module deep.
    const auto rack_of = [](double degrees) {
        return basic_rack<double>{.pressure_angle = deg(degrees), .dedendum = 1, .root_fillet_radius = 0};
    };
    struct limit {
        double degrees;
        int last_undercut;
    };
    for (const limit& l : {limit{20, 17}, limit{14.5, 31}, limit{25, 11}}) {
        CAPTURE(l.degrees);
        CHECK(root_of({.normal_module = 1, .teeth = l.last_undercut, .rack = rack_of(l.degrees)}).is_undercut());
        CHECK_FALSE(
            root_of({.normal_module = 1, .teeth = l.last_undercut + 1, .rack = rack_of(l.degrees)}).is_undercut());
        const double least = least_teeth_without_undercut(rack_of(l.degrees));
        CHECK(least > l.last_undercut);
        CHECK(least < l.last_undercut + 1);
        // 2 / sin^2 alpha.
        CHECK(least == doctest::Approx(2 / std::pow(sin(deg(l.degrees)), 2)).epsilon(1e-14));
    }
    CHECK(std::fabs(least_teeth_without_undercut(rack_of(20)) - 17.097) < 0.0005);
}

TEST_CASE("the least teeth and the least shift are two readings of one limit") {
    support::random_source random{904};
    for (int i = 0; i < 300; ++i) {
        const gear_parameters<double> p = at_the_limit(random);
        // At the least shift the least number of teeth is the one that is there.
        CHECK(least_teeth_without_undercut(p.rack, p.profile_shift, p.helix_angle) ==
              doctest::Approx(p.teeth).epsilon(1e-12));
        // The hand of the helix does not matter.
        CHECK(least_profile_shift_without_undercut(p.rack, p.teeth, -p.helix_angle) == p.profile_shift);
        // A shift lowers the number in proportion, and a steeper helix lowers it as well.
        const double standard = least_teeth_without_undercut(p.rack, 0.0, p.helix_angle);
        CHECK(least_teeth_without_undercut(p.rack, 0.4, p.helix_angle) ==
              doctest::Approx(standard * (1 - 0.4 / p.rack.form_dedendum())).epsilon(1e-13));
        CHECK(least_teeth_without_undercut(p.rack, 0.0, deg(40.0)) < standard);
    }
}

TEST_CASE("a rounder tip of the tool undercuts later than a sharp one of the same depth") {
    basic_rack<double> rounded{};
    basic_rack<double> sharp{};
    sharp.root_fillet_radius = 0;
    CHECK(least_profile_shift_without_undercut(rounded, 12) < least_profile_shift_without_undercut(sharp, 12));
    const double between =
        (least_profile_shift_without_undercut(rounded, 12) + least_profile_shift_without_undercut(sharp, 12)) / 2;
    CHECK(root_of({.normal_module = 1, .teeth = 12, .rack = sharp, .profile_shift = between}).is_undercut());
    CHECK_FALSE(root_of({.normal_module = 1, .teeth = 12, .rack = rounded, .profile_shift = between}).is_undercut());
}
