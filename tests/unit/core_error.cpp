// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What is said of impossible input, and the small functions that find it.
#include <rackwork/core/error.hpp>
#include <rackwork/core/point.hpp>
#include <rackwork/core/scalar.hpp>

#include <doctest/doctest.h>

#include <array>
#include <clocale>
#include <cmath>
#include <limits>
#include <string>
#include <type_traits>

using rackwork::geometry_error;
using rackwork::sentence;
using rackwork::violation;

namespace {
constexpr double infinite = std::numeric_limits<double>::infinity();
const double not_a_number = std::nan("");
} // namespace

// A violation can be made and asked while compiling; a geometry_error is caught as a domain error.
static_assert(!violation{} && violation{"teeth", 0, "must be at least", 1});
static_assert(!rackwork::check_greater("module", 2.0, 0.0) && rackwork::check_greater("module", 0.0, 0.0));
static_assert(rackwork::check_at_least("teeth", 1.0, 1.0).quantity == nullptr && rackwork::check_at_least("teeth", 0.0, 1.0).limit == 1);
static_assert(std::is_base_of_v<std::domain_error, geometry_error> && std::is_nothrow_copy_constructible_v<geometry_error>);

TEST_CASE("a violation reads as a sentence") {
    CHECK(sentence({}) == "");
    CHECK(sentence({"teeth", 0, "must be at least", 1}) == "teeth is 0 but must be at least 1");
    CHECK(sentence({"normal_module", -0.5, "must be greater than", 0}) == "normal_module is -0.5 but must be greater than 0");
    CHECK(sentence({"helix_angle (deg)", 0, "must not be zero", 0, false}) == "helix_angle (deg) is 0 but must not be zero");
    CHECK(sentence({"addendum", not_a_number, "must be a finite number", 0, false}) == "addendum is not a number but must be a finite number");
    CHECK(sentence({"addendum", std::copysign(not_a_number, -1.0), "must be a finite number", 0, false}) ==
          "addendum is not a number but must be a finite number");
    CHECK(sentence({"addendum", -infinite, "must be a finite number", 0, false}) == "addendum is -inf but must be a finite number");
    CHECK(sentence({"a", 0.1, "must be less than", 1e-7}) == "a is 0.1 but must be less than 1e-07");
    CHECK(sentence({"a", 1.0 / 3, "must be at most", -(std::numeric_limits<double>::max)()}) ==
          "a is 0.333333333333333 but must be at most -1.79769313486232e+308");
    CHECK(sentence({"a", std::numeric_limits<double>::denorm_min(), "must be at least", -2.2250738585072014e-308}) ==
          "a is 4.94065645841247e-324 but must be at least -2.2250738585072e-308");
    // Fifteen digits hide what radians make of whole degrees; more are shown where they alone tell value and limit apart.
    CHECK(sentence({"a", 14.999999999999998, "must be at least", 20}) == "a is 15 but must be at least 20");
    CHECK(sentence({"a", 14.999999999999998, "must be at least", 15}) == "a is 14.999999999999998 but must be at least 15");
}

TEST_CASE("the sentence does not follow the locale's decimal comma") {
    const std::string before = std::setlocale(LC_ALL, nullptr);
    for (const char* locale : {"de_DE.UTF-8", "fr_FR.UTF-8", "C.UTF-8"}) {
        std::setlocale(LC_ALL, locale); // does nothing where the locale is not installed
        CHECK(sentence({"a", 1.5, "must be less than", 0.25}) == "a is 1.5 but must be less than 0.25");
    }
    std::setlocale(LC_ALL, before.c_str());
}

TEST_CASE("an error carries its sentence and its cause") {
    try {
        rackwork::require(rackwork::check_less("helix_angle (deg)", 91.0, 90.0));
        FAIL("nothing was thrown");
    } catch (const std::domain_error& error) {
        CHECK(std::string{error.what()} == "helix_angle (deg) is 91 but must be less than 90");
        const auto* own = dynamic_cast<const geometry_error*>(&error);
        REQUIRE(own != nullptr);
        CHECK(std::string{own->cause().quantity} == "helix_angle (deg)");
        CHECK(own->cause().value == 91);
        CHECK(own->cause().limit == 90);
        CHECK(own->cause().has_limit);
    }
    CHECK_NOTHROW(rackwork::require({}));
}

