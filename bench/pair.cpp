// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// One gear, one pair with all its results, beside the textbook's formulas written straightforwardly, with Boost.Math's root finder for
// the working pressure angle. The textbook checks nothing, knows no undercut and takes the involute to begin where the
// basic rack's straight flank ends. Counter "in_textbook": time over the textbook's, both taken in turn.
#include <rackwork/gear.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>
#include <rackwork/mesh.hpp>

#include "in_turn.hpp"

#include <benchmark/benchmark.h>
#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <utility>
#include <vector>

namespace {

using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;

constexpr double pi = std::numbers::pi;
constexpr double module_of_all = 3;
constexpr double pressure_angle = 20 * pi / 180;
constexpr int teeth_of_pinion = 20;
constexpr int teeth_of_wheel = 41;

/// Profile shifts that leave no undercut on either gear.
const std::vector<double>& shifts() {
    static const std::vector<double> all = bench::in_no_order(0.0, 0.6);
    return all;
}

// ---- the textbook

namespace textbook {

double inv(double a) { return std::tan(a) - a; }

double inverse_inv(double y) {
    const auto f = [y](double a) {
        const double t = std::tan(a);
        return std::make_pair(t - a - y, t * t);
    };
    const double c = std::cbrt(3 * y);
    std::uintmax_t steps = 50;
    return boost::math::tools::newton_raphson_iterate(f, c - 2.0 / 15 * c * c * c, 0.0, pi / 2, std::numeric_limits<double>::digits,
                                                      steps);
}

struct gear_sizes {
    double teeth, shift;
    double reference, base, tip, root;
    double thickness, tip_thickness;
};

gear_sizes gear_of(double teeth, double shift) {
    gear_sizes g{};
    g.teeth = teeth;
    g.shift = shift;
    g.reference = teeth * module_of_all;
    g.base = g.reference * std::cos(pressure_angle);
    g.tip = g.reference + 2 * module_of_all * (1 + shift);
    g.root = g.reference - 2 * module_of_all * (1.25 - shift);
    g.thickness = module_of_all * (pi / 2 + 2 * shift * std::tan(pressure_angle));
    g.tip_thickness = g.tip * (g.thickness / g.reference + inv(pressure_angle) - inv(std::acos(g.base / g.tip)));
    return g;
}

/// Diameter down to which the rack's straight flank generates the involute.
double root_form_diameter(const gear_sizes& g) {
    const double depth = module_of_all * (1 - g.shift);
    const double up = g.base / 2 * std::tan(pressure_angle) - depth / std::sin(pressure_angle);
    return 2 * std::hypot(g.base / 2, up);
}

std::array<double, 20> pair_of(const gear_sizes& pinion, const gear_sizes& wheel) {
    const double sum = pinion.teeth + wheel.teeth;
    const double working = inverse_inv(inv(pressure_angle) + 2 * (pinion.shift + wheel.shift) * std::tan(pressure_angle) / sum);
    const double distance = module_of_all * sum / 2 * std::cos(pressure_angle) / std::cos(working);
    const double length = distance * std::sin(working);
    const auto roll = [](const gear_sizes& g, double d) { return std::sqrt(d * d - g.base * g.base) / 2; };
    const double form_of_pinion = root_form_diameter(pinion);
    const double form_of_wheel = root_form_diameter(wheel);
    const double end = std::min(roll(pinion, pinion.tip), length - roll(wheel, form_of_wheel));
    const double begin = std::max(length - roll(wheel, wheel.tip), roll(pinion, form_of_pinion));
    const double path = end - begin;
    const double working_of_pinion = 2 * distance * pinion.teeth / sum;
    const double working_of_wheel = 2 * distance * wheel.teeth / sum;
    const double backlash =
        2 * distance * (inv(working) - inv(pressure_angle) - 2 * (pinion.shift + wheel.shift) * std::tan(pressure_angle) / sum);
    return {working,
            distance,
            working_of_pinion,
            working_of_wheel,
            form_of_pinion,
            form_of_wheel,
            2 * std::hypot(pinion.base / 2, end),
            2 * std::hypot(wheel.base / 2, length - begin),
            2 * std::hypot(pinion.base / 2, begin),
            2 * std::hypot(wheel.base / 2, length - end),
            path,
            path / (pi * module_of_all * std::cos(pressure_angle)),
            distance - (pinion.tip + wheel.root) / 2,
            distance - (wheel.tip + pinion.root) / 2,
            backlash,
            backlash * std::cos(working),
            backlash / (2 * std::tan(working)),
            2 * backlash / working_of_pinion,
            2 * backlash / working_of_wheel,
            wheel.teeth / pinion.teeth};
}

} // namespace textbook

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

// ---- what an inspector needs

void span_of_a_gear(benchmark::State& state) {
    const gear<double> g = gear_of(teeth_of_pinion, 0.2);
    for (auto _ : state) {
        double w = span_measurement(g, 3);
        benchmark::DoNotOptimize(w);
    }
}
void dimension_over_pins_of_a_gear(benchmark::State& state) {
    const gear<double> g = gear_of(teeth_of_pinion, 0.2);
    for (auto _ : state) {
        double m = dimension_over_pins(g, 5.25);
        benchmark::DoNotOptimize(m);
    }
}
BENCHMARK(span_of_a_gear);
BENCHMARK(dimension_over_pins_of_a_gear);

} // namespace
