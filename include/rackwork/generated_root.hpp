// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a rack-type tool leaves at the root: where the involute begins, whether it is undercut, and the limits of undercutting.
#ifndef RACKWORK_GENERATED_ROOT_HPP
#define RACKWORK_GENERATED_ROOT_HPP

#include "basic_rack.hpp"
#include "core/elementary.hpp"
#include "core/error.hpp"
#include "core/root_finding.hpp"
#include "core/scalar.hpp"
#include "gear.hpp"
#include "rack_trochoid.hpp"

namespace rackwork {

/// The root of a gear as the rack-type tool with the basic rack's rounded tip generates it.
///
/// Immutable. Throws geometry_error when built for a gear of which the tool leaves no flank, or whose tooth it cuts off.
/// Accuracy for double: diameters 16 ulp without undercut; with undercut divided by the sine of the angle at which fillet and
/// involute cross.
template <scalar T = double>
class generated_root {
public:
    constexpr explicit generated_root(const gear<T>& g) : generated_root(g, not_yet_checked{}) { require(violation_); }

    /// What is impossible about the root of a gear, or nothing: the question for callers who cannot have exceptions.
    static constexpr violation check(const gear<T>& g) { return generated_root(g, not_yet_checked{}).violation_; }

    /// Root form diameter, d_Ff: where the usable involute begins. At a smooth joint with the fillet, or, when the tooth is
    /// undercut, at the corner where the fillet cuts the involute.
    constexpr T root_form_diameter() const { return T(T(2) * form_radius_); }

    /// Tangent of the transverse pressure angle at the root form diameter: the roll angle there in radians. Not formed from the
    /// diameter, which holds only half its places close to the base circle.
    constexpr const T& root_form_roll() const { return form_roll_; }

    /// True when the tool has cut away the involute's beginning.
    constexpr bool is_undercut() const { return undercut_; }

    /// The fillet: for parameters from 0 at the root land to end_parameter() at the involute.
    constexpr const rack_trochoid<T>& fillet() const { return fillet_; }

    /// Parameter of the fillet at its outer end, radians.
    constexpr T end_parameter() const { return end_parameter_; }

    /// The tool's rounded tip at the depth to which it goes into the gear.
    static constexpr rack_trochoid<T> tool_tip(const gear<T>& g) {
        const basic_rack<T>& rack = g.parameters().rack;
        const T m = g.normal_module();
        // A full radius leaves no land; rounding must not make it negative.
        const T offset = larger(T(m * rack.half_root_land()), T(0));
        return {.rolling_radius = T(g.reference_diameter() / T(2)),
                .tip_rounding = T(m * rack.root_fillet_radius),
                .centre_depth = T(m * (rack.dedendum - g.generating_profile_shift() - rack.root_fillet_radius)),
                .centre_offset = offset,
                .cos_helix = cos(g.helix_angle())};
    }

private:
    struct not_yet_checked {};

    constexpr generated_root(const gear<T>& g, not_yet_checked) : fillet_(tool_tip(g)) {
        const T base_radius = g.base_diameter() / T(2);
        const T tangent = tan(g.transverse_pressure_angle());
        const T sine = sin(g.transverse_pressure_angle());
        // The tool's straight flank ends at depth h_F. Seen from the point T where the line of action touches the base circle, it
        // cuts its last at the distance r sin alpha_t - h_F / sin alpha_t; beyond T it cuts away what it has made before.
        const T end_depth = g.normal_module() * (g.parameters().rack.form_dedendum() - g.generating_profile_shift());
        const T from_base_point = base_radius * tangent - end_depth / sine;
        undercut_ = from_base_point < T(0);
        const T last_phi = T(pi<T>() / T(2) - g.normal_pressure_angle().rad());
        if (undercut_) {
            find_crossing(g, base_radius, last_phi);
        } else {
            end_parameter_ = last_phi;
            form_roll_ = T(from_base_point / base_radius);
            form_radius_ = elementary::sqrt(T(square(base_radius) + square(from_base_point)));
        }
        if (!violation_) violation_ = check_greater("tip_diameter", g.effective_tip_diameter(), root_form_diameter());
        if (!violation_) violation_ = check_at_least("least progress of the root fillet (below 0 it crosses itself)", least_progress(), T(0));
    }

