// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a tool leaves at the root: where the involute begins, the fillet, whether it is undercut.
#ifndef RACKWORK_GENERATED_ROOT_HPP
#define RACKWORK_GENERATED_ROOT_HPP

#include "core/elementary.hpp"
#include "core/error.hpp"
#include "core/root_finding.hpp"
#include "core/scalar.hpp"
#include "cutter.hpp"
#include "gear.hpp"
#include "root_trochoid.hpp"
#include "undercut_fillet.hpp"

#include <variant>

namespace rackwork {

/// The involute that the edge of a tool's protuberance makes between fillet and flank, where it makes one: on gears of many teeth.
template <scalar T>
struct protuberance_involute {
    bool exists = false;
    /// Its base radius, greater than the flank's.
    T base_radius{0};
    /// Half the angle of the tooth at that base circle, radians.
    T base_half_angle{0};
    /// Roll angles at which it begins at the fillet and ends at the flank, radians.
    T from{0};
    T to{0};
    /// True if fillet and edge meet in a corner.
    bool undercut = false;
};

/// Largest error of the sizes of a root for float, double and long double, in units in the last place (ulp); divided by the sine of the angle
/// at which fillet and involute cross where a protuberance undercuts the tooth. By a pinion-type cutter the ulp is that of the reference
/// diameters of gear and cutter together.
inline constexpr int root_form_error_bound = 16;

/// The root of a gear as its tool generates it.
///
/// Immutable. Throws geometry_error when built for a gear of which the tool leaves no flank, or whose tooth it cuts off.
/// Accuracy: root_form_error_bound.
template <scalar T = double>
class generated_root {
public:
    /// By the customary tool: for an external gear the rack-type tool that is the counterpart of its basic rack, for an internal one
    /// customary_cutter.
    constexpr explicit generated_root(const gear<T>& g) : generated_root(g, not_yet_checked{}) { require(violation_); }
    /// By a tool. Rack-type tools cannot make internal gears.
    constexpr generated_root(const gear<T>& g, const cutter<T>& tool) : generated_root(g, tool, not_yet_checked{}) {
        require(violation_);
    }

    /// What is impossible about the root of a gear, or nothing: the question for callers who cannot have exceptions.
    static constexpr violation check(const gear<T>& g) { return generated_root(g, not_yet_checked{}).violation_; }
    static constexpr violation check(const gear<T>& g, const cutter<T>& tool) {
        return generated_root(g, tool, not_yet_checked{}).violation_;
    }

    /// The tool that makes it.
    constexpr const cutter<T>& tool() const { return tool_; }

    /// Root form diameter, d_Ff: where the usable involute begins. At a smooth joint with the fillet, or, when the tooth is
    /// undercut, at the corner where the fillet cuts the involute.
    constexpr T root_form_diameter() const { return T(T(2) * form_radius_); }

    /// Tangent of the transverse pressure angle at the root form diameter: the roll angle there in radians. Not formed from the
    /// diameter, which holds only half its places close to the base circle, except where a protuberance undercuts the tooth.
    /// Error, by a gear's own rack-type tool: root_form_error_bound ulp of tan alpha_t + m_n (h_fP* + |x_E|) / (r_b sin alpha_t), and of
    /// cot alpha_t besides where the tooth is undercut, however near the base circle.
    constexpr const T& root_form_roll() const { return form_roll_; }

    /// True when the tool has cut away the involute's beginning, with its tip or, as intended, with a protuberance.
    constexpr bool is_undercut() const { return undercut_; }

    /// Root diameter as generated, d_fE: where the tool's tip reaches at the generating profile shift.
    constexpr T root_diameter() const { return T(T(2) * root_radius_); }
    /// Half the angle of the root land, radians. 0 for a tool of full radius.
    constexpr const T& root_land_half_angle() const { return land_half_angle_; }

