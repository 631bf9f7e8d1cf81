// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The tools that generate teeth: rack-type (hob, rack cutter) and pinion-type.
#ifndef RACKWORK_CUTTER_HPP
#define RACKWORK_CUTTER_HPP

#include "basic_rack.hpp"
#include "core/angle.hpp"
#include "core/elementary.hpp"
#include "core/error.hpp"
#include "core/root_finding.hpp"
#include "core/scalar.hpp"
#include "gear.hpp"
#include "gear_parameters.hpp"
#include "involute.hpp"

#include <variant>

namespace rackwork {

/// Rack-type tool, as a hob or a rack cutter, by its profile in the normal section. Lengths are factors of the normal module. Its datum
/// line is the basic rack's: there, but for the finishing allowance, its tooth is as wide as its space.
template <scalar T = double>
struct rack_type_cutter {
    /// Addendum factor, h_aP0*: datum line to tip line; it makes the gear's dedendum. Greater than 0.
    T addendum{T(5) / T(4)};
    /// Tip radius factor, rho_aP0*. 0 is a sharp corner; full_root_fillet_radius gives the full radius of a tool without protuberance.
    T tip_radius{T(19) / T(50)};
    /// Protuberance factor, p_rP0*: how far the tip rounding stands out of the tool's flank, square to it. At least the finishing
    /// allowance, so that finishing runs out into the undercut; 0 for none.
    T protuberance{0};
    /// Angle of the edge between tip rounding and flank of a tool with protuberance, alpha_prP0: from 0 to the pressure angle.
    angle<T> protuberance_angle{};
    /// Finishing allowance factor, q_P0*: the stock that the tool leaves on either flank, square to it, for finishing. At least 0.
    T finishing_allowance{0};
    /// Height factor of the chamfering flank, h_KP0*: the distance from the datum line, towards the tool's root, at which the flank of a
    /// semi-topping tool passes into the one that cuts a chamfer on the gear's tip edges. 0 for none.
    T chamfer_height{0};
    /// Pressure angle of the tool's flank that cuts the chamfer, alpha_KP0: between the pressure angle and 90 degrees.
    angle<T> chamfer_angle = deg(T(45));

    friend constexpr bool operator==(const rack_type_cutter& a, const rack_type_cutter& b) {
        return a.addendum == b.addendum && a.tip_radius == b.tip_radius && a.protuberance == b.protuberance &&
               a.protuberance_angle.rad() == b.protuberance_angle.rad() && a.finishing_allowance == b.finishing_allowance &&
               a.chamfer_height == b.chamfer_height && a.chamfer_angle.rad() == b.chamfer_angle.rad();
    }
};

/// Pinion-type cutter, for external and internal gears. It has the module, pressure angle and helix that it gives to the gear. Lengths are
/// factors of the normal module.
template <scalar T = double>
struct pinion_type_cutter {
    /// Number of teeth, z_0. At least 3; must be given. Less than an internal gear's.
    int teeth = 0;
    /// Profile shift coefficient, x_0: positive for a new cutter, falling as it is resharpened.
    T profile_shift{0};
    /// Addendum factor, h_a0*: tip diameter d_a0 = d_0 + 2 m_n (h_a0* + x_0). Greater than 0.
    T addendum{T(5) / T(4)};
    /// Tip radius factor, rho_a0*, of the circular rounding in the cutter's transverse section. 0 is a sharp corner.
    T tip_radius{0};

