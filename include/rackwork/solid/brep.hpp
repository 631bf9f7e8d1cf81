// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A solid by its boundary: faces on surfaces, bounded by edges on curves, which end in vertices. All are shared.
#ifndef RACKWORK_SOLID_BREP_HPP
#define RACKWORK_SOLID_BREP_HPP

#include "../core/point.hpp"
#include "../core/scalar.hpp"

#include <cmath>
#include <cstddef>
#include <variant>
#include <vector>

namespace rackwork {

/// A point or a vector in space: x and y as in the transverse section, z along the gear's axis.
struct point3 {
    double x = 0;
    double y = 0;
    double z = 0;

    friend constexpr point3 operator+(const point3& a, const point3& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
    friend constexpr point3 operator-(const point3& a, const point3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
    friend constexpr point3 operator*(double factor, const point3& a) {
        return {factor * a.x, factor * a.y, factor * a.z};
    }
    friend constexpr bool operator==(const point3& a, const point3& b) {
        return a.x == b.x && a.y == b.y && a.z == b.z;
    }
};

/// Scalar product.
constexpr double dot(const point3& a, const point3& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
/// Vector product.
constexpr point3 cross(const point3& a, const point3& b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
/// Length of a vector.
inline double length(const point3& a) { return std::sqrt(dot(a, a)); }

/// Straight edge from its first vertex to its second.
struct line_curve {};

/// Circle square to the axis. An edge on it runs from its first vertex to its second counter-clockwise as seen from +z.
struct circle_curve {
    point3 centre;
    double radius = 0;
};

/// B-spline curve in space, clamped: it begins in its first control point and ends in its last one.
struct bspline_curve {
    int degree = 0;
    /// Knots with their repetitions: degree + 1 more than control points.
    std::vector<double> knots;
    std::vector<point3> control_points;
    /// One for each control point, or none for a curve that is not rational.
    std::vector<double> weights;
};

/// Plane; the normal is a unit vector, `reference` one in the plane.
struct plane_surface {
    point3 origin;
    point3 normal;
    point3 reference;
};

/// Cylinder with its axis along z. Its normal points away from the axis. `reference` is the direction in which the angle round it begins:
/// always on the side where the face is not.
struct cylinder_surface {
    point3 centre;
    point<double> reference{1, 0};
    double radius = 0;
};

/// Cone with its axis along z: of radius `radius` at the centre's height, and by `slope` more for each unit of height. Its normal points
/// away from the axis.
struct cone_surface {
    point3 centre;
    point<double> reference{1, 0};
    double radius = 0;
    double slope = 0;
};

/// What a curve in a plane square to the axis sweeps along z. Its normal is the curve's direction times +z: to the right of the curve.
struct extrusion_surface {
    bspline_curve curve;
    double height = 0;
};

/// B-spline surface: first parameter along the section, second along the axis. Control point (i, j) is control_points[i * across + j].
/// Its normal is first direction times second.
struct bspline_surface {
    int degree_along = 0;
    int degree_across = 0;
    std::vector<double> knots_along;
    std::vector<double> knots_across;
    std::size_t across = 0;
    std::vector<point3> control_points;
    /// One for each control point, or none for a surface that is not rational.
    std::vector<double> weights;
};

/// An edge; both of its faces share it.
struct brep_edge {
    std::size_t first = 0;  ///< vertex where it begins
    std::size_t second = 0; ///< vertex where it ends
    std::variant<line_curve, circle_curve, bspline_curve> curve;
};

/// An edge in the boundary of a face, and whether it is run through from first to second vertex there.
struct brep_edge_use {
    std::size_t edge = 0;
    bool forward = true;
};

/// A face. Seen from outside the solid its outer loop runs counter-clockwise, those of holes clockwise.
struct brep_face {
    std::variant<plane_surface, cylinder_surface, cone_surface, extrusion_surface, bspline_surface> surface;
    /// True where the surface's normal points out of the solid.
    bool outward = true;
    /// The outer loop, then those of holes.
    std::vector<std::vector<brep_edge_use>> loops;
};

/// A solid by its boundary. Watertight: each edge is used by exactly two faces, once forward and once backward.
struct brep {
    std::vector<point3> vertices;
    std::vector<brep_edge> edges;
    std::vector<brep_face> faces;
    /// No point of a face is farther from the exact body's boundary than this, and the other way round: proved, not sampled.
    double deviation = 0;
    /// No point of an edge is farther from the surfaces of its two faces than this. Within `deviation`.
    double edge_deviation = 0;
    /// No coordinate of a point of the solid is larger.
    double size = 0;
};

namespace detail {

inline point3 moved(const point3& p, const point<double>& turn, const point3& shift) {
    const point<double> t = turned(point<double>{p.x, p.y}, turn);
    return {t.x + shift.x, t.y + shift.y, p.z + shift.z};
}

/// A rotation about the axis, then a shift.
struct motion {
    point<double> turn{1, 0};
    point3 shift;

    point3 operator()(const point3& p) const { return moved(p, turn, shift); }
    point3 direction(const point3& d) const { return moved(d, turn, {}); }

    void apply(line_curve&) const {}
    void apply(circle_curve& c) const { c.centre = (*this)(c.centre); }
    void apply(bspline_curve& c) const {
        for (point3& p : c.control_points) p = (*this)(p);
    }
    void apply(plane_surface& s) const {
        s.origin = (*this)(s.origin);
        s.normal = direction(s.normal);
        s.reference = direction(s.reference);
    }
    void apply(cylinder_surface& s) const {
        s.centre = (*this)(s.centre);
        s.reference = turned(s.reference, turn);
    }
    void apply(cone_surface& s) const {
        s.centre = (*this)(s.centre);
        s.reference = turned(s.reference, turn);
    }
    void apply(extrusion_surface& s) const { apply(s.curve); }
    void apply(bspline_surface& s) const {
        for (point3& p : s.control_points) p = (*this)(p);
    }
};

} // namespace detail

/// The solid turned about the z axis by an angle in radians, counter-clockwise positive, and then moved.
inline brep moved(brep solid, double turn, const point3& shift) {
    const detail::motion m{rackwork::direction(turn), shift};
    for (point3& p : solid.vertices) p = m(p);
    for (brep_edge& e : solid.edges) std::visit([&](auto& c) { m.apply(c); }, e.curve);
    for (brep_face& f : solid.faces) std::visit([&](auto& s) { m.apply(s); }, f.surface);
    const double rounding = 8 * epsilon<double>() * (solid.size + length(shift));
    solid.size = 1.5 * solid.size + length(shift); // 1.5 > sqrt 2: a turned box is larger
    solid.deviation += rounding;
    solid.edge_deviation += rounding;
    return solid;
}

} // namespace rackwork

#endif