TEST_CASE_TEMPLATE("each check holds exactly where its words say", T, float, double, long double) {
    using limits = std::numeric_limits<T>;
    const std::array<T, 13> numbers{T(0), T(-0.0), T(1), T(-1), limits::denorm_min(), -limits::denorm_min(), (limits::max)(), -(limits::max)(),
                                    limits::epsilon(), T(1) + limits::epsilon(), limits::infinity(), -limits::infinity(), limits::quiet_NaN()};
    for (const T& value : numbers) {
        CHECK(!rackwork::check_finite("a", value) == std::isfinite(value));
        for (const T& limit : numbers) {
            if (!std::isfinite(limit)) continue;
            const bool finite = std::isfinite(value);
            CHECK(!rackwork::check_greater("a", value, limit) == (finite && value > limit));
            CHECK(!rackwork::check_at_least("a", value, limit) == (finite && value >= limit));
            CHECK(!rackwork::check_less("a", value, limit) == (finite && value < limit));
            CHECK(!rackwork::check_at_most("a", value, limit) == (finite && value <= limit));
        }
    }
}

TEST_CASE("of several violations the first is reported") {
    const violation none;
    const violation first{"first", 1, "must be less than", 0};
    const violation second{"second", 2, "must be less than", 0};
    CHECK(!rackwork::first_of(none, none, none));
    CHECK(std::string{rackwork::first_of(none, first, second).quantity} == "first");
    CHECK(std::string{rackwork::first_of(none, none, second).quantity} == "second");
    CHECK(std::string{rackwork::first_of(second).quantity} == "second");
}

TEST_CASE_TEMPLATE("a finite number is told from an infinite one and from none", T, float, double, long double) {
    using limits = std::numeric_limits<T>;
    for (const T finite : {T(0), T(-0.0), T(3), limits::denorm_min(), (limits::min)(), (limits::max)(), limits::lowest()}) {
        CHECK(rackwork::is_finite(finite));
    }
    for (const T bad : {limits::infinity(), -limits::infinity(), limits::quiet_NaN(), -limits::quiet_NaN()}) CHECK(!rackwork::is_finite(bad));
}

TEST_CASE_TEMPLATE("the whole part is the floor", T, float, double, long double) {
    for (int whole : {0, 1, 2, 3, 7, 8, 100, 4095, 4096, 8388607}) {
        const T exact = static_cast<T>(whole);
        CHECK(rackwork::whole_part(exact) == whole);
        CHECK(rackwork::whole_part(std::nextafter(T(whole + 1), T(0))) == whole);
        CHECK(rackwork::whole_part(T(exact + T(0.25))) == whole);
        if (whole > 0) CHECK(rackwork::whole_part(std::nextafter(exact, T(0))) == whole - 1);
    }
    CHECK(rackwork::whole_part(T(-0.5)) == 0); // the range begins above -1, and no count is negative
    CHECK(rackwork::whole_part(static_cast<T>(1 << 29)) == 1 << 29);
}

TEST_CASE("points turn, mirror and measure like vectors") {
    using rackwork::point;
    constexpr point<double> a{3, 4};
    static_assert(dot(a, a) == 25 && length(a) == 5 && cross(point<double>{1, 0}, point<double>{0, 1}) == 1);
    static_assert(a + point<double>{1, -1} == point<double>{4, 3} && a - a == point<double>{} && 2.0 * a == point<double>{6, 8});
    static_assert(mirrored(a) == point<double>{3, -4} && turned(a, point<double>{0, 1}) == point<double>{-4, 3});
    for (double angle = -7; angle < 7; angle += 0.3) {
        CHECK(length(rackwork::direction(angle)) == doctest::Approx(1).epsilon(1e-15));
        CHECK(turned(point<double>{1, 0}, angle) == rackwork::direction(angle));
        CHECK(length(turned(a, angle)) == doctest::Approx(5).epsilon(1e-15));
        CHECK(cross(a, turned(a, angle)) == doctest::Approx(25 * std::sin(angle)).epsilon(1e-12));
    }
}
