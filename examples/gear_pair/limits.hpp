// Example gear_pair: limits of the sizes and of the backlash, tolerances of the flanks.
#ifndef GEAR_PAIR_LIMITS_HPP
#define GEAR_PAIR_LIMITS_HPP

#include "options.hpp"
#include "sheet.hpp"

#include <rackwork/gear.hpp>
#include <rackwork/mesh.hpp>
#include <rackwork/rack_mesh.hpp>

namespace gear_pair {

/// Limits of thickness, span, pins, balls and chord between the thickness allowances, where these are given. The measures are those of
/// which the sheet has the nominal size.
void add_size_limits(sheet_maker& to, const rackwork::gear<double>& g, const allowance_options& allowance);

/// Flank tolerances of ISO 1328-1.
void add_flank_tolerances(sheet_maker& to, const rackwork::gear<double>& g, int tolerance_class, bool inch);

/// Least and greatest backlash between the limits of thickness and distance, where any are given.
void add_backlash_limits(sheet_maker& to, const rackwork::mesh<double>& m, const options& o);
void add_backlash_limits(sheet_maker& to, const rackwork::rack_mesh<double>& m, const options& o);

} // namespace gear_pair

#endif
