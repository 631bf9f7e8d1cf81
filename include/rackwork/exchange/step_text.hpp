// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Numbers, words and numbered entities in the clear text of ISO 10303-21.
#ifndef RACKWORK_EXCHANGE_STEP_TEXT_HPP
#define RACKWORK_EXCHANGE_STEP_TEXT_HPP

#include "text_output.hpp"
#include "xml_text.hpp"

#include <charconv>
#include <cstddef>
#include <ostream>
#include <string>
#include <string_view>

namespace rackwork::detail {

/// Appends a real with the fewest digits that read back as the same double; a real has a point, and E before its exponent.
inline void append_step_real(std::string& text, double number) {
    char digits[32];
    // The sum turns -0 into 0.
    const char* const end = std::to_chars(digits, digits + sizeof digits, number + 0.0).ptr;
    bool point = false;
    for (const char* c = digits; c != end; ++c) {
        if (*c == '.') point = true;
        if (*c == 'e') {
            if (!point) text += '.';
            point = true;
            text += 'E';
        } else {
            text += *c;
        }
    }
    if (!point) text += '.';
}

/// A string between apostrophes: printable ASCII as it is, apostrophe and backslash twice, everything else in UTF-8 by its code in the
/// directive X2 (X4 beyond the basic plane). Bytes that are no UTF-8 become U+FFFD.
inline std::string step_string(std::string_view words) {
    constexpr std::string_view hexadecimal = "0123456789ABCDEF";
    std::string text = "'";
    while (!words.empty()) {
        const auto byte = [&](std::size_t i) { return static_cast<unsigned>(static_cast<unsigned char>(words[i])); };
        const bool plain = byte(0) >= 0x20 && byte(0) < 0x7F;
        const std::size_t count = plain ? 1 : length_of_xml_character(words);
        if (plain) {
            if (words.front() == '\'' || words.front() == '\\') text += words.front();
            text += words.front();
        } else {
            unsigned code = 0xFFFD;
            if (count == 1) {
                code = byte(0);
            } else if (count > 1) {
                code = byte(0) & (0xFFU >> (count + 1));
                for (std::size_t i = 1; i < count; ++i) code = code << 6 | (byte(i) & 0x3FU);
            }
            const int places = code > 0xFFFF ? 8 : 4;
            text += places == 8 ? "\\X4\\" : "\\X2\\";
            for (int shift = 4 * (places - 1); shift >= 0; shift -= 4) text += hexadecimal[(code >> shift) & 0xFU];
            text += "\\X0\\";
        }
        words.remove_prefix(count == 0 ? 1 : count);
    }
    return text + "'";
}

/// Entities with numbers in the order in which they are written.
class step_entities {
public:
    explicit step_entities(std::ostream& stream) : out_(stream) {}

    /// A line as it is.
    step_entities& line(std::string_view words) {
        out_.text(words).text("\n");
        return *this;
    }

    // The parts of an entity, between begin and end; end says its number.
    step_entities& begin(std::string_view words) {
        text_ = '#';
        whole(next_);
        text_ += '=';
        text_ += words;
        return *this;
    }
    step_entities& words(std::string_view words) {
        text_ += words;
        return *this;
    }
    step_entities& real(double number) {
        append_step_real(text_, number);
        return *this;
    }
    step_entities& whole(std::size_t number) {
        char digits[24];
        text_.append(digits, std::to_chars(digits, digits + sizeof digits, number).ptr);
        return *this;
    }
    step_entities& reference(std::size_t entity) {
        text_ += '#';
        return whole(entity);
    }
    /// Some entities that were written one after another.
    step_entities& references(std::size_t first, std::size_t count) {
        for (std::size_t i = 0; i < count; ++i) {
            if (i > 0) text_ += ',';
            reference(first + i);
        }
        return *this;
    }
    std::size_t end() {
        text_ += ";\n";
        out_.text(text_);
        return next_++;
    }

    /// An entity that is said in one go.
    std::size_t entity(std::string_view words) { return begin(words).end(); }

    void finish() { out_.finish(); }

private:
    text_output out_;
    std::string text_;
    std::size_t next_ = 1;
};

} // namespace rackwork::detail

#endif
