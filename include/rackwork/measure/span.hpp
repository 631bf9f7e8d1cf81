// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Span measurement: the base tangent length over several teeth.
#ifndef RACKWORK_MEASURE_SPAN_HPP
#define RACKWORK_MEASURE_SPAN_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"

namespace rackwork {

/// Length of the base tangent over `teeth_spanned` teeth, W_k, in the normal section.
/// W_k = cos alpha_n (m_n ((k - 1) pi + z inv alpha_t) + s_n).
/// Source: ISO 21771:2007, span measurement. Accuracy for double: 8 ulp.
/// Throws geometry_error if teeth_spanned is not in [1, teeth).
template <scalar T>
constexpr T span_measurement(const gear<T>& g, int teeth_spanned) {
    require(first_of(check_at_least("teeth_spanned", T(teeth_spanned), T(1)),
                     check_less("teeth_spanned", T(teeth_spanned), T(g.teeth()))));
    const T pitches = T(teeth_spanned - 1) * pi<T>() + T(g.teeth()) * inv(g.transverse_pressure_angle());
    return T(cos(g.normal_pressure_angle()) * (g.normal_module() * pitches + g.normal_tooth_thickness()));
}

/// Diameter at which both anvils touch the flanks, d_M: d_M^2 = d_b^2 + (W_k cos beta_b)^2.
/// Throws geometry_error if teeth_spanned is not in [1, teeth).
template <scalar T>
constexpr T span_contact_diameter(const gear<T>& g, int teeth_spanned) {
    const T transverse = span_measurement(g, teeth_spanned) * cos(g.base_helix_angle());
    return T(elementary::sqrt(T(square(g.base_diameter()) + square(transverse))));
}

/// Number of teeth to span, k: the broken number that makes the anvils touch the circle d_v = d + 2 x m_n, in the middle of the working
/// depth, rounded; a tie goes to the larger number, as in the handbooks' tables. At least 2, as far as the gear has the teeth for it, and the
/// neighbouring number where only that touches the involute. (The findings of a gear tell when none does.)
/// Throws geometry_error for a gear of one tooth, which cannot be spanned.
template <scalar T>
constexpr int recommended_teeth_spanned(const gear<T>& g) {
    require(check_at_least("teeth", T(g.teeth()), T(2)));
    const T target = larger(g.shifted_reference_diameter(), g.base_diameter());
    // W_k cos beta_b = d_v sin alpha_v, solved for k as a broken number.
    const T wanted = g.base_diameter() * g.tangent_of_pressure_angle(target) / cos(g.base_helix_angle());
    const T teeth = (wanted / cos(g.normal_pressure_angle()) - g.normal_tooth_thickness()) / g.normal_pitch() + T(1) -
                    T(g.teeth()) * inv(g.transverse_pressure_angle()) / pi<T>();
    // Ties are common: 18 teeth of 20 degrees want exactly 2.5. Rounding errors must not decide them.
    const T tie = T(64) * epsilon<T>() * larger(magnitude(teeth), T(1));
    const int least = g.teeth() > 2 ? 2 : 1;
    const T upper = T(g.teeth() - 1);
    int best = whole_part(smaller(larger(T(teeth + T(1) / T(2) + tie), T(least)), upper));
    const T form = generated_root<T>(g).root_form_diameter();
    const T tip = g.effective_tip_diameter();
    if (span_contact_diameter(g, best) > tip && best > least && span_contact_diameter(g, best - 1) >= form) return best - 1;
    if (span_contact_diameter(g, best) < form && best + 1 < g.teeth() && span_contact_diameter(g, best + 1) <= tip) return best + 1;
    return best;
}

/// Face width that a helical gear must have for both anvils to touch: b = W_k sin |beta_b| + b_M cos beta_b, where b_M is the length of
/// contact wanted along the flank line (0: the anvils just touch at a corner). 0 + b_M for a spur gear.
/// Source: ISO 21771:2007, from memory. Throws geometry_error if teeth_spanned is not in [1, teeth) or the length is negative.
template <scalar T>
constexpr T span_face_width(const gear<T>& g, int teeth_spanned, const T& contact_length = T(0)) {
    require(check_at_least("contact_length", contact_length, T(0)));
    const angle<T> helix = rad(magnitude(g.base_helix_angle().rad()));
    return T(span_measurement(g, teeth_spanned) * sin(helix) + contact_length * cos(helix));
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose measured span is W_k.
/// s_n = W_k / cos alpha_n - m_n ((k - 1) pi + z inv alpha_t). The gear gives all but its own thickness.
/// Throws geometry_error if teeth_spanned is not in [1, teeth) or the span is not greater than 0.
template <scalar T>
constexpr T normal_tooth_thickness_from_span(const gear<T>& g, int teeth_spanned, const T& span) {
    require(check_greater("span_measurement", span, T(0)));
    const T thickness = g.normal_tooth_thickness() + (span - span_measurement(g, teeth_spanned)) / cos(g.normal_pressure_angle());
    require(check_finite("normal_tooth_thickness", thickness));
    return thickness;
}

} // namespace rackwork

#endif
