// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// All pairs for a ratio and a centre distance: modules, helix angles and tooth numbers within limits.
#ifndef RACKWORK_DESIGN_PAIR_SEARCH_HPP
#define RACKWORK_DESIGN_PAIR_SEARCH_HPP

#include "../centre_distance.hpp"
#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear_parameters.hpp"
#include "../involute.hpp"
#include "search.hpp"
#include "shiftable_pair.hpp"

#include <cstddef>
#include <cstdint>
#include <numeric>
#include <span>

namespace rackwork {

/// A ratio give or take a share of it, for example 3.07 and 0.005.
template <scalar T>
constexpr closed_range<T> ratio_within(const T& ratio, const T& tolerance) {
    return {T(ratio * (T(1) - tolerance)), T(ratio * (T(1) + tolerance))};
}

/// Helix angles in equal steps, from a least to a greatest. One alone counts as the least.
template <scalar T>
struct helix_steps {
    angle<T> least{};
    angle<T> greatest{};
    int count = 1;

    constexpr angle<T> at(int i) const {
        if (i == 0) return least;
        if (i == count - 1) return greatest;
        return least + (greatest - least) * T(T(i) / T(count - 1));
    }
};

/// What a pair is needed for.
template <scalar T = double>
struct pair_need {
    /// Gear ratio u = z_2/z_1. Must be given.
    closed_range<T> ratio{T(0), T(0)};
    /// Centre distance, a; a single one has least = greatest. Must be given.
    closed_range<T> centre_distance{T(0), T(0)};
    /// Normal modules to choose from; they must stay where they are as long as the search lasts. Must be given.
    std::span<const T> modules{};
    closed_range<int> pinion_teeth{12, 150};
    closed_range<int> wheel_teeth{12, 400};
    /// Helix angles at the reference cylinder.
    helix_steps<T> helix{};
    /// Sum of the profile shift coefficients, x_1 + x_2.
    closed_range<T> profile_shift_sum{T(T(-1) / T(2)), T(T(3) / T(2))};
    angle<T> normal_pressure_angle = deg(T(20));
    /// An internal wheel has more teeth than its pinion.
    gear_kind wheel_kind = gear_kind::external;
};

/// What is impossible about a need, or nothing. (A need that nothing can meet is not impossible; its search finds nothing.)
template <scalar T>
constexpr violation check(const pair_need<T>& need) {
    if (const violation v = first_of(
            check_greater("least gear ratio", need.ratio.least, T(0)),
            check_at_least("greatest gear ratio", need.ratio.greatest, need.ratio.least),
            check_greater("least centre_distance", need.centre_distance.least, T(0)),
            check_at_least("greatest centre_distance", need.centre_distance.greatest, need.centre_distance.least),
            check_at_least("number of modules", T(static_cast<int>(need.modules.size())), T(1)),
            check_at_least("least pinion_teeth", T(need.pinion_teeth.least), T(1)),
            check_at_least("greatest pinion_teeth", T(need.pinion_teeth.greatest), T(need.pinion_teeth.least)),
            check_at_least("least wheel_teeth", T(need.wheel_teeth.least), T(1)),
            check_at_least("greatest wheel_teeth", T(need.wheel_teeth.greatest), T(need.wheel_teeth.least)),
            check_at_most("greatest pinion_teeth", T(need.pinion_teeth.greatest), T(1 << 20)),
            check_at_most("greatest wheel_teeth", T(need.wheel_teeth.greatest), T(1 << 20)),
            check_at_least("number of helix angles", T(need.helix.count), T(1)),
            check_greater("least helix angle (deg)", need.helix.least.deg(), T(-90)),
            check_less("greatest helix angle (deg)", need.helix.greatest.deg(), T(90)),
            check_at_least("greatest helix angle (deg)", need.helix.greatest.deg(), need.helix.least.deg()),
            check_at_least("greatest sum of profile shift coefficients", need.profile_shift_sum.greatest, need.profile_shift_sum.least),
            check_at_most("wheel_kind", T(static_cast<int>(need.wheel_kind)), T(1)))) {
        return v;
    }
    for (const T& module : need.modules) {
        const pair_proportions<T> p{.normal_module = module,
                                    .pinion_teeth = 1,
                                    .wheel_teeth = 2,
                                    .helix_angle = need.helix.least,
                                    .normal_pressure_angle = need.normal_pressure_angle,
                                    .wheel_kind = need.wheel_kind};
        if (const violation v = check(p)) return v;
    }
    return {};
}

/// A pair that fits a need: still without a split of its profile shifts.
template <scalar T>
struct pair_candidate {
    T normal_module{0};
    int pinion_teeth = 0;
    int wheel_teeth = 0;
    angle<T> helix_angle{};
    T centre_distance{0};
    /// x_1 + x_2, with which the pair runs at that centre distance without backlash.
    T profile_shift_sum{0};

