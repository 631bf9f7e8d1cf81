// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The screw motion of a helical gear's section as a B-spline, with a bound of its error in closed form.
#ifndef RACKWORK_SOLID_SCREW_HPP
#define RACKWORK_SOLID_SCREW_HPP

#include "../core/point.hpp"
#include "../core/scalar.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace rackwork {

/// A rotation about the z axis that grows in proportion to the height, as a B-spline: of the unit vector (cos theta, sin theta) and of the
/// height, with the same knots. At both ends the vector is exact but for rounding. A section whose control points are turned by the
/// vector's is the control net of the helicoid that it sweeps.
struct screw {
    int degree = 1;
    /// From 0 to 1, with their repetitions.
    std::vector<double> knots{0, 0, 1, 1};
    std::vector<point<double>> turns;
    std::vector<double> heights;
    /// Greatest distance of the vector from the exact one at the same height.
    double deviation = 0;

    std::size_t size() const { return heights.size(); }
};

namespace detail {

/// Bound of Hermite's interpolation of e^(i theta) over an angle `step`, by `contact` derivatives (the value included) at both ends:
/// no 2 m-th derivative is longer than 1, hence (step/2)^(2m) / (2m)! (Hermite and Genocchi's form of the remainder, which holds for
/// vectors as well).
constexpr double hermite_bound(double step, int contact) {
    double bound = 1;
    for (int k = 1; k <= 2 * contact; ++k) bound *= step / 2 / k;
    return bound;
}

/// Bezier points of that interpolation from angle -step/2 to step/2; degree 2 m - 1. Of the forward differences the j-th is
/// f^(j) step^j (p - j)!/p! at the start, and the second half mirrors the first.
inline std::vector<point<double>> hermite_points(double step, int contact) {
    const int p = 2 * contact - 1;
    std::vector<point<double>> points(static_cast<std::size_t>(p + 1));
    const point<double> start = direction(-step / 2);
    for (int k = 0; k < contact; ++k) {
        point<double> sum{1, 0};
        point<double> difference{1, 0}; // (i step)^j (p - j)!/p!
        double binomial = 1;            // of k over j
        for (int j = 1; j <= k; ++j) {
            difference = (step / (p - j + 1)) * point<double>{-difference.y, difference.x};
            binomial = binomial * (k - j + 1) / j;
            sum = sum + binomial * difference;
        }
        points[static_cast<std::size_t>(k)] = turned(start, sum);
        points[static_cast<std::size_t>(p - k)] = mirrored(points[static_cast<std::size_t>(k)]);
    }
    return points;
}

} // namespace detail

/// The screw motion from height `low` to `high` that turns by `turn_per_length` radians per unit of height and not at all at height 0,
/// within a tolerance greater than 16 epsilon (a share of the radius). One span of degree 3, 5 or 7 where that will do, otherwise as many of
/// degree 7 as are needed, with continuous velocity.
inline screw screw_between(double low, double high, double turn_per_length, double tolerance) {
    screw result;
    const double first = turn_per_length * low;
    const double turning = turn_per_length * (high - low);
    if (turning == 0) {
        result.turns.assign(2, direction(first));
        result.heights = {low, high};
        return result;
    }
    int contact = 2;
    while (contact < 4 && detail::hermite_bound(std::abs(turning), contact) > tolerance) ++contact;
    int spans = 1;
    while (detail::hermite_bound(std::abs(turning) / spans, contact) > tolerance) ++spans;
    const int p = 2 * contact - 1;
    result.degree = p;
    result.deviation = detail::hermite_bound(std::abs(turning) / spans, contact) + 16 * epsilon<double>();

    // Equal spans whose velocities agree where they meet: that point is the middle of its neighbours and no control point.
    const std::vector<point<double>> one = detail::hermite_points(turning / spans, contact);
    const auto repetitions = static_cast<std::size_t>(p);
    result.knots.assign(repetitions + 1, 0);
    for (int i = 0; i < spans; ++i) {
        const point<double> middle = direction(first + turning * (i + 0.5) / spans);
        const std::size_t from = i == 0 ? 0 : 1;
        const std::size_t to = i + 1 == spans ? repetitions : repetitions - 1;
        for (std::size_t k = from; k <= to; ++k) {
            result.turns.push_back(turned(one[k], middle));
            result.heights.push_back(low + (high - low) * (i + static_cast<double>(k) / p) / spans);
        }
        if (i + 1 < spans) result.knots.insert(result.knots.end(), repetitions - 1, (i + 1.) / spans);
    }
    result.knots.insert(result.knots.end(), repetitions + 1, 1);
    result.turns.front() = direction(first);
    result.turns.back() = direction(turn_per_length * high);
    result.heights.back() = high;
    return result;
}

} // namespace rackwork

#endif
