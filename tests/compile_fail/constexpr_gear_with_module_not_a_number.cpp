// expect: impossible_geometry|floating point arithmetic produces a NaN
// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A module that is not a number is noticed when the gear is built, not in the results.
#include <rackwork/gear.hpp>

#include <limits>

#ifdef RACKWORK_SHOULD_COMPILE
constexpr double normal_module = 3;
#else
constexpr double normal_module = std::numeric_limits<double>::quiet_NaN();
#endif

constexpr auto pinion = rackwork::gear{rackwork::gear_parameters<double>{.normal_module = normal_module, .teeth = 15}};
static_assert(pinion.tip_diameter() > 0);
