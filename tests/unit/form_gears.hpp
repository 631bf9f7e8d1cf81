// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The gears on which the tooth form is proved: ordinary ones, the extremes of the trade, and random ones.
#pragma once

#include "random_source.hpp"

#include <rackwork/form/outline.hpp>
#include <rackwork/form/tooth.hpp>
#include <rackwork/gear.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <optional>
#include <sstream>
#include <string>
#include <variant>
#include <vector>

namespace form_gears {

using rackwork::basic_rack;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::outline;
using rackwork::point;
using rackwork::segment;

inline constexpr double epsilon = std::numeric_limits<double>::epsilon();

struct named_gear {
    std::string name;
    gear_parameters<double> parameters;
};

/// A rack whose root is one arc from flank to flank.
inline basic_rack<double> full_radius_rack(double pressure_angle, double dedendum) {
    return {.pressure_angle = deg(pressure_angle),
            .addendum = 1,
            .dedendum = dedendum,
            .root_fillet_radius = rackwork::full_root_fillet_radius(deg(pressure_angle), dedendum)};
}

inline basic_rack<double> rack_of(double pressure_angle, double addendum, double dedendum, double fillet_radius) {
    return {.pressure_angle = deg(pressure_angle),
            .addendum = addendum,
            .dedendum = dedendum,
            .root_fillet_radius = fillet_radius};
}

/// One of each kind that the tooth form tells apart, and the ends of the ranges.
inline const std::vector<named_gear>& gears() {
    static const std::vector<named_gear> all{
        {"spur, 24 teeth", {.normal_module = 2, .teeth = 24}},
        {"spur, 17 teeth, shifted", {.normal_module = 2.5, .teeth = 17, .profile_shift = 0.3}},
        {"helical, 23 teeth", {.normal_module = 3, .teeth = 23, .helix_angle = deg(20.), .profile_shift = 0.2}},
        {"left hand 45 degrees, 12 teeth", {.normal_module = 1.5, .teeth = 12, .helix_angle = deg(-45.)}},
        {"helix 60 degrees", {.normal_module = 4, .teeth = 19, .helix_angle = deg(60.), .profile_shift = -0.1}},
        {"helix 80 degrees", {.normal_module = 1, .teeth = 5, .helix_angle = deg(80.), .profile_shift = 0.1}},
        {"undercut, 9 teeth", {.normal_module = 5, .teeth = 9}},
        {"undercut helical, 8 teeth",
         {.normal_module = 2, .teeth = 8, .helix_angle = deg(12.), .profile_shift = -0.05}},
        {"sharp tool corner", {.normal_module = 2, .teeth = 30, .rack = rack_of(20, 1, 1.25, 0)}},
        {"sharp tool corner, undercut", {.normal_module = 2, .teeth = 10, .rack = rack_of(20, 1, 1.25, 0)}},
        {"sharp tool corner, undercut, helical",
         {.normal_module = 2, .teeth = 9, .helix_angle = deg(25.), .rack = rack_of(20, 1, 1.2, 0)}},
        {"full radius", {.normal_module = 3, .teeth = 20, .rack = full_radius_rack(20, 1.25)}},
        {"full radius, helical",
         {.normal_module = 3, .teeth = 33, .helix_angle = deg(-31.), .rack = full_radius_rack(25, 1.3)}},
        {"full radius, undercut", {.normal_module = 1, .teeth = 11, .rack = full_radius_rack(14.5, 1.2)}},
        {"large shift, tip shortened", {.normal_module = 2, .teeth = 14, .profile_shift = 1.3, .tip_alteration = -0.7}},
        {"shift that lifts the tool beyond the reference circle",
         {.normal_module = 2, .teeth = 60, .profile_shift = 3, .tip_alteration = -0.4}},
        {"rounding's centre on the rolling line", {.normal_module = 1, .teeth = 32, .profile_shift = 0.87}},
        {"large negative shift", {.normal_module = 2, .teeth = 80, .profile_shift = -1.5}},
        {"pointed tooth", {.normal_module = 2, .teeth = 8, .profile_shift = 0.9}},
        {"one tooth, helical", {.normal_module = 1, .teeth = 1, .helix_angle = deg(60.), .profile_shift = 0.4}},
        {"two teeth", {.normal_module = 3, .teeth = 2, .helix_angle = deg(40.), .profile_shift = 0.7}},
        {"three teeth", {.normal_module = 3, .teeth = 3, .rack = rack_of(25, 0.8, 1.0, 0.2), .profile_shift = 0.6}},
        {"four teeth, spur", {.normal_module = 3, .teeth = 4, .profile_shift = 0.6}},
        {"500 teeth", {.normal_module = 0.5, .teeth = 500}},
        {"300 teeth, helical", {.normal_module = 25, .teeth = 300, .helix_angle = deg(15.), .profile_shift = 0.5}},
        {"pressure angle 5 degrees",
         {.normal_module = 2, .teeth = 90, .rack = rack_of(5, 0.5, 0.6, 0.1), .profile_shift = 0.3}},
        {"pressure angle 1 degree, undercut", {.normal_module = 1, .teeth = 40, .rack = rack_of(1, 1, 1.25, 0.3)}},
        {"pressure angle 14.5 degrees", {.normal_module = 2, .teeth = 40, .rack = rackwork::asa_b6_1_full_depth_14_5}},
        {"pressure angle 45 degrees", {.normal_module = 2, .teeth = 40, .rack = rack_of(45, 0.3, 0.4, 0.4)}},
        {"pressure angle 60 degrees", {.normal_module = 2, .teeth = 25, .rack = rack_of(60, 0.3, 0.35, 0.2)}},
        {"hardly any dedendum", {.normal_module = 2, .teeth = 25, .rack = rack_of(20, 1, 0.05, 0)}},
        {"teeth thinned", {.normal_module = 2, .teeth = 21, .helix_angle = deg(10.), .thickness_allowance = -0.12}},
        {"two inflections in the fillet",
         {.normal_module = 1,
          .teeth = 8,
          .helix_angle = deg(-75.75),
          .rack = rack_of(20, 1.3, 1.52, 0.33),
          .profile_shift = 14}},
    };
    return all;
}

/// Anything within wide limits; most of it is possible, not all.
inline gear_parameters<double> random_parameters(support::random_source& random) {
    const double degrees = random.coin() ? 20. : random.uniform(5, 60);
    const double height = std::numbers::pi / 4 / std::tan(degrees * std::numbers::pi / 180);
    gear_parameters<double> p;
    p.normal_module = random.uniform(0.1, 25);
    p.teeth = random.coin() ? random.integer(1, 24) : random.integer(1, 500);
    p.helix_angle = deg(random.coin() ? 0. : random.uniform(-80, 80));
    p.rack.pressure_angle = deg(degrees);
    p.rack.addendum = std::min(random.uniform(0.2, 1.3), 0.999 * height);
    p.rack.dedendum = std::min(random.uniform(0.2, 3), 0.999 * height);
    const double full = rackwork::full_root_fillet_radius(p.rack.pressure_angle, p.rack.dedendum);
    switch (random.integer(0, 3)) {
    case 0: p.rack.root_fillet_radius = 0; break;
    case 1: p.rack.root_fillet_radius = full; break;
    default: p.rack.root_fillet_radius = random.uniform(0, full); break;
    }
    p.profile_shift = random.integer(0, 3) > 0 ? random.uniform(-1, 1.5) : random.uniform(-5, 20);
    return p;
}

/// The tooth form's own objection counts as "not possible", so that what is left must be right.
inline std::optional<gear<double>> gear_with_a_form(const gear_parameters<double>& p) {
    try {
        const gear<double> g(p);
        static_cast<void>(rackwork::tooth_form<double>(g));
        return g;
    } catch (const rackwork::geometry_error&) {
        return std::nullopt;
    }
}

/// So many random gears that have a tooth form, the same on every run.
inline std::vector<gear<double>> random_gears(std::size_t count, unsigned seed) {
    support::random_source random{seed};
    std::vector<gear<double>> result;
    while (result.size() < count) {
        if (const auto g = gear_with_a_form(random_parameters(random))) result.push_back(*g);
    }
    return result;
}

/// The named gears and some random ones.
inline std::vector<gear<double>> named_and_random_gears(std::size_t random_count, unsigned seed) {
    std::vector<gear<double>> result = random_gears(random_count, seed);
    for (const named_gear& each : gears()) result.emplace_back(each.parameters);
    return result;
}

inline std::string described(const gear_parameters<double>& p) {
    std::ostringstream text;
    text.precision(17);
    text << "module " << p.normal_module << ", " << p.teeth << " teeth, helix " << p.helix_angle.deg()
         << ", pressure angle " << p.rack.pressure_angle.deg() << ", addendum " << p.rack.addendum << ", dedendum "
         << p.rack.dedendum << ", fillet " << p.rack.root_fillet_radius << ", shift " << p.profile_shift
         << ", tip alteration " << p.tip_alteration << ", allowance " << p.thickness_allowance;
    return text.str();
}

inline std::string described(const gear<double>& g) { return described(g.parameters()); }

/// The same gear at another precision: every number that was given, to the bit; but a full radius is one again.
template <class T>
gear<T> at_precision(const gear<double>& g) {
    const gear_parameters<double>& p = g.parameters();
    const rackwork::angle<T> pressure_angle = rackwork::rad(T(p.rack.pressure_angle.rad()));
    const T full_radius = rackwork::full_root_fillet_radius(pressure_angle, T(p.rack.dedendum));
    const bool is_full = std::fabs(p.rack.half_root_land()) <= 16 * epsilon;
    return gear<T>(
        gear_parameters<T>{.normal_module = T(p.normal_module),
                           .teeth = p.teeth,
                           .helix_angle = rackwork::rad(T(p.helix_angle.rad())),
                           .rack = {.pressure_angle = pressure_angle,
                                    .addendum = T(p.rack.addendum),
                                    .dedendum = T(p.rack.dedendum),
                                    .root_fillet_radius = is_full ? full_radius : T(p.rack.root_fillet_radius)},
                           .profile_shift = T(p.profile_shift),
                           .tip_alteration = T(p.tip_alteration),
                           .thickness_allowance = T(p.thickness_allowance)});
}

/// The segments of one tooth and of the root land that follows, if there is one.
template <class T>
std::vector<segment<T>> one_tooth(const gear<T>& g, int i = 0) {
    std::vector<segment<T>> result;
    rackwork::tooth_form<T>(g).append_tooth(result, i);
    return result;
}

template <class T>
bool is_flank(const segment<T>& s) {
    return std::holds_alternative<rackwork::involute<T>>(s.curve);
}
template <class T>
bool is_fillet(const segment<T>& s) {
    return std::holds_alternative<rackwork::trochoid<T>>(s.curve);
}
template <class T>
bool is_arc(const segment<T>& s) {
    return std::holds_alternative<rackwork::circle<T>>(s.curve);
}

/// The parameter at a share of the way through a segment.
template <class T>
T parameter_at(const segment<T>& s, const T& share) {
    return T(s.from + (s.to - s.from) * share);
}

} // namespace form_gears
