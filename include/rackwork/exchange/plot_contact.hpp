// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Pictures of what happens along the path of contact: sliding, curvature, contact lines.
#ifndef RACKWORK_EXCHANGE_PLOT_CONTACT_HPP
#define RACKWORK_EXCHANGE_PLOT_CONTACT_HPP

#include "../analysis/contact.hpp"
#include "../analysis/contact_lines.hpp"
#include "../centre_distance.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../mesh.hpp"
#include "length_unit.hpp"
#include "plot.hpp"
#include "text_output.hpp"

#include <string>
#include <utility>
#include <vector>

namespace rackwork {

namespace detail {

inline std::string plot_unit(length_unit unit) { return unit == length_unit::inch ? "in" : "mm"; }

/// A number in a sentence.
inline std::string plot_number(double value, int decimals) { return rounded_text(value, decimals); }

inline std::string plot_pair_name(const mesh<double>& pair) {
    return std::to_string(pair.pinion().teeth()) + " and " + std::to_string(pair.wheel().teeth()) + " teeth";
}

/// So many points along the path of contact, from A to E, both included.
template <class F>
std::vector<point<double>> along_path(const path_of_contact<double>& path, const F& value, int steps = 160) {
    std::vector<point<double>> points;
    const double begin = path.point_a().distance_from_pitch_point();
    const double end = path.point_e().distance_from_pitch_point();
    for (int i = 0; i <= steps; ++i) {
        const double g = i == steps ? end : begin + (end - begin) * i / steps;
        points.push_back({g, value(path.at(g))});
    }
    return points;
}

/// An upright line.
inline plot_line upright(double x, double from, double to, plot_dash dash, double weight) {
    return {.name = "", .points = {{x, from}, {x, to}}, .dash = dash, .weight = weight};
}

/// Upright lines with the letters A to E, as far as the points lie on the path, and the zones with a single pair in grey.
inline void add_points_of_contact(plot& p, const path_of_contact<double>& path, double least, double greatest) {
    std::vector<plot_line> behind;
    bool named = false;
    for (int i = 0; i < path.zones(); ++i) {
        const contact_zone<double> zone = path.zone(i);
        if (zone.pairs != 1 || path.zones() == 1) continue;
        behind.push_back({.name = named                             ? ""
                                  : path.line().cos_base_helix == 1 ? "one pair of teeth in contact"
                                                                    : "one pair in contact in a section",
                          .points = {{zone.begin, least}, {zone.end, least}, {zone.end, greatest}, {zone.begin, greatest}},
                          .weight = 0,
                          .area = 0.08});
        named = true;
    }
    const double begin = path.point_a().distance_from_pitch_point();
    const double end = path.point_e().distance_from_pitch_point();
    const std::pair<const char*, double> letters[] = {{"A", begin},
                                                      {"B", path.point_b().distance_from_pitch_point()},
                                                      {"C", 0},
                                                      {"D", path.point_d().distance_from_pitch_point()},
                                                      {"E", end}};
    for (const auto& [letter, at] : letters) {
        // Neither rounding nor a contact ratio of 1 puts a point beside the path.
        if (at < begin || at > end) continue;
        behind.push_back(upright(at, least, greatest, plot_dash::dotted, 0.5));
        p.marks.push_back({.at = {at, least + 0.95 * (greatest - least)}, .text = letter, .side = plot_side::right});
    }
    p.lines.insert(p.lines.begin(), behind.begin(), behind.end());
}

} // namespace detail

/// Specific sliding of both gears and sliding factor along the path of contact. Throws geometry_error as path_of_contact does.
inline plot sliding_plot(const mesh<double>& pair, length_unit unit = length_unit::millimetre) {
    const path_of_contact<double> path(pair);
    const auto limited = [](double value) { return value < -8 ? -8.0 : value; }; // it falls without bound towards a base circle
    const auto safe = [&](const contact_point<double>& at, bool of_wheel) {
        const for_both<double> rolling = at.rolling_velocity();
        if (!(rolling.pinion > 0) || !(rolling.wheel > 0)) return -8.0;
        const for_both<double> sliding = at.specific_sliding();
        return limited(of_wheel ? sliding.wheel : sliding.pinion);
    };
    plot p{.title = "Sliding along the path of contact, " + detail::plot_pair_name(pair),
           .across = {.name = "distance from the pitch point along the line of action", .unit = detail::plot_unit(unit)},
           .up = {.name = "specific sliding, sliding factor"}};
    p.lines.push_back({.name = "pinion, specific sliding",
                       .points = detail::along_path(path, [&](const contact_point<double>& at) { return safe(at, false); })});
    p.lines.push_back({.name = "wheel, specific sliding",
                       .points = detail::along_path(path, [&](const contact_point<double>& at) { return safe(at, true); }),
                       .dash = plot_dash::dashed});
    p.lines.push_back({.name = "sliding factor",
                       .points = detail::along_path(path, [](const contact_point<double>& at) { return at.sliding_factor(); }),
                       .dash = plot_dash::dash_dotted});
    double least = -1;
    for (int i = 0; i < 2; ++i) {
        for (const point<double>& q : p.lines[static_cast<std::size_t>(i)].points) least = smaller(least, q.y);
    }
    p.up.least = least * 1.08;
    p.up.greatest = 1.25;
    const double begin = path.point_a().distance_from_pitch_point();
    const double end = path.point_e().distance_from_pitch_point();
    p.marks.push_back({.at = p.lines[0].points[10], .text = "pinion", .side = plot_side::right});
    p.marks.push_back({.at = p.lines[1].points[150], .text = "wheel", .side = plot_side::left});
    const double at_a = safe(path.at(begin), false);
    const double at_e = safe(path.at(end), true);
    p.description = "Specific sliding of the pinion is " + detail::plot_number(at_a, 3) + " where contact begins, that of the wheel " +
                    detail::plot_number(at_e, 3) + " where it ends; both are zero at the pitch point C.";
    p.lines.push_back({.points = {{begin, 0}, {end, 0}}, .weight = 0.4});
    detail::add_points_of_contact(p, path, *p.up.least, *p.up.greatest);
    return p;
}

/// Radii of curvature of both flanks along the path of contact, and the radius of a cylinder on a plane that is as curved as both
/// together. Throws geometry_error as path_of_contact does.
inline plot curvature_plot(const mesh<double>& pair, length_unit unit = length_unit::millimetre) {
    const path_of_contact<double> path(pair);
    plot p{.title = "Curvature along the path of contact, " + detail::plot_pair_name(pair),
           .across = {.name = "distance from the pitch point along the line of action", .unit = detail::plot_unit(unit)},
           .up = {.name = "radius of curvature, transverse section", .unit = detail::plot_unit(unit), .least = 0}};
    p.lines.push_back({.name = "pinion's flank",
                       .points = detail::along_path(path, [](const contact_point<double>& at) { return at.curvature_radius().pinion; })});
    p.lines.push_back(
        {.name = "wheel's flank",
         .points = detail::along_path(path, [](const contact_point<double>& at) { return magnitude(at.curvature_radius().wheel); }),
         .dash = plot_dash::dashed});
    p.lines.push_back({.name = "both together (relative radius)",
                       .points = detail::along_path(path,
                                                    [](const contact_point<double>& at) {
                                                        const for_both<double> radius = at.curvature_radius();
                                                        if (radius.pinion == 0 || radius.wheel == 0) return 0.0;
                                                        return 1 / at.relative_curvature();
                                                    }),
                       .dash = plot_dash::dash_dotted});
    double greatest = 0;
    for (const plot_line& line : p.lines) {
        for (const point<double>& q : line.points) greatest = larger(greatest, q.y);
    }
    p.up.greatest = greatest * 1.15;
    p.marks.push_back({.at = p.lines[0].points[60], .text = "pinion", .side = plot_side::above});
    p.marks.push_back({.at = p.lines[1].points[60], .text = "wheel", .side = plot_side::above});
    p.description = "At the pitch point the relative radius is " + detail::plot_number(1 / path.point_c().relative_curvature(), 3) + " " +
                    p.up.unit + ".";
    detail::add_points_of_contact(p, path, 0, *p.up.greatest);
    return p;
}

/// The field of contact with the contact lines in it at a phase of the mesh cycle, from 0 to 1: path of contact across, face width up.
/// Throws geometry_error as contact_lines does.
inline plot contact_lines_plot(const mesh<double>& pair, double phase = 0.5, length_unit unit = length_unit::millimetre) {
    const contact_lines<double> lines(pair);
    const path_of_contact<double> path(pair);
    const double begin = path.point_a().distance_from_pitch_point();
    const double end = path.point_e().distance_from_pitch_point();
    const double width = lines.face_width();
    plot p{.title = "Contact lines in the field of contact, " + detail::plot_pair_name(pair),
           .description = std::string("Total length ") + detail::plot_number(lines.total_length(phase), 2) + " " + detail::plot_unit(unit) +
                          ", over the mesh cycle between " + detail::plot_number(lines.least_total_length(), 2) + " and " +
                          detail::plot_number(lines.greatest_total_length(), 2) + ".",
           .across = {.name = "distance from the pitch point along the line of action", .unit = detail::plot_unit(unit)},
           .up = {.name = "distance from the face that meets first",
                  .unit = detail::plot_unit(unit),
                  .least = -0.08 * width,
                  .greatest = 1.14 * width}};
    p.lines.push_back({.name = "field of contact",
                       .points = {{begin, 0}, {end, 0}, {end, width}, {begin, width}, {begin, 0}},
                       .weight = 0.6,
                       .area = 0.08});
    bool named = false;
    for (int i = 0; i < lines.most_lines(); ++i) {
        const contact_line<double> line = lines.line(i, phase);
        if (!(line.length > 0)) continue;
        p.lines.push_back({.name = named ? "" : "contact lines",
                           .points = {{line.from_distance, line.from_width}, {line.to_distance, line.to_width}},
                           .weight = 1.6});
        named = true;
        p.marks.push_back({.at = {(line.from_distance + line.to_distance) / 2, (line.from_width + line.to_width) / 2},
                           .text = detail::plot_number(line.length, 1) + " " + p.up.unit,
                           .side = line.from_distance == line.to_distance ? plot_side::left : plot_side::right});
    }
    p.lines.push_back(detail::upright(0, 0, width, plot_dash::dotted, 0.6));
    p.marks.push_back({.at = {begin, width}, .text = "A", .side = plot_side::above});
    p.marks.push_back({.at = {0, width}, .text = "C", .side = plot_side::above});
    p.marks.push_back({.at = {end, width}, .text = "E", .side = plot_side::above});
    return p;
}

/// Total length of the contact lines over one mesh cycle, its mean and its extremes. Throws geometry_error as contact_lines does.
inline plot contact_line_length_plot(const mesh<double>& pair, length_unit unit = length_unit::millimetre) {
    const contact_lines<double> lines(pair);
    plot p{.title = "Total length of the contact lines over a mesh cycle, " + detail::plot_pair_name(pair),
           .across = {.name = "phase of the mesh cycle", .least = 0, .greatest = 1},
           .up = {.name = "total length", .unit = detail::plot_unit(unit)}};
    plot_line total{.name = "total length"};
    constexpr int steps = 400;
    for (int i = 0; i <= steps; ++i) {
        const double phase = static_cast<double>(i) / steps;
        total.points.push_back({phase, lines.total_length(phase)});
    }
    p.lines.push_back(total);
    const auto level = [&](const char* name, double value, plot_dash dash) {
        p.lines.push_back({.name = std::string(name) + " " + detail::plot_number(value, 2) + " " + p.up.unit,
                           .points = {{0, value}, {1, value}},
                           .dash = dash,
                           .weight = 0.7});
    };
    level("greatest", lines.greatest_total_length(), plot_dash::dotted);
    level("mean", lines.mean_total_length(), plot_dash::dash_dotted);
    level("least", lines.least_total_length(), plot_dash::dashed);
    p.up.least = 0;
    p.up.greatest = 1.15 * lines.greatest_total_length();
    p.description = "The total length of the contact lines swings by " +
                    detail::plot_number(lines.greatest_total_length() - lines.least_total_length(), 3) + " " + p.up.unit + ".";
    return p;
}

} // namespace rackwork

#endif
