// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The elementary functions of constant evaluation against <cmath> and against 50 digits. They are plain functions, so that run time
// can call them over many points.
#include "random_source.hpp"
#include "ulp.hpp"

#include <rackwork/core/constant_evaluation.hpp>
#include <rackwork/core/elementary.hpp>

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <sstream>
#include <string>
#include <type_traits>
#include <vector>

namespace {

namespace constant_evaluation = rackwork::constant_evaluation;
namespace elementary = rackwork::elementary;

/// The largest difference, in units of epsilon of the expected value, and where it occurs.
template <class T>
struct worst_difference {
    long double epsilons = 0;
    T argument = 0;
    long count = 0;

    template <class Reference>
    void record(T x, T value, const Reference& expected) {
        ++count;
        using std::abs;
        using std::isnan;
        Reference size = abs(expected);
        if (size < Reference((std::numeric_limits<T>::min)())) size = Reference((std::numeric_limits<T>::min)());
        const Reference off = abs(Reference(value) - expected);
        const long double here = isnan(off) || isnan(value) ? std::numeric_limits<long double>::infinity()
                                                            : static_cast<long double>(off / (size * Reference(std::numeric_limits<T>::epsilon())));
        if (here > epsilons) {
            epsilons = here;
            argument = x;
        }
    }
    std::string described() const {
        std::ostringstream text;
        text.precision(21);
        text << epsilons << " epsilon at " << argument << " (" << std::hexfloat << argument << ") among " << std::dec << count << " points";
        return text.str();
    }
};

/// Arguments of every size up to `greatest`, both signs, with the places where the functions change their method.
template <class T>
std::vector<T> arguments(T greatest, std::size_t at_random) {
    using limits = std::numeric_limits<T>;
    std::vector<T> all{T(0), limits::denorm_min(), 3 * limits::denorm_min(), (limits::min)(), std::nextafter((limits::min)(), T(0)), greatest};
    const auto around = [&](T x) {
        for (int i = 0; i < 4; ++i) all.push_back(x), x = std::nextafter(x, T(0));
        for (int i = 0; i < 8; ++i) all.push_back(x), x = std::nextafter(x, limits::infinity());
    };
    for (const double seam : {0.25, 0.5, 0.74, 1.0, 1.4, 2.0, 3.2, 4.0, 8.0, 27.0}) around(static_cast<T>(seam));
    for (int quarter = 1; quarter < 4000; ++quarter) {
        const T x = std::numbers::pi_v<T> / 4 * static_cast<T>(quarter < 200 ? quarter : quarter * 313);
        if (x > greatest) break;
        all.push_back(x);
        all.push_back(std::nextafter(x, T(0)));
        all.push_back(std::nextafter(x, limits::infinity()));
    }
    for (int exponent = limits::min_exponent - limits::digits + 2; exponent < limits::max_exponent; exponent += 3) {
        const T x = std::ldexp(T(1.3), exponent);
        if (x <= greatest) all.push_back(x);
    }
    support::random_source random{7};
    const double widest = std::log2(static_cast<double>(std::fmin(static_cast<long double>(greatest), 0x1p1000L)));
    for (std::size_t i = 0; i < at_random; ++i) {
        // Half of them of ordinary size; a second draw fills the places of a wide type.
        const double exponent = i % 2 == 0 ? random.uniform(-4, std::fmin(widest, 12.0)) : random.uniform(-120, widest);
        all.push_back(static_cast<T>(std::exp2(exponent)) * (T(1) + std::numeric_limits<T>::epsilon() * static_cast<T>(random.integer(0, 4096))));
    }
    const std::size_t count = all.size();
    for (std::size_t i = 0; i < count; ++i) {
        if (all[i] > greatest) all[i] = greatest;
        all.push_back(-all[i]);
    }
    return all;
}

template <class T, class Own, class Standard>
void compare_with_cmath(const std::string& name, const Own& own, const Standard& standard, const std::vector<T>& points) {
    // The standard function of the next wider type is the judge: in its own type it may itself be 2 and more units off.
    using judge = std::conditional_t<std::is_same_v<T, float>, double, long double>;
    worst_difference<T> worst;
    for (const T x : points) worst.record(x, own(x), standard(static_cast<judge>(x)));
    CAPTURE(name);
    CHECK(worst.count > 10000);
    CHECK_MESSAGE(worst.epsilons <= 2, worst.described());
}

template <class T, class Own, class Wide>
void compare_with_fifty_digits(const std::string& name, const Own& own, const Wide& wide, const std::vector<T>& points) {
    worst_difference<T> worst;
    for (const T x : points) worst.record(x, own(x), support::wide(wide(support::wide(x))));
    CAPTURE(name);
    // What the header states: 2 epsilon for the widest type, 1 for the types that are evaluated in a wider one.
    CHECK_MESSAGE(worst.epsilons <= (std::is_same_v<T, long double> ? 2 : 1), worst.described());
}

constexpr double end_of_period = 1e6;

} // namespace

