// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Drawings to scale as SVG: one gear, or a pair in mesh, in the transverse section.
#ifndef RACKWORK_EXCHANGE_SVG_HPP
#define RACKWORK_EXCHANGE_SVG_HPP

#include "../core/angle.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "../mesh.hpp"
#include "arc_polyline.hpp"
#include "length_unit.hpp"
#include "placement.hpp"
#include "text_output.hpp"
#include "xml_text.hpp"

#include <cmath>
#include <cstddef>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>

namespace rackwork {

/// What can be chosen about an SVG drawing.
struct svg_options {
    /// Greatest distance between the exact outline and the drawn one, a length. A thousandth of the normal module unless stated.
    std::optional<double> tolerance{};
    /// The unit of the gear's lengths. The drawing has its true size on paper.
    length_unit unit = length_unit::millimetre;
    /// Title, UTF-8. Unless stated, a sentence that says what is drawn.
    std::string title{};
};

namespace detail {

/// Two points.
struct svg_line {
    point<double> begin;
    point<double> end;
};

/// The path of contact of a pair that stands as placement_in_mesh puts it and whose pinion drives counter-clockwise, in the order in
/// which the teeth run through it. Both ends are one point for teeth that do not reach each other.
inline svg_line drawn_path_of_contact(const mesh<double>& pair) {
    const gear<double>& pinion = pair.pinion();
    const double base_radius = pinion.base_diameter() / 2;
    const point<double> along = direction(pi<double>() / 2 - pair.working_pressure_angle().rad());
    const point<double> start = base_radius * point<double>{along.y, -along.x}; // where the line touches the base circle
    const double from = base_radius * pinion.tangent_of_pressure_angle(pair.active_root_diameter().pinion);
    const point<double> begin = start + from * along;
    return {begin, begin + pair.length_of_path_of_contact() * along};
}

/// One SVG drawing. Coordinates are the gear's own, in its unit and with y up; the y axis is turned over once, by the group that holds
/// the drawing.
class svg_sheet {
public:
    svg_sheet(std::ostream& stream, const svg_options& options, double module, double tolerance, bounding_box<double> tips)
        : out_(stream), unit_(options.unit == length_unit::inch ? "in" : "mm"),
          // Rounding a vertex to its last place may take a hundredth of the tolerance.
          decimals_(decimals_for(smaller(tolerance, module / 1000) / 100)) {
        const double width = tips.highest.x - tips.lowest.x;
        const double extent = larger(width, tips.highest.y - tips.lowest.y);
        // Fine enough for many small teeth, strong enough for a thumbnail.
        line_ = smaller(extent / 500, module / 12);
        letter_ = extent / 40;
        margin_ = extent / 28;
        left_ = tips.lowest.x - margin_;
        width_ = width + 2 * margin_;
        bottom_ = tips.lowest.y - 2 * margin_ - letter_;
        height_ = tips.highest.y + margin_ - bottom_;
        scale_bar_left_ = tips.lowest.x;
        for (scale_bar_ = 1; scale_bar_ * 10 <= width / 4;) scale_bar_ *= 10;
        while (scale_bar_ > width / 4) scale_bar_ /= 10;
        scale_bar_ *= scale_bar_ * 5 <= width / 4 ? 5 : scale_bar_ * 2 <= width / 4 ? 2 : 1;
    }