    // Written out, because a scalar's own comparison need not be constexpr.
    friend constexpr bool operator==(const pinion_type_cutter& a, const pinion_type_cutter& b) {
        return a.teeth == b.teeth && a.profile_shift == b.profile_shift && a.addendum == b.addendum && a.tip_radius == b.tip_radius;
    }
};

/// The tool that made a gear.
template <scalar T = double>
using cutter = std::variant<rack_type_cutter<T>, pinion_type_cutter<T>>;

/// The rack-type tool whose profile is the counterpart of a gear's basic rack.
template <scalar T>
constexpr rack_type_cutter<T> counterpart_of(const basic_rack<T>& rack) {
    return {.addendum = rack.dedendum, .tip_radius = rack.root_fillet_radius};
}

/// What is impossible about a rack-type tool for gears of a pressure angle, or nothing.
template <scalar T>
constexpr violation check(const rack_type_cutter<T>& tool, const angle<T>& pressure_angle) {
    return first_of(check_greater("addendum of the cutter", tool.addendum, T(0)),
                    check_at_least("tip_radius of the cutter", tool.tip_radius, T(0)),
                    check_at_least("finishing_allowance", tool.finishing_allowance, T(0)),
                    check_at_most("finishing_allowance", tool.finishing_allowance, T(1)),
                    check_at_least("protuberance", tool.protuberance, tool.finishing_allowance),
                    check_at_most("protuberance", tool.protuberance, T(1)),
                    check_at_least("protuberance_angle (deg)", tool.protuberance_angle.deg(), T(0)),
                    check_at_most("protuberance_angle (deg)", tool.protuberance_angle.deg(), pressure_angle.deg()),
                    check_at_least("chamfer_height of the cutter", tool.chamfer_height, T(0)),
                    check_greater("chamfer_angle of the cutter (deg)", tool.chamfer_angle.deg(), pressure_angle.deg()),
                    check_less("chamfer_angle of the cutter (deg)", tool.chamfer_angle.deg(), T(90)));
}

namespace detail {

/// half_tip_land from the tangent of the pressure angle alone: 1/cos = sqrt(1 + tan^2), (1 - sin)/cos = 1/cos - tan.
template <scalar T>
constexpr T half_tip_land(const rack_type_cutter<T>& tool, const T& tangent) {
    const T secant = elementary::sqrt(T(T(1) + square(tangent)));
    return T(pi<T>() / T(4) - tool.addendum * tangent - tool.tip_radius * (secant - tangent) +
             (tool.protuberance - tool.finishing_allowance) * secant);
}

} // namespace detail

/// Half the width of the land between a rack-type tool's tip roundings, as a factor of the module:
/// pi/4 + (p_rP0* - q_P0*)/cos alpha - h_aP0* tan alpha - rho_aP0* (1 - sin alpha)/cos alpha.
template <scalar T>
constexpr T half_tip_land(const rack_type_cutter<T>& tool, const angle<T>& pressure_angle) {
    return detail::half_tip_land(tool, tan(pressure_angle));
}

/// The parameters of an external gear with the tip chamfer that a semi-topping tool gives it. The tool's chamfering flank makes an involute
/// of its own, with the smaller base circle of its greater pressure angle; the chamfer begins where that crosses the gear's flank. (It is
/// not the tool's inner corner that cuts there.) None where it does so beyond the tip circle.
/// Throws geometry_error for impossible parameters or tools, for internal gears, and where the chamfer leaves no flank.
template <scalar T>
constexpr gear_parameters<T> chamfered_by(const rack_type_cutter<T>& tool, gear_parameters<T> parameters) {
    parameters.tip_chamfer = T(0);
    parameters.tip_rounding = T(0);
    const gear<T> sharp(parameters);
    require(check(tool, sharp.normal_pressure_angle()));
    if (sharp.is_internal()) impossible_geometry({"kind", 1, "must be external for a rack-type tool", 0, false});
    if (tool.chamfer_height == T(0)) return parameters;
    const T tangent = tan(tool.chamfer_angle);
    const T transverse = tangent / sharp.cosine_of_helix_angle();
    // Half the width of the tool's tooth at its datum line, were the chamfering flank long enough, as a factor of the module.
    const T half_width = pi<T>() / T(4) - tool.finishing_allowance / cos(sharp.normal_pressure_angle()) +
                         tool.chamfer_height * (sharp.tangent_of_normal_pressure_angle() - tangent);
    const T half_angle = (pi<T>() + T(2) * (sharp.generating_profile_shift() * tangent - half_width)) / T(sharp.teeth()) +
                         inv_from_tangent(transverse);
    const T chamfer_base = sharp.reference_diameter() / T(2) / elementary::sqrt(T(T(1) + square(transverse)));
    const T base = sharp.base_diameter() / T(2);
    const auto roll = [](const T& radius, const T& of_base) {
        return T(elementary::sqrt(larger(T((radius - of_base) * (radius + of_base)), T(0))) / of_base);
    };
    // What the chamfering flank leaves of the tooth's half angle beside the flank: it falls outward.
    const auto left = [&](const T& radius) {
        return T(half_angle - inv_from_tangent(roll(radius, chamfer_base)) - sharp.base_half_angle() + inv_from_tangent(roll(radius, base)));
    };
    const T tip = sharp.tip_diameter() / T(2);
    if (!(left(tip) < T(0))) return parameters;
    require(check_greater("what the chamfer leaves at the base circle (rad)", left(base), T(0)));
    const T found = bracketed_root(left, base, tip);
    // One Newton step with d(inv)/d(radius) = tan(alpha)/radius: it carries derivatives through the search.
    const T slope = (roll(found, base) - roll(found, chamfer_base)) / found;
    parameters.tip_chamfer = larger(T(tip - found + left(found) / slope), T(0));
    parameters.tip_chamfer_angle = tool.chamfer_angle;
    return parameters;
}

/// A pinion-type cutter in mesh with the gear that it makes, in the transverse section; lengths, not factors.
template <scalar T>
class generating_mesh {
public:
    /// Throws geometry_error if the cutter cannot make the gear.
    constexpr generating_mesh(const gear<T>& g, const pinion_type_cutter<T>& tool) : generating_mesh(g, tool, not_yet_checked{}) {
        require(violation_);
    }
    /// What keeps the cutter from making the gear, or nothing.
    static constexpr violation check(const gear<T>& g, const pinion_type_cutter<T>& tool) {
        return generating_mesh(g, tool, not_yet_checked{}).violation_;
    }

