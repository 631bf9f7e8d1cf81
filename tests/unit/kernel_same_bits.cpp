// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function at compile time and at run time, its symmetry, its order, and the way there and back.
#include "kernel_reference.hpp"

#include <doctest/doctest.h>

#include <rackwork/involute.hpp>

namespace {

using rackwork::inverse_inv;
using rackwork::rad;

/// Arguments that take every branch.
template <class T>
constexpr std::array<T, 13> samples{T(0),     T(1e-300L), T(1e-35L), T(1e-9L),  T(0.001L), T(0.0149L), T(0.25L),
                                    T(0.35L), T(0.624L),  T(0.626L), T(0.999L), T(1.25L),  T(1.57L)};

template <class T, class F>
constexpr auto each(const F& f) {
    std::array<T, samples<T>.size()> results{};
    for (std::size_t i = 0; i < results.size(); ++i) results[i] = f(samples<T>[i]);
    return results;
}

constexpr auto of_angle = [](auto a) { return inv(rad(a)); };
constexpr auto of_tangent = [](auto t) { return rackwork::inv_from_tangent(t); };
constexpr auto backwards = [](auto y) { return inverse_inv(y).rad(); };

/// The optimiser must not see through the arguments, or it would do at compile time what is to be done at run time.
template <class T, class F>
T at_run_time(const F& f, T x) {
    volatile T hidden = x;
    return f(static_cast<T>(hidden));
}

template <class T>
bool within_one_ulp(T a, T b) {
    return a == b || std::nextafter(a, b) == b;
}

} // namespace

TEST_CASE_TEMPLATE("compile time and run time agree to the last place", T, float, double, long double) {
    constexpr auto involutes = each<T>(of_angle);
    constexpr auto from_tangents = each<T>(of_tangent);
    constexpr auto angles = each<T>(backwards);
    bool all_equal = true;
    for (std::size_t i = 0; i < samples<T>.size(); ++i) {
        const T x = samples<T>[i];
        CHECK(within_one_ulp(at_run_time(of_angle, x), involutes[i]));
        CHECK(within_one_ulp(at_run_time(of_tangent, x), from_tangents[i]));
        CHECK(within_one_ulp(at_run_time(backwards, x), angles[i]));
        all_equal = all_equal && at_run_time(of_angle, x) == involutes[i] && at_run_time(backwards, x) == angles[i];
    }
#if !defined(__FMA__)
    CHECK(all_equal); // no product is fused with a sum: the very same bits
#endif
}

TEST_CASE_TEMPLATE("inv and its inverse are odd", T, float, double, long double) {
    for (const T x : samples<T>) {
        CHECK(inv(rad(-x)) == -inv(rad(x)));
        CHECK(rackwork::inv_from_tangent(-x) == -rackwork::inv_from_tangent(x));
        CHECK(inverse_inv(-x).rad() == -inverse_inv(x).rad());
    }
    CHECK(inv(rad(T(0))) == 0);
    CHECK(inverse_inv(T(0)).rad() == 0);
}

TEST_CASE_TEMPLATE("a larger angle never has the smaller involute, nor the other way round", T, float, double, long double) {
    support::random_source random(521);
    for (int i = 0; i < 3000; ++i) {
        T x = kernel_reference::fraction<T>(random) * T(1.5);
        for (int step = 0; step < 20; ++step) {
            const T next = std::nextafter(x, T(2));
            REQUIRE(inv(rad(next)) >= inv(rad(x)));
            // Where the formula changes the last place may fall by one.
            REQUIRE(inverse_inv(next).rad() >= std::nextafter(inverse_inv(x).rad(), T(0)));
            x = next;
        }
    }
}

TEST_CASE_TEMPLATE("an angle comes back from its involute", T, float, double, long double) {
    support::random_source random(522);
    using limits = std::numeric_limits<T>;
    for (int i = 0; i < 5000; ++i) {
        const T a = kernel_reference::fraction<T>(random) * T(1.5);
        const T back = inverse_inv(inv(rad(a))).rad();
        // An ulp of the involute is at most a third of an ulp of the angle: small angles come back to the last places.
        REQUIRE(std::fabs(back - a) <= 2 * limits::epsilon() * a);
    }
}

TEST_CASE("impossible arguments are refused by every type") {
    constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
    constexpr double endless = std::numeric_limits<double>::infinity();
    for (const double x : {not_a_number, endless, -endless}) {
        CHECK_THROWS_AS(static_cast<void>(inv(rad(x))), rackwork::geometry_error);
        CHECK_THROWS_AS(static_cast<void>(rackwork::inv_from_tangent(x)), rackwork::geometry_error);
        CHECK_THROWS_AS(static_cast<void>(inverse_inv(x)), rackwork::geometry_error);
        CHECK_THROWS_AS(static_cast<void>(inverse_inv(static_cast<float>(x))), rackwork::geometry_error);
        CHECK_THROWS_AS(static_cast<void>(inverse_inv(static_cast<long double>(x))), rackwork::geometry_error);
    }
    CHECK_THROWS_AS(static_cast<void>(inv(rad(1.5707963267948968))), rackwork::geometry_error);
    CHECK_THROWS_AS(static_cast<void>(inv(rad(-1.6L))), rackwork::geometry_error);
}
