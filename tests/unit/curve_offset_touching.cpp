// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Parallels that just touch themselves: tools of exactly the critical radius, and so little larger or smaller that hardly a number tells.
#include "form_gears.hpp"

#include <rackwork/curve/offset.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <vector>

using namespace rackwork;

namespace {

constexpr double pi = std::numbers::pi;

struct critical_distance {
    std::string what;
    double distance;
};

/// An outline with its metal on the left, and where its parallels are critical: positive to the free side.
struct critical_case {
    std::string name;
    outline<double> whole;
    double size;
    std::vector<critical_distance> distances;
};

critical_case of_gear(const std::string& name, const gear<double>& g) {
    critical_case c{name, g.is_internal() ? reversed(outline_of(g)) : outline_of(g), std::max(g.tip_diameter(), g.root_diameter()) / 2, {}};
    const auto path = detail::path_of(c.whole);
    const double tip = g.effective_tip_diameter() / 2;
    const generated_root<double> root(g);
    const auto add = [&](const char* what, double distance) {
        if (distance != 0 && std::abs(distance) < 2 * c.size) c.distances.push_back({what, distance});
    };
    add("the largest tool", largest_tool_radius(g));
    add("the sharpest bend", detail::least_free_radius(path, 0, path.size()));
    add("half the tip land", -tip * std::sin(std::max(g.tip_land_half_angle(), 0.)));
    add("half the mouth", tip * std::sin(pi / g.teeth() - std::max(g.tip_land_half_angle(), 0.)));
    add("half the root land", root.root_diameter() / 2 * std::sin(root.root_land_half_angle()));
    return c;
}

/// A ring with a slit on the right, its lips rounded: an outer circle, an inner one of radius 1, and lips in between.
critical_case slit_ring(double half_slit, double lip_radius) {
    const auto arc_of_circle = [](const point<double>& centre, double radius, double from, double to) {
        const circle<double> c{centre, radius};
        return segment<double>{c, from, to, c.position(from), c.position(to), false};
    };
    const double middle = 1 + lip_radius;
    const double outside = 1 + 2 * lip_radius;
    const auto lip = [&](double angle) { return middle * direction(angle); };
    outline<double> ring{{arc_of_circle({0, 0}, outside, half_slit, 2 * pi - half_slit),
                          arc_of_circle(lip(-half_slit), lip_radius, -half_slit, pi - half_slit),
                          arc_of_circle({0, 0}, 1, 2 * pi - half_slit, half_slit),
                          arc_of_circle(lip(half_slit), lip_radius, half_slit + pi, half_slit + 2 * pi)}};
    for (std::size_t i = 0; i < 4; ++i) ring.segments[(i + 1) % 4].start = ring.segments[i].end;
    return {"ring with a slit",
            ring,
            outside,
            {{"half the mouth", middle * std::sin(half_slit) - lip_radius},
             {"the largest tool", largest_tool_radius(ring)},
             {"the pocket", 1},
             {"half the wall, all along", -lip_radius}}};
}

std::vector<critical_case> cases() {
    std::vector<critical_case> all;
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const std::string name = each.name;
        if (name == "undercut, 9 teeth" || name == "sharp tool corner, undercut" || name == "three teeth") {
            all.push_back(of_gear(name, gear<double>(each.parameters)));
        }
    }
    all.push_back(of_gear("full radius", gear<double>({.normal_module = 2,
                                                       .teeth = 7,
                                                       .rack = {.root_fillet_radius = full_root_fillet_radius(deg(20.), 1.25)},
                                                       .profile_shift = 0.5})));
    // The tool's rounding turns about a point of the rolling line: the fillet is a circular arc, and its parallel a point.
    all.push_back(
        of_gear("fillet like an arc",
                gear<double>({.normal_module = 1, .teeth = 6, .rack = {.dedendum = 1, .root_fillet_radius = 0.3}, .profile_shift = 0.7})));
    all.push_back(of_gear("ring", gear<double>({.normal_module = 2, .teeth = 12, .kind = gear_kind::internal, .rack = {.addendum = 0.3}})));
    all.push_back(slit_ring(0.6, 0.3));
    all.push_back(slit_ring(0.35, 0.25));
    return all;
}

double moved_by_ulps(double distance, double count) {
    const double ulp = std::nextafter(std::abs(distance), 1e300) - std::abs(distance);
    return distance + count * ulp;
}

/// The least distance of a point from an outline: the best of many places, then ever smaller steps about those that may win.
double distance_from(const outline<double>& whole, const point<double>& q) {
    double least = 1e300;
    for (const segment<double>& s : whole.segments) {
        constexpr int places = 16;
        double values[places + 1];
        const auto at = [&](double share) { return length(s.position(s.from + (s.to - s.from) * share) - q); };
        for (int i = 0; i <= places; ++i) values[i] = at(i / double(places));
        for (int i = 0; i <= places; ++i) least = std::min(least, values[i]);
        for (int i = 0; i <= places; ++i) {
            const bool low = (i == 0 || values[i] <= values[i - 1]) && (i == places || values[i] <= values[i + 1]);
            if (!low || values[i] > 1.2 * least + 0.01) continue;
            double share = i / double(places);
            double best = values[i];
            for (double step = 0.5 / places; step > 1e-10; step /= 2) {
                for (const double other : {std::max(share - step, 0.), std::min(share + step, 1.)}) {
                    if (const double here = at(other); here < best) {
                        best = here;
                        share = other;
                    }
                }
            }
            least = std::min(least, best);
        }
    }
    return least;
}

