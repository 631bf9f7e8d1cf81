// Example solid: a shaded picture of facets.
#ifndef SOLID_PICTURE_HPP
#define SOLID_PICTURE_HPP

#include <rackwork/solid/facets.hpp>

#include <ostream>
#include <vector>

namespace solid {

/// Draws solids as SVG, seen obliquely from above; `width` in pixels.
void draw(std::ostream& out, const std::vector<rackwork::facet_solid>& solids, int width);

} // namespace solid

#endif
