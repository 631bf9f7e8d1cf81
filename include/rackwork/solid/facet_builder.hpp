// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Builds a solid of triangles from rings of points, the strips between them and the ends that they bound.
#ifndef RACKWORK_SOLID_FACET_BUILDER_HPP
#define RACKWORK_SOLID_FACET_BUILDER_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../curve/arc.hpp"
#include "brep.hpp"
#include "end_chamfer.hpp"
#include "section_path.hpp"
#include "section_polygon.hpp"
#include "tip_chamfer.hpp"
#include "triangulation.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <variant>
#include <vector>

namespace rackwork {

/// A solid by triangles. Watertight: each side of a facet is, in the opposite direction, a side of exactly one other.
struct facet_solid {
    std::vector<point3> points;
    /// Corners by their indices, counter-clockwise as seen from outside.
    std::vector<std::array<std::size_t, 3>> facets;
    /// No point of a facet is farther from the exact boundary than this, and the other way round.
    double deviation = 0;
};

namespace detail {

/// The chamfer, and what is left of it above circles between its end and the tips: bands so narrow that facets of them are about as deep as
/// a chord of a circle within half of the chordal tolerance is long.
inline std::vector<end_chamfer> bands_of(const end_chamfer& chamfer, double chordal) {
    std::vector<end_chamfer> bands{chamfer};
    const double extent = chamfer.tip_radius - chamfer.end_radius;
    const int count = 1 + whole_part(magnitude(extent) / std::sqrt(4 * chordal * chamfer.end_radius));
    for (int k = 1; k < count; ++k) bands.push_back(chamfer.from_radius(chamfer.end_radius + extent * k / count));
    return bands;
}

class facet_builder {
public:
    struct ring {
        std::vector<std::size_t> points;
        double height = 0;
    };
    using tooth_section = section_polygon;

    /// With a chordal tolerance for teeth and plain surfaces of revolution, and one for cones that cut teeth or a keyway.
    facet_builder(double chordal, double of_cones, double angular)
        : chordal_(chordal), of_cones_(of_cones), angular_(angular) {}

    /// Half of the tolerance is the section's. The other half is for what a layer's facets stray from the screw surface of the polygon, see
    /// layer_deviation.
    int layers(const section_polygon& section, double turning, double, double) const {
        const double radius = section.reach();
        const double chord = section.longest_chord();
        const double rest = chordal_ / 2;
        const double quarter = chord / 4;
        // Of r t^2/8 + l t/4 = rest the positive root.
        const double step = smaller(angular_, 2 * rest / (quarter + std::sqrt(quarter * quarter + radius * rest / 2)));
        return 1 + whole_part(magnitude(turning) / step * (1 - 1e-9));
    }

    ring add_ring(const section_polygon& section, const point<double>& turn, double height) {
        section_deviation_ = larger(section_deviation_, section.deviation);
        return add_points(section, turn, height);
    }
    ring add_ring(const section_path& path, const point<double>& turn, double height) {
        const section_polygon polygon = polygon_of(path, chordal_, angular_);
        plain_deviation_ = larger(plain_deviation_, polygon.deviation);
        return add_points(polygon, turn, height);
    }

    /// The ring after so many layers of a wall: each point has gone as much of its own way between low and high ring.
    ring add_ring_between(const section_polygon& section, double twist, const ring& low, const ring& high, int layer,
                          int layers) {
        const double height = low.height + (high.height - low.height) * layer / layers;
        if (is_level(low) && is_level(high)) return add_ring(section, direction(twist * height), height);
        ring result{.points = {}, .height = height};
        for (std::size_t i = 0; i < section.points.size(); ++i) {
            const double from = solid_.points[low.points[i]].z;
            const double to = solid_.points[high.points[i]].z;
            result.points.push_back(add_point(section.points[i], twist, from + (to - from) * layer / layers));
        }
        return result;
    }

