// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Outlines as B-splines: how near, how few, and how they join.
#include "curve_distance.hpp"
#include "form_gears.hpp"

#include <rackwork/curve/bspline.hpp>
#include <rackwork/curve/outline_part.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <variant>

using namespace curve_distance;
using rackwork::arc;
using rackwork::arc_form;
using rackwork::bsplines_of;
using rackwork::gear;
using rackwork::outline;
using rackwork::outline_of;

namespace {

constexpr double epsilon = form_gears::epsilon;

const bspline<double>& curve(const rackwork::bspline_path<double>& path, std::size_t i) {
    return std::get<bspline<double>>(path.curves[i]);
}

int spans(const bspline<double>& b) { return (static_cast<int>(b.control_points.size()) - 2) / (b.degree - 1); }

outline<double> tooth_of(const gear<double>& g) { return {form_gears::one_tooth(g)}; }

/// Unit tangents from the end legs of the control polygon.
point<double> start_direction(const bspline<double>& b) {
    const point<double> leg = b.control_points[1] - b.control_points[0];
    return (1 / length(leg)) * leg;
}
point<double> end_direction(const bspline<double>& b) {
    const point<double> leg = b.control_points.back() - b.control_points[b.control_points.size() - 2];
    return (1 / length(leg)) * leg;
}
double shortest_end_leg(const bspline<double>& b) {
    return std::min(length(b.control_points[1] - b.control_points[0]),
                    length(b.control_points.back() - b.control_points[b.control_points.size() - 2]));
}

double size_of(const gear<double>& g) { return g.tip_diameter() / 2; }

} // namespace

TEST_CASE("no B-spline strays farther than it says, and none says twice as much, judged to 50 digits") {
    double greatest_overstatement = 0;
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const gear<double> g(each.parameters);
        const auto exact = form_gears::one_tooth(form_gears::at_precision<wide>(g));
        CAPTURE(std::string(each.name));
        for (const double relative_tolerance : {1e-3, 1e-6}) {
            for (const int degree : {3, 5, 7}) {
                CAPTURE(degree);
                CAPTURE(relative_tolerance);
                const double tolerance = relative_tolerance * g.normal_module();
                const auto path = bsplines_of(tooth_of(g), tolerance, {.degree = degree});
                CHECK(path.deviation <= tolerance);
                // The first two: right fillet and flank. The left ones mirror them.
                for (std::size_t i = 0; i < 2; ++i) {
                    const bspline<double>& b = curve(path, i);
                    const double stated = b.deviation;
                    CHECK(stated <= path.deviation);
                    const double found =
                        static_cast<double>(true_deviation(widened(b), exact[i], 24 * spans(b)));
                    CHECK(found <= stated);
                    CHECK(stated <= 2 * found + 1000 * epsilon * size_of(g));
                    if (found > 1e6 * epsilon * size_of(g)) greatest_overstatement = std::max(greatest_overstatement, stated / found);
                }
            }
        }
    }
    MESSAGE("stated over true deviation, at most: " << greatest_overstatement);
}

TEST_CASE("what is stated of one gear is true of any other") {
    for (const gear<double>& g : form_gears::random_gears(12, 20240405)) {
        CAPTURE(form_gears::described(g));
        const auto exact = form_gears::one_tooth(form_gears::at_precision<wide>(g));
        const double tolerance = 1e-4 * g.normal_module();
        const auto path = bsplines_of(tooth_of(g), tolerance);
        for (std::size_t i = 0; i < 2; ++i) {
            const bspline<double>& b = curve(path, i);
            const double found = static_cast<double>(true_deviation(widened(b), exact[i], 24 * spans(b)));
            CHECK(found <= b.deviation);
            CHECK(b.deviation <= 2 * found + 1000 * epsilon * size_of(g));
            CHECK(b.deviation <= tolerance);
        }
    }
}

TEST_CASE("one span of degree 5 holds an ordinary flank within a millionth of the module, and within a hundredth of that") {
    for (const int teeth : {18, 20, 24, 40, 100}) {
        const gear<double> g({.normal_module = 1, .teeth = teeth});
        for (const double tolerance : {1e-6, 1e-8}) {
            const auto path = bsplines_of(tooth_of(g), tolerance, {.degree = 5});
            CHECK(spans(curve(path, 1)) == 1);
            CHECK(curve(path, 1).control_points.size() == 6);
            CHECK(curve(path, 1).deviation <= tolerance);
        }
    }
}

