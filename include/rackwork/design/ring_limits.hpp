// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What bounds the shifts of an internal pair that no external one knows: tips that pass each other, and what a cutter makes of the ring.
#ifndef RACKWORK_DESIGN_RING_LIMITS_HPP
#define RACKWORK_DESIGN_RING_LIMITS_HPP

#include "../core/elementary.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../cutter.hpp"
#include "../gear.hpp"
#include "../gear_parameters.hpp"
#include "../generated_root.hpp"
#include "../involute.hpp"
#include "shiftable_pair.hpp"

#include <optional>

namespace rackwork::detail {

/// A tip in the transverse section of a pair.
template <scalar T>
struct tip_circle {
    T teeth;
    T radius;
    /// Tangent of the pressure angle there.
    T tangent;
};

/// Angle of the ring's axis by which the edge of the pinion's tip is clear of that of the ring's where the two tip circles cross, without
/// backlash: the edges meet nowhere else but on the path of contact. Negative: they run into each other (trochoidal interference).
/// With theta_1 and theta_2 the angles of the crossing from the line of centres, seen from either axis, the edges stand clear by
///   (z_1 (theta_1 + inv alpha_a1) - z_2 (theta_2 + inv alpha_a2) + (z_2 - z_1) inv alpha_wt) / z_2.
/// Where no tooth reaches the other gear nothing is in the way: then the whole turn. Where the pinion's tip circle comes through the ring's
/// on the far side too, the angles are half a turn, and the result is negative.
template <scalar T>
constexpr T room_of_passing_tips(const tip_circle<T>& pinion, const tip_circle<T>& ring, const T& centre_distance,
                                 const T& working_involute) {
    const T& a = centre_distance;
    // Half-angle formulas: no difference of squares loses places.
    const T overlap = a + pinion.radius - ring.radius;
    const T beyond_pinion = ring.radius - a + pinion.radius;
    if (!(overlap > T(0)) || !(beyond_pinion > T(0))) return T(T(2) * pi<T>());
    const T sum = a + pinion.radius + ring.radius;
    const T far_side = ring.radius + a - pinion.radius;
    const bool crosses = far_side > T(0);
    const T at_pinion = crosses ? T(T(2) * elementary::atan(elementary::sqrt(T(overlap * sum / (beyond_pinion * far_side))))) : pi<T>();
    const T at_ring = crosses ? T(T(2) * elementary::atan(elementary::sqrt(T(overlap * beyond_pinion / (far_side * sum))))) : pi<T>();
    return T((pinion.teeth * (at_pinion + inv_from_tangent(pinion.tangent)) - ring.teeth * (at_ring + inv_from_tangent(ring.tangent)) +
              (ring.teeth - pinion.teeth) * working_involute) /
             ring.teeth);
}

/// The internal wheel of a pair with a profile shift, of module 1, as its customary cutter makes it.
template <scalar T>
constexpr gear_parameters<T> ring_of(const shiftable_pair<T>& pair, const T& profile_shift, const T& tip_alteration) {
    return {.normal_module = T(1),
            .teeth = pair.wheel_teeth,
            .kind = gear_kind::internal,
            .helix_angle = pair.helix_angle,
            .rack = pair.rack,
            .profile_shift = profile_shift,
            .tip_alteration = tip_alteration};
}

/// True if there is such a ring, and a customary cutter for it.
template <scalar T>
constexpr bool ring_can_be_cut(const gear_parameters<T>& ring) {
    if (gear<T>::check(ring)) return false;
    return !generated_root<T>::check(gear<T>(ring));
}

/// Radius of curvature of the ring's flank where it begins [modules].
template <scalar T>
constexpr T form_roll_of_ring(const gear_parameters<T>& ring) {
    const gear<T> g(ring);
    return T(g.base_diameter() / T(2) * generated_root<T>(g).root_form_roll());
}

/// Radius of curvature of the cutter's flank where it makes the end of the ring's flank, at its tip [modules]. Negative: it trims the tip.
template <scalar T>
constexpr T roll_of_cutter_at_ring_tip(const gear_parameters<T>& ring) {
    const gear<T> g(ring);
    return T(g.base_diameter() / T(2) * g.tip_form_roll() - generating_mesh<T>(g, customary_cutter(g)).path_between_base_circles());
}

/// The least value in a range from which on something that rises is not negative; none if it is so all along. Where it is negative all
/// along, a value beyond the greatest.
template <scalar T, class F>
constexpr std::optional<T> least_with(const F& room, const closed_range<T>& all) {
    if (!(room(all.least) < T(0))) return std::nullopt;
    const T most = room(all.greatest);
    if (most < T(0)) return T(all.greatest - most);
    return bracketed_root(room, all.least, all.greatest);
}

/// The greatest value in a range that has a property which is lost towards its greatest end, to the last place; searched for in even steps
/// from there first. Where none has it, a value beyond the least.
template <scalar T, class Property>
constexpr T greatest_with(const Property& has, const closed_range<T>& all) {
    constexpr int steps = 16;
    T with = all.greatest;
    T without = all.greatest;
    for (int i = 1; i <= steps && !has(with); ++i) {
        without = with;
        with = T(all.greatest - (all.greatest - all.least) * (T(i) / T(steps)));
    }
    if (!has(with)) return T(all.least - T(1));
    for (;;) {
        const T middle = with + (without - with) / T(2);
        if (middle == with || middle == without) return with;
        (has(middle) ? with : without) = middle;
    }
}

} // namespace rackwork::detail

#endif
