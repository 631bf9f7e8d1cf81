// Example cad_plugin: our curves as a kernel's own. This is all that a plug-in has to write once.
#ifndef CAD_PLUGIN_KERNEL_CURVES_HPP
#define CAD_PLUGIN_KERNEL_CURVES_HPP

#include <rackwork/curve/arc.hpp>
#include <rackwork/curve/bspline.hpp>

#include <Geom_Curve.hxx>
#include <TopoDS_Face.hxx>

namespace cad_plugin {

/// The same curve: the same control points, knots and weights, to the bit.
Handle(Geom_Curve) kernel_curve(const rackwork::bspline<double>& spline);

/// A circle or a straight line, trimmed to where the arc begins and ends.
Handle(Geom_Curve) kernel_curve(const rackwork::arc<double>& arc);

/// The area within a closed path as a face: an edge for each curve, neighbours with the same vertex.
TopoDS_Face kernel_face(const rackwork::bspline_path<double>& path);

} // namespace cad_plugin

#endif
