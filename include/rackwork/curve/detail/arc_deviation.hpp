// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How far an arc strays from the piece of an exact curve for which it stands, proved.
#ifndef RACKWORK_CURVE_DETAIL_ARC_DEVIATION_HPP
#define RACKWORK_CURVE_DETAIL_ARC_DEVIATION_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "exact_curve.hpp"
#include "interval.hpp"
#include "jet.hpp"
#include "proven_maximum.hpp"

#include <cmath>
#include <limits>

namespace rackwork::detail {

/// A circle, or a straight line, through a point in the direction of a unit tangent, with a signed curvature.
template <scalar T>
struct tangent_circle {
    point<T> start;
    point<T> tangent;
    T curvature{0};

    /// Signed distance of a point from it, positive to the left; also where it is a straight line.
    /// With p from the start, c across the tangent and k the curvature: (2 c - k p^2)/(1 + sqrt(1 - 2 k c + k^2 p^2)).
    template <scalar U>
    constexpr U distance(const point<U>& from_start) const {
        using std::sqrt;
        const U c = cross(point<U>{U(tangent.x), U(tangent.y)}, from_start);
        const U q = dot(from_start, from_start);
        const U k = U(curvature);
        return U(U(U(2) * c - k * q) / U(U(1) + U(sqrt(U(U(1) - U(2) * k * c + k * k * q)))));
    }
};

/// Bounds for the distance between an arc and the piece of the curve from which it starts and at which it ends.
///
/// Proof: a ray from the arc's centre meets the curve as often as the arc as long as the curve goes the arc's way round the centre, so that
/// no point is farther from the other one than along such a ray; a jet of intervals encloses that distance and the way.
template <scalar T>
distance_bounds<T> arc_deviation(const tangent_circle<T>& circle, const exact_curve<proof_jet<T>>& curve, const T& from, const T& to,
                                 const T& size, const T& allowed) {
    using J = proof_jet<T>;
    using I = interval<T>;
    struct expansion {
        point<J> distance; // and nothing, so that it can pass for a vector
        J along;           // the curve's velocity, as far as it goes the arc's way
    };
    const auto compared = [&](const point<J>& p) -> expansion {
        const point<J> from_start{p.x - J(I(circle.start.x)), p.y - J(I(circle.start.y))};
        // The arc's direction where the ray meets it, times something: the tangent, and k times the way from the start, turned left.
        const J k = J(I(circle.curvature));
        return {{circle.distance(from_start), J(0)},
                (J(I(circle.tangent.x)) - k * from_start.y) * p.x.derivative() +
                    (J(I(circle.tangent.y)) + k * from_start.x) * p.y.derivative()};
    };
    const auto bounds = [&](const T& a, const T& b) -> distance_bounds<T> {
        const T middle = T(a + (b - a) / T(2));
        const T w = half_width(a, b);
        const point<J> on_curve = curve.position(J::linear(I(middle), I(1)));
        const expansion here = compared(on_curve);
        const expansion wide = compared(narrowed(on_curve, curve.position(J::linear(I::around(middle, w), I(1))), w));
        const T bound = bound_of_length(here.distance, wide.distance, proof_coefficients - 1, w);
        const T reached = magnitude(here.distance.x[0].centre()) - here.distance.x[0].radius();
        return {is_finite(reached) ? larger(reached, T(0)) : T(0),
                wide.along[0].lower() > T(0) && is_finite(bound) ? bound : (std::numeric_limits<T>::max)()};
    };
    return proven_maximum(bounds, from, to, T(T(512) * epsilon<T>() * size), allowed, 1);
}

/// Arcs that follow one another, and their proven deviation from the curve.
template <scalar T>
struct arc_division {
    std::vector<point<T>> points;  // one more than arcs
    std::vector<T> turnings;       // radians
    T deviation{0};
};

} // namespace rackwork::detail

#endif
