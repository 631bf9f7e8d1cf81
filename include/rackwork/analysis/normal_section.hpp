// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The true normal section of a tooth, and the root section in it.
#ifndef RACKWORK_ANALYSIS_NORMAL_SECTION_HPP
#define RACKWORK_ANALYSIS_NORMAL_SECTION_HPP

#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "tooth_root.hpp"

namespace rackwork {

/// The outline of a tooth in the plane that stands square to its helix at the reference cylinder, in the tooth's middle. For a
/// spur gear it is the transverse section. Immutable; usable in constant expressions.
///
/// Coordinates in the plane: x along the tooth's centre line towards its tip, from the gear's axis (so outward on an external gear,
/// and negative on an internal one); y across it. The section is symmetrical, and the same for both hands; places are given on its
/// half at negative y.
///
/// A point of the transverse section at complex P appears in the plane after a screw motion by the angle eta: Q = P e^(i eta),
/// with eta = -(tan^2 beta / r) Im Q, and there has the coordinates x = Re Q, y = Im Q / cos beta.
template <scalar T = double>
class normal_section {
public:
    /// As the customary tool makes it. Throws geometry_error as generated_root does.
    constexpr explicit normal_section(const gear<T>& g) : normal_section(g, generated_root<T>(g)) {}
    /// With a root of the same gear.
    constexpr normal_section(const gear<T>& g, const generated_root<T>& root)
        : root_(root), sign_(g.kind_sign()), base_radius_(g.base_diameter() / T(2)), base_half_angle_(g.base_half_angle()),
          half_pitch_(pi<T>() / T(g.teeth())), cos_helix_(g.cosine_of_helix_angle()),
          screw_(square(g.tangent_of_helix_angle()) / (g.reference_diameter() / T(2))) {}

    /// A place on the outline.
    struct place {
        point<T> position;
        /// Tangent, going towards the tip; not of unit length.
        point<T> tangent;
        /// Signed curvature [1/length]: negative on the concave fillet.
        T curvature;
    };

    /// Place on the fillet at its parameter, from 0 at the root land to root().end_parameter() at the involute.
    constexpr place on_fillet(const T& phi) const {
        const fillet_state<T> at = root_.fillet().at(phi);
        // From the centre line of the space to that of the tooth.
        const point<T> turn = direction(T(at.turn - half_pitch_));
        return towards_tip(cut(turned(point<T>{at.radial, at.lateral}, turn),
                               turned(point<T>{at.cos_pressure, at.sin_pressure}, turn), at.curvature()));
    }
    /// Place on the involute at a diameter of the gear. Throws geometry_error unless the diameter is above the base diameter.
    constexpr place on_involute(const T& diameter) const {
        const T base = T(2) * base_radius_;
        require(check_greater("diameter", diameter, base));
        const T roll = elementary::sqrt(T((diameter - base) * (diameter + base))) / base;
        // The right flank, from the base circle outward: counter-clockwise on an external gear, clockwise on an internal one, where
        // outward is away from the tip.
        const point<T> turn = direction(T(sign_ * roll - base_half_angle_));
        return towards_tip(cut(turned(point<T>{base_radius_, T(-sign_ * base_radius_ * roll)}, turn), sign_ * turn,
                               T(T(1) / (base_radius_ * roll))));
    }

    /// The root of the gear: form diameter, fillet, undercut.
    constexpr const generated_root<T>& root() const { return root_; }

private:
    /// With x turned round on an internal gear.
    constexpr place towards_tip(const place& p) const {
        return {.position = {T(sign_ * p.position.x), p.position.y},
                .tangent = {T(sign_ * p.tangent.x), p.tangent.y},
                .curvature = T(sign_ * p.curvature)};
    }

    /// A point of the transverse section, its unit tangent and curvature, carried into the plane. Derivatives are with respect
    /// to the arc length of the transverse outline.
    constexpr place cut(const point<T>& p, const point<T>& tangent, const T& curvature) const {
        const T eta = screw_angle(p);
        const point<T> by = direction(eta);
        const point<T> q = turned(p, by);
        const point<T> a = turned(tangent, by);
        const T stretch = T(1) + screw_ * q.x;
        const T eta_1 = -screw_ * a.y / stretch;
        const point<T> q_1 = a + eta_1 * quarter_turned(q);
        const point<T> a_1 = T(curvature + eta_1) * quarter_turned(a);
        const T eta_2 = -screw_ * (a_1.y + eta_1 * q_1.x) / stretch;
        const point<T> q_2 = a_1 + eta_2 * quarter_turned(q) + eta_1 * quarter_turned(q_1);
        const point<T> first = in_plane(q_1);
        const T speed = length(first);
        return {.position = in_plane(q),
                .tangent = first,
                .curvature = T(cross(first, in_plane(q_2)) / (speed * square(speed)))};
    }

