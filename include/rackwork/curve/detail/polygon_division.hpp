// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A piece of an exact curve as chords or as tangents.
#ifndef RACKWORK_CURVE_DETAIL_POLYGON_DIVISION_HPP
#define RACKWORK_CURVE_DETAIL_POLYGON_DIVISION_HPP

#include "../../core/elementary.hpp"
#include "../../core/error.hpp"
#include "../../core/point.hpp"
#include "../../core/root_finding.hpp"
#include "../../core/scalar.hpp"
#include "../offset_segment.hpp"
#include "natural_shares.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <variant>
#include <vector>

namespace rackwork::detail {

/// Where the vertices of a polygon along a curve lie.
enum class vertices_at { curve, left, right };

/// The corners of a polygon along a curve, its first and last point included, and its proven deviation.
template <scalar T>
struct polygon_division {
    std::vector<point<T>> points;
    T deviation{0};
};

/// Lays a polygon along a piece of a curve that turns one way only. Chords have their vertices on the curve and lie on the side to which it
/// turns; tangents touch it, have their vertices where they meet, and lie on the other side.
///
/// A chord is farthest from the curve where the curve is parallel to it. Along a tangent the distance from the curve, which is convex, only
/// grows with the distance from the point of contact; so a polygon of tangents is farthest at its vertices.
template <scalar T>
class one_way_polygon {
public:
    one_way_polygon(const offset_segment<T>& curve, const T& from, const T& to)
        : curve_(curve), from_(from), to_(to), shares_(
              [&](const T& t) {
                  // The deviation is k l^2/8, so the integral of the root of the curvature k is shared out.
                  const T turning = magnitude(T(curve.speed(t) * curve.curvature(t)));
                  return is_finite(turning) ? elementary::sqrt(T(turning * curve.speed(t))) : T(0);
              },
              from, to) {}

    /// Its points but the first are appended.
    void append(polygon_division<T>& result, const T& tolerance, bool tangents) const {
        // No piece turns by more than a right angle, or tangents might not meet.
        const double turning = static_cast<double>(
            integral_table<T>([&](const T& t) { return T(curve_.speed(t) * curve_.curvature(t)); }, from_, to_).total());
        const double by_tolerance = static_cast<double>(shares_.total()) / std::sqrt(8 * static_cast<double>(tolerance));
        constexpr double most_parts = 1 << 24;
        int parts = 1 + (by_tolerance < most_parts ? static_cast<int>(by_tolerance * 0.98) : 1 << 24);
        if (turning < 1e6) parts = (std::max)(parts, 1 + static_cast<int>(turning / 1.5));
        for (; parts <= static_cast<int>(most_parts); parts += 1 + parts / 64) {
            std::vector<point<T>> points;
            const T deviation = tangents ? by_tangents(parts, tolerance, points) : by_chords(parts, tolerance, points);
            if (!(deviation <= tolerance)) continue;
            result.points.insert(result.points.end(), points.begin(), points.end());
            result.deviation = larger(result.deviation, deviation);
            return;
        }
        impossible_geometry({"tolerance", static_cast<double>(tolerance), "is too small for a polyline", 0, false});
    }

private:
    T end_of(int part, int parts) const { return shares_.parameter(T(T(part) / T(parts))); }

    T by_chords(int parts, const T& tolerance, std::vector<point<T>>& points) const {
        T deviation = T(0);
        T before = from_;
        for (int i = 1; i <= parts && deviation <= tolerance; ++i) {
            const T here = end_of(i, parts);
            const point<T> start = curve_.position(before);
            const point<T> end = curve_.position(here);
            const point<T> chord = end - start;
            const T size = length(chord);
            if (size > T(0)) {
                const T furthest = bracketed_root([&](const T& t) { return cross(chord, curve_.tangent(t)); }, before, here);
                deviation = larger(deviation, T(magnitude(cross(chord, curve_.position(furthest) - start)) / size));
            }
            points.push_back(end);
            before = here;
        }
        return deviation;
    }

