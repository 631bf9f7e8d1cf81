// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Which teeth of a pair meet which, and how often.
#ifndef RACKWORK_TRAINS_HUNTING_TOOTH_HPP
#define RACKWORK_TRAINS_HUNTING_TOOTH_HPP

#include "../core/error.hpp"

#include <cstdint>
#include <numeric>

namespace rackwork {

/// How the teeth of a pair meet.
struct tooth_encounters {
    /// Greatest common divisor of the tooth numbers, g. Each tooth meets every g-th tooth of its mate and no other.
    int common_divisor = 1;
    /// Revolutions of pinion and wheel until the same two teeth meet again: z_2/g and z_1/g.
    int pinion_revolutions = 0;
    int wheel_revolutions = 0;
    /// Meshings of teeth in that time: z_1 z_2/g, the least common multiple of the tooth numbers.
    std::int64_t meshings = 0;

    /// True where every tooth meets every tooth of its mate: the tooth numbers have no common divisor, the pair has a hunting tooth and
    /// wears evenly.
    constexpr bool is_hunting() const { return common_divisor == 1; }
};

/// How the teeth of two gears with these numbers of teeth meet; internal or external alike.
/// Throws geometry_error for less than 1 tooth.
constexpr tooth_encounters hunting_tooth(int pinion_teeth, int wheel_teeth) {
    const auto at_least_one = [](const char* quantity, int teeth) { return check_at_least(quantity, static_cast<double>(teeth), 1.0); };
    require(first_of(at_least_one("pinion_teeth", pinion_teeth), at_least_one("wheel_teeth", wheel_teeth)));
    const int divisor = std::gcd(pinion_teeth, wheel_teeth);
    return {.common_divisor = divisor,
            .pinion_revolutions = wheel_teeth / divisor,
            .wheel_revolutions = pinion_teeth / divisor,
            .meshings = static_cast<std::int64_t>(pinion_teeth) * (wheel_teeth / divisor)};
}

} // namespace rackwork

#endif
