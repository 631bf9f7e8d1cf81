// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Polylines within a stated chordal tolerance of an exact outline.
#ifndef RACKWORK_CURVE_POLYLINE_HPP
#define RACKWORK_CURVE_POLYLINE_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "../form/segment.hpp"

#include <cstddef>
#include <variant>
#include <vector>

namespace rackwork {

/// Points on an exact curve, joined by straight lines, and how far those lines stray from it.
template <scalar T>
struct polyline {
    std::vector<point<T>> points;
    /// Greatest distance between the curve and a chord, computed where the tangent is parallel to the chord, not sampled.
    T deviation{0};
    /// True when the last point joins the first by a further line.
    bool closed = false;
};

namespace detail {

/// Greatest distance of the curve between two parameters from their chord. The piece must not have an inflection, so that its tangent
/// is parallel to the chord exactly once.
template <scalar T>
T deviation_from_chord(const segment<T>& s, const T& from, const T& to) {
    const point<T> start = s.position(from);
    const point<T> chord = s.position(to) - start;
    const T chord_length = length(chord);
    if (!(chord_length > T(0))) return T(0);
    const T furthest = bracketed_root([&](const T& t) { return cross(chord, s.tangent(t)); }, from, to);
    return T(magnitude(cross(chord, s.position(furthest) - start)) / chord_length);
}

/// A whole number of pieces, and the parameters between them, which make each chord's deviation at most the tolerance.
template <scalar T>
struct division {
    std::vector<T> parameters; // from the first to the last, both included
    T deviation{0};
};

/// Shares a piece of a curve out so that chords of equal shares deviate nearly equally. The deviation of a short chord is
/// ds^2 curvature / 8, so what is shared out is the integral of sqrt(curvature) ds: the parameter itself for a circle, t^(3/2) for an
/// involute (r_b t dt^2 / 8), and for a fillet a table, linear in between, which is as good since any parameter lies on the curve.
template <scalar T>
class even_shares {
public:
    even_shares(const segment<T>& s, const T& from, const T& to) : from_(from), to_(to) {
        is_involute_ = std::holds_alternative<involute<T>>(s.curve);
        if (const auto* fillet = std::get_if<trochoid<T>>(&s.curve)) make_table(fillet->shape);
        if (const auto* fillet = std::get_if<pinion_cut_fillet<T>>(&s.curve)) make_table(fillet->shape);
    }
    /// The parameter at the end of the given number of equal parts.
    T operator()(int part, int parts) const {
        if (part == 0) return from_;
        if (part == parts) return to_;
        const T share = T(part) / T(parts);
        if (is_involute_) {
            const T first = from_ * elementary::sqrt(from_);
            const T last = to_ * elementary::sqrt(to_);
            return square(elementary::cbrt_estimate(T(first + (last - first) * share)));
        }
        if (sums_.empty()) return T(from_ + (to_ - from_) * share);
        const T wanted = sums_.back() * share;
        int i = 0;
        while (i + 1 < intervals && sums_[static_cast<std::size_t>(i + 1)] < wanted) ++i;
        // Between two entries the weight is taken as linear, so its integral is a square: w0 x + (w1 - w0) x^2/2 = wanted - sum.
        const T low = weights_[static_cast<std::size_t>(i)];
        const T high = weights_[static_cast<std::size_t>(i + 1)];
        const T rest = wanted - sums_[static_cast<std::size_t>(i)];
        const T x = T(2) * rest / (low + elementary::sqrt(larger(T(square(low) + T(2) * (high - low) * rest), T(0))));
        return T(at_table(i) + (at_table(i + 1) - at_table(i)) * smaller(x, T(1)));
    }

private:
    static constexpr int intervals = 64;

    template <class Shape>
    void make_table(const Shape& shape) {
        const auto weight = [&](int i) {
            const fillet_state<T> at = shape.at(at_table(i));
            return elementary::sqrt(magnitude(T(at.speed * at.turning())));
        };
        weights_.push_back(weight(0));
        sums_.push_back(T(0));
        for (int i = 1; i <= intervals; ++i) {
            weights_.push_back(weight(i));
            sums_.push_back(T(sums_.back() + (weights_[static_cast<std::size_t>(i - 1)] + weights_.back()) / T(2)));
        }
    }

    T at_table(int i) const { return i == intervals ? to_ : T(from_ + (to_ - from_) * (T(i) / T(intervals))); }

