// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Two gears at a centre distance: working sizes, contact ratios, clearances, backlash.
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

/// Largest errors of a pair's sizes for float, double and long double, in units in the last place (ulp).
///
/// Of working sizes and centre distances, and of lengths on the line of action in ulp of the distance between the base circles' points on it.
/// Of the working pressure angle divided by its squared sine where the centre distance is given (as cos alpha_wt hangs on its last places),
/// and otherwise by the share of inv alpha_wt in the sum that it is computed from.
inline constexpr int working_size_error_bound = 8;
/// Of backlash, in ulp of a tenth of the larger working pitch diameter, since it is a small difference; of the radial backlash of the first order
/// divided by 2 tan alpha_wt, as that is, and in ulp of itself over sin^2 alpha_wt besides, as tan alpha_wt hangs on the last places of cos
/// alpha_wt.
inline constexpr int backlash_error_bound = 64;

/// Two gears that run together, and where they stand: an external pinion and an external or internal wheel. Immutable; usable in constant
/// expressions.
///
/// Formulas: ISO 21771:2007; sigma is 1 for an external, -1 for an internal wheel, whose tooth number counts as negative in them.
/// Accuracy: the error bounds above; diameters at which contact begins and ends also as root_form_error_bound says.
template <scalar T = double>
class mesh {
public:
    /// At the centre distance at which the teeth, as their profile shifts alone make them, run without backlash. Thickness allowances
    /// then are the backlash. The roots are those of the customary tools. Throws geometry_error when the gears cannot run together.
    constexpr mesh(const gear<T>& pinion, const gear<T>& wheel) : mesh(pinion, wheel, fitting(pinion, wheel)) { close_up(); }
    /// The same with the roots that stated tools make.
    constexpr mesh(const gear<T>& pinion, const gear<T>& wheel, const for_both<cutter<T>>& tools)
        : mesh(pinion, wheel, tools, fitting(pinion, wheel)) {
        close_up();
    }

    /// At a given centre distance, a. Throws geometry_error when the gears cannot run together or the centre distance is not
    /// greater than the sum (internal pairs: the difference) of their base radii.
    constexpr mesh(const gear<T>& pinion, const gear<T>& wheel, const T& centre_distance)
        : mesh(pinion, wheel, fitting(pinion, wheel)) {
        open_to(centre_distance);
    }
    /// The same with the roots that stated tools make.
    constexpr mesh(const gear<T>& pinion, const gear<T>& wheel, const T& centre_distance, const for_both<cutter<T>>& tools)
        : mesh(pinion, wheel, tools, fitting(pinion, wheel)) {
        open_to(centre_distance);
    }

    /// What keeps two gears from running together without backlash, or nothing: the question for callers who cannot have exceptions.
    static constexpr violation check(const gear<T>& pinion, const gear<T>& wheel) {
        if (const violation v = check_fit(pinion, wheel)) return v;
        return check_shift_sum(proportions_of(pinion, wheel), T(pinion.profile_shift() + wheel.profile_shift()));
    }
    /// What keeps two gears from running at a centre distance, or nothing.
    static constexpr violation check(const gear<T>& pinion, const gear<T>& wheel, const T& centre_distance) {
        if (const violation v = check_fit(pinion, wheel)) return v;
        return check_distance(centre_distance, least_distance(pinion, wheel));
    }

    constexpr const gear<T>& pinion() const { return pinion_; }
    constexpr const gear<T>& wheel() const { return wheel_; }
    /// The two gears' roots, with the tools that made them.
    constexpr const generated_root<T>& pinion_root() const { return pinion_root_; }
    constexpr const generated_root<T>& wheel_root() const { return wheel_root_; }
    /// True for a pinion in an internal wheel.
    constexpr bool is_internal() const { return wheel_.is_internal(); }

    /// What the two gears have in common.
    constexpr pair_proportions<T> proportions() const { return proportions_of(pinion_, wheel_); }

    /// Gear ratio, u = z_2 / z_1; positive also for internal pairs, whose gears turn the same way.
    constexpr T gear_ratio() const { return T(T(wheel_.teeth()) / T(pinion_.teeth())); }

    /// Centre distance, a.
    constexpr T centre_distance() const { return centre_distance_; }
    /// Reference centre distance, a_d = |d_1 + sigma d_2|/2.
    constexpr T reference_centre_distance() const {
        return T(pinion_.normal_module() * magnitude(sum_of_teeth()) / (T(2) * pinion_.cosine_of_helix_angle()));
    }

