// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#include "sweeps.hpp"

#include "compare_gear.hpp"
#include "compare_measures.hpp"
#include "compare_root.hpp"

namespace accuracy {

using independent::real;

namespace {

/// The roll angle at the root form diameter. Where the tooth is not undercut it is a difference of two lengths over the base radius; where it
/// is, it is formed from the radius of the crossing, and the more uncertain the nearer that lies to the base circle.
void compare_roll(reference::ledger& all, const rackwork::generated_root<double>& root, const independent::gear& exact,
                  const independent::root& exact_root) {
    const real roll = independent::unwound_to(exact.base_radius, exact_root.form_radius);
    if (roll == 0) return;
    if (exact_root.undercut) {
        all.record("roll angle at the root form diameter, undercut", root.root_form_roll(), roll,
                   {16, real(0), real((1 + roll * roll) / (roll * roll) / exact_root.sine_of_crossing)});
        return;
    }
    const real from_pitch_point = real(tan(exact.transverse_pressure_angle));
    all.record("roll angle at the root form diameter", root.root_form_roll(), roll,
               {16, real(from_pitch_point + abs(real(from_pitch_point - roll)))});
}

} // namespace

void sweep_gears(reference::ledger& all, long gears) {
    support::random_source random(910);
    for (long i = 0; i < gears; ++i) {
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
