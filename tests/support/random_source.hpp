// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#pragma once

#include <cmath>
#include <cstdint>
#include <random>
#include <stdexcept>

namespace support {

/// Random numbers that are the same on every platform for the same seed, so that a failure can be repeated anywhere.
/// The standard fixes the bits of std::mt19937_64 but not what the standard distributions make of them, so the mapping
/// from bits to numbers is our own.
class random_source {
public:
    explicit random_source(std::uint64_t seed) : engine_{seed} {}

    /// A number in [low, high], in steps of 2^-53 of the range.
    double uniform(double low, double high) {
        if (!(low <= high)) throw std::invalid_argument{"random_source::uniform needs low <= high"};
        const double fraction = static_cast<double>(engine_() >> 11) * 0x1p-53;
        // One rounding by definition: a product and a sum would differ where the compiler fuses them.
        return std::fma(high - low, fraction, low);
    }

    /// A whole number in [low, high], each equally likely.
    int integer(int low, int high) {
        if (low > high) throw std::invalid_argument{"random_source::integer needs low <= high"};
        const auto count = static_cast<std::uint64_t>(static_cast<std::int64_t>(high) - low) + 1;
        // 2^64 modulo count: the bits below it would make the low numbers likelier, so they are drawn again.
        const std::uint64_t surplus = (std::uint64_t{0} - count) % count;
        std::uint64_t bits = engine_();
        while (bits < surplus) bits = engine_();
        return static_cast<int>(low + static_cast<std::int64_t>(bits % count));
    }

    /// True with even odds.
    bool coin() { return integer(0, 1) == 1; }

private:
    std::mt19937_64 engine_;
};

} // namespace support
