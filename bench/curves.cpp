// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Outlines as curves for CAD and CAM, beside what one would write with a general library: sample the flank, lay a cubic spline through the
// points, and take more points until a finer sample no longer strays from it. The library is Boost.Math and, where it is installed, the
// kernel Open CASCADE with its own two ways from points to a spline. These need not keep the tangents at the ends, ours do.
#include <rackwork/curve/biarc.hpp>
#include <rackwork/curve/bspline.hpp>
#include <rackwork/curve/offset.hpp>
#include <rackwork/curve/one_sided_polyline.hpp>
#include <rackwork/curve/outline_part.hpp>
#include <rackwork/curve/polyline.hpp>

#include <benchmark/benchmark.h>
#include <boost/math/interpolators/cardinal_cubic_b_spline.hpp>

#if RACKWORK_BENCH_OPEN_CASCADE
#include <GeomAPI_Interpolate.hxx>
#include <GeomAPI_PointsToBSpline.hxx>
#include <GeomAPI_ProjectPointOnCurve.hxx>
#include <Geom_BSplineCurve.hxx>
#include <TColgp_Array1OfPnt.hxx>
#include <TColgp_HArray1OfPnt.hxx>
#endif

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

/// Control points that a tooth's four curves, two flanks and two fillets, need at least to begin and end in the exact points and directions.
/// With three each is a parabola and nothing can be chosen any more: it strays 2 micrometres from this flank and 14 from this fillet.
constexpr double least_points_per_tooth = 4 * 4;

void count_points(benchmark::State& state, const rackwork::bspline_path<double>& path, double teeth) {
    state.counters["points_per_tooth"] = static_cast<double>(control_points(path)) / teeth;
    state.counters["least_possible_points"] = least_points_per_tooth;
    state.counters["deviation"] = path.deviation;
}

void bspline_curves(benchmark::State& state, const rackwork::outline<double>& outline, int degree, double teeth) {
    rackwork::bspline_path<double> path;
    for (auto _ : state) {
        path = rackwork::bsplines_of(outline, tolerance_of(state), {.degree = degree, .arcs = rackwork::arc_form::arc});
        benchmark::DoNotOptimize(path);
    }
    count_points(state, path, teeth);
}

void bspline_outline(benchmark::State& state) {
    const int teeth = static_cast<int>(state.range(0));
    bspline_curves(state, rackwork::outline_of(gear_with(teeth)), 5, teeth);
}
BENCHMARK(bspline_outline)->ArgsProduct({{50, 500}, {3, 5, 7}})->Unit(benchmark::kMicrosecond);

void bspline_outline_fewest_points(benchmark::State& state) {
    const int teeth = static_cast<int>(state.range(0));
    bspline_curves(state, rackwork::outline_of(gear_with(teeth)), rackwork::fewest_control_points, teeth);
}
BENCHMARK(bspline_outline_fewest_points)->ArgsProduct({{50, 500}, {3, 5, 7}})->Unit(benchmark::kMicrosecond);

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

/// One tooth, as a plug-in that copies it round the axis would ask for it.
void bspline_tooth(benchmark::State& state) {
    bspline_curves(state, rackwork::outline_of_tooth(gear_with(static_cast<int>(state.range(0)))), 5, 1);
}
BENCHMARK(bspline_tooth)->ArgsProduct({{50}, {3, 5, 7}})->Unit(benchmark::kMicrosecond);

void bspline_tooth_fewest_points(benchmark::State& state) {
    bspline_curves(state, rackwork::outline_of_tooth(gear_with(static_cast<int>(state.range(0)))), rackwork::fewest_control_points, 1);
}
BENCHMARK(bspline_tooth_fewest_points)->ArgsProduct({{50}, {3, 5, 7}})->Unit(benchmark::kMicrosecond);

#if RACKWORK_BENCH_OPEN_CASCADE

enum class from_points { interpolated, approximated };

/// The kernel's spline through points of a segment, or near them within the tolerance; null if it finds none.
Handle(Geom_BSplineCurve) kernel_spline(const rackwork::segment<double>& s, int count, from_points how, double tolerance) {
    const Handle(TColgp_HArray1OfPnt) points = new TColgp_HArray1OfPnt(1, count + 1);
    for (int i = 0; i <= count; ++i) {
        const auto p = s.position(i == count ? s.to : s.from + (s.to - s.from) * i / count);
        points->SetValue(i + 1, gp_Pnt(p.x, p.y, 0));
    }
    if (how == from_points::approximated) {
        // Half of the tolerance for the points, the rest for what lies between them; degrees and continuity are the kernel's own defaults.
        GeomAPI_PointsToBSpline spline(points->Array1(), 3, 8, GeomAbs_C2, tolerance / 2);
        return spline.IsDone() ? spline.Curve() : Handle(Geom_BSplineCurve)();
    }
    GeomAPI_Interpolate spline(points, false, 1e-12);
    spline.Perform();
    return spline.IsDone() ? spline.Curve() : Handle(Geom_BSplineCurve)();
}