double area_of(const offset_outline<double>& parallel, double tolerance) {
    double twice = 0;
    for (const offset_loop<double>& loop : parallel.loops) {
        const polyline<double> p = polyline_of(loop, tolerance);
        for (std::size_t i = 0; i < p.points.size(); ++i) twice += cross(p.points[i], p.points[(i + 1) % p.points.size()]);
    }
    return twice / 2;
}

} // namespace

TEST_CASE(
    "at a critical radius, and by units in the last place beside it, there is a parallel, and nothing of it is nearer than the radius") {
    for (const critical_case& c : cases()) {
        for (const critical_distance& each : c.distances) {
            const double critical = each.distance;
            for (const double ulps : {-1000., -1., 0., 1., 1000.}) {
                const double distance = moved_by_ulps(critical, ulps);
                CAPTURE(c.name);
                CAPTURE(each.what);
                CAPTURE(ulps);
                offset_outline<double> parallel;
                REQUIRE_NOTHROW(parallel = offset_of(c.whole, distance));
                const double rounding = 256 * epsilon<double>() * (c.size + std::abs(distance));
                const std::size_t looked_at = std::min<std::size_t>(parallel.loops.size(), 2);
                for (std::size_t l = 0; l < looked_at; ++l) {
                    const offset_loop<double>& loop = parallel.loops[l];
                    REQUIRE(!loop.segments.empty());
                    for (std::size_t i = 0; i < loop.segments.size(); ++i) {
                        const offset_segment<double>& s = loop.segments[i];
                        CHECK(s.end == loop.segments[(i + 1) % loop.segments.size()].start);
                        if (i >= 6) continue; // the other teeth are alike
                        for (const double share : {0.13, 0.5}) {
                            const double found = distance_from(c.whole, s.position(s.from + (s.to - s.from) * share));
                            CHECK(found > std::abs(distance) - rounding);
                            CHECK(found < std::abs(distance) + rounding + 1e-9 * c.size);
                        }
                    }
                }
            }
        }
    }
}

TEST_CASE("the area within the parallel grows with the distance, also through the critical ones") {
    for (const critical_case& c : cases()) {
        for (const critical_distance& each : c.distances) {
            const double critical = each.distance;
            CAPTURE(c.name);
            CAPTURE(each.what);
            const double tolerance = 1e-6 * c.size;
            double before = -1e300;
            double at_critical = 0;
            // Outward the area grows with the distance, inward it falls.
            for (const double step : {-1e-2, -1e-4, 0., 1e-4, 1e-2}) {
                CAPTURE(step);
                const double area = area_of(offset_of(c.whole, critical + step * c.size), tolerance);
                CHECK((area > before || (area == 0 && before == 0)));
                before = area;
                if (step == 0) at_critical = area;
            }
            for (const double ulps : {-1000., -1., 1., 1000.}) {
                CAPTURE(ulps);
                const double area = area_of(offset_of(c.whole, moved_by_ulps(critical, ulps)), tolerance);
                CHECK(std::abs(area - at_critical) < 1e-4 * c.size * c.size);
            }
        }
    }
}

TEST_CASE("the largest tool itself reaches all, and its way back is the outline") {
    int complete = 0;
    for (const critical_case& c : cases()) {
        for (const critical_distance& each : c.distances) {
            const double critical = each.distance;
            if (each.what != "the largest tool") continue;
            for (const double ulps : {-1e5, -1e4, -3000., -1000., -300., -100., -1., 0.}) {
                CAPTURE(c.name);
                CAPTURE(ulps);
                const double radius = moved_by_ulps(critical, ulps);
                const offset_outline<double> there = offset_of(c.whole, radius);
                CHECK(there.unreached.empty());
                if (there.loops.size() != 1) continue; // a pocket behind a narrow mouth
                ++complete;
                const offset_outline<double> back = offset_of(there.loops.front(), -radius);
                REQUIRE(back.loops.size() == 1);
                for (const offset_segment<double>& s : back.loops.front().segments) {
                    for (const double share : {0., 0.3, 0.7}) {
                        CHECK(distance_from(c.whole, s.position(s.from + (s.to - s.from) * share)) <
                              512 * epsilon<double>() * (c.size + radius) + 1e-9 * c.size);
                    }
                }
            }
        }
    }
    CHECK(complete > 10);
}

TEST_CASE("where the parallels of all teeth meet on the axis nothing is left, or next to nothing") {
    const gear<double> g({.normal_module = 2, .teeth = 6, .profile_shift = 0.7});
    const gear<double> ring({.normal_module = 2, .teeth = 10, .kind = gear_kind::internal, .rack = {.addendum = 0.2}});
    const double inward = -generated_root<double>(g).root_diameter() / 2;
    const double outward = ring.effective_tip_diameter() / 2;
    for (const double ulps : {-10., -1., 0., 1., 10.}) {
        CAPTURE(ulps);
        offset_outline<double> parallel;
        REQUIRE_NOTHROW(parallel = offset_of(outline_of(g), moved_by_ulps(inward, ulps)));
        CHECK(std::abs(area_of(parallel, 1e-6)) < 1e-6);
        REQUIRE_NOTHROW(parallel = offset_of(reversed(outline_of(ring)), moved_by_ulps(outward, ulps)));
        CHECK(std::abs(area_of(parallel, 1e-6)) < 1e-6);
    }
}
