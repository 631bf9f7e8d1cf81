// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How the array forms work through their arrays.
#ifndef RACKWORK_BATCH_BLOCKS_HPP
#define RACKWORK_BATCH_BLOCKS_HPP

#include "../core/error.hpp"

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <span>

/// Array forms of the functions that are called most, for plain double. They give the same bits as the single forms, one number after
/// the other, where the compiler does not fuse products and sums, and are several times as fast where the processor has vector
/// registers and the compiler is told so (with GCC: -O3, -mavx2 or more, and -fno-math-errno for the square roots). Angles in arrays are
/// plain radians.
///
/// The results may stand in the place of the arguments, but must not overlap them otherwise. All throw geometry_error unless there are
/// as many results as arguments, and for the first argument that is impossible; the results are then not all written.
namespace rackwork::batch {

namespace detail {

/// As many numbers as are worked on at a time. The number of passes of a loop over them is known, so that compilers turn it into
/// vector instructions also where they otherwise hesitate.
inline constexpr std::size_t block_size = 64;
using block = std::array<double, block_size>;
/// A block where it stands.
using block_view = std::span<const double, block_size>;

inline void require_as_many(std::size_t results, std::size_t arguments) {
    if (results != arguments) {
        impossible_geometry({"number of results", static_cast<double>(results), "must, as there are arguments, be",
                             static_cast<double>(arguments)});
    }
}

/// The block of an array that begins with its number `first`. If it is not full, it is copied and filled up with the array's last number.
inline block_view block_at(std::span<const double> numbers, std::size_t first, block& copy) {
    if (first + block_size <= numbers.size()) return block_view(numbers.subspan(first, block_size));
    for (std::size_t i = 0; i < block_size; ++i) copy[i] = first + i < numbers.size() ? numbers[first + i] : numbers.back();
    return copy;
}

inline void put(const block& from, std::span<double> to, std::size_t first) {
    if (first + block_size <= to.size()) {
        for (std::size_t i = 0; i < block_size; ++i) to[first + i] = from[i];
        return;
    }
    for (std::size_t i = 0; first + i < to.size(); ++i) to[first + i] = from[i];
}

/// Calls work(arguments, results) for one block after the other. The results are kept apart until the block is done: so they may stand in
/// the place of the arguments, and the compiler knows that the one does not change the other.
template <class Work>
void in_blocks(std::span<const double> arguments, std::span<double> results, const Work& work) {
    require_as_many(results.size(), arguments.size());
    for (std::size_t first = 0; first < arguments.size(); first += block_size) {
        block copy;
        block out;
        work(block_at(arguments, first, copy), out);
        put(out, results, first);
    }
}

/// How many numbers of a block are not in [least, greatest], both of them positive. The bits of positive numbers are in the order of the
/// numbers, followed by infinity, by what is no number and by the negative numbers, so the signs of whole numbers' differences tell.
inline std::uint64_t count_outside(block_view numbers, double least, double greatest) {
    const std::uint64_t lower = std::bit_cast<std::uint64_t>(least);
    const std::uint64_t upper = std::bit_cast<std::uint64_t>(greatest);
    std::uint64_t outside = 0;
    for (std::size_t i = 0; i < block_size; ++i) {
        const std::uint64_t bits = std::bit_cast<std::uint64_t>(numbers[i]);
        outside += ((bits - lower) | (upper - bits)) >> 63;
    }
    return outside;
}

/// True if every number of a block lies in [least, greatest], both of them positive.
inline bool all_within(block_view numbers, double least, double greatest) {
    return count_outside(numbers, least, greatest) == 0;
}

} // namespace detail

} // namespace rackwork::batch

#endif
