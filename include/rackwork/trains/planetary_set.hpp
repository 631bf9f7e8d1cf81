// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Sun, planets and ring: can they be put together, do they fit one centre distance, do the planets pass each other.
#ifndef RACKWORK_TRAINS_PLANETARY_SET_HPP
#define RACKWORK_TRAINS_PLANETARY_SET_HPP

#include "../centre_distance.hpp"
#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../mesh.hpp"

#include <cstdint>
#include <type_traits>

namespace rackwork {

/// A planetary set of one stage: planets of one set of teeth run on a sun and in an internal ring.
template <scalar T = double>
struct planetary_set {
    gear<T> sun;
    gear<T> planet;
    /// Internal.
    gear<T> ring;
    /// Number of planets, N. At least 1.
    int planets = 3;
    /// Radius of the circle on the carrier on which the planets' axes lie, a.
    T centre_distance{0};
};

/// What is impossible about a planetary set, or nothing: gears that do not fit each other or the centre distance, an external ring.
/// (Gears that fit and still do not make a set are findings.)
template <scalar T>
constexpr violation check(const planetary_set<T>& set) {
    if (!set.ring.is_internal()) return {"kind of the ring", 0, "must be internal", 0, false};
    if (set.planet.is_internal()) return {"kind of the planet", 1, "must be external", 0, false};
    if (set.sun.is_internal()) return {"kind of the sun", 1, "must be external", 0, false};
    return first_of(check_at_least("planets", T(set.planets), T(1)), mesh<T>::check(set.sun, set.planet, set.centre_distance),
                    mesh<T>::check(set.planet, set.ring, set.centre_distance));
}

/// Sun and planet at the carrier's centre distance. Throws geometry_error where they do not fit.
template <scalar T>
constexpr mesh<T> sun_mesh(const planetary_set<T>& set) {
    return mesh<T>(set.sun, set.planet, set.centre_distance);
}
/// Planet and ring at the carrier's centre distance. Throws geometry_error where they do not fit.
template <scalar T>
constexpr mesh<T> ring_mesh(const planetary_set<T>& set) {
    return mesh<T>(set.planet, set.ring, set.centre_distance);
}

/// Ratios of a planetary set, each from a driving to a driven member while the third stands; negative where they turn opposite ways.
template <scalar T>
struct planetary_ratios {
    /// From the sun to the carrier with the ring standing, 1 + z_R/z_S.
    T ring_standing;
    /// From the ring to the carrier with the sun standing, 1 + z_S/z_R.
    T sun_standing;
    /// From the sun to the ring with the carrier standing, -z_R/z_S.
    T carrier_standing;
};

/// Ratios of a planetary set by its tooth numbers. Throws geometry_error for less than 1 tooth.
template <scalar T = double>
constexpr planetary_ratios<T> planetary_ratios_of(int sun_teeth, int ring_teeth) {
    require(first_of(check_at_least("sun_teeth", T(sun_teeth), T(1)), check_at_least("ring_teeth", T(ring_teeth), T(1))));
    const T sun = T(sun_teeth);
    const T ring = T(ring_teeth);
    return {.ring_standing = T(T(1) + ring / sun), .sun_standing = T(T(1) + sun / ring), .carrier_standing = T(T(0) - ring / sun)};
}
template <scalar T>
constexpr planetary_ratios<T> planetary_ratios_of(const planetary_set<T>& set) {
    return planetary_ratios_of<T>(set.sun.teeth(), set.ring.teeth());
}

/// The places in which planets can be put between sun and ring are z_S + z_R in number and evenly spaced round the axis, whatever the
/// planet's tooth number: with the ring standing, a turn of the carrier from one to the next moves the sun on by one tooth.
/// Throws geometry_error for less than 1 tooth.
constexpr std::int64_t planet_places(int sun_teeth, int ring_teeth) {
    require(first_of(check_at_least("sun_teeth", static_cast<double>(sun_teeth), 1.0),
                     check_at_least("ring_teeth", static_cast<double>(ring_teeth), 1.0)));
    return static_cast<std::int64_t>(sun_teeth) + ring_teeth;
}

/// Assembly condition: planets in that number can be put in evenly spaced, since (z_S + z_R)/N is whole. Throws geometry_error for less
/// than 1 tooth or planet.
constexpr bool can_be_evenly_spaced(int sun_teeth, int ring_teeth, int planets) {
    require(check_at_least("planets", static_cast<double>(planets), 1.0));
    return planet_places(sun_teeth, ring_teeth) % planets == 0;
}

/// Number of the place, from 0, for a planet with an index from 0 to N - 1: the one nearest to even spacing, ties forward.
/// Throws geometry_error for less than 1 tooth or planet and an index out of range.
constexpr std::int64_t place_of_planet(int sun_teeth, int ring_teeth, int planets, int index) {
    require(first_of(check_at_least("planets", static_cast<double>(planets), 1.0),
                     check_at_least("index of the planet", static_cast<double>(index), 0.0),
                     check_less("index of the planet", static_cast<double>(index), static_cast<double>(planets))));
    const std::int64_t each = planet_places(sun_teeth, ring_teeth) / planets;
    const std::int64_t rest = planet_places(sun_teeth, ring_teeth) % planets;
    return each * index + (2 * rest * index + planets) / (2 * static_cast<std::int64_t>(planets));
}

/// Angle at which that planet stands on the carrier, counter-clockwise from the first one: 360 degrees times place over places.
template <scalar T>
constexpr angle<T> angle_of_planet(const planetary_set<T>& set, int index) {
    const std::int64_t place = place_of_planet(set.sun.teeth(), set.ring.teeth(), set.planets, index);
    const std::int64_t places = planet_places(set.sun.teeth(), set.ring.teeth());
    // A double holds whole numbers of that size exactly.
    return rad(T(T(2) * pi<T>() * T(static_cast<double>(place)) / T(static_cast<double>(places))));
}

/// Least gap between the tip circles of neighbouring planets in their places, 2 a sin(theta/2) - d_a with the least angle theta between
/// neighbours (180 degrees / N for theta/2 when evenly spaced). Negative where they would run into each other.
/// Throws geometry_error for less than 2 planets.
template <scalar T>
constexpr T neighbour_clearance(const planetary_set<T>& set) {
    require(check_at_least("planets", T(set.planets), T(2)));
    const std::int64_t places = planet_places(set.sun.teeth(), set.ring.teeth());
    // Rounding puts them floor(places/N) or one more apart; the least distance is the floor, and it occurs wherever N > 1.
    const std::int64_t least = places / set.planets;
    const T half = pi<T>() * T(static_cast<double>(least)) / T(static_cast<double>(places));
    return T(T(2) * set.centre_distance * elementary::sin(half) - set.planet.effective_tip_diameter());
}

/// Centre distances at which sun and planet, and planet and ring, each run without backlash, as their profile shifts alone make them. A set
/// without backlash has the same for both, which is the carrier's.
template <scalar T>
struct planetary_centre_distances {
    T of_sun_mesh;
    T of_ring_mesh;
};
/// Throws geometry_error where gears do not fit each other.
template <scalar T>
constexpr planetary_centre_distances<T> centre_distances_of(const planetary_set<T>& set) {
    return {.of_sun_mesh = mesh<T>(set.sun, set.planet).centre_distance(), .of_ring_mesh = mesh<T>(set.planet, set.ring).centre_distance()};
}

/// Profile shift coefficients of the three gears of a planetary set.
template <scalar T>
struct planetary_shifts {
    T sun;
    T planet;
    /// Positive thickens the ring's teeth and makes its tip and root circles smaller.
    T ring;
};

/// What the gears of a planetary set have in common, and their tooth numbers, while the shifts are still to be chosen.
template <scalar T = double>
struct planetary_proportions {
    /// Normal module, m_n. Greater than 0; must be given.
    T normal_module{0};
    int sun_teeth = 0;
    int planet_teeth = 0;
    int ring_teeth = 0;
    /// Helix angle at the reference cylinder; its hand does not matter here.
    angle<T> helix_angle{};
    /// Normal pressure angle, alpha_n.
    angle<T> normal_pressure_angle = deg(T(20));