    T by_tangents(int parts, const T& tolerance, std::vector<point<T>>& points) const {
        T deviation = T(0);
        T before = from_;
        for (int i = 1; i <= parts && deviation <= tolerance; ++i) {
            const T here = end_of(i, parts);
            const point<T> start = curve_.position(before);
            const point<T> end = curve_.position(here);
            const point<T> leaving = curve_.tangent(before);
            const point<T> arriving = curve_.tangent(here);
            const T sine = cross(leaving, arriving);
            if (sine != T(0)) {
                const point<T> vertex = start + T(cross(end - start, arriving) / sine) * leaving;
                const T nearest =
                    bracketed_root([&](const T& t) { return dot(vertex - curve_.position(t), curve_.tangent(t)); }, before, here);
                deviation = larger(deviation, length(vertex - curve_.position(nearest)));
                points.push_back(vertex);
            }
            before = here;
        }
        points.push_back(curve_.position(to_));
        return deviation;
    }

    offset_segment<T> curve_;
    T from_;
    T to_;
    integral_table<T> shares_;
};

/// A regular polygon along an arc, run through counter-clockwise. A part that turns by h has its chord nearer to the centre than the
/// radius r by r (1 - cos(h/2)), and its tangents meet farther out by r (1/cos(h/2) - 1).
template <scalar T>
polygon_division<T> polygon_along_arc(const offset_segment<T>& arc, const T& tolerance, vertices_at where) {
    const circle<T>& c = std::get<circle<T>>(arc.curve);
    const T turning = arc.to - arc.from;
    const bool tangents = where == vertices_at::right;
    const auto deviation = [&](int parts) {
        const T half = turning / T(2 * parts);
        const T quarter = elementary::sin(T(half / T(2)));
        const T sagitta = T(2) * c.radius * square(quarter);
        return tangents ? T(sagitta / elementary::cos(half)) : sagitta;
    };
    // No part turns by more than a right angle.
    const double by_tolerance = static_cast<double>(turning) * std::sqrt(static_cast<double>(c.radius / (T(8) * tolerance)));
    int parts = 1 + static_cast<int>(static_cast<double>(turning) / 1.5);
    if (by_tolerance < 1 << 24) parts = (std::max)(parts, static_cast<int>(by_tolerance * 0.98));
    while (!(deviation(parts) <= tolerance)) ++parts;
    polygon_division<T> result{{arc.start}, deviation(parts)};
    for (int i = 1; i <= parts; ++i) {
        if (tangents) {
            const T middle = T(arc.from + turning * (T(2 * i - 1) / T(2 * parts)));
            result.points.push_back(c.centre + T(c.radius / elementary::cos(T(turning / T(2 * parts)))) * direction(middle));
        } else if (i < parts) {
            result.points.push_back(arc.position(T(arc.from + turning * (T(i) / T(parts)))));
        }
    }
    result.points.push_back(arc.end);
    return result;
}

/// A polygon along a piece of a curve, run through in the sense of growing parameter.
template <scalar T>
polygon_division<T> polygon_along(const offset_segment<T>& curve, const T& tolerance, vertices_at where) {
    if (curve.is_arc()) return polygon_along_arc(curve, tolerance, where);
    // Parts between inflections.
    constexpr int samples = 48;
    std::vector<T> ends{curve.from};
    const auto curvature = [&](const T& t) { return curve.curvature(t); };
    const auto at = [&](int i) { return T(curve.from + (curve.to - curve.from) * (T(2 * i + 1) / T(2 * samples))); };
    for (int i = 1; i < samples; ++i) {
        if (curvature(at(i - 1)) * curvature(at(i)) < T(0)) ends.push_back(bracketed_root(curvature, at(i - 1), at(i)));
    }
    ends.push_back(curve.to);

    polygon_division<T> result;
    result.points.push_back(curve.start);
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
        const T middle = T(ends[i] + (ends[i + 1] - ends[i]) / T(2));
        const bool turns_left = curvature(middle) > T(0);
        const bool tangents = where != vertices_at::curve && turns_left == (where == vertices_at::right);
        one_way_polygon<T>(curve, ends[i], ends[i + 1]).append(result, tolerance, tangents);
    }
    return result;
}

} // namespace rackwork::detail

#endif
