// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The root to fifty digits: the path of the tool's rounded tip by the law of gearing, and where it meets the involute.
#pragma once

#include "independent_gear.hpp"
#include "independent_number.hpp"

namespace independent {

/// The tool's rounded tip in the transverse section while it rolls on the gear. The space is centred on the x axis.
template <class R>
struct rolling_tip {
    R rolling_radius;
    R radius_normal;   ///< of the rounding, normal section
    R centre_offset;   ///< along the rolling line, normal section; a full radius, rounded, may put it a last place beyond the middle
    R centre_depth;    ///< below the rolling line
    R stretch;         ///< transverse length per normal length along the rolling line

    explicit rolling_tip(const gear& g)
        : rolling_radius(static_cast<R>(g.reference_radius)),
          radius_normal(static_cast<R>(real(g.numbers.fillet * g.numbers.normal_module))),
          centre_offset(static_cast<R>(normal_rack(g.numbers).fillet_centre_offset)),
          centre_depth(static_cast<R>(real(normal_rack(g.numbers).fillet_centre_depth - g.generating_distance))),
          stretch(static_cast<R>(real(1 / cos(g.numbers.helix)))) {}

    /// Point of the gear that the rounding's point at the angle phi from its deepest cuts: at the moment when the normal there goes
    /// through the pitch point.
    vector3<R> cut(const R& phi) const {
        const sine_and_cosine<R> round(phi);
        const R u = R((centre_offset + radius_normal * round.sine) * stretch);
        const R depth = R(centre_depth + radius_normal * round.cosine);
        // Tangent of the ellipse in (along, outward); the tool has been moved by v when (u + v, -depth) is square to it.
        const R along = R(round.cosine * stretch);
        const R outward = round.sine;
        const R v = R(depth * outward / along - u);
        const vector3<R> in_space{R(rolling_radius - depth), R(u + v), R(0)};
        return turned(in_space, R(-v / rolling_radius));
    }
    /// Unit tangent of the path, by differences: to half the digits of R.
    vector3<R> tangent(const R& phi, const R& h) const { return unit(cut(R(phi + h)) - cut(R(phi - h))); }
};

struct root {
    bool undercut = false;
    real form_radius;
    real end_angle;              ///< of the rounding, at the form radius
    real sine_of_crossing{1};    ///< of the angle between fillet and involute at the form radius; 1 where they join smoothly
    real narrowest_half_angle;   ///< of the tooth between the undercuts; of the tooth at the base circle without
};

/// Where the involute begins.
inline root root_of(const gear& g) {
    const rolling_tip<real> tip(g);
    root result;
    result.end_angle = real(pi() / 2 - g.numbers.pressure);
    result.narrowest_half_angle = g.tooth_half_angle;
    // The straight flank's end, when it lies on the line of action: a line through the pitch point, falling by alpha_t.
    const real depth = real(normal_rack(g.numbers).flank_end_depth - g.generating_distance);
    const vector3<> end{real(g.reference_radius - depth), real(depth / tan(g.transverse_pressure_angle)), real(0)};
    const vector3<> along{real(-sin(g.transverse_pressure_angle)), real(cos(g.transverse_pressure_angle)), real(0)};
    // Past the foot of the perpendicular from the axis the flank cuts what it has made.
    result.undercut = dot(end, along) > 0;
    if (!result.undercut) {
        result.form_radius = radius(end);
        return result;
    }
    // Half the tooth where the fillet path reaches deepest into it.
    const rolling_tip<long double> rough(g);
    const auto reach = [&](const long double& phi) -> long double { return -polar_angle(rough.cut(phi)); };
    const long double last = static_cast<long double>(result.end_angle);
    const long double narrowest = boost::math::tools::brent_find_minima(reach, 0.0L, last, 32).first;
    result.narrowest_half_angle = real(pi() / g.numbers.teeth - polar_angle(tip.cut(real(narrowest))));

    // How far the path lies inside the tooth, where there is an involute to compare it with.
    const auto inside = [&](const real& phi) {
        const vector3<> p = tip.cut(phi);
        const real r = radius(p);
        const real turn = r > g.base_radius ? g.flank_turn(r) : real(0);
        return real(polar_angle(p) - g.space_half_angle - turn);
    };
    const auto above_base = [&](const real& phi) { return real(radius(tip.cut(phi)) - g.base_radius); };
    const real at_base = root_between(above_base, real(0), result.end_angle);
    real phi = root_between(inside, at_base, result.end_angle);
    // The corner as two curves' common point, in coordinates.
    const real size = g.base_radius;
    std::array<real, 2> unknowns{phi, unwound_to(g.base_radius, radius(tip.cut(phi)))};
    const auto apart = [&](const std::array<real, 2>& x) {
        const vector3<> difference =
            tip.cut(x[0]) - turned(involute_point(g.base_radius, x[1]), g.space_half_angle);
        return std::array<real, 2>{real(difference.x / size), real(difference.y / size)};
    };
    // Curves that hardly cross have no corner to be found that way; the bracket holds it to 165 bits.
    const bool crosses = result.end_angle - phi > real("1e-18");
    if (crosses && !newton<2, real>(apart, unknowns, {real(1), real(1)}, real(1), 30)) {
        throw no_reference("fillet and involute were not brought to meet");
    }
    if (abs(real(unknowns[0] - phi)) > real("1e-20")) throw no_reference("fillet and involute meet somewhere else");
    result.end_angle = unknowns[0];
    result.form_radius = radius(involute_point(g.base_radius, unknowns[1]));
    const real t = unknowns[1];
    const vector3<> flank = turned(vector3<>{real(cos(t)), real(sin(t)), real(0)}, g.space_half_angle);
    result.sine_of_crossing = real(abs(cross(tip.tangent(unknowns[0], real("1e-17")), flank).z));
    return result;
}

} // namespace independent
