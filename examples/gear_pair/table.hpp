// Example gear_pair: text in columns.
#ifndef GEAR_PAIR_TABLE_HPP
#define GEAR_PAIR_TABLE_HPP

#include "sheet.hpp"

#include <iosfwd>
#include <string>
#include <string_view>

namespace gear_pair {

/// A number as a drawing states it, whatever the locale; a rounded zero loses its sign.
std::string rounded(double value, int decimals);

/// A number with all its digits.
std::string exact(double value);

/// Writes a text in lines of at most 84 characters, broken at spaces.
void print_wrapped(std::ostream& out, std::string_view text, std::string_view indent = "");

/// Rows of item, symbol, a cell for the pinion, one for its mate, unit.
class table {
public:
    table(std::ostream& out, const sheet& s, int decimals) : out_(out), sheet_(s), decimals_(decimals) {}

    void heading(const std::string& title);
    /// The names of the columns.
    void columns();
    void row(const std::string& item, const std::string& symbol, const std::string& pinion, const std::string& mate,
             const std::string& unit = "");
    /// The texts of that name for pinion and mate.
    void texts(const std::string& item, const std::string& name);
    /// The values of that name for pinion and mate; no row if neither has one.
    void both(const std::string& item, const std::string& symbol, const std::string& name);
    /// The greatest and the least value of that name for pinion and mate.
    void limits(const std::string& item, const std::string& symbol, const std::string& name);
    /// The greatest and the least value of that name for the pair, in the last column.
    void pair_limits(const std::string& item, const std::string& symbol, const std::string& name);
    /// The value of the pair, in the last column.
    void one(const std::string& item, const std::string& symbol, const std::string& name);

private:
    std::string cell(const named_value* v) const;

    std::ostream& out_;
    const sheet& sheet_;
    int decimals_;
};

} // namespace gear_pair

#endif
