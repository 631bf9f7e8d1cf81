// Example gear_pair: text in columns.
#include "table.hpp"

#include <algorithm>
#include <charconv>
#include <ostream>

namespace gear_pair {

namespace {

std::string text_of(double value, std::chars_format format, int precision) {
    char digits[512]; // enough for any number without an exponent
    return {digits, std::to_chars(digits, digits + sizeof digits, value, format, precision).ptr};
}

std::string padded_left(const std::string& text, std::size_t width) {
    return std::string(width > text.size() ? width - text.size() : 0, ' ') + text;
}

std::string padded_right(const std::string& text, std::size_t width) {
    return text + std::string(width > text.size() ? width - text.size() : 0, ' ');
}

} // namespace

std::string rounded(double value, int decimals) {
    std::string text = text_of(value, std::chars_format::fixed, decimals);
    if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-') text.erase(0, 1);
    return text;
}

std::string exact(double value) {
    return text_of(value, std::chars_format::general, 17);
}

void print_wrapped(std::ostream& out, std::string_view text, std::string_view indent) {
    constexpr std::size_t width = 84;
    while (!text.empty()) {
        std::size_t length = std::min(text.size(), width);
        if (length < text.size()) {
            const std::size_t space = text.rfind(' ', length);
            if (space != std::string_view::npos && space > 0) length = space;
        }
        out << indent << text.substr(0, length) << '\n';
        text.remove_prefix(std::min(text.size(), length + 1));
    }
}

void table::heading(const std::string& title) {
    out_ << '\n' << title << '\n' << std::string(title.size(), '-') << '\n';
}

void table::columns() {
    row("", "", "pinion", sheet_.mate);
}

void table::row(const std::string& item, const std::string& symbol, const std::string& pinion, const std::string& mate,
                const std::string& unit) {
    std::string line = padded_right(item, 41) + ' ' + padded_right(symbol, 9) + padded_left(pinion, 12) + padded_left(mate, 13) + "  " +
                       unit;
    line.erase(line.find_last_not_of(' ') + 1);
    out_ << line << '\n';
}

void table::texts(const std::string& item, const std::string& name) {
    row(item, "", sheet_.text("pinion." + name), sheet_.text(sheet_.mate + "." + name));
}

void table::both(const std::string& item, const std::string& symbol, const std::string& name) {
    const named_value* of_pinion = sheet_.find("pinion." + name);
    const named_value* of_mate = sheet_.find(sheet_.mate + "." + name);
    const named_value* any = of_pinion != nullptr ? of_pinion : of_mate;
    if (any != nullptr) row(item, symbol, cell(of_pinion), cell(of_mate), any->unit == "1" ? "" : any->unit);
}

void table::limits(const std::string& item, const std::string& symbol, const std::string& name) {
    both(item + ", greatest", symbol, "greatest_" + name);
    both("  least", "", "least_" + name);
}

void table::pair_limits(const std::string& item, const std::string& symbol, const std::string& name) {
    one(item + ", greatest", symbol, "greatest_" + name);
    one("  least", "", "least_" + name);
}

void table::one(const std::string& item, const std::string& symbol, const std::string& name) {
    const named_value* v = sheet_.find("pair." + name);
    if (v != nullptr) row(item, symbol, "", cell(v), v->unit == "1" ? "" : v->unit);
}

std::string table::cell(const named_value* v) const {
    if (v == nullptr) return "-";
    const bool count = v->name.ends_with(".teeth") || v->name.ends_with(".teeth_spanned") || v->name.ends_with(".tolerance_class") ||
                       v->name.ends_with(".teeth_of_mate");
    return rounded(v->value, count ? 0 : v->unit == "um" ? 1 : decimals_);
}

} // namespace gear_pair
