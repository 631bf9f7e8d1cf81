#!/usr/bin/env python3
"""Recomputes include/rackwork/core/involute_coefficients.hpp.

    coefficients.py            prints the header
    coefficients.py HEADER     compares a header with it; status 1 and the differences if there are any

Only Python's own decimal arithmetic is used, at 60 digits. Each table holds a polynomial that makes the largest error of
the result as small as a polynomial of that length can (the exchange method of Remez, on a grid). The coefficients are
rounded to the type one after the other, lowest power first, and those not yet rounded are fitted again after each, so that
the later ones take up the rounding of the earlier. What each polynomial stands for is derived in
include/rackwork/core/involute_kernel.hpp.
"""

import difflib
import sys
from decimal import Decimal, getcontext

getcontext().prec = 60

ONE = Decimal(1)


# ---------------------------------------------------------------- functions to sixty digits

def arctangent_of_inverse(n):
    """atan(1/n) for a whole number n."""
    total, power, k = Decimal(0), ONE / n, 0
    while power > Decimal(10) ** -65:
        total += (power if k % 2 == 0 else -power) / (2 * k + 1)
        power /= n * n
        k += 1
    return total


PI = 4 * (4 * arctangent_of_inverse(5) - arctangent_of_inverse(239))


def sine_and_cosine(a):
    s, c, term, k = Decimal(0), Decimal(0), ONE, 0
    while abs(term) > Decimal(10) ** -70:
        if k % 2 == 0:
            c += term if k % 4 == 0 else -term
        else:
            s += term if k % 4 == 1 else -term
        k += 1
        term = term * a / k
    return s, c


def tangent(a):
    s, c = sine_and_cosine(a)
    return s / c


def involute(a):
    return tangent(a) - a


def cube_root(x):
    return (x.ln() / 3).exp() if x > 0 else Decimal(0)


def inverse_involute(y):
    """Newton's iteration, started from the first terms of the series or from the pole."""
    c = cube_root(3 * y)
    a = c * (1 - c * c * 2 / 15 + c ** 4 * 3 / 175) if y < 1 else PI / 2 - 1 / (y + PI / 2)
    for _ in range(60):
        t = tangent(a)
        step = (t - a - y) / (t * t)
        a -= step
        if abs(step) < Decimal(10) ** -45 * a:
            return a
    raise ArithmeticError("the inverse involute did not converge")


def arctangent(x):
    """For 0 < x <= 1; Newton's iteration on the tangent."""
    a = x / (1 + x * x / 3)
    for _ in range(60):
        sine, cosine = sine_and_cosine(a)
        step = (sine - x * cosine) * cosine
        a -= step
        if abs(step) < Decimal(10) ** -55 * a:
            return a
    raise ArithmeticError("the arctangent did not converge")


# ---------------------------------------------------------------- best polynomials

def solve(matrix, right):
    """Gaussian elimination with pivoting."""
    n = len(right)
    rows = [list(row) + [value] for row, value in zip(matrix, right)]
    for i in range(n):
        pivot = max(range(i, n), key=lambda r: abs(rows[r][i]))
        rows[i], rows[pivot] = rows[pivot], rows[i]
        for r in range(i + 1, n):
            factor = rows[r][i] / rows[i][i]
            for k in range(i, n + 1):
                rows[r][k] -= factor * rows[i][k]
    answer = [Decimal(0)] * n
    for i in reversed(range(n)):
        answer[i] = (rows[i][n] - sum(rows[i][k] * answer[k] for k in range(i + 1, n))) / rows[i][i]
    return answer


def value_of(coefficients, x, first=0):
    total = Decimal(0)
    for c in reversed(coefficients):
        total = total * x + c
    return total * x ** first if first else total


def peaks_of(errors):
    """One extremum for each stretch of equal sign."""
    peaks = []
    for i, e in enumerate(errors):
        if peaks and (errors[peaks[-1]] > 0) == (e > 0):
            if abs(e) > abs(errors[peaks[-1]]):
                peaks[-1] = i
        else:
            peaks.append(i)
    return peaks


