// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Two outlines rolled together at their centre distance: they touch where they should and overlap nowhere. For helical gears this is the
// transverse section.
#include "form_gears.hpp"
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
#include <vector>

namespace {

using form_gears::full_radius_rack;
using form_gears::rack_of;
using rackwork::deg;
using rackwork::gear;
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

/// The teeth beside tooth 0 as fine chords: the part of the outline that can come near the mate.
std::vector<chord> chords_near_tooth_0(const gear<double>& g, double tolerance) {
    std::vector<chord> result;
    const int beside = std::min(3, (g.teeth() - 1) / 2);
    outline<double> part;
    for (int i = -beside; i <= beside; ++i) rackwork::tooth_form<double>(g).append_tooth(part.segments, i);
    for (const segment<double>& s : part.segments) {
        outline<double> one;
        one.segments.push_back(s);
        rackwork::polyline<double> points = rackwork::polyline_of(one, tolerance);
        points.points.push_back(s.end);
        curve_kind kind = curve_kind::other;
        if (form_gears::is_flank(s)) kind = s.to > s.from ? curve_kind::right_flank : curve_kind::left_flank;
        for (std::size_t i = 1; i < points.points.size(); ++i)
            result.push_back({points.points[i - 1], points.points[i], kind});
    }
    return result;
}

std::vector<chord> placed(const std::vector<chord>& chords, const placement& where, double from_x, double to_x) {
    std::vector<chord> result;
    for (const chord& c : chords) {
        const chord moved{where(c.from), where(c.to), c.kind};
        // Only what stands between the two tip circles can meet.
        if (std::min(moved.from.x, moved.to.x) <= to_x && std::max(moved.from.x, moved.to.x) >= from_x)
            result.push_back(moved);
    }
    return result;
}

struct rolled {
    double driving_gap_least = std::numeric_limits<double>::infinity();
    double driving_gap_greatest = 0;
    double other_gap_least = std::numeric_limits<double>::infinity();
    double other_gap_greatest = 0;
    double deepest_overlap = 0;
};

/// Rolls the pair through one pitch, the pinion driving counter-clockwise, with the backlash taken up.
rolled roll(const mesh<double>& pair, int steps, double tolerance) {
    const gear<double>& pinion = pair.pinion();
    const gear<double>& wheel = pair.wheel();
    const double a = pair.centre_distance();
    const double ratio = double(pinion.teeth()) / wheel.teeth();
    const double working_radius = a * wheel.teeth() / (pinion.teeth() + wheel.teeth());
    const std::vector<chord> of_pinion = chords_near_tooth_0(pinion, tolerance);
    const std::vector<chord> of_wheel = chords_near_tooth_0(wheel, tolerance);
    rolled result;
    for (int i = 0; i < steps; ++i) {
        const double turn = (double(i) / steps - 0.5) * 2 * pi / pinion.teeth();
        // In the middle a pinion tooth points at the wheel and a wheel's space at the pinion. The pinion turns counter-clockwise, so the
        // wheel is turned the same way by half its backlash for the pinion's left flank to touch.
        const double backlash = pair.circumferential_backlash() / 2 / working_radius;
        const placement pinion_stands{{0, 0}, turn};
        const placement wheel_stands{{a, 0}, pi - pi / wheel.teeth() - turn * ratio + backlash};
        const double from_x = a - wheel.effective_tip_diameter() / 2;
        const double to_x = pinion.effective_tip_diameter() / 2;
        const std::vector<chord> first = placed(of_pinion, pinion_stands, from_x, to_x);
        const std::vector<chord> second = placed(of_wheel, wheel_stands, from_x, to_x);
        // Left flanks face the sense of rotation and meet the wheel's left flanks, as right ones meet right ones.
        const double driving = shortest_distance(first, curve_kind::left_flank, second, curve_kind::left_flank);
        const double other = shortest_distance(first, curve_kind::right_flank, second, curve_kind::right_flank);
        result.driving_gap_least = std::min(result.driving_gap_least, driving);
        result.driving_gap_greatest = std::max(result.driving_gap_greatest, driving);
        result.other_gap_least = std::min(result.other_gap_least, other);
        result.other_gap_greatest = std::max(result.other_gap_greatest, other);
        result.deepest_overlap = std::max({result.deepest_overlap, overlap(first, second, 1), overlap(second, first, 1)});
    }
    return result;
}

constexpr double chord_tolerance = 1e-5; // of a millimetre; the modules here are 1 to 5

struct pair_case {
    std::string name;
    gear_parameters<double> pinion;
    gear_parameters<double> wheel;
    /// Beyond the centre distance without backlash.
    double moved_apart;
};

std::vector<pair_case> pairs() {
    const auto spur = [](int teeth, double shift, double allowance = 0) {
        return gear_parameters<double>{
            .normal_module = 2, .teeth = teeth, .profile_shift = shift, .thickness_allowance = allowance};
    };
    const auto helical = [](int teeth, double helix, double shift, double allowance = 0) {
        return gear_parameters<double>{.normal_module = 3,
                                       .teeth = teeth,
                                       .helix_angle = deg(helix),
                                       .profile_shift = shift,
                                       .thickness_allowance = allowance};
    };
    const auto full = [](int teeth) {
        return gear_parameters<double>{
            .normal_module = 1, .teeth = teeth, .rack = full_radius_rack(20, 1.3), .thickness_allowance = -0.03};
    };
    return {
        {"spur, no backlash", spur(20, 0), spur(33, 0), 0},
        {"spur, thinned", spur(20, 0, -0.06), spur(33, 0, -0.1), 0},
        {"spur, shifted, thinned and moved apart", spur(17, 0.4, -0.05), spur(41, 0.2, -0.08), 0.15},
        {"spur, shifts that cancel", spur(16, 0.3, -0.04), spur(50, -0.3, -0.04), 0},
        {"undercut pinion", spur(12, 0, -0.05), spur(25, 0, -0.05), 0},
        {"both undercut", spur(14, 0.0, -0.03), spur(14, 0.0, -0.03), 0},
        {"helical", helical(19, 20, 0.1, -0.07), helical(37, -20, 0.05, -0.09), 0.05},
        {"helix 45 degrees", helical(30, -45, 0, -0.05), helical(46, 45, 0, -0.05), 0},
        {"undercut helical", helical(9, 15, 0.1, -0.05), helical(29, -15, 0, -0.05), 0},
        {"full radius", full(24), full(48), 0},
    };
}

struct worst_of_pairs {
    double touch = 0;
    double other = 0;
    double overlap = 0;
};

void roll_and_judge(const mesh<double>& pair, int steps, worst_of_pairs& worst) {
    const rolled found = roll(pair, steps, chord_tolerance);
    const double transverse_gap = pair.normal_backlash() / std::cos(pair.pinion().base_helix_angle().rad());
    const double other = std::max(std::fabs(found.other_gap_least - transverse_gap),
                                  std::fabs(found.other_gap_greatest - transverse_gap));
    // Each of two chords may stray by the tolerance.
    CHECK(found.driving_gap_greatest <= 2 * chord_tolerance);
    CHECK(other <= 2 * chord_tolerance);
    CHECK(found.deepest_overlap <= 2 * chord_tolerance);
    worst.touch = std::max(worst.touch, found.driving_gap_greatest);
    worst.other = std::max(worst.other, other);
    worst.overlap = std::max(worst.overlap, found.deepest_overlap);
}

} // namespace

