// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Triangles that fill a polygon, with or without a hole, and use no other corners than the polygon's.
#ifndef RACKWORK_SOLID_TRIANGULATION_HPP
#define RACKWORK_SOLID_TRIANGULATION_HPP

#include "../core/error.hpp"
#include "../core/point.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

namespace rackwork::detail {

/// Corners by their indices, counter-clockwise.
using triangle = std::array<std::size_t, 3>;

/// Cuts ears off a simple polygon (counter-clockwise, no point twice), the best shaped one first. A simple polygon always has an ear.
class ear_cutter {
public:
    ear_cutter(const std::vector<point<double>>& all, std::vector<std::size_t> polygon)
        : all_(all), index_(std::move(polygon)) {
        const std::size_t count = index_.size();
        for (std::size_t i = 0; i < count; ++i) corners_.push_back({(i + count - 1) % count, (i + 1) % count, 0});
    }

    std::vector<triangle> cut() {
        std::vector<triangle> result;
        std::size_t left = index_.size();
        while (left > 3) {
            if (!refill())
                impossible_geometry(
                    {"corners left of an end face", static_cast<double>(left), "must have an ear", 0, false});
            while (left > 3 && !waiting_.empty()) {
                const candidate next = waiting_.front();
                std::pop_heap(waiting_.begin(), waiting_.end());
                waiting_.pop_back();
                corner& c = corners_[next.at];
                if (c.version != next.version || is_blocked(next.at)) continue;
                result.push_back({index_[c.before], index_[next.at], index_[c.after]});
                corners_[c.before].after = c.after;
                corners_[c.after].before = c.before;
                ++c.version;
                c.gone = true;
                --left;
                for (const std::size_t neighbour : {c.before, c.after}) {
                    ++corners_[neighbour].version;
                    consider(neighbour);
                }
            }
        }
        for (std::size_t i = 0; i < corners_.size(); ++i) {
            if (corners_[i].gone) continue;
            result.push_back({index_[corners_[i].before], index_[i], index_[corners_[i].after]});
            break;
        }
        return result;
    }

private:
    struct corner {
        std::size_t before;
        std::size_t after;
        int version;
        bool gone = false;
    };
    struct candidate {
        float quality; // ears that are alike by symmetry must not differ by rounding, so that their order is the same on every machine
        std::size_t at;
        int version;
        bool operator<(const candidate& other) const {
            return quality < other.quality || (quality == other.quality && other.at < at);
        }
    };

    const point<double>& at(std::size_t i) const { return all_[index_[i]]; }

    double turning(std::size_t i) const {
        const corner& c = corners_[i];
        return cross(at(i) - at(c.before), at(c.after) - at(i));
    }

    void consider(std::size_t i) {
        const double twice_area = turning(i);
        if (!(twice_area > 0)) return;
        const corner& c = corners_[i];
        const point<double> sides[] = {at(i) - at(c.before), at(c.after) - at(i), at(c.before) - at(c.after)};
        double longest = 0;
        for (const point<double>& side : sides) longest = (std::max)(longest, dot(side, side));
        waiting_.push_back({static_cast<float>(twice_area / longest), i, c.version});
        std::push_heap(waiting_.begin(), waiting_.end());
    }

    /// Only where the polygon turns the wrong way can it reach into an ear.
    bool is_blocked(std::size_t i) {
        const corner& c = corners_[i];
        const point<double>& a = at(c.before);
        const point<double>& b = at(i);
        const point<double>& d = at(c.after);
        const double lowest = (std::min)({a.x, b.x, d.x});
        const double highest = (std::max)({a.x, b.x, d.x});
        auto next = std::lower_bound(hollow_.begin(), hollow_.end(), lowest,
                                     [&](std::size_t k, double x) { return at(k).x < x; });
        for (; next != hollow_.end(); ++next) {
            const std::size_t k = *next;
            const point<double>& p = at(k);
            if (p.x > highest) break;
            if (corners_[k].gone || k == c.before || k == i || k == c.after) continue;
            if (cross(b - a, p - a) >= 0 && cross(d - b, p - b) >= 0 && cross(a - d, p - d) >= 0 && !(turning(k) > 0))
                return true;
        }
        return false;
    }

    bool refill() {
        waiting_.clear();
        hollow_.clear();
        bool any = false;
        for (std::size_t i = 0; i < corners_.size(); ++i) {
            if (corners_[i].gone) continue;
            if (!(turning(i) > 0)) hollow_.push_back(i);
        }
        std::sort(hollow_.begin(), hollow_.end(), [&](std::size_t i, std::size_t k) { return at(i).x < at(k).x; });
        for (std::size_t i = 0; i < corners_.size(); ++i) {
            if (corners_[i].gone) continue;
            if (!is_blocked(i) && turning(i) > 0) any = true;
            consider(i);
        }
        return any;
    }

