// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The root fillet and the root form diameter against a rack-type tool that is moved past the gear.
#include <rackwork/generated_root.hpp>

#include "measure_helicoid.hpp"
#include "undercut_sweep.hpp"

#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

using rackwork::basic_rack;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::generated_root;
using undercut::blank;

namespace {

struct named_gear {
    std::string name;
    gear_parameters<double> parameters;
};

/// One of every kind.
std::vector<named_gear> kinds() {
    const basic_rack<double> sharp{.root_fillet_radius = 0};
    basic_rack<double> full_radius{};
    full_radius.root_fillet_radius =
        rackwork::full_root_fillet_radius(full_radius.pressure_angle, full_radius.dedendum);
    return {
        {"spur, not undercut", {.normal_module = 2, .teeth = 30}},
        {"spur, shifted", {.normal_module = 2, .teeth = 15, .profile_shift = 0.5}},
        {"spur, negative shift", {.normal_module = 1, .teeth = 60, .profile_shift = -0.6}},
        {"spur, undercut", {.normal_module = 2, .teeth = 12}},
        {"spur, much undercut", {.normal_module = 3, .teeth = 8}},
        {"spur, barely undercut", {.normal_module = 2, .teeth = 17}},
        {"spur, thinned teeth", {.normal_module = 2, .teeth = 20, .thickness_allowance = -0.1}},
        {"helical, not undercut", {.normal_module = 2, .teeth = 25, .helix_angle = deg(25.0)}},
        {"helical, left hand", {.normal_module = 2, .teeth = 19, .helix_angle = deg(-35.0), .profile_shift = 0.2}},
        {"helical, undercut", {.normal_module = 2, .teeth = 9, .helix_angle = deg(20.0)}},
        {"helical, steep and undercut",
         {.normal_module = 1.5, .teeth = 5, .helix_angle = deg(40.0), .profile_shift = -0.05}},
        {"sharp corner, not undercut", {.normal_module = 2, .teeth = 40, .rack = sharp}},
        {"sharp corner, undercut", {.normal_module = 2, .teeth = 14, .rack = sharp}},
        {"sharp corner, helical, undercut", {.normal_module = 2, .teeth = 11, .helix_angle = deg(30.0), .rack = sharp}},
        {"full radius", {.normal_module = 2, .teeth = 24, .rack = full_radius}},
        {"full radius, undercut", {.normal_module = 2, .teeth = 11, .rack = full_radius}},
        {"full radius, helical", {.normal_module = 2, .teeth = 24, .helix_angle = deg(30.0), .rack = full_radius}},
        {"14.5 degrees, undercut", {.normal_module = 1, .teeth = 18, .rack = rackwork::asa_b6_1_full_depth_14_5}},
        {"25 degrees", {.normal_module = 1, .teeth = 16, .rack = rackwork::ansi_b6_1_coarse_25}},
    };
}

/// Random gears, undercut as often as not, some so much that nothing is left of them; those are drawn again.
gear_parameters<double> random_root(support::random_source& random) {
    for (;;) {
        gear_parameters<double> p{.normal_module = random.uniform(0.5, 6),
                                  .teeth = random.integer(6, 50),
                                  .rack = {.pressure_angle = deg(random.uniform(14.5, 26)),
                                           .addendum = 1,
                                           .dedendum = random.uniform(1.1, 1.3)}};
        if (random.coin()) p.helix_angle = deg(random.uniform(-42, 42));
        p.rack.root_fillet_radius =
            random.uniform(0, rackwork::full_root_fillet_radius(p.rack.pressure_angle, p.rack.dedendum));
        p.profile_shift = random.uniform(-0.5, 0.5);
        p.thickness_allowance = random.uniform(-0.05, 0) * p.normal_module;
        if (check(p) || check(p.rack)) continue;
        try {
            const gear<double> g{p};
            if (g.tip_thickness() < 0.05 * p.normal_module) continue;
            if (rackwork::root_form_diameter(g) > g.tip_diameter() - 0.1 * p.normal_module) continue;
        } catch (const rackwork::geometry_error&) {
            continue;
        }
        return p;
    }
}

/// The fillet as the library has it and as the sweep finds it, along its whole length.
void check_fillet(const gear_parameters<double>& p) {
    const gear<double> g{p};
    const generated_root<double> root{g};
    const blank swept{p};
    for (int i = 1; i <= 24; ++i) {
        const auto at = root.fillet().at(root.end_parameter() * i / 24);
        const rackwork::point<double> q = at.position();
        const double radius = rackwork::length(q);
        if (radius < swept.root_radius() * (1 + 1e-9))
            continue; // the land, or the one point that a sharp corner leaves there
        const double polar = std::atan2(q.y, q.x);
        // How far apart the curves lie, measured square to them: the arc between them, less where they run along the circle.
        const rackwork::point<double> t = at.tangent();
        const double outward = std::fabs(dot(t, q)) / radius;
        CAPTURE(i);
        CHECK(std::fabs(swept.at(radius).half_angle - polar) * radius * outward < 1e-9 * p.normal_module);
    }
    CHECK(root.fillet().position(0).x ==
          doctest::Approx(g.generated_root_diameter() / 2 * std::cos(root.fillet().at(0).turn)).epsilon(1e-12));
    CHECK(rackwork::length(root.fillet().position(0)) ==
          doctest::Approx(swept.root_radius()).epsilon(1e-13));
}

/// The diameter at which the sweep goes over from the tool's flank to its tip.
void check_form_diameter(const gear_parameters<double>& p) {
    const gear<double> g{p};
    const generated_root<double> root{g};
    const blank swept{p};
    // Where flank and fillet pass into each other smoothly, the angle at which the opening is greatest is known only to the root of the
    // rounding of the opening, some 1e-8 and more where the top is flat.
    CHECK(std::fabs(root.root_form_diameter() - 2 * swept.form_radius()) < 1e-7 * g.reference_diameter());
    const double form = root.root_form_diameter() / 2;
    const auto by_flank = swept.opened_by_flank(form);
    const auto by_tip = swept.opened_by_tip(form);
    // Seen from the sweep, tool's flank and tip open that very circle alike.
    CHECK(std::fabs(by_flank.half_angle - by_tip.half_angle) * form < 1e-12 * g.reference_diameter());
    if (root.is_undercut()) {
        // They do so in two different positions: the tip cuts what the flank has made before.
        const double rounding = 1e-13 * g.reference_diameter(); // of the search for the greatest opening
        CHECK(by_tip.tool_depth >= swept.tool.depth_of_flank_end - rounding);
        CHECK(by_flank.tool_depth < swept.tool.depth_of_flank_end - rounding);
    }
}

} // namespace

