// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The root that a pinion-type cutter leaves, to fifty digits: the cutter's rounded corner is carried along by the law of gearing, with the
// moment of cutting found as a root, and the involute begins where cutter and line of action, or fillet and involute, meet as curves.
#pragma once

#include "independent_internal.hpp"

#include <array>

namespace independent {

struct cutter_numbers {
    int teeth = 0;
    real shift;
    real addendum;
    real tip_radius;
};

/// The cutter beside the gear. In the plane of the transverse section u runs from the cutter's axis to the pitch point and v upward. The
/// gear's axis lies beyond the pitch point for z > 0, on the cutter's side of it for z < 0.
class cutting {
public:
    signed_gear gear_made;
    signed_gear tool;
    real working_angle;
    real a_0;
    real tool_tip_radius;
    real rounding;
    real centre_radius;
    real centre_angle;

    cutting(const signed_gear& g, const cutter_numbers& c) : gear_made(g), tool(tool_numbers(g, c), false) {
        const real m = g.numbers.normal_module;
        const real involute = real(inv(g.transverse_pressure_angle) + 2 * tan(g.numbers.pressure) * (g.x_E + c.shift) / (tool.z + g.z));
        working_angle = inverse_inv(involute);
        a_0 = real((tool.d_b + g.d_b) / 2 / cos(working_angle));
        tool_tip_radius = real(tool.d / 2 + m * (c.addendum + c.shift));
        rounding = real(m * c.tip_radius);
        centre_radius = real(tool_tip_radius - rounding);
        // The centre lies on the parallel of the cutter's flank: an involute that begins later by the arc rounding / r_b.
        const real r_b = real(tool.d_b / 2);
        centre_angle = real(tool.base_half_angle() - rounding / r_b - inv(real(acos(real(r_b / centre_radius)))));
    }

    real rolling_radius() const { return real(gear_made.d_b / 2 / cos(working_angle)); } // has the gear's sign
    real tool_rolling_radius() const { return real(tool.d_b / 2 / cos(working_angle)); }
    real root_radius() const { return real(gear_made.sign() * (a_0 - tool_tip_radius)); }
    /// Angle of the rounding where it passes into the flank: there its normal touches the base circle.
    real flank_angle() const { return real(asin(real(tool.d_b / 2 / centre_radius))); }

