// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Is a computed number the one that a handbook prints?
#pragma once

#include <rackwork/basic_rack.hpp>
#include <rackwork/core/angle.hpp>

#include <cmath>
#include <locale>
#include <ostream>
#include <sstream>
#include <string>

namespace handbook {

/// Outcome of a comparison with a printed number: converts to bool, and prints as a sentence when a check fails.
struct comparison {
    bool agrees;
    std::string sentence;

    explicit operator bool() const { return agrees; }
    friend std::ostream& operator<<(std::ostream& out, const comparison& c) { return out << c.sentence; }
};

namespace detail {

inline comparison compare(double computed, double printed, int decimals, double above, double up_to) {
    const double unit = std::pow(10.0, -decimals);
    const double off = std::fabs(computed - printed) / unit;
    std::ostringstream text;
    text.imbue(std::locale::classic());
    text.precision(12);
    text << computed << " is " << off << " units of the last digit from the printed ";
    text.precision(decimals);
    text << std::fixed << printed;
    return {off > above && off <= up_to, text.str()};
}

} // namespace detail

/// Does the computed value round to the number printed with so many decimals? Half a unit of the last digit, and no more.
inline comparison prints(double computed, double printed, int decimals) {
    return detail::compare(computed, printed, decimals, -1, 0.5);
}

/// For the few printed numbers whose last digit is known to be off by one, because they come from rounded intermediate results or
/// were cut off instead of rounded: more than half a unit away, and no more than a whole one.
inline comparison prints_off_by_one(double computed, double printed, int decimals) {
    return detail::compare(computed, printed, decimals, 0.5, 1);
}

/// A rack of full-depth teeth whose root is of no concern to the check: addendum 1, dedendum 1.25, a sharp tool.
inline rackwork::basic_rack<double> full_depth_rack(double pressure_angle_in_degrees) {
    return {.pressure_angle = rackwork::deg(pressure_angle_in_degrees), .dedendum = 1.25, .root_fillet_radius = 0};
}

/// The teeth of the books' limits of interference: the rack's straight flank reaches exactly as deep as its addendum is high.
inline rackwork::basic_rack<double> rack_without_clearance(double pressure_angle_in_degrees, double addendum = 1) {
    return {.pressure_angle = rackwork::deg(pressure_angle_in_degrees),
            .addendum = addendum,
            .dedendum = addendum,
            .root_fillet_radius = 0};
}

} // namespace handbook
