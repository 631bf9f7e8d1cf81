// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A whole outline: closed, alike in every tooth, mirror-symmetric, between the root and the tip circle.
#include "form_gears.hpp"
#include "ulp.hpp"

#include <rackwork/form/outline.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace {

using form_gears::described;
using form_gears::epsilon;
using form_gears::is_arc;
using form_gears::is_fillet;
using form_gears::is_flank;
using form_gears::parameter_at;
using rackwork::gear;
using rackwork::outline;
using rackwork::outline_of;
using rackwork::point;
using rackwork::segment;
using support::wide;

constexpr double pi = std::numbers::pi;

/// Segments in one tooth, with the root land that follows it.
std::size_t segments_per_tooth(const gear<double>& g, const outline<double>& exact) {
    const auto teeth = static_cast<std::size_t>(g.teeth());
    REQUIRE(exact.segments.size() % teeth == 0);
    return exact.segments.size() / teeth;
}

} // namespace

TEST_CASE("each tooth consists of fillet, flank, tip, flank, fillet and root land, in this order") {
    for (const gear<double>& g : form_gears::named_and_random_gears(100, 21)) {
        INFO(described(g));
        const outline<double> exact = outline_of(g);
        const bool pointed = !(g.tip_thickness() > 0);
        const double land = g.parameters().rack.half_root_land();
        const bool has_land = land > 16 * epsilon; // a full radius is one to rounding only
        std::string expected = pointed ? "fillet flank flank fillet" : "fillet flank arc flank fillet";
        if (has_land) expected += " arc";
        const std::size_t count = segments_per_tooth(g, exact);
        std::string found;
        for (std::size_t i = 0; i < count; ++i) {
            const segment<double>& s = exact.segments[i];
            found += std::string(i > 0 ? " " : "") + (is_arc(s) ? "arc" : is_flank(s) ? "flank" : "fillet");
        }
        CHECK(found == expected);
    }
}

TEST_CASE("a full root radius leaves no root land, whatever rounding makes of its width") {
    support::random_source random{22};
    for (int i = 0; i < 300; ++i) {
        const double degrees = random.uniform(5, 30);
        const double height = pi / 4 / std::tan(degrees * pi / 180);
        const gear<double> g(
            {.normal_module = random.uniform(0.1, 25),
             .teeth = random.integer(20, 200),
             .helix_angle = rackwork::deg(random.uniform(-40, 40)),
             .rack = form_gears::full_radius_rack(degrees, std::min(1.3, random.uniform(0.6, 0.9) * height)),
             .profile_shift = 0.5});
        INFO(described(g));
        const std::vector<segment<double>> tooth = form_gears::one_tooth(g);
        CHECK(is_fillet(tooth.back()));
        CHECK(std::none_of(tooth.begin() + 3, tooth.end(), [](const segment<double>& s) { return is_arc(s); }));
    }
}

TEST_CASE("no segment is shorter than rounding") {
    for (const gear<double>& g : form_gears::named_and_random_gears(300, 23)) {
        INFO(described(g));
        for (const segment<double>& s : form_gears::one_tooth(g)) {
            CHECK(s.from != s.to);
            const point<double> middle = s.position(parameter_at(s, 0.5));
            CHECK(length(middle - s.start) > 4 * epsilon * g.effective_tip_diameter());
            CHECK(length(s.end - middle) > 4 * epsilon * g.effective_tip_diameter());
        }
    }
}

TEST_CASE("tooth 0 is its own mirror image to the bit") {
    for (const gear<double>& g : form_gears::named_and_random_gears(100, 24)) {
        INFO(described(g));
        const outline<double> exact = outline_of(g);
        const std::size_t count = segments_per_tooth(g, exact);
        const bool has_land = is_arc(exact.segments[count - 1]) && count % 2 == (g.tip_thickness() > 0 ? 0 : 1);
        const std::size_t own = has_land ? count - 1 : count;
        for (std::size_t i = 0; i < own; ++i) {
            const segment<double>& a = exact.segments[i];
            const segment<double>& b = exact.segments[own - 1 - i];
            // The last point of all is shared with the next tooth, but it is this tooth's own that counts.
            if (i > 0 || g.teeth() > 1 || has_land) CHECK(a.start == mirrored(b.end));
            if (is_arc(a)) continue;
            CHECK(a.from == b.to);
            CHECK(a.to == b.from);
            for (const double share : {0.1, 0.5, 0.83}) {
                const double t = parameter_at(a, share);
                CHECK(a.position(t) == mirrored(b.position(t)));
                CHECK(a.curvature(t) == b.curvature(t));
            }
        }
    }
}

