// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Random pairs of gears that fit each other.
#pragma once

#include <rackwork/mesh.hpp>

#include "measure_helicoid.hpp"

#include <cmath>

namespace measure {

/// Parameters of two gears that fit each other.
struct pair_parameters {
    rackwork::gear_parameters<double> pinion;
    rackwork::gear_parameters<double> wheel;
};

/// A random pair of the trade, with tips shortened to keep the rack's bottom clearance, and teeth thinned or not.
inline pair_parameters random_pair(support::random_source& random, const bounds& limits = {}) {
    for (;;) {
        pair_parameters pair;
        pair.pinion = random_gear(random, limits);
        pair.wheel = pair.pinion;
        pair.wheel.helix_angle = -pair.pinion.helix_angle;
        pair.wheel.teeth = random.integer(pair.pinion.teeth, 3 * pair.pinion.teeth);
        pair.wheel.profile_shift = random.uniform(-0.3, 0.5);
        if (random.coin()) pair.wheel.thickness_allowance = random.uniform(-0.05, 0) * pair.wheel.normal_module;
        const rackwork::pair_proportions<double> proportions{.normal_module = pair.pinion.normal_module,
                                                             .pinion_teeth = pair.pinion.teeth,
                                                             .wheel_teeth = pair.wheel.teeth,
                                                             .helix_angle = pair.pinion.helix_angle,
                                                             .normal_pressure_angle = pair.pinion.rack.pressure_angle};
        const double sum = pair.pinion.profile_shift + pair.wheel.profile_shift;
        const double alteration = tip_alteration_for_clearance(proportions, centre_distance(proportions, sum), sum);
        pair.pinion.tip_alteration = alteration;
        pair.wheel.tip_alteration = alteration;
        if (check(pair.pinion) || check(pair.wheel)) continue;
        const rackwork::gear<double> pinion{pair.pinion};
        const rackwork::gear<double> wheel{pair.wheel};
        if (pinion.tip_thickness() < 0.1 * pair.pinion.normal_module ||
            wheel.tip_thickness() < 0.1 * pair.wheel.normal_module) {
            continue;
        }
        if (rackwork::generated_root<double>{wheel}.is_undercut()) continue;
        return pair;
    }
}

inline rackwork::mesh<double> mesh_of(const pair_parameters& pair) {
    return rackwork::mesh<double>{rackwork::gear<double>{pair.pinion}, rackwork::gear<double>{pair.wheel}};
}
inline rackwork::mesh<double> mesh_of(const pair_parameters& pair, double centre_distance) {
    return rackwork::mesh<double>{rackwork::gear<double>{pair.pinion}, rackwork::gear<double>{pair.wheel},
                                  centre_distance};
}

} // namespace measure
