// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The committed coefficients do what their comments say: each polynomial, to fifty digits, against the function that it stands for.
#include "kernel_reference.hpp"

#include <doctest/doctest.h>

#include <rackwork/core/involute_kernel.hpp>

#include <vector>

namespace {

namespace kernel = rackwork::involute_kernel;
using kernel_reference::half_pi;
using support::wide;

/// The coefficients of a table, or of one in two parts.
template <class... Parts>
std::vector<wide> all_of(const Parts&... parts) {
    std::vector<wide> all;
    (all.insert(all.end(), parts.begin(), parts.end()), ...);
    return all;
}

wide value_of(const std::vector<wide>& coefficients, const wide& x) {
    wide sum = 0;
    for (std::size_t k = coefficients.size(); k-- > 0;) sum = sum * x + coefficients[k];
    return sum;
}

/// Largest |error(x)| over (0, top], at more than ten times as many points as the fit had, as a power of two.
template <class Error>
double largest(const wide& top, const Error& error) {
    constexpr int points = 3001;
    wide worst = 0;
    for (int i = 1; i <= points; ++i) {
        // Denser towards both ends, where the errors of best polynomials change fastest.
        const wide x = top * (1 - cos(wide(half_pi() * 2 * i / points))) / 2;
        const wide size = abs(wide(error(x)));
        if (size > worst) worst = size;
    }
    return std::log2(static_cast<double>(worst));
}

double error_of_numerator(const std::vector<wide>& coefficients) {
    const wide pole = half_pi() * half_pi();
    return largest(wide(pole * (1 - 1e-12)), [&](const wide& s) {
        const wide a = sqrt(s);
        const wide numerator = kernel_reference::inv(a) / (a * s) * (pole - s);
        return wide((pole / 3 + s * value_of(coefficients, s)) / numerator - 1);
    });
}

double error_near_zero(const std::vector<wide>& coefficients) {
    const wide seam = kernel::inverse_inv_seam;
    const wide c_top = cbrt(wide(3 * seam));
    return largest(wide(c_top * c_top), [&](const wide& z) {
        const wide c = sqrt(z);
        const wide y = c * z / 3;
        wide a = c - c * z * 2 / 15 + c * z * z * 3 / 175;
        for (int step = 0; step < 7; ++step) {
            const wide involute = kernel_reference::inv(a);
            a -= (involute - y) / ((a + involute) * (a + involute));
        }
        return wide((c + y * value_of(coefficients, z)) / a - 1);
    });
}

double error_near_pole(const std::vector<wide>& coefficients) {
    const wide t_top = 1 / (kernel::inverse_inv_seam + half_pi());
    return largest(wide(t_top * t_top), [&](const wide& s) {
        const wide t = sqrt(s);
        wide h = t + t * s * 2 / 3;
        for (int step = 0; step < 7; ++step) {
            const wide cotangent = 1 / tan(h);
            h += (cotangent + h - 1 / t) / (cotangent * cotangent);
        }
        return wide((h - (t + t * s * value_of(coefficients, s))) / (half_pi() - h));
    });
}

/// Largest error of c_0 + c_0 e S(e) relative to the cube root of 3 y, the kernel's own guess c_0 taken, over y in [1, 8).
double error_of_cube_root(const std::vector<wide>& coefficients) {
    support::random_source random(511);
    wide worst = 0;
    for (int i = 0; i < 20000; ++i) {
        const double y = random.uniform(1.0, 7.999);
        const double c_0 = kernel::rough_cube_root_of_triple(y);
        const wide exact = cbrt(wide(3 * wide(y)));
        const wide e = 1 - wide(c_0) * c_0 * c_0 / (3 * wide(y));
        const wide error = abs(wide((c_0 + c_0 * e * value_of(coefficients, e)) / exact - 1));
        if (error > worst) worst = error;
    }
    return std::log2(static_cast<double>(worst));
}

double error_of_arctangent() {
    const std::vector<wide> coefficients = all_of(kernel::rough_arctangent);
    return largest(wide(1), [&](const wide& s) {
        const wide w = sqrt(s);
        return wide(w * value_of(coefficients, s) / atan(w) - 1);
    });
}

} // namespace

TEST_CASE("the numerator without the tangent's first pole is as near as stated") {
    CHECK(error_of_numerator(all_of(kernel::numerator_float)) < -32.0);
    CHECK(error_of_numerator(all_of(kernel::numerator_double)) < -57.5);
    CHECK(error_of_numerator(all_of(kernel::numerator_long_double, kernel::numerator_long_double_tail)) < -72.0);
}

TEST_CASE("the rest of the cube root is as near as stated for every guess") {
    CHECK(error_of_cube_root(all_of(kernel::cube_root_float)) < -35.0);
    CHECK(error_of_cube_root(all_of(kernel::cube_root_double)) < -57.5);
    CHECK(error_of_cube_root(all_of(kernel::cube_root_long_double, kernel::cube_root_long_double_tail)) < -70.0);
}

TEST_CASE("the angle from its cube root is as near as stated") {
    CHECK(error_near_zero(all_of(kernel::near_zero_float)) < -35.0);
    CHECK(error_near_zero(all_of(kernel::near_zero_double)) < -57.5);
    CHECK(error_near_zero(all_of(kernel::near_zero_long_double, kernel::near_zero_long_double_tail)) < -70.0);
}

TEST_CASE("the angle from its distance to the pole is as near as stated") {
    CHECK(error_near_pole(all_of(kernel::near_pole_float)) < -31.0);
    CHECK(error_near_pole(all_of(kernel::near_pole_double)) < -57.5);
    CHECK(error_near_pole(all_of(kernel::near_pole_long_double, kernel::near_pole_long_double_tail)) < -70.0);
}

TEST_CASE("the rough arctangent is as near as its use needs") {
    CHECK(error_of_arctangent() < -22.0);
}

TEST_CASE("split numbers are what they stand for to twice the digits") {
    const auto error = [](const auto& split, const wide& exact) {
        return std::log2(static_cast<double>(abs(wide((wide(split.head) + wide(split.rest)) / exact - 1))));
    };
    CHECK(error(kernel::half_pi_double, half_pi()) < -106.0);
    CHECK(error(kernel::half_pi_long_double, half_pi()) < -126.0);
    CHECK(error(kernel::numerator_at_zero_double, wide(half_pi() * half_pi() / 3)) < -70.0);
    CHECK(error(kernel::numerator_at_zero_long_double, wide(half_pi() * half_pi() / 3)) < -80.0);
}
