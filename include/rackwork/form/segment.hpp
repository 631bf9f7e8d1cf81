// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The exact curves of which a tooth form consists, and a piece of one with its end points.
#ifndef RACKWORK_FORM_SEGMENT_HPP
#define RACKWORK_FORM_SEGMENT_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../fillet_state.hpp"
#include "../pinion_trochoid.hpp"
#include "../rack_trochoid.hpp"
#include "fillet_area.hpp"

#include <variant>

namespace rackwork {

/// Circle. Parameter: the direction from its centre in radians, counter-clockwise from the x axis.
template <scalar T>
struct circle {
    point<T> centre;
    T radius;

    constexpr point<T> position(const T& t) const { return centre + radius * direction(t); }
    /// Derivative of the position with respect to the parameter.
    constexpr point<T> velocity(const T& t) const {
        const point<T> radial = direction(t);
        return {T(-radius * radial.y), T(radius * radial.x)};
    }
    /// Unit tangent in the sense of growing parameter.
    constexpr point<T> tangent(const T& t) const {
        const point<T> radial = direction(t);
        return {T(-radial.y), radial.x};
    }
    /// Signed curvature in the sense of growing parameter: positive when it turns counter-clockwise.
    constexpr T curvature(const T&) const { return T(T(1) / radius); }
    /// Area swept by the line from the gear's axis while the parameter goes from 0 to t; only differences have a meaning.
    /// 1/2 integral (x dy - y dx) = radius/2 (radius t + x_c sin t - y_c cos t).
    constexpr T swept_area(const T& t) const {
        const point<T> radial = direction(t);
        return T(radius / T(2) * (radius * t + centre.x * radial.y - centre.y * radial.x));
    }
};

/// Which way a curve leaves its starting line on its way outward.
enum class sense : signed char { clockwise = -1, counter_clockwise = 1 };

/// Involute of the base circle. Parameter: the roll angle in radians, that is the tangent of the pressure angle; 0 on the base circle.
template <scalar T>
struct involute {
    T base_radius;
    /// Polar angle of its starting point on the base circle, radians.
    T start_angle;
    /// The way its polar angle goes as its radius grows.
    sense unwinding;

    constexpr point<T> position(const T& t) const {
        return turned(point<T>{base_radius, T(-hand() * base_radius * t)}, T(start_angle + hand() * t));
    }
    constexpr point<T> velocity(const T& t) const {
        return T(base_radius * t) * direction(T(start_angle + hand() * t));
    }
    /// Radially outward on the base circle, where the velocity is zero.
    constexpr point<T> tangent(const T& t) const { return direction(T(start_angle + hand() * t)); }
    /// Infinite on the base circle.
    constexpr T curvature(const T& t) const { return T(hand() / (base_radius * t)); }
    /// 1/2 integral r^2 d(polar angle) = r_b^2 t^3 / 6.
    constexpr T swept_area(const T& t) const { return T(hand() * square(base_radius) * t * square(t) / T(6)); }

private:
    constexpr T hand() const { return T(static_cast<int>(unwinding)); }
};

/// Root fillet that the rounded tip of a tool cuts, in its place on a gear. Parameter: the angle phi round the rounding, radians, see
/// rack_trochoid and pinion_trochoid.
template <scalar T, class Shape>
struct root_fillet {
    Shape shape;
    /// Polar angle of the centre line of the space that it belongs to, radians.
    T space_angle;
    /// The side of the space on which it lies.
    sense side;

    constexpr point<T> position(const T& t) const { return placed(shape.at(t).position()); }
    constexpr point<T> velocity(const T& t) const {
        const fillet_state<T> at = shape.at(t);
        return placed(at.speed * at.tangent());
    }
    constexpr point<T> tangent(const T& t) const { return placed(shape.at(t).tangent()); }
    constexpr T curvature(const T& t) const { return T(T(static_cast<int>(side)) * shape.at(t).curvature()); }
    /// 1/2 integral (x dy - y dx), from the closed form or the quadrature of the shape.
    T swept_area(const T& t) const { return T(T(static_cast<int>(side)) * area_under(shape, t)); }

private:
    constexpr point<T> placed(const point<T>& p) const {
        return turned(side == sense::clockwise ? mirrored(p) : p, space_angle);
    }
};

/// Root fillet by a rack-type tool.
template <scalar T>
using trochoid = root_fillet<T, rack_trochoid<T>>;
/// Root fillet by a pinion-type cutter.
template <scalar T>
using pinion_cut_fillet = root_fillet<T, pinion_trochoid<T>>;

/// A piece of an exact curve, run through from `from` to `to`, with its end points. Neighbouring segments of an outline hold the very same
/// bits for the point that they share.
template <scalar T>
struct segment {
    std::variant<circle<T>, involute<T>, trochoid<T>, pinion_cut_fillet<T>> curve;
    /// The curve's parameter at the start and at the end; it may fall on the way.
    T from;
    T to;
    point<T> start;
    point<T> end;
    /// True where the next segment goes on in another direction: the edge of a tip, the corner of an undercut.
    bool corner_at_end = false;

    /// The point at a value of the curve's parameter between `from` and `to`; at those two exactly `start` and `end`.
    constexpr point<T> position(const T& t) const {
        if (t == from) return start;
        if (t == to) return end;
        return std::visit([&](const auto& c) { return c.position(t); }, curve);
    }
    /// The unit tangent in the running direction.
    constexpr point<T> tangent(const T& t) const {
        const point<T> u = std::visit([&](const auto& c) { return c.tangent(t); }, curve);
        return to < from ? point<T>{T(-u.x), T(-u.y)} : u;
    }
    /// Signed curvature in the running direction: positive where the segment turns counter-clockwise.
    constexpr T curvature(const T& t) const {
        const T k = std::visit([&](const auto& c) { return c.curvature(t); }, curve);
        return to < from ? T(-k) : k;
    }
    /// The segment's exact share in the enclosed area: what the line from the axis sweeps, counter-clockwise positive.
    T swept_area() const {
        return std::visit([&](const auto& c) { return T(c.swept_area(to) - c.swept_area(from)); }, curve);
    }
};

} // namespace rackwork

#endif
