// expect: (could not convert|cannot convert|no viable conversion|no matching constructor).*(double|int|angle)
// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A helix angle is given with its unit as well.
#include <rackwork/gear.hpp>

using namespace rackwork::literals;

#ifdef RACKWORK_SHOULD_COMPILE
constexpr auto helix = 15_deg;
#else
constexpr auto helix = 15.0;
#endif

constexpr auto pinion =
    rackwork::gear{rackwork::gear_parameters<double>{.normal_module = 3, .teeth = 15, .helix_angle = helix}};
static_assert(pinion.tip_diameter() > 0);
