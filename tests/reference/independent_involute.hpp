// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function to fifty digits, and the involute of a circle as a curve.
#pragma once

#include "independent_number.hpp"

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
    real sum = 0;
    for (std::size_t n = coefficients.size(); n-- > 3;) {
        if (n % 2 == 1) sum = real(sum * s + coefficients[n]);
    }
    return real(sum * s * a);
}

/// tan a - a when tan a is given.
inline real inv_from_tangent(const real& tangent) {
    return abs(tangent) < real("0.5") ? inv(real(atan(tangent))) : real(tangent - atan(tangent));
}

/// The tangent of the angle whose involute function is given: Newton on t - atan t, which is tame on both ends.
inline real tangent_of_inverse_inv(const real& value) {
    if (value == 0) return real(0);
    if (value < 0) return real(-tangent_of_inverse_inv(real(-value)));
    real t = value < 1 ? real(cbrt(real(3 * value))) : real(value + pi() / 2);
    for (int step = 0; step < 60; ++step) {
        const real square = real(t * t);
        const real move = real((inv_from_tangent(t) - value) * (1 + square) / square);
        t -= move;
        if (abs(move) <= abs(t) * real("1e-49")) return t;
    }
    throw no_reference("the inverse of the involute function did not converge");
}

inline real inverse_inv(const real& value) {
    return real(atan(tangent_of_inverse_inv(value)));
}

/// The involute of a circle about the origin: the end of a taut string that unwinds from the angle 0 on, as a function of the
/// unwound angle t. Beyond the cusp, t < 0, it is the mirrored branch.
template <class R>
vector3<R> involute_point(const R& base_radius, const R& t) {
    using std::cos;
    using std::sin;
    const R c = cos(t);
    const R s = sin(t);
    return {R(base_radius * (c + t * s)), R(base_radius * (s - t * c)), R(0)};
}

/// Unwound angle at which the involute reaches a radius.
inline real unwound_to(const real& base_radius, const real& at_radius) {
    const real ratio = real(at_radius / base_radius);
    const real square = real(ratio * ratio - 1);
    if (square < real("-1e-47")) throw no_reference("a radius inside the base circle");
    return square > 0 ? real(sqrt(square)) : real(0);
}

} // namespace independent