TEST_CASE_TEMPLATE("during constant evaluation the elementary functions agree with those of run time", T, float, double) {
    const std::vector<T> periodic = arguments(T(end_of_period), 20000);
    const std::vector<T> all = arguments((std::numeric_limits<T>::max)(), 20000);
    compare_with_cmath<T>("sin", [](T x) { return constant_evaluation::sin(x); }, [](auto x) { return std::sin(x); }, periodic);
    compare_with_cmath<T>("cos", [](T x) { return constant_evaluation::cos(x); }, [](auto x) { return std::cos(x); }, periodic);
    compare_with_cmath<T>("tan", [](T x) { return constant_evaluation::tan(x); }, [](auto x) { return std::tan(x); }, periodic);
    compare_with_cmath<T>("atan", [](T x) { return constant_evaluation::atan(x); }, [](auto x) { return std::atan(x); }, all);
    compare_with_cmath<T>("cbrt", [](T x) { return constant_evaluation::cbrt(x); }, [](auto x) { return std::cbrt(x); }, all);
}

TEST_CASE_TEMPLATE("and they keep the accuracy that their header states", T, float, double, long double) {
    using support::wide;
    const std::vector<T> periodic = arguments(T(end_of_period), 1500);
    const std::vector<T> all = arguments((std::numeric_limits<T>::max)(), 1500);
    compare_with_fifty_digits<T>("sin", [](T x) { return constant_evaluation::sin(x); }, [](const wide& x) { return sin(x); }, periodic);
    compare_with_fifty_digits<T>("cos", [](T x) { return constant_evaluation::cos(x); }, [](const wide& x) { return cos(x); }, periodic);
    compare_with_fifty_digits<T>("tan", [](T x) { return constant_evaluation::tan(x); }, [](const wide& x) { return tan(x); }, periodic);
    compare_with_fifty_digits<T>("atan", [](T x) { return constant_evaluation::atan(x); }, [](const wide& x) { return atan(x); }, all);
    compare_with_fifty_digits<T>("cbrt", [](T x) { return constant_evaluation::cbrt(x); }, [](const wide& x) { return cbrt(x); }, all);
}

TEST_CASE_TEMPLATE("the square root of constant evaluation is the correctly rounded one of run time", T, float, double, long double) {
    std::vector<T> points = arguments((std::numeric_limits<T>::max)(), 20000);
    // The hard ones lie beside powers of four, where the root comes next to the middle of two numbers.
    const int stride = std::numeric_limits<T>::max_exponent > 2000 ? 17 : 1;
    for (int exponent = std::numeric_limits<T>::min_exponent + 4; exponent < std::numeric_limits<T>::max_exponent; exponent += stride) {
        T below = std::ldexp(T(1), exponent);
        T above = below;
        for (int i = 0; i < 6; ++i) {
            points.push_back(below = std::nextafter(below, T(0)));
            points.push_back(above = std::nextafter(above, std::numeric_limits<T>::infinity()));
        }
    }
    // A compiler never fuses a product and a sum while compiling. Where the program does, the remainder that rounds the root is not
    // exact, and the last place may be the neighbour's.
    const volatile T one_and_a_bit = T(1) + std::numeric_limits<T>::epsilon();
    const volatile T rounded = one_and_a_bit * one_and_a_bit;
    const bool fused = one_and_a_bit * one_and_a_bit - rounded != 0;
    int different = 0;
    T example = 0;
    for (const T x : points) {
        if (x < 0) continue;
        const T own = constant_evaluation::sqrt(x);
        const T standard = std::sqrt(x);
        if (own == standard) continue;
        if (fused && (own == std::nextafter(standard, T(0)) || own == std::nextafter(standard, 2 * standard))) continue;
        ++different;
        example = x;
    }
    std::ostringstream text;
    text << different << " of " << points.size() << ", for example " << std::hexfloat << example;
    CHECK_MESSAGE(different == 0, text.str());
}

namespace {
constexpr double next_to_two = elementary::sqrt(4 - 0x1p-51);
constexpr float next_to_two_in_float = elementary::sqrt(4 - 0x1p-22F);
constexpr double next_to_one = elementary::sqrt(1 - 0x1p-53);
constexpr double above_one = elementary::sqrt(1 + 0x1p-52);
constexpr double of_three = elementary::sqrt(3.0);
} // namespace

TEST_CASE("roots next to powers of two are rounded correctly while compiling") {
    CHECK(next_to_two == 2 - 0x1p-52);
    CHECK(next_to_two_in_float == 2 - 0x1p-23F);
    CHECK(next_to_one == 1 - 0x1p-53);
    CHECK(above_one == 1);
    CHECK(of_three == std::sqrt(3.0));
}

