// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The parallels of the segments of a path one by one, before they are trimmed.
#ifndef RACKWORK_CURVE_DETAIL_OFFSET_PIECES_HPP
#define RACKWORK_CURVE_DETAIL_OFFSET_PIECES_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/root_finding.hpp"
#include "../../core/scalar.hpp"
#include "../../form/segment.hpp"
#include "../offset_segment.hpp"
#include "natural_shares.hpp"

#include <cstddef>
#include <limits>
#include <variant>
#include <vector>

namespace rackwork::detail {

/// A parallel, or an arc round a corner, and where it comes from.
template <scalar T>
struct offset_piece {
    offset_segment<T> segment;
    /// Index of the segment whose parallel it is; that many segments for an arc round a corner.
    std::size_t source = 0;
    /// Parameter of the source less the parameter of the parallel.
    T shift{0};
    /// True if the next piece begins where this one ends, in the same direction.
    bool joined = false;
};

// The parallel of a curve, `distance` to the left of growing parameter, as a curve, what is left of the distance, and the shift.
template <scalar T>
struct parallel_curve {
    any_curve<T> curve;
    T distance{0};
    T shift{0};
};
template <scalar T>
parallel_curve<T> parallel_of(const circle<T>& c, const T& distance) {
    return {circle<T>{c.centre, T(c.radius - distance)}, T(0), T(0)};
}
template <scalar T>
parallel_curve<T> parallel_of(const involute<T>& c, const T& distance) {
    // The normal is the tangent of the base circle: what is added to it turns the base circle's starting point.
    const T turn = distance / c.base_radius;
    return {involute<T>{c.base_radius, T(c.start_angle + turn), c.unwinding}, T(0), T(T(static_cast<int>(c.unwinding)) * turn)};
}
template <class Curve, scalar T>
parallel_curve<T> parallel_of(const Curve& c, const T& distance) {
    return {c, distance, T(0)};
}

/// The parts of a segment's parallel at a distance to the left of its running direction that run its way: the others lie beyond the centre
/// of curvature, nearer to the segment than the distance.
template <scalar T>
void append_parallels(std::vector<offset_piece<T>>& pieces, const offset_segment<T>& s, std::size_t source, const T& to_the_left,
                      const T& size) {
    const T more = s.to < s.from ? T(-to_the_left) : to_the_left;
    const T distance = s.distance + more;
    const parallel_curve<T> parallel = std::visit([&](const auto& c) { return parallel_of(c, distance); }, s.curve);
    // 1 - distance * curvature, times something positive where the curvature is infinite.
    const auto ahead = [&](const T& t) {
        const T k = std::visit([&](const auto& c) { return c.curvature(t); }, s.curve);
        if (!is_finite(k)) return T(distance * k < T(0) ? 1 : -1);
        return T(T(1) - distance * k);
    };
    constexpr int samples = 32;
    std::vector<T> ends{s.from};
    const auto at = [&](int i) { return i == samples ? s.to : T(s.from + (s.to - s.from) * (T(i) / T(samples))); };
    for (int i = 0; i < samples; ++i) {
        const T low = ahead(at(i));
        const T high = ahead(at(i + 1));
        if ((low < T(0)) != (high < T(0))) {
            ends.push_back(bracketed_root(ahead, at(i), at(i + 1)));
        } else if (i > 0 && low > T(0) && low <= ahead(at(i - 1)) && low <= high) {
            // Between two samples it may just dip below 0.
            T before = at(i - 1);
            T after = at(i + 1);
            for (int step = 0; step < std::numeric_limits<T>::digits; ++step) {
                const T third = (after - before) / T(3);
                const bool falls = ahead(T(before + third)) > ahead(T(after - third));
                (falls ? before : after) = falls ? T(before + third) : T(after - third);
            }
            const T lowest = T(before + (after - before) / T(2));
            if (ahead(lowest) < T(0)) {
                ends.push_back(bracketed_root(ahead, at(i - 1), lowest));
                ends.push_back(bracketed_root(ahead, lowest, at(i + 1)));
            }
        }
    }
    ends.push_back(s.to);
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
        if (!(ahead(T(ends[i] + (ends[i + 1] - ends[i]) / T(2))) > T(0))) continue;
        offset_piece<T> p;
        p.segment.curve = parallel.curve;
        p.segment.distance = parallel.distance;
        p.segment.from = T(ends[i] - parallel.shift);
        p.segment.to = T(ends[i + 1] - parallel.shift);
        p.segment.start = p.segment.on_curve(p.segment.from);
        p.segment.end = p.segment.on_curve(p.segment.to);
        p.source = source;
        p.shift = parallel.shift;
        // What shrinks to a point, such as the arc round a corner on the way back, is nothing.
        const T way = magnitude(T(p.segment.to - p.segment.from)) * larger(p.segment.speed(p.segment.from), p.segment.speed(p.segment.to));
        if (way <= T(64) * epsilon<T>() * size) continue;
        // Only a piece up to the segment's own end can be joined to its neighbour.
        p.joined = i + 2 == ends.size();
        pieces.push_back(p);
    }
}

