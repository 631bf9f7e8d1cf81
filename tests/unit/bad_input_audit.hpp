// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The judge of the bad-input tests: every computation must end in a finite number or in a geometry_error whose sentence is true.
#pragma once

#include <rackwork/centre_distance.hpp>
#include <rackwork/core/angle.hpp>
#include <rackwork/core/error.hpp>
#include <rackwork/core/point.hpp>
#include <rackwork/gear.hpp>
#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>

#include <charconv>
#include <chrono>
#include <cmath>
#include <concepts>
#include <functional>
#include <limits>
#include <map>
#include <ostream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

namespace bad_input {

/// True when a result holds nothing but finite numbers.
template <class T>
    requires std::floating_point<T>
bool all_finite(const T& value) {
    return std::isfinite(value);
}
inline bool all_finite(bool) { return true; }
inline bool all_finite(int) { return true; }
template <class T>
bool all_finite(const rackwork::angle<T>& a) {
    return all_finite(a.rad()) && all_finite(a.deg());
}
template <class T>
bool all_finite(const rackwork::point<T>& p) {
    return all_finite(p.x) && all_finite(p.y);
}
template <class T>
bool all_finite(const rackwork::chord<T>& c) {
    return all_finite(c.thickness) && all_finite(c.height);
}
template <class T>
bool all_finite(const rackwork::pin_position<T>& p) {
    return all_finite(p.centre_diameter) && all_finite(p.contact_diameter);
}
template <class V>
bool all_finite(const rackwork::for_both<V>& both) {
    return all_finite(both.pinion) && all_finite(both.wheel);
}
template <class T>
bool all_finite(const rackwork::basic_rack<T>& rack) {
    return all_finite(rack.pressure_angle) && all_finite(rack.addendum) && all_finite(rack.dedendum) &&
           all_finite(rack.root_fillet_radius);
}

inline bool same_double(double a, double b) { return a == b || (a != a && b != b); }

/// A number of a sentence, read back. The greatest numbers, rounded up as they are printed, are beyond any double.
inline double printed_number(std::string_view text) {
    if (text == "not a number") return std::numeric_limits<double>::quiet_NaN();
    double number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (end != text.data() + text.size()) throw std::runtime_error{"unreadable number in a sentence"};
    if (fault == std::errc::result_out_of_range) return text.front() == '-' ? -HUGE_VAL : HUGE_VAL;
    return number;
}

/// A printed number is the number to the fifteen digits that are printed.
inline bool printed_as(double number, double printed) {
    if (same_double(number, printed)) return true;
    constexpr double greatest = (std::numeric_limits<double>::max)();
    if (std::isinf(printed)) return std::fabs(number) > greatest * (1 - 5e-15) && (number > 0) == (printed > 0);
    return std::fabs(number - printed) <= 5e-15 * std::fabs(number) || std::fabs(number - printed) <= 5e-324;
}

/// Why a requirement is not violated by a value, or an empty string.
inline std::string not_violated(std::string_view requirement, double value, double limit) {
    if (requirement == "must be greater than") return value > limit ? "the value is greater than the limit" : "";
    if (requirement == "must be at least") return value >= limit ? "the value is at least the limit" : "";
    if (requirement == "must be less than") return value < limit ? "the value is less than the limit" : "";
    if (requirement == "must be at most") return value <= limit ? "the value is at most the limit" : "";
    if (requirement == "must, to fit the pinion, be") return value == limit ? "the values are equal" : "";
    return "the requirement is not known to this test";
}

/// Why the sentence of a violation is not true, or an empty string. With `rounded`, for scalars wider than double, a value and its
/// limit may have become the same double, and numbers beyond the range of double infinite.
inline std::string untruth(const rackwork::violation& v, bool rounded = false) {
    const std::string text = rackwork::sentence(v);
    const std::string beginning = std::string{v.quantity} + " is ";
    const std::string middle = std::string{" but "} + v.requirement;
    const auto at = text.find(middle);
    if (text.rfind(beginning, 0) != 0 || at == std::string::npos) return "the sentence does not read as it should";
    const double printed_value = printed_number(std::string_view{text}.substr(beginning.size(), at - beginning.size()));
    if (!printed_as(v.value, printed_value)) return "the printed value is not the value";
    const std::string_view requirement = v.requirement;
    if (!v.has_limit) {
        if (at + middle.size() != text.size()) return "something follows a sentence without a limit";
        if (requirement == "must be a finite number") return std::isfinite(v.value) ? "the value is finite" : "";
        if (!rounded && !std::isfinite(v.value)) return "a clause of geometry is given for a value that is not finite";
        if (requirement == "must not be zero for a lead or an axial pitch") return v.value == 0 ? "" : "the value is not zero";
        if (requirement == "must lie between -90 and 90 degrees") return std::fabs(v.value) < 1.5707963 ? "the angle lies there" : "";
        // The clauses about pins have a test of their own.
        if (requirement.find("touch") != std::string_view::npos) return "";
        return "the requirement is not known to this test";
    }
    const double printed_limit = printed_number(std::string_view{text}.substr(at + middle.size() + 1));
    if (!printed_as(v.limit, printed_limit)) return "the printed limit is not the limit";
    if (std::isnan(v.limit)) return "the limit is not a number";
    if (!rounded && !std::isfinite(v.value)) return "a comparison is stated of a value that is not finite";
    if (!rounded && !std::isfinite(v.limit)) return "the limit is not a finite number";
    if (rounded && v.value == v.limit) return "";
    // Both as they are and as they can be read.
    const std::string fault = not_violated(requirement, v.value, v.limit);
    return fault.empty() ? not_violated(requirement, printed_value, printed_limit) : fault;
}

/// Collects what goes wrong, one example of each kind.
class audit {
public:
    /// What the inputs of the present case are, for the report.
    std::function<std::string()> describe = [] { return std::string{}; };
    /// For scalars wider than double.
    bool rounded = false;

