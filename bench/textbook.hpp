// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What the benchmarks compare with: the formulas of the textbooks for spur gears, written straightforwardly, with Boost.Math's root finder for
// the inverse involute function. They check nothing, know no undercut and take the involute to begin where the basic rack's straight flank ends.
#pragma once

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <utility>

namespace textbook {

constexpr double pi = std::numbers::pi;
constexpr double module_of_all = 3;
constexpr double pressure_angle = 20 * pi / 180;

inline double inv(double a) { return std::tan(a) - a; }

inline double inverse_inv(double y) {
    const auto f = [y](double a) {
        const double t = std::tan(a);
        return std::make_pair(t - a - y, t * t);
    };
    const double c = std::cbrt(3 * y);
    std::uintmax_t steps = 50;
    return boost::math::tools::newton_raphson_iterate(f, c - 2.0 / 15 * c * c * c, 0.0, pi / 2, std::numeric_limits<double>::digits,
                                                      steps);
}

struct gear_sizes {
    double teeth, shift;
    double reference, base, tip, root;
    double thickness, tip_thickness;
};

inline gear_sizes gear_of(double teeth, double shift) {
    gear_sizes g{};
    g.teeth = teeth;
    g.shift = shift;
    g.reference = teeth * module_of_all;
    g.base = g.reference * std::cos(pressure_angle);
    g.tip = g.reference + 2 * module_of_all * (1 + shift);
    g.root = g.reference - 2 * module_of_all * (1.25 - shift);
    g.thickness = module_of_all * (pi / 2 + 2 * shift * std::tan(pressure_angle));
    g.tip_thickness = g.tip * (g.thickness / g.reference + inv(pressure_angle) - inv(std::acos(g.base / g.tip)));
    return g;
}

/// Diameter down to which the rack's straight flank generates the involute.
inline double root_form_diameter(const gear_sizes& g) {
    const double depth = module_of_all * (1 - g.shift);
    const double up = g.base / 2 * std::tan(pressure_angle) - depth / std::sin(pressure_angle);
    return 2 * std::hypot(g.base / 2, up);
}

inline std::array<double, 20> pair_of(const gear_sizes& pinion, const gear_sizes& wheel) {
    const double sum = pinion.teeth + wheel.teeth;
    const double working = inverse_inv(inv(pressure_angle) + 2 * (pinion.shift + wheel.shift) * std::tan(pressure_angle) / sum);
    const double distance = module_of_all * sum / 2 * std::cos(pressure_angle) / std::cos(working);
    const double length = distance * std::sin(working);
    const auto roll = [](const gear_sizes& g, double d) { return std::sqrt(d * d - g.base * g.base) / 2; };
    const double form_of_pinion = root_form_diameter(pinion);
    const double form_of_wheel = root_form_diameter(wheel);
    const double end = std::min(roll(pinion, pinion.tip), length - roll(wheel, form_of_wheel));
    const double begin = std::max(length - roll(wheel, wheel.tip), roll(pinion, form_of_pinion));
    const double path = end - begin;
    const double working_of_pinion = 2 * distance * pinion.teeth / sum;
    const double working_of_wheel = 2 * distance * wheel.teeth / sum;
    const double backlash =
        2 * distance * (inv(working) - inv(pressure_angle) - 2 * (pinion.shift + wheel.shift) * std::tan(pressure_angle) / sum);
    return {working,
            distance,
            working_of_pinion,
            working_of_wheel,
            form_of_pinion,
            form_of_wheel,
            2 * std::hypot(pinion.base / 2, end),
            2 * std::hypot(wheel.base / 2, length - begin),
            2 * std::hypot(pinion.base / 2, begin),
            2 * std::hypot(wheel.base / 2, length - end),
            path,
            path / (pi * module_of_all * std::cos(pressure_angle)),
            distance - (pinion.tip + wheel.root) / 2,
            distance - (wheel.tip + pinion.root) / 2,
            backlash,
            backlash * std::cos(working),
            backlash / (2 * std::tan(working)),
            2 * backlash / working_of_pinion,
            2 * backlash / working_of_wheel,
            wheel.teeth / pinion.teeth};
}

/// Over k teeth.
inline double span(const gear_sizes& g, int k) {
    return module_of_all * std::cos(pressure_angle) * ((k - 0.5) * pi + g.teeth * inv(pressure_angle)) +
           2 * g.shift * module_of_all * std::sin(pressure_angle);
}

/// Over two pins in the spaces of a spur gear.
inline double over_pins(const gear_sizes& g, double pin) {
    const double at_centre = inverse_inv(pin / g.base + inv(pressure_angle) + g.thickness / g.reference - pi / g.teeth);
    const double centre = g.base / std::cos(at_centre);
    return std::fmod(g.teeth, 2) == 0 ? centre + pin : centre * std::cos(pi / (2 * g.teeth)) + pin;
}

} // namespace textbook
