// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function to fifty digits, and the involute of a circle as a curve.
#pragma once

#include "independent_number.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace independent {

/// tan a - a by the Taylor series of the tangent where the difference would cancel. The coefficients follow from
/// tan' = 1 + tan^2: (n + 1) t_(n+1) = [n = 0] + sum t_i t_(n-i).
inline real inv(const real& a) {
    if (a < 0) return real(-inv(real(-a)));
    if (a > real("0.5")) return real(tan(a) - a);
    static const std::vector<real> coefficients = [] {
        constexpr std::size_t degree = 121; // (1/2 / (pi/2))^120 is far below the last place
        std::vector<real> t(degree + 1, real(0));
        for (std::size_t n = 0; n < degree; ++n) {
            real sum = n == 0 ? real(1) : real(0);
            for (std::size_t i = 0; i <= n; ++i) sum += t[i] * t[n - i];
            t[n + 1] = real(sum / (n + 1));
        }
        return t;
    }();
    const real s = real(a * a);
    // A term of degree n is some (a / (pi/2))^n: of a small angle few count.
    const double shrinks = std::log2(static_cast<double>(a) / 1.5);
    const std::size_t enough = shrinks < -60 ? 5 : static_cast<std::size_t>(-180 / shrinks) + 4;
    real sum = 0;
    for (std::size_t n = std::min(coefficients.size() - 1, enough | 1); n >= 3; n -= 2) sum = real(sum * s + coefficients[n]);
    return real(sum * s * a);
}

/// tan a - a when tan a is given.
inline real inv_from_tangent(const real& tangent) {
    const real a = arc_tangent(tangent);
    return abs(tangent) < 0.5 ? inv(a) : real(tangent - a);
}

/// The tangent of the angle whose involute function is given: Newton on t - atan t, which is tame on both ends.
inline real tangent_of_inverse_inv(const real& value) {
    if (value == 0) return real(0);
    if (value < 0) return real(-tangent_of_inverse_inv(real(-value)));
    // The start: in long double, where that is no small difference there.
    real t = cbrt(real(3 * value));
    if (value > 0.001) {
        const long double wanted = static_cast<long double>(value);
        long double rough = value < 1 ? std::cbrt(3 * wanted) : wanted + std::acos(0.0L);
        for (int step = 0; step < 8; ++step) rough -= (rough - std::atan(rough) - wanted) * (1 / (rough * rough) + 1);
        t = rough;
    }
    for (int step = 0; step < 60; ++step) {
        const real square = real(t * t);
        const real move = real((inv_from_tangent(t) - value) * (1 + square) / square);
        t -= move;
        if (abs(move) <= abs(t) * 1e-28) return t; // the next would be its square
    }
    throw no_reference("the inverse of the involute function did not converge");
}

inline real inverse_inv(const real& value) {
    return arc_tangent(tangent_of_inverse_inv(value));
}

/// The involute of a circle about the origin: the end of a taut string that unwinds from the angle 0 on, as a function of the
/// unwound angle t. Beyond the cusp, t < 0, it is the mirrored branch.
template <class R>
vector3<R> involute_point(const R& base_radius, const R& t, const sine_and_cosine<R>& by) {
    return {R(base_radius * (by.cosine + t * by.sine)), R(base_radius * (by.sine - t * by.cosine)), R(0)};
}
template <class R>
vector3<R> involute_point(const R& base_radius, const R& t) {
    return involute_point(base_radius, t, sine_and_cosine<R>(t));
}

/// Unwound angle at which the involute reaches a radius.
template <class R>
R unwound_to(const R& base_radius, const R& at_radius) {
    using std::sqrt;
    const R ratio = R(at_radius / base_radius);
    const R square = R(ratio * ratio - 1);
    if (square < -1000 * epsilon_of<R>()) throw no_reference("a radius inside the base circle");
    return square > 0 ? R(sqrt(square)) : R(0);
}

} // namespace independent
