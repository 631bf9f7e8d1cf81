// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Paths of a tool or a wire round outlines: lines and arcs, ways in and out on the free side, holes before the outside.
#ifndef RACKWORK_EXCHANGE_GCODE_PATH_HPP
#define RACKWORK_EXCHANGE_GCODE_PATH_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../curve/arc.hpp"
#include "../curve/biarc.hpp"
#include "../curve/offset.hpp"
#include "../form/outline.hpp"
#include "../form/segment.hpp"
#include "../gear.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

namespace rackwork {

/// A closed outline, counter-clockwise about the gear's axis, that is to be cut.
struct cut_contour {
    outline<double> shape;
    /// True where the metal lies outside of it: the form of an internal gear, a bore.
    bool hole = false;
};

/// The teeth of a gear as a contour. Throws geometry_error as outline_of does.
inline cut_contour contour_of(const gear<double>& g) { return {outline_of(g), g.is_internal()}; }

/// A circle about the gear's axis as a contour: a bore, or with `hole` false the rim of a ring or of a blank.
/// Throws geometry_error unless the diameter is finite and greater than 0.
inline cut_contour circular_contour(double diameter, bool hole = true) {
    require(check_greater("diameter", diameter, 0.));
    cut_contour result{.shape = {}, .hole = hole};
    const circle<double> c{{0, 0}, diameter / 2};
    // Four quarters, of which the first has its middle on the x axis; the corners are exact mirror images of one another.
    const double reach = diameter / 2 * elementary::sqrt(0.5);
    const point<double> corners[] = {{reach, -reach}, {reach, reach}, {-reach, reach}, {-reach, -reach}};
    for (int i = 0; i < 4; ++i) {
        const double from = pi<double>() / 4 * (2 * i - 1);
        result.shape.segments.push_back({.curve = c, .from = from, .to = from + pi<double>() / 2, .start = corners[i], .end = corners[(i + 1) % 4]});
    }
    return result;
}

/// Who moves the path away from the outline by the tool's radius.
enum class tool_compensation {
    /// The path is that of the tool's centre: the exact offset of the outline.
    in_path,
    /// The path is the outline; the machine's own compensation, G41 or G42 with the number of an offset, does the rest.
    by_machine
};

/// The way round the metal, for a tool that turns clockwise as seen from above.
enum class cutting_direction {
    /// The tool's edges meet the metal at the chip's thick end: the metal lies on the right of the path.
    climb,
    /// The metal lies on the left.
    conventional
};

/// How tool paths are to be made. Lengths are in the gear's unit.
struct tool_path_options {
    /// Radius of the tool; for a wire half the width of its kerf, spark gap included; stock that is to be left is added to it.
    double tool_radius = 0;
    /// Greatest distance between the written path and the exact one, the rounding of the written numbers included.
    double tolerance = 0;
    /// Straight way towards the outline, before the arc if there is one. Of no account in holes, whose way in begins on the axis.
    double approach = 0;
    /// Radius of the quarter circles that lead into the path of the tool's centre and out of it; 0 for straight ways at a right angle
    /// to the outline, which a machine that compensates cannot be left to do. In holes no more than half the distance from the axis is taken.
    double lead_radius = 0;
    tool_compensation compensation = tool_compensation::in_path;
    cutting_direction direction = cutting_direction::climb;
};

/// The side on which the machine is to keep the tool, seen along the path.
enum class machine_offset { none, left, right };

/// One contour on its way: from the start to the outline, round it, and away.
struct tool_cut {
    /// Where a milling cutter goes down and a wire is threaded, clear of the contour.
    point<double> start;
    /// From the start, a line and then an arc unless ways in are straight. The machine's compensation begins on the line.
    std::vector<arc<double>> lead_in;
    /// Closed, from the lead's end back to it.
    std::vector<arc<double>> contour;
    /// Away again; the machine's compensation ends on its last line.
    std::vector<arc<double>> lead_out;
    machine_offset compensation = machine_offset::none;
    bool hole = false;
    /// Stretches of the outline that a tool of this radius does not touch. Corners as sharp as a tip's count as reached.
    std::vector<unreached_stretch<double>> unreached;
};

/// Tool paths in cutting order.
struct tool_path {
    std::vector<tool_cut> cuts;
    /// How far the paths stray from the exact ones at most, proved; the writer's rounding comes on top and stays within the tolerance.
    double deviation = 0;
    /// As asked for.
    double tolerance = 0;
    double tool_radius = 0;
};

namespace detail {

/// Run through the other way.
inline std::vector<arc<double>> reversed(const std::vector<arc<double>>& closed) {
    std::vector<arc<double>> result;
    result.reserve(closed.size());
    for (std::size_t i = closed.size(); i-- > 0;) {
        arc<double> a = closed[i];
        std::swap(a.start, a.end);
        a.turning = -a.turning;
        a.corner_at_end = closed[i == 0 ? closed.size() - 1 : i - 1].corner_at_end;
        result.push_back(a);
    }
    return result;
}

/// The place where a contour is entered: the one with the most room before it, farthest from the axis or, in a hole, nearest to it.
struct entry_place {
    std::size_t index = 0;
    /// In the middle of that arc, or else at its start.
    bool in_middle = false;
    point<double> at{};
};

inline entry_place entry_of(const std::vector<arc<double>>& closed, bool hole) {
    // By less than this share, distances do not differ: then rather a middle than a joint, and of the teeth the one on the x axis.
    constexpr double alike = 1e-9;
    const auto better = [&](const entry_place& a, const entry_place& b) {
        const double room_a = length(a.at);
        const double room_b = length(b.at);
        if (magnitude(room_a - room_b) > alike * room_b) return hole ? room_a < room_b : room_a > room_b;
        if (a.in_middle != b.in_middle) return a.in_middle;
        return a.at.x > b.at.x + alike * room_b;
    };
    entry_place best{0, false, closed.front().start};
    for (std::size_t i = 0; i < closed.size(); ++i) {
        for (const entry_place& place : {entry_place{i, false, closed[i].start}, entry_place{i, true, closed[i].position(0.5)}}) {
            if (better(place, best)) best = place;
        }
    }
    return best;
}

/// The contour begun where it is entered.
inline std::vector<arc<double>> begun_at(const std::vector<arc<double>>& closed, const entry_place& entry) {
    std::vector<arc<double>> result(closed.begin() + static_cast<std::ptrdiff_t>(entry.index), closed.end());
    result.insert(result.end(), closed.begin(), closed.begin() + static_cast<std::ptrdiff_t>(entry.index));
    if (!entry.in_middle) return result;
    arc<double> before = result.front();
    arc<double>& after = result.front();
    before.end = after.start = before.position(0.5);
    before.turning = after.turning = before.turning / 2;
    before.corner_at_end = false;
    result.push_back(before);
    return result;
}

inline arc<double> line(const point<double>& from, const point<double>& to) {
    return {.start = from, .end = to, .centre = 0.5 * (from + to), .radius = 0, .turning = 0, .corner_at_end = true};
}

/// Adds the ways in and out. `beyond` is how far the tool's centre will be from the path: its radius if the machine compensates.
inline void add_leads(tool_cut& cut, const tool_path_options& options, double beyond, bool in_middle) {
    const point<double> p = cut.contour.front().start;
    // Out of the metal, which lies towards the axis, or in a hole away from it.
    const double distance = length(p);
    const point<double> radial = (cut.hole ? -1 : 1) / distance * p;
    const point<double> along = cut.contour.front().tangent_at_start();
    const bool free_on_left = cross(along, radial) > 0;
    const point<double> to_left{-along.y, along.x};
    const point<double> outward = (free_on_left ? 1. : -1.) * to_left;
    // Along a land, the way out of the metal is radial; where the teeth come to a point it is not, and the tip is entered straight.
    const bool curved = options.lead_radius > 0 && in_middle && dot(outward, radial) > 0.5;
    const bool by_machine = options.compensation == tool_compensation::by_machine;
    // Controls differ in where they put the tool on a straight way in at a right angle.
    if (by_machine && !curved) {
        impossible_geometry({"lead radius", options.lead_radius,
                             "must be greater than 0, and the tips must have lands, where the machine compensates", 0, false});
    }
    double radius = curved ? options.lead_radius + beyond : 0;
    if (cut.hole) {
        require(check_less("tool radius", 2 * beyond, distance));
        radius = smaller(radius, distance / 2);
    }
    point<double> arc_start = p;
    point<double> arc_end = p;
    if (curved) {
        arc_start = p + radius * (outward - along);
        arc_end = p + radius * (outward + along);
    }
    if (cut.hole) {
        cut.start = {0, 0};
    } else {
        cut.start = arc_start + (options.approach + beyond) * (curved ? outward : radial);
    }
    const point<double> way_out = cut.hole ? point<double>{0, 0} : arc_end + (options.approach + beyond) * (curved ? outward : radial);
    cut.lead_in = {line(cut.start, arc_start)};
    cut.lead_out = {line(arc_end, way_out)};
    if (curved) {
        // The centre of both lies on the free side: a path with that on its left is entered and left turning left.
        const double quarter = (free_on_left ? 1 : -1) * pi<double>() / 2;
        const point<double> centre = p + radius * outward;
        const arc<double> in{.start = arc_start, .end = p, .centre = centre, .radius = radius, .turning = quarter};
        const arc<double> out{.start = p, .end = arc_end, .centre = centre, .radius = radius, .turning = quarter};
        cut.lead_in.push_back(in);
        cut.lead_out.insert(cut.lead_out.begin(), out);
    }
    if (by_machine) {
        cut.compensation = free_on_left ? machine_offset::left : machine_offset::right;
    }
}

/// The tool's own loop among those of an offset: outside, the one that reaches farthest from the axis; in a hole the one that comes nearest.
inline const offset_loop<double>& main_loop(const offset_outline<double>& parallel, bool hole, double radius) {
    const auto extreme = [&](const offset_loop<double>& loop) {
        double result = length(loop.segments.front().start);
        for (const offset_segment<double>& s : loop.segments) {
            const double r = length(s.position(s.from + (s.to - s.from) / 2));
            result = hole ? smaller(result, smaller(r, length(s.end))) : larger(result, larger(r, length(s.end)));
        }
        return hole ? -result : result;
    };
    if (parallel.loops.empty()) impossible_geometry({"tool radius", radius, "leaves no path: the tool does not fit in", 0, false});
    return *std::max_element(parallel.loops.begin(), parallel.loops.end(),
                             [&](const auto& a, const auto& b) { return extreme(a) < extreme(b); });
}

/// The share of the tolerance that the path itself may take; the rest is for the rounding of the written numbers.
inline constexpr double path_share_of_tolerance = 0.75;

inline tool_cut cut_along(const cut_contour& contour, const tool_path_options& options, double& deviation) {
    const double tolerance = path_share_of_tolerance * options.tolerance;
    tool_cut cut;
    cut.hole = contour.hole;
    arc_path<double> path;
    const bool by_machine = options.compensation == tool_compensation::by_machine;
    // A hole's free side is on the left of its outline.
    const double distance = contour.hole ? -options.tool_radius : options.tool_radius;
    if (options.tool_radius == 0) {
        path = biarcs_of(contour.shape, tolerance);
    } else {
        const offset_outline<double> parallel = offset_of(contour.shape, distance);
        cut.unreached = parallel.unreached;
        const offset_loop<double>& loop = main_loop(parallel, contour.hole, options.tool_radius);
        // A machine that is told to follow an outline into a corner too narrow for its tool would cut into the sides.
        if (by_machine && (!parallel.unreached.empty() || parallel.loops.size() > 1)) {
            impossible_geometry({"tool radius", options.tool_radius, "must let the tool reach the whole outline where the machine compensates",
                                 0, false});
        }
        path = by_machine ? biarcs_of(contour.shape, tolerance) : biarcs_of(loop, tolerance);
    }
    deviation = larger(deviation, path.deviation);
    const bool climb = options.direction == cutting_direction::climb;
    const std::vector<arc<double>> closed = climb != contour.hole ? reversed(path.arcs) : path.arcs;
    const entry_place entry = entry_of(closed, contour.hole);
    cut.contour = begun_at(closed, entry);
    add_leads(cut, options, by_machine ? options.tool_radius : 0, entry.in_middle);
    return cut;
}

} // namespace detail

/// The paths of a tool round contours: those in holes first, in the given order, so that the part is still held by its stock while its bore
/// is cut; then the others. Each is entered and left where the tool has most room: at the tip of a tooth near the x axis.
///
/// Where the tool is too large for the roots, `unreached` says so and the path is that of a tool that leaves metal there, never one that cuts
/// too deep.
/// Throws geometry_error unless the tool radius and the lead radius are at least 0, the approach is greater than 0 and the tolerance within
/// what biarcs_of can meet; for a tool that does not fit in; as offset_of does, where the path just touches itself; and, where the
/// machine compensates, for a tool that does not reach the whole outline, for a lead radius of 0, and for teeth that come to a point.
inline tool_path tool_path_round(const std::vector<cut_contour>& contours, const tool_path_options& options) {
    require(check_greater("number of contours", static_cast<double>(contours.size()), 0.));
    require(first_of(check_at_least("tool radius", options.tool_radius, 0.), check_at_least("lead radius", options.lead_radius, 0.),
                     check_greater("approach", options.approach, 0.), check_greater("tolerance", options.tolerance, 0.)));
    tool_path result;
    result.tolerance = options.tolerance;
    result.tool_radius = options.tool_radius;
    for (const bool holes : {true, false}) {
        for (const cut_contour& c : contours) {
            if (c.hole == holes) result.cuts.push_back(detail::cut_along(c, options, result.deviation));
        }
    }
    return result;
}

} // namespace rackwork

#endif
