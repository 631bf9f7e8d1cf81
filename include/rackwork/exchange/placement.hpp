// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Where the two gears of a pair stand when they are drawn in mesh.
#ifndef RACKWORK_EXCHANGE_PLACEMENT_HPP
#define RACKWORK_EXCHANGE_PLACEMENT_HPP

#include "../centre_distance.hpp"
#include "../core/angle.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../mesh.hpp"

namespace rackwork {

/// A gear's place in the plane: it is turned about its own axis, counter-clockwise positive, and then moved.
template <scalar T = double>
struct placement {
    /// Where the gear's axis comes to lie.
    point<T> centre{};
    /// The angle by which tooth 0 is turned away from the x axis.
    angle<T> turn{};

    /// Where a point of the gear comes to lie.
    constexpr point<T> operator()(const point<T>& of_gear) const { return centre + turned(of_gear, turn.rad()); }
};

/// The two gears of a pair in mesh: the pinion's axis at the origin, the wheel's on the x axis at the centre distance, an internal wheel's
/// on its other side, so that the teeth meet at positive x in any case. With the pinion not turned its tooth 0 lies on the line of
/// centres and points at the middle of a space of the wheel, so that half of the backlash is on either side of it. Turning the pinion
/// turns the wheel the other way, an internal wheel the same way, by the ratio of the tooth numbers.
template <scalar T>
constexpr for_both<placement<T>> placement_in_mesh(const mesh<T>& pair, const angle<T>& pinion_turn = {}) {
    const int wheel_teeth = pair.wheel().teeth();
    const T sign = pair.wheel().kind_sign();
    // An internal wheel's tooth 0 is on the side of the mesh. Of an external wheel, opposite tooth 0 lies a space if its tooth number is odd,
    // otherwise a tooth.
    const T space = !pair.is_internal() && wheel_teeth % 2 == 1 ? T(0) : T(pi<T>() / T(wheel_teeth));
    return {.pinion = {.centre = {}, .turn = pinion_turn},
            .wheel = {.centre = {T(sign * pair.centre_distance()), T(0)},
                      .turn = rad(T(space - sign * pinion_turn.rad() * T(pair.pinion().teeth()) / T(wheel_teeth)))}};
}

} // namespace rackwork

#endif
