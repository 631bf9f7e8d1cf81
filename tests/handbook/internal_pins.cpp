// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Printed dimensions between wires and pins of internal gears, and over a pin on a rack.
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/rack.hpp>

#include "printed.hpp"

#include <doctest/doctest.h>

using handbook::prints;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;

namespace {

struct entry {
    int teeth;
    double degrees;
    double dimension;
};

// Machinery's Handbook, dimensions between wires of internal spur gears of 1 diametral pitch, wires of 1.44; from memory.
constexpr entry between_wires[] = {{10, 14.5, 8.8337},  {10, 17.5, 8.7383},  {10, 20, 8.6617},  {10, 30, 8.3966}, {12, 14.5, 10.8394},
                                   {12, 17.5, 10.7404}, {12, 20, 10.6623}, {12, 25, 10.5210}, {12, 30, 10.3973}};

} // namespace

TEST_CASE("the dimensions between wires of internal spur gears are those of the table") {
    for (const entry& e : between_wires) {
        CAPTURE(e.teeth);
        CAPTURE(e.degrees);
        // Of so few teeth only the middle of the flank is above the base circle; the wires touch there.
        const gear<double> g{{.normal_module = 1,
                              .teeth = e.teeth,
                              .kind = gear_kind::internal,
                              .rack = {.pressure_angle = deg(e.degrees), .addendum = 0.1, .dedendum = 0.2, .root_fillet_radius = 0}}};
        CHECK(prints(dimension_between_pins(g, rackwork::wire_table_internal_pin_factor), e.dimension, 4));
        CHECK(prints(dimension_between_balls(g, rackwork::wire_table_internal_pin_factor), e.dimension, 4));
    }
}

TEST_CASE("a 40-tooth internal spur gear of module 1 between pins of 1.7") {
    // Elements of Metric Gear Technology, tables of the pin for internal spur gears and the dimension between pins; from memory.
    const gear<double> g{{.normal_module = 1, .teeth = 40, .kind = gear_kind::internal}};
    CHECK(prints(rackwork::pi<double>() / 40 - g.base_half_angle(), 0.054174, 6));
    CHECK(prints(ideal_pin_diameter(g), 1.6489, 4));
    const auto at_pin = g.pressure_angle(position_of_pin(g, 1.7).centre_diameter);
    CHECK(prints(inv(at_pin), 0.0089467, 7));
    CHECK(prints(at_pin.deg(), 16.9521, 4));
    CHECK(prints(dimension_between_pins(g, 1.7), 37.5951, 4));
}

TEST_CASE("a rack of module 1 over a pin of 1.7") {
    // Elements of Metric Gear Technology, table of the dimension over a pin of a spur rack; from memory. Pitch line at 14.
    const rackwork::toothed_rack<double> r{.normal_module = 1, .datum_height = 14};
    CHECK(prints(normal_tooth_thickness(r), 1.5708, 4));
    CHECK(prints(ideal_pin_diameter(r), 1.6716, 4));
    CHECK(prints(height_over_pin(r, 1.7), 15.1774, 4));
}
