// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Random internal gears for the sweeps.
#pragma once

#include "random_gears.hpp"

namespace reference {

template <class T>
rackwork::gear_parameters<T> ring_as(const rackwork::gear_parameters<double>& drawn) {
    rackwork::gear_parameters<T> p = parameters_as<T>(drawn);
    p.kind = rackwork::gear_kind::internal;
    return p;
}

/// Internal gears have more teeth and, most of them, shifts that keep the tips outside the base circle.
inline rackwork::gear_parameters<double> random_ring(support::random_source& random) {
    rackwork::gear_parameters<double> p = random_gear(random);
    if (p.teeth < 30) p.teeth += 30;
    p.rack.root_fillet_radius *= 0.999999; // a full radius must not become more than that in another type
    choose_own(random, p, -1.0, 0.5);
    return p;
}

} // namespace reference