    /// The rings at an end with a chamfer, of a section that turns by so many radians per length, and the chamfer's facets. The section has points
    /// where the chamfer begins; some of it must reach the plane end.
    chamfered_end<ring> add_chamfered_end(const section_polygon& section, double twist, const end_chamfer& chamfer,
                                          wall_side) {
        section_deviation_ = larger(section_deviation_, section.deviation);
        chamfered_end<ring> result;
        result.wall.height = result.face.height = chamfer.end_height;
        std::vector<int> sides;
        for (const point<double>& p : section.points) {
            const double radius = length(p);
            sides.push_back(chamfer.side(radius));
            result.wall.points.push_back(
                add_point(p, twist, sides.back() > 0 ? chamfer.height_at(radius) : chamfer.end_height));
        }
        const std::size_t count = sides.size();
        std::size_t start = 0;
        while (start + 1 < count && sides[start] > 0) ++start;
        std::vector<std::size_t> cut; // from where the chamfer begins on one flank to where it does on the other
        for (std::size_t n = 0; n < count; ++n) {
            const std::size_t i = (start + n) % count;
            const std::size_t next = (i + 1) % count;
            const std::size_t here = result.wall.points[i];
            if (sides[i] <= 0) result.face.points.push_back(here);
            if (sides[i] <= 0 && sides[next] > 0) cut = {here};
            if (sides[i] > 0) cut.push_back(here);
            if (sides[i] > 0 && sides[next] <= 0) {
                cut.push_back(result.wall.points[next]);
                measure_edges(cut);
                add_chamfer_facets(chamfer, cut, result.face);
            }
        }
        return result;
    }

    /// The same for a path of arcs and lines, which is divided where the chamfer begins and beyond it finely enough for its cone.
    chamfered_end<ring> add_chamfered_end(const section_path& path, double twist, const end_chamfer& chamfer,
                                          wall_side side) {
        const section_polygon polygon = polygon_of(divided_at(path, chamfer), 0.7 * of_cones_, angular_);
        plain_deviation_ = larger(plain_deviation_, polygon.deviation);
        const double of_section = section_deviation_;
        const chamfered_end<ring> result = add_chamfered_end(polygon, twist, chamfer, side);
        section_deviation_ = of_section;
        return result;
    }

    void add_wall(const section_polygon& section, const ring& low, const ring& high, double twist, wall_side side) {
        add_strip(low, high, side);
        if (twist == 0) return;
        const std::size_t count = low.points.size();
        for (std::size_t i = 0; i < count; ++i) {
            // Of the two triangles none reaches farther than from the lower to the upper ends of their columns.
            const std::size_t next = (i + 1) % count;
            const double bottom = smaller(height_of(low.points[i]), height_of(low.points[next]));
            const double top = larger(height_of(high.points[i]), height_of(high.points[next]));
            const double strays =
                layer_deviation(section.points[i], section.points[next], magnitude(twist) * (top - bottom));
            layer_deviation_ = larger(layer_deviation_, strays);
        }
    }
    void add_wall(const section_path&, const ring& low, const ring& high, double, wall_side side) {
        add_strip(low, high, side);
    }
    void add_cone(const section_path&, const ring& low, const section_path&, const ring& high, wall_side side) {
        add_strip(low, high, side);
    }

    void add_plane(bool upward, const ring& outer, const ring* hole) {
        const std::vector<std::size_t> none;
        for (const triangle& t : triangles_of(flat_, outer.points, hole == nullptr ? none : hole->points))
            add(t[0], t[1], t[2], upward);
    }

    /// True if cones that cut teeth or a keyway leave too little of a chordal tolerance to the teeth and the bore.
    bool cones_are_coarse(double chordal, const tip_chamfer& chamfer) const {
        return cone_deviation_ > chordal || edge_deviation_ * larger(2., chamfer.of_cone) > chordal / 4;
    }

    /// The solid, with the chamfer of its tips, and that of its bore moved by so much.
    facet_solid finished(const tip_chamfer& chamfer, double bore_settled) {
        double size = 0;
        for (const point3& p : solid_.points) size = larger(size, length(p));
        const double of_teeth = (section_deviation_ + layer_deviation_) * chamfer.of_flank + edge_deviation_ * chamfer.of_cone;
        // A bore's chamfer is under 45 degrees and cuts planes along the axis.
        const double of_bore = plain_deviation_ + 2 * edge_deviation_;
        solid_.deviation = larger(larger(of_teeth, of_bore), cone_deviation_) +
                           larger(chamfer.settled, 2 * bore_settled) + 64 * epsilon<double>() * size;
        return std::move(solid_);
    }

private:
    double height_of(std::size_t i) const { return solid_.points[i].z; }

    bool is_level(const ring& r) const {
        for (const std::size_t i : r.points) {
            if (height_of(i) != r.height) return false;
        }
        return true;
    }