def best_polynomial(points, values, weights, first, count):
    """The `count` coefficients from power `first` on that make the largest |weight (polynomial - value)| on the points least."""
    step = (len(points) - 1) / (count + 0.0)
    chosen = [round(i * step) for i in range(count + 1)]
    for _ in range(30):
        matrix = [[points[i] ** (first + k) for k in range(count)] + [(-1) ** n / weights[i]] for n, i in enumerate(chosen)]
        *coefficients, level = solve(matrix, [values[i] for i in chosen])
        errors = [w * (value_of(coefficients, x, first) - f) for x, f, w in zip(points, values, weights)]
        if max(map(abs, errors)) <= abs(level) * Decimal("1.001"):
            break
        # As many neighbours as are needed, with the largest among them.
        peaks = peaks_of(errors)
        while len(peaks) > count + 1:
            peaks.pop(0 if abs(errors[peaks[0]]) < abs(errors[peaks[-1]]) else -1)
        if len(peaks) < count + 1:
            break # the grid does not show the last waves: the fit is as good as can be told
        chosen = peaks
    return coefficients


def rounded(x, bits):
    """x with a significand of so many bits."""
    if x == 0:
        return x
    exponent = 0
    magnitude = abs(x)
    while magnitude >= 2 ** bits:
        magnitude /= 2
        exponent += 1
    while magnitude < 2 ** (bits - 1):
        magnitude *= 2
        exponent -= 1
    return Decimal(int(magnitude.to_integral_value())) * Decimal(2) ** exponent * (1 if x > 0 else -1)


def rounded_polynomial(points, values, weights, bits):
    """Coefficients with so many bits each, and the largest weighted error."""
    count = len(bits)
    if points[0] < 0 < points[-1]: # powers from the first on would vanish together at 0, where no fit is left
        fixed = [rounded(c, b) for c, b in zip(best_polynomial(points, values, weights, 0, count), bits)]
        return fixed, max(abs(w * (value_of(fixed, x) - f)) for x, f, w in zip(points, values, weights))
    fixed = []
    rest = list(values)
    for k in range(count):
        c = rounded(best_polynomial(points, rest, weights, k, count - k)[0], bits[k])
        fixed.append(c)
        rest = [f - c * x ** k for f, x in zip(rest, points)]
    return fixed, max(abs(w * r) for w, r in zip(weights, rest))


def grid(low, high, count):
    """Points that lie denser towards both ends, as the extrema of an error do; the low end itself is left out."""
    points = []
    for i in range(1, count + 1):
        _, c = sine_and_cosine(PI * i / count)
        points.append(low + (high - low) * (1 - c) / 2)
    return points


# ---------------------------------------------------------------- what is approximated

POLE = PI * PI / 4           # a^2 at the tangent's pole
SEAM = Decimal(3) / 4
GRID = 240


def numerator():
    """R with inv a = a^3 (pi^2/12 + s R(s)) / (pi^2/4 - s), s = a^2; error relative to the result."""
    points = grid(Decimal(0), POLE * (1 - Decimal(10) ** -12), GRID)
    values, weights = [], []
    for s in points:
        a = s.sqrt()
        full = involute(a) / (a * s) * (POLE - s)
        values.append((full - POLE / 3) / s)
        weights.append(s / full)
    return points, values, weights


def correction_of_the_cube_root():
    """Q with a = c + y Q(c^2), c^3 = 3 y, up to the seam; error relative to the result."""
    top = cube_root(3 * SEAM) ** 2
    points = grid(Decimal(0), top, GRID)
    values, weights = [], []
    for z in points:
        c = z.sqrt()
        y = c * z / 3
        a = inverse_involute(y)
        values.append((a - c) / y)
        weights.append(y / a)
    return points, values, weights


