// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Tangent, arc length, curvature and inflections of a pinion-type cutter's fillet from its points; and its limit, the rack's fillet.
#include <rackwork/generated_root.hpp>

#include "random_source.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::generated_root;
using rackwork::pinion_trochoid;
using rackwork::pinion_type_cutter;
using rackwork::point;

namespace {

using wide = boost::multiprecision::number<boost::multiprecision::cpp_bin_float<50>, boost::multiprecision::et_off>;

constexpr gear_kind internal = gear_kind::internal;

struct cut_gear {
    std::string name;
    gear_parameters<double> parameters;
    pinion_type_cutter<double> tool;
};

cut_gear cut(const char* name, const gear_parameters<double>& parameters, const pinion_type_cutter<double>& tool) {
    return {name, parameters, tool};
}

std::vector<cut_gear> kinds() {
    return {
        cut("external", {.normal_module = 2, .teeth = 30}, {.teeth = 24, .tip_radius = 0.25}),
        cut("external, sharp cutter", {.normal_module = 2, .teeth = 30}, {.teeth = 24}),
        cut("external, undercut", {.normal_module = 2, .teeth = 10}, {.teeth = 40, .tip_radius = 0.2}),
        cut("external, large shift", {.normal_module = 2, .teeth = 40, .profile_shift = 1.2}, {.teeth = 30, .addendum = 1.3, .tip_radius = 0.3}),
        cut("external, helical", {.normal_module = 3, .teeth = 25, .helix_angle = deg(25.0)}, {.teeth = 30, .profile_shift = 0.1, .tip_radius = 0.2}),
        cut("internal", {.normal_module = 2, .teeth = 60, .kind = internal}, {.teeth = 24, .tip_radius = 0.25}),
        cut("internal, sharp cutter", {.normal_module = 2, .teeth = 60, .kind = internal}, {.teeth = 24}),
        cut("internal, large cutter", {.normal_module = 2, .teeth = 60, .kind = internal, .profile_shift = -0.3}, {.teeth = 50, .profile_shift = 0.1, .tip_radius = 0.2}),
        cut("internal, helical", {.normal_module = 1, .teeth = 90, .kind = internal, .helix_angle = deg(-30.0)}, {.teeth = 30, .tip_radius = 0.3}),
    };
}

pinion_trochoid<double> fillet_of(const generated_root<double>& root) { return std::get<pinion_trochoid<double>>(root.fillet().shape()); }

pinion_trochoid<wide> widened(const pinion_trochoid<double>& t) {
    return {wide(t.rolling_radius), wide(t.tool_rolling_radius), wide(t.tip_rounding), wide(t.centre_radius), wide(t.centre_angle), wide(t.kind_sign)};
}

} // namespace

TEST_CASE("tangent, arc length, turning and curvature of a pinion-cut fillet are those of its points") {
    for (const cut_gear& kind : kinds()) {
        CAPTURE(kind.name);
        const generated_root<double> root{gear<double>{kind.parameters}, kind.tool};
        const pinion_trochoid<wide> fillet = widened(fillet_of(root));
        for (int i = 1; i < 24; ++i) {
            const wide phi = wide(root.end_parameter()) * i / 24;
            CAPTURE(i);
            // Differences with a step of 1e-12 in fifty digits: right to 24 places.
            const wide h("1e-12");
            const auto at = fillet.at(phi);
            const auto before = fillet.at(phi - h);
            const auto after = fillet.at(phi + h);
            const point<wide> velocity = wide(1 / (2 * h)) * (after.position() - before.position());
            const point<wide> acceleration = wide(1 / (h * h)) * ((after.position() - at.position()) - (at.position() - before.position()));
            const wide speed = rackwork::length(velocity);
            const wide close("1e-20");
            CHECK(at.speed > 0);
            CHECK(abs(at.speed - speed) < close * speed);
            CHECK(rackwork::length(at.tangent() - wide(1 / speed) * velocity) < close);
            CHECK(abs(rackwork::length(at.tangent()) - 1) < wide("1e-48"));
            const wide curvature = cross(velocity, acceleration) / (speed * speed * speed);
            CHECK(abs(at.curvature() - curvature) < close * (abs(curvature) + 1));
            CHECK(abs(at.turning() - cross(before.tangent(), after.tangent()) / (2 * h)) < close);
            CHECK(abs(at.turn_rate - (after.turn - before.turn) / (2 * h)) < close);
            CHECK(abs(at.squared_radius() - dot(at.position(), at.position())) < wide("1e-45") * at.squared_radius());
            CHECK(abs(at.polar_angle() - atan2(at.position().y, at.position().x)) < wide("1e-48"));
        }
    }
}

TEST_CASE("the normal of every point of a fillet goes through the pitch point when it is cut, and the cutter's rounding is a circle") {
    for (const cut_gear& kind : kinds()) {
        CAPTURE(kind.name);
        const generated_root<double> root{gear<double>{kind.parameters}, kind.tool};
        const pinion_trochoid<double> fillet = fillet_of(root);
        const double size = fillet.rolling_radius + fillet.tool_rolling_radius;
        for (int i = 0; i <= 12; ++i) {
            const auto at = fillet.at(root.end_parameter() * i / 12);
            CHECK(std::fabs((at.radial - fillet.rolling_radius) * at.cos_pressure + at.lateral * at.sin_pressure) < 1e-14 * size);
            // The rounding's centre, its radius behind the point, lies at its place in the cutter: axis beyond the pitch point (external) or
            // on this side of it.
            const point<double> normal{-fillet.kind_sign * at.sin_pressure, fillet.kind_sign * at.cos_pressure};
            const point<double> centre = point<double>{at.radial, at.lateral} - fillet.tip_rounding * normal;
            const double axis = fillet.rolling_radius + fillet.kind_sign * fillet.tool_rolling_radius;
            const double along = fillet.kind_sign * (axis - centre.x);
            CHECK(std::fabs(std::hypot(along, centre.y) - fillet.centre_radius) < 1e-14 * size);
            const double cutter_turn = at.turn * fillet.rolling_radius / fillet.tool_rolling_radius;
            // Gear and cutter have been turned back since the cutter's tooth stood in the middle of the space.
            CHECK(std::fabs(std::atan2(centre.y, along) - (fillet.centre_angle - cutter_turn)) < 1e-13);
        }
    }
}