/// The arc round a corner, from the direction of one unit tangent to that of another, at a distance to the left.
template <scalar T>
offset_segment<T> arc_round_corner(const point<T>& corner, const point<T>& before, const point<T>& after, const T& to_the_left,
                                   const point<T>& start, const point<T>& end) {
    // It runs at the distance square to the tangents; seen from the corner that is to their left or to their right.
    const point<T> radial = to_the_left < T(0) ? T(-1) * rackwork::detail::to_the_left(before) : rackwork::detail::to_the_left(before);
    const T first = T(2) * elementary::atan(T(radial.y / (T(1) + radial.x)));
    const T from = is_finite(first) ? first : pi<T>();
    const T turning = T(2) * elementary::atan(T(cross(before, after) / (T(1) + dot(before, after))));
    offset_segment<T> s;
    s.curve = circle<T>{corner, magnitude(to_the_left)};
    s.from = from;
    s.to = T(from + turning);
    s.start = start;
    s.end = end;
    return s;
}

/// True if directions differ by more than the angle that rounding may leave between directions that are meant to be the same.
template <scalar T>
bool turns_at_corner(const point<T>& arriving, const point<T>& leaving) {
    return !(magnitude(cross(arriving, leaving)) <= T(1 << 18) * epsilon<T>() && dot(arriving, leaving) > T(0));
}

/// Joins two segments, so that the second begins in the very point in which the first one ends, if they do so as far as numbers tell.
/// The ends of segments that are neighbours differ by what the path's corners do. Any others are joined where one runs back along the
/// other: near the sharpest bend of a path its parallel ends in the tail of a swallow, whose sides may be closer together than
/// rounding, and then cannot be made to cross.
template <scalar T>
bool join(offset_segment<T>& first, offset_segment<T>& second, bool are_neighbours, const T& size) {
    const T rounding = T(1 << 8) * epsilon<T>() * size;
    const T gap = length(second.start - first.end);
    if (gap <= (are_neighbours ? T(T(1 << 8) * rounding) : rounding)) {
        second.start = first.end;
        return true;
    }
    if (gap > elementary::sqrt(epsilon<T>()) * size) return false;
    // The parameter of the point of a segment beside another point, if it is on the segment's half at one end.
    const auto beside = [&](const offset_segment<T>& s, const T& end, const point<T>& p, T& at) {
        const T middle = T(s.from + (s.to - s.from) / T(2));
        const auto ahead = [&](const T& t) { return dot(p - s.on_curve(t), s.tangent(t)); };
        if ((ahead(middle) < T(0)) == (ahead(end) < T(0))) return false;
        at = bracketed_root(ahead, middle, end);
        return length(p - s.on_curve(at)) <= rounding;
    };
    T at{0};
    if (beside(first, first.to, second.start, at)) {
        first.to = at;
        first.end = second.start;
        return true;
    }
    if (beside(second, second.from, first.end, at)) {
        second.from = at;
        second.start = first.end;
        return true;
    }
    return false;
}

/// All pieces of a path in order. Where the path turns away from the side of the offset an arc goes round the corner.
template <scalar T>
std::vector<offset_piece<T>> offset_pieces_of(const std::vector<offset_segment<T>>& path, const T& to_the_left, bool closed,
                                              const T& size) {
    std::vector<offset_piece<T>> pieces;
    for (std::size_t i = 0; i < path.size(); ++i) {
        const std::size_t before = pieces.size();
        append_parallels(pieces, path[i], i, to_the_left, size);
        const bool last = i + 1 == path.size();
        if (last && !closed) {
            if (!pieces.empty()) pieces.back().joined = false;
            break;
        }
        const offset_segment<T>& next = path[last ? 0 : i + 1];
        const point<T> arriving = path[i].tangent(path[i].to);
        const point<T> leaving = next.tangent(next.from);
        const T sine = cross(arriving, leaving);
        if (!turns_at_corner(arriving, leaving)) continue;
        // A turn away from the offset's side opens a gap, which an arc closes; a turn towards it makes the neighbours cross.
        const bool away = (sine < T(0)) == (to_the_left > T(0));
        const bool own_end = pieces.size() > before && pieces.back().joined;
        if (own_end) pieces.back().joined = away;
        if (!away) continue;
        const auto beside = [&](const point<T>& p, const point<T>& tangent) {
            return p + to_the_left * rackwork::detail::to_the_left(tangent);
        };
        offset_piece<T> corner;
        corner.segment = arc_round_corner(path[i].end, arriving, leaving, to_the_left, beside(path[i].end, arriving),
                                          beside(path[i].end, leaving));
        corner.source = path.size();
        corner.joined = true;
        pieces.push_back(corner);
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const bool last = i + 1 == pieces.size();
        pieces[i].joined = (closed || !last) && join(pieces[i].segment, pieces[last ? 0 : i + 1].segment, pieces[i].joined, size);
    }
    return pieces;
}

} // namespace rackwork::detail

#endif
