// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A page on internal gears and pinion-type cutters that the compiler has checked, under its default limits: if a number here were wrong,
// this file would not compile.
#include <rackwork/generated_root.hpp>
#include <rackwork/mesh.hpp>

#include <doctest/doctest.h>

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
constexpr gear<double> ring(int teeth, double shift = 0) {
    return gear{gear_parameters<double>{.normal_module = 1, .teeth = teeth, .kind = gear_kind::internal, .profile_shift = shift}};
}

// Common practice: an internal gear's tip circle is the smaller one.
static_assert(ring(60).reference_diameter() == 60 && ring(60).tip_diameter() == 58 && ring(60).root_diameter() == 62.5);
static_assert(ring(60).is_internal() && ring(60).addendum() == 1 && ring(60).dedendum() == 1.25 && ring(60).teeth() == 60);
static_assert(prints_as(ring(60).base_diameter(), 56.3816, 4) && prints_as(ring(60).normal_tooth_thickness(), 1.5708, 4));
// Its tooth has the form of an external gear's space.
static_assert(prints_as(ring(60).tooth_thickness(61) - spur(60).space_width(61), 0, 12));
// A positive shift thickens the tooth and moves the tip inward.
static_assert(ring(60, 0.25).tip_diameter() == 57.5 && ring(60, 0.25).normal_tooth_thickness() > 1.7);

// A pair without shift: half the difference of the teeth, 20 degrees, a quarter of the module of clearance, no backlash. The wheel turns
// the pinion's way.
constexpr mesh pair{spur(20), ring(60)};
static_assert(pair.centre_distance() == 20 && pair.gear_ratio() == 3 && pair.is_internal() && pair.circumferential_backlash() == 0);
static_assert(prints_as(pair.working_pressure_angle().deg(), 20, 12) && prints_as(pair.bottom_clearance().pinion, 0.25, 12));
static_assert(prints_as(pair.working_diameter().pinion, 20, 12) && prints_as(pair.working_diameter().wheel, 60, 12));
// It has more contact than the external pair of the same teeth.
static_assert(pair.transverse_contact_ratio() > mesh{spur(20), spur(60)}.transverse_contact_ratio());
static_assert(pair.transverse_contact_ratio() > 1.7 && pair.transverse_contact_ratio() < 2);

// 16 teeth in 24, shifts 0 and -0.5 in our sign. Elements of Metric Gear Technology, table 5-1, for module 3; from memory.
constexpr mesh shifted{spur(16), ring(24, -0.5)};
static_assert(prints_as(3 * shifted.centre_distance(), 13.1683, 4) && prints_as(inv(shifted.working_pressure_angle()), 0.060401, 6));
static_assert(prints_as(3 * shifted.wheel().tip_diameter(), 69, 12) && prints_as(3 * shifted.wheel().root_diameter(), 82.5, 12));

// Opposite shifts leave the centre distance of an external pair, equal ones add up; in an internal pair it is the other way about.
static_assert(prints_as(mesh{spur(20, 0.3), ring(60, -0.3)}.centre_distance(), 20, 12) && mesh{spur(20), ring(60, -0.3)}.centre_distance() > 20.2);
// Closer together an internal pair has backlash.
static_assert(mesh{spur(20), ring(60), 19.9}.normal_backlash() > 0.06 && mesh{spur(20), ring(60), 20.1}.normal_backlash() < -0.06);

// A helical pair of equal hands, with allowances and widths.
constexpr gear_parameters<double> helical_pinion{
    .normal_module = 2, .teeth = 19, .helix_angle = 15_deg, .profile_shift = 0.2, .thickness_allowance = -0.05, .face_width = 30};
constexpr gear_parameters<double> helical_wheel{.normal_module = 2,
                                                .teeth = 77,
                                                .kind = gear_kind::internal,
                                                .helix_angle = 15_deg,
                                                .profile_shift = -0.2,
                                                .thickness_allowance = -0.05,
                                                .face_width = 30};
