// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The templates of double that rackwork/instances.hpp declares. Compile once into each program that includes it.
#define RACKWORK_DEFINE_INSTANCES
#include <rackwork/instances.hpp>
