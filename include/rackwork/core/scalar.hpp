// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The scalar type T of every template, and the few operations that all of them share.
#ifndef RACKWORK_CORE_SCALAR_HPP
#define RACKWORK_CORE_SCALAR_HPP

#include <limits>
#include <numbers>
#include <type_traits>

#if defined(__FAST_MATH__) || (defined(__FINITE_MATH_ONLY__) && __FINITE_MATH_ONLY__)
#error "Rackwork cannot be compiled with -ffast-math or -ffinite-math-only: bad input could then not be told from good."
#endif

namespace rackwork {

/// A type that can stand for a length, a factor or an angle in radians: float, double, long double, a
/// Boost.Multiprecision number, a Boost.Math autodiff variable, or any type with
///   - construction from int and from double, explicit conversion to double,
///   - + - * / (also compound), unary minus, the six comparisons,
///   - sqrt, sin, cos, tan and atan, found by argument-dependent look-up; besides, log and exp for areas and moments (form/) and pow
///     for the stress correction factor (analysis/tooth_root.hpp),
///   - a specialisation of std::numeric_limits.
template <class T>
concept scalar = std::numeric_limits<T>::is_specialized && !std::numeric_limits<T>::is_integer;

/// The circle's ratio at the precision of T.
template <scalar T>
constexpr T pi() {
    if constexpr (std::is_floating_point_v<T>) {
        return std::numbers::pi_v<T>;
    } else {
        return T(4) * atan(T(1)); // right to the last places of any T, and free of derivatives
    }
}

/// Distance from 1 to the next larger value of T.
template <scalar T>
constexpr T epsilon() {
    return T((std::numeric_limits<T>::epsilon)());
}

/// Digits of T in base two; a decimal type counts its own in base ten.
template <scalar T>
constexpr int binary_digits() {
    constexpr int digits = std::numeric_limits<T>::digits;
    return std::numeric_limits<T>::radix == 10 ? digits * 10 / 3 + 4 : digits;
}

/// True unless the value is infinite or not a number.
template <scalar T>
constexpr bool is_finite(const T& value) {
    const T greatest = T((std::numeric_limits<T>::max)());
    return -greatest <= value && value <= greatest;
}

/// The value without its sign.
template <scalar T>
constexpr T magnitude(const T& value) {
    return value < T(0) ? T(-value) : value;
}

/// The smaller of two values.
template <scalar T>
constexpr T smaller(const T& a, const T& b) {
    return b < a ? b : a;
}

/// The larger of two values.
template <scalar T>
constexpr T larger(const T& a, const T& b) {
    return a < b ? b : a;
}

/// The product of a value with itself.
template <scalar T>
constexpr T square(const T& value) {
    return value * value;
}

/// The largest whole number that is not above `value`, found by comparison alone so that it works for every scalar and at
/// compile time. `value` must lie in (-1, 2^30); the callers' tooth counts do.
template <scalar T>
constexpr int whole_part(const T& value) {
    int whole = 0;
    T rest = value; // never rounded: a step is only ever taken from less than its double
    for (int step = 1 << 29; step > 0; step /= 2) {
        if (T(step) <= rest) {
            whole += step;
            rest -= T(step);
        }
    }
    return whole;
}

} // namespace rackwork

#endif
