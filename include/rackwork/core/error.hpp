// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What is said of impossible input: which quantity, its value, what is allowed.
#ifndef RACKWORK_CORE_ERROR_HPP
#define RACKWORK_CORE_ERROR_HPP

#include "scalar.hpp"

#include <charconv>
#include <cstdlib>
#include <limits>
#include <stdexcept>
#include <string>

#if defined(__cpp_exceptions) || defined(_CPPUNWIND)
#define RACKWORK_HAS_EXCEPTIONS 1
#else
#define RACKWORK_HAS_EXCEPTIONS 0
#endif

namespace rackwork {

/// A quantity whose value makes the geometry impossible. Converts to true when there is one; a default-made one means that all
/// is well.
struct violation {
    /// Name of the quantity, as in the interface; nullptr when nothing is wrong.
    const char* quantity = nullptr;
    /// Its value, as a double, in the caller's units (angles in degrees).
    double value = 0;
    /// The requirement in words: "must be greater than", "must be less than", "must be at least", "must be at most", or a clause
    /// that needs no number when `has_limit` is false.
    const char* requirement = "";
    /// The limit that belongs to the requirement.
    double limit = 0;
    bool has_limit = true;

    constexpr explicit operator bool() const { return quantity != nullptr; }
};

/// The violation in one sentence, for example "teeth is 0 but must be at least 1", whatever the locale. Numbers have 15 significant
/// digits, so that 15 degrees, which no radian of double equals, reads as 15; or 17 where 15 would not tell value and limit apart.
inline std::string sentence(const violation& v) {
    if (!v) return {};
    const auto number = [](double of, int digits) -> std::string {
        if (of != of) return "not a number"; // whatever sign its bits have
        char text[32];
        return {text, std::to_chars(text, text + sizeof text, of, std::chars_format::general, digits).ptr};
    };
    const bool close = v.has_limit && v.value != v.limit && number(v.value, 15) == number(v.limit, 15);
    const int digits = close ? 17 : 15;
    std::string text = v.quantity;
    text += " is " + number(v.value, digits) + " but " + v.requirement;
    if (v.has_limit) text += ' ' + number(v.limit, digits);
    return text;
}

/// Thrown for impossible input. what() is one sentence; the parts can be had one by one from cause().
class geometry_error : public std::domain_error {
public:
    explicit geometry_error(const violation& v) : std::domain_error(sentence(v)), cause_(v) {}

    /// The quantity, its value and the allowed range.
    const violation& cause() const noexcept { return cause_; }

private:
    violation cause_;
};

/// Reports a violation: throws geometry_error, or ends the program where exceptions are switched off (callers without exceptions
/// ask the check functions first). Reached during constant evaluation it is the compile error that stops a wrong gear.
[[noreturn]] inline void impossible_geometry(const violation& v) {
#if RACKWORK_HAS_EXCEPTIONS
    throw geometry_error(v);
#else
    static_cast<void>(v);
    std::abort();
#endif
}

/// Throws if there is a violation.
constexpr void require(const violation& v) {
    if (v) impossible_geometry(v);
}

/// A violation unless the value is a finite number.
template <scalar T>
constexpr violation check_finite(const char* quantity, const T& value) {
    if (is_finite(value)) return {};
    return {quantity, static_cast<double>(value), "must be a finite number", 0, false};
}

/// A violation unless the value is finite and greater than the limit.
template <scalar T>
constexpr violation check_greater(const char* quantity, const T& value, const T& limit) {
    if (!is_finite(value)) return check_finite(quantity, value);
    if (value > limit) return {};
    return {quantity, static_cast<double>(value), "must be greater than", static_cast<double>(limit)};
}

/// A violation unless the value is finite and at least the limit.
template <scalar T>
constexpr violation check_at_least(const char* quantity, const T& value, const T& limit) {
    if (!is_finite(value)) return check_finite(quantity, value);
    if (value >= limit) return {};
    return {quantity, static_cast<double>(value), "must be at least", static_cast<double>(limit)};
}

/// A violation unless the value is finite and less than the limit.
template <scalar T>
constexpr violation check_less(const char* quantity, const T& value, const T& limit) {
    if (!is_finite(value)) return check_finite(quantity, value);
    if (value < limit) return {};
    return {quantity, static_cast<double>(value), "must be less than", static_cast<double>(limit)};
}

/// A violation unless the value is finite and at most the limit.
template <scalar T>
constexpr violation check_at_most(const char* quantity, const T& value, const T& limit) {
    if (!is_finite(value)) return check_finite(quantity, value);
    if (value <= limit) return {};
    return {quantity, static_cast<double>(value), "must be at most", static_cast<double>(limit)};
}

/// A violation unless the value is finite and neither above the limit nor below its negative.
template <scalar T>
constexpr violation check_magnitude(const char* quantity, const T& value, const T& limit) {
    if (value < T(0)) return check_at_least(quantity, value, T(-limit));
    return check_at_most(quantity, value, limit);
}

/// The first of several checks that failed, or nothing.
template <class... More>
constexpr violation first_of(const violation& v, const More&... more) {
    if constexpr (sizeof...(more) == 0) {
        return v;
    } else {
        return v ? v : first_of(more...);
    }
}

} // namespace rackwork

#endif
