// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// One gear: parameters in, every angle, diameter, pitch and thickness out.
#ifndef RACKWORK_GEAR_HPP
#define RACKWORK_GEAR_HPP

#include "basic_rack.hpp"
#include "core/angle.hpp"
#include "core/elementary.hpp"
#include "core/error.hpp"
#include "core/scalar.hpp"
#include "gear_parameters.hpp"
#include "involute.hpp"

#include <limits>

namespace rackwork {

/// Largest errors of a gear's sizes for float, double and long double, in units in the last place (ulp).
///
/// Of diameters, pitches and angles; of root diameters in ulp of the reference diameter, of addendum, dedendum and depth in ulp of the sum of
/// their terms' sizes, of the pressure angle at a diameter divided by its squared sine, because near the base circle it hangs on the last
/// places of d_b.
inline constexpr int gear_size_error_bound = 4;
/// Of the diameter at which the tooth comes to a point, and of the tip diameters of a tooth that ends there.
inline constexpr int pointed_tip_error_bound = 6;
/// Of the thicknesses at the reference cylinder, in ulp of the pitch, and of the half angle at the base circle.
inline constexpr int reference_thickness_error_bound = 8;
/// Of thickness and space at a diameter, in ulp of that diameter; of half the tooth's angle there, in ulp of 1.
inline constexpr int thickness_error_bound = 8;

/// An involute cylindrical gear, external or internal, spur or helical. Immutable and always possible: it cannot be built from parameters that
/// check() objects to. Cheap to copy, no allocation, usable in constant expressions.
///
/// Formulas: ISO 21771:2007, with a sign sigma for the kind, 1 for external and -1 for internal gears, where the standard has negative
/// tooth numbers and diameters. Accuracy: the error bounds above.
template <scalar T = double>
class gear {
public:
    /// Throws geometry_error if check(parameters) finds something.
    constexpr explicit gear(const gear_parameters<T>& parameters) : gear(parameters, checked_tangent(parameters)) {
        require(check_together());
        tip_tangent_ = tangent_of_pressure_angle(tip_diameter());
        effective_tip_diameter_ = tip_diameter();
        // The tooth's half angle at the tip is less than nothing where the flanks have crossed before. On external gears it is mostly enough
        // that inv alpha < tan^3 alpha / 3 to see that they have not.
        const bool apart = !is_internal() && square(tip_tangent_) * tip_tangent_ < T(3) * base_half_angle_;
        if (!apart && base_half_angle_ < T(sign_ * inv_from_tangent(tip_tangent_))) {
            tip_tangent_ = tangent_of_inverse_inv(T(sign_ * base_half_angle_));
            effective_tip_diameter_ = pointed_tip_diameter();
        }
        tip_form_diameter_ = effective_tip_diameter_;
        tip_form_tangent_ = tip_tangent_;
        if (given_.tip_chamfer > T(0)) {
            tip_form_diameter_ = tip_diameter() - T(2) * sign_ * given_.tip_chamfer;
            tip_form_tangent_ = tangent_of_pressure_angle(tip_form_diameter_);
        } else if (given_.tip_rounding > T(0)) {
            // The rounding's centre lies its radius inside the tip circle and inside the flank, whose normals touch the base circle.
            const T rho = T(2) * given_.tip_rounding / base_diameter_;
            tip_form_tangent_ = tangent_of_pressure_angle(T(tip_diameter() - T(2) * sign_ * given_.tip_rounding)) + sign_ * rho;
            tip_form_diameter_ = base_diameter_ * elementary::sqrt(T(T(1) + square(tip_form_tangent_)));
        }
    }

    /// What was given.
    constexpr const gear_parameters<T>& parameters() const { return given_; }
    /// Number of teeth, z.
    constexpr int teeth() const { return given_.teeth; }
    /// External or internal.
    constexpr gear_kind kind() const { return given_.kind; }
    constexpr bool is_internal() const { return given_.kind == gear_kind::internal; }
    /// The sign sigma that the formulas give to the kind: 1 for external, -1 for internal gears.
    constexpr const T& kind_sign() const { return sign_; }
    /// Profile shift coefficient, x.
    constexpr T profile_shift() const { return given_.profile_shift; }
    /// Generating profile shift coefficient, x_E = x + E_sn / (2 m_n tan alpha_n): where the tool really stands.
    constexpr T generating_profile_shift() const { return generating_profile_shift_; }

