// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The chamfer of a gear's tips at the ends of its teeth, settled on a section, and what it makes of the section's deviation.
#ifndef RACKWORK_SOLID_TIP_CHAMFER_HPP
#define RACKWORK_SOLID_TIP_CHAMFER_HPP

#include "../core/angle.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "../form/segment.hpp"
#include "../gear.hpp"
#include "body.hpp"
#include "end_chamfer.hpp"

#include <cmath>
#include <limits>
#include <variant>

namespace rackwork::detail {

/// The chamfer of the tips at the upper end. Without a chamfer nothing is cut, and nothing strays farther.
struct tip_chamfer {
    end_chamfer cone;
    /// Distance of the boundary's edges on the cone from where the stated chamfer has them, because the circle was settled elsewhere.
    double settled = 0;
    /// How many times as far as a flank strays from the exact one, in the plane of a section, does a point of it from the exact flank within the
    /// cone.
    double of_flank = 1;
    /// How many times as far as an edge on the cone strays from it does that point.
    double of_cone = 1;

    /// Settled on a joint of the section's segments where that moves no edge by more than `slack`.
    tip_chamfer(const gear<double>& g, const body_parameters& body, const outline<double>& section, double slack) {
        if (body.tip_end_chamfer == 0) return;
        const double tip = g.tip_diameter() / 2;
        const double stated = tip + (g.is_internal() ? 1 : -1) * body.tip_end_chamfer;
        // The helix through a point beyond the cone by d along the radius meets it within d tan(angle)/cos(helix angle there).
        const double widest = larger(g.tip_diameter(), g.root_diameter()) / g.reference_diameter();
        of_cone = 1 + tan(body.tip_end_chamfer_angle) * std::sqrt(1 + square(g.tangent_of_helix_angle() * widest));
        cone = {.end_radius = settled_end_radius(section, stated, slack / of_cone),
                .tip_radius = tip,
                .end_height = g.parameters().face_width / 2,
                .depth = body.tip_end_chamfer_depth()};
        settled = magnitude(cone.end_radius - stated) * of_cone;
        of_flank = smaller(of_cone, steepest(section));
    }

private:
    /// Of a point that strays by d, the exact flank has one of the same radius and height within d/cos(pressure angle there), and a hundredth of
    /// that for the flank's curvature on the way. Nothing is known of other curves than involutes.
    double steepest(const outline<double>& section) const {
        double factor = 1;
        for (const segment<double>& s : section.segments) {
            if (is_land(s) || (cone.side(length(s.start)) <= 0 && cone.side(length(s.end)) <= 0)) continue;
            if (!std::holds_alternative<involute<double>>(s.curve)) return std::numeric_limits<double>::infinity();
            factor = larger(factor, 1.01 * std::sqrt(1 + square(larger(magnitude(s.from), magnitude(s.to)))));
        }
        return factor;
    }
};

} // namespace rackwork::detail

#endif
