// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A piece of an exact curve divided into as few polynomial spans as a tolerance needs.
#ifndef RACKWORK_CURVE_DETAIL_SPAN_DIVISION_HPP
#define RACKWORK_CURVE_DETAIL_SPAN_DIVISION_HPP

#include "../../core/error.hpp"
#include "../../core/scalar.hpp"
#include "../offset_segment.hpp"
#include "natural_shares.hpp"
#include "span_deviation.hpp"
#include "span_fit.hpp"

#include <cmath>
#include <vector>

namespace rackwork::detail {

/// Spans that follow one another, with common tangents where they meet, and their proven deviation from the curve.
template <scalar T>
struct span_division {
    std::vector<span<T>> spans;
    T deviation{0};
};

/// Divides a piece of a curve. One span is tried first, then more; their ends are shifted until they are equally near. What counts in the
/// end is the proven deviation.
template <scalar T>
class span_divider {
public:
    span_divider(const offset_segment<T>& curve, int degree, const T& tolerance)
        : curve_(curve), degree_(degree), tolerance_(tolerance), shares_(curve, curve.from, curve.to) {}

    /// Throws geometry_error where no number of spans within reason gives the tolerance.
    span_division<T> divided() const {
        constexpr int most_spans = 4096;
        // The fit is judged by samples, the proof by a bound that may be a tenth too large; so a little less is aimed at.
        const T goal = tolerance_ * T(4) / T(5);
        T nearest = T(0);
        for (int count = least_count(); count <= most_spans;) {
            std::vector<T> ends = equal_ends(count);
            T greatest = T(0);
            constexpr int rounds = 3;
            for (int round = 0; round < rounds; ++round) {
                std::vector<T> distances;
                const std::vector<span<T>> spans = fitted(ends, goal, distances);
                greatest = T(0);
                for (const T& d : distances) greatest = larger(greatest, d);
                if (greatest <= goal) {
                    const T deviation = proven_deviation(spans);
                    if (deviation <= tolerance_) return {spans, deviation};
                    nearest = deviation;
                }
                if (count == 1 || round + 1 == rounds) break;
                ends = balanced(ends, distances);
            }
            if (nearest == T(0)) nearest = greatest;
            const double more = count * by_order(T(greatest / goal)) * 0.75;
            count = more > count + 1 ? static_cast<int>(more < most_spans ? more : most_spans + 1) : count + 1;
        }
        impossible_geometry({"tolerance", static_cast<double>(tolerance_), "must be at least", static_cast<double>(nearest)});
    }

private:
    /// How a length must change to change the distance by a factor.
    double by_order(const T& factor) const {
        const double f = static_cast<double>(factor);
        return f > 0 && f < 1e300 ? std::pow(f, 1.0 / (2 * degree_)) : 2.0;
    }

    /// No span turns by more than about 2.5 radians.
    int least_count() const {
        const auto turning = [&](const T& t) { return T(curve_.speed(t) * magnitude(curve_.curvature(t))); };
        const double radians = static_cast<double>(integral_table<T>(turning, curve_.from, curve_.to).total());
        return radians < 100 ? 1 + static_cast<int>(radians / 2.5) : 1; // (a cusp's turning may not be a number)
    }

    std::vector<T> equal_ends(int count) const {
        std::vector<T> ends;
        for (int i = 0; i <= count; ++i) ends.push_back(T(T(i) / T(count)));
        return ends;
    }

    std::vector<span<T>> fitted(const std::vector<T>& ends, const T& goal, std::vector<T>& distances) const {
        std::vector<span<T>> spans;
        for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
            const span_fitter<T> fit(curve_, shares_.parameter(ends[i]), shares_.parameter(ends[i + 1]), degree_, goal);
            spans.push_back(fit.fitted());
            distances.push_back(fit.greatest_distance());
        }
        return spans;
    }

    /// Ends that give nearer spans more and farther ones less of the curve.
    std::vector<T> balanced(const std::vector<T>& ends, const std::vector<T>& distances) const {
        T mean = T(0);
        for (const T& d : distances) mean += d / T(static_cast<int>(distances.size()));
        std::vector<T> sums{T(0)};
        for (std::size_t i = 0; i < distances.size(); ++i) {
            const double factor = by_order(T(mean / larger(distances[i], T(mean / T(1 << 20)))));
            sums.push_back(T(sums.back() + (ends[i + 1] - ends[i]) * T(factor)));
        }
        const T total = sums.back();
        for (T& s : sums) s /= total;
        return sums;
    }

    T proven_deviation(const std::vector<span<T>>& spans) const {
        T deviation = T(0);
        for (const span<T>& s : spans) deviation = larger(deviation, span_deviation<T>(s, curve_, tolerance_).result().bound);
        return deviation;
    }

    offset_segment<T> curve_;
    int degree_;
    T tolerance_;
    natural_shares<T> shares_;
};

} // namespace rackwork::detail

#endif
