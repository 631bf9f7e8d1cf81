// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Writes a plot as SVG: frame, scales, lines, legend; in greys only.
#ifndef RACKWORK_EXCHANGE_PLOT_SVG_HPP
#define RACKWORK_EXCHANGE_PLOT_SVG_HPP

#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "plot.hpp"
#include "text_output.hpp"
#include "xml_text.hpp"

#include <cmath>
#include <cstddef>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

namespace rackwork {

namespace detail {

/// The scale of an axis: its ends, and the round numbers that are written at it.
struct plot_scale {
    double least = 0;
    double greatest = 1;
    double step = 1;

    double first_tick() const { return std::ceil(least / step - 1e-9) * step; }
    int ticks() const { return static_cast<int>(std::floor((greatest - first_tick()) / step + 1e-9)) + 1; }
    std::string label(int i) const { return rounded_text(first_tick() + i * step, decimals_for(step)); }
};

/// 1, 2 or 5 times a power of ten, so that about so many steps fill a length.
inline double round_step(double length, int steps) {
    double step = 1;
    while (step * steps > length) step /= 10;
    while (step * steps * 10 <= length) step *= 10;
    if (step * steps * 5 <= length) return step * 5;
    return step * steps * 2 <= length ? step * 2 : step;
}

inline plot_scale scale_of(const plot& p, const plot_axis& axis, double point<double>::*coordinate, int steps) {
    double least = (std::numeric_limits<double>::max)();
    double greatest = -least;
    for (const plot_line& line : p.lines) {
        for (const point<double>& q : line.points) {
            if (!is_finite(q.x) || !is_finite(q.y)) continue;
            least = smaller(least, q.*coordinate);
            greatest = larger(greatest, q.*coordinate);
        }
    }
    if (!(least <= greatest)) least = greatest = 0;
    // A twentieth of room, or of the size where all is one value.
    const double size = larger(greatest - least, larger(magnitude(least), magnitude(greatest)) * 1e-6);
    const double room = size > 0 ? size / 20 : 0.5;
    plot_scale scale{.least = axis.least.value_or(least - room), .greatest = axis.greatest.value_or(greatest + room)};
    require(first_of(check_finite("least value of the axis", scale.least),
                     check_greater("greatest value of the axis", scale.greatest, scale.least),
                     check_finite("length of the axis", scale.greatest - scale.least)));
    scale.step = round_step(scale.greatest - scale.least, steps);
    return scale;
}

/// One plot on its sheet. Lengths on the sheet are in CSS pixels, y down.
class plot_sheet {
public:
    plot_sheet(std::ostream& stream, const plot& p)
        : out_(stream), plot_(p), across_(scale_of(p, p.across, &point<double>::x, 8)), up_(scale_of(p, p.up, &point<double>::y, 6)) {
        if (p.equal_scales) {
            // The frame keeps its width, or its greatest height, and takes the other from it.
            const double ratio = (up_.greatest - up_.least) / (across_.greatest - across_.least);
            height_ = width_ * ratio;
            if (height_ > greatest_height) {
                height_ = greatest_height;
                width_ = larger(height_ / ratio, 160.0);
                height_ = width_ * ratio;
            }
            across_.step = up_.step = larger(round_step(across_.greatest - across_.least, static_cast<int>(larger(width_ / 110, 2.0))),
                                             round_step(up_.greatest - up_.least, static_cast<int>(larger(height_ / 110, 2.0))));
        }
        for (const plot_line& line : p.lines) {
            if (!line.name.empty()) named_.push_back(&line);
        }
        sheet_width_ = left + larger(width_, 380.0) + right;
        const double half = (sheet_width_ - left - right) / 2;
        for (const plot_line* line : named_) {
            if (beside_sample + width_of(line->name) > half) columns_ = 1;
        }
        const auto rows = static_cast<double>((named_.size() + columns_ - 1) / columns_);
        sheet_height_ = top + height_ + below + rows * row + bottom;
    }

    void write() {
        begin();
        grid();
        out_.text("<g clip-path=\"url(#frame)\" fill=\"none\" stroke-linejoin=\"round\">\n");
        for (const plot_line& line : plot_.lines) curve(line);
        out_.text("</g>\n");
        frame();
        for (const plot_mark& mark : plot_.marks) word(mark);
        legend();
        out_.text("</g>\n</svg>\n");
        out_.finish();
    }

private:
    static constexpr double greatest_height = 560;
    static constexpr double left = 76;
    static constexpr double right = 30;
    static constexpr double top = 46;
    static constexpr double below = 62;
    static constexpr double bottom = 14;
    static constexpr double row = 21;
    /// Where a name in the legend begins, from the sample of its line.
    static constexpr double beside_sample = 54;

