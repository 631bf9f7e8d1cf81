// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Text and numbers on their way into a stream: the same bytes under every locale, and loud when the stream does not take them.
#ifndef RACKWORK_EXCHANGE_TEXT_OUTPUT_HPP
#define RACKWORK_EXCHANGE_TEXT_OUTPUT_HPP

#include "../core/error.hpp"

#include <charconv>
#include <cstddef>
#include <cstdlib>
#include <ios>
#include <ostream>
#include <string>
#include <string_view>

namespace rackwork::detail {

/// Room for any double in fixed notation: 309 digits before the point, or 324 zeros and 17 digits behind it.
inline constexpr std::size_t longest_number = 512;

/// A number in fixed notation with the fewest digits that read back as the same double.
inline std::string exact_text(double number) {
    char digits[longest_number];
    // The sum turns -0 into 0.
    return {digits, std::to_chars(digits, digits + longest_number, number + 0.0, std::chars_format::fixed).ptr};
}

/// A number in fixed notation, rounded to so many places behind the point (at most 180, for numbers below 10^300); zeros at its end are
/// left out. The modules that a gear can have stay well within.
inline std::string rounded_text(double number, int decimals) {
    char digits[longest_number];
    std::string text(digits, std::to_chars(digits, digits + longest_number, number, std::chars_format::fixed, decimals).ptr);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

/// The least number of decimals whose last place is worth no more than `step`, which is greater than 0.
inline int decimals_for(double step) {
    int decimals = 0;
    for (double place = 1; place > step; place /= 10) ++decimals;
    return decimals;
}

/// A stream seen as a place for finished text: no formatting of its own, hence no locale, no width and no flags.
class text_output {
public:
    explicit text_output(std::ostream& stream) : stream_(stream) { waiting_.reserve(2 * piece); }

    text_output& text(std::string_view characters) {
        waiting_ += characters;
        if (waiting_.size() >= piece) hand_over();
        return *this;
    }

    /// Hands everything over. Throws std::ios_base::failure (ends the program where exceptions are switched off) unless the stream
    /// has taken every byte.
    void finish() {
        hand_over();
        stream_.flush(); // a full disk shows only now
        if (stream_.good()) return;
#if RACKWORK_HAS_EXCEPTIONS
        throw std::ios_base::failure("the stream has not taken the whole file");
#else
        std::abort();
#endif
    }

private:
    static constexpr std::size_t piece = 4096;

    void hand_over() {
        stream_.write(waiting_.data(), static_cast<std::streamsize>(waiting_.size()));
        waiting_.clear();
    }

    std::ostream& stream_;
    std::string waiting_;
};

} // namespace rackwork::detail

#endif
