// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// All trains of two stages, and all planetary trains, for a ratio and a size.
#ifndef RACKWORK_DESIGN_TRAIN_SEARCH_HPP
#define RACKWORK_DESIGN_TRAIN_SEARCH_HPP

#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "pair_search.hpp"
#include "search.hpp"
#include "shiftable_pair.hpp"

#include <cstddef>
#include <cstdint>
#include <span>

namespace rackwork {

/// What a train of two stages is needed for.
template <scalar T = double>
struct two_stage_need {
    /// Ratio of the whole train, z_2/z_1 times z_4/z_3. Must be given.
    closed_range<T> ratio{T(0), T(0)};
    /// Either stage by itself: limits, modules, centre distance, and the ratio that it may have.
    pair_need<T> first{};
    pair_need<T> second{};
    /// True if input and output shaft are in line: the second stage then takes the centre distance of the first, if it is in its own range.
    bool in_line = false;
};

/// What is impossible about a need, or nothing.
template <scalar T>
constexpr violation check(const two_stage_need<T>& need) {
    return first_of(check_greater("least ratio of the train", need.ratio.least, T(0)),
                    check_at_least("greatest ratio of the train", need.ratio.greatest, need.ratio.least), check(need.first),
                    check(need.second));
}

/// A train of two stages that fits a need.
template <scalar T>
struct two_stage_candidate {
    pair_candidate<T> first;
    pair_candidate<T> second;

    constexpr T gear_ratio() const { return T(first.gear_ratio() * second.gear_ratio()); }
};

/// What a planetary train is needed for: sun, planets, ring.
template <scalar T = double>
struct planetary_need {
    /// Ratio from the sun to the carrier with the ring standing, 1 + z_ring/z_sun. Must be given.
    closed_range<T> ratio{T(0), T(0)};
    /// Centre distance of sun and planet. Must be given.
    closed_range<T> centre_distance{T(0), T(0)};
    /// Normal modules to choose from; they must stay where they are as long as the search lasts. Must be given.
    std::span<const T> modules{};
    closed_range<int> sun_teeth{12, 150};
    closed_range<int> planet_teeth{12, 150};
    closed_range<int> ring_teeth{30, 400};
    /// Number of planets, evenly spaced.
    closed_range<int> planets{3, 3};
    /// z_ring - z_sun - 2 z_planet. Other than 0 only with profile shifts.
    closed_range<int> tooth_difference{0, 0};
    helix_steps<T> helix{};
    /// Sums of profile shift coefficients of sun and planet, and of planet and ring (a positive shift thickens the ring's teeth).
    closed_range<T> sun_shift_sum{T(T(-1) / T(2)), T(T(3) / T(2))};
    closed_range<T> ring_shift_sum{T(T(-3) / T(2)), T(T(3) / T(2))};
    angle<T> normal_pressure_angle = deg(T(20));
    /// Addendum factor of the planets, and the least gap between the tip circles of neighbours, a factor of the module.
    T addendum{1};
    T planet_gap{T(1) / T(2)};
};

/// What is impossible about a need, or nothing.
template <scalar T>
constexpr violation check(const planetary_need<T>& need) {
    pair_need<T> mesh_of_sun{.ratio = {T(1), T(1)},
                             .centre_distance = need.centre_distance,
                             .modules = need.modules,
                             .pinion_teeth = need.sun_teeth,
                             .wheel_teeth = need.planet_teeth,
                             .helix = need.helix,
                             .profile_shift_sum = need.sun_shift_sum,
                             .normal_pressure_angle = need.normal_pressure_angle};
    pair_need<T> mesh_of_ring = mesh_of_sun;
    mesh_of_ring.wheel_teeth = need.ring_teeth;
    mesh_of_ring.profile_shift_sum = need.ring_shift_sum;
    return first_of(check_greater("least ratio of the planetary train", need.ratio.least, T(1)),
                    check_at_least("greatest ratio of the planetary train", need.ratio.greatest, need.ratio.least), check(mesh_of_sun),
                    check(mesh_of_ring), check_at_least("least number of planets", T(need.planets.least), T(1)),
                    check_at_least("greatest number of planets", T(need.planets.greatest), T(need.planets.least)),
                    check_at_most("greatest number of planets", T(need.planets.greatest), T(1 << 20)),
                    check_at_least("greatest tooth_difference", T(need.tooth_difference.greatest), T(need.tooth_difference.least)),
                    check_magnitude("least tooth_difference", T(need.tooth_difference.least), T(1 << 20)),
                    check_magnitude("greatest tooth_difference", T(need.tooth_difference.greatest), T(1 << 20)),
                    check_finite("addendum", need.addendum), check_finite("planet_gap", need.planet_gap));
}

/// A planetary train that fits a need.
template <scalar T>
struct planetary_candidate {
    T normal_module{0};
    int sun_teeth = 0;
    int planet_teeth = 0;
    int ring_teeth = 0;
    int planets = 0;
    angle<T> helix_angle{};
    T centre_distance{0};
    /// x_sun + x_planet and x_planet + x_ring; with one shift for the planet they fix the other two.
    T sun_shift_sum{0};
    T ring_shift_sum{0};
    /// Gap between the tip circles of neighbouring planets [length], taken with half the sun's and planet's sum of shifts for the planet;
    /// a single planet has none and counts the distance to itself across the axis.
    T planet_gap{0};