    const std::vector<point<double>>& all_;
    std::vector<std::size_t> index_;
    std::vector<corner> corners_;
    std::vector<candidate> waiting_;
    std::vector<std::size_t>
        hollow_; // corners that were hollow at the last refill, by their x; they only ever become fewer
};

/// Cuts the face between two polygons round the axis in two, along bridges above and below the x axis.
class bridges {
public:
    bridges(const std::vector<point<double>>& all, const std::vector<std::size_t>& outer,
            const std::vector<std::size_t>& hole)
        : all_(all), outer_(outer), hole_(hole) {}

    /// The two halves as simple polygons, counter-clockwise.
    std::array<std::vector<std::size_t>, 2> halves() const {
        const bridge up = found(1);
        const bridge down = found(-1);
        return {half(up, down), half(down, up)};
    }

private:
    struct bridge {
        double length = 0;
        std::size_t outer = 0;
        std::size_t hole = 0;
        bool operator<(const bridge& other) const { return length < other.length; }
    };

    const point<double>& of_outer(std::size_t i) const { return all_[outer_[i % outer_.size()]]; }
    const point<double>& of_hole(std::size_t i) const { return all_[hole_[i % hole_.size()]]; }

    bridge found(double side) const {
        std::vector<bridge> all;
        for (std::size_t i = 0; i < outer_.size(); ++i) {
            if (!(side * of_outer(i).y > 0)) continue;
            bridge best{std::numeric_limits<double>::infinity(), i, 0};
            for (std::size_t k = 0; k < hole_.size(); ++k) {
                if (!(side * of_hole(k).y > 0)) continue;
                const double distance = length(of_hole(k) - of_outer(i));
                if (distance < best.length) best = {distance, i, k};
            }
            all.push_back(best);
        }
        std::sort(all.begin(), all.end());
        for (const bridge& b : all) {
            if (is_free(b)) return b;
        }
        impossible_geometry({"bridges between an end face's outline and its hole", 0, "must be at least", 1});
    }

    bool is_free(const bridge& b) const {
        const point<double>& from = of_outer(b.outer);
        const point<double>& to = of_hole(b.hole);
        const auto crosses = [&](const point<double>& p, const point<double>& q) {
            return (cross(to - from, p - from) > 0) != (cross(to - from, q - from) > 0) &&
                   (cross(q - p, from - p) > 0) != (cross(q - p, to - p) > 0);
        };
        for (std::size_t i = 0; i < outer_.size(); ++i) {
            if (i != b.outer && (i + 1) % outer_.size() != b.outer && crosses(of_outer(i), of_outer(i + 1)))
                return false;
        }
        for (std::size_t i = 0; i < hole_.size(); ++i) {
            if (i != b.hole && (i + 1) % hole_.size() != b.hole && crosses(of_hole(i), of_hole(i + 1))) return false;
        }
        return true;
    }

    std::vector<std::size_t> half(const bridge& from, const bridge& to) const {
        std::vector<std::size_t> polygon;
        for (std::size_t i = from.outer;; i = (i + 1) % outer_.size()) {
            polygon.push_back(outer_[i]);
            if (i == to.outer) break;
        }
        for (std::size_t k = to.hole;; k = (k + hole_.size() - 1) % hole_.size()) {
            polygon.push_back(hole_[k]);
            if (k == from.hole) break;
        }
        return polygon;
    }

    const std::vector<point<double>>& all_;
    const std::vector<std::size_t>& outer_;
    const std::vector<std::size_t>& hole_;
};

/// Exchanges the diagonal of two neighbouring triangles wherever that makes their smallest angle larger (Delaunay's criterion: neither
/// circle contains the other's far corner), so that no needless slivers are left.
class diagonal_flipper {
public:
    diagonal_flipper(const std::vector<point<double>>& all, std::vector<triangle>& triangles)
        : all_(all), triangles_(triangles) {}

