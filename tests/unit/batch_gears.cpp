// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The array forms of what is asked of one gear at many diameters or for many thicknesses, against the single forms.
#include "batch_bits.hpp"
#include "random_source.hpp"

#include <doctest/doctest.h>

#include <rackwork/batch/flank.hpp>
#include <rackwork/batch/measures.hpp>

#include <cmath>
#include <limits>
#include <numbers>
#include <span>
#include <vector>

namespace {

using batch_bits::same;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;

constexpr double epsilon = std::numeric_limits<double>::epsilon();

std::vector<gear<double>> gears() {
    return {gear{gear_parameters<double>{.normal_module = 2.5, .teeth = 22, .profile_shift = 0.3}},
            gear{gear_parameters<double>{.normal_module = 1, .teeth = 9, .profile_shift = 0.5}},
            gear{gear_parameters<double>{.normal_module = 4, .teeth = 31, .helix_angle = deg(18.0), .profile_shift = -0.2}},
            gear{gear_parameters<double>{.normal_module = 3, .teeth = 120, .helix_angle = deg(-30.0)}}};
}

/// Diameters from the base circle to well beyond the tip, the base circle itself among them.
std::vector<double> diameters(const gear<double>& g) {
    support::random_source random(541);
    std::vector<double> all;
    for (int i = 0; i < 300; ++i) all.push_back(random.uniform(g.base_diameter(), 1.2 * g.tip_diameter()));
    all.push_back(g.base_diameter());
    all.push_back(std::nextafter(g.base_diameter(), 1e9));
    return all;
}

/// Normal thicknesses round the gear's own.
std::vector<double> thicknesses(const gear<double>& g) {
    support::random_source random(542);
    std::vector<double> all;
    for (int i = 0; i < 200; ++i) all.push_back(g.normal_tooth_thickness() * random.uniform(0.9, 1.1));
    return all;
}

/// The same gear with another thickness.
gear<double> with_thickness(const gear<double>& g, double thickness) {
    gear_parameters<double> p = g.parameters();
    p.thickness_allowance = thickness - g.normal_tooth_thickness();
    return gear{p};
}

} // namespace

TEST_CASE("thicknesses at many diameters are those at each") {
    for (const gear<double>& g : gears()) {
        const std::vector<double> d = diameters(g);
        std::vector<double> found(d.size());
        rackwork::batch::tooth_thickness(g, d, found);
        for (std::size_t i = 0; i < d.size(); ++i) {
#if defined(__FMA__)
            REQUIRE(std::fabs(found[i] - g.tooth_thickness(d[i])) <= 2 * epsilon * d[i]);
#else
            REQUIRE(found[i] == g.tooth_thickness(d[i]));
#endif
        }
    }
}

TEST_CASE("points of the flank lie on their circles, half the thickness from the middle of the tooth") {
    for (const gear<double>& g : gears()) {
        const std::vector<double> d = diameters(g);
        std::vector<double> x(d.size());
        std::vector<double> y(d.size());
        rackwork::batch::flank_points(g, d, x, y);
        for (std::size_t i = 0; i < d.size(); ++i) {
            REQUIRE(std::fabs(2 * std::hypot(x[i], y[i]) - d[i]) <= 4 * epsilon * d[i]);
            const double polar = g.tooth_thickness(d[i]) / d[i];
            REQUIRE(std::fabs(x[i] - d[i] / 2 * std::cos(polar)) <= 2 * epsilon * d[i]);
            REQUIRE(std::fabs(y[i] - d[i] / 2 * std::sin(polar)) <= 2 * epsilon * d[i]);
        }
    }
}

TEST_CASE("points of the flank far beyond any tip still lie on the involute") {
    const gear g{gear_parameters<double>{.normal_module = 2, .teeth = 20}};
    std::vector<double> d{g.base_diameter(), 2 * g.base_diameter(), 5 * g.base_diameter(), 100 * g.base_diameter()};
    std::vector<double> x(d.size());
    std::vector<double> y(d.size());
    rackwork::batch::flank_points(g, d, x, y);
    for (std::size_t i = 0; i < d.size(); ++i) {
        // The tangent of the base circle that carries the point is as long as the arc from the involute's start to where it touches.
        const double length = std::sqrt((d[i] - g.base_diameter()) * (d[i] + g.base_diameter())) / 2;
        const double turned = g.base_half_angle() - 2 * length / g.base_diameter();
        const double r = g.base_diameter() / 2;
        REQUIRE(std::fabs(x[i] - (r * std::cos(turned) - length * std::sin(turned))) <= 64 * epsilon * d[i]);
        REQUIRE(std::fabs(y[i] - (r * std::sin(turned) + length * std::cos(turned))) <= 64 * epsilon * d[i]);
    }
}

