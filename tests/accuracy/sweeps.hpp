// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The sweeps behind the accuracy table. Each draws from one stream, so that a short run is the beginning of a long one.
#pragma once

#include "ledger.hpp"

namespace accuracy {

/// The involute functions of float, double and long double at so many arguments each.
void sweep_involute(reference::ledger& all, long arguments);

/// Gears and external pairs of doubles against independently written definitions.
void sweep_gears(reference::ledger& all, long gears);
void sweep_pairs(reference::ledger& all, long pairs);

/// What has no second definition beside the library's: pairs of doubles, external and internal, with tooth form, contact and root section,
/// against the same formulas in fifty digits. The unit is one ulp of the value (or of the size that it is a small difference of) and
/// what one ulp in each of the inputs changes.
void sweep_same_formulas(reference::ledger& all, long pairs);

} // namespace accuracy
