// Example gear_pair: from what was asked to the pair.
#ifndef GEAR_PAIR_DESIGN_HPP
#define GEAR_PAIR_DESIGN_HPP

#include "options.hpp"

#include <rackwork/mesh.hpp>
#include <rackwork/rack_mesh.hpp>

namespace gear_pair {

/// The pair that the options describe, external or internal, with the roots that its tools make. Throws usage_error for options that
/// contradict each other and rackwork::geometry_error for an impossible pair.
rackwork::mesh<double> design_pair(const options& o);

/// The pinion on a toothed rack that the options describe. Throws likewise.
rackwork::rack_mesh<double> design_rack_pair(const options& o);

} // namespace gear_pair

#endif