TEST_CASE("the fillet of every kind of gear is the envelope of the tool's tip") {
    for (const named_gear& kind : kinds()) {
        CAPTURE(kind.name);
        check_fillet(kind.parameters);
    }
}

TEST_CASE(
    "the root form diameter of every kind of gear is where the sweep goes over from the tool's flank to its tip") {
    for (const named_gear& kind : kinds()) {
        CAPTURE(kind.name);
        check_form_diameter(kind.parameters);
    }
}

TEST_CASE("tangent, arc length and curvature of the fillet are those of its points") {
    for (const named_gear& kind : kinds()) {
        CAPTURE(kind.name);
        const generated_root<double> root{gear<double>{kind.parameters}};
        const rackwork::root_trochoid<double>& fillet = root.fillet();
        const double module = kind.parameters.normal_module;
        for (int i = 1; i < 12; ++i) {
            const double phi = root.end_parameter() * i / 12;
            const double h = 1e-5;
            const auto at = fillet.at(phi);
            const rackwork::point<double> before = fillet.position(phi - h);
            const rackwork::point<double> here = at.position();
            const rackwork::point<double> after = fillet.position(phi + h);
            // Central differences: right to h^2, and to the rounding of a point over h; that of the second one to rounding over h^2.
            const rackwork::point<double> velocity = 1 / (2 * h) * (after - before);
            const rackwork::point<double> acceleration = 1 / (h * h) * ((after - here) - (here - before));
            const double speed = rackwork::length(velocity);
            CHECK(at.speed == doctest::Approx(speed).epsilon(1e-7));
            CHECK(rackwork::length(at.tangent() - 1 / speed * velocity) < 1e-7);
            const double curvature = cross(velocity, acceleration) / (speed * speed * speed);
            CHECK(at.curvature() * module == doctest::Approx(curvature * module).epsilon(1e-3));
            CHECK(at.squared_radius() == doctest::Approx(dot(here, here)).epsilon(1e-14));
            CHECK(at.polar_angle() == doctest::Approx(std::atan2(here.y, here.x)).epsilon(1e-13));
            CHECK(at.turn_rate ==
                  doctest::Approx((fillet.at(phi + h).turn - fillet.at(phi - h).turn) / (2 * h)).epsilon(1e-6));
        }
    }
}

TEST_CASE("a smooth fillet ends square to the line of action, as the involute begins there") {
    for (const named_gear& kind : kinds()) {
        CAPTURE(kind.name);
        const generated_root<double> root{gear<double>{kind.parameters}};
        const blank swept{kind.parameters};
        const auto at = root.fillet().at(root.end_parameter());
        const rackwork::point<double> end = at.position();
        const double radius = rackwork::length(end);
        CHECK(2 * radius == doctest::Approx(root.root_form_diameter()).epsilon(1e-13));
        CHECK(std::atan2(end.y, end.x) == doctest::Approx(swept.involute(radius)).epsilon(1e-11));
        // The involute leaves the radius by the pressure angle.
        const double of_involute = swept.involute(radius) + std::acos(swept.base_radius / radius);
        const double of_fillet = std::atan2(at.tangent().y, at.tangent().x);
        const double corner = of_fillet - of_involute;
        if (root.is_undercut()) {
            CHECK(corner < 0); // the fillet comes out of the tooth and cuts the involute
        } else {
            CHECK(std::fabs(corner) < 1e-7); // a pressure angle near the base circle is known to a root of rounding
        }
    }
}

