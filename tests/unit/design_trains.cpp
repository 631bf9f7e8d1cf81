// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Trains of two stages and planetary trains: what trying every one finds.
#include <doctest/doctest.h>

#include <rackwork/core/error.hpp>
#include <rackwork/design/preferred_sizes.hpp>
#include <rackwork/design/train_search.hpp>
#include <rackwork/gear.hpp>
#include <rackwork/mesh.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <tuple>
#include <vector>

namespace {

using namespace rackwork;
using namespace rackwork::literals;

constexpr std::array<double, 3> small_modules{1, 1.25, 1.5};
constexpr std::array<double, 2> large_modules{2, 2.5};

using pair_key = std::tuple<double, int, int, double>;
pair_key key_of(const pair_candidate<double>& c) { return {c.normal_module, c.pinion_teeth, c.wheel_teeth, c.centre_distance}; }

two_stage_need<double> hoist() {
    two_stage_need<double> need{.ratio = ratio_within(11.3, 0.002)};
    need.first = {.ratio = {2.5, 4.5}, .centre_distance = {44, 52}, .modules = small_modules};
    need.first.pinion_teeth = {17, 22};
    need.first.wheel_teeth = {40, 90};
    need.second = {.ratio = {2.5, 4.5}, .centre_distance = {46, 80}, .modules = large_modules};
    need.second.pinion_teeth = {12, 18};
    need.second.wheel_teeth = {30, 75};
    return need;
}

/// Both stages by trying: the pairs that a stage's own search would find for any ratio, put together.
template <class F>
void for_every_pair(const pair_need<double>& need, const F& f) {
    for (const double m : need.modules) {
        for (int z1 = need.pinion_teeth.least; z1 <= need.pinion_teeth.greatest; ++z1) {
            for (int z2 = need.wheel_teeth.least; z2 <= need.wheel_teeth.greatest; ++z2) {
                const pair_proportions<double> p{.normal_module = m, .pinion_teeth = z1, .wheel_teeth = z2};
                if (!need.ratio.contains(static_cast<double>(z2) / z1)) continue;
                const double a = std::clamp(reference_centre_distance(p), need.centre_distance.least, need.centre_distance.greatest);
                if (check_centre_distance(p, a)) continue;
                const double sum = profile_shift_sum(p, a);
                if (need.profile_shift_sum.contains(sum)) f(pair_candidate<double>{m, z1, z2, {}, a, sum});
            }
        }
    }
}

void check_two_stages(const two_stage_need<double>& need, std::size_t at_least) {
    std::vector<std::tuple<pair_key, pair_key>> expected;
    for_every_pair(need.first, [&](const pair_candidate<double>& first) {
        pair_need<double> of_second = need.second;
        if (need.in_line) {
            if (!of_second.centre_distance.contains(first.centre_distance)) return;
            of_second.centre_distance = {first.centre_distance, first.centre_distance};
        }
        for_every_pair(of_second, [&](const pair_candidate<double>& second) {
            const double ratio = first.gear_ratio() * second.gear_ratio();
            if (need.ratio.contains(ratio)) expected.emplace_back(key_of(first), key_of(second));
        });
    });
    REQUIRE(expected.size() >= at_least);
    std::size_t i = 0;
    for (const two_stage_candidate<double>& found : two_stage_search(need)) {
        REQUIRE(i < expected.size());
        CHECK(std::tuple(key_of(found.first), key_of(found.second)) == expected[i]);
        CHECK(need.ratio.contains(found.gear_ratio()));
        ++i;
    }
    CHECK(i == expected.size());
}

planetary_need<double> winch() {
    return {.ratio = {4, 6.5},
            .centre_distance = {40, 48},
            .modules = large_modules,
            .sun_teeth = {12, 30},
            .planet_teeth = {14, 60},
            .ring_teeth = {50, 130},
            .planets = {3, 5},
            .tooth_difference = {-2, 2}};
}

} // namespace

TEST_CASE("trains of two stages are those that trying every one finds, in the same order") {
    SUBCASE("side by side") { check_two_stages(hoist(), 100); }
    SUBCASE("with input and output in line") {
        two_stage_need<double> need = hoist();
        need.in_line = true;
        need.ratio = ratio_within(11.3, 0.01);
        check_two_stages(need, 10);
    }
}

