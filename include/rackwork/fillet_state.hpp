// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A point of a root fillet while it is cut, with all that is needed of it. The same for every tool.
#ifndef RACKWORK_FILLET_STATE_HPP
#define RACKWORK_FILLET_STATE_HPP

#include "core/elementary.hpp"
#include "core/point.hpp"
#include "core/scalar.hpp"

namespace rackwork {

/// A point of a root fillet at the moment at which the tool cuts it, in the transverse section. At that moment the normal goes through the
/// pitch point, and the gear has turned by chi since the tool's tooth stood in the middle of the space.
template <scalar T>
struct fillet_state {
    /// Coordinates of the point when it is cut: along the line of centres, outward from the gear's axis, and across it.
    T radial;
    T lateral;
    /// Angle chi by which the gear has turned, radians.
    T turn;
    /// cos and sin of the angle between the line of centres and the tangent, going from the root land to the flank, when the point is
    /// cut. For a rack-type tool it is the transverse pressure angle of the cutting point, alpha'.
    T cos_pressure;
    T sin_pressure;
    /// d chi / d phi, radians.
    T turn_rate;
    /// Derivative of that angle with respect to phi, radians.
    T pressure_rate;
    /// d s / d phi: arc length over the parameter. Positive: s grows from the root land to the flank.
    T speed;

    /// Square of the distance from the gear's axis.
    constexpr T squared_radius() const { return T(square(radial) + square(lateral)); }
    /// Polar angle from the centre line of the space, radians.
    constexpr T polar_angle() const { return T(elementary::atan(T(lateral / radial)) + turn); }
    /// The point in the gear, x along the centre line of the space.
    constexpr point<T> position() const { return turned(point<T>{radial, lateral}, turn); }
    /// The unit tangent, pointing from the root land to the flank.
    constexpr point<T> tangent() const { return turned(point<T>{cos_pressure, sin_pressure}, turn); }
    /// How fast the tangent turns, over phi; negative clockwise. Zero at an inflection.
    constexpr T turning() const { return T(pressure_rate + turn_rate); }
    /// Signed curvature: negative where the fillet turns clockwise on its way to the flank, as it does on external gears unless the
    /// profile shift is large.
    constexpr T curvature() const { return T(turning() / speed); }
};

/// What is different at another point of a fillet. Not formed from two states, but without cancellation however near the two points are.
template <scalar T>
struct fillet_change {
    /// Of the angle chi by which the gear has turned, radians.
    T turn;
    /// Of the angle between the line of centres and the tangent, radians.
    T pressure;
    /// Of the distance of the point from the pitch point when it is cut.
    T reach;
};

} // namespace rackwork

#endif
