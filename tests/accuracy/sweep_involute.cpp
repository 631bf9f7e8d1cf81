// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#include "sweeps.hpp"

#include "independent_involute.hpp"
#include "random_source.hpp"

#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include <rackwork/involute.hpp>

namespace accuracy {

namespace {

using independent::real;

/// Half of them evenly over the whole range of angles, half crowding towards zero and the pole.
template <class T>
T angle_of(support::random_source& random, long i) {
    const T right_angle = std::numbers::pi_v<T> / 2;
    const T fraction = static_cast<T>(random.uniform(0.0, 1.0)) + static_cast<T>(random.uniform(0.0, 0x1p-53));
    if (i % 2 == 0) return fraction * right_angle;
    if (i % 4 == 1) return std::ldexp(1 + fraction, random.integer(std::numeric_limits<T>::min_exponent / 4, 0)) / 2;
    return right_angle - std::ldexp(1 + fraction, random.integer(4 - std::numeric_limits<T>::digits, -1)) / 2;
}

template <class T>
void sweep(reference::ledger& all, long arguments, const std::string& type) {
    support::random_source random(900);
    for (long i = 0; i < arguments; ++i) {
        const T a = angle_of<T>(random, i);
        if (!(a > 0) || !(real(a) < independent::pi() / 2)) continue;
        all.record("inv" + type, inv(rackwork::rad(a)), independent::inv(real(a)), {rackwork::inv_error_bound});
        const T y = static_cast<T>(independent::inv(real(a)));
        if (!std::isfinite(y)) continue;
        all.record("inverse inv" + type, rackwork::inverse_inv(y).rad(), independent::inverse_inv(real(y)),
                   {rackwork::inverse_inv_error_bound});
    }
}

} // namespace

void sweep_involute(reference::ledger& all, long arguments) {
    sweep<double>(all, arguments, "");
    sweep<float>(all, arguments, " of float");
    sweep<long double>(all, arguments, " of long double");
}

} // namespace accuracy
