// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Permissible profile shifts of internal pairs end exactly where the findings of the finished pair begin.
#include <doctest/doctest.h>

#include "random_source.hpp"

#include <rackwork/analysis/contact.hpp>
#include <rackwork/design/profile_shift.hpp>
#include <rackwork/findings.hpp>
#include <rackwork/interference_findings.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace {

using namespace rackwork;
using namespace rackwork::literals;

constexpr gear_kind internal = gear_kind::internal;

const std::vector<shiftable_pair<double>>& pairs() {
    static const std::vector<shiftable_pair<double>> all{
        {.normal_module = 3, .pinion_teeth = 19, .wheel_teeth = 64, .wheel_kind = internal},
        {.pinion_teeth = 24, .wheel_teeth = 36, .wheel_kind = internal},
        {.pinion_teeth = 30, .wheel_teeth = 37, .rack = {.addendum = 0.8}, .wheel_kind = internal},
        {.normal_module = 0.5, .pinion_teeth = 12, .wheel_teeth = 130, .wheel_kind = internal},
        {.pinion_teeth = 40, .wheel_teeth = 59, .helix_angle = 22_deg, .wheel_kind = internal},
        {.pinion_teeth = 17, .wheel_teeth = 48, .helix_angle = -30_deg, .rack = iso_53_d, .wheel_kind = internal},
        {.pinion_teeth = 21, .wheel_teeth = 51, .rack = ansi_b6_1_coarse_25, .wheel_kind = internal},
        {.pinion_teeth = 25, .wheel_teeth = 35, .rack = asa_b6_1_stub_20, .wheel_kind = internal},
        {.pinion_teeth = 60, .wheel_teeth = 120, .rack = ansi_b6_1_coarse_25, .wheel_kind = internal},
        // Tooth numbers so close that tips run into each other.
        {.pinion_teeth = 40, .wheel_teeth = 46, .wheel_kind = internal},
        {.pinion_teeth = 70, .wheel_teeth = 75, .rack = {.addendum = 0.7}, .wheel_kind = internal},
        // Flanks so steep that the ring's teeth are thin beside their reference circle, and its spaces narrow.
        {.pinion_teeth = 30,
         .wheel_teeth = 60,
         .rack = {.pressure_angle = 30_deg, .addendum = 1, .dedendum = 1.25, .root_fillet_radius = 0.05},
         .wheel_kind = internal},
        // A shallow root, so that the pinion's tip meets the ring's form circle.
        {.pinion_teeth = 20, .wheel_teeth = 70, .rack = {.dedendum = 1.02, .root_fillet_radius = 0.3}, .wheel_kind = internal}};
    return all;
}

std::string name(const shiftable_pair<double>& p) { return std::to_string(p.pinion_teeth) + "/" + std::to_string(p.wheel_teeth); }

std::vector<shift_limit> every_limit() {
    std::vector<shift_limit> all;
    for (const shift_limit which : shift_line<double>::every_limit) all.push_back(which);
    for (const shift_limit which : shift_line<double>::every_limit_of_rings) all.push_back(which);
    return all;
}

/// What is found about a finished pair.
struct judgement {
    finding_list<double> list;
    finding_list<double> interference;
    double cutter_roll;

    judgement(const mesh<double>& made, const finding_limits<double>& limits)
        : list(findings(made, limits)), interference(interference_findings(made)),
          cutter_roll(trimming_by(std::get<pinion_type_cutter<double>>(made.wheel_root().tool()), made.wheel()).cutter_roll) {}
};