    /// The fillet: for parameters from 0 at the root land to end_parameter() at the involute.
    constexpr const root_trochoid<T>& fillet() const { return fillet_; }
    /// Parameter of the fillet at its outer end, radians.
    constexpr const T& end_parameter() const { return end_parameter_; }
    /// What the edge of a protuberance leaves between fillet and flank.
    constexpr const protuberance_involute<T>& edge() const { return edge_; }

    /// The tip of the rack-type tool that is the counterpart of a gear's basic rack, at the depth to which it goes into the gear.
    static constexpr rack_trochoid<T> tool_tip(const gear<T>& g) { return tool_tip(g, counterpart_of(g.parameters().rack)); }
    /// The tip of any rack-type tool.
    static constexpr rack_trochoid<T> tool_tip(const gear<T>& g, const rack_type_cutter<T>& tool) {
        const T m = g.normal_module();
        return {.rolling_radius = T(g.reference_diameter() / T(2)),
                .tip_rounding = T(m * tool.tip_radius),
                .centre_depth = T(m * (tool.addendum - g.generating_profile_shift() - tool.tip_radius)),
                // A full radius leaves no land; rounding must not make it negative.
                .centre_offset = larger(T(m * detail::half_tip_land(tool, g.tangent_of_normal_pressure_angle())), T(0)),
                .cos_helix = g.cosine_of_helix_angle()};
    }

private:
    struct not_yet_checked {};

    constexpr generated_root(const gear<T>& g, not_yet_checked)
        : tool_(counterpart_of(g.parameters().rack)), fillet_(tool_tip(g)) {
        if (!g.is_internal()) {
            cut_by_rack(g, counterpart_of(g.parameters().rack));
            return;
        }
        violation_ = check_customary_cutter(g);
        if (violation_) return;
        const pinion_type_cutter<T> tool = customary_cutter(g);
        tool_ = cutter<T>(tool); // the whole: compilers differ on whether a variant can change its alternative in a constant expression
        cut_by_pinion(g, tool);
    }

    constexpr generated_root(const gear<T>& g, const cutter<T>& tool, not_yet_checked)
        : tool_(tool), fillet_(tool_tip(g)) {
        if (!std::holds_alternative<rack_type_cutter<T>>(tool_)) {
            cut_by_pinion(g, std::get<pinion_type_cutter<T>>(tool_));
            return;
        }
        const rack_type_cutter<T>& rack = std::get<rack_type_cutter<T>>(tool_);
        const violation internal{"kind", 1, "must be external for a rack-type tool", 0, false};
        violation_ = first_of(g.is_internal() ? internal : violation{}, rackwork::check(rack, g.normal_pressure_angle()));
        if (!violation_) violation_ = check_chamfer(g, rack);
        if (!violation_) cut_by_rack(g, rack);
    }

    /// A semi-topping tool makes its own chamfer and no other.
    static constexpr violation check_chamfer(const gear<T>& g, const rack_type_cutter<T>& tool) {
        if (tool.chamfer_height == T(0)) return {};
        const gear_parameters<T> made = chamfered_by(tool, g.parameters());
        const T difference = magnitude(T(made.tip_chamfer - g.parameters().tip_chamfer));
        const bool same_angle = made.tip_chamfer == T(0) || made.tip_chamfer_angle.rad() == g.parameters().tip_chamfer_angle.rad();
        if (same_angle && difference <= T(64) * epsilon<T>() * g.tip_diameter()) return {};
        return {"tip_chamfer", static_cast<double>(g.parameters().tip_chamfer), "must, as the semi-topping tool makes it, be",
                static_cast<double>(made.tip_chamfer)};
    }

    /// An involute flank by what a fillet's crossing with it needs.
    struct flank {
        T base_radius;
        /// Half the angle of the space at the base circle, radians.
        T space_half_angle;