constexpr mesh<double> helical{gear{helical_pinion}, gear{helical_wheel}};
static_assert(prints_as(helical.centre_distance(), 58 / 0.9659258262890683, 9) && prints_as(helical.overlap_contact_ratio(), 1.236, 3));
static_assert(prints_as(helical.circumferential_backlash(), 0.1 / 0.9659258262890683, 6));

// Cutters: with opposite shifts gear and cutter roll on their reference circles, and the root is that of the cutter's addendum.
constexpr pinion_type_cutter<double> cutter_of_20{.teeth = 20, .profile_shift = 0.25, .addendum = 1.25, .tip_radius = 0.1};
constexpr generated_root<double> root_of_ring{ring(60, -0.25), cutter_of_20};
static_assert(prints_as(root_of_ring.root_diameter(), 63, 12) && !root_of_ring.is_undercut());
static_assert(root_of_ring.root_form_diameter() < root_of_ring.root_diameter() && root_of_ring.root_form_diameter() > ring(60, -0.25).tip_diameter());
constexpr generated_root<double> root_of_gear{spur(30, -0.25), cutter_of_20};
static_assert(prints_as(root_of_gear.root_diameter(), 27, 12) && root_of_gear.root_form_diameter() > 27);
// A cutter undercuts less than a rack does, and the rack is the cutter of endless teeth.
static_assert(generated_root<double>{spur(15)}.is_undercut() &&
              !generated_root<double>{spur(15), pinion_type_cutter<double>{.teeth = 15, .addendum = 1.25, .tip_radius = 0.15}}.is_undercut());
static_assert(generated_root<double>{spur(12), pinion_type_cutter<double>{.teeth = 100, .addendum = 1.25, .tip_radius = 0.2}}.is_undercut());
static_assert(prints_as(generated_root<double>{spur(30), pinion_type_cutter<double>{.teeth = 2000000, .addendum = 1.25, .tip_radius = 0.38}}.root_form_diameter(),
                        generated_root<double>{spur(30)}.root_form_diameter(), 4));
// A full tip radius leaves no root land.
constexpr double full = full_tip_radius(ring(60), pinion_type_cutter<double>{.teeth = 20});
static_assert(generated_root<double>{ring(60), pinion_type_cutter<double>{.teeth = 20, .tip_radius = full}}.root_land_half_angle() == 0);
static_assert(generated_root<double>{ring(60), pinion_type_cutter<double>{.teeth = 20, .tip_radius = 0.9 * full}}.root_land_half_angle() > 0);
// What cannot be made is said before it is tried.
static_assert(generated_root<double>::check(ring(60), rack_type_cutter<double>{}));
static_assert(generated_root<double>::check(ring(60), pinion_type_cutter<double>{.teeth = 60}));
static_assert(!generated_root<double>::check(ring(60), pinion_type_cutter<double>{.teeth = 30}));

// A tool with protuberance undercuts on purpose, the more so the further it stands out.
constexpr rack_type_cutter<double> grinding_stock{
    .addendum = 1.4, .tip_radius = 0.3, .protuberance = 0.06, .protuberance_angle = 10_deg, .finishing_allowance = 0.03};
static_assert(generated_root<double>{spur(40), grinding_stock}.is_undercut() && prints_as(generated_root<double>{spur(40), grinding_stock}.root_diameter(), 37.2, 12));
static_assert(generated_root<double>{spur(40), grinding_stock}.root_form_diameter() < spur(40).tip_diameter() - 2);

} // namespace

TEST_CASE("the page on internal gears has been checked by the compiler") {
    // The same few lines at run time, so that the program has something to show.
    CHECK(ring(60).tip_diameter() == 58);
    CHECK(mesh{spur(20), ring(60)}.centre_distance() == 20);
    CHECK(prints_as(generated_root<double>(ring(60, -0.25), cutter_of_20).root_diameter(), 63, 12));
}
