// Example gear_pair: the drawings.
#ifndef GEAR_PAIR_DRAWING_HPP
#define GEAR_PAIR_DRAWING_HPP

#include "options.hpp"

#include <rackwork/mesh.hpp>
#include <rackwork/rack_mesh.hpp>

#include <filesystem>
#include <string>

namespace gear_pair {

/// Draws a pair of gears into a folder, which is made where it does not exist: both in mesh as SVG, each as DXF. Returns the files' names
/// in words. Each file is written whole or not at all. Throws usage_error where the folder or a file cannot be written.
std::string draw(const rackwork::mesh<double>& m, const options& o, const std::filesystem::path& folder);

/// Draws a pinion on a toothed rack: both as SVG, the pinion as DXF.
std::string draw(const rackwork::rack_mesh<double>& m, const options& o, const std::filesystem::path& folder);

} // namespace gear_pair

#endif
