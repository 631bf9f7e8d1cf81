// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A STEP file as Open CASCADE reads it.
#pragma once

#include <rackwork/exchange/step.hpp>
#include <rackwork/solid/brep.hpp>

#include <BRepCheck_Analyzer.hxx>
#include <BRepGProp.hxx>
#include <BRep_Tool.hxx>
#include <GProp_GProps.hxx>
#include <STEPControl_Reader.hxx>
#include <TopAbs_ShapeEnum.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedDataMapOfShapeListOfShape.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Shape.hxx>

#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace occt {

template <class Solids>
std::string step(const Solids& solids, const rackwork::step_options& options = {}) {
    std::ostringstream out;
    rackwork::write_step(out, solids, options);
    return out.str();
}

/// The shape in a STEP file, in millimetres.
inline TopoDS_Shape read(const std::string& file) {
    STEPControl_Reader reader;
    std::istringstream stream(file);
    if (reader.ReadStream("gear", stream) != IFSelect_RetDone)
        throw std::runtime_error("Open CASCADE cannot read the file");
    if (reader.TransferRoots() != 1) throw std::runtime_error("the file does not hold one part");
    return reader.OneShape();
}

/// Each different part of a kind.
inline std::vector<TopoDS_Shape> parts(const TopoDS_Shape& shape, TopAbs_ShapeEnum kind) {
    TopTools_IndexedMapOfShape map;
    TopExp::MapShapes(shape, kind, map);
    std::vector<TopoDS_Shape> result;
    for (int i = 1; i <= map.Extent(); ++i) result.push_back(map(i));
    return result;
}

/// True when the kernel's own checks (curves on surfaces, wires, orientation, self-intersection of boundaries) find nothing.
inline bool is_valid(const TopoDS_Shape& shape) { return BRepCheck_Analyzer(shape).IsValid(); }

/// Edges that are not shared by exactly two faces.
inline int open_edges(const TopoDS_Shape& shape) {
    TopTools_IndexedDataMapOfShapeListOfShape map;
    TopExp::MapShapesAndAncestors(shape, TopAbs_EDGE, TopAbs_FACE, map);
    int count = 0;
    for (int i = 1; i <= map.Extent(); ++i) count += map(i).Extent() == 2 ? 0 : 1;
    return count;
}

/// The tolerance of the worst edge: how far the kernel found curves and surfaces apart, and at least its own 10^-7.
inline double edge_tolerance(const TopoDS_Shape& shape) {
    double worst = 0;
    for (const TopoDS_Shape& e : parts(shape, TopAbs_EDGE)) {
        const double t = BRep_Tool::Tolerance(TopoDS::Edge(e));
        worst = t > worst ? t : worst;
    }
    return worst;
}

/// Volume by adaptive quadrature; negative for a solid inside out.
inline double volume(const TopoDS_Shape& shape) {
    GProp_GProps properties;
    BRepGProp::VolumePropertiesGK(shape, properties, 1e-8);
    return properties.Mass();
}

} // namespace occt
