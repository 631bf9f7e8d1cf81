// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What the inspector's tools read on many teeth that differ in their thickness: a lot, a tolerance, a search.
#ifndef RACKWORK_BATCH_MEASURES_HPP
#define RACKWORK_BATCH_MEASURES_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../measure/pins.hpp"
#include "../measure/span.hpp"
#include "blocks.hpp"
#include "involute.hpp"

#include <cmath>
#include <cstddef>
#include <limits>
#include <span>

namespace rackwork::batch {

namespace detail {

inline void require_thickness(block_view normal_thicknesses) {
    if (all_within(normal_thicknesses, (std::numeric_limits<double>::min)(), greatest_number)) return;
    for (const double s : normal_thicknesses) require(check_finite("normal tooth thickness", s));
}

} // namespace detail

/// Length of the base tangent over `teeth_spanned` teeth (of internal spur gears: spaces), W_k, for each normal tooth thickness s_n at the
/// reference cylinder. The gear gives all else. Same formula and accuracy as rackwork::span_measurement. Throws as that does, and unless
/// the thicknesses are finite.
inline void span_measurement(const gear<double>& g, int teeth_spanned, std::span<const double> normal_thicknesses,
                             std::span<double> spans) {
    require(rackwork::detail::check_span(g, teeth_spanned));
    const double pitches = (teeth_spanned - 1) * pi<double>() + g.teeth() * g.involute_of_transverse_pressure_angle();
    // An internal gear's space, the pitch less the tooth, stands for the tooth.
    const double sign = g.kind_sign();
    const double length = g.normal_module() * pitches + (g.is_internal() ? g.normal_pitch() : 0.0);
    const double cosine = cos(g.normal_pressure_angle());
    detail::in_blocks(normal_thicknesses, spans, [&](detail::block_view thickness, detail::block& results) {
        detail::require_thickness(thickness);
        for (std::size_t i = 0; i < detail::block_size; ++i) results[i] = cosine * (length + sign * thickness[i]);
    });
}

namespace detail {

/// Diameters of the circles through the centres of pins or balls, d_K. As in measure/pins.hpp, but with tan alpha_K = alpha_K + inv alpha_K.
inline void pin_centres(const gear<double>& g, double pin_diameter, block_view normal_thicknesses, block& centres) {
    const double turns = g.teeth() * g.normal_module();
    const double pin_angle = pin_diameter / (turns * cos(g.normal_pressure_angle()));
    const double at_reference = rackwork::inv(g.transverse_pressure_angle());
    const double half_pitch = pi<double>() / g.teeth();
    // The pin touches at tan alpha_K - D_M cos beta_b / d_b, which must not lie within the base circle.
    const double least_tangent = pin_diameter * cos(g.base_helix_angle()) / g.base_diameter();
    block spaces;
    for (std::size_t i = 0; i < block_size; ++i) spaces[i] = half_pitch - (normal_thicknesses[i] / turns + at_reference);
    block values;
    for (std::size_t i = 0; i < block_size; ++i) values[i] = pin_angle - spaces[i];
    for (std::size_t i = 0; i < block_size; ++i) {
        if (values[i] > 0) continue;
        impossible_geometry(check_greater("pin_diameter", pin_diameter, turns * cos(g.normal_pressure_angle()) * spaces[i]));
    }
    block tangents;
    inverse_inv_block(values, tangents);
    for (std::size_t i = 0; i < block_size; ++i) tangents[i] += values[i];
    for (std::size_t i = 0; i < block_size; ++i) {
        if (tangents[i] >= least_tangent) continue;
        impossible_geometry(
            {"pin_diameter", pin_diameter, "must be great enough to touch both flanks above the base circle", 0, false});
    }
    block squares;
    for (std::size_t i = 0; i < block_size; ++i) squares[i] = 1 + tangents[i] * tangents[i];
    for (std::size_t i = 0; i < block_size; ++i) centres[i] = g.base_diameter() * std::sqrt(squares[i]);
}

} // namespace detail

/// Dimension over two balls, M_dK, for each normal tooth thickness s_n at the reference cylinder. The gear gives all else. Same formulas as
/// rackwork::dimension_over_balls. Accuracy: 16 ulp. Throws as that does.
inline void dimension_over_balls(const gear<double>& g, double ball_diameter, std::span<const double> normal_thicknesses,
                                 std::span<double> dimensions) {
    require(first_of(rackwork::detail::check_measured_over(g), check_greater("pin_diameter", ball_diameter, 0.0)));
    const double facing = elementary::cos(rackwork::detail::facing_error<double>(g.teeth()));
    detail::in_blocks(normal_thicknesses, dimensions, [&](detail::block_view thickness, detail::block& results) {
        detail::require_thickness(thickness);
        detail::block centres;
        detail::pin_centres(g, ball_diameter, thickness, centres);
        for (std::size_t i = 0; i < detail::block_size; ++i) results[i] = centres[i] * facing + ball_diameter;
    });
}

/// Dimension over two cylindrical pins, M_dR, for each normal tooth thickness s_n at the reference cylinder. The gear gives all else. Same
/// formulas as rackwork::dimension_over_pins. Accuracy: 16 ulp. Throws as that does. For helical gears with odd tooth numbers
/// the position of the pins is searched for one by one.
inline void dimension_over_pins(const gear<double>& g, double pin_diameter, std::span<const double> normal_thicknesses,
                                std::span<double> dimensions) {
    const bool facing = g.teeth() % 2 == 0;
    if (g.helix_angle().rad() == 0) {
        dimension_over_balls(g, pin_diameter, normal_thicknesses, dimensions);
        return;
    }
    require(first_of(rackwork::detail::check_measured_over(g), check_greater("pin_diameter", pin_diameter, 0.0)));
    detail::in_blocks(normal_thicknesses, dimensions, [&](detail::block_view thickness, detail::block& results) {
        detail::require_thickness(thickness);
        detail::block centres;
        detail::pin_centres(g, pin_diameter, thickness, centres);
        for (std::size_t i = 0; i < detail::block_size; ++i) {
            const double helix = rackwork::detail::helix_of_pins(g, centres[i]);
            results[i] = pin_diameter +
                         (facing ? centres[i] : 2 * rackwork::detail::half_distance_of_pins(g.teeth(), centres[i], helix));
        }
    });
}

} // namespace rackwork::batch

#endif
