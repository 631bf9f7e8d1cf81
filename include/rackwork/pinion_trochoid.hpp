// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The curve that the rounded tip of a pinion-type cutter cuts into the root of an external or internal gear: the parallel of an
// epitrochoid or hypotrochoid.
#ifndef RACKWORK_PINION_TROCHOID_HPP
#define RACKWORK_PINION_TROCHOID_HPP

#include "core/elementary.hpp"
#include "core/scalar.hpp"
#include "fillet_state.hpp"

namespace rackwork {

/// Root fillet as a pinion-type cutter generates it, in the transverse section, where the cutter's tip rounding is a circle.
///
/// While the gear is made, the rolling circles of gear and cutter, r_w and r_w0, roll on each other at the pitch point. The rounding's
/// centre C lies in the cutter at the radius R and at the angle theta from the centre line of the cutter's tooth. The parameter phi is the
/// angle between the cutter's radius through C and the normal of the rounding: 0 at the root land, 90 degrees - alpha_C where the
/// rounding passes into the cutter's flank, with cos alpha_C = r_b0 / R.
///
/// A point of the rounding cuts when its normal goes through the pitch point. The normal at phi passes the cutter's axis at the distance
/// R sin phi and meets the rolling circle, with S = sqrt(r_w0^2 - R^2 sin^2 phi), at
///   t = S - R cos phi           beyond C, where it makes the angle
///   gamma = atan(R sin phi / S) with the cutter's radius, phi - gamma away from C.
/// So the cutter has to turn by theta + phi - gamma, the gear by chi = (theta + phi - gamma) r_w0 / r_w, and the cutting point then lies
/// L = rho - t beyond the pitch point: at (r_w - sigma L cos gamma, L sin gamma), with sigma = 1 for external, -1 for internal gears.
/// Turned by chi this is the point of the fillet.
template <scalar T>
struct pinion_trochoid {
    /// Radius of the gear's rolling circle while it is made, r_w.
    T rolling_radius;
    /// Radius of the cutter's rolling circle, r_w0.
    T tool_rolling_radius;
    /// Radius of the cutter's tip rounding, rho.
    T tip_rounding;
    /// Distance of the rounding's centre from the cutter's axis, R = d_a0/2 - rho.
    T centre_radius;
    /// Angle between the rounding's centre and the centre line of the cutter's tooth, theta, radians.
    T centre_angle;
    /// sigma: 1 for an external, -1 for an internal gear.
    T kind_sign;

    friend constexpr bool operator==(const pinion_trochoid& a, const pinion_trochoid& b) {
        return a.rolling_radius == b.rolling_radius && a.tool_rolling_radius == b.tool_rolling_radius &&
               a.tip_rounding == b.tip_rounding && a.centre_radius == b.centre_radius && a.centre_angle == b.centre_angle &&
               a.kind_sign == b.kind_sign;
    }

    using state = fillet_state<T>;

    constexpr state at(const T& phi) const {
        const T along = centre_radius * elementary::cos(phi);
        const T across = centre_radius * elementary::sin(phi);
        const T reach = elementary::sqrt(T((tool_rolling_radius - across) * (tool_rolling_radius + across))); // S
        // S - R cos phi = (r_w0^2 - R^2)/(S + R cos phi), which does not cancel where R is nearly r_w0.
        const T t = (tool_rolling_radius - centre_radius) * (tool_rolling_radius + centre_radius) / (reach + along);
        const T beyond = tip_rounding - t; // L
        const T cos_gamma = reach / tool_rolling_radius;
        const T sin_gamma = across / tool_rolling_radius;
        const T ratio = tool_rolling_radius / rolling_radius;
        const T cutter_turn = centre_angle + (phi - elementary::atan(T(across / reach)));
        // d gamma/d phi = R cos phi/S, so that d(phi - gamma)/d phi = t/S. The speed is the velocity's component along the tangent,
        // L d gamma/d phi + t - sigma L d chi/d phi.
        const T share = t / reach;
        return {.radial = T(rolling_radius - kind_sign * beyond * cos_gamma),
                .lateral = T(beyond * sin_gamma),
                .turn = T(cutter_turn * ratio),
                .cos_pressure = T(kind_sign * sin_gamma),
                .sin_pressure = cos_gamma,
                .turn_rate = T(share * ratio),
                .pressure_rate = T(-kind_sign * (along / reach)),
                .speed = T(tip_rounding - beyond * share * (T(1) + kind_sign * ratio))};
    }

    /// What is different on the way back from phi = `from` to from - `back`. The tangent leans by -gamma, times sigma.
    constexpr fillet_change<T> change_back(const T& from, const T& back) const {
        const T middle = from - back / T(2);
        const T half_chord = T(2) * centre_radius * elementary::sin(T(back / T(2)));
        const T across = centre_radius * elementary::sin(T(from - back));
        const T across_from = centre_radius * elementary::sin(from);
        const T reach = elementary::sqrt(T((tool_rolling_radius - across) * (tool_rolling_radius + across))); // S
        const T reach_from = elementary::sqrt(T((tool_rolling_radius - across_from) * (tool_rolling_radius + across_from)));
        const T nearer = half_chord * elementary::cos(middle); // R sin phi has become less by
        const T along = half_chord * elementary::sin(middle);  // R cos phi has become more by
        const T longer = nearer * (across + across_from) / (reach + reach_from); // S has
        const T less_gamma = elementary::atan(
            T((across_from * longer + reach_from * nearer) / (reach * reach_from + across * across_from)));
        return {.turn = T((less_gamma - back) * (tool_rolling_radius / rolling_radius)),
                .pressure = T(kind_sign * less_gamma),
                .reach = T(along - longer)};
    }
};

} // namespace rackwork

#endif
