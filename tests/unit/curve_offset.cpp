// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Parallel outlines: tool paths, kerf, stock.
#include "curve_distance.hpp"
#include "form_gears.hpp"

#include <rackwork/curve/offset.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <variant>
#include <vector>

using namespace curve_distance;
using rackwork::gear;
using rackwork::largest_tool_radius;
using rackwork::offset_loop;
using rackwork::offset_of;
using rackwork::offset_outline;
using rackwork::offset_segment;
using rackwork::outline;
using rackwork::outline_of;
using rackwork::polyline;

namespace {

constexpr double epsilon = form_gears::epsilon;

double size_of(const gear<double>& g) { return g.tip_diameter() / 2; }

/// The named gears and some random ones, without those whose many teeth would only repeat themselves.
std::vector<gear<double>> gears_with_few_teeth(std::size_t random_count, unsigned seed) {
    std::vector<gear<double>> result;
    for (const gear<double>& g : form_gears::named_and_random_gears(random_count, seed)) {
        if (g.teeth() <= 60) result.push_back(g);
    }
    return result;
}

gear<double> named(const char* name) {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        if (std::string(each.name) == name) return gear<double>(each.parameters);
    }
    throw std::invalid_argument(name);
}

double area_of(const polyline<double>& p) {
    double twice = 0;
    for (std::size_t i = 0; i < p.points.size(); ++i) twice += cross(p.points[i], p.points[(i + 1) % p.points.size()]);
    return twice / 2;
}

double length_of(const polyline<double>& p) {
    double sum = 0;
    for (std::size_t i = 0; i < p.points.size(); ++i) sum += length(p.points[(i + 1) % p.points.size()] - p.points[i]);
    return sum;
}

/// Distance of a point from a dense polyline.
double distance_from(const polyline<double>& p, const point<double>& q) {
    double best = 1e300;
    for (std::size_t i = 0; i < p.points.size(); ++i) {
        const point<double> a = p.points[i];
        const point<double> side = p.points[(i + 1) % p.points.size()] - a;
        const double share = std::clamp(dot(q - a, side) / dot(side, side), 0., 1.);
        best = std::min(best, length(q - a - share * side));
    }
    return best;
}

bool crosses_itself(const polyline<double>& p) {
    const std::size_t n = p.points.size();
    const auto side = [&](std::size_t i, const point<double>& q) { return cross(p.points[(i + 1) % n] - p.points[i], q - p.points[i]); };
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = i + 2; j < n; ++j) {
            if (i == 0 && j + 1 == n) continue;
            const point<double>& c = p.points[j];
            const point<double>& d = p.points[(j + 1) % n];
            if (side(i, c) * side(i, d) < 0 && side(j, p.points[i]) * side(j, p.points[(i + 1) % n]) < 0) return true;
        }
    }
    return false;
}

/// The same exact parallel to 50 digits: every number that the double one holds, to the bit.
offset_segment<wide> widened(const offset_segment<double>& s) {
    offset_segment<wide> result;
    std::visit([&](const auto& c) { result.curve = rackwork::detail::converted<wide>(c); }, s.curve);
    result.distance = wide(s.distance);
    result.from = wide(s.from);
    result.to = wide(s.to);
    result.start = curve_distance::widened(s.start);
    result.end = curve_distance::widened(s.end);
    return result;
}

} // namespace

TEST_CASE("parallels of circles are circles and those of involutes are involutes of the same base circle") {
    const gear<double> g({.normal_module = 2, .teeth = 24});
    const outline<double> whole = outline_of(g);
    const offset_outline<double> outward = offset_of(whole, 0.5);
    REQUIRE(outward.loops.size() == 1);
    std::size_t circles = 0;
    std::size_t involutes = 0;
    for (const offset_segment<double>& s : outward.loops.front().segments) {
        if (const auto* c = std::get_if<rackwork::circle<double>>(&s.curve)) {
            ++circles;
            if (c->centre == point<double>{0, 0}) {
                const bool tip = std::abs(c->radius - (g.tip_diameter() / 2 + 0.5)) < 4 * epsilon * size_of(g);
                const bool root = std::abs(c->radius - (g.generated_root_diameter() / 2 + 0.5)) < 4 * epsilon * size_of(g);
                CHECK((tip || root));
            } else {
                CHECK(c->radius == 0.5); // round the edges of the tips
                CHECK(length(c->centre) == doctest::Approx(g.tip_diameter() / 2).epsilon(1e-15));
            }
        } else if (const auto* flank = std::get_if<rackwork::involute<double>>(&s.curve)) {
            ++involutes;
            CHECK(flank->base_radius == g.base_diameter() / 2);
            CHECK(s.distance == 0);
        }
    }
    CHECK(circles == 4 * 24);
    CHECK(involutes == 2 * 24);
}