        static constexpr flank of(const gear<T>& g) {
            return {T(g.base_diameter() / T(2)), T(pi<T>() / T(g.teeth()) - g.base_half_angle())};
        }
        /// Roll angle at a distance from the axis, 0 inside the base circle.
        constexpr T roll(const T& radius) const {
            if (!(radius > base_radius)) return T(0);
            return T(elementary::sqrt(T((radius - base_radius) * (radius + base_radius))) / base_radius);
        }
        constexpr T space(const T& radius) const { return T(space_half_angle + inv_from_tangent(roll(radius))); }
    };

    constexpr void cut_by_rack(const gear<T>& g, const rack_type_cutter<T>& tool) {
        const rack_trochoid<T> tip = tool_tip(g, tool);
        fillet_ = tip;
        root_radius_ = (g.reference_diameter() - T(2) * g.normal_module() * (tool.addendum - g.generating_profile_shift())) / T(2);
        // What rounding leaves of the land of a full radius is none.
        const T least = T(64) * epsilon<T>() * (tip.centre_offset + tip.tip_rounding + magnitude(tip.centre_depth));
        land_half_angle_ = tip.centre_offset > least ? T(tip.centre_offset / (tip.cos_helix * tip.rolling_radius)) : T(0);
        violation_ = first_of(check_greater("root_diameter", root_radius_, T(0)),
                              check_at_least("half the tip land of the cutter",
                                             detail::half_tip_land(tool, g.tangent_of_normal_pressure_angle()),
                                             T(T(-16) * epsilon<T>())));
        if (violation_) return;
        const flank involute = flank::of(g);
        // A rounding that stands out by the allowance and no more touches the finished flank as one without protuberance does.
        if (tool.protuberance > tool.finishing_allowance) {
            cut_with_protuberance(g, tool, tip, involute);
        } else {
            // The tool's straight flank ends at depth h_F. Seen from the point T where the line of action touches the base circle, it
            // cuts its last at the distance r sin alpha_t - h_F / sin alpha_t; beyond T it cuts away what it has made before.
            const T tangent = g.tangent_of_transverse_pressure_angle();
            const T normal = g.tangent_of_normal_pressure_angle();
            const T form_depth = tool.addendum - tool.tip_radius * (T(1) - normal / elementary::sqrt(T(T(1) + square(normal))));
            const T end_depth = g.normal_module() * (form_depth - g.generating_profile_shift());
            const T from_base_point =
                involute.base_radius * tangent - end_depth / (tangent * g.cosine_of_transverse_pressure_angle());
            end_at(g, involute, from_base_point, T(pi<T>() / T(2) - g.normal_pressure_angle().rad()));
        }
        check_ends(g);
        if (violation_) return;
        violation_ = check_at_least("least progress of the root fillet (below 0 it crosses itself)", least_progress(tip), T(0));
    }

    constexpr void cut_by_pinion(const gear<T>& g, const pinion_type_cutter<T>& tool) {
        violation_ = generating_mesh<T>::check(g, tool);
        if (violation_) return;
        const generating_mesh<T> cut(g, tool);
        const T sign = g.kind_sign();
        // What rounding leaves of the land of a full radius is none.
        const T theta = cut.centre_angle() > T(64) * epsilon<T>() ? cut.centre_angle() : T(0);
        const pinion_trochoid<T> tip{.rolling_radius = cut.rolling_radius(),
                                     .tool_rolling_radius = cut.tool_rolling_radius(),
                                     .tip_rounding = cut.tip_rounding(),
                                     .centre_radius = cut.centre_radius(),
                                     .centre_angle = theta,
                                     .kind_sign = sign};
        fillet_ = tip;
        root_radius_ = cut.centre_distance() - sign * cut.tool_tip_radius();
        land_half_angle_ = theta * (cut.tool_rolling_radius() / cut.rolling_radius());
        // The fillet's speed is rho - L t/S (1 + sigma r_w0/r_w). It can only be negative where 0 < t < rho, and there L t is at most rho^2/4.
        const T least_reach = cut.tool_base_radius() * cut.tangent_of_working_pressure_angle();
        const T t = tip.tool_rolling_radius - tip.centre_radius;
        const T ratio = T(1) + sign * (tip.tool_rolling_radius / tip.rolling_radius);
        const bool may_turn_back = T(0) < t && t < tip.tip_rounding && tip.tip_rounding * ratio > T(4) * least_reach;
        violation_ = check_greater("root_diameter", root_radius_, T(0));
        if (!violation_ && may_turn_back) {
            violation_ = check_at_most("tip rounding of the cutter", tip.tip_rounding, T(T(4) * least_reach / ratio));
        }
        if (violation_) return;
        const T from_base_point = cut.path_between_base_circles() - sign * cut.tool_tip_form_roll();
        end_at(g, flank::of(g), from_base_point, T(pi<T>() / T(2) - elementary::atan(cut.tangent_at_centre())));
        check_ends(g);
    }

