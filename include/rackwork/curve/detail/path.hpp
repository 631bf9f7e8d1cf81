// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What every approximation does with a sequence of segments: check the tolerance, and do the work once for segments that are alike.
#ifndef RACKWORK_CURVE_DETAIL_PATH_HPP
#define RACKWORK_CURVE_DETAIL_PATH_HPP

#include "../../core/elementary.hpp"
#include "../../core/error.hpp"
#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "../../form/outline.hpp"
#include "../../form/segment.hpp"
#include "../arc.hpp"
#include "../offset_segment.hpp"
#include "exact_curve.hpp"

#include <cstddef>
#include <variant>
#include <vector>

namespace rackwork::detail {

/// Greatest distance of an end of a segment from the axis. What is not a number stays one.
template <scalar T>
T size_of(const std::vector<offset_segment<T>>& path) {
    T greatest = T(0); // of the squares
    T sum = T(0);      // lets no infinity and nothing that is not a number get lost
    for (const offset_segment<T>& s : path) {
        const T start = dot(s.start, s.start);
        const T end = dot(s.end, s.end);
        greatest = larger(greatest, larger(start, end));
        sum += T(0) * (start + end);
    }
    return T(elementary::sqrt(greatest) + sum);
}

/// The segments of an outline without those that are shorter than rounding, such as the land that a full-radius tool leaves: no program can
/// use a curve of no length. What follows one begins where it began.
template <scalar T>
std::vector<offset_segment<T>> path_of(const outline<T>& exact) {
    const std::vector<offset_segment<T>> all(exact.segments.begin(), exact.segments.end());
    const T size = size_of(all);
    if (!is_finite(size)) return all; // to be refused by who asked
    const T least = T(64) * epsilon<T>() * size;
    std::vector<offset_segment<T>> path;
    path.reserve(all.size());
    const bool closed = !all.empty() && all.front().start == all.back().end;
    for (const offset_segment<T>& s : all) {
        const auto way = [&] { return T(magnitude(T(s.to - s.from)) * larger(s.speed(s.from), s.speed(s.to))); };
        const point<T> chord = s.end - s.start;
        if (dot(chord, chord) <= square(T(T(4) * least)) && way() <= least) {
            if (!path.empty()) path.back().corner_at_end = path.back().corner_at_end || s.corner_at_end;
            continue;
        }
        path.push_back(s);
        if (path.size() > 1) path.back().start = path[path.size() - 2].end;
    }
    if (closed && !path.empty()) path.back().end = path.front().start;
    return path;
}

/// Throws geometry_error unless there is something to approximate and the tolerance can be met in spite of rounding.
template <scalar T>
void require_tolerance(const std::vector<offset_segment<T>>& path, const T& tolerance) {
    require(check_greater("number of segments", T(static_cast<int>(path.size())), T(0)));
    const T size = size_of(path);
    require(check_finite("coordinate of the outline", size));
    require(check_at_least("tolerance", tolerance, T(T(4096) * epsilon<T>() * size)));
}

/// The tolerance for one piece, less what rounding takes. A piece that is hardly longer than the tolerance, as the fillet of a sharp
/// tool may be, still keeps its form.
template <scalar T>
T tolerance_for(const offset_segment<T>& shape, const T& tolerance, const T& rounding) {
    const T of_its_length = length(shape.end - shape.start) / T(32);
    return larger(T(smaller(tolerance, of_its_length) - rounding), T(T(4) * rounding));
}

/// The arc that a segment of a circle is.
template <scalar T>
arc<T> arc_of(const offset_segment<T>& s) {
    const circle<T>& c = std::get<circle<T>>(s.curve);
    return {.start = s.start, .end = s.end, .centre = c.centre, .radius = c.radius, .turning = T(s.to - s.from),
            .corner_at_end = s.corner_at_end};
}

/// Results for segments in standard position, each made once.
template <scalar T, class Result>
class once_for_alike {
public:
    template <class Make>
    const Result& found_or_made(const standard_segment<T>& standard, const Make& make) {
        for (const entry& known : entries_) {
            if (known.standard.alike(standard)) return known.result;
        }
        entries_.push_back({standard, make(standard.shape_with_ends())});
        return entries_.back().result;
    }

private:
    struct entry {
        standard_segment<T> standard;
        Result result;
    };
    std::vector<entry> entries_;
};

} // namespace rackwork::detail

#endif