TEST_CASE("every point of the offset is at the distance from the outline, and none is nearer") {
    for (const char* name : {"spur, 17 teeth, shifted", "left hand 45 degrees, 12 teeth", "undercut, 9 teeth", "pointed tooth", "two teeth",
                             "sharp tool corner, undercut", "four teeth, spur"}) {
        const gear<double> g = named(name);
        CAPTURE(std::string(name));
        const double m = g.normal_module();
        const outline<double> whole = outline_of(g);
        const double chord = 3e-5 * m;
        const polyline<double> dense = polyline_of(whole, chord);
        for (const double distance : {0.2, 0.7, 1.3, -0.2, -0.6}) {
            CAPTURE(distance);
            const offset_outline<double> parallel = offset_of(whole, distance * m);
            for (const offset_loop<double>& loop : parallel.loops) {
                const std::size_t per_tooth = std::min<std::size_t>(loop.segments.size(), 14);
                for (std::size_t i = 0; i < per_tooth; ++i) {
                    const offset_segment<double>& s = loop.segments[i];
                    for (const double share : {0., 0.37, 0.5, 0.81, 1.}) {
                        const double found = distance_from(dense, s.position(s.from + (s.to - s.from) * share));
                        CHECK(std::abs(found - std::abs(distance) * m) <= chord + 256 * epsilon * size_of(g));
                    }
                }
            }
        }
    }
}

TEST_CASE("the ends of an offset's segments are those of its curves, and shared to the bit") {
    for (const gear<double>& g : gears_with_few_teeth(30, 12)) {
        CAPTURE(form_gears::described(g));
        const double m = g.normal_module();
        const outline<double> whole = outline_of(g);
        for (const double distance : {0.15, 0.8, -0.15, -0.5}) {
            CAPTURE(distance);
            for (const offset_loop<double>& loop : offset_of(whole, distance * m).loops) {
                for (std::size_t i = 0; i < loop.segments.size(); ++i) {
                    const offset_segment<double>& s = loop.segments[i];
                    const offset_segment<double>& next = loop.segments[(i + 1) % loop.segments.size()];
                    CHECK(s.end == next.start);
                    const double rounding = 256 * epsilon * (size_of(g) + std::abs(distance) * m);
                    CHECK(length(s.on_curve(s.from) - s.start) <= rounding);
                    CHECK(length(s.on_curve(s.to) - s.end) <= rounding);
                    if (!s.corner_at_end) CHECK(std::abs(cross(s.tangent(s.to), next.tangent(next.from))) < 1e-10);
                }
            }
        }
    }
}

TEST_CASE("there and back gives the outline again, corners and all") {
    int complete = 0;
    for (const gear<double>& g : gears_with_few_teeth(40, 2718)) {
        CAPTURE(form_gears::described(g));
        const outline<double> whole = outline_of(g);
        const auto path = rackwork::detail::path_of(whole);
        const double radius = std::min(0.9 * largest_tool_radius(g), 5 * g.normal_module());
        const offset_outline<double> there = offset_of(whole, radius);
        CHECK(there.unreached.empty());
        REQUIRE(there.loops.size() >= 1);
        if (there.loops.size() > 1) continue; // a pocket behind a narrow mouth; each is its own way back
        ++complete;
        const offset_outline<double> back = offset_of(there.loops.front(), -radius);
        CHECK(back.unreached.empty());
        REQUIRE(back.loops.size() == 1);
        const auto& segments = back.loops.front().segments;
        REQUIRE(segments.size() == path.size());
        for (std::size_t i = 0; i < path.size(); ++i) {
            const double rounding = 256 * epsilon * (size_of(g) + radius);
            CHECK(segments[i].curve.index() == path[i].curve.index());
            CHECK(length(segments[i].start - path[i].start) <= rounding);
            CHECK(length(segments[i].end - path[i].end) <= rounding);
            CHECK(std::abs(segments[i].distance) <= rounding);
            CHECK(segments[i].corner_at_end == path[i].corner_at_end);
            const double middle = (path[i].from + path[i].to) / 2;
            const double shift = segments[i].from - path[i].from;
            CHECK(length(segments[i].on_curve(middle + shift) - path[i].on_curve(middle)) <= rounding);
        }
    }
    CHECK(complete > 30);
}

