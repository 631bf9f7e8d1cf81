// expect: (cannot convert|no viable conversion).*(double|angle)
// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// An angle is read by name, in degrees or in radians, never as a bare number.
#include <rackwork/core/angle.hpp>

using namespace rackwork::literals;

#ifdef RACKWORK_SHOULD_COMPILE
constexpr double shown = (20_deg).deg();
#else
constexpr double shown = 20_deg;
#endif

static_assert(shown > 0);