    /// Working transverse pressure angle while the gear is made, alpha_wt0, by its tangent:
    /// inv alpha_wt0 = inv alpha_t + 2 (x_E + x_0) tan alpha_n / (z_0 + sigma z).
    constexpr const T& tangent_of_working_pressure_angle() const { return tangent_; }
    /// Centre distance while the gear is made, a_0.
    constexpr const T& centre_distance() const { return centre_distance_; }
    /// Radii of the rolling circles, r_w of the gear and r_w0 of the cutter.
    constexpr const T& rolling_radius() const { return rolling_radius_; }
    constexpr const T& tool_rolling_radius() const { return tool_rolling_radius_; }
    /// Base and tip radius of the cutter.
    constexpr const T& tool_base_radius() const { return tool_base_radius_; }
    constexpr const T& tool_tip_radius() const { return tool_tip_radius_; }
    /// Half the angle of the cutter's tooth at its base circle, radians.
    constexpr const T& tool_base_half_angle() const { return tool_base_half_angle_; }
    /// Radius of the tip rounding, rho.
    constexpr const T& tip_rounding() const { return tip_rounding_; }
    /// Distance of its centre from the cutter's axis, R.
    constexpr T centre_radius() const { return T(tool_tip_radius_ - tip_rounding_); }
    /// Tangent of the cutter's pressure angle at its centre: cos alpha_C = r_b0/R.
    constexpr T tangent_at_centre() const {
        return T(elementary::sqrt(T((centre_radius() - tool_base_radius_) * (centre_radius() + tool_base_radius_))) / tool_base_radius_);
    }
    /// Angle between the rounding's centre and the middle of the cutter's tooth, radians: s_b0/d_b0 - rho/r_b0 - inv alpha_C, since the
    /// centre lies on the flank's parallel.
    constexpr T centre_angle() const {
        return T(tool_base_half_angle_ - tip_rounding_ / tool_base_radius_ - inv_from_tangent(tangent_at_centre()));
    }
    /// Distance between the points where the line of action touches the base circles, a_0 sin alpha_wt0.
    constexpr T path_between_base_circles() const { return T(centre_distance_ / elementary::sqrt(T(T(1) + square(tangent_))) * tangent_); }
    /// Roll length at which the cutter's involute passes into its tip rounding.
    constexpr T tool_tip_form_roll() const { return T(tool_base_radius_ * tangent_at_centre() + tip_rounding_); }

private:
    struct not_yet_checked {};

