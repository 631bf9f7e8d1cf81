// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The transverse section as polygons for facets: chordal and angular tolerance, alike for alike teeth.
#ifndef RACKWORK_SOLID_SECTION_POLYGON_HPP
#define RACKWORK_SOLID_SECTION_POLYGON_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../curve/polyline.hpp"
#include "../form/outline.hpp"
#include "../form/segment.hpp"
#include "section_path.hpp"

#include <cmath>
#include <cstddef>
#include <variant>
#include <vector>

namespace rackwork::detail {

/// A closed polygon, and how far the exact curve is from it.
struct section_polygon {
    std::vector<point<double>> points;
    double deviation = 0;

    double longest_chord() const {
        double longest = 0;
        for (std::size_t i = 0; i < points.size(); ++i)
            longest = larger(longest, length(points[(i + 1) % points.size()] - points[i]));
        return longest;
    }
    double reach() const {
        double farthest = 0;
        for (const point<double>& p : points) farthest = larger(farthest, length(p));
        return farthest;
    }
};

/// The division of a segment within a chordal tolerance, divided further until the tangent turns by at most `angular` radians from
/// one end of a chord to the other.
inline division<double> divided(const segment<double>& s, double chordal, double angular) {
    const division<double> coarse = divide(s, chordal);
    division<double> fine;
    fine.deviation = coarse.deviation;
    fine.parameters.push_back(coarse.parameters.front());
    for (std::size_t i = 1; i < coarse.parameters.size(); ++i) {
        const double from = coarse.parameters[i - 1];
        const double to = coarse.parameters[i];
        const point<double> first = s.tangent(from);
        const point<double> last = s.tangent(to);
        // Without an inflection in between, what is between the tangents' directions is all the turning there is.
        const double turning = std::abs(std::atan2(cross(first, last), dot(first, last)));
        const int parts = 1 + whole_part(turning / angular * (1 - 1e-9));
        for (int k = 1; k < parts; ++k) fine.parameters.push_back(from + (to - from) * k / parts);
        fine.parameters.push_back(to);
    }
    return fine;
}

/// The polygon of an outline within a chordal tolerance of at least 2^-19 of its size. Segments shorter than single precision can tell, 2^-20
/// of the size, are left out.
inline section_polygon polygon_of(const outline<double>& exact, double chordal, double angular) {
    double size = 0;
    for (const segment<double>& s : exact.segments) size = larger(size, length(s.start));
    const double least = 0x1p-20 * size;
    bool left_out = false;
    struct known_division {
        std::size_t index;
        division<double> how;
    };
    std::vector<known_division> known;
    section_polygon result;
    for (std::size_t i = 0; i < exact.segments.size(); ++i) {
        const segment<double>& s = exact.segments[i];
        if (length(s.end - s.start) <= least) {
            left_out = true;
            continue;
        }
        std::size_t k = 0;
        while (k < known.size() && !same_but_turned(exact.segments[known[k].index], s)) ++k;
        if (k == known.size()) known.push_back({i, divided(s, chordal - least, angular)});
        const division<double>& how = known[k].how;
        result.deviation = larger(result.deviation, how.deviation);
        for (std::size_t j = 0; j + 1 < how.parameters.size(); ++j)
            result.points.push_back(s.position(how.parameters[j]));
        if (std::holds_alternative<circle<double>>(s.curve)) known.pop_back();
    }
    if (left_out) result.deviation += least; // what follows one begins where that ended
    return result;
}

/// Number of chords of an arc. Sagitta r (1 - cos(step/2)) = 2 r sin^2(step/4).
inline int chords_of(double radius, double turning, double chordal, double angular) {
    const double step = smaller(angular, 4 * std::asin(std::sqrt(smaller(chordal / (2 * radius), 0.25))));
    return 1 + whole_part(turning / step * (1 - 1e-9));
}

/// The polygon of arcs about the axis and straight lines, such as a bore's.
inline section_polygon polygon_of(const section_path& path, double chordal, double angular) {
    section_polygon result;
    for (const auto& curve : path.curves) {
        const arc<double>& a = std::get<arc<double>>(curve);
        if (a.is_line()) {
            result.points.push_back(a.start);
            continue;
        }
        const int parts = chords_of(a.radius, a.turning, chordal, angular);
        for (int k = 0; k < parts; ++k) result.points.push_back(a.position(1. * k / parts));
        result.deviation = larger(result.deviation, 2 * a.radius * square(std::sin(a.turning / parts / 4)));
    }
    return result;
}

} // namespace rackwork::detail

#endif