def distance_from_the_pole():
    """H with pi/2 - a = t + t^3 H(t^2), t = 1/(y + pi/2), from the seam on; error relative to the result."""
    t_top = 1 / (SEAM + PI / 2)
    points = grid(Decimal(0), t_top * t_top, GRID)
    values, weights = [], []
    for s in points:
        t = s.sqrt()
        # For the least t the equation  1/t = cot h + h  is solved for h = pi/2 - a itself; the angle would lose its places.
        h = t
        for _ in range(60):
            sine, cosine = sine_and_cosine(h)
            cotangent = cosine / sine
            step = (cotangent + h - 1 / t) / (cotangent * cotangent)
            h += step
            if abs(step) < Decimal(10) ** -50 * h:
                break
        values.append((h - t) / (t * s))
        weights.append(t * s / (PI / 2 - h))
    return points, values, weights


# A third of the bits of y and a constant are the bits of about the cube root of 3 y, within 4 %. By how much that is wrong can be told from
# the third itself, so a table with a row for each 256th of the significand's range has the constant and its correction.
ROWS = 256
KEPT = 17  # bits of the significand that are kept, the leading 1 among them
OFFSET = 1023  # of the exponent


def bits_of(x):
    """The exponent of x and the fraction of its significand as one number, exponent + fraction: what the bits of x amount to."""
    exponent = 0
    while x >= 2:
        x /= 2
        exponent += 1
    return exponent + x - 1


def number_of(bits):
    return Decimal(2) ** int(bits) * (1 + bits - int(bits))


def cube_root_samples():
    """For many y in [1, 8): 3 y, the third of its bits, and the row of the table to which that leads."""
    for i in range(16000):
        y = 1 + Decimal(7) * (2 * i + 1) / 32000
        third = (bits_of(y) + OFFSET) / 3
        yield 3 * y, third, int((third - int(third)) * ROWS)


def cube_root_corrections():
    """What to add for each row, in units of the last kept bit, so that the errors of the row go as far up as down."""
    low, high = [Decimal(10 * OFFSET)] * ROWS, [Decimal(0)] * ROWS
    for x, third, row in cube_root_samples():
        wanted = bits_of(cube_root(x)) + OFFSET - third
        low[row] = min(low[row], wanted)
        high[row] = max(high[row], wanted)
    # Cutting to the kept bits takes half a unit on average.
    return [int(((a + b) / 2 * 2 ** (KEPT - 1) + ONE / 2).to_integral_value()) for a, b in zip(low, high)]


def rest_of_cube_root():
    """S with (1 - e)^(-1/3) = 1 + e S(e), for every e = 1 - c_0^3 / (3 y) that the guess c_0 can leave; error relative to the root."""
    corrections = cube_root_corrections()
    units = 2 ** (KEPT - 1)
    left = [1 - number_of(third + Decimal(corrections[row]) / units - OFFSET) ** 3 / x for x, third, row in cube_root_samples()]
    margin = Decimal(2) ** -12  # cutting to the kept bits, and what lies between the samples
    low, high = min(left) - margin, max(left) + margin
    points = [e for e in grid(low, high, GRID + 1) if e != 0]
    values = [((-(1 - e).ln() / 3).exp() - 1) / e for e in points]
    weights = [abs(e) * ((1 - e).ln() / 3).exp() for e in points]
    return points, values, weights


def arctangent_over_argument():
    """A with atan w = w A(w^2), 0 <= w <= 1, for a first approximation; error relative to the result."""
    points = grid(Decimal(0), ONE, GRID)
    values = [arctangent(s.sqrt()) / s.sqrt() for s in points]
    return points, values, [1 / v for v in values]


# name of the table, its function, number of coefficients; for long double how many of them, from the first on, need its bits
TABLES = [
    ("numerator_float", numerator, 5),
    ("numerator_double", numerator, 10),
    ("numerator_long_double", numerator, 13, 3),
    ("cube_root_float", rest_of_cube_root, 3),
    ("cube_root_double", rest_of_cube_root, 5),
    ("cube_root_long_double", rest_of_cube_root, 7, 1),
    ("near_zero_float", correction_of_the_cube_root, 8),
    ("near_zero_double", correction_of_the_cube_root, 14),
    ("near_zero_long_double", correction_of_the_cube_root, 17, 6),
    ("near_pole_float", distance_from_the_pole, 9),
    ("near_pole_double", distance_from_the_pole, 18),
    ("near_pole_long_double", distance_from_the_pole, 22, 6),
    ("rough_arctangent", arctangent_over_argument, 8),
]