    /// Working transverse pressure angle, alpha_wt: cos alpha_wt = |d_b1 + sigma d_b2|/(2 a).
    constexpr angle<T> working_pressure_angle() const { return arctangent(tangent_); }
    /// Its tangent.
    constexpr const T& tangent_of_working_pressure_angle() const { return tangent_; }
    /// Working pitch diameters, d_w = 2 a z / |z_1 + z_2|.
    constexpr for_both<T> working_diameter() const {
        const T per_tooth = T(2) * centre_distance_ / magnitude(sum_of_teeth());
        return {.pinion = T(per_tooth * T(pinion_.teeth())), .wheel = T(per_tooth * T(wheel_.teeth()))};
    }

    /// Root form diameters, d_Ff, of the two gears as their tools leave them.
    constexpr for_both<T> root_form_diameter() const {
        return {.pinion = pinion_root_.root_form_diameter(), .wheel = wheel_root_.root_form_diameter()};
    }
    /// Active tip diameters, d_Na: the points nearest to the tip that touch the mate. The end of the involute, unless the
    /// mate's involute ends before it. Without a meaning where the flanks do not reach each other at all.
    constexpr for_both<T> active_tip_diameter() const {
        const T of_pinion = pinion_roll_at(form_roll(wheel_, wheel_root_));
        const T of_wheel = wheel_roll_at(form_roll(pinion_, pinion_root_));
        const bool whole = is_internal() ? tip_roll(wheel_) >= of_wheel : tip_roll(wheel_) <= of_wheel;
        return {.pinion = tip_roll(pinion_) <= of_pinion ? pinion_.tip_form_diameter() : diameter_at(pinion_, of_pinion),
                .wheel = whole ? wheel_.tip_form_diameter() : diameter_at(wheel_, of_wheel)};
    }
    /// Active root diameters, d_Nf: the points nearest to the root that touch the mate. Where the mate's tip reaches, but never beyond the
    /// root form diameter.
    constexpr for_both<T> active_root_diameter() const {
        const for_both<T> reach = reach_of_mating_tip();
        const T wheel_form = form_roll(wheel_, wheel_root_);
        const bool beyond = is_internal() ? reach.wheel >= wheel_form : reach.wheel <= wheel_form;
        return {.pinion = reach.pinion <= form_roll(pinion_, pinion_root_) ? pinion_root_.root_form_diameter()
                                                                           : diameter_at(pinion_, reach.pinion),
                .wheel = beyond ? wheel_root_.root_form_diameter() : diameter_at(wheel_, reach.wheel)};
    }

    /// Radius of curvature of the pinion's flank where contact begins (A) and ends (E) when the pinion drives: its distance from the point
    /// where the line of action touches the pinion's base circle. Contact begins and ends where a tip's involute ends, or already where
    /// the mate's does (undercut). When the teeth do not reach each other the end is no greater than the beginning.
    constexpr T pinion_roll_at_start_of_contact() const {
        return larger(pinion_roll_at(tip_roll(wheel_)), form_roll(pinion_, pinion_root_));
    }
    constexpr T pinion_roll_at_end_of_contact() const {
        return smaller(tip_roll(pinion_), pinion_roll_at(form_roll(wheel_, wheel_root_)));
    }
    /// Length of the path of contact, g_alpha: the part of the line of action on which flanks touch. Zero when the teeth do not reach each
    /// other.
    constexpr T length_of_path_of_contact() const {
        return larger(T(pinion_roll_at_end_of_contact() - pinion_roll_at_start_of_contact()), T(0));
    }
    /// Transverse contact ratio, epsilon_alpha = g_alpha / p_et.
    constexpr T transverse_contact_ratio() const {
        return T(length_of_path_of_contact() / pinion_.transverse_base_pitch());
    }
    /// Overlap ratio, epsilon_beta = b sin |beta| / (pi m_n), with the smaller of the two face widths. 0 for spur gears.
    /// Throws geometry_error for helical gears of which a face width is not stated.
    constexpr T overlap_contact_ratio() const {
        const T sine = magnitude(T(pinion_.tangent_of_helix_angle() * pinion_.cosine_of_helix_angle()));
        if (sine == T(0)) return T(0);
        const T width = smaller(pinion_.parameters().face_width, wheel_.parameters().face_width);
        require(check_greater("face_width", width, T(0)));
        return T(width * sine / pinion_.normal_pitch());
    }
    /// Total contact ratio, epsilon_gamma = epsilon_alpha + epsilon_beta. Throws as overlap_contact_ratio does.
    constexpr T total_contact_ratio() const { return T(transverse_contact_ratio() + overlap_contact_ratio()); }

