// Example sensitivity: the chart.
#include "chart.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ostream>
#include <string>

namespace sensitivity {

namespace {

constexpr double names_width = 262;
constexpr double column_width = 156;
constexpr double heading = 122;
constexpr double row_height = 30;
constexpr double longest_bar = 40;

std::string fixed(double value, int places) {
    char text[32];
    std::snprintf(text, sizeof text, "%.*f", places, value);
    return text;
}

/// To three figures, with its sign.
std::string change(double value) {
    const double size = std::fabs(value);
    return (value < 0 ? "\xE2\x88\x92" : "+") + fixed(size, size >= 99.95 ? 0 : size >= 9.995 ? 1 : 2);
}

std::string text(double x, double y, const char* style, const std::string& words) {
    return "<text class=\"" + std::string(style) + "\" x=\"" + fixed(x, 1) + "\" y=\"" + fixed(y, 1) + "\">" + words + "</text>\n";
}

/// "um" as it is written.
std::string unit_of(const char* name) {
    return std::string(name) == "um" ? "\xC2\xB5m" : name;
}

} // namespace

void draw_chart(std::ostream& out, const influence& all) {
    const double width = names_width + column_width * static_cast<double>(results.size()) + 16;
    const double bottom = heading + row_height * static_cast<double>(tolerances.size());
    const double height = bottom + 92;
    out << "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " << fixed(width, 0) << ' ' << fixed(height, 0) << "\" width=\""
        << fixed(width, 0) << "\" height=\"" << fixed(height, 0) << "\">\n"
        << "<title>What each tolerance of a gear pair changes</title>\n"
        << "<style>text{font-family:sans-serif;font-size:13px;fill:#1c1c1c}.head{font-weight:bold;text-anchor:middle}"
           ".small{font-size:11px;fill:#4a4a4a;text-anchor:middle}.note{font-size:11px;fill:#4a4a4a}.title{font-size:17px;font-weight:bold}"
           ".right{font-size:11px;text-anchor:start}.left{font-size:11px;text-anchor:end}.sum{font-weight:bold;text-anchor:middle}"
           ".more{fill:#23527a}.less{fill:#d8a24a;stroke:#6b4a10;stroke-width:0.8}.axis{stroke:#8c8c8c;stroke-width:1}"
           ".band{fill:#f1f1ee}</style>\n"
        << "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n"
        << text(16, 30, "title", "What each tolerance changes, at its upper end")
        << text(16, 48, "note",
                "Log carriage drive: 19 and 57 teeth, module 2.5, helix 15\xC2\xB0, centre distance 99 mm. Every column has its own scale.");
    for (std::size_t i = 0; i < tolerances.size(); i += 2) {
        out << "<rect class=\"band\" x=\"8\" y=\"" << fixed(heading + row_height * static_cast<double>(i), 1) << "\" width=\""
            << fixed(width - 16, 1) << "\" height=\"" << fixed(row_height, 1) << "\"/>\n";
    }
    for (std::size_t i = 0; i < tolerances.size(); ++i) {
        const double y = heading + row_height * (static_cast<double>(i) + 0.5);
        const bool degrees = std::string(tolerances[i].unit) == "deg";
        const int places = tolerances[i].half_range < 0.00095 ? 4 : degrees ? 2 : 3;
        out << "<text x=\"16\" y=\"" << fixed(y + 4.5, 1) << "\">" << tolerances[i].name << " <tspan class=\"note\">\xC2\xB1"
            << fixed(tolerances[i].half_range, places) << (degrees ? "\xC2\xB0" : std::string(" ") + tolerances[i].unit)
            << "</tspan></text>\n";
    }
    for (std::size_t k = 0; k < results.size(); ++k) {
        const double middle = names_width + column_width * (static_cast<double>(k) + 0.5);
        double largest = 0;
        for (const changes& c : all.of) largest = std::max(largest, std::fabs(c[k]));
        const bool bare = results[k].unit[0] == '\0';
        out << text(middle, heading - 42, "head", results[k].name)
            << text(middle, heading - 26, "small", fixed(all.nominal[k], bare ? 3 : 4) + (bare ? "" : " ") + results[k].unit)
            << text(middle, heading - 10, "small", "changes in " + unit_of(results[k].change))
            << "<line class=\"axis\" x1=\"" << fixed(middle, 1) << "\" x2=\"" << fixed(middle, 1) << "\" y1=\"" << fixed(heading, 1)
            << "\" y2=\"" << fixed(bottom, 1) << "\"/>\n";
        for (std::size_t i = 0; i < tolerances.size(); ++i) {
            const double value = all.of[i][k];
            if (value == 0) continue;
            const double y = heading + row_height * (static_cast<double>(i) + 0.5);
            const double length = longest_bar * std::fabs(value) / largest;
            out << "<rect class=\"" << (value > 0 ? "more" : "less") << "\" x=\"" << fixed(value > 0 ? middle : middle - length, 2)
                << "\" y=\"" << fixed(y - 8, 1) << "\" width=\"" << fixed(length, 2) << "\" height=\"16\"/>\n"
                << text(value > 0 ? middle + length + 3 : middle - length - 3, y + 4, value > 0 ? "right" : "left",
                        change(value / results[k].unit_of_change));
        }
        out << text(middle, bottom + 24, "sum", "\xC2\xB1" + fixed(all.worst[k] / results[k].unit_of_change, 1))
            << text(middle, bottom + 46, "small", "\xC2\xB1" + fixed(all.likely[k] / results[k].unit_of_change, 1));
    }
    out << "<line class=\"axis\" x1=\"8\" x2=\"" << fixed(width - 8, 1) << "\" y1=\"" << fixed(bottom, 1) << "\" y2=\"" << fixed(bottom, 1)
        << "\"/>\n"
        << text(16, bottom + 24, "name", "all at their worst") << text(16, bottom + 46, "note", "root of the sum of squares")
        << text(16, bottom + 76, "note",
                "Dark bars: the result grows with the tolerance. Light, outlined bars: it falls. Geometry only; no load rating is implied.")
        << "</svg>\n";
}

} // namespace sensitivity
