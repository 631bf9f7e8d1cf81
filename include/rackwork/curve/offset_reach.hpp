// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Which stretches of an outline a tool of some radius reaches, and the largest tool that reaches all.
#ifndef RACKWORK_CURVE_OFFSET_REACH_HPP
#define RACKWORK_CURVE_OFFSET_REACH_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "../form/segment.hpp"
#include "../form/tooth.hpp"
#include "../gear.hpp"
#include "detail/offset_pieces.hpp"
#include "detail/offset_trim.hpp"
#include "detail/path.hpp"
#include "offset_segment.hpp"

#include <cstddef>
#include <limits>
#include <variant>
#include <vector>

namespace rackwork {

/// A stretch of an outline that the offset does not follow: a tool of that radius does not touch it, whatever way it goes.
template <scalar T>
struct unreached_stretch {
    /// Index of the outline's segment, and the parameters of its curve.
    std::size_t segment_index;
    T from;
    T to;
};

namespace detail {

/// True for an arc, or a fillet that is one, whose radius is the distance, on the side to which it turns: its parallel is a point.
template <scalar T>
bool shrinks_to_its_centre(const offset_segment<T>& s, const T& distance, const T& size) {
    constexpr int samples = 8;
    const T step = magnitude(T(s.to - s.from)) / T(samples);
    T way = T(0);
    for (int i = 0; i <= samples; ++i) {
        const T at = s.from + (s.to - s.from) * (T(i) / T(samples));
        const T k = s.curvature(at);
        if (!is_finite(k)) return false;
        way += magnitude(T(T(1) + distance * k)) * s.speed(at) * step;
    }
    return way <= T(64) * epsilon<T>() * size;
}

/// The stretches of the path that no kept part is the parallel of.
template <scalar T>
std::vector<unreached_stretch<T>> unreached_of(const std::vector<offset_part<T>>& parts, const std::vector<offset_piece<T>>& pieces,
                                               const std::vector<offset_segment<T>>& path, const T& distance, const T& size) {
    std::vector<unreached_stretch<T>> result;
    std::size_t next = 0;
    for (std::size_t i = 0; i < path.size(); ++i) {
        const offset_segment<T>& s = path[i];
        if (shrinks_to_its_centre(s, distance, size)) continue; // an arc into which the tool just fits is reached
        T reached_to = s.from;
        const auto add = [&](const T& until) {
            const T way = magnitude(T(until - reached_to)) * larger(s.speed(reached_to), s.speed(until));
            if (way > elementary::sqrt(epsilon<T>()) * size) result.push_back({i, reached_to, until});
        };
        // Parts follow the path; those of arcs round corners lie in between.
        for (; next < parts.size() && (pieces[parts[next].piece].source == i || pieces[parts[next].piece].source == path.size()); ++next) {
            const offset_piece<T>& piece = pieces[parts[next].piece];
            if (piece.source != i || !parts[next].kept) continue;
            add(T(parts[next].from + piece.shift));
            reached_to = T(parts[next].to + piece.shift);
        }
        add(s.to);
    }
    return result;
}

/// Least radius of curvature of a path on its right, the free side, over some of its segments: 0 at a corner that turns to the right, the
/// greatest number if the path nowhere turns to the right.
template <scalar T>
T least_free_radius(const std::vector<offset_segment<T>>& path, std::size_t first, std::size_t last) {
    T greatest_curvature = T(0);
    for (std::size_t i = first; i < last; ++i) {
        const offset_segment<T>& s = path[i];
        const offset_segment<T>& next = path[i + 1 == path.size() ? 0 : i + 1];
        const point<T> arriving = s.tangent(s.to);
        const point<T> leaving = next.tangent(next.from);
        if (i + 1 < last && turns_at_corner(arriving, leaving) && cross(arriving, leaving) < T(0)) return T(0);
        const auto curvature = [&](const T& t) {
            const T k = s.curvature(t);
            return is_finite(k) ? T(-k) : T(0);
        };
        constexpr int samples = 64;
        const auto at = [&](int k) { return k == samples ? s.to : T(s.from + (s.to - s.from) * (T(k) / T(samples))); };
        int best = 0;
        for (int k = 1; k <= samples; ++k) {
            if (curvature(at(k)) > curvature(at(best))) best = k;
        }
        // By thirds between the neighbours: near its greatest value the curvature needs its place to half the digits only.
        T low = at(best == 0 ? 0 : best - 1);
        T high = at(best == samples ? samples : best + 1);
        for (int step = 0; step < std::numeric_limits<T>::digits; ++step) {
            const T third = (high - low) / T(3);
            (curvature(T(low + third)) < curvature(T(high - third)) ? low : high) =
                curvature(T(low + third)) < curvature(T(high - third)) ? T(low + third) : T(high - third);
        }
        greatest_curvature = larger(greatest_curvature, larger(curvature(at(best)), curvature(T(low + (high - low) / T(2)))));
    }
    return greatest_curvature > T(0) ? T(T(1) / greatest_curvature) : (std::numeric_limits<T>::max)();
}

/// The largest radius at which nothing of the segments from `first` up to `last` is unreached from the free side.
template <scalar T>
T largest_radius(const std::vector<offset_segment<T>>& path, std::size_t first, std::size_t last, bool closed) {
    const T size = size_of(path);
    const auto reaches_all = [&](const T& radius) {
        const std::vector<offset_piece<T>> pieces = offset_pieces_of(path, T(-radius), closed, size);
        const std::vector<offset_part<T>> parts = parts_of(pieces, path, radius, closed, size);
        for (const unreached_stretch<T>& u : unreached_of(parts, pieces, path, radius, size)) {
            if (first <= u.segment_index && u.segment_index < last) return false;
        }
        return true;
    };
    // In the end either the sharpest bend or a bottleneck is what stops a tool.
    const T by_bend = least_free_radius(path, first, last);
    if (by_bend == T(0)) return T(0);
    const T tolerance = elementary::sqrt(epsilon<T>());
    T too_large = smaller(by_bend, T(T(1 << 16) * size));
    if (reaches_all(T(too_large * (T(1) - tolerance)))) return by_bend; // a tool so much larger than the outline is a straight edge
    T reaching = T(0);
    while (too_large - reaching > tolerance * too_large / T(16)) {
        const T between = reaching + (too_large - reaching) / T(2);
        (reaches_all(between) ? reaching : too_large) = between;
    }
    return reaching;
}

} // namespace detail

/// The largest radius of a tool that can touch every point of a closed outline from the free side: that of the sharpest bend towards the
/// material, or less where the tool does not fit between opposite sides; 0 if there is an inside corner, the greatest number if there is
/// nothing to stop a tool. Where the mouth of a space is narrower than its bottom, as in undercut teeth, that is half the mouth's width
/// and not the radius of the fillet. The free side is on the right, as outside an external gear.
/// Relative accuracy: 10^-9 for double where a bottleneck decides, otherwise that of the curvature.
/// Throws geometry_error for an empty outline.
template <scalar T>
T largest_tool_radius(const outline<T>& exact) {
    const std::vector<offset_segment<T>> path = detail::path_of(exact);
    require(check_greater("number of segments", T(static_cast<int>(path.size())), T(0)));
    return detail::largest_radius(path, 0, path.size(), true);
}

/// The largest radius of a tool that cuts the whole form of a gear, external or internal. As for its outline, but only a space and its
/// neighbours are looked at.
/// Throws geometry_error as tooth_form does.
template <scalar T>
T largest_tool_radius(const gear<T>& g) {
    constexpr int teeth = 3;
    if (g.teeth() <= teeth) return largest_tool_radius(g.is_internal() ? reversed(outline_of(g)) : outline_of(g));
    const tooth_form<T> form(g);
    outline<T> part;
    for (int i = 0; i < teeth; ++i) form.append_tooth(part.segments, i);
    for (std::size_t i = 1; i < part.segments.size(); ++i) part.segments[i].start = part.segments[i - 1].end;
    const std::vector<offset_segment<T>> path = detail::path_of(g.is_internal() ? reversed(part) : part);
    // From the middle of tooth 0 to the middle of tooth 1.
    const std::size_t per_tooth = path.size() / teeth;
    return detail::largest_radius(path, per_tooth / 2, per_tooth + per_tooth / 2, false);
}

} // namespace rackwork

#endif