    /// Bottom clearance, c: between the gear's tip and the mate's root as generated, on the line of centres.
    constexpr for_both<T> bottom_clearance() const {
        const T distance = sign() * centre_distance_;
        return {.pinion = T(distance - (pinion_.effective_tip_diameter() + sign() * wheel_root_.root_diameter()) / T(2)),
                .wheel = T(distance - (sign() * wheel_.effective_tip_diameter() + pinion_root_.root_diameter()) / T(2))};
    }

    /// Circumferential backlash on the working pitch circles, j_wt = p_wt - s_wt1 - s_wt2. Negative when the teeth would have to
    /// overlap. With d_w1/z_1 = d_w2/z_2 this is 2 a sigma (inv alpha_wt - inv alpha_t - 2 (x_E1 + x_E2) tan alpha_n / (z_1 + z_2)).
    constexpr T circumferential_backlash() const {
        // The nominal shifts' part of the bracket is `opening_`, exactly zero at their own centre distance.
        const T allowances = pinion_.parameters().thickness_allowance + wheel_.parameters().thickness_allowance;
        return T(T(2) * sign() * centre_distance_ * (opening_ - allowances / (pinion_.normal_module() * sum_of_teeth())));
    }
    /// Normal backlash, j_bn = j_wt cos alpha_wt cos beta_b: the shortest distance between the flanks that do not touch.
    constexpr T normal_backlash() const {
        const T squared_secants = (T(1) + square(tangent_)) * (T(1) + square(pinion_.tangent_of_base_helix_angle()));
        return T(circumferential_backlash() / elementary::sqrt(squared_secants));
    }
    /// Radial backlash, j_r: how far the gears can be moved (external pairs together, internal ones apart) until both flanks touch,
    /// exactly: the difference of centre distance and double-flank centre distance. Throws as double_flank_centre_distance does.
    constexpr T radial_backlash() const { return T(sign() * (centre_distance_ - double_flank_centre_distance())); }
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
        const T involute = involute_for(T(pinion_.generating_profile_shift() + wheel_.generating_profile_shift()));
        return distance_at(involute, inverse_inv(involute).rad());
    }

    /// Distance between the points where the line of action touches the two base circles, a sin alpha_wt.
    constexpr T path_between_base_circles() const {
        return T(least_distance(pinion_, wheel_) * tangent_);
    }
    /// Where on the line of action the mate's tip begins or ends its work: its distance from the point where that line touches this
    /// gear's base circle. Negative when the mate's tip reaches beyond that point.
    constexpr for_both<T> reach_of_mating_tip() const {
        return {.pinion = pinion_roll_at(tip_roll(wheel_)), .wheel = wheel_roll_at(tip_roll(pinion_))};
    }

