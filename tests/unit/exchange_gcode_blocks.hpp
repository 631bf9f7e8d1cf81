// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Reads machine programs word by word, knowing nothing of how they were written.
#ifndef EXCHANGE_GCODE_BLOCKS_HPP
#define EXCHANGE_GCODE_BLOCKS_HPP

#include "../exchange/gcode_measure.hpp"

#include <charconv>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace gcode_blocks {

/// A word, "X10.5": its letter, and the whole of it.
struct word {
    char letter;
    std::string text;
};
using block = std::vector<word>;

/// The blocks of a program, without remarks and the marks at its ends.
inline std::vector<block> blocks_of(const std::string& program) {
    std::vector<block> result;
    std::istringstream lines(program);
    std::string line;
    while (std::getline(lines, line)) {
        if (line == "%") continue;
        if (line.front() == '(') {
            if (line.find(')') != line.size() - 1) throw std::runtime_error("not one remark: " + line);
            continue;
        }
        block b;
        std::istringstream words(line);
        std::string text;
        while (words >> text) b.push_back({text.front(), text});
        if (b.empty()) throw std::runtime_error("an empty block");
        result.push_back(b);
    }
    return result;
}

/// The last word with that letter, or nothing.
inline std::string text(const block& b, char letter) {
    std::string result;
    for (const word& w : b) {
        if (w.letter == letter) result = w.text;
    }
    return result;
}
inline bool has(const block& b, char letter) { return !text(b, letter).empty(); }
inline double value(const block& b, char letter) {
    const std::string t = text(b, letter);
    double result = 0;
    const auto [end, error] = std::from_chars(t.data() + 1, t.data() + t.size(), result);
    if (t.empty() || error != std::errc{} || end != t.data() + t.size()) throw std::runtime_error(std::string("no number behind ") + letter);
    return result;
}

/// All moves in the plane.
inline std::vector<gcode_measure::move> moves_of(const std::string& program) {
    std::vector<gcode_measure::move> result;
    gcode_measure::point<double> here{};
    for (const block& b : blocks_of(program)) {
        if (!has(b, 'X')) continue;
        gcode_measure::move m{.from = here, .to = {value(b, 'X'), value(b, 'Y')}};
        const std::string way = text(b, 'G');
        if (way == "G02" || way == "G03") {
            m.turns = way == "G03" ? 1 : -1;
            m.centre = {here.x + value(b, 'I'), here.y + value(b, 'J')};
        } else if (way != "G00" && way != "G01") {
            throw std::runtime_error("a move by " + way);
        }
        m.rapid = way == "G00";
        here = m.to;
        result.push_back(m);
    }
    return result;
}

} // namespace gcode_blocks

#endif
