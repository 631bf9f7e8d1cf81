// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse.
#ifndef RACKWORK_INVOLUTE_HPP
#define RACKWORK_INVOLUTE_HPP

#include "core/angle.hpp"
#include "core/elementary.hpp"
#include "core/error.hpp"
#include "core/involute_kernel.hpp"
#include "core/scalar.hpp"

#include <cmath>
#include <limits>
#include <type_traits>

namespace rackwork {

/// Largest error of inv, inv_from_tangent and inverse_inv for float, double and the 80-bit long double, in units in the last place
/// of the result. (Where the result is a normal number this is also a bound in units of epsilon.) Found on millions of arguments, for
/// float on all: inv 0.6, inv_from_tangent 1.2, inverse_inv 1.2. For other scalars the bound is 4 epsilon, but
/// inv above 1 radian is as good as their tan, and inv_from_tangent as their atan: with Boost.Multiprecision 64 epsilon.
inline constexpr int inv_error_bound = 2;
inline constexpr int inverse_inv_error_bound = 2;

namespace detail {

/// True where involute_kernel.hpp has the functions.
template <class T>
inline constexpr bool has_involute_kernel =
    std::is_floating_point_v<T> && (std::numeric_limits<T>::digits <= 53 || std::numeric_limits<T>::digits == 64);

/// The type in which it has them: T itself, or double where long double is no more than that.
template <class T>
using involute_kernel_type =
    std::conditional_t<std::is_same_v<T, long double> && std::numeric_limits<T>::digits == 53, double, T>;

/// A number's magnitude, and a value for it made odd, without a branch at run time.
template <class F>
constexpr F magnitude_of(F x) {
    return std::is_constant_evaluated() ? magnitude(x) : std::fabs(x);
}
template <class F>
constexpr F odd(F of_magnitude, F x) {
    return of_magnitude * (std::is_constant_evaluated() ? (x < F(0) ? F(-1) : F(1)) : std::copysign(F(1), x));
}

/// Levels of the continued fraction below that make it right to the last place of T for |a| <= 1.
/// Its relative error after n levels is below  product of a^2 / ((2k - 1) (2k + 1))  over k = 1 ... n.
template <scalar T>
constexpr int involute_levels() {
    int levels = 1;
    for (double bits = 0; bits < binary_digits<T>() + 4; ++levels) {
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

/// inverse_inv of a positive value for any scalar: Newton's iteration with derivative tan^2 a. It starts from double's angle, or, where
/// double does not reach, from a = c, c^3 = 3 value, or tan a = value + a. The number of steps follows from the digits of T, since
/// each doubles the places. Derivatives are carried by the steps alone, each of which doubles the orders that are right as well:
/// at least three, for all orders up to the seventh.
template <scalar T>
constexpr T inverse_inv_by_iteration(const T& value) {
    T a = T(0);
    if (value < T(0x1p-900)) {
        a = elementary::cbrt_estimate(T(T(3) * value));
        // Where the iteration would suffer from underflow. (Also at value 0.)
        if (value < T((std::numeric_limits<T>::min)()) / epsilon<T>()) return a;
    } else if (value < T(0x1p20)) {
        a = T(involute_kernel::inverse_inv(static_cast<double>(value)));
    } else {
        T tangent = value + T(1.5);
        for (int i = 0; i < 3; ++i) tangent = value + elementary::atan(tangent);
        a = elementary::atan(tangent);
        if (value > T(1) / epsilon<T>()) return a; // as near to 90 degrees as T can tell
    }
    int steps = 3;
    for (int bits = 400; bits < binary_digits<T>(); bits *= 2) ++steps;
    for (int i = 0; i < steps; ++i) {
        const T tangent = elementary::tan(a);
        const T excess = a <= T(1) ? T(inv_near_zero(a) - value) : T((tangent - a) - value);
        a -= excess / (tangent * tangent);
    }
    return a;
}

template <scalar T>
constexpr violation check_angle(const T& radians) {
    // The nearest number to pi/2 lies beyond the pole for some types, as for float; its neighbour, an epsilon less, does not.
    const T nearest = pi<T>() / T(2);
    const T greatest = elementary::cos(nearest) < T(0) ? T(nearest - epsilon<T>()) : nearest;
    return check_magnitude("angle of the involute function (rad)", radians, greatest);
}

} // namespace detail

/// Involute function, inv a = tan a - a. Range: -90 to 90 degrees (exclusive). Throws geometry_error outside.
/// Full relative accuracy at every angle, also near 0 where the difference would cancel: inv_error_bound.
template <scalar T>
constexpr T inv(const angle<T>& a) {
    const T radians = a.rad();
    if constexpr (detail::has_involute_kernel<T>) {
        using kernel_type = detail::involute_kernel_type<T>;
        const auto positive = detail::magnitude_of(static_cast<kernel_type>(radians));
        if (!(positive <= kernel_type(1.5))) require(detail::check_angle(radians));
        return detail::odd(T(involute_kernel::inv(positive)), radians);
    } else {
        const T positive = magnitude(radians);
        if (!(positive <= T(1.5))) require(detail::check_angle(radians)); // asked in two steps, since pi is costly for some scalars
        if (positive <= T(1)) return detail::inv_near_zero(radians);
        return T(elementary::tan(radians) - radians);
    }
}

/// inv of the angle whose tangent is `tangent`, t - atan t. Near 90 degrees, where the angle itself holds too little, this form keeps
/// full accuracy: inv_error_bound. Throws geometry_error unless finite.
template <scalar T>
constexpr T inv_from_tangent(const T& tangent) {
    if constexpr (detail::has_involute_kernel<T>) {
        using kernel_type = detail::involute_kernel_type<T>;
        const auto positive = detail::magnitude_of(static_cast<kernel_type>(tangent));
        if (!(positive <= kernel_type(1))) require(check_finite("tangent of a pressure angle", tangent));
        return detail::odd(T(involute_kernel::inv_from_tangent(positive)), tangent);
    } else {
        require(check_finite("tangent of a pressure angle", tangent));
        const T radians = elementary::atan(tangent);
        if (magnitude(radians) <= T(1)) return detail::inv_near_zero(radians);
        return T(tangent - radians);
    }
}

/// The angle whose involute function is `value`. Any finite value; throws geometry_error for others.
/// Accuracy: inverse_inv_error_bound.
template <scalar T>
constexpr angle<T> inverse_inv(const T& value) {
    if constexpr (detail::has_involute_kernel<T>) {
        using kernel_type = detail::involute_kernel_type<T>;
        const auto positive = detail::magnitude_of(static_cast<kernel_type>(value));
        if (!(positive <= kernel_type(1))) require(check_finite("value of the involute function", value));
        return rad(detail::odd(T(involute_kernel::inverse_inv(positive)), value));
    } else {
        require(check_finite("value of the involute function", value));
        const T radians = detail::inverse_inv_by_iteration(magnitude(value));
        return rad(value < T(0) ? T(-radians) : radians);
    }
}

/// Tangent of the angle whose involute function is `value`, which is value + inverse_inv(value). Unlike the angle itself it keeps its
/// places near 90 degrees. Throws geometry_error unless finite.
template <scalar T>
constexpr T tangent_of_inverse_inv(const T& value) {
    return T(value + inverse_inv(value).rad());
}

} // namespace rackwork

#endif
