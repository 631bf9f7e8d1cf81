// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A page of a handbook that the compiler has checked: if a number here were wrong, this file would not compile.
#include <rackwork/generated_root.hpp>
#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>
#include <rackwork/mesh.hpp>
#include <rackwork/undercut_limits.hpp>

#include <doctest/doctest.h>

#include <numbers>

namespace {

using namespace rackwork;
using namespace rackwork::literals;

/// The number as printed with some decimals: within half a unit of the last of them.
constexpr bool prints_as(double value, double printed, int decimals) {
    double half_unit = 0.5;
    for (int i = 0; i < decimals; ++i) half_unit /= 10;
    return value - printed <= half_unit && printed - value <= half_unit;
}

constexpr gear<double> spur(int teeth, double shift = 0) {
    return gear{gear_parameters<double>{.normal_module = 1, .teeth = teeth, .profile_shift = shift}};
}

// All numbers of this page are common practice: they stand in any table of the trade, for module 1 and 20 degrees unless said.

// The involute function.
static_assert(prints_as(inv(14.5_deg), 0.005545, 6) && prints_as(inv(15_deg), 0.006150, 6) && prints_as(inv(20_deg), 0.014904, 6));
static_assert(prints_as(inv(22.5_deg), 0.021514, 6) && prints_as(inv(25_deg), 0.029975, 6) && prints_as(inv(30_deg), 0.053751, 6));
static_assert(prints_as(inv(45_deg), 0.214602, 6) && inv(0_deg) == 0);
static_assert(prints_as(inverse_inv(0.0149043838673336).deg(), 20, 10) && prints_as(inverse_inv(0.0537514935913319).deg(), 30, 10));

// Pitches and diameters of a 24-tooth gear of module 1.
static_assert(spur(24).reference_diameter() == 24 && spur(24).tip_diameter() == 26 && spur(24).root_diameter() == 21.5);
static_assert(prints_as(spur(24).base_diameter(), 22.5526, 4) && spur(24).tooth_depth() == 2.25);
static_assert(prints_as(spur(24).normal_pitch(), 3.1416, 4) && prints_as(spur(24).normal_base_pitch(), 2.9521, 4));
static_assert(prints_as(spur(24).normal_tooth_thickness(), 1.5708, 4) && prints_as(spur(24).space_width(24), 1.5708, 4));

// Least number of teeth without undercut: 17.097 of 20 degrees, 32 of 14.5, 12 of 25, by the rule 2/sin^2 alpha.
constexpr basic_rack<double> sharp(double degrees) {
    return {.pressure_angle = deg(degrees), .addendum = 1, .dedendum = 1, .root_fillet_radius = 0};
}
static_assert(prints_as(least_teeth_without_undercut(sharp(20)), 17.097, 3));
static_assert(prints_as(least_teeth_without_undercut(sharp(14.5)), 31.9, 1));
static_assert(prints_as(least_teeth_without_undercut(sharp(25)), 11.2, 1));
// Least shift of a 10-tooth pinion: (17 - z)/17 and a little more exactly.
static_assert(prints_as(least_profile_shift_without_undercut(sharp(20), 10), 0.415, 3));
static_assert(generated_root{spur(10)}.is_undercut() && !generated_root{spur(18)}.is_undercut() && !generated_root{spur(10, 0.45)}.is_undercut());

// Base tangent lengths.
static_assert(prints_as(span_measurement(spur(9), 2), 4.5542, 4) && prints_as(span_measurement(spur(17), 2), 4.6663, 4));
static_assert(prints_as(span_measurement(spur(18), 3), 7.6324, 4) && prints_as(span_measurement(spur(24), 3), 7.7165, 4));
static_assert(prints_as(span_measurement(spur(27), 4), 10.7106, 4) && prints_as(span_measurement(spur(50), 6), 16.9370, 4));
static_assert(recommended_teeth_spanned(spur(17)) == 2 && recommended_teeth_spanned(spur(18)) == 3 && recommended_teeth_spanned(spur(27)) == 4);

// Chordal thickness and height at the reference circle: z sin(90 degrees / z), 1 + z/2 (1 - cos(90 degrees / z)).
static_assert(prints_as(chord_at(spur(20), 20.0).thickness, 1.5692, 4) && prints_as(chord_at(spur(20), 20.0).height, 1.0308, 4));
static_assert(prints_as(chord_at(spur(12), 12.0).thickness, 1.5663, 4) && prints_as(chord_at(spur(12), 12.0).height, 1.0513, 4));
// Constant chord: 1.387 m wide, 0.7476 m below the tip, whatever the number of teeth.
static_assert(prints_as(constant_chord(spur(20)).thickness, 1.3870, 4) && prints_as(constant_chord(spur(20)).height, 0.7476, 4));
static_assert(prints_as(constant_chord(spur(77)).thickness, 1.3870, 4) && prints_as(constant_chord(spur(77)).height, 0.7476, 4));

// A tooth without shift is 0.7 m wide at the tip; with 10 teeth a shift of 0.6 leaves a tenth of the module, one of 0.7 a point.
static_assert(spur(30).tip_thickness() > 0.7 && spur(10, 0.6).tip_thickness() > 0.1 && spur(10, 0.6).tip_thickness() < 0.11 &&
              spur(10, 0.7).tip_thickness() < 0);

// Pairs without shift: the centre distance is half the sum of the teeth, the clearance a quarter of the module, the contact
// ratio about 1.6, and there is no backlash.
constexpr mesh pair{spur(20), spur(40)};
static_assert(pair.centre_distance() == 30 && pair.gear_ratio() == 2);
static_assert(prints_as(pair.working_pressure_angle().deg(), 20, 12) && prints_as(pair.bottom_clearance().pinion, 0.25, 12));
static_assert(prints_as(pair.transverse_contact_ratio(), 1.635, 3) && prints_as(mesh{spur(20), spur(20)}.transverse_contact_ratio(), 1.557, 3));
static_assert(pair.circumferential_backlash() == 0 && pair.normal_backlash() == 0);

// V-minus-zero: opposite shifts leave the centre distance as it is.
constexpr mesh balanced{spur(12, 0.3), spur(48, -0.3)};
static_assert(prints_as(balanced.centre_distance(), 30, 12) && prints_as(balanced.working_pressure_angle().deg(), 20, 10));
// A positive sum opens it, but by less than the sum.
constexpr mesh opened{spur(20, 0.5), spur(30, 0.5)};
static_assert(opened.centre_distance() > 25.8 && opened.centre_distance() < 26);

// Inches: ten teeth to the inch are 2.54 mm of module.
static_assert(module_from_diametral_pitch(10.0) == 0.1 && module_in_millimetres_from_diametral_pitch(10.0) == 2.54);
// The wire of the American tables for external gears is 1.728/P.
static_assert(wire_table_pin_factor == 1.728);

} // namespace

TEST_CASE("the page has been checked by the compiler") {
    // The same few lines at run time, so that the program has something to show.
    CHECK(prints_as(inv(20_deg), 0.014904, 6));
    CHECK(prints_as(span_measurement(spur(24), 3), 7.7165, 4));
    CHECK(prints_as(mesh{spur(20), spur(40)}.transverse_contact_ratio(), 1.635, 3));
}
