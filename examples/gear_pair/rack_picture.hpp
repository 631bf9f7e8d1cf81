// Example gear_pair: a picture of a pinion on a toothed rack.
#ifndef GEAR_PAIR_RACK_PICTURE_HPP
#define GEAR_PAIR_RACK_PICTURE_HPP

#include "options.hpp"

#include <rackwork/rack_mesh.hpp>

#include <iosfwd>

namespace gear_pair {

/// Writes pinion and rack in mesh to scale as SVG, in the transverse section: the pinion's axis at the origin, one of its teeth pointing
/// down into the middle of a space of the rack, half of the backlash on either side of it.
void write_rack_picture(std::ostream& out, const rackwork::rack_mesh<double>& m, const options& o);

} // namespace gear_pair

#endif
