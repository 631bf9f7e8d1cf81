// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The end of an undercut fillet, and what is different from one of its points to another.
#include <rackwork/generated_root.hpp>
#include <rackwork/undercut_fillet.hpp>
#include <rackwork/undercut_limits.hpp>

#include "random_source.hpp"

#include <cmath>
#include <limits>

#include <boost/math/differentiation/autodiff.hpp>
#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::fillet_change;
using rackwork::fillet_state;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::generated_root;

namespace {

using differentiable = boost::math::differentiation::autodiff_fvar<double, 1>;

rackwork::rack_trochoid<double> some_rack_fillet(support::random_source& random) {
    const double rounding = random.coin() ? 0.0 : random.uniform(0.05, 0.4);
    return {.rolling_radius = random.uniform(4, 60),
            .tip_rounding = rounding,
            .centre_depth = random.uniform(0.3, 1.5),
            .centre_offset = random.uniform(0.0, 0.4),
            .cos_helix = std::cos(random.uniform(0.0, 0.7))};
}

rackwork::pinion_trochoid<double> some_pinion_fillet(support::random_source& random, double sign) {
    const double tool = random.uniform(8, 30);
    return {.rolling_radius = tool * (sign > 0 ? random.uniform(0.3, 3) : random.uniform(1.5, 4)),
            .tool_rolling_radius = tool,
            .tip_rounding = random.coin() ? 0.0 : random.uniform(0.05, 0.3),
            .centre_radius = tool + random.uniform(0.2, 1),
            .centre_angle = random.uniform(0, 0.02),
            .kind_sign = sign};
}

/// The distance from the pitch point, negative on the other side of it.
double reach(const fillet_state<double>& at, double rolling_radius) {
    return std::copysign(std::hypot(at.radial - rolling_radius, at.lateral), at.lateral);
}

template <class Fillet>
void compare_with_states(const Fillet& fillet, double from, double back) {
    const fillet_state<double> here = fillet.at(from);
    const fillet_state<double> there = fillet.at(from - back);
    const fillet_change<double> change = fillet.change_back(from, back);
    const double size = fillet.rolling_radius + fillet.tip_rounding + std::fabs(here.lateral) + std::fabs(there.lateral);
    CHECK(std::fabs(change.turn - (there.turn - here.turn)) < 1e-14 * (1 + size / fillet.rolling_radius));
    const double pressure = std::atan2(there.sin_pressure, there.cos_pressure) - std::atan2(here.sin_pressure, here.cos_pressure);
    CHECK(std::fabs(change.pressure - pressure) < 1e-14);
    CHECK(std::fabs(change.reach - (reach(there, fillet.rolling_radius) - reach(here, fillet.rolling_radius))) < 1e-14 * size);
    // A short way back, of which states would not show a place: the rates, with the places of numbers formed from differences of angles.
    const double step = 1e-20;
    const fillet_change<double> little = fillet.change_back(from, step);
    CHECK(std::fabs(little.turn / -step - here.turn_rate) < 1e-13 * (std::fabs(here.turn_rate) + std::fabs(here.pressure_rate) + 1));
    CHECK(std::fabs(little.pressure / -step - here.pressure_rate) < 1e-13 * std::fabs(here.pressure_rate));
}

/// Parameters of a gear at the limit of undercut.
gear_parameters<double> at_the_limit(support::random_source& random) {
    for (;;) {
        gear_parameters<double> p{.normal_module = random.uniform(0.5, 6),
                                  .teeth = random.integer(7, 40),
                                  .helix_angle = deg(random.coin() ? 0.0 : random.uniform(-35, 35)),
                                  .rack = {.pressure_angle = deg(random.uniform(14.5, 25)),
                                           .dedendum = 1.25,
                                           .root_fillet_radius = random.uniform(0, 0.25)}};
        p.profile_shift = least_profile_shift_without_undercut(p.rack, p.teeth, p.helix_angle);
        if (std::fabs(p.profile_shift) < 0.8 && !check(p) && gear<double>{p}.tip_thickness() > 0.1 * p.normal_module) return p;
    }
}

/// Roll angle, per module of depth, by which the end of the tool's flank moves along the line of action.
double overshoot_of_a_module(const gear<double>& g) {
    const double angle = g.transverse_pressure_angle().rad();
    return g.normal_module() / (std::sin(angle) * g.base_diameter() / 2);
}

constexpr gear_parameters<double> hardly_undercut{.normal_module = 2, .teeth = 17, .profile_shift = 0.0056, .face_width = 20};

} // namespace