    /// Normal module, m_n.
    constexpr T normal_module() const { return given_.normal_module; }
    /// Transverse module, m_t = m_n / cos beta.
    constexpr T transverse_module() const { return T(normal_module() / cos_helix_); }

    /// Normal pressure angle, alpha_n.
    constexpr angle<T> normal_pressure_angle() const { return given_.rack.pressure_angle; }
    /// Transverse pressure angle at the reference cylinder, alpha_t: tan alpha_t = tan alpha_n / cos beta.
    constexpr angle<T> transverse_pressure_angle() const { return arctangent(tan_transverse_); }
    /// Helix angle at the reference cylinder, beta; right hand positive.
    constexpr angle<T> helix_angle() const { return given_.helix_angle; }
    /// Helix angle at the base cylinder, beta_b: tan beta_b = tan beta cos alpha_t.
    constexpr angle<T> base_helix_angle() const { return arctangent(T(tan_helix_ * cos_transverse_)); }

    // What is made of these angles again and again, kept from the start: tan alpha_n, tan alpha_t, cos alpha_t, inv alpha_t, cos beta,
    // tan beta and tan beta_b.
    constexpr const T& tangent_of_normal_pressure_angle() const { return tan_normal_; }
    constexpr const T& tangent_of_transverse_pressure_angle() const { return tan_transverse_; }
    constexpr const T& cosine_of_transverse_pressure_angle() const { return cos_transverse_; }
    constexpr const T& involute_of_transverse_pressure_angle() const { return inv_transverse_; }
    constexpr const T& cosine_of_helix_angle() const { return cos_helix_; }
    constexpr const T& tangent_of_helix_angle() const { return tan_helix_; }
    constexpr T tangent_of_base_helix_angle() const { return T(tan_helix_ * cos_transverse_); }

    /// Reference diameter, d = z m_t.
    constexpr T reference_diameter() const { return reference_diameter_; }
    /// Base diameter, d_b = d cos alpha_t.
    constexpr T base_diameter() const { return base_diameter_; }
    /// Tip diameter, d_a = d + 2 sigma m_n (h_aP* + x + k).
    constexpr T tip_diameter() const { return T(reference_diameter_ + T(2) * sign_ * addendum()); }
    /// Tip form diameter, d_Fa: where the involute ends at the tip. The effective tip diameter for sharp edges; with a chamfer
    /// d_a - 2 sigma h_K; with a rounding where that touches the flank.
    constexpr const T& tip_form_diameter() const { return tip_form_diameter_; }
    /// Tangent of the transverse pressure angle there: the roll angle in radians.
    constexpr const T& tip_form_roll() const { return tip_form_tangent_; }
    /// Root diameter, d_f = d - 2 sigma m_n (h_fP* - x), as the drawing states it.
    constexpr T root_diameter() const { return T(reference_diameter_ - T(2) * sign_ * dedendum()); }
    /// Root diameter as a rack generates it, d_fE = d - 2 sigma m_n (h_fP* - x_E): with x_E for x, since a tool that thins the teeth also
    /// goes deeper. What another tool generates is said by generated_root.
    constexpr T generated_root_diameter() const {
        return T(reference_diameter_ - T(2) * sign_ * normal_module() * (given_.rack.dedendum - generating_profile_shift_));
    }
    /// Diameter of the circle at distance x m_n from the reference circle, d_v = d + 2 sigma x m_n. Measuring tools are chosen to touch
    /// near it.
    constexpr T shifted_reference_diameter() const {
        return T(reference_diameter_ + T(2) * sign_ * normal_module() * given_.profile_shift);
    }

    /// Addendum, h_a = m_n (h_aP* + x + k).
    constexpr T addendum() const {
        return T(normal_module() * (given_.rack.addendum + given_.profile_shift + given_.tip_alteration));
    }
    /// Dedendum, h_f = m_n (h_fP* - x).
    constexpr T dedendum() const { return T(normal_module() * (given_.rack.dedendum - given_.profile_shift)); }
    /// Tooth depth, h = h_a + h_f.
    constexpr T tooth_depth() const { return T(addendum() + dedendum()); }

