// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Gears of every kind and every tool, drawn from the whole range of the trade: whatever is asked of them is right or refused with a
// sentence; there is no third outcome.
#include <rackwork/findings.hpp>
#include <rackwork/form/outline.hpp>
#include <rackwork/form/tooth.hpp>
#include <rackwork/mesh.hpp>

#include "random_kinds.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <variant>
#include <vector>

namespace {

using namespace random_kinds;
using rackwork::cutter;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::generated_root;
using rackwork::mesh;
using rackwork::pinion_type_cutter;
using rackwork::point;
using rackwork::rack_type_cutter;
using rackwork::segment;
using support::random_source;

constexpr double pi = std::numbers::pi;
constexpr double epsilon = std::numeric_limits<double>::epsilon();

void look_at_gear(const gear<double>& g, faults& found) {
    const double sign = g.is_internal() ? -1 : 1;
    const double d = g.reference_diameter();
    for (const double value : {g.tip_diameter(), g.root_diameter(), g.generated_root_diameter(), g.base_diameter(), g.tip_thickness(),
                               g.normal_tooth_thickness(), g.effective_tip_diameter(), g.base_half_angle(), g.effective_tip_roll(),
                               g.transverse_pressure_angle().rad(), g.base_helix_angle().rad()})
        found.finite(value, "a size of the gear");
    found.expect(sign * (g.tip_diameter() - g.root_diameter()) > 0, "the tip lies on the wrong side of the root");
    found.expect(sign * (g.tip_diameter() - g.effective_tip_diameter()) >= 0, "the metal ends beyond the tip circle");
    found.expect(g.effective_tip_diameter() >= g.base_diameter() * (1 - 4 * epsilon), "the tip lies within the base circle");
    // Thickness and space make up the pitch, and the thickness falls towards the tip.
    const double outer = std::max(g.effective_tip_diameter(), g.root_diameter());
    const double inner = std::max(g.base_diameter(), std::min(g.effective_tip_diameter(), g.root_diameter()));
    for (const double share : {0.1, 0.5, 0.9}) {
        const double at = inner + (outer - inner) * share;
        const double pitch = pi * at / g.teeth();
        found.expect(std::fabs(g.tooth_thickness(at) + g.space_width(at) - pitch) < 16 * epsilon * d, "thickness and space are not the pitch");
    }
    const double angle_outside = g.tooth_thickness(outer) / outer;
    const double angle_inside = g.tooth_thickness(inner) / inner;
    found.expect(sign * (angle_inside - angle_outside) > 0, "the tooth grows towards its tip");
}

/// A root with its fillet and its half tooth from the middle of the space to the tip.
void look_at_root(const gear<double>& g, const generated_root<double>& root, faults& found) {
    const double sign = g.is_internal() ? -1 : 1;
    const double size = std::max(g.reference_diameter(), g.tip_diameter());
    const double form = root.root_form_diameter();
    found.finite(form, "the root form diameter");
    found.finite(root.root_form_roll(), "the root form roll");
    found.finite(root.root_diameter(), "the generated root diameter");
    const double rounding = 64 * epsilon * size;
    found.expect(sign * (form - root.root_diameter()) >= -rounding, "the involute begins below the root");
    found.expect(sign * (g.tip_form_diameter() - form) > 0, "the involute begins above the tip");
    found.expect(form >= g.base_diameter() * (1 - 4 * epsilon), "the involute begins within the base circle");
    found.expect(std::fabs(form - g.base_diameter() * std::hypot(1, root.root_form_roll())) < rounding, "form roll and form diameter differ");
    found.expect(root.root_land_half_angle() >= 0 && root.root_land_half_angle() < pi / g.teeth(), "the root land is no part of the space");

    // Fillet: begins on the root circle, ends at the involute, does not turn back on its way, and keeps to its half of the space.
    double before = sign * root.root_diameter() / 2;
    for (int i = 0; i <= 32; ++i) {
        const auto at = root.fillet().at(root.end_parameter() * i / 32);
        const point<double> p = at.position();
        found.finite(p.x + p.y + at.speed + at.turn, "a point of the fillet");
        found.expect(at.speed >= -rounding, "the fillet runs backwards");
        const double radius = sign * length(p);
        found.expect(radius >= before - rounding, "the fillet comes back to the root");
        before = std::max(before, radius);
        const double polar = std::atan2(p.y, p.x);
        found.expect(polar > -1e-12 && polar < pi / g.teeth() + 1e-12, "the fillet leaves its half of the space");
    }
    const auto& edge = root.edge();
    const double base_radius = edge.exists ? edge.base_radius : g.base_diameter() / 2;
    const double half_tooth = edge.exists ? edge.base_half_angle : g.base_half_angle();
    const double roll = edge.exists ? edge.from : root.root_form_roll();
    const point<double> end = root.fillet().position(root.end_parameter());
    const double half_space = pi / g.teeth() - half_tooth + sign * (roll - std::atan(roll));
    const point<double> on_flank = base_radius * std::hypot(1, roll) * rackwork::direction(half_space);
    const point<double> along_fillet = root.fillet().tangent(root.end_parameter());
    const point<double> along_flank = rackwork::direction(pi / g.teeth() - half_tooth + sign * roll);
    const double sine = std::fabs(cross(along_fillet, along_flank));
    const bool corner = edge.exists ? edge.undercut : root.is_undercut();
    // A corner is as well known as the curves cross.
    found.expect(length(end - on_flank) < 4096 * epsilon * size / (corner ? std::clamp(sine, 1e-6, 1.0) : 1), "fillet and flank do not meet");
    if (!corner && root.fillet().tip_rounding() > 1e-6 * g.normal_module()) found.expect(sine < 1e-6, "a smooth joint has a corner");
    if (edge.exists) {
        found.expect(edge.from <= edge.to * (1 + 1e-12), "the protuberance's edge runs backwards");
        const double form_space = pi / g.teeth() - edge.base_half_angle + edge.to - std::atan(edge.to);
        const double r = edge.base_radius * std::hypot(1, edge.to);
        found.expect(std::fabs(2 * r - form) < 4096 * epsilon * size, "the protuberance's edge ends off the form diameter");
        const double of_flank = pi / g.teeth() - g.base_half_angle() + root.root_form_roll() - std::atan(root.root_form_roll());
        found.expect(std::fabs(form_space - of_flank) * r < 4096 * epsilon * size, "edge and flank do not meet");
    }
}

/// One tooth with its root land, times their number: the area is between those of the root and tip discs.
void look_at_form(const gear<double>& g, const generated_root<double>& root, faults& found) {
    const rackwork::tooth_form<double> form(g, root);
    std::vector<segment<double>> tooth;
    form.append_tooth(tooth, 0);
    const double size = std::max(root.root_diameter(), g.tip_diameter());
    double area = 0;
    for (std::size_t i = 0; i < tooth.size(); ++i) {
        const segment<double>& s = tooth[i];
        found.finite(s.swept_area(), "the area under a segment");
        area += s.swept_area() * g.teeth();
        found.expect(std::isfinite(s.start.x + s.start.y + s.from + s.to), "a segment has no number");
        for (const double end : {s.from, s.to}) {
            const point<double> p = std::visit([&](const auto& c) { return c.position(end); }, s.curve);
            const point<double> stated = end == s.from ? s.start : s.end;
            if (s.from != s.to) found.expect(length(p - stated) < 4096 * epsilon * size, "a segment's end is off its curve");
        }
        if (i > 0) found.expect(length(s.start - tooth[i - 1].end) < 4096 * epsilon * size, "segments do not join");
    }
    const double root_disc = pi / 4 * root.root_diameter() * root.root_diameter();
    const double tip_disc = pi / 4 * g.effective_tip_diameter() * g.effective_tip_diameter();
    found.expect(area > std::min(root_disc, tip_disc) && area < std::max(root_disc, tip_disc), "the area is not between those of the discs");
}

void look_at_pair(const mesh<double>& m, faults& found) {
    const double sign = m.is_internal() ? -1 : 1;
    const gear<double>& a = m.pinion();
    const gear<double>& b = m.wheel();
    const double size = m.centre_distance() + a.reference_diameter() + b.reference_diameter();
    for (const double value :
         {m.centre_distance(), m.working_pressure_angle().rad(), m.working_diameter().pinion, m.working_diameter().wheel,
          m.active_tip_diameter().pinion, m.active_tip_diameter().wheel, m.active_root_diameter().pinion, m.active_root_diameter().wheel,
          m.transverse_contact_ratio(), m.bottom_clearance().pinion, m.bottom_clearance().wheel, m.circumferential_backlash(),
          m.normal_backlash(), m.reach_of_mating_tip().pinion, m.reach_of_mating_tip().wheel, m.path_between_base_circles()})
        found.finite(value, "a size of the pair");
    const double bases = sign * (a.base_diameter() + sign * b.base_diameter()) / 2;
    found.expect(std::fabs(m.centre_distance() * cos(m.working_pressure_angle()) - bases) < 64 * epsilon * size, "centre distance and angle disagree");
    found.expect(std::fabs(sign * (m.working_diameter().pinion + sign * m.working_diameter().wheel) - 2 * m.centre_distance()) < 64 * epsilon * size,
                 "the working circles do not touch");
    // The gap on the working circles is the pitch less the two thicknesses. (They may lie outside the teeth, where the formula still holds.)
    if (m.working_diameter().pinion >= a.base_diameter() && m.working_diameter().wheel >= b.base_diameter()) {
        const double gap = pi * m.working_diameter().pinion / a.teeth() - a.tooth_thickness(m.working_diameter().pinion) -
                           b.tooth_thickness(m.working_diameter().wheel);
        // A diameter's rounding counts by the slope of the involute function.
        found.expect(std::fabs(gap - m.circumferential_backlash()) < 1024 * epsilon * size * (1 + tan(m.working_pressure_angle())),
                     "the backlash is not what pitch and thicknesses leave");
    }
    found.expect(m.length_of_path_of_contact() >= 0, "the path of contact is negative");
    if (m.length_of_path_of_contact() == 0) return; // where flanks do not touch no diameter is active
    const auto tips = m.active_tip_diameter();
    const auto roots = m.active_root_diameter();
    found.expect(tips.pinion <= a.effective_tip_diameter() * (1 + 4 * epsilon), "the pinion touches beyond its tip");
    found.expect(sign * (b.effective_tip_diameter() - tips.wheel) >= -4 * epsilon * size, "the wheel touches beyond its tip");
    found.expect(roots.pinion >= m.root_form_diameter().pinion * (1 - 4 * epsilon), "the pinion touches below its form diameter");
    found.expect(sign * (roots.wheel - m.root_form_diameter().wheel) >= -4 * epsilon * size, "the wheel touches below its form diameter");
}

} // namespace

