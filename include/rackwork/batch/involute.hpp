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

inline constexpr double greatest_number = (std::numeric_limits<double>::max)();

/// inv of the angles with these tangents, none of them negative.
inline void inv_from_tangent_block(const block& tangents, block& involutes) {
    if (all_within(tangents, involute_kernel::method<double>::tiny, 0x1p36)) {
        for (std::size_t i = 0; i < block_size; ++i) {
            involutes[i] = involute_kernel::inv_from_tangent_in_normal_range(tangents[i]);
        }
        return;
    }
    for (std::size_t i = 0; i < block_size; ++i) involutes[i] = rackwork::inv_from_tangent(tangents[i]);
}

/// The angles with these involutes, none of them negative.
inline void inverse_inv_block(const block& values, block& radians) {
    constexpr double seam = involute_kernel::inverse_inv_seam;
    if (!all_within(values, 0x1p-960, greatest_number)) {
        for (std::size_t i = 0; i < block_size; ++i) radians[i] = rackwork::inverse_inv(values[i]).rad();
        return;
    }
    for (std::size_t i = 0; i < block_size; ++i) radians[i] = involute_kernel::inverse_inv_near_zero(values[i]);
    if (all_within(values, 0x1p-960, seam)) return; // most blocks have no angle beyond 58 degrees
    for (std::size_t i = 0; i < block_size; ++i) {
        radians[i] = involute_kernel::if_greater(seam, values[i], radians[i], involute_kernel::inverse_inv_near_pole(values[i]));
    }
}

/// results[i] = f(|x[i]|) with the sign of x[i], f being given for blocks.
template <class F>
void odd_block(const block& x, block& results, const F& f) {
    block positive;
    for (std::size_t i = 0; i < block_size; ++i) positive[i] = std::fabs(x[i]);
    f(positive, results);
    for (std::size_t i = 0; i < block_size; ++i) results[i] *= std::copysign(1.0, x[i]);
}

} // namespace detail

/// Involute function of each angle, in radians: inv(rad(a)) for arrays. Throws as inv does.
inline void inv(std::span<const double> radians, std::span<double> involutes) {
    detail::in_blocks(radians, involutes, [](const detail::block& a, detail::block& results) {
        if (detail::all_within(a, involute_kernel::method<double>::tiny, 1.5)) {
            for (std::size_t i = 0; i < detail::block_size; ++i) {
                results[i] = involute_kernel::inv_in_normal_range(std::fabs(a[i])) * std::copysign(1.0, a[i]);
            }
        } else {
            for (std::size_t i = 0; i < detail::block_size; ++i) results[i] = rackwork::inv(rad(a[i]));
        }
    });
}

/// Involute function of each angle, given by its tangent: inv_from_tangent for arrays. Throws as inv_from_tangent does.
inline void inv_from_tangent(std::span<const double> tangents, std::span<double> involutes) {
    detail::in_blocks(tangents, involutes, [](const detail::block& t, detail::block& results) {
        detail::odd_block(t, results, detail::inv_from_tangent_block);
    });
}

/// The angle, in radians, whose involute function is each value: inverse_inv for arrays. Throws as inverse_inv does.
inline void inverse_inv(std::span<const double> values, std::span<double> radians) {
    detail::in_blocks(values, radians, [](const detail::block& y, detail::block& results) {
        detail::odd_block(y, results, detail::inverse_inv_block);
    });
}

} // namespace rackwork::batch

#endif
