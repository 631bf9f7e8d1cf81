// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Least and greatest backlash: against the mesh at rest, and against teeth in space that have grown.
#include <rackwork/tolerance/backlash.hpp>

#include "mesh_random_pairs.hpp"

#include <cmath>

#include <doctest/doctest.h>

using measure::mesh_of;
using measure::pair_parameters;
using measure::random_pair;
using measure::teeth_in_space;
using measure::vector3;
using rackwork::backlash_conditions;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::mesh;
using rackwork::thickness_allowances;

namespace {

thickness_allowances<double> random_allowances(support::random_source& random, double module) {
    const double upper = random.uniform(-0.04, -0.01) * module;
    return {.upper = upper, .lower = upper - random.uniform(0.002, 0.03) * module};
}

/// Conditions near the nominal centre distance, all at the temperature of reference.
backlash_conditions<double> random_conditions(support::random_source& random, double module, double centre_distance) {
    const double lower = centre_distance + random.uniform(-0.01, 0.02) * module;
    return {.allowances = {random_allowances(random, module), random_allowances(random, module)},
            .centre_distance = {.lower = lower, .upper = lower + random.uniform(0, 0.05) * module}};
}

mesh<double> mesh_with(const gear<double>& pinion, const gear<double>& wheel, double of_pinion, double of_wheel, double distance) {
    return {with_thickness_allowance(pinion, of_pinion), with_thickness_allowance(wheel, of_wheel), distance};
}

/// A pinion and the internal gear it runs in, and the centre distance that their shifts make.
struct internal_pair {
    gear<double> pinion;
    gear<double> wheel;
};
internal_pair random_internal_pair(support::random_source& random) {
    const gear_parameters<double> p{.normal_module = random.uniform(1, 6),
                                    .teeth = random.integer(17, 30),
                                    .helix_angle = rackwork::deg(random.uniform(-25, 25)),
                                    .profile_shift = random.uniform(0, 0.3)};
    gear_parameters<double> w = p;
    w.teeth = 2 * p.teeth + random.integer(15, 60);
    w.kind = gear_kind::internal;
    w.profile_shift = random.uniform(-0.3, 0.3);
    return {gear<double>{p}, gear<double>{w}};
}

/// Shortest distance of two flanks of gears whose axes stand a centre distance apart along x.
double gap(const measure::helicoid& first, const measure::helicoid& second, double centre_distance, double reach) {
    const auto from_roll = [&](double u) {
        const vector3 p = first.at(u, 0);
        return measure::nearest(second, {p.x - centre_distance, p.y, p.z}, 0, 1.2, reach).distance;
    };
    return measure::least(from_roll, 0.0, 1.2, 50).value;
}

/// A tooth of the pinion stands in the middle of a space of the wheel: the gaps to both its sides together.
double gaps_in_space_of_wheel(const gear_parameters<double>& p, const gear_parameters<double>& w, double distance) {
    const teeth_in_space pinion{p};
    const teeth_in_space wheel{w};
    const auto turned = [&](measure::helicoid flank) {
        flank.start += measure::circle - wheel.pitch_angle / 2;
        return flank;
    };
    return gap(pinion.left_flank(0), turned(wheel.left_flank(0)), distance, 0.5 * p.normal_module) +
           gap(pinion.right_flank(0), turned(wheel.right_flank(1)), distance, 0.5 * p.normal_module);
}

/// The gear when all its lengths have grown by a factor.
gear_parameters<double> grown(gear_parameters<double> p, double factor) {
    p.normal_module *= factor;
    p.thickness_allowance *= factor;
    return p;
}

} // namespace

