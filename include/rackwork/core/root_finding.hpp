// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A bracketed root finder that ends at the last place and cannot loop for ever.
#ifndef RACKWORK_CORE_ROOT_FINDING_HPP
#define RACKWORK_CORE_ROOT_FINDING_HPP

#include "scalar.hpp"

#include <limits>

namespace rackwork {

/// The root of a continuous function f between two arguments at which its values have different signs (or are zero).
///
/// Method: false position with the Illinois modification, with a bisection whenever three steps have not halved the bracket.
/// It ends when the bracket cannot be halved any more, so the result is within one unit in the last place of a change of sign
/// of the computed f. Each four steps at least halve the bracket, which bounds the number of steps.
///
/// For a scalar that carries derivatives the result is a point of zero derivative; follow it by newton_step to attach them.
template <scalar T, class F>
constexpr T bracketed_root(const F& f, T lower, T upper) {
    T f_lower = f(lower);
    T f_upper = f(upper);
    if (f_lower == T(0)) return lower;
    if (f_upper == T(0)) return upper;
    // The ends' signs are kept apart: the halving of weights below may come down to zero.
    const bool lower_is_negative = f_lower < T(0);
    // The bracket is at least halved every four steps, and no type's numbers can be halved more often than this without running into
    // their least one, but for those of nearly unlimited exponent, of which a search for a root at zero ends here.
    const int most_steps = 4 * (binary_digits<T>() + (1 << 15));
    int kept_lower = 0; // how often in a row the lower (positive) or upper (negative) end has stayed
    T width_before = upper - lower;
    int steps_since_halved = 0;
    for (int step = 0; step < most_steps; ++step) {
        const T width = upper - lower;
        if (magnitude(width) * T(2) <= magnitude(width_before)) {
            width_before = width;
            steps_since_halved = 0;
        }
        const T middle = is_finite(width) ? T(lower + width / T(2)) : T(lower / T(2) + upper / T(2));
        T x = T(lower - width * (f_lower / (f_upper - f_lower)));
        const bool inside = lower < upper ? (lower < x && x < upper) : (upper < x && x < lower);
        if (!inside || ++steps_since_halved > 3) {
            x = middle;
            steps_since_halved = 0;
            width_before = width;
        }
        if (x == lower || x == upper) return magnitude(f_lower) < magnitude(f_upper) ? lower : upper;
        const T f_x = f(x);
        if (f_x == T(0)) return x;
        if ((f_x < T(0)) == lower_is_negative) {
            lower = x;
            f_lower = f_x;
            kept_lower = kept_lower < 0 ? kept_lower - 1 : -1;
            if (kept_lower < -1) f_upper = T(f_upper / T(2)); // Illinois: the end that stays loses half its weight
        } else {
            upper = x;
            f_upper = f_x;
            kept_lower = kept_lower > 0 ? kept_lower + 1 : 1;
            if (kept_lower > 1) f_lower = T(f_lower / T(2));
        }
    }
    return T(lower / T(2) + upper / T(2));
}

} // namespace rackwork

#endif