    /// 1 + z_ring/z_sun, from the sun to the carrier with the ring standing.
    constexpr T gear_ratio() const { return T(T(1) + T(ring_teeth) / T(sun_teeth)); }
};

namespace detail {

/// A second stage for every first one.
template <scalar T>
class two_stage_cursor {
public:
    explicit two_stage_cursor(const two_stage_need<T>& need) : need_(need), first_(need.first), second_(need.second) {}

    search_state run(std::uint64_t budget) {
        const std::uint64_t pause = examined_ + budget;
        for (;;) {
            if (examined_ == pause) return search_state::pausing;
            pair_cursor<T>& at = in_second_ ? second_ : first_;
            const std::uint64_t before = at.examined();
            const search_state state = at.run(pause - examined_);
            examined_ += at.examined() - before;
            if (state == search_state::pausing) continue;
            if (in_second_) {
                if (state == search_state::found) {
                    current_ = {first_.current(), second_.current()};
                    return state;
                }
                in_second_ = false;
            } else {
                if (state == search_state::exhausted) return state;
                begin_second();
            }
        }
    }

    const two_stage_candidate<T>& current() const { return current_; }
    std::uint64_t examined() const { return examined_; }
    double share() const { return first_.share(); }

private:
    void begin_second() {
        const pair_candidate<T>& first = first_.current();
        pair_need<T> need = need_.second;
        const T ratio = first.gear_ratio();
        need.ratio.least = larger(need.ratio.least, T(need_.ratio.least / ratio));
        need.ratio.greatest = smaller(need.ratio.greatest, T(need_.ratio.greatest / ratio));
        if (need.ratio.greatest < need.ratio.least) return;
        if (need_.in_line) {
            if (!need.centre_distance.contains(first.centre_distance)) return;
            need.centre_distance = {first.centre_distance, first.centre_distance};
        }
        second_ = pair_cursor<T>(need);
        in_second_ = true;
    }

    two_stage_need<T> need_;
    pair_cursor<T> first_;
    pair_cursor<T> second_;
    bool in_second_ = false;
    std::uint64_t examined_ = 0;
    two_stage_candidate<T> current_{};
};

/// Goes through helix angles, modules, suns, rings, tooth differences and numbers of planets, in this order from the outside.
template <scalar T>
class planetary_cursor {
public:
    explicit planetary_cursor(const planetary_need<T>& need)
        : need_(need), rings_per_sun_{need.ratio.least - T(1), need.ratio.greatest - T(1)} {
        const auto suns = static_cast<std::int64_t>(need_.sun_teeth.greatest - need_.sun_teeth.least + 1);
        rows_ = need_.helix.count * static_cast<std::int64_t>(need_.modules.size()) * suns;
        rule_ = {need_.helix.at(0), need_.normal_pressure_angle};
        sun_ = need_.sun_teeth.least - 1;
        planets_ = need_.planets.greatest;
        difference_ = need_.tooth_difference.greatest;
    }

    search_state run(std::uint64_t budget) {
        const std::uint64_t pause = examined_ + budget;
        for (;;) {
            if (examined_ == pause) return search_state::pausing;
            if (!next()) return search_state::exhausted;
            ++examined_;
            if (fits()) return search_state::found;
        }
    }

