// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A pinion rolled in an internal wheel through one pitch: the flanks touch where they should, the gap is the backlash, and nothing overlaps.
// For helical gears this is the transverse section.
#include "rolling_chords.hpp"

#include <rackwork/curve/polyline.hpp>
#include <rackwork/form/outline.hpp>
#include <rackwork/mesh.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <string>
#include <variant>
#include <vector>

namespace {

using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::mesh;
using rackwork::outline;
using rackwork::point;
using rackwork::segment;
using rolling::chord;
using rolling::curve_kind;
using rolling::overlap;
using rolling::placement;
using rolling::shortest_distance;

constexpr double pi = std::numbers::pi;
constexpr double chord_tolerance = 2e-5; // of a millimetre; the modules here are 1 to 4

/// The whole outline as fine chords. Of the flanks of a tooth the right one comes first, counter-clockwise: outward on an external gear,
/// inward on an internal one.
std::vector<chord> chords_of(const rackwork::tooth_form<double>& form, bool internal) {
    std::vector<chord> result;
    for (const segment<double>& s : rackwork::outline_of(form).segments) {
        outline<double> one;
        one.segments.push_back(s);
        rackwork::polyline<double> points = rackwork::polyline_of(one, chord_tolerance);
        points.points.push_back(s.end);
        curve_kind kind = curve_kind::other;
        if (std::holds_alternative<rackwork::involute<double>>(s.curve))
            kind = (length(s.end) > length(s.start)) != internal ? curve_kind::right_flank : curve_kind::left_flank;
        for (std::size_t i = 1; i < points.points.size(); ++i) result.push_back({points.points[i - 1], points.points[i], kind});
    }
    return result;
}

struct rolled {
    double driving_gap_greatest = 0;
    double other_gap_least = std::numeric_limits<double>::infinity();
    double other_gap_greatest = 0;
    double deepest_overlap = 0;
};

/// Rolls the pair through one pitch, the pinion driving counter-clockwise, with the backlash taken up. The pinion's axis is the origin, the
/// wheel's lies at (-a, 0), so that the teeth meet on the side of positive x.
rolled roll(const mesh<double>& pair, int steps) {
    const gear<double>& pinion = pair.pinion();
    const gear<double>& wheel = pair.wheel();
    const double a = pair.centre_distance();
    const double ratio = double(pinion.teeth()) / wheel.teeth();
    const std::vector<chord> of_pinion = chords_of(rackwork::tooth_form<double>(pinion, pair.pinion_root()), false);
    const std::vector<chord> of_wheel = chords_of(rackwork::tooth_form<double>(wheel, pair.wheel_root()), true);
    const double wheel_tips = wheel.effective_tip_diameter() / 2 - 0.1 * wheel.normal_module();
    const double pinion_tips = pinion.effective_tip_diameter() / 2 + 0.1 * pinion.normal_module();
    // Only what stands between the two tip circles can meet.
    const auto near_the_mate = [&](const std::vector<chord>& chords, const placement& where) {
        std::vector<chord> result;
        const point<double> wheel_axis{-a, 0};
        for (const chord& c : chords) {
            const chord moved{where(c.from), where(c.to), c.kind};
            const bool beyond_wheel_tips = std::max(length(moved.from - wheel_axis), length(moved.to - wheel_axis)) > wheel_tips;
            if (beyond_wheel_tips && std::min(length(moved.from), length(moved.to)) < pinion_tips) result.push_back(moved);
        }
        return result;
    };
    rolled result;
    for (int i = 0; i < steps; ++i) {
        const double turn = (double(i) / steps - 0.5) * 2 * pi / pinion.teeth();
        // In the middle a pinion tooth points at a space of the wheel. The pinion turns counter-clockwise and the wheel the same way; the
        // wheel is held back by half its backlash for the pinion's left flank to touch the wheel's right one.
        const double backlash = pair.angular_backlash().wheel.rad() / 2;
        const placement pinion_stands{{0, 0}, turn};
        const placement wheel_stands{{-a, 0}, pi / wheel.teeth() + turn * ratio - backlash};
        const std::vector<chord> first = near_the_mate(of_pinion, pinion_stands);
        const std::vector<chord> second = near_the_mate(of_wheel, wheel_stands);
        result.driving_gap_greatest =
            std::max(result.driving_gap_greatest, shortest_distance(first, curve_kind::left_flank, second, curve_kind::right_flank));
        const double other = shortest_distance(first, curve_kind::right_flank, second, curve_kind::left_flank);
        result.other_gap_least = std::min(result.other_gap_least, other);
        result.other_gap_greatest = std::max(result.other_gap_greatest, other);
        result.deepest_overlap = std::max({result.deepest_overlap, overlap(first, second, -1), overlap(second, first, 1)});
    }
    return result;
}

struct pair_case {
    std::string name;
    gear_parameters<double> pinion;
    gear_parameters<double> wheel;
    double moved = 0; // apart in the sense that opens the backlash of an internal pair: the axes come closer
};

gear_parameters<double> spur(int teeth, double shift, double allowance = 0) {
    return {.normal_module = 2, .teeth = teeth, .profile_shift = shift, .thickness_allowance = allowance};
}
gear_parameters<double> ring(int teeth, double shift, double allowance = 0) {
    gear_parameters<double> p = spur(teeth, shift, allowance);
    p.kind = gear_kind::internal;
    return p;
}
gear_parameters<double> with_helix(gear_parameters<double> p, double degrees) {
    p.helix_angle = deg(degrees);
    return p;
}
/// Tips shortened: where a standard ring's tips reach in below the involute of a small pinion.
gear_parameters<double> shortened(gear_parameters<double> p, double by) {
    p.tip_alteration = -by;
    return p;
}

/// Pairs whose tips keep to the mate's involute.
std::vector<pair_case> pairs() {
    return {
        {"spur, no backlash", spur(24, 0), shortened(ring(72, 0), 0.2)},
        {"spur, thinned", spur(24, 0, -0.06), shortened(ring(72, 0, -0.1), 0.2)},
        {"spur, thinned, closer", spur(24, 0, -0.05), shortened(ring(72, 0, -0.05), 0.2), 0.1},
        {"spur, thinned, further apart, as far as the allowances let it", spur(24, 0, -0.1), shortened(ring(72, 0, -0.1), 0.2), -0.1},
        {"spur, shifted together", spur(20, 0.4, -0.04), shortened(ring(61, -0.4, -0.04), 0.1)},
        {"spur, shifts that move the axes apart", spur(20, 0.2, -0.04), shortened(ring(63, -0.5, -0.06), 0.1)},
        {"spur, shifts that move the axes together", spur(28, 0.3, -0.04), shortened(ring(80, 0.1, -0.06), 0.5)},
        {"helical", with_helix(spur(21, 0.2, -0.07), 20), with_helix(shortened(ring(70, -0.2, -0.05), 0.1), 20)},
        {"left hand, moved closer", with_helix(spur(23, 0.1, -0.05), -30), with_helix(shortened(ring(75, -0.1, -0.05), 0.1), -30), 0.05},
        {"few teeth of difference", shortened(spur(45, 0.0, -0.04), 0.2), shortened(ring(60, -0.2, -0.04), 0.2)},
        {"a large ring", spur(30, 0.3, -0.04), shortened(ring(200, -0.3, -0.04), 0.1)},
    };
}

struct worst_of_pairs {
    double touch = 0;
    double other = 0;
    double overlap = 0;
};

void roll_and_judge(const mesh<double>& pair, int steps, worst_of_pairs& worst) {
    const rolled found = roll(pair, steps);
    const double transverse_gap = pair.normal_backlash() / std::cos(pair.pinion().base_helix_angle().rad());
    const double other = std::max(std::fabs(found.other_gap_least - transverse_gap), std::fabs(found.other_gap_greatest - transverse_gap));
    // Each of two chords may stray by the tolerance.
    CHECK(found.driving_gap_greatest <= 2 * chord_tolerance);
    CHECK(other <= 2 * chord_tolerance);
    CHECK(found.deepest_overlap <= 2 * chord_tolerance);
    worst.touch = std::max(worst.touch, found.driving_gap_greatest);
    worst.other = std::max(worst.other, other);
    worst.overlap = std::max(worst.overlap, found.deepest_overlap);
}

/// The tips keep to the mate's involute, by a margin; then only flanks come near each other.
bool tips_keep_to_involutes(const mesh<double>& pair) {
    const auto reach = pair.reach_of_mating_tip();
    const double pinion_form = pair.pinion().base_diameter() / 2 * pair.pinion_root().root_form_roll();
    const double wheel_form = pair.wheel().base_diameter() / 2 * pair.wheel_root().root_form_roll();
    return reach.pinion >= pinion_form && reach.wheel <= wheel_form;
}

} // namespace