/// Do the findings say what a limit stands for?
bool objects(const judgement& found, const finding_limits<double>& limits, shift_limit which) {
    const finding_list<double>& list = found.list;
    const finding_code tip = limits.tip_thickness == 0 ? finding_code::pointed_tip : finding_code::thin_tip;
    switch (which) {
    case shift_limit::pinion_undercut: return list.has(finding_code::undercut, finding_subject::pinion);
    case shift_limit::wheel_undercut: return found.cutter_roll < 0;
    case shift_limit::pinion_tip:
        return list.has(tip, finding_subject::pinion) || list.has(finding_code::pointed_tip, finding_subject::pinion);
    case shift_limit::wheel_tip:
        return list.has(tip, finding_subject::wheel) || list.has(finding_code::pointed_tip, finding_subject::wheel);
    case shift_limit::pinion_interference: return list.has(finding_code::mate_below_form_diameter, finding_subject::pinion);
    case shift_limit::wheel_interference: return list.has(finding_code::mate_below_form_diameter, finding_subject::wheel);
    case shift_limit::contact_ratio_approach:
    case shift_limit::contact_ratio_recess: return list.has(finding_code::low_contact_ratio);
    case shift_limit::tip_interference: return found.interference.has(finding_code::tip_interference);
    case shift_limit::wheel_space:
    case shift_limit::tip_at_reference: break;
    }
    return false;
}

bool objects(const mesh<double>& made, const finding_limits<double>& limits, shift_limit which) {
    return objects(judgement(made, limits), limits, which);
}

/// None if there is no such pair.
std::optional<mesh<double>> made(const shiftable_pair<double>& pair, const for_both<double>& shifts) {
    const auto p = pair.parameters(shifts);
    if (check(p.pinion) || check(p.wheel)) return std::nullopt;
    const gear<double> one(p.pinion);
    const gear<double> other(p.wheel);
    if (mesh<double>::check(one, other)) return std::nullopt;
    return mesh<double>(one, other);
}

bool objects_at_all(const std::optional<mesh<double>>& pair, const finding_limits<double>& limits) {
    if (!pair) return true;
    const judgement found(*pair, limits);
    const std::vector<shift_limit> all = every_limit();
    return std::any_of(all.begin(), all.end(), [&](shift_limit which) { return objects(found, limits, which); });
}

/// A limit that is missed all along a line is told at the line's end or beyond.
bool on_the_edge(const closed_range<double>& all, double x) { return !(all.least < x && x < all.greatest); }

/// Rolling tips are judged to so many places by the search along their path.
double beside(shift_limit which) { return which == shift_limit::tip_interference ? 1e-6 : 1e-8; }

} // namespace

TEST_CASE("at the ends of the permissible shifts of an internal pair the matching finding begins") {
    bool met[11] = {};
    for (const finding_limits<double>& limits : {finding_limits<double>{}, finding_limits<double>{.tip_thickness = 0, .contact_ratio = 1},
                                                 finding_limits<double>{.tip_thickness = 0.5, .contact_ratio = 1.5}}) {
        for (const shiftable_pair<double>& pair : pairs()) {
            const shift_region<double> region(pair, limits, {-3.0, 1.0});
            if (region.empty()) continue;
            const closed_range<double> sums = region.sums();
            for (int i = 1; i < 12; ++i) {
                const double sum = sums.least + (sums.greatest - sums.least) * i / 12;
                const shift_line<double> line = region.line(sum);
                const shift_range<double> range = line.permissible();
                CAPTURE(name(pair));
                CAPTURE(sum);
                CAPTURE(limits.contact_ratio);
                REQUIRE(range.width() > 4e-6);
                for (const double x : {range.least + 1e-6, range.least + range.width() / 3, range.greatest - 1e-6}) {
                    CAPTURE(x);
                    CHECK_FALSE(objects_at_all(made(pair, line.split(x)), limits));
                }
                for (const bool lower : {true, false}) {
                    const shift_limit by = lower ? range.least_by : range.greatest_by;
                    CAPTURE(static_cast<int>(by));
                    if (by == shift_limit::tip_at_reference) continue;
                    met[static_cast<int>(by)] = true;
                    CHECK(shift_line<double>::is_lower(by, internal) == lower);
                    const double step = lower ? -beside(by) : beside(by);
                    const double end = lower ? range.least : range.greatest;
                    const std::optional<mesh<double>> beyond = made(pair, line.split(end + step));
                    CHECK((by == shift_limit::wheel_space ? !beyond : objects(*beyond, limits, by)));
                    const std::optional<mesh<double>> within = made(pair, line.split(end - step));
                    REQUIRE(within.has_value());
                    CHECK_FALSE(objects(*within, limits, by));
                }
            }
        }
    }
    // The ring's thin tips come into play beyond other limits only; the next test has them.
    for (const shift_limit which : every_limit()) {
        CAPTURE(static_cast<int>(which));
        CHECK(met[static_cast<int>(which)] == (which != shift_limit::contact_ratio_approach && which != shift_limit::wheel_tip));
    }
}

