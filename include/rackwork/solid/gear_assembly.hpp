// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How a gear's body is put together from rings of the section and walls between them.
#ifndef RACKWORK_SOLID_GEAR_ASSEMBLY_HPP
#define RACKWORK_SOLID_GEAR_ASSEMBLY_HPP

#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "body.hpp"
#include "end_chamfer.hpp"
#include "section_path.hpp"

#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

namespace rackwork::detail {

/// The bore's section: a circle, with a keyway on the positive x axis if there is one. Empty without a bore. Along each straight line the radius
/// grows or falls, for a chamfer: the keyway's bottom is two lines if the chamfer is deeper than the keyway at its middle.
inline section_path bore_path(double radius, const std::optional<keyway>& slot, double chamfer) {
    if (radius == 0) return {};
    if (!slot) return circle_path(radius, pi<double>() / 2);
    const double half_width = slot->width / 2;
    const double bottom = radius + slot->hub_depth;
    const point<double> left{std::sqrt((radius - half_width) * (radius + half_width)), half_width};
    const point<double> opposite{-radius, 0};
    const double turning = pi<double>() - std::atan2(left.y, left.x);
    section_path path;
    path.closed = true;
    path.curves.push_back(
        arc<double>{.start = left, .end = opposite, .centre = {}, .radius = radius, .turning = turning});
    path.curves.push_back(
        arc<double>{.start = opposite, .end = mirrored(left), .centre = {}, .radius = radius, .turning = turning});
    point<double> here = mirrored(left);
    const auto line_to = [&](const point<double>& next) {
        path.curves.push_back(arc<double>{.start = here, .end = next, .centre = {}});
        here = next;
    };
    line_to({bottom, -half_width});
    if (chamfer > slot->hub_depth) line_to({bottom, 0});
    line_to({bottom, half_width});
    line_to(left);
    return path;
}

/// Puts one gear together, ring by ring and wall by wall. What these are, edges and faces or points and facets, is the builder's affair.
template <class Builder>
class gear_assembly {
    using ring_type = typename Builder::ring;
    using tooth_section = typename Builder::tooth_section;

public:
    /// With the chamfer of the tips' upper end, if there is one; and a length: nearer to another one a chamfer of the bore does not end at a corner
    /// but in it. References must outlive the assembly.
    gear_assembly(const gear<double>& g, const body_parameters& body, const tooth_section& teeth, const end_chamfer& tips,
                  double slack, Builder& builder)
        : g_(g), body_(body), teeth_(teeth), tips_(tips), slack_(slack), builder_(builder),
          half_width_(g.parameters().face_width / 2),
          twist_(2 * g.tangent_of_helix_angle() / g.reference_diameter()) {}

    /// Returns how far the bore's chamfer lies from the stated one because it was made to end in a corner.
    double assemble() {
        const wall_side side = g_.is_internal() ? wall_side::solid_outside : wall_side::solid_inside;
        const chamfered_end<ring_type> low = tooth_end(false, body_.halves ? -twist_ : twist_, side);
        chamfered_end<ring_type> high;
        if (!body_.halves) {
            high = tooth_end(true, twist_, side);
            add_teeth(low.wall, high.wall, twist_, side);
        } else if (body_.halves->gap_width == 0) {
            const ring_type middle = ring(teeth_, 0, 0);
            high = tooth_end(true, twist_, side);
            add_teeth(low.wall, middle, -twist_, side);
            add_teeth(middle, high.wall, twist_, side);
        } else {
            const double half_gap = body_.halves->gap_width / 2;
            const ring_type end_of_lower = ring(teeth_, -half_gap, -twist_);
            add_teeth(low.wall, end_of_lower, -twist_, side);
            const section_path bottom = circle_path(body_.halves->gap_diameter / 2);
            const ring_type from = builder_.add_ring(bottom, {1, 0}, -half_gap);
            const ring_type to = builder_.add_ring(bottom, {1, 0}, half_gap);
            const ring_type begin_of_upper = ring(teeth_, half_gap, twist_);
            add_ring_face(true, end_of_lower, from);
            builder_.add_wall(bottom, from, to, 0, side);
            add_ring_face(false, begin_of_upper, to);
            high = tooth_end(true, twist_, side);
            add_teeth(begin_of_upper, high.wall, twist_, side);
        }
        if (g_.is_internal()) {
            add_rim(low.face, high.face);
        } else {
            add_inside(low.face, high.face);
        }
        return settled_;
    }

private:
    template <class Path>
    ring_type ring(const Path& path, double height, double twist) {
        return builder_.add_ring(path, direction(twist * height), height);
    }

