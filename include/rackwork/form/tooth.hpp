// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The exact form of one tooth as its rack-type tool generates it.
#ifndef RACKWORK_FORM_TOOTH_HPP
#define RACKWORK_FORM_TOOTH_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "segment.hpp"

#include <type_traits>
#include <variant>
#include <vector>

namespace rackwork {

/// Tooth form of a gear in the transverse section, as its tool makes it: root land, fillet, involute flank, tip, all exact. Tooth 0 is
/// centred on the x axis; the others follow counter-clockwise. Seen with the tooth of an external gear pointing up the right flank comes
/// first, counter-clockwise; an internal gear's form is run through the same way about the axis.
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
        : root_(root), teeth_(g.teeth()), base_radius_(g.base_diameter() / T(2)), base_half_angle_(g.base_half_angle()),
          outward_(g.is_internal() ? sense::clockwise : sense::counter_clockwise), form_roll_(root_.root_form_roll()),
          tip_radius_(g.effective_tip_diameter() / T(2)), tip_roll_(g.effective_tip_roll()), pointed_(!(g.tip_thickness() > T(0))),
          tip_half_angle_(pointed_ ? T(0) : T(g.tip_thickness() / g.tip_diameter())), half_pitch_(pi<T>() / T(g.teeth())),
          root_half_angle_(root.root_land_half_angle()), root_radius_(root.root_diameter() / T(2)) {}

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

    /// Appends the segments of tooth i, from the root land's end on its clockwise side to the next root land's beginning: fillet, right
    /// flank, tip (unless it is a point), left flank, fillet; then the root land that follows (unless its width is zero).
    /// The end points are those of the tooth itself; `outline` makes neighbours share them.
    void append_tooth(std::vector<segment<T>>& segments, int i) const {
        const T centre = tooth_angle(i);
        const point<T> axis = direction(centre);
        const auto at = [&](const point<T>& in_tooth) { return turned(in_tooth, axis); };

        // The corners of the right half, tooth pointing along x; the left half mirrors them, so that the tooth is symmetric to the bit.
        const point<T> land_end = root_radius_ * direction(T(root_half_angle_ - half_pitch_));
        const point<T> form = point_of_flank(form_roll_);
        const point<T> tip = pointed_ ? point<T>{tip_radius_, T(0)} : tip_radius_ * direction(T(-tip_half_angle_));

        // A sharp tool corner on the rolling line stands still while it turns: then land and flank meet in a corner.
        const protuberance_involute<T>& edge = root_.edge();
        const point<T> fillet_end = edge.exists ? on_right_side(edge.base_radius, edge.base_half_angle, edge.from) : form;
        const bool has_fillet = length(fillet_end - land_end) > T(16) * epsilon<T>() * larger(tip_radius_, root_radius_);
        const bool corner = root_.is_undercut() || !has_fillet;
        const bool corner_below = edge.exists ? edge.undercut || !has_fillet : corner;
        const T last_phi = root_.end_parameter();
        const T half_base = base_half_angle_;
        const sense inward = outward_ == sense::clockwise ? sense::counter_clockwise : sense::clockwise;

        if (has_fillet) {
            segments.push_back({fillet_curve(T(centre - half_pitch_), sense::counter_clockwise), T(0), last_phi, at(land_end),
                                at(fillet_end), corner_below});
        }
        if (edge.exists) {
            segments.push_back({involute<T>{edge.base_radius, T(centre - edge.base_half_angle), outward_}, edge.from, edge.to,
                                at(fillet_end), at(form), true});
        }
        segments.push_back({involute<T>{base_radius_, T(centre - half_base), outward_}, form_roll_, tip_roll_, at(form), at(tip), true});
        if (!pointed_) {
            segments.push_back({circle<T>{{T(0), T(0)}, tip_radius_}, T(centre - tip_half_angle_), T(centre + tip_half_angle_),
                                at(tip), at(mirrored(tip)), true});
        }
        segments.push_back({involute<T>{base_radius_, T(centre + half_base), inward}, tip_roll_, form_roll_, at(mirrored(tip)),
                            at(mirrored(form)), corner});
        if (edge.exists) {
            segments.push_back({involute<T>{edge.base_radius, T(centre + edge.base_half_angle), inward}, edge.to, edge.from,
                                at(mirrored(form)), at(mirrored(fillet_end)), corner_below});
        }
        if (has_fillet) {
            segments.push_back({fillet_curve(T(centre + half_pitch_), sense::clockwise), last_phi, T(0), at(mirrored(fillet_end)),
                                at(mirrored(land_end)), false});
        }
        if (root_half_angle_ > T(0)) {
            segments.push_back({circle<T>{{T(0), T(0)}, root_radius_}, T(centre + half_pitch_ - root_half_angle_),
                                T(centre + half_pitch_ + root_half_angle_), at(mirrored(land_end)),
                                turned(land_end, direction(tooth_angle(i + 1))), !has_fillet});
        }
    }

private:
    using any_curve = decltype(segment<T>::curve);

    /// The fillet on one side of a space.
    any_curve fillet_curve(const T& space_angle, sense side) const {
        return std::visit(
            [&](const auto& shape) {
                using shape_type = std::remove_cvref_t<decltype(shape)>;
                return any_curve(root_fillet<T, shape_type>{shape, space_angle, side});
            },
            root_.fillet().shape());
    }

    /// A point of an involute on the right side of a tooth that points along x.
    point<T> on_right_side(const T& base_radius, const T& half_angle, const T& roll) const {
        return involute<T>{base_radius, T(-half_angle), outward_}.position(roll);
    }
    point<T> point_of_flank(const T& roll) const { return on_right_side(base_radius_, base_half_angle_, roll); }

    generated_root<T> root_;
    int teeth_;
    T base_radius_;
    T base_half_angle_;
    sense outward_; // the way the right flank's polar angle goes with growing radius
    T form_roll_;
    T tip_radius_;
    T tip_roll_;
    bool pointed_;
    T tip_half_angle_;
    T half_pitch_;
    T root_half_angle_;
    T root_radius_;
};

} // namespace rackwork

#endif
