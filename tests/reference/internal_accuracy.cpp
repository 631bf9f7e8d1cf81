// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Internal gears against the standard's own form of the formulas, with negative tooth numbers, in fifty digits.
#include "independent_internal.hpp"
#include "internal_random.hpp"
#include "ledger.hpp"

#include <rackwork/gear.hpp>

namespace {

using rackwork::gear_size_error_bound;
using rackwork::reference_thickness_error_bound;
using rackwork::thickness_error_bound;

using independent::real;
using independent::signed_gear;

template <class T>
void compare_ring(reference::ledger& worst, const rackwork::gear<T>& g, const signed_gear& exact, const T& fraction) {
    const real d = real(abs(exact.d));
    const real m = exact.numbers.normal_module;
    // Every diameter is the reference diameter and a few modules: the ulp is the reference diameter's.
    const auto diameter = [&](const char* name, const T& value, const real& expected) {
        worst.record(name, value, real(-expected), {gear_size_error_bound, d});
    };
    worst.record("reference diameter", g.reference_diameter(), d, {gear_size_error_bound});
    worst.record("base diameter", g.base_diameter(), real(-exact.d_b), {gear_size_error_bound});
    diameter("tip diameter", g.tip_diameter(), exact.d_a());
    diameter("root diameter", g.root_diameter(), exact.d_f());
    diameter("generated root diameter", g.generated_root_diameter(), exact.d_f_generated());
    diameter("shifted reference diameter", g.shifted_reference_diameter(), real(exact.d + 2 * exact.numbers.shift * m));
    worst.record("transverse pressure angle", g.transverse_pressure_angle().rad(), exact.transverse_pressure_angle,
                 {gear_size_error_bound});
    worst.record("base helix angle", g.base_helix_angle().rad(), exact.base_helix_angle, {gear_size_error_bound});
    const real down = real(m * (exact.numbers.dedendum + abs(exact.numbers.shift)));
    const real up = real(m * (exact.numbers.addendum + abs(exact.numbers.shift) + abs(exact.numbers.tip_alteration)));
    worst.record("addendum", g.addendum(), real((exact.d_a() - exact.d) / 2), {gear_size_error_bound, up});
    worst.record("dedendum", g.dedendum(), real((exact.d - exact.d_f()) / 2), {gear_size_error_bound, down});
    worst.record("transverse tooth thickness", g.transverse_tooth_thickness(), exact.s_t,
                 {reference_thickness_error_bound, g.transverse_pitch()});
    // A difference of the two angles.
    const real pitch_angle = real(independent::pi() / exact.numbers.teeth);
    worst.record("base half angle", g.base_half_angle(), exact.base_half_angle(),
                 {reference_thickness_error_bound, real(pitch_angle + independent::inv(exact.transverse_pressure_angle))});

    const T at = T(g.effective_tip_diameter() + fraction * (g.root_diameter() - g.effective_tip_diameter()));
    const real given = real(-real(at));
    if (-given > -exact.d_b) {
        const real angle = exact.pressure_angle(given);
        const real condition = real(1 / (sin(angle) * sin(angle)));
        worst.record("pressure angle at a diameter", g.pressure_angle(at).rad(), angle, {gear_size_error_bound, real(0), condition});
        worst.record("tooth thickness at a diameter", g.tooth_thickness(at), exact.thickness(given), {thickness_error_bound, real(at)});
        worst.record("space width at a diameter", g.space_width(at),
                     real(-independent::pi() * given / exact.numbers.teeth - exact.thickness(given)), {thickness_error_bound, real(at)});
    }
    worst.record("tip thickness", g.tip_thickness(), exact.thickness(exact.d_a()), {thickness_error_bound, d});
    worst.record("effective tip diameter", g.effective_tip_diameter(), real(-exact.d_a_effective()), {gear_size_error_bound, d});
    // Near the base circle an angle hangs on the last places of the diameter.
    const real roll = real(tan(exact.pressure_angle(exact.d_a_effective())));
    if (roll > 0) worst.record("effective tip roll", g.effective_tip_roll(), roll, {8, real(0), real((1 + roll * roll) / (roll * roll))});
    if (exact.base_half_angle() < 0) {
        // The flatness of the involute function turns an error of the half angle into one of the roll angle over its square.
        const real pointed = real(tan(independent::inverse_inv(real(-exact.base_half_angle()))));
        worst.record("pointed tip diameter", g.pointed_tip_diameter(), real(-exact.pointed_diameter()),
                     {8, real(0),
                      real(1 + (pitch_angle + independent::inv(exact.transverse_pressure_angle)) / (pointed * (1 + pointed * pointed)))});
    }
}

template <class T>
void sweep_rings(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::ledger worst;
    reference::tally possible;
    for (int i = 0; i < gears; ++i) {
        const auto drawn = reference::random_ring(random);
        const T fraction = static_cast<T>(random.uniform(0.05, 0.95));
        const auto p = reference::ring_as<T>(drawn);
        worst.at(reference::description(drawn));
        INFO(reference::description(drawn));
        const signed_gear exact(reference::exact_numbers(p), true);
        possible.count(!rackwork::check(p));
        if (rackwork::check(p)) {
            // Tips within the base circle, or teeth that fill their spaces at the root, or no teeth at the base circle.
            const bool tips_within = exact.d_a() > exact.d_b;
            const real root = exact.d_f_generated() < exact.d_f() ? exact.d_f_generated() : exact.d_f();
            const bool filled = exact.thickness(root) >= -independent::pi() * root / exact.numbers.teeth;
            const bool filled_nominally = exact.thickness(exact.d_f()) >= -independent::pi() * exact.d_f() / exact.numbers.teeth;
            const bool filled_as_generated =
                exact.thickness(exact.d_f_generated()) >= -independent::pi() * exact.d_f_generated() / exact.numbers.teeth;
            const bool refused_rightly = tips_within || filled || filled_nominally || filled_as_generated;
            CHECK(refused_rightly);
            continue;
        }
        compare_ring(worst, rackwork::gear<T>(p), exact, fraction);
    }
    CHECK(possible.share() > 0.6);
    worst.check();
}

} // namespace

TEST_CASE("an internal gear of doubles has the sizes of the standard's formulas for negative tooth numbers") {
    sweep_rings<double>(400, 2000);
}
TEST_CASE("an internal gear of long doubles has them too") { sweep_rings<long double>(401, 400); }
TEST_CASE("an internal gear of floats has them too") { sweep_rings<float>(402, 400); }
