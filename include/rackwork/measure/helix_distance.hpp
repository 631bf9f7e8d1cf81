// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The equation behind the shortest distance between two helices and between two tangents of helices.
#ifndef RACKWORK_MEASURE_HELIX_DISTANCE_HPP
#define RACKWORK_MEASURE_HELIX_DISTANCE_HPP

#include "../core/elementary.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"

#include <type_traits>

namespace rackwork::detail {

/// Solves  phi + e/2 sin 2 phi = psi  (Kepler's equation for the angle 2 phi) for 0 <= psi <= pi/2 and e > -1.
/// Two measures lead to it:
///   the caliper's chord, the shortest distance between the helices in which a cylinder cuts both flanks, with
///     e = tan^2 beta_y: distance^2/4 = r^2 sin^2 phi + (r (phi - psi)/tan beta_y)^2 is least there;
///   flat anvils on two pins in spaces that do not face each other, with e = -tan^2 beta_K (see pins.hpp).
/// Radians. Accuracy: last place divided by 1 + e cos 2 phi.
template <scalar T>
constexpr T kepler_angle(const T& psi, const T& e) {
    // Plain numbers without a helix need no search; numbers that carry derivatives must see e all the same.
    if constexpr (std::is_floating_point_v<T>) {
        if (e == T(0)) return psi;
    }
    const auto excess = [&](const T& phi) { return T(phi + e / T(2) * elementary::sin(T(T(2) * phi)) - psi); };
    const T reach = psi + magnitude(e) / T(2);
    const T found = e < T(0) ? bracketed_root(excess, psi, reach) : bracketed_root(excess, T(0), psi);
    return T(found - excess(found) / (T(1) + e * elementary::cos(T(T(2) * found))));
}

} // namespace rackwork::detail

#endif
