// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A picture of curves over two axes: what is in it, before it is written.
#ifndef RACKWORK_EXCHANGE_PLOT_HPP
#define RACKWORK_EXCHANGE_PLOT_HPP

#include "../core/point.hpp"

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace rackwork {

/// One axis of a plot.
struct plot_axis {
    /// What is told along it, UTF-8.
    std::string name{};
    /// Its unit; empty for a pure number.
    std::string unit{};
    /// Ends of the axis. What is not stated follows from the lines, with some room.
    std::optional<double> least{};
    std::optional<double> greatest{};
};

/// How a line is drawn. Lines are told apart by their dashes, so that a plot can be read without colours.
enum class plot_dash : unsigned char { solid, dashed, dotted, dash_dotted, long_dashed, dash_dot_dotted };

/// A curve as a chain of points; a point that is not finite interrupts it. Or the area that it encloses.
struct plot_line {
    /// Its entry in the legend; none if empty.
    std::string name{};
    std::vector<point<double>> points{};
    plot_dash dash = plot_dash::solid;
    /// Line width, in widths of an ordinary curve. 0 for an area without a line round it.
    double weight = 1;
    /// How dark the area is that the chain encloses: 0 for none, 1 for black.
    double area = 0;
};

/// Where a word stands as seen from its point.
enum class plot_side : unsigned char { above, below, left, right };

/// A word at a point, and a sign at that point.
struct plot_mark {
    point<double> at{};
    std::string text{};
    plot_side side = plot_side::above;
    /// A small ring at the point.
    bool ring = false;
};

/// A plot: axes, lines, words.
struct plot {
    /// Title above the plot, and a sentence that tells what is seen (for those who cannot see it). UTF-8.
    std::string title{};
    std::string description{};
    plot_axis across{};
    plot_axis up{};
    /// Drawn in this order.
    std::vector<plot_line> lines{};
    std::vector<plot_mark> marks{};
    /// True if a unit is as long on one axis as on the other.
    bool equal_scales = false;
};

/// The point that interrupts a line.
inline point<double> plot_gap() { return {(std::numeric_limits<double>::quiet_NaN)(), (std::numeric_limits<double>::quiet_NaN)()}; }

} // namespace rackwork

#endif
