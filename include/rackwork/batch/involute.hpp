// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The involute function and its inverse for arrays.
#ifndef RACKWORK_BATCH_INVOLUTE_HPP
#define RACKWORK_BATCH_INVOLUTE_HPP

#include "../core/involute_kernel.hpp"
#include "../involute.hpp"
#include "blocks.hpp"

#include <cstddef>
#include <span>

namespace rackwork::batch {

namespace detail {

/// inv of angles. A block with numbers out of the ordinary, with 0, a negative or an impossible one, is done one by one.
inline void inv_block(block_view radians, block_span involutes) {
    if (all_within(radians, 1.5 * 0x1p-256)) {
        for (std::size_t i = 0; i < block_size; ++i) involutes[i] = involute_kernel::inv_in_normal_range(radians[i]);
        return;
    }
    for (std::size_t i = 0; i < block_size; ++i) involutes[i] = rackwork::inv(rad(radians[i]));
}

/// inv of the angles with these tangents; as inv_block.
inline void inv_from_tangent_block(block_view tangents, block_span involutes) {
    if (all_within(tangents, 0x1p-220)) {
        // In several loops, since vector registers wait less in short chains of steps than in a long one. So below.
        block angles;
        block of_angles;
        for (std::size_t i = 0; i < block_size; ++i) angles[i] = involute_kernel::rough_angle_without_branch(tangents[i]);
        for (std::size_t i = 0; i < block_size; ++i) of_angles[i] = involute_kernel::inv_in_normal_range(angles[i]);
        for (std::size_t i = 0; i < block_size; ++i) {
            involutes[i] = involute_kernel::inv_from_tangent_and_angle(tangents[i], angles[i], of_angles[i]);
        }
        return;
    }
    for (std::size_t i = 0; i < block_size; ++i) involutes[i] = rackwork::inv_from_tangent(tangents[i]);
}

/// The angles with these involutes; as inv_block.
inline void inverse_inv_block(block_view values, block_span radians) {
    constexpr double seam = involute_kernel::inverse_inv_seam;
    const bool all_near_zero = all_within(values, seam * 0x1p-256);
    if (!all_near_zero && !all_within(values, 0x1p-128)) {
        for (std::size_t i = 0; i < block_size; ++i) radians[i] = rackwork::inverse_inv(values[i]).rad();
        return;
    }
    block roots;
    block reciprocals;
    block rests;
    for (std::size_t i = 0; i < block_size; ++i) {
        roots[i] = involute_kernel::rough_cube_root_of_triple(values[i]);
        reciprocals[i] = 1 / (3 * values[i]);
    }
    for (std::size_t i = 0; i < block_size; ++i) {
        rests[i] = involute_kernel::rest_of_cube_root(values[i], roots[i], reciprocals[i], involute_kernel::cube_root_double);
    }
    for (std::size_t i = 0; i < block_size; ++i) {
        radians[i] = involute_kernel::inverse_inv_from_cube_root(values[i], roots[i], rests[i]);
    }
    if (all_near_zero) return;
    // Seldom is there an angle beyond 61 degrees.
    block near_pole;
    for (std::size_t i = 0; i < block_size; ++i) near_pole[i] = involute_kernel::inverse_inv_near_pole(values[i]);
    for (std::size_t i = 0; i < block_size; ++i) radians[i] = values[i] >= seam ? near_pole[i] : radians[i];
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
