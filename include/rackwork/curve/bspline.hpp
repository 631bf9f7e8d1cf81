// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Exact outlines as B-spline curves with a proven deviation.
#ifndef RACKWORK_CURVE_BSPLINE_HPP
#define RACKWORK_CURVE_BSPLINE_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "arc.hpp"
#include "detail/exact_curve.hpp"
#include "detail/path.hpp"
#include "detail/span_division.hpp"
#include "offset_segment.hpp"

#include <algorithm>
#include <cstddef>
#include <variant>
#include <vector>

namespace rackwork {

/// A B-spline curve, as kernels and exchange formats define it; its parameter goes from 0 to 1. It begins in its first control point and
/// ends in its last one. Within it tangents are continuous, and so is the velocity.
template <scalar T>
struct bspline {
    /// Polynomial degree, p.
    int degree = 0;
    /// Knots with their repetitions, never falling: p + 1 more than control points.
    std::vector<T> knots;
    std::vector<point<T>> control_points;
    /// One for each control point, or none for a curve that is not rational.
    std::vector<T> weights;
    /// No point of the curve is farther from the exact one than this, and the other way round: proved, not sampled.
    T deviation{0};
    /// True where the next curve goes on in another direction: the edge of a tip, the corner of an undercut.
    bool corner_at_end = false;

    /// The point at a parameter in [0, 1], by de Boor's recursion.
    point<T> position(const T& u) const {
        const std::size_t p = static_cast<std::size_t>(degree);
        std::size_t interval = p;
        while (interval + 1 < control_points.size() && knots[interval + 1] <= u) ++interval;
        std::vector<point<T>> points(control_points.begin() + static_cast<std::ptrdiff_t>(interval - p),
                                     control_points.begin() + static_cast<std::ptrdiff_t>(interval + 1));
        std::vector<T> w(p + 1, T(1));
        if (!weights.empty()) {
            for (std::size_t k = 0; k <= p; ++k) w[k] = weights[interval - p + k];
        }
        for (std::size_t level = 1; level <= p; ++level) {
            for (std::size_t k = p; k >= level; --k) {
                const T low = knots[interval - p + k];
                const T high = knots[interval + 1 + k - level];
                const T share = (u - low) / (high - low);
                const T weight = (T(1) - share) * w[k - 1] + share * w[k];
                points[k] = T((T(1) - share) * w[k - 1] / weight) * points[k - 1] + T(share * w[k] / weight) * points[k];
                w[k] = weight;
            }
        }
        return points[p];
    }
};

/// What becomes of circular arcs (tip and root lands) among B-splines.
enum class arc_form {
    /// They stay arcs.
    arc,
    /// Rational B-splines of degree 2, exact but for the rounding of their coordinates.
    rational
};

/// The degree that leaves the choice to the library: for each curve that from 3 to 7 which needs the fewest control points.
inline constexpr int fewest_control_points = 0;

/// How B-splines are to be made.
struct bspline_options {
    /// Degree of flanks and fillets: 3, 5 or 7, or fewest_control_points.
    int degree = 5;
    arc_form arcs = arc_form::rational;
};

/// Curves that follow one another. Each begins in the very point in which the one before it ends and, unless that says that there is a
/// corner, in its direction.
template <scalar T>
struct bspline_path {
    std::vector<std::variant<bspline<T>, arc<T>>> curves;
    /// The greatest deviation of any of them.
    T deviation{0};
    /// True when the last ends where the first begins.
    bool closed = false;
};

namespace detail {

/// The curve of a segment in standard position, made of the spans of its division.
template <scalar T>
struct standard_bspline {
    bspline<T> curve;
    /// The knots of the curve run through from its end to its start.
    std::vector<T> reversed_knots;

    explicit standard_bspline(const span_division<T>& division) {
        const std::vector<span<T>>& spans = division.spans;
        const std::size_t p = static_cast<std::size_t>(spans.front().degree);
        curve.degree = static_cast<int>(p);
        curve.deviation = division.deviation;
        curve.control_points.reserve(spans.size() * (p - 1) + 2);
        // Spans that meet have the same tangent there; intervals between knots in proportion to the legs on either side make their
        // velocities equal as well, so that the point of the joint follows from its neighbours and is no control point.
        std::vector<T> intervals{T(1)};
        for (std::size_t i = 0; i < spans.size(); ++i) {
            const auto& control = spans[i].control;
            const std::size_t first = i == 0 ? 0 : 1;
            const std::size_t last = i + 1 == spans.size() ? p : p - 1;
            for (std::size_t k = first; k <= last; ++k) curve.control_points.push_back(control[k]);
            if (i == 0) continue;
            const auto& before = spans[i - 1].control;
            intervals.push_back(T(intervals.back() * (length(control[1] - control[0]) / length(before[p] - before[p - 1]))));
        }
        curve.knots = knots_of(p, intervals);
        std::reverse(intervals.begin(), intervals.end());
        reversed_knots = knots_of(p, intervals);
    }

