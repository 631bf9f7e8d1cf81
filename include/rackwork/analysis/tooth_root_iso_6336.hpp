// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The root section by the closed formulas of ISO 6336-3 for gears that a rack-type tool makes.
#ifndef RACKWORK_ANALYSIS_TOOTH_ROOT_ISO_6336_HPP
#define RACKWORK_ANALYSIS_TOOTH_ROOT_ISO_6336_HPP

#include "../centre_distance.hpp"
#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../involute.hpp"
#include "../mesh.hpp"
#include "tooth_root.hpp"

#include <limits>

namespace rackwork {

namespace detail {

/// The formulas' own symbols, in modules and radians.
template <scalar T>
class iso_6336_root {
public:
    constexpr explicit iso_6336_root(const gear<T>& g)
        : m_(g.normal_module()), alpha_(g.normal_pressure_angle()), x_(g.generating_profile_shift()),
          squared_cos_base_helix_(square(cos(g.base_helix_angle()))),
          z_(T(g.teeth()) / (squared_cos_base_helix_ * cos(g.helix_angle()))),
          rho_(g.parameters().rack.root_fillet_radius), G_(rho_ - g.parameters().rack.dedendum + x_),
          tip_(z_ + (g.tip_form_diameter() - g.reference_diameter()) / m_) {
        const T E =
            pi<T>() / T(4) - g.parameters().rack.dedendum * tan(alpha_) - (T(1) - sin(alpha_)) * rho_ / cos(alpha_);
        if (g.is_internal()) impossible_geometry({"kind", 1, "must be external for the rack-generated formulas", 0, false});
        H_ = T(2) / z_ * (pi<T>() / T(2) - E) - pi<T>() / T(3);
        theta_ = iterated();
    }

    /// With the load (eps_alpha_n - 1) base pitches below the tip.
    constexpr tooth_root<T> loaded(const T& contact_ratio_minus_1) const {
        const T base = z_ * cos(alpha_);
        const T at_tip = elementary::sqrt(T(square(T(tip_ / T(2))) - square(T(base / T(2)))));
        const T at_load = at_tip - pi<T>() * cos(alpha_) * contact_ratio_minus_1;
        const T d_e = T(2) * elementary::sqrt(T(square(at_load) + square(T(base / T(2)))));
        const T tangent = at_load / (base / T(2));
        const T alpha_e = elementary::atan(tangent);
        const T gamma = (pi<T>() / T(2) + T(2) * x_ * tan(alpha_)) / z_ + inv(alpha_) - inv_from_tangent(tangent);
        const T load = alpha_e - gamma;
        const T cosine = elementary::cos(theta_);
        const T third = pi<T>() / T(3) - theta_;
        const T G = G_;
        const T chord = z_ * elementary::sin(third) + elementary::sqrt(T(3)) * (G / cosine - rho_);
        const T arm = ((elementary::cos(gamma) - elementary::sin(gamma) * elementary::tan(load)) * d_e -
                       z_ * elementary::cos(third) - (G / cosine - rho_)) /
                      T(2);
        const T fillet_radius = rho_ + T(2) * square(G) / (cosine * (z_ * square(cosine) - T(2) * G));
        return {.normal_module = m_,
                .normal_pressure_angle = alpha_,
                .chord = T(m_ * chord),
                .fillet_radius = T(m_ * fillet_radius),
                .arm = T(m_ * arm),
                .load_angle = rad(load)};
    }

    constexpr const T& squared_cos_base_helix() const { return squared_cos_base_helix_; }

private:
    /// theta = 2 G/z_n tan theta - H, from pi/6, until it does not change any more.
    constexpr T iterated() const {
        const int most_steps = 4 * std::numeric_limits<T>::digits; // a quarter of a bit gained in each step is enough
        T theta = pi<T>() / T(6);
        T change = T(1);
        for (int i = 0; i < most_steps && magnitude(change) > epsilon<T>(); ++i) {
            const T next = T(2) * G_ / z_ * elementary::tan(theta) - H_;
            change = next - theta;
            theta = next;
        }
        require(check_at_most("change of theta in the last step of the iteration", magnitude(change),
                              T(T(8) * epsilon<T>())));
        return theta;
    }

    T m_;
    angle<T> alpha_;
    T x_;
    T squared_cos_base_helix_;
    T z_;
    T rho_;
    T G_;
    T tip_;
    T H_{0};
    T theta_{0};
};

} // namespace detail

/// Root section by the closed formulas of ISO 6336-3:2006 for rack-generated gears, load at the tip: s_Fn, rho_F, h_Fa,
/// alpha_Fan. The auxiliary angle theta comes from the standard's own iteration. x_E stands for x, and a pointed tip counts
/// where it is.
///
/// Against root_under_tip_load: the formulas describe the rack's trochoid without simplification, so both agree to rounding
/// wherever the 30 degree tangent touches the fillet. Where it does not (pressure angles above 30 degrees, one or two teeth)
/// the formulas go on along the curve beyond its ends, and the numbers belong to no tooth. For helical gears both describe the
/// virtual spur gear; how far that is from the tooth's true normal section says root_in_normal_section.
/// Throws geometry_error where the iteration does not settle (three or four teeth with shifts about 2, whose fillet is nearly
/// straight).
template <scalar T>
constexpr tooth_root<T> iso_6336_root_under_tip_load(const gear<T>& g) {
    return detail::iso_6336_root<T>(g).loaded(T(0));
}

/// The same with the load at the outer point of single contact, h_Fe and alpha_Fen: (eps_alpha_n - 1) base pitches below the
/// tip circle.
/// Against root_under_single_contact_load: the formulas start from the tip circle also where the mate's undercut ends contact
/// below it, which puts the load too high and makes Y_F too large.
/// Throws as iso_6336_root_under_tip_load does.
template <scalar T>
constexpr for_both<tooth_root<T>> iso_6336_root_under_single_contact_load(const mesh<T>& pair) {
    const T contact_ratio = pair.transverse_contact_ratio();
    const auto one_gear = [&](const gear<T>& g) {
        const detail::iso_6336_root<T> root(g);
        return root.loaded(T(contact_ratio / root.squared_cos_base_helix() - T(1)));
    };
    return {.pinion = one_gear(pair.pinion()), .wheel = one_gear(pair.wheel())};
}

} // namespace rackwork

#endif
