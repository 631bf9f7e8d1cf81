// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The exact form of one tooth as its tool makes it.
#ifndef RACKWORK_FORM_TOOTH_HPP
#define RACKWORK_FORM_TOOTH_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../cutter.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "segment.hpp"

#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

namespace rackwork {

/// Tooth form of a gear in the transverse section, as its tool makes it: root land, fillet, involute flank, tip edge, tip land, all exact.
/// Tooth 0 is centred on the x axis; the others follow counter-clockwise. Seen with the tooth of an external gear pointing up the right
/// flank comes first, counter-clockwise; an internal gear's form is run through the same way about the axis.
///
/// Throws geometry_error as generated_root does. The ends of neighbouring segments, before they are made one, differ by less than 32 ulp
/// of the greatest diameter, times the half angle at the base circle where that is more than 1 radian (the corner of an undercut:
/// divided by the sine of its angle).
template <scalar T = double>
class tooth_form {
public:
    /// By the customary tool, see generated_root.
    explicit tooth_form(const gear<T>& g) : tooth_form(g, generated_root<T>(g)) {}
    /// By a tool.
    tooth_form(const gear<T>& g, const cutter<T>& tool) : tooth_form(g, generated_root<T>(g, tool)) {}
    /// With a root of the same gear.
    tooth_form(const gear<T>& g, const generated_root<T>& root)
        : root_(root), teeth_(g.teeth()), outward_(g.is_internal() ? sense::clockwise : sense::counter_clockwise),
          tip_radius_(g.effective_tip_diameter() / T(2)), pointed_(!(g.tip_thickness() > T(0))),
          half_pitch_(pi<T>() / T(g.teeth())), root_half_angle_(root.root_land_half_angle()),
          root_radius_(root.root_diameter() / T(2)) {
        // What rounding leaves of the land between full roundings is none.
        const T land = g.tip_land_half_angle();
        tip_half_angle_ = land > T(64) * epsilon<T>() ? land : T(0);
        make_right_side(g);
    }

    /// Root form diameter, undercut, fillet, and the tool that made them.
    constexpr const generated_root<T>& root() const { return root_; }
    constexpr int teeth() const { return teeth_; }
    /// Radius at which the metal ends, and whether it ends in a point.
    constexpr const T& tip_radius() const { return tip_radius_; }
    constexpr bool is_pointed() const { return pointed_; }
    /// Radius of the root land, as generated.
    constexpr const T& root_radius() const { return root_radius_; }

    /// Polar angle of the centre line of tooth i, radians.
    T tooth_angle(int i) const { return T(T(2 * i) * half_pitch_); }

    /// Appends the segments of tooth i, from the root land's end on its clockwise side to the next root land's beginning: right side, tip
    /// land (unless its width is zero), left side; then the root land that follows (unless its width is zero).
    /// The end points are those of the tooth itself; `outline` makes neighbours share them.
    void append_tooth(std::vector<segment<T>>& segments, int i) const {
        append_right_side(segments, i);
        append_tip_land(segments, i);
        append_left_side(segments, i);
        append_root_land(segments, i);
    }

    /// The parts of append_tooth one by one. A side is fillet, what the edge of a protuberance leaves, involute flank, chamfer or rounding
    /// of the tip edge, as far as they exist; the left side in the opposite order.
    void append_right_side(std::vector<segment<T>>& segments, int i) const {
        for (const segment<T>& s : right_side_) {
            segments.push_back({placed(s.curve, tooth_angle(i), false), T(s.from), T(s.to), turned(s.start, axis(i)),
                                turned(s.end, axis(i)), s.corner_at_end});
            move_parameters(segments.back(), s, tooth_angle(i), false);
        }
    }
    void append_tip_land(std::vector<segment<T>>& segments, int i) const {
        if (!(tip_half_angle_ > T(0))) return;
        const point<T> tip = tip_radius_ * direction(T(-tip_half_angle_));
        segments.push_back({circle<T>{{T(0), T(0)}, tip_radius_}, T(tooth_angle(i) - tip_half_angle_), T(tooth_angle(i) + tip_half_angle_),
                            turned(tip, axis(i)), turned(mirrored(tip), axis(i)), right_side_.back().corner_at_end});
    }
    void append_left_side(std::vector<segment<T>>& segments, int i) const {
        for (std::size_t k = right_side_.size(); k-- > 0;) {
            const segment<T>& s = right_side_[k];
            const bool corner = k > 0 ? right_side_[k - 1].corner_at_end : !has_fillet_;
            segments.push_back({placed(s.curve, tooth_angle(i), true), s.to, s.from, turned(mirrored(s.end), axis(i)),
                                turned(mirrored(s.start), axis(i)), corner});
            move_parameters(segments.back(), s, tooth_angle(i), true);
        }
    }
    void append_root_land(std::vector<segment<T>>& segments, int i) const {
        if (!(root_half_angle_ > T(0))) return;
        const point<T> land_end = root_radius_ * direction(T(root_half_angle_ - half_pitch_));
        segments.push_back({circle<T>{{T(0), T(0)}, root_radius_}, T(tooth_angle(i) + half_pitch_ - root_half_angle_),
                            T(tooth_angle(i) + half_pitch_ + root_half_angle_), turned(mirrored(land_end), axis(i)),
                            turned(land_end, axis(i + 1)), !has_fillet_});
    }

private:
    using any_curve = decltype(segment<T>::curve);

