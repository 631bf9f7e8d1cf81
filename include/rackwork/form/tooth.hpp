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

#include <vector>

namespace rackwork {

/// Tooth form of a gear in the transverse section, made by a rack-type tool with the basic rack's rounded tip: root land, fillet,
/// involute flank, tip, all exact. Tooth 0 is centred on the x axis; the others follow counter-clockwise. Seen with the tooth
/// pointing up the right flank comes first, counter-clockwise.
///
/// Throws geometry_error as generated_root does. The ends of neighbouring segments, before they are made one, differ by less than 32 ulp
/// of the tip diameter, times the half angle at the base circle where that is more than 1 radian (the corner of an undercut: divided by
/// the sine of its angle).
template <scalar T = double>
class tooth_form {
public:
    explicit tooth_form(const gear<T>& g)
        : root_(g), teeth_(g.teeth()), base_radius_(g.base_diameter() / T(2)), base_half_angle_(g.base_half_angle()),
          form_roll_(root_.root_form_roll()),
          tip_radius_(g.effective_tip_diameter() / T(2)), tip_roll_(g.tangent_of_pressure_angle(g.effective_tip_diameter())),
          pointed_(!(g.tip_thickness() > T(0))),
          tip_half_angle_(pointed_ ? T(0) : T(g.tip_thickness() / g.tip_diameter())), half_pitch_(pi<T>() / T(g.teeth())),
          root_half_angle_(half_angle_of_land(root_.fillet())),
          root_radius_(g.generated_root_diameter() / T(2)) {}

    /// Root form diameter, undercut and fillet.
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
        const bool has_fillet = length(form - land_end) > T(16) * epsilon<T>() * tip_radius_;
        const bool corner = root_.is_undercut() || !has_fillet;
        const T last_phi = root_.end_parameter();
        const T half_base = base_half_angle_;
        if (has_fillet) {
            segments.push_back({trochoid<T>{root_.fillet(), T(centre - half_pitch_), sense::counter_clockwise}, T(0), last_phi,
                                at(land_end), at(form), corner});
        }
        segments.push_back({involute<T>{base_radius_, T(centre - half_base), sense::counter_clockwise}, form_roll_, tip_roll_,
                            at(form), at(tip), true});
        if (!pointed_) {
            segments.push_back({circle<T>{{T(0), T(0)}, tip_radius_}, T(centre - tip_half_angle_), T(centre + tip_half_angle_),
                                at(tip), at(mirrored(tip)), true});
        }
        segments.push_back({involute<T>{base_radius_, T(centre + half_base), sense::clockwise}, tip_roll_, form_roll_,
                            at(mirrored(tip)), at(mirrored(form)), corner});
        if (has_fillet) {
            segments.push_back({trochoid<T>{root_.fillet(), T(centre + half_pitch_), sense::clockwise}, last_phi, T(0),
                                at(mirrored(form)), at(mirrored(land_end)), false});
        }
        if (root_half_angle_ > T(0)) {
            segments.push_back({circle<T>{{T(0), T(0)}, root_radius_}, T(centre + half_pitch_ - root_half_angle_),
                                T(centre + half_pitch_ + root_half_angle_), at(mirrored(land_end)),
                                turned(land_end, direction(tooth_angle(i + 1))), !has_fillet});
        }
    }

private:
    /// Half the angle of the root land. What rounding leaves of the land of a full radius is none.
    static T half_angle_of_land(const rack_trochoid<T>& fillet) {
        const T least = T(64) * epsilon<T>() * (fillet.centre_offset + fillet.tip_rounding + magnitude(fillet.centre_depth));
        return fillet.centre_offset > least ? T(fillet.centre_offset / (fillet.cos_helix * fillet.rolling_radius)) : T(0);
    }

    /// A point of the right flank of a tooth that points along x.
    point<T> point_of_flank(const T& roll) const {
        return involute<T>{base_radius_, T(-base_half_angle_), sense::counter_clockwise}.position(roll);
    }

    generated_root<T> root_;
    int teeth_;
    T base_radius_;
    T base_half_angle_;
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
