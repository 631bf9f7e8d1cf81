// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The caliper's chord to fifty digits as the least distance of two helices, and the constant chord as a foot on the rack's flank.
#pragma once

#include "independent_gear.hpp"
#include "independent_number.hpp"

namespace independent {

struct chord {
    real thickness;
    real height;
};

/// The flanks' lines on a cylinder, and their distance when the second point is `moved` (in radii) along the axis from the first.
struct two_helices {
    real at_radius;
    real between; ///< angle from flank to flank in one section
    real slope;   ///< tangent of the helix angle there

    template <class R>
    vector3<R> from_first_to_second(const R& moved) const {
        const R r = static_cast<R>(at_radius);
        const vector3<R> first{r, R(0), R(0)};
        vector3<R> second = turned(first, R(static_cast<R>(between) - static_cast<R>(slope) * moved));
        second.z = R(r * moved);
        return second - first;
    }
    /// Along the second line.
    vector3<> direction(const real& moved) const {
        const vector3<> at = turned(vector3<>{at_radius, real(0), real(0)}, real(between - slope * moved));
        return {real(slope * at.y), real(-slope * at.x), at_radius};
    }
};

inline chord chord_at(const gear& g, const real& diameter) {
    const real r = real(diameter / 2);
    const two_helices flanks{r, real(2 * g.tooth_thickness(diameter) / diameter), real(abs(tan(g.helix_angle(diameter))))};
    real moved = 0;
    if (flanks.slope != 0) {
        // The nearest point lies no further along the axis than the one that has gone round the tooth.
        const real reach = real(flanks.between / (flanks.slope > real("0.001") ? flanks.slope : real("0.001")));
        const auto square = [&](const auto& z) {
            const auto apart = flanks.from_first_to_second(z);
            return decltype(apart.x)(dot(apart, apart));
        };
        const real least = place_of_minimum(square, real(-reach / 8), reach);
        // There the chord is square to both lines, which fixes its place to all digits.
        const auto lean = [&](const real& z) {
            return real(dot(flanks.from_first_to_second(z), flanks.direction(z)) / (r * r));
        };
        moved = root_near(lean, least, reach);
    }
    const vector3<> apart = flanks.from_first_to_second(moved);
    const vector3<> middle = vector3<>{r, real(0), real(0)} + real(real(1) / 2) * apart;
    return {length(apart), real(g.effective_tip_radius() - radius(middle))};
}

/// In the normal section: the rack's flank through (s_n/2, 0), leaning towards the tooth's middle on the way up; the perpendicular on it
/// from the middle of the tooth on the rolling line has its foot where rack and flank touch.
struct constant_chord_geometry {
    real half_thickness;
    real height_over_reference;

    explicit constant_chord_geometry(const gear& g) {
        const vector3<> start{real(g.normal_thickness / 2), real(0), real(0)};
        const vector3<> up{real(-sin(g.numbers.pressure)), real(cos(g.numbers.pressure)), real(0)};
        const vector3<> foot = start - dot(start, up) * up;
        half_thickness = foot.x;
        height_over_reference = foot.y;
    }
};

inline chord constant_chord(const gear& g) {
    const constant_chord_geometry c(g);
    return {real(2 * c.half_thickness), real(g.effective_tip_radius() - g.reference_radius - c.height_over_reference)};
}

/// The foot as a point of space: its lateral distance lies square to the tooth trace.
inline vector3<> constant_chord_end(const gear& g) {
    const constant_chord_geometry c(g);
    return {real(g.reference_radius + c.height_over_reference), real(c.half_thickness * cos(g.numbers.helix)),
            real(-c.half_thickness * sin(g.numbers.helix))};
}

} // namespace independent
