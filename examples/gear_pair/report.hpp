// Example gear_pair: what it prints.
#ifndef GEAR_PAIR_REPORT_HPP
#define GEAR_PAIR_REPORT_HPP

#include "options.hpp"
#include "sheet.hpp"

#include <iosfwd>

namespace gear_pair {

/// One `name<TAB>value<TAB>unit` a line, 17 significant digits, whatever the locale.
void print_values(std::ostream& out, const sheet& s);

/// The gear data table for the drawing of either gear, its limits and tolerances, the pair's sizes, the findings and the cautions.
void print_report(std::ostream& out, const options& o, const sheet& s);

} // namespace gear_pair

#endif
