// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Fillet, root diameter and root form diameter of external and internal gears against a pinion-type cutter that is turned past the gear.
#include <rackwork/generated_root.hpp>

#include "pinion_cut_sweep.hpp"
#include "random_source.hpp"

#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

using pinion_cut::blank;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::generated_root;
using rackwork::pinion_type_cutter;

namespace {

struct cut_gear {
    std::string name;
    gear_parameters<double> parameters;
    pinion_type_cutter<double> tool;
};

constexpr gear_kind internal = gear_kind::internal;

/// The same with a cutter whose tip is one arc.
cut_gear with_full_radius(cut_gear c) {
    c.tool.tip_radius = rackwork::full_tip_radius(gear<double>{c.parameters}, c.tool);
    return c;
}

/// One of every kind.
std::vector<cut_gear> kinds() {
    return {
        {"external, sharp cutter", {.normal_module = 2, .teeth = 30}, {.teeth = 24}},
        {"external, rounded cutter", {.normal_module = 2, .teeth = 30}, {.teeth = 24, .tip_radius = 0.25}},
        {"external, new cutter", {.normal_module = 3, .teeth = 41, .profile_shift = 0.3}, {.teeth = 20, .profile_shift = 0.4, .tip_radius = 0.15}},
        {"external, worn cutter", {.normal_module = 3, .teeth = 26, .profile_shift = 0.2}, {.teeth = 34, .profile_shift = -0.3, .tip_radius = 0.2}},
        {"external, undercut", {.normal_module = 2, .teeth = 11}, {.teeth = 40, .tip_radius = 0.2}},
        {"external, much undercut", {.normal_module = 2, .teeth = 8}, {.teeth = 50, .tip_radius = 0.3}},
        {"external, undercut by a sharp corner", {.normal_module = 2, .teeth = 10}, {.teeth = 60}},
        {"external, thinned teeth", {.normal_module = 2, .teeth = 20, .thickness_allowance = -0.1}, {.teeth = 25, .tip_radius = 0.2}},
        {"external, helical", {.normal_module = 2, .teeth = 25, .helix_angle = deg(25.0)}, {.teeth = 30, .tip_radius = 0.2}},
        {"external, helical, undercut", {.normal_module = 2, .teeth = 8, .helix_angle = deg(-20.0)}, {.teeth = 45, .tip_radius = 0.15}},
        {"external, cutter smaller than the gear by far", {.normal_module = 1, .teeth = 300}, {.teeth = 15, .profile_shift = 0.1, .tip_radius = 0.1}},
        with_full_radius({"external, full radius", {.normal_module = 2, .teeth = 24}, {.teeth = 30}}),
        with_full_radius({"external, full radius, undercut", {.normal_module = 2, .teeth = 10}, {.teeth = 30}}),
        {"internal, sharp cutter", {.normal_module = 2, .teeth = 60, .kind = internal}, {.teeth = 24}},
        {"internal, rounded cutter", {.normal_module = 2, .teeth = 60, .kind = internal}, {.teeth = 24, .tip_radius = 0.25}},
        {"internal, new cutter", {.normal_module = 3, .teeth = 50, .kind = internal, .profile_shift = -0.4}, {.teeth = 20, .profile_shift = 0.3, .tip_radius = 0.2}},
        {"internal, worn cutter", {.normal_module = 3, .teeth = 72, .kind = internal, .profile_shift = 0.3}, {.teeth = 30, .profile_shift = -0.2, .tip_radius = 0.1}},
        {"internal, few teeth more than the cutter", {.normal_module = 2, .teeth = 40, .kind = internal}, {.teeth = 30, .tip_radius = 0.2}},
        {"internal, thinned teeth", {.normal_module = 2, .teeth = 45, .kind = internal, .thickness_allowance = -0.1}, {.teeth = 20, .tip_radius = 0.15}},
        {"internal, helical", {.normal_module = 2, .teeth = 55, .kind = internal, .helix_angle = deg(30.0), .profile_shift = -0.2}, {.teeth = 22, .tip_radius = 0.2}},
        {"internal, 500 teeth", {.normal_module = 0.5, .teeth = 500, .kind = internal}, {.teeth = 40, .tip_radius = 0.2}},
        with_full_radius({"internal, full radius", {.normal_module = 2, .teeth = 48, .kind = internal}, {.teeth = 21}}),
        {"internal, 14.5 degrees",
         {.normal_module = 2, .teeth = 80, .kind = internal, .rack = rackwork::asa_b6_1_full_depth_14_5},
         {.teeth = 40, .addendum = 1.157, .tip_radius = 0.1}},
        {"internal, 30 degrees",
         {.normal_module = 2, .teeth = 44, .kind = internal, .rack = {.pressure_angle = deg(30.0), .addendum = 0.8, .dedendum = 1, .root_fillet_radius = 0.2}},
         {.teeth = 18, .addendum = 1, .tip_radius = 0.2}},
    };
}

std::string described(const cut_gear& c) {
    std::ostringstream text;
    text.precision(17);
    const auto& p = c.parameters;
    text << (p.kind == internal ? "internal" : "external") << ", module " << p.normal_module << ", " << p.teeth << " teeth, helix "
         << p.helix_angle.deg() << ", pressure angle " << p.rack.pressure_angle.deg() << ", shift " << p.profile_shift << ", allowance "
         << p.thickness_allowance << "; cutter: " << c.tool.teeth << " teeth, shift " << c.tool.profile_shift << ", addendum "
         << c.tool.addendum << ", tip radius " << c.tool.tip_radius;
    return text.str();
}

/// Random gears and cutters that can make them; a good many of the external ones undercut.
cut_gear random_cut_gear(support::random_source& random) {
    for (;;) {
        cut_gear c;
        gear_parameters<double>& p = c.parameters;
        p.normal_module = random.uniform(0.5, 6);
        p.kind = random.coin() ? internal : gear_kind::external;
        p.teeth = p.kind == internal ? random.integer(25, 200) : random.integer(6, 60);
        p.rack.pressure_angle = deg(random.uniform(14.5, 28));
        if (random.coin()) p.helix_angle = deg(random.uniform(-42, 42));
        p.profile_shift = random.uniform(-0.6, 0.6);
        p.thickness_allowance = random.uniform(-0.05, 0) * p.normal_module;
        c.tool.teeth = p.kind == internal ? random.integer(10, p.teeth - 8) : random.integer(12, 70);
        c.tool.profile_shift = random.uniform(-0.3, 0.5);
        c.tool.addendum = random.uniform(1.1, 1.3);
        if (check(p)) continue;
        try {
            const gear<double> g{p};
            const double full = rackwork::full_tip_radius(g, c.tool);
            switch (random.integer(0, 3)) {
            case 0: c.tool.tip_radius = 0; break;
            case 1: c.tool.tip_radius = full; break;
            default: c.tool.tip_radius = random.uniform(0, full); break;
            }
            const generated_root<double> root{g, c.tool};
            if (std::fabs(root.root_form_diameter() - g.tip_diameter()) < 0.1 * p.normal_module) continue;
        } catch (const rackwork::geometry_error&) {
            continue;
        }
        c.name = described(c);
        return c;
    }
}

/// The fillet as the library has it and as the sweep finds it, along its whole length, square to the curves.
double worst_deviation(const cut_gear& c) {
    const generated_root<double> root{gear<double>{c.parameters}, c.tool};
    const blank swept{c.parameters, c.tool};
    double worst = 0;
    for (int i = 1; i <= 24; ++i) {
        const auto at = root.fillet().at(root.end_parameter() * i / 24);
        const rackwork::point<double> q = at.position();
        const double radius = rackwork::length(q);
        const double above_root = swept.sign * (radius / swept.root_radius() - 1);
        CHECK(above_root > -1e-13);
        if (above_root < 1e-9) continue; // the land, or the one point that a sharp corner leaves there
        const rackwork::point<double> t = at.tangent();
        const double outward = std::fabs(dot(t, q)) / radius;
        worst = std::max(worst, std::fabs(swept.at(radius).half_angle - std::atan2(q.y, q.x)) * radius * outward);
    }
    return worst;
}

/// The diameter at which the sweep goes over from the cutter's flank to its tip, and the root circle.
void check_diameters(const cut_gear& c) {
    const gear<double> g{c.parameters};
    const generated_root<double> root{g, c.tool};
    const blank swept{c.parameters, c.tool};
    const double d = g.reference_diameter();
    CHECK(std::fabs(root.root_diameter() - 2 * swept.root_radius()) < 1e-13 * d);
    CHECK(std::fabs(2 * rackwork::length(root.fillet().position(0)) - 2 * swept.root_radius()) < 1e-13 * d);
    const double land = std::max(swept.tool.centre_angle * swept.ratio, 0.0);
    CHECK(std::fabs(root.root_land_half_angle() - land) < 1e-14);
    // Where flank and fillet pass into each other smoothly, the angle at which the opening is greatest is known only to the root of the
    // rounding of the opening, some 1e-8 and more where the top is flat.
    CHECK(std::fabs(root.root_form_diameter() - 2 * swept.form_radius()) < 1e-7 * d);
    const double form = root.root_form_diameter() / 2;
    const auto by_flank = swept.opened_by_flank(form);
    const auto by_tip = swept.opened_by_tip(form);
    CHECK(std::fabs(by_flank.half_angle - by_tip.half_angle) * form < 1e-12 * d);
    // And on that circle stands the involute of the gear's tooth thickness.
    CHECK(std::fabs(by_flank.half_angle - swept.involute(form)) * form < 1e-12 * d);
    if (root.is_undercut()) {
        const double rounding = 1e-13 * d;
        CHECK(by_tip.tool_radius >= swept.tool.flank_end_radius - rounding);
        CHECK(by_flank.tool_radius < swept.tool.flank_end_radius - rounding);
    }
}

} // namespace

