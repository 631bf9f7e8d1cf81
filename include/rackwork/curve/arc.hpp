// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Circular arcs and straight lines with their end points, as drawings, kernels and machine controls take them.
#ifndef RACKWORK_CURVE_ARC_HPP
#define RACKWORK_CURVE_ARC_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"

namespace rackwork {

/// A circular arc, or a straight line, from one point to another.
template <scalar T>
struct arc {
    point<T> start;
    point<T> end;
    /// Centre and radius of the circle; without a meaning for a straight line. Rounding apart, both ends lie on the circle.
    point<T> centre;
    T radius{0};
    /// The angle through which it turns, radians: positive counter-clockwise, 0 for a straight line.
    T turning{0};
    /// True where the next curve goes on in another direction.
    bool corner_at_end = false;

    constexpr bool is_line() const { return turning == T(0); }

    /// Unit tangent at the start: the chord's direction turned back by half the turning.
    constexpr point<T> tangent_at_start() const { return turned(chord_direction(), T(-turning / T(2))); }
    /// Unit tangent at the end.
    constexpr point<T> tangent_at_end() const { return turned(chord_direction(), T(turning / T(2))); }

    /// The point at a share of the length, 0 at the start and 1 at the end.
    constexpr point<T> position(const T& share) const {
        if (share == T(0)) return start;
        if (share == T(1)) return end;
        if (is_line()) return start + share * (end - start);
        // The chord from the start to the point turns half as fast as the arc.
        const T part = turning * share;
        const T chord = length(end - start) * (elementary::sin(T(part / T(2))) / elementary::sin(T(turning / T(2))));
        return start + chord * turned(tangent_at_start(), T(part / T(2)));
    }

private:
    constexpr point<T> chord_direction() const {
        const point<T> chord = end - start;
        return T(T(1) / length(chord)) * chord;
    }
};

/// The arc that leaves `start` in the direction of a unit tangent and ends in `end`; a straight line where it would turn by less than
/// `least_turning` radians.
template <scalar T>
constexpr arc<T> arc_from_tangent(const point<T>& start, const point<T>& tangent, const point<T>& end, const T& least_turning) {
    const point<T> chord = end - start;
    const T along = dot(tangent, chord);
    const T across = cross(tangent, chord);
    // The angle between tangent and chord, half of the turning; atan of a quarter keeps it right beyond 90 degrees.
    const T size = length(chord);
    const T turning = T(4) * elementary::atan(T(across / (size + along)));
    arc<T> result{.start = start, .end = end, .centre = start + T(T(1) / T(2)) * chord};
    if (!(magnitude(turning) > least_turning)) return result;
    result.turning = turning;
    const T signed_radius = square(size) / (T(2) * across); // positive: the centre lies to the left
    result.radius = magnitude(signed_radius);
    result.centre = start + signed_radius * point<T>{T(-tangent.y), tangent.x};
    return result;
}

} // namespace rackwork

#endif
