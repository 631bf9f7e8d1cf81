// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Two external gears at a centre distance: working sizes, contact ratios, clearances, backlash.
#ifndef RACKWORK_MESH_HPP
#define RACKWORK_MESH_HPP

#include "centre_distance.hpp"
#include "core/angle.hpp"
#include "core/elementary.hpp"
#include "core/error.hpp"
#include "core/scalar.hpp"
#include "gear.hpp"
#include "generated_root.hpp"
#include "involute.hpp"

namespace rackwork {

/// Two external gears that run together, and where they stand. Immutable; usable in constant expressions.
///
/// Formulas: ISO 21771:2007. Accuracy for float, double and long double: working sizes and centre distances 8 ulp; the working pressure
/// angle 8 ulp divided by its squared sine where the centre distance is given (as cos alpha_wt hangs on its last places), and otherwise
/// by the share of inv alpha_wt in the sum that it is computed from; backlash 48 ulp of a tenth of the larger working pitch diameter, since it
/// is a small difference.
template <scalar T = double>
class mesh {
public:
    /// At the centre distance at which the teeth, as their profile shifts alone make them, run without backlash. Thickness allowances
    /// then are the backlash. Throws geometry_error when the gears cannot run together.
    constexpr mesh(const gear<T>& pinion, const gear<T>& wheel)
        : mesh(pinion, wheel, fitting(pinion, wheel)) {
        const T shifts = pinion.profile_shift() + wheel.profile_shift();
        centre_distance_ = rackwork::centre_distance(proportions(), shifts);
        tangent_ = tangent_of_inverse_inv(detail::working_involute(proportions(), shifts));
    }

    /// At a given centre distance, a. Throws geometry_error when the gears cannot run together or the centre distance is not
    /// greater than the sum of their base radii.
    constexpr mesh(const gear<T>& pinion, const gear<T>& wheel, const T& centre_distance)
        : mesh(pinion, wheel, fitting(pinion, wheel)) {
        centre_distance_ = centre_distance;
        tangent_ = tangent_of_working_pressure_angle(proportions(), centre_distance);
        const T excess = profile_shift_sum(proportions(), centre_distance) - (pinion.profile_shift() + wheel.profile_shift());
        opening_ = T(2) * tan(pinion.normal_pressure_angle()) * excess / (T(pinion.teeth()) + T(wheel.teeth()));
    }

    /// What keeps two gears from running together without backlash, or nothing: the question for callers who cannot have exceptions.
    static constexpr violation check(const gear<T>& pinion, const gear<T>& wheel) {
        if (const violation v = check_fit(pinion, wheel)) return v;
        return check_shift_sum(proportions_of(pinion, wheel), T(pinion.profile_shift() + wheel.profile_shift()));
    }
    /// What keeps two gears from running at a centre distance, or nothing.
    static constexpr violation check(const gear<T>& pinion, const gear<T>& wheel, const T& centre_distance) {
        if (const violation v = check_fit(pinion, wheel)) return v;
        return check_centre_distance(proportions_of(pinion, wheel), centre_distance);
    }

    constexpr const gear<T>& pinion() const { return pinion_; }
    constexpr const gear<T>& wheel() const { return wheel_; }

    /// What the two gears have in common.
    constexpr pair_proportions<T> proportions() const { return proportions_of(pinion_, wheel_); }

    /// Gear ratio, u = z_2 / z_1.
    constexpr T gear_ratio() const { return T(T(wheel_.teeth()) / T(pinion_.teeth())); }

    /// Centre distance, a.
    constexpr T centre_distance() const { return centre_distance_; }
    /// Reference centre distance, a_d = (d_1 + d_2)/2.
    constexpr T reference_centre_distance() const {
        return T((pinion_.reference_diameter() + wheel_.reference_diameter()) / T(2));
    }

    /// Working transverse pressure angle, alpha_wt: cos alpha_wt = (d_b1 + d_b2)/(2 a).
    constexpr angle<T> working_pressure_angle() const { return arctangent(tangent_); }
    /// Working pitch diameters, d_w = 2 a z / (z_1 + z_2).
    constexpr for_both<T> working_diameter() const {
        const T per_tooth = T(2) * centre_distance_ / (T(pinion_.teeth()) + T(wheel_.teeth()));
        return {.pinion = T(per_tooth * T(pinion_.teeth())), .wheel = T(per_tooth * T(wheel_.teeth()))};
    }

