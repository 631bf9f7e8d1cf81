// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Elementary functions that the compiler can evaluate. The standard library's are not constexpr in C++20; these stand in for
// them during constant evaluation only, so clarity and accuracy count and speed does not.
#ifndef RACKWORK_CORE_CONSTANT_EVALUATION_HPP
#define RACKWORK_CORE_CONSTANT_EVALUATION_HPP

#include "scalar.hpp"

#include <limits>

/// Accuracy of all functions here: within 2 epsilon of the true value for long double (float and double are evaluated in
/// the next wider type and are within 1 epsilon), for |x| below 10^6 where there is a period.
namespace rackwork::constant_evaluation {

namespace detail {

/// A power of two times x, exactly, by repeated doubling or halving.
template <class F>
constexpr F scale_by_power_of_two(F x, int exponent) {
    for (; exponent > 0; --exponent) x *= F(2);
    for (; exponent < 0; ++exponent) x /= F(2);
    return x;
}

/// x is taken apart into fraction * 2^exponent with the fraction in [1, 4) and an even exponent (for the square root), or
/// in [1, 8) and an exponent divisible by three (for the cube root).
template <class F>
struct fraction_and_exponent {
    F fraction;
    int exponent;
};

template <class F>
constexpr fraction_and_exponent<F> take_apart(F x, int divisor) {
    const F upper = F(divisor == 2 ? 4 : 8);
    int exponent = 0;
    for (; x >= upper; exponent += divisor) x /= upper;
    for (; x < F(1); exponent -= divisor) x *= upper;
    return {x, exponent};
}

/// sin x and cos x for |x| <= pi/4 from their power series. The first term is added last: it carries nearly the whole value,
/// so the sum is right to about half a unit in the last place.
template <class F>
constexpr F sine_series(F x) {
    const F s = x * x;
    F sum = F(0);
    for (int n = 27; n >= 3; n -= 2) sum = -s / F(n * (n - 1)) * (F(1) + sum);
    return x + x * sum;
}

template <class F>
constexpr F cosine_series(F x) {
    const F s = x * x;
    F sum = F(0);
    for (int n = 28; n >= 4; n -= 2) sum = -s / F(n * (n - 1)) * (F(1) + sum);
    // 1 - s/2 is rounded once; what the rounding lost is put back before the small rest is added.
    const F half = s / F(2);
    const F head = F(1) - half;
    const F lost = (F(1) - head) - half;
    return head + (lost - half * sum);
}

/// x = quarter_turns * pi/2 + rest, |rest| <= pi/4 (Cody and Waite's reduction: the first parts of pi/2 have 33 bits each, so
/// that their products with a small whole number are exact).
template <class F>
struct reduced_angle {
    int quarter_turns;
    F rest;
};

template <class F>
constexpr reduced_angle<F> reduce(F x) {
    constexpr F part_1 = F(1.57079632673412561417e+00);
    constexpr F part_2 = F(6.07710050630396597660e-11);
    constexpr F part_3 = F(2.02226624871116645580e-21);
    constexpr F part_4 = F(8.47842766036889956997e-32);
    const F ratio = x * F(0.636619772367581343075535L);
    const int n = static_cast<int>(ratio < F(0) ? ratio - F(0.5) : ratio + F(0.5));
    const F m = F(n);
    return {n, (((x - m * part_1) - m * part_2) - m * part_3) - m * part_4};
}

template <class F>
constexpr F sin(F x) {
    if (!is_finite(x)) return std::numeric_limits<F>::quiet_NaN();
    const reduced_angle<F> a = reduce(x);
    switch (((a.quarter_turns % 4) + 4) % 4) {
    case 0: return sine_series(a.rest);
    case 1: return cosine_series(a.rest);
    case 2: return -sine_series(a.rest);
    default: return -cosine_series(a.rest);
    }
}

template <class F>
constexpr F cos(F x) {
    if (!is_finite(x)) return std::numeric_limits<F>::quiet_NaN();
    const reduced_angle<F> a = reduce(x);
    switch (((a.quarter_turns % 4) + 4) % 4) {
    case 0: return cosine_series(a.rest);
    case 1: return -sine_series(a.rest);
    case 2: return -cosine_series(a.rest);
    default: return sine_series(a.rest);
    }
}

/// arctan x = arctan c + arctan((x - c) / (1 + c x)) with c = 1/2, 1, 2 or infinity, whichever leaves the least rest; then the
/// power series, whose argument is below 0.34.
template <class F>
constexpr F atan(F x) {
    if (x != x) return x;
    if (x < F(0)) return -atan(-x);
    F known = F(0);
    F t = x;
    if (x > F(3.2L)) {
        known = std::numbers::pi_v<F> / F(2);
        t = F(-1) / x;
    } else if (x > F(1.4L)) {
        known = F(1.10714871779409050301706546017853704L);
        t = (x - F(2)) / (F(1) + F(2) * x);
    } else if (x > F(0.74L)) {
        known = std::numbers::pi_v<F> / F(4);
        t = (x - F(1)) / (F(1) + x);
    } else if (x > F(0.25L)) {
        known = F(0.46364760900080611621425623146121440L);
        t = (x - F(0.5L)) / (F(1) + x / F(2));
    }
    const F s = t * t;
    F sum = F(0);
    for (int n = 61; n >= 3; n -= 2) sum = -s * (F(1) / F(n) + sum);
    // The series is  t (1 - s/3 + s^2/5 - ...) ; `sum` holds the bracket without its 1.
    return known + (t + t * sum);
}

/// Newton's iteration on the fraction, then one correction from the exact remainder x - y^2 (Dekker's product), which makes
/// exact squares exact.
template <class F>
constexpr F sqrt(F x) {
    if (x == F(0) || x != x) return x;
    if (x < F(0)) return std::numeric_limits<F>::quiet_NaN();
    if (x > (std::numeric_limits<F>::max)()) return x;
    const fraction_and_exponent<F> part = take_apart(x, 2);
    F y = (F(1) + part.fraction) / F(2);
    for (int i = 0; i < 7; ++i) y = (y + part.fraction / y) / F(2);
    const F splitter = scale_by_power_of_two(F(1), (std::numeric_limits<F>::digits + 1) / 2) + F(1);
    const F big = splitter * y;
    const F high = big - (big - y);
    const F low = y - high;
    const F product = y * y;
    const F product_error = ((high * high - product) + F(2) * high * low) + low * low;
    const F remainder = (part.fraction - product) - product_error;
    // Next to 4 the root may lie just below the middle of 2 and its lower neighbour, and the sum be rounded up to it.
    const F root = smaller(y + remainder / (F(2) * y), F(2) - std::numeric_limits<F>::epsilon());
    return scale_by_power_of_two(root, part.exponent / 2);
}

template <class F>
constexpr F cbrt(F x) {
    if (x == F(0) || !is_finite(x)) return x;
    if (x < F(0)) return -cbrt(-x);
    const fraction_and_exponent<F> part = take_apart(x, 3);
    F y = (F(2) + part.fraction) / F(3);
    for (int i = 0; i < 9; ++i) y = y - (y - part.fraction / (y * y)) / F(3);
    return scale_by_power_of_two(y, part.exponent / 3);
}

template <class F>
struct wider {
    using type = long double;
};
template <>
struct wider<float> {
    using type = double;
};

} // namespace detail

template <class F>
constexpr F sqrt(F x) {
    return detail::sqrt(x); // in its own type: the result is already rounded to nearest
}
template <class F>
constexpr F cbrt(F x) {
    return static_cast<F>(detail::cbrt(static_cast<typename detail::wider<F>::type>(x)));
}
template <class F>
constexpr F sin(F x) {
    return static_cast<F>(detail::sin(static_cast<typename detail::wider<F>::type>(x)));
}
template <class F>
constexpr F cos(F x) {
    return static_cast<F>(detail::cos(static_cast<typename detail::wider<F>::type>(x)));
}
template <class F>
constexpr F tan(F x) {
    const auto wide = static_cast<typename detail::wider<F>::type>(x);
    return static_cast<F>(detail::sin(wide) / detail::cos(wide));
}
template <class F>
constexpr F atan(F x) {
    return static_cast<F>(detail::atan(static_cast<typename detail::wider<F>::type>(x)));
}

} // namespace rackwork::constant_evaluation

#endif
