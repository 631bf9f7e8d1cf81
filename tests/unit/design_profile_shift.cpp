// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Permissible profile shifts end exactly where the findings of the finished pair begin, and chosen shifts are what they are said to be.
#include <doctest/doctest.h>

#include "random_source.hpp"

#include <rackwork/analysis/contact.hpp>
#include <rackwork/analysis/tooth_root.hpp>
#include <rackwork/core/error.hpp>
#include <rackwork/design/profile_shift.hpp>
#include <rackwork/findings.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace {

using namespace rackwork;
using namespace rackwork::literals;

const std::vector<shiftable_pair<double>>& pairs() {
    static const std::vector<shiftable_pair<double>> all{
        {.normal_module = 3, .pinion_teeth = 15, .wheel_teeth = 46},
        {.normal_module = 3, .pinion_teeth = 15, .wheel_teeth = 46, .tips = tip_rule::full_depth},
        {.pinion_teeth = 12, .wheel_teeth = 12},
        {.pinion_teeth = 28, .wheel_teeth = 17, .rack = iso_53_c},
        {.normal_module = 0.5, .pinion_teeth = 10, .wheel_teeth = 120, .tips = tip_rule::full_depth},
        {.pinion_teeth = 19, .wheel_teeth = 61, .helix_angle = 22_deg},
        {.pinion_teeth = 9, .wheel_teeth = 23, .helix_angle = -30_deg, .rack = iso_53_d, .tips = tip_rule::full_depth},
        {.pinion_teeth = 13, .wheel_teeth = 40, .rack = ansi_b6_1_coarse_25},
        {.pinion_teeth = 25, .wheel_teeth = 75, .rack = asa_b6_1_stub_20},
        {.pinion_teeth = 30, .wheel_teeth = 45, .rack = asa_b6_1_full_depth_14_5}};
    return all;
}

std::string name(const shiftable_pair<double>& p) {
    return std::to_string(p.pinion_teeth) + "/" + std::to_string(p.wheel_teeth) + (p.tips == tip_rule::clearance ? "" : " full depth");
}

/// Is there a finding for what a limit stands for?
bool objects(const finding_list<double>& list, shift_limit which, bool pointed) {
    const finding_code tip = pointed ? finding_code::pointed_tip : finding_code::thin_tip;
    switch (which) {
    case shift_limit::pinion_undercut: return list.has(finding_code::undercut, finding_subject::pinion);
    case shift_limit::wheel_undercut: return list.has(finding_code::undercut, finding_subject::wheel);
    case shift_limit::pinion_tip: return list.has(tip, finding_subject::pinion);
    case shift_limit::wheel_tip: return list.has(tip, finding_subject::wheel);
    case shift_limit::pinion_interference: return list.has(finding_code::mate_below_form_diameter, finding_subject::pinion);
    case shift_limit::wheel_interference: return list.has(finding_code::mate_below_form_diameter, finding_subject::wheel);
    case shift_limit::contact_ratio_approach:
    case shift_limit::contact_ratio_recess: return list.has(finding_code::low_contact_ratio);
    case shift_limit::tip_interference:
    case shift_limit::wheel_space: // of internal wheels alone
    case shift_limit::tip_at_reference: break;
    }
    return false;
}

bool objects_at_all(const finding_list<double>& list) {
    return std::any_of(std::begin(shift_line<double>::every_limit), std::end(shift_line<double>::every_limit),
                       [&](shift_limit which) { return objects(list, which, false) || objects(list, which, true); });
}

constexpr double beside = 1e-8;

/// Findings of the pair with these shifts of the pinion on a line.
finding_list<double> found(const shift_line<double>& line, double pinion_shift) {
    return findings(line.pair().with(line.split(pinion_shift)), line.limits());
}

} // namespace

