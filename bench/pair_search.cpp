// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How many candidates a search looks at in a second, beside the loop that a user would write with the functions for one pair.
#include <rackwork/centre_distance.hpp>
#include <rackwork/design/pair_search.hpp>
#include <rackwork/design/preferred_sizes.hpp>
#include <rackwork/design/train_search.hpp>

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace {

using namespace rackwork;

/// Every candidate has a ratio in the range and must be told from its sum of shifts: none is passed over unlooked.
pair_need<double> wide_need() {
    return {.ratio = {2.5, 4},
            .centre_distance = {92, 92},
            .modules = iso_54_series_1<double>,
            .pinion_teeth = {12, 60},
            .wheel_teeth = {30, 240},
            .helix = {.least = deg(0.), .greatest = deg(30.), .count = 31}};
}

template <class Search>
void examine(benchmark::State& state, const Search& all) {
    std::uint64_t examined = 0;
    for (auto _ : state) {
        auto at = all.begin();
        for (; at != all.end(); ++at) benchmark::DoNotOptimize(*at);
        examined += at.progress().examined;
        state.counters["found"] = static_cast<double>(at.progress().found);
    }
    state.counters["candidates"] = benchmark::Counter(static_cast<double>(examined), benchmark::Counter::kIsRate);
}

void all_pairs(benchmark::State& state) { examine(state, pair_search(wide_need())); }
BENCHMARK(all_pairs);

/// Every candidate is handed over, each at its reference centre distance.
void all_pairs_fit(benchmark::State& state) {
    pair_need<double> need = wide_need();
    need.centre_distance = {1, 10000};
    examine(state, pair_search(need));
}
BENCHMARK(all_pairs_fit);

/// Every candidate needs its working pressure angle and is handed over: the longest way through the search.
void all_pairs_shifted(benchmark::State& state) {
    pair_need<double> need = wide_need();
    need.centre_distance = {10000, 10000}; // wider than any reference centre distance
    need.profile_shift_sum = {-1e9, 1e9};
    examine(state, pair_search(need));
}
BENCHMARK(all_pairs_shifted);

void best_ten_pairs(benchmark::State& state) {
    std::uint64_t examined = 0;
    const auto counted = pair_search(wide_need())
                             .watched_by(
                                 [&](const search_progress& p) {
                                     examined = std::max(examined, p.examined);
                                     return true;
                                 },
                                 1000);
    std::uint64_t all = 0;
    for (auto _ : state) {
        examined = 0;
        auto best = best_of(
            counted, 10, [](const pair_candidate<double>& c) { return -c.normal_module; },
            [](const pair_candidate<double>& c) { return std::fabs(c.profile_shift_sum); });
        benchmark::DoNotOptimize(best);
        all += examined;
    }
    state.counters["candidates"] = benchmark::Counter(static_cast<double>(all), benchmark::Counter::kIsRate);
}
BENCHMARK(best_ten_pairs);

void trains_of_two_stages(benchmark::State& state) {
    two_stage_need<double> need{.ratio = ratio_within(11.3, 0.01)};
    need.first = {.ratio = {2.5, 4.5}, .centre_distance = {60, 64}, .modules = iso_54_series_1<double>};
    need.first.pinion_teeth = {17, 30};
    need.second = need.first;
    need.second.centre_distance = {80, 84};
    examine(state, two_stage_search(need));
}
BENCHMARK(trains_of_two_stages);

void planetary_trains(benchmark::State& state) {
    planetary_need<double> need{.ratio = {3, 9}, .centre_distance = {60, 64}, .modules = iso_54_series_1<double>};
    need.planets = {3, 6};
    need.tooth_difference = {-3, 3};
    examine(state, planetary_search(need));
}
BENCHMARK(planetary_trains);

/// What a user would write instead.
void loops_over_single_pairs(benchmark::State& state) {
    const pair_need<double> need = wide_need();
    std::uint64_t examined = 0;
    for (auto _ : state) {
        std::uint64_t found = 0;
        for (int h = 0; h < need.helix.count; ++h) {
            for (const double m : need.modules) {
                for (int z1 = need.pinion_teeth.least; z1 <= need.pinion_teeth.greatest; ++z1) {
                    for (int z2 = need.wheel_teeth.least; z2 <= need.wheel_teeth.greatest; ++z2) {
                        if (!need.ratio.contains(static_cast<double>(z2) / z1)) continue;
                        ++examined;
                        const pair_proportions<double> p{
                            .normal_module = m, .pinion_teeth = z1, .wheel_teeth = z2, .helix_angle = need.helix.at(h)};
                        if (check_centre_distance(p, 92.0)) continue;
                        if (need.profile_shift_sum.contains(profile_shift_sum(p, 92.0))) ++found;
                    }
                }
            }
        }
        state.counters["found"] = static_cast<double>(found);
    }
    state.counters["candidates"] = benchmark::Counter(static_cast<double>(examined), benchmark::Counter::kIsRate);
}
BENCHMARK(loops_over_single_pairs);

} // namespace
