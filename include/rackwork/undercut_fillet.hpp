// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Where an undercut fillet crosses the involute of the flank that the same tool has made.
#ifndef RACKWORK_UNDERCUT_FILLET_HPP
#define RACKWORK_UNDERCUT_FILLET_HPP

#include "core/elementary.hpp"
#include "core/root_finding.hpp"
#include "core/scalar.hpp"
#include "fillet_state.hpp"
#include "involute.hpp"
#include "root_trochoid.hpp"

namespace rackwork {

/// The undercut fillet of an external gear, followed back from its end, where the tool's rounding passes into its flank. That end has been
/// cut beyond the point at which the line of action touches the base circle, and the tool has taken away the involute's beginning.
///
/// All is in differences from the end, none of which cancels. When a point of the fillet is cut, its normal goes through the pitch point;
/// the foot of the perpendicular from the gear's axis on the normal lies in the direction alpha' at the distance r cos alpha', and the
/// point lies sigma beyond it, so that the point's polar angle is alpha' + atan(sigma / (r cos alpha')) + chi. At the end alpha' is the
/// flank's pressure angle, r cos alpha' is r_b, and half the angle of the space at the base circle is chi + alpha' + sigma/r_b: there the
/// flank was made. With e = sigma/r_b at the end and y = sigma / (r cos alpha'), the fillet lies in the metal, beyond the involute, by the
/// angle
///   (chi - chi_end) + (alpha' - alpha'_end) + (y - e) - inv_t y - inv_t t,   inv_t t = t - atan t,
/// where t is the involute's roll angle at the same distance R from the axis, r_b^2 t^2 = R^2 - r_b^2
/// = sigma^2 - r^2 sin(alpha' - alpha'_end) sin(alpha' + alpha'_end).
///
/// Undercut that has hardly begun is a fillet that returns within some e^2 of its end, at the roll e/2.
template <scalar T>
class undercut_fillet {
public:
    /// Of the fillet, the base radius of the flank, the angle e by which the end has been cut beyond the base circle's point on the line of
    /// action (the roll angle that is missing, radians, greater than 0), and the fillet's parameter at that end.
    constexpr undercut_fillet(const root_trochoid<T>& fillet, const T& base_radius, const T& overshoot, const T& last)
        : fillet_(fillet), base_radius_(base_radius), rolling_radius_(fillet.rolling_radius()), overshoot_(overshoot), last_(last) {
        const fillet_state<T> end = fillet.at(last);
        cos_end_ = end.cos_pressure;
        sin_end_ = end.sin_pressure;
        const auto beyond_at = [this](const T& back) { return place_at(back).beyond; };
        narrowest_ = bracketed_root(beyond_at, T(0), last);
    }

    /// The fillet, followed outward, first widens the space up to the tooth's narrowest place, which lies inside the base circle, and then
    /// comes back. There its tangent is radial. Its parameter, radians.
    constexpr T narrowest_parameter() const { return T(last_ - narrowest_); }

    /// Where fillet and involute cross.
    struct crossing {
        /// The fillet's parameter there, radians.
        T parameter;
        /// The involute's roll angle there, radians. Its error is some epsilon of cot alpha'_end, however small it is itself.
        T roll;
    };
    constexpr crossing crossing_with_flank() const {
        const auto depth_at = [this](const T& back) { return depth(place_at(back)); };
        // On the way back the fillet goes deeper all the time, from outside the metal. What turns back on its way does so elsewhere.
        const bool returns = depth_at(narrowest_) > T(0);
        T back = returns ? bracketed_root(depth_at, T(0), narrowest_) : narrowest_;
        // One Newton step: it costs nothing in places and carries derivatives through the search. The fillet runs along its tangent, which
        // makes the angle y with the radius.
        const place found = place_at(back);
        if (returns && found.excess > T(0)) {
            const T squared_radius = square(found.foot) + square(found.beyond);
            const T speed = fillet_.at(T(last_ - back)).speed;
            const T slope = speed * (found.beyond + roll(found) * found.foot) / squared_radius;
            back = T(back - depth(found) / slope);
        }
        return {T(last_ - back), roll(place_at(back))};
    }

private:
    /// A point of the fillet.
    struct place {
        T turned; ///< chi + alpha', since the end
        T ahead;  ///< (y - e) r cos alpha'
        T foot;   ///< r cos alpha': 0 at the root land's end
        T beyond; ///< sigma
        T excess; ///< R^2 - r_b^2
    };

    constexpr place place_at(const T& back) const {
        const fillet_change<T> since_end = fillet_.change_back(last_, back);
        const T sin_change = elementary::sin(since_end.pressure);
        const T one_less_cos = T(2) * square(T(elementary::sin(T(since_end.pressure / T(2)))));
        const T sin_gained = cos_end_ * sin_change - sin_end_ * one_less_cos;
        const T cos_lost = sin_end_ * sin_change + cos_end_ * one_less_cos;
        const T moved = since_end.reach - rolling_radius_ * sin_gained;
        const T foot = base_radius_ - rolling_radius_ * cos_lost;
        const T beyond = base_radius_ * overshoot_ + moved;
        // sin(alpha' + alpha'_end)
        const T sin_sum = (sin_end_ + sin_gained) * cos_end_ + (cos_end_ - cos_lost) * sin_end_;
        return {.turned = T(since_end.turn + since_end.pressure),
                .ahead = T(moved + overshoot_ * rolling_radius_ * cos_lost),
                .foot = foot,
                .beyond = beyond,
                .excess = T(square(beyond) - square(rolling_radius_) * sin_change * sin_sum)};
    }
    constexpr T roll(const place& at) const {
        return at.excess > T(0) ? T(elementary::sqrt(at.excess) / base_radius_) : T(0);
    }
    /// By how much the place lies in the metal, radians.
    constexpr T depth(const place& at) const {
        return T(at.turned + ahead_of_end(at) - inv_from_tangent(roll(at)));
    }
    /// atan y - e = (y - e) - inv_t y: the second form holds small differences, the first a foot that is close to the axis.
    constexpr T ahead_of_end(const place& at) const {
        if (at.beyond <= at.foot) return T(at.ahead / at.foot - inv_from_tangent(T(at.beyond / at.foot)));
        return T(pi<T>() / T(2) - elementary::atan(T(at.foot / at.beyond)) - overshoot_);
    }

    root_trochoid<T> fillet_;
    T base_radius_;
    T rolling_radius_;
    T overshoot_;
    T last_;
    T cos_end_{0};
    T sin_end_{0};
    T narrowest_{0};
};

} // namespace rackwork

#endif