TEST_CASE("on either side of the end of the permissible shifts the matching finding is there and is not") {
    bool met[9] = {};
    for (const finding_limits<double>& limits : {finding_limits<double>{}, finding_limits<double>{.tip_thickness = 0, .contact_ratio = 1},
                                                 finding_limits<double>{.tip_thickness = 0.4, .contact_ratio = 1.4}}) {
        for (const shiftable_pair<double>& pair : pairs()) {
            const shift_region<double> region(pair, limits, {-1.5, 3.0});
            if (region.empty()) continue;
            const closed_range<double> sums = region.sums();
            for (int i = 1; i < 24; ++i) {
                const double sum = sums.least + (sums.greatest - sums.least) * i / 24;
                const shift_line<double> line = region.line(sum);
                const shift_range<double> range = line.permissible();
                REQUIRE(range.width() > 4 * beside);
                CAPTURE(name(pair));
                CAPTURE(sum);
                for (const double x : {range.least + beside, range.least + range.width() / 3, range.greatest - beside}) {
                    CHECK_FALSE(objects_at_all(found(line, x)));
                }
                const bool pointed = limits.tip_thickness == 0;
                if (range.least_by != shift_limit::tip_at_reference) {
                    CAPTURE(static_cast<int>(range.least_by));
                    CHECK(objects(found(line, range.least - beside), range.least_by, pointed));
                    met[static_cast<int>(range.least_by)] = true;
                }
                if (range.greatest_by != shift_limit::tip_at_reference) {
                    CAPTURE(static_cast<int>(range.greatest_by));
                    CHECK(objects(found(line, range.greatest + beside), range.greatest_by, pointed));
                    met[static_cast<int>(range.greatest_by)] = true;
                }
            }
        }
    }
    for (const shift_limit which : shift_line<double>::every_limit) {
        CAPTURE(static_cast<int>(which));
        CHECK(met[static_cast<int>(which)]); // no limit has been left out
    }
}

TEST_CASE("a limit's own curve flips its own finding also where another limit comes first") {
    for (const shiftable_pair<double>& pair : pairs()) {
        const shift_region<double> region(pair);
        for (const shift_limit which :
             {shift_limit::pinion_undercut, shift_limit::wheel_undercut, shift_limit::pinion_tip, shift_limit::wheel_tip}) {
            for (const double sum : {-0.25, 0.0, 0.4, 0.9}) {
                const std::optional<for_both<double>> at = region.boundary(which, sum);
                if (!at) continue;
                const double permitted = shift_line<double>::is_lower(which) ? beside : -beside;
                for (const double step : {permitted, -permitted}) {
                    const for_both<double> shifts{at->pinion + step, at->wheel - step};
                    const auto p = pair.parameters(shifts);
                    if (check(p.pinion) || check(p.wheel)) continue;
                    const gear<double> one(p.pinion);
                    const gear<double> other(p.wheel);
                    if (mesh<double>::check(one, other)) continue;
                    CAPTURE(name(pair));
                    CHECK(objects(findings(mesh<double>(one, other)), which, false) == (step != permitted));
                }
            }
        }
    }
}

TEST_CASE("random shifts are in the region exactly if the finished pair has none of these findings") {
    support::random_source random{4242};
    int inside = 0;
    int outside = 0;
    for (const shiftable_pair<double>& pair : pairs()) {
        const shift_region<double> region(pair);
        for (int i = 0; i < 120; ++i) {
            const for_both<double> shifts{random.uniform(-0.6, 1.4), random.uniform(-0.8, 1.4)};
            const double sum = shifts.pinion + shifts.wheel;
            if (shift_line<double>::check(pair, sum) || !region.line(sum).domain().contains(shifts.pinion)) continue;
            const auto p = pair.parameters(shifts);
            if (check(p.pinion) || check(p.wheel)) {
                CHECK_FALSE(region.contains(shifts));
                continue;
            }
            const gear<double> one(p.pinion);
            const gear<double> other(p.wheel);
            if (mesh<double>::check(one, other)) {
                CHECK_FALSE(region.contains(shifts));
                continue;
            }
            CAPTURE(name(pair));
            CAPTURE(shifts.pinion);
            CAPTURE(shifts.wheel);
            CHECK(region.contains(shifts) == !objects_at_all(findings(mesh<double>(one, other))));
            ++(region.contains(shifts) ? inside : outside);
        }
    }
    CHECK(inside > 100);
    CHECK(outside > 100);
}

