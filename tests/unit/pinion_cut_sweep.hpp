// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a pinion-type cutter takes away from a gear blank, external or internal, found by turning the two together and by nothing that the
// library knows of fillets.
#pragma once

#include <rackwork/cutter.hpp>
#include <rackwork/gear_parameters.hpp>

#include <algorithm>
#include <cmath>
#include <initializer_list>

namespace pinion_cut {

constexpr double circle = 3.141592653589793238462643383279502884;

/// tan a - a.
inline double involute_of(double angle) { return std::tan(angle) - angle; }

/// The angle between two others whose involute function has a value, by halving.
inline double angle_of_involute(double value) {
    double low = 0;
    double high = circle / 2;
    for (int i = 0; i < 200; ++i) {
        const double middle = (low + high) / 2;
        (involute_of(middle) < value ? low : high) = middle;
    }
    return (low + high) / 2;
}

/// One tooth of the cutter in the transverse section: involute flank, rounded corner, tip. Angles count from the middle of the tooth.
struct cutter_tooth {
    double base_radius;
    double tip_radius;
    double half_angle_at_base;
    double rounding;
    double flank_end_radius; // where the rounding touches the flank
    double centre_radius;    // of the rounding
    double centre_angle;

    cutter_tooth(const rackwork::gear_parameters<double>& p, const rackwork::pinion_type_cutter<double>& tool) {
        const double tangent = std::tan(p.rack.pressure_angle.rad());
        const double cos_helix = std::cos(p.helix_angle.rad());
        const double pressure = std::atan(tangent / cos_helix);
        const double reference = tool.teeth * p.normal_module / cos_helix / 2;
        base_radius = reference * std::cos(pressure);
        tip_radius = reference + p.normal_module * (tool.addendum + tool.profile_shift);
        const double thickness = p.normal_module * (circle / 2 + 2 * tool.profile_shift * tangent) / cos_helix;
        half_angle_at_base = thickness / 2 / reference + involute_of(pressure);
        rounding = p.normal_module * tool.tip_radius;
        // The circle of the rounding touches the flank from inside and the tip circle from inside. Its centre is looked for on the
        // normals of the flank, which touch the base circle.
        double low = 0;
        double high = std::sqrt(tip_radius * tip_radius - base_radius * base_radius) + rounding;
        const auto centre_at = [&](double unwound) { return std::hypot(base_radius, unwound - rounding); };
        for (int i = 0; i < 200; ++i) {
            const double middle = (low + high) / 2;
            const bool inside = middle < rounding || centre_at(middle) < tip_radius - rounding;
            (inside ? low : high) = middle;
        }
        const double unwound = (low + high) / 2;
        flank_end_radius = std::hypot(base_radius, unwound);
        centre_radius = centre_at(unwound);
        // Seen from the flank's beginning, the string has unwound by that angle and the centre hangs on it, its radius short of the end.
        const double turn = unwound / base_radius - std::atan((unwound - rounding) / base_radius);
        centre_angle = half_angle_at_base - turn;
    }

    /// Half the tooth's angle at a radius from its base circle to its tip.
    double half_angle(double radius) const {
        if (radius <= flank_end_radius) {
            if (radius <= base_radius) return half_angle_at_base;
            return half_angle_at_base - involute_of(std::acos(base_radius / radius));
        }
        // By the half angle's tangent, which holds its places near the tip: the sides of the triangle of the axis, the rounding's centre
        // and the point.
        const double a = centre_radius;
        const double s = (a + radius + rounding) / 2;
        const double square = (s - a) * (s - radius) / (s * std::max(s - rounding, 1e-300));
        return std::max(centre_angle, 0.0) + 2 * std::atan(std::sqrt(std::max(square, 0.0)));
    }
};

/// A gear blank and the cutter beside it. Angles of the gear count from the middle of a space. `sign` is 1 for an external gear: the two
/// axes lie on either side of the pitch point, and -1 for an internal one: both lie on the same side.
struct blank {
    double sign;
    cutter_tooth tool;
    double ratio; // of the gear's turn to the cutter's
    double centre_distance;
    double rolling_radius;
    double base_radius;
    double tip_radius;
    double working_pressure_angle;
    double involute_start; // half the space's angle at the base circle

    blank(const rackwork::gear_parameters<double>& p, const rackwork::pinion_type_cutter<double>& cutter)
        : sign(p.kind == rackwork::gear_kind::internal ? -1 : 1), tool(p, cutter), ratio(double(cutter.teeth) / p.teeth) {
        const double tangent = std::tan(p.rack.pressure_angle.rad());
        const double cos_helix = std::cos(p.helix_angle.rad());
        const double pressure = std::atan(tangent / cos_helix);
        const double reference = p.teeth * p.normal_module / cos_helix / 2;
        base_radius = reference * std::cos(pressure);
        tip_radius = reference + sign * p.normal_module * (p.rack.addendum + p.profile_shift + p.tip_alteration);
        // Cutter and gear have no play: a tooth of the cutter fills a space of the gear, at the angle at which cutter's tooth and gear's
        // tooth make up a pitch on the rolling circles.
        const double shift = p.profile_shift + p.thickness_allowance / (2 * p.normal_module * tangent);
        const double thickness = p.normal_module * (circle / 2 + 2 * shift * tangent) / cos_helix;
        const double half_tooth = thickness / 2 / reference + sign * involute_of(pressure); // at the base circle
        // z_0 (half of the cutter's tooth) + z (half of the gear's) = pi, each less its involute function.
        const double involute = (p.teeth * half_tooth + cutter.teeth * tool.half_angle_at_base - circle) / (cutter.teeth + sign * p.teeth);
        working_pressure_angle = angle_of_involute(involute);
        centre_distance = (base_radius + sign * tool.base_radius) / std::cos(working_pressure_angle);
        rolling_radius = base_radius / std::cos(working_pressure_angle);
        involute_start = circle / p.teeth - half_tooth;
    }

