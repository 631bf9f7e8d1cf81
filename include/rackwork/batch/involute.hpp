// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse for arrays.
#ifndef RACKWORK_BATCH_INVOLUTE_HPP
#define RACKWORK_BATCH_INVOLUTE_HPP

#include "../core/involute_kernel.hpp"
#include "../involute.hpp"
#include "blocks.hpp"

#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>

namespace rackwork::batch {

namespace detail {

inline constexpr double greatest_number = (std::numeric_limits<double>::max)();

/// inv of angles. A block with numbers out of the ordinary, with 0, a negative or an impossible one, is done one by one.
inline void inv_block(block_view radians, block& involutes) {
    if (all_within(radians, involute_kernel::method<double>::tiny, 1.5)) {
        for (std::size_t i = 0; i < block_size; ++i) involutes[i] = involute_kernel::inv_in_normal_range(radians[i]);
        return;
    }
    for (std::size_t i = 0; i < block_size; ++i) involutes[i] = rackwork::inv(rad(radians[i]));
}

/// inv of the angles with these tangents; as inv_block.
inline void inv_from_tangent_block(block_view tangents, block& involutes) {
    if (all_within(tangents, involute_kernel::method<double>::tiny, 0x1p36)) {
        for (std::size_t i = 0; i < block_size; ++i) {
            involutes[i] = involute_kernel::inv_from_tangent_without_branch(tangents[i]);
        }
        return;
    }
    for (std::size_t i = 0; i < block_size; ++i) involutes[i] = rackwork::inv_from_tangent(tangents[i]);
}

/// The angles with these involutes; as inv_block.
inline void inverse_inv_block(block_view values, block& radians) {
    constexpr double seam = involute_kernel::inverse_inv_seam;
    if (!all_within(values, 0x1p-960, greatest_number)) {
        for (std::size_t i = 0; i < block_size; ++i) radians[i] = rackwork::inverse_inv(values[i]).rad();
        return;
    }
    // In two loops, since vector registers wait less in two short chains of steps than in a long one.
    block heads;
    block rests;
    for (std::size_t i = 0; i < block_size; ++i) {
        const auto c = involute_kernel::cube_root_of_triple(values[i], involute_kernel::cube_root_double);
        heads[i] = c.head;
        rests[i] = c.rest;
    }
    for (std::size_t i = 0; i < block_size; ++i) {
        radians[i] = involute_kernel::inverse_inv_from_cube_root(values[i], {heads[i], rests[i]});
    }
    // Seldom is there an angle beyond 58 degrees, and seldom more than a few.
    const std::uint64_t beyond = count_outside(values, 0x1p-960, seam);
    if (beyond == 0) return;
    if (beyond > block_size / 8) {
        for (std::size_t i = 0; i < block_size; ++i) {
            const double a = involute_kernel::inverse_inv_near_pole(values[i]);
            radians[i] = involute_kernel::if_greater(seam, values[i], radians[i], a);
        }
        return;
    }
    for (std::size_t i = 0; i < block_size; ++i) {
        if (values[i] >= seam) radians[i] = involute_kernel::inverse_inv_near_pole(values[i]);
    }
}

} // namespace detail

/// Involute function of each angle, in radians: inv(rad(a)) for arrays. Throws as inv does. Fastest where all angles are positive.
inline void inv(std::span<const double> radians, std::span<double> involutes) {
    detail::in_blocks(radians, involutes, detail::inv_block);
}

/// Involute function of each angle, given by its tangent: inv_from_tangent for arrays. Throws as inv_from_tangent does. Fastest where all
/// tangents are positive.
inline void inv_from_tangent(std::span<const double> tangents, std::span<double> involutes) {
    detail::in_blocks(tangents, involutes, detail::inv_from_tangent_block);
}

/// The angle, in radians, whose involute function is each value: inverse_inv for arrays. Throws as inverse_inv does. Fastest where all
/// values are positive.
inline void inverse_inv(std::span<const double> values, std::span<double> radians) {
    detail::in_blocks(values, radians, detail::inverse_inv_block);
}

} // namespace rackwork::batch

#endif