private:
    struct they_fit {};

    static constexpr they_fit fitting(const gear<T>& pinion, const gear<T>& wheel) {
        require(check_equal(pinion, wheel));
        return {};
    }

    constexpr mesh(const gear<T>& pinion, const gear<T>& wheel, they_fit)
        : pinion_(pinion), wheel_(wheel), pinion_root_(pinion), wheel_root_(wheel) {}
    constexpr mesh(const gear<T>& pinion, const gear<T>& wheel, const for_both<cutter<T>>& tools, they_fit)
        : pinion_(pinion), wheel_(wheel), pinion_root_(pinion, tools.pinion), wheel_root_(wheel, tools.wheel) {}

    constexpr void close_up() {
        const T involute = involute_for(T(pinion_.profile_shift() + wheel_.profile_shift()));
        const T working = inverse_inv(involute).rad();
        centre_distance_ = distance_at(involute, working);
        // Beyond 1 rad the sum keeps the places that the angle loses.
        tangent_ = T(involute + working);
    }

    constexpr void open_to(const T& centre_distance) {
        const T base = least_distance(pinion_, wheel_);
        require(check_distance(centre_distance, base));
        centre_distance_ = centre_distance;
        tangent_ = elementary::sqrt(T((centre_distance - base) * (centre_distance + base))) / base;
        const T shifts = pinion_.profile_shift() + wheel_.profile_shift();
        opening_ = inv_from_tangent(tangent_) - pinion_.involute_of_transverse_pressure_angle() -
                   T(2) * pinion_.tangent_of_normal_pressure_angle() * shifts / sum_of_teeth();
    }

    /// Centre distance at which the base circles would touch.
    static constexpr T least_distance(const gear<T>& pinion, const gear<T>& wheel) {
        if (!wheel.is_internal()) return T((pinion.base_diameter() + wheel.base_diameter()) / T(2));
        // The difference of two large diameters would have lost places.
        return T(pinion.base_diameter() / T(pinion.teeth()) * (T(wheel.teeth()) - T(pinion.teeth())) / T(2));
    }
    static constexpr violation check_distance(const T& centre_distance, const T& least) {
        const T greatest = T(elementary::sqrt(T((std::numeric_limits<T>::max)())) / T(16)); // its square must not overflow
        return first_of(check_greater("centre_distance", centre_distance, least),
                        check_at_most("centre_distance", centre_distance, greatest));
    }

    /// inv of the working pressure angle at which teeth with a sum of profile shift coefficients mesh without backlash.
    constexpr T involute_for(const T& shifts) const {
        const T involute = pinion_.involute_of_transverse_pressure_angle() +
                           T(2) * pinion_.tangent_of_normal_pressure_angle() * shifts / sum_of_teeth();
        if (!(involute > T(0))) require(check_shift_sum(proportions(), shifts));
        require(check_greater("inv of the working pressure angle", involute, T(0)));
        return involute;
    }
    /// Centre distance at a working pressure angle, a = a_d cos alpha_t / cos alpha_wt.
    constexpr T distance_at(const T& involute, const T& working) const {
        const T reference = reference_centre_distance();
        const T cosine = pinion_.cosine_of_transverse_pressure_angle();
        if (working <= T(1)) return T(reference * (cosine / elementary::cos(working)));
        return T(reference * (cosine * elementary::sqrt(T(T(1) + square(T(involute + working))))));
    }

    /// What about two gears does not fit, wherever they stand, or nothing.
    static constexpr violation check_fit(const gear<T>& pinion, const gear<T>& wheel) {
        return first_of(check_equal(pinion, wheel), generated_root<T>::check(pinion), generated_root<T>::check(wheel));
    }
    static constexpr violation check_equal(const gear<T>& pinion, const gear<T>& wheel) {
        const auto equal = [](const char* quantity, const T& of_wheel, const T& expected) {
            if (of_wheel == expected) return violation{};
            return violation{quantity, static_cast<double>(of_wheel), "must, to fit the pinion, be",
                             static_cast<double>(expected)};
        };
        if (pinion.is_internal()) return {"kind of the pinion", 1, "must be external", 0, false};
        // The hands of external gears are opposite, those of an internal pair are the same.
        const T expected = wheel.is_internal() ? pinion.helix_angle().deg() : T(T(0) - pinion.helix_angle().deg());
        if (const violation v =
                first_of(equal("normal_module of the wheel", wheel.normal_module(), pinion.normal_module()),
                         equal("pressure_angle of the wheel (deg)", wheel.normal_pressure_angle().deg(),
                               pinion.normal_pressure_angle().deg()),
                         equal("helix_angle of the wheel (deg)", wheel.helix_angle().deg(), expected))) {
            return v;
        }
        if (!wheel.is_internal()) return {};
        return check_greater("teeth of the internal wheel", T(wheel.teeth()), T(pinion.teeth()));
    }

    static constexpr pair_proportions<T> proportions_of(const gear<T>& pinion, const gear<T>& wheel) {
        return {.normal_module = pinion.normal_module(),
                .pinion_teeth = pinion.teeth(),
                .wheel_teeth = wheel.teeth(),
                .helix_angle = pinion.helix_angle(),
                .normal_pressure_angle = pinion.normal_pressure_angle(),
                .wheel_kind = wheel.kind()};
    }

    constexpr const T& sign() const { return wheel_.kind_sign(); }
    /// z_1 + z_2, less than 0 for an internal wheel.
    constexpr T sum_of_teeth() const { return T(T(pinion_.teeth()) + sign() * T(wheel_.teeth())); }

    // Roll lengths are radii of curvature of the involute. Those of touching flanks: rho_1 + sigma rho_2 = sigma a sin alpha_wt.
    constexpr T pinion_roll_at(const T& wheel_roll) const { return T(sign() * (path_between_base_circles() - wheel_roll)); }
    constexpr T wheel_roll_at(const T& pinion_roll) const { return T(path_between_base_circles() - sign() * pinion_roll); }
    static constexpr T tip_roll(const gear<T>& g) { return T(g.base_diameter() / T(2) * g.tip_form_roll()); }
    static constexpr T form_roll(const gear<T>& g, const generated_root<T>& root) {
        return T(g.base_diameter() / T(2) * root.root_form_roll());
    }
    static constexpr T diameter_at(const gear<T>& g, const T& roll) {
        return T(T(2) * elementary::sqrt(T(square(T(g.base_diameter() / T(2))) + square(roll))));
    }

    gear<T> pinion_;
    gear<T> wheel_;
    generated_root<T> pinion_root_;
    generated_root<T> wheel_root_;
    T centre_distance_{0};
    T tangent_{0}; // of the working pressure angle
    T opening_{0}; // inv alpha_wt - inv alpha_t - 2 (x_1 + x_2) tan alpha_n / (z_1 + z_2)
};

} // namespace rackwork

#endif