TEST_CASE_TEMPLATE("squares and cubes have their exact roots", T, float, double, long double) {
    for (int n = 0; n < 4096; ++n) {
        const T root = static_cast<T>(n);
        CHECK(constant_evaluation::sqrt(root * root) == root);
        CHECK(constant_evaluation::sqrt(std::ldexp(root * root, 40)) == std::ldexp(root, 20));
        if (n < 200) CHECK(constant_evaluation::cbrt(root * root * root) == doctest::Approx(static_cast<double>(root)).epsilon(1e-6));
    }
}

TEST_CASE_TEMPLATE("what is no number stays none, and the infinite has its limits", T, float, double, long double) {
    const T nan = std::numeric_limits<T>::quiet_NaN();
    const T infinite = std::numeric_limits<T>::infinity();
    CHECK(std::isnan(constant_evaluation::sqrt(nan)));
    CHECK(std::isnan(constant_evaluation::sqrt(T(-1))));
    CHECK(std::isnan(constant_evaluation::sin(nan)));
    CHECK(std::isnan(constant_evaluation::cos(nan)));
    CHECK(std::isnan(constant_evaluation::tan(nan)));
    CHECK(std::isnan(constant_evaluation::atan(nan)));
    CHECK(std::isnan(constant_evaluation::cbrt(nan)));
    CHECK(std::isnan(constant_evaluation::sin(infinite)));
    CHECK(std::isnan(constant_evaluation::cos(-infinite)));
    CHECK(std::isnan(constant_evaluation::tan(infinite)));
    CHECK(constant_evaluation::sqrt(infinite) == infinite);
    CHECK(constant_evaluation::cbrt(infinite) == infinite);
    CHECK(constant_evaluation::cbrt(-infinite) == -infinite);
    CHECK(constant_evaluation::atan(infinite) == std::atan(infinite));
    CHECK(constant_evaluation::atan(-infinite) == std::atan(-infinite));
    CHECK(constant_evaluation::sqrt(T(0)) == 0);
    CHECK(constant_evaluation::sin(T(-0.0)) == 0);
    CHECK(constant_evaluation::cos(T(-0.0)) == 1);
    CHECK(constant_evaluation::cos(T(0)) == 1);
    CHECK(constant_evaluation::atan(T(-0.0)) == 0);
}

TEST_CASE_TEMPLATE("at run time the elementary functions are those of <cmath>, to the bit", T, float, double, long double) {
    int different = 0;
    for (const T x : arguments(T(end_of_period), 5000)) {
        different += elementary::sin(x) == std::sin(x) ? 0 : 1;
        different += elementary::cos(x) == std::cos(x) ? 0 : 1;
        different += elementary::tan(x) == std::tan(x) ? 0 : 1;
        different += elementary::atan(x) == std::atan(x) ? 0 : 1;
        different += x < 0 || elementary::sqrt(x) == std::sqrt(x) ? 0 : 1;
    }
    CHECK(different == 0);
}

namespace {

/// Evaluated by the compiler, for the comparison below.
constexpr std::size_t table_size = 60;
template <class T>
constexpr T argument_of_table(std::size_t i) {
    return (static_cast<T>(i) - T(20)) * T(0.0625) + T(0.001);
}
template <class T, class F>
constexpr std::array<T, table_size> table(const F& f) {
    std::array<T, table_size> values{};
    for (std::size_t i = 0; i < table_size; ++i) values[i] = f(argument_of_table<T>(i));
    return values;
}
template <class T>
constexpr auto sines = table<T>([](T x) { return elementary::sin(x); });
template <class T>
constexpr auto cosines = table<T>([](T x) { return elementary::cos(x); });
template <class T>
constexpr auto tangents = table<T>([](T x) { return elementary::tan(x); });
template <class T>
constexpr auto arctangents = table<T>([](T x) { return elementary::atan(x); });
template <class T>
constexpr auto roots = table<T>([](T x) { return elementary::sqrt(x * x); });

} // namespace

TEST_CASE_TEMPLATE("what the compiler computes is what the program computes", T, float, double, long double) {
    worst_difference<T> worst;
    for (std::size_t i = 0; i < table_size; ++i) {
        const T x = argument_of_table<T>(i);
        worst.record(x, sines<T>[i], std::sin(x));
        worst.record(x, cosines<T>[i], std::cos(x));
        worst.record(x, tangents<T>[i], std::tan(x));
        worst.record(x, arctangents<T>[i], std::atan(x));
        CHECK(roots<T>[i] == std::sqrt(x * x));
    }
    CHECK_MESSAGE(worst.epsilons <= 2, worst.described());
}

static_assert(elementary::sqrt(2.25) == 1.5);
static_assert(elementary::sqrt(0x1p-1074) == 0x1p-537);
static_assert(elementary::cos(0.0) == 1 && elementary::sin(0.0) == 0 && elementary::tan(0.0) == 0 && elementary::atan(0.0) == 0);
