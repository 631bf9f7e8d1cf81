// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse: symmetry, round trips, monotony across every seam.
#include "random_source.hpp"

#include <rackwork/involute.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace {

using rackwork::deg;
using rackwork::inv;
using rackwork::inv_from_tangent;
using rackwork::inverse_inv;
using rackwork::rad;

/// Angles in [0, 90) degrees of every size, dense round the places where the methods change.
template <class T>
std::vector<T> angles() {
    std::vector<T> all;
    const T right_angle = std::numbers::pi_v<T> / 2;
    for (int exponent = std::numeric_limits<T>::min_exponent / 3 + 4; exponent < 1; ++exponent) all.push_back(std::ldexp(T(1.1), exponent));
    for (T a = T(0.001); a < right_angle - T(0.001); a += T(0.00117)) all.push_back(a);
    for (T gap = T(0.01); gap > 64 * std::numeric_limits<T>::epsilon(); gap /= 2) all.push_back(right_angle - gap);
    return all;
}

} // namespace

TEST_CASE_TEMPLATE("the involute function is odd, to the bit", T, float, double, long double) {
    CHECK(inv(rad(T(0))) == 0);
    CHECK(inverse_inv(T(0)).rad() == 0);
    for (const T a : angles<T>()) {
        CHECK(inv(rad(-a)) == -inv(rad(a)));
        const T value = inv(rad(a));
        CHECK(inverse_inv(-value).rad() == -inverse_inv(value).rad());
        const T tangent = std::tan(a);
        CHECK(inv_from_tangent(-tangent) == -inv_from_tangent(tangent));
    }
}

TEST_CASE_TEMPLATE("the inverse gives the angle back", T, float, double, long double) {
    const T epsilon = std::numeric_limits<T>::epsilon();
    for (const T a : angles<T>()) {
        const T value = inv(rad(a));
        if (value < (std::numeric_limits<T>::min)() / epsilon) continue; // its own places are running out
        // The value's error reaches the angle divided by the condition number a tan^2 a / inv a, which lies between 3 and infinity;
        // towards 90 degrees it makes up for any number of lost places of the angle.
        const T tangent = std::tan(a);
        const T condition = a * tangent * tangent / value;
        const T bound = (static_cast<T>(rackwork::inv_error_bound) / condition + static_cast<T>(rackwork::inverse_inv_error_bound)) * epsilon * a;
        CAPTURE(a);
        CHECK(std::fabs(inverse_inv(value).rad() - a) <= bound);
    }
}

TEST_CASE_TEMPLATE("the involute function of the inverse gives the value back", T, float, double, long double) {
    const T epsilon = std::numeric_limits<T>::epsilon();
    for (int exponent = std::numeric_limits<T>::min_exponent + std::numeric_limits<T>::digits; exponent < std::numeric_limits<T>::digits - 4; ++exponent) {
        for (const T part : {T(1), T(1.2), T(1.5), T(1.9)}) {
            const T value = std::ldexp(part, exponent);
            const T a = inverse_inv(value).rad();
            const T tangent = value + a; // what tan a is then
            const T condition = a * tangent * tangent / value;
            CAPTURE(value);
            CHECK(std::fabs(inv(rad(a)) - value) <=
                  (static_cast<T>(rackwork::inv_error_bound) + static_cast<T>(rackwork::inverse_inv_error_bound) * condition) * epsilon * value);
        }
    }
}

TEST_CASE_TEMPLATE("the involute function never falls", T, float, double, long double) {
    // Over a dense grid, and number by number across the seams at 1 rad and at the smallest angles.
    T before = 0;
    for (T a = 0; a < std::numbers::pi_v<T> / 2 - T(0.0003); a += T(0.0001)) {
        const T value = inv(rad(a));
        CHECK(value >= before);
        before = value;
    }
    // Number by number rounding may turn it back, but by no more than the stated error.
    const T allowed = 2 * static_cast<T>(rackwork::inv_error_bound) * std::numeric_limits<T>::epsilon();
    T a = std::nextafter(T(1), T(0));
    for (int i = 0; i < 200; ++i) a = std::nextafter(a, T(0));
    before = inv(rad(a));
    for (int i = 0; i < 400; ++i) {
        a = std::nextafter(a, T(2));
        const T value = inv(rad(a));
        CHECK(value >= before * (1 - allowed));
        before = value;
    }
}