    /// Root form diameters, d_Ff, of the two gears as their tools leave them.
    constexpr for_both<T> root_form_diameter() const { return root_form_diameter_; }
    /// Active tip diameters, d_Na: the outermost points that touch the mate. The tip, unless the mate's involute ends before it.
    constexpr for_both<T> active_tip_diameter() const {
        const T length = path_between_base_circles();
        return {.pinion = active_tip(pinion_, length, form_roll(wheel_, root_form_diameter_.wheel)),
                .wheel = active_tip(wheel_, length, form_roll(pinion_, root_form_diameter_.pinion))};
    }
    /// Active root diameters, d_Nf: the innermost points that touch the mate. Where the mate's tip reaches, but never below the
    /// root form diameter.
    constexpr for_both<T> active_root_diameter() const {
        const T length = path_between_base_circles();
        return {.pinion = active_root(pinion_, length - tip_roll(wheel_), root_form_diameter_.pinion),
                .wheel = active_root(wheel_, length - tip_roll(pinion_), root_form_diameter_.wheel)};
    }

    /// Length of the path of contact, g_alpha: the part of the line of action on which flanks touch. It ends where a tip ends, or
    /// already where the mate's involute does (undercut). Zero when the teeth do not reach each other.
    constexpr T length_of_path_of_contact() const {
        const T length = path_between_base_circles();
        const T begin = larger(T(length - tip_roll(wheel_)), form_roll(pinion_, root_form_diameter_.pinion));
        const T end = smaller(tip_roll(pinion_), T(length - form_roll(wheel_, root_form_diameter_.wheel)));
        return larger(T(end - begin), T(0));
    }
    /// Transverse contact ratio, epsilon_alpha = g_alpha / p_et.
    constexpr T transverse_contact_ratio() const {
        return T(length_of_path_of_contact() / pinion_.transverse_base_pitch());
    }
    /// Overlap ratio, epsilon_beta = b sin |beta| / (pi m_n), with the smaller of the two face widths. 0 for spur gears.
    /// Throws geometry_error for helical gears of which a face width is not stated.
    constexpr T overlap_contact_ratio() const {
        const T sine = sin(angle<T>(rad(magnitude(pinion_.helix_angle().rad()))));
        if (sine == T(0)) return T(0);
        const T width = smaller(pinion_.parameters().face_width, wheel_.parameters().face_width);
        require(check_greater("face_width", width, T(0)));
        return T(width * sine / pinion_.normal_pitch());
    }
    /// Total contact ratio, epsilon_gamma = epsilon_alpha + epsilon_beta. Throws as overlap_contact_ratio does.
    constexpr T total_contact_ratio() const { return T(transverse_contact_ratio() + overlap_contact_ratio()); }

    /// Bottom clearance, c: between the gear's tip and the mate's root as generated, on the line of centres.
    constexpr for_both<T> bottom_clearance() const {
        return {.pinion = T(centre_distance_ - (pinion_.effective_tip_diameter() + wheel_.generated_root_diameter()) / T(2)),
                .wheel = T(centre_distance_ - (wheel_.effective_tip_diameter() + pinion_.generated_root_diameter()) / T(2))};
    }

    /// Circumferential backlash on the working pitch circles, j_wt = p_wt - s_wt1 - s_wt2. Negative when the teeth would have to
    /// overlap. With d_w1/z_1 = d_w2/z_2 this is 2 a (inv alpha_wt - inv alpha_t - 2 (x_E1 + x_E2) tan alpha_n / (z_1 + z_2)).
    constexpr T circumferential_backlash() const {
        const T teeth = T(pinion_.teeth()) + T(wheel_.teeth());
        // The nominal shifts' part of the bracket is `opening_`, exactly zero at their own centre distance.
        const T allowances = pinion_.parameters().thickness_allowance + wheel_.parameters().thickness_allowance;
        return T(T(2) * centre_distance_ * (opening_ - allowances / (pinion_.normal_module() * teeth)));
    }
    /// Normal backlash, j_bn = j_wt cos alpha_wt cos beta_b: the shortest distance between the flanks that do not touch.
    constexpr T normal_backlash() const {
        return T(circumferential_backlash() * cos(working_pressure_angle()) * cos(pinion_.base_helix_angle()));
    }
    /// Radial backlash, j_r: how far the gears can be moved together until both flanks touch, exactly: the centre distance less the
    /// double-flank one. Throws as double_flank_centre_distance does.
    constexpr T radial_backlash() const { return T(centre_distance_ - double_flank_centre_distance()); }
    /// The customary first-order formula for the radial backlash, j_wt / (2 tan alpha_wt). A little below the exact value
    /// for positive backlash.
    constexpr T approximate_radial_backlash() const { return T(circumferential_backlash() / (T(2) * tangent_)); }
    /// Angular backlash, phi_j = 2 j_wt / d_w: how far one gear can be turned while the other stands.
    constexpr for_both<angle<T>> angular_backlash() const {
        const T twice = T(2) * circumferential_backlash();
        const for_both<T> working = working_diameter();
        return {.pinion = rad(T(twice / working.pinion)), .wheel = rad(T(twice / working.wheel))};
    }
    /// Centre distance at which the teeth, with their allowances, touch on both flanks. Throws geometry_error when they are so thin that
    /// they never would.
    constexpr T double_flank_centre_distance() const {
        return rackwork::centre_distance(
            proportions(), T(pinion_.generating_profile_shift() + wheel_.generating_profile_shift()));
    }