TEST_CASE("the sizes on a line are those of the finished pair") {
    for (const shiftable_pair<double>& pair : pairs()) {
        const shift_region<double> region(pair);
        if (region.empty()) continue;
        const shift_line<double> line = region.line((region.sums().least + region.sums().greatest) / 2);
        const shift_range<double> range = line.permissible();
        const double x = range.least + 0.4 * range.width();
        const mesh<double> made = pair.with(line.split(x));
        CHECK(made.centre_distance() == doctest::Approx(line.centre_distance()).epsilon(1e-13));
        CHECK(made.transverse_contact_ratio() == doctest::Approx(line.contact_ratio(x)).epsilon(1e-12));
        CHECK(made.pinion().normal_tooth_thickness(made.pinion().tip_diameter()) ==
              doctest::Approx(line.tip_thickness(x).pinion * pair.normal_module).epsilon(1e-11));
        CHECK(made.wheel().normal_tooth_thickness(made.wheel().tip_diameter()) ==
              doctest::Approx(line.tip_thickness(x).wheel * pair.normal_module).epsilon(1e-11));
        const path_of_contact<double> path(made);
        CHECK(path.point_a().specific_sliding().pinion == doctest::Approx(line.specific_sliding(x).pinion).epsilon(1e-10));
        CHECK(path.point_e().specific_sliding().wheel == doctest::Approx(line.specific_sliding(x).wheel).epsilon(1e-10));
        if (pair.tips == tip_rule::clearance) {
            const double c = (pair.rack.dedendum - pair.rack.addendum) * pair.normal_module;
            CHECK(made.bottom_clearance().pinion == doctest::Approx(c).epsilon(1e-10));
            CHECK(made.bottom_clearance().wheel == doctest::Approx(c).epsilon(1e-10));
        }
    }
}

TEST_CASE("the region's outline: every point on the boundary, corners on two limits, the ends of no width") {
    for (const shiftable_pair<double>& pair : pairs()) {
        const shift_region<double> region(pair, {}, {-3.0, 6.0});
        if (region.empty()) continue;
        const auto outline = region.outline(40);
        REQUIRE(outline.size() >= 80);
        int corners = 0;
        double area = 0;
        for (std::size_t i = 0; i < outline.size(); ++i) {
            const auto& point = outline[i];
            const for_both<double>& next = outline[(i + 1) % outline.size()].profile_shift;
            area += (point.profile_shift.pinion * next.wheel - next.pinion * point.profile_shift.wheel) / 2;
            const shift_line<double> line = region.line(point.profile_shift.pinion + point.profile_shift.wheel);
            const shift_range<double> range = line.permissible();
            const double off =
                std::min(std::fabs(point.profile_shift.pinion - range.least), std::fabs(point.profile_shift.pinion - range.greatest));
            CAPTURE(name(pair));
            // Where the two ends run together, the last place of the sum is worth its square root.
            CHECK(off < (range.width() < 1e-3 ? 1e-6 : 1e-9));
            if (!point.corner) continue;
            ++corners;
            // Two limits meet, of which one may be met on one side of the corner only; the end of the study counts as one.
            const double x = point.profile_shift.pinion;
            const closed_range<double> all = line.domain();
            int meeting = std::min(x - all.least, all.greatest - x) < 1e-9 ? 1 : 0;
            for (const shift_limit which : shift_line<double>::every_limit) {
                bool meets = false;
                for (const double nudge : {-1e-9, 0.0, 1e-9}) {
                    const std::optional<double> at = region.line(line.profile_shift_sum() + nudge).limit(which);
                    // Interference meets the end of the study at a tangent: a nudge is worth its square root.
                    meets = meets || (at && std::fabs(*at - x) < (nudge == 0 ? 1e-9 : 1e-3));
                }
                if (meets) ++meeting;
            }
            CHECK(meeting >= 2);
        }
        CHECK(area > 0); // counter-clockwise
        CHECK(corners >= 1);
        const closed_range<double> sums = region.sums();
        if (sums.least > -3.0) CHECK(std::fabs(region.line(sums.least).permissible().width()) < 1e-6);
        if (sums.greatest < 6.0) CHECK(std::fabs(region.line(sums.greatest).permissible().width()) < 1e-6);
    }
}

