// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The basic rack tooth profile that generates a gear, and the proportions of the common standards.
#ifndef RACKWORK_BASIC_RACK_HPP
#define RACKWORK_BASIC_RACK_HPP

#include "core/angle.hpp"
#include "core/elementary.hpp"
#include "core/error.hpp"
#include "core/scalar.hpp"

namespace rackwork {

/// Basic rack tooth profile: the teeth of a gear with infinitely many of them, in the normal section. All lengths are factors of
/// the normal module. On its datum line tooth and space are equally wide.
template <scalar T = double>
struct basic_rack {
    /// Normal pressure angle, alpha_P; between 0 and 90 degrees, exclusive.
    angle<T> pressure_angle = deg(T(20));
    /// Addendum factor, h_aP*: datum line to tip line. Greater than 0.
    T addendum{1};
    /// Dedendum factor, h_fP*: datum line to root line. Greater than 0.
    T dedendum{T(5) / T(4)};
    /// Root fillet radius factor, rho_fP*: the rounding of the tool's tip corner. 0 is a sharp corner.
    T root_fillet_radius{T(19) / T(50)};

    /// Form dedendum factor, h_FfP*: datum line to the end of the straight flank, where the root fillet begins.
    /// h_FfP* = h_fP* - rho_fP* (1 - sin alpha_P).
    constexpr T form_dedendum() const { return T(dedendum - root_fillet_radius * (T(1) - sin(pressure_angle))); }

    /// Half the width of the flat at the root line between its two fillets, as a factor: half the tip land of the tool.
    /// pi/4 - h_fP* tan alpha_P - rho_fP* (1 - sin alpha_P) / cos alpha_P. Zero for a full-radius root.
    constexpr T half_root_land() const {
        return T(pi<T>() / T(4) - dedendum * tan(pressure_angle) -
                 root_fillet_radius * ((T(1) - sin(pressure_angle)) / cos(pressure_angle)));
    }

    /// Half the width of the rack's own tip land, as a factor: pi/4 - h_aP* tan alpha_P.
    constexpr T half_tip_land() const { return T(pi<T>() / T(4) - addendum * tan(pressure_angle)); }

    friend constexpr bool operator==(const basic_rack& a, const basic_rack& b) {
        return a.pressure_angle == b.pressure_angle && a.addendum == b.addendum && a.dedendum == b.dedendum &&
               a.root_fillet_radius == b.root_fillet_radius;
    }
};

/// Largest root fillet radius factor for which the tool's tip still has a land of no less than zero width.
/// (pi/4 - h_fP* tan alpha_P) (1 + sin alpha_P) / cos alpha_P.
template <scalar T>
constexpr T full_root_fillet_radius(const angle<T>& pressure_angle, const T& dedendum) {
    return T((pi<T>() / T(4) - dedendum * tan(pressure_angle)) * (T(1) + sin(pressure_angle)) / cos(pressure_angle));
}

namespace detail {

/// What makes a basic rack impossible, or nothing, by its pressure angle's tangent. A root stands for the angle's other functions:
/// (1 + sin)/cos = 1/cos + tan.
template <scalar T>
constexpr violation check_one_by_one(const basic_rack<T>& rack, const T& tangent) {
    const T degrees = rack.pressure_angle.deg();
    if (const violation v = first_of(check_greater("pressure_angle (deg)", degrees, T(0)),
                                     check_less("pressure_angle (deg)", degrees, T(90)),
                                     // Below, squares of what is divided by its sine could overflow.
                                     check_at_least("pressure_angle (deg)", degrees, elementary::sqrt(epsilon<T>())),
                                     check_greater("addendum", rack.addendum, T(0)),
                                     check_greater("dedendum", rack.dedendum, T(0)),
                                     check_at_least("root_fillet_radius", rack.root_fillet_radius, T(0)))) {
        return v;
    }
    const T secant = elementary::sqrt(T(T(1) + square(tangent)));
    const T quarter_pitch = pi<T>() / T(4);
    const T full_radius = (quarter_pitch - rack.dedendum * tangent) * (secant + tangent);
    const T form_dedendum = rack.dedendum - rack.root_fillet_radius * (T(1) - tangent / secant);
    return first_of(check_at_most("addendum", rack.addendum, T(quarter_pitch / tangent)),
                    check_at_most("dedendum", rack.dedendum, T(quarter_pitch / tangent)),
                    // A few roundings are given away so that a full radius computed by the function above passes.
                    check_at_most("root_fillet_radius", rack.root_fillet_radius,
                                  larger(T(full_radius * (T(1) + T(16) * epsilon<T>())),
                                         T(0))), // a space that comes to a point may still have a sharp corner
                    check_greater("form_dedendum", form_dedendum, T(-rack.addendum)));
}

/// True for racks so ordinary that check_one_by_one has nothing against them: a short way past it, because racks are checked with every gear.
/// The limits lie within those of the checks by more than rounding; 1/cos is no less than 1.
template <scalar T>
constexpr bool is_ordinary(const basic_rack<T>& rack, const T& tangent) {
    const T most = T(25) / T(32); // of pi/4 = 0.785
    const T radians = rack.pressure_angle.rad();
    return T(1) / T(64) < radians && radians < T(3) / T(2) && T(0) < rack.addendum && rack.addendum * tangent < most &&
           T(0) < rack.dedendum && rack.dedendum * tangent < most && T(0) <= rack.root_fillet_radius &&
           rack.root_fillet_radius <= rack.dedendum &&
           rack.root_fillet_radius < (most - rack.dedendum * tangent) * (T(1) + tangent);
}

/// What makes a basic rack impossible, or nothing, by its pressure angle's tangent, which a gear needs as well.
template <scalar T>
constexpr violation check(const basic_rack<T>& rack, const T& tangent) {
    if (is_ordinary(rack, tangent)) return {};
    return check_one_by_one(rack, tangent);
}

} // namespace detail

/// What makes a basic rack impossible, or nothing.
template <scalar T>
constexpr violation check(const basic_rack<T>& rack) {
    const T degrees = rack.pressure_angle.deg();
    const bool has_tangent = T(0) < degrees && degrees < T(90);
    return detail::check(rack, has_tangent ? tan(rack.pressure_angle) : T(0));
}

/// A standard's proportions as the decimals that it prints. Converts to the basic rack of any scalar type, to its last place.
struct standard_rack {
    int pressure_angle_in_thousandths_of_a_degree;
    int addendum_in_thousandths;
    int dedendum_in_thousandths;
    int root_fillet_radius_in_thousandths;