    /// Flank and fillet must leave something of the tooth.
    constexpr void check_ends(const gear<T>& g) {
        if (violation_) return;
        const char* tip = g.tip_form_diameter() == g.effective_tip_diameter() ? "tip_diameter" : "tip_form_diameter";
        violation_ = g.is_internal() ? check_less(tip, g.tip_form_diameter(), root_form_diameter())
                                     : check_greater(tip, g.tip_form_diameter(), root_form_diameter());
    }

    /// The involute's beginning where the tool's last point on the flank cuts at a distance from the base circle on the line of action.
    constexpr void end_at(const gear<T>& g, const flank& involute, const T& from_base_point, const T& last_phi) {
        undercut_ = from_base_point < T(0);
        end_parameter_ = last_phi;
        form_roll_ = T(from_base_point / involute.base_radius);
        T unwound = from_base_point;
        if (undercut_) {
            const undercut_fillet<T> cut(fillet_, involute.base_radius, T(-form_roll_), last_phi);
            violation_ = check_narrowest(g, cut.narrowest_parameter());
            if (violation_) return;
            const auto crossing = cut.crossing_with_flank();
            end_parameter_ = crossing.parameter;
            form_roll_ = crossing.roll;
            unwound = involute.base_radius * form_roll_;
        }
        form_radius_ = elementary::sqrt(T(square(involute.base_radius) + square(unwound)));
    }

    /// The tool must leave something of the tooth where the fillet reaches deepest into it.
    constexpr violation check_narrowest(const gear<T>& g, const T& phi) const {
        return check_greater("half the tooth's angle at the narrowest place of the undercut (rad)",
                             T(pi<T>() / T(g.teeth()) - fillet_.at(phi).polar_angle()), T(0));
    }

    /// The fillet of a tool with protuberance widens the space up to the tooth's narrowest place, where its tangent is radial.
    constexpr T narrowest_place(const gear<T>& g, const T& last_phi) {
        const auto beyond_narrowest = [&](const T& phi) {
            const fillet_state<T> at = fillet_.at(phi);
            return T(at.lateral * at.cos_pressure - at.radial * at.sin_pressure);
        };
        const T narrowest = bracketed_root(beyond_narrowest, T(0), last_phi);
        violation_ = check_narrowest(g, narrowest);
        return narrowest;
    }

    /// Parameter at which the fillet crosses an involute, between one at which it lies deeper in the metal and one at which it does not:
    /// on the way its polar angle falls while the involute's rises.
    constexpr T crossing(const flank& involute, const T& deeper, const T& last) const {
        const T squared_base = square(involute.base_radius);
        const auto beyond_involute = [&](const T& phi) {
            const fillet_state<T> at = fillet_.at(phi);
            const T excess = at.squared_radius() - squared_base;
            const T roll = excess > T(0) ? T(elementary::sqrt(excess) / involute.base_radius) : T(0);
            return T(at.polar_angle() - involute.space_half_angle - inv_from_tangent(roll));
        };
        // Less deep than rounding shows: they touch there.
        if (!(beyond_involute(deeper) > T(0))) return deeper;
        const T found = bracketed_root(beyond_involute, deeper, last);
        // One Newton step: it costs nothing in places and carries derivatives through the search. With R^2 = v,
        // d(polar)/d(phi) = cross / v and d(inv)/d(phi) = tan(alpha) (dv/d(phi)) / (2 v).
        const fillet_state<T> at = fillet_.at(found);
        const T squared = at.squared_radius();
        const T excess = squared - squared_base;
        if (!(excess > T(0))) return found;
        const point<T> radius{at.radial, at.lateral};
        const point<T> velocity = at.speed * point<T>{at.cos_pressure, at.sin_pressure};
        const T slope =
            (cross(radius, velocity) - elementary::sqrt(excess) / involute.base_radius * dot(radius, velocity)) / squared;
        return T(found - beyond_involute(found) / slope);
    }

