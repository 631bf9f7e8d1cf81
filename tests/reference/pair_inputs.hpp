// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A pair of gears as a list of plain numbers, each with a name and a size, so that every one of them can be moved or differentiated.
#pragma once

#include "random_gears.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>

#include <rackwork/mesh.hpp>

namespace reference {

/// What the gears share, then shift, tip alteration, allowance and face width of either, the centre distance, and the height of the
/// pinion's chamfer, its pressure angle and a diameter on the pinion's flank.
inline constexpr std::size_t pair_inputs = 18;

inline constexpr std::array<const char*, pair_inputs> pair_input_names{
    "normal module",          "helix angle",       "pressure angle",        "addendum",        "dedendum",
    "root fillet radius",     "pinion's shift",    "pinion's tip alteration", "pinion's allowance", "pinion's face width",
    "wheel's shift",          "wheel's tip alteration", "wheel's allowance", "wheel's face width", "centre distance",
    "chamfer's height",       "chamfer's pressure angle", "diameter on the pinion"};

/// A drawn pair: the numbers, and what is not a number.
struct drawn_pair {
    std::array<double, pair_inputs> value{};
    /// How far each may be moved for its effect to count; 0: not at all.
    std::array<double, pair_inputs> size{};
    int pinion_teeth = 0;
    int wheel_teeth = 0;
    rackwork::gear_kind wheel_kind = rackwork::gear_kind::external;
};

template <class T>
using pair_numbers = std::array<T, pair_inputs>;

template <class T>
pair_numbers<T> numbers_of(const drawn_pair& drawn) {
    pair_numbers<T> x;
    for (std::size_t i = 0; i < pair_inputs; ++i) x[i] = static_cast<T>(drawn.value[i]);
    return x;
}

template <class T>
rackwork::gear_parameters<T> pinion_parameters(const pair_numbers<T>& x, const drawn_pair& drawn) {
    rackwork::gear_parameters<T> p;
    p.normal_module = x[0];
    p.teeth = drawn.pinion_teeth;
    p.helix_angle = rackwork::rad(x[1]);
    p.rack = {.pressure_angle = rackwork::rad(x[2]), .addendum = x[3], .dedendum = x[4], .root_fillet_radius = x[5]};
    p.profile_shift = x[6];
    p.tip_alteration = x[7];
    p.thickness_allowance = x[8];
    p.face_width = x[9];
    p.tip_chamfer = x[15];
    p.tip_chamfer_angle = rackwork::rad(x[16]);
    return p;
}

template <class T>
rackwork::gear_parameters<T> wheel_parameters(const pair_numbers<T>& x, const drawn_pair& drawn) {
    rackwork::gear_parameters<T> p = pinion_parameters(x, drawn);
    p.teeth = drawn.wheel_teeth;
    p.kind = drawn.wheel_kind;
    // The hands of external gears are opposite.
    if (drawn.wheel_kind == rackwork::gear_kind::external) p.helix_angle = rackwork::rad(T(T(0) - x[1]));
    p.profile_shift = x[10];
    p.tip_alteration = x[11];
    p.thickness_allowance = x[12];
    p.face_width = x[13];
    p.tip_chamfer = T(0);
    return p;
}

/// A random pair, external or internal, that runs with contact at its nominal centre distance and at the one drawn; nothing where the
/// choice was impossible. Every size depends smoothly on every input: no full radius, whose land is just gone.
inline std::optional<drawn_pair> draw_pair(support::random_source& random, rackwork::gear_kind wheel_kind) {
    random_pair gears = make_random_pair(random);
    const double wider = random.uniform(0.0, 0.2);
    const double fraction = random.uniform(0.1, 0.9);
    const bool chamfered = random.integer(0, 3) == 0;
    const double chamfer = random.uniform(0.02, 0.1);
    const bool internal = wheel_kind == rackwork::gear_kind::internal;
    if (random.coin()) gears.pinion.teeth = random.integer(7, 40);
    if (internal) {
        gears.pinion.teeth = random.integer(12, 60);
        gears.wheel.teeth = gears.pinion.teeth + random.integer(20, 120);
        gears.pinion.rack.addendum = gears.wheel.rack.addendum = std::min(1.0, gears.pinion.rack.addendum);
        gears.wheel.profile_shift = random.uniform(-0.5, 0.3);
        gears.pinion.profile_shift = random.uniform(0.0, 0.5);
    }
    const rackwork::gear_parameters<double>& a = gears.pinion;
    const rackwork::gear_parameters<double>& b = gears.wheel;
    const double m = a.normal_module;
    drawn_pair drawn;
    drawn.pinion_teeth = a.teeth;
    drawn.wheel_teeth = b.teeth;
    drawn.wheel_kind = wheel_kind;
    drawn.value = {m, a.helix_angle.rad(), a.rack.pressure_angle.rad(), a.rack.addendum, a.rack.dedendum,
                   0.9 * a.rack.root_fillet_radius, a.profile_shift, a.tip_alteration, a.thickness_allowance, a.face_width,
                   b.profile_shift, b.tip_alteration, b.thickness_allowance, b.face_width, 0,
                   chamfered ? chamfer * m : 0, a.rack.pressure_angle.rad() + 0.4, 0};
    if (std::abs(drawn.value[1]) < 0.01) drawn.value[1] = 0;
    const auto x = numbers_of<double>(drawn);
    if (rackwork::check(pinion_parameters(x, drawn)) || rackwork::check(wheel_parameters(x, drawn))) return std::nullopt;
    const rackwork::gear<double> pinion(pinion_parameters(x, drawn));
    const rackwork::gear<double> wheel(wheel_parameters(x, drawn));
    if (rackwork::mesh<double>::check(pinion, wheel)) return std::nullopt;
    const rackwork::mesh<double> nominal(pinion, wheel);
    drawn.value[14] = nominal.centre_distance() + (internal ? -wider : wider) * m;
    if (rackwork::mesh<double>::check(pinion, wheel, drawn.value[14])) return std::nullopt;
    const rackwork::mesh<double> opened(pinion, wheel, drawn.value[14]);
    if (!(nominal.transverse_contact_ratio() > 0.05) || !(opened.transverse_contact_ratio() > 0.05)) return std::nullopt;
    const double form = nominal.root_form_diameter().pinion;
    drawn.value[17] = form + fraction * (pinion.tip_form_diameter() - form);
    drawn.size = {m, 1, 1, 1, 1, 1, 1, 1, m, m, 1, 1, m, m, drawn.value[14], chamfered ? m : 0, chamfered ? 1.0 : 0, drawn.value[17]};
    // What depends on a helix of either hand alike has a bend where there is none.
    if (drawn.value[1] == 0) drawn.size[1] = 0;
    // A sharp corner cannot be moved either way.
    if (drawn.value[5] == 0) drawn.size[5] = 0;
    return drawn;
}

inline std::string description(const drawn_pair& drawn) {
    std::ostringstream text;
    text.precision(17);
    text << drawn.pinion_teeth << (drawn.wheel_kind == rackwork::gear_kind::internal ? " teeth in " : " and ") << drawn.wheel_teeth
         << " teeth:";
    for (const double x : drawn.value) text << ' ' << x;
    return text.str();
}

} // namespace reference
