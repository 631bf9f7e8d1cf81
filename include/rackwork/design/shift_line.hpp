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
#include "../gear_parameters.hpp"
#include "../involute.hpp"
#include "ring_limits.hpp"
#include "shift_limit.hpp"
#include "shiftable_pair.hpp"

#include <optional>

namespace rackwork {

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
/// In an internal pair both tip circles grow with x_1, so that some limits change sides:
///   tip thickness of the ring: a greatest x_1 (the ring's teeth thicken with x_2)                      root
///   interference     rho_a2(x_2) - a sin alpha_wt = rho_Ff1(x_1): a least x_1                           root
///                    a sin alpha_wt + rho_a1(x_1) = rho_Ff2(x_2), as the customary cutter makes it: a least x_1, the greatest root that
///                    a search from above finds in even steps
///   contact ratio    falls with x_1 all the way: a greatest x_1                                         root
///   tip interference room_of_passing_tips = 0: a least x_1 (one root only in all pairs that were tried)    root
///   spaces of the ring, and tips that its customary cutter reaches: asked of the finished ring
/// The contact ratio here is the transverse one and that of the tips: it is mesh's wherever nothing interferes and nothing is undercut.
///
/// Lengths are factors of the normal module. Accuracy for double: limits 128 ulp of a tenth of the larger tooth number, divided by the slope
/// of what is limited (a length, in modules) where that is below 1; equal sliding 16 of them; what a ring's cutter bounds is as accurate as
/// generated_root. Scalars that carry derivatives lose them in the roots. Sources: the conditions are those of ISO 21771:2007; the region that
/// they leave is what the literature draws in the plane of x_1 and x_2.
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

    /// Shifts of the pinion with which both tips stand outside their reference circles: -(h_aP* + k) to sum + h_aP* + k. An internal wheel's
    /// tip stands inside its reference circle, but not inside its base circle.
    constexpr closed_range<T> domain() const {
        const T height = pair_.rack.addendum + tip_alteration_;
        const T least = T(-height);
        const T to_base_circle = T(sum_ + height - (wheel_.radius - wheel_.base_radius));
        return {pair_.is_internal() ? larger(least, to_base_circle) : least, T(sum_ + height)};
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
        return T((tip_roll(pinion_, pinion_shift) + side_ * (tip_roll(wheel_, T(sum_ - pinion_shift)) - path_)) / base_pitch_);
    }
    /// How far beyond the beginning of the involute the mate's tip stays, along the line of action: negative where it interferes. For gears
    /// that are not undercut. Throws geometry_error for an internal wheel that cannot be cut.
    constexpr for_both<T> root_reserve(const T& pinion_shift) const {
        return {.pinion = reserve(pinion_, wheel_, pinion_shift), .wheel = wheel_reserve(pinion_shift)};
    }
    /// Angle of the ring by which the edges of the tips of an internal pair clear each other outside the path of contact [rad]; negative
    /// where they run into each other. The whole turn for external pairs, and where no tooth reaches the other gear.
    constexpr T room_of_passing_tips(const T& pinion_shift) const {
        if (!pair_.is_internal()) return T(T(2) * pi<T>());
        const T wheel_shift = T(sum_ - pinion_shift);
        const for_both<T> tangent = tip_tangent(pinion_shift);
        return detail::room_of_passing_tips<T>({pinion_.teeth, tip_radius(pinion_, pinion_shift), tangent.pinion},
                                               {wheel_.teeth, tip_radius(wheel_, wheel_shift), tangent.wheel},
                                               T(path_ / sine_of_tangent(tangent_)), inv_from_tangent(tangent_));
    }
    /// Specific sliding at the ends of the path: the pinion's at A, where the wheel's tip begins to work at its root, and the wheel's at E.
    /// Both negative. Throws geometry_error where a tip reaches the mate's base circle.
    constexpr for_both<T> specific_sliding(const T& pinion_shift) const {
        const T pinion_tip = tip_roll(pinion_, pinion_shift);
        const T wheel_tip = tip_roll(wheel_, T(sum_ - pinion_shift));
        const T pinion_root = side_ * (path_ - wheel_tip);
        const T wheel_root = path_ - side_ * pinion_tip;
        require(first_of(check_greater("radius of curvature at the pinion's root (modules)", pinion_root, T(0)),
                         check_greater("radius of curvature at the wheel's root (modules)", wheel_root, T(0))));
        return {.pinion = T(T(1) - wheel_tip / pinion_root * (pinion_.base_radius / wheel_.base_radius)),
                .wheel = T(T(1) - pinion_tip / wheel_root * (wheel_.base_radius / pinion_.base_radius))};
    }

