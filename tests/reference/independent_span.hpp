// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The flank as an involute helicoid, and the span as the distance of two parallel planes that touch opposite flanks.
#pragma once

#include "independent_gear.hpp"
#include "independent_number.hpp"

namespace independent {

/// One flank in space: the involute that begins at the polar angle `start` and unwinds counter-clockwise (`sense` = 1) or
/// clockwise (-1), turned along the axis by `twist` per length.
template <class R>
struct helicoid {
    R base_radius;
    R start;
    R twist;
    R sense;

    vector3<R> point(const R& t, const R& z) const { return at(t, z).point; }
    /// Unit normal, on the side of the decreasing polar angle for sense 1, of the increasing for -1: into the space, when the tooth
    /// lies on the other side.
    vector3<R> normal(const R& t, const R& z) const { return at(t, z).normal; }

    /// Both, as they share most of what there is to compute.
    struct place {
        vector3<R> point;
        vector3<R> normal;
    };
    place at(const R& t, const R& z) const {
        // Along the involute; without its length, which vanishes at the base circle.
        const sine_and_cosine<R> unwound(t);
        const sine_and_cosine<R> turn(R(start + twist * z));
        const vector3<R> along = turned(vector3<R>{unwound.cosine, R(sense * unwound.sine), R(0)}, turn);
        vector3<R> p = involute_point(base_radius, t, unwound);
        p.y *= sense;
        p = turned(p, turn);
        p.z = z;
        const vector3<R> up{R(-twist * p.y), R(twist * p.x), R(1)};
        return {p, unit(R(sense) * cross(along, up))}; // for t = 0 at the angle 0 the normal is -sense y
    }
};

/// Two parallel planes that touch the outer flanks of neighbouring teeth.
struct span {
    real distance;
    real contact_radius;
    real height_of_contacts; ///< difference of the two contacts along the axis
};

inline span span_over(const gear& g, int teeth) {
    const real half = real(g.tooth_half_angle + (teeth - 1) * pi() / g.numbers.teeth);
    // Centred on the x axis: the upper flank's involute runs clockwise from the angle `half`.
    const helicoid<real> upper{g.base_radius, half, g.twist(), real(-1)};
    const helicoid<real> lower{g.base_radius, real(-half), g.twist(), real(1)};
    // In the section z = 0 the tangent planes that are parallel contain the x direction there.
    const auto tilt = [&](const real& t) { return real(sin(half - t)); }; // y of the upper involute's direction
    const real t = root_between(tilt, real(half - 1), real(half + real("1.25")));
    const auto [a, n] = upper.at(t, real(0));
    const auto [b, opposite] = lower.at(t, real(0));
    if (length(n + opposite) > real("1e-45")) throw no_reference("the planes are not parallel");
    // Each plane touches along a straight line; the anvils meet them where one plane's normal hits both lines.
    const vector3<> line = unit(cross(n, vector3<>{real(1), real(0), real(0)}));
    const real shift = real(dot(b - a, line) / 2);
    const vector3<> contact = a + shift * line;
    const vector3<> other = b - shift * line;
    return {real(abs(dot(a - b, n))), radius(contact), real(abs(contact.z - other.z))};
}

} // namespace independent
