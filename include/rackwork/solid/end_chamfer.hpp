// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The cone that takes the corner between a toothed wall and a plane end: where it lies, and what of a section it cuts.
#ifndef RACKWORK_SOLID_END_CHAMFER_HPP
#define RACKWORK_SOLID_END_CHAMFER_HPP

#include "../core/point.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "../form/segment.hpp"

#include <cstddef>
#include <utility>
#include <variant>

namespace rackwork::detail {

/// A cone about the axis that meets a plane end in a circle of radius `end_radius`, and the tips, of radius `tip_radius`, `depth` before
/// that end. It cuts what lies on the tips' side of the circle: outside it on an external gear, within it on an internal gear and in a
/// bore, whose "tips" are the bore itself.
struct end_chamfer {
    double end_radius = 0;
    double tip_radius = 0;
    double end_height = 0;
    double depth = 0;
    bool upper = true;

    double outward() const { return upper ? 1 : -1; }

    /// Rise of the cone's radius with the height.
    double slope() const { return outward() * (end_radius - tip_radius) / depth; }

    /// Height at which the cone has a radius.
    double height_at(double radius) const { return end_height + (radius - end_radius) / slope(); }

    /// The chamfer that ends in a circle of another radius on the same cone.
    end_chamfer from_radius(double radius) const {
        end_chamfer result = *this;
        result.end_radius = radius;
        result.end_height = height_at(radius);
        result.depth = depth * ((tip_radius - radius) / (tip_radius - end_radius));
        return result;
    }

    /// 1 for a radius that the cone cuts, 0 for one on the circle (but for rounding), -1 for one that reaches the plane end.
    int side(double radius) const {
        const double distance = tip_radius > end_radius ? radius - end_radius : end_radius - radius;
        if (magnitude(distance) <= 0x1p-40 * end_radius) return 0;
        return distance > 0 ? 1 : -1;
    }
};

/// The rings that an end with a chamfer has: the border of the wall, which dips below the cone, and that of the plane end.
template <class Ring>
struct chamfered_end {
    Ring wall;
    Ring face;
};

/// The radius at which a chamfer meets the end of a section: the stated one, or that of the nearest joint of two segments if it is not farther
/// away than `slack`, so that no sliver is left between the two.
inline double settled_end_radius(const outline<double>& section, double radius, double slack) {
    double nearest = slack;
    double result = radius;
    for (const segment<double>& s : section.segments) {
        const double at_joint = length(s.start);
        if (magnitude(at_joint - radius) < nearest) {
            nearest = magnitude(at_joint - radius);
            result = at_joint;
        }
    }
    return result;
}

/// True for a land: an arc about the axis, of one radius all along.
inline bool is_land(const segment<double>& s) {
    const auto* arc = std::get_if<circle<double>>(&s.curve);
    return arc != nullptr && arc->centre == point<double>{};
}

/// The outline with every segment that crosses a circle about the axis divided there. Radii grow or fall all along a flank or fillet.
inline outline<double> divided_at(const outline<double>& section, const end_chamfer& chamfer) {
    outline<double> result;
    result.segments.reserve(2 * section.segments.size());
    for (const segment<double>& s : section.segments) {
        if (is_land(s) || chamfer.side(length(s.start)) * chamfer.side(length(s.end)) >= 0) {
            result.segments.push_back(s);
            continue;
        }
        const double t = bracketed_root(
            [&](double parameter) { return length(s.position(parameter)) - chamfer.end_radius; }, s.from, s.to);
        segment<double> first = s;
        first.to = t;
        first.end = s.position(t);
        first.corner_at_end = false;
        segment<double> second = s;
        second.from = t;
        second.start = first.end;
        result.segments.push_back(std::move(first));
        result.segments.push_back(std::move(second));
    }
    return result;
}

} // namespace rackwork::detail

#endif
