// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Builds a solid from rings of edges square to the axis, the walls between them and the plane faces that they bound.
#ifndef RACKWORK_SOLID_BREP_BUILDER_HPP
#define RACKWORK_SOLID_BREP_BUILDER_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../core/root_finding.hpp"
#include "../curve/arc.hpp"
#include "../curve/bspline.hpp"
#include "brep.hpp"
#include "end_chamfer.hpp"
#include "screw.hpp"
#include "section_path.hpp"
#include "tip_chamfer.hpp"
#include "trimmed_edge.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <variant>
#include <vector>

namespace rackwork::detail {

class brep_builder {
public:
    using ring = brep_ring;
    using tooth_section = section_path;

    /// With a tolerance for screw_between, a share of the radius; one for edges on chamfers, a length; and their degree: 3, 5 or 7.
    brep_builder(double screw_tolerance, double edge_tolerance, int degree)
        : screw_tolerance_(screw_tolerance), edge_tolerance_(edge_tolerance), degree_(degree) {}

    /// Into how many layers a wall is shared out that turns by so many radians: of at most one each, so that no face goes round the axis,
    /// unless the chamfer at an end is deeper than such a layer.
    int layers(const section_path&, double turning, double height, double chamfer_depth) const {
        const int count = 1 + whole_part(magnitude(turning));
        if (chamfer_depth == 0) return count;
        return static_cast<int>(smaller(static_cast<double>(count), larger(1., std::floor(height / chamfer_depth))));
    }

    /// The ring after so many layers of a wall.
    brep_ring add_ring_between(const section_path& path, double twist, const brep_ring& low, const brep_ring& high, int layer,
                               int layers) {
        const double height = low.height + (high.height - low.height) * layer / layers;
        return add_ring(path, direction(twist * height), height);
    }

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

