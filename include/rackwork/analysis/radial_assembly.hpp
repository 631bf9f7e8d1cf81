// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Whether a pinion can be put into its internal gear from the middle outward, or only along the axis.
#ifndef RACKWORK_ANALYSIS_RADIAL_ASSEMBLY_HPP
#define RACKWORK_ANALYSIS_RADIAL_ASSEMBLY_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../involute.hpp"
#include "../mesh.hpp"

namespace rackwork {

namespace detail {

/// Room that a pinion leaves on one side of its path, while it is moved straight outward to its place, at the narrowest ring tooth.
/// With `tooth_ahead` a pinion tooth goes ahead into a space of the ring, otherwise a space onto a tooth.
///
/// The path is the x axis from the ring's axis. Tooth i of the pinion ends up in space i of the ring; on its way everything of it that comes
/// to lie beyond the edge of that space's outer ring tooth has to pass below that edge.
template <scalar T>
T room_for_radial_assembly(const mesh<T>& pair, bool tooth_ahead) {
    const gear<T>& pinion = pair.pinion();
    const gear<T>& ring = pair.wheel();
    constexpr int points = 32;
    const T start = tooth_ahead ? T(0) : T(1) / T(2);
    const T ring_tip = ring.effective_tip_diameter() / T(2);
    const T ring_space = pi<T>() / T(ring.teeth()) - larger(ring.tip_land_half_angle(), T(0));
    const T base = pinion.base_diameter() / T(2);
    const T first = pair.pinion_root().root_form_roll();
    T least = ring_tip;
    for (int i = 0; i < pinion.teeth(); ++i) {
        const T in_ring = (T(i) + start) * T(2) * pi<T>() / T(ring.teeth()) + ring_space;
        const T middle = (T(i) + start) * T(2) * pi<T>() / T(pinion.teeth());
        if (in_ring >= pi<T>() / T(2) || middle >= pi<T>() / T(2)) break;
        const point<T> edge = ring_tip * direction(in_ring);
        const auto pass = [&](const T& radius, const T& half_angle) {
            const point<T> p = point<T>{pair.centre_distance(), T(0)} + radius * direction(T(middle + half_angle));
            if (p.x >= edge.x) least = smaller(least, T(edge.y - p.y));
        };
        // The end of the tip land, and the flank from there to the form diameter.
        pass(T(pinion.effective_tip_diameter() / T(2)), larger(pinion.tip_land_half_angle(), T(0)));
        for (int k = 0; k <= points; ++k) {
            const T roll = first + (pinion.tip_form_roll() - first) * (T(k) / T(points));
            pass(T(base * elementary::sqrt(T(T(1) + square(roll)))), T(pinion.base_half_angle() - inv_from_tangent(roll)));
        }
    }
    return least;
}

} // namespace detail

/// Room for putting a pinion into its ring radially, the better of two ways (a tooth or a space ahead) [length]. Negative: it can only be put
/// in along the axis, and by how much the tips are in the way. Backlash is shared evenly. The pinion's flanks are looked at in 33
/// places each. Throws geometry_error unless the wheel is internal.
template <scalar T>
T radial_assembly_clearance(const mesh<T>& pair) {
    if (!pair.is_internal()) impossible_geometry({"kind of the wheel", 0, "must be internal", 0, false});
    return larger(detail::room_for_radial_assembly(pair, true), detail::room_for_radial_assembly(pair, false));
}

} // namespace rackwork

#endif
