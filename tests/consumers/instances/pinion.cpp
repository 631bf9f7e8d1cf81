// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#include "pinion.hpp"

#include <rackwork/instances.hpp>

double tip_diameter_of_pinion(int teeth) {
    return rackwork::gear{rackwork::gear_parameters<double>{.normal_module = 3, .teeth = teeth, .profile_shift = 0.4}}.tip_diameter();
}
