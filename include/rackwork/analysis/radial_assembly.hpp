// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Whether a pinion can be put into its internal gear from the middle outward, or only along the axis.
#ifndef RACKWORK_ANALYSIS_RADIAL_ASSEMBLY_HPP
#define RACKWORK_ANALYSIS_RADIAL_ASSEMBLY_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../mesh.hpp"

namespace rackwork {

namespace detail {

/// How high points stand over the x axis, of those that have come as far as some x: the highest of points, of pieces of involutes and of
/// arcs, each in closed form but for the place where it passes that x.
template <scalar T>
class highest_beyond {
public:
    explicit highest_beyond(const T& x) : x_(x) {}

    /// Least of the limit less a height and what was there before.
    T room_below(const T& limit, const T& before) const { return any_ ? smaller(before, T(limit - highest_)) : before; }

    void add(const point<T>& p) {
        if (p.x < x_) return;
        if (!any_ || highest_ < p.y) highest_ = p.y;
        any_ = true;
    }

    /// The involute that begins on its base circle at the angle `start` and leads clockwise, between two roll angles t: its tangent has the
    /// direction start - t, so that its points go to the right while that is less than a right angle, and up until it is 0.
    void add_involute(const point<T>& centre, const T& base_radius, const T& start, const T& from, const T& to) {
        const auto at = [&](const T& t) {
            const point<T> u = direction(T(start - t));
            return centre + base_radius * point<T>{T(u.x - t * u.y), T(u.y + t * u.x)};
        };
        const auto within = [](const T& t, const T& low, const T& high) { return smaller(larger(t, low), high); };
        const T right = pi<T>() / T(2);
        const T ends[]{from, within(T(start - right), from, to), within(T(start + right), from, to), to};
        for (int i = 0; i < 3; ++i) {
            T low = ends[i];
            T high = ends[i + 1];
            if (!(low < high)) continue;
            // One way to the right or to the left: what is beyond x has one end at most at x.
            const auto beyond = [&](const T& t) { return T(at(t).x - x_); };
            const bool low_is_beyond = !(beyond(low) < T(0));
            const bool high_is_beyond = !(beyond(high) < T(0));
            if (!low_is_beyond && !high_is_beyond) continue;
            if (low_is_beyond != high_is_beyond) (low_is_beyond ? high : low) = bracketed_root(beyond, low, high);
            for (const T& t : {low, within(start, low, high), high}) include(at(t).y);
        }
    }

    /// The arc about a centre between two directions from 0 to 180 degrees.
    void add_arc(const point<T>& centre, const T& radius, const T& from, const T& to) {
        const T cosine = (x_ - centre.x) / radius;
        if (cosine > T(1)) return;
        T last = smaller(to, T(pi<T>() / T(2)));
        if (cosine > T(-1)) last = smaller(last, T(T(2) * elementary::atan(elementary::sqrt(T((T(1) - cosine) / (T(1) + cosine))))));
        if (!(last < from)) include(T(centre.y + radius * elementary::sin(last)));
    }

private:
    void include(const T& y) {
        if (!any_ || highest_ < y) highest_ = y;
        any_ = true;
    }

    T x_;
    T highest_{0};
    bool any_ = false;
};

/// Room that a pinion leaves on one side of its path, while it is moved straight outward to its place, at the narrowest ring tooth.
/// With `tooth_ahead` a pinion tooth goes ahead into a space of the ring, otherwise a space onto a tooth.
///
/// The path is the x axis from the ring's axis. Tooth i of the pinion ends up in space i of the ring; on its way everything of it that comes
/// to lie beyond the edge of that space's outer ring tooth has to pass below that edge.
template <scalar T>
T room_for_radial_assembly(const mesh<T>& pair, bool tooth_ahead) {
    const gear<T>& pinion = pair.pinion();
    const gear<T>& ring = pair.wheel();
    const T start = tooth_ahead ? T(0) : T(1) / T(2);
    const T ring_tip = ring.effective_tip_diameter() / T(2);
    const T ring_space = pi<T>() / T(ring.teeth()) - larger(ring.tip_land_half_angle(), T(0));
    const T pinion_tip = pinion.effective_tip_diameter() / T(2);
    const T land = larger(pinion.tip_land_half_angle(), T(0));
    const T rounding = pinion.parameters().tip_rounding;
    const point<T> axis{pair.centre_distance(), T(0)};
    T least = ring_tip;
    for (int i = 0; i < pinion.teeth(); ++i) {
        const T in_ring = (T(i) + start) * T(2) * pi<T>() / T(ring.teeth()) + ring_space;
        const T middle = (T(i) + start) * T(2) * pi<T>() / T(pinion.teeth());
        if (in_ring >= pi<T>() / T(2) || middle >= pi<T>() / T(2)) break;
        const point<T> edge = ring_tip * direction(in_ring);
        highest_beyond<T> side(edge.x);
        const T flank_start = middle + pinion.base_half_angle();
        side.add_involute(axis, T(pinion.base_diameter() / T(2)), flank_start, pair.pinion_root().root_form_roll(), pinion.tip_form_roll());
        if (pinion.parameters().tip_chamfer > T(0)) {
            const T base = pinion.chamfer_base_diameter() / T(2);
            const auto roll = [&](const T& radius) {
                return T(elementary::sqrt(T(larger(T(radius - base), T(0)) * (radius + base))) / base);
            };
            side.add_involute(axis, base, T(middle + pinion.chamfer_base_half_angle()), roll(T(pinion.tip_form_diameter() / T(2))),
                              roll(pinion_tip));
        } else if (rounding > T(0)) {
            const point<T> centre = axis + T(pinion_tip - rounding) * direction(T(middle + land));
            side.add_arc(centre, rounding, T(middle + land), T(flank_start + pi<T>() / T(2) - pinion.tip_form_roll()));
        }
        side.add(axis + pinion_tip * direction(T(middle + land)));
        least = side.room_below(edge.y, least);
    }
    return least;
}

} // namespace detail

/// Room for putting a pinion into its ring radially, the better of two ways (a tooth or a space ahead) [length]. Negative: it can only be put
/// in along the axis, and by how much the tips are in the way. Backlash is shared evenly. The whole of the pinion's flanks, with their chamfers or
/// roundings, is looked at above the root form diameter, against the edges of the ring's tip lands.
/// Accuracy for double: 64 ulp of the ring's tip diameter. Throws geometry_error unless the wheel is internal.
template <scalar T>
T radial_assembly_clearance(const mesh<T>& pair) {
    if (!pair.is_internal()) impossible_geometry({"kind of the wheel", 0, "must be internal", 0, false});
    return larger(detail::room_for_radial_assembly(pair, true), detail::room_for_radial_assembly(pair, false));
}

} // namespace rackwork

#endif
