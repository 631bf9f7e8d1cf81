// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Exact parallel outlines: the path of a tool's centre, a wire's kerf, stock for finishing.
#ifndef RACKWORK_CURVE_OFFSET_HPP
#define RACKWORK_CURVE_OFFSET_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "biarc.hpp"
#include "bspline.hpp"
#include "detail/offset_pieces.hpp"
#include "detail/offset_trim.hpp"
#include "detail/path.hpp"
#include "offset_reach.hpp"
#include "offset_segment.hpp"
#include "one_sided_polyline.hpp"
#include "polyline.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <variant>
#include <vector>

namespace rackwork {

/// A closed sequence of exact parallels; the end of each is, to the bit, the start of the next.
template <scalar T>
struct offset_loop {
    std::vector<offset_segment<T>> segments;
};

/// An offset outline.
template <scalar T>
struct offset_outline {
    /// One for an ordinary gear; several where the offset falls apart, as at the narrow mouth of an undercut space; none where nothing is
    /// left. They run the way of the outline.
    std::vector<offset_loop<T>> loops;
    /// What is not reached, in the order of the outline. Empty if the offset the other way gives the whole outline again.
    std::vector<unreached_stretch<T>> unreached;
};

namespace detail {

/// The kept parts joined to loops: at a crossing, from one piece to the other.
template <scalar T>
std::vector<offset_loop<T>> loops_of(const std::vector<offset_part<T>>& parts, const std::vector<offset_piece<T>>& pieces, const T& size) {
    constexpr std::size_t none = offset_part<T>::none;
    std::vector<bool> used(parts.size(), false);
    std::vector<std::vector<std::size_t>> starting_at;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const std::size_t c = parts[i].crossing_at_start;
        if (!parts[i].kept || c == none) continue;
        if (starting_at.size() <= c) starting_at.resize(c + 1);
        starting_at[c].push_back(i);
    }
    std::vector<offset_loop<T>> loops;
    const T nothing = elementary::sqrt(epsilon<T>()) * size;
    for (std::size_t first = 0; first < parts.size(); ++first) {
        if (used[first] || !parts[first].kept) continue;
        offset_loop<T> loop;
        T way = T(0);
        std::size_t i = first;
        bool closes = true;
        while (!used[i]) {
            used[i] = true;
            const offset_part<T>& p = parts[i];
            offset_segment<T> s = pieces[p.piece].segment;
            s.from = p.from;
            s.to = p.to;
            s.start = loop.segments.empty() ? p.start : loop.segments.back().end;
            s.end = p.end;
            s.corner_at_end = p.crossing_at_end != none;
            loop.segments.push_back(s);
            way += length(s.end - s.start);
            std::size_t next = i + 1 == parts.size() ? 0 : i + 1;
            if (p.crossing_at_end != none) {
                next = none;
                if (p.crossing_at_end < starting_at.size()) {
                    for (const std::size_t candidate : starting_at[p.crossing_at_end]) {
                        if (!used[candidate] || candidate == first) next = candidate;
                    }
                }
            } else if (!p.joined) {
                next = none;
            }
            // Every kept part ends where another one begins; only crossings that rounding hides could break that.
            if (next == none || !parts[next].kept) {
                closes = false;
                break;
            }
            i = next;
        }
        // Where many parallels meet in a point, as those of all root lands do on the axis, rounding leaves crumbs that are no loops.
        if (!closes && !(way > nothing)) continue;
        if (!closes) {
            impossible_geometry({"distance", 0, "makes the offset touch itself, so that it cannot be told how it goes on", 0, false});
        }
        loop.segments.back().end = loop.segments.front().start;
        // Pieces may be joined at a corner of the path that a way back has brought about again.
        for (std::size_t k = 0; k < loop.segments.size(); ++k) {
            offset_segment<T>& s = loop.segments[k];
            const offset_segment<T>& after = loop.segments[k + 1 == loop.segments.size() ? 0 : k + 1];
            s.corner_at_end = s.corner_at_end || turns_at_corner(s.tangent(s.to), after.tangent(after.from));
        }
        if (way > nothing) loops.push_back(std::move(loop));
    }
    return loops;
}

template <scalar T>
offset_outline<T> offset_of(const std::vector<offset_segment<T>>& path, const T& distance) {
    require(check_greater("number of segments", T(static_cast<int>(path.size())), T(0)));
    const T size = size_of(path);
    require(check_finite("coordinate of the outline", size));
    require(check_finite("distance", distance));
    require(check_magnitude("distance", distance, T(size / epsilon<T>())));
    if (path.front().start != path.back().end) {
        impossible_geometry({"outline", 0, "must be closed to be offset", 0, false});
    }
    if (distance == T(0)) return {{{path}}, {}};
    const std::vector<offset_piece<T>> pieces = offset_pieces_of(path, T(-distance), true, size);
    const std::vector<offset_part<T>> parts = parts_of(pieces, path, magnitude(distance), true, size);
    return {loops_of(parts, pieces, size), unreached_of(parts, pieces, path, distance, size)};
}

} // namespace detail

