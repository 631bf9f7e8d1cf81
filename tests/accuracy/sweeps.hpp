// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The sweeps behind the accuracy table. Each draws from one stream, so that a short run is the beginning of a long one, however often it
// pauses.
#pragma once

#include <cstdint>

#include "ledger.hpp"
#include "random_source.hpp"

namespace accuracy {

/// How far a sweep has come. Each sweep goes on until so many have been drawn.
struct stream {
    support::random_source random;
    long drawn = 0;

    explicit stream(std::uint64_t seed) : random(seed) {}
};

/// The involute functions of one type.
void sweep_involute_of_float(reference::ledger& all, stream& from, long arguments);
void sweep_involute_of_double(reference::ledger& all, stream& from, long arguments);
void sweep_involute_of_long_double(reference::ledger& all, stream& from, long arguments);

/// Gears and external pairs of doubles against independently written definitions.
void sweep_gears(reference::ledger& all, stream& from, long gears);
void sweep_pairs(reference::ledger& all, stream& from, long pairs);

/// What has no second definition beside the library's: pairs of doubles, external and internal, with tooth form, contact and root section,
/// against the same formulas in fifty digits. The unit is one ulp of the value (or of the size that it is a small difference of) and
/// what one ulp in each of the inputs changes.
void sweep_same_formulas(reference::ledger& all, stream& from, long pairs);

} // namespace accuracy
