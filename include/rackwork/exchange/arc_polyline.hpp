// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Closed polylines with true arcs, which is what the writers of drawings put into a file.
#ifndef RACKWORK_EXCHANGE_ARC_POLYLINE_HPP
#define RACKWORK_EXCHANGE_ARC_POLYLINE_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../curve/polyline.hpp"
#include "../form/outline.hpp"
#include "../form/segment.hpp"
#include "../gear.hpp"
#include "placement.hpp"

#include <cstddef>
#include <utility>
#include <variant>
#include <vector>

namespace rackwork {

/// A corner of a polyline and the way from it to the next one.
template <scalar T>
struct arc_vertex {
    point<T> position;
    /// Tangent of a quarter of the angle of the arc that follows: 0 for a straight line, positive for an arc that turns
    /// counter-clockwise, 1 for a half circle.
    T bulge{0};
};

/// A closed curve of straight lines and circular arcs; the last vertex is joined to the first.
template <scalar T>
struct arc_polyline {
    std::vector<arc_vertex<T>> vertices;
    /// Greatest distance between the exact curve and the straight lines; the arcs are exact.
    T deviation{0};
};

/// Radius of the arc from `a` to `b` with a bulge other than 0: half the chord over the sine of half the arc's angle.
template <scalar T>
constexpr T arc_radius(const point<T>& a, const point<T>& b, const T& bulge) {
    return T(length(b - a) * (T(1) + square(bulge)) / (T(4) * magnitude(bulge)));
}

/// Centre of the arc from `a` to `b` with a bulge other than 0.
template <scalar T>
constexpr point<T> arc_centre(const point<T>& a, const point<T>& b, const T& bulge) {
    const point<T> chord = b - a;
    const point<T> to_the_left{T(-chord.y), chord.x};
    return T(T(1) / T(2)) * (a + b) + T((T(1) - square(bulge)) / (T(4) * bulge)) * to_the_left;
}

namespace detail {

/// Leaves out each vertex that rounding alone keeps apart from the next one, such as the ends of a full-radius root's land: what reads a
/// file need not cope with steps in the last place.
template <scalar T>
void leave_out_what_has_no_length(std::vector<arc_vertex<T>>& vertices) {
    const T rounding = T(256) * epsilon<T>();
    std::vector<arc_vertex<T>> kept;
    kept.reserve(vertices.size());
    for (std::size_t i = 0; i < vertices.size(); ++i) {
        const point<T>& next = vertices[i + 1 == vertices.size() ? 0 : i + 1].position;
        if (length(next - vertices[i].position) > rounding * length(next)) kept.push_back(vertices[i]);
    }
    vertices = std::move(kept);
}

} // namespace detail

/// Closed outline with its circular arcs kept as arcs; flanks and fillets become chords that stray from the curve by at most `tolerance`
/// (a length). Every vertex lies on the outline, and each joint of it is a vertex, unless the next one is the same point but for rounding.
/// Throws geometry_error unless the tolerance is finite and at least 1024 epsilon of the outline's size.
template <scalar T>
arc_polyline<T> arc_polyline_of(const outline<T>& exact, const T& tolerance) {
    const auto is_arc = [](const segment<T>& s) { return std::holds_alternative<circle<T>>(s.curve); };

    // Everything but the arcs is divided in one go, so that what is alike is divided once. The joints tell the pieces apart afterwards.
    outline<T> curved;
    for (const segment<T>& s : exact.segments) {
        if (!is_arc(s)) curved.segments.push_back(s);
    }
    const polyline<T> chords = polyline_of(curved, tolerance);

    arc_polyline<T> result;
    result.deviation = chords.deviation;
    std::size_t curves = 0;
    std::size_t used = 0;
    for (const segment<T>& s : exact.segments) {
        if (is_arc(s)) {
            const T quarter = (s.to - s.from) / T(4);
            result.vertices.push_back({s.start, elementary::tan(quarter)});
            continue;
        }
        ++curves;
        do {
            result.vertices.push_back({chords.points[used], T(0)});
            ++used;
        } while (used < chords.points.size() &&
                 !(curves < curved.segments.size() && chords.points[used] == curved.segments[curves].start));
    }
    detail::leave_out_what_has_no_length(result.vertices);
    return result;
}

/// The curve of a gear where the gear stands.
template <scalar T>
arc_polyline<T> placed(arc_polyline<T> of_gear, const placement<T>& where) {
    // One sine and cosine for all vertices.
    const point<T> axis = direction(where.turn.rad());
    for (arc_vertex<T>& v : of_gear.vertices) v.position = where.centre + turned(v.position, axis);
    return of_gear;
}

/// Smallest rectangle with sides along the axes around some points.
template <scalar T>
struct bounding_box {
    point<T> lowest;
    point<T> highest;

    constexpr void include(const point<T>& p) {
        lowest = {smaller(lowest.x, p.x), smaller(lowest.y, p.y)};
        highest = {larger(highest.x, p.x), larger(highest.y, p.y)};
    }
    constexpr void include_circle(const point<T>& centre, const T& radius) {
        const point<T> diagonal{radius, radius};
        include(centre - diagonal);
        include(centre + diagonal);
    }
};

/// Bounding box of a curve, of its arcs too.
template <scalar T>
bounding_box<T> bounding_box_of(const arc_polyline<T>& curve) {
    const point<T>& first = curve.vertices.front().position;
    bounding_box<T> box{first, first};
    for (std::size_t i = 0; i < curve.vertices.size(); ++i) {
        const arc_vertex<T>& v = curve.vertices[i];
        box.include(v.position);
        if (v.bulge == T(0)) continue;
        const point<T>& next = curve.vertices[i + 1 == curve.vertices.size() ? 0 : i + 1].position;
        const point<T> centre = arc_centre(v.position, next, v.bulge);
        const T radius = arc_radius(v.position, next, v.bulge);
        for (const point<T>& way : {point<T>{T(1), T(0)}, point<T>{T(-1), T(0)}, point<T>{T(0), T(1)}, point<T>{T(0), T(-1)}}) {
            const point<T> furthest = centre + radius * way;
            // An arc that turns counter-clockwise lies to the right of its chord.
            const T side = cross(next - v.position, furthest - v.position);
            if (v.bulge > T(0) ? side < T(0) : side > T(0)) box.include(furthest);
        }
    }
    return box;
}

namespace detail {

/// An outline as it is drawn, checked so that no file ever holds what is not a number.
template <scalar T>
arc_polyline<T> drawn_outline(const outline<T>& exact, const T& tolerance) {
    arc_polyline<T> result = arc_polyline_of(exact, tolerance);
    for (const arc_vertex<T>& v : result.vertices) {
        require(first_of(check_finite("x of the outline", v.position.x), check_finite("y of the outline", v.position.y),
                         check_finite("bulge of the outline", v.bulge)));
    }
    return result;
}

} // namespace detail

} // namespace rackwork

#endif
