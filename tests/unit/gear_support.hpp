// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Random gears that can be made, and all their lengths and angles in lists.
#pragma once

#include "random_source.hpp"

#include <rackwork/core/scalar.hpp>
#include <rackwork/gear.hpp>
#include <rackwork/generated_root.hpp>

#include <string>
#include <utility>
#include <vector>

namespace gear_support {

/// Workshop gears: module 0.1 to 25, 6 to 200 teeth, 14.5 to 30 degrees, helix to 45 degrees either hand, shifts, allowances.
inline rackwork::gear_parameters<double> random_parameters(support::random_source& random) {
    rackwork::gear_parameters<double> p{.normal_module = random.uniform(0.1, 25), .teeth = random.integer(6, 200)};
    if (random.coin()) p.helix_angle = rackwork::deg(random.uniform(-45, 45));
    p.rack.pressure_angle = rackwork::deg(random.uniform(14.5, 30));
    p.rack.addendum = random.uniform(0.7, 1.1);
    p.rack.dedendum = random.uniform(0.9, 1.4);
    p.rack.root_fillet_radius = random.uniform(0, 0.9) * rackwork::full_root_fillet_radius(p.rack.pressure_angle, p.rack.dedendum);
    p.profile_shift = random.uniform(-0.4, 1);
    if (random.coin()) p.tip_alteration = random.uniform(-0.2, 0);
    if (random.coin()) p.thickness_allowance = random.uniform(-0.1, 0) * p.normal_module;
    p.face_width = random.uniform(1, 50);
    return p;
}

/// `count` gears that exist, from a seed.
inline std::vector<rackwork::gear<double>> random_gears(unsigned seed, int count) {
    support::random_source random{seed};
    std::vector<rackwork::gear<double>> gears;
    while (static_cast<int>(gears.size()) < count) {
        const rackwork::gear_parameters<double> p = random_parameters(random);
        if (!rackwork::check(p)) gears.emplace_back(p);
    }
    return gears;
}

using named_numbers = std::vector<std::pair<std::string, double>>;

/// Every length that a gear tells of itself.
inline named_numbers lengths(const rackwork::gear<double>& g) {
    named_numbers all{{"normal_module", g.normal_module()},
                      {"transverse_module", g.transverse_module()},
                      {"reference_diameter", g.reference_diameter()},
                      {"base_diameter", g.base_diameter()},
                      {"tip_diameter", g.tip_diameter()},
                      {"tip_form_diameter", g.tip_form_diameter()},
                      {"root_diameter", g.root_diameter()},
                      {"generated_root_diameter", g.generated_root_diameter()},
                      {"shifted_reference_diameter", g.shifted_reference_diameter()},
                      {"addendum", g.addendum()},
                      {"dedendum", g.dedendum()},
                      {"tooth_depth", g.tooth_depth()},
                      {"normal_pitch", g.normal_pitch()},
                      {"transverse_pitch", g.transverse_pitch()},
                      {"normal_base_pitch", g.normal_base_pitch()},
                      {"transverse_base_pitch", g.transverse_base_pitch()},
                      {"normal_tooth_thickness", g.normal_tooth_thickness()},
                      {"transverse_tooth_thickness", g.transverse_tooth_thickness()},
                      {"tip_thickness", g.tip_thickness()},
                      {"pointed_tip_diameter", g.pointed_tip_diameter()},
                      {"effective_tip_diameter", g.effective_tip_diameter()},
                      {"space_width at the reference circle", g.space_width(g.reference_diameter())},
                      {"normal_tooth_thickness at the tip", g.normal_tooth_thickness(g.tip_diameter())}};
    if (rackwork::magnitude(g.helix_angle().rad()) > 1e-100) { // below, the lead is greater than any number
        all.emplace_back("axial_pitch", g.axial_pitch());
        all.emplace_back("lead", g.lead());
    }
    return all;
}

/// Every angle and pure number that a gear tells of itself; the signs of helix angles are left out.
inline named_numbers pure_numbers(const rackwork::gear<double>& g) {
    return {{"generating_profile_shift", g.generating_profile_shift()},
            {"normal_pressure_angle", g.normal_pressure_angle().rad()},
            {"transverse_pressure_angle", g.transverse_pressure_angle().rad()},
            {"base_half_angle", g.base_half_angle()},
            {"pressure_angle at the tip", g.pressure_angle(g.tip_diameter()).rad()}};
}

} // namespace gear_support
