// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse against fifty digits: over the whole range, and dense towards both of its ends.
// With RACKWORK_FULL_SWEEP=1 in the environment: millions of points instead of tens of thousands.
#include "kernel_reference.hpp"

#include <doctest/doctest.h>

#include <rackwork/involute.hpp>

namespace {

namespace reference = kernel_reference;
using rackwork::rad;
using support::wide;

template <class T>
constexpr T right_angle = std::numbers::pi_v<T> / 2;

template <class T>
void judge_inv(support::worst_case<T>& worst, const T& a) {
    // The number nearest to pi/2 lies beyond it for float and for the 80-bit type, and is refused.
    if (wide(a) < reference::half_pi()) worst.record(inv(rad(a)), reference::inv(wide(a)), a);
}
template <class T>
void judge_inv_from_tangent(support::worst_case<T>& worst, const T& t) {
    worst.record(rackwork::inv_from_tangent(t), reference::inv_from_tangent(wide(t)), t);
}
template <class T>
void judge_inverse(support::worst_case<T>& worst, const T& y) {
    const T a = rackwork::inverse_inv(y).rad();
    worst.record(a, reference::inverse_inv(y, a), y);
}

} // namespace

// The bound of the interface is 2 ulp; these are tighter, so that a loss is seen before it gets there.

TEST_CASE_TEMPLATE("inv is right to 0.6 ulp at every angle", T, float, double, long double) {
    support::random_source random(501);
    support::worst_case<T> worst;
    for (int i = 0; i < reference::thousands(10); ++i) judge_inv(worst, reference::fraction<T>(random) * right_angle<T>);
    for (int i = 0; i < reference::thousands(5); ++i) {
        judge_inv(worst, right_angle<T> - reference::in_powers_of_two<T>(random, -std::numeric_limits<T>::digits, -2));
    }
    judge_inv(worst, right_angle<T>);
    judge_inv(worst, std::nextafter(right_angle<T>, T(0)));
    CHECK_MESSAGE(worst.error() <= 0.6, worst);
}

TEST_CASE_TEMPLATE("inv of a small angle is right to 0.8 ulp down to the least positive number", T, float, double, long double) {
    support::random_source random(502);
    support::worst_case<T> worst;
    using limits = std::numeric_limits<T>;
    for (int i = 0; i < reference::thousands(5); ++i) judge_inv(worst, reference::in_powers_of_two<T>(random, -40, -1));
    for (int i = 0; i < reference::thousands(5); ++i) {
        judge_inv(worst, reference::in_powers_of_two<T>(random, limits::min_exponent / 3 - limits::digits, -1));
    }
    judge_inv(worst, (limits::min)());
    judge_inv(worst, limits::denorm_min());
    CHECK_MESSAGE(worst.error() <= 0.8, worst);
}

TEST_CASE_TEMPLATE("inv from a tangent is right to 1.2 ulp", T, float, double, long double) {
    support::random_source random(503);
    support::worst_case<T> worst;
    using limits = std::numeric_limits<T>;
    for (int i = 0; i < reference::thousands(10); ++i) judge_inv_from_tangent(worst, reference::fraction<T>(random) * 3);
    for (int i = 0; i < reference::thousands(5); ++i) {
        judge_inv_from_tangent(worst, reference::in_powers_of_two<T>(random, -limits::digits, 2 * limits::digits));
    }
    for (int i = 0; i < reference::thousands(2); ++i) {
        judge_inv_from_tangent(worst, reference::in_powers_of_two<T>(random, limits::min_exponent / 3 - limits::digits, 0));
    }
    judge_inv_from_tangent(worst, (limits::max)());
    judge_inv_from_tangent(worst, (limits::min)());
    CHECK_MESSAGE(worst.error() <= 1.2, worst);
}

TEST_CASE_TEMPLATE("the inverse of inv is right to 1.2 ulp for every value", T, float, double, long double) {
    support::random_source random(504);
    support::worst_case<T> worst;
    using limits = std::numeric_limits<T>;
    for (int i = 0; i < reference::thousands(10); ++i) judge_inverse(worst, reference::fraction<T>(random));
    for (int i = 0; i < reference::thousands(5); ++i) judge_inverse(worst, T(1 / reference::fraction<T>(random)));
    for (int i = 0; i < reference::thousands(5); ++i) judge_inverse(worst, reference::in_powers_of_two<T>(random, -60, 60));
    for (int i = 0; i < reference::thousands(5); ++i) {
        judge_inverse(worst, reference::in_powers_of_two<T>(random, limits::min_exponent - limits::digits + 1, limits::max_exponent - 1));
    }
    judge_inverse(worst, (limits::max)());
    judge_inverse(worst, (limits::min)());
    judge_inverse(worst, limits::denorm_min());
    CHECK_MESSAGE(worst.error() <= 1.2, worst);
}

TEST_CASE_TEMPLATE("both are right to 1.2 ulp on either side of every place where the method changes", T, float, double, long double) {
    support::worst_case<T> worst;
    const auto around = [](const T& seam, const auto& judge) {
        if (seam < (std::numeric_limits<T>::min)()) return; // a change that concerns only wider types
        T below = seam;
        T above = seam;
        for (int i = 0; i < 200; ++i) {
            judge(below);
            judge(above);
            below = std::nextafter(below, T(0));
            above = std::nextafter(above, (std::numeric_limits<T>::max)());
        }
    };
    const auto power = [](int exponent) { return std::ldexp(T(1), exponent); };
    for (const int exponent : {-5100, -500, -300, -3, -1, 0}) around(power(exponent), [&](const T& a) { judge_inv(worst, a); });
    for (const int exponent : {-5100, -500, -300, -12, 0, 36}) {
        around(power(exponent), [&](const T& t) { judge_inv_from_tangent(worst, t); });
    }
    for (const int exponent : {-1500, -960, -900, -1, 0, 14}) around(power(exponent), [&](const T& y) { judge_inverse(worst, y); });
    around(T(rackwork::involute_kernel::inverse_inv_seam), [&](const T& y) { judge_inverse(worst, y); });
    CHECK_MESSAGE(worst.error() <= 1.2, worst);
}
