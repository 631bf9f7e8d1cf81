// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A number with the documented operations and with nothing else.
#pragma once

#include <cmath>
#include <concepts>
#include <limits>
#include <type_traits>

namespace archetype {

/// The operations that core/scalar.hpp documents, and no more: no default construction, no conversion that is not asked for, no
/// arithmetic or comparison with int or double, no constant evaluation, no streams, no other functions of <cmath>. Inside is a double, so that its
/// results can be compared with the library's for double. It counts its operations, so that a bound on them can be tested.
class number {
public:
    explicit number(int value) : value_(value) {}
    explicit number(double value) : value_(value) {}
    template <class N>
        requires(std::is_arithmetic_v<N> && !std::same_as<N, int> && !std::same_as<N, double>)
    number(N) = delete;
    number(const number&) = default;
    number& operator=(const number&) = default;
    ~number() = default;

    explicit operator double() const { return value_; }

    number operator-() const { return number(-value_); }
    number& operator+=(const number& other) { return count(), value_ += other.value_, *this; }
    number& operator-=(const number& other) { return count(), value_ -= other.value_, *this; }
    number& operator*=(const number& other) { return count(), value_ *= other.value_, *this; }
    number& operator/=(const number& other) { return count(), value_ /= other.value_, *this; }
    friend number operator+(number a, const number& b) { return a += b; }
    friend number operator-(number a, const number& b) { return a -= b; }
    friend number operator*(number a, const number& b) { return a *= b; }
    friend number operator/(number a, const number& b) { return a /= b; }

    friend bool operator==(const number& a, const number& b) { return a.value_ == b.value_; }
    friend bool operator!=(const number& a, const number& b) { return a.value_ != b.value_; }
    friend bool operator<(const number& a, const number& b) { return a.value_ < b.value_; }
    friend bool operator>(const number& a, const number& b) { return a.value_ > b.value_; }
    friend bool operator<=(const number& a, const number& b) { return a.value_ <= b.value_; }
    friend bool operator>=(const number& a, const number& b) { return a.value_ >= b.value_; }

    friend number sqrt(const number& x) { return count(), number(std::sqrt(x.value_)); }
    friend number sin(const number& x) { return count(), number(std::sin(x.value_)); }
    friend number cos(const number& x) { return count(), number(std::cos(x.value_)); }
    friend number tan(const number& x) { return count(), number(std::tan(x.value_)); }
    friend number atan(const number& x) { return count(), number(std::atan(x.value_)); }
    /// For the headers of form/ only.
    friend number log(const number& x) { return count(), number(std::log(x.value_)); }
    friend number exp(const number& x) { return count(), number(std::exp(x.value_)); }

    /// How many sums, products and functions have been computed so far.
    static inline long operations = 0;

private:
    static void count() { ++operations; }

    double value_;
};

} // namespace archetype

/// What is asked of it: that it is no whole number, its digits and what they count, and the three functions below.
template <>
class std::numeric_limits<archetype::number> {
public:
    static constexpr bool is_specialized = true;
    static constexpr bool is_integer = false;
    static constexpr int radix = 2;
    static constexpr int digits = std::numeric_limits<double>::digits;
    static archetype::number epsilon() { return archetype::number(std::numeric_limits<double>::epsilon()); }
    static archetype::number(min)() { return archetype::number((std::numeric_limits<double>::min)()); }
    static archetype::number(max)() { return archetype::number((std::numeric_limits<double>::max)()); }
};
