// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Tolerances with a scalar that can do what is documented and nothing else, in float, long double and fifty digits.
#include "scalar_agreement.hpp"
#include "support_archetype.hpp"

#include <rackwork/tolerance/backlash.hpp>
#include <rackwork/tolerance/flank.hpp>
#include <rackwork/tolerance/radial_composite.hpp>
#include <rackwork/tolerance/thickness.hpp>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <vector>

#include <doctest/doctest.h>

namespace {

using rackwork::gear;

/// One of everything. All inputs are exact in every type, so that only the arithmetic differs.
template <class T>
std::vector<double> sheet() {
    std::vector<double> values;
    const auto note = [&](const T& value) { values.push_back(static_cast<double>(value)); };

    const gear<T> pinion{{.normal_module = T(2), .teeth = 23, .helix_angle = rackwork::rad(T(0.25)), .face_width = T(30)}};
    const gear<T> wheel{{.normal_module = T(2), .teeth = 40, .helix_angle = rackwork::rad(T(-0.25)), .face_width = T(30)}};
    const auto flank = flank_tolerances_in_micrometres(pinion, 6);
    for (const T& t : {flank.pitch.single_pitch, flank.pitch.cumulative_pitch, flank.pitch.runout, flank.profile.slope, flank.profile.form,
                       flank.profile.total, flank.helix.slope, flank.helix.form, flank.helix.total}) {
        note(t);
    }
    note(sector_pitch_tolerance_in_micrometres(toothing_of(pinion), 3, 6));
    note(unrounded_helix_tolerances_in_micrometres(toothing_of(pinion, T(1)), 6).total);
    note(radial_composite_tolerances_in_micrometres(wheel, 7).total);
    note(radial_composite_tolerances_in_micrometres(wheel, 7).tooth_to_tooth);

    const rackwork::thickness_allowances<T> allowances{.upper = T(-0.0625), .lower = T(-0.125)};
    const auto note_both = [&](const auto& limits, const rackwork::thickness_allowances<T>& back) {
        note(limits.lower);
        note(limits.upper);
        note(back.lower);
        note(back.upper);
    };
    const auto spans = span_limits(pinion, 3, allowances);
    note_both(spans, allowances_from_span(pinion, 3, spans));
    const auto balls = dimension_over_balls_limits(pinion, T(3.5), allowances);
    note_both(balls, allowances_from_balls(pinion, T(3.5), balls));
    const auto pins = dimension_over_pins_limits(pinion, T(3.5), allowances);
    note_both(pins, allowances_from_pins(pinion, T(3.5), pins));
    const auto radial = radial_dimension_limits(pinion, T(3.5), allowances);
    note_both(radial, allowances_from_radial_dimension(pinion, T(3.5), radial));
    const auto chords = chord_limits(pinion, T(48), allowances);
    note_both(chords, allowances_from_chord(pinion, T(48), chords));
    const auto constant = constant_chord_limits(pinion, allowances);
    note_both(constant, allowances_from_constant_chord(pinion, constant));
    note(normal_tooth_thickness_limits(pinion, allowances).middle());
    note(T(static_cast<int>(judge_thickness(T(-0.2), allowances))));

    const rackwork::mesh<T> pair{pinion, wheel};
    note(rackwork::recommended_minimum_backlash_in_millimetres(T(65), T(2)));
    note(allowance_sum_for_backlash(pair, T(0.125)));
    rackwork::backlash_conditions<T> conditions{.allowances = {allowances, allowances}, .centre_distance = {T(65), T(65.125)}};
    conditions.temperature = {T(60), T(50), T(40)};
    conditions.expansion.housing = T(rackwork::expansion_of_aluminium);
    const auto range = backlash_between_limits(pinion, wheel, conditions);
    for (const auto& b : {range.least, range.greatest}) {
        note(b.normal);
        note(b.circumferential);
        note(b.angular.pinion.rad());
        note(b.angular.wheel.rad());
    }
    note(T(static_cast<int>(backlash_findings(range, T(1)).size())));
    return values;
}

template <class T>
void agrees_with_double(double tolerance) {
    const std::vector<double> expected = sheet<double>();
    CHECK(expected.size() >= 50);
    scalar_support::check_agreement(sheet<T>(), expected, tolerance);
}

} // namespace

TEST_CASE("the poorest permissible scalar will do, and gives the bits of double") { agrees_with_double<archetype::number>(8 * 2.3e-16); }
TEST_CASE("float gives what its seven places allow") { agrees_with_double<float>(64 * 1.2e-7); }
TEST_CASE("long double agrees with double to the places of double") { agrees_with_double<long double>(64 * 2.3e-16); }
TEST_CASE("so do fifty digits") { agrees_with_double<boost::multiprecision::cpp_bin_float_50>(64 * 2.3e-16); }