TEST_CASE("rolled in its wheel through a pitch with the backlash taken up, the pinion's driving flanks touch, the others keep the normal "
          "backlash, nothing overlaps") {
    worst_of_pairs worst;
    for (const pair_case& each : pairs()) {
        CAPTURE(each.name);
        const gear<double> pinion(each.pinion);
        const gear<double> wheel(each.wheel);
        const double a = mesh<double>(pinion, wheel).centre_distance() - each.moved;
        const mesh<double> pair(pinion, wheel, a);
        REQUIRE(pair.normal_backlash() >= -1e-12);
        REQUIRE(pair.transverse_contact_ratio() >= 1);
        REQUIRE(pair.bottom_clearance().pinion > 0);
        REQUIRE(pair.bottom_clearance().wheel > 0);
        REQUIRE(tips_keep_to_involutes(pair));
        roll_and_judge(pair, 12, worst);
    }
    MESSAGE("driving gap " << worst.touch << ", other gap off by " << worst.other << ", overlap " << worst.overlap << " mm");
}

TEST_CASE("the same with gears that stated tools have made") {
    worst_of_pairs worst;
    const gear<double> pinion(spur(26, 0.1, -0.05));
    const gear<double> wheel(shortened(ring(82, -0.1, -0.05), 0.2));
    const rackwork::cutter<double> cutter = rackwork::pinion_type_cutter<double>{.teeth = 30, .profile_shift = 0.1, .tip_radius = 0.2};
    const rackwork::cutter<double> hob = rackwork::rack_type_cutter<double>{.addendum = 1.3, .tip_radius = 0.25};
    const mesh<double> by_tools(pinion, wheel, rackwork::for_both<rackwork::cutter<double>>{hob, cutter});
    REQUIRE(tips_keep_to_involutes(by_tools));
    CHECK(by_tools.wheel_root().root_diameter() != mesh<double>(pinion, wheel).wheel_root().root_diameter());
    roll_and_judge(by_tools, 12, worst);
}

