// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The region of permissible profile shifts of a pair, by its exact boundary.
#ifndef RACKWORK_DESIGN_SHIFT_REGION_HPP
#define RACKWORK_DESIGN_SHIFT_REGION_HPP

#include "../centre_distance.hpp"
#include "../core/error.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../finding.hpp"
#include "shift_line.hpp"
#include "shiftable_pair.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

namespace rackwork {

/// A point on the boundary of the permissible shifts, and the limit that bounds there.
template <scalar T>
struct shift_boundary_point {
    for_both<T> profile_shift;
    shift_limit limit;
    /// True where one limit gives way to another.
    bool corner = false;
};

/// The region of permissible profile shifts of a pair in the plane of x_1 and x_2: no undercut, tips thick enough, no interference, contact
/// ratio high enough; in an internal pair also no tips that run into each other, and a ring that its customary cutter makes whole. Put
/// together from shift_line, one line for each sum of shifts, that is, for each centre distance.
///
/// Each boundary is a curve whose parameter is the sum x_1 + x_2, evaluated exactly (to the last place) at any value of it. The region is
/// looked at between two sums that the caller gives; gears of many teeth bear shifts far beyond what is used.
template <scalar T = double>
class shift_region {
public:
    /// Throws geometry_error for an impossible pair, and unless the sums are finite and in order.
    shift_region(const shiftable_pair<T>& pair, const finding_limits<T>& limits = {}, const closed_range<T>& sums = {T(-2), T(4)})
        : pair_(pair), limits_(limits) {
        require(first_of(check(pair), check_finite("least sum of profile shift coefficients", sums.least),
                         check_finite("greatest sum of profile shift coefficients", sums.greatest),
                         check_greater("greatest sum of profile shift coefficients", sums.greatest, sums.least)));
        find_extent(sums);
    }

    constexpr const shiftable_pair<T>& pair() const { return pair_; }
    constexpr const finding_limits<T>& limits() const { return limits_; }

    /// True if no shifts are permissible between the sums that were given (or only in a gap between the lines that were tried).
    bool empty() const { return !extent_; }
    /// The least and the greatest sum with permissible splits, to the last place; or the sums that were given, where the region goes on
    /// beyond them. Throws geometry_error for an empty region.
    closed_range<T> sums() const {
        if (!extent_) impossible_geometry({"region of permissible profile shifts", 0, "must not be empty", 0, false});
        return *extent_;
    }
    /// The line of a sum. Throws geometry_error as shift_line does.
    shift_line<T> line(const T& profile_shift_sum) const { return shift_line<T>(pair_, profile_shift_sum, limits_); }
    /// Are these shifts permissible?
    bool contains(const for_both<T>& profile_shift) const {
        const T sum = profile_shift.pinion + profile_shift.wheel;
        if (shift_line<T>::check(pair_, sum)) return false;
        const shift_range<T> range = line(sum).permissible();
        return !(profile_shift.pinion < range.least) && !(range.greatest < profile_shift.pinion);
    }
    /// The point of a limit's own curve at a sum, whether the region ends there or beyond another limit; none where the limit is not met.
    std::optional<for_both<T>> boundary(shift_limit which, const T& profile_shift_sum) const {
        if (shift_line<T>::check(pair_, profile_shift_sum)) return std::nullopt;
        const shift_line<T> at = line(profile_shift_sum);
        const std::optional<T> x = at.limit(which);
        if (!x) return std::nullopt;
        return at.split(*x);
    }

    /// The whole boundary once round, counter-clockwise with x_1 to the right and x_2 up, from points on so many lines of equal spacing
    /// and with every corner between limits that change from one line to the next. Each point is exact; between points the boundary
    /// is curved. Empty for an empty region.
    std::vector<shift_boundary_point<T>> outline(int lines = 64) const {
        require(check_at_least("number of lines", T(lines), T(2)));
        std::vector<shift_boundary_point<T>> lower;
        std::vector<shift_boundary_point<T>> upper;
        if (!extent_) return lower;
        for (int i = 0; i < lines; ++i) {
            const T share = T(i) / T(lines - 1);
            // Exactly the ends at the ends.
            const T sum = i == lines - 1 ? extent_->greatest : T(extent_->least + share * (extent_->greatest - extent_->least));
            add(lower, sum, true);
            add(upper, sum, false);
        }
        // Small x_1 are on the left: down the left side, up the right one.
        std::reverse(lower.begin(), lower.end());
        lower.insert(lower.end(), upper.begin(), upper.end());
        return lower;
    }

private:
    /// How much room there is on a line: negative where nothing is permissible.
    T room(const T& sum) const {
        if (shift_line<T>::check(pair_, sum)) return T(-1);
        return line(sum).permissible().width();
    }

    void find_extent(const closed_range<T>& sums) {
        constexpr int tried = 96;
        const auto sum_of = [&](int i) { return T(sums.least + (sums.greatest - sums.least) * (T(i) / T(tried))); };
        int widest = 0;
        T most = room(sums.least);
        for (int i = 1; i <= tried; ++i) {
            if (const T here = room(sum_of(i)); most < here) {
                most = here;
                widest = i;
            }
        }
        if (most < T(0)) return;
        const auto f = [&](const T& sum) { return room(sum); };
        int first = widest;
        while (first > 0 && !(room(sum_of(first - 1)) < T(0))) --first;
        int last = widest;
        while (last < tried && !(room(sum_of(last + 1)) < T(0))) ++last;
        extent_ = closed_range<T>{first == 0 ? sums.least : inside(f, sum_of(first - 1), sum_of(first)),
                                  last == tried ? sum_of(tried) : inside(f, sum_of(last + 1), sum_of(last))};
    }

    /// The last place of a change of sign, on the side where there is room.
    template <class F>
    static T inside(const F& f, T without, T with) {
        const T found = bracketed_root(f, without, with);
        if (!(f(found) < T(0))) return found;
        // The finder may end on either side of the change; halving goes on from there.
        without = found;
        for (;;) {
            const T middle = without + (with - without) / T(2);
            if (middle == without || middle == with) return with;
            (f(middle) < T(0) ? without : with) = middle;
        }
    }

    void add(std::vector<shift_boundary_point<T>>& side, const T& sum, bool lower) const {
        const shift_boundary_point<T> here = end_of(sum, lower);
        // Each limit gives way once or twice at most; rounding must not make two of them take turns for ever.
        for (int i = 0; i < 16 && !side.empty() && side.back().limit != here.limit; ++i) side.push_back(change(side.back(), sum, lower));
        side.push_back(here);
    }

    shift_boundary_point<T> end_of(const T& sum, bool lower) const {
        const shift_line<T> here = line(sum);
        const shift_range<T> range = here.permissible();
        return {.profile_shift = here.split(lower ? range.least : range.greatest), .limit = lower ? range.least_by : range.greatest_by};
    }

    /// The first point, to the last place of the sum, at which another limit bounds than at a point before.
    shift_boundary_point<T> change(const shift_boundary_point<T>& before, const T& last, bool lower) const {
        T same = before.profile_shift.pinion + before.profile_shift.wheel;
        T other = last;
        for (;;) {
            const T middle = same + (other - same) / T(2);
            if (middle == same || middle == other) break;
            (end_of(middle, lower).limit == before.limit ? same : other) = middle;
        }
        shift_boundary_point<T> corner = end_of(other, lower);
        corner.corner = true;
        return corner;
    }

    shiftable_pair<T> pair_;
    finding_limits<T> limits_;
    std::optional<closed_range<T>> extent_;
};

} // namespace rackwork

#endif