    template <scalar T>
    constexpr operator basic_rack<T>() const {
        return {.pressure_angle = deg(T(T(pressure_angle_in_thousandths_of_a_degree) / T(1000))),
                .addendum = T(addendum_in_thousandths) / T(1000),
                .dedendum = T(dedendum_in_thousandths) / T(1000),
                .root_fillet_radius = T(root_fillet_radius_in_thousandths) / T(1000)};
    }
};

/// ISO 53:1998 profiles A to D: 20 degrees, addendum 1. A for gears that transmit high torque, B and C for normal service,
/// D for teeth whose flanks are finished by grinding or shaving.
inline constexpr standard_rack iso_53_a{20000, 1000, 1250, 380};
inline constexpr standard_rack iso_53_b{20000, 1000, 1250, 300};
inline constexpr standard_rack iso_53_c{20000, 1000, 1250, 250};
inline constexpr standard_rack iso_53_d{20000, 1000, 1400, 390};

/// ANSI B6.1 coarse-pitch full-depth teeth, 20 and 25 degrees (factors of 1/P).
inline constexpr standard_rack ansi_b6_1_coarse_20{20000, 1000, 1250, 300};
inline constexpr standard_rack ansi_b6_1_coarse_25{25000, 1000, 1250, 300};
/// The older American standard's 14.5 degree full-depth and 20 degree stub teeth (factors of 1/P).
inline constexpr standard_rack asa_b6_1_full_depth_14_5{14500, 1000, 1157, 209};
inline constexpr standard_rack asa_b6_1_stub_20{20000, 800, 1000, 300};

/// ANSI B6.7 fine-pitch 20 degree teeth: dedendum 1.2/P + 0.002 in, so the factor depends on the diametral pitch P (per inch).
/// The standard gives no fillet radius; the tool's tip corner is taken as sharp. Throws geometry_error unless P > 0.
template <scalar T>
constexpr basic_rack<T> ansi_b6_7_fine_20(const T& diametral_pitch) {
    require(check_greater("diametral_pitch", diametral_pitch, T(0)));
    return {.pressure_angle = deg(T(20)),
            .addendum = T(1),
            .dedendum = T(6) / T(5) + diametral_pitch / T(500),
            .root_fillet_radius = T(0)};
}

/// Module in inches from a diametral pitch P (teeth per inch of reference diameter): m = 1/P. Throws unless P > 0.
template <scalar T>
constexpr T module_from_diametral_pitch(const T& diametral_pitch) {
    require(check_greater("diametral_pitch", diametral_pitch, T(0)));
    const T module = T(1) / diametral_pitch;
    require(check_greater("module", module, T(0)));
    return module;
}

/// Module in millimetres from a diametral pitch P (per inch): m = 25.4/P. Throws unless P > 0.
template <scalar T>
constexpr T module_in_millimetres_from_diametral_pitch(const T& diametral_pitch) {
    require(check_greater("diametral_pitch", diametral_pitch, T(0)));
    const T module = T(127) / (T(5) * diametral_pitch);
    require(check_greater("module", module, T(0)));
    return module;
}

} // namespace rackwork

#endif
