// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#include "sweeps.hpp"

#include "compare_pair.hpp"

namespace accuracy {

using independent::real;

void sweep_pairs(reference::ledger& all, stream& from, long pairs) {
    while (from.drawn < pairs) {
        ++from.drawn;
        const auto drawn = reference::make_random_pair(from.random);
        const double wider = from.random.uniform(-0.05, 0.25);
        all.at(reference::description(drawn.pinion) + " | " + reference::description(drawn.wheel));
        if (rackwork::check(drawn.pinion) || rackwork::check(drawn.wheel)) continue;
        const rackwork::gear<double> pinion(drawn.pinion);
        const rackwork::gear<double> wheel(drawn.wheel);
        const independent::gear exact_pinion(reference::exact_numbers(drawn.pinion));
        const independent::gear exact_wheel(reference::exact_numbers(drawn.wheel));
        const double sum = drawn.pinion.profile_shift + drawn.wheel.profile_shift;
        const reference::exact_proportions nominal(exact_pinion, exact_wheel, real(sum));
        if (!nominal.possible()) continue;
        const independent::root pinion_root = independent::root_of(exact_pinion);
        const independent::root wheel_root = independent::root_of(exact_wheel);
        if (!reference::leaves_a_flank(exact_pinion, pinion_root) || !reference::leaves_a_flank(exact_wheel, wheel_root)) continue;
        const auto exact_at = [&](const real& at) {
            return independent::mesh(exact_pinion, exact_wheel, pinion_root, wheel_root, at);
        };
        const rackwork::mesh<double> mesh(pinion, wheel);
        const double distance = static_cast<double>(nominal.centre_distance()) + drawn.pinion.normal_module * wider;
        reference::compare_proportions(all, mesh.proportions(), exact_pinion, exact_wheel, sum, distance);
        reference::compare_mesh(all, mesh, exact_at(independent::nominal_centre_distance(exact_pinion, exact_wheel)), true);
        if (!(real(distance) > nominal.bases())) continue;
        reference::compare_mesh(all, rackwork::mesh<double>(pinion, wheel, distance), exact_at(real(distance)), false);
    }
}

} // namespace accuracy