    point<T> axis(int i) const { return direction(tooth_angle(i)); }

    /// The right side of a tooth that points along x; the left side mirrors it, so that the tooth is symmetric to the bit.
    void make_right_side(const gear<T>& g) {
        const T base_radius = g.base_diameter() / T(2);
        const auto on_involute = [&](const T& base, const T& half_angle, const T& roll) {
            return involute<T>{base, T(-half_angle), outward_}.position(roll);
        };
        const point<T> land_end = root_radius_ * direction(T(root_half_angle_ - half_pitch_));
        const point<T> form = on_involute(base_radius, g.base_half_angle(), root_.root_form_roll());
        const protuberance_involute<T>& edge = root_.edge();
        const point<T> fillet_end = edge.exists ? on_involute(edge.base_radius, edge.base_half_angle, edge.from) : form;
        // A sharp tool corner on the rolling line stands still while it turns: then land and flank meet in a corner.
        has_fillet_ = length(fillet_end - land_end) > T(16) * epsilon<T>() * larger(tip_radius_, root_radius_);
        if (has_fillet_) {
            const bool corner = edge.exists ? edge.undercut : root_.is_undercut();
            right_side_.push_back({fillet_curve(), T(0), root_.end_parameter(), land_end, fillet_end, corner});
        }
        if (edge.exists) {
            right_side_.push_back({involute<T>{edge.base_radius, T(-edge.base_half_angle), outward_}, edge.from, edge.to, fillet_end, form,
                                   true});
        }
        const point<T> land = pointed_ ? point<T>{tip_radius_, T(0)} : tip_radius_ * direction(T(-tip_half_angle_));
        const bool chamfered = g.parameters().tip_chamfer > T(0);
        const bool rounded = g.parameters().tip_rounding > T(0);
        const point<T> flank_end =
            chamfered || rounded ? on_involute(base_radius, g.base_half_angle(), g.tip_form_roll()) : land;
        right_side_.push_back({involute<T>{base_radius, T(-g.base_half_angle()), outward_}, root_.root_form_roll(), g.tip_form_roll(), form,
                               flank_end, !rounded});
        if (chamfered) {
            const T base = g.chamfer_base_diameter() / T(2);
            const auto roll = [&](const T& radius) { return T(elementary::sqrt(T((radius - base) * (radius + base))) / base); };
            right_side_.push_back({involute<T>{base, T(-g.chamfer_base_half_angle()), outward_}, roll(T(g.tip_form_diameter() / T(2))),
                                   roll(tip_radius_), flank_end, land, true});
        } else if (rounded) {
            // From the flank's normal to the tip circle's: counter-clockwise on an external tooth, clockwise on an internal one.
            const T rho = g.parameters().tip_rounding;
            const T sign = g.kind_sign();
            const T theta = g.tip_land_half_angle();
            const T centre_radius = tip_radius_ - sign * rho;
            const T normal = sign * g.tip_form_roll() - g.base_half_angle() - pi<T>() / T(2);
            const T tip_normal = sign > T(0) ? T(-theta) : T(-theta - pi<T>());
            right_side_.push_back({circle<T>{centre_radius * direction(T(-theta)), rho}, normal, tip_normal, flank_end, land, false});
        }
    }

    /// The fillet on the right side, in the space before the tooth.
    any_curve fillet_curve() const {
        return std::visit(
            [&](const auto& shape) {
                using shape_type = std::remove_cvref_t<decltype(shape)>;
                return any_curve(root_fillet<T, shape_type>{shape, T(-half_pitch_), sense::counter_clockwise});
            },
            root_.fillet().shape());
    }

    /// A curve of the right side, mirrored if wanted, turned to a tooth.
    static any_curve placed(const any_curve& curve, const T& angle, bool mirror) {
        const auto other = [&](sense s) {
            if (!mirror) return s;
            return s == sense::clockwise ? sense::counter_clockwise : sense::clockwise;
        };
        const auto moved = [&](const T& of_right) { return mirror ? T(angle - of_right) : T(angle + of_right); };
        return std::visit(
            [&](auto c) {
                if constexpr (requires { c.centre; }) {
                    c.centre = turned(mirror ? mirrored(c.centre) : c.centre, direction(angle));
                } else if constexpr (requires { c.space_angle; }) {
                    c.space_angle = moved(c.space_angle);
                    c.side = other(c.side);
                } else {
                    c.start_angle = moved(c.start_angle);
                    c.unwinding = other(c.unwinding);
                }
                return any_curve(std::move(c));
            },
            curve);
    }

    /// A circle's parameter is a direction and turns with it; the others' do not.
    static void move_parameters(segment<T>& moved, const segment<T>& of_right, const T& angle, bool mirror) {
        if (!std::holds_alternative<circle<T>>(moved.curve)) return;
        moved.from = mirror ? T(angle - of_right.to) : T(angle + of_right.from);
        moved.to = mirror ? T(angle - of_right.from) : T(angle + of_right.to);
    }

    generated_root<T> root_;
    int teeth_;
    sense outward_; // the way the right flank's polar angle goes with growing radius
    T tip_radius_;
    bool pointed_;
    T tip_half_angle_{0};
    T half_pitch_;
    T root_half_angle_;
    T root_radius_;
    bool has_fillet_ = true;
    std::vector<segment<T>> right_side_;
};

} // namespace rackwork

#endif