    /// The tip rounding of a tool with protuberance passes into its edge, which for many teeth makes an involute of its own with the
    /// greater base circle that belongs to its smaller pressure angle. That involute, or else the fillet, crosses the flank.
    constexpr void cut_with_protuberance(const gear<T>& g, const rack_type_cutter<T>& tool, const rack_trochoid<T>& tip,
                                         const flank& involute) {
        undercut_ = true;
        const T m = g.normal_module();
        const T z = T(g.teeth());
        const T tangent = tan(tool.protuberance_angle);
        const T transverse = tangent / g.cosine_of_helix_angle();
        const T sine_of_edge = sin(tool.protuberance_angle);
        // Half the width of the tool's tooth at its datum line, were the edges long enough: the edge touches the rounding.
        const T half_width = tip.centre_offset + m * (tool.addendum - tool.tip_radius) * tangent +
                             tip.tip_rounding / cos(tool.protuberance_angle);
        const T edge_half_angle = (pi<T>() - T(2) * half_width / m + T(2) * g.generating_profile_shift() * tangent) / z +
                                  inv_from_tangent(transverse);
        const T secant = elementary::sqrt(T(T(1) + square(transverse)));
        const flank edge{T(tip.rolling_radius / secant), T(pi<T>() / z - edge_half_angle)};
        // Not quite a right angle, whose tangent may be infinite.
        const T last_phi = pi<T>() / T(2) - larger(tool.protuberance_angle.rad(), T(T(2) * epsilon<T>()));
        const T end_depth = tip.centre_depth + tip.tip_rounding * sine_of_edge;
        const auto edge_is_deeper_at = [&](const T& radius) { return T(edge.space(radius) - involute.space(radius)); };

        // An edge along the tool's middle cuts only on the rolling line, and not at all if it begins outside it.
        const bool cuts = transverse > T(0) || end_depth > T(-64) * epsilon<T>() * tip.rolling_radius;
        // Where the edge's involute begins: smoothly at the rounding's end, or where the fillet crosses it.
        const bool smooth = transverse > T(0) && square(transverse) / square(secant) * tip.rolling_radius >= end_depth;
        T begins = edge.base_radius;
        T fillet_ends = last_phi;
        if (smooth) {
            const T from = edge.base_radius * transverse - end_depth * secant / transverse;
            begins = elementary::sqrt(T(square(edge.base_radius) + square(from)));
        } else if (cuts && edge_is_deeper_at(edge.base_radius) > T(0)) {
            const T narrowest = narrowest_place(g, last_phi);
            if (violation_) return;
            fillet_ends = crossing(edge, narrowest, last_phi);
            begins = larger(edge.base_radius, T(elementary::sqrt(fillet_.at(fillet_ends).squared_radius())));
        }
        if (cuts && edge_is_deeper_at(begins) > T(0)) {
            const T tip_radius = g.effective_tip_diameter() / T(2);
            violation_ = first_of(check_less("radius at which the protuberance's edge begins", begins, tip_radius),
                                  check_less("depth of the protuberance's undercut at the tip (rad)", edge_is_deeper_at(tip_radius), T(0)));
            if (violation_) return;
            const T found = bracketed_root(edge_is_deeper_at, begins, tip_radius);
            // One Newton step with d(inv)/d(radius) = tan(alpha)/radius, as for the fillet.
            const T slope = (edge.roll(found) - involute.roll(found)) / found;
            form_radius_ = found - edge_is_deeper_at(found) / slope;
            form_roll_ = involute.roll(form_radius_);
            end_parameter_ = fillet_ends;
            edge_ = {.exists = true,
                     .base_radius = edge.base_radius,
                     .base_half_angle = edge_half_angle,
                     .from = edge.roll(begins),
                     .to = edge.roll(form_radius_),
                     .undercut = !smooth};
            return;
        }
        // The fillet is deeper than the flank where it is parallel to it, unless it has been cut away there.
        const T parallel = pi<T>() / T(2) - g.normal_pressure_angle().rad();
        const T flank_end = tip.centre_depth + tip.tip_rounding * sin(g.normal_pressure_angle());
        const T squared_sine = square(T(g.tangent_of_transverse_pressure_angle() * g.cosine_of_transverse_pressure_angle()));
        const bool stands = squared_sine * tip.rolling_radius >= flank_end;
        const T deeper = stands ? parallel : narrowest_place(g, last_phi);
        if (violation_) return;
        end_parameter_ = crossing(involute, deeper, fillet_ends);
        form_radius_ = elementary::sqrt(larger(fillet_.at(end_parameter_).squared_radius(), square(involute.base_radius)));
        form_roll_ = involute.roll(form_radius_);
    }