    constexpr generating_mesh(const gear<T>& g, const pinion_type_cutter<T>& tool, not_yet_checked) {
        const T sign = g.kind_sign();
        const T z = T(g.teeth());
        const T z0 = T(tool.teeth);
        violation_ = first_of(check_at_least("teeth of the cutter", z0, T(3)),
                              check_magnitude("profile_shift of the cutter", tool.profile_shift, T(1 << 10)),
                              check_greater("addendum of the cutter", tool.addendum, T(0)),
                              check_at_least("tip_radius of the cutter", tool.tip_radius, T(0)));
        if (!violation_ && g.is_internal()) violation_ = check_less("teeth of the cutter", z0, z);
        if (violation_) return;
        const T sum = z0 + sign * z; // less than 0 for an internal gear
        const T shifts = g.generating_profile_shift() + tool.profile_shift;
        const T involute = g.involute_of_transverse_pressure_angle() + T(2) * g.tangent_of_normal_pressure_angle() * shifts / sum;
        violation_ = check_greater("inv of the working pressure angle of gear and cutter", involute, T(0));
        if (violation_) return;
        tangent_ = tangent_of_inverse_inv(involute);
        // r_w = r_b / cos alpha_wt0, exactly the reference radius where the shifts cancel.
        const T reference = g.reference_diameter() / T(2);
        // (Its derivative there: d(1/cos alpha)/(1/cos alpha) = tan alpha d alpha, d inv alpha = tan^2 alpha d alpha.)
        const T slope_at_rest = T(1) + T(2) * g.tangent_of_normal_pressure_angle() * shifts /
                                           (g.tangent_of_transverse_pressure_angle() * sum);
        const T per_radius =
            shifts == T(0) ? slope_at_rest : T(g.cosine_of_transverse_pressure_angle() * elementary::sqrt(T(T(1) + square(tangent_))));
        rolling_radius_ = reference * per_radius;
        tool_rolling_radius_ = rolling_radius_ * (z0 / z);
        centre_distance_ = magnitude(sum) / z * rolling_radius_;
        const T m = g.normal_module();
        tool_base_radius_ = g.base_diameter() / T(2) * (z0 / z);
        tool_tip_radius_ = reference * (z0 / z) + m * (tool.addendum + tool.profile_shift);
        tip_rounding_ = m * tool.tip_radius;
        tool_base_half_angle_ = (pi<T>() / T(2) + T(2) * tool.profile_shift * g.tangent_of_normal_pressure_angle()) / z0 +
                                g.involute_of_transverse_pressure_angle();
        violation_ = first_of(check_at_least("radius at which the cutter's tip rounding has its centre", centre_radius(), tool_base_radius_),
                              check_finite("centre distance of gear and cutter", centre_distance_));
        if (violation_) return;
        // Rounding must not refuse a full radius.
        violation_ = check_at_least("half the cutter's tip land (rad)", centre_angle(), T(T(-64) * epsilon<T>()));
    }

