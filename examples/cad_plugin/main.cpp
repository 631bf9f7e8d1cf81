// Example cad_plugin: a gear as a shape of a kernel, built from exact numbers. The kernel is Open CASCADE; the gear is the drum gear of a
// hand loom, 24 teeth of module 3. Nothing is sampled: flanks and fillets are B-splines with a proven deviation, lands are arcs.
#include "kernel_curves.hpp"

#include <rackwork/form/outline.hpp>
#include <rackwork/gear.hpp>

#include <BRepAlgoAPI_Cut.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepGProp.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <GProp_GProps.hxx>
#include <Standard_Failure.hxx>
#include <TopExp.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <gp_Vec.hxx>

#include <cmath>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <variant>

namespace {

int count(const TopoDS_Shape& shape, TopAbs_ShapeEnum kind) {
    TopTools_IndexedMapOfShape found;
    TopExp::MapShapes(shape, kind, found);
    return found.Extent();
}

} // namespace

int main() {
    try {
        const rackwork::gear<double> drum_gear({.normal_module = 3, .teeth = 24, .profile_shift = 0.15, .thickness_allowance = -0.05});
        const double width = 20;
        const double bore = 25;

        // Curves: 10^-5 mm is finer than what the kernel itself takes for the same point in most of its work.
        const auto outline = rackwork::outline_of(drum_gear);
        const auto path = rackwork::bsplines_of(outline, 1e-5, {.degree = 5, .arcs = rackwork::arc_form::arc});
        std::size_t control_points = 0;
        for (const auto& curve : path.curves) {
            if (const auto* spline = std::get_if<rackwork::bspline<double>>(&curve)) control_points += spline->control_points.size();
        }
        std::cout << "Outline: " << path.curves.size() << " curves, " << control_points / 24 << " control points for each tooth, off by "
                  << path.deviation << " mm at most\n";

        // Edges, wire, face, prism; then the bore.
        const TopoDS_Shape blank = BRepPrimAPI_MakePrism(cad_plugin::kernel_face(path), gp_Vec(0, 0, width)).Shape();
        const TopoDS_Shape part = BRepAlgoAPI_Cut(blank, BRepPrimAPI_MakeCylinder(bore / 2, width).Shape()).Shape();

        const bool valid = BRepCheck_Analyzer(part).IsValid();
        GProp_GProps properties;
        BRepGProp::VolumeProperties(part, properties, 1e-9);
        const double exact = (outline.area() - rackwork::pi<double>() / 4 * bore * bore) * width;
        const double off = std::abs(properties.Mass() / exact - 1);
        const int solids = count(part, TopAbs_SOLID);
        std::cout << "Shape: " << solids << " solid, " << count(part, TopAbs_FACE) << " faces, " << count(part, TopAbs_EDGE) << " edges; "
                  << (valid ? "valid" : "NOT VALID") << "\nVolume: " << properties.Mass() << " mm^3, off by " << off
                  << " of the exact area times the width\n";
        if (!valid || solids != 1 || off > 1e-6) {
            std::cerr << "cad_plugin: the shape is not what it should be\n";
            return EXIT_FAILURE;
        }
        return EXIT_SUCCESS;
    } catch (const Standard_Failure& failure) {
        std::cerr << "cad_plugin: " << failure.GetMessageString() << '\n';
    } catch (const std::exception& error) {
        std::cerr << "cad_plugin: " << error.what() << '\n';
    }
    return EXIT_FAILURE;
}
