// Example gear_pair: fills the sheet of a pair.
#ifndef GEAR_PAIR_VALUES_HPP
#define GEAR_PAIR_VALUES_HPP

#include "options.hpp"
#include "sheet.hpp"

#include <rackwork/mesh.hpp>
#include <rackwork/rack_mesh.hpp>

namespace gear_pair {

/// Everything about a pair of gears, external or internal.
sheet make_sheet(const rackwork::mesh<double>& m, const options& o);

/// Everything about a pinion on a toothed rack.
sheet make_sheet(const rackwork::rack_mesh<double>& m, const options& o);

} // namespace gear_pair

#endif
