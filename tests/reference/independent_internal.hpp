// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Internal gears and their pairs to fifty digits, in the form that ISO 21771 has for them: the tooth number of an internal gear is negative,
// and so are its diameters and the centre distance. What comes out is made positive at the end.
#pragma once

#include "independent_gear.hpp"
#include "independent_involute.hpp"
#include "independent_number.hpp"

namespace independent {

/// A gear by the formulas of the standard; z < 0 for an internal one.
class signed_gear {
public:
    gear_numbers numbers;
    int z;
    real transverse_pressure_angle;
    real base_helix_angle;
    real d;   ///< reference diameter
    real d_b; ///< base diameter
    real s_t; ///< transverse tooth thickness at the reference cylinder, with the allowance
    real x_E; ///< generating profile shift

    signed_gear(const gear_numbers& n, bool internal) : numbers(n), z(internal ? -n.teeth : n.teeth) {
        const real tangent = tan(n.pressure);
        const real cosine = cos(n.helix);
        transverse_pressure_angle = real(atan(real(tangent / cosine)));
        base_helix_angle = real(asin(real(sin(n.helix) * cos(n.pressure))));
        d = real(z * n.normal_module / cosine);
        d_b = real(d * cos(transverse_pressure_angle));
        x_E = real(n.shift + n.allowance / (2 * n.normal_module * tangent));
        s_t = real(n.normal_module * (pi() / 2 + 2 * x_E * tangent) / cosine);
    }

    real sign() const { return real(z < 0 ? -1 : 1); }
    real d_a() const { return real(d + 2 * numbers.normal_module * (numbers.addendum + numbers.shift + numbers.tip_alteration)); }
    real d_f() const { return real(d - 2 * numbers.normal_module * (numbers.dedendum - numbers.shift)); }
    real d_f_generated() const { return real(d - 2 * numbers.normal_module * (numbers.dedendum - x_E)); }
    /// Pressure angle at a diameter, whose sign does not matter.
    real pressure_angle(const real& at) const { return real(acos(real(abs(d_b) / abs(at)))); }
    /// Tooth thickness at a diameter that has the gear's sign.
    real thickness(const real& at) const {
        return real(at * (s_t / d + inv(transverse_pressure_angle) - inv(pressure_angle(at))));
    }
    /// Half the angle between the flanks at the base circle: their polar angles there, less the tooth's middle. May be negative.
    real base_half_angle() const { return real(sign() * (s_t / d + inv(transverse_pressure_angle))); }
    /// Where the flanks cross: the thickness becomes nothing.
    real pointed_diameter() const {
        return real(d_b / cos(inverse_inv(real(s_t / d + inv(transverse_pressure_angle)))));
    }
    /// Tip diameter, or where the tooth ends in a point before it.
    real d_a_effective() const { return thickness(d_a()) < 0 ? pointed_diameter() : d_a(); }
    /// Angle about the axis per length along it.
    real twist() const { return real(2 * sin(numbers.helix) / (numbers.normal_module * numbers.teeth)); }
};

/// A pair of a pinion and a wheel of either kind.
class signed_pair {
public:
    signed_gear pinion;
    signed_gear wheel;
    real a;                      ///< less than 0 for an internal wheel
    real working_pressure_angle;

    /// Without gap for nominal thicknesses.
    signed_pair(const signed_gear& g1, const signed_gear& g2) : pinion(g1), wheel(g2) {
        a = distance_for(real(g1.numbers.shift + g2.numbers.shift));
        set_angle();
    }
    /// At a centre distance, given as a positive number.
    signed_pair(const signed_gear& g1, const signed_gear& g2, const real& distance) : pinion(g1), wheel(g2) {
        a = real(wheel.sign() * distance);
        set_angle();
    }

    real working_inv(const real& shifts) const {
        return real(inv(pinion.transverse_pressure_angle) + 2 * tan(pinion.numbers.pressure) * shifts / (pinion.z + wheel.z));
    }
    real distance_for(const real& shifts) const {
        const real t = tangent_of_inverse_inv(working_inv(shifts));
        return real((pinion.d_b + wheel.d_b) / 2 * sqrt(real(1 + t * t)));
    }
    real working_diameter_1() const { return real(2 * a * pinion.z / (pinion.z + wheel.z)); }
    real working_diameter_2() const { return real(2 * a * wheel.z / (pinion.z + wheel.z)); }

    /// Distances on the line of action from where it touches the pinion's base circle, of the places where circles about the pinion's and
    /// the wheel's axis meet it. Signs as in the standard: the wheel's half chord counts as negative for an internal wheel.
    real of_pinion_circle(const real& diameter) const { return half_chord(pinion, diameter); }
    real of_wheel_circle(const real& diameter) const { return real(a * sin(working_pressure_angle) - wheel.sign() * half_chord(wheel, diameter)); }
    /// And the diameters at such a place.
    real pinion_diameter_at(const real& s) const { return real(2 * sqrt(real(pinion.d_b * pinion.d_b / 4 + s * s))); }
    real wheel_diameter_at(const real& s) const {
        const real t = real(a * sin(working_pressure_angle) - s);
        return real(2 * sqrt(real(wheel.d_b * wheel.d_b / 4 + t * t)));
    }

    /// Pitch on the working circles less both thicknesses.
    real circumferential_backlash() const {
        const real w1 = working_diameter_1();
        return real(pi() * w1 / pinion.z - thickness_on_working_circle(pinion, w1) - thickness_on_working_circle(wheel, working_diameter_2()));
    }
    real normal_backlash() const {
        return real(circumferential_backlash() * cos(working_pressure_angle) * cos(pinion.base_helix_angle));
    }
    /// How far the centre distance, taken with its sign, lies above that without gap at the real thicknesses.
    real radial_backlash() const { return real(a - distance_for(real(pinion.x_E + wheel.x_E))); }
    bool closes() const { return working_inv(real(pinion.x_E + wheel.x_E)) > 0; }

    real clearance_of_pinion_tip(const real& wheel_root_diameter) const {
        return real(a - pinion.d_a_effective() / 2 - wheel.sign() * wheel_root_diameter / 2);
    }
    real clearance_of_wheel_tip(const real& pinion_root_diameter) const {
        return real(a - wheel.d_a_effective() / 2 - pinion_root_diameter / 2);
    }

private:
    void set_angle() { working_pressure_angle = real(acos(real((pinion.d_b + wheel.d_b) / (2 * a)))); }
    real thickness_on_working_circle(const signed_gear& g, const real& at) const {
        return real(at * (g.s_t / g.d + inv(g.transverse_pressure_angle) - inv(working_pressure_angle)));
    }
    static real half_chord(const signed_gear& g, const real& diameter) {
        const real square = real(diameter * diameter - g.d_b * g.d_b);
        return square > 0 ? real(sqrt(square) / 2) : real(0);
    }
};

} // namespace independent
