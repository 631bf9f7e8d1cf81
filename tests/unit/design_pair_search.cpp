// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The search for pairs finds what trying every one finds, looks lazily, and keeps only the best.
#include <doctest/doctest.h>

#include <rackwork/core/error.hpp>
#include <rackwork/design/pair_search.hpp>
#include <rackwork/design/preferred_sizes.hpp>
#include <rackwork/design/search.hpp>
#include <rackwork/gear.hpp>
#include <rackwork/mesh.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <tuple>
#include <vector>

namespace {

using namespace rackwork;
using namespace rackwork::literals;

/// What tells one pair from another.
using key = std::tuple<double, double, int, int>;

key key_of(const pair_candidate<double>& c) { return {c.helix_angle.rad(), c.normal_module, c.pinion_teeth, c.wheel_teeth}; }

pair_need<double> need_of_92_millimetres() {
    return {.ratio = ratio_within(3.07, 0.005), .centre_distance = {92, 92}, .modules = iso_54_series_1<double>};
}

/// Every helix angle, module and pair of tooth numbers, tried with the functions for a single pair.
std::vector<pair_candidate<double>> by_trying(const pair_need<double>& need) {
    std::vector<pair_candidate<double>> all;
    for (int h = 0; h < need.helix.count; ++h) {
        for (const double m : need.modules) {
            for (int z1 = need.pinion_teeth.least; z1 <= need.pinion_teeth.greatest; ++z1) {
                for (int z2 = need.wheel_teeth.least; z2 <= need.wheel_teeth.greatest; ++z2) {
                    const pair_proportions<double> p{.normal_module = m,
                                                     .pinion_teeth = z1,
                                                     .wheel_teeth = z2,
                                                     .helix_angle = need.helix.at(h),
                                                     .normal_pressure_angle = need.normal_pressure_angle,
                                                     .wheel_kind = need.wheel_kind};
                    if (check(p) || !need.ratio.contains(static_cast<double>(z2) / z1)) continue;
                    const double a = std::clamp(reference_centre_distance(p), need.centre_distance.least, need.centre_distance.greatest);
                    if (check_centre_distance(p, a)) continue;
                    const double sum = profile_shift_sum(p, a);
                    if (!need.profile_shift_sum.contains(sum)) continue;
                    all.push_back({m, z1, z2, need.helix.at(h), a, sum});
                }
            }
        }
    }
    return all;
}

void check_against_trying(const pair_need<double>& need, std::size_t at_least) {
    const std::vector<pair_candidate<double>> expected = by_trying(need);
    REQUIRE(expected.size() >= at_least);
    std::size_t i = 0;
    for (const pair_candidate<double>& found : pair_search(need)) {
        REQUIRE(i < expected.size());
        CHECK(key_of(found) == key_of(expected[i]));
        CHECK(found.centre_distance == doctest::Approx(expected[i].centre_distance).epsilon(1e-14));
        // Differences of involute functions: 24 ulp of a tenth of the teeth, from either side.
        CHECK(std::fabs(found.profile_shift_sum - expected[i].profile_shift_sum) <=
              48 * 0x1p-52 * (found.pinion_teeth + found.wheel_teeth));
        ++i;
    }
    CHECK(i == expected.size());
}

} // namespace

TEST_CASE("the search finds the pairs that trying every one finds, in the same order") {
    SUBCASE("for one centre distance") { check_against_trying(need_of_92_millimetres(), 4); }
    SUBCASE("for a range of centre distances and helix angles") {
        pair_need<double> need = need_of_92_millimetres();
        need.centre_distance = {80, 100};
        need.ratio = {2, 2.5};
        need.helix = {.least = 0_deg, .greatest = 25_deg, .count = 6};
        need.profile_shift_sum = {-0.3, 0.9};
        check_against_trying(need, 500);
    }
    SUBCASE("for diametral pitches, in inches") {
        static constexpr auto modules = modules_of(preferred_coarse_diametral_pitches<double>);
        pair_need<double> need{.ratio = {1, 8}, .centre_distance = {3.5, 3.75}, .modules = modules};
        need.pinion_teeth = {10, 40};
        need.wheel_teeth = {10, 90};
        check_against_trying(need, 100);
    }
    SUBCASE("for an internal wheel") {
        pair_need<double> need{.ratio = {2, 6}, .centre_distance = {40, 41}, .modules = iso_54_both_series<double>};
        need.pinion_teeth = {14, 60};
        need.wheel_teeth = {30, 160};
        need.wheel_kind = gear_kind::internal;
        need.profile_shift_sum = {-0.8, 0.8};
        check_against_trying(need, 100);
    }
    SUBCASE("for a ratio below 1, and where limits cut into the ratio's range") {
        pair_need<double> need{.ratio = {0.4, 0.9}, .centre_distance = {60, 75}, .modules = iso_54_series_2<double>};
        need.pinion_teeth = {25, 60};
        need.wheel_teeth = {17, 33};
        check_against_trying(need, 20);
    }
}

TEST_CASE("the grain mill's 15 and 46 teeth of module 3 are among the pairs for 3.07 at 92 mm") {
    bool found = false;
    for (const pair_candidate<double>& c : pair_search(need_of_92_millimetres())) {
        if (c.normal_module != 3 || c.pinion_teeth != 15 || c.wheel_teeth != 46) continue;
        found = true;
        CHECK(c.has_hunting_teeth());
        CHECK(c.gear_ratio() == doctest::Approx(46.0 / 15));
        const mesh<double> pair{gear<double>{{.normal_module = 3, .teeth = 15, .profile_shift = c.profile_shift_sum}},
                                gear<double>{{.normal_module = 3, .teeth = 46}}};
        CHECK(pair.centre_distance() == doctest::Approx(92).epsilon(1e-14));
    }
    CHECK(found);
}

