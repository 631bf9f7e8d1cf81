// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Two files that use the same templates, and a constant expression that needs none of their code.
#include "pinion.hpp"

#include <rackwork/instances.hpp>
#include <rackwork/version.hpp>

#include <iostream>

int main(int argument_count, char**) {
    constexpr rackwork::gear<double> known{rackwork::gear_parameters<double>{.normal_module = 3, .teeth = 15, .profile_shift = 0.4}};
    static_assert(known.tip_diameter() == 53.4);
    const rackwork::gear<double> wheel{rackwork::gear_parameters<double>{.normal_module = 3, .teeth = 40 + argument_count}};
    const rackwork::mesh<double> pair{known, wheel};
    if (!(pair.transverse_contact_ratio() > 1) || !rackwork::findings(known).empty()) return 1;
    if (rackwork::polyline_of(rackwork::outline_of(wheel), 0.01).points.empty()) return 1;
    std::cout << "rackwork " << RACKWORK_VERSION_STRING << ": tip diameter " << tip_diameter_of_pinion(14 + argument_count) << '\n';
}
