// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse for the numbers of type float, judged by double, whose own error is a billionth of theirs.
// With RACKWORK_FULL_SWEEP=1 in the environment: for every one of them, in two minutes; otherwise for one in 4099.
#include "kernel_reference.hpp"

#include <doctest/doctest.h>

#include <rackwork/involute.hpp>

#include <bit>
#include <cstdint>

namespace {

using rackwork::rad;

/// Largest error in ulp over all positive floats up to a greatest one.
struct sweep_result {
    double error = 0;
    float where = 0;
    std::uint32_t count = 0;
};

template <class OfFloat, class OfDouble>
sweep_result sweep(float greatest, const OfFloat& of_float, const OfDouble& of_double) {
    const std::uint32_t step = kernel_reference::full_sweep() ? 1 : 4099;
    sweep_result result;
    for (std::uint32_t bits = 1; bits <= std::bit_cast<std::uint32_t>(greatest); bits += step) {
        const float x = std::bit_cast<float>(bits);
        const double exact = of_double(static_cast<double>(x));
        const double difference = std::fabs(static_cast<double>(of_float(x)) - exact);
        // Most are the nearest float or its neighbour; the exact count is only needed of the worst.
        const double relative = std::fmax(std::fabs(exact), static_cast<double>((std::numeric_limits<float>::min)())) * 0x1p-24;
        if (difference > result.error * relative) {
            const double error = support::ulp_error(of_float(x), exact);
            if (error > result.error) result = {error, x, result.count};
        }
        ++result.count;
    }
    return result;
}

} // namespace

TEST_CASE("inv of a float is right to 0.51 ulp, whichever float it is") {
    const sweep_result worst = sweep(
        std::nextafter(std::numbers::pi_v<float> / 2, 0.0f), // the float nearest to pi/2 is a little beyond it
        [](float a) { return inv(rad(a)); }, [](double a) { return inv(rad(a)); });
    CHECK_MESSAGE(worst.error <= 0.51, "largest error: ", worst.error, " ulp at ", worst.where);
    CHECK(worst.count > 200000);
}

TEST_CASE("inv of a float from its tangent is right to 0.51 ulp, whichever float it is") {
    const sweep_result worst = sweep(
        (std::numeric_limits<float>::max)(), [](float t) { return rackwork::inv_from_tangent(t); },
        [](double t) { return rackwork::inv_from_tangent(t); });
    CHECK_MESSAGE(worst.error <= 0.51, "largest error: ", worst.error, " ulp at ", worst.where);
    CHECK(worst.count > 500000);
}

TEST_CASE("the inverse of inv of a float is right to 0.51 ulp, whichever float it is") {
    const sweep_result worst = sweep(
        (std::numeric_limits<float>::max)(), [](float y) { return rackwork::inverse_inv(y).rad(); },
        [](double y) { return rackwork::inverse_inv(y).rad(); });
    CHECK_MESSAGE(worst.error <= 0.51, "largest error: ", worst.error, " ulp at ", worst.where);
    CHECK(worst.count > 500000);
}