TEST_CASE("the distance of one span falls with twice the degree's power of its length, so spans are few") {
    // Half the flank, a 2^10 times smaller distance: an interpolating quintic would gain 2^6.
    const gear<double> g({.normal_module = 1, .teeth = 12, .profile_shift = 0.5});
    const outline<double> flank{{form_gears::one_tooth(g)[1]}};
    const auto deviation_with = [&](int wanted) {
        // The loosest tolerance at which that many spans are used, so that the fit does its best.
        double tolerance = 1e-2;
        double deviation = 0;
        while (spans(curve(bsplines_of(flank, tolerance, {.degree = 3}), 0)) <= wanted) {
            deviation = bsplines_of(flank, tolerance, {.degree = 3}).deviation;
            tolerance /= 1.2;
        }
        return deviation;
    };
    const double gain = deviation_with(2) / deviation_with(4);
    CHECK(gain > 32);  // 2^6 with a cubic, twofold steps of the tolerance allowed for
    CHECK(gain < 128);
}

TEST_CASE("a looser tolerance never needs more spans") {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const gear<double> g(each.parameters);
        CAPTURE(std::string(each.name));
        for (const int degree : {3, 5, 7}) {
            int before = 1;
            for (const double tolerance : {1e-2, 1e-4, 1e-6, 1e-8}) {
                const auto path = bsplines_of(tooth_of(g), tolerance * g.normal_module(), {.degree = degree});
                const int count = spans(curve(path, 0)) + spans(curve(path, 1));
                CHECK(count >= std::min(before, 2));
                CHECK(count >= before);
                before = count;
            }
        }
    }
}

TEST_CASE("curves begin and end in the exact points, to the bit, and in the exact directions, but for rounding") {
    for (const gear<double>& g : form_gears::named_and_random_gears(20, 77)) {
        CAPTURE(form_gears::described(g));
        const outline<double> tooth = tooth_of(g);
        const auto path = bsplines_of(tooth, 1e-5 * g.normal_module());
        REQUIRE(path.curves.size() == tooth.segments.size());
        for (std::size_t i = 0; i < path.curves.size(); ++i) {
            const auto& s = tooth.segments[i];
            const bspline<double>& b = curve(path, i);
            CHECK(b.control_points.front() == s.start);
            CHECK(b.control_points.back() == s.end);
            CHECK(b.position(0) == s.start);
            CHECK(b.position(1) == s.end);
            CHECK(b.corner_at_end == s.corner_at_end);
            // Both ends of a leg are rounded, by parts of their coordinates; the shorter the leg, the more it turns. An undercut's corner
            // is where two curves were found to cross, and shifts along both.
            const double rounding = 64 * epsilon * size_of(g) / shortest_end_leg(b);
            CHECK(std::abs(cross(start_direction(b), s.tangent(s.from))) <= rounding);
            CHECK(std::abs(cross(end_direction(b), s.tangent(s.to))) <= rounding);
        }
    }
}

TEST_CASE("around a gear there is no gap, and no kink where the tooth has no corner") {
    for (const char* what : {"spur, 24 teeth", "helical, 23 teeth", "undercut, 9 teeth", "pointed tooth", "full radius",
                             "one tooth, helical"}) {
        CAPTURE(std::string(what));
        for (const form_gears::named_gear& each : form_gears::gears()) {
            if (std::string(each.name) != what) continue;
            const gear<double> g(each.parameters);
            const auto path = bsplines_of(outline_of(g), 1e-5 * g.normal_module());
            CHECK(path.closed);
            std::size_t corners = 0;
            for (std::size_t i = 0; i < path.curves.size(); ++i) {
                const bspline<double>& here = curve(path, i);
                const bspline<double>& next = curve(path, (i + 1) % path.curves.size());
                CHECK(here.control_points.back() == next.control_points.front());
                const double kink = std::abs(cross(end_direction(here), start_direction(next)));
                if (here.corner_at_end) {
                    ++corners;
                    CHECK(kink > 1e-3);
                } else {
                    CHECK(kink <= 128 * epsilon * size_of(g) / std::min(shortest_end_leg(here), shortest_end_leg(next)));
                    CHECK(dot(end_direction(here), start_direction(next)) > 0);
                }
            }
            CHECK(corners >= static_cast<std::size_t>(g.teeth()));
        }
    }
}

