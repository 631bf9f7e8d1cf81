// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Keeps the worst error of every quantity in a sweep and holds it to its bound.
#pragma once

#include "independent_number.hpp"
#include "ulp.hpp"

#include <limits>
#include <map>
#include <sstream>
#include <string>

#include <doctest/doctest.h>

namespace reference {

using independent::real;

/// What a value is compared with.
struct bound {
    double allowed;  ///< ulp for standard types; for wider ones 45 digits are asked for instead
    real scale{0};   ///< the ulp is that of this size; 0: of the expected value itself
    real condition{1}; ///< the bound is multiplied by this condition number
};

/// Error of a value of type T in units of the bound's ulp, after its condition number.
template <class T>
double error_in_ulp(const T& value, const real& expected, const bound& b) {
    const real size = b.scale == 0 ? expected : real(abs(b.scale));
    real difference = real(value);
    difference -= expected;
    real count;
    if constexpr (std::numeric_limits<T>::digits < std::numeric_limits<real>::digits) {
        count = real(abs(difference) / support::unit_in_the_last_place<T>(size));
    } else {
        const real unit = real(abs(size) * real("1e-45") / b.allowed);
        if (difference == 0) return 0;
        count = real(abs(difference) / unit);
    }
    if (!(count >= 0)) return std::numeric_limits<double>::infinity();
    return static_cast<double>(real(count / b.condition));
}

/// The worst error of each quantity of a sweep. Every quantity has one bound, which must not change on the way.
class ledger {
public:
    /// What is known of one quantity. Errors are in ulp, as error_in_ulp counts them.
    struct entry {
        long count = 0;
        double worst = 0;
        double sum = 0;
        double allowed = 0;
        bool of_itself = true; ///< the ulp is that of the value, neither of a stated size nor divided by a condition number
        std::string sentence;

        double mean() const { return count == 0 ? 0 : sum / static_cast<double>(count); }
    };

    template <class T>
    void record(const std::string& quantity, const T& value, const real& expected, const bound& b) {
        entry& e = entries_[quantity];
        ++e.count;
        const double error = error_in_ulp(value, expected, b);
        e.sum += error;
        e.of_itself = e.of_itself && b.scale == 0 && b.condition == 1;
        if (e.count > 1 && error <= e.worst) return;
        e.worst = error;
        e.allowed = b.allowed;
        std::ostringstream text;
        text.precision(std::numeric_limits<T>::max_digits10);
        text << value << " for ";
        text.precision(std::numeric_limits<T>::max_digits10 + 4);
        text << expected;
        text.precision(4);
        if (b.scale != 0) text << ", ulp of " << b.scale;
        if (b.condition != 1) text << ", condition " << b.condition;
        text << ", " << where_;
        e.sentence = text.str();
    }

    /// Which gear the next records belong to.
    void at(const std::string& where) { where_ = where; }
    const std::string& where() const { return where_; }

    /// One check per quantity.
    void check(const std::string& circumstance = "") const {
        CHECK_FALSE(entries_.empty());
        for (const auto& named : entries_) {
            const entry& e = named.second;
            CAPTURE(e.count);
            CAPTURE(circumstance);
            CHECK_MESSAGE(e.worst <= e.allowed, named.first, ": ", e.worst, " ulp, allowed ", e.allowed, "; ", e.sentence);
        }
    }

    long count(const std::string& quantity) const {
        const auto found = entries_.find(quantity);
        return found == entries_.end() ? 0 : found->second.count;
    }

    const std::map<std::string, entry>& entries() const { return entries_; }

private:
    std::map<std::string, entry> entries_;
    std::string where_;
};

} // namespace reference
