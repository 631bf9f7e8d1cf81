// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Thickness allowances to the limits of every measure, and back.
#include <rackwork/tolerance/thickness.hpp>

#include "measure_helicoid.hpp"

#include <cmath>

#include <doctest/doctest.h>

using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::size_limits;
using rackwork::thickness_allowances;
using rackwork::thickness_verdict;

namespace {

/// A gear and limits of its teeth with which it can be measured in every way.
struct toleranced {
    gear<double> of;
    thickness_allowances<double> allowances;
};

toleranced random_toleranced(support::random_source& random) {
    for (;;) {
        const gear_parameters<double> p = measure::random_gear(random, {.least_teeth = 12, .steepest_helix = 35});
        const double upper = random.uniform(-0.05, 0) * p.normal_module;
        const thickness_allowances<double> allowances{.upper = upper, .lower = upper - random.uniform(0.001, 0.05) * p.normal_module};
        gear_parameters<double> thinnest = p;
        thinnest.thickness_allowance = allowances.lower;
        const gear<double> g{p};
        if (check(thinnest) || rackwork::root_form_diameter(gear<double>{thinnest}) >= g.shifted_reference_diameter()) continue;
        if (g.shifted_reference_diameter() >= g.tip_diameter()) continue;
        return {g, allowances};
    }
}

toleranced random_ring(support::random_source& random, bool helical) {
    for (;;) {
        gear_parameters<double> p{.normal_module = random.uniform(0.5, 8), .teeth = random.integer(40, 150), .kind = gear_kind::internal};
        if (helical) p.helix_angle = rackwork::deg(random.uniform(-30, 30));
        p.profile_shift = random.uniform(-0.3, 0.3);
        if (check(p)) continue;
        const double upper = random.uniform(-0.05, 0) * p.normal_module;
        return {gear<double>{p}, {.upper = upper, .lower = upper - random.uniform(0.001, 0.05) * p.normal_module}};
    }
}

void same(const thickness_allowances<double>& found, const toleranced& t) {
    // Rounding errors of a reading are some places of the diameter, up to 150 modules, and come back through the slope of the measure.
    const double places = 2e-12 * t.of.normal_module();
    CHECK(std::fabs(found.upper - t.allowances.upper) < places);
    CHECK(std::fabs(found.lower - t.allowances.lower) < places);
}

gear<double> with(const gear<double>& g, double allowance) { return with_thickness_allowance(g, allowance); }

constexpr int draws = 300;

} // namespace

TEST_CASE("allowances become the limits of a measure, and the limits lead back to the allowances, for every measure of external gears") {
    support::random_source random{1401};
    for (int i = 0; i < draws; ++i) {
        const toleranced t = random_toleranced(random);
        CAPTURE(t.of.teeth());
        CAPTURE(t.of.helix_angle().deg());
        const int k = rackwork::recommended_teeth_spanned(t.of);
        const double pin = ideal_pin_diameter(t.of);
        const double d = t.of.reference_diameter();
        same(allowances_from_span(t.of, k, span_limits(t.of, k, t.allowances)), t);
        same(allowances_from_balls(t.of, pin, dimension_over_balls_limits(t.of, pin, t.allowances)), t);
        same(allowances_from_pins(t.of, pin, dimension_over_pins_limits(t.of, pin, t.allowances)), t);
        same(allowances_from_radial_dimension(t.of, pin, radial_dimension_limits(t.of, pin, t.allowances)), t);
        same(allowances_from_chord(t.of, d, chord_limits(t.of, d, t.allowances)), t);
        same(allowances_from_constant_chord(t.of, constant_chord_limits(t.of, t.allowances)), t);
    }
}

TEST_CASE("the same for internal gears, between whose balls the thinner tooth reads more") {
    support::random_source random{1402};
    for (int i = 0; i < draws; ++i) {
        const bool helical = random.coin();
        const toleranced t = random_ring(random, helical);
        CAPTURE(t.of.teeth());
        const double ball = ideal_pin_diameter(t.of);
        const size_limits<double> balls = dimension_between_balls_limits(t.of, ball, t.allowances);
        same(allowances_from_balls(t.of, ball, balls), t);
        CHECK(balls.upper == dimension_between_balls(with(t.of, t.allowances.lower), ball));
        CHECK(balls.lower == dimension_between_balls(with(t.of, t.allowances.upper), ball));
        same(allowances_from_radial_dimension(t.of, ball, radial_dimension_limits(t.of, ball, t.allowances)), t);
        if (helical) continue;
        same(allowances_from_pins(t.of, ball, dimension_between_pins_limits(t.of, ball, t.allowances)), t);
        const int k = rackwork::recommended_teeth_spanned(t.of);
        same(allowances_from_span(t.of, k, span_limits(t.of, k, t.allowances)), t);
    }
}

