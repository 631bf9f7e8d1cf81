// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#include <rackwork/undercut_limits.hpp>
// Derivatives of one gear's sizes and of its root with respect to every input.
#include <rackwork/undercut_limits.hpp>
#include "compare_root.hpp"
#include <rackwork/undercut_limits.hpp>
#include "differentiate.hpp"
#include <rackwork/undercut_limits.hpp>

#include <rackwork/undercut_limits.hpp>
namespace {
#include <rackwork/undercut_limits.hpp>

#include <rackwork/undercut_limits.hpp>
using independent::real;
#include <rackwork/undercut_limits.hpp>
using reference::differentiable;
#include <rackwork/undercut_limits.hpp>
using inputs = std::array<differentiable, reference::gear_inputs>;
#include <rackwork/undercut_limits.hpp>
using exact_inputs = std::array<real, reference::gear_inputs>;
#include <rackwork/undercut_limits.hpp>

#include <rackwork/undercut_limits.hpp>
void sweep(std::uint64_t seed, int gears) {
#include <rackwork/undercut_limits.hpp>
    support::random_source random(seed);
#include <rackwork/undercut_limits.hpp>
    reference::derivative_ledger worst(2e-13);
#include <rackwork/undercut_limits.hpp>
    reference::tally possible;
#include <rackwork/undercut_limits.hpp>
    for (int i = 0; i < gears; ++i) {
#include <rackwork/undercut_limits.hpp>
        const auto p = reference::random_smooth_gear(random, 45);
#include <rackwork/undercut_limits.hpp>
        const double fraction = random.uniform(0.2, 0.95);
#include <rackwork/undercut_limits.hpp>
        worst.at(reference::description(p));
#include <rackwork/undercut_limits.hpp>
        INFO(reference::description(p));
#include <rackwork/undercut_limits.hpp>
        if (rackwork::check(p)) {
#include <rackwork/undercut_limits.hpp>
            possible.count(false);
#include <rackwork/undercut_limits.hpp>
            continue;
#include <rackwork/undercut_limits.hpp>
        }
#include <rackwork/undercut_limits.hpp>
        const rackwork::gear<double> g(p);
#include <rackwork/undercut_limits.hpp>
        const independent::gear exact(reference::exact_numbers(p));
#include <rackwork/undercut_limits.hpp>
        const independent::root root = independent::root_of(exact);
#include <rackwork/undercut_limits.hpp>
        possible.count(reference::leaves_a_flank(exact, root));
#include <rackwork/undercut_limits.hpp>
        if (!reference::leaves_a_flank(exact, root)) continue;
#include <rackwork/undercut_limits.hpp>

#include <rackwork/undercut_limits.hpp>
        const double d = g.base_diameter() + fraction * (g.effective_tip_diameter() - g.base_diameter());
#include <rackwork/undercut_limits.hpp>
        const auto in = reference::inputs_of(p, d, d);
#include <rackwork/undercut_limits.hpp>
        const auto compare = [&](const char* name, double size, double condition, const auto& library, const auto& independently) {
#include <rackwork/undercut_limits.hpp>
            worst.record(
#include <rackwork/undercut_limits.hpp>
                {name, size, condition}, in, [&](const inputs& x) { return differentiable(library(reference::gear_from(x, p.teeth), x[10])); },
#include <rackwork/undercut_limits.hpp>
                [&](const exact_inputs& x) { return real(independently(reference::exact_gear_from(x, p.teeth), x[10])); });
#include <rackwork/undercut_limits.hpp>
        };
#include <rackwork/undercut_limits.hpp>
        const auto size_of = [&](const char* name, const auto& library, const auto& independently) {
#include <rackwork/undercut_limits.hpp>
            compare(name, 0, 1, library, independently);
#include <rackwork/undercut_limits.hpp>
        };
#include <rackwork/undercut_limits.hpp>
        using G = rackwork::gear<differentiable>;
#include <rackwork/undercut_limits.hpp>
        using E = independent::gear;
#include <rackwork/undercut_limits.hpp>
        using D = differentiable;
#include <rackwork/undercut_limits.hpp>
        size_of("generating profile shift", [](const G& a, const D&) { return D(a.generating_profile_shift() + D(5)); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return real(a.generating_distance / a.numbers.normal_module + 5); });
#include <rackwork/undercut_limits.hpp>
        size_of("transverse pressure angle", [](const G& a, const D&) { return a.transverse_pressure_angle().rad(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return a.transverse_pressure_angle; });
#include <rackwork/undercut_limits.hpp>
        compare("base helix angle", 1, 1, [](const G& a, const D&) { return a.base_helix_angle().rad(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return a.base_helix_angle; });
#include <rackwork/undercut_limits.hpp>
        size_of("reference diameter", [](const G& a, const D&) { return a.reference_diameter(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return real(2 * a.reference_radius); });
#include <rackwork/undercut_limits.hpp>
        size_of("base diameter", [](const G& a, const D&) { return a.base_diameter(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return real(2 * a.base_radius); });
#include <rackwork/undercut_limits.hpp>
        size_of("tip diameter", [](const G& a, const D&) { return a.tip_diameter(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return real(2 * a.tip_radius()); });
#include <rackwork/undercut_limits.hpp>
        compare("root diameter", g.reference_diameter(), 1, [](const G& a, const D&) { return a.root_diameter(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return real(2 * a.root_radius()); });
#include <rackwork/undercut_limits.hpp>
        compare("generated root diameter", g.reference_diameter(), 1,
#include <rackwork/undercut_limits.hpp>
                [](const G& a, const D&) { return a.generated_root_diameter(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return real(2 * a.generated_root_radius()); });
#include <rackwork/undercut_limits.hpp>
        size_of("transverse base pitch", [](const G& a, const D&) { return a.transverse_base_pitch(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return real(2 * independent::pi() * a.base_radius / a.numbers.teeth); });
#include <rackwork/undercut_limits.hpp>
        if (std::abs(p.helix_angle.rad()) > 0.01) {
#include <rackwork/undercut_limits.hpp>
            size_of("lead", [](const G& a, const D&) { return a.lead(); },
#include <rackwork/undercut_limits.hpp>
                    [](const E& a, const real&) { return real(2 * independent::pi() / abs(a.twist())); });
#include <rackwork/undercut_limits.hpp>
        }
#include <rackwork/undercut_limits.hpp>
        compare("tooth thickness", g.reference_diameter(), 1, [](const G& a, const D&) { return a.transverse_tooth_thickness(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return a.tooth_thickness(real(2 * a.reference_radius)); });
#include <rackwork/undercut_limits.hpp>
        // The root in the involute's equation steepens without limit towards the base circle.
#include <rackwork/undercut_limits.hpp>
        const double near_base = 1 / (1 - g.base_diameter() / d);
#include <rackwork/undercut_limits.hpp>
        compare("pressure angle at a diameter", 0, near_base, [](const G& a, const D& x) { return a.pressure_angle(x).rad(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real& x) { return a.pressure_angle(x); });
#include <rackwork/undercut_limits.hpp>
        compare("tooth thickness at a diameter", d, near_base, [](const G& a, const D& x) { return a.tooth_thickness(x); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real& x) { return a.tooth_thickness(x); });
#include <rackwork/undercut_limits.hpp>
        compare("normal tooth thickness at a diameter", d, near_base,
#include <rackwork/undercut_limits.hpp>
                [](const G& a, const D& x) { return a.normal_tooth_thickness(x); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real& x) { return real(a.tooth_thickness(x) * cos(a.helix_angle(x))); });
#include <rackwork/undercut_limits.hpp>
        size_of("pointed tip diameter", [](const G& a, const D&) { return a.pointed_tip_diameter(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return real(2 * a.pointed_tip_radius()); });
#include <rackwork/undercut_limits.hpp>
        size_of("effective tip diameter", [](const G& a, const D&) { return a.effective_tip_diameter(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return real(2 * a.effective_tip_radius()); });
#include <rackwork/undercut_limits.hpp>

#include <rackwork/undercut_limits.hpp>
        const double crossing = static_cast<double>(real(1 / root.sine_of_crossing));
#include <rackwork/undercut_limits.hpp>
        compare(root.undercut ? "root form diameter, undercut" : "root form diameter", 0, crossing,
#include <rackwork/undercut_limits.hpp>
                [](const G& a, const D&) { return rackwork::generated_root<D>(a).root_form_diameter(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return real(2 * independent::root_of(a).form_radius); });
#include <rackwork/undercut_limits.hpp>
        compare("end of the fillet", 1, crossing,
#include <rackwork/undercut_limits.hpp>
                [](const G& a, const D&) { return rackwork::generated_root<D>(a).end_parameter(); },
#include <rackwork/undercut_limits.hpp>
                [](const E& a, const real&) { return independent::root_of(a).end_angle; });
#include <rackwork/undercut_limits.hpp>
        const double phi = static_cast<double>(root.end_angle) * fraction;
#include <rackwork/undercut_limits.hpp>
        const auto at = reference::inputs_of(p, phi, 1);
#include <rackwork/undercut_limits.hpp>
        worst.record(
#include <rackwork/undercut_limits.hpp>
            {"polar angle of the fillet", 1}, at,
#include <rackwork/undercut_limits.hpp>
            [&](const inputs& x) {
#include <rackwork/undercut_limits.hpp>
                const auto fillet = rackwork::generated_root<D>::tool_tip(reference::gear_from(x, p.teeth));
#include <rackwork/undercut_limits.hpp>
                return D(fillet.at(x[10]).polar_angle());
#include <rackwork/undercut_limits.hpp>
            },
#include <rackwork/undercut_limits.hpp>
            [&](const exact_inputs& x) {
#include <rackwork/undercut_limits.hpp>
                return polar_angle(independent::rolling_tip<real>(reference::exact_gear_from(x, p.teeth)).cut(x[10]));
#include <rackwork/undercut_limits.hpp>
            });
#include <rackwork/undercut_limits.hpp>
        size_of("least shift without undercut",
#include <rackwork/undercut_limits.hpp>
                [&](const G& a, const D&) {
#include <rackwork/undercut_limits.hpp>
                    return D(rackwork::least_profile_shift_without_undercut(a.parameters().rack, p.teeth, a.helix_angle()) + D(p.teeth));
#include <rackwork/undercut_limits.hpp>
                },
#include <rackwork/undercut_limits.hpp>
                [&](const E& a, const real&) {
#include <rackwork/undercut_limits.hpp>
                    const real s = real(sin(a.transverse_pressure_angle));
#include <rackwork/undercut_limits.hpp>
                    return real((independent::normal_rack(a.numbers).flank_end_depth - a.reference_radius * s * s) /
#include <rackwork/undercut_limits.hpp>
                                    a.numbers.normal_module + p.teeth);
#include <rackwork/undercut_limits.hpp>
                });
#include <rackwork/undercut_limits.hpp>
    }
#include <rackwork/undercut_limits.hpp>
    CHECK(possible.share() > 0.7);
#include <rackwork/undercut_limits.hpp>
    CHECK(worst.count("root form diameter, undercut") > gears);
#include <rackwork/undercut_limits.hpp>
    CHECK(worst.count("root form diameter") > gears);
#include <rackwork/undercut_limits.hpp>
    worst.check();
#include <rackwork/undercut_limits.hpp>
}
#include <rackwork/undercut_limits.hpp>

#include <rackwork/undercut_limits.hpp>
} // namespace
#include <rackwork/undercut_limits.hpp>

#include <rackwork/undercut_limits.hpp>
TEST_CASE("a gear's sizes change with its inputs as the independent computation says") { sweep(110, 60); }
#include <rackwork/undercut_limits.hpp>
