// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Tooth forms at the edge of what is possible: at the limit of undercutting, with a tool corner on the rolling line, with a flank that
// is nearly gone.
#include "form_gears.hpp"

#include <rackwork/curve/polyline.hpp>
#include <rackwork/form/outline.hpp>
#include <rackwork/undercut_limits.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

namespace {

using form_gears::described;
using form_gears::epsilon;
using form_gears::is_fillet;
using form_gears::is_flank;
using form_gears::parameter_at;
using form_gears::rack_of;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::outline;
using rackwork::point;
using rackwork::segment;

double angle_between(const point<double>& a, const point<double>& b) { return std::atan2(cross(a, b), dot(a, b)); }

bool is_unit(const point<double>& p) { return std::fabs(length(p) - 1) <= 4 * epsilon; }

} // namespace

TEST_CASE("at the least shift without undercut the flank begins on the base circle, and its tangent there is radial") {
    for (const double helix : {0., 15., -40.}) {
        for (int teeth = 6; teeth <= 40; ++teeth) {
            const rackwork::basic_rack<double> rack = rackwork::iso_53_a;
            const double limit = rackwork::least_profile_shift_without_undercut(rack, teeth, deg(helix));
            if (limit < -0.9) break; // there would be no tooth left above the base circle
            for (const double beyond : {0., 1e-16, 1e-14, 1e-12, 1e-10, 1e-8, 1e-6, 1e-4}) {
                const gear<double> g(
                    {.normal_module = 2, .teeth = teeth, .helix_angle = deg(helix), .profile_shift = limit + beyond});
                INFO(described(g) << " beyond " << beyond);
                const std::vector<segment<double>> tooth = form_gears::one_tooth(g);
                REQUIRE(is_fillet(tooth[0]));
                REQUIRE(is_flank(tooth[1]));
                const point<double> before = tooth[0].tangent(tooth[0].to);
                const point<double> after = tooth[1].tangent(tooth[1].from);
                CHECK(is_unit(before));
                CHECK(is_unit(after));
                // At the limit itself rounding decides on which side the gear falls. Just below it the polar angles of fillet and
                // flank differ by the roll angle's cube, so the corner lies at a roll angle of no more than rounding's cube root,
                // taken generously, and opens by about as much. Beyond the limit there is none.
                constexpr double roll_of_rounding = 6e-4; // 100 times the cube root of epsilon
                const bool rounding_decides = beyond < 64 * epsilon * teeth;
                CHECK(std::fabs(angle_between(before, after)) <=
                      (rounding_decides ? roll_of_rounding : 64 * epsilon * teeth));
                CHECK(length(tooth[1].start) >= g.base_diameter() / 2 * (1 - 4 * epsilon));
                if (beyond == 0) {
                    CHECK(length(tooth[1].start) <= g.base_diameter() / 2 * (1 + roll_of_rounding * roll_of_rounding));
                    CHECK(std::fabs(angle_between(tooth[1].start, after)) <= roll_of_rounding);
                }
                for (const segment<double>& s : tooth) {
                    for (const double share : {0., 0.01, 1.}) CHECK(is_unit(s.tangent(parameter_at(s, share))));
                }
                CHECK(rackwork::polyline_of(rackwork::outline_of(g), 1e-3).deviation <= 1e-3);
            }
        }
    }
}

TEST_CASE("just below the least shift there is a corner, which opens as the undercut grows, without a jump in the form "
          "diameter") {
    const int teeth = 12;
    const double limit =
        rackwork::least_profile_shift_without_undercut(rackwork::basic_rack<double>(rackwork::iso_53_a), teeth);
    const auto at = [&](double below) {
        return gear<double>({.normal_module = 2, .teeth = teeth, .profile_shift = limit - below});
    };
    double corner_before = 0;
    double form_before = at(0).base_diameter();
    for (const double below : {1e-8, 1e-6, 1e-4, 1e-3, 1e-2, 1e-1, 0.3}) {
        const gear<double> g = at(below);
        INFO("below the limit by " << below);
        const rackwork::generated_root<double> root(g);
        CHECK(root.is_undercut());
        CHECK(root.root_form_diameter() >= form_before);
        CHECK(root.root_form_diameter() - form_before <= 8 * std::sqrt(below)); // continuous
        const std::vector<segment<double>> tooth = form_gears::one_tooth(g);
        CHECK(tooth[0].corner_at_end);
        const double corner = std::fabs(angle_between(tooth[0].tangent(tooth[0].to), tooth[1].tangent(tooth[1].from)));
        CHECK(corner >= corner_before);
        corner_before = corner;
        form_before = root.root_form_diameter();
    }
    CHECK(corner_before > 0.1); // radians
}

TEST_CASE("flank and fillet meet with the same tangent to rounding, however near the base circle") {
    // The roll angle must not be formed from the form diameter, which close to the base circle holds half of its places only.
    for (const int teeth : {10, 17, 25, 60}) {
        const double limit =
            rackwork::least_profile_shift_without_undercut(rackwork::basic_rack<double>(rackwork::iso_53_a), teeth);
        for (int i = 1; i < 60; ++i) {
            const gear<double> g({.normal_module = 1, .teeth = teeth, .profile_shift = limit + std::pow(10, -i / 5.)});
            if (rackwork::generated_root<double>(g).is_undercut()) continue;
            const std::vector<segment<double>> tooth = form_gears::one_tooth(g);
            INFO(described(g));
            CHECK(std::fabs(angle_between(tooth[0].tangent(tooth[0].to), tooth[1].tangent(tooth[1].from))) <=
                  32 * epsilon);
        }
    }
}

