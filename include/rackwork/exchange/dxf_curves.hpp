// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Lines, arcs and splines as the entities of a DXF file.
#ifndef RACKWORK_EXCHANGE_DXF_CURVES_HPP
#define RACKWORK_EXCHANGE_DXF_CURVES_HPP

#include "../core/angle.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../curve/arc.hpp"
#include "../curve/biarc.hpp"
#include "../curve/bspline.hpp"
#include "../form/outline.hpp"
#include "dxf_frame.hpp"
#include "placement.hpp"

#include <cmath>
#include <string_view>
#include <variant>
#include <vector>

namespace rackwork {

/// Of what an outline in a DXF drawing consists.
enum class dxf_curves {
    /// One closed polyline: tip and root lands are true arcs in it, flanks and fillets chords.
    polyline,
    /// Lines and arcs that follow one another with common tangents.
    arcs,
    /// A spline for each flank and each fillet, and arcs for the lands.
    splines
};

namespace detail {

/// Lines, arcs and splines in the order of the outline, each beginning where the one before it ends.
using dxf_chain = std::vector<std::variant<bspline<double>, arc<double>>>;

inline arc<double> placed(arc<double> a, const placement<double>& where) {
    a.start = where(a.start);
    a.end = where(a.end);
    a.centre = where(a.centre);
    return a;
}

inline bspline<double> placed(bspline<double> s, const placement<double>& where) {
    for (point<double>& p : s.control_points) p = where(p);
    return s;
}

/// An outline in its place, as arcs or as splines. Throws geometry_error as biarcs_of and bsplines_of do.
inline dxf_chain drawn_chain(const outline<double>& exact, double tolerance, dxf_curves curves, int degree, arc_form arcs,
                             const placement<double>& where) {
    dxf_chain chain;
    if (curves == dxf_curves::arcs) {
        for (const arc<double>& a : biarcs_of(exact, tolerance).arcs) chain.emplace_back(placed(a, where));
        return chain;
    }
    for (const auto& curve : bsplines_of(exact, tolerance, {.degree = degree, .arcs = arcs}).curves) {
        std::visit([&](const auto& c) { chain.emplace_back(placed(c, where)); }, curve);
    }
    return chain;
}

/// A direction in degrees, from 0 up to 360.
inline double dxf_direction(const point<double>& from_centre) {
    const double degrees = rad(std::atan2(from_centre.y, from_centre.x)).deg();
    return degrees < 0 ? degrees + 360 : degrees;
}

inline void write_dxf_entity(dxf_groups_output& out, unsigned own, std::string_view layer, const arc<double>& a) {
    if (a.is_line()) {
        out.begin_entity("LINE", own, layer).text(100, "AcDbLine").spatial(10, a.start).spatial(11, a.end);
        return;
    }
    // The format knows only arcs that turn counter-clockwise.
    const point<double> begin = (a.turning > 0 ? a.start : a.end) - a.centre;
    const point<double> end = (a.turning > 0 ? a.end : a.start) - a.centre;
    out.begin_entity("ARC", own, layer).text(100, "AcDbCircle").spatial(10, a.centre).real(40, a.radius);
    out.text(100, "AcDbArc").real(50, dxf_direction(begin)).real(51, dxf_direction(end));
}

inline void write_dxf_entity(dxf_groups_output& out, unsigned own, std::string_view layer, const bspline<double>& s) {
    constexpr int planar = 8;
    constexpr int rational = 4;
    out.begin_entity("SPLINE", own, layer).text(100, "AcDbSpline");
    out.real(210, 0).real(220, 0).real(230, 1).whole(70, planar + (s.weights.empty() ? 0 : rational)).whole(71, s.degree);
    out.whole(72, static_cast<int>(s.knots.size())).whole(73, static_cast<int>(s.control_points.size())).whole(74, 0);
    for (const double knot : s.knots) out.real(40, knot);
    for (const double weight : s.weights) out.real(41, weight);
    for (const point<double>& p : s.control_points) out.spatial(10, p);
}

} // namespace detail

} // namespace rackwork

#endif
