// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Builds a solid from rings of edges square to the axis, the walls between them and the plane faces that they bound.
#ifndef RACKWORK_SOLID_BREP_BUILDER_HPP
#define RACKWORK_SOLID_BREP_BUILDER_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../curve/arc.hpp"
#include "../curve/bspline.hpp"
#include "brep.hpp"
#include "screw.hpp"

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

/// Edges and vertices of a closed path in a plane square to the axis: edge i goes from vertex i to the next.
struct brep_ring {
    std::vector<std::size_t> vertices;
    std::vector<std::size_t> edges;
    double height = 0;
};

/// Which side of a wall is material.
enum class wall_side { solid_inside, solid_outside };

class brep_builder {
public:
    using ring = brep_ring;
    using tooth_section = section_path;

    /// With a tolerance for screw_between, a share of the radius.
    explicit brep_builder(double screw_tolerance) : screw_tolerance_(screw_tolerance) {}

    /// Into how many layers a wall is shared out that turns by so many radians: of at most one each, so that no face goes round the axis.
    int layers(const section_path&, double turning) const { return 1 + whole_part(magnitude(turning)); }

    brep_ring add_ring(const section_path& path, const point<double>& turn, double height) {
        brep_ring result{.vertices = {}, .edges = {}, .height = height};
        const std::size_t count = path.curves.size();
        for (std::size_t i = 0; i < count; ++i) {
            result.vertices.push_back(result_.vertices.size());
            result_.vertices.push_back(raised(turned(start_of(path, i), turn), height));
            result_.size = larger(result_.size, larger(length(start_of(path, i)), magnitude(height)));
        }
        for (std::size_t i = 0; i < count; ++i) {
            brep_edge edge{result.vertices[i], result.vertices[(i + 1) % count], line_curve{}};
            if (const auto* a = std::get_if<arc<double>>(&path.curves[i])) {
                if (!a->is_line()) edge.curve = circle_curve{raised(turned(a->centre, turn), height), a->radius};
            } else {
                edge.curve = raised(std::get<bspline<double>>(path.curves[i]), turn, height);
            }
            result.edges.push_back(result_.edges.size());
            result_.edges.push_back(std::move(edge));
        }
        return result;
    }

    /// The faces between two rings of one path, which on the way up turns by so many radians per length.
    void add_wall(const section_path& path, const brep_ring& low, const brep_ring& high, double twist, wall_side side) {
        const screw motion = screw_between(low.height, high.height, twist, screw_tolerance_);
        screw_deviation_ = larger(screw_deviation_, motion.deviation);
        const std::vector<std::size_t> upright = add_upright_edges(path, low, high, motion);
        const std::size_t count = path.curves.size();
        for (std::size_t i = 0; i < count; ++i) {
            brep_face face;
            face.outward = side == wall_side::solid_inside;
            face.surface = plane_surface{};
            if (const auto* a = std::get_if<arc<double>>(&path.curves[i])) {
                const point<double> middle = a->position(0.5);
                if (a->is_line()) {
                    const point<double> along = (1 / length(a->end - a->start)) * (a->end - a->start);
                    const double sign = face.outward ? 1 : -1;
                    face.surface = plane_surface{
                        raised(turned(a->start, motion.turns.front()), low.height),
                        raised(turned(point<double>{sign * along.y, -sign * along.x}, motion.turns.front()), 0),
                        {0, 0, 1}};
                    face.outward = true;
                } else {
                    const point<double> half_way = turned(middle, middle_turn(motion));
                    face.surface = cylinder_surface{raised(turned(a->centre, motion.turns.front()), low.height),
                                                    (-1 / length(half_way)) * half_way, a->radius};
                }
            } else {
                face.surface = swept(std::get<bspline<double>>(path.curves[i]), low, high, motion);
            }
            face.loops.push_back(wall_loop(low.edges[i], upright[(i + 1) % count], high.edges[i], upright[i], side));
            result_.faces.push_back(std::move(face));
        }
    }

    /// The cones between two rings of arcs of the same angles about the axis.
    void add_cone(const section_path& low_path, const brep_ring& low, const section_path& high_path,
                  const brep_ring& high, wall_side side) {
        const std::vector<std::size_t> upright = add_upright_edges(low_path, low, high, screw{});
        const std::size_t count = low.edges.size();
        for (std::size_t i = 0; i < count; ++i) {
            const arc<double>& a = std::get<arc<double>>(low_path.curves[i]);
            const arc<double>& b = std::get<arc<double>>(high_path.curves[i]);
            const point<double> middle = a.position(0.5);
            brep_face face;
            face.outward = side == wall_side::solid_inside;
            face.surface = cone_surface{{0, 0, low.height},
                                        (-1 / length(middle)) * middle,
                                        a.radius,
                                        (b.radius - a.radius) / (high.height - low.height)};
            face.loops.push_back(wall_loop(low.edges[i], upright[(i + 1) % count], high.edges[i], upright[i], side));
            result_.faces.push_back(std::move(face));
        }
    }

