// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The teeth of an internal gear as surfaces in space, from their definition, and random internal gears.
#pragma once

#include "measure_helicoid.hpp"

#include <rackwork/generated_root.hpp>

#include <array>
#include <cmath>

namespace measure {

/// The teeth of a ring, from its parameters: tooth 0 is centred on the x axis at z = 0. As thick as an external gear's at the reference
/// circle, but its flanks are those of the spaces of an external gear: the tooth grows from its half angle at the base circle outward.
struct ring_in_space : teeth_in_space {
    explicit ring_in_space(const rackwork::gear_parameters<double>& p) : teeth_in_space(p) {
        const double tangent = std::tan(p.rack.pressure_angle.rad()) / std::cos(p.helix_angle.rad());
        half_angle -= 2 * (tangent - std::atan(tangent));
    }

    /// The flank of a tooth that looks counter-clockwise, and the one that looks clockwise.
    helicoid left_flank(int tooth) const { return {base_radius, tooth * pitch_angle + half_angle, 1, twist}; }
    helicoid right_flank(int tooth) const { return {base_radius, tooth * pitch_angle - half_angle, -1, twist}; }
};

/// Roll angle, which is the tangent of the pressure angle, at a diameter.
inline double roll_at(const rackwork::gear<double>& g, double diameter) {
    return std::sqrt(std::pow(diameter / g.base_diameter(), 2) - 1);
}

/// Parameters of a random ring of the trade that its customary cutter can make, with the circle d - 2 x m on the flank.
inline rackwork::gear_parameters<double> random_ring(support::random_source& random, const bounds& limits = {20, 150, 35}) {
    for (;;) {
        rackwork::gear_parameters<double> p{.normal_module = random.uniform(0.5, 8),
                                            .teeth = random.integer(limits.least_teeth, limits.most_teeth),
                                            .kind = rackwork::gear_kind::internal,
                                            .rack = {.pressure_angle = rackwork::deg(random.uniform(17, 27)),
                                                     .addendum = random.uniform(0.6, 1),
                                                     .dedendum = 1.25,
                                                     .root_fillet_radius = random.uniform(0, 0.25)}};
        if (!(limits.spur_too && random.integer(0, 2) == 0)) {
            p.helix_angle = rackwork::deg(random.uniform(3, limits.steepest_helix) * (random.coin() ? 1 : -1));
        }
        p.profile_shift = random.uniform(-0.5, 0.5);
        if (random.coin()) p.thickness_allowance = random.uniform(-0.05, 0) * p.normal_module;
        if (check(p)) continue;
        const rackwork::gear<double> g{p};
        if (rackwork::generated_root<double>::check(g)) continue;
        const double form = rackwork::root_form_diameter(g);
        const double shifted = g.shifted_reference_diameter();
        if (g.tip_thickness() > 0.1 * p.normal_module && g.tip_diameter() < shifted && shifted < form) return p;
    }
}
inline rackwork::gear_parameters<double> random_spur_ring(support::random_source& random) {
    for (;;) {
        const rackwork::gear_parameters<double> p = random_ring(random);
        if (p.helix_angle.rad() == 0) return p;
    }
}

} // namespace measure
