// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A solid's points, curves, edges, surfaces and faces as entities of ISO 10303-42.
#ifndef RACKWORK_EXCHANGE_STEP_BREP_HPP
#define RACKWORK_EXCHANGE_STEP_BREP_HPP

#include "../solid/brep.hpp"
#include "step_text.hpp"

#include <cmath>
#include <cstddef>
#include <string_view>
#include <variant>
#include <vector>

namespace rackwork::detail {

class step_brep_writer {
public:
    explicit step_brep_writer(step_entities& out) : out_(out) { up_ = direction({0, 0, 1}); }

    /// Writes a solid; returns the number of its MANIFOLD_SOLID_BREP.
    std::size_t write(const brep& solid, std::string_view quoted_name) {
        std::vector<std::size_t> points;
        std::vector<std::size_t> vertices;
        for (const point3& p : solid.vertices) {
            points.push_back(point(p));
            vertices.push_back(out_.begin("VERTEX_POINT('',").reference(points.back()).words(")").end());
        }
        std::vector<std::size_t> edges;
        for (const brep_edge& e : solid.edges) {
            const std::size_t curve = std::visit([&](const auto& c) { return curve_of(c, e, solid, points); }, e.curve);
            edges.push_back(out_.begin("EDGE_CURVE('',")
                                .reference(vertices[e.first])
                                .words(",")
                                .reference(vertices[e.second])
                                .words(",")
                                .reference(curve)
                                .words(",.T.)")
                                .end());
        }
        std::vector<std::size_t> faces;
        for (const brep_face& f : solid.faces) faces.push_back(face(f, edges));
        out_.begin("CLOSED_SHELL('',(");
        list(faces);
        const std::size_t shell = out_.words("))").end();
        return out_.begin("MANIFOLD_SOLID_BREP(").words(quoted_name).words(",").reference(shell).words(")").end();
    }

    /// The coordinate system of the whole.
    std::size_t axes() { return placement({0, 0, 0}, up_, direction({1, 0, 0})); }

private:
    std::size_t triple(std::string_view entity, const point3& p) {
        return out_.begin(entity).words("('',(").real(p.x).words(",").real(p.y).words(",").real(p.z).words("))").end();
    }
    std::size_t point(const point3& p) { return triple("CARTESIAN_POINT", p); }
    std::size_t direction(const point3& d) { return triple("DIRECTION", d); }
    std::size_t vector(const point3& along, double magnitude) {
        const std::size_t d = direction(along);
        return out_.begin("VECTOR('',").reference(d).words(",").real(magnitude).words(")").end();
    }
    std::size_t placement(const point3& origin, std::size_t axis, std::size_t reference) {
        const std::size_t o = point(origin);
        return out_.begin("AXIS2_PLACEMENT_3D('',")
            .reference(o)
            .words(",")
            .reference(axis)
            .words(",")
            .reference(reference)
            .words(")")
            .end();
    }
    std::size_t upright_placement(const point3& origin, const rackwork::point<double>& reference) {
        const std::size_t r = direction({reference.x, reference.y, 0});
        return placement(origin, up_, r);
    }

    void list(const std::vector<std::size_t>& entities) {
        for (std::size_t i = 0; i < entities.size(); ++i) out_.words(i == 0 ? "" : ",").reference(entities[i]);
    }

    /// Multiplicities and values of knots, between commas.
    void multiplicities(const std::vector<double>& knots) {
        out_.words("(");
        for (std::size_t i = 0; i < knots.size();) {
            std::size_t j = i;
            while (j < knots.size() && knots[j] == knots[i]) ++j;
            out_.words(i == 0 ? "" : ",").whole(j - i);
            i = j;
        }
        out_.words(")");
    }
    void different(const std::vector<double>& knots) {
        out_.words("(");
        for (std::size_t i = 0; i < knots.size(); ++i) {
            if (i > 0 && knots[i] == knots[i - 1]) continue;
            out_.words(i == 0 ? "" : ",").real(knots[i]);
        }
        out_.words(")");
    }

    std::size_t curve_of(const line_curve&, const brep_edge& e, const brep& solid,
                         const std::vector<std::size_t>& points) {
        const point3 chord = solid.vertices[e.second] - solid.vertices[e.first];
        const double size = length(chord);
        const std::size_t along = vector((1 / size) * chord, 1);
        return out_.begin("LINE('',").reference(points[e.first]).words(",").reference(along).words(")").end();
    }
    std::size_t curve_of(const circle_curve& c, const brep_edge& e, const brep& solid,
                         const std::vector<std::size_t>&) {
        // The angle round the circle begins where the edge does.
        const point3 radial = solid.vertices[e.first] - c.centre;
        const double size = std::hypot(radial.x, radial.y);
        const std::size_t where = upright_placement(c.centre, {radial.x / size, radial.y / size});
        return out_.begin("CIRCLE('',").reference(where).words(",").real(c.radius).words(")").end();
    }
    std::size_t curve_of(const bspline_curve& c, const brep_edge&, const brep&, const std::vector<std::size_t>&) {
        return spline(c);
    }

    std::size_t control_points(const std::vector<point3>& points) {
        std::size_t last = 0;
        for (const point3& p : points) last = point(p);
        return last + 1 - points.size();
    }

    void weights(const double* first, std::size_t count) {
        for (std::size_t i = 0; i < count; ++i) out_.words(i == 0 ? "(" : ",").real(first[i]);
        out_.words(")");
    }

