// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Whole data sheets of pairs computed by the compiler, under its default limits, and again by the program.
#include <rackwork/mesh.hpp>

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>

namespace {

using namespace rackwork;
using namespace rackwork::literals;

/// Every number of a gear that has a name.
template <class T>
constexpr std::array<T, 30> sheet_of_gear(const gear<T>& g) {
    const bool helical = g.helix_angle().rad() != T(0);
    const generated_root<T> root{g};
    return {g.generating_profile_shift(),
            g.transverse_module(),
            g.transverse_pressure_angle().rad(),
            g.base_helix_angle().rad(),
            g.reference_diameter(),
            g.base_diameter(),
            g.tip_diameter(),
            g.root_diameter(),
            g.generated_root_diameter(),
            g.shifted_reference_diameter(),
            g.addendum(),
            g.dedendum(),
            g.tooth_depth(),
            g.normal_pitch(),
            g.transverse_pitch(),
            g.normal_base_pitch(),
            g.transverse_base_pitch(),
            helical ? g.axial_pitch() : T(0),
            helical ? g.lead() : T(0),
            g.normal_tooth_thickness(),
            g.transverse_tooth_thickness(),
            g.tip_thickness(),
            g.pointed_tip_diameter(),
            g.effective_tip_diameter(),
            g.base_half_angle(),
            g.pressure_angle(g.tip_diameter()).rad(),
            g.helix_angle(g.tip_diameter()).rad(),
            g.space_width(g.tip_diameter()),
            root.root_form_diameter(),
            root.fillet().position(root.end_parameter()).x};
}

/// Every number of a pair.
template <class T>
constexpr std::array<T, 29> sheet_of_pair(const mesh<T>& m) {
    return {m.gear_ratio(),
            m.centre_distance(),
            m.reference_centre_distance(),
            m.working_pressure_angle().rad(),
            m.working_diameter().pinion,
            m.working_diameter().wheel,
            m.root_form_diameter().pinion,
            m.root_form_diameter().wheel,
            m.active_tip_diameter().pinion,
            m.active_tip_diameter().wheel,
            m.active_root_diameter().pinion,
            m.active_root_diameter().wheel,
            m.length_of_path_of_contact(),
            m.transverse_contact_ratio(),
            m.overlap_contact_ratio(),
            m.total_contact_ratio(),
            m.bottom_clearance().pinion,
            m.bottom_clearance().wheel,
            m.circumferential_backlash(),
            m.normal_backlash(),
            m.radial_backlash(),
            m.approximate_radial_backlash(),
            m.angular_backlash().pinion.rad(),
            m.angular_backlash().wheel.rad(),
            m.double_flank_centre_distance(),
            m.path_between_base_circles(),
            m.reach_of_mating_tip().pinion,
            m.reach_of_mating_tip().wheel,
            m.transverse_contact_ratio()};
}

/// The compiler's elementary functions and the program's differ by 2 epsilon; what is computed from them differs by a few more of
/// the size that goes into it: the diameters.
template <class T, std::size_t n>
void same_numbers(const std::array<T, n>& compiled, const std::array<T, n>& computed, T size) {
    for (std::size_t i = 0; i < n; ++i) {
        CAPTURE(i);
        CHECK(std::isfinite(compiled[i]));
        CHECK(std::fabs(compiled[i] - computed[i]) <= 64 * std::numeric_limits<T>::epsilon() * size);
    }
}

/// Not known to the compiler, so that the program has to compute.
template <class T>
gear_parameters<T> at_run_time(const gear_parameters<T>& p) {
    const volatile T module = p.normal_module;
    gear_parameters<T> q = p;
    q.normal_module = module;
    return q;
}

// A spur pair with shifts.
constexpr gear_parameters<double> spur_pinion{.normal_module = 3, .teeth = 15, .profile_shift = 0.4};
constexpr gear_parameters<double> spur_wheel{.normal_module = 3, .teeth = 44, .profile_shift = 0.1};
constexpr gear<double> pinion{spur_pinion};
constexpr gear<double> wheel{spur_wheel};
constexpr mesh<double> spur_pair{pinion, wheel};
static_assert(pinion.reference_diameter() == 45 && pinion.tip_diameter() == 53.4 && pinion.teeth() == 15);
static_assert(spur_pair.centre_distance() > 89.9 && spur_pair.centre_distance() < 90 && spur_pair.circumferential_backlash() == 0);
static_assert(sheet_of_gear(pinion)[4] == 45 && sheet_of_pair(spur_pair)[1] == spur_pair.centre_distance());

// A helical pair with allowances at a given centre distance.
constexpr gear_parameters<double> helical_pinion{
    .normal_module = 2.5, .teeth = 19, .helix_angle = 17.5_deg, .profile_shift = 0.25, .thickness_allowance = -0.06, .face_width = 40};
constexpr gear_parameters<double> helical_wheel{
    .normal_module = 2.5, .teeth = 62, .helix_angle = -17.5_deg, .profile_shift = -0.1, .thickness_allowance = -0.09, .face_width = 38};
constexpr mesh<double> helical_pair{gear{helical_pinion}, gear{helical_wheel}, 106.75};
static_assert(helical_pair.overlap_contact_ratio() > 1.4 && helical_pair.overlap_contact_ratio() < 1.5);
static_assert(helical_pair.circumferential_backlash() > 0.1 && helical_pair.radial_backlash() > helical_pair.approximate_radial_backlash());

// An undercut pinion.
constexpr gear_parameters<double> undercut_pinion{.normal_module = 2, .teeth = 8};
constexpr gear_parameters<double> undercut_wheel{.normal_module = 2, .teeth = 30};
constexpr generated_root<double> undercut{gear{undercut_pinion}};
static_assert(undercut.is_undercut() && undercut.root_form_diameter() > gear{undercut_pinion}.base_diameter());
constexpr mesh<double> undercut_pair{gear{undercut_pinion}, gear{undercut_wheel}};
static_assert(undercut_pair.transverse_contact_ratio() < 1.4 && undercut_pair.transverse_contact_ratio() > 0.5);

// A pair in inches, eight to the inch.
constexpr gear_parameters<double> inch_pinion{.normal_module = module_from_diametral_pitch(8.0), .teeth = 16, .rack = ansi_b6_1_coarse_20};
constexpr gear_parameters<double> inch_wheel{.normal_module = module_from_diametral_pitch(8.0), .teeth = 48, .rack = ansi_b6_1_coarse_20};
constexpr mesh<double> inch_pair{gear{inch_pinion}, gear{inch_wheel}};
static_assert(inch_pair.centre_distance() == 4 && inch_pair.pinion().reference_diameter() == 2 && inch_pair.wheel().tip_diameter() == 6.25);

// Designing while compiling: from a centre distance to shifts and back.
constexpr pair_proportions<double> proportions{.normal_module = 2, .pinion_teeth = 17, .wheel_teeth = 41, .helix_angle = 10_deg};
constexpr double sum = profile_shift_sum(proportions, 60.0);
constexpr for_both<double> shifts = split_profile_shift(sum, 17, 41);
static_assert(centre_distance(proportions, sum) - 60 < 1e-12 && 60 - centre_distance(proportions, sum) < 1e-12);
static_assert(shifts.pinion + shifts.wheel - sum < 1e-15 && shifts.pinion > shifts.wheel);
static_assert(tip_alteration_for_clearance(proportions, 60.0, sum) < 0);
static_assert(!check(proportions) && check(pair_proportions<double>{}));

// The other types.
constexpr mesh<float> in_float{gear{gear_parameters<float>{.normal_module = 3, .teeth = 15, .profile_shift = 0.4F}},
                               gear{gear_parameters<float>{.normal_module = 3, .teeth = 44}}};
static_assert(in_float.centre_distance() > 89.5F && in_float.transverse_contact_ratio() > 1.3F);
constexpr mesh<long double> in_long_double{gear{gear_parameters<long double>{.normal_module = 3, .teeth = 9}},
                                           gear{gear_parameters<long double>{.normal_module = 3, .teeth = 44}}};
static_assert(in_long_double.transverse_contact_ratio() > 1 && in_long_double.root_form_diameter().pinion > 0);

constexpr auto spur_sheet = sheet_of_gear(pinion);
constexpr auto helical_sheet = sheet_of_gear(gear{helical_pinion});
constexpr auto undercut_sheet = sheet_of_gear(gear{undercut_pinion});
constexpr auto spur_pair_sheet = sheet_of_pair(spur_pair);
constexpr auto helical_pair_sheet = sheet_of_pair(helical_pair);
constexpr auto undercut_pair_sheet = sheet_of_pair(undercut_pair);
constexpr auto inch_pair_sheet = sheet_of_pair(inch_pair);
constexpr auto float_pair_sheet = sheet_of_pair(in_float);
constexpr auto long_double_pair_sheet = sheet_of_pair(in_long_double);

} // namespace

