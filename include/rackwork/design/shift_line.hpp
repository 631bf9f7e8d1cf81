// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// All splits of one sum of profile shifts between pinion and wheel, and the exact limits of the permissible ones.
#ifndef RACKWORK_DESIGN_SHIFT_LINE_HPP
#define RACKWORK_DESIGN_SHIFT_LINE_HPP

#include "../centre_distance.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../finding.hpp"
#include "../involute.hpp"
#include "shiftable_pair.hpp"

#include <optional>

namespace rackwork {

/// What can bound the permissible profile shifts of a pair.
enum class shift_limit : unsigned char {
    tip_at_reference,       ///< a tip circle no longer stands outside its reference circle: here the study ends
    pinion_undercut,        ///< the tool undercuts the pinion
    wheel_undercut,         ///< the tool undercuts the wheel
    pinion_tip,             ///< the pinion's tip is as thin as the limit allows (or pointed, for a limit of 0)
    wheel_tip,              ///< the wheel's tip is
    pinion_interference,    ///< the wheel's tip reaches down to the pinion's root form diameter
    wheel_interference,     ///< the pinion's tip reaches down to the wheel's root form diameter
    contact_ratio_approach, ///< the contact ratio is at its limit, with the long part of the path before the pitch point
    contact_ratio_recess    ///< the contact ratio is at its limit, with the long part of the path after the pitch point
};

/// The permissible shifts of the pinion at one sum of profile shifts. Nothing is permissible if the least is greater than the greatest.
template <scalar T>
struct shift_range {
    T least;
    T greatest;
    /// What bounds them.
    shift_limit least_by;
    shift_limit greatest_by;

    constexpr bool empty() const { return greatest < least; }
    constexpr T width() const { return T(greatest - least); }
};

/// All splits of one sum of profile shifts: all pairs with the same centre distance. Immutable; usable in constant expressions.
///
/// On such a line the working pressure angle and the tip alteration stay what they are, and the pinion's shift x_1 alone varies, the wheel
/// having x_2 = sum - x_1. Every limit is then one value of x_1, in closed form or as the root of a function that rises or falls
/// all the way, found to the last place:
///   undercut         x_1 >= x_min1,  x_2 >= x_min2                                                    closed form
///   tip thickness    s_an1(x_1) = limit, which falls wherever tips are thin                           root
///   interference     a sin alpha_wt - rho_a2(x_2) = rho_Ff1(x_1); slope 1/sin alpha_a2 - 1/sin alpha_t   root
///   contact ratio    concave in x_1, greatest where both tips have the same pressure angle            peak closed, two roots
///   equal sliding    zeta_1 at A = zeta_2 at E                                                        root
/// The contact ratio here is the transverse one and that of the tips: it is mesh's wherever nothing interferes and nothing is undercut.
///
/// Lengths are factors of the normal module. Accuracy for double: limits 128 ulp of a tenth of the larger tooth number, divided by the slope
/// of what is limited (a length, in modules) where that is below 1; equal sliding 16 of them. Scalars that carry derivatives lose them in
/// the roots. Sources: the conditions are those of ISO 21771:2007; the region that they leave is what the literature draws in the plane of
/// x_1 and x_2.
template <scalar T = double>
class shift_line {
public:
    /// Throws geometry_error for an impossible pair or sum, and where both tips cannot stand outside their reference circles.
    constexpr shift_line(const shiftable_pair<T>& pair, const T& profile_shift_sum, const finding_limits<T>& limits = {})
        : shift_line(pair, profile_shift_sum, limits, checked(pair, profile_shift_sum)) {
        require(check_domain());
    }

    /// What keeps a sum from having permissible splits at all, or nothing.
    static constexpr violation check(const shiftable_pair<T>& pair, const T& profile_shift_sum) {
        if (const violation v = first_of(rackwork::check(pair), check_shift_sum(pair.proportions(), profile_shift_sum))) return v;
        return shift_line(pair, profile_shift_sum, {}, sum_is_possible{}).check_domain();
    }

