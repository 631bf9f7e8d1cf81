// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A part of an exact curve over a parameter from -1 to 1 in which its Taylor series converges fast: what a proof expands.
#ifndef RACKWORK_CURVE_DETAIL_LOCAL_CURVE_HPP
#define RACKWORK_CURVE_DETAIL_LOCAL_CURVE_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "../../form/segment.hpp"
#include "../offset_segment.hpp"
#include "exact_curve.hpp"
#include "interval.hpp"
#include "majorant.hpp"

#include <limits>
#include <tuple>
#include <variant>

namespace rackwork::detail {

/// A part of a segment in standard position, with a parameter x of its own from -1 to 1.
///
/// A fillet by a rack-type tool goes to infinity at the angles phi = +-90 degrees round the tool's rounding, and the end of the rounding
/// comes near. In terms of y = tan(phi/2) these are +-1, and +-i are singular as well: all on the unit circle, whose maps onto itself,
/// y = (y_0 + z)/(1 + y_0 z), can lay the middle of any part into the origin. So z = w x has its next singularity 1 away, whatever the part.
/// With phi_0 the angle in the middle,
///   e^(i phi) = -e^(-i phi_0) + 2 cos phi_0/(1 - i e^(i phi_0) z),
///   tan phi = -tan phi_0 + (tan phi_0 + 1/cos phi_0)/(1 - z) + (tan phi_0 - 1/cos phi_0)/(1 + z).
/// For other curves x goes in proportion to their own parameter.
template <scalar T>
class local_curve {
    using I = interval<T>;

public:
    local_curve(const offset_segment<T>& s, const T& from, const T& to) : segment_(s), from_(from), to_(to) {
        if (std::holds_alternative<trochoid<T>>(s.curve)) {
            const T a = tangent_of_half(from);
            const T b = tangent_of_half(to);
            const T sine = (a + b) / (T(1) + a * b);
            const T apart = (b - a) / (T(1) - a * b);
            origin_ = sine / (T(1) + elementary::sqrt(T((T(1) - sine) * (T(1) + sine))));
            tangent_ = T(2) * origin_ / ((T(1) - origin_) * (T(1) + origin_));
            reach_ = apart / (T(1) + elementary::sqrt(T((T(1) - apart) * (T(1) + apart))));
            const rack_trochoid<T>& shape = std::get<trochoid<T>>(s.curve).shape;
            secant_ = sqrt(I(1) + I(tangent_) * I(tangent_));
            inverse_cos_helix_ = I(1) / I(shape.cos_helix);
            inverse_rolling_radius_ = I(1) / I(shape.rolling_radius);
        } else {
            origin_ = from + (to - from) / T(2);
            reach_ = (to - from) / T(2);
        }
        // Nothing may fall between neighbouring parts for rounding.
        const T steepness = T(1) + square(tangent_);
        reach_ = T(reach_ + T(32) * epsilon<T>() * steepness * (reach_ + magnitude(origin_)));
    }

    /// The curve's own parameter, but for rounding.
    T parameter(const T& x) const {
        const T z = reach_ * x;
        if (!std::holds_alternative<trochoid<T>>(segment_.curve)) return T(origin_ + z);
        return T(T(2) * elementary::atan(T((origin_ + z) / (T(1) + origin_ * z))));
    }

    /// Encloses the point at x.
    point<I> position(const T& x) const {
        return std::visit([&](const auto& c) { return position_on(c, x); }, segment_.curve);
    }

    /// Majorises the curve over the whole part, its derivatives being with respect to x.
    template <int N>
    majorant<T, N> bounds() const {
        return std::visit([&](const auto& c) { return bounds_of<majorant<T, N>>(c); }, segment_.curve);
    }

private:
    static T tangent_of_half(const T& angle) { return elementary::tan(T(angle / T(2))); }

    template <class Curve>
    point<I> position_on(const Curve& c, const T& x) const {
        const I t = I(origin_) + I(reach_) * I(x);
        const auto exact = converted<I>(c);
        const point<I> p = exact.position(t);
        return segment_.distance == T(0) ? p : p + I(segment_.distance) * to_the_left(exact.tangent(t));
    }
    point<I> position_on(const trochoid<T>& c, const T& x) const {
        const I z = I(reach_) * I(x);
        const I more = I(1) + z * z;
        const I less = (I(1) - z) * (I(1) + z);
        const I twice = z + z;
        const I above = I(tangent_) * more + secant_ * twice;
        const I inverse_below = I(1) / (secant_ * more + I(tangent_) * twice);
        const I cosine = less * inverse_below;
        const I sine = above * inverse_below;
        // As rack_trochoid and fillet_state have it.
        const I depth = I(c.shape.centre_depth) + I(c.shape.tip_rounding) * cosine;
        const I lateral = I(c.shape.cos_helix) * depth * (above / less);
        const I along = (I(c.shape.centre_offset) + I(c.shape.tip_rounding) * sine) * inverse_cos_helix_;
        const I turn = (along - lateral) * inverse_rolling_radius_;
        point<I> p{I(c.shape.rolling_radius) - depth, lateral};
        if (segment_.distance != T(0)) {
            const I across = cosine * inverse_cos_helix_;
            const I size = I(segment_.distance) / sqrt(I(sine * sine + across * across));
            p = p + point<I>{-(size * across), size * sine};
        }
        return turned(p, direction(turn));
    }