TEST_CASE("the gears of the compiler are the gears of the program") {
    same_numbers(spur_sheet, sheet_of_gear(gear{at_run_time(spur_pinion)}), 45.0);
    same_numbers(helical_sheet, sheet_of_gear(gear{at_run_time(helical_pinion)}), 473.0); // the lead is the greatest length
    same_numbers(undercut_sheet, sheet_of_gear(gear{at_run_time(undercut_pinion)}), 16.0);
}

TEST_CASE("the pairs of the compiler are the pairs of the program") {
    same_numbers(spur_pair_sheet, sheet_of_pair(mesh{gear{at_run_time(spur_pinion)}, gear{at_run_time(spur_wheel)}}), 132.0);
    same_numbers(helical_pair_sheet, sheet_of_pair(mesh{gear{at_run_time(helical_pinion)}, gear{at_run_time(helical_wheel)}, 106.75}), 163.0);
    same_numbers(undercut_pair_sheet, sheet_of_pair(mesh{gear{at_run_time(undercut_pinion)}, gear{at_run_time(undercut_wheel)}}), 60.0);
    same_numbers(inch_pair_sheet, sheet_of_pair(mesh{gear{at_run_time(inch_pinion)}, gear{at_run_time(inch_wheel)}}), 6.0);
    same_numbers(float_pair_sheet, sheet_of_pair(mesh{gear{at_run_time(in_float.pinion().parameters())}, in_float.wheel()}), 132.0F);
    same_numbers(long_double_pair_sheet, sheet_of_pair(mesh{gear{at_run_time(in_long_double.pinion().parameters())}, in_long_double.wheel()}),
                 132.0L);
}
