// expect: no matching function for call to .inv\b
// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Is 0.35 in radians or in degrees? The involute function does not guess.
#include <rackwork/involute.hpp>

#ifdef RACKWORK_SHOULD_COMPILE
constexpr auto flank_angle = rackwork::rad(0.35);
#else
constexpr auto flank_angle = 0.35;
#endif

constexpr double involute = rackwork::inv(flank_angle);
static_assert(involute > 0);
