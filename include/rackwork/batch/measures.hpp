// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What the inspector's tools read on many teeth that differ in their thickness: a lot, a tolerance, a search.
#ifndef RACKWORK_BATCH_MEASURES_HPP
#define RACKWORK_BATCH_MEASURES_HPP

#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../measure/pins.hpp"
#include "../measure/span.hpp"
#include "blocks.hpp"
#include "involute.hpp"

#include <cmath>
#include <cstddef>
#include <span>

namespace rackwork::batch {

namespace detail {

inline void require_thickness(block_view normal_thicknesses) {
    if (all_within(normal_thicknesses, 0x1p-128)) return;
    for (const double s : normal_thicknesses) require(check_finite("normal tooth thickness", s));
}

} // namespace detail

/// Length of the base tangent over `teeth_spanned` teeth (of internal spur gears: spaces), W_k, for each normal tooth thickness s_n at the
/// reference cylinder. The gear gives all else; at its own thickness the result is that of rackwork::span_measurement, whose formula
/// and accuracy this has. Throws as that does, and unless the thicknesses are finite.
inline void span_measurement(const gear<double>& g, int teeth_spanned, std::span<const double> normal_thicknesses,
                             std::span<double> spans) {
    require(rackwork::detail::check_span(g, teeth_spanned));
    const double pitches = (teeth_spanned - 1) * pi<double>() + g.teeth() * g.involute_of_transverse_pressure_angle();
    const double module = g.normal_module();
    // An internal gear's space, the pitch less the tooth, stands for the tooth.
    const double sign = g.kind_sign();
    const double pitch = g.is_internal() ? g.normal_pitch() : 0.0;
    const double cosine = rackwork::detail::cosine_of_normal_pressure_angle(g);
    detail::in_blocks(normal_thicknesses, spans, [&](detail::block_view thickness, detail::block_span results) {
        detail::require_thickness(thickness);
        for (std::size_t i = 0; i < detail::block_size; ++i) {
            results[i] = cosine * (module * pitches + (pitch + sign * thickness[i]));
        }
    });
}

namespace detail {

/// Diameters of the circles through the centres of pins or balls, d_K: position_of_pin with spaces that are narrower than the gear's own
/// by what the teeth are thicker.
inline void pin_centres(const gear<double>& g, double pin_diameter, block_view normal_thicknesses, block& centres) {
    const double turns = g.teeth() * g.normal_module();
    const double per_involute = turns * rackwork::detail::cosine_of_normal_pressure_angle(g);
    const double pin_angle = pin_diameter / per_involute;
    const double own_space = rackwork::detail::base_space_half_angle(g);
    const double own_thickness = g.normal_tooth_thickness();
    const double base = g.base_diameter();
    block spaces;
    for (std::size_t i = 0; i < block_size; ++i) spaces[i] = own_space - (normal_thicknesses[i] - own_thickness) / turns;
    block involutes;
    for (std::size_t i = 0; i < block_size; ++i) involutes[i] = pin_angle - spaces[i];
    for (std::size_t i = 0; i < block_size; ++i) {
        if (involutes[i] > 0) continue;
        impossible_geometry({"pin_diameter", pin_diameter, "must be greater than", per_involute * spaces[i]});
    }
    block angles;
    inverse_inv_block(involutes, angles);
    const double squared_slope = square(g.tangent_of_base_helix_angle());
    const double share = pin_angle * (squared_slope / (1 + squared_slope));
    for (std::size_t i = 0; i < block_size; ++i) {
        if (angles[i] - (spaces[i] - share) >= 0) continue; // tangent of the pressure angle where the pin touches
        impossible_geometry(
            {"pin_diameter", pin_diameter, "must be great enough to touch both flanks above the base circle", 0, false});
    }
    block squares;
    for (std::size_t i = 0; i < block_size; ++i) squares[i] = 1 + square(involutes[i] + angles[i]);
    for (std::size_t i = 0; i < block_size; ++i) centres[i] = base * std::sqrt(squares[i]);
}

} // namespace detail

/// Dimension over two balls, M_dK, for each normal tooth thickness s_n at the reference cylinder. The gear gives all else; at its own
/// thickness the result is that of rackwork::dimension_over_balls, whose formulas these are. Accuracy: pin_error_bound. Throws as that
/// does.
inline void dimension_over_balls(const gear<double>& g, double ball_diameter, std::span<const double> normal_thicknesses,
                                 std::span<double> dimensions) {
    require(first_of(rackwork::detail::check_measured_over(g), check_greater("pin_diameter", ball_diameter, 0.0)));
    const double facing = rackwork::detail::cosine_of_facing_error<double>(g.teeth());
    detail::in_blocks(normal_thicknesses, dimensions, [&](detail::block_view thickness, detail::block_span results) {
        detail::require_thickness(thickness);
        detail::block centres;
        detail::pin_centres(g, ball_diameter, thickness, centres);
        for (std::size_t i = 0; i < detail::block_size; ++i) results[i] = centres[i] * facing + ball_diameter;
    });
}

/// Dimension over two cylindrical pins, M_dR, for each normal tooth thickness s_n at the reference cylinder. The gear gives all else; at
/// its own thickness the result is that of rackwork::dimension_over_pins, whose formulas these are. Accuracy: pin_error_bound. Throws as
/// that does. For helical gears with odd tooth numbers the position of the pins is searched for one by one.
inline void dimension_over_pins(const gear<double>& g, double pin_diameter, std::span<const double> normal_thicknesses,
                                std::span<double> dimensions) {
    const bool facing = g.teeth() % 2 == 0;
    if (g.helix_angle().rad() == 0) {
        dimension_over_balls(g, pin_diameter, normal_thicknesses, dimensions);
        return;
    }
    require(first_of(rackwork::detail::check_measured_over(g), check_greater("pin_diameter", pin_diameter, 0.0)));
    detail::in_blocks(normal_thicknesses, dimensions, [&](detail::block_view thickness, detail::block_span results) {
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
