// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How far tool paths are from exact outlines, measured on dense points of both; no approximation of the library takes part.
#ifndef EXCHANGE_GCODE_MEASURE_HPP
#define EXCHANGE_GCODE_MEASURE_HPP

#include <rackwork/core/point.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <vector>

namespace gcode_measure {

using rackwork::point;

/// A move of the tool: straight, or an arc about a centre. `turns` is 1 counter-clockwise, -1 clockwise, 0 for straight.
struct move {
    point<double> from;
    point<double> to;
    point<double> centre{};
    int turns = 0;
    double height = 0;
    bool rapid = false;
};

/// The point of a move at a share of it, as a control runs it: round the centre, from the radius of one end to that of the other.
inline point<double> at(const move& m, double share) {
    if (m.turns == 0) return m.from + share * (m.to - m.from);
    const point<double> a = m.from - m.centre;
    const point<double> b = m.to - m.centre;
    double angle = std::atan2(cross(a, b), dot(a, b));
    if (m.turns > 0 && angle <= 0) angle += 2 * std::numbers::pi;
    if (m.turns < 0 && angle >= 0) angle -= 2 * std::numbers::pi;
    const double radius = length(a) + share * (length(b) - length(a));
    return m.centre + (radius / length(a)) * turned(a, angle * share);
}

/// Distances to a curve that is given by dense points, piece by piece.
class dense_curve {
public:
    /// Adds the points of one piece; `place` gives the point at a share from 0 to 1.
    template <class Place>
    void add(int steps, const Place& place) {
        piece p;
        for (int i = 0; i <= steps; ++i) p.points.push_back(place(static_cast<double>(i) / steps));
        p.centre = p.points[p.points.size() / 2];
        for (const point<double>& q : p.points) p.reach = std::max(p.reach, length(q - p.centre));
        pieces_.push_back(p);
    }

    double distance_to(const point<double>& q) const {
        double best = std::numeric_limits<double>::infinity();
        for (const piece& p : pieces_) best = std::min(best, length(q - p.centre) + p.reach);
        double nearest = best;
        for (const piece& p : pieces_) {
            if (length(q - p.centre) - p.reach > nearest) continue;
            for (std::size_t i = 0; i + 1 < p.points.size(); ++i) nearest = std::min(nearest, to_chord(q, p.points[i], p.points[i + 1]));
        }
        return nearest;
    }

    /// Calls with some of the points, both ends of each piece among them.
    template <class Use>
    void each_fourth(const Use& use) const {
        for (const piece& p : pieces_) {
            for (std::size_t i = 0; i < p.points.size(); i += 4) use(p.points[i]);
            use(p.points.back());
        }
    }

private:
    struct piece {
        std::vector<point<double>> points;
        point<double> centre{};
        double reach = 0;
    };

    static double to_chord(const point<double>& q, const point<double>& a, const point<double>& b) {
        const point<double> chord = b - a;
        const double square = dot(chord, chord);
        const double share = square > 0 ? std::clamp(dot(q - a, chord) / square, 0., 1.) : 0.;
        return length(q - (a + share * chord));
    }

    std::vector<piece> pieces_;
};

/// How far the chords of dense points may stray from their curve.
inline constexpr double resolution = 4e-5;

/// How many chords keep within the resolution of a curve of that length that turns by that angle; a few times as many where it bends unevenly.
inline int steps_for(double length, double turning) { return 8 + static_cast<int>(2 * std::sqrt(length * turning / (8 * resolution))); }

/// The segments of an outline, or of an offset, as dense points.
template <class Segments>
dense_curve dense_points_of(const Segments& segments) {
    dense_curve result;
    for (const auto& s : segments) {
        const auto place = [&](double share) { return s.position(share == 1 ? s.to : s.from + (s.to - s.from) * share); };
        double way = 0;
        for (int i = 0; i < 8; ++i) way += length(place((i + 1) / 8.) - place(i / 8.));
        const double turning = std::acos(std::clamp(dot(s.tangent(s.from), s.tangent(s.to)), -1., 1.));
        result.add(steps_for(way, turning + 0.1), place);
    }
    return result;
}

inline dense_curve dense_points_of_moves(const std::vector<move>& moves) {
    dense_curve result;
    for (const move& m : moves) {
        const double radius = length(m.to - m.centre);
        const double turning = 2 * std::asin(std::min(1., length(at(m, 0.5) - m.from) / radius / 2)) * 2;
        result.add(m.turns == 0 ? 1 : steps_for(radius * turning, turning), [&](double share) { return share == 1 ? m.to : at(m, share); });
    }
    return result;
}

} // namespace gcode_measure

#endif
