// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Exact outlines as circular arcs with common tangents: every two neighbours make a biarc.
#ifndef RACKWORK_CURVE_BIARC_HPP
#define RACKWORK_CURVE_BIARC_HPP

#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "arc.hpp"
#include "detail/arc_fit.hpp"
#include "detail/exact_curve.hpp"
#include "detail/path.hpp"
#include "offset_segment.hpp"

#include <cstddef>
#include <vector>

namespace rackwork {

/// Arcs, and straight lines among them, that follow one another. Each begins in the very point in which the one before it ends and, unless
/// that says that there is a corner, in its direction.
template <scalar T>
struct arc_path {
    std::vector<arc<T>> arcs;
    /// No point of the arcs is farther from the exact outline than this, and the other way round: proved, not sampled.
    T deviation{0};
    /// True when the last ends where the first begins.
    bool closed = false;
};

namespace detail {

/// The arcs of a segment in standard position, where the segment stands.
template <scalar T>
void append_arcs(arc_path<T>& path, const arc_division<T>& division, const standard_segment<T>& standard, const offset_segment<T>& s) {
    const standing<T>& where = standard.where;
    const std::size_t count = division.turnings.size();
    T moved = T(0);
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t from = where.reversed ? count - i : i;
        const std::size_t to = where.reversed ? from - 1 : from + 1;
        arc<T> a;
        a.start = i == 0 ? s.start : path.arcs.back().end;
        a.end = i + 1 == count ? s.end : where(division.points[to]);
        a.turning = division.turnings[where.reversed ? to : from];
        if (where.mirrored != where.reversed) a.turning = -a.turning;
        const point<T> chord = a.end - a.start;
        a.centre = T(T(1) / T(2)) * (a.start + a.end);
        if (!a.is_line()) {
            const T half = a.turning / T(2);
            const T sine = elementary::sin(half);
            a.radius = length(chord) / (T(2) * magnitude(sine));
            a.centre = a.centre + T(elementary::cos(half) / (T(2) * sine)) * to_the_left(chord);
        }
        a.corner_at_end = i + 1 == count && s.corner_at_end;
        path.arcs.push_back(a);
        if (i == 0) moved = length(where(division.points[from]) - s.start);
        if (i + 1 == count) moved = larger(moved, length(where(division.points[to]) - s.end));
    }
    path.deviation =
        larger(path.deviation, T(division.deviation + moved + T(16) * epsilon<T>() * larger(length(s.start), length(s.end))));
}

template <scalar T>
arc_path<T> biarcs_of(const std::vector<offset_segment<T>>& path, const T& tolerance) {
    require_tolerance(path, tolerance);
    // Placing the arcs and rounding what is stated cost a little of the tolerance.
    const T rounding = T(256) * epsilon<T>() * size_of(path);
    once_for_alike<T, arc_division<T>> divisions;
    arc_path<T> result;
    for (const offset_segment<T>& s : path) {
        if (s.is_arc()) {
            result.arcs.push_back(arc_of(s));
            continue;
        }
        const standard_segment<T> standard(s);
        const arc_division<T>& division = divisions.found_or_made(
            standard, [&](const offset_segment<T>& shape) { return divided_into_arcs(shape, tolerance_for(shape, tolerance, rounding)); });
        append_arcs(result, division, standard, s);
    }
    result.closed = path.front().start == path.back().end;
    return result;
}

} // namespace detail

/// An outline as arcs that join with common tangents, within a tolerance (a length). Joints lie on the outline; tip and root lands stay the
/// arcs that they are. Where the exact segments meet, the arcs have their very points and, but for rounding, their directions. Teeth of
/// one gear are divided alike, right flanks as left ones.
///
/// The least number of arcs that a flank or fillet needs, with gaps and kinks between them allowed, is exceeded by a quarter and 2 on
/// spur gears of 15 teeth and more, by a third and 4 on any (measured over the gears of the tests). The stated deviation is proved, and at
/// most twice the true one (plus 10^3 epsilon of the outline's size).
/// Throws geometry_error unless the tolerance is finite and at least 4096 epsilon of the outline's size.
template <scalar T>
arc_path<T> biarcs_of(const outline<T>& exact, const T& tolerance) {
    return detail::biarcs_of(detail::path_of(exact), tolerance);
}

} // namespace rackwork

#endif