    /// About how wide words are: a letter of 13 pixels takes 6.5 on average.
    static double width_of(std::string_view words) { return 6.5 * static_cast<double>(words.size()); }

    void begin() {
        out_.text("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\"");
        attribute("width", sheet_width_).attribute("height", sheet_height_);
        out_.text(" viewBox=\"0 0 ").text(pixels(sheet_width_)).text(" ").text(pixels(sheet_height_)).text("\" role=\"img\">\n<title>");
        out_.text(xml_text(plot_.title)).text("</title>\n<desc>").text(xml_text(plot_.description)).text("</desc>\n<rect");
        attribute("width", sheet_width_).attribute("height", sheet_height_);
        out_.text(" fill=\"#ffffff\"/>\n<clipPath id=\"frame\"><rect");
        attribute("x", left).attribute("y", top).attribute("width", width_).attribute("height", height_);
        out_.text("/></clipPath>\n<g font-family=\"sans-serif\" font-size=\"13\" fill=\"#202020\">\n");
        text(left, 26, "start", plot_.title, " font-size=\"16\"");
    }

    void grid() {
        out_.text("<path fill=\"none\" stroke=\"#dcdcdc\" stroke-width=\"1\" d=\"");
        for (int i = 0; i < across_.ticks(); ++i) {
            out_.text("M")
                .text(pixels(x_of(across_.first_tick() + i * across_.step)))
                .text(" ")
                .text(pixels(top))
                .text("v")
                .text(pixels(height_));
        }
        for (int i = 0; i < up_.ticks(); ++i) {
            out_.text("M").text(pixels(left)).text(" ").text(pixels(y_of(up_.first_tick() + i * up_.step))).text("h").text(pixels(width_));
        }
        out_.text("\"/>\n");
    }

    void frame() {
        out_.text("<rect fill=\"none\" stroke=\"#202020\" stroke-width=\"1\"");
        attribute("x", left).attribute("y", top).attribute("width", width_).attribute("height", height_);
        out_.text("/>\n");
        for (int i = 0; i < across_.ticks(); ++i) {
            text(x_of(across_.first_tick() + i * across_.step), top + height_ + 18, "middle", across_.label(i));
        }
        for (int i = 0; i < up_.ticks(); ++i) text(left - 8, y_of(up_.first_tick() + i * up_.step) + 4.5, "end", up_.label(i));
        text(left + width_ / 2, top + height_ + 40, "middle", titled(plot_.across));
        out_.text("<text transform=\"translate(20 ").text(pixels(top + height_ / 2)).text(") rotate(-90)\" text-anchor=\"middle\">");
        out_.text(xml_text(titled(plot_.up))).text("</text>\n");
    }

    void curve(const plot_line& line) {
        std::string path;
        bool drawing = false;
        for (const point<double>& q : line.points) {
            if (!is_finite(q.x) || !is_finite(q.y)) {
                drawing = false;
                continue;
            }
            path += drawing ? "L" : "M";
            path += pixels(x_of(q.x)) + " " + pixels(y_of(q.y));
            drawing = true;
        }
        if (path.empty()) return;
        if (line.area > 0) {
            out_.text("<path fill=\"").text(grey(1 - line.area)).text("\" d=\"").text(path).text("Z\"/>\n");
        }
        if (line.weight > 0) {
            out_.text("<path");
            stroke(line);
            out_.text(" d=\"").text(path).text("\"/>\n");
        }
    }

    void stroke(const plot_line& line) {
        out_.text(" fill=\"none\" stroke=\"#202020\"");
        attribute("stroke-width", 1.8 * line.weight);
        switch (line.dash) {
        case plot_dash::solid: break;
        case plot_dash::dashed: out_.text(" stroke-dasharray=\"8 5\""); break;
        case plot_dash::dotted: out_.text(" stroke-dasharray=\"2 4\""); break;
        case plot_dash::dash_dotted: out_.text(" stroke-dasharray=\"11 4 2 4\""); break;
        case plot_dash::long_dashed: out_.text(" stroke-dasharray=\"17 6\""); break;
        case plot_dash::dash_dot_dotted: out_.text(" stroke-dasharray=\"12 4 2 4 2 4\""); break;
        }
    }