TEST_CASE("a whole offset's area grows by its length times the distance and by a circle of the distance") {
    // Steiner's formula: it holds for any closed curve that turns once, as long as nothing of the offset is cut off.
    for (const char* name : {"spur, 24 teeth", "helical, 23 teeth", "undercut, 9 teeth", "two inflections in the fillet"}) {
        const gear<double> g = named(name);
        CAPTURE(std::string(name));
        const double m = g.normal_module();
        const outline<double> whole = outline_of(g);
        const double distance = std::min(0.7 * largest_tool_radius(g), m);
        const offset_outline<double> parallel = offset_of(whole, distance);
        REQUIRE(parallel.loops.size() == 1);
        REQUIRE(parallel.unreached.empty());
        const double expected = whole.area() + distance * length_of(polyline_of(whole, 1e-7 * m)) + std::numbers::pi * distance * distance;
        CHECK(area_of(polyline_of(parallel.loops.front(), 1e-7 * m)) == doctest::Approx(expected).epsilon(1e-7));
    }
}

TEST_CASE("an offset does not cross itself") {
    for (const char* name : {"spur, 17 teeth, shifted", "undercut, 9 teeth", "sharp tool corner, undercut", "two teeth",
                             "one tooth, helical", "pointed tooth", "three teeth"}) {
        const gear<double> g = named(name);
        CAPTURE(std::string(name));
        for (const double distance : {0.1, 0.45, 0.9, 1.5, -0.1, -0.4, -0.8}) {
            CAPTURE(distance);
            for (const offset_loop<double>& loop : offset_of(outline_of(g), distance * g.normal_module()).loops) {
                CHECK_FALSE(crosses_itself(polyline_of(loop, 2e-3 * g.normal_module())));
            }
        }
    }
}

TEST_CASE("the largest tool has the radius of the root's sharpest bend") {
    // At the deepest point of the fillet the rounding's centre runs on a curve of radius h^2/(r + h), h being its depth below the rolling
    // circle r; the fillet is its parallel. (From the velocity h and the acceleration h + r of that centre, turning at unit speed.)
    for (const int teeth : {17, 24, 40, 100, 500}) {
        const gear<double> g({.normal_module = 2, .teeth = teeth, .profile_shift = 0.1});
        const double depth = 2 * (1.25 - 0.1 - 0.38);
        const double expected = 2 * 0.38 + depth * depth / (teeth + depth);
        CHECK(largest_tool_radius(g) == doctest::Approx(expected).epsilon(1e-14));
    }
}

TEST_CASE("a tool a little smaller than the largest reaches all, a little larger one does not, whatever stops it") {
    for (const gear<double>& g : gears_with_few_teeth(40, 161)) {
        CAPTURE(form_gears::described(g));
        const double radius = largest_tool_radius(g);
        if (radius > 4 * size_of(g)) continue; // next to a straight edge
        const outline<double> whole = outline_of(g);
        CHECK(offset_of(whole, radius * (1 - 1e-6)).unreached.empty());
        const auto above = offset_of(whole, radius * (1 + 1e-4) + 1e-7 * size_of(g));
        CHECK_FALSE(above.unreached.empty());
    }
}

