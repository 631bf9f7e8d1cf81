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
    all.push_back(right_angle); // for some types beyond 90 degrees, and then refused
    std::erase_if(all, [&](const T& a) { return real(a) > real(independent::pi() / 2); });
    return all;
}

/// The largest error of a sweep in units in the last place, and where it was met.
template <class T>
struct largest_error {
    double ulp = 0;
    T where = 0;
    int compared = 0;

    void record(const T& computed, const real& exact, const T& argument) {
        ++compared;
        const double error = support::ulp_error(computed, exact);
        if (error <= ulp) return;
        ulp = error;
        where = argument;
    }
};

template <class T>
void inv_holds_its_bound(std::uint64_t seed) {
    largest_error<T> worst;
    for (const T a : angles<T>(seed, 6000, 2000)) {
        const T computed = inv(rackwork::rad(a));
        CHECK(inv(rackwork::rad(-a)) == -computed);
        worst.record(computed, independent::inv(real(a)), a);
    }
    CHECK(worst.compared > 8000);
    CHECK_MESSAGE(worst.ulp <= rackwork::inv_error_bound, "largest error: ", worst.ulp, " ulp at ", worst.where);
}

template <class T>
void inv_from_tangent_holds_the_same_bound(std::uint64_t seed) {
    largest_error<T> worst;
    support::random_source random(seed);
    using limits = std::numeric_limits<T>;
    for (int i = 0; i < 6000; ++i) {
        const int lowest = i % 2 == 0 ? -8 : limits::min_exponent - limits::digits;
        const int highest = i % 2 == 0 ? 8 : limits::max_exponent - 1;
        const T tangent = std::ldexp(1 + fraction<T>(random), random.integer(lowest, highest));
        const T computed = rackwork::inv_from_tangent(tangent);
        CHECK(rackwork::inv_from_tangent(-tangent) == -computed);
        worst.record(computed, independent::inv_from_tangent(real(tangent)), tangent);
    }
    CHECK_MESSAGE(worst.ulp <= rackwork::inv_error_bound, "largest error: ", worst.ulp, " ulp at ", worst.where);
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
    largest_error<T> worst;
    largest_error<T> worst_of_tangent;
    for (const T value : values) {
        if (value == 0) continue;
        const real tangent = independent::tangent_of_inverse_inv(real(value));
        const T computed = rackwork::inverse_inv(value).rad();
        CHECK(rackwork::inverse_inv(-value).rad() == -computed);
        worst.record(computed, real(atan(tangent)), value);
        worst_of_tangent.record(rackwork::tangent_of_inverse_inv(value), tangent, value);
    }
    CHECK_MESSAGE(worst.ulp <= rackwork::inverse_inv_error_bound, "largest error: ", worst.ulp, " ulp at ", worst.where);
    // One rounding more, of the sum of the angle and its involute function.
    CHECK_MESSAGE(worst_of_tangent.ulp <= rackwork::inverse_inv_error_bound + 0.5, "largest error of the tangent: ",
                  worst_of_tangent.ulp, " ulp at ", worst_of_tangent.where);
}

/// Other scalars: to 4 epsilon, or 64 where the type's own tan and atan decide, in a type of forty digits that the references' fifty can judge.
void holds_in_forty_digits() {
    using forty = boost::multiprecision::number<boost::multiprecision::cpp_bin_float<40>>;
    const real allowed = real(4 * real((std::numeric_limits<forty>::epsilon)()));
    support::random_source random(39);
    const auto within = [&](const forty& computed, const real& exact, bool by_own_functions = false) {
        const real difference = real(real(computed) - exact);
        return abs(difference) <= real(abs(exact) * allowed * (by_own_functions ? 16 : 1));
    };
    for (int i = 0; i < 300; ++i) {
        const double thrice = random.uniform(0.0, 4.7);
        const int down = i % 2 == 0 ? 0 : random.integer(-200, 0);
        const int up = random.integer(0, 300);
        const forty a = forty(forty(thrice) / 3 * pow(forty(2), down));
        CAPTURE(a);
        CHECK(within(inv(rackwork::rad(a)), independent::inv(real(a)), a > 1));
        const forty value = forty(inv(rackwork::rad(a)) * pow(forty(2), up));
        CHECK(within(rackwork::inverse_inv(value).rad(), independent::inverse_inv(real(value))));
        CHECK(within(rackwork::inv_from_tangent(value), independent::inv_from_tangent(real(value)), true));
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

TEST_CASE("inv and its inverse keep their places in a type of forty digits") { holds_in_forty_digits(); }
