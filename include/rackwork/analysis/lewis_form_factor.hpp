// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The Lewis form factor: the parabola of uniform strength that fits into the tooth.
#ifndef RACKWORK_ANALYSIS_LEWIS_FORM_FACTOR_HPP
#define RACKWORK_ANALYSIS_LEWIS_FORM_FACTOR_HPP

#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "virtual_spur_gear.hpp"

namespace rackwork {

/// The section of a tooth in which the Lewis parabola touches its outline. Lengths in the module's unit.
template <scalar T>
struct lewis_section {
    T normal_module;
    /// Width of the tooth at the touching points, s.
    T chord;
    /// From the section to the parabola's vertex, h.
    T arm;
    /// True when the parabola touches the involute flank and not the fillet (many teeth).
    bool on_flank;

    /// Lewis form factor, Y = s^2 / (6 h m_n). The tables' other form is y = Y/pi.
    constexpr T form_factor() const { return T(square(chord) / (T(6) * arm * normal_module)); }
};

/// Lewis section of a gear with the load at the tip. The load's line, square to the flank at the tip's edge, crosses the
/// tooth's centre line in the vertex of a parabola with that line as its axis; the parabola that fits into the tooth touches it
/// in the weakest section. As the older texts do, all of the load counts as bending, and no stress rise at the fillet. The
/// fillet is the exact one; helical gears through their virtual spur gear (the older texts use z/cos^3 beta, which is nearly
/// the same number).
///
/// Against the printed tables, which were drawn and whose fillets are larger: 1 to 8 % below that of 20 degrees. From some 150
/// teeth on it is the flank that is touched, where the old layouts kept to the root; the printed 0.485 of the rack is the
/// section there, 0.463 the inscribed one.
///
/// Geometry only: rating is for ISO 6336 or the code in force, in licensed hands.
/// Throws geometry_error where no parabola from there touches fillet or flank: stub teeth whose load crosses the tooth's middle
/// near its root.
/// Accuracy for double: lengths 4 ulp of the virtual reference diameter.
template <scalar T>
constexpr lewis_section<T> lewis_section_under_tip_load(const gear<T>& g) {
    using place = typename virtual_spur_gear<T>::place;
    const virtual_spur_gear<T> v(g);
    const T tip_roll = v.roll_angle(v.tip_diameter());
    const T vertex = v.base_diameter() / (T(2) * elementary::cos(T(tip_roll - v.base_half_angle())));
    // A parabola's tangent meets its axis as far beyond the vertex as the touching point lies before it:
    // half chord = 2 h tan(inclination). Written without the tangent, which is infinite at the root land.
    const auto beyond = [&](const place& p) {
        return T(p.half_chord * elementary::cos(p.inclination) -
                 T(2) * (vertex - p.height) * elementary::sin(p.inclination));
    };
    const auto slope = [&](const place& p) {
        const T sine = elementary::sin(p.inclination);
        const T cosine = elementary::cos(p.inclination);
        return T(p.speed * sine * cosine -
                 (p.half_chord * sine + T(2) * (vertex - p.height) * cosine) * p.inclination_rate);
    };
    const auto touching = [&](const auto& at, const T& lower, const T& upper) {
        const T found = bracketed_root([&](const T& t) { return beyond(at(t)); }, lower, upper);
        const place p = at(found);
        return at(T(found - beyond(p) / slope(p))); // Newton's step carries derivatives through the search
    };
    const auto section = [&](const place& p, bool on_flank) {
        return lewis_section<T>{v.normal_module(), T(T(2) * p.half_chord), T(vertex - p.height), on_flank};
    };
    const auto on_fillet = [&](const T& phi) { return v.on_fillet(phi); };
    const auto on_involute = [&](const T& roll) { return v.on_involute(roll); };

    const T last = v.last_parameter();
    require(check_at_most("what the root land lies outside the Lewis parabola", beyond(v.on_fillet(T(0))), T(0)));
    if (beyond(v.on_fillet(last)) >= T(0)) return section(touching(on_fillet, T(0), last), false);
    // A pointed tooth's load crosses the middle in the point, and beside that no parabola fits between the flanks.
    require(check_greater("half the angle of the tip land (rad)", g.tip_land_half_angle(), T(0)));
    // The involute begins where the fillet ends: no undercut tooth comes here, its fillet's inclination is too small there.
    const T first_roll = v.on_fillet(last).inclination + v.base_half_angle();
    return section(touching(on_involute, first_roll, tip_roll), true);
}

/// Lewis form factor, Y, with the load at the tip: see lewis_section_under_tip_load.
template <scalar T>
constexpr T lewis_form_factor(const gear<T>& g) {
    return lewis_section_under_tip_load(g).form_factor();
}

} // namespace rackwork

#endif
