// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a user of the installed library writes first. Every way of getting at the headers builds and runs this.
#include <rackwork/gear.hpp>
#include <rackwork/version.hpp>

#include <iostream>

int main() {
    constexpr auto pinion =
        rackwork::gear{rackwork::gear_parameters<double>{.normal_module = 3, .teeth = 15, .profile_shift = 0.4}};
    static_assert(pinion.tip_diameter() == 53.4);
    std::cout << "rackwork " << RACKWORK_VERSION_STRING << ": tip diameter " << pinion.tip_diameter() << '\n';
}