    /// Where the cutter's tip reaches.
    double root_radius() const { return centre_distance - sign * tool.tip_radius; }
    /// Half the angle of the space that is bounded by the involute, at a radius from the base circle on.
    double involute(double radius) const {
        return involute_start + sign * involute_of(std::acos(std::min(base_radius / radius, 1.0)));
    }
    /// How wide a circle of the gear is opened, and how far from its own axis the cutter does so.
    struct opening {
        double half_angle;
        double tool_radius;
    };

    /// The opening that the cutter's flank makes as it should. On external gears it does so on its way to the point where the line of
    /// action touches the gear's base circle, at the working pressure angle from the line of centres.
    opening opened_by_flank(double radius) const {
        const double end = where_tool_radius_is(radius, tool.flank_end_radius);
        const double begin = where_tool_radius_is(radius, tool.base_radius);
        const double last = last_of_flank(end);
        const opening before = greatest(radius, -end, -begin);
        return last > begin ? better(greatest(radius, begin, last), before) : before;
    }
    /// The opening that the cutter's tip makes, and whatever of its flank comes beyond that point and can only cut away.
    opening opened_by_tip(double radius) const {
        const double outer = where_tool_radius_is(radius, tool.tip_radius);
        const double end = where_tool_radius_is(radius, tool.flank_end_radius);
        const double begin = where_tool_radius_is(radius, tool.base_radius);
        const opening rounding = better(greatest(radius, end, outer), greatest(radius, -outer, -end));
        return better(rounding, greatest(radius, std::min(std::max(begin, last_of_flank(end)), end), end));
    }
    opening at(double radius) const { return better(opened_by_tip(radius), opened_by_flank(radius)); }

    /// Radius on whose side towards the tip the cutter's flank has made the gear's flank and on whose other side its tip has, by halving.
    double form_radius() const {
        double rootward = root_radius() * (1 + sign * 1e-12);
        double tipward = tip_radius;
        for (int i = 0; i < 45; ++i) {
            const double middle = (rootward + tipward) / 2;
            // Where a sharp corner cuts, the flank's own greatest opening is that of its end, to the rounding of an angle.
            const double rounding = 4e-16;
            const bool tip_cuts = opened_by_tip(middle).half_angle >= opened_by_flank(middle).half_angle - rounding;
            (tip_cuts ? rootward : tipward) = middle;
        }
        return (rootward + tipward) / 2;
    }

    /// Is a point of the gear taken away by the cutter's tooth in any of its positions, step by step?
    bool is_cut(double radius, double angle, double step) const {
        const double travel = 3 * std::sqrt(tool.tip_radius * tool.tip_radius - tool.base_radius * tool.base_radius) / tool.base_radius;
        for (double turn = -travel; turn <= travel; turn += step) {
            const double a = angle + turn * ratio;
            const seen from_tool = see(radius, a);
            if (from_tool.radius > tool.tip_radius || from_tool.radius < tool.base_radius) continue;
            if (std::fabs(from_tool.angle - turn) < tool.half_angle(from_tool.radius)) return true;
        }
        return false;
    }

private:
    /// A place of the gear, given by radius and angle from the line of centres, as the cutter sees it.
    struct seen {
        double radius;
        double angle;
    };
    seen see(double radius, double a) const {
        const double s = std::sin(a / 2);
        // Along the line of centres from the cutter's axis to the place; 1 - cos a without its cancellation.
        const double along = sign * (centre_distance - radius) + sign * 2 * radius * s * s;
        const double across = radius * std::sin(a);
        return {std::hypot(along, across), std::atan2(across, along)};
    }
    /// The angle from the line of centres at which a circle of the gear has a distance from the cutter's axis; 0 where it never has it.
    double where_tool_radius_is(double radius, double tool_radius) const {
        // Half-angle formula: tool_radius^2 = (a - R)^2 + 4 a R sin^2(angle/2).
        const double gap = centre_distance - radius;
        const double square = (tool_radius - gap) * (tool_radius + gap) / (4 * centre_distance * radius);
        return 2 * std::asin(std::sqrt(std::clamp(square, 0.0, 1.0)));
    }
    double last_of_flank(double end) const { return sign > 0 ? std::min(end, working_pressure_angle) : end; }
    opening met(double radius, double a) const {
        const seen from_tool = see(radius, a);
        const double at = std::min(from_tool.radius, tool.tip_radius);
        return {a - (from_tool.angle - tool.half_angle(at)) * ratio, at};
    }
    static opening better(const opening& a, const opening& b) { return b.half_angle > a.half_angle ? b : a; }

    /// The greatest opening between two angles: the best of a fine grid, then golden section between its neighbours.
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
        return better(met(radius, grid(best)), met(radius, (low + high) / 2));
    }
};

} // namespace pinion_cut
