// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Tooth thickness and points of the flank at many diameters.
#ifndef RACKWORK_BATCH_FLANK_HPP
#define RACKWORK_BATCH_FLANK_HPP

#include "../core/error.hpp"
#include "../gear.hpp"
#include "blocks.hpp"
#include "involute.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <span>

namespace rackwork::batch {

namespace detail {

inline void require_on_involute(const gear<double>& g, block_view diameters) {
    if (all_within(diameters, g.base_diameter())) return;
    for (const double d : diameters) require(check_at_least("diameter", d, g.base_diameter()));
}

/// inv of the transverse pressure angle at each diameter.
inline void inv_at_diameters(const gear<double>& g, block_view diameters, block_span involutes) {
    const double base = g.base_diameter();
    block squares;
    for (std::size_t i = 0; i < block_size; ++i) squares[i] = (diameters[i] - base) * (diameters[i] + base);
    block roots;
    for (std::size_t i = 0; i < block_size; ++i) roots[i] = std::sqrt(squares[i]); // by itself: it may set errno, one by one
    block tangents;
    for (std::size_t i = 0; i < block_size; ++i) tangents[i] = roots[i] / base;
    inv_from_tangent_block(tangents, involutes);
}

/// sin x = x + x^3 S(x^2) and cos x = 1 - x^2/2 + x^4 C(x^2) for |x| <= 1: Taylor's coefficients, (-1)^k / (2k + 1)! and
/// (-1)^k / (2k)!; the first one left out is below 2^-65 of the result.
inline constexpr std::array<double, 8> sine_series{
    -1.0 / 6, 1.0 / 120, -1.0 / 5040, 1.0 / 362880, -1.0 / 39916800, 1.0 / 6227020800, -1.0 / 1307674368000, 1.0 / 355687428096000};
inline constexpr std::array<double, 8> cosine_series{
    1.0 / 24,           -1.0 / 720,          1.0 / 40320,          -1.0 / 3628800,
    1.0 / 479001600,    -1.0 / 87178291200., 1.0 / 20922789888000., -1.0 / 6402373705728000.};

} // namespace detail

/// Tooth thickness on the arc at each diameter, transverse section, s_y: gear::tooth_thickness for arrays. Throws below the base diameter.
inline void tooth_thickness(const gear<double>& g, std::span<const double> diameters, std::span<double> thicknesses) {
    const double half_angle = g.base_half_angle();
    const double sign = g.kind_sign();
    detail::in_blocks(diameters, thicknesses, [&](detail::block_view d, detail::block_span results) {
        detail::require_on_involute(g, d);
        detail::block involutes;
        detail::inv_at_diameters(g, d, involutes);
        for (std::size_t i = 0; i < detail::block_size; ++i) results[i] = d[i] * (half_angle - sign * involutes[i]);
    });
}

/// Points of an involute flank at each diameter, in the transverse section: of the flank on the side of positive y of a tooth that is
/// centred on the x axis. (The other flank is its mirror image.) Polar angle s_y/d_y, so x = d_y/2 cos (s_y/d_y), y = d_y/2 sin (s_y/d_y).
/// Accuracy: 4 ulp of the diameter. Throws below the base diameter.
inline void flank_points(const gear<double>& g, std::span<const double> diameters, std::span<double> x, std::span<double> y) {
    detail::require_as_many(y.size(), diameters.size());
    detail::require_as_many(x.size(), diameters.size());
    const double half_angle = g.base_half_angle();
    const double sign = g.kind_sign();
    for (std::size_t first = 0; first < diameters.size(); first += detail::block_size) {
        detail::block d;
        detail::get(diameters, first, d);
        detail::require_on_involute(g, d);
        detail::block polar;
        detail::inv_at_diameters(g, d, polar);
        for (std::size_t i = 0; i < detail::block_size; ++i) polar[i] = half_angle - sign * polar[i];
        detail::block size;
        for (std::size_t i = 0; i < detail::block_size; ++i) size[i] = std::fabs(polar[i]);
        detail::block of_x;
        detail::block of_y;
        for (std::size_t i = 0; i < detail::block_size; ++i) {
            const double s = polar[i] * polar[i];
            const double cosine = 1 - (s / 2 - s * s * involute_kernel::polynomial(detail::cosine_series, s));
            const double sine = polar[i] + polar[i] * (s * involute_kernel::polynomial(detail::sine_series, s));
            of_x[i] = d[i] / 2 * cosine;
            of_y[i] = d[i] / 2 * sine;
        }
        if (!detail::all_within(size, 0x1p-256)) {
            for (std::size_t i = 0; i < detail::block_size; ++i) {
                if (size[i] < 1) continue; // as always but far beyond any tooth's tip
                of_x[i] = d[i] / 2 * std::cos(polar[i]);
                of_y[i] = d[i] / 2 * std::sin(polar[i]);
            }
        }
        detail::put(of_x, x, first);
        detail::put(of_y, y, first);
    }
}

} // namespace rackwork::batch

#endif
