// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function to fifty digits, fast enough for millions of points, and the errors of what is to be judged.
#pragma once

#include "random_source.hpp"
#include "ulp.hpp"

#include <array>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <numbers>

#include <boost/math/constants/constants.hpp>
#include <boost/multiprecision/cpp_bin_float.hpp>

namespace kernel_reference {

using support::wide;

inline wide half_pi() {
    static const wide value = boost::math::constants::half_pi<wide>();
    return value;
}

/// tan a - a. Where the difference would cancel: the tangent's power series, whose coefficients follow from tan' = 1 + tan^2.
inline wide inv(const wide& a) {
    if (a > 0.125) return wide(tan(a) - a);
    constexpr std::size_t terms = 26; // (1/8 / (pi/2))^52 is far below the last place
    static const std::array<wide, 2 * terms> t = [] {
        std::array<wide, 2 * terms> c{};
        c[1] = 1;
        for (std::size_t n = 2; n + 1 < 2 * terms; n += 2) {
            wide sum = 0;
            for (std::size_t i = 1; i < n; i += 2) sum += c[i] * c[n - i];
            c[n + 1] = sum / (n + 1);
        }
        return c;
    }();
    const wide s = a * a;
    wide sum = 0;
    for (std::size_t n = 2 * terms - 1; n >= 3; n -= 2) sum = sum * s + t[n];
    return wide(sum * s * a);
}

inline wide inv_from_tangent(const wide& t) {
    return t < 0.125 ? inv(wide(atan(t))) : wide(t - atan(t));
}

/// The exact angle near a computed one: two steps of Newton's iteration square the error twice.
template <class T>
wide inverse_inv(const T& y, const T& computed) {
    wide a(computed);
    if (y > T(1000)) {
        // So near to the pole the distance from it, h with cot h + h = y + pi/2, is what is known well.
        const wide sum = wide(y) + half_pi();
        wide h = 1 / sum;
        h += h * h * h * 2 / 3;
        for (int step = 0; step < 2; ++step) {
            const wide cotangent = 1 / tan(h);
            h += (cotangent + h - sum) / (cotangent * cotangent);
        }
        return wide(half_pi() - h);
    }
    for (int step = 0; step < 2; ++step) {
        const wide involute = inv(a);
        const wide tangent = a + involute;
        a -= (involute - wide(y)) / (tangent * tangent);
    }
    return a;
}

/// Random fractions of T in [0, 1), all of its digits used.
template <class T>
T fraction(support::random_source& random) {
    return static_cast<T>(random.uniform(0.0, 0x1.fffp-1)) + static_cast<T>(random.uniform(0.0, 0x1p-53));
}

/// Random numbers with an exponent of two from `lowest` to `highest`, each as likely.
template <class T>
T in_powers_of_two(support::random_source& random, int lowest, int highest) {
    return std::ldexp(1 + fraction<T>(random), random.integer(lowest, highest));
}

/// How often as many points as usual: 1, or 100 where the environment variable RACKWORK_FULL_SWEEP is set and not 0.
inline bool full_sweep() {
    const char* const wish = std::getenv("RACKWORK_FULL_SWEEP");
    return wish != nullptr && *wish != '\0' && *wish != '0';
}
inline int thousands(int usual) {
    return 1000 * usual * (full_sweep() ? 100 : 1);
}

} // namespace kernel_reference