TEST_CASE("a sharp tool corner on the rolling line makes no fillet but a corner, and it is named") {
    // The tool's edge then stands still for a moment: land and flank meet at once, at the angle of the tool's corner.
    const gear<double> g({.normal_module = 1, .teeth = 20, .rack = rack_of(20, 1, 1, 0), .profile_shift = 1});
    REQUIRE(rackwork::generated_root<double>::tool_tip(g).centre_depth == 0);
    const outline<double> exact = rackwork::outline_of(g);
    for (std::size_t i = 0; i < exact.segments.size(); ++i) {
        const segment<double>& s = exact.segments[i];
        const segment<double>& next = exact.segments[(i + 1) % exact.segments.size()];
        CHECK(s.end == next.start);
        CHECK(is_unit(s.tangent(s.from)));
        CHECK(is_unit(s.tangent(s.to)));
        CHECK(length(s.end - s.start) > 1e-3); // no empty segments
        if (!s.corner_at_end) CHECK(std::fabs(angle_between(s.tangent(s.to), next.tangent(next.from))) <= 32 * epsilon);
    }
    const rackwork::polyline<double> lines = rackwork::polyline_of(exact, 1e-4);
    for (std::size_t i = 0; i < lines.points.size(); ++i)
        CHECK(!(lines.points[i] == lines.points[(i + 1) % lines.points.size()]));
}

TEST_CASE("a sharp tool corner close to the rolling line makes a short fillet, smooth at both ends") {
    for (const double off : {1e-9, 1e-6, 1e-3, -1e-9, -1e-6, -1e-3}) {
        const gear<double> g({.normal_module = 1, .teeth = 20, .rack = rack_of(20, 1, 1, 0), .profile_shift = 1 + off});
        INFO("off the rolling line by " << off);
        const outline<double> exact = rackwork::outline_of(g);
        CHECK(exact.area() > 0);
        for (std::size_t i = 0; i < exact.segments.size(); ++i) {
            const segment<double>& s = exact.segments[i];
            const segment<double>& next = exact.segments[(i + 1) % exact.segments.size()];
            if (!s.corner_at_end)
                CHECK(std::fabs(angle_between(s.tangent(s.to), next.tangent(next.from))) <= 64 * epsilon);
        }
    }
}

TEST_CASE("a tip shortened down to the form diameter leaves the shortest of flanks; below, the gear is refused") {
    for (const int teeth : {9, 20, 40}) {
        gear_parameters<double> p{.normal_module = 2, .teeth = teeth};
        const double form = rackwork::root_form_diameter(gear<double>(p));
        const double lowest = (form - gear<double>(p).tip_diameter()) / (2 * p.normal_module);
        for (const double above : {1e-3, 1e-6, 1e-9, 1e-12}) {
            p.tip_alteration = lowest + above;
            const gear<double> g(p);
            INFO(described(g));
            const outline<double> exact = rackwork::outline_of(g);
            CHECK(exact.area() > 0);
            CHECK(std::fabs(length(exact.segments[1].end) - length(exact.segments[1].start) - 2 * above) <=
                  1e-14 * g.tip_diameter());
            CHECK(is_unit(exact.segments[1].tangent(exact.segments[1].from)));
            CHECK(rackwork::polyline_of(exact, 1e-3).deviation <= 1e-3);
        }
        p.tip_alteration = lowest - 1e-9;
        CHECK_THROWS_AS(rackwork::outline_of(gear<double>(p)), rackwork::geometry_error);
    }
}

TEST_CASE("a tip that is nearly a point ends in a short arc, one that is just beyond ends in the point") {
    const gear_parameters<double> p{.normal_module = 2, .teeth = 11, .profile_shift = 0.5};
    const double pointed = gear<double>(p).pointed_tip_diameter();
    for (const double off : {-1e-3, -1e-8, -1e-12, 1e-12, 1e-8, 1e-3}) {
        gear_parameters<double> q = p;
        q.tip_alteration = (pointed - gear<double>(p).tip_diameter()) / (2 * p.normal_module) + off;
        const gear<double> g(q);
        INFO("beyond the point by " << off << " modules");
        const std::vector<segment<double>> tooth = form_gears::one_tooth(g);
        CHECK(form_gears::is_arc(tooth[2]) == (off < 0));
        const double expected = off < 0 ? 2 * -off * q.normal_module * g.tangent_of_pressure_angle(pointed) : 0;
        const double width = off < 0 ? length(tooth[2].end - tooth[2].start) : 0;
        CHECK(std::fabs(width - expected) <= 0.01 * expected + 64 * epsilon * pointed);
        CHECK(rackwork::outline_of(g).area() > 0);
    }
}

TEST_CASE("a rounding that would turn back on its own fillet is refused, one that just does not is made") {
    // A gear of two teeth at a small pressure angle: the rounding's centre lies a little beyond the rolling line.
    gear_parameters<double> p{.normal_module = 1, .teeth = 2, .rack = rack_of(2, 0.8, 0.8, 0.7)};
    int made = 0;
    int refused = 0;
    for (int i = 0; i <= 400; ++i) {
        p.profile_shift = 0.1 + 0.001 * i; // the centre's depth goes from 0 to -0.4
        const auto g = form_gears::gear_with_a_form(p);
        if (!g) {
            ++refused;
            continue;
        }
        ++made;
        INFO(described(p));
        const segment<double> fillet = form_gears::one_tooth(*g)[0];
        double before = 0;
        for (int j = 0; j <= 1000; ++j) {
            const double radius = length(fillet.position(parameter_at(fillet, j / 1000.)));
            CHECK(radius >= before * (1 - 4 * epsilon));
            before = std::max(before, radius);
        }
    }
    CHECK(made > 20);
    CHECK(refused > 20);
}