    /// The rings at an end with a chamfer, of a path that turns by so many radians per length, and the chamfer's faces. Some of the path must reach
    /// the plane end. Its curves are lands, straight lines and splines along which the radius grows or falls.
    chamfered_end<brep_ring> add_chamfered_end(const section_path& path, double twist, const end_chamfer& chamfer,
                                               wall_side side) {
        chamfered_end<brep_ring> result;
        trimmed_edge_fitter fitter(chamfer, twist, degree_, edge_tolerance_);
        const std::vector<end_piece> pieces = add_end_pieces(path, fitter, twist, chamfer, result.wall);
        edge_deviation_ = larger(edge_deviation_, fitter.deviation());
        result.face.height = chamfer.end_height;
        std::size_t start = 0;
        while (start < pieces.size() && !pieces[start].begins_at_end) ++start;
        std::vector<brep_edge_use> on_cone;
        std::size_t first = 0;
        for (std::size_t n = 0; n < pieces.size(); ++n) {
            const end_piece& piece = pieces[(start + n) % pieces.size()];
            const brep_edge& edge = result_.edges[piece.edge];
            const std::size_t last = edge.second;
            if (piece.begins_at_end) first = edge.first;
            if (piece.on_cone) on_cone.push_back({piece.edge, true});
            if (!piece.ends_at_end) continue;
            result.face.vertices.push_back(first);
            if (!piece.on_cone) {
                result.face.edges.push_back(piece.edge);
                continue;
            }
            result.face.edges.push_back(result_.edges.size());
            result_.edges.push_back({first, last, circle_curve{{0, 0, chamfer.end_height}, chamfer.end_radius}});
            add_chamfer_face(chamfer, std::move(on_cone), result.face.edges.back(), side);
            on_cone.clear();
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
            face.loops.push_back(wall_loop(low, high, i, upright[(i + 1) % count], upright[i], side));
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
            face.loops.push_back(wall_loop(low, high, i, upright[(i + 1) % count], upright[i], side));
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

    /// The solid, whose toothed section strays by so much from the exact one, with the chamfer of its tips, and that of its bore moved by so much.
    brep finished(double section_deviation, const tip_chamfer& chamfer, double bore_settled) {
        // Turning and placing round each coordinate a few times.
        const double rounding = 64 * epsilon<double>() * result_.size;
        // The screw lengthens or shortens what it turns by no more than its own deviation.
        const double of_screw = result_.size * screw_deviation_ + rounding;
        const double of_flank = section_deviation * (1 + screw_deviation_) + of_screw;
        result_.edge_deviation = of_screw + edge_deviation_;
        // A bore's chamfer is under 45 degrees and cuts planes along the axis.
        result_.deviation = of_flank * chamfer.of_flank + edge_deviation_ * larger(2., chamfer.of_cone) +
                            larger(chamfer.settled, 2 * bore_settled);
        return std::move(result_);
    }

private:
    /// An edge at an end with a chamfer.
    struct end_piece {
        std::size_t edge = 0;
        bool on_cone = false;
        bool begins_at_end = false; ///< in the plane of the end, not below it
        bool ends_at_end = false;
    };

    std::vector<end_piece> add_end_pieces(const section_path& path, trimmed_edge_fitter& fitter, double twist,
                                          const end_chamfer& chamfer, brep_ring& wall) {
        const double height = chamfer.end_height;
        const point<double> turn = direction(twist * height);
        const std::size_t count = path.curves.size();
        wall.height = height;
        std::vector<int> sides;
        for (std::size_t i = 0; i < count; ++i) {
            const point<double> p = start_of(path, i);
            sides.push_back(chamfer.side(length(p)));
            wall.vertices.push_back(add_vertex(sides.back() > 0 ? fitter.raised(p) : raised(turned(p, turn), height)));
        }
        std::vector<end_piece> pieces;
        const auto add = [&](std::size_t from, std::size_t to, auto curve, bool on_cone, bool begins, bool ends) {
            wall.edges.push_back(result_.edges.size());
            pieces.push_back({result_.edges.size(), on_cone, begins, ends});
            result_.edges.push_back({from, to, std::move(curve)});
        };
        const auto add_on_cone = [&](std::size_t from, std::size_t to, const clamped_spline& part, bool begins, bool ends) {
            bspline_curve curve = fitter.edge(part);
            curve.control_points.front() = result_.vertices[from];
            curve.control_points.back() = result_.vertices[to];
            add(from, to, std::move(curve), true, begins, ends);
        };
        const auto add_in_plane = [&](std::size_t from, std::size_t to, clamped_spline part, bool rational) {
            bspline_curve curve{part.degree, std::move(part.knots), {}, {}};
            for (const point3& p : part.points) {
                curve.control_points.push_back(raised(turned(point<double>{p.x / p.z, p.y / p.z}, turn), height));
                if (rational) curve.weights.push_back(p.z);
            }
            curve.control_points.front() = result_.vertices[from];
            curve.control_points.back() = result_.vertices[to];
            add(from, to, std::move(curve), false, true, true);
        };
        for (std::size_t i = 0; i < count; ++i) {
            wall.first_edges.push_back(wall.edges.size());
            const std::size_t from = wall.vertices[i];
            const std::size_t to = wall.vertices[(i + 1) % count];
            const int first = sides[i];
            const int last = sides[(i + 1) % count];
            const auto* flat = std::get_if<arc<double>>(&path.curves[i]);
            if (flat != nullptr && !flat->is_line()) {
                const bool cut = first > 0;
                add(from, to, circle_curve{{0, 0, result_.vertices[from].z}, flat->radius}, cut, !cut, !cut);
                continue;
            }
            if (first <= 0 && last <= 0) {
                if (flat != nullptr) {
                    add(from, to, line_curve{}, false, true, true);
                } else {
                    add(from, to, raised(std::get<bspline<double>>(path.curves[i]), turn, height), false, true, true);
                }
                continue;
            }
            const clamped_spline curve = homogeneous(path.curves[i]);
            if (first * last >= 0) {
                add_on_cone(from, to, curve, first <= 0, last <= 0);
                continue;
            }
            const double u = bracketed_root(
                [&](double parameter) { return length(plane_position(curve, parameter)) - chamfer.end_radius; }, 0., 1.);
            const std::size_t middle = add_vertex(raised(turned(plane_position(curve, u), turn), height));
            const bool rational = flat == nullptr && !std::get<bspline<double>>(path.curves[i]).weights.empty();
            const auto in_plane = [&](std::size_t a, std::size_t b, double low, double high) {
                if (flat != nullptr) {
                    add(a, b, line_curve{}, false, true, true);
                } else {
                    add_in_plane(a, b, part_of(curve, low, high), rational);
                }
            };
            if (first < 0) {
                in_plane(from, middle, 0, u);
                add_on_cone(middle, to, part_of(curve, u, 1), true, false);
            } else {
                add_on_cone(from, middle, part_of(curve, 0, u), false, true);
                in_plane(middle, to, u, 1);
            }
        }
        return pieces;
    }

    /// The part of a chamfer's cone between edges that follow one another along a path and the arc in the end from their start to
    /// their end.
    void add_chamfer_face(const end_chamfer& chamfer, std::vector<brep_edge_use> on_cone, std::size_t arc_at_end,
                          wall_side side) {
        const bool forward = chamfer.upper == (side == wall_side::solid_inside);
        const point3& a = result_.vertices[result_.edges[arc_at_end].first];
        const point3& b = result_.vertices[result_.edges[arc_at_end].second];
        const point<double> from{a.x, a.y};
        const point<double> to{b.x, b.y};
        double turning = std::atan2(cross(from, to), dot(from, to));
        if (turning <= 0) turning += 2 * pi<double>();
        const point<double> middle = turned(from, turning / 2);
        brep_face face;
        face.outward = side == wall_side::solid_inside;
        face.surface = cone_surface{
            {0, 0, chamfer.end_height}, (-1 / length(middle)) * middle, chamfer.end_radius, chamfer.slope()};
        if (!forward) {
            std::reverse(on_cone.begin(), on_cone.end());
            for (brep_edge_use& use : on_cone) use.forward = false;
        }
        on_cone.push_back({arc_at_end, !forward});
        face.loops.push_back(std::move(on_cone));
        result_.faces.push_back(std::move(face));
    }

    std::size_t add_vertex(const point3& p) {
        result_.size = larger(result_.size, larger(std::hypot(p.x, p.y), magnitude(p.z)));
        result_.vertices.push_back(p);
        return result_.vertices.size() - 1;
    }

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
                clamped_spline curve{motion.degree, motion.knots, {}};
                const point<double> p = start_of(path, i);
                for (std::size_t k = 0; k < motion.size(); ++k)
                    curve.points.push_back(raised(turned(p, motion.turns[k]), motion.heights[k]));
                // The height is proportional to the parameter.
                const point3& begin = result_.vertices[edge.first];
                const point3& end = result_.vertices[edge.second];
                if (begin.z != low.height || end.z != high.height) {
                    const double height = high.height - low.height;
                    curve = part_of(std::move(curve), (begin.z - low.height) / height, 1 - (high.height - end.z) / height);
                    curve.points.front() = begin;
                    curve.points.back() = end;
                }
                edge.curve = bspline_curve{curve.degree, std::move(curve.knots), std::move(curve.points), {}};
            }
            edges.push_back(result_.edges.size());
            result_.edges.push_back(std::move(edge));
        }
        return edges;
    }

