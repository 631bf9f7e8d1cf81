// expect: impossible_geometry
// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A gear without teeth is no gear, and a constant one is refused by the compiler.
#include <rackwork/gear.hpp>

#ifdef RACKWORK_SHOULD_COMPILE
constexpr int teeth = 15;
#else
constexpr int teeth = 0;
#endif

constexpr auto pinion = rackwork::gear{rackwork::gear_parameters<double>{.normal_module = 3, .teeth = teeth}};
static_assert(pinion.tip_diameter() > 0);