    /// eta = -screw Im(p e^(i eta)), between 0 and the angle that brings p onto the centre line.
    constexpr T screw_angle(const point<T>& p) const {
        if (screw_ == T(0) || p.y == T(0)) return T(0);
        require(check_greater("distance of the tooth's outline from the plane of axis and space", p.x, T(0)));
        const auto excess = [&](const T& eta) { return T(eta + screw_ * turned(p, eta).y); };
        const T found = bracketed_root(excess, T(0), T(-elementary::atan(T(p.y / p.x))));
        // A step of Newton's carries derivatives through the search.
        return T(found - excess(found) / (T(1) + screw_ * turned(p, found).x));
    }

    constexpr point<T> in_plane(const point<T>& q) const { return {q.x, T(q.y / cos_helix_)}; }
    static constexpr point<T> quarter_turned(const point<T>& q) { return {T(-q.y), q.x}; }

    generated_root<T> root_;
    T sign_;
    T base_radius_;
    T base_half_angle_;
    T half_pitch_;
    T cos_helix_;
    T screw_; // tan^2 beta / r
};

/// Root section at the 30 degree tangent (of internal gears: at the 60 degree tangent) of the exact fillet in the tooth's true normal
/// section, loaded where a diameter of the gear cuts that section's flank: its tip form diameter for Y_Fa. For external spur gears the same
/// as root_under_tip_load, with the tip diameter given, to rounding. Internal gears have it here alone: the virtual gear of ISO
/// 6336-3 is one of external teeth.
///
/// What the virtual spur gear of ISO 6336-3 stands for: it replaces the curves of this plane by those of a spur gear that is
/// alike at the reference cylinder, while the real ones are not quite trochoid and involute away from it. For the rack of ISO
/// 53 A, 9 teeth and more, and the load at the tip, the virtual gear differs from the true section by no more than
///   chord 0.2 %, fillet radius 0.5 %, Y_Fa 0.9 %, Y_Sa 0.1 % at 15 degrees of helix,
///   chord 0.25 %, fillet radius 1.5 %, Y_Fa 1.7 %, Y_Sa 0.3 % at 30 degrees (the tests measure it).
/// Accuracy for double: lengths 4 ulp of the reference diameter.
/// Throws geometry_error where no tangent of that angle touches the fillet, for gears of one tooth, and below the base diameter.
template <scalar T>
constexpr tooth_root<T> root_in_normal_section(const gear<T>& g, const generated_root<T>& root_of_gear, const T& load_diameter,
                                               const angle<T>& tangent_angle) {
    using place = typename normal_section<T>::place;
    const normal_section<T> section(g, root_of_gear);
    const point<T> wanted = direction(tangent_angle.rad());
    const auto excess = [&](const T& phi) { return T(cross(wanted, section.on_fillet(phi).tangent)); };
    const T last = section.root().end_parameter();
    require(
        first_of(check_at_least("lean of the fillet at the root land beyond the tangent's angle", excess(T(0)), T(0)),
                 check_at_most("lean of the fillet at its end beyond the tangent's angle", excess(last), T(0))));
    const T found = bracketed_root(excess, T(0), last);
    // A step of Newton's carries derivatives through the search: the tangent turns by its curvature times the way.
    const place near_by = section.on_fillet(found);
    const T slope_of_excess =
        dot(near_by.tangent, near_by.tangent) * near_by.curvature * section.root().fillet().at(found).speed;
    const place root = section.on_fillet(T(found - excess(found) / slope_of_excess));
    const place load = section.on_involute(load_diameter);
    const T slope = load.tangent.y / load.tangent.x;
    require(check_greater("direction of the flank under the load", load.tangent.x, T(0)));
    return {.normal_module = g.normal_module(),
            .normal_pressure_angle = g.normal_pressure_angle(),
            .chord = T(T(-2) * root.position.y),
            .fillet_radius = T(T(1) / magnitude(root.curvature)),
            .arm = T(load.position.x + load.position.y * slope - root.position.x),
            .load_angle = arctangent(slope)};
}

/// The same for the gear's customary tool, at the kind's critical tangent.
template <scalar T>
constexpr tooth_root<T> root_in_normal_section(const gear<T>& g, const T& load_diameter) {
    return root_in_normal_section(g, generated_root<T>(g), load_diameter, critical_tangent_angle<T>(g.kind()));
}
/// The same at another tangent.
template <scalar T>
constexpr tooth_root<T> root_in_normal_section(const gear<T>& g, const T& load_diameter, const angle<T>& tangent_angle) {
    return root_in_normal_section(g, generated_root<T>(g), load_diameter, tangent_angle);
}

} // namespace rackwork

#endif