/// Control points of a segment the kernel's way, from four intervals between points on: with fewer it would not be sure of what it looks at
/// between them. As above, the deviation is only looked at: at the middles between the points, which are
/// the kernel's nearest points and not those at the same parameter, because its parameters are its own.
std::size_t kernel_spline_points(const rackwork::segment<double>& s, double tolerance, from_points how) {
    for (int count = 4; count < 100000; count += count / 2) {
        const Handle(Geom_BSplineCurve) curve = kernel_spline(s, count, how, tolerance);
        if (curve.IsNull()) continue;
        double worst = 0;
        for (int i = 0; i < count && worst <= tolerance; ++i) {
            const auto p = s.position(s.from + (s.to - s.from) * (i + 0.5) / count);
            const GeomAPI_ProjectPointOnCurve nearest(gp_Pnt(p.x, p.y, 0), curve);
            worst = std::max(worst, nearest.NbPoints() > 0 ? nearest.LowerDistance() : 2 * tolerance);
        }
        if (worst <= tolerance) return static_cast<std::size_t>(curve->NbPoles());
    }
    return 0;
}

void kernel_outline(benchmark::State& state, const rackwork::outline<double>& outline, from_points how, int teeth) {
    std::size_t points = 0;
    for (auto _ : state) {
        points = 0;
        for (const auto& s : outline.segments) {
            if (std::holds_alternative<rackwork::circle<double>>(s.curve)) continue;
            const std::size_t of_segment = kernel_spline_points(s, tolerance_of(state), how);
            if (of_segment == 0) state.SkipWithError("the kernel finds no spline within the tolerance");
            points += of_segment;
        }
        benchmark::DoNotOptimize(points);
    }
    state.counters["points_per_tooth"] = static_cast<double>(points) / teeth;
}

/// The sampling, fitting and looking, all of it.
void kernel_interpolated_tooth(benchmark::State& state) {
    kernel_outline(state, rackwork::outline_of_tooth(gear_with(static_cast<int>(state.range(0)))), from_points::interpolated, 1);
}
BENCHMARK(kernel_interpolated_tooth)->ArgsProduct({{50}, {3, 5, 7}})->Unit(benchmark::kMicrosecond);

void kernel_approximated_tooth(benchmark::State& state) {
    kernel_outline(state, rackwork::outline_of_tooth(gear_with(static_cast<int>(state.range(0)))), from_points::approximated, 1);
}
BENCHMARK(kernel_approximated_tooth)->ArgsProduct({{50}, {3, 5, 7}})->Unit(benchmark::kMicrosecond);

void kernel_interpolated_outline(benchmark::State& state) {
    const int teeth = static_cast<int>(state.range(0));
    kernel_outline(state, rackwork::outline_of(gear_with(teeth)), from_points::interpolated, teeth);
}
BENCHMARK(kernel_interpolated_outline)->ArgsProduct({{50}, {3, 5, 7}})->Unit(benchmark::kMicrosecond);

/// The fitting alone, with a number of points that somebody has found out before.
void kernel_interpolated_outline_points_known(benchmark::State& state) {
    const auto outline = rackwork::outline_of(gear_with(static_cast<int>(state.range(0))));
    std::vector<int> counts;
    for (const auto& s : outline.segments) {
        const bool arc = std::holds_alternative<rackwork::circle<double>>(s.curve);
        // An interpolating cubic has two control points more than points.
        counts.push_back(arc ? 0 : static_cast<int>(kernel_spline_points(s, tolerance_of(state), from_points::interpolated)) - 3);
    }
    for (auto _ : state) {
        for (std::size_t i = 0; i < counts.size(); ++i) {
            if (counts[i] == 0) continue;
            auto curve = kernel_spline(outline.segments[i], counts[i], from_points::interpolated, tolerance_of(state));
            benchmark::DoNotOptimize(curve);
        }
    }
}
BENCHMARK(kernel_interpolated_outline_points_known)->ArgsProduct({{50}, {3, 5, 7}})->Unit(benchmark::kMicrosecond);

#endif

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