    static std::vector<brep_edge_use> wall_loop(const brep_ring& low, const brep_ring& high, std::size_t curve,
                                                std::size_t right, std::size_t left, wall_side side) {
        std::vector<brep_edge_use> loop;
        const bool inside = side == wall_side::solid_inside;
        const auto append = [&](const brep_ring& ring, bool forward) {
            const std::size_t from = ring.edges_from(curve);
            const std::size_t to = ring.edges_to(curve);
            for (std::size_t k = from; k < to; ++k)
                loop.push_back({ring.edges[forward ? k : from + to - 1 - k], forward});
        };
        append(inside ? low : high, true);
        loop.push_back({right, inside});
        append(inside ? high : low, false);
        loop.push_back({left, !inside});
        return loop;
    }

    static std::vector<brep_edge_use> flat_loop(const brep_ring& ring, bool counter_clockwise) {
        std::vector<brep_edge_use> loop;
        const std::size_t count = ring.edges.size();
        for (std::size_t i = 0; i < count; ++i)
            loop.push_back({ring.edges[counter_clockwise ? i : count - 1 - i], counter_clockwise});
        return loop;
    }

    double screw_tolerance_;
    double edge_tolerance_;
    int degree_;
    double screw_deviation_ = 0;
    double edge_deviation_ = 0; // of edges on chamfers
    brep result_;
};

} // namespace rackwork::detail

#endif
