// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The helpers of the tests, held to what can be counted by hand.
#include "ulp.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <random>
#include <sstream>
#include <stdexcept>

#include <doctest/doctest.h>

using support::random_source;
using support::ulp_error;
using support::wide;
using support::within_ulp;
using support::worst_case;

namespace {
constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
} // namespace

TEST_CASE("an error is counted in units in the last place of the type under test") {
    CHECK(ulp_error(1.0, wide(1)) == 0);
    CHECK(ulp_error(1.0 + 0x1p-52, wide(1)) == 1);
    CHECK(ulp_error(-1.0 - 0x1p-51, wide(-1)) == 2);
    CHECK(ulp_error(1.0F, wide(1) + ldexp(wide(1), -24)) == 0.5);
    CHECK(ulp_error(1.0F, 1.0 + 0x1p-25) == 0.25);
    CHECK(ulp_error(wide(1), boost::multiprecision::cpp_bin_float_100(1)) == 0);
}

TEST_CASE("below a power of two the unit is half of that above it") {
    CHECK(ulp_error(1.0, wide(1) - ldexp(wide(1), -53)) == 1);
    CHECK(ulp_error(1.0 - 0x1p-53, wide(1)) == 0.5);
}

TEST_CASE("at zero and among the subnormal numbers the unit is the smallest of these") {
    CHECK(ulp_error(0.0, wide(0)) == 0);
    CHECK(ulp_error(0x1p-1074, wide(0)) == 1);
    CHECK(ulp_error(0x1p-1074, ldexp(wide(1), -1073)) == 1);
    CHECK(ulp_error(0x1p-1022, ldexp(wide(1), -1022) + ldexp(wide(1), -1074)) == 1);
}

TEST_CASE("what is no number is infinitely far from every number") {
    CHECK(ulp_error(not_a_number, wide(1)) == endless);
    CHECK(ulp_error(1.0, std::numeric_limits<wide>::quiet_NaN()) == endless);
    CHECK(ulp_error(not_a_number, std::numeric_limits<wide>::quiet_NaN()) == endless);
    CHECK(ulp_error(endless, wide(1)) == endless);
    CHECK(ulp_error(endless, std::numeric_limits<wide>::infinity()) == 0);
    CHECK(ulp_error(-endless, std::numeric_limits<wide>::infinity()) == endless);
}

TEST_CASE("a comparison passes at its bound, fails beyond it, and then says both values") {
    CHECK(within_ulp(1.0 + 0x1p-51, wide(1), 2));
    const auto beyond = within_ulp(1.0 + 0x1p-51, wide(1), 1.5);
    CHECK_FALSE(beyond);
    std::ostringstream sentence;
    sentence << beyond;
    CHECK(sentence.str() == "1.0000000000000004 (0x1.0000000000002p+0) is 2 ulp from 1, whose nearest is 1 (0x1p+0); "
                            "allowed are 1.5");
    CHECK_FALSE(within_ulp(not_a_number, wide(1), 1e300));
}

TEST_CASE("a sweep keeps its largest error, and an empty one does not pass") {
    worst_case<int> worst;
    CHECK(worst.error() == endless);
    worst.record(1.0 + 0x1p-52, wide(1), 10);
    worst.record(1.0 + 0x1p-50, wide(1), 20);
    worst.record(1.0, wide(1), 30);
    CHECK(worst.error() == 4);
    CHECK(worst.count() == 3);
    std::ostringstream sentence;
    sentence << worst;
    CHECK(sentence.str().substr(0, 6) == "at 20:");
    worst.record(not_a_number, wide(1), 40);
    CHECK(worst.error() == endless);
}

TEST_CASE("the square root of the processor is correctly rounded, and a sum of thirds is not") {
    worst_case<> root;
    for (int i = 1; i < 1000; ++i) root.record(std::sqrt(static_cast<double>(i)), sqrt(wide(i)), i);
    CHECK_MESSAGE(root.error() <= 0.5, root);
    CHECK(root.error() > 0.4);
    CHECK(ulp_error(0.1 + 0.2, wide(3) / 10) > 0.5);
}

TEST_CASE("random numbers are the same on every platform") {
    // The standard states the 10000th output of the default-seeded engine ([rand.predef]); all else here is whole-number
    // arithmetic and one correctly rounded operation.
    std::mt19937_64 engine;
    engine.discard(9999);
    CHECK(engine() == 9981545732273789042ULL);

    std::mt19937_64 bits{42};
    random_source random{42};
    CHECK(random.uniform(0, 1) == static_cast<double>(bits() >> 11) * 0x1p-53);
    CHECK(random.uniform(-3, 7) == std::fma(10.0, static_cast<double>(bits() >> 11) * 0x1p-53, -3.0));
    CHECK(random.integer(5, 5) == 5);
}

TEST_CASE("random numbers keep to their range and reach its ends") {
    random_source random{7};
    double lowest = endless;
    double highest = -endless;
    std::array<int, 3> seen{};
    for (int i = 0; i < 30000; ++i) {
        const double x = random.uniform(2, 3);
        if (x < lowest) lowest = x;
        if (x > highest) highest = x;
        const int number = random.integer(-1, 1) + 1;
        ++seen.at(static_cast<std::size_t>(number));
    }
    CHECK(lowest >= 2);
    CHECK(lowest < 2.001);
    CHECK(highest <= 3);
    CHECK(highest > 2.999);
    for (const int count : seen) {
        CHECK(count > 9500); // six standard deviations of 82 below the mean
        CHECK(count < 10500);
    }
    int negative = 0; // the whole range of int, whose count of numbers no int can hold
    for (int i = 0; i < 1000; ++i) {
        if (random.integer((std::numeric_limits<int>::min)(), (std::numeric_limits<int>::max)()) < 0) ++negative;
    }
    CHECK(negative > 400);
    CHECK(negative < 600);
    CHECK_THROWS_AS(random.uniform(1, 0), std::invalid_argument);
    CHECK_THROWS_AS(random.integer(1, 0), std::invalid_argument);
}
