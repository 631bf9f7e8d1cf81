// Example gear_pair: from what was asked to the pair.
#ifndef GEAR_PAIR_DESIGN_HPP
#define GEAR_PAIR_DESIGN_HPP

#include "options.hpp"

#include <rackwork/mesh.hpp>

namespace gear_pair {

/// The pair that the options describe. Throws usage_error for options that contradict each other and rackwork::geometry_error for an
/// impossible pair.
rackwork::mesh<double> design_pair(const options& o);

} // namespace gear_pair

#endif
