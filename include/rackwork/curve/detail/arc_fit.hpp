// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Arcs with common tangents laid along a piece of an exact curve.
#ifndef RACKWORK_CURVE_DETAIL_ARC_FIT_HPP
#define RACKWORK_CURVE_DETAIL_ARC_FIT_HPP

#include "../../core/elementary.hpp"
#include "../../core/error.hpp"
#include "../../core/point.hpp"
#include "../../core/root_finding.hpp"
#include "../../core/scalar.hpp"
#include "../arc.hpp"
#include "../offset_segment.hpp"
#include "arc_deviation.hpp"
#include "exact_curve.hpp"
#include "natural_shares.hpp"
#include "proven_maximum.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

namespace rackwork::detail {

/// Table of the cube root of the rate at which the curvature changes along a curve, k'^(1/3), times the length of curve per unit of the
/// parameter, with the sign of k'; linear in between. It serves to choose joints; no proof rests on it.
template <scalar T>
class rate_table {
public:
    explicit rate_table(const offset_segment<T>& s) : from_(s.from), to_(s.to) {
        const T width = (to_ - from_) / T(intervals);
        for (int i = 0; i <= intervals; ++i) {
            // Not quite at the ends: on its base circle an involute has no curvature.
            const T t = smaller(larger(T(from_ + T(i) * width), T(from_ + width / T(16))), T(to_ - width / T(16)));
            const T step = width / T(32);
            const T rate = (s.curvature(T(t + step)) - s.curvature(T(t - step))) / (T(2) * step);
            values_[index(i)] = elementary::cbrt_estimate(T(rate * square(s.speed(t))));
        }
        for (int i = 0; i < intervals; ++i) {
            sums_[index(i + 1)] =
                sums_[index(i)] + (magnitude(values_[index(i)]) + magnitude(values_[index(i + 1)])) / T(2) * width;
        }
    }

    T per_parameter(const T& t) const {
        const place p = place_of(t);
        return T((T(1) - p.share) * values_[index(p.interval)] + p.share * values_[index(p.interval + 1)]);
    }
    /// Its integral without signs from the beginning.
    T integral(const T& t) const {
        const place p = place_of(t);
        return T((T(1) - p.share) * sums_[index(p.interval)] + p.share * sums_[index(p.interval + 1)]);
    }
    const T& total() const { return sums_[intervals]; }
    /// The parameter at which the integral has a value.
    T parameter(const T& sum) const {
        int low = 0;
        int high = intervals;
        while (high - low > 1) {
            const int between = (low + high) / 2;
            (sums_[index(between)] < sum ? low : high) = between;
        }
        const T step = sums_[index(high)] - sums_[index(low)];
        const T share = step > T(0) ? T((sum - sums_[index(low)]) / step) : T(0);
        return T(from_ + (to_ - from_) * ((T(low) + share) / T(intervals)));
    }

private:
    static constexpr int intervals = 64;

    struct place {
        int interval;
        T share;
    };
    place place_of(const T& t) const {
        const T x = (t - from_) / (to_ - from_) * T(intervals);
        const int i = x > T(0) ? (std::min)(whole_part(smaller(x, T(intervals))), intervals - 1) : 0;
        return {i, smaller(larger(T(x - T(i)), T(0)), T(1))};
    }

    T from_;
    T to_;
    std::array<T, intervals + 1> values_{};
    std::array<T, intervals + 1> sums_{};
};

/// Lays arcs along a piece of a curve.
///
/// The joints lie on the curve. The first arc leaves in the curve's direction and each next one in that of the arc before it: an arc
/// ends in the direction in which it began, mirrored in its chord. Where the curvature changes at the rate k', arcs of the length l are
/// nearest if they cross the curve in the middle and at their ends, there at the angle k' l^2/12; their distance is then 0.0080 k' l^3.
/// So equally near arcs have k' l^3 in common, say a^3, and cross at the angle a^2 k'^(1/3)/12. Each joint is put where its arc does
/// that; a is chosen so that the last arc ends in the curve's own direction.
///
/// For comparison: arcs that need not meet at all reach 0.0052 k' l^3, so that no sequence of arcs can do with less than 0.86 times as
/// many; pairs of arcs that have the curve's direction at every other joint reach 0.0247 k' l^3 and need 1.45 times as many.
template <scalar T>
class arc_fitter {
public:
    arc_fitter(const offset_segment<T>& curve, const T& tolerance)
        : curve_(curve), exact_(curve), tolerance_(tolerance), size_(larger(length(curve.start), length(curve.end))),
          rates_(curve) {}

