// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A search as an analysis program would run it: ten million combinations of two tooth numbers and two profile shifts, of which the one with the
// greatest contact ratio is wanted that fits a centre distance and has no pointed teeth and enough clearance. The gears, some seven thousand,
// are made once; every combination is a mesh of its own. Beside it the same search by the textbook's formulas (textbook.hpp), which do not see
// that a tooth is undercut. Counter "each": time for one combination; "in_textbook": time over that of the textbook's search.
#include <rackwork/mesh.hpp>

#include "in_turn.hpp"
#include "textbook.hpp"

#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <ctime>
#include <vector>

namespace {

constexpr int least_pinion = 15;
constexpr int pinions = 20;
constexpr int least_wheel = 50;
constexpr int wheels = 50;
constexpr int shifts = 100;
constexpr long combinations = static_cast<long>(pinions) * wheels * shifts * shifts;
static_assert(combinations == 10'000'000);

constexpr double wanted_distance = 120;
constexpr double greatest_deviation = 0.5;
constexpr double least_tip_thickness = 0.2 * textbook::module_of_all;
constexpr double least_clearance = 0.2 * textbook::module_of_all;

double shift_of(int i) { return -0.3 + i * 0.011; }

struct best_pair {
    double contact_ratio = 0;
    std::array<double, 4> numbers{};
    long fitting = 0;

    void take(double ratio, int z1, int z2, double x1, double x2) {
        ++fitting;
        if (ratio > contact_ratio) {
            contact_ratio = ratio;
            numbers = {static_cast<double>(z1), static_cast<double>(z2), x1, x2};
        }
    }
};

/// Every gear that the search asks for, by tooth number and shift.
template <class Gear, class Make>
std::vector<std::vector<Gear>> all_gears(int least_teeth, int count, const Make& make) {
    std::vector<std::vector<Gear>> all;
    for (int z = least_teeth; z < least_teeth + count; ++z) {
        all.emplace_back();
        for (int i = 0; i < shifts; ++i) all.back().push_back(make(z, shift_of(i)));
    }
    return all;
}

best_pair search_with_library() {
    using gear = rackwork::gear<double>;
    const auto make = [](int z, double x) {
        return gear{rackwork::gear_parameters<double>{.normal_module = textbook::module_of_all, .teeth = z, .profile_shift = x}};
    };
    const auto small = all_gears<gear>(least_pinion, pinions, make);
    const auto large = all_gears<gear>(least_wheel, wheels, make);
    best_pair best;
    for (const auto& of_one_number : small) {
        for (const gear& pinion : of_one_number) {
            const bool pointed = pinion.tip_thickness() < least_tip_thickness;
            for (const auto& of_another : large) {
                for (const gear& wheel : of_another) {
                    const rackwork::mesh<double> pair{pinion, wheel};
                    if (pointed || std::fabs(pair.centre_distance() - wanted_distance) > greatest_deviation) continue;
                    const auto clearance = pair.bottom_clearance();
                    if (clearance.pinion < least_clearance || clearance.wheel < least_clearance) continue;
                    best.take(pair.transverse_contact_ratio(), pinion.teeth(), wheel.teeth(), pinion.profile_shift(), wheel.profile_shift());
                }
            }
        }
    }
    return best;
}

best_pair search_with_textbook() {
    using textbook::gear_sizes;
    const auto make = [](int z, double x) { return textbook::gear_of(z, x); };
    const auto small = all_gears<gear_sizes>(least_pinion, pinions, make);
    const auto large = all_gears<gear_sizes>(least_wheel, wheels, make);
    best_pair best;
    for (const auto& of_one_number : small) {
        for (const gear_sizes& pinion : of_one_number) {
            const bool pointed = pinion.tip_thickness < least_tip_thickness;
            for (const auto& of_another : large) {
                for (const gear_sizes& wheel : of_another) {
                    const auto pair = textbook::pair_of(pinion, wheel);
                    if (pointed || std::fabs(pair[1] - wanted_distance) > greatest_deviation) continue;
                    if (pair[12] < least_clearance || pair[13] < least_clearance) continue;
                    best.take(pair[11], static_cast<int>(pinion.teeth), static_cast<int>(wheel.teeth), pinion.shift, wheel.shift);
                }
            }
        }
    }
    return best;
}

/// Both searches are too long to be taken in turn, so other programs must not count.
template <class Pass>
double processor_seconds(const Pass& pass) {
    const std::clock_t begin = std::clock();
    pass();
    return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
}

void search_over_ten_million_pairs(benchmark::State& state) {
    best_pair best;
    double time = 0;
    long allocations = 0;
    for (auto _ : state) {
        const long before = bench::allocations_so_far();
        time += processor_seconds([&] { best = search_with_library(); });
        allocations = bench::allocations_so_far() - before;
    }
    bench::count_each(state, static_cast<std::size_t>(combinations));
    best_pair other;
    const double of_textbook = processor_seconds([&] { other = search_with_textbook(); });
    benchmark::DoNotOptimize(other);
    state.counters["in_textbook"] = time / static_cast<double>(state.iterations()) / of_textbook;
    state.counters["allocations"] = static_cast<double>(allocations) / static_cast<double>(combinations);
    state.counters["fitting"] = static_cast<double>(best.fitting);
    state.counters["contact_ratio"] = best.contact_ratio;
}
BENCHMARK(search_over_ten_million_pairs)->Iterations(1)->Unit(benchmark::kMillisecond);

} // namespace