TEST_CASE("random external gears by their customary tools are right or refused") {
    random_source random{321};
    tally counted;
    for (int i = 0; i < 8000; ++i) {
        const auto p = random_gear(random, gear_kind::external);
        judge(described(p), counted, [&](faults& found) {
            const gear<double> g(p);
            look_at_gear(g, found);
            const generated_root<double> root(g);
            look_at_root(g, root, found);
            look_at_form(g, root, found);
        });
    }
    CHECK(counted.right > 5000);
    report(counted);
}

TEST_CASE("random internal gears by their customary tools are right or refused") {
    random_source random{322};
    tally counted;
    for (int i = 0; i < 8000; ++i) {
        const auto p = random_gear(random, gear_kind::internal);
        judge(described(p), counted, [&](faults& found) {
            const gear<double> g(p);
            look_at_gear(g, found);
            const generated_root<double> root(g);
            look_at_root(g, root, found);
            if (i % 8 == 0) look_at_form(g, root, found);
        });
    }
    CHECK(counted.right > 5000);
    report(counted);
}

TEST_CASE("random gears of both kinds by random tools of all kinds are right or refused") {
    random_source random{323};
    tally counted;
    for (int i = 0; i < 12000; ++i) {
        const auto p = random_gear(random, random.coin() ? gear_kind::internal : gear_kind::external);
        const auto tool = random_tool(random, p);
        judge(described(p) + described(tool), counted, [&](faults& found) {
            const gear<double> g(p);
            const generated_root<double> root(g, tool);
            look_at_root(g, root, found);
            look_at_findings(findings(g, root), found);
            if (i % 8 == 0) look_at_form(g, root, found);
        });
    }
    CHECK(counted.right > 4000);
    report(counted);
}