TEST_CASE("the check for overlap sees a pair whose axes stand a hundredth of a millimetre too far apart") {
    const gear<double> pinion(spur(24, 0));
    const gear<double> wheel(shortened(ring(72, 0), 0.2));
    const mesh<double> pair(pinion, wheel, mesh<double>(pinion, wheel).centre_distance() + 0.01);
    CHECK(pair.normal_backlash() < 0);
    const rolled found = roll(pair, 8);
    // Both flanks are in the way: half the negative backlash on either side.
    CHECK(found.deepest_overlap > -0.5 * pair.normal_backlash());
}

TEST_CASE("a pinion with hardly fewer teeth than its wheel strikes the tips that it passes, far from the line of action") {
    // Where the tips of the two gears pass each other after contact: common practice says that with standard teeth of 20 degrees the
    // difference should be 9 or more.
    // Both pairs keep to each other's involutes.
    const auto pair_of = [](int pinion_teeth) {
        return mesh<double>(gear<double>(spur(pinion_teeth, 0, -0.05)), gear<double>(shortened(ring(60, 0, -0.05), 0.15)));
    };
    const mesh<double> tight = pair_of(55);
    REQUIRE(tips_keep_to_involutes(tight));
    CHECK(roll(tight, 8).deepest_overlap > 100 * chord_tolerance);
    const mesh<double> roomy = pair_of(45);
    REQUIRE(tips_keep_to_involutes(roomy));
    CHECK(roll(roomy, 8).deepest_overlap <= 2 * chord_tolerance);
}
