// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A caller's text made fit for an XML file.
#ifndef RACKWORK_EXCHANGE_XML_TEXT_HPP
#define RACKWORK_EXCHANGE_XML_TEXT_HPP

#include <cstddef>
#include <string>
#include <string_view>

namespace rackwork::detail {

/// Number of bytes of the UTF-8 character with which the text begins; 0 where it is none that XML allows.
inline std::size_t length_of_xml_character(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned>(static_cast<unsigned char>(text[i])); };
    const unsigned first = byte(0);
    if (first < 0x80) return first >= 0x20 || first == '\t' || first == '\n' || first == '\r' ? 1 : 0;
    const std::size_t count = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    if (first < 0xC2 || first > 0xF4 || text.size() < count) return 0;
    unsigned code = first & (0xFFU >> (count + 1));
    for (std::size_t i = 1; i < count; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) return 0;
        code = code << 6 | (byte(i) & 0x3FU);
    }
    const bool too_long = (count == 3 && code < 0x800) || (count == 4 && code < 0x10000);
    const bool surrogate = code >= 0xD800 && code < 0xE000;
    return too_long || surrogate || code > 0x10FFFF || code == 0xFFFE || code == 0xFFFF ? 0 : count;
}

/// UTF-8 text with the characters that mean something in XML written out; bytes that XML forbids become U+FFFD.
inline std::string xml_text(std::string_view text) {
    std::string result;
    while (!text.empty()) {
        const std::size_t count = length_of_xml_character(text);
        switch (text.front()) {
        case '&': result += "&amp;"; break;
        case '<': result += "&lt;"; break;
        case '>': result += "&gt;"; break;
        case '"': result += "&quot;"; break;
        default:
            if (count == 0) {
                result += "\xEF\xBF\xBD";
            } else {
                result += text.substr(0, count);
            }
        }
        text.remove_prefix(count == 0 ? 1 : count);
    }
    return result;
}

} // namespace rackwork::detail

#endif
