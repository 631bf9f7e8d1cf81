// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Backlash, thickness allowances and trains to fifty digits, by other routes than the library's.
#include <rackwork/tolerance/backlash.hpp>
#include <rackwork/tolerance/thickness.hpp>
#include <rackwork/trains/planetary_set.hpp>
#include <rackwork/trains/reverted_train.hpp>

#include "random_source.hpp"

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <cmath>

#include <doctest/doctest.h>

using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using wide = boost::multiprecision::cpp_bin_float_50;

namespace {

const wide half_turn = 4 * atan(wide(1));

wide involute(const wide& angle) { return tan(angle) - angle; }

/// A gear that has grown by a factor, from what is stated about it.
struct grown_gear {
    wide sign, reference_radius, transverse_pressure_angle, base_radius, half_thickness_angle, helix;

    grown_gear(const gear_parameters<double>& p, double allowance, const wide& factor) {
        sign = p.kind == gear_kind::internal ? -1 : 1;
        helix = wide(p.helix_angle.rad());
        const wide normal = wide(p.rack.pressure_angle.rad());
        const wide module = wide(p.normal_module) * factor;
        reference_radius = p.teeth * module / cos(helix) / 2;
        transverse_pressure_angle = atan(tan(normal) / cos(helix));
        base_radius = reference_radius * cos(transverse_pressure_angle);
        const wide thickness = module * (half_turn / 2 + 2 * wide(p.profile_shift) * tan(normal)) + wide(allowance) * factor;
        half_thickness_angle = thickness / cos(helix) / reference_radius / 2;
    }
    /// Tooth thickness on the arc at the radius where the pressure angle is an angle.
    wide thickness_at(const wide& pressure_angle) const {
        return 2 * base_radius / cos(pressure_angle) *
               (half_thickness_angle + sign * (involute(transverse_pressure_angle) - involute(pressure_angle)));
    }
    wide pitch_at(const wide& pressure_angle, int teeth) const { return 2 * half_turn * base_radius / cos(pressure_angle) / teeth; }
};

/// Circumferential backlash: what the thicknesses leave of the pitch on the working circles, pitches and circles by the mean of both gears.
wide circumferential(const gear_parameters<double>& pinion, const gear_parameters<double>& wheel, double of_pinion, double of_wheel,
                     const wide& pinion_factor, const wide& wheel_factor, const wide& distance) {
    const grown_gear p(pinion, of_pinion, pinion_factor);
    const grown_gear w(wheel, of_wheel, wheel_factor);
    const wide working = acos(wheel.kind == gear_kind::internal ? wide((w.base_radius - p.base_radius) / distance)
                                                                : wide((w.base_radius + p.base_radius) / distance));
    const wide pitch = (p.pitch_at(working, pinion.teeth) + w.pitch_at(working, wheel.teeth)) / 2;
    return pitch - p.thickness_at(working) - w.thickness_at(working);
}

constexpr int draws = 300;
constexpr double ulp = 2.220446049250313e-16;

} // namespace

TEST_CASE("backlash at the limits, with heat in gears and housing, is within 8 ulp of the working diameter") {
    support::random_source random{1901};
    double worst = 0;
    for (int i = 0; i < draws; ++i) {
        gear_parameters<double> pinion{.normal_module = random.uniform(0.5, 10),
                                       .teeth = random.integer(17, 60),
                                       .helix_angle = rackwork::deg(random.uniform(-30, 30)),
                                       .profile_shift = random.uniform(0, 0.4)};
        gear_parameters<double> wheel = pinion;
        const bool internal = random.coin();
        wheel.kind = internal ? gear_kind::internal : gear_kind::external;
        wheel.teeth = pinion.teeth + random.integer(30, 120);
        if (!internal) wheel.helix_angle = -pinion.helix_angle;
        wheel.profile_shift = internal ? random.uniform(-0.3, 0.1) - pinion.profile_shift : random.uniform(-0.2, 0.3);
        const double m = pinion.normal_module;
        const gear<double> p{pinion};
        const gear<double> w{wheel};
        const double nominal = rackwork::mesh<double>{p, w}.centre_distance();
        rackwork::backlash_conditions<double> c{.allowances = {{-0.02 * m, -0.04 * m}, {-0.03 * m, -0.06 * m}},
                                                .centre_distance = {nominal - 0.01 * m, nominal + 0.03 * m}};
        c.expansion = {random.uniform(10e-6, 30e-6), random.uniform(10e-6, internal ? 30e-6 : 120e-6), random.uniform(10e-6, 30e-6)};
        c.temperature = {random.uniform(-30, 100), random.uniform(-30, 100), random.uniform(-30, 100)};
        const auto range = backlash_between_limits(p, w, c);
        const auto factor = [](double expansion, double temperature) -> wide { return 1 + wide(expansion) * (wide(temperature) - 20); };
        const wide of_pinion = factor(c.expansion.pinion, c.temperature.pinion);
        const wide of_wheel = factor(c.expansion.wheel, c.temperature.wheel);
        const wide of_housing = factor(c.expansion.housing, c.temperature.housing);
        const double tight = internal ? c.centre_distance.upper : c.centre_distance.lower;
        const double loose = internal ? c.centre_distance.lower : c.centre_distance.upper;
        const wide least = circumferential(pinion, wheel, -0.02 * m, -0.03 * m, of_pinion, of_wheel, tight * of_housing);
        const wide greatest = circumferential(pinion, wheel, -0.04 * m, -0.06 * m, of_pinion, of_wheel, loose * of_housing);
        const double unit = ulp * 2 * nominal * wheel.teeth / std::abs(wheel.teeth + (internal ? -pinion.teeth : pinion.teeth));
        worst = std::fmax(worst, std::fabs(static_cast<double>(range.least.circumferential - least)) / unit);
        worst = std::fmax(worst, std::fabs(static_cast<double>(range.greatest.circumferential - greatest)) / unit);
        // Normal: times the cosines of the working pressure angle and of the base helix.
        const grown_gear g(pinion, 0, of_pinion);
        const grown_gear h(wheel, 0, of_wheel);
        const wide base = internal ? wide(h.base_radius - g.base_radius) : wide(h.base_radius + g.base_radius);
        const wide base_helix = atan(tan(g.helix) * cos(g.transverse_pressure_angle));
        const wide normal = greatest * base / (loose * of_housing) * cos(base_helix);
        worst = std::fmax(worst, std::fabs(static_cast<double>(range.greatest.normal - normal)) / unit);
    }
    CAPTURE(worst);
    CHECK(worst > 0);
    CHECK(worst <= 8);
}

