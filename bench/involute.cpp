// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse, beside the tangent of the standard library and beside what one would otherwise write.
// Counters: "each" is the time for one number; "in_tan" is that time over the time of one std::tan (of the same type, at the angles
// themselves), both taken as the least of many short passes in turn, so that whatever else the machine does falls on both alike.
#include <rackwork/involute.hpp>

#include "in_turn.hpp"

#include <benchmark/benchmark.h>
#include <boost/math/tools/roots.hpp>

#include <cmath>
#include <cstdint>
#include <limits>
#include <tuple>
#include <vector>

namespace {

using rackwork::rad;

/// Angles of 0 to 60 degrees in no order: the pressure angles of gears lie there.
template <class T>
const std::vector<T>& angles() {
    static const std::vector<T> all = bench::in_no_order<T>(T(0), std::numbers::pi_v<T> / 3);
    return all;
}

/// Angles up to 89.9 degrees, which takes in every branch.
template <class T>
const std::vector<T>& all_angles() {
    static const std::vector<T> all = bench::in_no_order<T>(T(0), std::numbers::pi_v<T> * T(0.4994));
    return all;
}

template <class T>
std::vector<T> involutes(const std::vector<T>& of) {
    std::vector<T> all;
    for (const T& a : of) all.push_back(inv(rad(a)));
    return all;
}

template <class T>
std::vector<T> tangents(const std::vector<T>& of) {
    std::vector<T> all;
    for (const T& a : of) all.push_back(std::tan(a));
    return all;
}

template <class T, class F>
void measure(benchmark::State& state, const std::vector<T>& arguments, const F& f) {
    bench::measure(state, arguments, f, angles<T>(), [](const T& a) { return std::tan(a); }, "in_tan");
}

// ---- what the standard library takes

void tangent_of_double(benchmark::State& state) {
    measure(state, angles<double>(), [](double a) { return std::tan(a); });
}
void arctangent_of_double(benchmark::State& state) {
    measure(state, tangents(angles<double>()), [](double t) { return std::atan(t); });
}
void cube_root_of_double(benchmark::State& state) {
    measure(state, involutes(angles<double>()), [](double y) { return std::cbrt(y); });
}
BENCHMARK(tangent_of_double);
BENCHMARK(arctangent_of_double);
BENCHMARK(cube_root_of_double);

// ---- the library

template <class T>
void inv_of_pressure_angles(benchmark::State& state) {
    measure(state, angles<T>(), [](const T& a) { return inv(rad(a)); });
}
template <class T>
void inv_up_to_the_pole(benchmark::State& state) {
    measure(state, all_angles<T>(), [](const T& a) { return inv(rad(a)); });
}
template <class T>
void inv_from_tangent_of_pressure_angles(benchmark::State& state) {
    measure(state, tangents(angles<T>()), [](const T& t) { return rackwork::inv_from_tangent(t); });
}
template <class T>
void inverse_inv_of_pressure_angles(benchmark::State& state) {
    measure(state, involutes(angles<T>()), [](const T& y) { return rackwork::inverse_inv(y).rad(); });
}
template <class T>
void inverse_inv_up_to_the_pole(benchmark::State& state) {
    measure(state, involutes(all_angles<T>()), [](const T& y) { return rackwork::inverse_inv(y).rad(); });
}
BENCHMARK(inv_of_pressure_angles<double>);
BENCHMARK(inv_up_to_the_pole<double>);
BENCHMARK(inv_from_tangent_of_pressure_angles<double>);
BENCHMARK(inverse_inv_of_pressure_angles<double>);
BENCHMARK(inverse_inv_up_to_the_pole<double>);
BENCHMARK(inv_of_pressure_angles<float>);
BENCHMARK(inv_from_tangent_of_pressure_angles<float>);
BENCHMARK(inverse_inv_of_pressure_angles<float>);
BENCHMARK(inv_of_pressure_angles<long double>);
BENCHMARK(inv_from_tangent_of_pressure_angles<long double>);
BENCHMARK(inverse_inv_of_pressure_angles<long double>);

/// One after the other, each waiting for the one before: the time until a result is there, not the rate.
void inverse_inv_in_a_chain(benchmark::State& state) {
    const std::vector<double> values = involutes(angles<double>());
    for (auto _ : state) {
        double a = 0;
        for (const double y : values) a = rackwork::inverse_inv(y + a * 1e-300).rad();
        benchmark::DoNotOptimize(a);
    }
    bench::count_each(state, values.size());
}
BENCHMARK(inverse_inv_in_a_chain);

// ---- what one would otherwise write

/// The formula as it stands in every handbook. It loses places where the angle is small.
void difference_tan_a_less_a(benchmark::State& state) {
    measure(state, angles<double>(), [](double a) { return std::tan(a) - a; });
}
BENCHMARK(difference_tan_a_less_a);

/// Cheng's series (W. Cheng, Journal of Mechanical Design, 1992; seven terms, from memory, agreeing with the library's own polynomial).
/// Counter "largest_error": relative to the angle, over the pressure angles.
double series_of_cheng(double y) {
    const double c = std::cbrt(3 * y);
    const double s = c * c;
    const double q =
        -2.0 / 5 +
        s * (9.0 / 175 + s * (-2.0 / 525 + s * (-16.0 / 67375 + s * (362.0 / 3128125 + s * (-49711.0 / 4138509375.0)))));
    return c + y * q;
}
void series_of_seven_terms(benchmark::State& state) {
    const std::vector<double> values = involutes(angles<double>());
    measure(state, values, series_of_cheng);
    double largest = 0;
    for (const double y : values) {
        const double a = rackwork::inverse_inv(y).rad();
        largest = std::fmax(largest, std::fabs(series_of_cheng(y) - a) / a);
    }
    state.counters["largest_error"] = largest;
}
BENCHMARK(series_of_seven_terms);

/// The start that both iterations get: the first terms of the series.
double start(double y) {
    const double c = std::cbrt(3 * y);
    return c - 2.0 / 15 * c * c * c;
}

void newton_of_boost(benchmark::State& state) {
    measure(state, involutes(angles<double>()), [](double y) {
        const auto f = [y](double a) {
            const double t = std::tan(a);
            return std::make_pair(t - a - y, t * t);
        };
        std::uintmax_t steps = 50;
        return boost::math::tools::newton_raphson_iterate(f, start(y), 0.0, std::numbers::pi / 2, std::numeric_limits<double>::digits,
                                                          steps);
    });
}
void halley_of_boost(benchmark::State& state) {
    measure(state, involutes(angles<double>()), [](double y) {
        const auto f = [y](double a) {
            const double t = std::tan(a);
            return std::make_tuple(t - a - y, t * t, 2 * t * (1 + t * t));
        };
        std::uintmax_t steps = 50;
        return boost::math::tools::halley_iterate(f, start(y), 0.0, std::numbers::pi / 2, std::numeric_limits<double>::digits / 2,
                                                  steps);
    });
}
/// The same with a bracket and no start: what is usual where safety counts.
void bracketing_of_boost(benchmark::State& state) {
    measure(state, involutes(angles<double>()), [](double y) {
        const auto f = [y](double a) { return std::tan(a) - a - y; };
        std::uintmax_t steps = 100;
        const auto found = boost::math::tools::toms748_solve(f, 0.0, 1.5, -y, f(1.5),
                                                             boost::math::tools::eps_tolerance<double>(50), steps);
        return (found.first + found.second) / 2;
    });
}
BENCHMARK(halley_of_boost);
BENCHMARK(newton_of_boost);
BENCHMARK(bracketing_of_boost);

} // namespace
