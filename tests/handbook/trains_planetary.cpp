// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Planetary sets: worked examples.
#include <rackwork/trains/hunting_tooth.hpp>
#include <rackwork/trains/planetary_findings.hpp>

#include "printed.hpp"

#include <doctest/doctest.h>

using rackwork::gear;

TEST_CASE("the planetary set of 16, 16 and 48 teeth") {
    // Elements of Metric Gear Technology, section 13.4; from memory. (The number of planets, 4, is ours.)
    static_assert(rackwork::can_be_evenly_spaced(16, 48, 4));
    const rackwork::planetary_set<double> set{
        .sun = gear<double>{{.normal_module = 2, .teeth = 16}},
        .planet = gear<double>{{.normal_module = 2, .teeth = 16}},
        .ring = gear<double>{{.normal_module = 2, .teeth = 48, .kind = rackwork::gear_kind::internal}},
        .planets = 4,
        .centre_distance = 32};
    const auto ratios = planetary_ratios_of(set);
    CHECK(handbook::prints(ratios.ring_standing, 4.0, 4));
    CHECK(handbook::prints(ratios.sun_standing, 1.333333, 6));
    CHECK(handbook::prints(ratios.carrier_standing, -3.0, 4));
    // Coaxial condition: 16 + 16 = 48 - 16.
    CHECK(centre_distances_of(set).of_sun_mesh == 32);
    CHECK(centre_distances_of(set).of_ring_mesh == 32);
    // Neighbour condition: (16 + 2) < (16 + 16) sin 45 degrees, times the module.
    CHECK(neighbour_clearance(set) == doctest::Approx(2 * (32 * 0.70710678118654752 - 18)).epsilon(1e-14));
    const auto list = findings(set);
    CHECK_FALSE(list.has(rackwork::planetary_finding_code::not_evenly_spaced));
    CHECK_FALSE(list.has(rackwork::planetary_finding_code::planets_collide));
    CHECK_FALSE(list.has(rackwork::planetary_finding_code::meshes_disagree));
}

TEST_CASE("three, four and five planets fit evenly between a sun of 30 and a ring of 90 teeth, seven do not") {
    // Assembly condition (z_S + z_R)/N whole: common practice. 120/3 = 40, 120/4 = 30, 120/5 = 24; 120/7 is broken.
    static_assert(rackwork::can_be_evenly_spaced(30, 90, 3) && rackwork::can_be_evenly_spaced(30, 90, 4));
    static_assert(rackwork::can_be_evenly_spaced(30, 90, 5) && !rackwork::can_be_evenly_spaced(30, 90, 7));
    static_assert(!rackwork::can_be_evenly_spaced(17, 60, 3) && rackwork::can_be_evenly_spaced(18, 60, 3));
    CHECK(rackwork::planet_places(17, 60) == 77);
}

TEST_CASE("a pair of 24 and 36 teeth hunts no tooth, one of 23 and 37 does") {
    // Common practice. The same teeth of the first meet again after 3 and 2 revolutions, of the second after 37 and 23.
    static_assert(!rackwork::hunting_tooth(24, 36).is_hunting() && rackwork::hunting_tooth(23, 37).is_hunting());
    constexpr auto even = rackwork::hunting_tooth(24, 36);
    CHECK(even.common_divisor == 12);
    CHECK(even.pinion_revolutions == 3);
    CHECK(even.wheel_revolutions == 2);
    CHECK(even.meshings == 72);
    constexpr auto odd = rackwork::hunting_tooth(23, 37);
    CHECK(odd.pinion_revolutions == 37);
    CHECK(odd.wheel_revolutions == 23);
    CHECK(odd.meshings == 23 * 37);
}
