// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Solids and their files: the boundary, STEP and STL, from the gear's parameters to the last byte.
#include <rackwork/exchange/step.hpp>
#include <rackwork/exchange/stl.hpp>
#include <rackwork/solid/facets.hpp>
#include <rackwork/solid/gear_solid.hpp>

#include <benchmark/benchmark.h>

#include <cstddef>
#include <sstream>

namespace {

rackwork::gear<double> gear_with(int teeth, double helix) {
    return rackwork::gear<double>({.normal_module = 2,
                                   .teeth = teeth,
                                   .helix_angle = rackwork::deg(helix),
                                   .profile_shift = 0.1,
                                   .face_width = 20});
}

const rackwork::body_parameters body{.blank = {.bore_diameter = 20}, .key_slot = rackwork::metric_keyway(20)};

void solid_of_gear(benchmark::State& state) {
    std::size_t faces = 0;
    for (auto _ : state) {
        const auto solid =
            brep_of(gear_with(static_cast<int>(state.range(0)), static_cast<double>(state.range(1))), body);
        faces = solid.faces.size();
        benchmark::DoNotOptimize(faces);
    }
    state.counters["faces"] = static_cast<double>(faces);
}
BENCHMARK(solid_of_gear)->ArgsProduct({{60, 500}, {0, 20}})->Unit(benchmark::kMillisecond);

/// All of it: parameters in, file out. 60 teeth and a helix are to take less than 50 ms.
void step_of_gear(benchmark::State& state) {
    std::size_t bytes = 0;
    for (auto _ : state) {
        std::ostringstream out;
        write_step(out,
                   brep_of(gear_with(static_cast<int>(state.range(0)), static_cast<double>(state.range(1))), body));
        bytes = static_cast<std::size_t>(out.tellp());
        benchmark::DoNotOptimize(bytes);
    }
    state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK(step_of_gear)->ArgsProduct({{60, 500}, {0, 20}})->Unit(benchmark::kMillisecond);

void stl_of_gear(benchmark::State& state) {
    std::size_t bytes = 0;
    for (auto _ : state) {
        std::ostringstream out;
        write_stl(out,
                  facets_of(gear_with(static_cast<int>(state.range(0)), static_cast<double>(state.range(1))), body));
        bytes = static_cast<std::size_t>(out.tellp());
        benchmark::DoNotOptimize(bytes);
    }
    state.counters["facets"] = static_cast<double>(bytes - 84) / 50;
}
BENCHMARK(stl_of_gear)->ArgsProduct({{60, 500}, {0, 20}})->Unit(benchmark::kMillisecond);

} // namespace