    /// How far a triangle between two neighbouring helices strays from the screw surface of the chord between them, where the helices turn by
    /// t radians over the triangle's height. A point of it is a mean of its corners, and so is a point of the chord at its height of the helices'
    /// points there. To the first order the two differ by the twist of the chord times at most a quarter of the height, l t/4; helices stray
    /// from their tangents so that means differ by at most r t^2/8 (r radius, l chord).
    static double layer_deviation(const point<double>& a, const point<double>& b, double t) {
        return larger(length(a), length(b)) * t * t / 8 + length(b - a) / 4 * t;
    }

    std::size_t add_point(const point<double>& p, double twist, double height) {
        return add_turned(turned(p, direction(twist * height)), height);
    }
    std::size_t add_turned(const point<double>& p, double height) {
        flat_.push_back(p);
        solid_.points.push_back({p.x, p.y, height});
        return flat_.size() - 1;
    }

    ring add_points(const section_polygon& section, const point<double>& turn, double height) {
        ring result{.points = {}, .height = height};
        for (const point<double>& p : section.points) result.points.push_back(add_turned(turned(p, turn), height));
        return result;
    }

    void add(std::size_t a, std::size_t b, std::size_t c, bool counter_clockwise) {
        if (counter_clockwise) {
            solid_.facets.push_back({a, b, c});
        } else {
            solid_.facets.push_back({a, c, b});
        }
    }

    /// Triangles between two rings that begin at the same angle, going up the two side by side. Each goes on where it lags behind.
    void add_strip(const ring& low, const ring& high, wall_side side) {
        const std::size_t n = low.points.size();
        const std::size_t m = high.points.size();
        const bool outward = side == wall_side::solid_inside;
        std::size_t i = 0;
        std::size_t k = 0;
        while (i < n || k < m) {
            if (k == m || (i < n && i * m <= k * n)) {
                add(low.points[i], low.points[(i + 1) % n], high.points[k % m], outward);
                ++i;
            } else {
                add(low.points[i % n], high.points[(k + 1) % m], high.points[k], outward);
                ++k;
            }
        }
    }

    /// How far chords of edges on a cone lie within it; those of a land are the section's.
    void measure_edges(const std::vector<std::size_t>& cut) {
        for (std::size_t i = 1; i < cut.size(); ++i) {
            const point<double>& p = flat_[cut[i - 1]];
            const point<double>& q = flat_[cut[i]];
            // A land is level but for rounding.
            const bool level = magnitude(height_of(cut[i]) - height_of(cut[i - 1])) <= 0x1p-30 * length(p);
            if (!level) edge_deviation_ = larger(edge_deviation_, sagitta(p, q));
        }
    }

    /// Of the arc about the axis between two directions, at the larger radius.
    static double sagitta(const point<double>& p, const point<double>& q) {
        const double turning = std::atan2(cross(p, q), dot(p, q));
        return 2 * larger(length(p), length(q)) * square(std::sin(turning / 4));
    }

    /// The cone between points that lie on it, up to the tips and down again, and the arc in the end from the first to the last, which becomes
    /// part of the end's ring.
    void add_chamfer_facets(const end_chamfer& chamfer, const std::vector<std::size_t>& cut, ring& face) {
        std::size_t from = 0;
        std::size_t to = cut.size() - 1;
        std::vector<std::size_t> before;
        for (const end_chamfer& band : bands_of(chamfer, of_cones_)) {
            std::size_t next_from = from;
            std::size_t next_to = to;
            while (next_from < to && band.side(length(flat_[cut[next_from]])) < 0) ++next_from;
            while (next_to > from && band.side(length(flat_[cut[next_to]])) < 0) --next_to;
            if (next_from >= next_to) break; // tips that do not reach so far
            const std::vector<std::size_t> across = points_across(chamfer, cut[next_from], cut[next_to]);
            if (band.end_height == chamfer.end_height) {
                face.points.insert(face.points.end(), across.begin(), across.end());
            } else {
                std::vector<std::size_t> polygon(cut.begin() + static_cast<std::ptrdiff_t>(from),
                                                 cut.begin() + static_cast<std::ptrdiff_t>(next_from + 1));
                polygon.insert(polygon.end(), across.begin(), across.end());
                polygon.insert(polygon.end(), cut.begin() + static_cast<std::ptrdiff_t>(next_to),
                               cut.begin() + static_cast<std::ptrdiff_t>(to + 1));
                polygon.insert(polygon.end(), before.rbegin(), before.rend());
                add_cone_facets(chamfer, std::move(polygon));
            }
            from = next_from;
            to = next_to;
            before = across;
        }
        std::vector<std::size_t> polygon(cut.begin() + static_cast<std::ptrdiff_t>(from),
                                         cut.begin() + static_cast<std::ptrdiff_t>(to + 1));
        polygon.insert(polygon.end(), before.rbegin(), before.rend());
        add_cone_facets(chamfer, std::move(polygon));
    }