    /// The arcs; none where `most_arcs` do not give the tolerance.
    arc_division<T> divided(int most_arcs) const {
        // The integral of k'^(1/3) is a for every arc.
        const double expected = static_cast<double>(rates_.total()) / std::cbrt(static_cast<double>(tolerance_) / 0.00802);
        if (!(expected < 1e6)) return {};
        // The distance falls with the cube of their number (the first and the last are shorter), which says what to try next.
        const int last = (std::min)(most_arcs, static_cast<int>(4 * expected) + 64);
        int count = (std::min)((std::max)(1, static_cast<int>(expected)), last);
        int too_few = 0;
        arc_division<T> best;
        while (too_few < last) {
            T deviation = T(0);
            arc_division<T> found = divided_by(count, deviation);
            const double ratio = std::cbrt(static_cast<double>(deviation / tolerance_));
            const int predicted = ratio > 0 && ratio < 4 ? static_cast<int>((count - 0.6) * ratio + 0.6) : count + 1;
            if (found.turnings.empty()) {
                too_few = count;
                count = (std::max)(count + 1, predicted);
                if (!best.turnings.empty()) count = (std::min)(count, static_cast<int>(best.turnings.size()) - 1);
            } else {
                best = std::move(found);
                count = (std::min)(count - 1, (std::max)(too_few + 1, predicted));
            }
            if (count <= too_few) break;
            count = (std::min)(count, last);
        }
        return best;
    }

private:
    /// So many arcs, or none if they are not near enough; and how near, as far as it is known, or 0.
    arc_division<T> divided_by(int count, T& deviation) const {
        std::vector<T> joints;
        if (!joints_of(count, joints)) return {};
        const std::vector<tangent_circle<T>> circles = circles_through(joints);
        for (std::size_t i = 0; i < circles.size(); ++i) {
            deviation = larger(deviation, sampled_distance(circles[i], joints[i], joints[i + 1]));
        }
        if (!(deviation <= tolerance_)) return {};
        T proven = T(0);
        for (std::size_t i = 0; i < circles.size(); ++i) {
            proven = larger(proven, arc_deviation(circles[i], exact_, joints[i], joints[i + 1], size_, tolerance_).bound);
            if (!(proven <= tolerance_)) return {};
        }
        return made(joints, circles, proven);
    }

    /// Cube root of the rate at which the curvature changes along the curve, with its sign.
    T root_of_rate(const T& t) const {
        return T(rates_.per_parameter(t) / larger(curve_.speed(t), T((std::numeric_limits<T>::min)())));
    }

    /// The angle at which an arc that ends at a parameter is to cross the curve.
    T wanted_angle(const T& t, const T& a) const { return T(square(a) * root_of_rate(t) / T(12)); }

    struct joint {
        T t;
        point<T> position;
        point<T> direction; // the arc's
    };

    joint joint_at(const joint& before, const T& t) const {
        const point<T> here = curve_.position(t);
        return {t, here, direction_at_end(before.direction, here - before.position)};
    }

    /// How far the curve's direction lies to the left of an arc's that ends there.
    T crossing_angle(const joint& j) const { return cross(j.direction, curve_.tangent(j.t)); }

