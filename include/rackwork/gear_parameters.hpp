// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The numbers that define one gear.
#ifndef RACKWORK_GEAR_PARAMETERS_HPP
#define RACKWORK_GEAR_PARAMETERS_HPP

#include "basic_rack.hpp"
#include "core/angle.hpp"
#include "core/error.hpp"
#include "core/scalar.hpp"

namespace rackwork {

/// On which side of its rim a gear has its teeth.
enum class gear_kind : unsigned char {
    external, ///< teeth outward
    internal  ///< teeth inward: a ring. Its tip circle is smaller than its root circle.
};

/// The numbers that define one cylindrical gear, for designated initialisers. Lengths are in one unit of the caller's choice, the
/// module's; factors and coefficients are multiples of the normal module.
template <scalar T = double>
struct gear_parameters {
    /// Normal module, m_n. Greater than 0; must be given.
    T normal_module{0};
    /// Number of teeth, z. At least 1; must be given.
    int teeth = 0;
    /// External or internal. An internal gear's teeth and diameters are positive numbers all the same.
    gear_kind kind = gear_kind::external;
    /// Helix angle at the reference cylinder, beta. Right hand positive, left hand negative, 0 for a spur gear; between -90 and 90
    /// degrees, exclusive.
    angle<T> helix_angle{};
    /// The basic rack that generates the gear.
    basic_rack<T> rack = iso_53_a;
    /// Profile shift coefficient, x. Positive thickens the tooth and lengthens its addendum; so, on an internal gear, it makes the tip
    /// and root circles smaller. (Many handbooks give internal gears the opposite sign.)
    T profile_shift{0};
    /// Tip alteration coefficient, k. Negative shortens the tip.
    T tip_alteration{0};
    /// Tooth thickness allowance, E_sn: a length in the normal section, at the reference cylinder. Negative thins the tooth.
    T thickness_allowance{0};
    /// Face width, b. 0 where it is not stated; then nothing that depends on it can be asked for.
    T face_width{0};
    /// Height of the chamfer on the tip edges, h_K: a length, radially from where the involute ends to the tip circle. 0 for sharp edges.
    T tip_chamfer{0};
    /// Pressure angle of the chamfer at the reference cylinder, normal section, alpha_K: the chamfer is an involute, as a semi-topping tool
    /// generates it. Greater than the flank's.
    angle<T> tip_chamfer_angle = deg(T(45));
    /// Radius of the rounding of the tip edges in the transverse section, rho_a: a length. 0 for sharp edges; not together with a chamfer.
    T tip_rounding{0};
};

namespace detail {

/// What makes the parameters of a gear impossible taken one by one, or nothing.
template <scalar T>
constexpr violation check_one_by_one(const gear_parameters<T>& p, const T& tangent) {
    // The squares of diameters must neither overflow nor underflow.
    // Coefficients beyond 1/epsilon would swallow the rack's own proportions.
    const T greatest_coefficient = T(T(1) / epsilon<T>());
    const T least_module = T(elementary::sqrt(T((std::numeric_limits<T>::min)())) / epsilon<T>());
    const T greatest_module = T(elementary::sqrt(T((std::numeric_limits<T>::max)())) * epsilon<T>());
    if (const violation v = first_of(
            check_greater("normal_module", p.normal_module, T(0)),
            check_at_least("normal_module", p.normal_module, least_module),
            check_at_most("normal_module", p.normal_module, greatest_module),
            check_at_least("teeth", T(p.teeth), T(1)), check_at_most("kind", T(static_cast<int>(p.kind)), T(1)),
            check_greater("helix_angle (deg)", p.helix_angle.deg(), T(-90)),
            check_less("helix_angle (deg)", p.helix_angle.deg(), T(90)), detail::check(p.rack, tangent),
            check_magnitude("profile_shift", p.profile_shift, greatest_coefficient),
            check_magnitude("tip_alteration", p.tip_alteration, greatest_coefficient),
            check_finite("thickness_allowance", p.thickness_allowance),
            check_at_least("face_width", p.face_width, T(0)), check_at_least("tip_chamfer", p.tip_chamfer, T(0)),
            check_at_least("tip_rounding", p.tip_rounding, T(0)))) {
        return v;
    }
    if (p.tip_chamfer > T(0)) {
        return first_of(check_greater("tip_chamfer_angle (deg)", p.tip_chamfer_angle.deg(), p.rack.pressure_angle.deg()),
                        check_less("tip_chamfer_angle (deg)", p.tip_chamfer_angle.deg(), T(90)),
                        check_at_most("tip_rounding, beside a chamfer,", p.tip_rounding, T(0)));
    }
    return {};
}

/// True for parameters so ordinary that check_one_by_one has nothing against them: a short way past it.
template <scalar T>
constexpr bool is_ordinary(const gear_parameters<T>& p, const T& tangent) {
    const T many = T(1024);
    const auto moderate = [&](const T& value) { return -many < value && value < many; };
    return T(1) / many < p.normal_module && p.normal_module < many && p.teeth >= 1 &&
           (p.kind == gear_kind::external || p.kind == gear_kind::internal) && T(-3) / T(2) < p.helix_angle.rad() &&
           p.helix_angle.rad() < T(3) / T(2) && moderate(p.profile_shift) && moderate(p.tip_alteration) &&
           moderate(p.thickness_allowance) && T(0) <= p.face_width && moderate(p.face_width) && p.tip_chamfer == T(0) &&
           p.tip_rounding == T(0) && is_ordinary(p.rack, tangent);
}

/// check_each for callers who have the tangent of the pressure angle already.
template <scalar T>
constexpr violation check_each(const gear_parameters<T>& p, const T& tangent) {
    if (is_ordinary(p, tangent)) return {};
    return check_one_by_one(p, tangent);
}

} // namespace detail

/// What makes the parameters of a gear impossible taken one by one, or nothing. (check in gear.hpp also looks at what follows from
/// them together.)
template <scalar T>
constexpr violation check_each(const gear_parameters<T>& p) {
    const T degrees = p.rack.pressure_angle.deg();
    const bool has_tangent = T(0) < degrees && degrees < T(90);
    return detail::check_each(p, has_tangent ? tan(p.rack.pressure_angle) : T(0));
}

} // namespace rackwork

#endif