    /// The shift of the pinion at which the contact ratio is greatest: both tips have the same pressure angle there. Within the domain; the
    /// least of it for an internal pair.
    constexpr T shift_of_greatest_contact_ratio() const {
        if (pair_.is_internal()) return domain().least;
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
    /// A number that is negative below the pinion's shift with equal specific sliding, 0 there, and positive above it.
    constexpr T sliding_difference(const T& pinion_shift) const {
        const T pinion_tip = tip_roll(pinion_, pinion_shift);
        const T wheel_tip = tip_roll(wheel_, T(sum_ - pinion_shift));
        const T ratio = wheel_.base_radius / pinion_.base_radius;
        return T(square(ratio) * pinion_tip * (side_ * (path_ - wheel_tip)) - wheel_tip * (path_ - side_ * pinion_tip));
    }

    /// The pinion's shift at which a limit is met; none if it is kept all over the domain. If it is missed all over the domain, a shift beyond
    /// its end, by what is missing. Undercut is met where the formula says, in the domain or not. Interference is that of gears without
    /// undercut: where undercut comes first, the value does not count.
    constexpr std::optional<T> limit(shift_limit which) const {
        const closed_range<T> all = domain();
        const auto of_wheel = [&](const std::optional<T>& x) { return x ? std::optional<T>(T(sum_ - *x)) : x; };
        switch (which) {
        case shift_limit::pinion_undercut: return pinion_.least_shift;
        case shift_limit::wheel_undercut: return pair_.is_internal() ? trimmed_ring(domain_of_rings()) : T(sum_ - wheel_.least_shift);
        case shift_limit::pinion_tip: return thin_tip(pinion_, all);
        case shift_limit::wheel_tip: return pair_.is_internal() ? thin_ring_tip() : of_wheel(thin_tip(wheel_, all));
        case shift_limit::pinion_interference:
            if (pair_.is_internal()) return detail::least_with([&](const T& x) { return reserve(pinion_, wheel_, x); }, all);
            return interference(pinion_, wheel_, all);
        case shift_limit::wheel_interference:
            return pair_.is_internal() ? interference_at_ring(domain_of_rings()) : of_wheel(interference(wheel_, pinion_, all));
        case shift_limit::contact_ratio_approach:
            if (pair_.is_internal()) return std::nullopt;
            return low_contact_ratio(all.least);
        case shift_limit::contact_ratio_recess: return low_contact_ratio(all.greatest);
        case shift_limit::tip_interference:
            if (!pair_.is_internal()) return std::nullopt;
            return detail::least_with([&](const T& x) { return room_of_passing_tips(x); }, all);
        case shift_limit::wheel_space: return closed_ring_space(all);
        case shift_limit::tip_at_reference: break;
        }
        return std::nullopt;
    }

    /// True for the limits that keep the pinion's shift from falling, false for those that keep it from rising.
    static constexpr bool is_lower(shift_limit which, gear_kind wheel_kind = gear_kind::external) {
        if (wheel_kind == gear_kind::internal) {
            return which == shift_limit::pinion_undercut || which == shift_limit::wheel_undercut ||
                   which == shift_limit::pinion_interference || which == shift_limit::wheel_interference ||
                   which == shift_limit::tip_interference;
        }
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
        const auto narrow = [&](shift_limit which, const std::optional<T>& x) {
            if (!x) return;
            const bool lower = is_lower(which, pair_.wheel_kind);
            if (lower && range.least < *x) {
                range.least = *x;
                range.least_by = which;
            } else if (!lower && *x < range.greatest) {
                range.greatest = *x;
                range.greatest_by = which;
            }
        };
        const auto made_by_cutter = [&](shift_limit which) {
            return pair_.is_internal() && (which == shift_limit::wheel_undercut || which == shift_limit::wheel_interference);
        };
        for (const shift_limit which : every_limit) {
            if (!made_by_cutter(which)) narrow(which, limit(which));
        }
        if (pair_.is_internal()) narrow(shift_limit::tip_interference, limit(shift_limit::tip_interference));
        // What the cutter makes of a ring takes long to tell, and is looked at only where the others leave room.
        if (pair_.is_internal() && !range.empty()) {
            const auto rest = [&] { return closed_range<T>{range.least, larger(range.least, range.greatest)}; };
            narrow(shift_limit::wheel_space, closed_ring_space(rest()));
            narrow(shift_limit::wheel_undercut, trimmed_ring(rest()));
            narrow(shift_limit::wheel_interference, interference_at_ring(rest()));
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

    /// All limits but the end of the study and those of internal wheels alone.
    static constexpr shift_limit every_limit[] = {shift_limit::pinion_undercut,
                                                  shift_limit::wheel_undercut,
                                                  shift_limit::pinion_tip,
                                                  shift_limit::wheel_tip,
                                                  shift_limit::pinion_interference,
                                                  shift_limit::wheel_interference,
                                                  shift_limit::contact_ratio_approach,
                                                  shift_limit::contact_ratio_recess};
    /// The limits of internal wheels alone.
    static constexpr shift_limit every_limit_of_rings[] = {shift_limit::tip_interference, shift_limit::wheel_space};

private:
    struct sum_is_possible {};

    /// What does not change with the shift of a gear.
    struct one_gear {
        T sign{1}; // -1 for an internal gear
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
        const auto made = [&](const T& sign, int teeth, const T& least_shift) {
            const T radius = T(teeth) / (T(2) * cos_helix_);
            return one_gear{sign, T(teeth), radius, T(radius * cos_transverse_), least_shift};
        };
        if (pair.is_internal()) side_ = T(-1);
        const for_both<T> least = pair.least_profile_shift_without_undercut();
        pinion_ = made(T(1), pair.pinion_teeth, least.pinion);
        wheel_ = made(side_, pair.wheel_teeth, least.wheel);
        base_pitch_ = pi<T>() * cos_transverse_ / cos_helix_;
        tangent_ = tangent_of_inverse_inv(rackwork::detail::working_involute(pair.proportions(), sum));
        // The base radii go by the tooth numbers, whose difference is exact.
        path_ = magnitude(pair.proportions().sum_of_teeth()) * cos_transverse_ / (T(2) * cos_helix_) * tangent_;
    }

    constexpr violation check_domain() const {
        const closed_range<T> all = domain();
        return first_of(
            check_greater("room for the pinion's shift with both tips outside their reference circles", T(all.greatest - all.least), T(0)));
    }

    constexpr T tip_radius(const one_gear& g, const T& shift) const {
        // Never on the wrong side of the reference circle, not even by rounding.
        return T(g.radius + g.sign * larger(T(pair_.rack.addendum + tip_alteration_ + shift), T(0)));
    }
    /// Radius of curvature of the involute at the tip.
    constexpr T tip_roll(const one_gear& g, const T& shift) const {
        const T tip = tip_radius(g, shift);
        return elementary::sqrt(T(larger(T(tip - g.base_radius), T(0)) * (tip + g.base_radius)));
    }
    constexpr T thickness(const one_gear& g, const T& shift) const {
        const T tip = tip_radius(g, shift);
        const T half_angle = (pi<T>() / T(2) + T(2) * shift * tan_normal_) / g.teeth +
                             g.sign * (inv_from_tangent(tan_transverse_) - inv_from_tangent(T(tip_roll(g, shift) / g.base_radius)));
        return T(T(2) * tip * half_angle / elementary::sqrt(T(T(1) + square(T(tan_helix_ * tip / g.radius)))));
    }
    /// Radius of curvature of the involute where it begins, without undercut: r sin alpha_t - (h_FfP* - x)/sin alpha_t.
    constexpr T form_roll(const one_gear& g, const T& shift) const {
        return T(g.radius * sin_transverse_ - (pair_.rack.form_dedendum() - shift) / sin_transverse_);
    }
    /// Of an external gear.
    constexpr T reserve(const one_gear& g, const one_gear& mate, const T& shift) const {
        return T(side_ * (path_ - tip_roll(mate, T(sum_ - shift))) - form_roll(g, shift));
    }
    constexpr T wheel_reserve(const T& pinion_shift) const {
        const T wheel_shift = T(sum_ - pinion_shift);
        if (!pair_.is_internal()) return reserve(wheel_, pinion_, wheel_shift);
        return T(detail::form_roll_of_ring(ring(pinion_shift)) - (path_ + tip_roll(pinion_, pinion_shift)));
    }
    constexpr gear_parameters<T> ring(const T& pinion_shift) const {
        return detail::ring_of(pair_, T(sum_ - pinion_shift), tip_alteration_);
    }
    static constexpr T sine_of_tangent(const T& tangent) { return T(tangent / elementary::sqrt(T(T(1) + square(tangent)))); }

    constexpr std::optional<T> thin_tip(const one_gear& g, const closed_range<T>& all) const {
        const auto excess = [&](const T& x) { return T(thickness(g, x) - limits_.tip_thickness); };
        if (!(excess(all.least) > T(0))) return T(all.least + excess(all.least));
        if (excess(all.greatest) > T(0)) return std::nullopt;
        return bracketed_root(excess, all.least, all.greatest);
    }
    constexpr std::optional<T> interference(const one_gear& g, const one_gear& mate, const closed_range<T>& all) const {
        const auto excess = [&](const T& x) { return reserve(g, mate, x); };
        if (!(excess(all.least) > T(0))) return T(all.least + excess(all.least));
        if (excess(all.greatest) > T(0)) return std::nullopt;
        return bracketed_root(excess, all.least, all.greatest);
    }
    /// The ring's teeth thicken with x_2, but for a dip beside the reference circle (the thickness is convex in x_2); the shift of the pinion
    /// beyond which they are too thin.
    constexpr std::optional<T> thin_ring_tip() const {
        const closed_range<T> all = domain();
        const auto excess = [&](const T& x) { return T(thickness(wheel_, T(sum_ - x)) - limits_.tip_thickness); };
        // By thirds: the least thickness needs its place to half the digits only.
        T low = all.least;
        T high = all.greatest;
        for (int step = 0; step < binary_digits<T>(); ++step) {
            const T third = (high - low) / T(3);
            const bool falls = excess(T(low + third)) > excess(T(high - third));
            (falls ? low : high) = falls ? T(low + third) : T(high - third);
        }
        const T thinnest = low + (high - low) / T(2);
        if (!(excess(thinnest) < T(0))) return std::nullopt;
        if (excess(all.least) < T(0)) return T(all.least + excess(all.least));
        return bracketed_root(excess, all.least, thinnest);
    }
    // What a ring's cutter bounds within some range of shifts; beyond the range, where it leaves nothing of it.

    /// The greatest shift with a ring that can be cut; none if all can.
    constexpr std::optional<T> closed_ring_space(const closed_range<T>& all) const {
        if (!pair_.is_internal() || detail::ring_can_be_cut(ring(all.greatest))) return std::nullopt;
        return detail::greatest_with([&](const T& x) { return detail::ring_can_be_cut(ring(x)); }, all);
    }
    /// The domain up to closed_ring_space: where there are rings at all.
    constexpr closed_range<T> domain_of_rings() const {
        closed_range<T> all = domain();
        if (const std::optional<T> closed = closed_ring_space(all)) all.greatest = larger(*closed, all.least);
        return all;
    }
    constexpr std::optional<T> trimmed_ring(const closed_range<T>& all) const {
        const auto room = [&](const T& x) {
            return detail::ring_can_be_cut(ring(x)) ? detail::roll_of_cutter_at_ring_tip(ring(x)) : T(-1);
        };
        return detail::least_with(room, all);
    }
    constexpr std::optional<T> interference_at_ring(const closed_range<T>& all) const {
        const auto room = [&](const T& x) { return detail::ring_can_be_cut(ring(x)) ? wheel_reserve(x) : T(-1); };
        constexpr int steps = 16;
        T above = all.greatest;
        if (const T most = room(above); most < T(0)) return T(above - most);
        for (int i = 1; i <= steps; ++i) {
            const T below = i == steps ? all.least : T(all.greatest - (all.greatest - all.least) * (T(i) / T(steps)));
            if (room(below) < T(0)) return bracketed_root(room, below, above);
            above = below;
        }
        return std::nullopt;
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
    T side_{1};    // -1 for an internal pair
    T tangent_{0}; // of the working pressure angle
    T path_{0};    // a sin alpha_wt
};

} // namespace rackwork

#endif