    /// The point of the gear that the rounding's point at the angle phi from the cutter's radius cuts; x along the middle of the space.
    vector3<> cut(const real& phi) const {
        const vector3<> centre = turned(vector3<>{centre_radius, real(0), real(0)}, centre_angle);
        const vector3<> normal = turned(vector3<>{real(1), real(0), real(0)}, real(centre_angle + phi));
        const vector3<> point = centre + rounding * normal;
        const vector3<> pitch_point{tool_rolling_radius(), real(0), real(0)};
        // The cutter is turned until the normal goes through the pitch point.
        const auto miss = [&](const real& turn) {
            return real(cross(turned(normal, turn), turned(point, turn) - pitch_point).z / centre_radius);
        };
        const real level = real(-centre_angle - phi); // where the normal lies along u
        const real turn = phi == 0 ? level : root_between(miss, level, real(level + pi() / 2));
        const vector3<> in_space = turned(point, turn);
        const real outward = gear_made.sign();
        // From the gear's axis, which lies a_0 from the cutter's: outward towards the pitch point.
        const vector3<> from_axis{real(outward * (a_0 - in_space.x)), in_space.y, real(0)};
        return turned(from_axis, real(-turn * tool_rolling_radius() / abs(rolling_radius())));
    }
    /// The point of the gear's flank at a roll angle; x along the middle of the space.
    vector3<> flank(const real& roll) const {
        const real half_space = real(pi() / gear_made.numbers.teeth - gear_made.base_half_angle());
        vector3<> p = involute_point(real(abs(gear_made.d_b) / 2), roll);
        if (gear_made.z < 0) p.y = real(-p.y); // it runs towards the middle of the space on its way outward
        return turned(p, half_space);
    }

private:
    /// The cutter as an external gear of the same module, pressure angle and helix.
    static gear_numbers tool_numbers(const signed_gear& g, const cutter_numbers& c) {
        gear_numbers n = g.numbers;
        n.teeth = c.teeth;
        n.shift = c.shift;
        n.addendum = c.addendum;
        n.tip_alteration = 0;
        n.allowance = 0;
        return n;
    }
};

/// Where the involute begins.
struct root_by_pinion {
    bool undercut = false;
    real form_radius;
    real end_angle;
    real sine_of_crossing{1};
};

inline root_by_pinion root_of(const cutting& c) {
    root_by_pinion result;
    result.end_angle = c.flank_angle();
    const real tool_base = real(c.tool.d_b / 2);
    // The flank's end is on the line of action at this distance from the cutter's foot on it. The gear's foot lies beyond the pitch point
    // for z > 0, behind it otherwise.
    const real of_end = real(sqrt(real(c.centre_radius * c.centre_radius - tool_base * tool_base)) + c.rounding);
    const real between_feet = real(c.a_0 * sin(c.working_angle));
    const real from_gear_foot = real(between_feet - of_end);
    result.undercut = c.gear_made.z > 0 && from_gear_foot < 0;
    const real base = real(abs(c.gear_made.d_b) / 2);
    if (!result.undercut) {
        result.form_radius = real(sqrt(real(base * base + from_gear_foot * from_gear_foot)));
        return result;
    }
    const auto inside = [&](const real& phi) {
        const vector3<> p = c.cut(phi);
        const real r = radius(p);
        const real roll = r > base ? unwound_to(base, r) : real(0);
        return real(polar_angle(p) - polar_angle(c.flank(roll)));
    };
    const auto above_base = [&](const real& phi) { return real(radius(c.cut(phi)) - base); };
    const real at_base = root_between(above_base, real(0), result.end_angle);
    const real phi = root_between(inside, at_base, result.end_angle);
    std::array<real, 2> unknowns{phi, unwound_to(base, radius(c.cut(phi)))};
    const auto apart = [&](const std::array<real, 2>& x) {
        const vector3<> difference = c.cut(x[0]) - c.flank(x[1]);
        return std::array<real, 2>{real(difference.x / base), real(difference.y / base)};
    };
    // Curves that hardly cross have no corner to be found that way; the bracket holds it to 165 bits.
    const bool crosses = result.end_angle - phi > real("1e-18");
    if (crosses && !newton<2, real>(apart, unknowns, {real(1), real(1)}, real(1), 30)) {
        throw no_reference("fillet and involute were not brought to meet");
    }
    if (abs(real(unknowns[0] - phi)) > real("1e-20")) throw no_reference("fillet and involute meet somewhere else");
    result.end_angle = unknowns[0];
    result.form_radius = radius(c.flank(unknowns[1]));
    const real h("1e-17");
    const vector3<> along_fillet = unit(c.cut(real(unknowns[0] + h)) - c.cut(real(unknowns[0] - h)));
    const vector3<> along_flank = unit(c.flank(real(unknowns[1] + h)) - c.flank(real(unknowns[1] - h)));
    result.sine_of_crossing = real(abs(cross(along_fillet, along_flank).z));
    return result;
}

/// Largest tip rounding of a cutter, in lengths: its centre comes to the middle of the tooth, or down to the base circle.
inline real full_rounding(const signed_gear& g, cutter_numbers c) {
    c.tip_radius = 0;
    const cutting sharp(g, c);
    const real r_b = real(sharp.tool.d_b / 2);
    const auto half_land = [&](const real& rho) {
        const real centre = real(sharp.tool_tip_radius - rho);
        const real ratio = real(r_b / centre);
        return real(sharp.tool.base_half_angle() - rho / r_b - (ratio < 1 ? inv(real(acos(ratio))) : real(0)));
    };
    const real deepest = real(sharp.tool_tip_radius - r_b);
    return half_land(deepest) > 0 ? deepest : root_between(half_land, real(0), deepest);
}

} // namespace independent
