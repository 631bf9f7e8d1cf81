// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The array forms beside the single forms, called for one number after the other. Counter "of_single": time over that of the single
// form, both taken in turn; "differing": how many of the results are not the same bits. What the time can be depends on the vector
// registers that the compiler may use: this file is a program of its own, built with -O3 -march=x86-64-v3 -fno-math-errno, which gives
// four doubles in one register and leaves the square root to the processor.
#include <rackwork/batch/flank.hpp>
#include <rackwork/batch/involute.hpp>
#include <rackwork/batch/measures.hpp>

#include "in_turn.hpp"

#include <benchmark/benchmark.h>

#include <bit>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

namespace {

using rackwork::gear;
using rackwork::rad;

const std::vector<double>& angles() {
    static const std::vector<double> all = bench::in_no_order(0.0, std::numbers::pi / 3);
    return all;
}
std::vector<double> tangents() {
    std::vector<double> all;
    for (const double a : angles()) all.push_back(std::tan(a));
    return all;
}
std::vector<double> involutes() {
    std::vector<double> all(angles().size());
    rackwork::batch::inv(angles(), all);
    return all;
}
const gear<double>& a_gear() {
    static const gear<double> g{rackwork::gear_parameters<double>{.normal_module = 3, .teeth = 24, .profile_shift = 0.2}};
    return g;
}
const std::vector<double>& diameters() {
    static const std::vector<double> all = bench::in_no_order(a_gear().base_diameter(), a_gear().tip_diameter());
    return all;
}
const std::vector<double>& thicknesses() {
    static const double s = a_gear().normal_tooth_thickness();
    static const std::vector<double> all = bench::in_no_order(0.95 * s, s);
    return all;
}

/// Both write their results into arrays.
template <class Batch, class Single>
void compare(benchmark::State& state, const std::vector<double>& arguments, const Batch& batch, const Single& single) {
    std::vector<double> results(arguments.size());
    const auto all_at_once = [&] {
        batch(arguments, results);
        benchmark::DoNotOptimize(results.data());
        benchmark::ClobberMemory();
    };
    const auto one_by_one = [&] {
        for (std::size_t i = 0; i < arguments.size(); ++i) results[i] = single(arguments[i]);
        benchmark::DoNotOptimize(results.data());
        benchmark::ClobberMemory();
    };
    one_by_one();
    const std::vector<double> singles = results;
    all_at_once();
    double differing = 0;
    for (std::size_t i = 0; i < results.size(); ++i) {
        if (std::bit_cast<std::uint64_t>(results[i]) != std::bit_cast<std::uint64_t>(singles[i])) ++differing;
    }
    state.counters["differing"] = differing;
    for (auto _ : state) all_at_once();
    bench::count_each(state, arguments.size());
    bench::count_allocations(state, all_at_once, arguments.size());
    state.counters["of_single"] = bench::ratio_in_turn(all_at_once, one_by_one);
}

void inv_of_an_array(benchmark::State& state) {
    compare(state, angles(), [](const auto& a, auto& r) { rackwork::batch::inv(a, r); }, [](double a) { return inv(rad(a)); });
}
void inv_from_tangents_of_an_array(benchmark::State& state) {
    compare(
        state, tangents(), [](const auto& t, auto& r) { rackwork::batch::inv_from_tangent(t, r); },
        [](double t) { return rackwork::inv_from_tangent(t); });
}
void inverse_inv_of_an_array(benchmark::State& state) {
    compare(
        state, involutes(), [](const auto& y, auto& r) { rackwork::batch::inverse_inv(y, r); },
        [](double y) { return rackwork::inverse_inv(y).rad(); });
}
void thickness_at_an_array_of_diameters(benchmark::State& state) {
    compare(
        state, diameters(), [](const auto& d, auto& r) { rackwork::batch::tooth_thickness(a_gear(), d, r); },
        [](double d) { return a_gear().tooth_thickness(d); });
}
void flank_points_at_an_array_of_diameters(benchmark::State& state) {
    std::vector<double> y(diameters().size());
    compare(
        state, diameters(), [&](const auto& d, auto& x) { rackwork::batch::flank_points(a_gear(), d, x, y); },
        [](double d) {
            const double polar = a_gear().tooth_thickness(d) / d;
            double second = d / 2 * std::sin(polar);
            benchmark::DoNotOptimize(second);
            return d / 2 * std::cos(polar);
        });
}
/// One by one, a thickness takes a gear of its own, built beforehand here. Its thickness comes from its allowance, by a sum whose
/// rounding the array forms have not got: so some results differ.
void measures_of_an_array(benchmark::State& state, bool pins) {
    std::vector<gear<double>> gears;
    for (const double s : thicknesses()) {
        auto p = a_gear().parameters();
        p.thickness_allowance = s - a_gear().normal_tooth_thickness();
        gears.emplace_back(p);
    }
    const auto batch = [pins](const auto& s, auto& r) {
        if (pins) {
            rackwork::batch::dimension_over_pins(a_gear(), 5.25, s, r);
        } else {
            rackwork::batch::span_measurement(a_gear(), 3, s, r);
        }
    };
    std::size_t next = 0;
    compare(state, thicknesses(), batch, [&, pins](double) {
        const gear<double>& g = gears[next++ % gears.size()];
        return pins ? dimension_over_pins(g, 5.25) : span_measurement(g, 3);
    });
}
void spans_of_an_array_of_thicknesses(benchmark::State& state) { measures_of_an_array(state, false); }
void pins_of_an_array_of_thicknesses(benchmark::State& state) { measures_of_an_array(state, true); }

BENCHMARK(inv_of_an_array);
BENCHMARK(inv_from_tangents_of_an_array);
BENCHMARK(inverse_inv_of_an_array);
BENCHMARK(thickness_at_an_array_of_diameters);
BENCHMARK(flank_points_at_an_array_of_diameters);
BENCHMARK(spans_of_an_array_of_thicknesses);
BENCHMARK(pins_of_an_array_of_thicknesses);

} // namespace
