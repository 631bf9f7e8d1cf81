// Example gear_pair: every number of a pair under its name.
#ifndef GEAR_PAIR_VALUES_HPP
#define GEAR_PAIR_VALUES_HPP

#include "options.hpp"

#include <rackwork/mesh.hpp>

#include <string>
#include <vector>

namespace gear_pair {

/// A number with its name and unit: mm, in, mm^2, in^2, deg, or 1 for counts, ratios and coefficients.
struct named_value {
    std::string name;
    double value;
    std::string unit;
};

/// All numbers of the pair, and in `remarks` a sentence for each measurement that is impossible and therefore has none.
struct sheet {
    std::vector<named_value> values;
    std::vector<std::string> remarks;

    /// The value of a name, or nullptr.
    const named_value* find(const std::string& name) const;
};

sheet make_sheet(const rackwork::mesh<double>& m, const options& o);

} // namespace gear_pair

#endif
