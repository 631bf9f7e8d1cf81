// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Choosing profile shifts: at a given centre distance or for a given contact ratio, balanced by a criterion, within what is permissible.
#ifndef RACKWORK_DESIGN_PROFILE_SHIFT_HPP
#define RACKWORK_DESIGN_PROFILE_SHIFT_HPP

#include "../analysis/tooth_root.hpp"
#include "../centre_distance.hpp"
#include "../core/error.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../finding.hpp"
#include "shift_line.hpp"
#include "shift_region.hpp"
#include "shiftable_pair.hpp"

namespace rackwork {

// Balances: what is to be equal on both gears. Each is a function of a shift_line and a shift of the pinion that is negative below the
// shift with which the gears are alike, 0 there, and positive above it. Callers may bring their own.

/// Equal specific sliding at the ends of the path of contact, zeta_1 at A and zeta_2 at E: both roots slide alike.
struct equal_sliding {
    template <scalar T>
    constexpr T operator()(const shift_line<T>& line, const T& pinion_shift) const {
        return line.sliding_difference(pinion_shift);
    }
};

/// Equal normal tip thickness.
struct equal_tip_thickness {
    template <scalar T>
    constexpr T operator()(const shift_line<T>& line, const T& pinion_shift) const {
        const for_both<T> tip = line.tip_thickness(pinion_shift);
        return T(tip.wheel - tip.pinion);
    }
};

/// Equal pressure angle at the tips: the greatest contact ratio that the sum of shifts allows. In an internal pair, whose pinion always has
/// the larger one, that is the least shift of the pinion.
struct greatest_contact_ratio {
    template <scalar T>
    constexpr T operator()(const shift_line<T>& line, const T& pinion_shift) const {
        const for_both<T> tip = line.tip_tangent(pinion_shift);
        return T(tip.pinion - tip.wheel);
    }
};

/// Equal root strength under equal loads at the tips: Y_Fa Y_Sa, form times stress correction factor at the 30 degree tangent of the exact
/// fillet (root_under_tip_load). Geometry only: it says nothing about how strong, and it takes both gears for the same width and material.
/// Throws geometry_error where a gear has no 30 degree tangent, and for internal pairs.
struct equal_root_strength {
    template <scalar T>
    T operator()(const shift_line<T>& line, const T& pinion_shift) const {
        const for_both<gear_parameters<T>> p = line.pair().parameters(line.split(pinion_shift));
        const auto stress = [](const gear_parameters<T>& of_gear) {
            const tooth_root<T> root = root_under_tip_load(gear<T>(of_gear));
            return T(root.form_factor() * root.stress_correction_factor());
        };
        return T(stress(p.wheel) - stress(p.pinion));
    }
};

/// Chosen shifts and what they were chosen from.
template <scalar T>
struct shift_choice {
    for_both<T> profile_shift;
    /// Tip alteration coefficient of both gears, k.
    T tip_alteration;
    /// Centre distance without backlash, a [the module's unit].
    T centre_distance;
    /// The shifts of the pinion that are permissible at this centre distance.
    shift_range<T> permissible;
    /// True if the gears are alike in what was to be equal; false if a limit came first, at which the choice then stands.
    bool balanced;
};

/// Splits the sum of a line so that a balance comes to nothing, or as near to it as the permissible shifts allow.
/// Throws geometry_error when no split is permissible.
template <scalar T, class Balance>
constexpr shift_choice<T> split_by(const shift_line<T>& line, const Balance& balance) {
    const shift_range<T> range = line.permissible();
    require(check_at_least("greatest permissible shift of the pinion at this sum", range.greatest, range.least));
    const auto f = [&](const T& x) { return T(balance(line, x)); };
    T chosen = range.least;
    bool balanced = false;
    if (!(f(range.least) < T(0))) {
        balanced = f(range.least) == T(0);
    } else if (!(f(range.greatest) > T(0))) {
        chosen = range.greatest;
        balanced = f(range.greatest) == T(0);
    } else {
        chosen = bracketed_root(f, range.least, range.greatest);
        balanced = true;
    }
    return {.profile_shift = line.split(chosen),
            .tip_alteration = line.tip_alteration(),
            .centre_distance = line.centre_distance(),
            .permissible = range,
            .balanced = balanced};
}

/// Shifts for a given centre distance: their sum follows from it, the split from the balance.
/// Throws geometry_error when the pair cannot run there, or no split is permissible.
template <scalar T, class Balance = equal_sliding>
constexpr shift_choice<T> choose_profile_shift(const shiftable_pair<T>& pair, const T& centre_distance, const Balance& balance = {},
                                               const finding_limits<T>& limits = {}) {
    require(check(pair));
    return split_by(shift_line<T>(pair, profile_shift_sum(pair.proportions(), centre_distance), limits), balance);
}

/// Shifts for a given transverse contact ratio: the greatest sum of shifts whose balanced split still has it, between the sums of a region.
/// Large sums strengthen roots and ease sliding at the cost of the contact ratio, so this spends on them what the ratio leaves.
/// Throws geometry_error when the balanced splits do not have that contact ratio anywhere in the region.
template <scalar T, class Balance = equal_sliding>
shift_choice<T> choose_profile_shift_for_contact_ratio(const shift_region<T>& region, const T& contact_ratio, const Balance& balance = {}) {
    require(check_finite("contact_ratio", contact_ratio));
    const closed_range<T> sums = region.sums();
    const auto excess = [&](const T& sum) {
        const shift_line<T> line = region.line(sum);
        return T(line.contact_ratio(split_by(line, balance).profile_shift.pinion) - contact_ratio);
    };
    // From the greatest sum downward to the first line that has it.
    constexpr int lines = 64;
    T above = sums.greatest;
    T at_above = excess(above);
    if (at_above == T(0)) return split_by(region.line(above), balance);
    for (int i = 1; i <= lines; ++i) {
        const T below = i == lines ? sums.least : T(sums.greatest - (sums.greatest - sums.least) * (T(i) / T(lines)));
        const T at_below = excess(below);
        if ((at_below < T(0)) != (at_above < T(0))) return split_by(region.line(bracketed_root(excess, below, above)), balance);
        above = below;
        at_above = at_below;
    }
    if (at_above < T(0)) require(check_at_most("contact_ratio", contact_ratio, T(contact_ratio + at_above)));
    require(check_at_least("contact_ratio", contact_ratio, T(contact_ratio + at_above)));
    return split_by(region.line(above), balance);
}

/// The greatest of the permissible sums of shifts with its balanced split: the thickest roots and the mildest sliding that the limits
/// allow.
/// Throws geometry_error for an empty region.
template <scalar T, class Balance = equal_sliding>
shift_choice<T> choose_greatest_profile_shift(const shift_region<T>& region, const Balance& balance = {}) {
    return split_by(region.line(region.sums().greatest), balance);
}

} // namespace rackwork

#endif
