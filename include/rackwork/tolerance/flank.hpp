// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Flank tolerances by class: pitch, runout, profile, helix. MILLIMETRES in, MICROMETRES out.
#ifndef RACKWORK_TOLERANCE_FLANK_HPP
#define RACKWORK_TOLERANCE_FLANK_HPP

#include "../core/angle.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "rounding.hpp"

#include <type_traits>

namespace rackwork {

/// What the tolerances of a gear depend on. Lengths here are MILLIMETRES, because the standard's formulas hold for no other unit.
template <scalar T = double>
struct toothing_in_millimetres {
    /// Number of teeth, z: 5 to 1000.
    int teeth = 0;
    /// Normal module, m_n: 0.5 to 70 mm.
    T normal_module{0};
    /// Reference diameter, d: 5 to 15000 mm.
    T reference_diameter{0};
    /// Face width, b: 4 to 1200 mm. Only the tolerances of the helix depend on it, and only they ask for it.
    T face_width{0};
    /// Helix angle, beta: up to 45 degrees of either hand.
    angle<T> helix_angle{};
};

/// What the tolerances of a gear depend on, in millimetres. A gear in another unit says how many millimetres that has: 25.4 for inches.
/// Throws geometry_error unless that number is greater than 0.
template <scalar T>
constexpr toothing_in_millimetres<T> toothing_of(const gear<T>& g, const std::type_identity_t<T>& millimetres_per_unit = T(1)) {
    require(check_greater("millimetres_per_unit", millimetres_per_unit, T(0)));
    return {.teeth = g.teeth(),
            .normal_module = T(g.normal_module() * millimetres_per_unit),
            .reference_diameter = T(g.reference_diameter() * millimetres_per_unit),
            .face_width = T(g.parameters().face_width * millimetres_per_unit),
            .helix_angle = g.helix_angle()};
}

/// Tolerances of the pitch and of the runout [micrometres].
template <scalar T>
struct pitch_tolerances {
    /// Single pitch, f_pT: the deviation of any pitch, either way.
    T single_pitch;
    /// Cumulative pitch (total), F_pT: the greatest less the least cumulative deviation of all teeth.
    T cumulative_pitch;
    /// Runout, F_rT.
    T runout;
};

/// Tolerances of the profile, or of the helix [micrometres].
template <scalar T>
struct trace_tolerances {
    /// Slope, f_HalphaT or f_HbetaT: either way.
    T slope;
    /// Form, f_falphaT or f_fbetaT.
    T form;
    /// Total, F_alphaT or F_betaT.
    T total;
};

/// All flank tolerances of a gear [micrometres].
template <scalar T>
struct flank_tolerances {
    pitch_tolerances<T> pitch;
    trace_tolerances<T> profile;
    trace_tolerances<T> helix;
};

/// What puts a gear or a tolerance class outside the standard's range, or nothing. The face width is not asked for here.
template <scalar T>
constexpr violation check_tolerance_class(const toothing_in_millimetres<T>& gear_in_millimetres, int tolerance_class) {
    const auto& g = gear_in_millimetres;
    // Compared in radians: 45 degrees must not fail for the rounding of a conversion.
    const T steepest = deg(T(45)).rad();
    if (const violation v = first_of(
            check_at_least("tolerance_class", T(tolerance_class), T(1)), check_at_most("tolerance_class", T(tolerance_class), T(11)),
            check_at_least("teeth", T(g.teeth), T(5)), check_at_most("teeth", T(g.teeth), T(1000)),
            check_at_least("normal_module (mm)", g.normal_module, T(T(1) / T(2))), check_at_most("normal_module (mm)", g.normal_module, T(70)),
            check_at_least("reference_diameter (mm)", g.reference_diameter, T(5)),
            check_at_most("reference_diameter (mm)", g.reference_diameter, T(15000)), check_finite("helix_angle (deg)", g.helix_angle.deg()))) {
        return v;
    }
    if (magnitude(g.helix_angle.rad()) <= steepest) return {};
    return check_magnitude("helix_angle (deg)", g.helix_angle.deg(), T(45));
}

/// The same for the tolerances of the helix, which depend on the face width as well.
template <scalar T>
constexpr violation check_helix_tolerance_class(const toothing_in_millimetres<T>& g, int tolerance_class) {
    return first_of(check_tolerance_class(g, tolerance_class), check_at_least("face_width (mm)", g.face_width, T(4)),
                    check_at_most("face_width (mm)", g.face_width, T(1200)));
}

namespace detail {

template <scalar T>
constexpr T per_thousand(int numerator) {
    return T(T(numerator) / T(1000));
}

/// sqrt(2)^(A - 5): the step from class to class, exact for odd classes.
template <scalar T>
constexpr T class_factor(int tolerance_class) {
    T factor = tolerance_class % 2 == 0 ? elementary::sqrt(T(2)) : T(1);
    // Even classes start from 6, odd ones from 5.
    int at = tolerance_class % 2 == 0 ? 6 : 5;
    for (; at < tolerance_class; at += 2) factor *= T(2);
    for (; at > tolerance_class; at -= 2) factor /= T(2);
    return factor;
}

template <scalar T>
constexpr trace_tolerances<T> trace(const T& slope, const T& form) {
    return {.slope = slope, .form = form, .total = T(elementary::sqrt(T(square(slope) + square(form))))};
}

template <scalar T>
constexpr trace_tolerances<T> rounded(const trace_tolerances<T>& t) {
    return {.slope = rounded_flank_tolerance(t.slope), .form = rounded_flank_tolerance(t.form), .total = rounded_flank_tolerance(t.total)};
}

} // namespace detail

/// Tolerances of pitch and runout before rounding [micrometres], for class A = 1 (finest) to 11:
///   f_pT = (0.001 d + 0.4 m_n + 5) sqrt(2)^(A - 5),  F_pT = (0.002 d + 0.55 sqrt(d) + 0.7 m_n + 12) sqrt(2)^(A - 5),  F_rT = 0.9 F_pT.
/// Source: ISO 1328-1:2013, from memory. Accuracy: 8 ulp. Throws geometry_error as check_tolerance_class says.
template <scalar T>
constexpr pitch_tolerances<T> unrounded_pitch_tolerances_in_micrometres(const toothing_in_millimetres<T>& g, int tolerance_class) {
    require(check_tolerance_class(g, tolerance_class));
    using detail::per_thousand;
    const T factor = detail::class_factor<T>(tolerance_class);
    const T single = (per_thousand<T>(1) * g.reference_diameter + per_thousand<T>(400) * g.normal_module + T(5)) * factor;
    const T cumulative = (per_thousand<T>(2) * g.reference_diameter + per_thousand<T>(550) * elementary::sqrt(g.reference_diameter) +
                          per_thousand<T>(700) * g.normal_module + T(12)) *
                         factor;
    return {.single_pitch = single, .cumulative_pitch = cumulative, .runout = T(per_thousand<T>(900) * cumulative)};
}

/// Tolerances of the profile before rounding [micrometres]:
///   f_HalphaT = (0.4 m_n + 0.001 d + 4) sqrt(2)^(A - 5),  f_falphaT = (0.55 m_n + 5) sqrt(2)^(A - 5),
///   F_alphaT = sqrt(f_HalphaT^2 + f_falphaT^2).
/// Source: ISO 1328-1:2013, from memory. Accuracy: 8 ulp. Throws geometry_error as check_tolerance_class says.
template <scalar T>
constexpr trace_tolerances<T> unrounded_profile_tolerances_in_micrometres(const toothing_in_millimetres<T>& g, int tolerance_class) {
    require(check_tolerance_class(g, tolerance_class));
    using detail::per_thousand;
    const T factor = detail::class_factor<T>(tolerance_class);
    const T slope = per_thousand<T>(400) * g.normal_module + per_thousand<T>(1) * g.reference_diameter + T(4);
    const T form = per_thousand<T>(550) * g.normal_module + T(5);
    return detail::trace(T(slope * factor), T(form * factor));
}

/// Tolerances of the helix before rounding [micrometres]:
///   f_HbetaT = (0.05 sqrt(d) + 0.35 sqrt(b) + 4) sqrt(2)^(A - 5),  f_fbetaT = (0.07 sqrt(d) + 0.45 sqrt(b) + 4) sqrt(2)^(A - 5),
///   F_betaT = sqrt(f_HbetaT^2 + f_fbetaT^2).
/// Source: ISO 1328-1:2013, from memory. Accuracy: 8 ulp. Throws geometry_error as check_helix_tolerance_class says.
template <scalar T>
constexpr trace_tolerances<T> unrounded_helix_tolerances_in_micrometres(const toothing_in_millimetres<T>& g, int tolerance_class) {
    require(check_helix_tolerance_class(g, tolerance_class));
    using detail::per_thousand;
    const T factor = detail::class_factor<T>(tolerance_class);
    const T root_diameter = elementary::sqrt(g.reference_diameter);
    const T root_width = elementary::sqrt(g.face_width);
    const T slope = per_thousand<T>(50) * root_diameter + per_thousand<T>(350) * root_width + T(4);
    const T form = per_thousand<T>(70) * root_diameter + per_thousand<T>(450) * root_width + T(4);
    return detail::trace(T(slope * factor), T(form * factor));
}

/// Tolerances of pitch and runout as the standard states them, rounded by its rule [micrometres]. See the unrounded ones.
template <scalar T>
constexpr pitch_tolerances<T> pitch_tolerances_in_micrometres(const toothing_in_millimetres<T>& g, int tolerance_class) {
    const pitch_tolerances<T> exact = unrounded_pitch_tolerances_in_micrometres(g, tolerance_class);
    return {.single_pitch = rounded_flank_tolerance(exact.single_pitch),
            .cumulative_pitch = rounded_flank_tolerance(exact.cumulative_pitch),
            .runout = rounded_flank_tolerance(exact.runout)};
}
/// Tolerances of the profile, rounded by the standard's rule [micrometres]. The total is rounded from its own unrounded parts.
template <scalar T>
constexpr trace_tolerances<T> profile_tolerances_in_micrometres(const toothing_in_millimetres<T>& g, int tolerance_class) {
    return detail::rounded(unrounded_profile_tolerances_in_micrometres(g, tolerance_class));
}
/// Tolerances of the helix, rounded by the standard's rule [micrometres]. The total is rounded from its own unrounded parts.
template <scalar T>
constexpr trace_tolerances<T> helix_tolerances_in_micrometres(const toothing_in_millimetres<T>& g, int tolerance_class) {
    return detail::rounded(unrounded_helix_tolerances_in_micrometres(g, tolerance_class));
}

/// Tolerance of the pitch over a sector of k pitches [micrometres], before rounding:
///   F_pkT = f_pT + (4 k/z) (0.001 d + 0.55 sqrt(d) + 0.3 m_n + 7) sqrt(2)^(A - 5).
/// It grows from about f_pT to F_pT over a quarter of the gear; k = z/8 is customary.
/// Source: ISO 1328-1:2013, annex, from memory. Throws geometry_error as check_tolerance_class says, for k < 1 and for 4 k > z.
template <scalar T>
constexpr T unrounded_sector_pitch_tolerance_in_micrometres(const toothing_in_millimetres<T>& g, int pitches, int tolerance_class) {
    const T single = unrounded_pitch_tolerances_in_micrometres(g, tolerance_class).single_pitch;
    require(first_of(check_at_least("pitches of the sector", T(pitches), T(1)),
                     check_at_most("pitches of the sector", T(pitches), T(T(g.teeth) / T(4)))));
    using detail::per_thousand;
    const T growth = per_thousand<T>(1) * g.reference_diameter + per_thousand<T>(550) * elementary::sqrt(g.reference_diameter) +
                     per_thousand<T>(300) * g.normal_module + T(7);
    return T(single + T(4 * pitches) / T(g.teeth) * growth * detail::class_factor<T>(tolerance_class));
}
/// The same, rounded by the standard's rule.
template <scalar T>
constexpr T sector_pitch_tolerance_in_micrometres(const toothing_in_millimetres<T>& g, int pitches, int tolerance_class) {
    return rounded_flank_tolerance(unrounded_sector_pitch_tolerance_in_micrometres(g, pitches, tolerance_class));
}

/// All flank tolerances of a gear of a class, rounded by the standard's rule [MICROMETRES]. The gear's lengths are millimetres, or the
/// caller says how many millimetres their unit has. Source: ISO 1328-1:2013, from memory.
/// Throws geometry_error outside the standard's range: class 1 to 11, 5 to 1000 teeth, module 0.5 to 70 mm, reference diameter 5 to 15000 mm,
/// face width 4 to 1200 mm (a gear must state one), helix angle up to 45 degrees.
template <scalar T>
constexpr flank_tolerances<T> flank_tolerances_in_micrometres(const gear<T>& g, int tolerance_class,
                                                              const std::type_identity_t<T>& millimetres_per_unit = T(1)) {
    const toothing_in_millimetres<T> toothing = toothing_of(g, millimetres_per_unit);
    return {.pitch = pitch_tolerances_in_micrometres(toothing, tolerance_class),
            .profile = profile_tolerances_in_micrometres(toothing, tolerance_class),
            .helix = helix_tolerances_in_micrometres(toothing, tolerance_class)};
}

} // namespace rackwork

#endif