    void flip() {
        join_neighbours();
        std::vector<side> waiting;
        for (std::size_t t = 0; t < triangles_.size(); ++t) {
            for (std::size_t i = 0; i < 3; ++i) waiting.push_back({t, i});
        }
        // Each exchange makes the triangulation better, so there is an end; rounding cannot prevent it for long.
        for (std::size_t rounds = 64 * waiting.size(); rounds > 0 && !waiting.empty(); --rounds) {
            const auto [t, i] = waiting.back();
            waiting.pop_back();
            const std::size_t u = neighbours_[t][i];
            if (u == none) continue;
            const std::size_t a = triangles_[t][i];
            const std::size_t b = triangles_[t][(i + 1) % 3];
            const std::size_t c = triangles_[t][(i + 2) % 3];
            std::size_t k = 0;
            while (triangles_[u][k] != b) ++k;
            const std::size_t d = triangles_[u][(k + 2) % 3];
            if (!in_circle(a, b, c, d) || !is_left(c, a, d) || !is_left(d, b, c)) continue;
            const std::size_t beyond_bc = neighbours_[t][(i + 1) % 3];
            const std::size_t beyond_ca = neighbours_[t][(i + 2) % 3];
            const std::size_t beyond_ad = neighbours_[u][(k + 1) % 3];
            const std::size_t beyond_db = neighbours_[u][(k + 2) % 3];
            triangles_[t] = {c, a, d};
            triangles_[u] = {d, b, c};
            neighbours_[t] = {beyond_ca, beyond_ad, u};
            neighbours_[u] = {beyond_db, beyond_bc, t};
            replace(beyond_ad, u, t);
            replace(beyond_bc, t, u);
            for (const std::size_t changed : {t, u}) {
                waiting.push_back({changed, 0});
                waiting.push_back({changed, 1});
            }
        }
    }

private:
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    /// Side i of a triangle, from corner i to the next.
    using side = std::array<std::size_t, 2>;

    void join_neighbours() {
        struct known_side {
            std::size_t low, high, t, i;
            bool operator<(const known_side& o) const { return low != o.low ? low < o.low : high < o.high; }
        };
        std::vector<known_side> sides;
        neighbours_.assign(triangles_.size(), {none, none, none});
        for (std::size_t t = 0; t < triangles_.size(); ++t) {
            for (std::size_t i = 0; i < 3; ++i) {
                const std::size_t a = triangles_[t][i];
                const std::size_t b = triangles_[t][(i + 1) % 3];
                sides.push_back({(std::min)(a, b), (std::max)(a, b), t, i});
            }
        }
        std::sort(sides.begin(), sides.end());
        for (std::size_t n = 1; n < sides.size(); ++n) {
            const known_side& p = sides[n - 1];
            const known_side& q = sides[n];
            if (p < q) continue;
            neighbours_[p.t][p.i] = q.t;
            neighbours_[q.t][q.i] = p.t;
        }
    }
    void replace(std::size_t of, std::size_t before, std::size_t now) {
        if (of == none) return;
        for (std::size_t& n : neighbours_[of]) {
            if (n == before) {
                n = now;
                return;
            }
        }
    }
    bool is_left(std::size_t a, std::size_t b, std::size_t c) const {
        return cross(all_[b] - all_[a], all_[c] - all_[a]) > 0;
    }
    /// True when d lies within the circle through a, b and c, by more than rounding.
    bool in_circle(std::size_t a, std::size_t b, std::size_t c, std::size_t d) const {
        // The angles at c and d that look at a and b are together more than a straight one: sin of their sum is less than 0.
        const point<double> ca = all_[a] - all_[c];
        const point<double> cb = all_[b] - all_[c];
        const point<double> da = all_[a] - all_[d];
        const point<double> db = all_[b] - all_[d];
        const double sine = cross(ca, cb) * dot(da, db) + dot(ca, cb) * cross(db, da);
        return sine < -1e-9 * length(ca) * length(cb) * length(da) * length(db);
    }

    const std::vector<point<double>>& all_;
    std::vector<triangle>& triangles_;
    std::vector<std::array<std::size_t, 3>> neighbours_; // beyond side i of each triangle
};

/// Triangles between an outer polygon and a hole round the axis, or of the whole polygon where the hole is empty. Both counter-clockwise.
inline std::vector<triangle> triangles_of(const std::vector<point<double>>& all, const std::vector<std::size_t>& outer,
                                          const std::vector<std::size_t>& hole) {
    std::vector<triangle> result;
    if (hole.empty()) {
        result = ear_cutter(all, outer).cut();
    } else {
        for (std::vector<std::size_t>& half : bridges(all, outer, hole).halves()) {
            const std::vector<triangle> part = ear_cutter(all, std::move(half)).cut();
            result.insert(result.end(), part.begin(), part.end());
        }
    }
    diagonal_flipper(all, result).flip();
    return result;
}

} // namespace rackwork::detail

#endif
