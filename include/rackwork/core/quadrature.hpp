// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The integral of a smooth function over an interval, to the last places of any scalar type.
#ifndef RACKWORK_CORE_QUADRATURE_HPP
#define RACKWORK_CORE_QUADRATURE_HPP

#include "elementary.hpp"
#include "scalar.hpp"

#include <cmath>

namespace rackwork {

/// Integral of an analytic function from a to b, by the trapezoidal rule after the substitution x = tanh(pi/2 sinh u), which makes the
/// integrand fall off doubly exponentially at both ends. Halving the step then doubles the number of right places, so that the step after
/// the one that agrees with its predecessor to half the places of T is the last. Source: H. Takahasi and M. Mori, 1974 (from memory).
template <scalar T, class F>
T integral(const F& f, const T& a, const T& b) {
    using std::exp;
    using std::log;
    if (a == b) return T(0);
    const T half = (b - a) / T(2);
    const T middle = a + half;
    const T half_pi = pi<T>() / T(2);
    // Where 1/cosh^2(pi/2 sinh u) has come down to epsilon/16: sinh u = log(64/epsilon)/pi.
    const T sinh_last = log(T(T(64) / epsilon<T>())) / (T(2) * half_pi);
    const T last = log(T(sinh_last + elementary::sqrt(T(square(sinh_last) + T(1)))));
    const auto pair_at = [&](const T& u) {
        const T e = exp(u);
        const T grown = exp(T(half_pi * (e - T(1) / e) / T(2))); // exp(pi/2 sinh u)
        const T to_end = T(1) / (grown * (grown + T(1) / grown) / T(2)); // 1 - tanh, without its cancellation
        const T sech = T(2) / (grown + T(1) / grown);
        const T weight = half_pi * (e + T(1) / e) / T(2) * square(sech);
        return T(weight * (f(T(a + half * to_end)) + f(T(b - half * to_end))));
    };
    int steps = 4;
    T sum = half_pi * f(middle);
    for (int i = 1; i <= steps; ++i) sum += pair_at(T(last * T(i) / T(steps)));
    T before = sum * (last / T(steps));
    bool agrees = false;
    for (int level = 0; level < 16; ++level) {
        steps *= 2;
        for (int i = 1; i < steps; i += 2) sum += pair_at(T(last * T(i) / T(steps)));
        const T now = sum * (last / T(steps));
        if (agrees) return T(half * now);
        agrees = square(T(now - before)) <= epsilon<T>() * square(now);
        before = now;
    }
    return T(half * before);
}

} // namespace rackwork

#endif
