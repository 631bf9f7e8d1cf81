// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The exact curves of which a tooth form consists, and a piece of one with its end points.
#ifndef RACKWORK_FORM_SEGMENT_HPP
#define RACKWORK_FORM_SEGMENT_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../rack_trochoid.hpp"

#include <cmath>
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

/// Root fillet that the rounded tip of a rack-type tool cuts. Parameter: the angle phi round the rounding, radians, see rack_trochoid.
template <scalar T>
struct trochoid {
    rack_trochoid<T> shape;
    /// Polar angle of the centre line of the space that it belongs to, radians.
    T space_angle;
    /// The side of the space on which it lies.
    sense side;

    constexpr point<T> position(const T& t) const { return placed(shape.position(shape.at(t))); }
    constexpr point<T> velocity(const T& t) const {
        const typename rack_trochoid<T>::state at = shape.at(t);
        return placed(at.speed * shape.tangent(at));
    }
    constexpr point<T> tangent(const T& t) const { return placed(shape.tangent(shape.at(t))); }
    constexpr T curvature(const T& t) const { return T(T(static_cast<int>(side)) * shape.curvature(shape.at(t))); }
    /// 1/2 integral (x dy - y dx), in closed form.
    T swept_area(const T& t) const { return T(T(static_cast<int>(side)) * swept_area_of_shape(t)); }

private:
    constexpr point<T> placed(const point<T>& p) const {
        return turned(side == sense::clockwise ? mirrored(p) : p, space_angle);
    }

    /// With p = (r - h) + i q turned by chi, x dy - y dx = (r - h) dq + q dh + ((r - h)^2 + q^2) d chi. Written in s = cos phi,
    /// k = cos beta, R = r - h_c (so that r - h = R - rho s) both parts are sums of powers of s:
    ///   (r - h) dq + q dh = k (R h_c/s^2 + R rho s - rho h_c (2/s - s) - rho^2) d phi       (h, q, chi as in rack_trochoid)
    ///   (r - h)^2 + q^2   = a_-2/s^2 + a_-1/s + a_0 + a_1 s + a_2 s^2
    ///   d chi             = (rho (1/k - k) s - k h_c/s^2)/r d phi
    /// and every integral of a power of cos phi is elementary.
    T swept_area_of_shape(const T& phi) const {
        using std::log;
        const T r = shape.rolling_radius;
        const T rho = shape.tip_rounding;
        const T hc = shape.centre_depth;
        const T k = shape.cos_helix;
        const T R = r - hc;

        const T s = elementary::cos(phi);
        const T c = elementary::sin(phi);
        const T tangent = c / s;
        // Integrals of s^n from 0 to phi for n = -4 ... 3.
        const T to_minus_1 = T(log(T((T(1) + c) / (T(1) - c)))) / T(2);
        const T to_minus_2 = tangent;
        const T to_minus_3 = (c / square(s) + to_minus_1) / T(2);
        const T to_minus_4 = tangent + tangent * square(tangent) / T(3);
        const T to_0 = phi;
        const T to_1 = c;
        const T to_2 = (phi + s * c) / T(2);
        const T to_3 = c - c * square(c) / T(3);

        const T moving = k * (R * hc * to_minus_2 + R * rho * to_1 - rho * hc * (T(2) * to_minus_1 - to_1) - square(rho) * to_0);

        const T squared_k = square(k);
        const T a_minus_2 = squared_k * square(hc);
        const T a_minus_1 = T(2) * squared_k * hc * rho;
        const T a_0 = square(R) + squared_k * (square(rho) - square(hc));
        const T a_1 = T(-2) * rho * (R + squared_k * hc);
        const T a_2 = square(rho) * (T(1) - squared_k);
        // d chi / d phi = up s - down/s^2. Divided by r here already: a product of three lengths may leave the range of T.
        const T up = rho / r * (T(1) / k - k);
        const T down = hc / r * k;
        const T turning = up * (a_minus_2 * to_minus_1 + a_minus_1 * to_0 + a_0 * to_1 + a_1 * to_2 + a_2 * to_3) -
                          down * (a_minus_2 * to_minus_4 + a_minus_1 * to_minus_3 + a_0 * to_minus_2 + a_1 * to_minus_1 + a_2 * to_0);
        return T((moving + turning) / T(2));
    }
};

/// A piece of an exact curve, run through from `from` to `to`, with its end points. Neighbouring segments of an outline hold the very same
/// bits for the point that they share.
template <scalar T>
struct segment {
    std::variant<circle<T>, involute<T>, trochoid<T>> curve;
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