TEST_CASE("planetary trains are those that trying every one finds, in the same order") {
    const planetary_need<double> need = winch();
    using planetary_key = std::tuple<double, int, int, int, int>;
    std::vector<planetary_key> expected;
    for (const double m : need.modules) {
        for (int sun = need.sun_teeth.least; sun <= need.sun_teeth.greatest; ++sun) {
            for (int ring = need.ring_teeth.least; ring <= need.ring_teeth.greatest; ++ring) {
                for (int difference = need.tooth_difference.least; difference <= need.tooth_difference.greatest; ++difference) {
                    for (int planets = need.planets.least; planets <= need.planets.greatest; ++planets) {
                        // From the conditions as a mechanic would state them.
                        for (int planet = need.planet_teeth.least; planet <= need.planet_teeth.greatest; ++planet) {
                            if (ring != sun + 2 * planet + difference) continue;
                            if (!need.ratio.contains(1 + static_cast<double>(ring) / sun)) continue;
                            if ((sun + ring) % planets != 0) continue;
                            const pair_proportions<double> inner{.normal_module = m, .pinion_teeth = sun, .wheel_teeth = planet};
                            const pair_proportions<double> outer{
                                .normal_module = m, .pinion_teeth = planet, .wheel_teeth = ring, .wheel_kind = gear_kind::internal};
                            const double a =
                                std::clamp(reference_centre_distance(inner), need.centre_distance.least, need.centre_distance.greatest);
                            if (check_centre_distance(inner, a) || check_centre_distance(outer, a)) continue;
                            const double sun_sum = profile_shift_sum(inner, a);
                            if (!need.sun_shift_sum.contains(sun_sum) || !need.ring_shift_sum.contains(profile_shift_sum(outer, a)))
                                continue;
                            const gear<double> made{{.normal_module = m, .teeth = planet, .profile_shift = sun_sum / 2}};
                            const double chord = 2 * a * std::sin(std::acos(-1.0) / planets);
                            if (chord - made.tip_diameter() < m / 2) continue;
                            expected.emplace_back(m, sun, planet, ring, planets);
                        }
                    }
                }
            }
        }
    }
    REQUIRE(expected.size() > 50);
    std::size_t i = 0;
    for (const planetary_candidate<double>& found : planetary_search(need)) {
        REQUIRE(i < expected.size());
        CHECK(planetary_key(found.normal_module, found.sun_teeth, found.planet_teeth, found.ring_teeth, found.planets) == expected[i]);
        ++i;
    }
    CHECK(i == expected.size());
}

TEST_CASE("a planetary train that is found runs: sun, planet and ring at one centre distance without backlash") {
    int shifted = 0;
    for (const planetary_candidate<double>& c : planetary_search(winch())) {
        const double of_planet = c.sun_shift_sum / 2;
        const gear<double> sun{{.normal_module = c.normal_module, .teeth = c.sun_teeth, .profile_shift = c.sun_shift_sum - of_planet}};
        const gear<double> planet{{.normal_module = c.normal_module, .teeth = c.planet_teeth, .profile_shift = of_planet}};
        CHECK(mesh<double>(sun, planet).centre_distance() == doctest::Approx(c.centre_distance).epsilon(1e-13));
        const pair_proportions<double> outer{.normal_module = c.normal_module,
                                             .pinion_teeth = c.planet_teeth,
                                             .wheel_teeth = c.ring_teeth,
                                             .wheel_kind = gear_kind::internal};
        CHECK(centre_distance(outer, c.ring_shift_sum) == doctest::Approx(c.centre_distance).epsilon(1e-13));
        CHECK(c.gear_ratio() == doctest::Approx(1 + static_cast<double>(c.ring_teeth) / c.sun_teeth));
        if (c.sun_shift_sum != 0) ++shifted;
    }
    CHECK(shifted > 10);
}

TEST_CASE("the best trains by a caller's own criteria") {
    const auto off = [](const two_stage_candidate<double>& c) { return std::fabs(c.gear_ratio() - 11.3); };
    const auto size = [](const two_stage_candidate<double>& c) { return c.first.centre_distance + c.second.centre_distance; };
    const auto best = best_of(two_stage_search(hoist()), 3, off, size);
    REQUIRE(best.size() == 3);
    double least = 1;
    for (const auto& c : two_stage_search(hoist())) least = std::min(least, off(c));
    CHECK(off(best[0]) == least);
    CHECK(off(best[0]) <= off(best[1]));
    CHECK(off(best[1]) <= off(best[2]));
}

TEST_CASE("trains are watched and stopped as pairs are") {
    const auto all = planetary_search(winch()).watched_by([](const search_progress& p) { return p.examined < 300; }, 100);
    auto at = all.begin();
    while (at != all.end()) ++at;
    CHECK(at.stopped());
    CHECK(at.progress().examined == 300);
    const auto stages = two_stage_search(hoist()).watched_by([](const search_progress& p) { return p.examined < 300; }, 100);
    auto in = stages.begin();
    while (in != stages.end()) ++in;
    CHECK(in.stopped());
    CHECK(in.progress().examined == 300);
}

TEST_CASE("impossible trains are refused") {
    two_stage_need<double> stages = hoist();
    stages.ratio = {0, 1};
    CHECK_THROWS_AS(two_stage_search(stages), geometry_error);
    stages = hoist();
    stages.second.modules = {};
    CHECK_THROWS_AS(two_stage_search(stages), geometry_error);
    planetary_need<double> planets = winch();
    planets.ratio = {1, 3};
    CHECK_THROWS_AS(planetary_search(planets), geometry_error);
    planets = winch();
    planets.planets = {0, 3};
    CHECK_THROWS_AS(planetary_search(planets), geometry_error);
    planets = winch();
    planets.tooth_difference = {1, -1};
    CHECK_THROWS_AS(planetary_search(planets), geometry_error);
}