TEST_CASE("rolled through a pitch with the backlash taken up, driving flanks touch, the others keep the normal "
          "backlash, nothing overlaps") {
    worst_of_pairs worst;
    for (const pair_case& each : pairs()) {
        INFO(each.name);
        const gear<double> pinion(each.pinion);
        const gear<double> wheel(each.wheel);
        const double a = mesh<double>(pinion, wheel).centre_distance() + each.moved_apart;
        const mesh<double> pair(pinion, wheel, a);
        REQUIRE(pair.transverse_contact_ratio() >= 1);
        REQUIRE(pair.bottom_clearance().pinion > 0);
        REQUIRE(pair.bottom_clearance().wheel > 0);
        roll_and_judge(pair, 24, worst);
    }
    MESSAGE("driving gap " << worst.touch << ", other gap off by " << worst.other << ", overlap " << worst.overlap
                           << " mm");
}

TEST_CASE("random pairs whose tips keep to the mate's involute roll without overlap, and the gap is the backlash") {
    support::random_source random{41};
    worst_of_pairs worst;
    int rolled_pairs = 0;
    for (int tries = 0; rolled_pairs < 20 && tries < 2000; ++tries) {
        const double degrees = random.coin() ? 20 : random.uniform(14.5, 28);
        const double helix = random.coin() ? 0 : random.uniform(-45, 45);
        const double module = random.uniform(1, 4);
        const double dedendum = random.uniform(1.15, 1.3);
        const double fillet = random.uniform(0, 0.9) * rackwork::full_root_fillet_radius(deg(degrees), dedendum);
        const auto draw = [&](int teeth, double angle) {
            return gear_parameters<double>{.normal_module = module,
                                           .teeth = teeth,
                                           .helix_angle = deg(angle),
                                           .rack = rack_of(degrees, 1, dedendum, fillet),
                                           .profile_shift = random.uniform(-0.3, 0.5),
                                           .thickness_allowance = -module * random.uniform(0, 0.06)};
        };
        const gear_parameters<double> small = draw(random.integer(8, 40), helix);
        const gear_parameters<double> large = draw(random.integer(12, 120), -helix);
        const auto pinion = form_gears::gear_with_a_form(small);
        const auto wheel = form_gears::gear_with_a_form(large);
        if (!pinion || !wheel) continue;
        const mesh<double> pair(*pinion, *wheel,
                                mesh<double>(*pinion, *wheel).centre_distance() + module * random.uniform(0, 0.05));
        const auto reach = pair.reach_of_mating_tip();
        const auto form = pair.root_form_diameter();
        const auto tip_keeps_to_involute = [](const gear<double>& g, double reached, double form_diameter) {
            return reached >= g.base_diameter() / 2 * g.tangent_of_pressure_angle(form_diameter);
        };
        if (!tip_keeps_to_involute(*pinion, reach.pinion, form.pinion) ||
            !tip_keeps_to_involute(*wheel, reach.wheel, form.wheel))
            continue;
        // Clearance at the bottom and a tip that is no point; then only flanks come near each other.
        if (pair.transverse_contact_ratio() < 1.02 || pair.bottom_clearance().pinion < 0.1 * module ||
            pair.bottom_clearance().wheel < 0.1 * module) {
            continue;
        }
        INFO(form_gears::described(small));
        INFO(form_gears::described(large));
        ++rolled_pairs;
        roll_and_judge(pair, 12, worst);
    }
    CHECK(rolled_pairs == 20);
    MESSAGE("driving gap " << worst.touch << ", other gap off by " << worst.other << ", overlap " << worst.overlap
                           << " mm");
}

