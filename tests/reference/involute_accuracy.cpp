// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse, to fifty digits, over the whole range of the standard types.
#include "independent_involute.hpp"
#include "ledger.hpp"
#include "random_source.hpp"

#include <cmath>
#include <limits>
#include <vector>

#include <rackwork/involute.hpp>

namespace {

using independent::real;

/// Error in units of epsilon relative to the exact value; only for exact values in the range of T's normal numbers.
template <class T>
double error_in_epsilons(const T& value, const real& exact) {
    return static_cast<double>(real(abs(real(value) - exact) / (abs(exact) * independent::epsilon_of<T>())));
}

template <class T>
bool is_normal_number(const real& exact) {
    return abs(exact) >= real((std::numeric_limits<T>::min)()) && abs(exact) <= real((std::numeric_limits<T>::max)());
}

/// Random fractions of T, all of its digits used.
template <class T>
T fraction(support::random_source& random) {
    return static_cast<T>(random.uniform(0.0, 1.0)) + static_cast<T>(random.uniform(0.0, 0x1p-53));
}

/// Angles: dense over the whole range, log-spaced down to the least positive number, and log-spaced towards 90 degrees.
template <class T>
std::vector<T> angles(std::uint64_t seed, int dense, int towards_the_end) {
    support::random_source random(seed);
    const T right_angle = std::numbers::pi_v<T> / 2;
    std::vector<T> all;
    for (int i = 0; i < dense; ++i) all.push_back(fraction<T>(random) * right_angle);
    for (const T seam : {T(1), T(1) / 2, T(5) / 4}) {
        for (int i = -20; i <= 20; ++i) all.push_back(seam + T(i) * std::numeric_limits<T>::epsilon());
    }
    using limits = std::numeric_limits<T>;
    const int lowest = limits::min_exponent - limits::digits;
    const int step = std::max(1, -lowest / 3000);
    for (int e = lowest; e <= 0; e += step) all.push_back(std::ldexp(1 + fraction<T>(random), e));
    all.push_back(limits::denorm_min());
    all.push_back((limits::min)());
    // From here up the involute functions themselves are normal numbers.
    for (int i = 0; i < 2000; ++i) {
        all.push_back(std::ldexp(1 + fraction<T>(random), random.integer(limits::min_exponent / 3, 0)));
    }
    for (int i = 0; i < towards_the_end; ++i) {
        all.push_back(right_angle - std::ldexp(1 + fraction<T>(random), random.integer(1 - limits::digits, -1)));
    }
    all.push_back(right_angle);
    std::erase_if(all, [&](const T& a) { return a > right_angle; });
    return all;
}

template <class T>
void inv_holds_its_bound(std::uint64_t seed) {
    double worst = 0;
    T where = 0;
    int compared = 0;
    for (const T a : angles<T>(seed, 6000, 2000)) {
        const real exact = independent::inv(real(a));
        const T computed = inv(rackwork::rad(a));
        CHECK(inv(rackwork::rad(-a)) == -computed);
        if (!is_normal_number<T>(exact)) {
            // Below the normal numbers: nothing but the spacing of the type.
            CHECK(support::within_ulp(computed, exact, rackwork::inv_error_bound));
            continue;
        }
        ++compared;
        const double error = error_in_epsilons(computed, exact);
        if (error > worst) {
            worst = error;
            where = a;
        }
    }
    CHECK(compared > 8000);
    CHECK_MESSAGE(worst <= rackwork::inv_error_bound, "largest error: ", worst, " epsilon at ", where);
}

template <class T>
void inv_from_tangent_holds_the_same_bound(std::uint64_t seed) {
    double worst = 0;
    T where = 0;
    int compared = 0;
    support::random_source random(seed);
    using limits = std::numeric_limits<T>;
    for (int i = 0; i < 6000; ++i) {
        const int lowest = i % 2 == 0 ? -8 : limits::min_exponent / 3;
        const int highest = i % 2 == 0 ? 8 : limits::max_exponent - 1;
        const T tangent = std::ldexp(1 + fraction<T>(random), random.integer(lowest, highest));
        const real exact = independent::inv_from_tangent(real(tangent));
        if (!is_normal_number<T>(exact)) continue;
        ++compared;
        const double error = error_in_epsilons(rackwork::inv_from_tangent(tangent), exact);
        CHECK(rackwork::inv_from_tangent(-tangent) == -rackwork::inv_from_tangent(tangent));
        if (error > worst) {
            worst = error;
            where = tangent;
        }
    }
    CHECK(compared > 5000);
    CHECK_MESSAGE(worst <= rackwork::inv_error_bound, "largest error: ", worst, " epsilon at ", where);
}

template <class T>
void inverse_inv_holds_its_bound(std::uint64_t seed) {
    support::random_source random(seed);
    using limits = std::numeric_limits<T>;
    std::vector<T> values;
    for (int i = 0; i < 3000; ++i) values.push_back(fraction<T>(random));
    for (int i = 0; i < 1000; ++i) values.push_back(fraction<T>(random) * 20);
    const int lowest = limits::min_exponent - limits::digits;
    const int step = std::max(1, (limits::max_exponent - lowest) / 3000);
    for (int e = lowest; e < limits::max_exponent; e += step) values.push_back(std::ldexp(1 + fraction<T>(random), e));
    for (int i = 0; i < 1000; ++i) {
        values.push_back(std::ldexp(1 + fraction<T>(random), random.integer(-limits::digits - 8, limits::digits + 8)));
    }
    // Where the method changes: c = 5/4, 1 radian, the least value of the iteration.
    for (const T seam : {T(std::pow(T(1.25), T(3)) / 3), T(std::tan(T(1)) - 1), T((limits::min)() / limits::epsilon()),
                         T(1 / limits::epsilon())}) {
        for (int i = -20; i <= 20; ++i) values.push_back(seam * (1 + T(i) * limits::epsilon()));
    }
    values.push_back(limits::denorm_min());
    values.push_back((limits::min)());
    values.push_back((limits::max)());
    double worst = 0;
    T where = 0;
    for (const T value : values) {
        if (value == 0) continue;
        const real exact = independent::inverse_inv(real(value));
        const T computed = rackwork::inverse_inv(value).rad();
        CHECK(rackwork::inverse_inv(-value).rad() == -computed);
        REQUIRE(is_normal_number<T>(exact)); // even for the least positive value
        const double error = error_in_epsilons(computed, exact);
        if (!(error <= worst)) {
            worst = error;
            where = value;
        }
    }
    CHECK_MESSAGE(worst <= rackwork::inverse_inv_error_bound, "largest error: ", worst, " epsilon at ", where);
}

/// 47 digits in the fifty-digit type itself.
void holds_in_fifty_digits() {
    using wide = independent::real;
    support::random_source random(35);
    for (int i = 0; i < 300; ++i) {
        const wide a = wide(wide(random.uniform(0.0, 4.5)) / 3) * pow(wide(2), random.integer(-200, 0));
        const wide exact = independent::inv(a);
        CHECK(abs(wide(inv(rackwork::rad(a)) - exact)) <= abs(exact) * wide("1e-47"));
        CHECK(abs(wide(rackwork::inverse_inv(exact).rad() - a)) <= a * wide("1e-47"));
        const wide large = wide(exact * pow(wide(2), random.integer(0, 300)));
        const wide back = wide(independent::inverse_inv(large));
        CHECK(abs(wide(rackwork::inverse_inv(large).rad() - back)) <= back * wide("1e-47"));
    }
}

} // namespace

TEST_CASE("inv of a double is right to its bound") { inv_holds_its_bound<double>(30); }
TEST_CASE("inv of a long double is right to its bound") { inv_holds_its_bound<long double>(31); }
TEST_CASE("inv of a float is right to its bound") { inv_holds_its_bound<float>(32); }

TEST_CASE("inv of an angle given by its tangent is right to the same bound") {
    inv_from_tangent_holds_the_same_bound<double>(33);
    inv_from_tangent_holds_the_same_bound<long double>(34);
    inv_from_tangent_holds_the_same_bound<float>(35);
}

TEST_CASE("the inverse of inv for a double is right to its bound") { inverse_inv_holds_its_bound<double>(36); }
TEST_CASE("the inverse of inv for a long double is right to its bound") { inverse_inv_holds_its_bound<long double>(37); }
TEST_CASE("the inverse of inv for a float is right to its bound") { inverse_inv_holds_its_bound<float>(38); }

TEST_CASE("inv and its inverse keep their places in a type of fifty digits") { holds_in_fifty_digits(); }
