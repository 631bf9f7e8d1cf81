// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Where the pieces of a path cross one another.
#ifndef RACKWORK_CURVE_DETAIL_CROSSINGS_HPP
#define RACKWORK_CURVE_DETAIL_CROSSINGS_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/root_finding.hpp"
#include "../../core/scalar.hpp"
#include "../../form/segment.hpp"
#include "../offset_segment.hpp"
#include "natural_shares.hpp"

#include <algorithm>
#include <cstddef>
#include <variant>
#include <vector>

namespace rackwork::detail {

/// A rectangle with sides along the axes.
template <scalar T>
struct extent {
    point<T> lowest;
    point<T> highest;

    constexpr void include(const point<T>& p) {
        lowest = {smaller(lowest.x, p.x), smaller(lowest.y, p.y)};
        highest = {larger(highest.x, p.x), larger(highest.y, p.y)};
    }
    constexpr bool meets(const extent& other, const T& within) const {
        return lowest.x <= other.highest.x + within && other.lowest.x <= highest.x + within && lowest.y <= other.highest.y + within &&
               other.lowest.y <= highest.y + within;
    }
};

/// Two pieces cross: at these parameters of either, in this point.
template <scalar T>
struct crossing {
    std::size_t first;
    std::size_t second;
    T at_first;
    T at_second;
    point<T> position;
    /// Where else it might lie, by rounding: the flatter the angle, the farther off.
    T uncertainty;
};

/// A part of a piece that turns one way only, by no more than an eighth of a circle. It lies in the triangle of its ends and the point in
/// which the tangents there meet.
template <scalar T>
struct bend {
    std::size_t piece;
    T from;
    T to;
    point<T> start;
    point<T> end;
    point<T> start_tangent;
    point<T> end_tangent;
    /// Where the tangents at the ends meet.
    point<T> apex;
    extent<T> box;

    bend(const offset_segment<T>& s, std::size_t index, const T& a, const T& b)
        : piece(index), from(a), to(b), start(s.position(a)), end(s.position(b)), start_tangent(s.tangent(a)), end_tangent(s.tangent(b)),
          apex(start), box{start, start} {
        box.include(end);
        const T sine = cross(start_tangent, end_tangent);
        if (sine == T(0)) return;
        const T along = cross(end - start, end_tangent) / sine;
        // Nearly parallel tangents of what is nearly straight meet anywhere, by rounding; but not farther on than the other end.
        apex = start + smaller(larger(along, T(0)), length(end - start)) * start_tangent;
        box.include(apex);
    }

    /// True if another bend lies to one side of the strip along the chord that holds this one.
    constexpr bool passes_by(const bend& other, const T& within) const {
        const point<T> chord = end - start;
        const T margin = within * length(chord);
        const auto height = [&](const point<T>& p) { return cross(chord, p - start); };
        const T own = height(apex);
        const T a = height(other.start);
        const T b = height(other.end);
        const T c = height(other.apex);
        return smaller(a, smaller(b, c)) > larger(own, T(0)) + margin || larger(a, larger(b, c)) < smaller(own, T(0)) - margin;
    }
};

template <scalar T>
std::vector<bend<T>> bends_of(const offset_segment<T>& s, std::size_t index) {
    constexpr int samples = 24;
    const auto at = [&](int i) { return i == samples ? s.to : T(s.from + (s.to - s.from) * (T(i) / T(samples))); };
    const auto curvature = [&](const T& t) { return s.curvature(t); };
    const T inside = (s.to - s.from) / T(1024); // an involute's curvature on its base circle is infinite
    std::vector<bend<T>> bends;
    T begun = s.from;
    T turned_by = T(0);
    for (int i = 0; i < samples; ++i) {
        const T before = i == 0 ? T(at(0) + inside) : at(i);
        const T here = i + 1 == samples ? T(at(samples) - inside) : at(i + 1);
        if (curvature(before) * curvature(here) < T(0)) {
            const T inflection = bracketed_root(curvature, before, here);
            if (inflection != begun) bends.emplace_back(s, index, begun, inflection);
            begun = inflection;
            turned_by = T(0);
        }
        turned_by += magnitude(T(cross(s.tangent(at(i)), s.tangent(at(i + 1)))));
        if (turned_by > T(1) / T(2) || i + 1 == samples) {
            bends.emplace_back(s, index, begun, at(i + 1));
            begun = at(i + 1);
            turned_by = T(0);
        }
    }
    return bends;
}

/// Finds the crossings of two bends, and appends them.
template <scalar T>
class bend_crossings {
public:
    bend_crossings(const std::vector<offset_segment<T>>& pieces, const T& size, std::vector<crossing<T>>& found)
        : pieces_(pieces), rounding_(T(64) * epsilon<T>() * size), found_(found) {}