TEST_CASE("the limits of a measure are what the thickest and the thinnest tooth read, whatever allowance the gear itself has") {
    support::random_source random{1403};
    for (int i = 0; i < draws; ++i) {
        const toleranced t = random_toleranced(random);
        const gear<double> thickest = with(t.of, t.allowances.upper);
        const gear<double> thinnest = with(t.of, t.allowances.lower);
        const int k = rackwork::recommended_teeth_spanned(t.of);
        const double pin = ideal_pin_diameter(t.of);
        for (const gear<double>& of : {t.of, thinnest}) {
            CHECK(span_limits(of, k, t.allowances).upper == span_measurement(thickest, k));
            CHECK(span_limits(of, k, t.allowances).lower == span_measurement(thinnest, k));
            CHECK(dimension_over_balls_limits(of, pin, t.allowances).upper == dimension_over_balls(thickest, pin));
            CHECK(dimension_over_balls_limits(of, pin, t.allowances).lower == dimension_over_balls(thinnest, pin));
        }
        // The span's tolerance is the thickness tolerance times cos alpha_n, the constant chord's times its square.
        const double tolerance = t.allowances.tolerance();
        const double cosine = cos(t.of.normal_pressure_angle());
        CHECK(normal_tooth_thickness_limits(t.of, t.allowances).tolerance() == doctest::Approx(tolerance).epsilon(1e-9));
        CHECK(span_limits(t.of, k, t.allowances).tolerance() == doctest::Approx(tolerance * cosine).epsilon(1e-9));
        CHECK(constant_chord_limits(t.of, t.allowances).tolerance() == doctest::Approx(tolerance * cosine * cosine).epsilon(1e-9));
    }
}

TEST_CASE("a measured gear's allowance, and the verdict on it") {
    // A wheel of our own: module 2.5, 30 teeth, to be thinned by 0.06 to 0.11 mm.
    constexpr gear<double> wheel{{.normal_module = 2.5, .teeth = 30}};
    constexpr thickness_allowances<double> allowances{.upper = -0.06, .lower = -0.11};
    constexpr size_limits<double> span = span_limits(wheel, 4, allowances);
    // 2.5 times the 10.7526 of the tables for module 1 (mechanical design handbooks, from memory), less 0.06 and 0.11 times cos 20 degrees.
    CHECK(span.upper == doctest::Approx(2.5 * 10.7526 - 0.06 * 0.9396926).epsilon(1e-5));
    CHECK(span.lower == doctest::Approx(2.5 * 10.7526 - 0.11 * 0.9396926).epsilon(1e-5));
    const auto judged = [&](double reading) {
        return judge_thickness(thickness_allowance_of(wheel, normal_tooth_thickness_from_span(wheel, 4, reading)), allowances);
    };
    CHECK(judged(span.middle()) == thickness_verdict::within);
    CHECK(judged(span.upper + 0.001) == thickness_verdict::too_thick);
    CHECK(judged(span.lower - 0.001) == thickness_verdict::too_thin);
    static_assert(judge_thickness(-0.06, allowances) == thickness_verdict::within); // on the limit is within
    static_assert(judge_thickness(-0.11, allowances) == thickness_verdict::within);
    static_assert(thickness_allowance_of(wheel, wheel.normal_tooth_thickness()) == 0);
    CHECK(span.contains(span.lower));
    CHECK(span.contains(span.upper));
    CHECK_FALSE(span.contains(span.upper + 1e-9));
}

TEST_CASE("a measure of the caller's own has limits too") {
    constexpr gear<double> wheel{{.normal_module = 2, .teeth = 21}};
    constexpr thickness_allowances<double> allowances{.upper = -0.02, .lower = -0.05};
    const size_limits<double> limits = measure_limits(wheel, allowances, [](const auto& g) { return dimension_over_three_pins(g, 3.5); });
    const auto back = allowances_from_measure(wheel, limits, [&](double size) { return normal_tooth_thickness_from_three_pins(wheel, 3.5, size); });
    CHECK(back.upper == doctest::Approx(-0.02).epsilon(1e-10));
    CHECK(back.lower == doctest::Approx(-0.05).epsilon(1e-10));
}

TEST_CASE("limits in the wrong order and no numbers are refused") {
    const gear<double> wheel{{.normal_module = 2, .teeth = 21}};
    const double none = std::nan("");
    CHECK_THROWS_WITH_AS(span_limits(wheel, 3, {.upper = -0.1, .lower = -0.05}), "lower thickness allowance is -0.05 but must be at most -0.1",
                         rackwork::geometry_error);
    CHECK_THROWS_AS(span_limits(wheel, 3, {.upper = none, .lower = -0.05}), rackwork::geometry_error);
    CHECK_THROWS_AS(span_limits(wheel, 3, {.upper = 0, .lower = -HUGE_VAL}), rackwork::geometry_error);
    CHECK_THROWS_AS(span_limits(wheel, 3, {.upper = 0, .lower = -40}), rackwork::geometry_error); // nothing would be left of the tooth
    CHECK_THROWS_WITH_AS(allowances_from_span(wheel, 3, {.lower = 15.4, .upper = 15.3}), "upper limit is 15.3 but must be at least 15.4",
                         rackwork::geometry_error);
    CHECK_THROWS_AS(allowances_from_span(wheel, 3, {.lower = none, .upper = 15.3}), rackwork::geometry_error);
    CHECK_THROWS_AS(allowances_from_span(wheel, 21, {.lower = 15.3, .upper = 15.4}), rackwork::geometry_error);
    CHECK_THROWS_AS(dimension_over_balls_limits(wheel, 0.1, {.upper = 0, .lower = -0.1}), rackwork::geometry_error);
    CHECK_THROWS_AS(judge_thickness(none, thickness_allowances<double>{.upper = 0, .lower = -0.1}), rackwork::geometry_error);
    CHECK_THROWS_AS(thickness_allowance_of(wheel, none), rackwork::geometry_error);
}
