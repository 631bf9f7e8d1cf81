// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The spur gear that stands for a helical one in the calculation of tooth roots.
#ifndef RACKWORK_ANALYSIS_VIRTUAL_SPUR_GEAR_HPP
#define RACKWORK_ANALYSIS_VIRTUAL_SPUR_GEAR_HPP

#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "../involute.hpp"
#include "../rack_trochoid.hpp"

namespace rackwork {

/// The virtual spur gear of a gear, as ISO 6336-3 defines it: made by the same rack in its normal section, with the broken
/// number of teeth z_n = z / (cos^2 beta_b cos beta). For a spur gear it is the gear itself. Generated with x_E, the shift at
/// which the tool really stood.
///
/// Coordinates of its tooth: x outward along the tooth's centre line, y across it, the virtual axis at the origin. Immutable;
/// usable in constant expressions. Lengths in the module's unit; accuracy for double: 8 ulp of the virtual reference diameter.
template <scalar T = double>
class virtual_spur_gear {
public:
    /// Throws geometry_error for an internal gear, for which the standard has none.
    constexpr explicit virtual_spur_gear(const gear<T>& g)
        : normal_module_(g.normal_module()), pressure_angle_(g.normal_pressure_angle()),
          squared_cos_base_helix_(square(cos(g.base_helix_angle()))),
          teeth_(T(g.teeth()) / (squared_cos_base_helix_ * cos(g.helix_angle()))),
          beyond_reference_(g.tip_form_diameter() - g.reference_diameter()),
          fillet_(generated_root<T>::tool_tip(g)) {
        fillet_.rolling_radius = reference_diameter() / T(2);
        fillet_.cos_helix = T(1);
        base_half_angle_ = (pi<T>() / T(2) + T(2) * g.generating_profile_shift() * tan(pressure_angle_)) / teeth_ +
                           inv(pressure_angle_);
        if (g.is_internal()) impossible_geometry({"kind", 1, "must be external for a virtual spur gear", 0, false});
    }

    /// Virtual number of teeth, z_n; broken.
    constexpr const T& teeth() const { return teeth_; }
    constexpr const T& normal_module() const { return normal_module_; }
    constexpr const angle<T>& normal_pressure_angle() const { return pressure_angle_; }
    /// cos^2 beta_b, with which the real gear's transverse contact ratio becomes the virtual one, eps_alpha_n = eps_alpha /
    /// cos^2 beta_b.
    constexpr const T& squared_cos_base_helix() const { return squared_cos_base_helix_; }

    /// Reference diameter, d_n = m_n z_n.
    constexpr T reference_diameter() const { return T(normal_module_ * teeth_); }
    /// Base diameter, d_bn = d_n cos alpha_n.
    constexpr T base_diameter() const { return T(reference_diameter() * cos(pressure_angle_)); }
    /// Base pitch, p_bn = pi m_n cos alpha_n.
    constexpr T base_pitch() const { return T(pi<T>() * normal_module_ * cos(pressure_angle_)); }
    /// Tip diameter, d_an = d_n + d_a - d; where the real tooth comes to a point, that point counts.
    constexpr T tip_diameter() const { return T(reference_diameter() + beyond_reference_); }
    /// Half the angle of the tooth on the base circle, radians: (pi/2 + 2 x_E tan alpha_n)/z_n + inv alpha_n.
    constexpr const T& base_half_angle() const { return base_half_angle_; }
    /// Roll angle of the involute at a diameter, radians: the tangent of the pressure angle. Throws below the base diameter.
    constexpr T roll_angle(const T& diameter) const {
        const T base = base_diameter();
        require(check_at_least("diameter of the virtual spur gear", diameter, base));
        return T(elementary::sqrt(T((diameter - base) * (diameter + base))) / base);
    }

    /// The root fillet that the rounded tip of the tool makes.
    constexpr const rack_trochoid<T>& fillet() const { return fillet_; }
    /// Parameter of the fillet where, without undercut, the involute begins: 90 degrees - alpha_n, in radians.
    constexpr T last_parameter() const { return T(pi<T>() / T(2) - pressure_angle_.rad()); }
    /// Half the angle of the pitch at the axis, radians.
    constexpr T half_pitch_angle() const { return T(pi<T>() / teeth_); }

    /// A place on the outline of the tooth's half at negative y.
    struct place {
        /// Distance from the axis, along the tooth's centre line.
        T height;
        /// Distance from the centre line.
        T half_chord;
        /// Angle between the tangent, going outward, and the centre line, radians; positive where the tooth narrows outward.
        T inclination;
        /// Length of arc, and change of the inclination, over the parameter.
        T speed;
        T inclination_rate;
    };
    /// Place on the fillet at its parameter.
    constexpr place on_fillet(const T& phi) const {
        const fillet_state<T> at = fillet_.at(phi);
        // From the centre line of the space to that of the tooth.
        const T turn = at.turn - half_pitch_angle();
        const point<T> p = turned(point<T>{at.radial, at.lateral}, turn);
        // alpha' = 90 degrees - phi, since the virtual gear is a spur gear.
        return {.height = p.x,
                .half_chord = T(-p.y),
                .inclination = T((pi<T>() / T(2) - phi) + turn),
                .speed = at.speed,
                .inclination_rate = T(at.pressure_rate + at.turn_rate)};
    }
    /// Place on the involute at a roll angle (radians, tangent of the pressure angle).
    constexpr place on_involute(const T& roll) const {
        const T radius = base_diameter() / T(2);
        const T inclination = roll - base_half_angle_;
        const point<T> p = turned(point<T>{radius, T(-radius * roll)}, inclination);
        return {.height = p.x,
                .half_chord = T(-p.y),
                .inclination = inclination,
                .speed = T(radius * roll),
                .inclination_rate = T(1)};
    }

private:
    T normal_module_;
    angle<T> pressure_angle_;
    T squared_cos_base_helix_;
    T teeth_;
    T beyond_reference_;
    rack_trochoid<T> fillet_;
    T base_half_angle_{0};
};

} // namespace rackwork

#endif
