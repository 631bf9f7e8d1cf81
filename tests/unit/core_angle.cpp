// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The angle type: made by name, read by name, never a bare number.
#include "random_source.hpp"
#include "ulp.hpp"

#include <rackwork/core/angle.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <concepts>
#include <numbers>
#include <type_traits>

using rackwork::angle;
using rackwork::deg;
using rackwork::rad;
using namespace rackwork::literals;

namespace {

template <class A, class B>
concept can_add = requires(A a, B b) { a + b; };
template <class A, class B>
concept can_subtract = requires(A a, B b) { a - b; };
template <class A, class B>
concept can_multiply = requires(A a, B b) { a * b; };
template <class A, class B>
concept can_divide = requires(A a, B b) { a / b; };
template <class A, class B>
concept can_compare = requires(A a, B b) { a < b; };
template <class A, class B>
concept can_equate = requires(A a, B b) { a == b; };
template <class A, class B>
concept can_assign = requires(A& a, B b) { a = b; };
template <class A, class B>
concept can_add_to = requires(A& a, B b) { a += b; };
template <class A>
concept has_standard_sine = requires(A a) { std::sin(a); };

using of_double = angle<double>;

} // namespace

// No number becomes an angle unasked, and no angle a number.
static_assert(!std::is_convertible_v<double, of_double> && !std::is_convertible_v<int, of_double>);
static_assert(!std::is_constructible_v<of_double, double> && !std::is_constructible_v<of_double, int>);
static_assert(!std::is_convertible_v<of_double, double> && !std::is_constructible_v<double, of_double>);
static_assert(!std::is_constructible_v<bool, of_double> && !std::is_constructible_v<int, of_double>);
static_assert(!can_assign<of_double, double> && !can_assign<of_double, int> && !can_assign<double, of_double>);
static_assert(!can_add<of_double, double> && !can_add<double, of_double> && !can_add<of_double, int>);
static_assert(!can_subtract<of_double, double> && !can_subtract<double, of_double>);
static_assert(!can_add_to<of_double, double> && !can_add_to<double, of_double>);
static_assert(!can_compare<of_double, double> && !can_compare<double, of_double> && !can_compare<of_double, int>);
static_assert(!can_equate<of_double, double> && !can_equate<double, of_double>);
static_assert(!can_divide<double, of_double>);
static_assert(!can_multiply<of_double, of_double>); // no square angles here
static_assert(!has_standard_sine<of_double>);

// What angles can do.
static_assert(can_add<of_double, of_double> && can_subtract<of_double, of_double> && can_compare<of_double, of_double>);
static_assert(std::same_as<decltype(deg(20.0) * 2.0), of_double> && std::same_as<decltype(2.0 * deg(20.0)), of_double>);
static_assert(std::same_as<decltype(deg(20.0) / 2.0), of_double> && std::same_as<decltype(deg(20.0) / deg(10.0)), double>);

// A whole number of degrees is an angle of double; other numbers keep their type.
static_assert(std::same_as<decltype(deg(20)), of_double> && std::same_as<decltype(rad(1)), of_double>);
static_assert(std::same_as<decltype(deg(20.0F)), angle<float>> && std::same_as<decltype(rad(0.5L)), angle<long double>>);
static_assert(std::same_as<decltype(20_deg), of_double> && std::same_as<decltype(0.35_rad), of_double>);

// Places are never made up: an angle of few places does not become one of many, the other way it is rounded.
static_assert(std::is_convertible_v<of_double, angle<float>> && std::is_convertible_v<angle<long double>, of_double>);
static_assert(!std::is_convertible_v<angle<float>, of_double> && !std::is_constructible_v<of_double, angle<float>>);
static_assert(!std::is_convertible_v<of_double, angle<long double>>);