def literal(c, bits):
    return repr(float(c)) if bits == 53 else f"{c:.24e}L"


def split_constant(name, text, value, head_bits):
    """A number as the sum of two, for double and for long double."""
    lines = [f"/// {text}"]
    for kind, bits in (("double", 53), ("long_double", 64)):
        head = rounded(value, head_bits[kind])
        lines.append(f"inline constexpr split_number<{kind.replace('_', ' ')}> {name}_{kind}{{"
                     f"{literal(head, bits)}, {literal(rounded(value - head, bits), bits)}}};")
    return "\n".join(lines) + "\n"


def array(kind, name, coefficients, bits):
    numbers = ",\n    ".join(literal(c, bits) for c in coefficients)
    return f"inline constexpr std::array<{kind}, {len(coefficients)}> {name}{{\n    {numbers}}};\n"


def table(name, samples, text, count, long_ones=0):
    coefficients, error = rounded_polynomial(*samples, [64] * long_ones + [53] * (count - long_ones))
    text = f"/// {text}\n/// Largest error: 2^-{-(error.ln() / Decimal(2).ln()):.1f}.\n"
    if long_ones == 0:
        return text + array("double", name, coefficients, 53)
    return (text + "/// The first terms, and those after them, which contribute so little that double's places are enough.\n"
            + array("long double", name, coefficients[:long_ones], 64)
            + array("double", name + "_tail", coefficients[long_ones:], 53))


HEAD = """// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Coefficients of the involute function and its inverse. Written by tests/kernel/coefficients.py; what they stand for is
// derived in involute_kernel.hpp.
#ifndef RACKWORK_CORE_INVOLUTE_COEFFICIENTS_HPP
#define RACKWORK_CORE_INVOLUTE_COEFFICIENTS_HPP

#include <array>
#include <cstdint>

namespace rackwork::involute_kernel {

/// A number to about twice the digits of F: the sum of two.
template <class F>
struct split_number {
    F head;
    F rest;
};
"""

TAIL = """} // namespace rackwork::involute_kernel

#endif
"""


def header():
    parts = [HEAD]
    parts.append(split_constant("half_pi", "pi/2.", PI / 2, {"double": 53, "long_double": 64}))
    parts.append(split_constant("numerator_at_zero", "pi^2/12; the head is short, so that its product with a short cube is exact.",
                                PI * PI / 12, {"double": 17, "long_double": 16}))
    parts.append("/// Value of the involute function at which the inverse changes from one formula to the other.\n"
                 f"inline constexpr double inverse_inv_seam = {SEAM};\n")
    units = [f"{c:#09x}'000000000" for c in cube_root_corrections()]
    units = ",\n    ".join(", ".join(units[i:i + 6]) for i in range(0, ROWS, 6))
    parts.append("/// What makes of a third of the bits of y those of about (3 y)^(1/3), for each 256th of the significand of the third.\n"
                 f"inline constexpr std::array<std::uint64_t, {ROWS}> cube_root_corrections{{\n    {units}}};\n")
    samples = {}
    for name, function, *counts in TABLES:
        if function not in samples:
            samples[function] = function()
        parts.append(table(name, samples[function], function.__doc__, *counts))
    parts.append(TAIL)
    return "\n".join(parts)


def print_or_compare(text):
    """Prints a text, or compares the file named on the command line with it; the status to end with."""
    if len(sys.argv) == 1:
        sys.stdout.write(text)
        return 0
    with open(sys.argv[1], encoding="utf-8") as file:
        committed = file.read()
    if committed == text:
        return 0
    for line in difflib.unified_diff(committed.splitlines(), text.splitlines(), sys.argv[1], "recomputed", lineterm=""):
        print(line)
    return 1


if __name__ == "__main__":
    sys.exit(print_or_compare(header()))