    const planetary_candidate<T>& current() const { return current_; }
    std::uint64_t examined() const { return examined_; }
    double share() const { return row_ < rows_ ? static_cast<double>(row_ < 0 ? 0 : row_) / static_cast<double>(rows_) : 1.0; }

private:
    bool next() {
        if (planets_ < need_.planets.greatest) {
            ++planets_;
            return true;
        }
        planets_ = need_.planets.least;
        if (difference_ < need_.tooth_difference.greatest) {
            ++difference_;
            return true;
        }
        difference_ = need_.tooth_difference.least;
        while (ring_ >= last_ring_) {
            if (!next_sun()) return false;
        }
        ++ring_;
        return true;
    }
    bool next_sun() {
        if (++row_ >= rows_) {
            row_ = rows_;
            return false;
        }
        if (sun_ == need_.sun_teeth.greatest) {
            sun_ = need_.sun_teeth.least - 1;
            if (++module_ == need_.modules.size()) {
                module_ = 0;
                ++helix_;
                rule_ = {need_.helix.at(helix_), need_.normal_pressure_angle};
            }
        }
        ++sun_;
        const closed_range<int> rings = multiples_in(rings_per_sun_, sun_, need_.ring_teeth);
        ring_ = rings.least - 1;
        last_ring_ = rings.greatest;
        return true;
    }

    bool fits() {
        // Evenly spaced planets can be put in only if the teeth of sun and ring together divide by their number.
        if ((sun_ + ring_) % planets_ != 0) return false;
        const int twice_planet = ring_ - sun_ - difference_;
        if (twice_planet < 0 || twice_planet % 2 != 0) return false;
        const int planet = twice_planet / 2;
        if (!need_.planet_teeth.contains(planet) || planet >= ring_) return false;
        const T& module = need_.modules[module_];
        const T of_sun = rule_.reference(module, sun_ + planet);
        const T distance = nearest_in(need_.centre_distance, of_sun);
        T sun_sum{0};
        T ring_sum{0};
        if (!rule_.find(sun_ + planet, of_sun, distance, sun_sum) || !need_.sun_shift_sum.contains(sun_sum)) return false;
        const int between = planet - ring_;
        if (!rule_.find(between, rule_.reference(module, between), distance, ring_sum) || !need_.ring_shift_sum.contains(ring_sum)) {
            return false;
        }
        const T planet_tip = rule_.reference(module, 2 * planet) + T(2) * module * (need_.addendum + sun_sum / T(2));
        const T gap = T(2) * distance * elementary::sin(T(pi<T>() / T(planets_ == 1 ? 2 : planets_))) - planet_tip;
        if (gap < need_.planet_gap * module) return false;
        current_ = {.normal_module = module,
                    .sun_teeth = sun_,
                    .planet_teeth = planet,
                    .ring_teeth = ring_,
                    .planets = planets_,
                    .helix_angle = need_.helix.at(helix_),
                    .centre_distance = distance,
                    .sun_shift_sum = sun_sum,
                    .ring_shift_sum = ring_sum,
                    .planet_gap = gap};
        return true;
    }

    planetary_need<T> need_;
    closed_range<T> rings_per_sun_;
    shift_sum_rule<T> rule_{};
    std::int64_t rows_ = 0;
    std::int64_t row_ = -1;
    int helix_ = 0;
    std::size_t module_ = 0;
    int sun_ = 0;
    int ring_ = 0;
    int last_ring_ = 0;
    int difference_ = 0;
    int planets_ = 0;
    std::uint64_t examined_ = 0;
    planetary_candidate<T> current_{};
};

} // namespace detail

/// All trains of two stages that fit a need, lazily: for every first stage that fits, every second one that makes up the ratio. Each stage
/// is looked for as pair_search does. Throws geometry_error for an impossible need.
template <scalar T>
search<detail::two_stage_cursor<T>> two_stage_search(const two_stage_need<T>& need) {
    require(check(need));
    return search<detail::two_stage_cursor<T>>(detail::two_stage_cursor<T>(need));
}

/// All planetary trains that fit a need, lazily: evenly spaced planets that can be assembled and do not touch, and meshes at one common
/// centre distance (the one in the range that is nearest to sun and planet's reference one) with permissible sums of profile shifts.
/// Throws geometry_error for an impossible need.
template <scalar T>
search<detail::planetary_cursor<T>> planetary_search(const planetary_need<T>& need) {
    require(check(need));
    return search<detail::planetary_cursor<T>>(detail::planetary_cursor<T>(need));
}

} // namespace rackwork

#endif