TEST_CASE("a tool that cuts the tooth off at its narrowest place is refused, one that just leaves it standing is not") {
    struct tooth {
        int teeth;
        double cut_off;
        double left_standing;
    };
    for (const tooth& t : {tooth{3, -0.12, -0.09}, tooth{4, -0.36, -0.34}, tooth{5, -0.55, -0.53}}) {
        CAPTURE(t.teeth);
        for (const double shift : {t.cut_off, t.left_standing}) {
            CAPTURE(shift);
            const gear_parameters<double> p{.normal_module = 1, .teeth = t.teeth, .profile_shift = shift};
            const blank swept{p};
            double most = 0;
            const double form = swept.form_radius();
            for (int i = 1; i <= 400; ++i) {
                most =
                    std::fmax(most, swept.at(swept.root_radius() + (form - swept.root_radius()) * i / 400).half_angle);
            }
            const bool metal_is_left = most < undercut::circle / t.teeth;
            CHECK(metal_is_left == (shift == t.left_standing));
            if (metal_is_left) {
                CHECK_NOTHROW(static_cast<void>(generated_root<double>{gear<double>{p}}));
            } else {
                CHECK_THROWS_AS(static_cast<void>(generated_root<double>{gear<double>{p}}), rackwork::geometry_error);
            }
        }
    }
}

TEST_CASE("fillets and root form diameters of random gears") {
    support::random_source random{801};
    int undercut = 0;
    constexpr int gears = 60;
    for (int i = 0; i < gears; ++i) {
        const gear_parameters<double> p = random_root(random);
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        CAPTURE(p.profile_shift);
        CAPTURE(p.rack.root_fillet_radius);
        check_fillet(p);
        check_form_diameter(p);
        if (generated_root<double>{gear<double>{p}}.is_undercut()) ++undercut;
    }
    CHECK(undercut > gears / 5);
    CHECK(undercut < gears * 4 / 5);
}

TEST_CASE("above the root form diameter the sweep leaves the involute, below it something else") {
    for (const named_gear& kind : kinds()) {
        CAPTURE(kind.name);
        const gear<double> g{kind.parameters};
        const generated_root<double> root{g};
        const blank swept{kind.parameters};
        const double form = root.root_form_diameter() / 2;
        const double module = kind.parameters.normal_module;
        for (double share = 0.001; share <= 1; share += 0.111) {
            const double radius = form + share * (swept.tip_radius - form);
            CHECK(std::fabs(swept.at(radius).half_angle - swept.involute(radius)) * radius < 1e-10 * module);
            CHECK(swept.involute(radius) * 2 * radius == doctest::Approx(g.space_width(2 * radius)).epsilon(1e-11));
        }
        const double below = form - 0.05 * module;
        if (below < swept.base_radius || below < swept.root_radius()) continue;
        // Metal is left over in a sound root, and missing from an undercut one.
        const double missing = (swept.at(below).half_angle - swept.involute(below)) * below;
        CHECK((root.is_undercut() ? missing : -missing) > 1e-5 * module);
    }
}

TEST_CASE("moved step by step past the gear, the tool takes what lies outside of fillet and flank, and nothing of what "
          "lies inside") {
    for (const named_gear& kind : kinds()) {
        CAPTURE(kind.name);
        const gear_parameters<double>& p = kind.parameters;
        const gear<double> g{p};
        const generated_root<double> root{g};
        const blank swept{p};
        const double hair = 1e-3 * p.normal_module;
        const double step = 4e-3 * p.normal_module;
        const auto check_point = [&](const rackwork::point<double>& q, const rackwork::point<double>& outward_tangent) {
            // The space lies on the right of someone who walks outward on its left side.
            const rackwork::point<double> into_space{outward_tangent.y, -outward_tangent.x};
            const rackwork::point<double> outside = q + hair * into_space;
            const rackwork::point<double> inside = q - hair * into_space;
            CHECK(swept.is_cut(rackwork::length(outside), std::atan2(outside.y, outside.x), step));
            CHECK_FALSE(swept.is_cut(rackwork::length(inside), std::atan2(inside.y, inside.x), step));
        };
        for (int i = 1; i < 8; ++i) {
            if (p.rack.root_fillet_radius == 0 && i == 1)
                continue; // the corner cuts its first bit within less than a hair
            const auto at = root.fillet().at(root.end_parameter() * i / 8);
            check_point(at.position(), at.tangent());
        }
        const double form = root.root_form_diameter() / 2;
        for (int i = 1; i < 8; ++i) {
            const double radius = form + (swept.tip_radius - form) * i / 8;
            const double polar = swept.involute(radius);
            // The involute leaves the radius by the pressure angle.
            const double direction = polar + std::acos(swept.base_radius / radius);
            check_point(radius * rackwork::direction(polar), rackwork::direction(direction));
        }
        // The root circle is left standing, between the spaces of neighbouring positions as well.
        CHECK(swept.is_cut(swept.root_radius() + hair, 0, step));
        CHECK_FALSE(swept.is_cut(swept.root_radius() - hair, 0, step));
    }
}
