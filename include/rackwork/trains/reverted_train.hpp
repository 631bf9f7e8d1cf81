// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Two stages between shafts in line: one centre distance for both.
#ifndef RACKWORK_TRAINS_REVERTED_TRAIN_HPP
#define RACKWORK_TRAINS_REVERTED_TRAIN_HPP

#include "../centre_distance.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../involute.hpp"
#include "../tolerance/size_limits.hpp"

#include <type_traits>

namespace rackwork {

/// A train of two stages whose input and output shaft are in line, so that both have the same centre distance.
template <scalar T = double>
struct reverted_train {
    pair_proportions<T> first;
    pair_proportions<T> second;

    /// Ratio of the whole train, z_2/z_1 times z_4/z_3.
    constexpr T gear_ratio() const {
        return T(T(first.wheel_teeth) / T(first.pinion_teeth) * (T(second.wheel_teeth) / T(second.pinion_teeth)));
    }
};

/// A value for each stage of a train.
template <class V>
struct for_stages {
    V first;
    V second;
};

/// What is impossible about a reverted train, or nothing.
template <scalar T>
constexpr violation check(const reverted_train<T>& train) {
    return first_of(check(train.first), check(train.second));
}

/// Sums of profile shift coefficients with which both stages of a train run without backlash at a common centre distance.
/// Throws geometry_error where either stage cannot have it. Accuracy: that of profile_shift_sum.
template <scalar T>
constexpr for_stages<T> profile_shift_sums(const reverted_train<T>& train, const std::type_identity_t<T>& centre_distance) {
    return {.first = profile_shift_sum(train.first, T(centre_distance)), .second = profile_shift_sum(train.second, T(centre_distance))};
}

/// Centre distances that both stages of a train can have with sums of profile shifts within limits for each: the common part of both ranges.
template <scalar T>
struct common_range {
    /// Least and greatest; the wrong way round when the ranges of the two stages have no part in common.
    size_limits<T> centre_distance;

    constexpr bool exists() const { return centre_distance.lower <= centre_distance.upper; }
};

/// The centre distances that both stages can have with their sums of profile shift coefficients within these limits.
/// Throws geometry_error for an impossible train, limits in the wrong order, and sums that a stage cannot have.
template <scalar T>
constexpr common_range<T> common_centre_distances(const reverted_train<T>& train, const for_stages<size_limits<T>>& shift_sums) {
    require(first_of(check(train), check(shift_sums.first), check(shift_sums.second)));
    const auto range = [](const pair_proportions<T>& stage, const size_limits<T>& sums) {
        // The centre distance of an internal pair falls as the sum of shifts grows.
        return limits_between(centre_distance(stage, sums.lower), centre_distance(stage, sums.upper));
    };
    const size_limits<T> first = range(train.first, shift_sums.first);
    const size_limits<T> second = range(train.second, shift_sums.second);
    return {.centre_distance = {.lower = larger(first.lower, second.lower), .upper = smaller(first.upper, second.upper)}};
}

namespace detail {

/// How far a stage is widened beyond its reference centre distance, in shift coefficients: |z_1 + z_2| (inv alpha_wt - inv alpha_t) /
/// (2 tan alpha_n). It grows with the centre distance. For a stage that has been checked.
template <scalar T>
class widening {
public:
    constexpr explicit widening(const pair_proportions<T>& stage)
        : base_(reference_centre_distance(stage) * cos(transverse_pressure_angle(stage))), at_reference_(inv(transverse_pressure_angle(stage))),
          shifts_per_involute_(magnitude(stage.sum_of_teeth()) / (T(2) * tan(stage.normal_pressure_angle))) {}

    constexpr T shifts_at(const T& centre_distance) const {
        return T(shifts_per_involute_ * (inv_from_tangent(tangent_at(centre_distance)) - at_reference_));
    }
    /// d inv alpha_wt / da = tan alpha_wt / a.
    constexpr T slope_at(const T& centre_distance) const {
        return T(shifts_per_involute_ * tangent_at(centre_distance) / centre_distance);
    }

private:
    constexpr T tangent_at(const T& centre_distance) const {
        return T(elementary::sqrt(T((centre_distance - base_) * (centre_distance + base_))) / base_);
    }

    T base_;
    T at_reference_;
    T shifts_per_involute_;
};

} // namespace detail

/// The common centre distance at which the greater of the two sums of profile shift coefficients, without its sign, is least: between the
/// reference centre distances, where one stage is as much widened as the other is narrowed.
/// Throws geometry_error for an impossible train, and where the reference centre distances are so far apart that one is below the other
/// stage's base circles.
template <scalar T>
constexpr T balanced_centre_distance(const reverted_train<T>& train) {
    require(check(train));
    const T first = reference_centre_distance(train.first);
    const T second = reference_centre_distance(train.second);
    const T least = smaller(first, second);
    const T greatest = larger(first, second);
    require(first_of(check_centre_distance(train.first, least), check_centre_distance(train.second, least)));
    const detail::widening<T> of_first(train.first);
    const detail::widening<T> of_second(train.second);
    const auto both = [&](const T& at) { return T(of_first.shifts_at(at) + of_second.shifts_at(at)); };
    const T found = bracketed_root(both, least, greatest);
    // A step of Newton's carries along what derivatives the scalar has.
    return T(found - both(found) / (of_first.slope_at(found) + of_second.slope_at(found)));
}

} // namespace rackwork

#endif