    void find(const bend<T>& a, const bend<T>& b) {
        // Arcs about one centre never cross, but where they coincide all along they could be divided for ever.
        if (!are_concentric(pieces_[a.piece], pieces_[b.piece])) find(a, b, 0);
    }

private:
    bool are_concentric(const offset_segment<T>& first, const offset_segment<T>& second) const {
        const auto* c = std::get_if<circle<T>>(&first.curve);
        const auto* d = std::get_if<circle<T>>(&second.curve);
        return c != nullptr && d != nullptr && length(c->centre - d->centre) <= rounding_;
    }

    void find(const bend<T>& a, const bend<T>& b, int depth) {
        if (!a.box.meets(b.box, rounding_) || a.passes_by(b, rounding_) || b.passes_by(a, rounding_)) return;
        // Curves that only touch are divided for ever; they do not cross.
        constexpr int deepest = 96;
        if (depth == deepest) return;
        const bool one_at_most = cannot_be_parallel(a, b);
        if (one_at_most && depth > 0 && solve(a, b)) return;
        if (length(a.end - a.start) <= T(16) * rounding_ && length(b.end - b.start) <= T(16) * rounding_) { // they may as well touch
            if (one_at_most) add(a, b, a.from, b.from);
            return;
        }
        const offset_segment<T>& first = pieces_[a.piece];
        const offset_segment<T>& second = pieces_[b.piece];
        const T middle_of_a = T(a.from + (a.to - a.from) / T(2));
        const T middle_of_b = T(b.from + (b.to - b.from) / T(2));
        // The longer of the two is halved, both if they are about equal.
        const T size_of_a = length(a.end - a.start);
        const T size_of_b = length(b.end - b.start);
        if (size_of_a > T(2) * size_of_b) {
            find({first, a.piece, a.from, middle_of_a}, b, depth + 1);
            find({first, a.piece, middle_of_a, a.to}, b, depth + 1);
            return;
        }
        if (size_of_b > T(2) * size_of_a) {
            find(a, {second, b.piece, b.from, middle_of_b}, depth + 1);
            find(a, {second, b.piece, middle_of_b, b.to}, depth + 1);
            return;
        }
        const bend<T> halves_of_a[]{{first, a.piece, a.from, middle_of_a}, {first, a.piece, middle_of_a, a.to}};
        const bend<T> halves_of_b[]{{second, b.piece, b.from, middle_of_b}, {second, b.piece, middle_of_b, b.to}};
        for (const bend<T>& half_of_a : halves_of_a) {
            for (const bend<T>& half_of_b : halves_of_b) find(half_of_a, half_of_b, depth + 1);
        }
    }

    /// If no tangent of one is parallel to one of the other they cross once at most.
    static bool cannot_be_parallel(const bend<T>& a, const bend<T>& b) {
        const T sines[]{cross(a.start_tangent, b.start_tangent), cross(a.start_tangent, b.end_tangent),
                        cross(a.end_tangent, b.start_tangent), cross(a.end_tangent, b.end_tangent)};
        const T least = T(1 << 10) * epsilon<T>();
        bool all_left = true;
        bool all_right = true;
        for (const T& s : sines) {
            all_left = all_left && s > least;
            all_right = all_right && s < -least;
        }
        return all_left || all_right;
    }

    void add(const bend<T>& a, const bend<T>& b, const T& at_first, const T& at_second) {
        const offset_segment<T>& first = pieces_[a.piece];
        const T sine = magnitude(cross(first.tangent(at_first), pieces_[b.piece].tangent(at_second)));
        const T uncertainty = T(64) * rounding_ / larger(sine, epsilon<T>());
        found_.push_back({a.piece, b.piece, at_first, at_second, first.position(at_first), uncertainty});
    }

