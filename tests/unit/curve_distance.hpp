// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How far a curve really lies from the exact form, to 50 digits: sampled densely, and the greatest samples followed up to their maximum.
// Stands apart from the library's own proofs: another precision, another method.
#pragma once

#include "form_gears.hpp"
#include "ulp.hpp"

#include <rackwork/core/point.hpp>
#include <rackwork/curve/bspline.hpp>
#include <rackwork/form/segment.hpp>

#include <algorithm>
#include <cstddef>
#include <functional>
#include <vector>

namespace curve_distance {

using rackwork::bspline;
using rackwork::point;
using rackwork::segment;
using support::wide;

inline point<wide> widened(const point<double>& p) { return {wide(p.x), wide(p.y)}; }

/// The same curve to 50 digits: every number that the double one holds, to the bit.
inline bspline<wide> widened(const bspline<double>& b) {
    bspline<wide> result;
    result.degree = b.degree;
    for (const double k : b.knots) result.knots.emplace_back(k);
    for (const auto& p : b.control_points) result.control_points.push_back(widened(p));
    for (const double w : b.weights) result.weights.emplace_back(w);
    return result;
}

/// Greatest value of a function over [from, to]: at `count` equal steps, and between the neighbours of the three greatest by thirds.
inline wide greatest(const std::function<wide(const wide&)>& f, const wide& from, const wide& to, int count) {
    std::vector<wide> values;
    const auto at = [&](int i) { return wide(from + (to - from) * i / count); };
    for (int i = 0; i <= count; ++i) values.push_back(f(at(i)));
    std::vector<int> peaks;
    for (int i = 1; i < count; ++i) {
        const auto k = static_cast<std::size_t>(i);
        if (values[k] >= values[k - 1] && values[k] >= values[k + 1]) peaks.push_back(i);
    }
    std::sort(peaks.begin(), peaks.end(),
              [&](int a, int b) { return values[static_cast<std::size_t>(a)] > values[static_cast<std::size_t>(b)]; });
    if (peaks.size() > 3) peaks.resize(3);
    wide best = *std::max_element(values.begin(), values.end());
    for (const int i : peaks) {
        wide low = at(i - 1);
        wide high = at(i + 1);
        for (int step = 0; step < 12; ++step) {
            const wide third = (high - low) / 3;
            const wide a = f(low + third);
            const wide b = f(high - third);
            best = std::max({best, a, b});
            (a < b ? low : high) = a < b ? wide(low + third) : wide(high - third);
        }
    }
    return best;
}

/// Greatest distance, square to the exact segment, of a B-spline from it. The point abreast is found by halving, between the neighbours of
/// the nearest of many points.
template <class Exact>
wide true_deviation(const bspline<wide>& b, const Exact& exact, int count) {
    std::vector<point<wide>> along;
    for (int i = 0; i <= 2 * count; ++i) along.push_back(b.position(wide(i) / (2 * count)));
    const auto distance = [&](const wide& t) {
        const point<wide> p = exact.position(t);
        const point<wide> tangent = exact.tangent(t);
        int nearest = 0;
        for (int i = 1; i <= 2 * count; ++i) {
            const auto squared = [&](int k) { return dot(along[static_cast<std::size_t>(k)] - p, along[static_cast<std::size_t>(k)] - p); };
            if (squared(i) < squared(nearest)) nearest = i;
        }
        const auto ahead = [&](const wide& u) { return dot(b.position(u) - p, tangent); };
        wide low = wide(std::max(nearest - 1, 0)) / (2 * count);
        wide high = wide(std::min(nearest + 1, 2 * count)) / (2 * count);
        wide f_low = ahead(low);
        wide f_high = ahead(high);
        if (f_low >= 0) return wide(length(b.position(low) - p));
        if (f_high <= 0) return wide(length(b.position(high) - p));
        wide u = low;
        for (int step = 0; step < 60; ++step) {
            const wide before = u;
            u = step % 3 == 2 ? wide((low + high) / 2) : wide(low - (high - low) * f_low / (f_high - f_low));
            const wide f = ahead(u);
            if (abs(wide(u - before)) < wide(1e-18) || f == 0) break;
            (f < 0 ? low : high) = u;
            (f < 0 ? f_low : f_high) = f;
        }
        return wide(length(b.position(u) - p));
    };
    return greatest(distance, exact.from, exact.to, count);
}

} // namespace curve_distance
