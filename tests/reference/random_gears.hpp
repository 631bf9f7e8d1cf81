// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Random gears and pairs for the sweeps, and their exact numbers for the independent computation.
#pragma once

#include "independent_gear.hpp"
#include "random_source.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>

#include <rackwork/gear.hpp>

namespace reference {

using independent::real;

/// The parameters exactly as the library gets them.
template <class T>
independent::gear_numbers exact_numbers(const rackwork::gear_parameters<T>& p) {
    return {.normal_module = real(p.normal_module),
            .teeth = p.teeth,
            .helix = real(p.helix_angle.rad()),
            .pressure = real(p.rack.pressure_angle.rad()),
            .addendum = real(p.rack.addendum),
            .dedendum = real(p.rack.dedendum),
            .fillet = real(p.rack.root_fillet_radius),
            .shift = real(p.profile_shift),
            .tip_alteration = real(p.tip_alteration),
            .allowance = real(p.thickness_allowance),
            .face_width = real(p.face_width)};
}

/// The same parameters in another type, rounded once.
template <class T>
rackwork::gear_parameters<T> parameters_as(const rackwork::gear_parameters<double>& p) {
    return {.normal_module = static_cast<T>(p.normal_module),
            .teeth = p.teeth,
            .helix_angle = rackwork::rad(static_cast<T>(p.helix_angle.rad())),
            .rack = {.pressure_angle = rackwork::rad(static_cast<T>(p.rack.pressure_angle.rad())),
                     .addendum = static_cast<T>(p.rack.addendum),
                     .dedendum = static_cast<T>(p.rack.dedendum),
                     .root_fillet_radius = static_cast<T>(p.rack.root_fillet_radius)},
            .profile_shift = static_cast<T>(p.profile_shift),
            .tip_alteration = static_cast<T>(p.tip_alteration),
            .thickness_allowance = static_cast<T>(p.thickness_allowance),
            .face_width = static_cast<T>(p.face_width)};
}

inline std::string description(const rackwork::gear_parameters<double>& p) {
    std::ostringstream text;
    text.precision(17);
    text << "m " << p.normal_module << " z " << p.teeth << " beta " << p.helix_angle.rad() << " rad alpha "
         << p.rack.pressure_angle.rad() << " rad rack " << p.rack.addendum << ' ' << p.rack.dedendum << ' '
         << p.rack.root_fillet_radius << " x " << p.profile_shift << " k " << p.tip_alteration << " E "
         << p.thickness_allowance << " b " << p.face_width;
    return text.str();
}

/// Tooth numbers from 5 to 500, small ones as often as great ones.
inline int random_teeth(support::random_source& random) {
    const double octave = std::ldexp(5.0, random.integer(0, 6));
    return std::min(500, static_cast<int>(random.uniform(octave, 2 * octave)));
}

inline rackwork::basic_rack<double> random_rack(support::random_source& random) {
    rackwork::basic_rack<double> rack;
    rack.pressure_angle =
        random.integer(0, 2) == 0 ? rackwork::deg(20.0) : rackwork::rad(random.uniform(14.5, 30.0) * 0.017453292519943295);
    const double pointed = 0.7853981633974483 / std::tan(rack.pressure_angle.rad());
    rack.addendum = random.integer(0, 2) == 0 ? 1.0 : random.uniform(0.7, std::min(1.25, 0.95 * pointed));
    rack.dedendum = random.uniform(1.0, std::min(1.6, 0.95 * pointed));
    const double full = rackwork::full_root_fillet_radius(rack.pressure_angle, rack.dedendum);
    const int kind = random.integer(0, 4);
    rack.root_fillet_radius = kind == 0 ? 0.0 : kind == 1 ? full : random.uniform(0.0, std::min(0.5, full));
    return rack;
}

/// A helix of up to a largest angle in degrees, either hand; every fourth gear has none, and a few have next to none.
inline rackwork::angle<double> random_helix(support::random_source& random, double largest) {
    const double sign = random.coin() ? 1 : -1;
    const int kind = random.integer(0, 15);
    if (kind < 4) return {};
    if (kind == 4) return rackwork::rad(sign * random.uniform(1e-7, 1e-3));
    return rackwork::rad(sign * random.uniform(0.5, largest) * 0.017453292519943295);
}

/// What belongs to one gear of a pair alone: shift, tip alteration, allowance, face width.
inline void choose_own(support::random_source& random, rackwork::gear_parameters<double>& p, double least_shift,
                       double greatest_shift) {
    p.profile_shift = random.integer(0, 7) == 0 ? 0.0 : random.uniform(least_shift, greatest_shift);
    p.tip_alteration = random.integer(0, 2) == 0 ? 0.0 : random.uniform(-0.25, 0.05);
    p.thickness_allowance = random.integer(0, 2) == 0 ? 0.0 : p.normal_module * random.uniform(-0.15, 0.02);
    p.face_width = p.normal_module * random.uniform(4.0, 25.0);
}

inline rackwork::gear_parameters<double> random_gear(support::random_source& random, double largest_helix = 45) {
    rackwork::gear_parameters<double> p;
    p.normal_module = std::min(25.0, std::ldexp(0.1 * random.uniform(1.0, 2.0), random.integer(0, 7)));
    p.teeth = random_teeth(random);
    p.helix_angle = random_helix(random, largest_helix);
    p.rack = random_rack(random);
    choose_own(random, p, -1.0, 1.5);
    return p;
}

struct random_pair {
    rackwork::gear_parameters<double> pinion;
    rackwork::gear_parameters<double> wheel;
};

inline random_pair make_random_pair(support::random_source& random) {
    random_pair pair;
    pair.pinion = random_gear(random);
    pair.wheel = pair.pinion;
    pair.wheel.helix_angle = -pair.pinion.helix_angle;
    pair.wheel.teeth = random_teeth(random);
    choose_own(random, pair.pinion, -0.6, 1.0);
    choose_own(random, pair.wheel, -0.6, 1.0);
    return pair;
}

/// Counts how many of the random choices were possible gears, so that nothing is skipped wholesale.
class tally {
public:
    void count(bool possible) {
        ++all_;
        if (possible) ++possible_;
    }
    int all() const { return all_; }
    double share() const { return all_ == 0 ? 0 : static_cast<double>(possible_) / all_; }

private:
    int all_ = 0;
    int possible_ = 0;
};

} // namespace reference