    /// Normal pitch, p_n = pi m_n.
    constexpr T normal_pitch() const { return T(pi<T>() * normal_module()); }
    /// Transverse pitch, p_t = pi m_t.
    constexpr T transverse_pitch() const { return T(pi<T>() * transverse_module()); }
    /// Normal base pitch, p_bn = p_n cos alpha_n.
    constexpr T normal_base_pitch() const { return T(normal_pitch() * cos(normal_pressure_angle())); }
    /// Transverse base pitch, p_bt = p_t cos alpha_t; also the distance of neighbouring flanks along the line of action, p_et.
    constexpr T transverse_base_pitch() const {
        // cos alpha_t = cos beta / sqrt(cos^2 beta + tan^2 alpha_n), and p_t = p_n / cos beta: the shorter way loses less.
        return T(normal_pitch() / elementary::sqrt(T(square(cos_helix_) + square(tan_normal_))));
    }
    /// Axial pitch, p_x = p_n / sin |beta|. Throws geometry_error for a spur gear, which has none.
    constexpr T axial_pitch() const {
        require_helix();
        const T pitch = normal_pitch() / sin(angle<T>(rad(magnitude(helix_angle().rad()))));
        require(check_finite("axial_pitch", pitch));
        return pitch;
    }
    /// Lead, p_z = z p_x. Throws geometry_error for a spur gear, which has none.
    constexpr T lead() const {
        const T lead = T(teeth()) * axial_pitch();
        require(check_finite("lead", lead));
        return lead;
    }

    /// Transverse pressure angle at a diameter, alpha_yt: cos alpha_yt = d_b / d_y. Throws below the base diameter.
    constexpr angle<T> pressure_angle(const T& diameter) const { return arctangent(tangent_of_pressure_angle(diameter)); }
    /// Helix angle at a diameter, beta_y: tan beta_y = tan beta d_y / d. Throws unless the diameter is greater than 0.
    constexpr angle<T> helix_angle(const T& diameter) const {
        require(check_greater("diameter", diameter, T(0)));
        return arctangent(T(tan_helix_ * (diameter / reference_diameter_)));
    }

    /// Tooth thickness at the reference cylinder in the normal section, s_n = m_n (pi/2 + 2 x_E tan alpha_n), with the allowance.
    constexpr T normal_tooth_thickness() const {
        return T(normal_module() * (pi<T>() / T(2) + T(2) * given_.profile_shift * tan_normal_) + given_.thickness_allowance);
    }
    /// Tooth thickness at the reference cylinder in the transverse section, s_t = s_n / cos beta.
    constexpr T transverse_tooth_thickness() const { return T(normal_tooth_thickness() / cos_helix_); }
    /// Tooth thickness on the arc at a diameter, transverse section: s_y = d_y (s_t/d + sigma (inv alpha_t - inv alpha_yt)).
    /// Negative where the flanks have crossed. Throws below the base diameter.
    constexpr T tooth_thickness(const T& diameter) const { return T(diameter * tooth_half_angle(diameter)); }
    /// Half the angle that the tooth subtends at the axis at a diameter, transverse section, radians: psi_y = s_y/d_y. Throws below the base
    /// diameter.
    constexpr T tooth_half_angle(const T& diameter) const {
        return T(base_half_angle_ - sign_ * inv_from_tangent(tangent_of_pressure_angle(diameter)));
    }
    /// Tooth thickness at a diameter along the arc square to the helix, s_yn = s_y cos beta_y. Throws below the base diameter.
    constexpr T normal_tooth_thickness(const T& diameter) const {
        return T(tooth_thickness(diameter) * cos(helix_angle(diameter)));
    }
    /// Space width on the arc at a diameter, transverse section: e_y = pi d_y / z - s_y. Throws below the base diameter.
    constexpr T space_width(const T& diameter) const {
        return T(diameter * (pi<T>() / T(teeth())) - tooth_thickness(diameter));
    }
    /// Tooth thickness at the tip, s_a, transverse section. Negative for a tooth that comes to a point before its tip circle.
    constexpr T tip_thickness() const { return tooth_thickness(tip_diameter()); }
    /// Base diameter of the chamfer's involute, d cos alpha_Kt with tan alpha_Kt = tan alpha_K / cos beta.
    constexpr T chamfer_base_diameter() const {
        return T(reference_diameter_ / elementary::sqrt(T(T(1) + square(T(tan(given_.tip_chamfer_angle) / cos_helix_)))));
    }
    /// Half the angle of the tooth at that base circle, if the chamfer went on down to it, radians.
    constexpr T chamfer_base_half_angle() const {
        const T at_form = tip_diameter() - T(2) * sign_ * given_.tip_chamfer;
        return T(tooth_half_angle(at_form) + sign_ * chamfer_involute(at_form));
    }
    /// Half the angle of the tip land, radians: what chamfers or roundings leave of the tip thickness. 0 for a tooth that comes to a point.
    constexpr T tip_land_half_angle() const {
        if (given_.tip_chamfer > T(0)) return T(chamfer_base_half_angle() - sign_ * chamfer_involute(tip_diameter()));
        if (given_.tip_rounding > T(0)) {
            const T centre = tip_diameter() - T(2) * sign_ * given_.tip_rounding;
            return T(tooth_half_angle(centre) - T(2) * given_.tip_rounding / base_diameter_);
        }
        return larger(tooth_half_angle(tip_diameter()), T(0));
    }