TEST_CASE("at the temperature of reference the extremes are the backlash of the thickest and the thinnest teeth at the limits of the distance") {
    support::random_source random{1501};
    for (int i = 0; i < 300; ++i) {
        const pair_parameters pair = random_pair(random);
        const gear<double> pinion{pair.pinion};
        const gear<double> wheel{pair.wheel};
        const double module = pinion.normal_module();
        const auto c = random_conditions(random, module, mesh_of(pair).centre_distance());
        const auto range = backlash_between_limits(pinion, wheel, c);
        const mesh<double> tight =
            mesh_with(pinion, wheel, c.allowances.pinion.upper, c.allowances.wheel.upper, c.centre_distance.lower);
        const mesh<double> loose =
            mesh_with(pinion, wheel, c.allowances.pinion.lower, c.allowances.wheel.lower, c.centre_distance.upper);
        const double places = 16 * 2.3e-16 * tight.working_diameter().wheel;
        CAPTURE(pinion.teeth());
        CHECK(std::fabs(range.least.normal - tight.normal_backlash()) < places);
        CHECK(std::fabs(range.greatest.normal - loose.normal_backlash()) < places);
        CHECK(std::fabs(range.least.circumferential - tight.circumferential_backlash()) < places);
        CHECK(range.greatest.angular.wheel.rad() == doctest::Approx(loose.angular_backlash().wheel.rad()).epsilon(1e-9));
        CHECK(range.greatest.angular.pinion.rad() == doctest::Approx(loose.angular_backlash().pinion.rad()).epsilon(1e-9));
        // Nothing between the limits is outside the extremes.
        for (int inside = 0; inside < 5; ++inside) {
            const auto between = [&](double low, double high) { return random.uniform(low, high); };
            const mesh<double> some = mesh_with(pinion, wheel, between(c.allowances.pinion.lower, c.allowances.pinion.upper),
                                                between(c.allowances.wheel.lower, c.allowances.wheel.upper),
                                                between(c.centre_distance.lower, c.centre_distance.upper));
            CHECK(some.normal_backlash() > range.least.normal - places);
            CHECK(some.normal_backlash() < range.greatest.normal + places);
        }
    }
}

TEST_CASE("an internal pair closes up as the axes move apart") {
    support::random_source random{1502};
    for (int i = 0; i < 300; ++i) {
        const internal_pair pair = random_internal_pair(random);
        const double nominal = mesh<double>{pair.pinion, pair.wheel}.centre_distance();
        const auto c = random_conditions(random, pair.pinion.normal_module(), nominal);
        const auto range = backlash_between_limits(pair.pinion, pair.wheel, c);
        const mesh<double> tight =
            mesh_with(pair.pinion, pair.wheel, c.allowances.pinion.upper, c.allowances.wheel.upper, c.centre_distance.upper);
        const mesh<double> loose =
            mesh_with(pair.pinion, pair.wheel, c.allowances.pinion.lower, c.allowances.wheel.lower, c.centre_distance.lower);
        const double places = 16 * 2.3e-16 * tight.working_diameter().wheel;
        CHECK(std::fabs(range.least.normal - tight.normal_backlash()) < places);
        CHECK(std::fabs(range.greatest.normal - loose.normal_backlash()) < places);
        CHECK(std::fabs(range.least.circumferential - tight.circumferential_backlash()) < places);
    }
}

TEST_CASE("when gears and housing are of one material and one temperature the backlash grows as every length does") {
    support::random_source random{1503};
    for (int i = 0; i < 300; ++i) {
        const pair_parameters pair = random_pair(random);
        auto c = random_conditions(random, pair.pinion.normal_module, mesh_of(pair).centre_distance());
        const auto cold = backlash_between_limits(gear<double>{pair.pinion}, gear<double>{pair.wheel}, c);
        const double warmth = random.uniform(-60, 130);
        c.temperature = {20 + warmth, 20 + warmth, 20 + warmth};
        const auto warm = backlash_between_limits(gear<double>{pair.pinion}, gear<double>{pair.wheel}, c);
        const double factor = 1 + rackwork::expansion_of_steel * warmth;
        const double places = 1e-13 * c.centre_distance.lower;
        CHECK(std::fabs(warm.least.normal - factor * cold.least.normal) < places);
        CHECK(std::fabs(warm.greatest.circumferential - factor * cold.greatest.circumferential) < places);
    }
}

