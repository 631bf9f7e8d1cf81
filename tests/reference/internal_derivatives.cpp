// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Derivatives of internal pairs and of the roots that pinion-type cutters leave with respect to every input.
#include "differentiate.hpp"
#include "independent_internal.hpp"
#include "independent_pinion_root.hpp"

#include <rackwork/mesh.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>

namespace {

using independent::real;
using independent::signed_gear;
using reference::differentiable;
using rackwork::gear_kind;

/// What is differentiated by: both gears of a pair and the wheel's cutter. (A gear alone with its cutter uses the wheel's part.)
constexpr std::size_t inputs = 14;
enum input : std::size_t { module, helix, pressure, addendum, dedendum, pinion_shift, pinion_allowance, shift, alteration, allowance, cutter_shift,
                           cutter_addendum, cutter_tip_radius, distance };

struct drawn {
    int pinion_teeth = 0;
    int teeth = 0;
    int cutter_teeth = 0;
    bool internal = true;
    std::array<double, inputs> value{};
};

template <class T>
rackwork::gear<T> wheel_from(const drawn& d, const std::array<T, inputs>& x) {
    rackwork::gear_parameters<T> p;
    p.normal_module = x[module];
    p.teeth = d.teeth;
    p.kind = d.internal ? gear_kind::internal : gear_kind::external;
    p.helix_angle = rackwork::rad(x[helix]);
    p.rack = {.pressure_angle = rackwork::rad(x[pressure]), .addendum = x[addendum], .dedendum = x[dedendum], .root_fillet_radius = T(0)};
    p.profile_shift = x[shift];
    p.tip_alteration = x[alteration];
    p.thickness_allowance = x[allowance];
    return rackwork::gear<T>(p);
}
template <class T>
rackwork::gear<T> pinion_from(const drawn& d, const std::array<T, inputs>& x) {
    rackwork::gear_parameters<T> p;
    p.normal_module = x[module];
    p.teeth = d.pinion_teeth;
    p.helix_angle = rackwork::rad(x[helix]);
    p.rack = {.pressure_angle = rackwork::rad(x[pressure]), .addendum = x[addendum], .dedendum = x[dedendum], .root_fillet_radius = T(0)};
    p.profile_shift = x[pinion_shift];
    p.thickness_allowance = x[pinion_allowance];
    return rackwork::gear<T>(p);
}
template <class T>
rackwork::cutter<T> cutter_from(const drawn& d, const std::array<T, inputs>& x) {
    return rackwork::pinion_type_cutter<T>{
        .teeth = d.cutter_teeth, .profile_shift = x[cutter_shift], .addendum = x[cutter_addendum], .tip_radius = x[cutter_tip_radius]};
}
template <class T>
rackwork::for_both<rackwork::cutter<T>> tools_from(const drawn& d, const std::array<T, inputs>& x) {
    return {.pinion = rackwork::rack_type_cutter<T>{.addendum = x[dedendum], .tip_radius = T(0)}, .wheel = cutter_from(d, x)};
}

independent::gear_numbers exact_numbers(int teeth, const std::array<real, inputs>& x, const real& x_shift, const real& k, const real& e) {
    return {.normal_module = x[module], .teeth = teeth, .helix = x[helix], .pressure = x[pressure], .addendum = x[addendum],
            .dedendum = x[dedendum], .fillet = real(0), .shift = x_shift, .tip_alteration = k, .allowance = e, .face_width = real(1)};
}
signed_gear exact_wheel(const drawn& d, const std::array<real, inputs>& x) {
    return {exact_numbers(d.teeth, x, x[shift], x[alteration], x[allowance]), d.internal};
}
signed_gear exact_pinion(const drawn& d, const std::array<real, inputs>& x) {
    return {exact_numbers(d.pinion_teeth, x, x[pinion_shift], real(0), x[pinion_allowance]), false};
}
independent::cutting exact_cutting(const drawn& d, const std::array<real, inputs>& x) {
    return {exact_wheel(d, x), {d.cutter_teeth, x[cutter_shift], x[cutter_addendum], x[cutter_tip_radius]}};
}

reference::named_inputs<inputs> named(const drawn& d) {
    const double m = d.value[module];
    // A spur gear's sizes have their extremes at the helix angle 0.
    return {.value = d.value,
            .name = {"normal module", "helix angle", "pressure angle", "addendum", "dedendum", "pinion's shift", "pinion's allowance", "shift",
                     "tip alteration", "allowance", "cutter's shift", "cutter's addendum", "cutter's tip radius", "centre distance"},
            .size = {m, 1, 1, 1, 1, 1, m, 1, 1, m, 1, 1, 1, std::max(d.value[distance], m)}};
}

drawn draw(support::random_source& random, bool internal) {
    drawn d;
    d.internal = internal;
    const double m = random.uniform(0.5, 5);
    d.teeth = internal ? random.integer(50, 150) : random.integer(7, 50);
    d.pinion_teeth = internal ? random.integer(18, d.teeth - 20) : 20;
    d.cutter_teeth = internal ? random.integer(15, d.teeth - 15) : random.integer(15, 60);
    d.value = {m, random.coin() ? 0.0 : random.uniform(-0.6, 0.6), random.uniform(0.28, 0.45), random.uniform(0.8, 1.0), random.uniform(1.1, 1.25),
               random.uniform(-0.1, 0.4), -m * random.uniform(0, 0.05), random.uniform(-0.4, 0.1), random.uniform(-0.2, 0), -m * random.uniform(0, 0.05),
               random.uniform(-0.2, 0.3), random.uniform(1.1, 1.25), random.uniform(0.02, 0.15), 0};
    return d;
}

void sweep_pairs(std::uint64_t seed, int pairs) {
    support::random_source random(seed);
    reference::derivative_ledger worst(2e-13);
    reference::tally possible;
    constexpr std::size_t quantities = 9;
    for (int i = 0; i < pairs; ++i) {
        drawn d = draw(random, true);
        const double moved = random.uniform(0, 0.1) * d.value[module];
        const auto made = [&]() {
            try {
                const rackwork::mesh<double> nominal(pinion_from(d, d.value), wheel_from(d, d.value), tools_from(d, d.value));
                d.value[distance] = nominal.centre_distance() - moved;
                const rackwork::mesh<double> given(nominal.pinion(), nominal.wheel(), d.value[distance], tools_from(d, d.value));
                return given.length_of_path_of_contact() > 0;
            } catch (const rackwork::geometry_error&) {
                return false;
            }
        };
        possible.count(made());
        if (!made()) continue;
        std::ostringstream where;
        where.precision(17);
        where << "teeth " << d.pinion_teeth << " in " << d.teeth << ", cutter " << d.cutter_teeth << ", inputs";
        for (const double v : d.value) where << ' ' << v;
        worst.at(where.str());
        INFO(where.str());
        using inputs_of_library = std::array<differentiable, inputs>;
        using exact_inputs = std::array<real, inputs>;
        const auto of_library = [](const rackwork::mesh<differentiable>& x) {
            return std::array<differentiable, quantities>{x.centre_distance(),       x.working_pressure_angle().rad(),
                                                          x.circumferential_backlash(), x.normal_backlash(),
                                                          x.radial_backlash(),       x.bottom_clearance().pinion,
                                                          x.bottom_clearance().wheel, x.reach_of_mating_tip().pinion,
                                                          x.root_form_diameter().wheel};
        };
        const auto independently = [&](const independent::signed_pair& x, const exact_inputs& in) {
            const independent::cutting cutting = exact_cutting(d, in);
            return std::array<real, quantities>{real(-x.a),
                                                x.working_pressure_angle,
                                                x.circumferential_backlash(),
                                                x.normal_backlash(),
                                                x.radial_backlash(),
                                                x.clearance_of_pinion_tip(real(2 * cutting.root_radius())),
                                                x.clearance_of_wheel_tip(x.pinion.d_f_generated()),
                                                x.of_wheel_circle(x.wheel.d_a_effective()),
                                                real(2 * independent::root_of(cutting).form_radius)};
        };
        const double size = d.teeth * d.value[module];
        const double t = std::tan(rackwork::mesh<double>(pinion_from(d, d.value), wheel_from(d, d.value), d.value[distance]).working_pressure_angle().rad());
        // Errors of the centre distance in the working angle, and of two diameters in their difference.
        const double flat = (1 + 1 / (t * t * t)) * (d.teeth + d.pinion_teeth) / (d.teeth - d.pinion_teeth);
        const auto subjects = [&](const std::string& where_it_stands) {
            std::array<reference::derivative_ledger::subject, quantities> all{{{"centre distance", size, flat},
                                                                               {"working pressure angle", 1, flat},
                                                                               {"circumferential backlash", size, flat},
                                                                               {"normal backlash", size, flat},
                                                                               {"radial backlash", size, flat},
                                                                               {"bottom clearance of the pinion", size, flat},
                                                                               {"bottom clearance of the wheel", size, flat},
                                                                               {"reach of the wheel's tip", size, flat},
                                                                               {"wheel's root form diameter", size, flat}}};
            for (auto& s : all) s.name += where_it_stands;
            return all;
        };
        worst.record(
            subjects(" at the nominal centre distance"), named(d),
            [&](const inputs_of_library& x) { return of_library({pinion_from(d, x), wheel_from(d, x), tools_from(d, x)}); },
            [&](const exact_inputs& x) { return independently({exact_pinion(d, x), exact_wheel(d, x)}, x); });
        worst.record(
            subjects(" at a given centre distance"), named(d),
            [&](const inputs_of_library& x) { return of_library({pinion_from(d, x), wheel_from(d, x), x[distance], tools_from(d, x)}); },
            [&](const exact_inputs& x) { return independently({exact_pinion(d, x), exact_wheel(d, x), x[distance]}, x); });
    }
    CHECK(possible.share() > 0.5);
    worst.check();
}

void sweep_roots(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::derivative_ledger worst(2e-13);
    reference::tally possible;
    int undercut = 0;
    constexpr std::size_t quantities = 4;
    for (int i = 0; i < gears; ++i) {
        const drawn d = draw(random, random.coin());
        const auto made = [&]() {
            try {
                static_cast<void>(rackwork::generated_root<double>(wheel_from(d, d.value), cutter_from(d, d.value)));
                return true;
            } catch (const rackwork::geometry_error&) {
                return false;
            }
        };
        possible.count(made());
        if (!made()) continue;
        std::ostringstream where;
        where.precision(17);
        where << (d.internal ? "internal " : "external ") << d.teeth << ", cutter " << d.cutter_teeth << ", inputs";
        for (const double v : d.value) where << ' ' << v;
        worst.at(where.str());
        INFO(where.str());
        std::array<real, inputs> exact_inputs{};
        for (std::size_t k = 0; k < inputs; ++k) exact_inputs[k] = real(d.value[k]);
        const independent::cutting cutting = exact_cutting(d, exact_inputs);
        const independent::root_by_pinion exact_root = independent::root_of(cutting);
        undercut += exact_root.undercut;
        const double size = (d.teeth + d.cutter_teeth) * d.value[module];
        const double sine = static_cast<double>(exact_root.sine_of_crossing);
        const double t = static_cast<double>(real(tan(cutting.working_angle)));
        const double flat = 1 + 1 / (t * t * t);
        const std::array<reference::derivative_ledger::subject, quantities> subjects{{{"root diameter", size, flat},
                                                                                       {"root form diameter", size, flat / (sine * sine * sine)},
                                                                                       {"root land", 1, flat},
                                                                                       {"fillet's distance from the axis", size, flat}}};
        worst.record(
            subjects, named(d),
            [&](const std::array<differentiable, inputs>& x) {
                const rackwork::generated_root<differentiable> root(wheel_from(d, x), cutter_from(d, x));
                const auto at = root.fillet().at(differentiable(0.3));
                return std::array<differentiable, quantities>{root.root_diameter(), root.root_form_diameter(), root.root_land_half_angle(),
                                                              differentiable(sqrt(at.squared_radius()))};
            },
            [&](const std::array<real, inputs>& x) {
                const independent::cutting c = exact_cutting(d, x);
                return std::array<real, quantities>{real(2 * c.root_radius()), real(2 * independent::root_of(c).form_radius),
                                                    real(c.centre_angle * c.tool_rolling_radius() / abs(c.rolling_radius())),
                                                    radius(c.cut(real(0.3)))};
            });
    }
    CHECK(possible.share() > 0.5);
    CHECK(undercut > 3);
    worst.check();
}

} // namespace

TEST_CASE("an internal pair changes with its gears' and cutter's inputs as the independent computation says") { sweep_pairs(430, 14); }
TEST_CASE("a pinion-cut root changes with its gear's and its cutter's inputs as the independent computation says") { sweep_roots(431, 36); }
