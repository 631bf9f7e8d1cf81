// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The templates of design/ with a scalar that can do what is documented and nothing else.
// (Equal root strength needs pow for the stress correction factor, as its docstring says, and is left out.)
#include "support_archetype.hpp"

#include <rackwork/design/pair_search.hpp>
#include <rackwork/design/profile_shift.hpp>
#include <rackwork/design/shift_line.hpp>
#include <rackwork/design/shift_region.hpp>
#include <rackwork/design/shiftable_pair.hpp>
#include <rackwork/design/train_search.hpp>

#include <doctest/doctest.h>

#include <array>
#include <cmath>

using archetype::number;

template struct rackwork::shiftable_pair<number>;
template class rackwork::shift_line<number>;
template class rackwork::shift_region<number>;
template struct rackwork::pair_candidate<number>;
template struct rackwork::planetary_candidate<number>;

namespace {

/// Shifts that are chosen, and what searches find, each summed up in one number.
template <class T>
double chosen() {
    const rackwork::shiftable_pair<T> pair{.normal_module = T(3), .pinion_teeth = 15, .wheel_teeth = 46};
    double sum = static_cast<double>(rackwork::choose_profile_shift(pair, T(92)).profile_shift.pinion);
    const rackwork::shift_region<T> region(pair);
    for (const auto& point : region.outline(9)) sum += static_cast<double>(point.profile_shift.wheel);
    sum += static_cast<double>(rackwork::choose_profile_shift_for_contact_ratio(region, T(1.4)).profile_shift.pinion);
    sum += static_cast<double>(rackwork::choose_greatest_profile_shift(region, rackwork::equal_tip_thickness{}).profile_shift.pinion);
    sum += static_cast<double>(rackwork::split_by(region.line(T(0.3)), rackwork::greatest_contact_ratio{}).profile_shift.wheel);
    const rackwork::shiftable_pair<T> internal{.pinion_teeth = 24, .wheel_teeth = 61, .wheel_kind = rackwork::gear_kind::internal};
    const rackwork::shift_line<T> line(internal, T(-0.4));
    sum += static_cast<double>(rackwork::split_by(line, rackwork::equal_sliding{}).profile_shift.pinion);
    sum += static_cast<double>(line.permissible().least + line.permissible().greatest);
    return sum;
}

template <class T>
double found() {
    const std::array<T, 2> modules{T(2), T(2.5)};
    rackwork::pair_need<T> need{.ratio = rackwork::ratio_within(T(3.07), T(0.02)), .centre_distance = {T(90), T(93)}, .modules = modules};
    double sum = 0;
    for (const auto& c : rackwork::pair_search(need)) sum += static_cast<double>(c.profile_shift_sum);
    rackwork::two_stage_need<T> stages{.ratio = rackwork::ratio_within(T(9.5), T(0.01)), .first = need, .second = need};
    for (const auto& c : rackwork::two_stage_search(stages)) sum += static_cast<double>(c.gear_ratio());
    const rackwork::planetary_need<T> planets{.ratio = {T(4), T(5)}, .centre_distance = {T(60), T(61)}, .modules = modules};
    for (const auto& c : rackwork::planetary_search(planets)) sum += static_cast<double>(c.planet_gap);
    return sum;
}

} // namespace

TEST_CASE("design with the documented operations alone gives the numbers of double") {
    CHECK(std::fabs(chosen<number>() - chosen<double>()) < 1e-9);
    CHECK(found<double>() != 0);
    CHECK(std::fabs(found<number>() - found<double>()) < 1e-9 * std::fabs(found<double>()));
}