TEST_CASE("the best few are those that sorting the whole list puts first, and no more are kept") {
    pair_need<double> need = need_of_92_millimetres();
    need.centre_distance = {85, 95};
    need.ratio = {2, 4};
    const auto module = [](const pair_candidate<double>& c) { return -c.normal_module; };
    const auto shift = [](const pair_candidate<double>& c) { return std::fabs(c.profile_shift_sum); };
    std::vector<pair_candidate<double>> all;
    for (const auto& c : pair_search(need)) all.push_back(c);
    REQUIRE(all.size() > 200);
    std::stable_sort(all.begin(), all.end(),
                     [&](const auto& a, const auto& b) { return std::tuple(module(a), shift(a)) < std::tuple(module(b), shift(b)); });
    for (const std::size_t count : {std::size_t{0}, std::size_t{1}, std::size_t{10}, all.size() + 5}) {
        const std::vector<pair_candidate<double>> best = best_of(pair_search(need), count, module, shift);
        REQUIRE(best.size() == std::min(count, all.size()));
        for (std::size_t i = 0; i < best.size(); ++i) CHECK(key_of(best[i]) == key_of(all[i]));
    }
}

TEST_CASE("a criterion that gives no number keeps nothing") {
    const auto none = [](const pair_candidate<double>&) { return std::nan(""); };
    CHECK(best_of(pair_search(need_of_92_millimetres()), 5, none).empty());
}

TEST_CASE("nothing is looked at before it is asked for") {
    const auto all = pair_search(need_of_92_millimetres());
    auto at = all.begin();
    const std::uint64_t first = at.progress().examined;
    CHECK(at.progress().found == 1);
    ++at;
    CHECK(at.progress().found == 2);
    CHECK(at.progress().examined > first);
    auto end = all.begin();
    while (end != all.end()) ++end;
    CHECK(end.progress().share == 1);
    CHECK(at.progress().examined < end.progress().examined);
    static_assert(std::input_iterator<decltype(at)>);
}

TEST_CASE("a search can be watched, and stops when it is told to") {
    pair_need<double> need = need_of_92_millimetres();
    need.ratio = {1, 6};
    std::uint64_t unwatched = 0;
    for (const auto& c : pair_search(need)) unwatched += static_cast<unsigned>(c.pinion_teeth);
    std::vector<search_progress> told;
    std::uint64_t watched = 0;
    const auto all = pair_search(need).watched_by(
        [&](const search_progress& p) {
            told.push_back(p);
            return true;
        },
        1000);
    for (const auto& c : all) watched += static_cast<unsigned>(c.pinion_teeth);
    CHECK(watched == unwatched); // watching changes nothing
    REQUIRE(told.size() > 20);
    for (std::size_t i = 0; i < told.size(); ++i) {
        CHECK(told[i].examined == 1000 * (i + 1));
        CHECK(told[i].share >= (i > 0 ? told[i - 1].share : 0));
        CHECK(told[i].share <= 1);
    }
    const auto impatient = pair_search(need).watched_by([](const search_progress& p) { return p.examined < 5000; }, 1000);
    auto at = impatient.begin();
    while (at != impatient.end()) ++at;
    CHECK(at.stopped());
    CHECK(at.progress().examined == 5000);
    CHECK(at.progress().share < 1);
}

TEST_CASE("a need that nothing can meet finds nothing; an impossible one is refused in a sentence") {
    pair_need<double> need = need_of_92_millimetres();
    need.ratio = ratio_within(std::acos(-1.0), 1e-9);
    for (const auto& c : pair_search(need)) FAIL_CHECK("found " << c.pinion_teeth << " and " << c.wheel_teeth << " teeth for pi");
    need = need_of_92_millimetres();
    need.ratio = {0, 1};
    CHECK_THROWS_AS(pair_search(need), geometry_error);
    need.ratio = {3, 2};
    CHECK_THROWS_AS(pair_search(need), geometry_error);
    need = need_of_92_millimetres();
    need.modules = {};
    CHECK_THROWS_AS(pair_search(need), geometry_error);
    need = need_of_92_millimetres();
    need.centre_distance = {92, 91};
    CHECK_THROWS_AS(pair_search(need), geometry_error);
    need = need_of_92_millimetres();
    need.pinion_teeth = {0, 20};
    CHECK_THROWS_AS(pair_search(need), geometry_error);
    need = need_of_92_millimetres();
    need.helix.count = 0;
    CHECK_THROWS_AS(pair_search(need), geometry_error);
    const std::array<double, 1> no_module{0};
    need = need_of_92_millimetres();
    need.modules = no_module;
    CHECK_THROWS_AS(pair_search(need), geometry_error);
}

TEST_CASE("the series of ISO 54 are told in order, each size once, and the diametral pitches become modules") {
    CHECK(std::is_sorted(iso_54_series_1<double>.begin(), iso_54_series_1<double>.end()));
    CHECK(std::is_sorted(iso_54_series_2<double>.begin(), iso_54_series_2<double>.end()));
    const auto& both = iso_54_both_series<double>;
    CHECK(std::adjacent_find(both.begin(), both.end(), [](double a, double b) { return a >= b; }) == both.end());
    for (std::size_t i = 0; i < 18; ++i) {
        CHECK(std::count(both.begin(), both.end(), iso_54_series_1<double>[i]) == 1);
        CHECK(std::count(both.begin(), both.end(), iso_54_series_2<double>[i]) == 1);
    }
    static_assert(modules_in_millimetres_of(preferred_coarse_diametral_pitches<double>).front() == 25.4);
    static_assert(modules_of(preferred_fine_diametral_pitches<double>).front() == 0.05);
}
