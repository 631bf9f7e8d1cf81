// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Bounds for the Taylor coefficients of a function over a whole range, and how they follow through calculations.
#ifndef RACKWORK_CURVE_DETAIL_MAJORANT_HPP
#define RACKWORK_CURVE_DETAIL_MAJORANT_HPP

#include "../../core/scalar.hpp"

#include <array>
#include <cstddef>

namespace rackwork::detail {

/// Numbers m_0 ... m_(N - 1), none negative, of which m_k is not less than |f^(k)(x)|/k! anywhere in the range of x, for a real, complex or
/// vector-valued f. Every operation's result majorises what the operation makes of the functions. Only sums and products of numbers that are
/// not negative occur: rounding falsifies a result by a factor of 1 + 4 N epsilon for each operation at most, and is left to who uses it.
template <scalar T, int N>
struct majorant {
    std::array<T, static_cast<std::size_t>(N)> bounds{};

    constexpr T& operator[](int k) { return bounds[static_cast<std::size_t>(k)]; }
    constexpr const T& operator[](int k) const { return bounds[static_cast<std::size_t>(k)]; }

    friend constexpr majorant operator+(const majorant& a, const majorant& b) {
        majorant result;
        for (int k = 0; k < N; ++k) result[k] = a[k] + b[k];
        return result;
    }
    friend constexpr majorant operator*(const T& factor, const majorant& a) {
        majorant result;
        for (int k = 0; k < N; ++k) result[k] = factor * a[k];
        return result;
    }
    friend constexpr majorant operator*(const majorant& a, const majorant& b) {
        majorant result;
        for (int i = 0; i < N; ++i) {
            for (int k = i; k < N; ++k) result[k] += a[i] * b[k - i];
        }
        return result;
    }

    /// Of a number that is at most so great.
    static constexpr majorant constant(const T& greatest) {
        majorant result;
        result[0] = greatest;
        return result;
    }
    /// Of e^(i x), cos x and sin x for x that grows at a rate.
    static constexpr majorant circular(const T& rate) {
        majorant result = constant(T(1));
        for (int k = 1; k < N; ++k) result[k] = result[k - 1] * rate / T(k);
        return result;
    }
    /// Of e^(i f) for a real f: w' = i f' w, compared power by power. f's own greatest value does not matter.
    constexpr majorant turn() const {
        majorant w = constant(T(1));
        for (int k = 1; k < N; ++k) {
            for (int i = 1; i <= k; ++i) w[k] += T(i) * bounds[static_cast<std::size_t>(i)] * w[k - i];
            w[k] /= T(k);
        }
        return w;
    }
    /// Of the root of f, or of 1 over it, for an f that is nowhere below `least`: r = f^(+-1/2) has f r' = +-f' r/2.
    constexpr majorant root(const T& least, const T& greatest_root, bool inverse) const {
        majorant r = constant(greatest_root);
        for (int k = 1; k < N; ++k) {
            for (int i = 1; i <= k; ++i) {
                const T factor = inverse ? T(T(k) - T(i) / T(2)) : magnitude(T(T(3 * i) / T(2) - T(k)));
                r[k] += factor * bounds[static_cast<std::size_t>(i)] * r[k - i];
            }
            r[k] /= T(k) * least;
        }
        return r;
    }
    /// Of the integral of f, whose value at one end of the range is 0 and whose greatest value does not matter.
    constexpr majorant integral() const {
        majorant result;
        for (int k = 1; k < N; ++k) result[k] = bounds[static_cast<std::size_t>(k - 1)] / T(k);
        return result;
    }
};

} // namespace rackwork::detail

#endif
