// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The tooth flanks of a gear as surfaces in space, written from their definition and from nothing that the library computes but
// the parameters; and the plain searches that put planes, balls and lines against them.
#pragma once

#include <rackwork/gear.hpp>

#include "random_source.hpp"

#include <array>
#include <cmath>
#include <cstddef>

namespace measure {

constexpr double circle = 3.141592653589793238462643383279502884;

/// A point or a direction in space; the gear's axis is z.
struct vector3 {
    double x = 0;
    double y = 0;
    double z = 0;

    friend vector3 operator+(const vector3& a, const vector3& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
    friend vector3 operator-(const vector3& a, const vector3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
    friend vector3 operator*(double factor, const vector3& a) { return {factor * a.x, factor * a.y, factor * a.z}; }
};
inline double dot(const vector3& a, const vector3& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
inline vector3 cross(const vector3& a, const vector3& b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double length(const vector3& a) { return std::sqrt(dot(a, a)); }
inline double distance(const vector3& a, const vector3& b) { return length(a - b); }
inline vector3 unit(const vector3& a) { return (1 / length(a)) * a; }

/// One flank of a gear: the surface that the involute of the base circle sweeps in a screw motion.
/// Points are told by the roll angle u (the tangent of the transverse pressure angle) and the height z.
struct helicoid {
    double base_radius;
    /// Where the involute starts on the base circle at z = 0.
    double start;
    /// +1 if the involute turns counter-clockwise on its way out (right flank of a tooth, left of a space), -1 if clockwise.
    double turn;
    /// Rotation per height: tan beta / r.
    double twist;

    vector3 at(double u, double z) const {
        // The string of length r_b u leaves the base circle square to its radius.
        const double angle = start + turn * u + twist * z;
        return {base_radius * (std::cos(angle) + turn * u * std::sin(angle)),
                base_radius * (std::sin(angle) - turn * u * std::cos(angle)), z};
    }
};

/// A gear's teeth, from parameters: tooth 0 is centred on the x axis at z = 0.
struct teeth_in_space {
    double reference_radius;
    double base_radius;
    /// Half the angle of a tooth at the base circle.
    double half_angle;
    double pitch_angle;
    double twist;

    explicit teeth_in_space(const rackwork::gear_parameters<double>& p) {
        const double beta = p.helix_angle.rad();
        const double alpha_n = p.rack.pressure_angle.rad();
        const double alpha_t = std::atan(std::tan(alpha_n) / std::cos(beta));
        reference_radius = p.teeth * p.normal_module / std::cos(beta) / 2;
        base_radius = reference_radius * std::cos(alpha_t);
        const double normal_thickness =
            p.normal_module * (circle / 2 + 2 * p.profile_shift * std::tan(alpha_n)) + p.thickness_allowance;
        const double half_at_reference = normal_thickness / std::cos(beta) / (2 * reference_radius);
        half_angle = half_at_reference + std::tan(alpha_t) - alpha_t;
        pitch_angle = 2 * circle / p.teeth;
        twist = std::tan(beta) / reference_radius;
    }

    /// The flank of a tooth that looks clockwise: it starts at -half_angle and turns counter-clockwise, into the tooth.
    helicoid right_flank(int tooth) const { return {base_radius, tooth * pitch_angle - half_angle, 1, twist}; }
    /// The flank that looks counter-clockwise.
    helicoid left_flank(int tooth) const { return {base_radius, tooth * pitch_angle + half_angle, -1, twist}; }
};

/// The argument at which a function of one variable is least between two bounds, and its value there: golden section, so all that it
/// asks is that the function falls and then rises.
struct least_value {
    double argument;
    double value;
};
template <class F>
least_value least(const F& f, double low, double high, int steps = 90) {
    const double golden = 0.618033988749894848;
    double a = high - golden * (high - low);
    double b = low + golden * (high - low);
    double f_a = f(a);
    double f_b = f(b);
    for (int i = 0; i < steps; ++i) {
        if (f_a < f_b) {
            high = b;
            b = a;
            f_b = f_a;
            a = high - golden * (high - low);
            f_a = f(a);
        } else {
            low = a;
            a = b;
            f_a = f_b;
            b = low + golden * (high - low);
            f_b = f(b);
        }
    }
    return f_a < f_b ? least_value{a, f_a} : least_value{b, f_b};
}

/// The least value of a function of n variables near a start: steps along and against every axis, halved when none of them helps.
template <std::size_t n, class F>
double least_nearby(const F& f, std::array<double, n>& at, std::array<double, n> step, int halvings = 30) {
    double best = f(at);
    for (int halved = 0; halved < halvings;) {
        const std::array<double, n> before = at;
        bool better = false;
        for (std::size_t i = 0; i < n; ++i) {
            for (const double way : {1.0, -1.0}) {
                std::array<double, n> trial = at;
                trial[i] += way * step[i];
                const double value = f(trial);
                if (value < best) {
                    best = value;
                    at = trial;
                    better = true;
                    break;
                }
            }
        }
        if (better) { // and on in the same direction, since valleys rarely run along an axis
            for (;;) {
                std::array<double, n> trial = at;
                for (std::size_t i = 0; i < n; ++i) trial[i] += at[i] - before[i];
                const double value = f(trial);
                if (!(value < best)) break;
                best = value;
                at = trial;
            }
        } else {
            for (double& s : step) s /= 2;
            ++halved;
        }
    }
    return best;
}

/// Where a flank comes nearest to a point.
struct nearest_point {
    double distance;
    double roll;
    double height;
};

/// Shortest distance of a point from a flank between two roll angles, by looking everywhere first and closely then.
inline nearest_point nearest(const helicoid& flank, const vector3& centre, double least_roll, double greatest_roll,
                             double reach) {
    const auto at_roll = [&](double u) {
        return least([&](double z) { return distance(flank.at(u, z), centre); }, centre.z - reach, centre.z + reach,
                     60);
    };
    const int steps = 48;
    double best = 0;
    double value = 1e300;
    for (int i = 0; i <= steps; ++i) {
        const double u = least_roll + (greatest_roll - least_roll) * i / steps;
        const double d = at_roll(u).value;
        if (d < value) {
            value = d;
            best = u;
        }
    }
    const double around = (greatest_roll - least_roll) / steps;
    const least_value close = least([&](double u) { return at_roll(u).value; }, std::fmax(best - around, least_roll),
                                    std::fmin(best + around, greatest_roll), 60);
    return {close.value, close.argument, at_roll(close.argument).argument};
}

/// Bounds of the gears that the tests draw.
struct bounds {
    int least_teeth = 6;
    int most_teeth = 90;
    double steepest_helix = 40;
    bool spur_too = true;
};

/// Parameters of a random gear of the trade: two of three have a helix, of either hand; shift, rack and allowance vary.
/// The shift keeps teeth from being undercut or pointed, so that every measure has its place on the flank.
inline rackwork::gear_parameters<double> random_gear(support::random_source& random, const bounds& limits = {}) {
    for (;;) {
        rackwork::gear_parameters<double> p{.normal_module = random.uniform(0.5, 8),
                                            .teeth = random.integer(limits.least_teeth, limits.most_teeth),
                                            .rack = {.pressure_angle = rackwork::deg(random.uniform(14.5, 27)),
                                                     .addendum = random.uniform(0.8, 1.1),
                                                     .dedendum = 1.25,
                                                     .root_fillet_radius = random.uniform(0, 0.25)}};
        if (!limits.spur_too || random.integer(0, 2) > 0) {
            p.helix_angle = rackwork::deg(random.uniform(3, limits.steepest_helix) * (random.coin() ? 1 : -1));
        }
        const double cosine = cos(p.helix_angle);
        const double alpha_t = std::atan(tan(p.rack.pressure_angle) / cosine);
        const double limit = p.rack.form_dedendum() - p.teeth * std::pow(std::sin(alpha_t), 2) / (2 * cosine);
        p.profile_shift = random.uniform(std::fmax(limit + 0.02, -0.5), std::fmax(limit, 0.0) + 0.4);
        if (random.coin()) p.thickness_allowance = random.uniform(-0.05, 0) * p.normal_module;
        if (check(p)) continue;
        const rackwork::gear<double> g{p};
        if (g.tip_thickness() > 0.1 * p.normal_module && g.generating_profile_shift() > limit) return p;
    }
}

} // namespace measure
