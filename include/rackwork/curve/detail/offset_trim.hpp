// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What remains of the parallels of a path: the parts that are nowhere nearer to it than the distance.
#ifndef RACKWORK_CURVE_DETAIL_OFFSET_TRIM_HPP
#define RACKWORK_CURVE_DETAIL_OFFSET_TRIM_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/root_finding.hpp"
#include "../../core/scalar.hpp"
#include "../offset_segment.hpp"
#include "crossings.hpp"
#include "offset_pieces.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

namespace rackwork::detail {

/// Answers whether a point is nearer to a path than a distance.
template <scalar T>
class nearness {
public:
    nearness(const std::vector<offset_segment<T>>& path, const T& distance) : path_(path), distance_(distance) {
        for (std::size_t i = 0; i < path.size(); ++i) {
            for (const bend<T>& b : bends_of(path[i], i)) {
                bends_.push_back(b);
                widest_ = larger(widest_, T(b.box.highest.x - b.box.lowest.x));
            }
        }
        std::sort(bends_.begin(), bends_.end(), [](const bend<T>& a, const bend<T>& b) { return a.box.lowest.x < b.box.lowest.x; });
    }

    bool is_nearer(const point<T>& p) const {
        const auto first = std::lower_bound(bends_.begin(), bends_.end(), T(p.x - distance_ - widest_),
                                            [](const bend<T>& b, const T& x) { return b.box.lowest.x < x; });
        for (auto b = first; b != bends_.end() && b->box.lowest.x < p.x + distance_; ++b) {
            // No point of a bend is farther from its start than the farther corner of the triangle that holds it.
            const T reach = larger(length(b->end - b->start), length(b->apex - b->start));
            if (length(p - b->start) - reach < distance_ && b->box.meets({p, p}, distance_) && distance_to(*b, p) < distance_) return true;
        }
        return false;
    }

private:
    /// Along a bend the way to the point square to it changes its sense at the nearest place, if that is not an end.
    T distance_to(const bend<T>& b, const point<T>& p) const {
        const offset_segment<T>& s = path_[b.piece];
        T nearest = smaller(length(b.start - p), length(b.end - p));
        const auto ahead = [&](const T& t) { return dot(p - s.position(t), s.tangent(t)); };
        constexpr int samples = 8; // a point beyond the centre of curvature may be nearest more than once
        T before = ahead(b.from);
        for (int i = 1; i <= samples; ++i) {
            const auto at = [&](int k) { return k == samples ? b.to : T(b.from + (b.to - b.from) * (T(k) / T(samples))); };
            const T here = ahead(at(i));
            if (before > T(0) && here <= T(0)) nearest = smaller(nearest, length(p - s.position(bracketed_root(ahead, at(i - 1), at(i)))));
            before = here;
        }
        return nearest;
    }

    const std::vector<offset_segment<T>>& path_;
    T distance_;
    std::vector<bend<T>> bends_;
    T widest_{0};
};

/// A part of a piece from one crossing, or end of the piece, to the next.
template <scalar T>
struct offset_part {
    std::size_t piece;
    T from;
    T to;
    point<T> start;
    point<T> end;
    /// Index of the crossing at which it ends; `none` if it does not.
    std::size_t crossing_at_end;
    /// Index of the crossing at which it starts; `none` if it does not.
    std::size_t crossing_at_start;
    /// True if the part after it goes on from it without a crossing.
    bool joined = false;
    bool kept = false;

    static constexpr std::size_t none = static_cast<std::size_t>(-1);
};

/// The parts of the pieces in order, and which of them are to be kept.
template <scalar T>
std::vector<offset_part<T>> parts_of(const std::vector<offset_piece<T>>& pieces, const std::vector<offset_segment<T>>& path,
                                     const T& distance, bool closed, const T& size) {
    using part = offset_part<T>;
    std::vector<offset_segment<T>> segments;
    for (const offset_piece<T>& p : pieces) segments.push_back(p.segment);
    std::vector<bool> crumb;
    for (const offset_segment<T>& s : segments) crumb.push_back(is_crumb(s, size));
    const auto neighbours = [&](std::size_t i, std::size_t j) {
        for (std::size_t step = 0; step < pieces.size() && pieces[i].joined; ++step) {
            i = i + 1 == pieces.size() ? 0 : i + 1;
            if (i == j) return true;
            if (!crumb[i]) return false;
        }
        return false;
    };
    const std::vector<crossing<T>> crossings = crossings_of(segments, size, neighbours);

    struct cut {
        std::size_t piece;
        T along; // growing with the running direction
        T at;
        std::size_t crossing;
    };
    std::vector<cut> cuts;
    for (std::size_t c = 0; c < crossings.size(); ++c) {
        const auto along = [&](std::size_t i, const T& t) { return segments[i].to < segments[i].from ? T(-t) : t; };
        cuts.push_back({crossings[c].first, along(crossings[c].first, crossings[c].at_first), crossings[c].at_first, c});
        cuts.push_back({crossings[c].second, along(crossings[c].second, crossings[c].at_second), crossings[c].at_second, c});
    }
    std::sort(cuts.begin(), cuts.end(),
              [](const cut& a, const cut& b) { return a.piece != b.piece ? a.piece < b.piece : a.along < b.along; });

    std::vector<part> parts;
    std::size_t next_cut = 0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const offset_segment<T>& s = segments[i];
        part here{i, s.from, s.to, s.start, s.end, part::none, part::none, pieces[i].joined};
        for (; next_cut < cuts.size() && cuts[next_cut].piece == i; ++next_cut) {
            const cut& c = cuts[next_cut];
            part before = here;
            before.to = c.at;
            before.end = crossings[c.crossing].position;
            before.crossing_at_end = c.crossing;
            before.joined = false;
            parts.push_back(before);
            here.from = c.at;
            here.start = crossings[c.crossing].position;
            here.crossing_at_start = c.crossing;
        }
        parts.push_back(here);
    }

    // What is joined without a crossing is kept or dropped as a whole; its longest part's middle decides. What has a loose end, where a
    // parallel turns back beyond a centre of curvature or a corner, belongs to nothing closed.
    const T tolerance = T(256) * epsilon<T>() * (size + distance);
    const nearness<T> to_path(path, T(distance - tolerance));
    std::size_t first = 0;
    while (first < parts.size() && parts[first == 0 ? parts.size() - 1 : first - 1].joined) ++first;
    if (first == parts.size()) first = 0; // joined all round
    for (std::size_t done = 0; done < parts.size();) {
        std::size_t count = 0;
        T longest = T(-1);
        point<T> probe;
        const std::size_t begin = (first + done) % parts.size();
        const std::size_t before_it = begin == 0 ? parts.size() - 1 : begin - 1;
        bool loose = parts[begin].crossing_at_start == part::none && !parts[before_it].joined && (closed || begin > 0);
        for (; done + count < parts.size(); ++count) {
            const part& p = parts[(first + done + count) % parts.size()];
            const offset_segment<T>& s = segments[p.piece];
            const T middle = T(p.from + (p.to - p.from) / T(2));
            const T way = length(p.end - p.start);
            if (way > longest) {
                longest = way;
                probe = s.on_curve(middle);
            }
            if (!p.joined) {
                loose = loose || (p.crossing_at_end == part::none && (closed || begin + count + 1 < parts.size()));
                ++count;
                break;
            }
        }
        const bool kept = !loose && !to_path.is_nearer(probe);
        for (std::size_t k = 0; k < count; ++k) parts[(first + done + k) % parts.size()].kept = kept;
        done += count;
    }
    return parts;
}

} // namespace rackwork::detail

#endif
