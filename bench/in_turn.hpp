// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What the benchmarks share: arguments in no order, the time for one result, and its ratio to that of another way.
#pragma once

#include "allocations.hpp"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <limits>
#include <random>
#include <string>
#include <vector>

namespace bench {

/// 4096 numbers spread evenly over [low, high], in no order, the same in every run.
template <class T>
std::vector<T> in_no_order(T low, T high) {
    constexpr std::size_t count = 4096;
    std::vector<T> all;
    for (std::size_t i = 0; i < count; ++i) all.push_back(low + (high - low) * (static_cast<T>(i) + T(0.5)) / T(count));
    std::shuffle(all.begin(), all.end(), std::mt19937_64{20});
    return all;
}

/// Adds the counter "each": the time for one of so many results.
inline void count_each(benchmark::State& state, std::size_t results) {
    state.counters["each"] = benchmark::Counter(static_cast<double>(results),
                                                benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

/// Adds the counter "allocations": how often each result asks for memory.
template <class Pass>
void count_allocations(benchmark::State& state, const Pass& pass, std::size_t results) {
    const long before = allocations_so_far();
    pass();
    state.counters["allocations"] = static_cast<double>(allocations_so_far() - before) / static_cast<double>(results);
}

/// Seconds for one pass.
template <class Pass>
double seconds(const Pass& pass) {
    const auto begin = std::chrono::steady_clock::now();
    pass();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

/// How many times as long one pass takes as another: the ratio of the least times of many passes in turn.
template <class Pass, class Other>
double ratio_in_turn(const Pass& pass, const Other& other, int rounds = 200) {
    double least = std::numeric_limits<double>::infinity();
    double least_of_other = least;
    for (int i = 0; i < rounds; ++i) {
        least = std::min(least, seconds(pass));
        least_of_other = std::min(least_of_other, seconds(other));
    }
    return least / least_of_other;
}

/// Applies a function to all arguments; the results are used, so that nothing can be left out.
template <class T, class F>
void pass_over(const std::vector<T>& arguments, const F& f) {
    for (const T& x : arguments) {
        auto result = f(x);
        benchmark::DoNotOptimize(result);
    }
}

/// Time of f at the arguments, and how many times as long one f takes as one g at its own arguments.
template <class T, class F, class U, class G>
void measure(benchmark::State& state, const std::vector<T>& arguments, const F& f, const std::vector<U>& others, const G& g,
             const std::string& counter) {
    for (auto _ : state) pass_over(arguments, f);
    count_each(state, arguments.size());
    count_allocations(state, [&] { pass_over(arguments, f); }, arguments.size());
    const double ratio = ratio_in_turn([&] { pass_over(arguments, f); }, [&] { pass_over(others, g); });
    state.counters[counter] = ratio * static_cast<double>(others.size()) / static_cast<double>(arguments.size());
}

} // namespace bench
