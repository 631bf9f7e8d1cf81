// Example sensitivity: what every tolerance does to every result.
#pragma once

#include "pair.hpp"

#include <array>

namespace sensitivity {

using changes = std::array<double, results.size()>;

struct influence {
    changes nominal;
    /// What each tolerance, at its upper end, changes; the lower end does the opposite.
    std::array<changes, tolerances.size()> of;
    /// All tolerances together, each at its worse end ...
    changes worst;
    /// ... and as chance would mostly have it: the root of the sum of squares.
    changes likely;
    /// Least and greatest values that come out when the worst really happens, computed anew, not by derivatives.
    changes least;
    changes greatest;
};

influence influence_of_tolerances();

} // namespace sensitivity
