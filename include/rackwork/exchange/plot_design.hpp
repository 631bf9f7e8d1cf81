// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Pictures for the designer: permissible profile shifts, and the root section of a tooth.
#ifndef RACKWORK_EXCHANGE_PLOT_DESIGN_HPP
#define RACKWORK_EXCHANGE_PLOT_DESIGN_HPP

#include "../analysis/tooth_root.hpp"
#include "../analysis/virtual_spur_gear.hpp"
#include "../centre_distance.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../design/shift_line.hpp"
#include "../design/shift_region.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "length_unit.hpp"
#include "plot.hpp"
#include "plot_contact.hpp"
#include "text_output.hpp"

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace rackwork {

namespace detail {

/// A curve of shifts whose parameter is their sum: points at equal steps, and the very ends of every piece of it. Interrupted where there
/// is none.
template <class F>
std::vector<point<double>> drawn_over_sums(const F& shifts_at, const closed_range<double>& sums, int steps = 240) {
    std::vector<point<double>> points;
    const auto add = [&](const for_both<double>& s) { points.push_back({s.pinion, s.wheel}); };
    /// The last sum with a point, between one with and one without.
    const auto end_of_piece = [&](double with, double without) {
        for (int i = 0; i < 60; ++i) {
            const double middle = (with + without) / 2;
            (shifts_at(middle) ? with : without) = middle;
        }
        return with;
    };
    double before = sums.least;
    bool drawing = false;
    for (int i = 0; i <= steps; ++i) {
        const double sum = sums.least + (sums.greatest - sums.least) * i / steps;
        const std::optional<for_both<double>> here = shifts_at(sum);
        if (here && !drawing && i > 0) add(*shifts_at(end_of_piece(sum, before)));
        if (here) add(*here);
        if (!here && drawing) {
            add(*shifts_at(end_of_piece(before, sum)));
            points.push_back(plot_gap());
        }
        drawing = here.has_value();
        before = sum;
    }
    return points;
}

inline const char* short_name(shift_limit which) {
    switch (which) {
    case shift_limit::pinion_undercut:
    case shift_limit::wheel_undercut: return "undercut";
    case shift_limit::pinion_tip: return "tip of pinion";
    case shift_limit::wheel_tip: return "tip of wheel";
    case shift_limit::pinion_interference:
    case shift_limit::wheel_interference: return "interference";
    case shift_limit::contact_ratio_approach:
    case shift_limit::contact_ratio_recess: return "contact ratio";
    case shift_limit::tip_interference: return "tip on tip";
    case shift_limit::wheel_space: return "space of wheel";
    case shift_limit::tip_at_reference: return "tip at reference circle";
    }
    return "";
}

/// The name of each limit beside the middle of its stretch of the boundary, outside the region.
inline void add_limit_names(plot& p, const shift_region<double>& region) {
    const std::vector<shift_boundary_point<double>> outline = region.outline(160);
    for (std::size_t from = 0; from < outline.size();) {
        std::size_t to = from;
        while (to + 1 < outline.size() && outline[to + 1].limit == outline[from].limit) ++to;
        if (to - from >= 8) {
            const auto at = [&](std::size_t i) { return point<double>{outline[i].profile_shift.pinion, outline[i].profile_shift.wheel}; };
            const std::size_t middle = (from + to) / 2;
            const point<double> along = at(middle + 1) - at(middle - 1);
            // The outline runs counter-clockwise: outside is at its right.
            const bool steep = magnitude(along.y) > 0.8 * magnitude(along.x);
            const plot_side side = steep         ? (along.y > 0 ? plot_side::right : plot_side::left)
                                   : along.x > 0 ? plot_side::below
                                                 : plot_side::above;
            p.marks.push_back({.at = at(middle), .text = short_name(outline[middle].limit), .side = side});
        }
        from = to + 1;
    }
}

} // namespace detail

/// The region of permissible profile shifts with the curves that bound it, equal sliding, and the shifts that were chosen, with the line of
/// their centre distance. Throws geometry_error for an empty region.
inline plot shift_region_plot(const shift_region<double>& region, const std::optional<for_both<double>>& chosen = {}) {
    const shiftable_pair<double>& pair = region.pair();
    plot p{.title =
               "Permissible profile shifts, " + std::to_string(pair.pinion_teeth) + " and " + std::to_string(pair.wheel_teeth) +
               (pair.is_internal() ? " internal teeth" : " teeth"),
           .description = "The grey region holds all profile shifts without undercut, thin tips, interference or low contact ratio.",
           .across = {.name = "profile shift coefficient of the pinion, x1"},
           .up = {.name = std::string("profile shift coefficient of the ") + (pair.is_internal() ? "internal " : "") + "wheel, x2"},
           .equal_scales = true};
    const closed_range<double> sums = region.sums();
    const closed_range<double> beyond{sums.least - 0.4, sums.greatest + 0.4};
    plot_line inside{.name = "permissible shifts", .weight = 0, .area = 0.14};
    double x_least = 0, x_greatest = 0, y_least = 0, y_greatest = 0;
    for (const shift_boundary_point<double>& b : region.outline(160)) {
        const point<double> q{b.profile_shift.pinion, b.profile_shift.wheel};
        const bool first = inside.points.empty();
        x_least = first ? q.x : smaller(x_least, q.x);
        x_greatest = first ? q.x : larger(x_greatest, q.x);
        y_least = first ? q.y : smaller(y_least, q.y);
        y_greatest = first ? q.y : larger(y_greatest, q.y);
        inside.points.push_back(q);
    }
    const double room = 0.18 * larger(x_greatest - x_least, y_greatest - y_least);
    // Nearly as wide as high at least, so that there is room for words.
    const double aside = larger(room, (0.95 * (y_greatest - y_least + 2 * room) - (x_greatest - x_least)) / 2);
    x_least -= aside - room;
    x_greatest += aside - room;
    p.across.least = x_least - room;
    p.across.greatest = x_greatest + room;
    p.up.least = y_least - room;
    p.up.greatest = y_greatest + room;
    p.lines.push_back(inside);
    p.lines.push_back({.points = {{0, y_least - room}, {0, y_greatest + room}}, .weight = 0.35});
    p.lines.push_back({.points = {{x_least - room, 0}, {x_greatest + room, 0}}, .weight = 0.35});

    const for_both<double> least_shift = pair.least_profile_shift_without_undercut();
    const auto curve = [&](const char* name, plot_dash dash, shift_limit which) {
        const auto at = [&](double sum) -> std::optional<for_both<double>> {
            const std::optional<for_both<double>> shifts = region.boundary(which, sum);
            if (!shifts) return shifts;
            // Where a limit is missed all along its line it is told at the line's end or beyond, which is no boundary.
            const shift_line<double> line = region.line(sum);
            const closed_range<double> all = line.domain();
            const bool undercut = which == shift_limit::pinion_undercut || (which == shift_limit::wheel_undercut && !pair.is_internal());
            if (!undercut && !(all.least < shifts->pinion && shifts->pinion < all.greatest)) return std::nullopt;
            // What its cutter makes of a ring counts where the other limits leave room, and is drawn where it is what bounds them.
            const bool by_cutter = which == shift_limit::wheel_undercut || which == shift_limit::wheel_interference;
            if (pair.is_internal() && by_cutter && line.permissible().least_by != which) return std::nullopt;
            // Interference is told for gears without undercut.
            if (which == shift_limit::pinion_interference && shifts->pinion < least_shift.pinion) return std::nullopt;
            if (which == shift_limit::wheel_interference && shifts->wheel < least_shift.wheel) return std::nullopt;
            return shifts;
        };
        const std::vector<point<double>> points = detail::drawn_over_sums(at, beyond);
        // Many limits of internal pairs are never met: no line, no name.
        if (pair.is_internal() && points.empty()) return;
        p.lines.push_back({.name = name, .points = points, .dash = dash});
    };
    curve("no undercut", plot_dash::solid, shift_limit::pinion_undercut);
    curve(pair.is_internal() ? "tips of the ring reached by its cutter" : "", plot_dash::solid, shift_limit::wheel_undercut);
    const std::string tip = detail::plot_number(region.limits().tip_thickness, 2);
    curve(("tip " + tip + " modules thick").c_str(), plot_dash::dashed, shift_limit::pinion_tip);
    curve("", plot_dash::dashed, shift_limit::wheel_tip);
    curve("mate's tip at the form diameter", plot_dash::dash_dotted, shift_limit::pinion_interference);
    curve("", plot_dash::dash_dotted, shift_limit::wheel_interference);
    curve(("contact ratio " + detail::plot_number(region.limits().contact_ratio, 2)).c_str(), plot_dash::long_dashed,
          pair.is_internal() ? shift_limit::contact_ratio_recess : shift_limit::contact_ratio_approach);
    if (!pair.is_internal()) curve("", plot_dash::long_dashed, shift_limit::contact_ratio_recess);
    if (pair.is_internal()) {
        curve("tips touch outside the path of contact", plot_dash::dash_dot_dotted, shift_limit::tip_interference);
        curve("spaces of the ring", plot_dash::dotted, shift_limit::wheel_space);
    }
    detail::add_limit_names(p, region);
    const auto sliding = [&](double sum) -> std::optional<for_both<double>> {
        if (shift_line<double>::check(pair, sum)) return std::nullopt;
        const shift_line<double> line = region.line(sum);
        const std::optional<double> x = line.shift_of_equal_sliding();
        const shift_range<double> range = line.permissible();
        if (!x || *x < range.least || *x > range.greatest) return std::nullopt;
        return line.split(*x);
    };
    p.lines.push_back(
        {.name = "equal specific sliding", .points = detail::drawn_over_sums(sliding, sums), .dash = plot_dash::dotted, .weight = 1.3});
    if (chosen) {
        const double sum = chosen->pinion + chosen->wheel;
        p.lines.push_back({.name = "centre distance " + detail::plot_number(region.line(sum).centre_distance(), 3),
                           .points = {{x_least - room, sum - x_least + room}, {x_greatest + room, sum - x_greatest - room}},
                           .dash = plot_dash::dash_dot_dotted,
                           .weight = 0.7});
        p.marks.push_back({.at = {chosen->pinion, chosen->wheel}, .text = "chosen", .side = plot_side::above, .ring = true});
        p.title += ": x1 " + detail::plot_number(chosen->pinion, 3) + ", x2 " + detail::plot_number(chosen->wheel, 3);
        p.description +=
            " Chosen are x1 = " + detail::plot_number(chosen->pinion, 4) + " and x2 = " + detail::plot_number(chosen->wheel, 4) + ".";
    }
    return p;
}

/// One tooth in the section in which its root is judged, with the 30 degree tangents of the exact fillet, the chord s_Fn between them, the
/// load at the tip and its arm h_Fa. For a helical gear the tooth of its virtual spur gear.
/// Throws geometry_error as root_under_tip_load does, for internal gears, and for helical gears that are undercut.
inline plot root_section_plot(const gear<double>& g, length_unit unit = length_unit::millimetre) {
    const generated_root<double> generated(g);
    const bool spur = g.helix_angle().rad() == 0;
    if (g.is_internal()) impossible_geometry({"kind", 1, "must be external for this root section", 0, false});
    if (!spur && generated.is_undercut()) {
        impossible_geometry(
            {"generating_profile_shift", g.generating_profile_shift(), "must leave a helical tooth without undercut", 0, false});
    }
    const tooth_root<double> root = root_under_tip_load(g);
    const virtual_spur_gear<double> v(g);
    const double unit_length = g.normal_module();
    plot p{.title = "Root section of a tooth, " + std::to_string(g.teeth()) + " teeth" + (spur ? "" : ", virtual spur gear"),
           .across = {.name = "across the tooth", .unit = detail::plot_unit(unit)},
           .up = {.name = "distance from the axis", .unit = detail::plot_unit(unit)},
           .equal_scales = true};

    // The half at the right, from the root land outward.
    std::vector<point<double>> half;
    const double last_phi = spur && generated.is_undercut() ? generated.end_parameter() : v.last_parameter();
    const double first_roll =
        spur && generated.is_undercut() ? generated.root_form_roll() : v.on_fillet(last_phi).inclination + v.base_half_angle();
    const double last_roll = v.roll_angle(v.tip_diameter());
    const auto add = [&](const typename virtual_spur_gear<double>::place& at) { half.push_back({at.half_chord, at.height}); };
    for (int i = 0; i <= 48; ++i) add(v.on_fillet(last_phi * i / 48));
    for (int i = 1; i <= 48; ++i) add(v.on_involute(first_roll + (last_roll - first_roll) * i / 48));
    // A piece of the root land on either side, and the rim below.
    const double root_radius = length(half.front());
    const double land_angle = std::atan2(half.front().x, half.front().y);
    const double rim = half.front().y - 0.7 * unit_length;
    const double pitch_angle = v.half_pitch_angle();
    plot_line tooth{.name = "tooth", .weight = 1.1, .area = 0.1};
    const auto land = [&](double angle, double hand) {
        tooth.points.push_back({hand * root_radius * std::sin(angle), root_radius * std::cos(angle)});
    };
    tooth.points.push_back({root_radius * std::sin(pitch_angle), rim});
    for (int i = 0; i < 8; ++i) land(pitch_angle + (land_angle - pitch_angle) * i / 8, 1);
    for (const point<double>& q : half) tooth.points.push_back(q);
    for (std::size_t i = half.size(); i-- > 0;) tooth.points.push_back({-half[i].x, half[i].y});
    for (int i = 7; i >= 0; --i) land(pitch_angle + (land_angle - pitch_angle) * i / 8, -1);
    tooth.points.push_back({-root_radius * std::sin(pitch_angle), rim});
    const double left = tooth.points.back().x;
    p.lines.push_back(tooth);

    const point<double> tip = half.back();
    const double load_height = v.base_diameter() / 2 / cos(root.load_angle);
    const double section = load_height - root.arm;
    const double half_chord = root.chord / 2;
    p.across.least = left;
    p.across.greatest = -left;
    p.up.least = rim;
    p.up.greatest = larger(tip.y, load_height) + 0.6 * unit_length;

    p.lines.push_back({.name = "centre line", .points = {{0, rim}, {0, *p.up.greatest}}, .dash = plot_dash::dash_dotted, .weight = 0.5});
    const double slope = tan(critical_tangent_angle<double>());
    const double apex = section + half_chord / slope;
    const double below_section = 0.5 * unit_length;
    p.lines.push_back({.name = "30 degree tangents of the fillet",
                       .points = {{half_chord + below_section * slope, section - below_section},
                                  {0, apex},
                                  {-half_chord - below_section * slope, section - below_section}},
                       .dash = plot_dash::dashed});
    const std::string length_unit_name = " " + detail::plot_unit(unit);
    p.lines.push_back({.name = "critical section, s_Fn " + detail::plot_number(root.chord, 3) + length_unit_name,
                       .points = {{-half_chord, section}, {half_chord, section}},
                       .weight = 1.7});
    // Beyond the tip as far as from the centre line to it.
    p.lines.push_back({.name = "load at the tip",
                       .points = {{0, load_height}, tip, {3 * tip.x, 3 * tip.y - 2 * load_height}},
                       .dash = plot_dash::long_dashed});
    p.lines.push_back({.name = "bending arm, h_Fa " + detail::plot_number(root.arm, 3) + length_unit_name,
                       .points = {{0, section}, {0, load_height}},
                       .dash = plot_dash::dotted,
                       .weight = 1.8});
    p.marks.push_back({.at = {-half_chord / 2, section}, .text = "s_Fn", .side = plot_side::below});
    p.marks.push_back({.at = {0, (section + load_height) / 2}, .text = "h_Fa", .side = plot_side::right});
    p.marks.push_back({.at = {half_chord, section},
                       .text = "rho_F " + detail::plot_number(root.fillet_radius, 3),
                       .side = plot_side::above,
                       .ring = true});
    p.marks.push_back({.at = {-half_chord, section}, .ring = true});
    p.description = "Form factor Y_Fa " + detail::plot_number(root.form_factor(), 3) + ", stress correction factor Y_Sa " +
                    detail::plot_number(root.stress_correction_factor(), 3) + "; geometry only, no rating.";
    return p;
}

} // namespace rackwork

#endif