TEST_CASE("a diameter inside the base circle is refused wherever it stands") {
    const gear g = gears().front();
    std::vector<double> d = diameters(g);
    std::vector<double> x(d.size());
    std::vector<double> y(d.size());
    for (const std::size_t place : {std::size_t{0}, std::size_t{64}, d.size() - 1}) {
        const double before = d[place];
        d[place] = 0.99 * g.base_diameter();
        CHECK_THROWS_AS(rackwork::batch::tooth_thickness(g, d, x), rackwork::geometry_error);
        CHECK_THROWS_AS(rackwork::batch::flank_points(g, d, x, y), rackwork::geometry_error);
        d[place] = std::numeric_limits<double>::quiet_NaN();
        CHECK_THROWS_AS(rackwork::batch::tooth_thickness(g, d, x), rackwork::geometry_error);
        d[place] = before;
    }
    CHECK_THROWS_AS(rackwork::batch::flank_points(g, d, std::span(x).first(3), y), rackwork::geometry_error);
    CHECK_THROWS_AS(rackwork::batch::flank_points(g, d, x, std::span(y).first(3)), rackwork::geometry_error);
}

TEST_CASE("spans of many thicknesses are those of gears with these thicknesses") {
    for (const gear<double>& g : gears()) {
        const std::vector<double> s = thicknesses(g);
        std::vector<double> found(s.size());
        rackwork::batch::span_measurement(g, 3, s, found);
        for (std::size_t i = 0; i < s.size(); ++i) {
            const double single = rackwork::span_measurement(with_thickness(g, s[i]), 3);
            REQUIRE(std::fabs(found[i] - single) <= 8 * epsilon * single);
        }
        CHECK_THROWS_AS(rackwork::batch::span_measurement(g, 0, s, found), rackwork::geometry_error);
        CHECK_THROWS_AS(rackwork::batch::span_measurement(g, g.teeth(), s, found), rackwork::geometry_error);
    }
}

TEST_CASE("dimensions over balls and pins of many thicknesses are those of gears with these thicknesses") {
    for (const gear<double>& g : gears()) {
        const double pin = 1.8 * g.normal_module();
        const std::vector<double> s = thicknesses(g);
        std::vector<double> balls(s.size());
        std::vector<double> pins(s.size());
        rackwork::batch::dimension_over_balls(g, pin, s, balls);
        rackwork::batch::dimension_over_pins(g, pin, s, pins);
        for (std::size_t i = 0; i < s.size(); ++i) {
            const gear<double> single = with_thickness(g, s[i]);
            const double over_balls = rackwork::dimension_over_balls(single, pin);
            const double over_pins = rackwork::dimension_over_pins(single, pin);
            REQUIRE(std::fabs(balls[i] - over_balls) <= 16 * epsilon * over_balls);
            REQUIRE(std::fabs(pins[i] - over_pins) <= 16 * epsilon * over_pins);
        }
    }
}

TEST_CASE("at the gear's own thickness spans and pins of an array are those of the gear, bit for bit") {
    std::vector<gear<double>> all = gears();
    all.emplace_back(gear_parameters<double>{
        .normal_module = 2, .teeth = 60, .kind = rackwork::gear_kind::internal, .profile_shift = -0.1, .thickness_allowance = -0.07});
    for (const gear<double>& g : all) {
        for (const std::size_t count : {1u, 64u, 100u}) {
            const std::vector<double> s(count, g.normal_tooth_thickness());
            std::vector<double> found(count);
            rackwork::batch::span_measurement(g, 3, s, found);
            for (const double span : found) CHECK(same(span, rackwork::span_measurement(g, 3)));
            if (g.is_internal()) continue;
            const double pin = 1.8 * g.normal_module();
            rackwork::batch::dimension_over_balls(g, pin, s, found);
            for (const double over_balls : found) CHECK(same(over_balls, rackwork::dimension_over_balls(g, pin)));
            rackwork::batch::dimension_over_pins(g, pin, s, found);
            for (const double over_pins : found) CHECK(same(over_pins, rackwork::dimension_over_pins(g, pin)));
        }
    }
}

TEST_CASE("what one number gives does not depend on the numbers beside it, nor on its place, bit for bit") {
    for (const gear<double>& g : gears()) {
        std::vector<double> d = diameters(g);
        d.push_back(4 * g.base_diameter()); // beyond any tip: the polar angle is greater than one radian
        std::vector<double> x(d.size());
        std::vector<double> y(d.size());
        rackwork::batch::flank_points(g, d, x, y);
        const std::vector<double> s = thicknesses(g);
        const double pin = 1.8 * g.normal_module();
        std::vector<double> spans(s.size());
        std::vector<double> pins(s.size());
        rackwork::batch::span_measurement(g, 3, s, spans);
        rackwork::batch::dimension_over_pins(g, pin, s, pins);
        double alone[2] = {};
        const auto first = std::span(alone).first(1);
        const auto second = std::span(alone).last(1);
        for (std::size_t i = 0; i < d.size(); ++i) {
            rackwork::batch::flank_points(g, std::span(d).subspan(i, 1), first, second);
            REQUIRE(alone[0] == x[i]);
            REQUIRE(alone[1] == y[i]);
        }
        for (std::size_t i = 0; i < s.size(); ++i) {
            rackwork::batch::span_measurement(g, 3, std::span(s).subspan(i, 1), first);
            rackwork::batch::dimension_over_pins(g, pin, std::span(s).subspan(i, 1), second);
            REQUIRE(alone[0] == spans[i]);
            REQUIRE(alone[1] == pins[i]);
        }
    }
}