    chamfered_end<ring_type> tooth_end(bool upper, double twist, wall_side side) {
        const double height = upper ? half_width_ : -half_width_;
        if (body_.tip_end_chamfer == 0) {
            const ring_type plain = ring(teeth_, height, twist);
            return {plain, plain};
        }
        end_chamfer chamfer = tips_;
        chamfer.end_height = height;
        chamfer.upper = upper;
        return builder_.add_chamfered_end(teeth_, twist, chamfer, side);
    }

    /// Teeth between two rings.
    void add_teeth(const ring_type& low, const ring_type& high, double twist, wall_side side) {
        const double extent = high.height - low.height;
        const int layers = builder_.layers(teeth_, twist * extent, extent, body_.tip_end_chamfer_depth());
        ring_type before = low;
        for (int i = 1; i <= layers; ++i) {
            ring_type after = i == layers ? high : builder_.add_ring_between(teeth_, twist, low, high, i, layers);
            builder_.add_wall(teeth_, before, after, twist, side);
            before = std::move(after);
        }
    }

    /// The face between the teeth's section and the circle at the bottom of a double helix's gap.
    void add_ring_face(bool upward, const ring_type& teeth, const ring_type& gap) {
        if (g_.is_internal()) {
            builder_.add_plane(upward, gap, &teeth);
        } else {
            builder_.add_plane(upward, teeth, &gap);
        }
    }

    void add_rim(const ring_type& low, const ring_type& high) {
        const double radius = body_.rim_diameter / 2;
        const double chamfer = body_.rim_chamfer;
        const section_path rim = circle_path(radius);
        const ring_type from = ring(rim, -half_width_ + chamfer, 0);
        const ring_type to = ring(rim, half_width_ - chamfer, 0);
        builder_.add_wall(rim, from, to, 0, wall_side::solid_inside);
        builder_.add_plane(false, chamfered(rim, from, radius - chamfer, -half_width_, wall_side::solid_inside), &low);
        builder_.add_plane(true, chamfered(rim, to, radius - chamfer, half_width_, wall_side::solid_inside), &high);
    }

    /// Bore, hub and web, and the faces at both ends.
    void add_inside(const ring_type& low, const ring_type& high) {
        const gear_blank<double>& blank = body_.blank;
        const bool web = blank.rim_inner_diameter > 0;
        const bool hub = web && blank.hub_diameter > blank.bore_diameter;
        const double half_length = !web ? half_width_ : (hub ? blank.hub_length : blank.web_thickness) / 2;
        const double radius = blank.bore_diameter / 2;
        const double chamfer = body_.bore_chamfer;
        const section_path bore = bore_path(radius, body_.key_slot, chamfer);
        if (bore.curves.empty()) {
            close_end(false, low, nullptr);
            close_end(true, high, nullptr);
            return;
        }
        if (chamfer > 0 && body_.key_slot) {
            const chamfered_end<ring_type> first = bore_end(bore, -half_length);
            const chamfered_end<ring_type> last = bore_end(bore, half_length);
            builder_.add_wall(bore, first.wall, last.wall, 0, wall_side::solid_outside);
            close_end(false, low, &first.face);
            close_end(true, high, &last.face);
            return;
        }
        const ring_type from = ring(bore, -half_length + chamfer, 0);
        const ring_type to = ring(bore, half_length - chamfer, 0);
        builder_.add_wall(bore, from, to, 0, wall_side::solid_outside);
        const ring_type first = chamfered(bore, from, radius + chamfer, -half_length, wall_side::solid_outside);
        const ring_type last = chamfered(bore, to, radius + chamfer, half_length, wall_side::solid_outside);
        close_end(false, low, &first);
        close_end(true, high, &last);
    }