    constexpr pair_proportions<T> sun_and_planet() const {
        return {.normal_module = normal_module,
                .pinion_teeth = sun_teeth,
                .wheel_teeth = planet_teeth,
                .helix_angle = helix_angle,
                .normal_pressure_angle = normal_pressure_angle};
    }
    constexpr pair_proportions<T> planet_and_ring() const {
        return {.normal_module = normal_module,
                .pinion_teeth = planet_teeth,
                .wheel_teeth = ring_teeth,
                .helix_angle = helix_angle,
                .normal_pressure_angle = normal_pressure_angle,
                .wheel_kind = gear_kind::internal};
    }
};

/// The shifts with which both meshes of a planetary set run without backlash at a centre distance; the planet's is chosen, the sun's and the
/// ring's follow. With z_R = z_S + 2 z_P at the reference centre distance: x_S = x_R = -x_P.
/// Throws geometry_error for impossible proportions, and a centre distance that a mesh cannot have.
template <scalar T>
constexpr planetary_shifts<T> planetary_shifts_at(const planetary_proportions<T>& proportions, const std::type_identity_t<T>& centre_distance,
                                                  const std::type_identity_t<T>& planet_shift = T(0)) {
    require(check_finite("planet_shift", planet_shift));
    return {.sun = T(profile_shift_sum(proportions.sun_and_planet(), T(centre_distance)) - planet_shift),
            .planet = planet_shift,
            .ring = T(profile_shift_sum(proportions.planet_and_ring(), T(centre_distance)) - planet_shift)};
}

} // namespace rackwork

#endif
