// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Streams that fail, and a locale that writes numbers another way: what writers have to cope with.
#pragma once

#include <cstddef>
#include <locale>
#include <sstream>
#include <streambuf>
#include <string>

namespace streams {

/// Takes so many bytes and no more.
class full_disk : public std::streambuf {
public:
    explicit full_disk(std::size_t room) : room_(room) {}

protected:
    int_type overflow(int_type c) override {
        if (room_ == 0 || traits_type::eq_int_type(c, traits_type::eof())) return traits_type::eof();
        --room_;
        return c;
    }

private:
    std::size_t room_;
};

/// Takes everything, but cannot bring it to the disk.
class unplugged_disk : public std::stringbuf {
protected:
    int sync() override { return -1; }
};

/// Decimal comma, and thousands set apart by points.
class comma : public std::numpunct<char> {
protected:
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};

} // namespace streams
