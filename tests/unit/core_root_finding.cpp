// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The bracketed root finder: it ends at the last place, within a bounded number of steps, whatever the function.
#include "random_source.hpp"

#include <rackwork/core/root_finding.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <string>

namespace {

/// The bound that follows from the header's promise: each four steps at least halve the bracket. A bracket [a, b] of a type holds
/// at most as many halvings as it takes to get from its width to the spacing of the numbers at the root.
template <class T>
int most_calls(T lower, T upper, T root) {
    const T size = std::fmax(std::fabs(root), (std::numeric_limits<T>::min)());
    const T spacing = std::nextafter(size, std::numeric_limits<T>::infinity()) - size;
    const double halvings = static_cast<double>(std::log2(std::fabs(upper / 2 - lower / 2)) - std::log2(spacing)) + 1;
    return 2 + 4 * static_cast<int>(std::ceil(halvings) + 2);
}

template <class T>
struct search {
    T found;
    int calls;
};

template <class T, class F>
search<T> count_calls(const F& f, T lower, T upper) {
    int calls = 0;
    const auto counted = [&](const T& x) {
        ++calls;
        return T(f(x));
    };
    const T found = rackwork::bracketed_root(counted, lower, upper);
    return {found, calls};
}

/// The result is a root, or f changes its sign between the result and a neighbouring number.
template <class T, class F>
bool at_change_of_sign(const F& f, T x) {
    const T below = f(std::nextafter(x, -std::numeric_limits<T>::infinity()));
    const T here = f(x);
    const T above = f(std::nextafter(x, std::numeric_limits<T>::infinity()));
    if (here == 0) return true;
    return (here < 0) != (below < 0) || (here < 0) != (above < 0) || below == 0 || above == 0;
}

template <class T, class F>
void ends_at_last_place(const std::string& name, const F& f, T lower, T upper) {
    for (const bool reversed : {false, true}) {
        const search<T> s = reversed ? count_calls<T>(f, upper, lower) : count_calls<T>(f, lower, upper);
        CAPTURE(name);
        CAPTURE(reversed);
        CAPTURE(s.found);
        CAPTURE(s.calls);
        CHECK(s.found >= lower);
        CHECK(s.found <= upper);
        CHECK(at_change_of_sign<T>(f, s.found));
        CHECK(s.calls <= most_calls<T>(lower, upper, s.found));
    }
}

} // namespace

TEST_CASE_TEMPLATE("a bracketed root is found to the last place", T, float, double, long double) {
    ends_at_last_place<T>("straight line", [](T x) { return x - T(1) / 3; }, T(-1), T(2));
    ends_at_last_place<T>("falling line", [](T x) { return T(1) / 3 - x; }, T(-1), T(2));
    ends_at_last_place<T>("square root of two", [](T x) { return x * x - 2; }, T(0), T(2));
    ends_at_last_place<T>("exponential", [](T x) { return std::exp(x) - 5; }, T(-10), T(10));
    ends_at_last_place<T>("sine", [](T x) { return std::sin(x); }, T(2), T(4));
    ends_at_last_place<T>("tangent near its pole", [](T x) { return std::tan(x) - T(1000); }, T(0), T(1.5707));
}

TEST_CASE_TEMPLATE("flat, steep and broken functions do not keep it from the last place", T, float, double, long double) {
    ends_at_last_place<T>("ninth power", [](T x) { return std::pow(x - T(0.3), T(9)); }, T(-1), T(3));
    ends_at_last_place<T>("flat shelf", [](T x) { return x < T(0.7) ? T(-1e-30) : x - T(0.5); }, T(0), T(1));
    ends_at_last_place<T>("tenth root", [](T x) { return std::copysign(std::pow(std::fabs(x - T(0.3)), T(0.1)), x - T(0.3)); }, T(-7), T(2));
    ends_at_last_place<T>("pole", [](T x) { return 1 / (x - T(0.3)); }, T(-1), T(1));
    ends_at_last_place<T>("step", [](T x) { return x < T(0.123) ? T(-1) : T(1); }, T(-4), T(9));
    ends_at_last_place<T>("uneven step", [](T x) { return x < T(0.123) ? T(-1e-20) : T(1e20); }, T(-4), T(9));
    ends_at_last_place<T>("uneven step, the other way", [](T x) { return x < T(0.123) ? T(1e20) : T(-1e-20); }, T(-4), T(9));
    ends_at_last_place<T>("hidden behind a wall", [](T x) { return std::exp(-50 * x) - std::exp(T(-45)); }, T(0), T(1));
    ends_at_last_place<T>("many waves", [](T x) { return std::sin(1 / (x + T(0.01))) + x / 2; }, T(-0.0033), T(3));
    ends_at_last_place<T>("least numbers", [](T x) { return (x - T(0.3)) * (std::numeric_limits<T>::min)(); }, T(0), T(1));
    ends_at_last_place<T>("greatest numbers", [](T x) { return (x - T(0.3)) * (std::numeric_limits<T>::max)(); }, T(0), T(1));
}

