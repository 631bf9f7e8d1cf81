// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How many points a polyline takes, that its teeth are alike, what tolerances it refuses, and other scalar types.
#include "form_gears.hpp"
#include "ulp.hpp"

#include <rackwork/curve/polyline.hpp>
#include <rackwork/form/outline.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstring>
#include <limits>
#include <numbers>
#include <string>
#include <variant>

namespace {

using form_gears::described;
using form_gears::epsilon;
using rackwork::gear;
using rackwork::outline;
using rackwork::outline_of;
using rackwork::point;
using rackwork::polyline;
using rackwork::polyline_of;
using rackwork::segment;
using support::wide;

outline<double> alone(const segment<double>& s) {
    outline<double> result;
    result.segments.push_back(s);
    return result;
}

double sampled_deviation(const segment<double>& s, double from, double to) {
    const point<double> start = s.position(from);
    const point<double> chord = s.position(to) - start;
    const double size = length(chord);
    if (!(size > 0)) return 0;
    double deviation = 0;
    for (int i = 1; i < 100; ++i) {
        const point<double> p = s.position(from + (to - from) * i / 100) - start;
        deviation = std::max(deviation, std::fabs(cross(chord, p)) / size);
    }
    return deviation;
}

/// The least number of chords for a tolerance: each as long as it may be.
int greedy_chords(const segment<double>& s, double tolerance) {
    int chords = 0;
    double from = s.from;
    while (from != s.to) {
        ++chords;
        if (sampled_deviation(s, from, s.to) <= tolerance) break;
        double good = from;
        double bad = s.to;
        for (int i = 0; i < 40; ++i) {
            const double middle = (good + bad) / 2;
            (sampled_deviation(s, from, middle) <= tolerance ? good : bad) = middle;
        }
        from = good;
    }
    return chords;
}

/// How often the curvature changes its sign, seen at ten thousand places.
int inflections(const segment<double>& s) {
    constexpr int places = 10000;
    const auto turns_left = [&](int i) { return s.curvature(form_gears::parameter_at(s, (i + 0.5) / places)) > 0; };
    int count = 0;
    for (int i = 1; i < places; ++i) count += turns_left(i) != turns_left(i - 1) ? 1 : 0;
    return count;
}

double size_of(const outline<double>& exact) {
    double size = 0;
    for (const segment<double>& s : exact.segments) size = std::max(size, length(s.start));
    return size;
}

template <class T>
void agrees_with_double(const gear<double>& g, double relative_difference) {
    const polyline<double> lines = polyline_of(outline_of(g), 1e-2 * g.normal_module());
    const polyline<T> others = polyline_of(outline_of(form_gears::at_precision<T>(g)), T(1e-2 * g.normal_module()));
    INFO(described(g));
    CHECK(others.closed);
    REQUIRE(others.points.size() == lines.points.size());
    const double allowed = relative_difference * g.effective_tip_diameter();
    CHECK(std::fabs(static_cast<double>(others.deviation) - lines.deviation) <= allowed);
    for (std::size_t i = 0; i < lines.points.size(); ++i) {
        CHECK(std::fabs(static_cast<double>(others.points[i].x) - lines.points[i].x) <= allowed);
        CHECK(std::fabs(static_cast<double>(others.points[i].y) - lines.points[i].y) <= allowed);
    }
}

} // namespace

TEST_CASE("a polyline takes at most a tenth more chords than the least possible, and one for rounding up each piece "
          "between inflections") {
    double worst_ratio = 0;
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const gear<double> g(each.parameters);
        INFO(each.name);
        for (const segment<double>& s : form_gears::one_tooth(g)) {
            const int pieces = 1 + inflections(s);
            for (const double share : {1e-3, 1e-4, 1e-5}) {
                const double tolerance = share * g.normal_module();
                const auto chords = static_cast<int>(polyline_of(alone(s), tolerance).points.size());
                const int least = greedy_chords(s, tolerance);
                INFO("kind " << s.curve.index() << ", tolerance " << tolerance);
                CHECK(chords <= 1.1 * least + pieces);
                CHECK(chords >= least - 1); // the sampling sees a little less than the deviation
                if (least >= 20) worst_ratio = std::max(worst_ratio, double(chords) / least);
            }
        }
    }
    MESSAGE("worst ratio where there are at least 20 chords: " << worst_ratio);
}

TEST_CASE("many chords are a share of half a hundredth above the least") {
    const gear<double> g({.normal_module = 2, .teeth = 23, .helix_angle = rackwork::deg(20.), .profile_shift = 0.2});
    for (const segment<double>& s : form_gears::one_tooth(g)) {
        for (const double tolerance : {1e-7, 1e-8}) {
            const auto chords = static_cast<double>(polyline_of(alone(s), tolerance).points.size());
            // The deviation of a short chord is ds^2 curvature / 8, so the least number is the integral of sqrt(curvature / 8 tolerance).
            double least = 0;
            constexpr int steps = 20000;
            for (int i = 0; i < steps; ++i) {
                const double t = form_gears::parameter_at(s, (i + 0.5) / steps);
                const double ds = length(std::visit([&](const auto& c) { return c.velocity(t); }, s.curve)) *
                                  std::fabs(s.to - s.from) / steps;
                least += std::sqrt(std::fabs(s.curvature(t)) / (8 * tolerance)) * ds;
            }
            CHECK(chords >= std::floor(least * (1 - 1e-6)));
            CHECK(chords <= least * 1.006 + 2);
        }
    }
}

