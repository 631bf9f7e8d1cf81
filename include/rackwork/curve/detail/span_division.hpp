// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A piece of an exact curve divided into as few polynomial spans as a tolerance needs.
#ifndef RACKWORK_CURVE_DETAIL_SPAN_DIVISION_HPP
#define RACKWORK_CURVE_DETAIL_SPAN_DIVISION_HPP

#include "../../core/elementary.hpp"
#include "../../core/error.hpp"
#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "../offset_segment.hpp"
#include "natural_shares.hpp"
#include "span_deviation.hpp"
#include "span.hpp"
#include "span_fit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace rackwork::detail {

/// Spans that follow one another, with common tangents where they meet, and their proven deviation from the curve.
template <scalar T>
struct span_division {
    std::vector<span<T>> spans;
    T deviation{0};
};

/// Divides a piece of a curve. Few spans are tried first, then more; their ends are shifted until they are equally near. What counts in the
/// end is the proven deviation.
template <scalar T>
class span_divider {
public:
    /// The curve in standard position.
    span_divider(const offset_segment<T>& curve, const T& tolerance)
        : curve_(curve), tolerance_(tolerance), goal_(tolerance * T(3) / T(4)), shares_(curve) {}

    /// With spans of a degree, as few as it takes. Throws geometry_error where no number of them within reason gives the tolerance.
    span_division<T> divided(int degree) { return divided(degree, least_count()); }

    /// With the degree that needs the fewest control points, up to 256: one number of them after the other, and in it one degree after the
    /// other. Throws geometry_error as divided() does.
    span_division<T> divided_by_fewest_points() {
        constexpr int most_points = 256;
        struct trial {
            int spans = 0;
            T missed{0};
        };
        std::array<trial, highest_degree + 1> last{};
        const int least = least_count();
        for (int points = 4; points <= most_points; ++points) {
            for (int degree = highest_degree; degree >= lowest_degree; --degree) {
                const int count = (points - 2) / (degree - 1);
                if (count < least || count * (degree - 1) + 2 != points) continue;
                if (hopeless(last[index(degree)].missed, degree, count, last[index(degree)].spans)) continue;
                // A degree more gives a thousandth of the distance at best.
                const trial& lower = last[index(degree - 1)];
                if (lower.spans == count && is_finite(lower.missed) && lower.missed > T(2000)) continue;
                const T missed = attempt(degree, count);
                if (missed == T(0)) return found_;
                last[index(degree)] = {count, missed};
            }
        }
        return divided(highest_degree, most_points / (highest_degree - 1));
    }

private:
    span_division<T> divided(int degree, int first_count) {
        constexpr int most_spans = 4096;
        for (int count = first_count; count <= most_spans;) {
            const T missed = attempt(degree, count);
            if (missed == T(0)) return found_;
            const double more = count * by_order(missed, degree) * 0.75;
            count = more > count + 1 ? static_cast<int>(more < most_spans ? more : most_spans + 1) : count + 1;
        }
        impossible_geometry({"tolerance", static_cast<double>(tolerance_), "must be at least", static_cast<double>(nearest_)});
    }

    /// Tries so many spans of a degree: 0 if `found_` are within the tolerance, otherwise how many times the distance is too great.
    T attempt(int degree, int count) {
        std::vector<T> ends = equal_ends(count);
        T missed = T(0);
        constexpr int rounds = 3;
        for (int round = 0; round < rounds; ++round) {
            std::vector<T> distances;
            // A span that crosses the curve where it should and is astray elsewhere is not near enough: it has to be nearer at the crossings.
            for (const int share : {1, 2, 8, 64}) {
                distances = fit(degree, ends, T(goal_ / T(share)));
                nearest_ = *std::max_element(distances.begin(), distances.end());
                missed = larger(T(nearest_ / goal_), T(1));
                if (nearest_ > goal_) break;
                found_.deviation = nearest_ = proven_deviation(found_.spans);
                if (found_.deviation <= tolerance_) return T(0);
            }
            if (count == 1 || round + 1 == rounds) break;
            ends = balanced(degree, ends, distances);
        }
        return missed;
    }

    /// True where fewer spans of the same degree were so far off that these are not expected to do.
    static bool hopeless(const T& missed, int degree, int count, int tried) {
        if (tried == 0 || !is_finite(missed)) return false;
        return static_cast<double>(missed) > 100 * std::pow(static_cast<double>(count) / tried, 2 * degree);
    }

    /// How a length must change to change the distance by a factor.
    static double by_order(const T& factor, int degree) {
        const double f = static_cast<double>(factor);
        return f > 0 && f < 1e300 ? std::pow(f, 1.0 / (2 * degree)) : 2.0;
    }

    /// No span turns by more than about 2.5 radians.
    int least_count() const {
        constexpr int steps = 8;
        T radians = T(0);
        point<T> before = curve_.tangent(curve_.from);
        for (int i = 1; i <= steps; ++i) {
            const point<T> here = curve_.tangent(shares_.parameter(T(T(i) / T(steps))));
            const T along = dot(before, here);
            radians += along > T(0) ? elementary::atan(T(magnitude(cross(before, here)) / along)) : T(2);
            before = here;
        }
        return 1 + whole_part(T(radians / T(2.5)));
    }

    static std::vector<T> equal_ends(int count) {
        std::vector<T> ends;
        for (int i = 0; i <= count; ++i) ends.push_back(T(T(i) / T(count)));
        return ends;
    }

    /// Makes the spans between some shares; returns their distances.
    std::vector<T> fit(int degree, const std::vector<T>& ends, const T& goal) {
        found_.spans.clear();
        std::vector<T> distances;
        for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
            const span_fitter<T> fitter(curve_, shares_, ends[i], ends[i + 1], degree, goal);
            found_.spans.push_back(fitter.fitted());
            distances.push_back(fitter.greatest_distance());
        }
        return distances;
    }

    /// Ends that give nearer spans more and farther ones less of the curve.
    static std::vector<T> balanced(int degree, const std::vector<T>& ends, const std::vector<T>& distances) {
        T mean = T(0);
        for (const T& d : distances) mean += d / T(static_cast<int>(distances.size()));
        std::vector<T> sums{T(0)};
        for (std::size_t i = 0; i < distances.size(); ++i) {
            const double factor = by_order(T(mean / larger(distances[i], T(mean / T(1 << 20)))), degree);
            sums.push_back(T(sums.back() + (ends[i + 1] - ends[i]) * T(factor)));
        }
        const T total = sums.back();
        for (T& s : sums) s /= total;
        return sums;
    }

    T proven_deviation(const std::vector<span<T>>& spans) const {
        T deviation = T(0);
        for (const span<T>& s : spans) {
            deviation = larger(deviation, span_deviation<T>(s, curve_, tolerance_).bound());
            if (deviation > tolerance_) break;
        }
        return deviation;
    }

    offset_segment<T> curve_;
    T tolerance_;
    T goal_; // The fit is judged by its distances, the proof by a bound that may be a quarter too large: so a little less is aimed at.
    natural_shares<T> shares_;
    span_division<T> found_;
    T nearest_{0};
};

} // namespace rackwork::detail

#endif