TEST_CASE("a limit's own curve flips its own finding also where another limit comes first") {
    const finding_limits<double> limits{.tip_thickness = 0.5, .contact_ratio = 1};
    int met[11] = {};
    for (const shiftable_pair<double>& pair : pairs()) {
        const shift_region<double> region(pair, limits, {-3.0, 1.0});
        for (const shift_limit which : {shift_limit::pinion_tip, shift_limit::wheel_tip, shift_limit::wheel_space,
                                        shift_limit::tip_interference, shift_limit::wheel_undercut, shift_limit::pinion_undercut}) {
            for (const double sum : {-2.0, -1.2, -0.6, -0.25, 0.0, 0.2}) {
                const std::optional<for_both<double>> at = region.boundary(which, sum);
                if (!at || on_the_edge(region.line(sum).domain(), at->pinion)) continue;
                const double step = shift_line<double>::is_lower(which, internal) ? beside(which) : -beside(which);
                const std::optional<mesh<double>> permitted = made(pair, {at->pinion + step, at->wheel - step});
                const std::optional<mesh<double>> not_permitted = made(pair, {at->pinion - step, at->wheel + step});
                CAPTURE(name(pair));
                CAPTURE(sum);
                CAPTURE(static_cast<int>(which));
                if (which == shift_limit::wheel_space) {
                    CHECK(permitted.has_value());
                    CHECK_FALSE(not_permitted.has_value());
                } else {
                    if (!permitted || !not_permitted) continue;
                    CHECK_FALSE(objects(*permitted, limits, which));
                    CHECK(objects(*not_permitted, limits, which));
                }
                ++met[static_cast<int>(which)];
            }
        }
    }
    for (const shift_limit which : {shift_limit::pinion_tip, shift_limit::wheel_tip, shift_limit::wheel_space,
                                    shift_limit::tip_interference, shift_limit::wheel_undercut, shift_limit::pinion_undercut}) {
        CAPTURE(static_cast<int>(which));
        CHECK(met[static_cast<int>(which)] > 1);
    }
}

TEST_CASE("over a grid of shifts the region of an internal pair is where the finished pairs have none of these findings") {
    const finding_limits<double> limits{};
    for (const shiftable_pair<double>& pair : pairs()) {
        const shift_region<double> region(pair, limits, {-3.0, 1.0});
        CAPTURE(name(pair));
        int inside = 0;
        int outside = 0;
        for (int i = 0; i < 20; ++i) {
            for (int k = 0; k < 20; ++k) {
                const for_both<double> shifts{-0.7 + 1.9 * i / 19, -1.2 + 2.1 * k / 19 + 1e-3 * i};
                const double sum = shifts.pinion + shifts.wheel;
                if (shift_line<double>::check(pair, sum)) continue;
                if (!region.line(sum).domain().contains(shifts.pinion)) continue;
                CAPTURE(shifts.pinion);
                CAPTURE(shifts.wheel);
                CHECK(region.contains(shifts) == !objects_at_all(made(pair, shifts), limits));
                ++(region.contains(shifts) ? inside : outside);
            }
        }
        CHECK(inside >= 5);
        CHECK(outside >= 50);
    }
}