    /// Brought to where a segment stands.
    bspline<T> placed(const standing<T>& where, const offset_segment<T>& s) const {
        bspline<T> result;
        result.degree = curve.degree;
        result.corner_at_end = s.corner_at_end;
        result.knots = where.reversed ? reversed_knots : curve.knots;
        result.control_points.reserve(curve.control_points.size());
        for (const point<T>& p : curve.control_points) result.control_points.push_back(where(p));
        if (where.reversed) std::reverse(result.control_points.begin(), result.control_points.end());
        // Turning the control points rounds them; those at the ends are moved to where the segment's neighbours end. A curve strays by no
        // more than its control points do, joints by no more than what they are computed from.
        const T size = larger(length(s.start), length(s.end));
        const T moved = larger(length(result.control_points.front() - s.start), length(result.control_points.back() - s.end));
        result.control_points.front() = s.start;
        result.control_points.back() = s.end;
        result.deviation = curve.deviation + moved + T(16) * epsilon<T>() * size;
        return result;
    }

private:
    static std::vector<T> knots_of(std::size_t p, const std::vector<T>& intervals) {
        T total = T(0);
        for (const T& i : intervals) total += i;
        std::vector<T> knots;
        knots.reserve(2 * (p + 1) + (intervals.size() - 1) * (p - 1));
        knots.assign(p + 1, T(0));
        T sum = T(0);
        for (std::size_t i = 0; i + 1 < intervals.size(); ++i) {
            sum += intervals[i];
            knots.insert(knots.end(), p - 1, T(sum / total));
        }
        knots.insert(knots.end(), p + 1, T(1));
        return knots;
    }
};

/// The arc as a rational B-spline of degree 2: pieces of at most a right angle, double knots between them.
template <scalar T>
bspline<T> rational(const arc<T>& a) {
    const int pieces = 1 + whole_part(T(magnitude(a.turning) * T(2) / pi<T>() * (T(1) - T(8) * epsilon<T>())));
    const T half = a.turning / T(2 * pieces);
    const T cosine = elementary::cos(half);
    bspline<T> result;
    result.degree = 2;
    result.corner_at_end = a.corner_at_end;
    result.knots.assign(3, T(0));
    point<T> here = a.start;
    for (int i = 1; i <= pieces; ++i) {
        const point<T> next = i == pieces ? a.end : a.position(T(T(i) / T(pieces)));
        // Where the tangents meet: as far beyond the middle of the chord as that is from the centre, times tan^2.
        const point<T> middle = T(T(1) / T(2)) * (here + next);
        const T tangent = elementary::tan(half);
        result.control_points.insert(result.control_points.end(),
                                     {here, middle + T(-tangent / T(2)) * to_the_left(next - here)});
        result.weights.insert(result.weights.end(), {T(1), cosine});
        if (i < pieces) result.knots.insert(result.knots.end(), 2, T(T(i) / T(pieces)));
        here = next;
    }
    result.control_points.push_back(a.end);
    result.weights.push_back(T(1));
    result.knots.insert(result.knots.end(), 3, T(1));
    result.deviation = T(16) * epsilon<T>() * larger(length(a.start), length(a.end));
    return result;
}

template <scalar T>
bspline_path<T> bsplines_of(const std::vector<offset_segment<T>>& path, const T& tolerance, const bspline_options& options) {
    const bool fewest = options.degree == fewest_control_points;
    if (!fewest && options.degree != 3 && options.degree != 5 && options.degree != 7) {
        impossible_geometry(
            {"degree", static_cast<double>(options.degree), "must be 3, 5 or 7, or 0 for the fewest control points", 0, false});
    }
    require_tolerance(path, tolerance);
    // Placing the curves and rounding what is stated cost a little of the tolerance.
    const T rounding = T(128) * epsilon<T>() * size_of(path);

    once_for_alike<T, standard_bspline<T>> made;
    bspline_path<T> result;
    result.curves.reserve(path.size());
    for (const offset_segment<T>& s : path) {
        if (s.is_arc()) {
            const arc<T> exact = arc_of(s);
            if (options.arcs == arc_form::arc) {
                result.curves.push_back(exact);
            } else {
                result.curves.push_back(rational(exact));
                result.deviation = larger(result.deviation, std::get<bspline<T>>(result.curves.back()).deviation);
            }
            continue;
        }
        const standard_segment<T> standard(s);
        const standard_bspline<T>& curve = made.found_or_made(standard, [&](const offset_segment<T>& shape) {
            span_divider<T> divider(shape, tolerance_for(shape, tolerance, rounding));
            return standard_bspline<T>(fewest ? divider.divided_by_fewest_points() : divider.divided(options.degree));
        });
        result.curves.push_back(curve.placed(standard.where, s));
        result.deviation = larger(result.deviation, std::get<bspline<T>>(result.curves.back()).deviation);
    }
    result.closed = path.front().start == path.back().end;
    return result;
}

} // namespace detail

/// An outline, be it of a gear, a tooth or a space (see outline_part.hpp), as B-splines, one for each flank and fillet, within a
/// tolerance (a length). Each has as few spans as the tolerance needs: one of degree 5 holds an ordinary flank within 10^-8 of the
/// module. Ends are those of the exact segments to the bit, the tangents there are exact but for the rounding of control points. Teeth
/// of one gear are divided alike, right flanks as left ones.
///
/// The stated deviation is proved, and at most twice the true one (plus 10^3 epsilon of the outline's size).
/// Throws geometry_error unless the degree is 3, 5, 7 or fewest_control_points and the tolerance finite and at least 4096 epsilon of the
/// outline's size.
template <scalar T>
bspline_path<T> bsplines_of(const outline<T>& exact, const T& tolerance, const bspline_options& options = {}) {
    return detail::bsplines_of(detail::path_of(exact), tolerance, options);
}

} // namespace rackwork

#endif
