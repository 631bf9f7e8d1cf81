// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Reads back what the writers of drawings have written, knowing nothing of how they did it.
#ifndef EXCHANGE_DRAWINGS_HPP
#define EXCHANGE_DRAWINGS_HPP

#include <rackwork/core/point.hpp>
#include <rackwork/exchange/dxf.hpp>
#include <rackwork/exchange/svg.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <map>
#include <numbers>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace exchange_drawings {

using rackwork::point;

inline double number(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) throw std::runtime_error("not a number: " + std::string(text));
    return value;
}

/// A corner of a closed curve, and the angle in radians by which the arc to the next corner turns; 0 for a straight line.
struct corner {
    point<double> at;
    double arc = 0;

    friend bool operator==(const corner& a, const corner& b) { return a.at == b.at && a.arc == b.arc; }
};
using closed_curve = std::vector<corner>;

inline double distance(const point<double>& a, const point<double>& b) { return length(b - a); }

/// Area by the surveyor's formula, and the slices between the arcs and their chords.
inline double enclosed_area(const closed_curve& curve) {
    double twice = 0;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        const corner& here = curve[i];
        const corner& next = curve[(i + 1) % curve.size()];
        twice += cross(here.at, next.at);
        if (here.arc == 0) continue;
        const double radius = distance(here.at, next.at) / 2 / std::sin(here.arc / 2);
        twice += radius * radius * (here.arc - std::sin(here.arc));
    }
    return twice / 2;
}

inline double perimeter(const closed_curve& curve) {
    double sum = 0;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        const double chord = distance(curve[i].at, curve[(i + 1) % curve.size()].at);
        sum += curve[i].arc == 0 ? chord : chord * std::abs(curve[i].arc / 2 / std::sin(curve[i].arc / 2));
    }
    return sum;
}

/// Centre of the arc that follows a corner: on the chord's bisector, half the chord over the tangent of half the angle away.
inline point<double> centre_of_arc(const corner& here, const corner& next) {
    const point<double> chord = next.at - here.at;
    const double height = 1 / (2 * std::tan(here.arc / 2));
    return 0.5 * (here.at + next.at) + height * point<double>{-chord.y, chord.x};
}

/// Points along the curve, so dense on arcs that straight lines between them stray by less than a millionth of the radius.
inline std::vector<point<double>> points_along(const closed_curve& curve) {
    std::vector<point<double>> result;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        const corner& here = curve[i];
        result.push_back(here.at);
        if (here.arc == 0) continue;
        const point<double> centre = centre_of_arc(here, curve[(i + 1) % curve.size()]);
        const int parts = 2 + static_cast<int>(std::abs(here.arc) / 0.0028);
        for (int k = 1; k < parts; ++k) result.push_back(centre + turned(here.at - centre, here.arc * k / parts));
    }
    return result;
}

template <class... Arguments>
std::string svg(const Arguments&... arguments) {
    std::ostringstream out;
    rackwork::write_svg(out, arguments...);
    return out.str();
}

template <class... Arguments>
std::string dxf(const Arguments&... arguments) {
    std::ostringstream out;
    rackwork::write_dxf(out, arguments...);
    return out.str();
}

/// A DXF file as its groups of code and value.
struct dxf_group {
    int code = 0;
    std::string value;
};

/// What begins with a group 0 and lasts to the next one.
struct dxf_record {
    std::string section;
    std::string type;
    std::vector<dxf_group> groups;

    bool has(int code) const {
        return std::any_of(groups.begin(), groups.end(), [&](const dxf_group& g) { return g.code == code; });
    }
    /// The first value under a code.
    const std::string& text(int code) const {
        for (const dxf_group& g : groups) {
            if (g.code == code) return g.value;
        }
        throw std::runtime_error(type + " has no group " + std::to_string(code));
    }
    double real(int code) const { return number(text(code)); }
    point<double> at(int code) const { return {real(code), real(code + 10)}; }
};

inline std::vector<dxf_group> dxf_groups_of(const std::string& file) {
    std::vector<dxf_group> groups;
    std::istringstream lines(file);
    std::string code;
    std::string value;
    while (std::getline(lines, code)) {
        if (!std::getline(lines, value)) throw std::runtime_error("a code without a value");
        groups.push_back({static_cast<int>(number(code)), value});
    }
    return groups;
}

