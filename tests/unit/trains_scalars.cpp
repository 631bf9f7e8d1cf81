// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Trains with a scalar that can do what is documented and nothing else, in float, long double and fifty digits.
#include "scalar_agreement.hpp"
#include "support_archetype.hpp"

#include <rackwork/trains/planetary_findings.hpp>
#include <rackwork/trains/reverted_train.hpp>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <vector>

#include <doctest/doctest.h>

namespace {

using rackwork::gear;
using rackwork::gear_kind;

/// One of everything. All inputs are exact in every type, so that only the arithmetic differs.
template <class T>
std::vector<double> sheet() {
    std::vector<double> values;
    const auto note = [&](const T& value) { values.push_back(static_cast<double>(value)); };

    const auto spur = [](int teeth, gear_kind kind) { return gear<T>{{.normal_module = T(2), .teeth = teeth, .kind = kind}}; };
    const rackwork::planetary_set<T> set{.sun = spur(18, gear_kind::external),
                                         .planet = spur(24, gear_kind::external),
                                         .ring = spur(66, gear_kind::internal),
                                         .planets = 5,
                                         .centre_distance = T(42)};
    note(planetary_ratios_of(set).ring_standing);
    note(neighbour_clearance(set));
    note(angle_of_planet(set, 2).rad());
    const auto found = findings(set);
    note(T(static_cast<int>(found.size())));
    for (const auto& f : found) note(f.value);
    const auto shifts = planetary_shifts_at(rackwork::planetary_proportions<T>{.normal_module = T(2), .sun_teeth = 18, .planet_teeth = 24, .ring_teeth = 66},
                                            T(42.5), T(0.125));
    note(shifts.sun);
    note(shifts.ring);

    const rackwork::reverted_train<T> train{{.normal_module = T(2), .pinion_teeth = 20, .wheel_teeth = 60},
                                            {.normal_module = T(2.5), .pinion_teeth = 18, .wheel_teeth = 47}};
    note(train.gear_ratio());
    note(balanced_centre_distance(train));
    note(profile_shift_sums(train, T(80.5)).second);
    note(common_centre_distances(train, {{T(-0.25), T(0.5)}, {T(-0.25), T(0.5)}}).centre_distance.lower);
    return values;
}

template <class T>
void agrees_with_double(double tolerance) {
    const std::vector<double> expected = sheet<double>();
    CHECK(expected.size() > 10);
    scalar_support::check_agreement(sheet<T>(), expected, tolerance);
}

} // namespace

TEST_CASE("the poorest permissible scalar will do, and gives the bits of double") { agrees_with_double<archetype::number>(8 * 2.3e-16); }
TEST_CASE("float gives what its seven places allow") { agrees_with_double<float>(64 * 1.2e-7); }
TEST_CASE("long double agrees with double to the places of double") { agrees_with_double<long double>(64 * 2.3e-16); }
TEST_CASE("so do fifty digits") { agrees_with_double<boost::multiprecision::cpp_bin_float_50>(64 * 2.3e-16); }
