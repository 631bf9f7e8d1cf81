// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#pragma once

#include "random_source.hpp"

#include <cmath>
#include <limits>
#include <locale>
#include <ostream>
#include <sstream>
#include <string>
#include <type_traits>

#include <boost/multiprecision/cpp_bin_float.hpp>

/// Errors counted in units in the last place, for tests that hold a result to a bound.
///
///     CHECK(support::within_ulp(inv(20_deg), inv_in_fifty_digits, 2));
///
/// passes or fails like any check and prints both values, in decimal and in hexadecimal, and the error.
/// For sweeps, support::worst_case keeps the largest error and the input that gave it.
namespace support {

/// Fifty decimal digits: wide enough to judge float, double and long double.
using wide = boost::multiprecision::cpp_bin_float_50;

/// The spacing of T's numbers in the binade of `expected`; the smallest subnormal at and near zero.
template <class T, class Wide>
Wide unit_in_the_last_place(const Wide& expected) {
    using std::frexp;
    using std::ldexp;
    using limits = std::numeric_limits<T>;
    int exponent = limits::min_exponent;
    if (expected != 0) {
        int own = 0;
        static_cast<void>(frexp(expected, &own));
        if (own > exponent) exponent = own;
    }
    // frexp's fraction is in [1/2, 1), as numeric_limits counts its exponents.
    return ldexp(Wide(1), exponent - limits::digits);
}

/// Distance of `value` from `expected` in units in the last place of T at `expected`; infinite where one of the two is
/// not a number or only one of them is finite.
/// The expected value must have more digits than T, or its own rounding would pass for ours.
template <class T, class Wide>
double ulp_error(const T& value, const Wide& expected) {
    static_assert(std::numeric_limits<Wide>::digits > std::numeric_limits<T>::digits,
                  "the expected value must be of a wider type than the value under test");
    using std::abs;
    using std::isfinite;
    using std::isnan;
    constexpr double endless = std::numeric_limits<double>::infinity();
    if (isnan(value) || isnan(expected)) return endless;
    const Wide widened(value);
    if (!isfinite(value) || !isfinite(expected)) return widened == expected ? 0.0 : endless;
    const Wide difference = widened - expected;
    const Wide size = abs(difference);
    const Wide count = size / unit_in_the_last_place<T>(expected);
    return static_cast<double>(count);
}

namespace detail {
template <class Number>
void print_both_ways(std::ostream& out, const Number& value) {
    // A stream of its own: the caller's flags and locale stay out of the report.
    std::ostringstream text;
    text.imbue(std::locale::classic());
    text.precision(std::numeric_limits<Number>::max_digits10);
    text << value;
    if constexpr (std::is_floating_point_v<Number>) text << " (" << std::hexfloat << value << ")";
    out << text.str();
}

template <class T, class Wide>
std::string describe_error(const T& value, const Wide& expected, double error) {
    std::ostringstream text;
    text.imbue(std::locale::classic());
    print_both_ways(text, value);
    text << " is " << error << " ulp from ";
    print_both_ways(text, expected);
    // Of the expected value's digits only those that T can hold are comparable by eye, hence its nearest T as well.
    if constexpr (std::is_floating_point_v<T> && !std::is_floating_point_v<Wide>) {
        text << ", whose nearest is ";
        print_both_ways(text, static_cast<T>(expected));
    }
    return text.str();
}
} // namespace detail

/// Outcome of a comparison in ulp: converts to bool, and prints as a sentence when a check fails.
struct ulp_comparison {
    double error;   ///< distance, ulp
    double allowed; ///< bound, ulp
    std::string sentence;

    explicit operator bool() const { return error <= allowed; }
    friend std::ostream& operator<<(std::ostream& out, const ulp_comparison& comparison) {
        return out << comparison.sentence;
    }
};

/// Is `value` within `allowed` ulp of `expected`? For use inside CHECK.
template <class T, class Wide>
ulp_comparison within_ulp(const T& value, const Wide& expected, double allowed) {
    const double error = ulp_error(value, expected);
    if (error <= allowed) return {error, allowed, "within the bound"}; // no sentence: sweeps come here a million times
    std::ostringstream text;
    text.imbue(std::locale::classic());
    text << detail::describe_error(value, expected, error) << "; allowed are " << allowed;
    return {error, allowed, text.str()};
}

/// The largest error of a sweep and where it was met.
///
///     worst_case worst;
///     for (...) worst.record(inv(rad(x)), inv_wide(x), x);
///     CHECK_MESSAGE(worst.error() <= inv_error_bound, worst);
template <class Input = double>
class worst_case {
public:
    template <class T, class Wide>
    void record(const T& value, const Wide& expected, const Input& input) {
        ++count_;
        const double error = ulp_error(value, expected);
        if (count_ > 1 && !(error > error_)) return;
        error_ = error;
        std::ostringstream text;
        text.imbue(std::locale::classic());
        text << "at ";
        detail::print_both_ways(text, input);
        text << ": " << detail::describe_error(value, expected, error);
        sentence_ = text.str();
    }

    /// Largest error so far, ulp; infinite before the first record, so that an empty sweep cannot pass.
    double error() const { return count_ > 0 ? error_ : std::numeric_limits<double>::infinity(); }
    long count() const { return count_; }

    friend std::ostream& operator<<(std::ostream& out, const worst_case& worst) {
        return out << (worst.count_ > 0 ? worst.sentence_ : std::string{"nothing was recorded"});
    }

private:
    double error_ = 0;
    long count_ = 0;
    std::string sentence_;
};

} // namespace support
