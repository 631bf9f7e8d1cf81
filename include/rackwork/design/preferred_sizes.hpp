// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The modules and diametral pitches for which tools are at hand.
#ifndef RACKWORK_DESIGN_PREFERRED_SIZES_HPP
#define RACKWORK_DESIGN_PREFERRED_SIZES_HPP

#include "../basic_rack.hpp"
#include "../core/scalar.hpp"

#include <array>
#include <cstddef>

namespace rackwork {

/// Normal modules of ISO 54, series I, to be preferred [mm]. All are exact in binary. Source: ISO 54:1996, table 1, from memory.
template <scalar T = double>
inline constexpr std::array<T, 18> iso_54_series_1{T(1), T(1.25), T(1.5), T(2),  T(2.5), T(3),  T(4),  T(5),  T(6),
                                                   T(8), T(10),   T(12),  T(16), T(20),  T(25), T(32), T(40), T(50)};

/// Normal modules of ISO 54, series II [mm]; 6.5 is to be avoided if possible. Source: ISO 54:1996, table 1, from memory.
template <scalar T = double>
inline constexpr std::array<T, 18> iso_54_series_2{T(1.125), T(1.375), T(1.75), T(2.25), T(2.75), T(3.5), T(4.5), T(5.5), T(6.5),
                                                   T(7),     T(9),     T(11),   T(14),   T(18),   T(22),  T(28),  T(36),  T(45)};

/// Both series of ISO 54, in the order of size [mm].
template <scalar T = double>
inline constexpr std::array<T, 36> iso_54_both_series = [] {
    std::array<T, 36> all{};
    for (std::size_t i = 0; i < 18; ++i) {
        // Each module of series II lies just above its neighbour of series I.
        all[2 * i] = iso_54_series_1<T>[i];
        all[2 * i + 1] = iso_54_series_2<T>[i];
    }
    for (std::size_t i = 1; i < all.size(); ++i) {
        for (std::size_t k = i; k > 0 && all[k] < all[k - 1]; --k) {
            const T larger_one = all[k - 1];
            all[k - 1] = all[k];
            all[k] = larger_one;
        }
    }
    return all;
}();

/// Diametral pitches in common use, coarse, from large teeth to small [teeth per inch]. Source: common practice, as in the annex of
/// ANSI B6.1, from memory.
template <scalar T = double>
inline constexpr std::array<T, 13> preferred_coarse_diametral_pitches{T(1), T(1.25), T(1.5), T(2),  T(2.5), T(3), T(4),
                                                                      T(5), T(6),    T(8),   T(10), T(12),  T(16)};

/// Diametral pitches in common use, fine [teeth per inch]. Source: common practice, as in ANSI B6.7, from memory.
template <scalar T = double>
inline constexpr std::array<T, 11> preferred_fine_diametral_pitches{T(20), T(24), T(32), T(40),  T(48), T(64),
                                                                    T(72), T(80), T(96), T(120), T(200)};

/// The modules in inches of diametral pitches, 1/P. Throws geometry_error for a pitch that is not greater than 0.
template <scalar T, std::size_t count>
constexpr std::array<T, count> modules_of(const std::array<T, count>& diametral_pitches) {
    std::array<T, count> modules{};
    for (std::size_t i = 0; i < count; ++i) modules[i] = module_from_diametral_pitch(diametral_pitches[i]);
    return modules;
}

/// The modules in millimetres of diametral pitches, 25.4/P. Throws geometry_error for a pitch that is not greater than 0.
template <scalar T, std::size_t count>
constexpr std::array<T, count> modules_in_millimetres_of(const std::array<T, count>& diametral_pitches) {
    std::array<T, count> modules{};
    for (std::size_t i = 0; i < count; ++i) modules[i] = module_in_millimetres_from_diametral_pitch(diametral_pitches[i]);
    return modules;
}

} // namespace rackwork

#endif