    constexpr const shiftable_pair<T>& pair() const { return pair_; }
    constexpr const finding_limits<T>& limits() const { return limits_; }
    /// Sum of the profile shift coefficients, x_1 + x_2.
    constexpr const T& profile_shift_sum() const { return sum_; }
    /// Centre distance of all these pairs, a [the module's unit].
    constexpr T centre_distance() const { return rackwork::centre_distance(pair_.proportions(), sum_); }
    /// Tip alteration coefficient of both gears, k.
    constexpr const T& tip_alteration() const { return tip_alteration_; }
    /// The shifts of both gears with a shift of the pinion.
    constexpr for_both<T> split(const T& pinion_shift) const { return {.pinion = pinion_shift, .wheel = T(sum_ - pinion_shift)}; }

    /// Shifts of the pinion with which both tips stand outside their reference circles: -(h_aP* + k) to sum + h_aP* + k.
    constexpr closed_range<T> domain() const {
        const T height = pair_.rack.addendum + tip_alteration_;
        return {T(-height), T(sum_ + height)};
    }

    /// Normal tip thickness, factor of the module. Negative where the flanks have crossed before.
    constexpr for_both<T> tip_thickness(const T& pinion_shift) const {
        return {.pinion = thickness(pinion_, pinion_shift), .wheel = thickness(wheel_, T(sum_ - pinion_shift))};
    }
    /// Tangents of the transverse pressure angles at the tips.
    constexpr for_both<T> tip_tangent(const T& pinion_shift) const {
        return {.pinion = T(tip_roll(pinion_, pinion_shift) / pinion_.base_radius),
                .wheel = T(tip_roll(wheel_, T(sum_ - pinion_shift)) / wheel_.base_radius)};
    }
    /// Transverse contact ratio of the tips.
    constexpr T contact_ratio(const T& pinion_shift) const {
        return T((tip_roll(pinion_, pinion_shift) + tip_roll(wheel_, T(sum_ - pinion_shift)) - path_) / base_pitch_);
    }
    /// How far beyond the beginning of the involute the mate's tip stays, along the line of action: negative where it interferes. For gears
    /// that are not undercut.
    constexpr for_both<T> root_reserve(const T& pinion_shift) const {
        return {.pinion = reserve(pinion_, wheel_, pinion_shift), .wheel = reserve(wheel_, pinion_, T(sum_ - pinion_shift))};
    }
    /// Specific sliding at the ends of the path: the pinion's at A, where the wheel's tip begins to work at its root, and the wheel's at E.
    /// Both negative. Throws geometry_error where a tip reaches the mate's base circle.
    constexpr for_both<T> specific_sliding(const T& pinion_shift) const {
        const T pinion_tip = tip_roll(pinion_, pinion_shift);
        const T wheel_tip = tip_roll(wheel_, T(sum_ - pinion_shift));
        require(first_of(check_greater("radius of curvature at the pinion's root (modules)", T(path_ - wheel_tip), T(0)),
                         check_greater("radius of curvature at the wheel's root (modules)", T(path_ - pinion_tip), T(0))));
        return {.pinion = T(T(1) - wheel_tip / (path_ - wheel_tip) * (pinion_.base_radius / wheel_.base_radius)),
                .wheel = T(T(1) - pinion_tip / (path_ - pinion_tip) * (wheel_.base_radius / pinion_.base_radius))};
    }

    /// The shift of the pinion at which the contact ratio is greatest: both tips have the same pressure angle there. Within the domain.
    constexpr T shift_of_greatest_contact_ratio() const {
        // r_a1/r_b1 = r_a2/r_b2 is linear in x_1.
        const T height = pair_.rack.addendum + tip_alteration_;
        const T teeth = T(pair_.pinion_teeth) + T(pair_.wheel_teeth);
        const T peak = (T(pair_.pinion_teeth) * (height + sum_) - T(pair_.wheel_teeth) * height) / teeth;
        const closed_range<T> all = domain();
        return smaller(larger(peak, all.least), all.greatest);
    }

    /// The shift of the pinion with equal specific sliding of both gears at the ends of the path; none where a tip would reach beyond the
    /// mate's base circle all along.
    constexpr std::optional<T> shift_of_equal_sliding() const {
        const closed_range<T> all = domain();
        const auto f = [&](const T& x) { return sliding_difference(x); };
        if (!(f(all.least) < T(0)) || !(f(all.greatest) > T(0))) return std::nullopt;
        return bracketed_root(f, all.least, all.greatest);
    }
    /// A number that rises with the pinion's shift and is 0 with equal specific sliding.
    constexpr T sliding_difference(const T& pinion_shift) const {
        const T pinion_tip = tip_roll(pinion_, pinion_shift);
        const T wheel_tip = tip_roll(wheel_, T(sum_ - pinion_shift));
        const T ratio = wheel_.base_radius / pinion_.base_radius;
        return T(square(ratio) * pinion_tip * (path_ - wheel_tip) - wheel_tip * (path_ - pinion_tip));
    }