TEST_CASE("just above the radius of the sharpest bend the path is whole, however little is cut off") {
    // There the parallel turns back and forth in a tail that ends below what numbers can tell apart.
    for (const char* name : {"left hand 45 degrees, 12 teeth", "helix 60 degrees", "spur, 24 teeth", "helix 80 degrees"}) {
        const gear<double> g = named(name);
        CAPTURE(std::string(name));
        const outline<double> whole = outline_of(g);
        const double radius = largest_tool_radius(g);
        const double chord = 1e-3 * g.normal_module();
        const double expected = area_of(polyline_of(offset_of(whole, radius).loops.front(), chord));
        for (int digits = 3; digits <= 15; ++digits) {
            CAPTURE(digits);
            const offset_outline<double> parallel = offset_of(whole, radius * (1 + std::pow(10., -digits)));
            REQUIRE(parallel.loops.size() == 1);
            CHECK(area_of(polyline_of(parallel.loops.front(), chord)) == doctest::Approx(expected).epsilon(0.01));
        }
    }
}

TEST_CASE("between the lips of a narrow mouth no tool wider than the mouth touches all") {
    // A ring with a slit on the right, its lips rounded: an outer circle of radius 1.6, an inner one of 1, and lips of 0.3 in between.
    const double half_slit = 0.6;
    const auto arc_of_circle = [](const point<double>& centre, double radius, double from, double to) {
        const rackwork::circle<double> c{centre, radius};
        return segment<double>{c, from, to, c.position(from), c.position(to), false};
    };
    const auto lip = [&](double angle) { return 1.3 * rackwork::direction(angle); };
    const double pi = std::numbers::pi;
    outline<double> ring{{arc_of_circle({0, 0}, 1.6, half_slit, 2 * pi - half_slit),
                          arc_of_circle(lip(-half_slit), 0.3, -half_slit, pi - half_slit),
                          arc_of_circle({0, 0}, 1, 2 * pi - half_slit, half_slit),
                          arc_of_circle(lip(half_slit), 0.3, half_slit + pi, half_slit + 2 * pi)}};
    for (std::size_t i = 0; i < 4; ++i) ring.segments[(i + 1) % 4].start = ring.segments[i].end;
    const double expected = 1.3 * std::sin(half_slit) - 0.3; // half the distance between the lips
    CHECK(largest_tool_radius(ring) == doctest::Approx(expected).epsilon(1e-7));
    CHECK(offset_of(ring, expected * 0.99).loops.size() == 1);
    CHECK(offset_of(ring, expected * 0.99).unreached.empty());
    // Outside and in the pocket there is still a path, but the lips are not touched everywhere.
    const offset_outline<double> wider = offset_of(ring, expected * 1.1);
    CHECK(wider.loops.size() == 2);
    CHECK(wider.unreached.size() == 2);
    for (const auto& u : wider.unreached) CHECK(u.segment_index % 2 == 1);
    // The pocket itself stops a tool of its own radius.
    CHECK(offset_of(ring, 1.05).loops.size() == 1);
    CHECK(offset_of(ring, -0.29).loops.size() == 1);
    CHECK(offset_of(ring, -0.31).loops.empty());
}

TEST_CASE("what a large tool leaves lies at the root, the same on every tooth and on both sides of each space") {
    const gear<double> g({.normal_module = 2, .teeth = 24});
    const outline<double> whole = outline_of(g);
    const offset_outline<double> parallel = offset_of(whole, 1.2 * largest_tool_radius(g));
    REQUIRE(parallel.unreached.size() % (2 * 24) == 0);
    for (std::size_t i = 0; i < parallel.unreached.size(); ++i) {
        const auto& u = parallel.unreached[i];
        REQUIRE(u.segment_index < whole.segments.size());
        const auto& s = whole.segments[u.segment_index];
        const auto* land = std::get_if<rackwork::circle<double>>(&s.curve);
        CHECK((form_gears::is_fillet(s) || (land != nullptr && land->radius == g.generated_root_diameter() / 2)));
        const double low = std::min(s.from, s.to);
        const double high = std::max(s.from, s.to);
        CHECK(std::min(u.from, u.to) >= low - 1e-12);
        CHECK(std::max(u.from, u.to) <= high + 1e-12);
    }
}

TEST_CASE("behind the narrow mouth of an undercut space the path is a loop of its own") {
    const gear<double> g = named("sharp tool corner, undercut");
    const offset_outline<double> parallel = offset_of(outline_of(g), 0.6866 * g.normal_module());
    CHECK(parallel.loops.size() == 1 + 10);
    const offset_outline<double> smaller_tool = offset_of(outline_of(g), 0.5 * g.normal_module());
    CHECK(smaller_tool.loops.size() == 1);
}

