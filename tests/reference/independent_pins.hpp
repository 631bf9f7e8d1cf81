// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Pins and balls to fifty digits: a ball as far from one helicoid as from the other; pins as skew cylinders between flat anvils.
#pragma once

#include "independent_gear.hpp"
#include "independent_number.hpp"
#include "independent_span.hpp"

#include <optional>

namespace independent {

/// A ball in a space that is centred on the x axis, its centre in the section z = 0.
struct ball {
    real diameter;
    real centre_radius;
    real contact_radius;
    real unwound; ///< the involute's parameter at the contact; negative on the branch that is no flank
};

/// The upper flank of the space; by a half turn about the x axis the lower one follows, so a ball centred on that axis and tangent to
/// this flank touches both.
template <class R>
helicoid<R> upper_flank_of_space(const gear& g) {
    return {static_cast<R>(g.base_radius), static_cast<R>(g.space_half_angle), static_cast<R>(g.twist()), R(1)};
}

namespace detail {
template <class R>
bool touch_with_ball(const gear& g, const real& diameter, std::array<R, 2>& x, const R& longest, int steps) {
    const helicoid<R> flank = upper_flank_of_space<R>(g);
    const R half = R(static_cast<R>(diameter) / 2);
    const R size = static_cast<R>(g.base_radius);
    const auto off_axis = [&](const std::array<R, 2>& at) {
        const R z = R(at[1] * size);
        const auto [point, normal] = flank.at(at[0], z);
        const vector3<R> centre = point + half * normal;
        return std::array<R, 2>{R(centre.y / size), R(centre.z / size)};
    };
    return newton<2, R>(off_axis, x, {R(1), R(1)}, longest, steps);
}
/// The ball's radius and axial place, in base radii, from where its contact is.
template <class R>
bool touch_at(const gear& g, const R& t, std::array<R, 2>& x) {
    const helicoid<R> flank = upper_flank_of_space<R>(g);
    const R size = flank.base_radius;
    const auto off_axis = [&](const std::array<R, 2>& at) {
        const auto [point, normal] = flank.at(t, R(at[1] * size));
        const vector3<R> centre = point + R(at[0] * size) * normal;
        return std::array<R, 2>{R(centre.y / size), R(centre.z / size)};
    };
    return newton<2, R>(off_axis, x, {R(1) / 10, R(1) / 10}, R(1), 100);
}
} // namespace detail

/// The ball of a diameter; nothing where Newton's method finds none.
inline std::optional<ball> ball_in_space(const gear& g, const real& diameter) {
    for (const long double start : {0.4L, 0.8L, 0.15L, 1.5L, 2.5L}) {
        std::array<long double, 2> rough{start, 0.0L};
        if (!detail::touch_with_ball<long double>(g, diameter, rough, 0.2L, 200)) continue;
        std::array<real, 2> x{real(rough[0]), real(rough[1])};
        if (!detail::touch_with_ball<real>(g, diameter, x, real(1), 20)) continue;
        const helicoid<real> flank = upper_flank_of_space<real>(g);
        const real z = real(x[1] * g.base_radius);
        const auto [point, normal] = flank.at(x[0], z);
        const vector3<> centre = point + real(diameter / 2) * normal;
        if (centre.x <= 0) continue;
        return ball{diameter, centre.x, radius(point), x[0]};
    }
    return std::nullopt;
}

/// The ball that touches at a radius: along the flank's normal from there to the middle of the space. Nothing where the normal does not
/// get there, as in the wide open space of few spur teeth.
inline std::optional<ball> ball_touching_at(const gear& g, const real& contact_radius) {
    const helicoid<real> flank = upper_flank_of_space<real>(g);
    const real t = unwound_to(g.base_radius, contact_radius);
    const real size = g.base_radius;
    std::array<real, 2> x{real(g.normal_pitch / size / 4), real(0)};
    std::array<long double, 2> rough{static_cast<long double>(x[0]), 0.0L};
    if (detail::touch_at(g, static_cast<long double>(t), rough)) x = {real(rough[0]), real(rough[1])};
    if (!detail::touch_at(g, t, x)) return std::nullopt;
    const auto [point, normal] = flank.at(t, real(x[1] * size));
    const vector3<> centre = point + real(x[0] * size) * normal;
    if (centre.x <= 0) return std::nullopt;
    return ball{real(2 * x[0] * size), centre.x, contact_radius, t};
}

/// Angle between the spaces that are most nearly opposite.
inline real angle_of_opposite_spaces(const gear& g) {
    return real((g.numbers.teeth / 2) * 2 * pi() / g.numbers.teeth);
}

/// Distance over two balls in one transverse section: between their centres, and half a ball at each end.
inline real over_balls(const gear& g, const ball& b) {
    const vector3<> first{b.centre_radius, real(0), real(0)};
    const vector3<> second = turned(first, angle_of_opposite_spaces(g));
    return real(length(second - first) + b.diameter);
}

/// The distance of the axes of two pins, each tangent to the helix through its centre, when the second pin is moved along its space.
struct two_pins {
    real centre_radius;
    real between;      ///< angle from space to space
    real tangent_here; ///< of the helix angle at the centres

    /// `moved` is the axial way of the second pin, in centre radii.
    template <class R>
    R distance(const R& moved) const {
        using std::abs;
        const R r = static_cast<R>(centre_radius);
        const R slope = static_cast<R>(tangent_here);
        const R turn = R(static_cast<R>(between) + slope * moved);
        const vector3<R> first{r, R(0), R(0)};
        vector3<R> second = turned(first, turn);
        second.z = R(r * moved);
        const vector3<R> axis{R(0), slope, R(1)};
        const vector3<R> other_axis = turned(axis, turn);
        const vector3<R> square = cross(axis, other_axis);
        return R(abs(dot(second - first, square)) / length(square));
    }
};

/// Least reading of flat anvils over two pins; the pins may stand anywhere in their spaces.
inline real over_pins(const gear& g, const ball& b) {
    const two_pins pins{b.centre_radius, angle_of_opposite_spaces(g), real(abs(tan(g.helix_angle(real(2 * b.centre_radius)))))};
    if (pins.tangent_here == 0) { // parallel pins: nothing to be moved
        return over_balls(g, b);
    }
    // The second pin moves by no more than a radian round the axis. A helix that is hardly there needs no search.
    const real reach = real((pins.tangent_here > real("0.001") ? real(1) : real("0.001")) / pins.tangent_here);
    const real moved = place_of_minimum([&](const auto& z) { return pins.distance(z); }, real(-reach), reach);
    return real(pins.distance(moved) + b.diameter);
}

} // namespace independent
