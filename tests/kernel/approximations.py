#!/usr/bin/env python3
"""What other ways to the inverse involute function can reach: writes tests/kernel/approximations.md.

    approximations.py            prints the table
    approximations.py FILE       compares FILE with it; status 1 and the differences if there are any

Two kinds of formulas have been published for the inverse: its series in the cube root c = (3 inv a)^(1/3),
    a = c (1 - 2/15 c^2 + 3/175 c^4 - ...),
by W. Cheng (Journal of Mechanical Design, 1992; from memory), and quotients of two polynomials (M. Lopez Rosado, F. Prieto Munoz and
R. Alvarez Fernandez, "An analytic expression for the inverse involute", Mathematical Problems in Engineering, 2019). The terms of the series
follow from the tangent's and are computed here. Of quotients this table needs nobody's coefficients (those of the paper are not in it): it has
the error that no quotient of polynomials of these degrees in c^2 can go below on the whole range, whatever its coefficients.

That is so because a quotient P/Q with Q > 0 whose relative error changes its sign at m + n + 2 places, and is at least e at each of them, can be
beaten by no other of degrees m and n: a better one would lie between it and the function at all these places, so that their difference,
a polynomial of degree m + n over a positive one, had m + n + 1 zeros (de la Vallee Poussin's bound). The exchange method of Remez finds such a
quotient; that it has the property is then looked at anew.
"""

import math
import sys
from decimal import Decimal
from fractions import Fraction

from coefficients import ONE, PI, cube_root, grid, inverse_involute, involute, peaks_of, print_or_compare, solve, value_of

GRID = 240


def series_terms(count):
    """The first coefficients of a/c in powers of c^2, exact: the series of c(a) = (3 (tan a - a))^(1/3), turned round."""
    # tan a = sum t_k a^(2k+1) from t' = 1 + t^2; 3 (tan a - a) / a^3 = u(a^2).
    tangent = [Fraction(1)]
    for k in range(1, count + 2):
        tangent.append(sum(tangent[i] * tangent[k - 1 - i] for i in range(k)) / (2 * k + 1))
    u = [3 * t for t in tangent[1:count + 1]]
    # a/c as a series in c^2: Lagrange's inversion, coefficient k is that of a^(2k) in u^(-(2k+1)/3), over 2k + 1.
    terms = []
    for k in range(count):
        exponent = Fraction(-(2 * k + 1), 3)
        power = [Fraction(1)]
        for n in range(1, k + 1):
            power.append(sum((exponent * i - (n - i)) * u[i] * power[n - i] for i in range(1, n + 1)) / n)
        terms.append(power[k] / (2 * k + 1))
    return terms


def samples(top):
    """Places c^2 up to that of the angle `top`, and a/c there."""
    points = grid(Decimal(0), cube_root(3 * involute(top)) ** 2, GRID)
    values = []
    for z in points:
        c = z.sqrt()
        values.append(inverse_involute(c * z / 3) / c)
    return points, values


def quotient_through(points, values, m, n):
    """P and Q, Q(0) = 1, with P/Q = f (1 - e), f (1 + e), ... at m + n + 2 points: linear equations but for e Q, where the Q before is put in."""
    denominator, error = [ONE] + [Decimal(0)] * n, Decimal(0)
    for _ in range(60):
        matrix = [[x ** k for k in range(m + 1)] + [-f * x ** k for k in range(1, n + 1)] + [(-1) ** i * f * value_of(denominator, x)]
                  for i, (x, f) in enumerate(zip(points, values))]
        *unknowns, new = solve(matrix, values)
        denominator = [ONE] + unknowns[m + 1:]
        if abs(new - error) <= abs(new) * Decimal("1e-9"):
            break
        error = new
    return unknowns[:m + 1], denominator


def surely_positive(polynomial, top):
    """Whether a polynomial is positive on [0, top]: so it is if all its Bernstein coefficients there are."""
    n = len(polynomial) - 1
    scaled = [c * top ** k for k, c in enumerate(polynomial)]
    return all(sum(Decimal(math.comb(i, k)) / math.comb(n, k) * scaled[k] for k in range(i + 1)) > 0 for i in range(n + 1))


def least_error(points, values, m, n):
    """The error that no quotient of these degrees can go below on the points; that of the best one is at most 2 % above."""
    count = m + n + 2
    chosen = [round(i * (len(points) - 1) / (count - 1)) for i in range(count)]
    for _ in range(40):
        numerator, denominator = quotient_through([points[i] for i in chosen], [values[i] for i in chosen], m, n)
        errors = [value_of(numerator, x) / value_of(denominator, x) / f - 1 for x, f in zip(points, values)]
        peaks = peaks_of(errors)
        while len(peaks) > count:
            peaks.pop(0 if abs(errors[peaks[0]]) < abs(errors[peaks[-1]]) else -1)
        least = min(abs(errors[i]) for i in peaks)
        if len(peaks) == count and max(map(abs, errors)) <= least * Decimal("1.02"):
            if not surely_positive(denominator, points[-1]):
                raise ArithmeticError(f"degrees {m}/{n}: the denominator may have a zero")
            return least
        if len(peaks) < count:
            break
        chosen = peaks
    raise ArithmeticError(f"degrees {m}/{n}: the exchange method did not end")


def table():
    ranges = [samples(PI / 4), samples(PI / 3)]
    rows = []
    for count in (3, 5, 7, 10):
        terms = [Decimal(t.numerator) / t.denominator for t in series_terms(count)]
        rows.append((f"series, {count} terms", [max(abs(value_of(terms, x) / f - 1) for x, f in zip(*r)) for r in ranges]))
    for m, n in ((6, 0), (9, 0), (2, 2), (3, 3), (4, 4), (5, 5)):
        text = f"any polynomial of {m + 1} terms" if n == 0 else f"any quotient of degrees {m}/{n}"
        rows.append((text, [least_error(*r, m, n) for r in ranges]))
    lines = ["# Other ways to the inverse involute function", "",
             "Largest error relative to the angle; c is the cube root of 3 inv a, and the ways are series, polynomials and quotients in c^2. Of",
             "\"any\" polynomial or quotient: no choice of its coefficients comes nearer. Rounding would add to all of them; the last row has it.",
             "Printed by approximations.py, which has the sources and the proof.", "",
             "| way | up to 45 degrees | up to 60 degrees |", "|---|---|---|"]
    lines += [f"| {text} | {' | '.join(f'{e:.1e}' for e in errors)} |" for text, errors in rows]
    # 1.2 ulp, the greatest error that tests allow it; an ulp is at most 2^-52 of the number.
    lines += [f"| `rackwork::inverse_inv`, every rounding included | {1.2 * 2 ** -52:.1e} | {1.2 * 2 ** -52:.1e} |"]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    sys.exit(print_or_compare(table()))
