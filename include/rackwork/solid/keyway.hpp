// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Keyways of bores for parallel keys, metric and inch.
#ifndef RACKWORK_SOLID_KEYWAY_HPP
#define RACKWORK_SOLID_KEYWAY_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"

namespace rackwork {

/// Keyway in a bore: a slot along the whole hub with parallel sides, its centre line on the x axis unless turned.
struct keyway {
    /// Width, b.
    double width = 0;
    /// Depth in the hub, t_2: from the bore, on the keyway's centre line, to the keyway's bottom. The drawing states bore + t_2.
    double hub_depth = 0;

    friend constexpr bool operator==(const keyway&, const keyway&) = default;
};

/// A key for shafts above one diameter and up to another.
struct parallel_key {
    double shaft_above = 0;
    double shaft_up_to = 0;
    /// Section of the key, b x h.
    double width = 0;
    double height = 0;
    /// Depth of the keyway in the shaft, t_1, and in the hub, t_2. (The two leave play above the key.)
    double shaft_depth = 0;
    double hub_depth = 0;
};

/// Metric parallel keys for shafts of 6 to 200 mm [mm]. Source: ISO/R 773:1969, rectangular or square parallel keys and their
/// corresponding keyways, from memory.
inline constexpr parallel_key iso_r_773_keys[] = {
    {6, 8, 2, 2, 1.2, 1.0},         {8, 10, 3, 3, 1.8, 1.4},       {10, 12, 4, 4, 2.5, 1.8},
    {12, 17, 5, 5, 3.0, 2.3},       {17, 22, 6, 6, 3.5, 2.8},      {22, 30, 8, 7, 4.0, 3.3},
    {30, 38, 10, 8, 5.0, 3.3},      {38, 44, 12, 8, 5.0, 3.3},     {44, 50, 14, 9, 5.5, 3.8},
    {50, 58, 16, 10, 6.0, 4.3},     {58, 65, 18, 11, 7.0, 4.4},    {65, 75, 20, 12, 7.5, 4.9},
    {75, 85, 22, 14, 9.0, 5.4},     {85, 95, 25, 14, 9.0, 5.4},    {95, 110, 28, 16, 10.0, 6.4},
    {110, 130, 32, 18, 11.0, 7.4},  {130, 150, 36, 20, 12.0, 8.4}, {150, 170, 40, 22, 13.0, 9.4},
    {170, 200, 45, 25, 15.0, 10.4},
};

/// Inch square parallel keys for shafts of 5/16 to 6 1/2 in [in]: the key about a quarter of the shaft's diameter wide, half of it in the
/// hub at the keyway's sides. Source: ANSI B17.1, key size versus shaft diameter, from memory.
inline constexpr parallel_key ansi_b17_1_keys[] = {
    {5. / 16, 7. / 16, 3. / 32, 3. / 32, 3. / 64, 3. / 64},
    {7. / 16, 9. / 16, 1. / 8, 1. / 8, 1. / 16, 1. / 16},
    {9. / 16, 7. / 8, 3. / 16, 3. / 16, 3. / 32, 3. / 32},
    {7. / 8, 1.25, 1. / 4, 1. / 4, 1. / 8, 1. / 8},
    {1.25, 1.375, 5. / 16, 5. / 16, 5. / 32, 5. / 32},
    {1.375, 1.75, 3. / 8, 3. / 8, 3. / 16, 3. / 16},
    {1.75, 2.25, 1. / 2, 1. / 2, 1. / 4, 1. / 4},
    {2.25, 2.75, 5. / 8, 5. / 8, 5. / 16, 5. / 16},
    {2.75, 3.25, 3. / 4, 3. / 4, 3. / 8, 3. / 8},
    {3.25, 3.75, 7. / 8, 7. / 8, 7. / 16, 7. / 16},
    {3.75, 4.5, 1., 1., 1. / 2, 1. / 2},
    {4.5, 5.5, 1.25, 1.25, 5. / 8, 5. / 8},
    {5.5, 6.5, 1.5, 1.5, 3. / 4, 3. / 4},
};

namespace detail {

template <class Keys>
constexpr keyway keyway_from(const Keys& keys, double bore) {
    require(check_greater("bore for a keyway", bore, keys[0].shaft_above));
    for (const parallel_key& key : keys) {
        if (bore <= key.shaft_up_to) return {.width = key.width, .hub_depth = key.hub_depth};
    }
    const parallel_key& last = keys[sizeof keys / sizeof keys[0] - 1];
    require(check_at_most("bore for a keyway", bore, last.shaft_up_to));
    return {};
}

} // namespace detail

/// Keyway for a metric parallel key in a bore of the given diameter [mm]. Throws geometry_error unless it is greater than 6 and at most
/// 200 mm. Source: iso_r_773_keys.
constexpr keyway metric_keyway(double bore) { return detail::keyway_from(iso_r_773_keys, bore); }

/// Keyway for an inch square key in a bore of the given diameter [in]: half of the key's height and a clearance of 0.005 in above it, counted
/// from where the keyway's sides leave the bore: bore + t_2 = (D + sqrt(D^2 - b^2) + h)/2 + 0.005. Throws geometry_error unless the bore is
/// greater than 5/16 and at most 6 1/2 in. Source: ansi_b17_1_keys and, from memory, ANSI B17.1.
constexpr keyway inch_keyway(double bore) {
    keyway k = detail::keyway_from(ansi_b17_1_keys, bore);
    k.hub_depth += 0.005 - (bore - elementary::sqrt((bore - k.width) * (bore + k.width))) / 2;
    return k;
}

} // namespace rackwork

#endif