TEST_CASE("where the tool leaves too little depth the mate's tip overlaps the fillet, and only there") {
    // A shallow tool with a large rounding ends the involute above the point that the wheel's tip reaches.
    const rackwork::basic_rack<double> shallow = rack_of(20, 1, 1.15, 0.5);
    const gear<double> pinion({.normal_module = 2, .teeth = 22, .rack = shallow, .thickness_allowance = -0.05});
    const gear<double> wheel({.normal_module = 2, .teeth = 66, .rack = shallow, .thickness_allowance = -0.05});
    const mesh<double> pair(pinion, wheel);
    const double form = rackwork::root_form_diameter(pinion);
    const double reached = 2 * std::hypot(pinion.base_diameter() / 2, pair.reach_of_mating_tip().pinion);
    REQUIRE(reached < form);
    REQUIRE(pair.bottom_clearance().wheel > 0);
    CHECK(roll(pair, 24, chord_tolerance).deepest_overlap > 100 * chord_tolerance);

    // With the wheel's tip shortened to what the pinion can bear the overlap is gone.
    gear_parameters<double> shortened = wheel.parameters();
    shortened.tip_alteration = -0.35;
    const mesh<double> relieved(pinion, gear<double>(shortened), pair.centre_distance());
    REQUIRE(2 * std::hypot(pinion.base_diameter() / 2, relieved.reach_of_mating_tip().pinion) > form);
    CHECK(roll(relieved, 24, chord_tolerance).deepest_overlap <= 2 * chord_tolerance);
}

TEST_CASE("the check for overlap sees a pair that stands a hundredth of a millimetre too close") {
    const gear<double> pinion({.normal_module = 2, .teeth = 20});
    const gear<double> wheel({.normal_module = 2, .teeth = 33});
    const double a = mesh<double>(pinion, wheel).centre_distance();
    const mesh<double> pair(pinion, wheel, a - 0.01);
    // Both flanks are in the way: half the negative backlash on either side.
    const rolled found = roll(pair, 8, chord_tolerance);
    CHECK(pair.normal_backlash() < 0);
    CHECK(found.deepest_overlap > -0.5 * pair.normal_backlash());
}
