// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How far the flanks and fillets of a solid, as Open CASCADE evaluates them, lie from the exact tooth form, and the other way round.
#pragma once

#include <rackwork/core/point.hpp>
#include <rackwork/form/outline.hpp>
#include <rackwork/gear.hpp>

#include <BRepTools.hxx>
#include <BRep_Tool.hxx>
#include <GeomAPI_ProjectPointOnSurf.hxx>
#include <Geom_BSplineSurface.hxx>
#include <Geom_Surface.hxx>
#include <Geom_SurfaceOfLinearExtrusion.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Shape.hxx>
#include <gp_Pnt.hxx>

#include <algorithm>
#include <cmath>
#include <limits>
#include <variant>
#include <vector>

namespace occt {

using rackwork::point;

/// The exact outline, turned by the helix at each height.
class exact_form {
public:
    exact_form(const rackwork::gear<double>& g, const rackwork::outline<double>& exact, double turn_per_length)
        : exact_(exact), pitch_(2 * rackwork::pi<double>() / g.teeth()), twist_(turn_per_length) {}

    /// Distance of a point in space from the outline at its own height. Not less than its distance from the helicoid.
    double distance(const gp_Pnt& p) const {
        const point<double> in_section = turned(point<double>{p.X(), p.Y()}, -twist_ * p.Z());
        double least = std::numeric_limits<double>::infinity();
        for (const rackwork::segment<double>& s : exact_.segments) {
            // Only what is near enough to be the closest; a flank is never longer than its own chord and a half.
            const double reach = 1.5 * length(s.end - s.start);
            if (length(in_section - s.start) - reach > least) continue;
            least = std::min(least, distance(s, in_section));
        }
        return least;
    }

    /// The point of segment i at a share of its parameter, at a height.
    gp_Pnt position(std::size_t i, double share, double height) const {
        const rackwork::segment<double>& s = exact_.segments[i];
        const point<double> p = turned(s.position(s.from + (s.to - s.from) * share), twist_ * height);
        return {p.x, p.y, height};
    }

private:
    /// By golden sections from the best of some points along the segment.
    static double distance(const rackwork::segment<double>& s, const point<double>& p) {
        constexpr int parts = 24;
        const auto at = [&](double share) { return length(s.position(s.from + (s.to - s.from) * share) - p); };
        int best = 0;
        for (int i = 1; i <= parts; ++i) {
            if (at(1. * i / parts) < at(1. * best / parts)) best = i;
        }
        double low = std::max(0., (best - 1.) / parts);
        double high = std::min(1., (best + 1.) / parts);
        while (high - low > 1e-9) {
            const double a = high - (high - low) * 0.6180339887498949;
            const double b = low + (high - low) * 0.6180339887498949;
            (at(a) < at(b) ? high : low) = at(a) < at(b) ? b : a;
        }
        return std::min({at(low), at(high), at((low + high) / 2)});
    }

    const rackwork::outline<double>& exact_;
    double pitch_;
    double twist_;
};

/// Faces that are neither planes, cylinders nor cones: flanks and fillets.
inline std::vector<TopoDS_Face> tooth_faces(const std::vector<TopoDS_Shape>& faces) {
    std::vector<TopoDS_Face> result;
    for (const TopoDS_Shape& f : faces) {
        const Handle(Geom_Surface) s = BRep_Tool::Surface(TopoDS::Face(f));
        if (s->IsKind(STANDARD_TYPE(Geom_BSplineSurface)) || s->IsKind(STANDARD_TYPE(Geom_SurfaceOfLinearExtrusion))) {
            result.push_back(TopoDS::Face(f));
        }
    }
    return result;
}

/// Greatest distance from the exact form of points spread over a face.
inline double farthest_from(const exact_form& exact, const TopoDS_Face& face, int along, int across) {
    const Handle(Geom_Surface) s = BRep_Tool::Surface(face);
    double u1 = 0, u2 = 0, v1 = 0, v2 = 0;
    BRepTools::UVBounds(face, u1, u2, v1, v2);
    double worst = 0;
    for (int i = 0; i <= along; ++i) {
        for (int j = 0; j <= across; ++j) {
            worst = std::max(worst, exact.distance(s->Value(u1 + (u2 - u1) * i / along, v1 + (v2 - v1) * j / across)));
        }
    }
    return worst;
}

/// Distance of a point from the nearest of some faces' surfaces.
inline double distance_from(const std::vector<TopoDS_Face>& faces, const gp_Pnt& p) {
    double least = std::numeric_limits<double>::infinity();
    for (const TopoDS_Face& f : faces) {
        GeomAPI_ProjectPointOnSurf projection(p, BRep_Tool::Surface(f));
        if (projection.NbPoints() > 0) least = std::min(least, projection.LowerDistance());
    }
    return least;
}

} // namespace occt
