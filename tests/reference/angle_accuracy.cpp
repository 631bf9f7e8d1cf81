// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Angles, pitches and the racks that follow from printed numbers, to fifty digits.
#include "ledger.hpp"
#include "random_source.hpp"

#include <limits>

#include <rackwork/basic_rack.hpp>
#include <rackwork/core/angle.hpp>

namespace {

using independent::pi;
using independent::real;

template <class T>
void angles(std::uint64_t seed) {
    support::random_source random(seed);
    reference::ledger worst;
    for (int i = 0; i < 20000; ++i) {
        const T degrees = static_cast<T>(random.uniform(-360.0, 360.0));
        worst.record("degrees to radians", rackwork::deg(degrees).rad(), real(real(degrees) * pi() / 180), {2});
        const T radians = static_cast<T>(random.uniform(-7.0, 7.0));
        worst.record("radians to degrees", rackwork::rad(radians).deg(), real(real(radians) * 180 / pi()), {2});
    }
    worst.check();
}

template <class T>
void racks_and_pitches(std::uint64_t seed) {
    support::random_source random(seed);
    reference::ledger worst;
    // A quotient is rounded once; the other two carry one rounding more.
    for (int i = 0; i < 2000; ++i) {
        const T pitch = static_cast<T>(random.uniform(0.5, 200.0));
        worst.record("module in inches", rackwork::module_from_diametral_pitch(pitch), real(1 / real(pitch)), {0.5});
        worst.record("module in millimetres", rackwork::module_in_millimetres_from_diametral_pitch(pitch),
                     real(real("25.4") / real(pitch)), {2});
        const rackwork::basic_rack<T> fine = rackwork::ansi_b6_7_fine_20(pitch);
        // 1.2/P + 0.002 in, as a factor of 1/P.
        worst.record("fine-pitch dedendum", fine.dedendum, real(real("1.2") + real("0.002") * real(pitch)), {2});
    }
    const auto printed = [&](const rackwork::basic_rack<T>& rack, const char* angle, const char* addendum, const char* dedendum,
                             const char* radius) {
        worst.record("printed pressure angle", rack.pressure_angle.rad(), real(real(angle) * pi() / 180), {2});
        worst.record("printed addendum", rack.addendum, real(addendum), {0.5});
        worst.record("printed dedendum", rack.dedendum, real(dedendum), {0.5});
        worst.record("printed fillet radius", rack.root_fillet_radius, real(radius), {0.5});
    };
    printed(rackwork::iso_53_a, "20", "1", "1.25", "0.38");
    printed(rackwork::iso_53_b, "20", "1", "1.25", "0.3");
    printed(rackwork::iso_53_c, "20", "1", "1.25", "0.25");
    printed(rackwork::iso_53_d, "20", "1", "1.4", "0.39");
    worst.check();
}

} // namespace

TEST_CASE("an angle keeps its value from degrees to radians and back") {
    angles<double>(10);
    angles<long double>(11);
    angles<float>(12);
}

TEST_CASE("pitches and printed racks are right to the last place") {
    racks_and_pitches<double>(13);
    racks_and_pitches<long double>(14);
    racks_and_pitches<float>(15);
}
