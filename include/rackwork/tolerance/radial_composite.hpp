// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Tolerances of the double-flank test with a master gear. MILLIMETRES in, MICROMETRES out.
#ifndef RACKWORK_TOLERANCE_RADIAL_COMPOSITE_HPP
#define RACKWORK_TOLERANCE_RADIAL_COMPOSITE_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "flank.hpp"
#include "rounding.hpp"

#include <array>
#include <cstddef>
#include <type_traits>

namespace rackwork {

/// Tolerances of the variation of the centre distance when a gear rolls with a master gear in contact on both flanks [micrometres].
template <scalar T>
struct radial_composite_tolerances {
    /// Total, over one turn of the gear, F_i''.
    T total;
    /// Tooth-to-tooth, within one pitch, f_i''.
    T tooth_to_tooth;
};

/// Limits of the ranges of reference diameter [mm] for whose geometric means the standard states its tolerances.
inline constexpr std::array radial_composite_diameters_in_millimetres{5.0, 20.0, 50.0, 125.0, 280.0, 560.0, 1000.0};
/// Limits of the ranges of normal module [mm], likewise.
inline constexpr std::array radial_composite_modules_in_millimetres{0.2, 0.5, 0.8, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0};

/// What puts a gear or an accuracy grade outside the standard's range, or nothing: grade 4 to 12, reference diameter 5 to 1000 mm, module
/// 0.2 to 10 mm.
template <scalar T>
constexpr violation check_radial_composite_grade(const toothing_in_millimetres<T>& g, int accuracy_grade) {
    return first_of(check_at_least("accuracy_grade", T(accuracy_grade), T(4)), check_at_most("accuracy_grade", T(accuracy_grade), T(12)),
                    check_at_least("teeth", T(g.teeth), T(1)), check_at_least("normal_module (mm)", g.normal_module, T(T(1) / T(5))),
                    check_at_most("normal_module (mm)", g.normal_module, T(10)),
                    check_at_least("reference_diameter (mm)", g.reference_diameter, T(5)),
                    check_at_most("reference_diameter (mm)", g.reference_diameter, T(1000)));
}

namespace detail {

/// Geometric mean of the limits of the range in which a value lies; a limit belongs to the range below it. The value is not outside all.
template <scalar T, std::size_t N>
constexpr T range_mean(const std::array<double, N>& limits, const T& value) {
    std::size_t i = 1;
    // Tenths, so that the limits are those of any scalar.
    const auto limit = [&](std::size_t at) { return T(T(static_cast<int>(limits[at] * 10.0 + 0.5)) / T(10)); };
    while (i + 1 < N && limit(i) < value) ++i;
    return T(elementary::sqrt(T(limit(i - 1) * limit(i))));
}

} // namespace detail

/// Radial composite tolerances before rounding [micrometres], for accuracy grade Q = 4 (finest) to 12:
///   F_i'' = (3.2 m_n + 1.01 sqrt(d) + 6.4) sqrt(2)^(Q - 5),  f_i'' = (2.96 m_n + 0.01 sqrt(d) + 0.8) sqrt(2)^(Q - 5),
/// with the geometric means of the limits of the ranges in which m_n and d lie.
/// Source: ISO 1328-2:1997, from memory. (The edition of 2020 has other classes and formulas; a drawing must say which it means.)
/// Throws geometry_error as check_radial_composite_grade says.
template <scalar T>
constexpr radial_composite_tolerances<T> unrounded_radial_composite_tolerances_in_micrometres(const toothing_in_millimetres<T>& g,
                                                                                              int accuracy_grade) {
    require(check_radial_composite_grade(g, accuracy_grade));
    using detail::per_thousand;
    const T module = detail::range_mean(radial_composite_modules_in_millimetres, g.normal_module);
    const T root_diameter = elementary::sqrt(detail::range_mean(radial_composite_diameters_in_millimetres, g.reference_diameter));
    const T factor = detail::class_factor<T>(accuracy_grade);
    return {.total = T((per_thousand<T>(3200) * module + per_thousand<T>(1010) * root_diameter + per_thousand<T>(6400)) * factor),
            .tooth_to_tooth = T((per_thousand<T>(2960) * module + per_thousand<T>(10) * root_diameter + per_thousand<T>(800)) * factor)};
}

/// Radial composite tolerances of a gear, rounded by the standard's rule [MICROMETRES]. The gear's lengths are millimetres, or the caller
/// says how many millimetres their unit has. Source: ISO 1328-2:1997, from memory. Throws geometry_error outside its range.
template <scalar T>
constexpr radial_composite_tolerances<T> radial_composite_tolerances_in_micrometres(
    const gear<T>& g, int accuracy_grade, const std::type_identity_t<T>& millimetres_per_unit = T(1)) {
    const radial_composite_tolerances<T> exact =
        unrounded_radial_composite_tolerances_in_micrometres(toothing_of(g, millimetres_per_unit), accuracy_grade);
    return {.total = rounded_radial_composite_tolerance(exact.total),
            .tooth_to_tooth = rounded_radial_composite_tolerance(exact.tooth_to_tooth)};
}

} // namespace rackwork

#endif
