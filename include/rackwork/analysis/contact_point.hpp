// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What happens where two flanks touch: curvature, rolling and sliding at a point of the line of action.
#ifndef RACKWORK_ANALYSIS_CONTACT_POINT_HPP
#define RACKWORK_ANALYSIS_CONTACT_POINT_HPP

#include "../centre_distance.hpp"
#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../mesh.hpp"
#include "../rack_mesh.hpp"

namespace rackwork {

/// The line of action of a pair in the transverse section: the common tangent of the base circles, on which all contact happens.
///
/// Places on it are told by their distance g from the pitch point C, positive towards the end of contact (recess) when the pinion
/// drives. Everything follows from the pinion's radius of curvature at C and the inverse of the gear ratio, 1/u = z_1/z_2:
///   rho_1 = rho_C1 + g,   rho_2/u = rho_C1 - g/u.
/// Written so, the formulas hold for any mate: 1/u is negative for an internal gear, whose flanks are concave, and 0 for a rack.
template <scalar T>
struct line_of_action {
    /// Base radius of the pinion, d_b1/2.
    T base_radius;
    /// Radius of curvature of the pinion's flank at the pitch point, rho_C1 = (d_b1/2) tan alpha_wt: its distance from the point
    /// where the line of action touches the pinion's base circle.
    T pitch_point_radius;
    /// 1/u = z_1/z_2, less than 0 for an internal wheel, 0 for a rack.
    T inverse_ratio;
    /// cos beta_b.
    T cos_base_helix;

    /// The line of action of a pair.
    static constexpr line_of_action of(const mesh<T>& pair) {
        const T base_radius = pair.pinion().base_diameter() / T(2);
        return {.base_radius = base_radius,
                .pitch_point_radius = T(base_radius * pair.tangent_of_working_pressure_angle()),
                .inverse_ratio = T(pair.wheel().kind_sign() * (T(pair.pinion().teeth()) / T(pair.wheel().teeth()))),
                .cos_base_helix = cos(pair.pinion().base_helix_angle())};
    }
    /// The line of action of a pinion on a rack.
    static constexpr line_of_action of(const rack_mesh<T>& pair) {
        const T base_radius = pair.pinion().base_diameter() / T(2);
        return {.base_radius = base_radius,
                .pitch_point_radius = T(base_radius * pair.pinion().tangent_of_transverse_pressure_angle()),
                .inverse_ratio = T(0),
                .cos_base_helix = cos(pair.pinion().base_helix_angle())};
    }
};

/// A point of the line of action, as the place where a pinion's and a wheel's flank touch. Immutable; usable in constant
/// expressions.
///
/// Lengths are in the module's unit and belong to the transverse section, where not said otherwise. Velocities are for a pinion
/// that turns by one radian in the unit of time: multiply them by its angular speed omega_1 (rad/s) for lengths per second.
/// Accuracy for double: lengths and velocities 8 ulp of the distance between the base circles' points of contact, ratios
/// accordingly (they grow without bound towards a base circle).
/// Sources: ISO 21771:2007 for the names; the formulas are those of two circles rolling about their centres of curvature.
template <scalar T>
class contact_point {
public:
    /// The point at a distance g from the pitch point. Throws geometry_error unless the distance is finite.
    constexpr contact_point(const line_of_action<T>& line, const T& distance_from_pitch_point)
        : line_(line), distance_(distance_from_pitch_point) {
        require(check_finite("distance_from_pitch_point", distance_from_pitch_point));
    }

    /// Distance from the pitch point C along the line of action, g; negative before it (approach, pinion driving).
    constexpr const T& distance_from_pitch_point() const { return distance_; }

    /// Radii of curvature of the two flanks in the transverse section, rho_1 and rho_2: the distances from the points where the
    /// line of action touches the base circles. Positive for convex flanks, negative for an internal wheel's concave ones.
    /// Throws geometry_error for a rack, whose flanks are straight.
    constexpr for_both<T> curvature_radius() const {
        require_wheel();
        return {.pinion = pinion_roll(), .wheel = T(wheel_roll_per_ratio() / line_.inverse_ratio)};
    }
    /// The same square to the contact line, rho_n = rho / cos beta_b.
    constexpr for_both<T> normal_curvature_radius() const {
        const for_both<T> radius = curvature_radius();
        return {.pinion = T(radius.pinion / line_.cos_base_helix), .wheel = T(radius.wheel / line_.cos_base_helix)};
    }
    /// Relative curvature of the flanks in the transverse section, 1/rho_1 + 1/rho_2 [1/length].
    /// Throws geometry_error on a base circle, where it is infinite.
    constexpr T relative_curvature() const {
        require_radii();
        return T(T(1) / pinion_roll() + line_.inverse_ratio / wheel_roll_per_ratio());
    }
    /// Relative curvature square to the contact line, (1/rho_1 + 1/rho_2) cos beta_b [1/length]: what the flanks' flattening
    /// under load depends on. Throws as relative_curvature does.
    constexpr T normal_relative_curvature() const { return T(relative_curvature() * line_.cos_base_helix); }