    /// The pinion's shift at which a limit is met; none if it is not met anywhere in the domain. Undercut is met where the formula says,
    /// in the domain or not. Interference is that of gears without undercut: where undercut comes first, the value does not count.
    constexpr std::optional<T> limit(shift_limit which) const {
        const closed_range<T> all = domain();
        const auto of_wheel = [&](const std::optional<T>& x) { return x ? std::optional<T>(T(sum_ - *x)) : x; };
        switch (which) {
        case shift_limit::pinion_undercut: return pinion_.least_shift;
        case shift_limit::wheel_undercut: return T(sum_ - wheel_.least_shift);
        case shift_limit::pinion_tip: return thin_tip(pinion_, all);
        case shift_limit::wheel_tip: return of_wheel(thin_tip(wheel_, all));
        case shift_limit::pinion_interference: return interference(pinion_, wheel_, all);
        case shift_limit::wheel_interference: return of_wheel(interference(wheel_, pinion_, all));
        case shift_limit::contact_ratio_approach: return low_contact_ratio(all.least);
        case shift_limit::contact_ratio_recess: return low_contact_ratio(all.greatest);
        case shift_limit::tip_at_reference: break;
        }
        return std::nullopt;
    }

    /// True for the limits that keep the pinion's shift from falling, false for those that keep it from rising.
    static constexpr bool is_lower(shift_limit which) {
        return which == shift_limit::pinion_undercut || which == shift_limit::wheel_tip || which == shift_limit::wheel_interference ||
               which == shift_limit::contact_ratio_approach;
    }

    /// The permissible shifts of the pinion, and what bounds them. Where the contact ratio is below its limit all along, nothing is
    /// permissible, and the width is no more than what the greatest contact ratio lacks (negative).
    constexpr shift_range<T> permissible() const {
        const closed_range<T> all = domain();
        shift_range<T> range{.least = all.least,
                             .greatest = all.greatest,
                             .least_by = shift_limit::tip_at_reference,
                             .greatest_by = shift_limit::tip_at_reference};
        for (const shift_limit which : every_limit) {
            const std::optional<T> x = limit(which);
            if (!x) continue;
            if (is_lower(which) && range.least < *x) {
                range.least = *x;
                range.least_by = which;
            } else if (!is_lower(which) && *x < range.greatest) {
                range.greatest = *x;
                range.greatest_by = which;
            }
        }
        const T peak = shift_of_greatest_contact_ratio();
        const T lack = contact_ratio(peak) - limits_.contact_ratio;
        if (lack < T(0) && range.width() > lack) {
            range = {.least = T(peak - lack / T(2)),
                     .greatest = T(peak + lack / T(2)),
                     .least_by = shift_limit::contact_ratio_approach,
                     .greatest_by = shift_limit::contact_ratio_recess};
        }
        return range;
    }

    /// All limits but the end of the study.
    static constexpr shift_limit every_limit[] = {shift_limit::pinion_undercut,
                                                  shift_limit::wheel_undercut,
                                                  shift_limit::pinion_tip,
                                                  shift_limit::wheel_tip,
                                                  shift_limit::pinion_interference,
                                                  shift_limit::wheel_interference,
                                                  shift_limit::contact_ratio_approach,
                                                  shift_limit::contact_ratio_recess};

private:
    struct sum_is_possible {};

    /// What does not change with the shift of a gear.
    struct one_gear {
        T teeth{1};
        T radius{1};
        T base_radius{1};
        T least_shift{0};
    };

    static constexpr sum_is_possible checked(const shiftable_pair<T>& pair, const T& sum) {
        require(first_of(rackwork::check(pair), check_shift_sum(pair.proportions(), sum)));
        return {};
    }