TEST_CASE("every joint of the outline is a point of the polyline, in order, and no point comes twice") {
    for (const gear<double>& g : form_gears::named_and_random_gears(60, 81)) {
        INFO(described(g));
        const outline<double> exact = outline_of(g);
        const polyline<double> lines = polyline_of(exact, 1e-2 * g.normal_module());
        CHECK(lines.closed);
        std::size_t next_joint = 0;
        for (std::size_t i = 0; i < lines.points.size(); ++i) {
            if (next_joint < exact.segments.size() && lines.points[i] == exact.segments[next_joint].start) ++next_joint;
            CHECK(!(lines.points[i] == lines.points[(i + 1) % lines.points.size()]));
        }
        CHECK(next_joint == exact.segments.size());
    }
}

TEST_CASE("all teeth are divided alike: tooth i's points are tooth 0's turned by i pitches") {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const gear<double> g(each.parameters);
        INFO(each.name);
        const outline<double> exact = outline_of(g);
        const polyline<double> lines = polyline_of(exact, 1e-3 * g.normal_module());
        const auto teeth = static_cast<std::size_t>(g.teeth());
        REQUIRE(lines.points.size() % teeth == 0);
        const std::size_t per_tooth = lines.points.size() / teeth;
        const double rounding = 16 * epsilon * g.effective_tip_diameter() * std::max(1., g.base_half_angle());
        for (std::size_t i = 0; i < lines.points.size(); ++i) {
            const long double turn =
                2 * std::numbers::pi_v<long double> * static_cast<long double>(i / per_tooth) / g.teeth();
            const point<double> expected =
                turned(lines.points[i % per_tooth], point<double>{double(std::cos(turn)), double(std::sin(turn))});
            CHECK(length(lines.points[i] - expected) <= rounding);
        }
    }
}

TEST_CASE("the same outline and tolerance give the same bits every time") {
    for (const gear<double>& g : form_gears::named_and_random_gears(20, 82)) {
        const double tolerance = 1e-3 * g.normal_module();
        const polyline<double> first = polyline_of(outline_of(g), tolerance);
        const polyline<double> again = polyline_of(outline_of(gear<double>(g.parameters())), tolerance);
        REQUIRE(first.points.size() == again.points.size());
        CHECK(std::memcmp(first.points.data(), again.points.data(), first.points.size() * sizeof(point<double>)) == 0);
        CHECK(std::memcmp(&first.deviation, &again.deviation, sizeof(double)) == 0);
    }
}

TEST_CASE("a tolerance of zero, below zero, not a number, infinite, or finer than double can tell is refused with a "
          "sentence") {
    const gear<double> g({.normal_module = 2, .teeth = 20});
    const outline<double> exact = outline_of(g);
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    constexpr double infinity = std::numeric_limits<double>::infinity();
    const double least = 1024 * epsilon * size_of(exact);
    for (const double tolerance : {0., -0., -1e-3, nan, infinity, -infinity, 1e-300, least * 0.999}) {
        CHECK_THROWS_AS(polyline_of(exact, tolerance), rackwork::geometry_error);
    }
    try {
        static_cast<void>(polyline_of(exact, -1.));
        FAIL("a negative tolerance was taken");
    } catch (const rackwork::geometry_error& error) {
        CHECK(std::string(error.cause().quantity) == "tolerance");
        CHECK(error.cause().value == -1);
        CHECK(error.cause().limit == doctest::Approx(least).epsilon(1e-9));
    }
    // The least one allowed is met; one tooth is enough to see it.
    outline<double> tooth;
    tooth.segments = form_gears::one_tooth(g);
    CHECK(polyline_of(tooth, least * 1.001).deviation <= least * 1.001);
}

TEST_CASE("however coarse the tolerance, the joints remain and the deviation is the true one") {
    const gear<double> g({.normal_module = 2, .teeth = 20});
    const outline<double> exact = outline_of(g);
    const polyline<double> lines = polyline_of(exact, 1e6);
    CHECK(lines.points.size() == exact.segments.size());
    double greatest = 0;
    for (const segment<double>& s : form_gears::one_tooth(g))
        greatest = std::max(greatest, sampled_deviation(s, s.from, s.to));
    CHECK(lines.deviation == doctest::Approx(greatest).epsilon(1e-3));
}

TEST_CASE("an empty outline gives no points, and a negative tolerance is refused for it too") {
    CHECK_THROWS_AS(polyline_of(outline<double>{}, -1.), rackwork::geometry_error);
    CHECK(polyline_of(outline<double>{}, 0.01).points.empty());
}

TEST_CASE("float, long double and 50 digits give the same points as double, each to its own precision") {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        if (each.parameters.teeth > 60) continue; // 50 digits take their time
        const gear<double> g(each.parameters);
        INFO(each.name);
        const double angles = std::max(1., g.base_half_angle()) / std::sin(g.normal_pressure_angle().rad());
        agrees_with_double<long double>(g, 64 * epsilon * angles);
        agrees_with_double<wide>(g, 64 * epsilon * angles);
        // Where a single number of chords is right to float's places only, it may differ by one; the tolerance here avoids that.
        agrees_with_double<float>(g, 64 * double(std::numeric_limits<float>::epsilon()) * angles);
    }
}