    /// The pinion's alone; a rack has one as well.
    constexpr T pinion_curvature_radius() const { return pinion_roll(); }
    constexpr T pinion_diameter() const { return diameter_at(line_.base_radius, pinion_roll()); }
    /// Diameters on which the point lies, d_y = 2 sqrt((d_b/2)^2 + rho^2). Throws geometry_error for a rack, which has none.
    constexpr for_both<T> diameter() const {
        require_wheel();
        const T wheel_base_radius = line_.base_radius / line_.inverse_ratio;
        return {.pinion = diameter_at(line_.base_radius, pinion_roll()),
                .wheel = diameter_at(wheel_base_radius, T(wheel_roll_per_ratio() / line_.inverse_ratio))};
    }
    /// Roll angles from the involutes' beginnings, xi = rho / (d_b/2), which is the tangent of the pressure angle there.
    constexpr for_both<angle<T>> roll_angle() const {
        return {.pinion = rad(T(pinion_roll() / line_.base_radius)),
                .wheel = rad(T(wheel_roll_per_ratio() / line_.base_radius))};
    }

    /// Velocities with which the point of contact runs along the two flanks, v_1 = omega_1 rho_1 and v_2 = omega_2 rho_2, for
    /// omega_1 = 1 [length].
    constexpr for_both<T> rolling_velocity() const {
        return {.pinion = pinion_roll(), .wheel = wheel_roll_per_ratio()};
    }
    /// Sliding velocity, v_g = v_1 - v_2 = g (1 + 1/u), for omega_1 = 1 [length]. Zero at the pitch point, where it changes its
    /// sign; negative before it.
    constexpr T sliding_velocity() const { return T(distance_ * (T(1) + line_.inverse_ratio)); }
    /// Sliding factor, K_g = v_g / v_t: the sliding velocity over the velocity of the working pitch circles. Signed as v_g is.
    constexpr T sliding_factor() const {
        return T(sliding_velocity() * T(2) / diameter_at(line_.base_radius, line_.pitch_point_radius));
    }
    /// Specific sliding, zeta_1 = (v_1 - v_2)/v_1 and zeta_2 = (v_2 - v_1)/v_2: what a flank loses by sliding over what it rolls.
    /// Negative below the gear's own pitch circle. Throws geometry_error on a base circle, where one of them is infinite.
    constexpr for_both<T> specific_sliding() const {
        require_radii();
        return {.pinion = T(sliding_velocity() / pinion_roll()),
                .wheel = T(-sliding_velocity() / wheel_roll_per_ratio())};
    }
    /// Slide-roll ratio, 2 (v_1 - v_2)/(v_1 + v_2): the sliding over the mean rolling velocity.
    /// Throws geometry_error where the flanks do not roll (never between the base circles of an external pair).
    constexpr T slide_roll_ratio() const {
        const T sum = pinion_roll() + wheel_roll_per_ratio();
        require(check_greater("sum of the rolling velocities", sum, T(0)));
        return T(T(2) * sliding_velocity() / sum);
    }

private:
    constexpr T pinion_roll() const { return T(line_.pitch_point_radius + distance_); }
    /// rho_2/u, which is also v_2/omega_1.
    constexpr T wheel_roll_per_ratio() const { return T(line_.pitch_point_radius - distance_ * line_.inverse_ratio); }
    static constexpr T diameter_at(const T& base_radius, const T& roll) {
        return T(T(2) * elementary::sqrt(T(square(base_radius) + square(roll))));
    }
    constexpr void require_wheel() const {
        if (line_.inverse_ratio == T(0)) impossible_geometry({"inverse of the gear ratio", 0, "must not be zero, as a rack's is", 0, false});
    }
    constexpr void require_radii() const {
        require(first_of(check_greater("radius of curvature of the pinion's flank", pinion_roll(), T(0)),
                         check_greater("rolling velocity on the wheel's flank", wheel_roll_per_ratio(), T(0))));
    }

    line_of_action<T> line_;
    T distance_;
};

} // namespace rackwork

#endif