    /// An end of a bore with keyway and chamfer.
    chamfered_end<ring_type> bore_end(const section_path& bore, double height) {
        const double radius = body_.blank.bore_diameter / 2;
        double end = radius + body_.bore_chamfer;
        for (std::size_t i = 0; i < bore.curves.size(); ++i) {
            const double corner = length(start_of(bore, i));
            if (magnitude(corner - end) < slack_) end = corner;
        }
        settled_ = magnitude(end - (radius + body_.bore_chamfer));
        return builder_.add_chamfered_end(bore, 0,
                                          {.end_radius = end,
                                           .tip_radius = radius,
                                           .end_height = height,
                                           .depth = body_.bore_chamfer,
                                           .upper = height > 0},
                                          wall_side::solid_outside);
    }

    /// The ring in which a cone from a circle ends, at another radius and height; the circle's own ring where the height is the same.
    ring_type chamfered(const section_path& circle, const ring_type& edge, double radius, double height, wall_side side) {
        if (edge.height == height) return edge;
        const point<double> first = start_of(circle, 0);
        const section_path end = circle_path(radius, std::atan2(first.y, first.x));
        const ring_type result = ring(end, height, 0);
        if (height < edge.height) {
            builder_.add_cone(end, result, circle, edge, side);
        } else {
            builder_.add_cone(circle, edge, end, result, side);
        }
        return result;
    }

    /// All faces at one end, from the teeth inward to the bore (if there is one).
    void close_end(bool upper, const ring_type& teeth, const ring_type* bore) {
        const gear_blank<double>& blank = body_.blank;
        const double sign = upper ? 1 : -1;
        const double half_web = blank.web_thickness / 2;
        ring_type within = teeth;
        if (blank.rim_inner_diameter > 0 && half_web < half_width_) {
            const double radius = blank.rim_inner_diameter / 2;
            const section_path rim = circle_path(radius);
            const ring_type edge = ring(rim, sign * (half_width_ - body_.rim_chamfer), 0);
            const ring_type end =
                chamfered(rim, edge, radius + body_.rim_chamfer, sign * half_width_, wall_side::solid_outside);
            builder_.add_plane(upper, teeth, &end);
            within = ring(rim, sign * half_web, 0);
            add_step(rim, within, edge, wall_side::solid_outside);
        }
        if (blank.rim_inner_diameter > 0 && blank.hub_diameter > blank.bore_diameter &&
            blank.hub_length / 2 > half_web) {
            const double radius = blank.hub_diameter / 2;
            const section_path hub = circle_path(radius);
            const ring_type base = ring(hub, sign * half_web, 0);
            builder_.add_plane(upper, within, &base);
            const double end = sign * (blank.hub_length / 2);
            const ring_type edge = ring(hub, end - sign * body_.hub_chamfer, 0);
            add_step(hub, base, edge, wall_side::solid_inside);
            within = chamfered(hub, edge, radius - body_.hub_chamfer, end, wall_side::solid_inside);
        }
        builder_.add_plane(upper, within, bore);
    }

    void add_step(const section_path& path, const ring_type& a, const ring_type& b, wall_side side) {
        const ring_type& low = a.height < b.height ? a : b;
        const ring_type& high = a.height < b.height ? b : a;
        builder_.add_wall(path, low, high, 0, side);
    }

    const gear<double>& g_;
    const body_parameters& body_;
    const tooth_section& teeth_;
    end_chamfer tips_;
    double slack_;
    double settled_ = 0;
    Builder& builder_;
    double half_width_;
    double twist_; // radians per length
};

} // namespace rackwork::detail

#endif
