// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A few unknowns from linear conditions.
#ifndef RACKWORK_CURVE_DETAIL_LEAST_SQUARES_HPP
#define RACKWORK_CURVE_DETAIL_LEAST_SQUARES_HPP

#include "../../core/elementary.hpp"
#include "../../core/scalar.hpp"

#include <array>
#include <cstddef>
#include <limits>

namespace rackwork::detail {

/// Normal equations of least squares in the first `n` of at most `most` unknowns, and their solution by Cholesky's method.
template <scalar T, std::size_t most>
struct least_squares {
    using row = std::array<T, most>;

    int n;
    std::array<row, most> matrix{};
    row right{};

    /// The condition that the effects of the unknowns sum up to what is wanted.
    constexpr void add(const row& effect, const T& wanted) {
        for (std::size_t i = 0; i < count(); ++i) {
            for (std::size_t j = 0; j <= i; ++j) matrix[i][j] += effect[i] * effect[j];
            right[i] += effect[i] * wanted;
        }
    }
    constexpr row solution() const {
        std::array<row, most> l = matrix;
        row x = right;
        for (std::size_t i = 0; i < count(); ++i) {
            row& here = l[i];
            for (std::size_t j = 0; j < i; ++j) {
                for (std::size_t k = 0; k < j; ++k) here[j] -= here[k] * l[j][k];
                here[j] /= l[j][j];
                here[i] -= square(here[j]);
                x[i] -= here[j] * x[j];
            }
            const T least = matrix[i][i] * epsilon<T>();
            here[i] = elementary::sqrt(larger(here[i], larger(least, T((std::numeric_limits<T>::min)()))));
            x[i] /= here[i];
        }
        for (std::size_t i = count(); i-- > 0;) {
            for (std::size_t j = i + 1; j < count(); ++j) x[i] -= l[j][i] * x[j];
            x[i] /= l[i][i];
        }
        return x;
    }

private:
    constexpr std::size_t count() const { return static_cast<std::size_t>(n); }
};

} // namespace rackwork::detail

#endif