TEST_CASE("the allowance that a span stands for is within 16 ulp of what it is added up from") {
    support::random_source random{1902};
    for (int i = 0; i < draws; ++i) {
        const gear_parameters<double> p{.normal_module = random.uniform(0.5, 10),
                                        .teeth = random.integer(17, 120),
                                        .helix_angle = rackwork::deg(random.uniform(-30, 30)),
                                        .profile_shift = random.uniform(0, 0.4)};
        const gear<double> g{p};
        const int k = rackwork::recommended_teeth_spanned(g);
        const double upper = span_measurement(g, k) - 0.02 * p.normal_module;
        const double lower = upper - 0.03 * p.normal_module;
        const auto found = allowances_from_span(g, k, {.lower = lower, .upper = upper});
        const auto allowance = [&](double span) -> wide {
            const wide normal = wide(p.rack.pressure_angle.rad());
            const wide transverse = atan(tan(normal) / cos(wide(p.helix_angle.rad())));
            const wide full = p.normal_module * cos(normal) * ((wide(k) - wide(1) / 2) * half_turn + p.teeth * involute(transverse)) +
                              2 * wide(p.profile_shift) * p.normal_module * sin(normal);
            return (span - full) / cos(normal);
        };
        CHECK(std::fabs(static_cast<double>(found.upper - allowance(upper))) < 16 * ulp * upper);
        CHECK(std::fabs(static_cast<double>(found.lower - allowance(lower))) < 16 * ulp * upper);
    }
}

TEST_CASE("shifts of planetary sets, gaps between planets, and balanced centre distances") {
    support::random_source random{1903};
    for (int i = 0; i < draws; ++i) {
        const int sun = random.integer(15, 60);
        const int planet = random.integer(15, 60);
        const double m = random.uniform(0.5, 8);
        const rackwork::planetary_proportions<double> p{
            .normal_module = m, .sun_teeth = sun, .planet_teeth = planet, .ring_teeth = sun + 2 * planet, .helix_angle = rackwork::deg(random.uniform(-25, 25))};
        const double a = reference_centre_distance(p.sun_and_planet()) + random.uniform(-0.2, 0.4) * m;
        const auto shifts = planetary_shifts_at(p, a, 0.1);
        const wide helix = wide(p.helix_angle.rad());
        const wide normal = wide(p.normal_pressure_angle.rad());
        const wide transverse = atan(tan(normal) / cos(helix));
        // Sun and planet by their sum of teeth, planet and ring by their difference: the same working pressure angle for both here.
        const wide working = acos(m * wide(sun + planet) / (2 * cos(helix)) * cos(transverse) / a);
        const wide sum = (sun + planet) * (involute(working) - involute(transverse)) / (2 * tan(normal));
        const double unit = 24 * ulp * (sun + planet) / 10;
        CHECK(std::fabs(static_cast<double>(shifts.sun - (sum - wide(0.1)))) < unit);
        CHECK(std::fabs(static_cast<double>(shifts.ring - (-sum - wide(0.1)))) < unit);

        const auto spur = [&](int teeth, gear_kind kind) { return gear<double>{{.normal_module = m, .teeth = teeth, .kind = kind}}; };
        const rackwork::planetary_set<double> set{.sun = spur(sun, gear_kind::external),
                                                  .planet = spur(planet, gear_kind::external),
                                                  .ring = spur(sun + 2 * planet, gear_kind::internal),
                                                  .planets = 2,
                                                  .centre_distance = m * (sun + planet) / 2};
        const wide gap = wide(m) * (sun + planet) - wide(m) * (planet + 2);
        CHECK(std::fabs(static_cast<double>(neighbour_clearance(set) - gap)) < 8 * ulp * m * (sun + 2 * planet));

        const rackwork::reverted_train<double> train{{.normal_module = m, .pinion_teeth = sun, .wheel_teeth = 2 * sun},
                                                     {.normal_module = m, .pinion_teeth = planet, .wheel_teeth = 3 * sun - planet + 1}};
        if (3 * sun - planet + 1 < 10) continue;
        const wide found = wide(balanced_centre_distance(train));
        const auto widened = [&](const wide& at) -> wide {
            const auto one = [&](int teeth) -> wide {
                const wide alpha = acos(m * wide(teeth) / 2 * cos(normal) / at);
                return teeth * (involute(alpha) - involute(normal));
            };
            return one(3 * sun) + one(3 * sun + 1);
        };
        // The change of sign lies within a few places of the result.
        CHECK(widened(found * (1 - 16 * wide(ulp))) < 0);
        CHECK(widened(found * (1 + 16 * wide(ulp))) > 0);
    }
}
