// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Two gears to fifty digits: axes, circles and the line of action as lines and circles of the plane; backlash from thicknesses.
#pragma once

#include "independent_gear.hpp"
#include "independent_number.hpp"
#include "independent_root.hpp"

#include <type_traits>
#include <utility>

namespace independent {

/// Tooth thickness of a gear at a radius when only the angle of its tooth at the base circle is known.
template <class R>
R thickness_at(const real& base_radius, const real& half_angle, const R& at_radius) {
    const R base = static_cast<R>(base_radius);
    const R turn = polar_angle(involute_point(base, unwound_to(base, at_radius)));
    return R(2 * at_radius * (static_cast<R>(half_angle) - turn));
}

/// Gap on the pitch circles at a centre distance: pitch less the two thicknesses.
template <class R>
R gap_at(const gear& a, const gear& b, const real& half_angle_a, const real& half_angle_b, const R& centre_distance) {
    const R per_tooth = R(centre_distance / (a.numbers.teeth + b.numbers.teeth));
    return R(2 * static_cast<R>(pi()) * per_tooth - thickness_at(a.base_radius, half_angle_a, R(per_tooth * a.numbers.teeth)) -
             thickness_at(b.base_radius, half_angle_b, R(per_tooth * b.numbers.teeth)));
}

/// True if there is a centre distance without gap: on the base circles the teeth would overlap.
inline bool can_be_without_gap(const gear& a, const gear& b, const real& half_angle_a, const real& half_angle_b) {
    return gap_at(a, b, half_angle_a, half_angle_b, real(a.base_radius + b.base_radius)) < 0;
}

/// Centre distance without gap.
inline real centre_distance_without_gap(const gear& a, const gear& b, const real& half_angle_a, const real& half_angle_b) {
    // The unknown is the tangent of the working pressure angle: the centre distance itself starts with infinite slope.
    const real bases = real(a.base_radius + b.base_radius);
    const auto at = [&](const auto& t) {
        using R = std::decay_t<decltype(t)>;
        using std::sqrt;
        return R(static_cast<R>(bases) * sqrt(R(1 + t * t)));
    };
    const auto gap = [&](const auto& t) {
        using R = std::decay_t<decltype(t)>;
        return R(gap_at(a, b, half_angle_a, half_angle_b, at(t)) / static_cast<R>(bases));
    };
    return at(searched_root_between(gap, real(0), real(4)));
}

/// Centre distance at which the teeth without their allowances have no gap.
inline real nominal_centre_distance(const gear& a, const gear& b) {
    return centre_distance_without_gap(a, b, with_thickness(a, a.nominal_normal_thickness()).tooth_half_angle,
                                       with_thickness(b, b.nominal_normal_thickness()).tooth_half_angle);
}

class mesh {
public:
    gear pinion;
    gear wheel;
    root pinion_root;
    root wheel_root;
    real centre_distance;

    /// At the centre distance at which the nominal teeth have no gap.
    mesh(const gear& a, const gear& b) : mesh(a, b, nominal_centre_distance(a, b)) {}

    mesh(const gear& a, const gear& b, const real& distance) : mesh(a, b, root_of(a), root_of(b), distance) {}
    /// With roots that are known already.
    mesh(const gear& a, const gear& b, const root& of_a, const root& of_b, const real& distance)
        : pinion(a), wheel(b), pinion_root(of_a), wheel_root(of_b), centre_distance(distance) {
        // The common inner tangent of the base circles about (0, 0) and (a, 0): its direction makes with the line of centres
        // the angle whose sine is (sum of base radii)/a; it touches the pinion's circle at `foot`.
        const real sine = real((a.base_radius + b.base_radius) / distance);
        const real cosine = real(sqrt(real(1 - sine * sine)));
        direction = {cosine, sine, real(0)};
        foot = {real(a.base_radius * sine), real(-a.base_radius * cosine), real(0)};
        const vector3<> other = wheel_axis() + vector3<>{real(-b.base_radius * sine), real(b.base_radius * cosine), real(0)};
        distance_of_feet = dot(other - foot, direction);
    }

