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

/// Sum of c[k] x^k, or of those from a first one on, over x^first.
template <std::size_t first = 0, class F, class C, std::size_t size>
constexpr F polynomial(const std::array<C, size>& c, F x) {
    const F x2 = x * x;
    return polynomial_from<first>(c, x, x2, x2 * x2);
}

/// The same for long double, whose places only the first terms need: the others are added up in double.
template <std::size_t size_of_first, std::size_t size_of_rest>
constexpr long double polynomial(const std::array<long double, size_of_first>& first, const std::array<double, size_of_rest>& rest,
                                 long double x) {
    long double sum = static_cast<long double>(polynomial(rest, static_cast<double>(x)));
    for (std::size_t k = size_of_first; k-- > 0;) sum = sum * x + first[k];
    return sum;
}

/// x cut down to the first `bits` bits of its significand. Products of such numbers that have no more bits together than the type
/// are exact. That is how the errors of the few products that matter are caught below, whether or not the compiler fuses a
/// product with a sum.
template <int bits>
constexpr double leading(double x) {
    return std::bit_cast<double>(std::bit_cast<std::uint64_t>(x) & (~std::uint64_t{0} << (53 - bits)));
}

/// The same for long double by way of double, in whose range x must lie.
template <int bits>
constexpr long double leading(long double x) {
    return static_cast<long double>(leading<bits>(static_cast<double>(x)));
}

/// Arguments below this, whose cubes would come near double's least normal number, are scaled.
inline constexpr double tiny = 0x1p-300;

/// What the functions below take for a type.
template <class F>
struct method;

template <>
struct method<double> {
    static constexpr double numerator(double s) { return polynomial(numerator_double, s); }
    static constexpr double near_pole(double s) { return polynomial(near_pole_double, s); }
    static constexpr split_number<double> half_pi = half_pi_double;
    static constexpr split_number<double> at_zero = numerator_at_zero_double;
    // Bits of the short parts: the cube of the first and the 17 of at_zero, and the second with two of the third, make at most 53.
    static constexpr int cube_bits = 12;
    static constexpr int quotient_bits = 17;
    static constexpr int distance_bits = 18;
};

#if LDBL_MANT_DIG == 64
/// For the 80-bit type of x86 processors.
template <>
struct method<long double> {
    static constexpr long double numerator(long double s) {
        return polynomial(numerator_long_double, numerator_long_double_tail, s);
    }
    static constexpr long double near_pole(long double s) {
        return polynomial(near_pole_long_double, near_pole_long_double_tail, s);
    }
    static constexpr split_number<long double> half_pi = half_pi_long_double;
    static constexpr split_number<long double> at_zero = numerator_at_zero_long_double;
    static constexpr int cube_bits = 16;
    static constexpr int quotient_bits = 20;
    static constexpr int distance_bits = 22;
};
#endif

/// inv a without regard to angles below `tiny`.
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

    const F change = m::at_zero.rest + s * m::numerator(s);
    const F numerator_0 = cube_0 * m::at_zero.head;
    const F numerator_1 = cube_0 * change + cube_1 * (m::at_zero.head + change);

    const F h_rounded = m::half_pi.head - a;
    const F h_rest = ((m::half_pi.head - h_rounded) - a) + m::half_pi.rest;
    const F h = h_rounded + h_rest; // not 0 where a is as near to pi/2 as F can be
    const F g = m::half_pi.head + a;
    const F h_0 = leading<m::distance_bits>(h);
    const F g_0 = leading<m::distance_bits>(g);
    const F h_1 = (h_rounded - h_0) + h_rest;
    const F g_1 = ((m::half_pi.head - g_0) + a) + m::half_pi.rest; // the inner difference is exact

    const F reciprocal = F(1) / (h * g);
    const F q = leading<m::quotient_bits>(numerator_0 * reciprocal); // within 2 %, since P is
    const F remainder = (numerator_0 - q * (h_0 * g_0)) + (numerator_1 - q * (h_0 * g_1 + h_1 * g));
    return q + remainder * reciprocal;
}