inline std::vector<dxf_record> dxf_records_of(const std::string& file) {
    std::vector<dxf_record> records;
    std::string section;
    bool name_follows = false;
    for (const dxf_group& g : dxf_groups_of(file)) {
        if (g.code == 0) {
            name_follows = g.value == "SECTION";
            records.push_back({section, g.value, {}});
            continue;
        }
        if (name_follows) section = records.back().section = g.value;
        name_follows = false;
        records.back().groups.push_back(g);
    }
    return records;
}

/// The entities of a type, in the file's order.
inline std::vector<dxf_record> entities_of(const std::string& file, std::string_view type) {
    std::vector<dxf_record> result;
    for (const dxf_record& record : dxf_records_of(file)) {
        if (record.section == "ENTITIES" && record.type == type) result.push_back(record);
    }
    return result;
}

/// The variables of the header, each by its name without the sign of a variable.
inline std::map<std::string, std::vector<std::string>> dxf_header_of(const std::string& file) {
    std::map<std::string, std::vector<std::string>> variables;
    std::string name;
    for (const dxf_record& record : dxf_records_of(file)) {
        if (record.section != "HEADER") continue;
        for (const dxf_group& g : record.groups) {
            if (g.code == 9) {
                name = g.value.substr(1);
            } else if (!name.empty()) {
                variables[name].push_back(g.value);
            }
        }
        if (!variables.empty()) break;
    }
    return variables;
}

inline closed_curve curve_of(const dxf_record& polyline) {
    closed_curve curve;
    for (const dxf_group& g : polyline.groups) {
        if (g.code == 10) curve.push_back({{number(g.value), 0}, 0});
        if (g.code == 20) curve.back().at.y = number(g.value);
        if (g.code == 42) curve.back().arc = 4 * std::atan(number(g.value));
    }
    return curve;
}

/// The outline on a layer.
inline closed_curve dxf_outline(const std::string& file, std::string_view layer) {
    for (const dxf_record& record : entities_of(file, "LWPOLYLINE")) {
        if (record.text(8) == layer) return curve_of(record);
    }
    throw std::runtime_error("no polyline on the layer " + std::string(layer));
}

/// The value of an attribute in the first element that holds `mark`.
inline std::string attribute(const std::string& file, const std::string& mark, const std::string& name) {
    const std::size_t found = file.find(mark);
    if (found == std::string::npos) throw std::runtime_error("no element with " + mark);
    const std::size_t begin = file.rfind('<', found);
    const std::string element = file.substr(begin, file.find('>', begin) - begin);
    const std::size_t value = element.find(" " + name + "=\"");
    if (value == std::string::npos) throw std::runtime_error("no attribute " + name + " in " + element);
    const std::size_t first = value + name.size() + 3;
    return element.substr(first, element.find('"', first) - first);
}

inline std::vector<double> numbers(const std::string& text) {
    std::vector<double> result;
    std::istringstream words(text);
    std::string word;
    while (words >> word) result.push_back(number(word));
    return result;
}

/// The closed curve of an SVG path of M, L, A and Z.
inline closed_curve svg_curve(const std::string& path) {
    closed_curve curve;
    std::size_t i = 0;
    bool closed = false;
    while (i < path.size()) {
        const char command = path[i];
        const std::size_t next = std::min(path.find_first_of("MLAZ", i + 1), path.size());
        const std::vector<double> values = numbers(path.substr(i + 1, next - i - 1));
        i = next;
        if (closed) throw std::runtime_error("the path goes on after its end");
        if (command == 'Z') {
            closed = true;
        } else if (command == 'A') {
            if (values.size() != 7 || values[0] != values[1]) throw std::runtime_error("not a circular arc");
            const point<double> end{values[5], values[6]};
            const double half = std::asin(std::min(1.0, distance(curve.back().at, end) / 2 / values[0]));
            const double angle = values[3] != 0 ? 2 * (std::numbers::pi - half) : 2 * half;
            curve.back().arc = values[4] != 0 ? angle : -angle;
            curve.push_back({end, 0});
        } else {
            if (values.size() != 2 || (command == 'M') != curve.empty()) throw std::runtime_error("not a simple path");
            curve.push_back({{values[0], values[1]}, 0});
        }
    }
    if (!closed) throw std::runtime_error("the path is not closed");
    // An arc back to where the path began ends on its first corner.
    if (curve.back().at == curve.front().at) curve.pop_back();
    return curve;
}

inline closed_curve svg_outline(const std::string& file, const std::string& name) {
    return svg_curve(attribute(file, "class=\"" + name + "\"", "d"));
}

} // namespace exchange_drawings

#endif