    /// The undercut fillet, followed outward, first widens the space up to the tooth's narrowest place, which lies inside the base
    /// circle, and then comes back and crosses the involute. From there on its polar angle falls while the involute's rises, so
    /// their difference has exactly one root.
    constexpr void find_crossing(const gear<T>& g, const T& base_radius, const T& last_phi) {
        const T r = fillet_.rolling_radius;
        // At the narrowest place the tangent is radial: the cutting point lies on the circle over axis and pitch point.
        const auto beyond_narrowest = [&](const T& phi) {
            const typename rack_trochoid<T>::state at = fillet_.at(phi);
            return T(square(at.lateral) - at.depth * (r - at.depth));
        };
        const T narrowest = bracketed_root(beyond_narrowest, T(0), last_phi);
        const T half_pitch = pi<T>() / T(g.teeth());
        violation_ = check_greater("half the tooth's angle at the narrowest place of the undercut (rad)",
                                   T(half_pitch - fillet_.polar_angle(fillet_.at(narrowest))), T(0));
        if (violation_) return;
        const T base_angle = half_pitch - g.base_half_angle(); // half the space at the base circle
        const auto beyond_involute = [&](const T& phi) {
            const typename rack_trochoid<T>::state at = fillet_.at(phi);
            const T excess = fillet_.squared_radius(at) - square(base_radius);
            const T involute = excess > T(0) ? inv_from_tangent(T(elementary::sqrt(excess) / base_radius)) : T(0);
            return T(fillet_.polar_angle(at) - base_angle - involute);
        };
        const T found = bracketed_root(beyond_involute, narrowest, last_phi);
        // One Newton step: it costs nothing in places and carries derivatives through the search. With R^2 = v,
        // d(polar)/d(phi) = cross / v and d(inv)/d(phi) = tan(alpha) (dv/d(phi)) / (2 v).
        const typename rack_trochoid<T>::state at = fillet_.at(found);
        const T squared = fillet_.squared_radius(at);
        const T excess = squared - square(base_radius);
        end_parameter_ = found;
        if (excess > T(0)) {
            const point<T> radius{T(r - at.depth), at.lateral};
            const point<T> velocity = at.speed * point<T>{at.cos_pressure, at.sin_pressure};
            const T slope = (cross(radius, velocity) - elementary::sqrt(excess) / base_radius * dot(radius, velocity)) / squared;
            end_parameter_ = T(found - beyond_involute(found) / slope);
        }
        form_radius_ = elementary::sqrt(larger(fillet_.squared_radius(fillet_.at(end_parameter_)), square(base_radius)));
        form_roll_ = T(elementary::sqrt(T((form_radius_ - base_radius) * (form_radius_ + base_radius))) / base_radius);
    }

    /// Least value, over the fillet, of a quantity that has the sign of its speed; 0 where it cannot be negative. A rounding whose centre
    /// lies beyond the rolling line while its tip lies inside (h_c < 0 < h) can, on a gear of few teeth and at a small pressure angle,
    /// turn back and cut away the fillet that it has just made; then the fillet would cross itself.
    /// With c = cos phi, k = cos beta:  speed c^3 r/e = rho c^3 (r - h_c (1 - k^2)) - rho^2 (1 - k^2) c^4 + k^2 h_c^2 + rho k^2 h_c c.
    /// It is positive at c = 1, and where its derivative first vanishes, from below, is its one minimum.
    constexpr T least_progress() const {
        const T hc = fillet_.centre_depth;
        const T rho = fillet_.tip_rounding;
        if (!(hc < T(0)) || !(hc + rho > T(0))) return T(0);
        const T k2 = square(fillet_.cos_helix);
        const T reach = fillet_.rolling_radius - hc * (T(1) - k2);
        const T bend = rho * (T(1) - k2);
        const auto progress = [&](const T& c) { return T(rho * c * square(c) * (reach - bend * c) + k2 * hc * (hc + rho * c)); };
        const auto slope = [&](const T& c) { return T(square(c) * (T(3) * reach - T(4) * bend * c) + k2 * hc); };
        const T least_c = elementary::cos(end_parameter_);
        const T steepest = T(2) * bend > reach ? T(reach / (T(2) * bend)) : T(1);
        if (!(slope(least_c) < T(0))) return smaller(progress(least_c), T(0));
        if (!(slope(steepest) > T(0))) return T(0);
        return smaller(progress(bracketed_root(slope, least_c, steepest)), T(0));
    }

    rack_trochoid<T> fillet_;
    T end_parameter_{0};
    T form_radius_{0};
    T form_roll_{0};
    bool undercut_ = false;
    violation violation_{};
};

/// Root form diameter of a gear, d_Ff. Throws geometry_error where the tool leaves no flank.
template <scalar T>
constexpr T root_form_diameter(const gear<T>& g) {
    return generated_root<T>(g).root_form_diameter();
}

/// Least generating profile shift coefficient at which a rack-type tool does not undercut the teeth,
/// x_E,min = h_FfP* - z sin^2 alpha_t / (2 cos beta). Throws geometry_error for an impossible rack, tooth number or helix.
template <scalar T>
constexpr T least_profile_shift_without_undercut(const basic_rack<T>& rack, int teeth, const angle<T>& helix_angle = {}) {
    require(check_each(gear_parameters<T>{.normal_module = T(1), .teeth = teeth, .helix_angle = helix_angle, .rack = rack}));
    // sin^2 alpha_t = tan^2 alpha_n / (cos^2 beta + tan^2 alpha_n)
    const T squared_tangent = square(tan(rack.pressure_angle));
    const T cosine = cos(helix_angle);
    return T(rack.form_dedendum() - T(teeth) * (squared_tangent / ((square(cosine) + squared_tangent) * T(2) * cosine)));
}

/// Least number of teeth that a rack-type tool does not undercut, as the exact (broken) number of the formula
/// z_min = 2 cos beta (h_FfP* - x_E) / sin^2 alpha_t.
template <scalar T>
constexpr T least_teeth_without_undercut(const basic_rack<T>& rack, const T& profile_shift = T(0),
                                         const angle<T>& helix_angle = {}) {
    require(first_of(check_each(gear_parameters<T>{.normal_module = T(1), .teeth = 1, .helix_angle = helix_angle, .rack = rack}),
                     check_finite("profile_shift", profile_shift)));
    const T squared_tangent = square(tan(rack.pressure_angle));
    const T cosine = cos(helix_angle);
    const T teeth = (rack.form_dedendum() - profile_shift) * T(2) * cosine * (square(cosine) + squared_tangent) / squared_tangent;
    require(check_finite("least number of teeth", teeth));
    return teeth;
}

} // namespace rackwork

#endif