    vector3<> wheel_axis() const { return {centre_distance, real(0), real(0)}; }

    real working_pressure_angle() const { return real(atan2(direction.x, direction.y)); }

    /// Where a circle about the pinion's axis meets the line of action on the far side of the pinion's foot, as a distance from there.
    real on_line_from_pinion(const real& r) const { return crossing(vector3<>{}, r).second; }
    /// The same for a circle about the wheel's axis, on the near side of the wheel's foot.
    real on_line_from_wheel(const real& r) const { return crossing(wheel_axis(), r).first; }

    real begin_of_contact() const {
        const real tip = on_line_from_wheel(wheel.effective_tip_radius());
        const real form = on_line_from_pinion(pinion_root.form_radius);
        return tip > form ? tip : form;
    }
    real end_of_contact() const {
        const real tip = on_line_from_pinion(pinion.effective_tip_radius());
        const real form = on_line_from_wheel(wheel_root.form_radius);
        return tip < form ? tip : form;
    }
    real length_of_path() const {
        const real length = real(end_of_contact() - begin_of_contact());
        return length < 0 ? real(0) : length;
    }
    /// Radii of a place on the line of action about the two axes.
    real pinion_radius_at(const real& s) const { return length(foot + s * direction); }
    real wheel_radius_at(const real& s) const { return length(foot + s * direction - wheel_axis()); }

    real pinion_active_root() const {
        const real tip = on_line_from_wheel(wheel.effective_tip_radius());
        return tip > on_line_from_pinion(pinion_root.form_radius) ? pinion_radius_at(tip) : pinion_root.form_radius;
    }
    real wheel_active_root() const {
        const real tip = on_line_from_pinion(pinion.effective_tip_radius());
        return tip < on_line_from_wheel(wheel_root.form_radius) ? wheel_radius_at(tip) : wheel_root.form_radius;
    }
    real pinion_active_tip() const {
        const real form = on_line_from_wheel(wheel_root.form_radius);
        const real tip = on_line_from_pinion(pinion.effective_tip_radius());
        return form < tip ? pinion_radius_at(form) : pinion.effective_tip_radius();
    }
    real wheel_active_tip() const {
        const real form = on_line_from_pinion(pinion_root.form_radius);
        const real tip = on_line_from_wheel(wheel.effective_tip_radius());
        return form > tip ? wheel_radius_at(form) : wheel.effective_tip_radius();
    }

    real circumferential_backlash() const {
        return gap_at(pinion, wheel, pinion.tooth_half_angle, wheel.tooth_half_angle, centre_distance);
    }
    /// The gap between flanks is measured along the line of action, and from there square to the tilted flank lines.
    real normal_backlash() const {
        const real along = real(circumferential_backlash() * direction.y);
        return real(along * cos(pinion.base_helix_angle));
    }
    bool has_double_flank_centre_distance() const {
        return can_be_without_gap(pinion, wheel, pinion.tooth_half_angle, wheel.tooth_half_angle);
    }
    real double_flank_centre_distance() const {
        return centre_distance_without_gap(pinion, wheel, pinion.tooth_half_angle, wheel.tooth_half_angle);
    }

    real distance_of_feet;

private:
    /// The two crossings of the line of action with a circle, in order along the line.
    std::pair<real, real> crossing(const vector3<>& centre, const real& r) const {
        const vector3<> to_foot = foot - centre;
        const real half = dot(to_foot, direction);
        const real rest = real(half * half - dot(to_foot, to_foot) + r * r);
        // At the base circle itself the line touches; rounding must not make it miss.
        const real root = rest > 0 ? real(sqrt(rest)) : real(0);
        return {real(-half - root), real(-half + root)};
    }

    vector3<> direction;
    vector3<> foot;
};

} // namespace independent