/// inv a for angles below `tiny`, where it is a^3/3 to the last place, so that powers of two can be taken out and put back.
template <class F>
constexpr F inv_below_normal_range(F a) {
    F scale = 1;
    for (; a < F(tiny) && a != F(0); a *= F(0x1p200)) scale *= F(0x1p-600);
    return inv_in_normal_range(a) * scale;
}

/// inv a for double and for 80-bit long double. Error: below 0.6 ulp.
template <class F>
constexpr F inv(F a) {
    if (a < F(tiny)) return inv_below_normal_range(a);
    return inv_in_normal_range(a);
}

/// inv a for float: the formula as it stands, in double. Error: below 0.51 ulp.
constexpr float inv(float angle) {
    const double a = static_cast<double>(angle);
    const double s = a * a;
    const double numerator = (numerator_at_zero_double.head + numerator_at_zero_double.rest) + s * polynomial(numerator_float, s);
    return static_cast<float>(a * s * numerator / ((half_pi_double.head - a) * (half_pi_double.head + a)));
}

/// Arctangent to 2^-23, for t <= 1.
constexpr double rough_atan(double t) {
    const double s = t * t; // below, a sum comes last for the reason given at rest_of_cube_root
    return t * rough_arctangent[0] + (t * s) * polynomial<1>(rough_arctangent, s);
}

/// t - atan t, given an angle a near atan t, and inv a; without regard to t below `tiny` and above 2^36.
///
/// The angle need not be exact. With its tangent, T = a + inv a, the exact angle is
///     atan t = a + atan m,  m = (t - T)/(1 + t T),  so that  t - atan t = inv a + t - T - atan m = inv a + m t T
/// but for m^3/3, which with a's error of 2^-22 is nothing.
template <class F>
constexpr F inv_from_tangent_and_angle(F t, F a, F involute) {
    const F product = t * (a + involute);
    return involute + ((t - a) - involute) * (product / (F(1) + product));
}

/// Arctangent to 2^-22, for every t.
constexpr double rough_angle(double t) {
    return t > 1 ? half_pi_double.head - rough_atan(1 / t) : rough_atan(t);
}
/// (Where double could not hold it the angle is the tangent.)
constexpr long double rough_angle(long double t) {
    return t < 0x1p-12L ? t : static_cast<long double>(rough_angle(static_cast<double>(t)));
}

/// The same bits without a branch, which would keep the compiler from working on several numbers at once: the lesser of t and 1/t is at
/// most 1, and of its arctangent and what is then measured from pi/2, or else from 0, the greater is the angle.
constexpr double rough_angle_without_branch(double t) {
    const double inverse = 1 / t;
    const double a = rough_atan(inverse < t ? inverse : t);
    const double from_other_side = (t > 1 ? half_pi_double.head : 0.0) - a;
    return from_other_side > a ? from_other_side : a;
}

template <class F>
constexpr F inv_from_tangent_in_normal_range(F t) {
    const F a = rough_angle(t);
    return inv_from_tangent_and_angle(t, a, inv_in_normal_range(a));
}

/// t - atan t for double and for 80-bit long double. Error: below 1.2 ulp.
template <class F>
constexpr F inv_from_tangent(F t) {
    if (t < F(tiny)) return inv_below_normal_range(t); // both are t^3/3 to the last place
    if (t > F(0x1p36)) return t - method<F>::half_pi.head; // the rest, 1/t, is below a place in t
    return inv_from_tangent_in_normal_range(t);
}

constexpr float inv_from_tangent(float t) {
    return static_cast<float>(inv_from_tangent(static_cast<double>(t)));
}

/// (3 y)^(1/3) within 0.2 %, as a number of 17 bits.
///
/// The bits of a positive number, read as a whole number, run like its logarithm, so a third of them and a constant are the bits of about
/// its cube root. Whatever they are wrong by repeats from power to power of two and stands with the constant in a table.
constexpr double rough_cube_root_of_triple(double y) {
    const std::uint64_t third = (std::bit_cast<std::uint64_t>(y) >> 32) * 0x55555555; // 2^32 / 3
    return leading<17>(std::bit_cast<double>(third + cube_root_corrections[third >> 44 & 255]));
}

