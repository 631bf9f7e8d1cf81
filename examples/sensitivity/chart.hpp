// Example sensitivity: the chart.
#pragma once

#include "influence.hpp"

#include <iosfwd>

namespace sensitivity {

/// A bar for what each tolerance does to each result, as an SVG drawing that reads as well without colours.
void draw_chart(std::ostream& out, const influence& all);

} // namespace sensitivity