TEST_CASE("what changes on the way back along a rack-cut fillet is the difference of its states, and on a short way its rates") {
    support::random_source random{950};
    for (int i = 0; i < 300; ++i) {
        const double last = random.uniform(0.9, 1.3);
        compare_with_states(some_rack_fillet(random), last, random.uniform(0.0, last));
    }
}
TEST_CASE("on a pinion-cut fillet of an external or internal gear likewise") {
    support::random_source random{951};
    for (int i = 0; i < 300; ++i) {
        // Up to where the normal no longer meets the cutter's rolling circle.
        const auto fillet = some_pinion_fillet(random, i % 2 == 0 ? 1 : -1);
        const double last = 0.95 * std::asin(fillet.tool_rolling_radius / fillet.centre_radius);
        compare_with_states(fillet, last, random.uniform(0.0, last));
    }
}

TEST_CASE("a hardly undercut involute begins at half the angle by which the tool's flank reaches beyond the base circle") {
    // The fillet's end touches the mirrored branch of the involute. As a curve of the roll t with the place (t^2/2, t^3/3) beside the base
    // circle it leaves the point -e along the tangent there and meets the branch of positive t where 2 t^3 + 3 e t^2 = e^3: at e/2.
    support::random_source random{952};
    for (int i = 0; i < 200; ++i) {
        gear_parameters<double> p = at_the_limit(random);
        const double limit = p.profile_shift;
        for (const double depth : {1e-3, 1e-5, 1e-7, 1e-9}) {
            p.profile_shift = limit - depth;
            const gear<double> g{p};
            const generated_root<double> root{g};
            CHECK(root.is_undercut());
            const double overshoot = depth * overshoot_of_a_module(g);
            const double rounding = 64 * std::numeric_limits<double>::epsilon() / overshoot;
            CAPTURE(depth);
            CHECK(std::fabs(root.root_form_roll() / overshoot - 0.5) < 4 * overshoot + rounding);
            // It has hardly left its end.
            CHECK(root.end_parameter() > std::atan(1 / g.tangent_of_normal_pressure_angle()) - 40 * overshoot * overshoot - 1e-15);
        }
    }
}

TEST_CASE("the beginning of a hardly undercut involute follows the profile shift at half the pace of the tool's flank") {
    support::random_source random{953};
    for (int i = 0; i < 50; ++i) {
        const gear_parameters<double> p = at_the_limit(random);
        for (const double depth : {1e-3, 1e-5, 1e-7}) {
            gear_parameters<differentiable> q;
            q.normal_module = p.normal_module;
            q.teeth = p.teeth;
            q.helix_angle = rackwork::rad(differentiable(p.helix_angle.rad()));
            q.rack = {.pressure_angle = rackwork::rad(differentiable(p.rack.pressure_angle.rad())),
                      .addendum = p.rack.addendum,
                      .dedendum = p.rack.dedendum,
                      .root_fillet_radius = p.rack.root_fillet_radius};
            q.profile_shift = boost::math::differentiation::make_fvar<double, 1>(p.profile_shift - depth);
            const double pace = overshoot_of_a_module(gear<double>{p});
            const double overshoot = depth * pace;
            const double derivative = generated_root<differentiable>{gear<differentiable>{q}}.root_form_roll().derivative(1);
            CAPTURE(depth);
            CHECK(std::fabs(derivative / -pace - 0.5) < 8 * overshoot + 256 * std::numeric_limits<double>::epsilon() / overshoot);
        }
    }
}

TEST_CASE("a hardly undercut root is a constant like any other") {
    constexpr generated_root<double> root{gear{hardly_undercut}};
    static_assert(root.is_undercut());
    static_assert(root.root_form_roll() > 0 && root.root_form_roll() < 1e-4);
    const generated_root<double> at_run_time{gear<double>{hardly_undercut}};
    CHECK(std::fabs(root.root_form_roll() - at_run_time.root_form_roll()) < 1e-15);
}