TEST_CASE("equal sliding: the pinion slides at A as the wheel does at E") {
    for (const shiftable_pair<double>& pair : pairs()) {
        const shift_region<double> region(pair);
        if (region.empty()) continue;
        const shift_line<double> line = region.line(0.5 * (region.sums().least + region.sums().greatest));
        const shift_choice<double> choice = split_by(line, equal_sliding{});
        if (!choice.balanced) continue;
        CHECK(choice.profile_shift.pinion == doctest::Approx(*line.shift_of_equal_sliding()).epsilon(1e-13));
        const path_of_contact<double> path(pair.with(choice.profile_shift));
        const double of_pinion = path.point_a().specific_sliding().pinion;
        CHECK(of_pinion < 0);
        CHECK(path.point_e().specific_sliding().wheel == doctest::Approx(of_pinion).epsilon(1e-10));
    }
}

TEST_CASE("equal gears want equal shifts, whatever is to be equal") {
    const shiftable_pair<double> pair{.pinion_teeth = 22, .wheel_teeth = 22};
    for (const double sum : {0.0, 0.3, 0.8}) {
        const shift_line<double> line(pair, sum);
        CHECK(split_by(line, equal_sliding{}).profile_shift.pinion == doctest::Approx(sum / 2).epsilon(1e-12));
        CHECK(split_by(line, equal_tip_thickness{}).profile_shift.pinion == doctest::Approx(sum / 2).epsilon(1e-12));
        CHECK(split_by(line, equal_root_strength{}).profile_shift.pinion == doctest::Approx(sum / 2).epsilon(1e-12));
        CHECK(split_by(line, greatest_contact_ratio{}).profile_shift.pinion == doctest::Approx(sum / 2).epsilon(1e-12));
    }
}

TEST_CASE("equal root strength, equal tips, greatest contact ratio") {
    const shiftable_pair<double> pair{.normal_module = 3, .pinion_teeth = 19, .wheel_teeth = 46};
    const shift_line<double> line(pair, 0.6);
    SUBCASE("the products of form and stress correction factor are equal") {
        const shift_choice<double> choice = split_by(line, equal_root_strength{});
        REQUIRE(choice.balanced);
        const mesh<double> made = pair.with(choice.profile_shift);
        const tooth_root<double> of_pinion = root_under_tip_load(made.pinion());
        const tooth_root<double> of_wheel = root_under_tip_load(made.wheel());
        CHECK(of_pinion.form_factor() * of_pinion.stress_correction_factor() ==
              doctest::Approx(of_wheel.form_factor() * of_wheel.stress_correction_factor()).epsilon(1e-12));
    }
    SUBCASE("the tips are equally thick") {
        const shift_line<double> even({.pinion_teeth = 24, .wheel_teeth = 25}, 0.6);
        const shift_choice<double> choice = split_by(even, equal_tip_thickness{});
        REQUIRE(choice.balanced);
        const mesh<double> made = even.pair().with(choice.profile_shift);
        CHECK(made.pinion().normal_tooth_thickness(made.pinion().tip_diameter()) ==
              doctest::Approx(made.wheel().normal_tooth_thickness(made.wheel().tip_diameter())).epsilon(1e-12));
    }
    SUBCASE("no other split has a greater contact ratio") {
        const shift_line<double> even({.pinion_teeth = 24, .wheel_teeth = 27}, 0.6);
        const shift_choice<double> choice = split_by(even, greatest_contact_ratio{});
        REQUIRE(choice.balanced);
        const double x = choice.profile_shift.pinion;
        CHECK(x == doctest::Approx(even.shift_of_greatest_contact_ratio()).epsilon(1e-12));
        for (const double step : {1e-3, 1e-2, 0.1}) {
            CHECK(even.contact_ratio(x) > even.contact_ratio(x + step));
            CHECK(even.contact_ratio(x) > even.contact_ratio(x - step));
        }
    }
    SUBCASE("a choice that a limit stops says so and stands at the limit") {
        const shift_choice<double> choice = split_by(line, greatest_contact_ratio{});
        CHECK_FALSE(choice.balanced);
        CHECK(choice.profile_shift.pinion == choice.permissible.least);
        CHECK(choice.permissible.least_by == shift_limit::pinion_undercut);
    }
    SUBCASE("a caller's own balance: three quarters of the sum for the pinion") {
        const auto three_quarters = [](const shift_line<double>& l, double x) { return x - 0.75 * l.profile_shift_sum(); };
        CHECK(split_by(line, three_quarters).profile_shift.pinion == doctest::Approx(0.45).epsilon(1e-14));
    }
}

