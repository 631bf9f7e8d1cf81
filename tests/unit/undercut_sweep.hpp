// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a rack-type tool takes away from a gear blank, found by moving the tool and by nothing that the library knows of fillets.
#pragma once

#include <rackwork/gear_parameters.hpp>

#include <algorithm>
#include <cmath>
#include <initializer_list>

namespace undercut {

constexpr double circle = 3.141592653589793238462643383279502884;

/// One tooth of the tool in the transverse section. It moves along the rolling line, on which the reference circle of the gear rolls.
/// Depth counts from that line towards the gear's axis, width from the middle of the tooth.
struct tool_tooth {
    double cos_helix;
    double module;
    double tangent; // of the normal pressure angle
    double shift;   // of the datum line from the rolling line, away from the gear
    double radius;  // of the tip rounding, normal section
    double depth_of_tip;
    double depth_of_centre;
    double depth_of_flank_end;
    double width_of_centre; // normal section

    explicit tool_tooth(const rackwork::gear_parameters<double>& p) {
        const double alpha = p.rack.pressure_angle.rad();
        cos_helix = std::cos(p.helix_angle.rad());
        module = p.normal_module;
        tangent = std::tan(alpha);
        shift = p.profile_shift * module + p.thickness_allowance / (2 * tangent);
        radius = p.rack.root_fillet_radius * module;
        depth_of_tip = p.rack.dedendum * module - shift;
        depth_of_centre = depth_of_tip - radius;
        // The rounding's centre lies its radius inside the straight flank and inside the tip line.
        width_of_centre = straight_flank(depth_of_centre) - radius / std::cos(alpha);
        depth_of_flank_end = depth_of_centre + radius * std::sin(alpha);
    }

    /// Half width at a depth that is not below the tip, transverse section.
    double half_width(double depth) const {
        if (depth <= depth_of_flank_end) return straight_flank(depth) / cos_helix;
        const double below = depth - depth_of_centre;
        return (width_of_centre + std::sqrt(std::max((radius - below) * (radius + below), 0.0))) / cos_helix;
    }

private:
    /// Half width of the straight flank, normal section: a quarter of a pitch on the datum line.
    double straight_flank(double depth) const { return circle / 4 * module - (depth + shift) * tangent; }
};

/// A gear blank under the tool. Angles count from the middle of a space.
struct blank {
    tool_tooth tool;
    double rolling_radius;
    double tip_radius;
    double base_radius;
    double pressure_angle; // transverse
    double involute_start; // half the space's angle at the base circle

    explicit blank(const rackwork::gear_parameters<double>& p) : tool(p) {
        rolling_radius = p.teeth * p.normal_module / tool.cos_helix / 2;
        tip_radius = rolling_radius + p.normal_module * (p.rack.addendum + p.profile_shift + p.tip_alteration);
        pressure_angle = std::atan(tool.tangent / tool.cos_helix);
        base_radius = rolling_radius * std::cos(pressure_angle);
        const double space = circle / 2 * p.normal_module - 2 * tool.shift * tool.tangent;
        involute_start = space / tool.cos_helix / 2 / rolling_radius - (std::tan(pressure_angle) - pressure_angle);
    }

    /// Half the angle of the space that is bounded by the involute, at a radius.
    double involute(double radius) const {
        const double roll = std::sqrt((radius - base_radius) * (radius + base_radius)) / base_radius;
        return involute_start + roll - std::atan(roll);
    }

    double root_radius() const { return rolling_radius - tool.depth_of_tip; }

    /// How wide the tool opens a circle of the gear, and at which depth of the tool it does so.
    struct opening {
        double half_angle;
        double tool_depth;
    };