TEST_CASE_TEMPLATE("a root at an end of the bracket is returned as it is", T, float, double, long double) {
    const auto f = [](T x) { return x - 1; };
    CHECK(rackwork::bracketed_root(f, T(1), T(2)) == 1);
    CHECK(rackwork::bracketed_root(f, T(0), T(1)) == 1);
    CHECK(rackwork::bracketed_root(f, T(2), T(1)) == 1);
    CHECK(rackwork::bracketed_root(f, T(1), T(1)) == 1);
    CHECK(count_calls<T>(f, T(1), T(2)).calls == 2);
}

TEST_CASE_TEMPLATE("two neighbouring numbers are bracket enough", T, float, double, long double) {
    const T lower = T(1) / 3;
    const T upper = std::nextafter(lower, T(1));
    const auto f = [&](T x) { return x <= lower ? T(-1) : T(2); };
    const search<T> s = count_calls<T>(f, lower, upper);
    CHECK((s.found == lower || s.found == upper));
    CHECK(s.calls <= 3);
}

TEST_CASE_TEMPLATE("a bracket over many powers of two still ends at the last place", T, float, double, long double) {
    const T root = T(1.2345);
    ends_at_last_place<T>("line from afar", [&](T x) { return x - root; }, T(-1), T(1e30));
    ends_at_last_place<T>("cube from afar", [&](T x) { return (x - root) * (x - root) * (x - root); }, T(-1), T(1e12));
    ends_at_last_place<T>("step from afar", [&](T x) { return x < root ? T(-1) : T(1); }, T(-1), T(1e30));
    ends_at_last_place<T>("small root, wide bracket", [](T x) { return x - T(1e-30); }, T(0), T(1));
    ends_at_last_place<T>("small step, wide bracket", [](T x) { return x < T(1e-30) ? T(-1) : T(1); }, T(0), T(1));
    ends_at_last_place<T>("uneven step from afar", [&](T x) { return x < root ? T(-1e-20) : T(1e20); }, T(-1), (std::numeric_limits<T>::max)() / 4);
    ends_at_last_place<T>("uneven step, the other way", [&](T x) { return x < root ? T(-1e20) : T(1e-20); }, T(-1), (std::numeric_limits<T>::max)() / 4);
    ends_at_last_place<T>("exponential from afar", [&](T x) { return x < root ? T(-1e-20) : std::exp(x); }, T(-1), (std::numeric_limits<T>::max)() / 4);
    ends_at_last_place<T>("step over the whole range", [&](T x) { return x < root ? T(-1) : T(1); }, T(0), (std::numeric_limits<T>::max)() / 4);
    ends_at_last_place<T>("both signs of the whole range", [&](T x) { return x < root ? T(-1) : T(1); }, -(std::numeric_limits<T>::max)(),
                          (std::numeric_limits<T>::max)());
}

TEST_CASE("random brackets and random shapes end at the last place") {
    support::random_source random{99};
    for (int i = 0; i < 3000; ++i) {
        const double root = random.uniform(-1, 1);
        const double power = std::exp2(random.uniform(-3, 3));
        const double steepness = std::exp2(random.uniform(-40, 40));
        const double unevenness = std::exp2(random.uniform(-60, 60));
        const auto f = [=](double x) {
            const double d = x - root;
            const double size = steepness * std::pow(std::fabs(d), power);
            return d < 0 ? -size : d > 0 ? size * unevenness : 0.0;
        };
        ends_at_last_place<double>("power " + std::to_string(power), f, root - std::exp2(random.uniform(-30, 10)), root + std::exp2(random.uniform(-30, 10)));
    }
}

TEST_CASE("a function that is never anything but wrong cannot hold it for ever") {
    // No sign change, or no number at all: the result means nothing, but there is one, and soon.
    for (const double value : {1.0, -1.0, std::nan(""), HUGE_VAL, -HUGE_VAL}) {
        CAPTURE(value);
        const auto f = [&](double) { return value; };
        CHECK(count_calls<double>(f, 0, 1).calls <= most_calls<double>(0, 1, 0));
        CHECK(count_calls<double>(f, -1e300, 1e300).calls <= most_calls<double>(-1e300, 1e300, 0));
    }
}

namespace {
constexpr double root_of_two = rackwork::bracketed_root([](const double& x) { return x * x - 2; }, 0.0, 2.0);
}
static_assert(root_of_two > 1.4142135623730949 && root_of_two < 1.4142135623730954);
