// Example gear_pair: the tools that make the gears.
#ifndef GEAR_PAIR_TOOLS_HPP
#define GEAR_PAIR_TOOLS_HPP

#include "options.hpp"

#include <rackwork/cutter.hpp>
#include <rackwork/gear.hpp>

#include <string>

namespace gear_pair {

/// True if the command line says by which tool a gear of a kind is made.
bool tool_is_stated(const gear_options& asked, const hob_options& hob, rackwork::gear_kind kind);

/// The rack-type tool that the command line describes.
rackwork::rack_type_cutter<double> hob_for(const hob_options& hob, const rackwork::basic_rack<double>& rack);

/// The tool that makes a gear: the stated one or, where none is, the customary one.
rackwork::cutter<double> tool_for(const rackwork::gear<double>& g, const gear_options& asked, const hob_options& hob);

/// A sentence that says what tool it is.
std::string tool_words(const rackwork::cutter<double>& tool, bool stated);

} // namespace gear_pair

#endif