    /// Diameter at which the flanks cross and the tooth comes to a point: sigma inv alpha_y = s_t/d + sigma inv alpha_t.
    /// Throws geometry_error for an internal gear whose teeth are thick down to the base circle and never come to a point.
    constexpr T pointed_tip_diameter() const {
        require(check_at_least("half the angle lacking to the tooth at the base circle (rad)", T(sign_ * base_half_angle_), T(0)));
        return T(base_diameter_ * elementary::sqrt(T(T(1) + square(tangent_of_inverse_inv(T(sign_ * base_half_angle_))))));
    }
    /// Where the metal really ends: the tip diameter, or the diameter at which the tooth comes to a point before it.
    constexpr const T& effective_tip_diameter() const { return effective_tip_diameter_; }
    /// Tangent of the transverse pressure angle at the effective tip diameter: the roll angle there in radians.
    constexpr const T& effective_tip_roll() const { return tip_tangent_; }

    /// Half the angle that the tooth subtends at the axis on the base circle, in radians: s_t/d + sigma inv alpha_t. Negative for
    /// internal gears whose flanks cross before it.
    constexpr const T& base_half_angle() const { return base_half_angle_; }
    /// Tangent of the transverse pressure angle at a diameter. Throws below the base diameter.
    constexpr T tangent_of_pressure_angle(const T& diameter) const {
        require(check_at_least("diameter", diameter, base_diameter_));
        // (d - d_b)(d + d_b) keeps the places that d^2 - d_b^2 would lose close to the base circle.
        const T tangent = elementary::sqrt(T((diameter - base_diameter_) * (diameter + base_diameter_))) / base_diameter_;
        require(check_finite("tangent of the pressure angle at the diameter", tangent));
        return tangent;
    }

    /// What is impossible about parameters, or nothing: the question for callers who cannot have exceptions.
    static constexpr violation check(const gear_parameters<T>& parameters) {
        if (const violation v = check_each(parameters)) return v;
        return gear(parameters, tan(parameters.rack.pressure_angle)).check_together();
    }

private:
    /// Tangent of the pressure angle of parameters each of which is possible.
    static constexpr T checked_tangent(const gear_parameters<T>& parameters) {
        const T degrees = parameters.rack.pressure_angle.deg();
        const T tangent = T(0) < degrees && degrees < T(90) ? tan(parameters.rack.pressure_angle) : T(0);
        require(detail::check_each(parameters, tangent));
        return tangent;
    }

    constexpr gear(const gear_parameters<T>& given, const T& tan_normal) : gear(given, tan_normal, cos(given.helix_angle)) {}
    constexpr gear(const gear_parameters<T>& given, const T& tan_normal, const T& cos_helix)
        : gear(given, tan_normal, cos_helix, elementary::sqrt(T(square(cos_helix) + square(tan_normal)))) {}

    /// With w = sqrt(cos^2 beta + tan^2 alpha_n): cos alpha_t = cos beta / w and d_b = z m_n / w, a shorter way than by d cos alpha_t, which
    /// loses less. So is pi/2 + 2 x tan alpha_n + E_sn/m_n beside pi/2 + 2 x_E tan alpha_n.
    constexpr gear(const gear_parameters<T>& given, const T& tan_normal, const T& cos_helix, const T& w)
        : given_(given), sign_(given.kind == gear_kind::internal ? T(-1) : T(1)), cos_helix_(cos_helix),
          tan_helix_(tan(given.helix_angle)), tan_normal_(tan_normal), tan_transverse_(tan_normal_ / cos_helix_),
          cos_transverse_(cos_helix_ / w),
          inv_transverse_(inv_from_tangent(tan_transverse_)),
          generating_profile_shift_(given.profile_shift +
                                    given.thickness_allowance / (T(2) * given.normal_module * tan_normal_)),
          reference_diameter_(T(given.teeth) * given.normal_module / cos_helix_),
          base_diameter_(T(given.teeth) * given.normal_module / w),
          base_half_angle_((pi<T>() / T(2) + T(2) * given.profile_shift * tan_normal_ + given.thickness_allowance / given.normal_module) /
                               T(given.teeth) +
                           sign_ * inv_transverse_) {}