TEST_CASE("the backlash of gears that have grown unequally is what teeth in space leave, the mean of a tooth of either in a space of the other") {
    support::random_source random{1504};
    for (int i = 0; i < 6; ++i) {
        pair_parameters pair = random_pair(random, {.least_teeth = 12, .most_teeth = 50, .steepest_helix = 30});
        const double module = pair.pinion.normal_module;
        // A plastic pinion, warm; a steel wheel; an aluminium housing.
        backlash_conditions<double> c{.allowances = {{-0.02 * module, -0.05 * module}, {-0.03 * module, -0.05 * module}},
                                      .centre_distance = {mesh_of(pair).centre_distance(), mesh_of(pair).centre_distance() + 0.05 * module},
                                      .expansion = {rackwork::expansion_of_polyoxymethylene, rackwork::expansion_of_steel,
                                                    rackwork::expansion_of_aluminium},
                                      .temperature = {55, 45, 60}};
        const auto range = backlash_between_limits(gear<double>{pair.pinion}, gear<double>{pair.wheel}, c);
        pair.pinion.thickness_allowance = c.allowances.pinion.lower;
        pair.wheel.thickness_allowance = c.allowances.wheel.lower;
        const auto pinion = grown(pair.pinion, 1 + 110e-6 * 35);
        const auto wheel = grown(pair.wheel, 1 + 11.5e-6 * 25);
        const double distance = c.centre_distance.upper * (1 + 23.5e-6 * 40);
        const double one = gaps_in_space_of_wheel(pinion, wheel, distance);
        const double other = gaps_in_space_of_wheel(wheel, pinion, distance);
        CAPTURE(pair.pinion.teeth);
        CAPTURE(pair.pinion.helix_angle.deg());
        CHECK(range.greatest.normal == doctest::Approx((one + other) / 2).epsilon(1e-7));
        // Each differs from the mean by half the difference of the base pitches, in the normal section.
        const double pitches = gear<double>{pinion}.normal_base_pitch() - gear<double>{wheel}.normal_base_pitch();
        CHECK(other - one == doctest::Approx(pitches).epsilon(1e-5));
    }
}

TEST_CASE("warmer gears close the backlash and a warmer housing opens it, but not in a ring") {
    support::random_source random{1505};
    const pair_parameters pair = random_pair(random, {.least_teeth = 20, .most_teeth = 40});
    const auto c = random_conditions(random, pair.pinion.normal_module, mesh_of(pair).centre_distance());
    const auto least = [&](const gear<double>& pinion, const gear<double>& wheel, const backlash_conditions<double>& at,
                           const rackwork::for_bodies<double>& temperature) {
        auto warmed = at;
        warmed.temperature = temperature;
        return backlash_between_limits(pinion, wheel, warmed).least.normal;
    };
    const gear<double> pinion{pair.pinion};
    const gear<double> wheel{pair.wheel};
    const double still = least(pinion, wheel, c, {20, 20, 20});
    CHECK(least(pinion, wheel, c, {80, 20, 20}) < still);
    CHECK(least(pinion, wheel, c, {20, 80, 20}) < still);
    CHECK(least(pinion, wheel, c, {20, 20, 80}) > still);
    CHECK(least(pinion, wheel, c, {20, 20, -20}) < still);
    const internal_pair inside = random_internal_pair(random);
    const double nominal = mesh<double>{inside.pinion, inside.wheel}.centre_distance();
    const auto within = random_conditions(random, inside.pinion.normal_module(), nominal);
    const double at_rest = least(inside.pinion, inside.wheel, within, {20, 20, 20});
    CHECK(least(inside.pinion, inside.wheel, within, {80, 20, 20}) < at_rest);
    CHECK(least(inside.pinion, inside.wheel, within, {20, 80, 20}) > at_rest);
    CHECK(least(inside.pinion, inside.wheel, within, {20, 20, 80}) < at_rest);
}

TEST_CASE("the sum of allowances for a backlash makes that backlash, however it is shared and wherever the gears stand") {
    support::random_source random{1506};
    for (int i = 0; i < 300; ++i) {
        const pair_parameters pair = random_pair(random);
        const double module = pair.pinion.normal_module;
        const double distance = mesh_of(pair).centre_distance() + random.uniform(-0.02, 0.1) * module;
        const mesh<double> given = mesh_of(pair, distance);
        const double wanted = random.uniform(0, 0.1) * module;
        const double sum = allowance_sum_for_backlash(given, wanted);
        const double share = random.uniform(0, 1);
        auto shared = pair;
        shared.pinion.thickness_allowance = share * sum;
        shared.wheel.thickness_allowance = (1 - share) * sum;
        if (check(shared.pinion) || check(shared.wheel)) continue;
        CHECK(std::fabs(mesh_of(shared, distance).normal_backlash() - wanted) < 1e-13 * distance);
    }
    for (int i = 0; i < 100; ++i) {
        const internal_pair pair = random_internal_pair(random);
        const double sum = allowance_sum_for_backlash(mesh<double>{pair.pinion, pair.wheel}, 0.1);
        const mesh<double> thinned{with_thickness_allowance(pair.pinion, sum / 3), with_thickness_allowance(pair.wheel, 2 * sum / 3)};
        CHECK(thinned.normal_backlash() == doctest::Approx(0.1).epsilon(1e-11));
    }
}