    /// The opening of the circle of a radius: over all positions of the tool, the greatest angle at which its outline crosses that circle.
    opening at(double radius) const {
        const opening by_flank = opened_by_flank(radius);
        const opening by_tip = opened_by_tip(radius);
        return by_tip.half_angle > by_flank.half_angle ? by_tip : by_flank;
    }
    /// The opening that the tool's straight flank makes as it should, on its way to the point where the line of action touches the base
    /// circle. (That point stands at the transverse pressure angle from the line of centres.)
    opening opened_by_flank(double radius) const {
        const double end = where_flank_ends(radius);
        return greatest(radius, -end, std::min(end, pressure_angle));
    }
    /// The opening that the tool's tip makes, and whatever of its flank comes beyond that point and can only cut away.
    opening opened_by_tip(double radius) const {
        const double end = where_flank_ends(radius);
        const double outer = std::acos(std::min(root_radius() / radius, 1.0));
        opening found = greatest(radius, end, outer);
        for (const opening& other :
             {greatest(radius, -outer, -end), greatest(radius, std::min(end, pressure_angle), end)}) {
            if (other.half_angle > found.half_angle) found = other;
        }
        return found;
    }

    /// Radius above which the tool's straight flank has made the gear's flank and below which its tip has, by halving.
    double form_radius() const {
        double low = root_radius() * (1 + 1e-12);
        double high = tip_radius;
        for (int i = 0; i < 45; ++i) {
            const double middle = (low + high) / 2;
            // Where a sharp corner cuts, the flank's own greatest opening is that of its end, to the rounding of an angle.
            const double rounding = 4e-16;
            const bool tip_cuts = opened_by_tip(middle).half_angle >= opened_by_flank(middle).half_angle - rounding;
            (tip_cuts ? low : high) = middle;
        }
        return (low + high) / 2;
    }

    /// Is a point of the gear taken away by the tool in any of its positions, step by step?
    bool is_cut(double radius, double angle, double step) const {
        const double travel = 3 * rolling_radius * std::sqrt(2 * tool.depth_of_tip / rolling_radius) + 3 * tool.module;
        for (double s = -travel; s <= travel; s += step) {
            const double a = angle + s / rolling_radius;
            const double depth = rolling_radius - radius * std::cos(a);
            if (depth > tool.depth_of_tip) continue;
            if (std::fabs(radius * std::sin(a) - s) < tool.half_width(depth)) return true;
        }
        return false;
    }

private:
    /// The angle from the line of centres at which a circle of the gear is as deep in the tool as its straight flank goes.
    double where_flank_ends(double radius) const {
        return std::acos(std::min((rolling_radius - tool.depth_of_flank_end) / radius, 1.0));
    }

    /// A place of a circle that stands at the angle a from the line of centres is met by the tool's outline when the tool has moved by
    /// s, and the gear has then turned by s over the rolling radius.
    opening met(double radius, double a) const {
        const double depth = std::min(rolling_radius - radius * std::cos(a), tool.depth_of_tip);
        const double s = radius * std::sin(a) - tool.half_width(depth);
        return {a - s / rolling_radius, depth};
    }

    /// The greatest opening between two such angles: the best of a fine grid, then golden section between its neighbours.
    opening greatest(double radius, double from, double to) const {
        const int steps = 200;
        const auto grid = [&](int i) { return from + (to - from) * i / steps; };
        int best = 0;
        for (int i = 1; i <= steps; ++i) {
            if (met(radius, grid(i)).half_angle > met(radius, grid(best)).half_angle) best = i;
        }
        const double golden = 0.618033988749894848;
        double low = grid(std::max(best - 1, 0));
        double high = grid(std::min(best + 1, steps));
        for (int k = 0; k < 60; ++k) {
            const double a = high - golden * (high - low);
            const double b = low + golden * (high - low);
            if (met(radius, a).half_angle > met(radius, b).half_angle) {
                high = b;
            } else {
                low = a;
            }
        }
        const opening inside = met(radius, (low + high) / 2);
        const opening at_grid = met(radius, grid(best));
        return inside.half_angle > at_grid.half_angle ? inside : at_grid;
    }
};

} // namespace undercut