    violation violation_{};
    T tangent_{0};
    T centre_distance_{0};
    T rolling_radius_{0};
    T tool_rolling_radius_{0};
    T tool_base_radius_{0};
    T tool_tip_radius_{0};
    T tool_base_half_angle_{0};
    T tip_rounding_{0};
};

/// Largest tip radius factor of a pinion-type cutter: the full radius, which leaves no tip land. The cutter's own tip radius does not matter.
/// Throws geometry_error if the cutter cannot make the gear even with sharp corners.
template <scalar T>
constexpr T full_tip_radius(const gear<T>& g, pinion_type_cutter<T> tool) {
    tool.tip_radius = T(0);
    const generating_mesh<T> sharp(g, tool);
    const T base = sharp.tool_base_radius();
    const auto half_land = [&](const T& rho) {
        const T centre = sharp.tool_tip_radius() - rho;
        const T tangent = elementary::sqrt(larger(T((centre - base) * (centre + base)), T(0))) / base;
        return T(sharp.tool_base_half_angle() - rho / base - inv_from_tangent(tangent));
    };
    const T deepest = sharp.tool_tip_radius() - base;
    const T found = half_land(deepest) > T(0) ? deepest : bracketed_root(half_land, T(0), deepest);
    return T(found / g.normal_module());
}

namespace detail {

/// A customary cutter of so many teeth with sharp corners.
template <scalar T>
constexpr pinion_type_cutter<T> sharp_customary_cutter(const gear<T>& g, int teeth) {
    pinion_type_cutter<T> tool{.teeth = teeth,
                               .profile_shift = smaller(T(-g.profile_shift()), T(0)),
                               .addendum = g.parameters().rack.dedendum,
                               .tip_radius = T(0)};
    if (g.profile_shift() < T(0)) {
        // Both on their rolling circles at nominal thickness, the cutter's tip is at the root circle: d_a0 = d_f - 2 a_0.
        const T rest = T(g.teeth()) - T(teeth);
        const T involute = g.involute_of_transverse_pressure_angle() -
                           T(2) * g.tangent_of_normal_pressure_angle() * g.profile_shift() / rest;
        const T secant = elementary::sqrt(T(T(1) + square(tangent_of_inverse_inv(involute))));
        const T per_tooth = g.reference_diameter() / T(g.teeth());
        const T distance = per_tooth * rest * (g.cosine_of_transverse_pressure_angle() * secant);
        tool.addendum = (g.root_diameter() - distance - per_tooth * T(teeth)) / (T(2) * g.normal_module());
    }
    return tool;
}

/// The first that has a tip land, from half as many teeth as the gear has upward; the last of them if none has.
template <scalar T>
constexpr pinion_type_cutter<T> sharp_customary_cutter(const gear<T>& g) {
    int teeth = g.teeth() / 2;
    while (teeth < g.teeth() - 2 && generating_mesh<T>::check(g, sharp_customary_cutter(g, teeth))) ++teeth;
    return sharp_customary_cutter(g, teeth);
}

} // namespace detail

/// What keeps customary_cutter from making an internal gear, or nothing.
template <scalar T>
constexpr violation check_customary_cutter(const gear<T>& g) {
    return generating_mesh<T>::check(g, detail::sharp_customary_cutter(g));
}

/// The pinion-type cutter that stands for the real one where an internal gear's is not stated. It has half as many teeth as the gear, or as
/// many more as it takes for its own tips not to be pointed; no profile shift, but against a gear with positive shift the same, negative;
/// and a tip diameter that at nominal thickness cuts the drawing's root diameter. Its tip radius is the rack's root fillet radius, or
/// the full radius where that is smaller. Throws geometry_error where such a cutter is impossible: then state one.
template <scalar T>
constexpr pinion_type_cutter<T> customary_cutter(const gear<T>& g) {
    pinion_type_cutter<T> tool = detail::sharp_customary_cutter(g);
    tool.tip_radius = smaller(full_tip_radius(g, tool), g.parameters().rack.root_fillet_radius);
    return tool;
}

} // namespace rackwork

#endif
