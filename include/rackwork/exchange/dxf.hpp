// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Drawings as DXF (release 2000, text): one gear, or a pair in mesh, in the transverse section.
#ifndef RACKWORK_EXCHANGE_DXF_HPP
#define RACKWORK_EXCHANGE_DXF_HPP

#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../curve/bspline.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "../mesh.hpp"
#include "arc_polyline.hpp"
#include "dxf_curves.hpp"
#include "dxf_frame.hpp"
#include "length_unit.hpp"
#include "placement.hpp"

#include <cstddef>
#include <optional>
#include <ostream>
#include <string_view>
#include <variant>
#include <vector>

namespace rackwork {

/// What can be chosen about a DXF drawing.
struct dxf_options {
    /// Greatest distance between the exact outline and the drawn one, a length. A thousandth of the normal module unless stated.
    std::optional<double> tolerance{};
    /// The unit of the gear's lengths; the file states it and keeps the numbers as they are.
    length_unit unit = length_unit::millimetre;
    dxf_curves curves = dxf_curves::polyline;
    /// Degree of splines: 3, which every program draws; with 5 or 7 they need fewer control points.
    int degree = 3;
    /// Whether the lands among splines are arcs or rational splines, for programs that want nothing else.
    arc_form arcs = arc_form::arc;
};

namespace detail {

/// What a DXF drawing shows: closed curves on layers of their own, and circles and axes on the construction layer.
struct dxf_content {
    struct outline {
        std::string_view layer;
        std::variant<arc_polyline<double>, dxf_chain> curve;
        /// Of the outline, chord by chord: what splines need more is within the tolerance.
        bounding_box<double> extent;
    };
    struct pitch_circle {
        point<double> centre;
        double diameter;
    };
    std::vector<outline> outlines;
    std::vector<pitch_circle> circles;
    std::vector<point<double>> axes;
};

inline void write_dxf_drawing(std::ostream& stream, const dxf_content& content, length_unit unit, double module) {
    constexpr std::string_view construction = "CONSTRUCTION";
    std::vector<dxf_layer> layers{{"0", 7, 25, "Continuous"}, {construction, 8, 18, dxf_centre_line}};
    for (const dxf_content::outline& o : content.outlines) layers.push_back({o.layer, 7, 35, "Continuous"});

    const point<double> cross_x{module, 0};
    const point<double> cross_y{0, module};
    bounding_box<double> extent = content.outlines.front().extent;
    for (const dxf_content::outline& o : content.outlines) {
        extent.include(o.extent.lowest);
        extent.include(o.extent.highest);
    }
    for (const dxf_content::pitch_circle& c : content.circles) extent.include_circle(c.centre, c.diameter / 2);
    for (const point<double>& axis : content.axes) extent.include_circle(axis, module);

    const unsigned first = dxf_first_free + static_cast<unsigned>(layers.size());
    std::size_t entities = content.circles.size() + 3 * content.axes.size();
    for (const dxf_content::outline& o : content.outlines) {
        const dxf_chain* chain = std::get_if<dxf_chain>(&o.curve);
        entities += chain == nullptr ? 1 : chain->size();
    }
    const dxf_drawing drawing{unit, layers, extent, module, first + static_cast<unsigned>(entities)};

    dxf_groups_output out(stream);
    write_dxf_header(out, drawing);
    write_dxf_tables(out, drawing);
    write_dxf_blocks(out);

    unsigned own = first;
    out.begin_section("ENTITIES");
    for (const dxf_content::outline& o : content.outlines) {
        if (const dxf_chain* chain = std::get_if<dxf_chain>(&o.curve)) {
            for (const auto& curve : *chain) {
                std::visit([&](const auto& c) { write_dxf_entity(out, own++, o.layer, c); }, curve);
            }
            continue;
        }
        const std::vector<arc_vertex<double>>& vertices = std::get<arc_polyline<double>>(o.curve).vertices;
        out.begin_entity("LWPOLYLINE", own++, o.layer).text(100, "AcDbPolyline");
        out.whole(90, static_cast<int>(vertices.size())).whole(70, 1).real(43, 0);
        for (const arc_vertex<double>& v : vertices) {
            out.flat(10, v.position);
            if (v.bulge != 0) out.real(42, v.bulge);
        }
    }
    for (const dxf_content::pitch_circle& c : content.circles) {
        out.begin_entity("CIRCLE", own++, construction).text(100, "AcDbCircle").spatial(10, c.centre).real(40, c.diameter / 2);
    }
    for (const point<double>& axis : content.axes) {
        out.begin_entity("POINT", own++, construction).text(100, "AcDbPoint").spatial(10, axis);
        for (const point<double>& arm : {cross_x, cross_y}) {
            out.begin_entity("LINE", own++, construction).text(100, "AcDbLine").spatial(10, axis - arm).spatial(11, axis + arm);
        }
    }
    out.end_section();

    write_dxf_objects(out, drawing);
    out.text(0, "EOF");
    out.finish();
}

/// An outline in its place.
inline dxf_content::outline dxf_outline_of(std::string_view layer, const outline<double>& exact, double tolerance,
                                           const dxf_options& options, const placement<double>& where) {
    const arc_polyline<double> chords = placed(drawn_outline(exact, tolerance), where);
    const bounding_box<double> extent = bounding_box_of(chords);
    if (options.curves == dxf_curves::polyline) return {layer, chords, extent};
    return {layer, drawn_chain(exact, tolerance, options.curves, options.degree, options.arcs, where), extent};
}

} // namespace detail

/// Writes one gear with a root of it, as its tool has made it: its outline as one closed polyline on the layer GEAR, tip and root lands as
/// true arcs, flanks and fillets as chords with their ends on the exact curve to the last digit; on the layer CONSTRUCTION the reference circle and a cross and a point on the
/// axis. Tooth 0 is on the x axis.
///
/// As options have it, the outline consists of lines and arcs with common tangents instead, or of splines and arcs, one after another
/// on the layer, none farther from the exact outline than the tolerance; where two meet, the ends of splines and lines are the same to the
/// last digit, those of arcs to rounding, because the format gives these by their angles.
/// Throws geometry_error as outline_of, arc_polyline_of, biarcs_of and bsplines_of do, before the first byte; std::ios_base::failure unless
/// the stream has taken every byte (without exceptions the program ends).
inline void write_dxf(std::ostream& stream, const gear<double>& g, const generated_root<double>& root, const dxf_options& options = {}) {
    const double tolerance = options.tolerance.value_or(g.normal_module() / 1000);
    detail::dxf_content content;
    content.outlines.push_back(detail::dxf_outline_of("GEAR", outline_of(g, root), tolerance, options, {}));
    content.circles.push_back({{0, 0}, g.reference_diameter()});
    content.axes.push_back({0, 0});
    detail::write_dxf_drawing(stream, content, options.unit, g.normal_module());
}

/// The same with the root that the customary tool makes. Throws geometry_error also as generated_root does.
inline void write_dxf(std::ostream& stream, const gear<double>& g, const dxf_options& options = {}) {
    write_dxf(stream, g, generated_root<double>(g), options);
}

/// Writes a pair in mesh as placement_in_mesh puts it: the outlines, with the roots that the pair's tools make, on the layers PINION and
/// WHEEL; on the layer CONSTRUCTION the reference circles, the working pitch circles where these are others, and the axes. Throws as for one gear.
inline void write_dxf(std::ostream& stream, const mesh<double>& pair, const dxf_options& options = {}) {
    const double tolerance = options.tolerance.value_or(pair.pinion().normal_module() / 1000);
    const for_both<placement<double>> place = placement_in_mesh(pair);
    const for_both<double> working = pair.working_diameter();
    detail::dxf_content content;
    const auto add = [&](std::string_view layer, const gear<double>& g, const generated_root<double>& root,
                         const placement<double>& where, double working_diameter) {
        content.outlines.push_back(detail::dxf_outline_of(layer, outline_of(g, root), tolerance, options, where));
        content.circles.push_back({where.centre, g.reference_diameter()});
        // Two circles that differ by less than the outline's own tolerance would only hide each other.
        if (magnitude(working_diameter - g.reference_diameter()) > 2 * tolerance) {
            content.circles.push_back({where.centre, working_diameter});
        }
        content.axes.push_back(where.centre);
    };
    add("PINION", pair.pinion(), pair.pinion_root(), place.pinion, working.pinion);
    add("WHEEL", pair.wheel(), pair.wheel_root(), place.wheel, working.wheel);
    detail::write_dxf_drawing(stream, content, options.unit, pair.pinion().normal_module());
}

} // namespace rackwork

#endif
