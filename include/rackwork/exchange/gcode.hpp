// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Programs for wire-cutting and milling machines in the words of ISO 6983: lines and arcs, nothing that belongs to one make of control.
#ifndef RACKWORK_EXCHANGE_GCODE_HPP
#define RACKWORK_EXCHANGE_GCODE_HPP

#include "../core/error.hpp"
#include "../curve/arc.hpp"
#include "gcode_path.hpp"
#include "gcode_words.hpp"
#include "length_unit.hpp"
#include "text_output.hpp"

#include <cstddef>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

namespace rackwork {

/// What can be chosen about a program.
struct gcode_options {
    /// The unit of the gear's lengths: G21 or G20; numbers are not converted.
    length_unit unit = length_unit::millimetre;
    /// Places behind the point; as many as a quarter of the path's tolerance needs unless stated.
    std::optional<int> decimals{};
    /// Number of the machine's offset that holds the tool's radius, for paths that leave it to the machine.
    int offset_number = 1;
    /// Whether blocks are numbered: N1 to N9999, and then from N1 again.
    bool block_numbers = true;
    /// The first remark of the program.
    std::string title{};
};

/// How a wire-cutting machine is to work. Lengths in the gear's unit, feeds in that unit per minute.
struct wire_cutting {
    double feed = 0;
    /// How long before the end of each contour the machine stops, so that what would fall can be held; 0 for no stop.
    double stop_before_end = 0;
};

/// How a milling machine is to work: the top of the stock is at Z 0, the tool comes down beside the contour.
struct milling {
    double feed = 0;
    double plunge_feed = 0;
    /// Revolutions per minute.
    int spindle_speed = 0;
    /// Depth of the contour below Z 0, and the greatest depth of one pass; passes are of equal depth.
    double depth = 0;
    double depth_of_pass = 0;
    /// Height above Z 0 at which the tool may travel anywhere.
    double clearance = 0;
};

namespace detail {

inline int decimals_of(const tool_path& path, const gcode_options& options) {
    // What the path leaves of the tolerance must hold the rounding.
    const double room = (1 - path_share_of_tolerance) * path.tolerance / gcode_output::greatest_rounding;
    const int needed = decimals_for(room);
    if (!options.decimals) return needed;
    require(first_of(check_at_least("decimals", static_cast<double>(*options.decimals), static_cast<double>(needed)),
                     check_at_most("decimals", static_cast<double>(*options.decimals), 15.)));
    return *options.decimals;
}

inline void begin_program(gcode_output& out, const tool_path& path, const gcode_options& options, std::string_view work, int decimals) {
    const std::string_view unit = options.unit == length_unit::inch ? " inches" : " millimetres";
    out.mark("%");
    if (!options.title.empty()) out.remark(options.title);
    out.remark(std::string(work).append(", lengths in").append(unit));
    const bool by_machine = path.cuts.front().compensation != machine_offset::none;
    const std::string radius = gcode_number(path.tool_radius, decimals);
    if (by_machine) {
        std::string text("path of the outline - offset ");
        out.remark(text.append(std::to_string(options.offset_number)).append(" must hold the radius ").append(radius));
    } else {
        out.remark(std::string("path of the tool's centre for a radius of ").append(radius));
    }
    out.remark("prove it in the air before it meets metal");
    out.block(options.unit == length_unit::inch ? "G17 G20 G40 G90 G94" : "G17 G21 G40 G90 G94");
}

inline void end_program(gcode_output& out) {
    out.block("M30");
    out.mark("%");
    out.finish();
}

/// From the start to the contour, round it and away. The machine stops at the contour's piece of that index.
inline void run_cut(gcode_output& out, const tool_cut& cut, const std::vector<arc<double>>& contour, std::size_t stop, double feed,
                    int offset_number) {
    std::string begin_offset;
    if (cut.compensation != machine_offset::none) {
        begin_offset = cut.compensation == machine_offset::left ? "G41 D" : "G42 D";
        begin_offset += std::to_string(offset_number);
    }
    for (std::size_t i = 0; i < cut.lead_in.size(); ++i) out.follow(cut.lead_in[i], feed, i == 0 ? std::string_view(begin_offset) : "");
    for (std::size_t i = 0; i < contour.size(); ++i) {
        if (i == stop) {
            out.remark("hold what is about to fall");
            out.block("M00");
        }
        out.follow(contour[i], feed);
    }
    for (std::size_t i = 0; i < cut.lead_out.size(); ++i) {
        const bool ends_offset = !begin_offset.empty() && i + 1 == cut.lead_out.size();
        out.follow(cut.lead_out[i], feed, ends_offset ? "G40" : "");
    }
}

inline void require_path(const tool_path& path, const gcode_options& options) {
    require(first_of(check_greater("number of cuts", static_cast<double>(path.cuts.size()), 0.),
                     check_greater("tolerance", path.tolerance, 0.),
                     check_at_least("offset number", static_cast<double>(options.offset_number), 1.)));
}

} // namespace detail

/// Writes a program for a wire-cutting machine: for each contour a rapid to its start hole, a stop (M00) to thread the wire, the cut, and a
/// stop to cut the wire. Numbers always have a decimal point; I and J count from the arc's start.
/// Throws geometry_error before the first byte for a feed that is not greater than 0, a negative length to stop before the end, no cuts, or
/// fewer decimals than the tolerance needs; std::ios_base::failure unless the stream has taken every byte (without exceptions the
/// program ends).
inline void write_gcode(std::ostream& stream, const tool_path& path, const wire_cutting& machine, const gcode_options& options = {}) {
    detail::require_path(path, options);
    require(first_of(check_greater("feed", machine.feed, 0.), check_at_least("stop before the end", machine.stop_before_end, 0.)));
    const int decimals = detail::decimals_of(path, options);
    detail::gcode_output out(stream, decimals, options.block_numbers);
    detail::begin_program(out, path, options, "wire cutting", decimals);
    for (const tool_cut& cut : path.cuts) {
        std::vector<arc<double>> contour = cut.contour;
        const std::size_t stop = detail::divided_before_end(contour, machine.stop_before_end);
        out.remark(cut.hole ? "hole" : "outside");
        out.rapid(cut.start);
        out.remark("thread the wire");
        out.block("M00");
        detail::run_cut(out, cut, contour, stop, machine.feed, options.offset_number);
        out.remark("cut the wire");
        out.block("M00");
    }
    detail::end_program(out);
}

/// Writes a program for a milling machine: for each contour, pass by pass, down beside it, round it and up again.
/// Throws geometry_error before the first byte unless feeds, speed, depths and clearance are greater than 0, for no cuts, or for fewer decimals
/// than the tolerance needs; std::ios_base::failure as above.
inline void write_gcode(std::ostream& stream, const tool_path& path, const milling& machine, const gcode_options& options = {}) {
    detail::require_path(path, options);
    require(first_of(check_greater("feed", machine.feed, 0.), check_greater("plunge feed", machine.plunge_feed, 0.),
                     check_greater("spindle speed", static_cast<double>(machine.spindle_speed), 0.),
                     check_greater("depth", machine.depth, 0.), check_greater("depth of a pass", machine.depth_of_pass, 0.),
                     check_greater("clearance", machine.clearance, 0.),
                     check_at_most("number of passes", machine.depth / machine.depth_of_pass, 10000.)));
    const int decimals = detail::decimals_of(path, options);
    // A depth that is a whole number of passes but for rounding takes no pass more.
    const int passes = 1 + static_cast<int>(machine.depth / machine.depth_of_pass * (1 - 1e-12));
    detail::gcode_output out(stream, decimals, options.block_numbers);
    detail::begin_program(out, path, options, "milling", decimals);
    out.block(std::string("S").append(std::to_string(machine.spindle_speed)).append(" M03"));
    out.rapid_height(machine.clearance);
    for (const tool_cut& cut : path.cuts) {
        out.remark(cut.hole ? "hole" : "outside");
        for (int pass = 1; pass <= passes; ++pass) {
            out.rapid(cut.start);
            out.feed_height(-machine.depth * pass / passes, machine.plunge_feed);
            detail::run_cut(out, cut, cut.contour, cut.contour.size(), machine.feed, options.offset_number);
            out.rapid_height(machine.clearance);
        }
    }
    out.block("M05");
    detail::end_program(out);
}

} // namespace rackwork

#endif