    /// Points on the cone between two others, counter-clockwise: of an arc, but for what little their radii differ.
    std::vector<std::size_t> points_across(const end_chamfer& chamfer, std::size_t first, std::size_t last) {
        const point<double> from = flat_[first];
        const double radius = length(from);
        const double rise = length(flat_[last]) - radius;
        const double turning = angle_from(from, flat_[last]);
        const int chords = chords_of(radius, turning, of_cones_ / 2, angular_);
        std::vector<std::size_t> result;
        for (int k = 1; k < chords; ++k) {
            const double here = radius + rise * k / chords;
            const double height = height_of(first) == chamfer.end_height ? chamfer.end_height : chamfer.height_at(here);
            result.push_back(add_turned((here / radius) * turned(from, turning * k / chords), height));
        }
        return result;
    }

    /// Seen along the axis the cone covers each point once, so its triangles are those of a polygon in the plane; counter-clockwise where the
    /// tips are outside, otherwise clockwise.
    void add_cone_facets(const end_chamfer& chamfer, std::vector<std::size_t> polygon) {
        if (chamfer.tip_radius < chamfer.end_radius) std::reverse(polygon.begin(), polygon.end());
        for (const triangle& t : triangles_of(flat_, polygon, {})) {
            add(t[0], t[1], t[2], chamfer.upper);
            // A mean of points of a cone lies within R (1 - cos(half the angle between them)) of it.
            for (std::size_t i = 0; i < 3; ++i)
                cone_deviation_ = larger(cone_deviation_, sagitta(flat_[t[i]], flat_[t[(i + 1) % 3]]));
        }
    }

    /// Angle from one direction to another, counter-clockwise, greater than 0.
    static double angle_from(const point<double>& a, const point<double>& b) {
        const double angle = std::atan2(cross(a, b), dot(a, b));
        return angle > 0 ? angle : angle + 2 * pi<double>();
    }

    /// The path with its straight lines divided at the circles of a chamfer's bands, and beyond them as finely as the cone needs.
    section_path divided_at(const section_path& path, const end_chamfer& chamfer) const {
        section_path result;
        result.closed = path.closed;
        for (const auto& curve : path.curves) {
            const arc<double>& a = std::get<arc<double>>(curve);
            if (!a.is_line()) {
                result.curves.push_back(a);
                continue;
            }
            std::vector<double> shares{0, 1};
            for (const end_chamfer& band : bands_of(chamfer, of_cones_)) {
                if (band.side(length(a.start)) * band.side(length(a.end)) >= 0) continue;
                shares.push_back(bracketed_root(
                    [&](double s) { return length(a.start + s * (a.end - a.start)) - band.end_radius; }, 0., 1.));
            }
            std::sort(shares.begin(), shares.end());
            for (std::size_t i = 1; i < shares.size(); ++i) {
                const point<double> from = a.start + shares[i - 1] * (a.end - a.start);
                const point<double> to = i + 1 == shares.size() ? a.end : a.start + shares[i] * (a.end - a.start);
                const bool cut = chamfer.side(length(from)) > 0 || chamfer.side(length(to)) > 0;
                const double turning = std::abs(std::atan2(cross(from, to), dot(from, to)));
                const int parts = cut ? chords_of(length(from), turning, of_cones_ / 2, angular_) : 1;
                for (int k = 0; k < parts; ++k) {
                    result.curves.push_back(arc<double>{.start = from + (1. * k / parts) * (to - from),
                                                        .end = from + ((k + 1.) / parts) * (to - from),
                                                        .centre = {}});
                }
            }
        }
        return result;
    }

    double chordal_;
    double of_cones_;
    double angular_;
    double section_deviation_ = 0;
    double layer_deviation_ = 0;
    double plain_deviation_ = 0;
    double cone_deviation_ = 0;
    double edge_deviation_ = 0;
    std::vector<point<double>> flat_;
    facet_solid solid_;
};

} // namespace detail

} // namespace rackwork

#endif