TEST_CASE("the sizes on a line are those of the finished internal pair") {
    for (const shiftable_pair<double>& pair : pairs()) {
        const shift_region<double> region(pair, {}, {-3.0, 1.0});
        const shift_line<double> line = region.line((region.sums().least + region.sums().greatest) / 2);
        const shift_range<double> range = line.permissible();
        for (const double share : {0.1, 0.6}) {
            const double x = range.least + share * range.width();
            CAPTURE(name(pair));
            const mesh<double> pair_made = pair.with(line.split(x));
            const double m = pair.normal_module;
            CHECK(pair_made.centre_distance() == doctest::Approx(line.centre_distance()).epsilon(1e-12));
            CHECK(pair_made.transverse_contact_ratio() == doctest::Approx(line.contact_ratio(x)).epsilon(1e-11));
            const auto thickness = [](const gear<double>& g) { return g.normal_tooth_thickness(g.tip_diameter()); };
            CHECK(thickness(pair_made.pinion()) == doctest::Approx(line.tip_thickness(x).pinion * m).epsilon(1e-11));
            CHECK(thickness(pair_made.wheel()) == doctest::Approx(line.tip_thickness(x).wheel * m).epsilon(1e-11));
            const path_of_contact<double> path(pair_made);
            CHECK(path.point_a().specific_sliding().pinion == doctest::Approx(line.specific_sliding(x).pinion).epsilon(1e-9));
            CHECK(path.point_e().specific_sliding().wheel == doctest::Approx(line.specific_sliding(x).wheel).epsilon(1e-9));
            const double form_roll = pair_made.pinion().base_diameter() / 2 * pair_made.pinion_root().root_form_roll();
            CHECK((pair_made.reach_of_mating_tip().pinion - form_roll) / m == doctest::Approx(line.root_reserve(x).pinion).epsilon(1e-8));
            // Whole tips, and no less than the basic rack's bottom clearance.
            CHECK(line.tip_alteration() == 0);
            CHECK(pair_made.bottom_clearance().pinion >= (pair.rack.dedendum - pair.rack.addendum) * m * (1 - 1e-10));
        }
    }
}

TEST_CASE("equal sliding in an internal pair: the pinion slides at A as the ring does at E, whatever the split comes from") {
    int balanced = 0;
    for (const shiftable_pair<double>& pair : pairs()) {
        const shift_region<double> region(pair, {}, {-3.0, 1.0});
        const closed_range<double> sums = region.sums();
        for (const double share : {0.2, 0.5, 0.8}) {
            const shift_line<double> line = region.line(sums.least + share * (sums.greatest - sums.least));
            const shift_choice<double> choice = split_by(line, equal_sliding{});
            if (!choice.balanced) continue;
            ++balanced;
            const path_of_contact<double> path(pair.with(choice.profile_shift));
            const double of_pinion = path.point_a().specific_sliding().pinion;
            CHECK(of_pinion < 0);
            CHECK(path.point_e().specific_sliding().wheel == doctest::Approx(of_pinion).epsilon(1e-9));
        }
    }
    CHECK(balanced >= 3);
}

TEST_CASE("the outline of an internal pair's region runs counter-clockwise along its limits") {
    for (const shiftable_pair<double>& pair : pairs()) {
        const shift_region<double> region(pair, {}, {-3.0, 1.0});
        CAPTURE(name(pair));
        const auto outline = region.outline(24);
        REQUIRE(outline.size() >= 48);
        double area = 0;
        for (std::size_t i = 0; i < outline.size(); ++i) {
            const for_both<double>& here = outline[i].profile_shift;
            const for_both<double>& next = outline[(i + 1) % outline.size()].profile_shift;
            area += (here.pinion * next.wheel - next.pinion * here.wheel) / 2;
            const shift_range<double> range = region.line(here.pinion + here.wheel).permissible();
            const double off = std::min(std::fabs(here.pinion - range.least), std::fabs(here.pinion - range.greatest));
            CHECK(off < (range.width() < 1e-3 ? 1e-6 : 1e-9));
        }
        CHECK(area > 0);
        const closed_range<double> sums = region.sums();
        if (sums.least > -3.0) CHECK(std::fabs(region.line(sums.least).permissible().width()) < 1e-6);
    }
}

