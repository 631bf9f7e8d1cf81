// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The unit in which a gear's lengths are meant, which only a written file has to know.
#ifndef RACKWORK_EXCHANGE_LENGTH_UNIT_HPP
#define RACKWORK_EXCHANGE_LENGTH_UNIT_HPP

namespace rackwork {

/// The unit of a gear's lengths. A writer states it in the file; it never converts a number.
enum class length_unit { millimetre, inch };

} // namespace rackwork

#endif
