// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A piece of the parallel of an exact curve, exact itself.
#ifndef RACKWORK_CURVE_OFFSET_SEGMENT_HPP
#define RACKWORK_CURVE_OFFSET_SEGMENT_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../form/segment.hpp"

#include <variant>

namespace rackwork {

namespace detail {

/// The exact curves that a segment can be a piece of.
template <scalar T>
using any_curve = decltype(segment<T>::curve);

/// The vector turned counter-clockwise by a right angle.
template <scalar T>
constexpr point<T> to_the_left(const point<T>& a) {
    return {T(-a.y), a.x};
}

} // namespace detail

/// A piece of the curve at a constant distance from an exact curve, run through from `from` to `to`, with its end points. The parameter is
/// that of the exact curve. A circle's and an involute's parallels are again a circle and an involute and are kept as such.
template <scalar T>
struct offset_segment {
    detail::any_curve<T> curve;
    /// How far to the left of the curve, seen along its growing parameter; less than the radius of curvature on that side.
    T distance{0};
    /// The parameter at the start and at the end; it may fall on the way.
    T from{0};
    T to{0};
    point<T> start;
    point<T> end;
    /// True where the next segment goes on in another direction.
    bool corner_at_end = false;

    constexpr offset_segment() = default;
    /// The exact curve itself.
    constexpr offset_segment(const segment<T>& s)
        : curve(s.curve), from(s.from), to(s.to), start(s.start), end(s.end), corner_at_end(s.corner_at_end) {}

    /// The point at a parameter between `from` and `to`; at those two exactly `start` and `end`.
    constexpr point<T> position(const T& t) const {
        if (t == from) return start;
        if (t == to) return end;
        return on_curve(t);
    }
    /// The point at any parameter, also beyond the ends.
    constexpr point<T> on_curve(const T& t) const {
        return std::visit(
            [&](const auto& c) {
                const point<T> p = c.position(t);
                return distance == T(0) ? p : p + distance * detail::to_the_left(c.tangent(t));
            },
            curve);
    }
    /// The unit tangent in the running direction.
    constexpr point<T> tangent(const T& t) const {
        const point<T> growing = std::visit([&](const auto& c) { return c.tangent(t); }, curve);
        return to < from ? T(-1) * growing : growing;
    }
    /// Signed curvature in the running direction: positive where the segment turns counter-clockwise.
    constexpr T curvature(const T& t) const {
        const T k = std::visit([&](const auto& c) { return c.curvature(t); }, curve);
        return (to < from ? T(-k) : k) / (T(1) - distance * k);
    }
    /// Length of curve per unit of the parameter; not negative.
    constexpr T speed(const T& t) const {
        const auto of_curve = [&](const auto& c) {
            const T s = length(c.velocity(t));
            return distance == T(0) ? s : T(s * magnitude(T(T(1) - distance * c.curvature(t))));
        };
        return std::visit(of_curve, curve);
    }
    constexpr bool is_arc() const { return std::holds_alternative<circle<T>>(curve); }
};

} // namespace rackwork

#endif
