// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// From the limits of the tooth thickness to the limits of what the inspector reads, and back.
#ifndef RACKWORK_TOLERANCE_THICKNESS_HPP
#define RACKWORK_TOLERANCE_THICKNESS_HPP

#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../gear_parameters.hpp"
#include "../measure/chord.hpp"
#include "../measure/pins.hpp"
#include "../measure/radial_ball.hpp"
#include "../measure/span.hpp"
#include "size_limits.hpp"

#include <type_traits>

namespace rackwork {

/// Limits of the tooth thickness as allowances on the thickness that the profile shift alone would give: normal section, reference
/// cylinder, in the module's unit, negative thins the tooth.
template <scalar T = double>
struct thickness_allowances {
    /// Upper allowance, E_sns: that of the thickest permissible tooth.
    T upper{0};
    /// Lower allowance, E_sni: that of the thinnest permissible tooth. Not above the upper one.
    T lower{0};

    /// Tooth thickness tolerance, T_sn = E_sns - E_sni.
    constexpr T tolerance() const { return T(upper - lower); }
};

/// What is impossible about allowances, or nothing.
template <scalar T>
constexpr violation check(const thickness_allowances<T>& allowances) {
    return first_of(check_finite("upper thickness allowance", allowances.upper),
                    check_at_most("lower thickness allowance", allowances.lower, allowances.upper));
}

/// The same gear with a tooth thickness allowance, E_sn, in place of its own. Throws geometry_error where that makes the gear impossible.
template <scalar T>
constexpr gear<T> with_thickness_allowance(const gear<T>& g, const std::type_identity_t<T>& thickness_allowance) {
    gear_parameters<T> p = g.parameters();
    p.thickness_allowance = thickness_allowance;
    return gear<T>{p};
}

/// Thickness allowance, E_sn, of a gear whose normal tooth thickness at the reference cylinder is s_n:
/// E_sn = s_n - m_n (pi/2 + 2 x tan alpha_n). Accuracy: 8 ulp of the pitch.
template <scalar T>
constexpr T thickness_allowance_of(const gear<T>& g, const std::type_identity_t<T>& normal_tooth_thickness) {
    require(check_finite("normal_tooth_thickness", normal_tooth_thickness));
    return T(g.parameters().thickness_allowance + (normal_tooth_thickness - g.normal_tooth_thickness()));
}

// In all functions below the gear's own thickness allowance does not matter: the limits take its place. They throw geometry_error where
// the measure itself does, for allowances whose lower one is above the upper one, and for limits in the wrong order. Limits of sizes
// are as accurate as the measure; an allowance is as accurate as the thickness that the measure's inverse gives.

/// Limits of any size between the thinnest and the thickest tooth: `measure` takes a gear and returns the size. It must grow all the way with
/// the tooth, or fall all the way.
template <scalar T, class Measure>
constexpr size_limits<T> measure_limits(const gear<T>& g, const thickness_allowances<T>& allowances,
                                        const Measure& measure) {
    require(check(allowances));
    // On external teeth the thinner reads less, between the balls of internal ones it reads more.
    return limits_between(T(measure(with_thickness_allowance(g, allowances.lower))),
                          T(measure(with_thickness_allowance(g, allowances.upper))));
}

/// Thickness allowances that the limits of any size stand for: `thickness_from` takes a size and returns the normal tooth thickness.
template <scalar T, class Inverse>
constexpr thickness_allowances<T> allowances_from_measure(const gear<T>& g, const size_limits<T>& limits,
                                                          const Inverse& thickness_from) {
    require(check(limits));
    const size_limits<T> allowances = limits_between(thickness_allowance_of(g, T(thickness_from(limits.lower))),
                                                     thickness_allowance_of(g, T(thickness_from(limits.upper))));
    return {.upper = allowances.upper, .lower = allowances.lower};
}

/// Limits of the normal tooth thickness at the reference cylinder, s_nsi and s_nss.
template <scalar T>
constexpr size_limits<T> normal_tooth_thickness_limits(const gear<T>& g, const thickness_allowances<T>& allowances) {
    return measure_limits(g, allowances, [](const gear<T>& of) { return of.normal_tooth_thickness(); });
}

/// Limits of the span over a number of teeth, W_ki and W_ks (of an internal gear over a number of spaces).
template <scalar T>
constexpr size_limits<T> span_limits(const gear<T>& g, int teeth_spanned, const thickness_allowances<T>& allowances) {
    return measure_limits(g, allowances, [&](const gear<T>& of) { return span_measurement(of, teeth_spanned); });
}
/// Thickness allowances that the limits of a span stand for.
template <scalar T>
constexpr thickness_allowances<T> allowances_from_span(const gear<T>& g, int teeth_spanned,
                                                       const size_limits<T>& limits) {
    return allowances_from_measure(
        g, limits, [&](const T& size) { return normal_tooth_thickness_from_span(g, teeth_spanned, size); });
}

/// Limits of the dimension over two balls of an external gear.
template <scalar T>
constexpr size_limits<T> dimension_over_balls_limits(const gear<T>& g, const std::type_identity_t<T>& ball_diameter,
                                                     const thickness_allowances<T>& allowances) {
    return measure_limits(g, allowances, [&](const gear<T>& of) { return dimension_over_balls(of, T(ball_diameter)); });
}
/// Limits of the dimension between two balls of an internal gear.
template <scalar T>
constexpr size_limits<T> dimension_between_balls_limits(const gear<T>& g, const std::type_identity_t<T>& ball_diameter,
                                                        const thickness_allowances<T>& allowances) {
    return measure_limits(g, allowances,
                          [&](const gear<T>& of) { return dimension_between_balls(of, T(ball_diameter)); });
}
/// Thickness allowances that the limits of a dimension over two balls (of an internal gear: between two) stand for.
template <scalar T>
constexpr thickness_allowances<T> allowances_from_balls(const gear<T>& g, const std::type_identity_t<T>& ball_diameter,
                                                        const size_limits<T>& limits) {
    return allowances_from_measure(
        g, limits, [&](const T& size) { return normal_tooth_thickness_from_balls(g, T(ball_diameter), size); });
}

/// Limits of the dimension over two pins of an external gear.
template <scalar T>
constexpr size_limits<T> dimension_over_pins_limits(const gear<T>& g, const std::type_identity_t<T>& pin_diameter,
                                                    const thickness_allowances<T>& allowances) {
    return measure_limits(g, allowances, [&](const gear<T>& of) { return dimension_over_pins(of, T(pin_diameter)); });
}
/// Limits of the dimension between two pins of an internal spur gear.
template <scalar T>
constexpr size_limits<T> dimension_between_pins_limits(const gear<T>& g, const std::type_identity_t<T>& pin_diameter,
                                                       const thickness_allowances<T>& allowances) {
    return measure_limits(g, allowances,
                          [&](const gear<T>& of) { return dimension_between_pins(of, T(pin_diameter)); });
}
/// Thickness allowances that the limits of a dimension over two pins (of an internal gear: between two) stand for.
template <scalar T>
constexpr thickness_allowances<T> allowances_from_pins(const gear<T>& g, const std::type_identity_t<T>& pin_diameter,
                                                       const size_limits<T>& limits) {
    return allowances_from_measure(
        g, limits, [&](const T& size) { return normal_tooth_thickness_from_pins(g, T(pin_diameter), size); });
}

/// Limits of the radial dimension over one ball.
template <scalar T>
constexpr size_limits<T> radial_dimension_limits(const gear<T>& g, const std::type_identity_t<T>& ball_diameter,
                                                 const thickness_allowances<T>& allowances) {
    return measure_limits(g, allowances,
                          [&](const gear<T>& of) { return radial_dimension_over_ball(of, T(ball_diameter)); });
}
/// Thickness allowances that the limits of a radial dimension over one ball stand for.
template <scalar T>
constexpr thickness_allowances<T> allowances_from_radial_dimension(const gear<T>& g,
                                                                   const std::type_identity_t<T>& ball_diameter,
                                                                   const size_limits<T>& limits) {
    return allowances_from_measure(g, limits, [&](const T& size) {
        return normal_tooth_thickness_from_radial_dimension(g, T(ball_diameter), size);
    });
}

/// Limits of the chordal thickness at a diameter. (The chordal height there grows a little as the tooth thins, by a tenth or less of
/// the thinning: a caliper left at one height reads a trifle differently.)
template <scalar T>
constexpr size_limits<T> chord_limits(const gear<T>& g, const std::type_identity_t<T>& diameter,
                                      const thickness_allowances<T>& allowances) {
    return measure_limits(g, allowances, [&](const gear<T>& of) { return chord_at(of, T(diameter)).thickness; });
}
/// Thickness allowances that the limits of a chordal thickness at a diameter stand for.
template <scalar T>
constexpr thickness_allowances<T> allowances_from_chord(const gear<T>& g, const std::type_identity_t<T>& diameter,
                                                        const size_limits<T>& limits) {
    return allowances_from_measure(
        g, limits, [&](const T& size) { return normal_tooth_thickness_from_chord(g, T(diameter), size); });
}

/// Limits of the constant chord.
template <scalar T>
constexpr size_limits<T> constant_chord_limits(const gear<T>& g, const thickness_allowances<T>& allowances) {
    return measure_limits(g, allowances, [](const gear<T>& of) { return constant_chord(of).thickness; });
}
/// Thickness allowances that the limits of a constant chord stand for.
template <scalar T>
constexpr thickness_allowances<T> allowances_from_constant_chord(const gear<T>& g, const size_limits<T>& limits) {
    return allowances_from_measure(g, limits,
                                   [&](const T& size) { return normal_tooth_thickness_from_constant_chord(g, size); });
}

/// How a tooth stands to its limits.
enum class thickness_verdict : unsigned char {
    within,    ///< between the limits or on one
    too_thick, ///< above the upper one: more can be cut
    too_thin   ///< below the lower one: nothing can be put back
};

/// How a thickness allowance that was measured stands to its limits. Throws geometry_error for impossible allowances or no number.
template <scalar T>
constexpr thickness_verdict judge_thickness(const T& measured_allowance, const thickness_allowances<T>& allowances) {
    require(first_of(check(allowances), check_finite("measured allowance", measured_allowance)));
    if (measured_allowance > allowances.upper) return thickness_verdict::too_thick;
    if (measured_allowance < allowances.lower) return thickness_verdict::too_thin;
    return thickness_verdict::within;
}

} // namespace rackwork

#endif