    /// Least value, over the fillet, of a quantity that has the sign of its speed; 0 where it cannot be negative. A rounding whose centre
    /// lies beyond the rolling line while its tip lies inside (h_c < 0 < h) can, on a gear of few teeth and at a small pressure angle,
    /// turn back and cut away the fillet that it has just made; then the fillet would cross itself.
    /// With c = cos phi, k = cos beta:  speed c^3 r/e = rho c^3 (r - h_c (1 - k^2)) - rho^2 (1 - k^2) c^4 + k^2 h_c^2 + rho k^2 h_c c.
    /// It is positive at c = 1, and where its derivative first vanishes, from below, is its one minimum.
    constexpr T least_progress(const rack_trochoid<T>& tip) const {
        const T hc = tip.centre_depth;
        const T rho = tip.tip_rounding;
        if (!(hc < T(0)) || !(hc + rho > T(0))) return T(0);
        const T k2 = square(tip.cos_helix);
        const T reach = tip.rolling_radius - hc * (T(1) - k2);
        const T bend = rho * (T(1) - k2);
        const auto progress = [&](const T& c) { return T(rho * c * square(c) * (reach - bend * c) + k2 * hc * (hc + rho * c)); };
        const auto slope = [&](const T& c) { return T(square(c) * (T(3) * reach - T(4) * bend * c) + k2 * hc); };
        const T least_c = elementary::cos(end_parameter_);
        const T steepest = T(2) * bend > reach ? T(reach / (T(2) * bend)) : T(1);
        if (!(slope(least_c) < T(0))) return smaller(progress(least_c), T(0));
        if (!(slope(steepest) > T(0))) return T(0);
        return smaller(progress(bracketed_root(slope, least_c, steepest)), T(0));
    }

    cutter<T> tool_;
    root_trochoid<T> fillet_;
    T end_parameter_{0};
    T form_radius_{0};
    T form_roll_{0};
    T root_radius_{0};
    T land_half_angle_{0};
    protuberance_involute<T> edge_{};
    bool undercut_ = false;
    violation violation_{};
};

template <scalar T>
generated_root(const gear<T>&, const rack_type_cutter<T>&) -> generated_root<T>;
template <scalar T>
generated_root(const gear<T>&, const pinion_type_cutter<T>&) -> generated_root<T>;

/// Root form diameter of a gear, d_Ff. Throws geometry_error where the tool leaves no flank.
template <scalar T>
constexpr T root_form_diameter(const gear<T>& g) {
    return generated_root<T>(g).root_form_diameter();
}

} // namespace rackwork

#endif
