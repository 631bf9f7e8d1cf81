// expect: (could not convert|cannot convert|no viable conversion|no matching constructor).*(double|angle)
// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A basic rack with a pressure angle of 20 has no unit, and so is none.
#include <rackwork/basic_rack.hpp>

using namespace rackwork::literals;

constexpr rackwork::basic_rack<double> rack{
#ifdef RACKWORK_SHOULD_COMPILE
    .pressure_angle = 20_deg,
#else
    .pressure_angle = 20.0,
#endif
    .addendum = 1,
    .dedendum = 1.25,
    .root_fillet_radius = 0.38};
static_assert(rack.addendum == 1);
