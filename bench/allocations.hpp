// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How often memory has been asked for.
#pragma once

namespace bench {

/// Number of calls of operator new in this program so far.
long allocations_so_far();

} // namespace bench
