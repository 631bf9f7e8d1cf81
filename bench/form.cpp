// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The tooth form: exact segments of one tooth and of the whole gear, its area and second moment, and polylines, by number of teeth and by
// tolerance. Beside them the same polyline through a general library: the textbook's tooth, its fillet and flank as functions of a parameter,
// their meeting point by Boost.Math's Newton iteration, and as many equal steps as it takes until Boost.Math's minimiser finds no chord
// further from its curve than the tolerance; its lands stay straight. Counter "in_textbook": time over that; "allocations": how often memory is
// asked for.
#include <rackwork/curve/polyline.hpp>
#include <rackwork/form/outline.hpp>
#include <rackwork/form/section.hpp>

#include "in_turn.hpp"
#include "textbook.hpp"

#include <benchmark/benchmark.h>
#include <boost/math/tools/minima.hpp>

#include <cmath>
#include <complex>
#include <cstddef>
#include <vector>

namespace {

using rackwork::gear;

gear<double> gear_with(int teeth) {
    return gear<double>({.normal_module = textbook::module_of_all, .teeth = teeth, .profile_shift = 0.2});
}
double tolerance_of(const benchmark::State& state) { return std::pow(10., -static_cast<double>(state.range(1))); }

// ---- the textbook's tooth

using point = std::complex<double>;


/// A whole gear's outline, tooth by tooth, none of which is undercut.
class sampled_outline {
public:
    sampled_outline(int teeth, double shift)
        : g_(textbook::gear_of(teeth, shift)), r_(g_.reference / 2), rounding_(0.38 * textbook::module_of_all),
          centre_depth_(textbook::module_of_all * (1.25 - shift) - rounding_),
          centre_side_(textbook::module_of_all * (textbook::pi / 4 - 1.25 * std::tan(textbook::pressure_angle)) -
                       rounding_ * (1 - std::sin(textbook::pressure_angle)) / std::cos(textbook::pressure_angle)) {}

    /// Points of all teeth, no chord further from its curve than the tolerance.
    std::vector<point> points(double tolerance) const {
        const double base = g_.base / 2;
        const double half = g_.thickness / g_.reference + textbook::inv(textbook::pressure_angle);
        const auto flank = [&](double t) { return base * point(1, -t) * std::polar(1.0, t - half); };
        const double last = std::sqrt(g_.tip * g_.tip - g_.base * g_.base) / g_.base;
        // The fillet ends where the rounding passes into the straight flank; there the involute begins.
        const double end = textbook::pi / 2 - textbook::pressure_angle;
        const double first = start_of_flank(base);
        const auto fillet = [&](double phi) { return fillet_point(phi); };
        std::vector<point> side;
        append(side, fillet, 0, end, tolerance);
        append(side, flank, first, last, tolerance);
        std::vector<point> all;
        const int teeth = static_cast<int>(g_.teeth);
        all.reserve(2 * side.size() * static_cast<std::size_t>(teeth));
        for (int k = 0; k < teeth; ++k) {
            const point turn = std::polar(1.0, 2 * textbook::pi * k / teeth);
            for (const point& p : side) all.push_back(p * turn);
            for (std::size_t n = side.size(); n-- > 0;) all.push_back(std::conj(side[n]) * turn);
        }
        return all;
    }

private:
    /// The rolling tool's rounding cuts where its normal goes through the pitch point; phi is the angle from its deepest point.
    point fillet_point(double phi) const {
        const double depth = centre_depth_ + rounding_ * std::cos(phi);
        const double ahead = depth * std::tan(phi);
        const double roll = (centre_side_ + rounding_ * std::sin(phi) - ahead) / r_;
        return point(r_ - depth, ahead) * std::polar(1.0, roll - textbook::pi / g_.teeth);
    }
    /// Roll angle at which the involute meets the fillet's end.
    double start_of_flank(double base) const {
        const double radius = textbook::root_form_diameter(g_) / 2;
        const auto distance = [&](double t) { return std::make_pair(base * std::sqrt(1 + t * t) - radius, base * t / std::sqrt(1 + t * t)); };
        std::uintmax_t steps = 50;
        return boost::math::tools::newton_raphson_iterate(distance, 0.3, 0.0, 2.0, 50, steps);
    }
    template <class Curve>
    static double deviation(const Curve& curve, double from, double to) {
        const point start = curve(from);
        const point chord = curve(to) - start;
        const double length = std::abs(chord);
        const auto nearness = [&](double t) { return -std::fabs(std::imag((curve(t) - start) * std::conj(chord))) / length; };
        return -boost::math::tools::brent_find_minima(nearness, from, to, 26).second;
    }
    template <class Curve>
    static void append(std::vector<point>& points, const Curve& curve, double from, double to, double tolerance) {
        for (int steps = 1;; ++steps) {
            const double step = (to - from) / steps;
            double worst = 0;
            for (int k = 0; k < steps && worst <= tolerance; ++k) {
                worst = std::max(worst, deviation(curve, from + k * step, from + (k + 1) * step));
            }
            if (worst > tolerance) continue;
            for (int k = 0; k <= steps; ++k) points.push_back(curve(from + k * step));
            return;
        }
    }

    textbook::gear_sizes g_;
    double r_;
    double rounding_;
    double centre_depth_;
    double centre_side_;
};

// ---- the library

void exact_segments_of_one_tooth(benchmark::State& state) {
    const auto g = gear_with(40);
    const auto one_tooth = [&] {
        std::vector<rackwork::segment<double>> tooth;
        tooth.reserve(8);
        rackwork::tooth_form<double>(g).append_tooth(tooth, 0);
        benchmark::DoNotOptimize(tooth);
    };
    for (auto _ : state) one_tooth();
    bench::count_allocations(state, one_tooth, 1);
}
void exact_outline(benchmark::State& state) {
    const auto g = gear_with(static_cast<int>(state.range(0)));
    const auto whole = [&] {
        auto outline = rackwork::outline_of(g);
        benchmark::DoNotOptimize(outline);
    };
    for (auto _ : state) whole();
    bench::count_allocations(state, whole, 1);
}
void area_and_second_moment(benchmark::State& state) {
    const auto g = gear_with(static_cast<int>(state.range(0)));
    const auto moments = [&] {
        auto section = rackwork::transverse_section(g);
        benchmark::DoNotOptimize(section);
    };
    for (auto _ : state) moments();
    bench::count_allocations(state, moments, 1);
}
BENCHMARK(exact_segments_of_one_tooth);
BENCHMARK(exact_outline)->Arg(20)->Arg(200);
BENCHMARK(area_and_second_moment)->Arg(20)->Arg(200);

/// From the gear to the points.
void polyline_within(benchmark::State& state) {
    const int teeth = static_cast<int>(state.range(0));
    const auto g = gear_with(teeth);
    const double tolerance = tolerance_of(state);
    std::size_t points = 0;
    const auto ours = [&] { points = rackwork::polyline_of(rackwork::outline_of(g), tolerance).points.size(); };
    std::size_t points_of_textbook = 0;
    const sampled_outline sampled(teeth, 0.2);
    const auto theirs = [&] { points_of_textbook = sampled.points(tolerance).size(); };
    for (auto _ : state) ours();
    state.counters["in_textbook"] = bench::ratio_in_turn(ours, theirs, 20);
    bench::count_allocations(state, ours, 1);
    state.counters["points"] = static_cast<double>(points);
    state.counters["points_of_textbook"] = static_cast<double>(points_of_textbook);
}
BENCHMARK(polyline_within)->ArgsProduct({{20, 200}, {2, 3, 4, 5}})->Unit(benchmark::kMicrosecond);

} // namespace