TEST_CASE("within a curve of several spans the velocity is continuous") {
    const gear<double> g({.normal_module = 2, .teeth = 17});
    const auto path = bsplines_of(tooth_of(g), 1e-9, {.degree = 3});
    const bspline<double>& b = curve(path, 0);
    REQUIRE(spans(b) > 3);
    const bspline<wide> exact = widened(b);
    for (std::size_t k = 1; k + 1 < b.knots.size(); ++k) {
        if (b.knots[k] <= 0 || b.knots[k] >= 1 || b.knots[k] == b.knots[k - 1]) continue;
        const wide step = 1e-15;
        const wide knot = b.knots[k];
        const point<wide> before = exact.position(knot) - exact.position(knot - step);
        const point<wide> after = exact.position(knot + step) - exact.position(knot);
        CHECK(static_cast<double>(length(after - before) / length(after)) < 1e-8);
    }
    CHECK(b.knots.size() == b.control_points.size() + 4);
}

TEST_CASE("teeth of a gear are divided alike, right flanks as left ones") {
    const gear<double> g({.normal_module = 2, .teeth = 31, .helix_angle = rackwork::deg(15.), .profile_shift = 0.2});
    const auto path = bsplines_of(outline_of(g), 1e-8, {.degree = 5});
    REQUIRE(path.curves.size() % 31 == 0);
    const std::size_t per_tooth = path.curves.size() / 31;
    for (std::size_t i = per_tooth; i < path.curves.size(); ++i) {
        const bspline<double>& first = curve(path, i % per_tooth);
        const bspline<double>& here = curve(path, i);
        CHECK(first.knots == here.knots);
        const point<double> turn = rackwork::direction(2 * std::numbers::pi / 31 * static_cast<double>(i / per_tooth));
        for (std::size_t k = 0; k < here.control_points.size(); ++k) {
            CHECK(length(rackwork::turned(first.control_points[k], turn) - here.control_points[k]) < 32 * epsilon * size_of(g));
        }
    }
    const bspline<double>& right = curve(path, 1);
    const bspline<double>& left = curve(path, 3);
    for (std::size_t k = 0; k < right.control_points.size(); ++k) {
        const point<double> image = rackwork::mirrored(right.control_points[right.control_points.size() - 1 - k]);
        CHECK(length(image - left.control_points[k]) < 32 * epsilon * size_of(g));
    }
}

TEST_CASE("arcs stay arcs, or become rational curves of degree 2 on the very circle") {
    const gear<double> ordinary({.normal_module = 2, .teeth = 24});
    const gear<double> one_tooth({.normal_module = 1, .teeth = 1, .helix_angle = rackwork::deg(60.), .profile_shift = 0.4});
    for (const gear<double>& g : {ordinary, one_tooth}) {
        const outline<double> whole = outline_of(g);
        const auto as_arcs = bsplines_of(whole, 1e-6, {.arcs = arc_form::arc});
        const auto as_rational = bsplines_of(whole, 1e-6, {.arcs = arc_form::rational});
        std::size_t arcs = 0;
        for (std::size_t i = 0; i < whole.segments.size(); ++i) {
            const auto* exact = std::get_if<rackwork::circle<double>>(&whole.segments[i].curve);
            if (exact == nullptr) continue;
            ++arcs;
            const auto& a = std::get<arc<double>>(as_arcs.curves[i]);
            CHECK(a.start == whole.segments[i].start);
            CHECK(a.end == whole.segments[i].end);
            CHECK(a.radius == exact->radius);
            CHECK(a.centre == exact->centre);
            CHECK(a.turning == whole.segments[i].to - whole.segments[i].from);
            const bspline<double>& b = curve(as_rational, i);
            CHECK(b.degree == 2);
            CHECK(b.weights.size() == b.control_points.size());
            CHECK(b.deviation <= 17 * epsilon * size_of(g));
            const bspline<wide> precise = widened(b);
            for (int k = 0; k <= 64; ++k) {
                const double off = static_cast<double>(length(precise.position(wide(k) / 64)) - wide(exact->radius));
                CHECK(std::abs(off) <= b.deviation);
                CHECK(std::abs(length(a.position(k / 64.)) - exact->radius) <= 16 * epsilon * exact->radius);
            }
        }
        CHECK(arcs == 2 * static_cast<std::size_t>(g.teeth()));
    }
}