    /// Puts the joint after another one; false if the curve is too short. Where exactly it comes to lie is of no importance.
    bool put_joint(const joint& before, const T& a, joint& next) const {
        // The crossing angle grows as the square of the length, from its opposite to what is wanted over the integral a.
        const T done = rates_.integral(before.t);
        const T scale = T(2) * wanted_angle(rates_.parameter(smaller(T(done + a / T(2)), rates_.total())), a);
        if (scale == T(0)) return false;
        const T share = crossing_angle(before) / scale + T(1) / T(2);
        T squared = smaller(larger(share, T(1) / T(16)), T(4)); // of the share of a to go
        for (int round = 0; round < 3; ++round) {
            const T sum = done + a * elementary::sqrt(squared);
            if (!(sum < rates_.total())) return false;
            next = joint_at(before, rates_.parameter(sum));
            if (!(before.t < next.t && next.t < curve_.to)) return false;
            const T excess = crossing_angle(next) - wanted_angle(next.t, a);
            squared = smaller(larger(T(squared - excess / scale), T(squared / T(4))), T(T(4) * squared));
        }
        return true;
    }

    /// Puts the joints for a, all but the last; false if the curve is too short for them.
    bool put_joints(int count, const T& a, std::vector<joint>& joints) const {
        joints.assign(1, {curve_.from, curve_.start, curve_.tangent(curve_.from)});
        for (int i = 1; i < count; ++i) {
            joint next;
            if (!put_joint(joints.back(), a, next)) return false;
            joints.push_back(next);
        }
        return true;
    }

    /// The joints for a number of arcs; false if they do not come out in the right direction.
    bool joints_of(int count, std::vector<T>& result) const {
        std::vector<joint> joints;
        const T guess = rates_.total() / (T(count) - T(6) / T(10));
        const auto parameters = [&] {
            result.clear();
            for (const joint& j : joints) result.push_back(j.t);
            result.push_back(curve_.to);
        };
        if (count == 1) {
            put_joints(1, guess, joints);
            parameters();
            return is_negligible(crossing_angle(joint_at(joints.back(), curve_.to)));
        }
        const T sign = rates_.per_parameter(curve_.to) < T(0) ? T(-1) : T(1);
        // Positive while the last arc is too long, that is, a too small.
        const auto missed = [&](const T& a) {
            if (!put_joints(count, a, joints)) return T(-1);
            return T(sign * crossing_angle(joint_at(joints.back(), curve_.to)));
        };
        T low = guess;
        T high = guess;
        T step = guess / T(64);
        constexpr int most_tries = 6;
        const bool too_small = missed(guess) > T(0);
        for (int tries = 0; tries < most_tries && (missed(too_small ? high : low) > T(0)) == too_small; ++tries) {
            (too_small ? low : high) = too_small ? high : low;
            (too_small ? high : low) += too_small ? step : T(-step);
            step *= T(2);
        }
        if (!(missed(low) > T(0)) || !(missed(high) < T(0))) return false;
        const T a = bracketed_root(missed, low, high);
        const bool complete = put_joints(count, a, joints);
        parameters();
        return complete && is_negligible(crossing_angle(joint_at(joints.back(), curve_.to)));
    }

    bool is_negligible(const T& angle) const {
        return magnitude(angle) * length(curve_.end - curve_.start) <= T(256) * epsilon<T>() * size_;
    }

    /// The direction in which an arc ends: the one in which it began, mirrored in its chord.
    static point<T> direction_at_end(const point<T>& tangent, const point<T>& chord) {
        return T(T(2) * dot(tangent, chord) / dot(chord, chord)) * chord - tangent;
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
    rate_table<T> rates_;
};

/// The parameters between which the curvature of a piece only grows or only falls, both ends included.
template <scalar T>
std::vector<T> monotonic_parts(const offset_segment<T>& s) {
    constexpr int samples = 48;
    const T step = (s.to - s.from) / T(samples);
    const T nearby = step / T(32);
    const auto rate = [&](const T& t) {
        const T after = s.curvature(T(t + nearby));
        const T change = after - s.curvature(T(t - nearby));
        const T rounding = T(1 << 20) * epsilon<T>() * magnitude(after); // a circle's changes are nothing else
        return magnitude(change) <= rounding ? T(0) : change;
    };
    std::vector<T> ends{s.from};
    T before = T(0);
    for (int i = 0; i < samples; ++i) {
        const T t = s.from + (T(i) + T(1) / T(2)) * step;
        const T here = rate(t);
        if (here == T(0)) continue;
        if (before * here < T(0)) ends.push_back(bracketed_root(rate, T(t - step), t));
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