/// What a rough cube root c_0 of 3 y lacks, given 1/(3 y). The cube of 17 bits is exact, and so is its difference to 3 y. With
/// e = 1 - c_0^3/(3 y) the root is c_0 / (1 - e)^(1/3) = c_0 + c_0 e S(e).
/// (The result is a sum, not a product that a compiler might fuse with a sum in one place where it is used and not in another.)
template <std::size_t terms>
constexpr double rest_of_cube_root(double y, double c_0, double reciprocal, const std::array<double, terms>& series) {
    const double e = (((y + y) - c_0 * c_0 * c_0) + y) * reciprocal;
    const double first = c_0 * e;
    return first * series[0] + (first * e) * polynomial<1>(series, e);
}

/// inverse_inv up to the seam, from c = (3 y)^(1/3) as the sum of two numbers. For small angles a is about c; the series
/// a = c - 2/15 c^3 + 3/175 c^5 - ... has odd powers only, and c^3 = 3 y, so that
///     a = c + y Q(c^2)
/// where the second part is below a third of the first and y carries no error at all.
constexpr double inverse_inv_from_cube_root(double y, double c, double rest) {
    const double sum = c + rest;
    return c + (rest + y * polynomial(near_zero_double, sum * sum));
}
constexpr double inverse_inv_near_zero(double y) {
    const double c_0 = rough_cube_root_of_triple(y);
    return inverse_inv_from_cube_root(y, c_0, rest_of_cube_root(y, c_0, 1 / (3 * y), cube_root_double));
}

/// inverse_inv from the seam on. With h = pi/2 - a the equation tan a - a = y reads cot h + h = y + pi/2. The left side is about 1/h, so
/// h is about t = 1/(y + pi/2), and since all is odd in h
///     h = t + t^3 H(t^2).
template <class F>
constexpr F inverse_inv_near_pole(F y) {
    using m = method<F>;
    const F sum = y + m::half_pi.head;
    const F of_y = sum - m::half_pi.head;
    // What the rounding of the sum has lost, and below of the difference pi/2 - t.
    const F sum_rest = (y - of_y) + (m::half_pi.head - (sum - of_y)) + m::half_pi.rest;
    const F t = F(1) / sum;
    const F s = t * t;
    const F a = m::half_pi.head - t;
    const F a_rest = ((m::half_pi.head - a) - t) + m::half_pi.rest;
    return a + (a_rest + s * (sum_rest - t * m::near_pole(s)));
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
    const double c_0 = rough_cube_root_of_triple(y);
    const double sum = c_0 + rest_of_cube_root(y, c_0, 1 / (3 * y), cube_root_float);
    return static_cast<float>(sum + y * polynomial(near_zero_float, sum * sum));
}

#if LDBL_MANT_DIG == 64
/// inverse_inv up to the seam for 80-bit long double: the steps of double, with a quotient in place of the product with the reciprocal.
constexpr long double inverse_inv_near_zero(long double y) {
    const long double c = static_cast<long double>(rough_cube_root_of_triple(static_cast<double>(y)));
    const long double e = (((y + y) - c * c * c) + y) / (3 * y);
    const long double rest = (c * e) * polynomial(cube_root_long_double, cube_root_long_double_tail, e);
    const long double sum = c + rest;
    return c + (rest + y * polynomial(near_zero_long_double, near_zero_long_double_tail, sum * sum));
}

/// The angle whose involute function is y, for 80-bit long double. Error: below 1 ulp.
constexpr long double inverse_inv(long double y) {
    if (y >= static_cast<long double>(inverse_inv_seam)) return inverse_inv_near_pole(y);
    if (y >= 0x1p-960L) return inverse_inv_near_zero(y);
    if (y == 0) return y;
    // Double, in which the cube root begins, does not reach so far down, and a = (3 y)^(1/3) lets powers of two pass.
    long double scale = 1;
    for (; y < 0x1p-900L; y *= 0x1p600L) scale *= 0x1p-200L;
    return inverse_inv_near_zero(y) * scale;
}
#endif

} // namespace rackwork::involute_kernel

#endif