TEST_CASE("random gears with the chamfer that a random semi-topping tool gives them are right or refused") {
    random_source random{325};
    tally counted;
    for (int i = 0; i < 3000; ++i) {
        const auto p = random_gear(random, gear_kind::external);
        rack_type_cutter<double> tool{.addendum = random.uniform(0.9, 1.4), .tip_radius = random.uniform(0, 0.3)};
        tool.chamfer_height = random.uniform(0.3, 1);
        tool.chamfer_angle = deg(random.uniform(32, 75));
        if (random.coin()) {
            tool.finishing_allowance = random.uniform(0, 0.06);
            tool.protuberance = tool.finishing_allowance + random.uniform(0, 0.05);
        }
        judge(described(p) + described(cutter<double>(tool)), counted, [&](faults& found) {
            const gear<double> g(chamfered_by(tool, p));
            look_at_gear(g, found);
            const generated_root<double> root(g, tool);
            look_at_root(g, root, found);
            look_at_form(g, root, found);
        });
    }
    CHECK(counted.right > 1500);
    report(counted);
}

TEST_CASE("random pairs of both kinds are right or refused, at their own centre distance and at others") {
    random_source random{324};
    tally counted;
    for (int i = 0; i < 8000; ++i) {
        const gear_kind kind = random.coin() ? gear_kind::internal : gear_kind::external;
        auto a = random_gear(random, gear_kind::external);
        auto b = a;
        const auto other = random_gear(random, kind);
        b.kind = kind;
        b.teeth = other.teeth;
        b.profile_shift = random.coin() ? other.profile_shift : -a.profile_shift;
        b.tip_alteration = other.tip_alteration;
        b.thickness_allowance = std::fabs(other.thickness_allowance) * -1;
        if (kind == gear_kind::external) b.helix_angle = -a.helix_angle;
        if (kind == gear_kind::internal && b.teeth < a.teeth) std::swap(a.teeth, b.teeth);
        const double moved = random.uniform(-0.2, 0.4) * a.normal_module;
        judge(described(a) + " | " + described(b), counted, [&](faults& found) {
            const mesh<double> nominal{gear<double>(a), gear<double>(b)};
            look_at_pair(nominal, found);
            look_at_findings(findings(nominal), found);
            const mesh<double> at_another(nominal.pinion(), nominal.wheel(), nominal.centre_distance() + moved);
            look_at_pair(at_another, found);
            look_at_findings(findings(at_another), found);
        });
    }
    CHECK(counted.right > 3000);
    report(counted);
}