    /// u = z_2/z_1.
    constexpr T gear_ratio() const { return T(T(wheel_teeth) / T(pinion_teeth)); }
    /// True if every tooth of the pinion meets every tooth of the wheel before a pair meets again: the numbers have no common divisor.
    constexpr bool has_hunting_teeth() const { return std::gcd(pinion_teeth, wheel_teeth) == 1; }
};

namespace detail {

/// What a helix angle makes of the pressure angle, and the sum of shifts that a centre distance takes.
template <scalar T>
class shift_sum_rule {
public:
    constexpr shift_sum_rule() = default;
    constexpr shift_sum_rule(const angle<T>& helix, const angle<T>& normal_pressure_angle)
        : cos_helix_(cos(helix)), tan_normal_(tan(normal_pressure_angle)) {
        const T tangent = tan_normal_ / cos_helix_;
        cos_transverse_ = T(1) / elementary::sqrt(T(T(1) + square(tangent)));
        involute_ = inv_from_tangent(tangent);
    }

    /// Reference centre distance of a signed sum of teeth.
    constexpr T reference(const T& module, int sum_of_teeth) const {
        return T(module * T(sum_of_teeth < 0 ? -sum_of_teeth : sum_of_teeth) / (T(2) * cos_helix_));
    }

    /// Finds the sum of shifts for a centre distance; false if the pair cannot run there.
    constexpr bool find(int sum_of_teeth, const T& reference, const T& centre_distance, T& sum) const {
        if (centre_distance == reference) {
            sum = T(0);
            return true;
        }
        const T base = reference * cos_transverse_;
        if (!(centre_distance > base)) return false;
        const T tangent = elementary::sqrt(T((centre_distance - base) * (centre_distance + base))) / base;
        sum = T(sum_of_teeth) * (inv_from_tangent(tangent) - involute_) / (T(2) * tan_normal_);
        return true;
    }

private:
    T cos_helix_{1};
    T tan_normal_{0};
    T cos_transverse_{1};
    T involute_{0};
};

/// A value brought into a range.
template <class V>
constexpr V nearest_in(const closed_range<V>& range, const V& value) {
    if (value < range.least) return range.least;
    return range.greatest < value ? range.greatest : value;
}

/// Whole numbers n with n/divisor in a ratio range, within limits.
template <scalar T>
constexpr closed_range<int> multiples_in(const closed_range<T>& ratio, int divisor, const closed_range<int>& limits) {
    // A guess from below, which the ratio as it is stated then corrects.
    const auto guess = [&](const T& of) {
        const T wanted = of * T(divisor);
        if (!(wanted > T(limits.least))) return limits.least;
        return wanted > T(limits.greatest) ? limits.greatest : whole_part(wanted);
    };
    int least = guess(ratio.least) > limits.least ? guess(ratio.least) - 1 : limits.least;
    while (least <= limits.greatest && T(T(least) / T(divisor)) < ratio.least) ++least;
    int greatest = guess(ratio.greatest) < limits.greatest ? guess(ratio.greatest) + 1 : limits.greatest;
    while (greatest >= limits.least && ratio.greatest < T(T(greatest) / T(divisor))) --greatest;
    return {least < limits.least ? limits.least : least, greatest};
}

/// Goes through helix angles, modules, pinions and wheels, in this order from the outside.
template <scalar T>
class pair_cursor {
public:
    explicit pair_cursor(const pair_need<T>& need) : need_(need) { start(); }

