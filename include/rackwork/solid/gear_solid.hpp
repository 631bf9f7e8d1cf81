// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The whole gear as a watertight solid: teeth straight, helical or double helical, with its bore or rim.
#ifndef RACKWORK_SOLID_GEAR_SOLID_HPP
#define RACKWORK_SOLID_GEAR_SOLID_HPP

#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../curve/bspline.hpp"
#include "../form/outline.hpp"
#include "../gear.hpp"
#include "body.hpp"
#include "brep.hpp"
#include "brep_builder.hpp"
#include "gear_assembly.hpp"
#include "tip_chamfer.hpp"

#include <optional>

namespace rackwork {

/// How a solid is to be made.
struct solid_options {
    /// Greatest distance between the exact boundary and the solid's, a length. A millionth of the normal module unless stated.
    std::optional<double> tolerance{};
    /// Degree of the section's B-splines and of the edges that chamfers cut: 3, 5 or 7; or fewest_control_points, which is the section's alone, and
    /// then those edges are of degree 5.
    int degree = 5;
};

/// The solid of a gear whose transverse section is a stated outline, closed round the axis, such as outline_of(g, tool).
///
/// Planes, cylinders (tip and root lands, bore, rim, hub) and cones are exact; flanks and fillets are extrusions of the section's B-splines
/// (spur) or B-spline surfaces (helical): the section's control points turned by screw_between. The proven bound of all of it is in
/// `deviation`. Edges between a helical flank and a land are helices as B-splines, those in which a chamfer cuts a flank are B-splines too;
/// both faces share them, and they are within `edge_deviation` of either. A chamfer that meets the end all but
/// where two curves of the section join (nearer than a 64th of the tolerance) meets it there.
///
/// Throws geometry_error if check(body, g, its root) finds something, and unless the tolerance is finite and at least 2^14 epsilon of the
/// section's size.
inline brep brep_of(const gear<double>& g, const outline<double>& section, const body_parameters& body,
                    const solid_options& options = {}) {
    require(check(body, g, detail::root_diameter_of(g, section)));
    const double tolerance = options.tolerance.value_or(g.normal_module() * 1e-6);
    double size = 0;
    for (const segment<double>& s : section.segments) size = larger(size, length(s.start));
    require(check_at_least("tolerance", tolerance, 0x1p14 * epsilon<double>() * size));
    // A 64th for each the screw, edges on chamfers and where these begin, so that edges fit all the better; the rest for the section.
    const double share = tolerance / 64;
    const detail::tip_chamfer chamfer(g, body, section, share);
    const double of_section = (tolerance - 4 * share) / chamfer.of_flank;
    const detail::section_path teeth = detail::with_rational_arcs(
        bsplines_of(section, of_section, {.degree = options.degree, .arcs = arc_form::arc}));
    const int edge_degree = options.degree > 0 ? options.degree : 5;
    detail::brep_builder builder(share / (chamfer.of_flank * size), share / larger(2., chamfer.of_cone), edge_degree);
    const double bore_settled = detail::gear_assembly(g, body, teeth, chamfer.cone, share / 2, builder).assemble();
    return builder.finished(teeth.deviation, chamfer, bore_settled);
}

/// The solid of a gear as its customary tool makes it. Throws geometry_error also as outline_of does.
inline brep brep_of(const gear<double>& g, const body_parameters& body = {}, const solid_options& options = {}) {
    require(check(body, g));
    return brep_of(g, outline_of(g), body, options);
}

} // namespace rackwork

#endif