    void begin(std::string_view title, std::string_view description) {
        out_.text("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"");
        length(width_).text(unit_).text("\" height=\"");
        length(height_).text(unit_).text("\" viewBox=\"");
        length(left_).text(" ");
        length(-bottom_ - height_).text(" ");
        length(width_).text(" ");
        length(height_).text("\" role=\"img\">\n<title>").text(xml_text(title));
        out_.text("</title>\n<desc>").text(xml_text(description)).text("</desc>\n<rect");
        attribute("x", left_);
        attribute("y", -bottom_ - height_);
        attribute("width", width_);
        attribute("height", height_);
        out_.text(" fill=\"#ffffff\"/>\n<g transform=\"scale(1 -1)\" stroke-linejoin=\"round\">\n");
    }

    /// The rim behind an internal gear's outline: as wide as it takes to see it, since nothing is known of the real one.
    void rim(std::string_view name, const point<double>& centre, double diameter, std::string_view fill) {
        out_.text("<circle class=\"").text(name).text("\" fill=\"").text(fill).text("\" stroke=\"#202020\"");
        attribute("stroke-width", line_);
        attribute("cx", centre.x);
        attribute("cy", centre.y);
        attribute("r", diameter / 2);
        out_.text("/>\n");
    }

    void outline(std::string_view name, const arc_polyline<double>& curve, std::string_view fill) {
        out_.text("<path class=\"").text(name).text("\" fill=\"").text(fill).text("\" stroke=\"#202020\"");
        attribute("stroke-width", line_);
        out_.text(" d=\"M");
        position(curve.vertices.front().position);
        for (std::size_t i = 0; i < curve.vertices.size(); ++i) {
            const arc_vertex<double>& v = curve.vertices[i];
            const bool last = i + 1 == curve.vertices.size();
            const point<double>& next = curve.vertices[last ? 0 : i + 1].position;
            if (v.bulge != 0) {
                out_.text("\nA");
                length(arc_radius(v.position, next, v.bulge)).text(" ");
                length(arc_radius(v.position, next, v.bulge)).text(magnitude(v.bulge) > 1 ? " 0 1 " : " 0 0 ");
                out_.text(v.bulge > 0 ? "1 " : "0 ");
                position(next).text("\n");
            } else if (!last) {
                out_.text("L");
                position(next);
            }
        }
        out_.text("Z\"/>\n");
    }

    /// Begins what is drawn with thin lines.
    void begin_thin() {
        out_.text("<g fill=\"none\" stroke=\"#303030\"");
        attribute("stroke-width", 0.6 * line_);
        out_.text(">\n");
    }
    void end_thin() { out_.text("</g>\n"); }

    void pitch_circle(std::string_view name, const point<double>& centre, double diameter) {
        out_.text("<circle class=\"").text(name).text("\"");
        attribute("cx", centre.x);
        attribute("cy", centre.y);
        attribute("r", diameter / 2);
        // A long dash, a gap, a dot, a gap.
        out_.text(" stroke-dasharray=\"");
        length(13 * line_).text(" ");
        length(3 * line_).text(" ");
        length(2 * line_).text(" ");
        length(3 * line_).text("\"/>\n");
    }

    void centre_mark(const point<double>& centre, double arm) {
        out_.text("<path class=\"centre\" d=\"M");
        position({centre.x - arm, centre.y}).text("H");
        length(centre.x + arm).text("M");
        position({centre.x, centre.y - arm}).text("V");
        length(centre.y + arm).text("\"/>\n");
    }

    void path_of_contact(const svg_line& path) {
        out_.text("<g class=\"path_of_contact\"><title>Path of contact</title><path d=\"M");
        position(path.begin).text("L");
        position(path.end).text("\"/>");
        for (const point<double>& p : {path.begin, path.end}) {
            out_.text("<circle fill=\"#ffffff\"");
            attribute("cx", p.x);
            attribute("cy", p.y);
            attribute("r", 1.5 * line_);
            out_.text("/>");
        }
        out_.text("</g>\n");
    }

    /// Ends the drawing with the scale bar below it.
    void end() {
        const double y = -bottom_ - margin_ - letter_ / 3;
        const double half_tick = letter_ / 4;
        out_.text("</g>\n<g class=\"scale\"><path fill=\"none\" stroke=\"#202020\"");
        attribute("stroke-width", letter_ / 12);
        out_.text(" d=\"M");
        position({scale_bar_left_, y - half_tick}).text("v");
        length(2 * half_tick).text("m0 ");
        length(-half_tick).text("h");
        length(scale_bar_).text("m0 ");
        length(-half_tick).text("v");
        length(2 * half_tick).text("\"/><text transform=\"translate(");
        position({scale_bar_left_ + scale_bar_ + letter_ / 2, y + 0.35 * letter_});
        // Letters of a fixed size, scaled: programs that draw fonts are not at home below one unit.
        out_.text(") scale(").text(rounded_text(letter_ / letter_size, decimals_ + 2)).text(")\" font-size=\"");
        out_.text(exact_text(letter_size)).text("\" font-family=\"sans-serif\" fill=\"#202020\">");
        out_.text(rounded_text(scale_bar_, decimals_)).text(" ").text(unit_);
        out_.text("</text></g>\n</svg>\n");
        out_.finish();
    }

private:
    text_output& length(double value) { return out_.text(rounded_text(value, decimals_)); }
    text_output& position(const point<double>& p) {
        length(p.x).text(" ");
        return length(p.y);
    }
    void attribute(std::string_view name, double value) {
        out_.text(" ").text(name).text("=\"");
        length(value).text("\"");
    }

    static constexpr double letter_size = 16;

    text_output out_;
    std::string_view unit_;
    int decimals_;
    double line_;
    double letter_;
    double margin_;
    double left_;
    double width_;
    double bottom_;
    double height_;
    double scale_bar_left_;
    double scale_bar_;
};

/// A length of a sentence: six significant places are enough.
inline std::string svg_length(double value, const svg_options& options) {
    return rounded_text(value, decimals_for(magnitude(value) / 1e6)) + (options.unit == length_unit::inch ? " in" : " mm");
}

/// Diameter of the rim that is drawn round an internal gear; of an external one its tip diameter.
inline double drawn_diameter(const gear<double>& g) {
    return g.is_internal() ? g.root_diameter() + 5 * g.normal_module() : g.effective_tip_diameter();
}

inline std::string svg_section_of(const gear<double>& g) {
    if (g.helix_angle().rad() == 0) return "";
    return ", helix angle " + rounded_text(g.helix_angle().deg(), 4) + " degrees, transverse section";
}

} // namespace detail

/// Writes a drawing of one gear with a root of it, as its tool has made it, to scale: outline, reference circle, axis, scale bar. Tooth 0 is
/// on the x axis, which points right. The outline is one closed path, its lands true arcs.
/// Throws geometry_error as arc_polyline_of does, before the first byte; std::ios_base::failure unless the stream has taken
/// every byte (without exceptions the program ends).
inline void write_svg(std::ostream& stream, const gear<double>& g, const generated_root<double>& root, const svg_options& options = {}) {
    const double tolerance = options.tolerance.value_or(g.normal_module() / 1000);
    // The last hundredth is kept for rounding to the decimals that are written.
    const arc_polyline<double> outline = detail::drawn_outline(outline_of(g, root), tolerance * (1 - 1.0 / 64));
    bounding_box<double> box = bounding_box_of(outline);
    box.include_circle({0, 0}, detail::drawn_diameter(g) / 2);
    box.include_circle({0, 0}, g.reference_diameter() / 2);

    const std::string what = (g.is_internal() ? "Internal gear with " : "Gear with ") + std::to_string(g.teeth()) + " teeth";
    detail::svg_sheet sheet(stream, options, g.normal_module(), tolerance, box);
    sheet.begin(options.title.empty() ? what : options.title,
                what + ", normal module " + detail::svg_length(g.normal_module(), options) + detail::svg_section_of(g) +
                    ". The dash-dotted circle is the reference circle, diameter " +
                    detail::svg_length(g.reference_diameter(), options) + ".");
    if (g.is_internal()) sheet.rim("rim", {0, 0}, detail::drawn_diameter(g), "#d4d4d4");
    sheet.outline("gear", outline, g.is_internal() ? "#ffffff" : "#d4d4d4");
    sheet.begin_thin();
    sheet.pitch_circle("reference_circle", {0, 0}, g.reference_diameter());
    sheet.centre_mark({0, 0}, root.root_diameter() / 16);
    sheet.end_thin();
    sheet.end();
}

/// The same with the root that the customary tool makes. Throws geometry_error also as generated_root does.
inline void write_svg(std::ostream& stream, const gear<double>& g, const svg_options& options = {}) {
    write_svg(stream, g, generated_root<double>(g), options);
}

/// Writes a drawing of a pair in mesh to scale, as placement_in_mesh puts it: both outlines, with the roots that the pair's
/// tools make, the working pitch circles, the path of
/// contact for a pinion that drives counter-clockwise, axes, scale bar. Throws as for one gear.
inline void write_svg(std::ostream& stream, const mesh<double>& pair, const svg_options& options = {}) {
    const gear<double>& pinion = pair.pinion();
    const gear<double>& wheel = pair.wheel();
    const double tolerance = options.tolerance.value_or(pinion.normal_module() / 1000);
    const for_both<placement<double>> place = placement_in_mesh(pair);
    const auto of_pinion = placed(detail::drawn_outline(outline_of(pinion, pair.pinion_root()), tolerance * (1 - 1.0 / 64)), place.pinion);
    const auto of_wheel = placed(detail::drawn_outline(outline_of(wheel, pair.wheel_root()), tolerance * (1 - 1.0 / 64)), place.wheel);
    const for_both<double> working = pair.working_diameter();
    bounding_box<double> box = bounding_box_of(of_pinion);
    box.include_circle(place.pinion.centre, larger(detail::drawn_diameter(pinion), working.pinion) / 2);
    box.include_circle(place.wheel.centre, larger(detail::drawn_diameter(wheel), working.wheel) / 2);

    const std::string what =
        "Gear pair with " + std::to_string(pinion.teeth()) + " and " + std::to_string(wheel.teeth()) + " teeth";
    const bool in_contact = pair.length_of_path_of_contact() > 0;
    detail::svg_sheet sheet(stream, options, pinion.normal_module(), tolerance, box);
    sheet.begin(options.title.empty() ? what : options.title,
                what + ", normal module " + detail::svg_length(pinion.normal_module(), options) + ", centre distance " +
                    detail::svg_length(pair.centre_distance(), options) + detail::svg_section_of(pinion) + (pair.is_internal() ? ". The pinion is inside." : ". The pinion is on the left.") + " The dash-dotted circles are the working pitch circles." +
                    (in_contact ? " The thin line between two dots is the path of contact when the pinion drives counter-clockwise."
                                : ""));
    if (pair.is_internal()) sheet.rim("rim", place.wheel.centre, detail::drawn_diameter(wheel), "#e4e4e4");
    sheet.outline("wheel", of_wheel, pair.is_internal() ? "#ffffff" : "#e4e4e4");
    sheet.outline("pinion", of_pinion, "#bcbcbc");
    sheet.begin_thin();
    sheet.pitch_circle("working_pitch_circle", place.pinion.centre, working.pinion);
    sheet.pitch_circle("working_pitch_circle", place.wheel.centre, working.wheel);
    sheet.centre_mark(place.pinion.centre, pair.pinion_root().root_diameter() / 16);
    sheet.centre_mark(place.wheel.centre, pair.wheel_root().root_diameter() / 16);
    if (in_contact) sheet.path_of_contact(detail::drawn_path_of_contact(pair));
    sheet.end_thin();
    sheet.end();
}

} // namespace rackwork

#endif
