// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// One gear to fifty digits, made from the planes of the rack's teeth and from involutes as curves.
#pragma once

#include "independent_involute.hpp"
#include "independent_number.hpp"

#include <type_traits>

namespace independent {

/// The numbers that define a gear; angles in radians.
struct gear_numbers {
    real normal_module;
    int teeth = 0;
    real helix;
    real pressure;
    real addendum;
    real dedendum;
    real fillet;
    real shift;
    real tip_alteration;
    real allowance;
    real face_width;
};

/// The rack in the normal section, in lengths: u along its datum line from the middle of a tooth of the tool, depth below that line
/// towards the gear.
struct normal_rack {
    real half_tooth;           ///< half the tool's tooth on the datum line
    real fillet_centre_offset; ///< u of the centre of the tip rounding
    real fillet_centre_depth;
    real flank_end_offset; ///< u at the end of the straight flank
    real flank_end_depth;

    explicit normal_rack(const gear_numbers& n) {
        const real m = n.normal_module;
        const real c = real(cos(n.pressure));
        const real s = real(sin(n.pressure));
        const real r = real(n.fillet * m);
        half_tooth = real(pi() * m / 4);
        // The flank runs from (half_tooth, 0) in the direction (-s, c); its inward normal is (-c, -s) in (u, depth).
        // The centre is as far from it as from the tip line.
        fillet_centre_depth = real(n.dedendum * m - r);
        fillet_centre_offset = real(half_tooth - (r + fillet_centre_depth * s) / c);
        flank_end_offset = real(fillet_centre_offset + r * c);
        flank_end_depth = real(fillet_centre_depth + r * s);
    }
};

class gear {
public:
    gear_numbers numbers;
    real transverse_pressure_angle;
    real base_helix_angle;
    real normal_pitch;
    real transverse_pitch;
    real reference_radius;
    real base_radius;
    real normal_thickness;    ///< on the reference cylinder, with the allowance
    real generating_distance; ///< of the tool's datum line from its rolling line, x_E m_n
    real tooth_half_angle;    ///< of the tooth at the base circle
    real space_half_angle;    ///< of the space at the base circle

    explicit gear(const gear_numbers& n) : numbers(n) {
        // The pitch plane: x along the rolling direction, y outward, z along the gear's axis.
        const vector3<> across{real(cos(n.helix)), real(0), real(-sin(n.helix))};
        const vector3<> trace{real(sin(n.helix)), real(0), real(cos(n.helix))};
        const vector3<> outward{real(0), real(1), real(0)};
        const vector3<> axis{real(0), real(0), real(1)};
        const vector3<> up_the_flank = real(sin(n.pressure)) * across + real(cos(n.pressure)) * outward;
        const vector3<> flank_normal = cross(trace, up_the_flank);
        const vector3<> transverse_line = unit(cross(flank_normal, axis));
        transverse_pressure_angle = real(atan2(abs(transverse_line.x), abs(transverse_line.y)));
        // The flank's normal lies in the plane of action; its slope to the transverse section is the base helix.
        base_helix_angle = real(atan2(flank_normal.z, radius(flank_normal)));
        if ((base_helix_angle < 0) != (n.helix < 0)) base_helix_angle = real(-base_helix_angle);

        normal_pitch = real(pi() * n.normal_module);
        transverse_pitch = real(normal_pitch / across.x);
        reference_radius = real(transverse_pitch * n.teeth / (2 * pi()));
        // The line of action goes through the pitch point, square to the flank; the base circle touches it.
        const vector3<> line_of_action{transverse_line.y, real(-transverse_line.x), real(0)};
        base_radius = real(abs(cross(line_of_action, vector3<>{real(0), reference_radius, real(0)}).z));

        const real slope = real(sin(n.pressure) / cos(n.pressure));
        const real nominal = real(2 * (normal_rack(n).half_tooth + n.shift * n.normal_module * slope));
        normal_thickness = real(nominal + n.allowance);
        generating_distance = real((normal_thickness / 2 - normal_rack(n).half_tooth) / slope);

        const real half_arc = real(normal_thickness / across.x / 2);
        tooth_half_angle = real(half_arc / reference_radius + flank_turn(reference_radius));
        space_half_angle = real(pi() / n.teeth - tooth_half_angle);
    }

    /// Angle by which the involute has run round the axis on its way from the base circle to a radius.
    real flank_turn(const real& at_radius) const {
        return polar_angle(involute_point(base_radius, unwound_to(base_radius, at_radius)));
    }
    real nominal_normal_thickness() const { return real(normal_thickness - numbers.allowance); }

    real tip_radius() const {
        const gear_numbers& n = numbers;
        return real(reference_radius + n.normal_module * (n.addendum + n.shift + n.tip_alteration));
    }
    real root_radius() const {
        return real(reference_radius - numbers.normal_module * (numbers.dedendum - numbers.shift));
    }
    real generated_root_radius() const {
        return real(reference_radius + generating_distance - numbers.normal_module * numbers.dedendum);
    }

    /// Angle between the radius and the flank's tangent at a diameter.
    real pressure_angle(const real& diameter) const {
        const real t = unwound_to(base_radius, real(diameter / 2));
        const vector3<> p = involute_point(base_radius, t);
        const vector3<> tangent{real(cos(t)), real(sin(t)), real(0)};
        return real(atan2(abs(cross(p, tangent).z), dot(p, tangent)));
    }
    /// Angle about the axis per length along it; 0 for spur gears.
    real twist() const { return real(2 * pi() * sin(numbers.helix) / (numbers.teeth * normal_pitch)); }
    real helix_angle(const real& diameter) const { return real(atan(real(twist() * diameter / 2))); }

    real tooth_thickness(const real& diameter) const {
        return real(diameter * (tooth_half_angle - flank_turn(real(diameter / 2))));
    }
    real pointed_tip_radius() const {
        // The flank, turned so that the tooth is centred on the x axis, crosses that axis.
        const auto height = [&](const auto& t) {
            using R = std::decay_t<decltype(t)>;
            return turned(involute_point(R(1), t), R(-static_cast<R>(tooth_half_angle))).y;
        };
        return radius(involute_point(base_radius, searched_root_between(height, real(0), real(4))));
    }
    real effective_tip_radius() const {
        return tooth_thickness(real(2 * tip_radius())) < 0 ? pointed_tip_radius() : tip_radius();
    }
};

/// The same gear with another normal tooth thickness at the reference cylinder.
inline gear with_thickness(const gear& g, const real& normal_thickness) {
    gear_numbers n = g.numbers;
    n.allowance = real(normal_thickness - g.nominal_normal_thickness());
    return gear(n);
}

} // namespace independent