    /// What is impossible about the gear as a whole, or nothing.
    constexpr violation check_together() const {
        const T greatest_diameter = T(elementary::sqrt(T((std::numeric_limits<T>::max)())) / T(16)); // squares must not overflow
        if (const violation v = first_of(
                check_magnitude("generating_profile_shift", generating_profile_shift_, T(T(1) / epsilon<T>())),
                check_at_most("tip_diameter", tip_diameter(), greatest_diameter),
                check_at_most("reference_diameter", reference_diameter_, greatest_diameter))) {
            return v;
        }
        if (const violation v = is_internal() ? check_ring() : check_wheel()) return v;
        return check_edges();
    }

    /// The same for chamfered and rounded tip edges, which need some land and flank.
    constexpr violation check_edges() const {
        if (given_.tip_chamfer == T(0) && given_.tip_rounding == T(0)) return {};
        const T depth = given_.tip_chamfer + given_.tip_rounding;
        const T inner = tip_diameter() - T(2) * sign_ * depth;
        if (const violation v = first_of(check_greater("tip_thickness of a gear with chamfered or rounded edges", tip_thickness(), T(0)),
                                         check_less("tip_chamfer or tip_rounding", depth, tooth_depth()),
                                         check_at_least("diameter at the depth of the tip edges", inner, base_diameter_))) {
            return v;
        }
        return check_at_least("half the tip land between the edges (rad)", tip_land_half_angle(), T(T(-64) * epsilon<T>()));
    }

    /// The same for what only external teeth can be.
    constexpr violation check_wheel() const {
        if (const violation v =
                first_of(check_greater("root_diameter", root_diameter(), T(0)),
                         check_greater("generated_root_diameter", generated_root_diameter(), T(0)),
                         check_greater("tip_diameter", tip_diameter(), base_diameter_),
                         check_greater("tip_diameter", tip_diameter(), larger(root_diameter(), generated_root_diameter())),
                         check_greater("tooth thickness at the base circle", T(base_half_angle_ * base_diameter_), T(0)))) {
            return v;
        }
        const T root = generated_root_diameter();
        if (root <= base_diameter_) return {};
        // inv alpha is less than tan^3 alpha / 3: mostly that is enough to see that there is thickness at the root.
        const T squared_tangent = (root - base_diameter_) * (root + base_diameter_) / square(base_diameter_);
        if (square(squared_tangent) * squared_tangent < T(9) * square(base_half_angle_)) return {};
        return check_greater("tooth thickness at the root circle", tooth_thickness(root), T(0));
    }

    /// The same for what only internal teeth can be. Inside the base circle there is no flank.
    constexpr violation check_ring() const {
        const T root = smaller(root_diameter(), generated_root_diameter());
        if (const violation v = first_of(check_at_least("tip_diameter of an internal gear", tip_diameter(), base_diameter_),
                                         check_less("tip_diameter of an internal gear", tip_diameter(), root))) {
            return v;
        }
        return first_of(check_greater("space width at the root circle", space_width(root), T(0)),
                        check_greater("tooth thickness at the root circle", tooth_thickness(root), T(0)));
    }

    /// inv of the pressure angle of the chamfer's involute at a diameter.
    constexpr T chamfer_involute(const T& diameter) const {
        const T base = chamfer_base_diameter();
        return inv_from_tangent(T(elementary::sqrt(T((diameter - base) * (diameter + base))) / base));
    }

    constexpr void require_helix() const {
        if (helix_angle().rad() == T(0)) {
            impossible_geometry({"helix_angle (deg)", 0, "must not be zero for a lead or an axial pitch", 0, false});
        }
    }

    gear_parameters<T> given_;
    T sign_;
    T cos_helix_;
    T tan_helix_;
    T tan_normal_;
    T tan_transverse_;
    T cos_transverse_;
    T inv_transverse_;
    T generating_profile_shift_;
    T reference_diameter_;
    T base_diameter_;
    T base_half_angle_;
    T tip_tangent_{0};
    T effective_tip_diameter_{0};
    T tip_form_tangent_{0};
    T tip_form_diameter_{0};
};

/// What is impossible about the parameters of a gear, or nothing.
template <scalar T>
constexpr violation check(const gear_parameters<T>& parameters) {
    return gear<T>::check(parameters);
}

} // namespace rackwork

#endif
