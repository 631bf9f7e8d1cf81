// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How a gear's body is put together from rings of the section and walls between them.
#ifndef RACKWORK_SOLID_GEAR_ASSEMBLY_HPP
#define RACKWORK_SOLID_GEAR_ASSEMBLY_HPP

#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "body.hpp"
#include "brep_builder.hpp"

#include <cmath>
#include <optional>
#include <utility>

namespace rackwork::detail {

/// The bore's section: a circle, with a keyway on the positive x axis if there is one. Empty without a bore.
inline section_path bore_path(double radius, const std::optional<keyway>& slot) {
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
    path.curves.push_back(arc<double>{.start = mirrored(left), .end = {bottom, -half_width}, .centre = {}});
    path.curves.push_back(arc<double>{.start = {bottom, -half_width}, .end = {bottom, half_width}, .centre = {}});
    path.curves.push_back(arc<double>{.start = {bottom, half_width}, .end = left, .centre = {}});
    return path;
}

/// Puts one gear together, ring by ring and wall by wall. What these are, edges and faces or points and facets, is the builder's affair.
template <class Builder>
class gear_assembly {
    using ring_type = typename Builder::ring;
    using tooth_section = typename Builder::tooth_section;

public:
    /// All four must outlive the assembly.
    gear_assembly(const gear<double>& g, const body_parameters& body, const tooth_section& teeth, Builder& builder)
        : g_(g), body_(body), teeth_(teeth), builder_(builder), half_width_(g.parameters().face_width / 2),
          twist_(2 * g.tangent_of_helix_angle() / g.reference_diameter()) {}

    void assemble() {
        const wall_side side = g_.is_internal() ? wall_side::solid_outside : wall_side::solid_inside;
        ring_type low = ring(teeth_, -half_width_, body_.halves ? -twist_ : twist_);
        ring_type high;
        if (!body_.halves) {
            high = add_teeth(low, half_width_, twist_, side);
        } else if (body_.halves->gap_width == 0) {
            high = add_teeth(add_teeth(low, 0, -twist_, side), half_width_, twist_, side);
        } else {
            const double half_gap = body_.halves->gap_width / 2;
            const ring_type end_of_lower = add_teeth(low, -half_gap, -twist_, side);
            const section_path bottom = circle_path(body_.halves->gap_diameter / 2);
            const ring_type from = builder_.add_ring(bottom, {1, 0}, -half_gap);
            const ring_type to = builder_.add_ring(bottom, {1, 0}, half_gap);
            const ring_type begin_of_upper = ring(teeth_, half_gap, twist_);
            add_ring_face(true, end_of_lower, from);
            builder_.add_wall(bottom, from, to, 0, side);
            add_ring_face(false, begin_of_upper, to);
            high = add_teeth(begin_of_upper, half_width_, twist_, side);
        }
        if (g_.is_internal()) {
            add_rim(low, high);
        } else {
            add_inside(low, high);
        }
    }

private:
    template <class Path>
    ring_type ring(const Path& path, double height, double twist) {
        return builder_.add_ring(path, direction(twist * height), height);
    }

    /// Teeth from a ring upward; returns the ring at their other end.
    ring_type add_teeth(ring_type low, double end, double twist, wall_side side) {
        const double start = low.height;
        const int layers = builder_.layers(teeth_, twist * (end - start));
        for (int i = 1; i <= layers; ++i) {
            const double height = i == layers ? end : start + (end - start) * i / layers;
            ring_type high = ring(teeth_, height, twist);
            builder_.add_wall(teeth_, low, high, twist, side);
            low = std::move(high);
        }
        return low;
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
        const section_path rim = circle_path(body_.rim_diameter / 2);
        const ring_type from = ring(rim, -half_width_, 0);
        const ring_type to = ring(rim, half_width_, 0);
        builder_.add_wall(rim, from, to, 0, wall_side::solid_inside);
        builder_.add_plane(false, from, &low);
        builder_.add_plane(true, to, &high);
    }

    /// Bore, hub and web, and the faces at both ends.
    void add_inside(const ring_type& low, const ring_type& high) {
        const gear_blank<double>& blank = body_.blank;
        const bool web = blank.rim_inner_diameter > 0;
        const bool hub = web && blank.hub_diameter > blank.bore_diameter;
        const double half_length = !web ? half_width_ : (hub ? blank.hub_length : blank.web_thickness) / 2;
        const section_path bore = bore_path(blank.bore_diameter / 2, body_.key_slot);
        if (bore.curves.empty()) {
            close_end(false, low, nullptr);
            close_end(true, high, nullptr);
            return;
        }
        const double chamfer = body_.bore_chamfer;
        const ring_type from = ring(bore, -half_length + chamfer, 0);
        const ring_type to = ring(bore, half_length - chamfer, 0);
        builder_.add_wall(bore, from, to, 0, wall_side::solid_outside);
        if (chamfer == 0) {
            close_end(false, low, &from);
            close_end(true, high, &to);
            return;
        }
        const section_path wide = circle_path(blank.bore_diameter / 2 + chamfer, pi<double>() / 2);
        const ring_type first = ring(wide, -half_length, 0);
        const ring_type last = ring(wide, half_length, 0);
        builder_.add_cone(wide, first, bore, from, wall_side::solid_outside);
        builder_.add_cone(bore, to, wide, last, wall_side::solid_outside);
        close_end(false, low, &first);
        close_end(true, high, &last);
    }

    /// All faces at one end, from the teeth inward to the bore (if there is one).
    void close_end(bool upper, const ring_type& teeth, const ring_type* bore) {
        const gear_blank<double>& blank = body_.blank;
        const double sign = upper ? 1 : -1;
        const double half_web = blank.web_thickness / 2;
        ring_type within = teeth;
        if (blank.rim_inner_diameter > 0 && half_web < half_width_) {
            const section_path rim = circle_path(blank.rim_inner_diameter / 2);
            const ring_type edge = ring(rim, sign * half_width_, 0);
            builder_.add_plane(upper, teeth, &edge);
            within = ring(rim, sign * half_web, 0);
            add_step(rim, within, edge, wall_side::solid_outside);
        }
        if (blank.rim_inner_diameter > 0 && blank.hub_diameter > blank.bore_diameter &&
            blank.hub_length / 2 > half_web) {
            const section_path hub = circle_path(blank.hub_diameter / 2);
            const ring_type base = ring(hub, sign * half_web, 0);
            builder_.add_plane(upper, within, &base);
            within = ring(hub, sign * (blank.hub_length / 2), 0);
            add_step(hub, base, within, wall_side::solid_inside);
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
    Builder& builder_;
    double half_width_;
    double twist_; // radians per length
};

} // namespace rackwork::detail

#endif