    T from_;
    T to_;
    bool is_involute_ = false;
    std::vector<T> weights_;
    std::vector<T> sums_;
};

template <scalar T>
division<T> divide_piece(const segment<T>& s, const T& from, const T& to, const T& tolerance) {
    const even_shares<T> parameter_at(s, from, to);
    int parts = 1;
    for (;;) {
        division<T> result;
        result.parameters.push_back(from);
        for (int i = 1; i <= parts; ++i) {
            const T t = parameter_at(i, parts);
            result.deviation = larger(result.deviation, deviation_from_chord(s, result.parameters.back(), t));
            result.parameters.push_back(t);
        }
        if (result.deviation <= tolerance) return result;
        // The deviation falls as the square of the number of parts. Of a few parts none is wasted: a little less is asked for at first.
        // Of many a share of 1/256 is; going up one by one would take as the square of their number.
        const T more = T(parts) * elementary::sqrt(T(result.deviation / tolerance));
        const T wanted = parts < 64 ? T(more * T(31) / T(32)) : more;
        parts = whole_part(larger(T(parts + 1 + parts / 256), smaller(wanted, T(1 << 28))));
    }
}

/// The parameters that cut a segment into pieces without an inflection, its ends included. Only a fillet has any: none for usual gears,
/// one for a large profile shift, up to two for a steep helix besides.
template <scalar T>
std::vector<T> without_inflections(const segment<T>& s) {
    if (const auto* fillet = std::get_if<pinion_cut_fillet<T>>(&s.curve)) {
        // The turning, (sigma + r_w0/r_w) t/S - sigma, is monotone in t/S, and t/S = 1 - R cos phi/S in cos phi.
        const auto turning = [&](const T& t) { return fillet->shape.at(t).turning(); };
        if ((turning(s.from) < T(0)) == (turning(s.to) < T(0))) return {s.from, s.to};
        return {s.from, bracketed_root(turning, s.from, s.to), s.to};
    }
    const trochoid<T>* fillet = std::get_if<trochoid<T>>(&s.curve);
    if (fillet == nullptr) return {s.from, s.to};
    const auto turning = [&](const T& t) { return fillet->shape.at(t).turning(); };
    // With c = cos phi, k = cos beta and g = 1/k^2 - 1 the turning has the sign of
    //   k^2 g^2 rho c^5 + k^2 g rho c^3 - (k^2 g h_c + r) c^2 - k^2 h_c,
    // whose derivative over c, 5 k^2 g^2 rho c^3 + 3 k^2 g rho c - 2 (k^2 g h_c + r), rises with c: on either side of its one root the
    // turning changes its sign at most once.
    const rack_trochoid<T>& shape = fillet->shape;
    const T k2 = square(shape.cos_helix);
    const T bend = (T(1) - k2) * shape.tip_rounding; // k^2 g rho
    const T steep = (T(1) - k2) / k2;                // g
    const auto slope = [&](const T& t) {
        const T c = elementary::cos(t);
        return T(bend * c * (T(5) * steep * square(c) + T(3)) - T(2) * ((T(1) - k2) * shape.centre_depth + shape.rolling_radius));
    };
    std::vector<T> ends{s.from};
    if ((slope(s.from) < T(0)) != (slope(s.to) < T(0))) ends.push_back(bracketed_root(slope, s.from, s.to));
    ends.push_back(s.to);
    std::vector<T> result{s.from};
    for (std::size_t i = 1; i < ends.size(); ++i) {
        if ((turning(ends[i - 1]) < T(0)) == (turning(ends[i]) < T(0))) continue;
        const T inflection = bracketed_root(turning, ends[i - 1], ends[i]);
        if (inflection != result.back() && inflection != s.to) result.push_back(inflection);
    }
    result.push_back(s.to);
    return result;
}

template <scalar T>
division<T> divide(const segment<T>& s, const T& tolerance) {
    const std::vector<T> ends = without_inflections(s);
    division<T> result = divide_piece(s, ends[0], ends[1], tolerance);
    for (std::size_t i = 2; i < ends.size(); ++i) {
        const division<T> rest = divide_piece(s, ends[i - 1], ends[i], tolerance);
        result.parameters.insert(result.parameters.end(), rest.parameters.begin() + 1, rest.parameters.end());
        result.deviation = larger(result.deviation, rest.deviation);
    }
    return result;
}

/// True for two flanks or fillets that differ only by a turn about the axis, as those of one gear's teeth do. (Circles are not worth
/// comparing.)
template <scalar T>
bool same_but_turned(const segment<T>& a, const segment<T>& b) {
    if (a.curve.index() != b.curve.index() || a.from != b.from || a.to != b.to) return false;
    if (const auto* flank = std::get_if<involute<T>>(&a.curve)) {
        return flank->base_radius == std::get<involute<T>>(b.curve).base_radius;
    }
    if (const auto* fillet = std::get_if<trochoid<T>>(&a.curve)) return fillet->shape == std::get<trochoid<T>>(b.curve).shape;
    if (const auto* fillet = std::get_if<pinion_cut_fillet<T>>(&a.curve)) {
        return fillet->shape == std::get<pinion_cut_fillet<T>>(b.curve).shape;
    }
    return false;
}

} // namespace detail

/// Closed polyline of a closed outline whose chords stray from it by at most `tolerance` (a length). Its points lie on the outline; each
/// joint of the outline is one of them. Teeth of one gear are divided alike.
/// Throws geometry_error unless the tolerance is finite and at least 1024 epsilon of the outline's size.
template <scalar T>
polyline<T> polyline_of(const outline<T>& exact, const T& tolerance) {
    T size = T(0);
    for (const segment<T>& s : exact.segments) size = larger(size, length(s.start));
    require(check_at_least("tolerance", tolerance, T(T(1024) * epsilon<T>() * size)));

    struct known_division {
        std::size_t segment_index;
        detail::division<T> how;
    };
    std::vector<known_division> known;
    polyline<T> result;
    result.closed = true;
    for (std::size_t i = 0; i < exact.segments.size(); ++i) {
        const segment<T>& s = exact.segments[i];
        std::size_t k = 0;
        while (k < known.size() && !detail::same_but_turned(exact.segments[known[k].segment_index], s)) ++k;
        if (k == known.size()) known.push_back({i, detail::divide(s, tolerance)});
        const detail::division<T>& how = known[k].how;
        result.deviation = larger(result.deviation, how.deviation);
        for (std::size_t j = 0; j + 1 < how.parameters.size(); ++j) result.points.push_back(s.position(how.parameters[j]));
        if (std::holds_alternative<circle<T>>(s.curve)) known.pop_back();
    }
    return result;
}

} // namespace rackwork

#endif