TEST_CASE("the fillet of every kind of gear is the envelope of the pinion-type cutter's tip") {
    double worst = 0;
    for (const cut_gear& kind : kinds()) {
        CAPTURE(kind.name);
        const double deviation = worst_deviation(kind) / kind.parameters.normal_module;
        CHECK(deviation < 1e-12);
        worst = std::max(worst, deviation);
    }
    MESSAGE("worst: " << worst << " of the module");
}

TEST_CASE("root, land and root form diameter of every kind of gear are where the sweep has them") {
    for (const cut_gear& kind : kinds()) {
        CAPTURE(kind.name);
        check_diameters(kind);
    }
}

TEST_CASE("the same for random gears and cutters") {
    support::random_source random{301};
    double worst = 0;
    int undercut = 0;
    int rings = 0;
    for (int i = 0; i < 150; ++i) {
        const cut_gear c = random_cut_gear(random);
        CAPTURE(c.name);
        const double deviation = worst_deviation(c) / c.parameters.normal_module;
        CHECK(deviation < 1e-12);
        worst = std::max(worst, deviation);
        check_diameters(c);
        rings += c.parameters.kind == internal;
        undercut += generated_root<double>{gear<double>{c.parameters}, c.tool}.is_undercut();
    }
    CHECK(rings > 40);
    CHECK(undercut > 15);
    MESSAGE("worst: " << worst << " of the module; " << undercut << " undercut, " << rings << " internal");
}

TEST_CASE("step by step the cutter takes away what lies in the space, and nothing of the tooth") {
    for (const cut_gear& kind : kinds()) {
        if (kind.tool.tip_radius == 0) continue; // a sharp corner needs finer steps than there is time for
        CAPTURE(kind.name);
        const generated_root<double> root{gear<double>{kind.parameters}, kind.tool};
        const blank swept{kind.parameters, kind.tool};
        const double beside = 1e-4 * kind.parameters.normal_module;
        for (int i = 1; i <= 5; ++i) {
            const auto at = root.fillet().at(root.end_parameter() * i / 5.5);
            // The metal lies to the right of the way from the root land to the flank of an external gear's left-hand fillet.
            const rackwork::point<double> normal{-swept.sign * at.tangent().y, swept.sign * at.tangent().x};
            const rackwork::point<double> metal = at.position() + beside * normal;
            const rackwork::point<double> space = at.position() + -beside * normal;
            CAPTURE(i);
            const double step = 2e-5;
            CHECK(swept.is_cut(rackwork::length(space), std::atan2(space.y, space.x), step));
            CHECK_FALSE(swept.is_cut(rackwork::length(metal), std::atan2(metal.y, metal.x), step));
        }
    }
}