    search_state run(std::uint64_t budget) {
        const std::uint64_t pause = examined_ + budget;
        for (;;) {
            while (wheel_ < last_wheel_) {
                if (examined_ == pause) return search_state::pausing;
                ++wheel_;
                ++examined_;
                if (fits()) return search_state::found;
            }
            if (!next_row()) return search_state::exhausted;
        }
    }

    const pair_candidate<T>& current() const { return current_; }
    std::uint64_t examined() const { return examined_; }
    double share() const { return row_ < rows_ ? static_cast<double>(row_ < 0 ? 0 : row_) / static_cast<double>(rows_) : 1.0; }

private:
    void start() {
        const auto pinions = static_cast<std::int64_t>(need_.pinion_teeth.greatest - need_.pinion_teeth.least + 1);
        rows_ = need_.helix.count * static_cast<std::int64_t>(need_.modules.size()) * pinions;
        rule_ = {need_.helix.at(0), need_.normal_pressure_angle};
        pinion_ = need_.pinion_teeth.least - 1;
    }

    bool next_row() {
        if (++row_ >= rows_) {
            row_ = rows_;
            return false;
        }
        if (pinion_ == need_.pinion_teeth.greatest) {
            pinion_ = need_.pinion_teeth.least - 1;
            if (++module_ == need_.modules.size()) {
                module_ = 0;
                ++helix_;
                rule_ = {need_.helix.at(helix_), need_.normal_pressure_angle};
            }
        }
        ++pinion_;
        closed_range<int> wheels = multiples_in(need_.ratio, pinion_, need_.wheel_teeth);
        if (need_.wheel_kind == gear_kind::internal && wheels.least <= pinion_) wheels.least = pinion_ + 1;
        wheel_ = wheels.least - 1;
        last_wheel_ = wheels.greatest;
        return true;
    }

    bool fits() {
        const T& module = need_.modules[module_];
        const int teeth = need_.wheel_kind == gear_kind::internal ? pinion_ - wheel_ : pinion_ + wheel_;
        const T reference = rule_.reference(module, teeth);
        const T distance = nearest_in(need_.centre_distance, reference);
        T sum{0};
        if (!rule_.find(teeth, reference, distance, sum) || !need_.profile_shift_sum.contains(sum)) return false;
        current_ = {.normal_module = module,
                    .pinion_teeth = pinion_,
                    .wheel_teeth = wheel_,
                    .helix_angle = need_.helix.at(helix_),
                    .centre_distance = distance,
                    .profile_shift_sum = sum};
        return true;
    }

    pair_need<T> need_;
    shift_sum_rule<T> rule_{};
    std::int64_t rows_ = 0;
    std::int64_t row_ = -1;
    int helix_ = 0;
    std::size_t module_ = 0;
    int pinion_ = 0;
    int wheel_ = 0;
    int last_wheel_ = 0;
    std::uint64_t examined_ = 0;
    pair_candidate<T> current_{};
};

} // namespace detail

/// All pairs that fit a need, lazily: every helix angle, module, pinion and wheel within the limits whose ratio is in its range is looked
/// at, and fits if it runs without backlash with a permissible sum of profile shifts. It is put at the centre distance in the range that is
/// nearest to its reference one, so that it needs the least shift.
/// Rank them with best_of or keep_best; watch or stop it with watched_by. Throws geometry_error for an impossible need.
template <scalar T>
search<detail::pair_cursor<T>> pair_search(const pair_need<T>& need) {
    require(check(need));
    return search<detail::pair_cursor<T>>(detail::pair_cursor<T>(need));
}

} // namespace rackwork

#endif
