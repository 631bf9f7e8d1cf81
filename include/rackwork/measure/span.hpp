// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Span measurement: the base tangent length over several teeth, or over several spaces of an internal spur gear.
#ifndef RACKWORK_MEASURE_SPAN_HPP
#define RACKWORK_MEASURE_SPAN_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "kind_check.hpp"

namespace rackwork {

namespace detail {

/// What a span can be taken of: no helical internal gears, and not all round.
template <scalar T>
constexpr violation check_span(const gear<T>& g, int teeth_spanned) {
    return first_of(check_spur_if_internal(g, "must be 0 for a span of an internal gear"),
                    check_at_least("teeth_spanned", T(teeth_spanned), T(1)),
                    check_less("teeth_spanned", T(teeth_spanned), T(g.teeth())));
}

/// What the span ends with beyond whole pitches, at the reference cylinder: a tooth of an external gear, a space of an internal one.
template <scalar T>
constexpr T spanned_thickness(const gear<T>& g) {
    return g.is_internal() ? T(g.normal_pitch() - g.normal_tooth_thickness()) : g.normal_tooth_thickness();
}

} // namespace detail

/// Largest error of span measurements for float, double and long double, in units in the last place (ulp).
inline constexpr int span_error_bound = 8;

/// Length of the base tangent over `teeth_spanned` teeth, W_k, in the normal section.
/// W_k = cos alpha_n (m_n ((k - 1) pi + z inv alpha_t) + s_n).
///
/// Internal spur gears: the same over k spaces (with k - 1 teeth between), measured from inside with rounded ends that are more
/// strongly curved than the flanks; the space e_n = pi m_n - s_n stands for s_n. Helical internal gears have no span: no straight
/// caliper gets along their base tangent to both flanks.
/// Source: ISO 21771:2007, span measurement. Accuracy: span_error_bound.
/// Throws geometry_error if teeth_spanned is not in [1, teeth), and for helical internal gears.
template <scalar T>
constexpr T span_measurement(const gear<T>& g, int teeth_spanned) {
    require(detail::check_span(g, teeth_spanned));
    const T pitches = T(teeth_spanned - 1) * pi<T>() + T(g.teeth()) * g.involute_of_transverse_pressure_angle();
    return T(detail::cosine_of_normal_pressure_angle(g) * (g.normal_module() * pitches + detail::spanned_thickness(g)));
}

/// Diameter at which both anvils touch the flanks, d_M: d_M^2 = d_b^2 + (W_k cos beta_b)^2.
/// Throws geometry_error as span_measurement does.
template <scalar T>
constexpr T span_contact_diameter(const gear<T>& g, int teeth_spanned) {
    const T transverse = span_measurement(g, teeth_spanned) / detail::secant_of_base_helix_angle(g);
    return T(elementary::sqrt(T(square(g.base_diameter()) + square(transverse))));
}

/// Number of teeth to span, k (of spaces on an internal gear), on a gear whose root is known: the broken number that makes the anvils
/// touch the circle d_v = d + 2 sigma x m_n, in the middle of the working depth, rounded; a tie goes to the larger number, as in the
/// handbooks' tables. At least 2, as far as the gear has the teeth for it, and the neighbouring number where only that touches the involute
/// between root form and tip form diameter. (The findings of a gear tell when none does.)
/// Throws geometry_error for a gear of one tooth, which cannot be spanned, and for helical internal gears.
template <scalar T>
constexpr int recommended_teeth_spanned(const gear<T>& g, const generated_root<T>& root) {
    require(first_of(check_at_least("teeth", T(g.teeth()), T(2)),
                     detail::check_spur_if_internal(g, "must be 0 for a span of an internal gear")));
    const T target = larger(g.shifted_reference_diameter(), g.base_diameter());
    // W_k cos beta_b = d_v sin alpha_v, solved for k as a broken number.
    const T wanted = g.base_diameter() * g.tangent_of_pressure_angle(target) * detail::secant_of_base_helix_angle(g);
    const T teeth = (wanted / detail::cosine_of_normal_pressure_angle(g) - detail::spanned_thickness(g)) / g.normal_pitch() + T(1) -
                    T(g.teeth()) * g.involute_of_transverse_pressure_angle() / pi<T>();
    // Ties are common: 18 teeth of 20 degrees want exactly 2.5. Rounding errors must not decide them.
    const T tie = T(64) * epsilon<T>() * larger(magnitude(teeth), T(1));
    const int least = g.teeth() > 2 ? 2 : 1;
    const T upper = T(g.teeth() - 1);
    const int best = whole_part(smaller(larger(T(teeth + T(1) / T(2) + tie), T(least)), upper));
    const T form = root.root_form_diameter();
    const T inner = smaller(form, g.tip_form_diameter());
    const T outer = larger(form, g.tip_form_diameter());
    const T contact = span_contact_diameter(g, best);
    if (contact > outer && best > least && span_contact_diameter(g, best - 1) >= inner) return best - 1;
    if (contact < inner && best + 1 < g.teeth() && span_contact_diameter(g, best + 1) <= outer) return best + 1;
    return best;
}

/// The same with the root that the customary tool makes. Throws geometry_error also as generated_root does.
template <scalar T>
constexpr int recommended_teeth_spanned(const gear<T>& g) {
    require(check_at_least("teeth", T(g.teeth()), T(2)));
    return recommended_teeth_spanned(g, generated_root<T>(g));
}

/// Face width that a helical gear must have for both anvils to touch: b = W_k sin |beta_b| + b_M cos beta_b, where b_M is the length of
/// contact wanted along the flank line (0: the anvils just touch at a corner). 0 + b_M for a spur gear.
/// Source: ISO 21771:2007, from memory. Throws geometry_error as span_measurement does, or if the length is negative.
template <scalar T>
constexpr T span_face_width(const gear<T>& g, int teeth_spanned, const T& contact_length = T(0)) {
    require(check_at_least("contact_length", contact_length, T(0)));
    const T span = span_measurement(g, teeth_spanned);
    return T((span * magnitude(g.tangent_of_base_helix_angle()) + contact_length) / detail::secant_of_base_helix_angle(g));
}

/// Normal tooth thickness at the reference cylinder, s_n, of a gear whose measured span is W_k.
/// s_n = W_k / cos alpha_n - m_n ((k - 1) pi + z inv alpha_t), or on internal gears the pitch less that. The gear gives all but its own
/// thickness. Throws geometry_error as span_measurement does, or if the span is not greater than 0.
template <scalar T>
constexpr T normal_tooth_thickness_from_span(const gear<T>& g, int teeth_spanned, const T& span) {
    require(check_greater("span_measurement", span, T(0)));
    const T longer = (span - span_measurement(g, teeth_spanned)) / detail::cosine_of_normal_pressure_angle(g);
    const T thickness = g.normal_tooth_thickness() + g.kind_sign() * longer;
    require(check_finite("normal_tooth_thickness", thickness));
    return thickness;
}

} // namespace rackwork

#endif
