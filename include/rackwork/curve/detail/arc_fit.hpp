// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Arcs with common tangents laid along a piece of an exact curve, and how far they stray, proved.
#ifndef RACKWORK_CURVE_DETAIL_ARC_FIT_HPP
#define RACKWORK_CURVE_DETAIL_ARC_FIT_HPP

#include "../../core/elementary.hpp"
#include "../../core/error.hpp"
#include "../../core/point.hpp"
#include "../../core/root_finding.hpp"
#include "../../core/scalar.hpp"
#include "../arc.hpp"
#include "../offset_segment.hpp"
#include "exact_curve.hpp"
#include "interval.hpp"
#include "jet.hpp"
#include "natural_shares.hpp"
#include "proven_maximum.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <type_traits>
#include <variant>
#include <vector>

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
    const auto expanded = [&](const J& t, bool& on_the_way) {
        const point<J> p = curve.position(t);
        const point<J> from_start{p.x - J(I(circle.start.x)), p.y - J(I(circle.start.y))};
        // The arc's direction where the ray meets it: the tangent turned along, t + k rotated p.
        const I k(circle.curvature);
        const I along = (I(circle.tangent.x) - k * from_start.y[0]) * p.x[1] + (I(circle.tangent.y) + k * from_start.x[0]) * p.y[1];
        on_the_way = along.lower() > T(0);
        return point<J>{circle.distance(from_start), J(0)};
    };
    const auto bounds = [&](const T& a, const T& b) -> distance_bounds<T> {
        const T middle = T(a + (b - a) / T(2));
        const T w = half_width(a, b);
        bool on_the_way = false;
        const point<J> here = expanded(J::linear(I(middle), I(1)), on_the_way);
        const point<J> wide = expanded(J::linear(I::around(middle, w), I(1)), on_the_way);
        const T bound = bound_of_length(here, wide, proof_coefficients - 1, w);
        const T reached = magnitude(here.x[0].centre()) - here.x[0].radius();
        return {is_finite(reached) ? larger(reached, T(0)) : T(0),
                on_the_way && is_finite(bound) ? bound : (std::numeric_limits<T>::max)()};
    };
    return proven_maximum(bounds, from, to, T(T(512) * epsilon<T>() * size), allowed);
}

/// Arcs that follow one another, and their proven deviation from the curve.
template <scalar T>
struct arc_division {
    std::vector<point<T>> points;  // one more than arcs
    std::vector<T> turnings;       // radians
    T deviation{0};
};

/// Lays arcs along a piece of a curve.
///
/// The joints lie on the curve. The first arc leaves in the curve's direction and each next one in that of the arc before it: an arc ends in
/// the direction in which it began, mirrored in its chord. The joints are shared out so that all arcs are equally near: the distance of an
/// arc of length l is 0.0080 k' l^3, k' being the rate at which the curvature changes, so it is the integral of the cube root of k' that is
/// shared out; the first and last arc, which have the curve's own direction at one end, get 0.7 shares. Shifting every other joint by the
/// same share, a little, makes the last arc end in the curve's direction.
///
/// For comparison: arcs that need not meet at all reach 0.0052 k' l^3, so that no sequence of arcs can do with less than 0.86 times as many;
/// pairs of arcs that have the curve's direction at every other joint reach 0.0247 k' l^3 and need 1.45 times as many.
template <scalar T>
class arc_fitter {
public:
    arc_fitter(const offset_segment<T>& curve, const T& tolerance)
        : curve_(curve), exact_(curve), tolerance_(tolerance), size_(larger(length(curve.start), length(curve.end))),
          shares_(weight(), curve.from, curve.to) {}

