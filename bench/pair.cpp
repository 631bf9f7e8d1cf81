// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// One gear, one pair with all its results, an inspector's measures, beside the textbook's formulas (textbook.hpp). Counter "in_textbook": time
// over the textbook's, both taken in turn; "allocations": how often memory is asked for.
#include <rackwork/gear.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>
#include <rackwork/mesh.hpp>

#include "in_turn.hpp"
#include "textbook.hpp"

#include <benchmark/benchmark.h>

#include <array>
#include <utility>
#include <vector>

namespace {

using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;

using textbook::module_of_all;
constexpr int teeth_of_pinion = 20;
constexpr int teeth_of_wheel = 41;

/// Profile shifts that leave no undercut on either gear.
const std::vector<double>& shifts() {
    static const std::vector<double> all = bench::in_no_order(0.0, 0.6);
    return all;
}

// ---- the library

gear<double> gear_of(int teeth, double shift) {
    return gear{gear_parameters<double>{.normal_module = module_of_all, .teeth = teeth, .profile_shift = shift}};
}

std::array<double, 20> results_of(const mesh<double>& pair) {
    const auto working = pair.working_diameter();
    const auto form = pair.root_form_diameter();
    const auto active_tip = pair.active_tip_diameter();
    const auto active_root = pair.active_root_diameter();
    const auto clearance = pair.bottom_clearance();
    const auto angular = pair.angular_backlash();
    return {pair.working_pressure_angle().rad(),
            pair.centre_distance(),
            working.pinion,
            working.wheel,
            form.pinion,
            form.wheel,
            active_tip.pinion,
            active_tip.wheel,
            active_root.pinion,
            active_root.wheel,
            pair.length_of_path_of_contact(),
            pair.transverse_contact_ratio(),
            clearance.pinion,
            clearance.wheel,
            pair.circumferential_backlash(),
            pair.normal_backlash(),
            pair.radial_backlash(),
            angular.pinion.rad(),
            angular.wheel.rad(),
            pair.gear_ratio()};
}

constexpr auto textbook_gear = [](double shift) { return textbook::gear_of(teeth_of_pinion, shift); };
constexpr auto textbook_pair = [](double shift) {
    return textbook::pair_of(textbook::gear_of(teeth_of_pinion, shift), textbook::gear_of(teeth_of_wheel, 0.5 - shift));
};

void gear_of_the_textbook(benchmark::State& state) {
    bench::measure(state, shifts(), textbook_gear, shifts(), textbook_gear, "in_textbook");
}
void gear_built(benchmark::State& state) {
    bench::measure(state, shifts(), [](double shift) { return gear_of(teeth_of_pinion, shift); }, shifts(), textbook_gear, "in_textbook");
}
void gear_built_helical(benchmark::State& state) {
    bench::measure(
        state, shifts(),
        [](double shift) {
            return gear{gear_parameters<double>{
                .normal_module = module_of_all, .teeth = teeth_of_pinion, .helix_angle = rackwork::deg(20.0), .profile_shift = shift}};
        },
        shifts(), textbook_gear, "in_textbook");
}
/// With the sizes that the textbook's gear has.
void gear_with_sizes(benchmark::State& state) {
    bench::measure(
        state, shifts(),
        [](double shift) {
            const gear<double> g = gear_of(teeth_of_pinion, shift);
            return std::array{g.tip_diameter(), g.root_diameter(), g.transverse_tooth_thickness(), g.tip_thickness()};
        },
        shifts(), textbook_gear, "in_textbook");
}
BENCHMARK(gear_of_the_textbook);
BENCHMARK(gear_built);
BENCHMARK(gear_built_helical);
BENCHMARK(gear_with_sizes);

void pair_of_the_textbook(benchmark::State& state) {
    bench::measure(state, shifts(), textbook_pair, shifts(), textbook_pair, "in_textbook");
}
/// Two gears and their mesh, backlash-free, and twenty results.
void pair_with_all_results(benchmark::State& state) {
    bench::measure(
        state, shifts(),
        [](double shift) { return results_of(mesh{gear_of(teeth_of_pinion, shift), gear_of(teeth_of_wheel, 0.5 - shift)}); }, shifts(),
        textbook_pair, "in_textbook");
}
/// The mesh alone, of gears that are there already: what a search over gears that repeat pays for each pair.
void mesh_of_two_gears(benchmark::State& state) {
    std::vector<std::pair<gear<double>, gear<double>>> gears;
    for (const double shift : shifts()) gears.emplace_back(gear_of(teeth_of_pinion, shift), gear_of(teeth_of_wheel, 0.5 - shift));
    bench::measure(state, gears, [](const auto& both) { return mesh{both.first, both.second}; }, shifts(), textbook_pair, "in_textbook");
}
void results_of_a_mesh(benchmark::State& state) {
    std::vector<mesh<double>> pairs;
    for (const double shift : shifts()) pairs.emplace_back(gear_of(teeth_of_pinion, shift), gear_of(teeth_of_wheel, 0.5 - shift));
    bench::measure(state, pairs, [](const mesh<double>& pair) { return results_of(pair); }, shifts(), textbook_pair, "in_textbook");
}
/// With an undercut pinion, whose form diameter has to be searched for.
void pair_with_undercut(benchmark::State& state) {
    bench::measure(
        state, shifts(),
        [](double shift) { return results_of(mesh{gear_of(12, 0.1 * shift), gear_of(teeth_of_wheel, 0.5 - shift)}); }, shifts(),
        textbook_pair, "in_textbook");
}
BENCHMARK(pair_of_the_textbook);
BENCHMARK(pair_with_all_results);
BENCHMARK(mesh_of_two_gears);
BENCHMARK(results_of_a_mesh);
BENCHMARK(pair_with_undercut);

/// The same for more and more teeth: the cost is the same.
void pair_by_teeth(benchmark::State& state) {
    const int teeth = static_cast<int>(state.range(0));
    bench::measure(
        state, shifts(), [teeth](double shift) { return results_of(mesh{gear_of(teeth, shift), gear_of(2 * teeth + 1, 0.5 - shift)}); },
        shifts(), textbook_pair, "in_textbook");
}
BENCHMARK(pair_by_teeth)->Arg(20)->Arg(200)->Arg(2000);

// ---- what an inspector needs

const std::vector<gear<double>>& pinions() {
    static const std::vector<gear<double>> all = [] {
        std::vector<gear<double>> list;
        for (const double shift : shifts()) list.push_back(gear_of(teeth_of_pinion, shift));
        return list;
    }();
    return all;
}
const std::vector<textbook::gear_sizes>& textbook_pinions() {
    static const std::vector<textbook::gear_sizes> all = [] {
        std::vector<textbook::gear_sizes> list;
        for (const double shift : shifts()) list.push_back(textbook::gear_of(teeth_of_pinion, shift));
        return list;
    }();
    return all;
}

void span_of_a_gear(benchmark::State& state) {
    bench::measure(state, pinions(), [](const gear<double>& g) { return span_measurement(g, 3); }, textbook_pinions(),
                   [](const textbook::gear_sizes& g) { return textbook::span(g, 3); }, "in_textbook");
}
void dimension_over_pins_of_a_gear(benchmark::State& state) {
    bench::measure(state, pinions(), [](const gear<double>& g) { return dimension_over_pins(g, 5.25); }, textbook_pinions(),
                   [](const textbook::gear_sizes& g) { return textbook::over_pins(g, 5.25); }, "in_textbook");
}
BENCHMARK(span_of_a_gear);
BENCHMARK(dimension_over_pins_of_a_gear);

} // namespace
