// Example choose_pair: the data table of the finished pair.
#ifndef CHOOSE_PAIR_TABLE_HPP
#define CHOOSE_PAIR_TABLE_HPP

#include <rackwork/mesh.hpp>

#include <ostream>

namespace choose_pair {

/// Writes what the drawing office, the shop and the inspector need of both gears. Lengths in millimetres.
void write_table(std::ostream& out, const rackwork::mesh<double>& pair);

} // namespace choose_pair

#endif
