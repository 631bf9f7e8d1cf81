// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse.
#ifndef RACKWORK_INVOLUTE_HPP
#define RACKWORK_INVOLUTE_HPP

#include "core/angle.hpp"
#include "core/elementary.hpp"
#include "core/error.hpp"
#include "core/scalar.hpp"

#include <limits>

namespace rackwork {

/// Largest error of inv and of inverse_inv, in units of epsilon relative to the result (while that is a normal number).
inline constexpr int inv_error_bound = 3;
inline constexpr int inverse_inv_error_bound = 3;

namespace detail {

/// Levels of the continued fraction below that make it right to the last place of T for |a| <= 1.
/// Its relative error after n levels is below  product of a^2 / ((2k - 1) (2k + 1))  over k = 1 ... n.
template <scalar T>
constexpr int involute_levels() {
    int levels = 1;
    for (double bits = 0; bits < std::numeric_limits<T>::digits + 4; ++levels) {
        for (double product = (2.0 * levels - 1) * (2.0 * levels + 1); product >= 2; product /= 2) bits += 1;
    }
    return levels;
}

/// inv a for |a| <= 1 without cancellation, from Lambert's continued fraction of the tangent,
/// tan a = a / (1 - a^2 / (3 - a^2 / (5 - a^2 / (7 - ...)))), which gives
/// tan a - a = a^3 / (3 - a^2 - K),  K = a^2 / (5 - a^2 / (7 - ...)).
template <scalar T>
constexpr T inv_near_zero(const T& a) {
    constexpr int levels = involute_levels<T>();
    const T s = a * a;
    T tail = T(2 * levels + 5);
    for (int n = 2 * levels + 3; n >= 5; n -= 2) tail = T(n) - s / tail;
    return T(a * s / (T(3) - s - s / tail));
}

} // namespace detail

/// Involute function, inv a = tan a - a. Range: -90 to 90 degrees (exclusive). Throws geometry_error outside.
/// Full relative accuracy at every angle, also near 0 where the difference would cancel: inv_error_bound.
template <scalar T>
constexpr T inv(const angle<T>& a) {
    const T radians = a.rad();
    require(check_at_most("angle of the involute function (rad)", magnitude(radians), T(pi<T>() / T(2))));
    if (magnitude(radians) <= T(1)) return detail::inv_near_zero(radians);
    return T(elementary::tan(radians) - radians);
}

/// inv of the angle whose tangent is `tangent`. Near 90 degrees, where the angle itself holds too little, this form keeps full
/// accuracy. Throws geometry_error unless finite.
template <scalar T>
constexpr T inv_from_tangent(const T& tangent) {
    require(check_finite("tangent of a pressure angle", tangent));
    const T radians = elementary::atan(tangent);
    if (magnitude(radians) <= T(1)) return detail::inv_near_zero(radians);
    return T(tangent - radians);
}

/// The angle whose involute function is `value`. Any finite value; throws geometry_error for others.
/// Method: start from the reverted series a = c - 2/15 c^3 + 3/175 c^5 - 2/1575 c^7, c^3 = 3 value (or from
/// tan a = value + a where the angle is large), then Newton's iteration with derivative tan^2 a. The number of steps follows from
/// the digits of T, since each doubles the places. Accuracy: inverse_inv_error_bound.
template <scalar T>
constexpr angle<T> inverse_inv(const T& value) {
    require(check_finite("value of the involute function", value));
    if (value < T(0)) return -inverse_inv(T(-value));
    const T c = elementary::cbrt_estimate(T(T(3) * value));
    // Below this the series' first term is exact and the iteration would suffer from underflow. (At value 0 it also gives 0.)
    if (c < epsilon<T>() && value < T((std::numeric_limits<T>::min)()) / epsilon<T>()) return rad(c);
    T a = c;
    if (c < T(1.25)) {
        const T s = c * c;
        a = c * (T(1) - s * (T(2) / T(15) - s * (T(3) / T(175) - s * T(2) / T(1575))));
    } else {
        T tangent = value + T(1.25);
        for (int i = 0; i < 3; ++i) tangent = value + elementary::atan(tangent);
        a = elementary::atan(tangent);
        if (value > T(1) / epsilon<T>()) return rad(a); // as near to 90 degrees as T can tell
    }
    int steps = 3;
    for (int bits = 40; bits < std::numeric_limits<T>::digits; bits *= 2) ++steps;
    for (int i = 0; i < steps; ++i) {
        const T tangent = elementary::tan(a);
        const T excess = a <= T(1) ? T(detail::inv_near_zero(a) - value) : T((tangent - a) - value);
        a -= excess / (tangent * tangent);
    }
    return rad(a);
}

} // namespace rackwork

#endif
