// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#include "sweeps.hpp"

#include "independent_involute.hpp"

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
void sweep(reference::ledger& all, stream& from, long arguments, const std::string& type) {
    while (from.drawn < arguments) {
        const T a = angle_of<T>(from.random, from.drawn++);
        if (!(a > 0) || !(real(a) < independent::pi() / 2)) continue;
        all.record("inv" + type, inv(rackwork::rad(a)), independent::inv(real(a)), {rackwork::inv_error_bound});
        const T y = static_cast<T>(independent::inv(real(a)));
        if (!std::isfinite(y)) continue;
        all.record("inverse inv" + type, rackwork::inverse_inv(y).rad(), independent::inverse_inv(real(y)),
                   {rackwork::inverse_inv_error_bound});
    }
}

} // namespace

void sweep_involute_of_float(reference::ledger& all, stream& from, long arguments) {
    sweep<float>(all, from, arguments, " of float");
}
void sweep_involute_of_double(reference::ledger& all, stream& from, long arguments) {
    sweep<double>(all, from, arguments, "");
}
void sweep_involute_of_long_double(reference::ledger& all, stream& from, long arguments) {
    sweep<long double>(all, from, arguments, " of long double");
}

} // namespace accuracy