    /// The arcs; none where `most_arcs` do not give the tolerance.
    arc_division<T> divided(int most_arcs) const {
        // Shares of one arc at the tolerance, from the distance above; a few arcs less are tried first.
        const double per_arc = std::cbrt(static_cast<double>(tolerance_) / 0.00802);
        const double expected = static_cast<double>(shares_.total()) / per_arc;
        int count = expected < most_arcs ? std::max(1, static_cast<int>(expected * 0.95) - 1) : 1;
        for (; count <= most_arcs; ++count) {
            std::vector<T> joints;
            if (!joints_of(count, joints)) continue;
            const std::vector<tangent_circle<T>> circles = circles_through(joints);
            T deviation = T(0);
            for (std::size_t i = 0; i < circles.size() && deviation <= tolerance_; ++i) {
                deviation = larger(deviation, sampled_distance(circles[i], joints[i], joints[i + 1]));
            }
            // While one is still far off, several arcs more will be needed.
            if (deviation > tolerance_) {
                const double factor = std::cbrt(static_cast<double>(deviation / tolerance_));
                if (factor > 1.2) count += static_cast<int>(count * (std::min(factor, 4.) - 1.1));
                continue;
            }
            deviation = T(0);
            for (std::size_t i = 0; i < circles.size() && deviation <= tolerance_; ++i) {
                deviation = larger(deviation, arc_deviation(circles[i], exact_, joints[i], joints[i + 1], size_, tolerance_).bound);
            }
            if (deviation <= tolerance_) return made(joints, circles, deviation);
        }
        return {};
    }

private:
    /// Cube root of the rate of the curvature, per unit of the parameter.
    auto weight() const {
        const bool natural = std::visit(
            [](const auto& c) { return has_natural_parameter<std::remove_cvref_t<decltype(c)>>; }, curve_.curve);
        const T step = (curve_.to - curve_.from) / T(1024);
        const auto rate = [this, step](const T& t) {
            const T low = larger(T(t - step), curve_.from);
            const T high = smaller(T(t + step), curve_.to);
            const T change = magnitude(T((curve_.curvature(high) - curve_.curvature(low)) / (high - low)));
            return T(elementary::cbrt_estimate(T(change * square(curve_.speed(t)))));
        };
        // An involute's rate is the same everywhere for its own parameter.
        const T everywhere = natural ? rate(curve_.to) : T(0);
        T mean = T(0);
        constexpr int samples = 16;
        for (int i = 0; i < samples && !natural; ++i) {
            mean += rate(T(curve_.from + (curve_.to - curve_.from) * T(2 * i + 1) / T(2 * samples))) / T(samples);
        }
        // Where the curvature is greatest or least its rate is 0, but arcs cannot be endless there.
        return [=](const T& t) { return natural ? everywhere : T(rate(t) + mean / T(8)); };
    }

    /// The joints for a number of arcs; false if they do not come out in the right direction.
    bool joints_of(int count, std::vector<T>& joints) const {
        const T whole = T(count) - T(6) / T(10);
        const auto shifted = [&](const T& shift) {
            joints.assign(1, curve_.from);
            for (int i = 1; i < count; ++i) {
                const T share = (T(i) - T(3) / T(10) + (i % 2 == 1 ? shift : T(0))) / whole;
                joints.push_back(shares_.parameter(share));
            }
            joints.push_back(curve_.to);
        };
        if (count == 1) {
            shifted(T(0));
            return magnitude(missed_direction(joints)) * length(curve_.end - curve_.start) <= T(64) * epsilon<T>() * size_;
        }
        const auto missed = [&](const T& shift) {
            shifted(shift);
            return missed_direction(joints);
        };
        const T reach = T(3) / T(10);
        const T below = missed(T(-reach));
        const T above = missed(reach);
        if (!((below < T(0)) != (above < T(0)))) return false;
        shifted(bracketed_root(missed, T(-reach), reach));
        return true;
    }

    /// The direction in which an arc ends: the one in which it began, mirrored in its chord.
    static point<T> direction_at_end(const point<T>& tangent, const point<T>& chord) {
        return T(T(2) * dot(tangent, chord) / dot(chord, chord)) * chord - tangent;
    }

    /// Sine of the angle between the last arc's direction and the curve's.
    T missed_direction(const std::vector<T>& joints) const {
        point<T> tangent = curve_.tangent(joints.front());
        point<T> before = curve_.start;
        for (std::size_t i = 1; i < joints.size(); ++i) {
            const point<T> here = curve_.position(joints[i]);
            tangent = direction_at_end(tangent, here - before);
            before = here;
        }
        return cross(tangent, curve_.tangent(joints.back()));
    }

