// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#include "sweeps.hpp"

#include "compare_gear.hpp"
#include "compare_measures.hpp"
#include "compare_root.hpp"

namespace accuracy {

using independent::real;

namespace {

/// The roll angle at the root form diameter: a difference of two lengths over the base radius, from the pitch point to the base circle and
/// to where the tool's flank ends. An undercut fillet crosses the involute at a part of the angle e by which that end lies beyond the base
/// circle. What decides there, in angles of e^3, are sums of the fillet's leaning by e^2 cot alpha, so that last places count in cot alpha.
void compare_roll(reference::ledger& all, const rackwork::generated_root<double>& root, const independent::gear& exact,
                  const independent::root& exact_root) {
    const real angle = exact.transverse_pressure_angle;
    const real tangent = tan(angle);
    const real depths = real(exact.numbers.dedendum * exact.numbers.normal_module + abs(exact.generating_distance));
    all.record(exact_root.undercut ? "roll angle at the root form diameter, undercut" : "roll angle at the root form diameter",
               root.root_form_roll(), independent::unwound_to(exact.base_radius, exact_root.form_radius),
               {16, real(tangent + depths / (exact.base_radius * sin(angle)) + (exact_root.undercut ? real(1 / tangent) : real(0)))});
}

} // namespace

void sweep_gears(reference::ledger& all, stream& from, long gears) {
    support::random_source& random = from.random;
    while (from.drawn < gears) {
        const long i = from.drawn++;
        auto drawn = reference::random_gear(random, 43.5);
        if (random.coin()) drawn.teeth = random.integer(5, 40);
        const double fraction = random.uniform(0.02, 0.98);
        all.at(reference::description(drawn));
        if (rackwork::check(drawn)) continue;
        const rackwork::gear<double> g(drawn);
        const independent::gear exact(reference::exact_numbers(drawn));
        reference::compare_rack(all, drawn.rack, exact.numbers);
        reference::compare_gear(all, g, exact, fraction);
        reference::compare_limits(all, g, exact);
        const independent::root exact_root = independent::root_of(exact);
        if (!reference::leaves_a_flank(exact, exact_root)) continue;
        const rackwork::generated_root<double> root(g);
        reference::compare_root(all, root, exact, exact_root);
        reference::compare_fillet(all, root, exact, fraction);
        compare_roll(all, root, exact, exact_root);
        const double form = static_cast<double>(real(2 * exact_root.form_radius));
        const double diameter = form + fraction * (static_cast<double>(real(2 * exact.effective_tip_radius())) - form);
        // Thicknesses found back from readings take the references many steps.
        const bool also_thicknesses = i % 8 == 0;
        if (also_thicknesses) {
            const int widest = std::min(g.teeth() - 1, 2 + g.teeth() / 2);
            reference::compare_span(all, g, exact, 1 + static_cast<int>(fraction * widest));
            reference::compare_constant_chord(all, g, exact);
            reference::compare_chord(all, g, exact, diameter);
        }
        reference::compare_ideal_pin(all, g, exact, exact_root);
        reference::compare_pins(all, g, exact, diameter, also_thicknesses);
    }
}

} // namespace accuracy
