// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Random gears and pairs over the whole range of numbers that are not absurd one by one, though most are together.
#include "bad_input_audit.hpp"
#include "bad_input_sheets.hpp"
#include "random_source.hpp"

#include <rackwork/mesh.hpp>

#include <doctest/doctest.h>

#include <cmath>

namespace {

using bad_input::audit;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;

/// Module 0.1 to 25, teeth 1 to 500, pressure angle 1 to 89 degrees, helix -89 to 89, shift -20 to 20, dedendum 0.1 to 3, fillet 0 to 2.
/// Every other gear is drawn from the usual middle of the range, so that enough of them are possible.
template <class T>
gear_parameters<T> anything(support::random_source& random) {
    const auto number = [&](double low, double high) { return static_cast<T>(random.uniform(low, high)); };
    const bool usual = random.coin();
    gear_parameters<T> p{.normal_module = number(0.1, 25), .teeth = random.integer(1, 500)};
    p.helix_angle = random.integer(0, 3) == 0 ? deg(T(0)) : usual ? deg(number(-45, 45)) : deg(number(-89, 89));
    p.rack.pressure_angle = usual ? deg(number(10, 35)) : deg(number(1, 89));
    p.rack.addendum = usual ? number(0.5, 1.5) : number(0.01, 3);
    p.rack.dedendum = usual ? number(0.5, 1.75) : number(0.1, 3);
    p.rack.root_fillet_radius = random.integer(0, 4) == 0 ? T(0) : usual ? number(0, 0.4) : number(0, 2);
    p.profile_shift = usual ? number(-1, 2) : number(-20, 20);
    if (random.coin()) p.teeth = random.integer(1, 30);
    if (random.integer(0, 3) == 0) p.tip_alteration = number(-1, 1);
    if (random.integer(0, 3) == 0) p.thickness_allowance = p.normal_module * number(-0.5, 0.1);
    if (random.coin()) p.face_width = number(0, 100);
    return p;
}

template <class T>
audit random_gears(int count) {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    support::random_source random{471};
    int possible = 0;
    for (int i = 0; i < count; ++i) {
        const gear_parameters<T> p = anything<T>(random);
        judge.describe = [&] { return bad_input::described(p); };
        if (const rackwork::violation v = rackwork::check(p)) {
            judge.judge("check", rackwork::geometry_error{v});
            CHECK_THROWS_AS(gear<T>{p}, rackwork::geometry_error);
            continue;
        }
        ++possible;
        const gear<T> g{p};
        bad_input::sizes_of_gear(g, judge);
        bad_input::recommended_measures(g, judge);
        bad_input::measures_over_teeth(g, random.integer(0, g.teeth() + 1), judge);
        const T tool = g.normal_module() * static_cast<T>(std::exp2(random.uniform(-4, 3)));
        bad_input::measures_with_length(g, tool, judge);
        const T within = g.base_diameter() + (g.effective_tip_diameter() - g.base_diameter()) * static_cast<T>(random.uniform(0, 1));
        bad_input::sizes_at_diameter(g, within, judge);
        bad_input::measures_with_length(g, T(g.tip_diameter() * static_cast<T>(random.uniform(0.9, 1.3))), judge);
    }
    CHECK(possible > count / 4);
    return judge;
}

template <class T>
audit random_pairs(int count) {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    support::random_source random{472};
    int possible = 0;
    for (int i = 0; i < count; ++i) {
        const gear_parameters<T> pinion = anything<T>(random);
        gear_parameters<T> wheel = anything<T>(random);
        wheel.normal_module = pinion.normal_module;
        wheel.helix_angle = -pinion.helix_angle;
        wheel.rack.pressure_angle = pinion.rack.pressure_angle;
        judge.describe = [&] { return bad_input::described(pinion) + " with " + bad_input::described(wheel); };
        if (rackwork::check(pinion) || rackwork::check(wheel)) continue;
        const gear<T> a{pinion};
        const gear<T> b{wheel};
        judge("mesh without backlash", [&] {
            const mesh<T> m{a, b};
            ++possible;
            bad_input::sizes_of_mesh(m, judge);
            return true;
        });
        judge("mesh at a centre distance", [&] {
            const T distance = (a.base_diameter() + b.base_diameter()) / 2 * static_cast<T>(random.uniform(0.98, 1.5));
            const mesh<T> m{a, b, distance};
            bad_input::sizes_of_mesh(m, judge);
            return true;
        });
    }
    CHECK(possible > count / 20);
    return judge;
}

} // namespace

TEST_CASE("over the whole range of gears everything is finite or refused truthfully") {
    const audit judge = random_gears<double>(20000);
    CHECK_MESSAGE(judge.clean(), judge);
    const audit narrow = random_gears<float>(5000);
    CHECK_MESSAGE(narrow.clean(), narrow);
    const audit extended = random_gears<long double>(3000);
    CHECK_MESSAGE(extended.clean(), extended);
}

TEST_CASE("over the whole range of pairs everything is finite or refused truthfully") {
    const audit judge = random_pairs<double>(30000);
    CHECK_MESSAGE(judge.clean(), judge);
    const audit narrow = random_pairs<float>(10000);
    CHECK_MESSAGE(narrow.clean(), narrow);
}