TEST_CASE("shifts of an internal pair for a centre distance") {
    const shiftable_pair<double> pair{
        .normal_module = 2, .pinion_teeth = 23, .wheel_teeth = 71, .helix_angle = 15_deg, .wheel_kind = internal};
    const double distance = reference_centre_distance(pair.proportions()) + 0.7;
    const shift_choice<double> choice = choose_profile_shift(pair, distance);
    CHECK(choice.balanced);
    const mesh<double> pair_made = pair.with(choice.profile_shift);
    CHECK(pair_made.is_internal());
    CHECK(pair_made.centre_distance() == doctest::Approx(distance).epsilon(1e-13));
    CHECK(choice.profile_shift.pinion + choice.profile_shift.wheel < 0); // farther apart: less thickness in all
    // The greatest contact ratio is that of the least shift of the pinion.
    const shift_choice<double> longest = choose_profile_shift(pair, distance, greatest_contact_ratio{});
    CHECK(longest.profile_shift.pinion == longest.permissible.least);
}

TEST_CASE("an internal pair that cannot be is refused in a sentence") {
    CHECK_THROWS_AS(shift_line<double>({.pinion_teeth = 40, .wheel_teeth = 40, .wheel_kind = internal}, 0.0), geometry_error);
    CHECK_THROWS_AS(shift_line<double>({.pinion_teeth = 20, .wheel_teeth = 50, .wheel_kind = internal}, 5.0), geometry_error);
    CHECK(shift_line<double>::check({.pinion_teeth = 20, .wheel_teeth = 50, .wheel_kind = internal}, 5.0));
    CHECK_FALSE(shift_line<double>::check({.pinion_teeth = 20, .wheel_teeth = 50, .wheel_kind = internal}, -0.3));
}

TEST_CASE("along a line tips run into each other below one shift of the pinion and nowhere above it") {
    support::random_source random{77};
    int changes = 0;
    for (int i = 0; i < 4000; ++i) {
        const int pinion = random.integer(12, 90);
        const shiftable_pair<double> pair{.pinion_teeth = pinion,
                                          .wheel_teeth = pinion + random.integer(1, 12),
                                          .rack = {.pressure_angle = random.coin() ? 20_deg : 25_deg, .addendum = random.uniform(0.5, 1)},
                                          .wheel_kind = internal};
        const double sum = random.uniform(-1.5, 0.3);
        if (shift_line<double>::check(pair, sum)) continue;
        const shift_line<double> line(pair, sum);
        const closed_range<double> all = line.domain();
        const std::optional<double> least = line.limit(shift_limit::tip_interference);
        if (least && !on_the_edge(all, *least)) ++changes;
        int otherwise = 0;
        for (int k = 0; k <= 60; ++k) {
            const double x = all.least + (all.greatest - all.least) * k / 60;
            if (least && std::fabs(x - *least) < 1e-9) continue;
            if ((line.room_of_passing_tips(x) >= 0) != (!least || x > *least)) ++otherwise;
        }
        CAPTURE(i);
        CHECK(otherwise == 0);
    }
    CHECK(changes > 20);
}

TEST_CASE("one tooth of difference: the tips are in each other's way but at a working pressure angle near 60 degrees") {
    const shiftable_pair<double> pair{.pinion_teeth = 30, .wheel_teeth = 31, .wheel_kind = internal};
    const shift_region<double> usual(pair, {}, {-0.5, 0.3});
    CHECK(usual.empty());
    const shift_region<double> wide_apart(pair, {}, {-1.0, 0.3});
    REQUIRE_FALSE(wide_apart.empty());
    const shift_line<double> line = wide_apart.line(-0.9);
    const shift_range<double> range = line.permissible();
    const mesh<double> pair_made = pair.with(line.split((range.least + range.greatest) / 2));
    CHECK(pair_made.working_pressure_angle().deg() > 55);
    CHECK_FALSE(interference_findings(pair_made).has(finding_code::tip_interference));
}
