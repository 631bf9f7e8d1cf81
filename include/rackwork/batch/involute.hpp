// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse for arrays.
#ifndef RACKWORK_BATCH_INVOLUTE_HPP
#define RACKWORK_BATCH_INVOLUTE_HPP

#include "../core/involute_kernel.hpp"
#include "../involute.hpp"
#include "blocks.hpp"

#include <cmath>
#include <cstddef>
#include <limits>
#include <span>

namespace rackwork::batch {

namespace detail {

/// f(x) for x >= 0 where f(x) = f(up x) down below `tiny`.
template <class F>
double scaled_up(double x, double tiny, double up, double down, const F& f) {
    const bool is_tiny = x < tiny;
    return f(x * involute_kernel::chosen(is_tiny, up, 1.0)) * involute_kernel::chosen(is_tiny, down, 1.0);
}

inline double inv_without_branch(double a) {
    using kernel = involute_kernel::method<double>;
    return scaled_up(a, kernel::tiny, kernel::up, kernel::down,
                     [](double x) { return involute_kernel::inv_in_normal_range(x); });
}

inline double inv_from_tangent_without_branch(double t) {
    using kernel = involute_kernel::method<double>;
    const double involute = scaled_up(t, kernel::tiny, kernel::up, kernel::down,
                                      [](double x) { return involute_kernel::inv_from_tangent_in_normal_range(x); });
    return involute_kernel::chosen(t > 0x1p36, t - kernel::half_pi.head, involute);
}

/// inv of the angles with these tangents, which must not be negative.
inline void inv_from_tangent_block(const block& tangents, block& involutes) {
    for (std::size_t i = 0; i < block_size; ++i) involutes[i] = inv_from_tangent_without_branch(tangents[i]);
}

/// inverse_inv of values that are not negative.
inline void inverse_inv_block(const block& values, block& radians) {
    for (std::size_t i = 0; i < block_size; ++i) {
        const double a = scaled_up(values[i], 0x1p-960, 0x1p300, 0x1p-100,
                                   [](double y) { return involute_kernel::inverse_inv_near_zero(y); });
        radians[i] = involute_kernel::chosen(values[i] == 0, 0.0, a);
    }
    // Most blocks have no angle beyond 58 degrees.
    if (!any(values, [](double y) { return y >= involute_kernel::inverse_inv_seam; })) return;
    for (std::size_t i = 0; i < block_size; ++i) {
        const double a = involute_kernel::inverse_inv_near_pole(values[i]);
        radians[i] = involute_kernel::chosen(values[i] >= involute_kernel::inverse_inv_seam, a, radians[i]);
    }
}

inline void magnitudes(const block& numbers, block& positive) {
    for (std::size_t i = 0; i < block_size; ++i) positive[i] = std::fabs(numbers[i]);
}

inline void make_odd(block& of_magnitudes, const block& numbers) {
    for (std::size_t i = 0; i < block_size; ++i) of_magnitudes[i] *= std::copysign(1.0, numbers[i]);
}

inline void require_finite(const block& numbers, const char* quantity) {
    constexpr double greatest = (std::numeric_limits<double>::max)();
    if (any(numbers, [](double x) { return !(std::fabs(x) <= greatest); })) {
        require_each(numbers, [&](double x) { return check_finite(quantity, x); });
    }
}

} // namespace detail

/// Involute function of each angle, in radians: inv(rad(a)) for arrays. Throws as inv does.
inline void inv(std::span<const double> radians, std::span<double> involutes) {
    detail::in_blocks(radians, involutes, [](const detail::block& a, detail::block& results) {
        if (detail::any(a, [](double x) { return !(std::fabs(x) <= 1.5); })) {
            detail::require_each(a, [](double x) { return rackwork::detail::check_angle(x); });
        }
        for (std::size_t i = 0; i < detail::block_size; ++i) {
            results[i] = detail::inv_without_branch(std::fabs(a[i])) * std::copysign(1.0, a[i]);
        }
    });
}

/// Involute function of each angle, given by its tangent: inv_from_tangent for arrays. Throws as inv_from_tangent does.
inline void inv_from_tangent(std::span<const double> tangents, std::span<double> involutes) {
    detail::in_blocks(tangents, involutes, [](const detail::block& t, detail::block& results) {
        detail::require_finite(t, "tangent of a pressure angle");
        detail::block positive;
        detail::magnitudes(t, positive);
        detail::inv_from_tangent_block(positive, results);
        detail::make_odd(results, t);
    });
}

/// The angle, in radians, whose involute function is each value: inverse_inv for arrays. Throws as inverse_inv does.
inline void inverse_inv(std::span<const double> values, std::span<double> radians) {
    detail::in_blocks(values, radians, [](const detail::block& y, detail::block& results) {
        detail::require_finite(y, "value of the involute function");
        detail::block positive;
        detail::magnitudes(y, positive);
        detail::inverse_inv_block(positive, results);
        detail::make_odd(results, y);
    });
}

} // namespace rackwork::batch

#endif