    std::vector<tangent_circle<T>> circles_through(const std::vector<T>& joints) const {
        std::vector<tangent_circle<T>> circles;
        point<T> tangent = curve_.tangent(joints.front());
        point<T> before = curve_.start;
        for (std::size_t i = 1; i < joints.size(); ++i) {
            const point<T> here = curve_.position(joints[i]);
            const point<T> chord = here - before;
            circles.push_back({before, tangent, T(T(2) * cross(tangent, chord) / dot(chord, chord))});
            tangent = direction_at_end(tangent, chord);
            tangent = T(T(1) / length(tangent)) * tangent;
            before = here;
        }
        return circles;
    }

    T sampled_distance(const tangent_circle<T>& circle, const T& from, const T& to) const {
        constexpr int samples = 8;
        T greatest = T(0);
        for (int i = 1; i < samples; ++i) {
            const T t = T(from + (to - from) * (T(i) / T(samples)));
            greatest = larger(greatest, magnitude(circle.distance(curve_.position(t) - circle.start)));
        }
        return greatest;
    }

    arc_division<T> made(const std::vector<T>& joints, const std::vector<tangent_circle<T>>& circles, const T& deviation) const {
        arc_division<T> result;
        result.points.push_back(curve_.start);
        for (std::size_t i = 0; i < circles.size(); ++i) {
            result.points.push_back(curve_.position(joints[i + 1]));
            const point<T> chord = result.points[i + 1] - result.points[i];
            // Less than this cannot be told from a straight line by the end points, rounded as they are.
            const T least = T(32) * epsilon<T>() * size_ / length(chord);
            result.turnings.push_back(arc_from_tangent(circles[i].start, circles[i].tangent, result.points[i + 1], least).turning);
        }
        // The tangents, mirrored as often as there are arcs, and the ends are rounded.
        result.deviation = deviation + T(64) * epsilon<T>() * size_;
        return result;
    }

    offset_segment<T> curve_;
    exact_curve<proof_jet<T>> exact_;
    T tolerance_;
    T size_;
    integral_table<T> shares_;
};

/// The parameters between which the curvature of a piece only grows or only falls, both ends included.
template <scalar T>
std::vector<T> monotonic_parts(const offset_segment<T>& s) {
    constexpr int samples = 48;
    const T step = (s.to - s.from) / T(samples);
    const T nearby = step / T(32);
    const auto rate = [&](const T& t) { return T(s.curvature(T(t + nearby)) - s.curvature(T(t - nearby))); };
    std::vector<T> ends{s.from};
    T before = rate(T(s.from + step / T(2)));
    for (int i = 1; i < samples; ++i) {
        const T t = s.from + (T(i) + T(1) / T(2)) * step;
        const T here = rate(t);
        if ((here < T(0)) != (before < T(0))) ends.push_back(bracketed_root(rate, T(t - step), t));
        before = here;
    }
    ends.push_back(s.to);
    return ends;
}

/// A piece of a curve as arcs. Where its curvature is greatest or least on the way, arcs from either end to there are tried as well, which
/// have the curve's direction there.
/// Throws geometry_error where no number of arcs within reason gives the tolerance.
template <scalar T>
arc_division<T> divided_into_arcs(const offset_segment<T>& curve, const T& tolerance) {
    constexpr int most_arcs = 1 << 16;
    const std::vector<T> ends = monotonic_parts(curve);
    arc_division<T> in_parts;
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
        offset_segment<T> part = curve;
        part.from = ends[i];
        part.to = ends[i + 1];
        part.start = curve.position(part.from);
        part.end = curve.position(part.to);
        const arc_division<T> more = arc_fitter<T>(part, tolerance).divided(most_arcs);
        if (more.turnings.empty()) impossible_geometry({"tolerance", static_cast<double>(tolerance), "is too small for arcs", 0, false});
        in_parts.points.insert(in_parts.points.end(), more.points.begin() + (i == 0 ? 0 : 1), more.points.end());
        in_parts.turnings.insert(in_parts.turnings.end(), more.turnings.begin(), more.turnings.end());
        in_parts.deviation = larger(in_parts.deviation, more.deviation);
    }
    if (ends.size() == 2 || in_parts.turnings.size() == 1) return in_parts;
    const arc_division<T> in_one = arc_fitter<T>(curve, tolerance).divided(static_cast<int>(in_parts.turnings.size()) - 1);
    return in_one.turnings.empty() ? in_parts : in_one;
}

} // namespace rackwork::detail

#endif