    /// Newton's method for the only crossing there can be. True if it is known whether there is one.
    bool solve(const bend<T>& a, const bend<T>& b) {
        const offset_segment<T>& first = pieces_[a.piece];
        const offset_segment<T>& second = pieces_[b.piece];
        const auto clamped = [](const T& t, const bend<T>& within) {
            return smaller(larger(t, smaller(within.from, within.to)), larger(within.from, within.to));
        };
        const auto velocity = [](const offset_segment<T>& s, const T& t) {
            return T((s.to < s.from ? T(-1) : T(1)) * s.speed(t)) * s.tangent(t);
        };
        T s = T(a.from + (a.to - a.from) / T(2));
        T t = T(b.from + (b.to - b.from) / T(2));
        int stuck = 0;
        for (int step = 0; step < 24; ++step) {
            const point<T> apart = second.on_curve(t) - first.on_curve(s);
            const point<T> u = velocity(first, s);
            const point<T> v = velocity(second, t);
            const T determinant = cross(u, v);
            if (!(magnitude(determinant) > T(0))) return false;
            const T next_s = s + cross(apart, v) / determinant;
            const T next_t = t + cross(apart, u) / determinant;
            const T kept_s = clamped(next_s, a);
            const T kept_t = clamped(next_t, b);
            const bool inside = kept_s == next_s && kept_t == next_t;
            const T moved = larger(T(magnitude(T(kept_s - s)) * length(u)), T(magnitude(T(kept_t - t)) * length(v)));
            s = kept_s;
            t = kept_t;
            if (moved > rounding_) {
                stuck = 0;
                continue;
            }
            // Held at an end by the clamp: the curves' continuations cross, they do not.
            const T missing = length(second.on_curve(t) - first.on_curve(s));
            if (inside || missing <= rounding_) {
                add(a, b, s, t);
                return true;
            }
            if (++stuck > 1) return true;
        }
        return false;
    }

    const std::vector<offset_segment<T>>& pieces_;
    T rounding_;
    std::vector<crossing<T>>& found_;
};

/// True for a piece so short that rounding has a say in its form, such as the parallel of an arc near the arc's centre.
template <scalar T>
bool is_crumb(const offset_segment<T>& s, const T& size) {
    return magnitude(T(s.to - s.from)) * larger(s.speed(s.from), s.speed(s.to)) <= T(1 << 10) * epsilon<T>() * size;
}

/// All crossings of some pieces, those of a piece with itself included. `neighbours(i, j)` says whether piece j begins where piece i
/// ends, or has crumbs only in between.
template <scalar T, class Neighbours>
std::vector<crossing<T>> crossings_of(const std::vector<offset_segment<T>>& pieces, const T& size, const Neighbours& neighbours) {
    std::vector<bend<T>> bends;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (is_crumb(pieces[i], size)) {
            bends.emplace_back(pieces[i], i, pieces[i].from, pieces[i].to);
            continue;
        }
        const std::vector<bend<T>> own = bends_of(pieces[i], i);
        bends.insert(bends.end(), own.begin(), own.end());
    }
    std::sort(bends.begin(), bends.end(), [](const bend<T>& a, const bend<T>& b) { return a.box.lowest.x < b.box.lowest.x; });

    std::vector<crossing<T>> found;
    bend_crossings<T> search(pieces, size, found);
    const T rounding = T(1 << 14) * epsilon<T>() * size;
    for (std::size_t i = 0; i < bends.size(); ++i) {
        for (std::size_t j = i + 1; j < bends.size() && bends[j].box.lowest.x <= bends[i].box.highest.x + rounding; ++j) {
            // Where one goes on from the other in its direction, each is a graph over the common tangent, to either side of the joint.
            const auto goes_on = [&](const bend<T>& before, const bend<T>& after) {
                if (before.piece == after.piece) return before.to == after.from;
                return before.to == pieces[before.piece].to && after.from == pieces[after.piece].from &&
                       neighbours(before.piece, after.piece);
            };
            if (!goes_on(bends[i], bends[j]) && !goes_on(bends[j], bends[i])) search.find(bends[i], bends[j]);
        }
    }
    // A crossing at the common end of two bends is found twice, and a flat one now and again.
    std::vector<crossing<T>> unique;
    for (const crossing<T>& c : found) {
        const auto same = [&](const crossing<T>& d) {
            return ((c.first == d.first && c.second == d.second) || (c.first == d.second && c.second == d.first)) &&
                   length(c.position - d.position) <= rounding + larger(c.uncertainty, d.uncertainty);
        };
        if (std::none_of(unique.begin(), unique.end(), same)) unique.push_back(c);
    }
    return unique;
}

} // namespace rackwork::detail

#endif
