// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Taylor series, cut off: a function's value and its derivatives, found by the rules of calculus.
#ifndef RACKWORK_CURVE_DETAIL_JET_HPP
#define RACKWORK_CURVE_DETAIL_JET_HPP

#include "../../core/scalar.hpp"

#include <array>
#include <concepts>
#include <cstddef>
#include <limits>

namespace rackwork::detail {

/// The first N coefficients of a function's Taylor series in some variable x: f = c_0 + c_1 x + c_2 x^2 + ...
/// A jet is a scalar, so that a curve can be evaluated at it; out come the coefficients of the curve.
/// The coefficients are intervals; with an interval for c_0 of the argument the last one encloses Lagrange's remainder.
template <scalar C, int N>
class jet {
    static constexpr std::size_t at(int k) { return static_cast<std::size_t>(k); }

public:
    constexpr jet() = default;
    /// A constant.
    constexpr jet(const C& number) : coefficients_{number} {}
    constexpr jet(std::same_as<int> auto number) : jet(C(number)) {}

    /// The function slope * x + value.
    static constexpr jet linear(const C& value, const C& slope) {
        jet result(value);
        result.coefficients_[1] = slope;
        result.count_ = 2;
        return result;
    }

    /// From all its coefficients.
    static constexpr jet of(const std::array<C, static_cast<std::size_t>(N)>& coefficients) {
        jet result;
        result.coefficients_ = coefficients;
        result.count_ = N;
        return result;
    }

    /// The coefficient of x^k.
    constexpr C operator[](int k) const { return k < count_ ? coefficients_[at(k)] : C(0); }

    /// The derivative with respect to x. Its last coefficient is not known and stands as 0.
    constexpr jet derivative() const {
        jet result;
        result.count_ = N;
        for (int k = 0; k + 1 < count_; ++k) result.coefficients_[at(k)] = C(k + 1) * coefficients_[at(k + 1)];
        return result;
    }

    constexpr jet operator-() const {
        jet result = *this;
        for (int k = 0; k < count_; ++k) result.coefficients_[at(k)] = -coefficients_[at(k)];
        return result;
    }
    friend constexpr jet operator+(const jet& a, const jet& b) {
        if (a.count_ < b.count_) return b + a;
        jet result = a;
        for (int k = 0; k < b.count_; ++k) result.coefficients_[at(k)] = a.coefficients_[at(k)] + b.coefficients_[at(k)];
        return result;
    }
    friend constexpr jet operator-(const jet& a, const jet& b) { return a + (-b); }
    friend constexpr jet operator*(const jet& a, const jet& b) {
        jet result;
        result.count_ = a.count_ + b.count_ - 1 < N ? a.count_ + b.count_ - 1 : N;
        for (int k = 0; k < result.count_; ++k) {
            const int first = k < b.count_ ? 0 : k - b.count_ + 1;
            const int last = k < a.count_ ? k : a.count_ - 1;
            typename C::sum_of_products sum;
            for (int i = first; i <= last; ++i) sum.add(a.coefficients_[at(i)], b.coefficients_[at(k - i)]);
            result.coefficients_[at(k)] = sum.value();
        }
        return result;
    }
    friend constexpr jet operator/(const jet& a, const jet& b) {
        // a = b q, compared power by power.
        const C inverse = C(1) / b.coefficients_[0];
        if (b.count_ == 1) return a * jet(inverse);
        jet q;
        q.count_ = N;
        for (int k = 0; k < N; ++k) {
            typename C::sum_of_products rest;
            rest.add(a[k], C(1));
            for (int i = 1; i <= k && i < b.count_; ++i) rest.subtract(b.coefficients_[at(i)], q.coefficients_[at(k - i)]);
            q.coefficients_[at(k)] = rest.value() * inverse;
        }
        return q;
    }

    friend constexpr jet sqrt(const jet& a) {
        // a = r r, compared power by power.
        jet r(sqrt(a.coefficients_[0]));
        if (a.count_ == 1) return r;
        r.count_ = N;
        const C inverse = C(1) / (C(2) * r.coefficients_[0]);
        for (int k = 1; k < N; ++k) {
            typename C::sum_of_products rest;
            rest.add(a[k], C(1));
            for (int i = 1; i < k; ++i) rest.subtract(r.coefficients_[at(i)], r.coefficients_[at(k - i)]);
            r.coefficients_[at(k)] = rest.value() * inverse;
        }
        return r;
    }
    /// q' = a' / (1 + a^2), integrated power by power.
    friend constexpr jet atan(const jet& a) {
        const jet slope = a.derivative() / (jet(C(1)) + a * a);
        jet q(atan(a.coefficients_[0]));
        if (a.count_ == 1) return q;
        q.count_ = N;
        for (int k = 1; k < N; ++k) q.coefficients_[at(k)] = slope.coefficients_[at(k - 1)] / C(k);
        return q;
    }
    friend constexpr jet sin(const jet& a) { return sine_and_cosine(a)[0]; }
    friend constexpr jet cos(const jet& a) { return sine_and_cosine(a)[1]; }

private:
    /// s' = c a', c' = -s a', compared power by power.
    static constexpr std::array<jet, 2> sine_and_cosine(const jet& a) {
        jet s(sin(a.coefficients_[0]));
        jet c(cos(a.coefficients_[0]));
        if (a.count_ == 1) return {s, c};
        s.count_ = c.count_ = N;
        for (int k = 1; k < N; ++k) {
            typename C::sum_of_products sine;
            typename C::sum_of_products cosine;
            for (int i = 1; i <= k && i < a.count_; ++i) {
                const C rate = C(i) * a.coefficients_[at(i)];
                sine.add(rate, c.coefficients_[at(k - i)]);
                cosine.subtract(rate, s.coefficients_[at(k - i)]);
            }
            const C inverse = C(1) / C(k);
            s.coefficients_[at(k)] = sine.value() * inverse;
            c.coefficients_[at(k)] = cosine.value() * inverse;
        }
        return {s, c};
    }

    std::array<C, static_cast<std::size_t>(N)> coefficients_{};
    int count_ = 1; // those after it are zero
};

} // namespace rackwork::detail

/// What makes a jet a scalar of this library.
template <class C, int N>
class std::numeric_limits<rackwork::detail::jet<C, N>> : public std::numeric_limits<C> {};

#endif