TEST_CASE("shifts for a centre distance, for a contact ratio, and as great as can be") {
    const shiftable_pair<double> pair{.normal_module = 3, .pinion_teeth = 15, .wheel_teeth = 46};
    const shift_choice<double> at_92 = choose_profile_shift(pair, 92.0);
    CHECK(at_92.balanced);
    CHECK(pair.with(at_92.profile_shift).centre_distance() == doctest::Approx(92).epsilon(1e-13));
    CHECK(at_92.centre_distance == doctest::Approx(92).epsilon(1e-13));

    const shift_region<double> region(pair);
    double before = 10;
    for (const double wanted : {1.25, 1.3, 1.4, 1.5}) {
        const shift_choice<double> choice = choose_profile_shift_for_contact_ratio(region, wanted);
        CHECK(pair.with(choice.profile_shift).transverse_contact_ratio() == doctest::Approx(wanted).epsilon(1e-12));
        const double sum = choice.profile_shift.pinion + choice.profile_shift.wheel;
        CHECK(sum < before); // the more contact, the less room for shifts
        before = sum;
    }
    CHECK_THROWS_AS(choose_profile_shift_for_contact_ratio(region, 2.5), geometry_error);
    CHECK_THROWS_AS(choose_profile_shift_for_contact_ratio(region, 0.5), geometry_error);

    const shift_choice<double> greatest = choose_greatest_profile_shift(region);
    CHECK(greatest.profile_shift.pinion + greatest.profile_shift.wheel == doctest::Approx(region.sums().greatest).epsilon(1e-14));

    const for_both<double> least = pair.least_profile_shift_without_undercut();
    CHECK_FALSE(
        findings(gear<double>{{.normal_module = 3, .teeth = 15, .profile_shift = least.pinion + 1e-12}}).has(finding_code::undercut));
    CHECK(findings(gear<double>{{.normal_module = 3, .teeth = 15, .profile_shift = least.pinion - 1e-12}}).has(finding_code::undercut));
}

TEST_CASE("what cannot be is refused in a sentence") {
    const shiftable_pair<double> pair{.pinion_teeth = 15, .wheel_teeth = 46};
    CHECK_THROWS_AS(shift_line<double>(pair, -40.0), geometry_error);
    CHECK_THROWS_AS(shift_line<double>(pair, std::nan("")), geometry_error);
    CHECK_THROWS_AS(shift_line<double>({.pinion_teeth = 0, .wheel_teeth = 46}, 0.0), geometry_error);
    CHECK_THROWS_AS(shift_line<double>({.pinion_teeth = 15, .wheel_teeth = 46, .tips = tip_rule::full_depth}, -2.5), geometry_error);
    CHECK(shift_line<double>::check(pair, -40.0));
    CHECK_FALSE(shift_line<double>::check(pair, 0.2));
    CHECK_THROWS_AS(shift_region<double>(pair, {}, {1.0, 0.0}), geometry_error);
    CHECK_THROWS_AS(shift_region<double>(pair).outline(1), geometry_error);
    CHECK_THROWS_AS(choose_profile_shift(pair, 1.0), geometry_error);
    // Two pinions of five teeth cannot avoid undercut and keep their tips.
    const shift_region<double> none({.pinion_teeth = 5, .wheel_teeth = 5});
    CHECK(none.empty());
    CHECK(none.outline().empty());
    CHECK_THROWS_AS(none.sums(), geometry_error);
    CHECK_THROWS_AS(split_by(shift_line<double>({.pinion_teeth = 5, .wheel_teeth = 5}, 0.8), equal_sliding{}), geometry_error);
}

TEST_CASE("a chosen split is a constant if it is asked for as one") {
    static constexpr shiftable_pair<double> pair{.pinion_teeth = 17, .wheel_teeth = 40};
    static constexpr shift_line<double> line(pair, 0.5);
    static constexpr double least = line.permissible().least;
    static_assert(least > 0 && least < 0.01);
    CHECK(shift_line<double>(pair, 0.5).permissible().least == doctest::Approx(least).epsilon(1e-14));
}
