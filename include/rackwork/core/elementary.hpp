// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// sqrt, sin, cos, tan, atan for every scalar: the library's own code during constant evaluation, <cmath> for the standard
// floating-point types at run time, argument-dependent look-up for all others.
#ifndef RACKWORK_CORE_ELEMENTARY_HPP
#define RACKWORK_CORE_ELEMENTARY_HPP

#include "constant_evaluation.hpp"
#include "scalar.hpp"

#include <cmath>
#include <type_traits>

namespace rackwork::elementary {

/// Square root. Accuracy: correctly rounded for standard types, exact squares exact also at compile time.
template <scalar T>
constexpr T sqrt(const T& x) {
    using std::sqrt;
    if constexpr (std::is_floating_point_v<T>) {
        if (std::is_constant_evaluated()) return constant_evaluation::sqrt(x);
    }
    return sqrt(x);
}

/// Cube root to a few places: only ever the start of an iteration, so that scalars need not offer one.
template <scalar T>
constexpr T cbrt_estimate(const T& x) {
    if constexpr (std::is_floating_point_v<T>) {
        if (std::is_constant_evaluated()) return constant_evaluation::cbrt(x);
        return std::cbrt(x);
    } else {
        // 2^900 at a time, until the value is within the range of double.
        T rest = x;
        T factor = T(1);
        for (; magnitude(rest) < T(0x1p-900) && rest != T(0); rest *= T(0x1p900)) factor *= T(0x1p-300);
        for (; magnitude(rest) > T(0x1p900); rest *= T(0x1p-900)) factor *= T(0x1p300);
        return T(factor * T(std::cbrt(static_cast<double>(rest))));
    }
}

/// Sine of an angle in radians.
template <scalar T>
constexpr T sin(const T& x) {
    using std::sin;
    if constexpr (std::is_floating_point_v<T>) {
        if (std::is_constant_evaluated()) return constant_evaluation::sin(x);
    }
    return sin(x);
}

/// Cosine of an angle in radians.
template <scalar T>
constexpr T cos(const T& x) {
    using std::cos;
    if constexpr (std::is_floating_point_v<T>) {
        if (std::is_constant_evaluated()) return constant_evaluation::cos(x);
    }
    return cos(x);
}

/// Tangent of an angle in radians.
template <scalar T>
constexpr T tan(const T& x) {
    using std::tan;
    if constexpr (std::is_floating_point_v<T>) {
        if (std::is_constant_evaluated()) return constant_evaluation::tan(x);
    }
    return tan(x);
}

/// Arctangent in radians, in [-pi/2, pi/2].
template <scalar T>
constexpr T atan(const T& x) {
    using std::atan;
    if constexpr (std::is_floating_point_v<T>) {
        if (std::is_constant_evaluated()) return constant_evaluation::atan(x);
    }
    return atan(x);
}

} // namespace rackwork::elementary

#endif