    std::size_t spline(const bspline_curve& c) {
        const std::size_t first = control_points(c.control_points);
        const bool rational = !c.weights.empty();
        out_.begin(rational ? "(BOUNDED_CURVE()B_SPLINE_CURVE(" : "B_SPLINE_CURVE_WITH_KNOTS('',");
        out_.whole(static_cast<std::size_t>(c.degree)).words(",(").references(first, c.control_points.size());
        out_.words(rational ? "),.UNSPECIFIED.,.F.,.F.)B_SPLINE_CURVE_WITH_KNOTS(" : "),.UNSPECIFIED.,.F.,.F.,");
        multiplicities(c.knots);
        out_.words(",");
        different(c.knots);
        out_.words(",.UNSPECIFIED.)");
        if (rational) {
            out_.words("CURVE()GEOMETRIC_REPRESENTATION_ITEM()RATIONAL_B_SPLINE_CURVE(");
            weights(c.weights.data(), c.weights.size());
            out_.words(")REPRESENTATION_ITEM(''))");
        }
        return out_.end();
    }

    std::size_t surface_of(const plane_surface& s) {
        const std::size_t axis = direction(s.normal);
        const std::size_t reference = direction(s.reference);
        const std::size_t where = placement(s.origin, axis, reference);
        return out_.begin("PLANE('',").reference(where).words(")").end();
    }
    std::size_t surface_of(const cylinder_surface& s) {
        const std::size_t where = upright_placement(s.centre, s.reference);
        return out_.begin("CYLINDRICAL_SURFACE('',").reference(where).words(",").real(s.radius).words(")").end();
    }
    std::size_t surface_of(const cone_surface& s) {
        // The half angle must be positive: of a cone that narrows upward the axis points down.
        const std::size_t axis = s.slope < 0 ? direction({0, 0, -1}) : up_;
        const std::size_t reference = direction({s.reference.x, s.reference.y, 0});
        const std::size_t where = placement(s.centre, axis, reference);
        return out_.begin("CONICAL_SURFACE('',")
            .reference(where)
            .words(",")
            .real(s.radius)
            .words(",")
            .real(std::atan(std::abs(s.slope)))
            .words(")")
            .end();
    }
    std::size_t surface_of(const extrusion_surface& s) {
        const std::size_t curve = spline(s.curve);
        const std::size_t sweep = vector({0, 0, 1}, s.height);
        return out_.begin("SURFACE_OF_LINEAR_EXTRUSION('',")
            .reference(curve)
            .words(",")
            .reference(sweep)
            .words(")")
            .end();
    }
    std::size_t surface_of(const bspline_surface& s) {
        const std::size_t first = control_points(s.control_points);
        const bool rational = !s.weights.empty();
        out_.begin(rational ? "(BOUNDED_SURFACE()B_SPLINE_SURFACE(" : "B_SPLINE_SURFACE_WITH_KNOTS('',");
        out_.whole(static_cast<std::size_t>(s.degree_along)).words(",").whole(static_cast<std::size_t>(s.degree_across));
        out_.words(",(");
        for (std::size_t i = 0; i < s.control_points.size(); i += s.across) {
            out_.words(i == 0 ? "(" : ",(").references(first + i, s.across).words(")");
        }
        out_.words(rational ? "),.UNSPECIFIED.,.F.,.F.,.F.)B_SPLINE_SURFACE_WITH_KNOTS(" : "),.UNSPECIFIED.,.F.,.F.,.F.,");
        multiplicities(s.knots_along);
        out_.words(",");
        multiplicities(s.knots_across);
        out_.words(",");
        different(s.knots_along);
        out_.words(",");
        different(s.knots_across);
        out_.words(",.UNSPECIFIED.)");
        if (rational) {
            out_.words("GEOMETRIC_REPRESENTATION_ITEM()RATIONAL_B_SPLINE_SURFACE((");
            for (std::size_t i = 0; i < s.weights.size(); i += s.across) {
                if (i > 0) out_.words(",");
                weights(&s.weights[i], s.across);
            }
            out_.words("))REPRESENTATION_ITEM('')SURFACE())");
        }
        return out_.end();
    }

    std::size_t face(const brep_face& f, const std::vector<std::size_t>& edges) {
        const std::size_t surface = std::visit([&](const auto& s) { return surface_of(s); }, f.surface);
        std::vector<std::size_t> bounds;
        for (const std::vector<brep_edge_use>& uses : f.loops) {
            std::vector<std::size_t> oriented;
            for (const brep_edge_use& u : uses) {
                oriented.push_back(out_.begin("ORIENTED_EDGE('',*,*,")
                                       .reference(edges[u.edge])
                                       .words(u.forward ? ",.T.)" : ",.F.)")
                                       .end());
            }
            const std::size_t loop =
                out_.begin("EDGE_LOOP('',(").references(oriented.front(), oriented.size()).words("))").end();
            bounds.push_back(out_.begin(bounds.empty() ? "FACE_OUTER_BOUND('',#" : "FACE_BOUND('',#")
                                 .whole(loop)
                                 .words(",.T.)")
                                 .end());
        }
        out_.begin("ADVANCED_FACE('',(");
        list(bounds);
        return out_.words("),").reference(surface).words(f.outward ? ",.T.)" : ",.F.)").end();
    }

    step_entities& out_;
    std::size_t up_ = 0;
};

} // namespace rackwork::detail

#endif
