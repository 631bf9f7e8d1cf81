// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How the array forms work through their arrays.
#ifndef RACKWORK_BATCH_BLOCKS_HPP
#define RACKWORK_BATCH_BLOCKS_HPP

#include "../core/error.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <span>

/// Array forms of the functions that are called most, for plain double. They give the same bits as the single forms, one number after
/// the other, where the compiler does not fuse products and sums, and are more than four times as fast where the processor has vector
/// registers for four doubles and the compiler is told so (with GCC: -O3, -mavx2 or more, and -fno-math-errno for the square roots).
/// Where products and sums are fused, GCC 12 and Clang 14 fuse alike in both forms of the involute function and its inverse and of the
/// thickness, but no rule of the language holds a compiler to that. Angles in arrays are plain radians.
///
/// The results may stand in the place of the arguments, but must not overlap them otherwise. All throw geometry_error unless there are
/// as many results as arguments, and for the first argument that is impossible; the results are then not all written.
namespace rackwork::batch {

namespace detail {

/// As many numbers as are worked on at a time. The number of passes of a loop over them is known, so that compilers turn it into
/// vector instructions also where they otherwise hesitate.
inline constexpr std::size_t block_size = 64;
using block = std::array<double, block_size>;
/// Blocks where they stand.
using block_view = std::span<const double, block_size>;
using block_span = std::span<double, block_size>;

inline void require_as_many(std::size_t results, std::size_t arguments) {
    if (results != arguments) {
        impossible_geometry({"number of results", static_cast<double>(results), "must, as there are arguments, be",
                             static_cast<double>(arguments)});
    }
}

/// Copies the block of an array that begins with its number `first`. What an array lacks of a block is filled up with its last number.
inline void get(std::span<const double> from, std::size_t first, block& to) {
    const std::size_t count = (std::min)(block_size, from.size() - first);
    std::copy_n(from.begin() + static_cast<std::ptrdiff_t>(first), count, to.begin());
    std::fill(to.begin() + static_cast<std::ptrdiff_t>(count), to.end(), from.back());
}
inline void put(const block& from, std::span<double> to, std::size_t first) {
    const std::size_t count = (std::min)(block_size, to.size() - first);
    std::copy_n(from.begin(), count, to.begin() + static_cast<std::ptrdiff_t>(first));
}

/// Calls work(arguments, results) for one block after the other. Whole blocks are worked on where they stand; but if the results take the
/// place of the arguments, work gets a copy of these, so that it need not care what it overwrites.
template <class Work>
void in_blocks(std::span<const double> arguments, std::span<double> results, const Work& work) {
    require_as_many(results.size(), arguments.size());
    const bool in_place = arguments.data() == results.data();
    for (std::size_t first = 0; first < arguments.size(); first += block_size) {
        const bool whole = first + block_size <= arguments.size();
        block copy;
        block out;
        if (!whole || in_place) get(arguments, first, copy);
        work(whole && !in_place ? block_view(arguments.subspan(first, block_size)) : block_view(copy),
             whole ? block_span(results.subspan(first, block_size)) : block_span(out));
        if (!whole) put(out, results, first);
    }
}

/// True if every number of a block lies in [least, 2^256 least), all of it positive. The bits of positive numbers are in the order of the
/// numbers, 2^52 of them to each power of two, and followed by infinity, by what is no number and by the negative numbers; so one
/// difference of whole numbers tells.
inline bool all_within(block_view numbers, double least) {
    std::uint64_t differences = 0;
    for (std::size_t i = 0; i < block_size; ++i) {
        differences |= std::bit_cast<std::uint64_t>(numbers[i]) - std::bit_cast<std::uint64_t>(least);
    }
    return differences >> (52 + 8) == 0;
}

} // namespace detail

} // namespace rackwork::batch

#endif