    constexpr shift_line(const shiftable_pair<T>& pair, const T& sum, const finding_limits<T>& limits, sum_is_possible)
        : pair_(pair), limits_(limits), sum_(sum), tip_alteration_(pair.tip_alteration(sum)), cos_helix_(cos(pair.helix_angle)),
          tan_helix_(tan(pair.helix_angle)), tan_normal_(tan(pair.rack.pressure_angle)), tan_transverse_(tan_normal_ / cos_helix_) {
        const T secant = elementary::sqrt(T(T(1) + square(tan_transverse_)));
        cos_transverse_ = T(1) / secant;
        sin_transverse_ = tan_transverse_ / secant;
        const auto made = [&](int teeth, const T& least_shift) {
            const T radius = T(teeth) / (T(2) * cos_helix_);
            return one_gear{T(teeth), radius, T(radius * cos_transverse_), least_shift};
        };
        const for_both<T> least = pair.least_profile_shift_without_undercut();
        pinion_ = made(pair.pinion_teeth, least.pinion);
        wheel_ = made(pair.wheel_teeth, least.wheel);
        base_pitch_ = pi<T>() * cos_transverse_ / cos_helix_;
        path_ = (pinion_.base_radius + wheel_.base_radius) *
                tangent_of_inverse_inv(rackwork::detail::working_involute(pair.proportions(), sum));
    }

    constexpr violation check_domain() const {
        const closed_range<T> all = domain();
        return first_of(
            check_greater("room for the pinion's shift with both tips outside their reference circles", T(all.greatest - all.least), T(0)));
    }

    constexpr T tip_radius(const one_gear& g, const T& shift) const {
        // Never inside the reference circle, not even by rounding.
        return T(g.radius + larger(T(pair_.rack.addendum + tip_alteration_ + shift), T(0)));
    }
    /// Radius of curvature of the involute at the tip.
    constexpr T tip_roll(const one_gear& g, const T& shift) const {
        const T tip = tip_radius(g, shift);
        return elementary::sqrt(T((tip - g.base_radius) * (tip + g.base_radius)));
    }
    constexpr T thickness(const one_gear& g, const T& shift) const {
        const T tip = tip_radius(g, shift);
        const T half_angle = (pi<T>() / T(2) + T(2) * shift * tan_normal_) / g.teeth + inv_from_tangent(tan_transverse_) -
                             inv_from_tangent(T(tip_roll(g, shift) / g.base_radius));
        return T(T(2) * tip * half_angle / elementary::sqrt(T(T(1) + square(T(tan_helix_ * tip / g.radius)))));
    }
    /// Radius of curvature of the involute where it begins, without undercut: r sin alpha_t - (h_FfP* - x)/sin alpha_t.
    constexpr T form_roll(const one_gear& g, const T& shift) const {
        return T(g.radius * sin_transverse_ - (pair_.rack.form_dedendum() - shift) / sin_transverse_);
    }
    constexpr T reserve(const one_gear& g, const one_gear& mate, const T& shift) const {
        return T(path_ - tip_roll(mate, T(sum_ - shift)) - form_roll(g, shift));
    }

    constexpr std::optional<T> thin_tip(const one_gear& g, const closed_range<T>& all) const {
        const auto excess = [&](const T& x) { return T(thickness(g, x) - limits_.tip_thickness); };
        if (!(excess(all.least) > T(0))) return all.least;
        if (excess(all.greatest) > T(0)) return std::nullopt;
        return bracketed_root(excess, all.least, all.greatest);
    }
    constexpr std::optional<T> interference(const one_gear& g, const one_gear& mate, const closed_range<T>& all) const {
        const auto excess = [&](const T& x) { return reserve(g, mate, x); };
        if (!(excess(all.least) > T(0))) return all.least;
        if (excess(all.greatest) > T(0)) return std::nullopt;
        return bracketed_root(excess, all.least, all.greatest);
    }
    constexpr std::optional<T> low_contact_ratio(const T& end) const {
        const auto excess = [&](const T& x) { return T(contact_ratio(x) - limits_.contact_ratio); };
        const T peak = shift_of_greatest_contact_ratio();
        if (excess(peak) < T(0) || excess(end) > T(0)) return std::nullopt;
        return bracketed_root(excess, peak, end);
    }

    shiftable_pair<T> pair_;
    finding_limits<T> limits_;
    T sum_;
    T tip_alteration_;
    T cos_helix_;
    T tan_helix_;
    T tan_normal_;
    T tan_transverse_;
    T cos_transverse_{0};
    T sin_transverse_{0};
    one_gear pinion_{};
    one_gear wheel_{};
    T base_pitch_{0};
    T path_{0}; // a sin alpha_wt
};

} // namespace rackwork

#endif