TEST_CASE("a cutter of very many teeth cuts the fillet of the rack, and comes nearer to it with every tooth") {
    for (const int teeth : {9, 20, 45, 200}) {
        for (const double shift : {0.0, 0.3}) {
            CAPTURE(teeth);
            CAPTURE(shift);
            gear_parameters<double> p;
            p.normal_module = 2;
            p.teeth = teeth;
            p.profile_shift = shift;
            p.rack.root_fillet_radius = 0.3;
            const gear<double> g{p};
            const generated_root<double> by_rack{g};
            const auto distance_for = [&](int cutter_teeth) {
                const pinion_type_cutter<double> tool{.teeth = cutter_teeth, .tip_radius = 0.3};
                const generated_root<double> by_cutter{g, tool};
                double greatest = std::fabs(by_cutter.root_form_diameter() - by_rack.root_form_diameter());
                greatest = std::max(greatest, std::fabs(by_cutter.root_diameter() - by_rack.root_diameter()));
                greatest = std::max(greatest, std::fabs(by_cutter.root_land_half_angle() - by_rack.root_land_half_angle()));
                CHECK(by_cutter.is_undercut() == by_rack.is_undercut());
                for (int i = 0; i <= 12; ++i) {
                    const double share = i / 12.0;
                    const point<double> here = by_cutter.fillet().position(share * by_cutter.end_parameter());
                    const point<double> q = by_rack.fillet().position(share * by_rack.end_parameter());
                    greatest = std::max(greatest, length(here - q));
                }
                return greatest;
            };
            const double at_1000 = distance_for(1000);
            const double at_10000 = distance_for(10000);
            const double at_1000000 = distance_for(1000000);
            CHECK(at_1000 < 0.05);
            // One over the number of teeth, to the next order.
            CHECK(at_10000 == doctest::Approx(at_1000 / 10).epsilon(0.03));
            CHECK(at_1000000 == doctest::Approx(at_10000 / 100).epsilon(0.01));
        }
    }
}

TEST_CASE("a ring of very many teeth has the rack's fillet on its other side: it is that of the cutter's own rack") {
    // Both a gear and a ring of a million teeth are racks, one looked at from below, the other from above; their spaces are alike.
    const pinion_type_cutter<double> tool{.teeth = 25, .tip_radius = 0.2};
    const auto root_of = [&](gear_kind kind, int teeth) {
        gear_parameters<double> p;
        p.normal_module = 2;
        p.teeth = teeth;
        p.kind = kind;
        return generated_root<double>{gear<double>{p}, tool};
    };
    const auto apart = [&](int teeth) {
        const generated_root<double> ring = root_of(gear_kind::internal, teeth);
        const generated_root<double> wheel = root_of(gear_kind::external, teeth);
        double greatest = std::fabs(ring.end_parameter() - wheel.end_parameter());
        for (int i = 0; i <= 12; ++i) {
            const auto in_ring = ring.fillet().at(ring.end_parameter() * i / 12);
            const auto in_wheel = wheel.fillet().at(wheel.end_parameter() * i / 12);
            const double r = teeth; // of the reference circle
            const double depth_of_ring = std::sqrt(in_ring.squared_radius()) - r;
            const double depth_of_wheel = r - std::sqrt(in_wheel.squared_radius());
            greatest = std::max({greatest, std::fabs(depth_of_ring - depth_of_wheel), std::fabs(in_ring.polar_angle() - in_wheel.polar_angle()) * r});
        }
        return greatest;
    };
    // One over the number of teeth.
    CHECK(apart(10000) == doctest::Approx(apart(1000) / 10).epsilon(0.02));
    CHECK(apart(1000000) == doctest::Approx(apart(10000) / 100).epsilon(0.02));
}

TEST_CASE("with opposite shifts of gear and cutter the root circle is the drawing's, and a full tip radius leaves no land") {
    support::random_source random{331};
    for (int i = 0; i < 300; ++i) {
        gear_parameters<double> p;
        p.normal_module = random.uniform(0.5, 5);
        p.teeth = random.integer(60, 200);
        p.kind = random.coin() ? gear_kind::internal : gear_kind::external;
        p.profile_shift = random.uniform(-0.4, 0.4);
        if (random.coin()) p.helix_angle = deg(random.uniform(-35, 35));
        const gear<double> g{p};
        pinion_type_cutter<double> tool{.teeth = random.integer(12, p.teeth - 8), .profile_shift = -p.profile_shift, .addendum = p.rack.dedendum};
        CAPTURE(i);
        // Rolling on the reference circles, the tip at the dedendum's depth.
        CHECK(generated_root<double>(g, tool).root_diameter() == doctest::Approx(g.root_diameter()).epsilon(1e-14));
        tool.tip_radius = rackwork::full_tip_radius(g, tool);
        const generated_root<double> full{g, tool};
        CHECK(full.root_land_half_angle() == 0);
        tool.tip_radius *= 1 + 1e-9;
        CHECK(static_cast<bool>(generated_root<double>::check(g, tool)));
        tool.tip_radius *= 1 - 2e-6;
        CHECK(generated_root<double>(g, tool).root_land_half_angle() > 0);
    }
}