    void word(const plot_mark& mark) {
        const double x = x_of(mark.at.x);
        const double y = y_of(mark.at.y);
        if (mark.ring) {
            out_.text("<circle fill=\"#ffffff\" stroke=\"#202020\" stroke-width=\"2\" r=\"4.5\"");
            attribute("cx", x).attribute("cy", y);
            out_.text("/>\n");
        }
        const double off = mark.ring ? 9 : 5;
        // Words stay in the frame: beside a point on its other side if need be, above and below it shifted along.
        const double width = width_of(mark.text);
        plot_side side = mark.side;
        if (side == plot_side::left && x - off - width < left && x + off + width < left + width_) {
            side = plot_side::right;
        } else if (side == plot_side::right && x + off + width > left + width_ && x - off - width > left) {
            side = plot_side::left;
        }
        std::string_view anchor = "middle";
        double text_x = smaller(larger(x, left + width / 2 + 4), left + width_ - width / 2 - 4);
        double text_y = y + 4.5;
        switch (side) {
        case plot_side::above: text_y = y - off; break;
        case plot_side::below: text_y = y + off + 9; break;
        case plot_side::left:
            text_x = x - off;
            anchor = "end";
            break;
        case plot_side::right:
            text_x = x + off;
            anchor = "start";
            break;
        }
        // A white rim first, so that lines do not run through the letters.
        text(text_x, text_y, anchor, mark.text, " stroke=\"#ffffff\" stroke-width=\"4\" stroke-linejoin=\"round\" aria-hidden=\"true\"");
        text(text_x, text_y, anchor, mark.text);
    }

    void legend() {
        const double column = (sheet_width_ - left - right) / static_cast<double>(columns_);
        for (std::size_t i = 0; i < named_.size(); ++i) {
            const double x = left + column * static_cast<double>(i % columns_);
            const double y = top + height_ + below + row * static_cast<double>(i / columns_);
            const plot_line& line = *named_[i];
            if (line.area > 0) {
                out_.text("<rect fill=\"").text(grey(1 - line.area)).text("\" width=\"46\" height=\"12\"");
                attribute("x", x).attribute("y", y - 6);
                out_.text("/>\n");
            }
            if (line.weight > 0) {
                out_.text("<path");
                stroke(line);
                out_.text(" d=\"M").text(pixels(x)).text(" ").text(pixels(y)).text("h46\"/>\n");
            }
            text(x + beside_sample, y + 4.5, "start", line.name);
        }
    }

    void text(double x, double y, std::string_view anchor, std::string_view words, std::string_view more = "") {
        if (words.empty()) return;
        out_.text("<text");
        attribute("x", x).attribute("y", y);
        if (anchor != "start") out_.text(" text-anchor=\"").text(anchor).text("\"");
        out_.text(more).text(">").text(xml_text(words)).text("</text>\n");
    }

    static std::string titled(const plot_axis& axis) { return axis.unit.empty() ? axis.name : axis.name + " [" + axis.unit + "]"; }

    static std::string grey(double light) {
        const int level = static_cast<int>(std::lround(255 * smaller(larger(light, 0.0), 1.0)));
        constexpr std::string_view digits = "0123456789abcdef";
        const std::string two{digits[static_cast<std::size_t>(level / 16)], digits[static_cast<std::size_t>(level % 16)]};
        return "#" + two + two + two;
    }

    double x_of(double value) const { return left + width_ * (value - across_.least) / (across_.greatest - across_.least); }
    double y_of(double value) const { return top + height_ * (up_.greatest - value) / (up_.greatest - up_.least); }

    /// A hundredth of a pixel is enough; what lies far outside is brought near.
    static std::string pixels(double value) { return rounded_text(smaller(larger(value, -1e4), 1e4), 2); }
    plot_sheet& attribute(std::string_view name, double value) {
        out_.text(" ").text(name).text("=\"").text(pixels(value)).text("\"");
        return *this;
    }

    text_output out_;
    const plot& plot_;
    plot_scale across_;
    plot_scale up_;
    double width_ = 640;
    double height_ = 400;
    double sheet_width_ = 0;
    double sheet_height_ = 0;
    std::size_t columns_ = 2;
    std::vector<const plot_line*> named_;
};

} // namespace detail

/// Writes a plot as SVG, in greys. The same bytes whatever the locale. Throws geometry_error for axes without length, before the first
/// byte; std::ios_base::failure unless the stream has taken every byte (without exceptions the program ends).
inline void write_svg(std::ostream& stream, const plot& p) { detail::plot_sheet(stream, p).write(); }

} // namespace rackwork

#endif