// Exact statements.
static_assert(deg(0.0).rad() == 0 && angle<double>{}.rad() == 0 && angle<double>{} == 0_deg);
static_assert(deg(180.0).rad() == std::numbers::pi && deg(180).rad() == std::numbers::pi && 180_deg == rad(std::numbers::pi));
static_assert(deg(90.0).rad() == std::numbers::pi / 2 && deg(45.0).rad() == std::numbers::pi / 4 && deg(360.0).rad() == 2 * std::numbers::pi);
static_assert(deg(-180.0).rad() == -std::numbers::pi && deg(22.5).rad() == std::numbers::pi / 8);
static_assert(deg(180.0F).rad() == std::numbers::pi_v<float> && deg(180.0L).rad() == std::numbers::pi_v<long double>);
static_assert(rad(std::numbers::pi).deg() == 180 && rad(std::numbers::pi / 2).deg() == 90 && rad(-std::numbers::pi / 4).deg() == -45);
static_assert(rad(0.35).rad() == 0.35 && 0.35_rad == rad(0.35) && 20_deg == 20.0_deg && 20_deg == deg(20));
static_assert(2_rad == rad(2) && 22.5_deg == deg(22.5));

// Arithmetic.
static_assert(-(30_deg) == deg(-30) && 45_deg + 45_deg == 90_deg && 90_deg - 45_deg == 45_deg);
static_assert(2.0 * (45_deg) == 90_deg && (45_deg) * 2.0 == 90_deg && (90_deg) / 2.0 == 45_deg && (90_deg) / (45_deg) == 2);
static_assert(1_deg < 2_deg && 2_deg > 1_deg && 1_deg <= 1_deg && 1_deg >= 1_deg && 1_deg != 2_deg);
static_assert(!(1_deg < 1_deg) && !(1_deg > 1_deg) && !(2_deg <= 1_deg) && !(1_deg >= 2_deg) && !(2_deg < 1_deg) && !(1_deg > 2_deg));
static_assert(-(1_deg) < 0_deg);

namespace {
constexpr angle<double> added_up() {
    angle<double> a = 45_deg;
    a += 45_deg;
    a -= 22.5_deg;
    return a;
}
} // namespace
static_assert(added_up() == 67.5_deg);

TEST_CASE_TEMPLATE("degrees become radians and radians degrees within two units of the last place", T, float, double, long double) {
    support::random_source random{5};
    const support::wide pi = boost::math::constants::pi<support::wide>();
    support::worst_case<T> to_radians;
    support::worst_case<T> to_degrees;
    for (int i = 0; i < 20000; ++i) {
        const T given = static_cast<T>(random.uniform(-1, 1)) * static_cast<T>(std::exp2(random.uniform(-60, 10)));
        to_radians.record(deg(given).rad(), support::wide(support::wide(given) * pi / 180), given);
        to_degrees.record(rad(given).deg(), support::wide(support::wide(given) * 180 / pi), given);
    }
    // Two operations and the rounding of pi.
    CHECK_MESSAGE(to_radians.error() <= 2, to_radians);
    CHECK_MESSAGE(to_degrees.error() <= 2, to_degrees);
}

TEST_CASE("sine, cosine and tangent of an angle are those of its radians") {
    for (double degrees = -170; degrees < 180; degrees += 7) {
        const double radians = deg(degrees).rad();
        CHECK(sin(deg(degrees)) == std::sin(radians));
        CHECK(cos(deg(degrees)) == std::cos(radians));
        CHECK(tan(deg(degrees)) == std::tan(radians));
    }
    CHECK(rackwork::arctangent(1.0) == 45_deg);
    CHECK(rackwork::arctangent(-1.0) == -(45_deg));
    CHECK(rackwork::arctangent(0.5).rad() == std::atan(0.5));
}

TEST_CASE("an angle narrows by rounding its radians once") {
    const angle<double> wide = deg(20.0);
    const angle<float> narrow = wide;
    CHECK(narrow.rad() == static_cast<float>(wide.rad()));
    const angle<double> from_extended = deg(20.0L);
    CHECK(from_extended.rad() == static_cast<double>(deg(20.0L).rad()));
}
