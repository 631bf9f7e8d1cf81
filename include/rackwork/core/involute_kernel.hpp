// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse for the standard types, from arithmetic alone: no iteration, no library function, the
// same steps at compile time and at run time, for one number and for many side by side in vector registers.
#ifndef RACKWORK_CORE_INVOLUTE_KERNEL_HPP
#define RACKWORK_CORE_INVOLUTE_KERNEL_HPP

#include "involute_coefficients.hpp"

#include <array>
#include <bit>
#include <cfloat>
#include <cstddef>
#include <cstdint>
#include <limits>

/// All functions here expect what their callers have checked: angles from 0 to pi/2, other arguments not negative and finite.
namespace rackwork::involute_kernel {

/// Sum of c[k] x^k from k = first on, over x^first, four terms at a time: the processor can work on several of them at once, where
/// Horner's rule has to wait for each product.
template <std::size_t first, class F, class C, std::size_t size>
constexpr F polynomial_from(const std::array<C, size>& c, F x, F x2, F x4) {
    constexpr std::size_t terms = size - first;
    F four = static_cast<F>(c[first]);
    if constexpr (terms > 1) four += static_cast<F>(c[first + 1]) * x;
    if constexpr (terms == 3) four += static_cast<F>(c[first + 2]) * x2;
    if constexpr (terms > 3) four += (static_cast<F>(c[first + 2]) + static_cast<F>(c[first + 3]) * x) * x2;
    if constexpr (terms > 4) four += polynomial_from<first + 4>(c, x, x2, x4) * x4;
    return four;
}

/// Sum of c[k] x^k.
template <class F, class C, std::size_t size>
constexpr F polynomial(const std::array<C, size>& c, F x) {
    const F x2 = x * x;
    return polynomial_from<0>(c, x, x2, x2 * x2);
}

/// x cut down to the first `bits` bits of its significand. Products of such numbers that have no more bits together than the type
/// are exact. That is how the errors of the few products that matter are caught below, whether or not the compiler fuses a
/// product with a sum.
template <int bits>
constexpr double leading(double x) {
    return std::bit_cast<double>(std::bit_cast<std::uint64_t>(x) & (~std::uint64_t{0} << (53 - bits)));
}

/// The same, rounded instead of cut (Veltkamp's splitting): for the type whose bits are not at hand and whose products are never
/// fused.
template <int bits>
constexpr long double leading(long double x) {
    constexpr int others = std::numeric_limits<long double>::digits - bits;
    const long double product = x * static_cast<long double>((std::uint64_t{1} << others) + 1);
    return product - (product - x);
}

/// a if x > limit, or else b; x and limit must be positive. Not by a branch, which would keep the compiler from working on several
/// numbers at once, but by bits: those of positive numbers are in the order of the numbers, so the sign of their difference tells which is
/// greater.
constexpr double if_greater(double x, double limit, double a, double b) {
    const std::uint64_t difference = std::bit_cast<std::uint64_t>(limit) - std::bit_cast<std::uint64_t>(x);
    const std::uint64_t mask = std::uint64_t{0} - (difference >> 63);
    return std::bit_cast<double>((std::bit_cast<std::uint64_t>(a) & mask) | (std::bit_cast<std::uint64_t>(b) & ~mask));
}

/// What the functions below take for a type.
template <class F>
struct method;

template <>
struct method<double> {
    static constexpr const auto& numerator = numerator_double;
    static constexpr split_number<double> half_pi = half_pi_double;
    static constexpr split_number<double> at_zero = numerator_at_zero_double;
    // Bits of the short parts: the cube of the first and the 17 of at_zero, and the second with two of the third, make at most 53.
    static constexpr int cube_bits = 12;
    static constexpr int quotient_bits = 17;
    static constexpr int distance_bits = 18;
    // Arguments below `tiny`, whose cubes would come near the least normal number, are scaled.
    static constexpr double tiny = 0x1p-300;
    static constexpr double up = 0x1p200;
    static constexpr double down = 0x1p-600;
};

#if LDBL_MANT_DIG == 64
/// For the 80-bit type of x86 processors.
template <>
struct method<long double> {
    static constexpr const auto& numerator = numerator_long_double;
    static constexpr split_number<long double> half_pi = half_pi_long_double;
    static constexpr split_number<long double> at_zero = numerator_at_zero_long_double;
    static constexpr int cube_bits = 16;
    static constexpr int quotient_bits = 20;
    static constexpr int distance_bits = 22;
    static constexpr long double tiny = 0x1p-5000L;
    static constexpr long double up = 0x1p4000L;
    static constexpr long double down = 0x1p-12000L;
};
#endif

/// inv a without regard to very small angles, 2^-300 and below for double.
///
/// The tangent has its poles at s = a^2 = (pi/2)^2, (3 pi/2)^2, ... With the first one divided out,
///     inv a = a^3 P(s) / (pi^2/4 - s),
/// P is all but constant, 0.8225 at a = 0 (where inv a = a^3/3, so that P = pi^2/12) and 0.8106 at the pole, and so smooth that
/// P(s) = pi^2/12 + s R(s) holds for every angle with a polynomial R of ten terms. The rounding errors of R count for little, since
/// s R is below 0.012. Those of the other parts are kept and put right at the end:
///   - the cube: with a_0, the first 12 bits of a, a^3 = a_0^3 + (a - a_0)(a^2 + a a_0 + a_0^2). The first part is exact and the
///     second so small that its errors do not show;
///   - the pole: pi^2/4 - s = h g with h = pi/2 - a and g = pi/2 + a, where pi/2 is the sum of two numbers; h and g each become a
///     short number, h_0 and g_0, and a small rest, h_1 and g_1;
///   - the division: from a short estimate q of the quotient follows the exact remainder, and from that the rest of the quotient.
/// What remains is the last rounding, half a unit, and less than a tenth of a unit from everything else.
template <class F>
constexpr F inv_in_normal_range(F a) {
    using m = method<F>;
    const F s = a * a;
    const F a_0 = leading<m::cube_bits>(a);
    const F cube_0 = a_0 * a_0 * a_0;
    const F cube_1 = (a - a_0) * (s + a_0 * (a + a_0));

    const F change = m::at_zero.rest + s * polynomial(m::numerator, s);
    const F numerator_0 = cube_0 * m::at_zero.head;
    const F numerator_1 = cube_0 * change + cube_1 * (m::at_zero.head + change);

    const F h_rounded = m::half_pi.head - a;
    const F h_rest = ((m::half_pi.head - h_rounded) - a) + m::half_pi.rest;
    const F g = m::half_pi.head + a;
    const F g_rest = ((m::half_pi.head - g) + a) + m::half_pi.rest;
    const F h = h_rounded + h_rest; // not 0 where a is as near to pi/2 as F can be
    const F h_0 = leading<m::distance_bits>(h);
    const F g_0 = leading<m::distance_bits>(g);
    const F h_1 = (h_rounded - h_0) + h_rest;
    const F g_1 = (g - g_0) + g_rest;

    const F reciprocal = F(1) / (h * g);
    const F q = leading<m::quotient_bits>(a * s * reciprocal * F(0.8165)); // within 1 %, since P is
    const F remainder = (numerator_0 - q * (h_0 * g_0)) + (numerator_1 - q * (h_0 * g_1 + h_1 * g));
    return q + remainder * reciprocal;
}

/// inv a for double and for 80-bit long double. Error: below 0.6 ulp.
template <class F>
constexpr F inv(F a) {
    // Here inv a = a^3/3 to the last place, so that a power of two can be taken out and put back.
    if (a < method<F>::tiny) return inv_in_normal_range(a * method<F>::up) * method<F>::down;
    return inv_in_normal_range(a);
}

/// inv a for float: the formula as it stands, in double. Error: below 0.51 ulp.
constexpr float inv(float angle) {
    const double a = static_cast<double>(angle);
    const double s = a * a;
    const double numerator = (numerator_at_zero_double.head + numerator_at_zero_double.rest) + s * polynomial(numerator_float, s);
    return static_cast<float>(a * s * numerator / ((half_pi_double.head - a) * (half_pi_double.head + a)));
}

/// Arctangent to 2^-22, for t <= 1.
template <class F>
constexpr F rough_atan(F t) {
    return t * polynomial(rough_arctangent, t * t);
}

/// t - atan t, given an angle a near atan t, without regard to very small and very large t, below 2^-300 and above 2^36 for double.
///
/// The angle need not be exact. With its tangent, T = a + inv a, the exact angle is
///     atan t = a + atan m,  m = (t - T)/(1 + t T),  so that  t - atan t = inv a + t - T - atan m = inv a + m t T
/// but for m^3/3, which with a's error of 2^-22 is nothing.
template <class F>
constexpr F inv_from_tangent_and_rough_angle(F t, F a) {
    const F involute = inv_in_normal_range(a);
    const F product = t * (a + involute);
    return involute + ((t - a) - involute) * (product / (F(1) + product));
}

template <class F>
constexpr F inv_from_tangent_in_normal_range(F t) {
    const F a = t > F(1) ? method<F>::half_pi.head - rough_atan(F(1) / t) : rough_atan(t);
    return inv_from_tangent_and_rough_angle(t, a);
}

/// The same bits without a branch, for many numbers side by side.
constexpr double inv_from_tangent_without_branch(double t) {
    const double a = rough_atan(if_greater(t, 1.0, 1 / t, t));
    return inv_from_tangent_and_rough_angle(t, if_greater(t, 1.0, half_pi_double.head - a, a));
}

/// t - atan t for double and for 80-bit long double. Error: below 1.2 ulp.
template <class F>
constexpr F inv_from_tangent(F t) {
    if (t < method<F>::tiny) return inv_from_tangent_in_normal_range(t * method<F>::up) * method<F>::down;
    if (t > F(0x1p36)) return t - method<F>::half_pi.head; // the rest, 1/t, is below a place in t
    return inv_from_tangent_in_normal_range(t);
}

constexpr float inv_from_tangent(float t) {
    return static_cast<float>(inv_from_tangent(static_cast<double>(t)));
}

/// (3 y)^(1/3) as the sum of two numbers. The first has 17 bits and is within 0.2 %.
///
/// The bits of a positive number, read as a whole number, run like its logarithm, so a third of them is the bits of about its
/// cube root. Whatever they are wrong by repeats from power to power of two and is read from a table. As a number of 17 bits c_0 has
/// an exact cube, the difference of which to 3 y is exact, too, and gives the rest: with e = 1 - c_0^3/(3 y) the root is
/// c_0 / (1 - e)^(1/3) = c_0 + c_0 e S(e).
template <std::size_t terms>
constexpr split_number<double> cube_root_of_triple(double y, const std::array<double, terms>& series) {
    const std::uint64_t upper_half = std::bit_cast<std::uint64_t>(y) >> 32;
    const std::uint64_t guess = upper_half * 0x55555556 + (cube_root_bits << 32); // 2^32 / 3
    const std::uint64_t bits = guess + cube_root_corrections[guess >> 45 & 127];
    const double c_0 = std::bit_cast<double>(bits & (~std::uint64_t{0} << 36));
    const double e = (((y + y) - c_0 * c_0 * c_0) + y) * (1 / (3 * y));
    return {c_0, (c_0 * e) * polynomial(series, e)};
}

/// inverse_inv up to the seam. For small angles a is about c = (3 y)^(1/3); the series a = c - 2/15 c^3 + 3/175 c^5 - ... has odd powers
/// only, and c^3 = 3 y, so that
///     a = c + y Q(c^2)
/// where the second part is below a third of the first and y carries no error at all.
constexpr double inverse_inv_from_cube_root(double y, const split_number<double>& c) {
    const double sum = c.head + c.rest;
    return c.head + (c.rest + y * polynomial(near_zero_double, sum * sum));
}
constexpr double inverse_inv_near_zero(double y) {
    return inverse_inv_from_cube_root(y, cube_root_of_triple(y, cube_root_double));
}

/// inverse_inv from the seam on. With h = pi/2 - a the equation tan a - a = y reads cot h + h = y + pi/2. The left side is about 1/h, so
/// h is about t = 1/(y + pi/2), and since all is odd in h
///     h = t + t^3 H(t^2).
constexpr double inverse_inv_near_pole(double y) {
    const double sum = y + half_pi_double.head;
    const double of_y = sum - half_pi_double.head;
    // What the rounding of the sum has lost, and below of the difference pi/2 - t.
    const double sum_rest = (y - of_y) + (half_pi_double.head - (sum - of_y)) + half_pi_double.rest;
    const double t = 1 / sum;
    const double s = t * t;
    const double a = half_pi_double.head - t;
    const double a_rest = ((half_pi_double.head - a) - t) + half_pi_double.rest;
    return a + (a_rest + s * (sum_rest - t * polynomial(near_pole_double, s)));
}

/// The angle whose involute function is y, for double. Error: below 1.2 ulp.
constexpr double inverse_inv(double y) {
    if (y >= inverse_inv_seam) return inverse_inv_near_pole(y);
    if (y >= 0x1p-960) return inverse_inv_near_zero(y);
    // Too small for exact differences, if not 0. Here a = (3 y)^(1/3), which lets a power of two pass.
    return y == 0 ? y : inverse_inv_near_zero(y * 0x1p300) * 0x1p-100;
}

/// The same for float, in double with shorter polynomials. Error: below 0.51 ulp.
constexpr float inverse_inv(float value) {
    const double y = static_cast<double>(value);
    if (y >= inverse_inv_seam) {
        const double t = 1 / (y + half_pi_double.head);
        return static_cast<float>(half_pi_double.head - t * (1 + t * t * polynomial(near_pole_float, t * t)));
    }
    if (y == 0) return value;
    const split_number<double> c = cube_root_of_triple(y, cube_root_float);
    const double sum = c.head + c.rest;
    return static_cast<float>(sum + y * polynomial(near_zero_float, sum * sum));
}

#if LDBL_MANT_DIG == 64
/// The same for 80-bit long double: one step of Newton's iteration, a - (inv a - y)/tan^2 a, from the angle to double's precision,
/// with tan a = a + y. Error: below 1 ulp.
constexpr long double inverse_inv(long double y) {
    constexpr split_number<long double> half_pi = method<long double>::half_pi;
    // Far up the step would divide nearly nothing by nearly nothing; pi/2 - a = t + 2/3 t^3 + ... is then short.
    if (y > 0x1p14L) {
        const long double t = 1 / (y + half_pi.head);
        return half_pi.head - (t * (1 + t * t * (2 / 3.0L)) - half_pi.rest);
    }
    if (y == 0) return y;
    // Double does not reach so far down, and a = (3 y)^(1/3) lets powers of two pass.
    long double scale = 1;
    for (; y < 0x1p-900L; y *= 0x1p600L) scale *= 0x1p-200L;
    const long double a = static_cast<long double>(inverse_inv(static_cast<double>(y)));
    const long double tangent = a + y;
    return (a - (inv_in_normal_range(a) - y) / (tangent * tangent)) * scale;
}
#endif

} // namespace rackwork::involute_kernel

#endif
