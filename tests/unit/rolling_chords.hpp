// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Outlines as fine chords that are rolled together: their distances, and how deep one lies in the other.
#pragma once

#include <rackwork/core/point.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace rolling {

using rackwork::point;

/// Which of the tooth's curves a chord belongs to.
enum class curve_kind { right_flank, left_flank, other };
struct chord {
    point<double> from;
    point<double> to;
    curve_kind kind;
};

struct placement {
    point<double> centre;
    double turn;

    point<double> operator()(const point<double>& p) const { return centre + turned(p, turn); }
};

inline double distance_from(const point<double>& p, const chord& c) {
    const point<double> along = c.to - c.from;
    const double share = std::clamp(dot(p - c.from, along) / dot(along, along), 0., 1.);
    return length(p - (c.from + share * along));
}

/// Shortest distance of two bundles of chords; with a blind eye to what is further off than what has been found.
inline double shortest_distance(const std::vector<chord>& first, curve_kind first_kind, const std::vector<chord>& second, curve_kind second_kind) {
    double least = std::numeric_limits<double>::infinity();
    for (const chord& a : first) {
        if (a.kind != first_kind) continue;
        for (const chord& b : second) {
            if (b.kind != second_kind || std::fabs(a.from.y - b.from.y) > least + 1 || std::fabs(a.from.x - b.from.x) > least + 1) continue;
            least = std::min({least, distance_from(a.from, b), distance_from(b.from, a)});
        }
    }
    return least;
}

/// How deep the first outline's corners lie inside the second's metal, at most; zero when none does. The metal lies to the left of an
/// external gear's chords (`side` 1), to the right of an internal one's (-1).
inline double overlap(const std::vector<chord>& first, const std::vector<chord>& second, double side) {
    double deepest = 0;
    for (const chord& a : first) {
        const point<double>& p = a.from;
        double nearest = std::numeric_limits<double>::infinity();
        const chord* closest = nullptr;
        double share_of_closest = 0;
        for (const chord& b : second) {
            const double reach = nearest + std::fabs(b.to.x - b.from.x) + std::fabs(b.to.y - b.from.y);
            if (std::fabs(p.x - b.from.x) > reach || std::fabs(p.y - b.from.y) > reach) continue;
            const double here = distance_from(p, b);
            if (here < nearest) {
                nearest = here;
                closest = &b;
                share_of_closest = dot(p - b.from, b.to - b.from) / dot(b.to - b.from, b.to - b.from);
            }
        }
        // Beyond a convex corner the nearest chord's side says nothing; there the point is outside.
        if (closest == nullptr || share_of_closest <= 0 || share_of_closest >= 1) continue;
        if (side * cross(closest->to - closest->from, p - closest->from) > 0) deepest = std::max(deepest, nearest);
    }
    return deepest;
}

} // namespace rolling
