// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The curves of a section all round the axis, as walls are built on them.
#ifndef RACKWORK_SOLID_SECTION_PATH_HPP
#define RACKWORK_SOLID_SECTION_PATH_HPP

#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../curve/arc.hpp"
#include "../curve/bspline.hpp"
#include "brep.hpp"
#include "trimmed_edge.hpp"

#include <cstddef>
#include <utility>
#include <variant>
#include <vector>

namespace rackwork::detail {

/// A closed path all round the axis, counter-clockwise, of arcs about the axis, straight lines and B-splines.
using section_path = bspline_path<double>;

/// A circle about the axis as two halves, so that no edge meets itself; it begins at an angle in radians.
inline section_path circle_path(double radius, double first_angle = 0) {
    section_path path;
    path.closed = true;
    const point<double> a = radius * direction(first_angle);
    const point<double> b = -1. * a;
    path.curves.push_back(arc<double>{.start = a, .end = b, .centre = {}, .radius = radius, .turning = pi<double>()});
    path.curves.push_back(arc<double>{.start = b, .end = a, .centre = {}, .radius = radius, .turning = pi<double>()});
    return path;
}

inline point<double> start_of(const section_path& path, std::size_t i) {
    const auto& c = path.curves[i];
    if (const auto* a = std::get_if<arc<double>>(&c)) return a->start;
    return std::get<bspline<double>>(c).control_points.front();
}

/// The path with every arc that is not about the axis, such as a tip's rounding, as a rational B-spline.
inline section_path with_rational_arcs(section_path path) {
    for (auto& curve : path.curves) {
        if (const auto* a = std::get_if<arc<double>>(&curve); a != nullptr && !a->is_line() && !(a->centre == point<double>{})) {
            bspline<double> exact = rational(*a);
            path.deviation = larger(path.deviation, exact.deviation);
            curve = std::move(exact);
        }
    }
    return path;
}

/// A curve of a path as a spline of points (x w, y w, w).
inline clamped_spline homogeneous(const std::variant<bspline<double>, arc<double>>& curve) {
    clamped_spline result;
    if (const auto* line = std::get_if<arc<double>>(&curve)) {
        result.points = {{line->start.x, line->start.y, 1}, {line->end.x, line->end.y, 1}};
        return result;
    }
    const bspline<double>& b = std::get<bspline<double>>(curve);
    result.degree = b.degree;
    result.knots = b.knots;
    for (std::size_t k = 0; k < b.control_points.size(); ++k) {
        const double w = b.weights.empty() ? 1 : b.weights[k];
        result.points.push_back({w * b.control_points[k].x, w * b.control_points[k].y, w});
    }
    return result;
}

/// Edges and vertices of a closed path at one end of a wall: vertex i is where curve i of the path begins. They lie in a plane square to the axis
/// but for what a chamfer cuts; there curve i may have two edges, one in the plane and one on the cone.
struct brep_ring {
    std::vector<std::size_t> vertices;
    std::vector<std::size_t> edges;
    double height = 0;
    /// Where the edges of each curve begin among all; empty where each curve has one edge.
    std::vector<std::size_t> first_edges{};

    /// The edges of a curve, from one of `edges` to before another.
    std::size_t edges_from(std::size_t curve) const { return first_edges.empty() ? curve : first_edges[curve]; }
    std::size_t edges_to(std::size_t curve) const {
        if (first_edges.empty()) return curve + 1;
        return curve + 1 < first_edges.size() ? first_edges[curve + 1] : edges.size();
    }
};

/// Which side of a wall is material.
enum class wall_side { solid_inside, solid_outside };

} // namespace rackwork::detail

#endif
