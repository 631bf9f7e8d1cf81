// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Polylines that stay on one side of an exact outline.
#ifndef RACKWORK_CURVE_ONE_SIDED_POLYLINE_HPP
#define RACKWORK_CURVE_ONE_SIDED_POLYLINE_HPP

#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "detail/exact_curve.hpp"
#include "detail/path.hpp"
#include "detail/polygon_division.hpp"
#include "offset_segment.hpp"
#include "polyline.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <vector>

namespace rackwork {

/// A side of an outline. The material lies to the left of its running direction (of an internal gear's: of reversed(outline)).
enum class outline_side { material, free };

namespace detail {

template <scalar T>
polyline<T> polyline_along(const std::vector<offset_segment<T>>& path, const T& tolerance, vertices_at where) {
    require_tolerance(path, tolerance);
    const T rounding = T(64) * epsilon<T>() * size_of(path);
    polyline<T> result;
    // What is left of a segment is right of its mirror image, and of itself run through backwards.
    std::array<once_for_alike<T, polygon_division<T>>, 2> divisions;
    for (const offset_segment<T>& s : path) {
        const standard_segment<T> standard(s);
        const bool sides_swapped = standard.where.mirrored != standard.where.reversed;
        const vertices_at opposite = where == vertices_at::left ? vertices_at::right : vertices_at::left;
        const vertices_at here = where == vertices_at::curve || !sides_swapped ? where : opposite;
        const auto divide = [&](const offset_segment<T>& shape) {
            return polygon_along(shape, tolerance_for(shape, tolerance, rounding), here);
        };
        // Arcs are divided at once; it would take longer to find one like it.
        polygon_division<T> of_arc;
        if (s.is_arc()) of_arc = divide(standard.shape);
        const polygon_division<T>& division =
            s.is_arc() ? of_arc : divisions[sides_swapped ? 1 : 0].found_or_made(standard, divide);
        std::vector<point<T>> points;
        for (const point<T>& p : division.points) points.push_back(standard.where(p));
        if (standard.where.reversed) std::reverse(points.begin(), points.end());
        const T moved = larger(length(points.front() - s.start), length(points.back() - s.end));
        points.front() = s.start;
        result.points.insert(result.points.end(), points.begin(), points.end() - 1);
        result.deviation = larger(result.deviation, T(division.deviation + moved + rounding / T(4)));
    }
    result.closed = path.front().start == path.back().end;
    if (!result.closed) result.points.push_back(path.back().end);
    return result;
}

} // namespace detail

/// A polyline that strays from an outline by at most `tolerance` (a length) and only to one side of it: chords where the outline turns to
/// that side, tangents where it turns away. Each joint of the outline is one of its points, so at a corner it is on the outline. Rounding
/// may carry it to the other side by 16 epsilon of the outline's size. Teeth of one gear are divided alike, right flanks as left ones.
/// Throws geometry_error unless the tolerance is finite and at least 4096 epsilon of the outline's size.
template <scalar T>
polyline<T> one_sided_polyline_of(const outline<T>& exact, const T& tolerance, outline_side side) {
    return detail::polyline_along(detail::path_of(exact), tolerance,
                                  side == outline_side::material ? detail::vertices_at::left : detail::vertices_at::right);
}

} // namespace rackwork

#endif
