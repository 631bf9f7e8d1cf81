// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#pragma once

#include <cmath>

namespace batch_bits {

/// The same bits; one unit in the last place where the compiler may fuse products and sums, since it need not do so alike.
inline bool same(double a, double b) {
#if defined(__FMA__)
    return a == b || std::nextafter(a, b) == b;
#else
    return a == b;
#endif
}

} // namespace batch_bits