TEST_CASE("inward, nothing is left in the end") {
    const gear<double> g({.normal_module = 2, .teeth = 12});
    CHECK(offset_of(outline_of(g), -0.4 * g.root_diameter()).loops.size() == 1);
    CHECK(offset_of(outline_of(g), -0.6 * g.tip_diameter()).loops.empty());
    CHECK(offset_of(outline_of(g), -0.6 * g.tip_diameter()).unreached.size() == outline_of(g).segments.size());
}

TEST_CASE("no distance is no change") {
    const gear<double> g({.normal_module = 2, .teeth = 12});
    const offset_outline<double> same = offset_of(outline_of(g), 0.);
    REQUIRE(same.loops.size() == 1);
    CHECK(same.loops.front().segments.size() == outline_of(g).segments.size());
    CHECK(same.unreached.empty());
}

TEST_CASE("offsets become B-splines, arcs and polylines like outlines, with deviations that are true") {
    for (const char* name : {"spur, 24 teeth", "left hand 45 degrees, 12 teeth", "undercut, 9 teeth"}) {
        const gear<double> g = named(name);
        CAPTURE(std::string(name));
        const double m = g.normal_module();
        for (const double distance : {0.3, 0.8, -0.25}) {
            CAPTURE(distance);
            const offset_outline<double> parallel = offset_of(outline_of(g), distance * m);
            REQUIRE(parallel.loops.size() == 1);
            const offset_loop<double>& loop = parallel.loops.front();
            const double tolerance = 1e-5 * m;
            const auto splines = bsplines_of(loop, tolerance);
            CHECK(splines.closed);
            CHECK(splines.deviation <= tolerance);
            for (std::size_t i = 0; i < 8; ++i) {
                const auto& b = std::get<bspline<double>>(splines.curves[i]);
                if (loop.segments[i].is_arc()) continue;
                const double found = static_cast<double>(true_deviation(curve_distance::widened(b), widened(loop.segments[i]), 24));
                CHECK(found <= b.deviation);
                CHECK(b.deviation <= 2 * found + 1000 * epsilon * size_of(g));
            }
            const auto arcs = biarcs_of(loop, 1e-4 * m);
            CHECK(arcs.closed);
            CHECK(arcs.deviation <= 1e-4 * m);
            const auto chords = polyline_of(loop, 1e-4 * m);
            CHECK(chords.closed);
            CHECK(chords.deviation <= 1e-4 * m);
            const auto outside = one_sided_polyline_of(loop, 1e-4 * m, rackwork::outline_side::free);
            const auto inside = one_sided_polyline_of(loop, 1e-4 * m, rackwork::outline_side::material);
            // Where a loop turns one way only, chords are on one side already.
            CHECK(area_of(outside) > area_of(chords));
            CHECK(area_of(inside) <= area_of(chords) * (1 + 16 * epsilon));
            // A gear of n equal teeth has n equal parts.
            const std::size_t teeth = static_cast<std::size_t>(g.teeth());
            CHECK(splines.curves.size() % teeth == 0);
            CHECK(arcs.arcs.size() % teeth == 0);
        }
    }
}

TEST_CASE("impossible requests for offsets are refused by name") {
    const gear<double> g({.normal_module = 2, .teeth = 20});
    const auto quantity = [&](const outline<double>& o, double distance) {
        try {
            offset_of(o, distance);
        } catch (const rackwork::geometry_error& error) {
            return std::string(error.cause().quantity);
        }
        return std::string("nothing");
    };
    CHECK(quantity(outline_of(g), std::nan("")) == "distance");
    CHECK(quantity(outline_of(g), std::numeric_limits<double>::infinity()) == "distance");
    CHECK(quantity(outline<double>{form_gears::one_tooth(g)}, 1) == "outline");
    CHECK(quantity({}, 1) == "number of segments");
    outline<double> broken = outline_of(g);
    broken.segments[2].start.y = std::nan("");
    CHECK(quantity(broken, 1) == "coordinate of the outline");
    CHECK(quantity(outline_of(g), 1) == "nothing");
}