TEST_CASE("every tooth is tooth 0 turned by whole pitches, to a few roundings") {
    double worst = 0;
    for (const gear<double>& g : form_gears::named_and_random_gears(60, 25)) {
        INFO(described(g));
        const outline<double> exact = outline_of(g);
        const std::size_t count = segments_per_tooth(g, exact);
        const double unit = epsilon * g.effective_tip_diameter() * std::max(1., g.base_half_angle());
        for (std::size_t i = 0; i < exact.segments.size(); ++i) {
            const segment<double>& s = exact.segments[i];
            const segment<double>& first = exact.segments[i % count];
            CHECK(s.curve.index() == first.curve.index());
            const long double turn =
                2 * std::numbers::pi_v<long double> * static_cast<long double>(i / count) / g.teeth();
            const point<double> axis{double(std::cos(turn)), double(std::sin(turn))};
            const double t = parameter_at(s, 0.4);
            const double t_first = parameter_at(first, 0.4);
            const double off =
                std::max({length(s.start - turned(first.start, axis)), length(s.end - turned(first.end, axis)),
                          length(s.position(t) - turned(first.position(t_first), axis))});
            CHECK(off <= 8 * unit);
            worst = std::max(worst, off / unit);
        }
    }
    MESSAGE("worst: " << worst << " epsilon of the tip diameter");
}

TEST_CASE("tips lie on the tip circle and root lands on the root circle, the rest between the two") {
    for (const gear<double>& g : form_gears::named_and_random_gears(60, 26)) {
        INFO(described(g));
        const double tip = g.effective_tip_diameter() / 2;
        const double root = g.generated_root_diameter() / 2;
        const double form = rackwork::root_form_diameter(g) / 2;
        const double rounding = 8 * epsilon * tip * std::max(1., g.base_half_angle());
        for (const segment<double>& s : form_gears::one_tooth(g)) {
            const bool on_tip = is_arc(s) && length(s.start) > (tip + root) / 2;
            for (const double share : {0., 0.2, 0.5, 0.9, 1.}) {
                const double radius = length(s.position(parameter_at(s, share)));
                if (is_arc(s)) {
                    CHECK(std::fabs(radius - (on_tip ? tip : root)) <= rounding);
                } else {
                    CHECK(radius >= (is_flank(s) ? form : root) - rounding);
                    CHECK(radius <= (is_flank(s) ? tip : form) + rounding);
                }
            }
        }
    }
}

TEST_CASE("the arc over the tip is as long as the gear's tip thickness, and a pointed tooth ends in one point on its "
          "centre line") {
    for (const gear<double>& g : form_gears::named_and_random_gears(100, 27)) {
        INFO(described(g));
        const double rounding = 16 * epsilon * g.effective_tip_diameter() * std::max(1., g.base_half_angle());
        const std::vector<segment<double>> tooth = form_gears::one_tooth(g);
        if (g.tip_thickness() > 0) {
            const segment<double>& tip = tooth[2];
            REQUIRE(is_arc(tip));
            CHECK(std::fabs(g.effective_tip_diameter() / 2 * (tip.to - tip.from) - g.tip_thickness()) <= rounding);
        } else {
            CHECK(tooth[1].end == tooth[2].start);
            CHECK(tooth[1].end.y == 0);
            CHECK(std::fabs(tooth[1].end.x - g.pointed_tip_diameter() / 2) <= rounding);
        }
    }
}

TEST_CASE("the flanks are as far apart as the gear's tooth thickness at every diameter") {
    for (const gear<double>& g : form_gears::named_and_random_gears(60, 28)) {
        INFO(described(g));
        const segment<double> flank = form_gears::one_tooth(g)[1];
        REQUIRE(is_flank(flank));
        for (const double share : {0., 0.25, 0.6, 0.95}) {
            const double t = parameter_at(flank, share);
            const point<double> p = flank.position(t);
            const double diameter = 2 * length(p);
            // Close to the base circle the diameter holds half the roll angle's places only.
            if (t < 1e-4) continue;
            const double arc = -diameter * std::atan2(p.y, p.x);
            CHECK(std::fabs(arc - g.tooth_thickness(diameter)) <= 64 * epsilon * diameter * (1 + g.base_half_angle()));
        }
    }
}

TEST_CASE("half a tooth stays between the centre lines of space and tooth, and its radius only grows") {
    for (const gear<double>& g : form_gears::named_and_random_gears(300, 29)) {
        INFO(described(g));
        const double rounding = 8 * epsilon * g.effective_tip_diameter() * std::max(1., g.base_half_angle());
        double radius_before = g.generated_root_diameter() / 2 - rounding;
        const std::vector<segment<double>> tooth = form_gears::one_tooth(g);
        const point<double> space = rackwork::direction(-pi / g.teeth());
        // The right side: fillet and flank. The left one mirrors it.
        for (const segment<double>& s : {tooth[0], tooth[1]}) {
            for (int i = 0; i <= 40; ++i) {
                const point<double> p = s.position(parameter_at(s, i / 40.));
                CHECK(cross(space, p) >= -rounding);
                CHECK(p.y <= rounding);
                CHECK(length(p) >= radius_before - rounding);
                radius_before = std::max(radius_before, length(p));
            }
        }
    }
}
