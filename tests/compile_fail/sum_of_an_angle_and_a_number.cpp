// expect: no match for 'operator\+'|invalid operands to binary expression
// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A number added to an angle would have to be in one unit or the other.
#include <rackwork/core/angle.hpp>

using namespace rackwork::literals;

#ifdef RACKWORK_SHOULD_COMPILE
constexpr auto wider = 20_deg + 2.5_deg;
#else
constexpr auto wider = 20_deg + 2.5;
#endif

static_assert(wider > 20_deg);