TEST_CASE("a lone flank, a tooth, a space and a whole gear are equally good outlines") {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const gear<double> g(each.parameters);
        CAPTURE(std::string(each.name));
        const double tolerance = 1e-6 * g.normal_module();
        const auto whole = bsplines_of(outline_of(g), tolerance);
        CHECK(whole.closed);
        const outline<double> one_tooth = rackwork::outline_of_tooth(g);
        const auto tooth = bsplines_of(one_tooth, tolerance);
        const auto space = bsplines_of(rackwork::outline_of_space(g), tolerance);
        CHECK_FALSE(tooth.closed);
        for (std::size_t i = 0; i < tooth.curves.size(); ++i) {
            CHECK(length(curve(tooth, i).control_points[1] - curve(whole, i).control_points[1]) <= 32 * epsilon * size_of(g));
            CHECK(curve(tooth, i).knots == curve(whole, i).knots);
        }
        // A tooth and the space after it share a flank and a fillet; the tooth ends where the land begins.
        const auto& form = one_tooth.segments;
        CHECK(form.size() + space.curves.size() >= 7);
        const point<double> tip = curve(space, 0).control_points.front();
        CHECK(length(tip) == doctest::Approx(g.effective_tip_diameter() / 2));
        CHECK(length(curve(space, space.curves.size() - 1).control_points.back()) == doctest::Approx(g.effective_tip_diameter() / 2));
        const auto last_flank = std::find_if(form.rbegin(), form.rend(), [](const auto& s) { return form_gears::is_flank(s); });
        CHECK(length(tip - last_flank->start) <= 64 * epsilon * size_of(g));
        const auto lone = bsplines_of(outline<double>{{*last_flank}}, tolerance);
        REQUIRE(lone.curves.size() == 1);
        CHECK(curve(lone, 0).knots == curve(space, 0).knots);
    }
}

TEST_CASE("float and long double make their own B-splines") {
    const gear<float> coarse(rackwork::gear_parameters<float>{.normal_module = 2, .teeth = 20});
    const auto in_float = bsplines_of(rackwork::outline_of(coarse), 0.02F, {.degree = 3});
    CHECK(in_float.deviation <= 0.02F);
    const gear<long double> fine(rackwork::gear_parameters<long double>{.normal_module = 2, .teeth = 20});
    const auto in_long_double = bsplines_of(outline<long double>{form_gears::one_tooth(fine)}, 1e-13L, {.degree = 7});
    CHECK(in_long_double.deviation <= 1e-13L);
}

TEST_CASE("impossible requests are refused by name") {
    const gear<double> g({.normal_module = 2, .teeth = 20});
    const outline<double> whole = outline_of(g);
    const auto quantity = [&](const outline<double>& o, double tolerance, int degree) {
        try {
            bsplines_of(o, tolerance, {.degree = degree});
        } catch (const rackwork::geometry_error& error) {
            return std::string(error.cause().quantity);
        }
        return std::string("nothing");
    };
    CHECK(quantity(whole, 1e-3, 4) == "degree");
    CHECK(quantity(whole, 1e-3, 9) == "degree");
    CHECK(quantity(whole, 0, 5) == "tolerance");
    CHECK(quantity(whole, -1, 5) == "tolerance");
    CHECK(quantity(whole, 1e-15, 5) == "tolerance");
    CHECK(quantity(whole, std::nan(""), 5) == "tolerance");
    CHECK(quantity(whole, std::numeric_limits<double>::infinity(), 5) == "tolerance");
    CHECK(quantity({}, 1e-3, 5) == "number of segments");
    outline<double> broken = whole;
    broken.segments[3].end.x = std::nan("");
    CHECK(quantity(broken, 1e-3, 5) == "coordinate of the outline");
    CHECK(quantity(whole, 1e-3, 5) == "nothing");
}
