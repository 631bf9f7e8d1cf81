// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Derivatives of one gear's sizes and of its root with respect to every input.
#include "compare_root.hpp"
#include "differentiate.hpp"

namespace {

using independent::real;
using reference::differentiable;
using inputs = std::array<differentiable, reference::gear_inputs>;
using exact_inputs = std::array<real, reference::gear_inputs>;

void sweep(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::derivative_ledger worst(2e-13);
    reference::tally possible;
    for (int i = 0; i < gears; ++i) {
        const auto p = reference::random_smooth_gear(random, 45);
        const double fraction = random.uniform(0.2, 0.95);
        worst.at(reference::description(p));
        INFO(reference::description(p));
        if (rackwork::check(p)) {
            possible.count(false);
            continue;
        }
        const rackwork::gear<double> g(p);
        const independent::gear exact(reference::exact_numbers(p));
        const independent::root root = independent::root_of(exact);
        possible.count(reference::leaves_a_flank(exact, root));
        if (!reference::leaves_a_flank(exact, root)) continue;

        const double d = g.base_diameter() + fraction * (g.effective_tip_diameter() - g.base_diameter());
        const auto in = reference::inputs_of(p, d, d);
        const auto compare = [&](const char* name, double size, double condition, const auto& library, const auto& independently) {
            worst.record(
                {name, size, condition}, in, [&](const inputs& x) { return differentiable(library(reference::gear_from(x, p.teeth), x[10])); },
                [&](const exact_inputs& x) { return real(independently(reference::exact_gear_from(x, p.teeth), x[10])); });
        };
        const auto size_of = [&](const char* name, const auto& library, const auto& independently) {
            compare(name, 0, 1, library, independently);
        };
        using G = rackwork::gear<differentiable>;
        using E = independent::gear;
        using D = differentiable;
        size_of("generating profile shift", [](const G& a, const D&) { return D(a.generating_profile_shift() + D(5)); },
                [](const E& a, const real&) { return real(a.generating_distance / a.numbers.normal_module + 5); });
        size_of("transverse pressure angle", [](const G& a, const D&) { return a.transverse_pressure_angle().rad(); },
                [](const E& a, const real&) { return a.transverse_pressure_angle; });
        compare("base helix angle", 1, 1, [](const G& a, const D&) { return a.base_helix_angle().rad(); },
                [](const E& a, const real&) { return a.base_helix_angle; });
        size_of("reference diameter", [](const G& a, const D&) { return a.reference_diameter(); },
                [](const E& a, const real&) { return real(2 * a.reference_radius); });
        size_of("base diameter", [](const G& a, const D&) { return a.base_diameter(); },
                [](const E& a, const real&) { return real(2 * a.base_radius); });
        size_of("tip diameter", [](const G& a, const D&) { return a.tip_diameter(); },
                [](const E& a, const real&) { return real(2 * a.tip_radius()); });
        compare("root diameter", g.reference_diameter(), 1, [](const G& a, const D&) { return a.root_diameter(); },
                [](const E& a, const real&) { return real(2 * a.root_radius()); });
        compare("generated root diameter", g.reference_diameter(), 1,
                [](const G& a, const D&) { return a.generated_root_diameter(); },
                [](const E& a, const real&) { return real(2 * a.generated_root_radius()); });
        size_of("transverse base pitch", [](const G& a, const D&) { return a.transverse_base_pitch(); },
                [](const E& a, const real&) { return real(2 * independent::pi() * a.base_radius / a.numbers.teeth); });
        if (std::abs(p.helix_angle.rad()) > 0.01) {
            size_of("lead", [](const G& a, const D&) { return a.lead(); },
                    [](const E& a, const real&) { return real(2 * independent::pi() / abs(a.twist())); });
        }
        compare("tooth thickness", g.reference_diameter(), 1, [](const G& a, const D&) { return a.transverse_tooth_thickness(); },
                [](const E& a, const real&) { return a.tooth_thickness(real(2 * a.reference_radius)); });
        // The root in the involute's equation steepens without limit towards the base circle.
        const double near_base = 1 / (1 - g.base_diameter() / d);
        compare("pressure angle at a diameter", 0, near_base, [](const G& a, const D& x) { return a.pressure_angle(x).rad(); },
                [](const E& a, const real& x) { return a.pressure_angle(x); });
        compare("tooth thickness at a diameter", d, near_base, [](const G& a, const D& x) { return a.tooth_thickness(x); },
                [](const E& a, const real& x) { return a.tooth_thickness(x); });
        compare("normal tooth thickness at a diameter", d, near_base,
                [](const G& a, const D& x) { return a.normal_tooth_thickness(x); },
                [](const E& a, const real& x) { return real(a.tooth_thickness(x) * cos(a.helix_angle(x))); });
        size_of("pointed tip diameter", [](const G& a, const D&) { return a.pointed_tip_diameter(); },
                [](const E& a, const real&) { return real(2 * a.pointed_tip_radius()); });
        size_of("effective tip diameter", [](const G& a, const D&) { return a.effective_tip_diameter(); },
                [](const E& a, const real&) { return real(2 * a.effective_tip_radius()); });

        const double crossing = static_cast<double>(real(1 / root.sine_of_crossing));
        compare(root.undercut ? "root form diameter, undercut" : "root form diameter", 0, crossing,
                [](const G& a, const D&) { return rackwork::generated_root<D>(a).root_form_diameter(); },
                [](const E& a, const real&) { return real(2 * independent::root_of(a).form_radius); });
        compare("end of the fillet", 1, crossing,
                [](const G& a, const D&) { return rackwork::generated_root<D>(a).end_parameter(); },
                [](const E& a, const real&) { return independent::root_of(a).end_angle; });
        const double phi = static_cast<double>(root.end_angle) * fraction;
        const auto at = reference::inputs_of(p, phi, 1);
        worst.record(
            {"polar angle of the fillet", 1}, at,
            [&](const inputs& x) {
                const auto fillet = rackwork::generated_root<D>::tool_tip(reference::gear_from(x, p.teeth));
                return D(fillet.at(x[10]).polar_angle());
            },
            [&](const exact_inputs& x) {
                return polar_angle(independent::rolling_tip<real>(reference::exact_gear_from(x, p.teeth)).cut(x[10]));
            });
        size_of("least shift without undercut",
                [&](const G& a, const D&) {
                    return D(rackwork::least_profile_shift_without_undercut(a.parameters().rack, p.teeth, a.helix_angle()) + D(p.teeth));
                },
                [&](const E& a, const real&) {
                    const real s = real(sin(a.transverse_pressure_angle));
                    return real((independent::normal_rack(a.numbers).flank_end_depth - a.reference_radius * s * s) /
                                    a.numbers.normal_module + p.teeth);
                });
    }
    CHECK(possible.share() > 0.7);
    CHECK(worst.count("root form diameter, undercut") > gears);
    CHECK(worst.count("root form diameter") > gears);
    worst.check();
}

} // namespace

TEST_CASE("a gear's sizes change with its inputs as the independent computation says") { sweep(110, 60); }
