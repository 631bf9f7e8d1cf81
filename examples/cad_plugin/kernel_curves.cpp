// Example cad_plugin: our curves as a kernel's own.
#include "kernel_curves.hpp"

#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeVertex.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <GC_MakeSegment.hxx>
#include <Geom_BSplineCurve.hxx>
#include <Geom_TrimmedCurve.hxx>
#include <TColStd_Array1OfInteger.hxx>
#include <TColStd_Array1OfReal.hxx>
#include <TColgp_Array1OfPnt.hxx>
#include <TopoDS_Vertex.hxx>

#include <stdexcept>
#include <variant>
#include <vector>

namespace cad_plugin {

namespace {

gp_Pnt in_space(const rackwork::point<double>& p) { return {p.x, p.y, 0}; }

template <class Value>
int count(const std::vector<Value>& values) {
    return static_cast<int>(values.size());
}

} // namespace

Handle(Geom_Curve) kernel_curve(const rackwork::bspline<double>& spline) {
    TColgp_Array1OfPnt poles(1, count(spline.control_points));
    int i = 0;
    for (const auto& p : spline.control_points) poles(++i) = in_space(p);

    // The kernel wants each knot once, with how often it is there.
    std::vector<double> knots;
    std::vector<int> repeated;
    for (const double knot : spline.knots) {
        if (knots.empty() || knots.back() != knot) {
            knots.push_back(knot);
            repeated.push_back(0);
        }
        ++repeated.back();
    }
    const TColStd_Array1OfReal each(knots.front(), 1, count(knots));
    const TColStd_Array1OfInteger times(repeated.front(), 1, count(repeated));
    if (spline.weights.empty()) return new Geom_BSplineCurve(poles, each, times, spline.degree);
    const TColStd_Array1OfReal weights(spline.weights.front(), 1, count(spline.weights));
    return new Geom_BSplineCurve(poles, weights, each, times, spline.degree);
}

Handle(Geom_Curve) kernel_curve(const rackwork::arc<double>& arc) {
    if (arc.is_line()) return Handle(Geom_Curve)(GC_MakeSegment(in_space(arc.start), in_space(arc.end)).Value());
    return Handle(Geom_Curve)(
        GC_MakeArcOfCircle(in_space(arc.start), in_space(arc.position(0.5)), in_space(arc.end)).Value());
}

TopoDS_Face kernel_face(const rackwork::bspline_path<double>& path) {
    if (!path.closed) throw std::invalid_argument("only a closed path has an area");
    // Each curve begins in the very point in which the one before it ends: one vertex for both.
    std::vector<TopoDS_Vertex> vertices;
    for (const auto& curve : path.curves) {
        std::visit([&](const auto& c) { vertices.push_back(BRepBuilderAPI_MakeVertex(kernel_curve(c)->Value(kernel_curve(c)->FirstParameter()))); },
                   curve);
    }
    BRepBuilderAPI_MakeWire wire;
    for (std::size_t i = 0; i < path.curves.size(); ++i) {
        const TopoDS_Vertex& end = vertices[i + 1 == vertices.size() ? 0 : i + 1];
        std::visit([&](const auto& c) { wire.Add(BRepBuilderAPI_MakeEdge(kernel_curve(c), vertices[i], end).Edge()); }, path.curves[i]);
    }
    return BRepBuilderAPI_MakeFace(wire.Wire(), true).Face();
}

} // namespace cad_plugin
