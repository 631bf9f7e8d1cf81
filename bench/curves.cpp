// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Outlines as curves for CAD and CAM, beside what one would write with a general library: sample the flank, lay a cubic spline through the
// points, and take more points until a finer sample no longer strays from it.
#include <rackwork/curve/biarc.hpp>
#include <rackwork/curve/bspline.hpp>
#include <rackwork/curve/offset.hpp>
#include <rackwork/curve/one_sided_polyline.hpp>
#include <rackwork/curve/polyline.hpp>

#include <benchmark/benchmark.h>
#include <boost/math/interpolators/cardinal_cubic_b_spline.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <variant>
#include <vector>

namespace {

rackwork::gear<double> gear_with(int teeth) {
    return rackwork::gear<double>({.normal_module = 2, .teeth = teeth, .profile_shift = 0.1});
}

double tolerance_of(const benchmark::State& state) { return std::pow(10., -static_cast<double>(state.range(1))); }

std::size_t control_points(const rackwork::bspline_path<double>& path) {
    std::size_t count = 0;
    for (const auto& c : path.curves) {
        if (const auto* b = std::get_if<rackwork::bspline<double>>(&c)) count += b->control_points.size();
    }
    return count;
}

void bspline_outline(benchmark::State& state) {
    const auto outline = rackwork::outline_of(gear_with(static_cast<int>(state.range(0))));
    rackwork::bspline_path<double> path;
    for (auto _ : state) {
        path = rackwork::bsplines_of(outline, tolerance_of(state), {.degree = 5, .arcs = rackwork::arc_form::arc});
        benchmark::DoNotOptimize(path);
    }
    state.counters["points_per_tooth"] = static_cast<double>(control_points(path)) / static_cast<double>(state.range(0));
    state.counters["deviation"] = path.deviation;
}
BENCHMARK(bspline_outline)->ArgsProduct({{50, 500}, {3, 5, 7}})->Unit(benchmark::kMicrosecond);

/// One segment the general way. Its deviation is not proved, only looked at between the points, at the same parameters.
std::size_t sampled_spline_points(const rackwork::segment<double>& s, double tolerance) {
    const auto at = [&](double share) { return s.position(s.from + (s.to - s.from) * share); };
    for (std::size_t count = 8;; count += count / 2) {
        std::vector<double> x;
        std::vector<double> y;
        for (std::size_t i = 0; i <= count; ++i) {
            const auto p = at(static_cast<double>(i) / static_cast<double>(count));
            x.push_back(p.x);
            y.push_back(p.y);
        }
        const double step = 1 / static_cast<double>(count);
        const boost::math::interpolators::cardinal_cubic_b_spline<double> spline_x(x.begin(), x.end(), 0, step);
        const boost::math::interpolators::cardinal_cubic_b_spline<double> spline_y(y.begin(), y.end(), 0, step);
        double worst = 0;
        for (std::size_t i = 0; i < 4 * count; ++i) {
            const double share = (static_cast<double>(i) + 0.5) / static_cast<double>(4 * count);
            const auto p = at(share);
            worst = std::max(worst, std::hypot(spline_x(share) - p.x, spline_y(share) - p.y));
        }
        if (worst <= tolerance) return count + 1;
    }
}

void sampled_spline_outline(benchmark::State& state) {
    const auto outline = rackwork::outline_of(gear_with(static_cast<int>(state.range(0))));
    std::size_t points = 0;
    for (auto _ : state) {
        points = 0;
        for (const auto& s : outline.segments) {
            if (!std::holds_alternative<rackwork::circle<double>>(s.curve)) points += sampled_spline_points(s, tolerance_of(state));
        }
        benchmark::DoNotOptimize(points);
    }
    state.counters["points_per_tooth"] = static_cast<double>(points) / static_cast<double>(state.range(0));
}
BENCHMARK(sampled_spline_outline)->ArgsProduct({{50}, {3, 5, 7}})->Unit(benchmark::kMicrosecond);

void biarc_outline(benchmark::State& state) {
    const auto outline = rackwork::outline_of(gear_with(static_cast<int>(state.range(0))));
    rackwork::arc_path<double> path;
    for (auto _ : state) {
        path = rackwork::biarcs_of(outline, tolerance_of(state));
        benchmark::DoNotOptimize(path);
    }
    state.counters["arcs_per_tooth"] = static_cast<double>(path.arcs.size()) / static_cast<double>(state.range(0));
    state.counters["deviation"] = path.deviation;
}
BENCHMARK(biarc_outline)->ArgsProduct({{50, 500}, {3, 5}})->Unit(benchmark::kMicrosecond);

void polyline_outline(benchmark::State& state) {
    const auto outline = rackwork::outline_of(gear_with(static_cast<int>(state.range(0))));
    rackwork::polyline<double> path;
    for (auto _ : state) {
        path = rackwork::polyline_of(outline, tolerance_of(state));
        benchmark::DoNotOptimize(path);
    }
    state.counters["points_per_tooth"] = static_cast<double>(path.points.size()) / static_cast<double>(state.range(0));
}
BENCHMARK(polyline_outline)->ArgsProduct({{50, 500}, {3, 5}})->Unit(benchmark::kMicrosecond);

void one_sided_polyline_outline(benchmark::State& state) {
    const auto outline = rackwork::outline_of(gear_with(static_cast<int>(state.range(0))));
    for (auto _ : state) {
        auto path = rackwork::one_sided_polyline_of(outline, tolerance_of(state), rackwork::outline_side::material);
        benchmark::DoNotOptimize(path);
    }
}
BENCHMARK(one_sided_polyline_outline)->ArgsProduct({{50, 500}, {3, 5}})->Unit(benchmark::kMicrosecond);

void offset_outline_for_tool(benchmark::State& state) {
    const auto outline = rackwork::outline_of(gear_with(static_cast<int>(state.range(0))));
    // In tenths of a millimetre: 6 reaches the whole form of a gear of module 2, 12 leaves some of the roots.
    const double radius = 0.1 * static_cast<double>(state.range(1));
    for (auto _ : state) {
        auto parallel = rackwork::offset_of(outline, radius);
        benchmark::DoNotOptimize(parallel);
    }
}
BENCHMARK(offset_outline_for_tool)->ArgsProduct({{50, 500}, {6, 12}})->Unit(benchmark::kMicrosecond);

void largest_tool(benchmark::State& state) {
    const auto gear = gear_with(static_cast<int>(state.range(0)));
    for (auto _ : state) {
        double radius = rackwork::largest_tool_radius(gear);
        benchmark::DoNotOptimize(radius);
    }
}
BENCHMARK(largest_tool)->Arg(50)->Unit(benchmark::kMicrosecond);

} // namespace
