// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// One ball, three pins, and pins on racks to fifty digits.
#include "../reference/independent_pins.hpp"
#include "../reference/ledger.hpp"
#include "../reference/random_gears.hpp"

#include "measure_helicoid.hpp"

#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/rack.hpp>
#include <rackwork/measure/radial_ball.hpp>

using independent::real;
using independent::vector3;
using reference::ledger;

TEST_CASE("three pins and one ball on external gears, to fifty digits") {
    support::random_source random(654);
    ledger worst;
    for (int i = 0; i < 150; ++i) {
        rackwork::gear_parameters<double> p = measure::random_gear(random);
        if (i % 3 != 0) p.helix_angle = {};
        if (check(p)) continue;
        const rackwork::gear<double> g(p);
        if (!(rackwork::root_form_diameter(g) < g.shifted_reference_diameter())) continue;
        worst.at(reference::description(p));
        const independent::gear exact(reference::exact_numbers(p));
        const double pin = rackwork::ideal_pin_diameter(g);
        const auto lies = independent::ball_in_space(exact, real(pin));
        REQUIRE(lies);
        worst.record("radial dimension over a ball", rackwork::radial_dimension_over_ball(g, pin),
                     real(lies->centre_radius + lies->diameter / 2), {16});
        if (p.teeth % 2 == 0 || p.helix_angle.rad() != 0) continue;
        const vector3<> third{real(-lies->centre_radius), real(0), real(0)};
        const vector3<> neighbour = turned(vector3<>{lies->centre_radius, real(0), real(0)}, real(independent::pi() / p.teeth));
        worst.record("dimension over three pins", rackwork::dimension_over_three_pins(g, pin),
                     real(neighbour.x - third.x + lies->diameter), {16});
    }
    CHECK(worst.count("dimension over three pins") > 20);
    worst.check();
}

TEST_CASE("pins on racks, to fifty digits") {
    support::random_source random(655);
    ledger worst;
    for (int i = 0; i < 500; ++i) {
        const double m = random.uniform(0.1, 25);
        const rackwork::toothed_rack<double> r{.normal_module = m,
                                               .profile = {.pressure_angle = rackwork::deg(random.uniform(14.5, 30)), .root_fillet_radius = 0},
                                               .thickness_allowance = random.uniform(-0.1, 0.05) * m};
        const double pin = ideal_pin_diameter(r) * random.uniform(0.9, 1.2);
        // The pin's centre is as far from the middle of the tooth beside it as half a pitch, and from its flank as half its own diameter.
        const real alpha = real(r.profile.pressure_angle.rad());
        const real half_tooth = real((independent::pi() * real(m) / 2 + real(r.thickness_allowance)) / 2);
        const real half_pitch = real(independent::pi() * real(m) / 2);
        const vector3<> along{real(-sin(alpha)), real(cos(alpha)), real(0)};
        const auto off = [&](const real& y) {
            return real(abs(cross(vector3<>{real(half_pitch - half_tooth), y, real(0)}, along).z) - real(pin) / 2);
        };
        const real centre = independent::root_near(off, real(0), real(m));
        const auto lies = position_of_pin(r, pin);
        const real size = real(real(pin) / tan(alpha));
        worst.record("height of the pin's centre", lies.centre_height, centre, {8, size});
        const real contact = dot(vector3<>{real(half_pitch - half_tooth), centre, real(0)}, along) * along.y;
        worst.record("height of the pin's contact", lies.contact_height, contact, {8, size});
        worst.record("height over the pin", height_over_pin(r, pin), real(centre + real(pin) / 2), {8, size});
        worst.record("pin that touches on the datum line", ideal_pin_diameter(r),
                     real(2 * (half_pitch - half_tooth) / cos(alpha)), {4});
    }
    worst.check();
}
