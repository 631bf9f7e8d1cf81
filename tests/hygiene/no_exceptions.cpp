// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A program built with -fno-exceptions: it asks before it builds, and then uses a gear, a mesh and the measuring headers.
#include <rackwork/gear.hpp>
#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>
#include <rackwork/mesh.hpp>

#include <cstdio>
#include <limits>

namespace {

int faults = 0;

void expect(bool holds, const char* sentence) {
    if (holds) return;
    ++faults;
    std::printf("not so: %s\n", sentence);
}

bool close(double value, double expected) {
    // A dozen roundings of a well-conditioned result.
    const double difference = value > expected ? value - expected : expected - value;
    return difference <= 12 * std::numeric_limits<double>::epsilon() * expected;
}

} // namespace

int main() {
    using namespace rackwork::literals;

    rackwork::gear_parameters<double> parameters{.normal_module = 3, .teeth = 0, .profile_shift = 0.4};
    expect(static_cast<bool>(check(parameters)), "a gear without teeth is objected to before it is built");
    parameters.teeth = 15;
    expect(!check(parameters), "a sound gear is not objected to");

    const rackwork::gear pinion{parameters};
    const rackwork::gear wheel{rackwork::gear_parameters<double>{.normal_module = 3, .teeth = 40}};
    expect(pinion.tip_diameter() == 53.4, "the tip diameter is 3 (15 + 2 + 2 * 0.4)");

    const rackwork::mesh pair{pinion, wheel};
    expect(pair.transverse_contact_ratio() > 1, "one pair of teeth hands over to the next");
    expect(pair.centre_distance() > 82.5, "positive shift moves the gears apart");

    const double thickness = pinion.normal_tooth_thickness();
    expect(close(span_measurement(pinion, 3) - span_measurement(pinion, 2),
                 pinion.normal_pitch() * cos(pinion.normal_pressure_angle())),
           "one tooth more lengthens the span by a base pitch");
    expect(close(normal_tooth_thickness_from_span(pinion, 3, span_measurement(pinion, 3)), thickness),
           "a span gives back the thickness");
    expect(close(normal_tooth_thickness_from_pins(pinion, 5.5, dimension_over_pins(pinion, 5.5)), thickness),
           "a dimension over pins gives back the thickness");
    expect(chord_at(pinion, pinion.reference_diameter()).thickness < thickness, "a chord is shorter than its arc");
    return faults == 0 ? 0 : 1;
}