    /// A plane face within a ring; its normal is +z or -z. It may have a hole.
    void add_plane(bool upward, const brep_ring& outer, const brep_ring* hole) {
        brep_face face;
        face.surface = plane_surface{{0, 0, outer.height}, {0, 0, upward ? 1. : -1.}, {1, 0, 0}};
        face.loops.push_back(flat_loop(outer, upward));
        if (hole != nullptr) face.loops.push_back(flat_loop(*hole, !upward));
        result_.faces.push_back(std::move(face));
    }

    /// The solid, whose toothed section strays by so much from the exact one.
    brep finished(double section_deviation) {
        // Turning and placing round each coordinate a few times.
        const double rounding = 64 * epsilon<double>() * result_.size;
        // The screw lengthens or shortens what it turns by no more than its own deviation.
        result_.edge_deviation = result_.size * screw_deviation_ + rounding;
        result_.deviation = section_deviation * (1 + screw_deviation_) + result_.edge_deviation;
        return std::move(result_);
    }

private:
    static point3 raised(const point<double>& p, double height) { return {p.x, p.y, height}; }

    static bspline_curve raised(const bspline<double>& b, const point<double>& turn, double height) {
        bspline_curve result{b.degree, b.knots, {}, b.weights};
        result.control_points.reserve(b.control_points.size());
        for (const point<double>& p : b.control_points)
            result.control_points.push_back(raised(turned(p, turn), height));
        return result;
    }

    static point<double> middle_turn(const screw& motion) {
        if (motion.turns.empty()) return {1, 0};
        const point<double> sum = motion.turns.front() + motion.turns.back();
        return (1 / length(sum)) * sum;
    }

    static std::variant<plane_surface, cylinder_surface, cone_surface, extrusion_surface, bspline_surface>
    swept(const bspline<double>& b, const brep_ring& low, const brep_ring& high, const screw& motion) {
        if (motion.degree == 1)
            return extrusion_surface{raised(b, motion.turns.front(), low.height), high.height - low.height};
        bspline_surface surface{b.degree, motion.degree, b.knots, motion.knots, motion.size(), {}, {}};
        surface.control_points.reserve(b.control_points.size() * motion.size());
        for (const point<double>& p : b.control_points) {
            for (std::size_t k = 0; k < motion.size(); ++k)
                surface.control_points.push_back(raised(turned(p, motion.turns[k]), motion.heights[k]));
        }
        // The screw's basis sums to 1, so the weights are the section's.
        for (const double w : b.weights) surface.weights.insert(surface.weights.end(), motion.size(), w);
        return surface;
    }

    std::vector<std::size_t> add_upright_edges(const section_path& path, const brep_ring& low, const brep_ring& high,
                                               const screw& motion) {
        std::vector<std::size_t> edges;
        for (std::size_t i = 0; i < low.vertices.size(); ++i) {
            brep_edge edge{low.vertices[i], high.vertices[i], line_curve{}};
            if (motion.degree > 1) {
                bspline_curve curve{motion.degree, motion.knots, {}, {}};
                const point<double> p = start_of(path, i);
                for (std::size_t k = 0; k < motion.size(); ++k)
                    curve.control_points.push_back(raised(turned(p, motion.turns[k]), motion.heights[k]));
                edge.curve = std::move(curve);
            }
            edges.push_back(result_.edges.size());
            result_.edges.push_back(std::move(edge));
        }
        return edges;
    }

    static std::vector<brep_edge_use> wall_loop(std::size_t bottom, std::size_t right, std::size_t top,
                                                std::size_t left, wall_side side) {
        if (side == wall_side::solid_inside) return {{bottom, true}, {right, true}, {top, false}, {left, false}};
        return {{left, true}, {top, true}, {right, false}, {bottom, false}};
    }

    static std::vector<brep_edge_use> flat_loop(const brep_ring& ring, bool counter_clockwise) {
        std::vector<brep_edge_use> loop;
        const std::size_t count = ring.edges.size();
        for (std::size_t i = 0; i < count; ++i)
            loop.push_back({ring.edges[counter_clockwise ? i : count - 1 - i], counter_clockwise});
        return loop;
    }

    double screw_tolerance_;
    double screw_deviation_ = 0;
    brep result_;
};

} // namespace rackwork::detail

#endif