TEST_CASE_TEMPLATE("the inverse never falls, across its seams too", T, float, double, long double) {
    const T allowed = 2 * static_cast<T>(rackwork::inverse_inv_error_bound) * std::numeric_limits<T>::epsilon();
    T before = 0;
    for (T value = (std::numeric_limits<T>::min)(); value < (std::numeric_limits<T>::max)() / 2; value *= T(1.01)) {
        const T a = inverse_inv(value).rad();
        CHECK(a >= before * (1 - allowed));
        CHECK(a <= std::numbers::pi_v<T> / 2);
        before = a;
    }
    // c = 1.25 is where the series gives way to the fixed-point start, 1/epsilon where the angle cannot grow further, and
    // min/epsilon with c = epsilon where the series' first term alone is taken.
    for (const T seam : {T(1.25) * T(1.25) * T(1.25) / 3, 1 / std::numeric_limits<T>::epsilon(),
                         (std::numeric_limits<T>::min)() / std::numeric_limits<T>::epsilon()}) {
        T value = seam;
        for (int i = 0; i < 100; ++i) value = std::nextafter(value, T(0));
        before = inverse_inv(value).rad();
        for (int i = 0; i < 200; ++i) {
            value = std::nextafter(value, std::numeric_limits<T>::infinity());
            const T a = inverse_inv(value).rad();
            CHECK(a >= before * (1 - allowed));
            before = a;
        }
    }
}

TEST_CASE_TEMPLATE("the involute function of a tangent is that of its angle", T, float, double, long double) {
    for (const T a : angles<T>()) {
        if (a > T(1.5)) break; // beyond, the angle holds too little: that is what the other form is for
        const T tangent = std::tan(a);
        const T slope_error = tangent * tangent * a * std::numeric_limits<T>::epsilon();
        CAPTURE(a);
        CHECK(std::fabs(inv_from_tangent(tangent) - inv(rad(a))) <=
              2 * static_cast<T>(rackwork::inv_error_bound) * std::numeric_limits<T>::epsilon() * inv(rad(a)) + 2 * slope_error);
    }
    CHECK(inv_from_tangent((std::numeric_limits<T>::max)()) == (std::numeric_limits<T>::max)());
    CHECK(inv_from_tangent(T(1e6)) == T(T(1e6) - std::atan(T(1e6))));
}

TEST_CASE_TEMPLATE("small angles keep every place", T, float, double, long double) {
    // inv a = a^3/3 (1 + 2/5 a^2 + 17/105 a^4 + 62/945 a^6 + ...), whose next term is below the last place of any of the types here.
    for (T a = T(2e-3); a > std::cbrt((std::numeric_limits<T>::min)()) * 16; a *= T(0.37)) {
        const T series = a * a * a / 3 * (1 + a * a * (T(2) / 5 + a * a * T(17) / 105 + a * a * a * a * T(62) / 945));
        CAPTURE(a);
        CHECK(std::fabs(inv(rad(a)) - series) <= 4 * std::numeric_limits<T>::epsilon() * series);
    }
}

TEST_CASE("angles of the workshop: the tables' six places of inv") {
    // Six-place tables of the involute function; common practice.
    const auto rounded = [](double degrees) { return std::round(inv(deg(degrees)) * 1e6) / 1e6; };
    CHECK(rounded(14.5) == 0.005545);
    CHECK(rounded(20) == 0.014904);
    CHECK(rounded(25) == 0.029975);
    CHECK(rounded(30) == 0.053751);
}

// Exact statements while compiling, and the same function at both times.
static_assert(inv(deg(0.0)) == 0 && inverse_inv(0.0).rad() == 0);
static_assert(inv(deg(-20.0)) == -inv(deg(20.0)));
static_assert(inv(deg(20.0)) > 0.0149043838673 && inv(deg(20.0)) < 0.0149043838674);