    /// Distance between the points where the line of action touches the two base circles, a sin alpha_wt.
    constexpr T path_between_base_circles() const {
        return T((pinion_.base_diameter() + wheel_.base_diameter()) / T(2) * tangent_);
    }
    /// Where on the line of action the mate's tip begins or ends its work: its distance from the point where that line touches this
    /// gear's base circle. Negative when the mate's tip reaches beyond that point.
    constexpr for_both<T> reach_of_mating_tip() const {
        const T length = path_between_base_circles();
        return {.pinion = T(length - tip_roll(wheel_)), .wheel = T(length - tip_roll(pinion_))};
    }

private:
    struct they_fit {};

    static constexpr they_fit fitting(const gear<T>& pinion, const gear<T>& wheel) {
        require(check_fit(pinion, wheel));
        return {};
    }

    constexpr mesh(const gear<T>& pinion, const gear<T>& wheel, they_fit)
        : pinion_(pinion), wheel_(wheel),
          root_form_diameter_{.pinion = rackwork::root_form_diameter(pinion), .wheel = rackwork::root_form_diameter(wheel)} {}

    /// What about two gears does not fit, wherever they stand, or nothing.
    static constexpr violation check_fit(const gear<T>& pinion, const gear<T>& wheel) {
        const auto equal = [](const char* quantity, const T& of_wheel, const T& expected) {
            if (of_wheel == expected) return violation{};
            return violation{quantity, static_cast<double>(of_wheel), "must, to fit the pinion, be",
                             static_cast<double>(expected)};
        };
        return first_of(equal("normal_module of the wheel", wheel.normal_module(), pinion.normal_module()),
                        equal("pressure_angle of the wheel (deg)", wheel.normal_pressure_angle().deg(),
                              pinion.normal_pressure_angle().deg()),
                        equal("helix_angle of the wheel (deg)", wheel.helix_angle().deg(), T(T(0) - pinion.helix_angle().deg())),
                        generated_root<T>::check(pinion), generated_root<T>::check(wheel));
    }

    static constexpr pair_proportions<T> proportions_of(const gear<T>& pinion, const gear<T>& wheel) {
        return {.normal_module = pinion.normal_module(),
                .pinion_teeth = pinion.teeth(),
                .wheel_teeth = wheel.teeth(),
                .helix_angle = pinion.helix_angle(),
                .normal_pressure_angle = pinion.normal_pressure_angle()};
    }

    /// Roll length at the tip: radius of curvature of the involute there.
    static constexpr T tip_roll(const gear<T>& g) {
        return T(g.base_diameter() / T(2) * g.tangent_of_pressure_angle(g.effective_tip_diameter()));
    }
    static constexpr T form_roll(const gear<T>& g, const T& form_diameter) {
        return T(g.base_diameter() / T(2) * g.tangent_of_pressure_angle(form_diameter));
    }
    static constexpr T active_tip(const gear<T>& g, const T& length, const T& form_roll_of_mate) {
        const T roll = length - form_roll_of_mate;
        if (tip_roll(g) <= roll) return g.effective_tip_diameter();
        return T(T(2) * elementary::sqrt(T(square(T(g.base_diameter() / T(2))) + square(roll))));
    }
    static constexpr T active_root(const gear<T>& g, const T& roll, const T& form_diameter) {
        if (roll <= form_roll(g, form_diameter)) return form_diameter;
        return T(T(2) * elementary::sqrt(T(square(T(g.base_diameter() / T(2))) + square(roll))));
    }

    gear<T> pinion_;
    gear<T> wheel_;
    T centre_distance_{0};
    T tangent_{0}; // of the working pressure angle
    T opening_{0}; // inv alpha_wt - inv alpha_t - 2 (x_1 + x_2) tan alpha_n / (z_1 + z_2)
    for_both<T> root_form_diameter_;
};

} // namespace rackwork

#endif
