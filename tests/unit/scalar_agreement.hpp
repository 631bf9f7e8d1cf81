// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

#include <doctest/doctest.h>

namespace scalar_support {

/// Numbers computed in another scalar are those of double, each within a share of itself or of a hundred: the numbers are differences of
/// diameters of about a hundred millimetres.
inline void check_agreement(const std::vector<double>& found, const std::vector<double>& expected, double tolerance) {
    REQUIRE(found.size() == expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
        CAPTURE(i);
        CHECK(std::fabs(found[i] - expected[i]) <= tolerance * std::fmax(100, std::fabs(expected[i])));
    }
}

} // namespace scalar_support
