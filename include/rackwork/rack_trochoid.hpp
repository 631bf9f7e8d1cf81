// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The curve that the rounded tip of a rack-type tool cuts into the root of a gear: an extended trochoid's parallel for a spur gear,
// the envelope of an ellipse for a helical one.
#ifndef RACKWORK_RACK_TROCHOID_HPP
#define RACKWORK_RACK_TROCHOID_HPP

#include "core/elementary.hpp"
#include "core/scalar.hpp"
#include "fillet_state.hpp"

namespace rackwork {

/// Root fillet as a rack-type tool generates it, in the transverse section.
///
/// The tool's tip rounding is a circle of radius rho in the normal section, so in the transverse section an ellipse with half axes
/// rho / cos beta along the pitch line and rho across it. The parameter phi is the angle round that circle from its deepest point:
/// 0 at the root land, 90 degrees - alpha_n where the rounding passes into the straight flank.
///
/// With the tool's tooth in the middle of the space, a point of the rounding lies
///   at depth     h(phi) = h_c + rho cos phi            below the rolling line of the tool, and
///   at distance  u(phi) = (u_c + rho sin phi)/cos beta from the tooth's centre line, measured along that line.
/// It cuts when its normal goes through the pitch point. The normal meets the rolling line at the distance
///   q(phi) = h cos beta tan phi                        from the foot of the point,
/// so the tool has to move by u - q and the gear turns by chi = (u - q)/r. At that moment the point stands at
/// (r - h, q), radially outward along the space's centre line and across it; turned by chi this is the point of the fillet.
template <scalar T>
struct rack_trochoid {
    /// Radius of the circle on which the tool rolls, r: half the reference diameter.
    T rolling_radius;
    /// Radius of the tool's tip rounding, rho, normal section.
    T tip_rounding;
    /// Depth of the rounding's centre below the rolling line, h_c = m_n (h_fP* - x_E) - rho.
    T centre_depth;
    /// Distance of the rounding's centre from the tool tooth's centre line, u_c, normal section.
    T centre_offset;
    /// cos beta at the reference cylinder.
    T cos_helix;

    friend constexpr bool operator==(const rack_trochoid& a, const rack_trochoid& b) {
        return a.rolling_radius == b.rolling_radius && a.tip_rounding == b.tip_rounding && a.centre_depth == b.centre_depth &&
               a.centre_offset == b.centre_offset && a.cos_helix == b.cos_helix;
    }

    using state = fillet_state<T>;

    constexpr state at(const T& phi) const {
        const T c = elementary::cos(phi);
        const T s = elementary::sin(phi);
        const T k = cos_helix;
        const T h = centre_depth + tip_rounding * c;
        const T q = h * k * (s / c);
        // Length of (cos beta sin phi, cos phi)/cos beta: the ellipse's normal before it is made a unit vector.
        const T e = elementary::sqrt(T(s * s + (c / k) * (c / k)));
        const T turn_rate = (tip_rounding * c * (T(1) / k - k) - k * centre_depth / (c * c)) / rolling_radius;
        return {.radial = T(rolling_radius - h),
                .lateral = q,
                .turn = T(((centre_offset + tip_rounding * s) / k - q) / rolling_radius),
                .cos_pressure = T(s / e),
                .sin_pressure = T(c / (k * e)),
                .turn_rate = turn_rate,
                .pressure_rate = T(T(-1) / (k * e * e)),
                .speed = T(e * (tip_rounding - k * h * turn_rate / c))};
    }

    /// What is different on the way back from phi = `from` to from - `back`, with cot alpha' = cos beta tan phi and the reach
    /// h / sin alpha'.
    constexpr fillet_change<T> change_back(const T& from, const T& back) const {
        const T k = cos_helix;
        const T phi = from - back;
        const T middle = from - back / T(2);
        const T twice_half = T(2) * elementary::sin(T(back / T(2)));
        const T c = elementary::cos(phi);
        const T c_from = elementary::cos(from);
        const T tangent = elementary::sin(phi) / c;
        const T tangent_from = elementary::sin(from) / c_from;
        // tan phi, sin phi and h.
        const T slope = -elementary::sin(back) / (c * c_from);
        const T aside = -twice_half * elementary::cos(middle);
        const T deeper = tip_rounding * twice_half * elementary::sin(middle);
        const T h = centre_depth + tip_rounding * c;
        const T h_from = centre_depth + tip_rounding * c_from;
        const T cosecant = elementary::sqrt(T(T(1) + square(T(k * tangent))));
        const T cosecant_from = elementary::sqrt(T(T(1) + square(T(k * tangent_from))));
        const T shorter = square(k) * slope * (tangent + tangent_from) / (cosecant + cosecant_from);
        return {.turn = T((tip_rounding * aside / k - k * (h * slope + deeper * tangent_from)) / rolling_radius),
                .pressure = T(elementary::atan(T(-k * slope / (T(1) + square(k) * tangent * tangent_from)))),
                .reach = T(deeper * cosecant + h_from * shorter)};
    }
};

} // namespace rackwork

#endif
