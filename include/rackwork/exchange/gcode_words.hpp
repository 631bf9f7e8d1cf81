// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Blocks of ISO 6983 words: numbers rounded so that what is written is still a tangent, consistent path.
#ifndef RACKWORK_EXCHANGE_GCODE_WORDS_HPP
#define RACKWORK_EXCHANGE_GCODE_WORDS_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../curve/arc.hpp"
#include "text_output.hpp"

#include <charconv>
#include <cstddef>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

namespace rackwork::detail {

/// A number as machine controls read it whatever their settings: rounded, and always with a decimal point, because some take a number
/// without one for thousandths.
inline std::string gcode_number(double value, int decimals) {
    std::string text = rounded_text(value, decimals);
    if (text.find('.') == std::string::npos) text += ".0";
    return text;
}

/// Writes block after block of a program.
class gcode_output {
public:
    gcode_output(std::ostream& stream, int decimals, bool block_numbers) : out_(stream), decimals_(decimals), numbered_(block_numbers) {
        for (int i = 0; i < decimals; ++i) unit_ /= 10;
    }

    /// How far a written arc or line strays from the given one at most, in units of the last place: the ends of both move by half a place
    /// each way, and with the arc its centre, that is rounded once more; see `follow`.
    static constexpr double greatest_rounding = 2.5;

    /// A line that the control does not read as words: the mark at both ends of a program.
    gcode_output& mark(std::string_view text) {
        out_.text(text).text("\n");
        return *this;
    }
    /// A remark in brackets, by itself. What could end it early or is not plain ASCII becomes a blank.
    gcode_output& remark(std::string_view text) {
        std::string plain(text);
        for (char& c : plain) {
            if (c < ' ' || c > '~' || c == '(' || c == ')' || c == '%' || c == ';') c = ' ';
        }
        out_.text("(").text(plain).text(")\n");
        return *this;
    }
    /// A block whose words are given as they are.
    gcode_output& block(std::string_view words) {
        begin();
        out_.text(words).text("\n");
        return *this;
    }
    gcode_output& rapid(const point<double>& to) {
        begin();
        out_.text("G00");
        move_to(to);
        out_.text("\n");
        return *this;
    }
    gcode_output& rapid_height(double z) {
        begin();
        out_.text("G00 Z").text(number(z)).text("\n");
        return *this;
    }
    gcode_output& feed_height(double z, double feed) {
        begin();
        out_.text("G01 Z").text(number(z));
        feed_word(feed);
        out_.text("\n");
        return *this;
    }

    /// Follows an arc or a line from where the tool is. `with` are words that go into its first block.
    ///
    /// Ends are rounded, the start is the end before as it was written, and the centre of an arc that turns by the same angle between those
    /// two is rounded, as I and J from the start. So the radii to both ends agree to within 1.5 units of the last place, and far better on
    /// short arcs. What has no length left is left out: between equal ends a control would run a full circle.
    gcode_output& follow(const arc<double>& a, double feed, std::string_view with = {}) {
        // By quarters and less, so that no end of an arc comes to lie near its beginning.
        const int pieces = 1 + static_cast<int>(magnitude(a.turning) / (0.75 * pi<double>()));
        for (int i = 1; i <= pieces; ++i) {
            const point<double> end = i == pieces ? a.end : a.position(static_cast<double>(i) / pieces);
            const point<double> written_end{rounded(end.x), rounded(end.y)};
            const point<double> chord = written_end - here_;
            if (chord == point<double>{0, 0} && with.empty()) continue;
            const double half = a.turning / pieces / 2;
            const double rise = length(chord) / 2 * elementary::tan(magnitude(half) / 2);
            begin();
            if (!with.empty()) out_.text(with).text(" ");
            with = {};
            // An arc that the rounding makes straight, or that is so short that its centre could change sides.
            if (rise < unit_ / 2 || length(chord) < 4 * unit_) {
                out_.text("G01");
                move_to(end);
            } else {
                const double height = 1 / (2 * elementary::tan(half));
                const point<double> to_centre = 0.5 * chord + height * point<double>{-chord.y, chord.x};
                out_.text(half > 0 ? "G03" : "G02");
                move_to(end);
                out_.text(" I").text(number(to_centre.x)).text(" J").text(number(to_centre.y));
            }
            feed_word(feed);
            out_.text("\n");
        }
        return *this;
    }

    void finish() { out_.finish(); }

private:
    std::string number(double value) const { return gcode_number(value, decimals_); }
    /// The very number that a reader gets.
    double rounded(double value) const {
        const std::string text = number(value);
        double result = 0;
        std::from_chars(text.data(), text.data() + text.size(), result);
        return result;
    }
    void begin() {
        if (!numbered_) return;
        // Four digits are what every control has room for.
        block_ = block_ == 9999 ? 1 : block_ + 1;
        out_.text("N").text(std::to_string(block_)).text(" ");
    }
    void move_to(const point<double>& to) {
        out_.text(" X").text(number(to.x)).text(" Y").text(number(to.y));
        here_ = {rounded(to.x), rounded(to.y)};
    }
    void feed_word(double feed) {
        if (feed == feed_) return;
        out_.text(" F").text(gcode_number(feed, 3));
        feed_ = feed;
    }

    text_output out_;
    int decimals_;
    bool numbered_;
    double unit_ = 1;
    int block_ = 0;
    double feed_ = 0;
    point<double> here_{};
};

/// Length of an arc or a line.
inline double length_of(const arc<double>& a) { return a.is_line() ? length(a.end - a.start) : a.radius * magnitude(a.turning); }

/// Divides a path so that from one of its joints to its end it is `rest` long, and returns the index of what begins there.
inline std::size_t divided_before_end(std::vector<arc<double>>& path, double rest) {
    std::size_t i = path.size();
    while (i > 0 && rest > 0) {
        arc<double>& a = path[--i];
        const double way = length_of(a);
        if (way > rest) {
            const double share = 1 - rest / way;
            arc<double> after = a;
            after.start = a.position(share);
            after.turning = a.turning * (1 - share);
            a.end = after.start;
            a.turning = a.turning * share;
            a.corner_at_end = false;
            path.insert(path.begin() + static_cast<std::ptrdiff_t>(i) + 1, after);
            return i + 1;
        }
        rest -= way;
    }
    return i;
}

} // namespace rackwork::detail

#endif