TEST_CASE("points of the flank may stand in the place of their diameters") {
    const gear<double> g = gears().front();
    const std::vector<double> d = diameters(g);
    std::vector<double> x(d.size());
    std::vector<double> y(d.size());
    rackwork::batch::flank_points(g, d, x, y);
    std::vector<double> in_place = d;
    std::vector<double> others(d.size());
    rackwork::batch::flank_points(g, in_place, in_place, others);
    CHECK(in_place == x);
    CHECK(others == y);
    in_place = d;
    rackwork::batch::flank_points(g, in_place, others, in_place);
    CHECK(others == x);
    CHECK(in_place == y);
}

TEST_CASE("a pin that falls through the space of one of the teeth, or touches it inside the base circle, is refused") {
    const gear g = gears().front();
    std::vector<double> s(100, g.normal_tooth_thickness());
    std::vector<double> found(s.size());
    const double pin = 1.7 * g.normal_module();
    CHECK_NOTHROW(rackwork::batch::dimension_over_pins(g, pin, s, found));

    s[70] = 0.3 * g.normal_tooth_thickness();
    const auto falls_through = doctest::Contains("pin_diameter is 4.25 but must be greater than");
    CHECK_THROWS_WITH_AS(rackwork::batch::dimension_over_balls(g, pin, s, found), falls_through, rackwork::geometry_error);
    CHECK_THROWS_WITH_AS(rackwork::batch::dimension_over_pins(g, pin, s, found), falls_through, rackwork::geometry_error);

    // A space at the base circle a ten-thousandth of a radian narrower than the pin: it sits just above, in the mouth of the fillet.
    const double turns = g.teeth() * g.normal_module();
    const double space = pin / (turns * cos(g.normal_pressure_angle())) - 1e-4;
    s[70] = turns * (std::numbers::pi / g.teeth() - inv(g.transverse_pressure_angle()) - space);
    const auto touches_too_deep = doctest::Contains("touch both flanks above the base circle");
    CHECK_THROWS_WITH_AS(rackwork::batch::dimension_over_balls(g, pin, s, found), touches_too_deep, rackwork::geometry_error);
    CHECK_THROWS_WITH_AS(rackwork::batch::dimension_over_pins(g, pin, s, found), touches_too_deep, rackwork::geometry_error);

    CHECK_THROWS_AS(rackwork::batch::dimension_over_pins(g, -1, s, found), rackwork::geometry_error);
    CHECK_THROWS_AS(rackwork::batch::dimension_over_balls(g, std::numeric_limits<double>::quiet_NaN(), s, found), rackwork::geometry_error);
}

TEST_CASE("array forms know internal gears") {
    const gear g{gear_parameters<double>{.normal_module = 2, .teeth = 60, .kind = rackwork::gear_kind::internal, .profile_shift = -0.1}};
    const std::vector<double> d = diameters(g);
    std::vector<double> found(d.size());
    std::vector<double> x(d.size());
    std::vector<double> y(d.size());
    rackwork::batch::tooth_thickness(g, d, found);
    rackwork::batch::flank_points(g, d, x, y);
    for (std::size_t i = 0; i < d.size(); ++i) {
        REQUIRE(std::fabs(found[i] - g.tooth_thickness(d[i])) <= 2 * epsilon * d[i]);
        REQUIRE(std::fabs(std::hypot(x[i], y[i]) - d[i] / 2) <= 4 * epsilon * d[i]);
        REQUIRE(std::fabs(2 * std::atan2(y[i], x[i]) - 2 * found[i] / d[i]) <= 8 * epsilon);
    }
    const std::vector<double> s = thicknesses(g);
    std::vector<double> spans(s.size());
    rackwork::batch::span_measurement(g, 5, s, spans);
    for (std::size_t i = 0; i < s.size(); ++i) {
        const double single = rackwork::span_measurement(with_thickness(g, s[i]), 5);
        REQUIRE(std::fabs(spans[i] - single) <= 8 * epsilon * single);
    }
    const auto outside_only = doctest::Contains("kind");
    CHECK_THROWS_WITH_AS(rackwork::batch::dimension_over_balls(g, 3.5, s, spans), outside_only, rackwork::geometry_error);
    CHECK_THROWS_WITH_AS(rackwork::batch::dimension_over_pins(g, 3.5, s, spans), outside_only, rackwork::geometry_error);
}