TEST_CASE("backlash that closes at the limits is a finding, and so is less than is asked for") {
    constexpr gear<double> pinion{{.normal_module = 3, .teeth = 20}};
    constexpr gear<double> wheel{{.normal_module = 3, .teeth = 40}};
    constexpr backlash_conditions<double> roomy{.allowances = {{-0.1, -0.14}, {-0.1, -0.14}}, .centre_distance = {90, 90.05}};
    constexpr auto range = backlash_between_limits(pinion, wheel, roomy);
    static_assert(backlash_findings(range).empty());
    CHECK(range.least.normal == doctest::Approx(0.2 * cos(rackwork::deg(20.0))).epsilon(1e-10));
    const double recommended = rackwork::recommended_minimum_backlash_in_millimetres(90.0, 3.0);
    CHECK(backlash_findings(range, recommended).empty());
    const auto asked = backlash_findings(range, 0.2);
    REQUIRE(asked.size() == 1);
    CHECK(asked[0].code == rackwork::finding_code::no_backlash);
    CHECK(asked[0].value == range.least.normal);
    CHECK(asked[0].limit == 0.2);
    // The wheel of a plastic that has taken up the summer's heat.
    auto hot = roomy;
    hot.expansion.wheel = rackwork::expansion_of_polyoxymethylene;
    hot.temperature.wheel = 90;
    const auto closed = backlash_findings(backlash_between_limits(pinion, wheel, hot));
    REQUIRE(closed.size() == 1);
    CHECK(closed[0].code == rackwork::finding_code::overlap);
    CHECK(closed[0].severity == rackwork::severity::fault);
    // The extremes over both states.
    const auto state = backlash_between_limits(pinion, wheel, hot);
    const auto both = rackwork::limits_around<double>({.lower = range.least.normal, .upper = range.greatest.normal},
                                            {.lower = state.least.normal, .upper = state.greatest.normal});
    CHECK(both.lower == state.least.normal);
    CHECK(both.upper == range.greatest.normal);
}

TEST_CASE("impossible conditions are refused") {
    const gear<double> pinion{{.normal_module = 3, .teeth = 20}};
    const gear<double> wheel{{.normal_module = 3, .teeth = 40}};
    const backlash_conditions<double> good{.allowances = {{-0.1, -0.14}, {-0.1, -0.14}}, .centre_distance = {90, 90.05}};
    const double none = std::nan("");
    const auto refused = [&](const backlash_conditions<double>& c) { CHECK_THROWS_AS(backlash_between_limits(pinion, wheel, c), rackwork::geometry_error); };
    for (const double bad : {none, HUGE_VAL, -HUGE_VAL, 1e300}) {
        auto c = good;
        c.centre_distance.lower = bad;
        if (bad != -HUGE_VAL) refused(c);
        c = good;
        c.temperature.housing = bad;
        refused(c);
        c = good;
        c.expansion.pinion = bad;
        c.temperature.pinion = 30;
        refused(c);
        c = good;
        c.allowances.wheel.upper = bad;
        refused(c);
        c = good;
        c.reference_temperature = bad;
        refused(c);
    }
    auto c = good;
    c.centre_distance = {-HUGE_VAL, 90};
    refused(c);
    c.centre_distance = {80, 80.1}; // below the base circles, 84.57
    refused(c);
    c = good;
    c.allowances.pinion = {.upper = -0.2, .lower = -0.1};
    refused(c);
    const gear<double> other{{.normal_module = 2.5, .teeth = 40}};
    CHECK_THROWS_AS(backlash_between_limits(pinion, other, good), rackwork::geometry_error);
    for (const double bad : {none, 0.0, -1.0, HUGE_VAL}) {
        CHECK_THROWS_AS(rackwork::recommended_minimum_backlash_in_millimetres(bad, 3), rackwork::geometry_error);
        CHECK_THROWS_AS(rackwork::recommended_minimum_backlash_in_millimetres(100.0, bad), rackwork::geometry_error);
    }
    CHECK_THROWS_AS(allowance_sum_for_backlash(mesh<double>{pinion, wheel}, none), rackwork::geometry_error);
}
