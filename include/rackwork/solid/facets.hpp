// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A gear's solid as plane triangular facets within a chordal and an angular tolerance.
#ifndef RACKWORK_SOLID_FACETS_HPP
#define RACKWORK_SOLID_FACETS_HPP

#include "../core/angle.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "../gear.hpp"
#include "body.hpp"
#include "brep.hpp"
#include "brep_builder.hpp"
#include "gear_assembly.hpp"
#include "section_polygon.hpp"
#include "triangulation.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
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

/// How fine facets are to be.
struct facet_options {
    /// Greatest distance between facets and the exact boundary, a length. A hundredth of the normal module unless stated.
    std::optional<double> chordal_tolerance{};
    /// Greatest angle by which the section turns from one end of a chord to the other, or the helix from one layer to the next.
    angle<double> angular_tolerance = deg(12.);
};

namespace detail {

class facet_builder {
public:
    struct ring {
        std::vector<std::size_t> points;
        double height = 0;
    };
    using tooth_section = section_polygon;

    facet_builder(double chordal, double angular) : chordal_(chordal), angular_(angular) {}

    /// Half of the tolerance is the section's. The other half is for what a layer's facets stray from the screw surface of the polygon: the
    /// helix from its chord by less than r t^2/8, and the two triangles of a twisted quadrangle from the hyperboloid through its
    /// corners by a quarter of the twist vector, that is by less than l t/4; r radius, l longest chord, t the layer's angle.
    int layers(const section_polygon& section, double turning) {
        const double radius = section.reach();
        const double chord = section.longest_chord();
        const double rest = chordal_ / 2;
        const double quarter = chord / 4;
        // Of r t^2/8 + l t/4 = rest the positive root.
        const double step = smaller(angular_, 2 * rest / (quarter + std::sqrt(quarter * quarter + radius * rest / 2)));
        const int count = 1 + whole_part(magnitude(turning) / step * (1 - 1e-9));
        const double t = magnitude(turning) / count;
        layer_deviation_ = larger(layer_deviation_, radius * t * t / 8 + quarter * t);
        return count;
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

    template <class Path>
    void add_wall(const Path&, const ring& low, const ring& high, double, wall_side side) {
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

    facet_solid finished() {
        double size = 0;
        for (const point3& p : solid_.points) size = larger(size, length(p));
        solid_.deviation =
            larger(section_deviation_ + layer_deviation_, plain_deviation_) + 64 * epsilon<double>() * size;
        return std::move(solid_);
    }

private:
    ring add_points(const section_polygon& section, const point<double>& turn, double height) {
        ring result{.points = {}, .height = height};
        for (const point<double>& p : section.points) {
            const point<double> q = turned(p, turn);
            result.points.push_back(flat_.size());
            flat_.push_back(q);
            solid_.points.push_back({q.x, q.y, height});
        }
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

    double chordal_;
    double angular_;
    double section_deviation_ = 0;
    double layer_deviation_ = 0;
    double plain_deviation_ = 0;
    std::vector<point<double>> flat_;
    facet_solid solid_;
};

} // namespace detail

/// The facets of a gear whose transverse section is a stated outline, such as outline_of(g, tool). The points of each layer lie on the exact
/// section; alike teeth have alike facets. Throws geometry_error if check(body, g, its root) finds something, and unless the chordal tolerance
/// is finite and at least 2^-18 of the section's size, which single precision can still tell, and the angular tolerance greater than 0
/// and at most 45 degrees.
inline facet_solid facets_of(const gear<double>& g, const outline<double>& section, const body_parameters& body,
                             const facet_options& options = {}) {
    require(check(body, g, detail::root_diameter_of(g, section)));
    const double chordal = options.chordal_tolerance.value_or(g.normal_module() / 100);
    double size = 0;
    for (const segment<double>& s : section.segments) size = larger(size, length(s.start));
    require(check_at_least("chordal_tolerance", chordal, 0x1p-18 * size));
    require(first_of(check_greater("angular_tolerance (deg)", options.angular_tolerance.deg(), 0.),
                     check_at_most("angular_tolerance (deg)", options.angular_tolerance.deg(), 45.)));
    const double angular = options.angular_tolerance.rad();
    const double for_section = g.helix_angle().rad() == 0 ? chordal : chordal / 2;
    const detail::section_polygon polygon = detail::polygon_of(section, for_section, angular);
    detail::facet_builder builder(chordal, angular);
    detail::gear_assembly(g, body, polygon, builder).assemble();
    return builder.finished();
}

/// The facets of a gear as its customary tool makes it. Throws geometry_error also as outline_of does.
inline facet_solid facets_of(const gear<double>& g, const body_parameters& body = {},
                             const facet_options& options = {}) {
    require(check(body, g));
    return facets_of(g, outline_of(g), body, options);
}

/// The facets turned about the z axis by an angle in radians, counter-clockwise positive, and then moved.
inline facet_solid moved(facet_solid solid, double turn, const point3& shift) {
    const point<double> by = direction(turn);
    double size = 0;
    for (point3& p : solid.points) {
        p = detail::moved(p, by, shift);
        size = larger(size, length(p) + length(shift));
    }
    solid.deviation += 8 * epsilon<double>() * size;
    return solid;
}

} // namespace rackwork

#endif