/// The parallel of a closed outline at a distance (a length): positive to the free side, where a tool is, negative into the material, which
/// lies to the left (so an internal gear's is asked of reversed(outline), or with the other sign). Every segment of it is exact: circles'
/// parallels are circles, involutes' are involutes, those of fillets are kept as what they are. Round corners that the path goes round it
/// runs in arcs; corners into which it goes, and bottlenecks, are cut off where the parallels cross; what is nearer to the outline than the
/// distance is left out.
///
/// Accuracy: the points of the offset are off by no more than 256 epsilon of the outline's size, crossings by that over the sine of their
/// angle. There and back gives the outline again as long as nothing is unreached. It takes time in proportion to the number of segments.
/// Where the offset just touches itself, as with a tool that just fits, either way of going on may be taken: in loops that touch or in one.
/// Throws geometry_error unless the outline is closed and the distance finite, or where rounding hides a crossing without which it cannot
/// be told how the path goes on.
template <scalar T>
offset_outline<T> offset_of(const outline<T>& exact, const T& distance) {
    // Without the segments that are shorter than rounding, but with the indices of the outline.
    const std::vector<offset_segment<T>> path = detail::path_of(exact);
    offset_outline<T> result = detail::offset_of(path, distance);
    std::size_t index = 0;
    std::size_t known = 0;
    for (unreached_stretch<T>& u : result.unreached) {
        for (; known <= u.segment_index; ++index) {
            if (exact.segments[index].from == path[known].from && exact.segments[index].to == path[known].to &&
                exact.segments[index].end == path[known].end) {
                ++known;
            }
        }
        u.segment_index = index - 1;
    }
    return result;
}

/// The parallel of a loop of another offset.
template <scalar T>
offset_outline<T> offset_of(const offset_loop<T>& loop, const T& distance) {
    return detail::offset_of(loop.segments, distance);
}

// An offset is approximated as an outline is.

/// As for an outline.
template <scalar T>
bspline_path<T> bsplines_of(const offset_loop<T>& loop, const T& tolerance, const bspline_options& options = {}) {
    return detail::bsplines_of(loop.segments, tolerance, options);
}

/// As for an outline.
template <scalar T>
arc_path<T> biarcs_of(const offset_loop<T>& loop, const T& tolerance) {
    return detail::biarcs_of(loop.segments, tolerance);
}

/// As for an outline: every point lies on the loop.
template <scalar T>
polyline<T> polyline_of(const offset_loop<T>& loop, const T& tolerance) {
    return detail::polyline_along(loop.segments, tolerance, detail::vertices_at::curve);
}

/// As for an outline; the material is what lies to the left.
template <scalar T>
polyline<T> one_sided_polyline_of(const offset_loop<T>& loop, const T& tolerance, outline_side side) {
    return detail::polyline_along(loop.segments, tolerance,
                                  side == outline_side::material ? detail::vertices_at::left : detail::vertices_at::right);
}

} // namespace rackwork

#endif
