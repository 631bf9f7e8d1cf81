// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What the approximations need to know of each kind of exact curve: its form at another scalar type, and its standard position.
#ifndef RACKWORK_CURVE_DETAIL_EXACT_CURVE_HPP
#define RACKWORK_CURVE_DETAIL_EXACT_CURVE_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "../../form/segment.hpp"
#include "../../pinion_trochoid.hpp"
#include "../../rack_trochoid.hpp"
#include "../offset_segment.hpp"

#include <type_traits>
#include <utility>
#include <variant>

namespace rackwork::detail {

// The very same curve, to the bit, for a scalar type that holds every number of T.
template <scalar U, scalar T>
constexpr circle<U> converted(const circle<T>& c) {
    return {{U(c.centre.x), U(c.centre.y)}, U(c.radius)};
}
template <scalar U, scalar T>
constexpr involute<U> converted(const involute<T>& c) {
    return {U(c.base_radius), U(c.start_angle), c.unwinding};
}
template <scalar U, scalar T>
constexpr trochoid<U> converted(const trochoid<T>& c) {
    return {rack_trochoid<U>{U(c.shape.rolling_radius), U(c.shape.tip_rounding), U(c.shape.centre_depth), U(c.shape.centre_offset),
                             U(c.shape.cos_helix)},
            U(c.space_angle), c.side};
}
template <scalar U, scalar T>
constexpr pinion_cut_fillet<U> converted(const pinion_cut_fillet<T>& c) {
    return {pinion_trochoid<U>{U(c.shape.rolling_radius), U(c.shape.tool_rolling_radius), U(c.shape.tip_rounding),
                               U(c.shape.centre_radius), U(c.shape.centre_angle), U(c.shape.kind_sign)},
            U(c.space_angle), c.side};
}

/// The whole curve of an offset_segment for another scalar type, without the rounded end points.
template <scalar U>
class exact_curve {
public:
    template <scalar T>
    constexpr explicit exact_curve(const offset_segment<T>& s)
        : curve_(std::visit([](const auto& c) { return any_curve<U>(converted<U>(c)); }, s.curve)), distance_(U(s.distance)),
          is_parallel_(s.distance != T(0)) {}

    constexpr point<U> position(const U& t) const {
        return std::visit(
            [&](const auto& c) {
                const point<U> p = c.position(t);
                return is_parallel_ ? p + distance_ * to_the_left(c.tangent(t)) : p;
            },
            curve_);
    }

private:
    any_curve<U> curve_;
    U distance_;
    bool is_parallel_;
};

/// Where a curve in standard position comes to lie: it may be mirrored in the x axis, is turned about the origin, and may be run through
/// from its end to its start.
template <scalar T>
struct standing {
    bool mirrored = false;
    point<T> axis{T(1), T(0)};
    bool reversed = false;

    constexpr point<T> operator()(const point<T>& p) const { return turned(mirrored ? rackwork::mirrored(p) : p, axis); }
};

// The curve in standard position. The flanks and fillets of all teeth of a gear, right and left, have the same one.
template <scalar T>
constexpr std::pair<circle<T>, standing<T>> standardised(const circle<T>& c) {
    return {c, {}};
}
template <scalar T>
constexpr std::pair<involute<T>, standing<T>> standardised(const involute<T>& c) {
    return {involute<T>{c.base_radius, T(0), sense::counter_clockwise}, {c.unwinding == sense::clockwise, direction(c.start_angle)}};
}
template <scalar T, class Shape>
constexpr std::pair<root_fillet<T, Shape>, standing<T>> standardised(const root_fillet<T, Shape>& c) {
    return {root_fillet<T, Shape>{c.shape, T(0), sense::counter_clockwise}, {c.side == sense::clockwise, direction(c.space_angle)}};
}

/// True for curves whose parameter itself is a good one for polynomials.
template <class Curve>
inline constexpr bool has_natural_parameter = false;
template <scalar T>
inline constexpr bool has_natural_parameter<involute<T>> = true;

inline constexpr auto same_curve = [](const auto& a, const auto& b) {
    using A = std::remove_cvref_t<decltype(a)>;
    using B = std::remove_cvref_t<decltype(b)>;
    if constexpr (!std::is_same_v<A, B>) {
        return false;
    } else if constexpr (requires { a.shape == b.shape; }) {
        return a.shape == b.shape;
    } else if constexpr (requires { a.base_radius; }) {
        return a.base_radius == b.base_radius;
    } else {
        return a.centre == b.centre && a.radius == b.radius;
    }
};

/// A segment in standard position, run through in the sense of growing parameter, and where it stands.
template <scalar T>
struct standard_segment {
    /// Without its end points, unless it is an arc.
    offset_segment<T> shape;
    standing<T> where;

    constexpr explicit standard_segment(const offset_segment<T>& s) {
        std::visit(
            [&](const auto& c) {
                const auto standard = standardised(c);
                shape.curve = standard.first;
                where = standard.second;
            },
            s.curve);
        where.reversed = s.to < s.from;
        shape.distance = where.mirrored ? T(-s.distance) : s.distance;
        shape.from = smaller(s.from, s.to);
        shape.to = larger(s.from, s.to);
        if (s.is_arc()) shape = shape_with_ends();
    }

    /// The shape with its end points, which it lacks otherwise: only one of many alike needs them.
    constexpr offset_segment<T> shape_with_ends() const {
        offset_segment<T> result = shape;
        result.start = shape.on_curve(shape.from);
        result.end = shape.on_curve(shape.to);
        return result;
    }

    /// True for segments of which one is the other, turned, mirrored or reversed; parameters may differ in their last places.
    constexpr bool alike(const standard_segment& other) const {
        const T rounding = T(1 << 10) * epsilon<T>() * (T(1) + magnitude(shape.from) + magnitude(shape.to));
        return shape.distance == other.shape.distance && magnitude(T(shape.from - other.shape.from)) <= rounding &&
               magnitude(T(shape.to - other.shape.to)) <= rounding &&
               std::visit([](const auto& a, const auto& b) { return same_curve(a, b); }, shape.curve, other.shape.curve);
    }
};

} // namespace rackwork::detail

#endif
