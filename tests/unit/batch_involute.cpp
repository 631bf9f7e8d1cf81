// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The array forms of the involute function give what the single forms give, in every place of arrays of every length.
#include "batch_bits.hpp"
#include "kernel_reference.hpp"

#include <doctest/doctest.h>

#include <rackwork/batch/involute.hpp>

#include <algorithm>
#include <vector>

namespace {

using batch_bits::same;
using rackwork::inverse_inv;
using rackwork::rad;

/// Numbers of every size up to a greatest one, with either sign, some of them 0.
std::vector<double> mixed(std::size_t count, double greatest, std::uint64_t seed) {
    support::random_source random(seed);
    std::vector<double> all(count);
    for (double& x : all) {
        switch (random.integer(0, 4)) {
        case 0: x = kernel_reference::in_powers_of_two<double>(random, -1074, -1); break;
        case 1: x = 0; break;
        default: x = kernel_reference::fraction<double>(random) * greatest;
        }
        x = std::min(x, greatest);
        if (random.coin()) x = -x;
    }
    return all;
}

/// Positive numbers up to a greatest one, a share of them from `least` on: what is done in vector registers.
std::vector<double> ordinary(std::size_t count, double greatest, double least, double share, std::uint64_t seed) {
    support::random_source random(seed);
    std::vector<double> all(count);
    for (double& x : all) {
        const bool large = random.uniform(0.0, 1.0) < share;
        x = large ? random.uniform(least, greatest) : std::min(greatest, kernel_reference::in_powers_of_two<double>(random, -40, -1));
    }
    return all;
}

} // namespace

TEST_CASE("arrays of ordinary numbers have the results of their numbers") {
    for (const std::size_t count : {1u, 63u, 64u, 65u, 6400u}) {
        std::vector<double> results(count);

        const std::vector<double> angles = ordinary(count, 1.5, 0.5, 0.5, 535);
        rackwork::batch::inv(angles, results);
        for (std::size_t i = 0; i < count; ++i) REQUIRE(same(results[i], inv(rad(angles[i]))));

        for (const double greatest : {2.0, 0x1p35, 0x1p40, 1e300}) {
            const std::vector<double> tangents = ordinary(count, greatest, 0.5, 0.4, 536);
            rackwork::batch::inv_from_tangent(tangents, results);
            for (std::size_t i = 0; i < count; ++i) REQUIRE(same(results[i], rackwork::inv_from_tangent(tangents[i])));
        }
        // Without, with a few and with many angles beyond the seam of the formulas.
        for (const double share : {0.0, 0.02, 0.5}) {
            for (const double greatest : {0.9, 1e300}) {
                const std::vector<double> values = ordinary(count, greatest, 0.55, share, 537);
                rackwork::batch::inverse_inv(values, results);
                for (std::size_t i = 0; i < count; ++i) REQUIRE(same(results[i], inverse_inv(values[i]).rad()));
            }
        }
    }
}

TEST_CASE("arrays of angles of every size and sign have the involutes of their angles") {
    for (const std::size_t count : {0u, 1u, 2u, 63u, 64u, 65u, 128u, 1000u}) {
        const std::vector<double> angles = mixed(count, std::numbers::pi / 2, 531);
        std::vector<double> involutes(count);
        rackwork::batch::inv(angles, involutes);
        for (std::size_t i = 0; i < count; ++i) REQUIRE(same(involutes[i], inv(rad(angles[i]))));
    }
}

TEST_CASE("arrays of tangents of every size and sign have the involutes of their angles") {
    for (const double greatest : {1.0, 4.0, 1e12, 1e300}) {
        const std::vector<double> tangents = mixed(1000, greatest, 532);
        std::vector<double> involutes(tangents.size());
        rackwork::batch::inv_from_tangent(tangents, involutes);
        for (std::size_t i = 0; i < tangents.size(); ++i) {
            REQUIRE(same(involutes[i], rackwork::inv_from_tangent(tangents[i])));
        }
    }
}

TEST_CASE("arrays of involutes of every size and sign have the angles of their involutes") {
    for (const double greatest : {0.1, 1.0, 100.0, 1e20, 1e308}) {
        const std::vector<double> values = mixed(1000, greatest, 533);
        std::vector<double> angles(values.size());
        rackwork::batch::inverse_inv(values, angles);
        for (std::size_t i = 0; i < values.size(); ++i) REQUIRE(same(angles[i], inverse_inv(values[i]).rad()));
    }
}

TEST_CASE("results may stand in the place of the arguments") {
    const std::vector<double> angles = mixed(777, 1.2, 534);
    std::vector<double> numbers = angles;
    rackwork::batch::inv(numbers, numbers);
    rackwork::batch::inverse_inv(numbers, numbers);
    for (std::size_t i = 0; i < angles.size(); ++i) {
        if (std::fabs(angles[i]) > 1e-100) REQUIRE(std::fabs(numbers[i] - angles[i]) <= 4e-16 * std::fabs(angles[i]));
    }
}

TEST_CASE("one impossible number anywhere in an array is refused, with its value") {
    std::vector<double> numbers(100, 0.3);
    std::vector<double> results(100);
    for (const std::size_t place : {0u, 63u, 64u, 99u}) {
        numbers[place] = 1.6;
        CHECK_THROWS_WITH_AS(rackwork::batch::inv(numbers, results), doctest::Contains("is 1.6 but must be at most"),
                             rackwork::geometry_error);
        numbers[place] = std::numeric_limits<double>::quiet_NaN();
        CHECK_THROWS_AS(rackwork::batch::inv(numbers, results), rackwork::geometry_error);
        CHECK_THROWS_AS(rackwork::batch::inv_from_tangent(numbers, results), rackwork::geometry_error);
        CHECK_THROWS_AS(rackwork::batch::inverse_inv(numbers, results), rackwork::geometry_error);
        numbers[place] = -std::numeric_limits<double>::infinity();
        CHECK_THROWS_AS(rackwork::batch::inverse_inv(numbers, results), rackwork::geometry_error);
        numbers[place] = 0.3;
    }
}

TEST_CASE("arrays of different lengths are refused") {
    const std::vector<double> numbers(10, 0.3);
    std::vector<double> results(9);
    CHECK_THROWS_WITH_AS(rackwork::batch::inv(numbers, results), doctest::Contains("number of results is 9 but must"),
                         rackwork::geometry_error);
}