    /// C = e^(i t) (r_b - i (r_b t - distance)).
    template <class M>
    M bounds_of(const involute<T>& c) const {
        M arm = M::constant(T(c.base_radius * (T(1) + larger(magnitude(from_), magnitude(to_)) + reach_) + magnitude(segment_.distance)));
        arm[1] = c.base_radius * reach_;
        return arm * M::circular(reach_);
    }
    template <class M>
    M bounds_of(const circle<T>& c) const {
        return T(c.radius + magnitude(segment_.distance)) * M::circular(reach_);
    }
    template <class M>
    M bounds_of(const trochoid<T>& c) const {
        constexpr int count = static_cast<int>(std::tuple_size_v<decltype(M::bounds)>);
        const T w = reach_;
        const T secant = elementary::sqrt(T(T(1) + square(tangent_)));
        const T sine = magnitude(tangent_) / secant;
        // |1 - i e^(i phi_0) z|^2 = 1 + 2 z sin phi_0 + z^2, least in -w or where the derivative is zero.
        const T nearest = elementary::sqrt(w < sine ? T(T(1) - T(2) * w * sine + square(w)) : T(T(1) / square(secant)));
        M circular; // of e^(i phi)
        M tangent;
        T of_circle = T(2) / (secant * nearest);
        T of_plus = (secant + tangent_) / (T(1) - w);
        T of_minus = (secant - tangent_) / (T(1) - w);
        for (int k = 0; k < count; ++k) {
            circular[k] = of_circle;
            tangent[k] = of_plus + of_minus;
            of_circle *= w / nearest;
            of_plus *= w / (T(1) - w);
            of_minus *= w / (T(1) - w);
        }
        circular[0] = T(1);
        tangent[0] = tangent_of_half_doubled();
        // The point before the gear turns: r - h_c - rho (cos - i cos beta sin) + i cos beta h_c tan.
        const T k = c.shape.cos_helix;
        const M lateral = T(k * magnitude(c.shape.centre_depth)) * tangent;
        M arm = M::constant(magnitude(T(c.shape.rolling_radius - c.shape.centre_depth))) + c.shape.tip_rounding * circular + lateral;
        if (segment_.distance != T(0)) {
            // The unit normal is that of an ellipse, (cos, cos beta sin)/root of (1 - sin^2 sin^2 beta).
            const T sine_of_helix = elementary::sqrt(T((T(1) - k) * (T(1) + k)));
            const M squared = square(sine_of_helix) * (circular * circular);
            arm = arm + magnitude(segment_.distance) * (circular * squared.root(square(k), T(T(1) / k), true));
        }
        const M turn = T(T(1) / c.shape.rolling_radius) * (T(c.shape.tip_rounding * (T(1) / k - k)) * circular + lateral);
        return arm * turn.turn();
    }
    /// Not less than |tan phi| anywhere.
    T tangent_of_half_doubled() const {
        const T y = (magnitude(origin_) + reach_) / (T(1) + magnitude(origin_) * reach_);
        return T(T(2) * y / ((T(1) - y) * (T(1) + y)));
    }
    template <class M>
    M bounds_of(const pinion_cut_fillet<T>& c) const {
        const pinion_trochoid<T>& s = c.shape;
        const M circular = M::circular(reach_);
        const M along = s.centre_radius * circular;
        const M across = along;
        // S^2 = (r_w0 - R sin)(r_w0 + R sin)
        T sine = larger(magnitude(elementary::sin(from_)), magnitude(elementary::sin(to_))) + reach_ * T(32) * epsilon<T>();
        if (magnitude(origin_) + reach_ > pi<T>() / T(2)) sine = T(1);
        const T least = (s.tool_rolling_radius - s.centre_radius * sine) * (s.tool_rolling_radius + s.centre_radius * sine) *
                        (T(1) - T(64) * epsilon<T>());
        if (!(least > T(0))) return (std::numeric_limits<T>::max)() * circular;
        const M squared = across * across;
        const M reach = squared.root(least, s.tool_rolling_radius, false);
        const M inverse = squared.root(least, T(T(1) / elementary::sqrt(least)), true);
        const M beyond = M::constant(s.tip_rounding) + reach + along;
        const T ratio = s.tool_rolling_radius / s.rolling_radius;
        M turn = (reach_ * (along * inverse)).integral(); // gamma' = R cos/S
        turn[1] += reach_;
        // (r_w - sigma L cos gamma, L sin gamma), with cos gamma = S/r_w0 and sin gamma = R sin/r_w0
        const M arm = M::constant(s.rolling_radius) + T(T(1) / s.tool_rolling_radius) * (beyond * (reach + across)) +
                      T(magnitude(segment_.distance) / s.tool_rolling_radius) * (reach + across);
        return arm * (ratio * turn).turn();
    }

    const offset_segment<T>& segment_;
    T from_;
    T to_;
    T origin_; // y_0, or the parameter in the middle
    T reach_;  // w
    // Of a fillet by a rack-type tool only.
    T tangent_{0}; // tan phi_0
    I secant_;     // 1/cos phi_0
    I inverse_cos_helix_;
    I inverse_rolling_radius_;
};

} // namespace rackwork::detail

#endif
