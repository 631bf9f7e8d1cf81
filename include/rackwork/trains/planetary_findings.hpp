// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What is possible but doubtful about a planetary set. Returned, never printed; nothing stops.
#ifndef RACKWORK_TRAINS_PLANETARY_FINDINGS_HPP
#define RACKWORK_TRAINS_PLANETARY_FINDINGS_HPP

#include "../core/scalar.hpp"
#include "../finding.hpp"
#include "../findings.hpp"
#include "hunting_tooth.hpp"
#include "planetary_set.hpp"

#include <array>
#include <cstddef>

namespace rackwork {

/// The kinds of finding about a planetary set as a whole.
enum class planetary_finding_code : unsigned char {
    not_evenly_spaced,      ///< the planets can only be put in at uneven places
    planets_collide,        ///< the tip circles of neighbouring planets overlap, or leave too little room
    meshes_disagree,        ///< sun mesh and ring mesh run without backlash at different centre distances
    teeth_meet_repeatedly   ///< tooth numbers with a common divisor: the same teeth meet again and again
};

/// One finding about a planetary set: what, how bad, the value, the limit that it misses, and a sentence. Lengths in the module's unit.
template <scalar T>
struct planetary_finding {
    planetary_finding_code code{};
    rackwork::severity severity{};
    /// Name of the quantity that `value` and `limit` are values of.
    const char* quantity = "";
    T value{0};
    T limit{0};
    const char* sentence = "";
};

/// Findings about a planetary set: about the set as a whole, and about its two meshes.
template <scalar T>
class planetary_finding_list {
public:
    static constexpr std::size_t capacity = 8;

    /// About sun (pinion) and planet (wheel), and about planet (pinion) and ring (wheel).
    finding_list<T> sun_mesh;
    finding_list<T> ring_mesh;

    constexpr void add(const planetary_finding<T>& f) {
        // A set has at most 5.
        if (size_ < capacity) items_[size_++] = f;
    }
    constexpr std::size_t size() const { return size_; }
    constexpr bool empty() const { return size_ == 0; }
    constexpr const planetary_finding<T>* begin() const { return items_.data(); }
    constexpr const planetary_finding<T>* end() const { return items_.data() + size_; }
    constexpr const planetary_finding<T>& operator[](std::size_t i) const { return items_[i]; }
    /// True if there is a finding with the code about the set as a whole.
    constexpr bool has(planetary_finding_code code) const {
        for (const planetary_finding<T>& f : *this) {
            if (f.code == code) return true;
        }
        return false;
    }

private:
    std::array<planetary_finding<T>, capacity> items_{};
    std::size_t size_ = 0;
};

/// The limits that the findings of a planetary set go by.
template <scalar T = double>
struct planetary_finding_limits {
    /// Least gap between neighbouring planets, as a factor of the module. Common practice.
    T neighbour_clearance{T(1) / T(2)};
    finding_limits<T> meshes{};
};

/// Findings about a planetary set and about its meshes at the carrier's centre distance. Throws geometry_error as check(set) says.
template <scalar T>
constexpr planetary_finding_list<T> findings(const planetary_set<T>& set, const planetary_finding_limits<T>& limits = {}) {
    require(check(set));
    planetary_finding_list<T> list;
    list.sun_mesh = findings(sun_mesh(set), limits.meshes);
    list.ring_mesh = findings(ring_mesh(set), limits.meshes);

    const int sun = set.sun.teeth();
    const int ring = set.ring.teeth();
    if (!can_be_evenly_spaced(sun, ring, set.planets)) {
        const std::int64_t rest = planet_places(sun, ring) % set.planets;
        list.add({.code = planetary_finding_code::not_evenly_spaced,
                  .severity = severity::warning,
                  .quantity = "remainder of the sun's and ring's teeth by the number of planets",
                  .value = T(static_cast<double>(rest)),
                  .limit = T(0),
                  .sentence = "The planets cannot be put in evenly spaced: the carrier must have them at the nearest places, and the forces "
                              "on the sun do not balance."});
    }
    if (set.planets > 1) {
        const T gap = neighbour_clearance(set);
        const T least = limits.neighbour_clearance * set.planet.normal_module();
        if (gap < least) {
            list.add({.code = planetary_finding_code::planets_collide,
                      .severity = gap > T(0) ? severity::warning : severity::fault,
                      .quantity = "neighbour_clearance",
                      .value = gap,
                      .limit = least,
                      .sentence = gap > T(0) ? "Neighbouring planets pass each other with little room."
                                             : "Neighbouring planets run into each other: take fewer planets, or planets with fewer teeth."});
        }
    }
    if (const violation v = first_of(mesh<T>::check(set.sun, set.planet), mesh<T>::check(set.planet, set.ring)); !v) {
        const planetary_centre_distances<T> own = centre_distances_of(set);
        // Equal to rounding, or to what the last places of stated shifts make of it, is equal.
        const T rounding = T(256) * epsilon<T>() * set.ring.reference_diameter();
        if (magnitude(T(own.of_ring_mesh - own.of_sun_mesh)) > rounding) {
            list.add({.code = planetary_finding_code::meshes_disagree,
                      .severity = own.of_ring_mesh < own.of_sun_mesh ? severity::warning : severity::note,
                      .quantity = "centre distance of the ring mesh without backlash",
                      .value = own.of_ring_mesh,
                      .limit = own.of_sun_mesh,
                      .sentence = own.of_ring_mesh < own.of_sun_mesh
                                      ? "No centre distance keeps both meshes from overlapping unless the teeth are thinned: other profile "
                                        "shifts give both meshes one centre distance."
                                      : "The two meshes have no common centre distance without backlash: some of it is in the profile shifts."});
        }
    }
    const auto add_divisor = [&](int one, int other, const char* quantity) {
        const int divisor = hunting_tooth(one, other).common_divisor;
        if (divisor == 1) return;
        list.add({.code = planetary_finding_code::teeth_meet_repeatedly,
                  .severity = severity::note,
                  .quantity = quantity,
                  .value = T(divisor),
                  .limit = T(1),
                  .sentence = "The tooth numbers have a common divisor: a fault of one tooth always meets the same teeth of the mate."});
    };
    add_divisor(sun, set.planet.teeth(), "common divisor of the sun's and planet's teeth");
    add_divisor(set.planet.teeth(), ring, "common divisor of the planet's and ring's teeth");
    return list;
}

} // namespace rackwork

#endif
