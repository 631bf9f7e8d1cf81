// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Every quantity of the basic rack and of one gear against the independent computation, for any scalar.
#pragma once

#include "independent_gear.hpp"
#include "ledger.hpp"
#include "random_gears.hpp"

#include <rackwork/gear.hpp>

namespace reference {

using rackwork::gear_size_error_bound;
using rackwork::pointed_tip_error_bound;
using rackwork::reference_thickness_error_bound;
using rackwork::thickness_error_bound;

template <class T>
void compare_rack(ledger& worst, const rackwork::basic_rack<T>& rack, const independent::gear_numbers& n) {
    independent::gear_numbers in_modules = n;
    in_modules.normal_module = 1;
    const independent::normal_rack exact(in_modules);
    const real slope = tan(n.pressure);
    worst.record("rack: form dedendum", rack.form_dedendum(), exact.flank_end_depth, {4, n.dedendum});
    worst.record("rack: half the root land", rack.half_root_land(), exact.fillet_centre_offset, {4, real(1)});
    worst.record("rack: half the tip land", rack.half_tip_land(), real(exact.half_tooth - n.addendum * slope), {4, real(1)});
    // The rounding that touches the flank and the tip line from the tooth's middle: its centre on the bisector.
    const real half_land = real(exact.half_tooth - n.dedendum * slope);
    worst.record("rack: full root fillet radius", rackwork::full_root_fillet_radius(rack.pressure_angle, rack.dedendum),
                 real(half_land * tan(real(independent::pi() / 4 + n.pressure / 2))), {4, real(1)});
}

/// Diameters between base and tip at which diameters' functions are compared; as fractions of that range.
template <class T>
void compare_gear(ledger& worst, const rackwork::gear<T>& g, const independent::gear& exact, const T& fraction) {
    const independent::gear_numbers& n = exact.numbers;
    const real d = real(2 * exact.reference_radius);
    const real m = n.normal_module;
    const auto length = [&](const char* name, const T& value, const real& expected) {
        worst.record(name, value, expected, {gear_size_error_bound});
    };

    worst.record("generating profile shift", g.generating_profile_shift(), real(exact.generating_distance / m),
                 {4, real(abs(n.shift) + abs(real(exact.generating_distance / m - n.shift)))});
    length("transverse module", g.transverse_module(), real(d / n.teeth));
    length("transverse pressure angle", g.transverse_pressure_angle().rad(), exact.transverse_pressure_angle);
    length("base helix angle", g.base_helix_angle().rad(), exact.base_helix_angle);
    length("reference diameter", g.reference_diameter(), d);
    length("base diameter", g.base_diameter(), real(2 * exact.base_radius));
    length("tip diameter", g.tip_diameter(), real(2 * exact.tip_radius()));
    // Where the tooth comes to a point before its tip circle, it ends there.
    worst.record("tip form diameter", g.tip_form_diameter(), real(2 * exact.effective_tip_radius()), {pointed_tip_error_bound});
    // Differences of the reference diameter and the tooth: the ulp is the reference diameter's.
    worst.record("root diameter", g.root_diameter(), real(2 * exact.root_radius()), {gear_size_error_bound, d});
    worst.record("generated root diameter", g.generated_root_diameter(), real(2 * exact.generated_root_radius()), {gear_size_error_bound, d});
    length("shifted reference diameter", g.shifted_reference_diameter(), real(d + 2 * n.shift * m));
    // Sums of factors of either sign: the ulp is that of the sum of their sizes.
    const real up = real(m * (n.addendum + abs(n.shift) + abs(n.tip_alteration)));
    const real down = real(m * (n.dedendum + abs(n.shift)));
    worst.record("addendum", g.addendum(), real(exact.tip_radius() - exact.reference_radius), {gear_size_error_bound, up});
    worst.record("dedendum", g.dedendum(), real(exact.reference_radius - exact.root_radius()), {gear_size_error_bound, down});
    worst.record("tooth depth", g.tooth_depth(), real(exact.tip_radius() - exact.root_radius()), {gear_size_error_bound, real(up + down)});
    length("normal pitch", g.normal_pitch(), exact.normal_pitch);
    length("transverse pitch", g.transverse_pitch(), exact.transverse_pitch);
    length("normal base pitch", g.normal_base_pitch(), real(exact.normal_pitch * cos(n.pressure)));
    length("transverse base pitch", g.transverse_base_pitch(), real(2 * independent::pi() * exact.base_radius / n.teeth));
    if (n.helix != 0) {
        // A turn of the helix, seen along the axis.
        const real lead = real(2 * independent::pi() / abs(exact.twist()));
        length("lead", g.lead(), lead);
        length("axial pitch", g.axial_pitch(), real(lead / n.teeth));
    }
    worst.record("base half angle", g.base_half_angle(), exact.tooth_half_angle, {reference_thickness_error_bound});

    const real pitch = exact.transverse_pitch;
    worst.record("normal tooth thickness", g.normal_tooth_thickness(), exact.normal_thickness, {reference_thickness_error_bound, exact.normal_pitch});
    worst.record("transverse tooth thickness", g.transverse_tooth_thickness(),
                 real(exact.normal_thickness * pitch / exact.normal_pitch), {reference_thickness_error_bound, pitch});

    const T diameter = T(g.base_diameter() + fraction * (g.tip_diameter() - g.base_diameter()));
    const real at(diameter);
    if (at > 2 * exact.base_radius) {
        const real pressure = exact.pressure_angle(at);
        // cos alpha = d_b/d: near the base circle a last place of d_b is 1/sin^2 alpha places of the angle.
        const real condition = real(1 / (sin(pressure) * sin(pressure)));
        worst.record("pressure angle at a diameter", g.pressure_angle(diameter).rad(), pressure, {gear_size_error_bound, real(0), condition});
        worst.record("tangent of the pressure angle at a diameter", g.tangent_of_pressure_angle(diameter), real(tan(pressure)),
                     {gear_size_error_bound, real(0), condition});
        length("helix angle at a diameter", g.helix_angle(diameter).rad(), exact.helix_angle(at));
        const real thickness = exact.tooth_thickness(at);
        const real pitch_there = real(independent::pi() * at / n.teeth);
        worst.record("tooth thickness at a diameter", g.tooth_thickness(diameter), thickness, {thickness_error_bound, at});
        worst.record("half angle of the tooth at a diameter", g.tooth_half_angle(diameter), real(thickness / at),
                     {thickness_error_bound, real(1)});
        worst.record("normal tooth thickness at a diameter", g.normal_tooth_thickness(diameter),
                     real(thickness * cos(exact.helix_angle(at))), {thickness_error_bound, at});
        worst.record("space width at a diameter", g.space_width(diameter), real(pitch_there - thickness), {thickness_error_bound, at});
    }
    const real tip_thickness = exact.tooth_thickness(real(2 * exact.tip_radius()));
    worst.record("tip thickness", g.tip_thickness(), tip_thickness, {thickness_error_bound, real(2 * exact.tip_radius())});
    worst.record("pointed tip diameter", g.pointed_tip_diameter(), real(2 * exact.pointed_tip_radius()), {pointed_tip_error_bound});
    worst.record("effective tip diameter", g.effective_tip_diameter(), real(2 * exact.effective_tip_radius()), {pointed_tip_error_bound});
}

} // namespace reference