    /// Runs one computation and judges how it ends.
    template <class F>
    void operator()(const char* name, const F& compute) {
        ++computations_;
        const auto start = std::chrono::steady_clock::now();
        try {
            const auto result = compute();
            if (all_finite(result)) {
                ++results_;
            } else {
                complain(name, "gives a number that is not finite", "");
            }
        } catch (const rackwork::geometry_error& error) {
            ++refusals_;
            judge(name, error);
        }
        // Generous, since machines are shared; a search that does not end would take hours.
        if (std::chrono::steady_clock::now() - start > std::chrono::seconds{2}) complain(name, "takes too long", "");
    }

    void judge(const char* name, const rackwork::geometry_error& error) {
        if (!error.cause()) return complain(name, "refuses without a cause", error.what());
        if (error.what() != rackwork::sentence(error.cause())) complain(name, "says something else than its cause", error.what());
        const std::string fault = untruth(error.cause(), rounded);
        if (!fault.empty()) complain(name, "refuses with an untrue sentence: " + fault, error.what());
    }

    void complain(const char* name, const std::string& fault, const std::string& example) {
        auto& entry = complaints_[std::string{name} + " " + fault];
        if (entry.first++ == 0) entry.second = example + " [" + describe() + "]";
    }

    bool clean() const { return complaints_.empty(); }
    long computations() const { return computations_; }
    /// How many ended in finite numbers, and how many were refused.
    long results() const { return results_; }
    long refusals() const { return refusals_; }

    friend std::ostream& operator<<(std::ostream& out, const audit& a) {
        for (const auto& [what, entry] : a.complaints_) {
            out << what << " (" << entry.first << " times); for example " << entry.second << '\n';
        }
        return out << a.computations_ << " computations, " << a.results_ << " results, " << a.refusals_ << " refusals";
    }

private:
    std::map<std::string, std::pair<long, std::string>> complaints_;
    long computations_ = 0;
    long results_ = 0;
    long refusals_ = 0;
};

template <class T>
constexpr bool wider_than_double = std::numeric_limits<T>::digits > std::numeric_limits<double>::digits;

/// Numbers as they occur when a field was forgotten, a unit mixed up or a sensor failed; from the least to the greatest.
template <std::floating_point T>
std::vector<T> awkward_numbers() {
    using limits = std::numeric_limits<T>;
    std::vector<T> all{T(0), limits::denorm_min(), (limits::min)(), std::sqrt((limits::min)()), limits::epsilon(), T(0.001), T(0.5),
                       T(1), T(1.25), T(20), T(89.9999), T(90), T(1e4), T(1) / limits::epsilon(), std::sqrt((limits::max)()),
                       (limits::max)(), limits::infinity()};
    const std::size_t count = all.size();
    for (std::size_t i = 0; i < count; ++i) all.push_back(-all[i]); // -0 as well
    all.push_back(limits::quiet_NaN());
    return all;
}

inline const std::vector<int>& awkward_whole_numbers() {
    static const std::vector<int> all{(std::numeric_limits<int>::min)(), -17, -1, 0, 1, 2, 3, 17, 18, 1000003,
                                      (std::numeric_limits<int>::max)() - 1, (std::numeric_limits<int>::max)()};
    return all;
}

template <class T>
std::string described(const rackwork::gear_parameters<T>& p) {
    std::ostringstream text;
    text.precision(std::numeric_limits<T>::max_digits10);
    text << "module " << p.normal_module << ", teeth " << p.teeth << ", helix " << p.helix_angle.deg() << " deg, pressure angle "
         << p.rack.pressure_angle.deg() << " deg, addendum " << p.rack.addendum << ", dedendum " << p.rack.dedendum << ", fillet "
         << p.rack.root_fillet_radius << ", shift " << p.profile_shift << ", tip alteration " << p.tip_alteration << ", allowance "
         << p.thickness_allowance << ", face width " << p.face_width;
    return text.str();
}

} // namespace bad_input
