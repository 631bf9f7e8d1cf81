// Example gear_pair: what is said of each gear, whatever it runs with.
#ifndef GEAR_PAIR_GEAR_VALUES_HPP
#define GEAR_PAIR_GEAR_VALUES_HPP

#include "options.hpp"
#include "sheet.hpp"

#include <rackwork/finding.hpp>
#include <rackwork/gear.hpp>
#include <rackwork/generated_root.hpp>

namespace gear_pair {

/// Sizes of a gear with its root, and the words for its kind, hand and tool.
void add_gear(sheet_maker& to, const rackwork::gear<double>& g, const rackwork::generated_root<double>& root, const gear_options& asked,
              const options& o);

/// What the inspector reads with span, pins or balls and caliper; findings about it.
void add_inspection(sheet_maker& to, const rackwork::gear<double>& g, const rackwork::generated_root<double>& root,
                    const gear_options& asked, const options& o, rackwork::finding_subject subject);

/// "spur", "right" or "left".
std::string hand_of(const rackwork::angle<double>& helix_angle);

} // namespace gear_pair

#endif
