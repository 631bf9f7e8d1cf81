// Example cam_path: the picture. Arcs of the paths are arcs of the picture, so that it shows what the machine does.
#include "picture.hpp"

#include <rackwork/curve/biarc.hpp>

#include <charconv>
#include <cmath>

namespace cam_path {

namespace {

using rackwork::arc;
using rackwork::point;

constexpr double side = 480; // of each of the two views, in units of the picture
constexpr double legend = 40;

/// Lengths of the gear as lengths of the picture, y turned over.
struct view {
    point<double> middle;
    double scale;
    double left;

    std::string operator()(const point<double>& p) const {
        std::string text = number(left + side / 2 + (p.x - middle.x) * scale);
        return text.append(" ").append(number(side / 2 - (p.y - middle.y) * scale));
    }
    /// Whatever the locale.
    static std::string number(double value) {
        char digits[64];
        return {digits, std::to_chars(digits, digits + sizeof digits, value, std::chars_format::fixed, 3).ptr};
    }
};

std::string path_data(const view& v, const std::vector<arc<double>>& arcs) {
    std::string data("M");
    data.append(v(arcs.front().start));
    for (const arc<double>& a : arcs) {
        if (a.is_line()) {
            data.append("\nL").append(v(a.end));
            continue;
        }
        const std::string radius = view::number(a.radius * v.scale);
        data.append("\nA").append(radius).append(" ").append(radius).append(std::abs(a.turning) > rackwork::pi<double>() ? " 0 1 " : " 0 0 ");
        data.append(a.turning > 0 ? "0 " : "1 ").append(v(a.end)); // the picture's y grows downwards
    }
    return data;
}

void write_view(std::ostream& out, const view& v, const std::vector<rackwork::cut_contour>& contours, const std::vector<drawn_path>& paths) {
    out << "<path fill=\"#d4d4d4\" fill-rule=\"evenodd\" stroke=\"#404040\" stroke-width=\"1\" d=\"";
    for (const rackwork::cut_contour& c : contours) out << path_data(v, rackwork::biarcs_of(c.shape, 1e-3).arcs) << "Z ";
    out << "\"/>\n";
    for (const drawn_path& p : paths) {
        out << "<g fill=\"none\" stroke=\"" << p.colour << "\">\n";
        for (const rackwork::tool_cut& cut : p.path.cuts) {
            out << "<path stroke-width=\"1.3\" d=\"" << path_data(v, cut.contour) << "\"/>\n";
            for (const auto* lead : {&cut.lead_in, &cut.lead_out}) {
                out << "<path stroke-width=\"1.3\" stroke-dasharray=\"5 3\" d=\"" << path_data(v, *lead) << "\"/>\n";
            }
            const std::string start = v(cut.start);
            const std::size_t blank = start.find(' ');
            out << "<circle cx=\"" << start.substr(0, blank) << "\" cy=\"" << start.substr(blank + 1) << "\" r=\"3\" fill=\"" << p.colour
                << "\"/>\n";
        }
        out << "</g>\n";
    }
}

} // namespace

void write_picture(std::ostream& out, const std::vector<rackwork::cut_contour>& contours, const std::vector<drawn_path>& paths,
                   double reach, point<double> detail, double detail_reach) {
    out << "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"" << 2 * side
        << "\" height=\"" << side + legend << "\" role=\"img\">\n<title>Tool paths round a gear</title>\n"
        << "<desc>The gear is grey. Paths of tool centres are coloured, ways in and out dashed, starts dotted. On the right, one tooth "
           "enlarged.</desc>\n<clipPath id=\"right\"><rect x=\""
        << side + 4 << "\" y=\"4\" width=\"" << side - 8 << "\" height=\"" << side - 8
        << "\"/></clipPath>\n<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n";
    write_view(out, {{0, 0}, side / 2 / reach, 0}, contours, paths);
    out << "<g clip-path=\"url(#right)\">\n";
    write_view(out, {detail, side / 2 / detail_reach, side}, contours, paths);
    out << "</g>\n<rect x=\"" << side + 4 << "\" y=\"4\" width=\"" << side - 8 << "\" height=\"" << side - 8
        << "\" fill=\"none\" stroke=\"#404040\" stroke-width=\"0.5\"/>\n";
    double x = 20;
    for (const drawn_path& p : paths) {
        const double y = side + legend / 2;
        out << "<path fill=\"none\" stroke=\"" << p.colour << "\" stroke-width=\"1.5\" d=\"M" << x << " " << y << "h30\"/>\n<text x=\"" << x + 38
            << "\" y=\"" << y + 5 << "\" font-family=\"sans-serif\" font-size=\"14\" fill=\"#202020\">" << p.name << "</text>\n";
        x += side;
    }
    out << "</svg>\n";
}

} // namespace cam_path
