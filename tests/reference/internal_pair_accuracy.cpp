// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Internal pairs against the standard's own form of the formulas, with negative tooth numbers, in fifty digits.
#include "independent_internal.hpp"
#include "independent_pinion_root.hpp"
#include "independent_root.hpp"
#include "internal_random.hpp"
#include "ledger.hpp"

#include <rackwork/mesh.hpp>

#include <algorithm>
#include <limits>
#include <variant>

namespace {

using rackwork::backlash_error_bound;
using rackwork::root_form_error_bound;
using rackwork::working_size_error_bound;

using independent::real;
using independent::signed_gear;
using independent::signed_pair;

/// The tools that the library says have made the gears, as given numbers.
template <class T>
independent::cutting cutting_of(const signed_gear& exact, const rackwork::generated_root<T>& root) {
    const auto& tool = std::get<rackwork::pinion_type_cutter<T>>(root.tool());
    return independent::cutting(exact, {tool.teeth, real(tool.profile_shift), real(tool.addendum), real(tool.tip_radius)});
}

template <class T>
void compare_pair(reference::ledger& worst, const rackwork::mesh<T>& mesh, const signed_pair& exact, bool nominal) {
    const real a = real(abs(exact.a));
    const real angle = exact.working_pressure_angle;
    // Everything hangs on the diameters, which are far greater than their difference.
    const real size = real(-exact.wheel.d);
    const real squared_tangent = real(tan(angle) * tan(angle));
    const signed_gear& wheel = exact.wheel;
    const real difference = real(wheel.numbers.teeth - exact.pinion.numbers.teeth);
    const real terms =
        real(independent::inv(exact.pinion.transverse_pressure_angle) +
             abs(real(2 * tan(exact.pinion.numbers.pressure) * (exact.pinion.numbers.shift + wheel.numbers.shift) / difference)));
    const real of_sum = real(1 + terms / (angle * squared_tangent));
    const real of_cosine = real(1 + 1 / squared_tangent);
    worst.record("centre distance", mesh.centre_distance(), a,
                 {working_size_error_bound, real(0), nominal ? real(1 + terms / (angle * (1 + angle * angle))) : real(1)});
    worst.record("working pressure angle", mesh.working_pressure_angle().rad(), angle,
                 {working_size_error_bound, real(0), nominal ? of_sum : of_cosine});
    worst.record("reference centre distance", mesh.reference_centre_distance(), real(-(exact.pinion.d + wheel.d) / 2), {4});
    worst.record("working diameter of the pinion", mesh.working_diameter().pinion, exact.working_diameter_1(),
                 {working_size_error_bound, real(0), nominal ? real(1 + terms / (angle * (1 + angle * angle))) : real(1)});
    worst.record("working diameter of the wheel", mesh.working_diameter().wheel, real(-exact.working_diameter_2()),
                 {working_size_error_bound, real(0), nominal ? real(1 + terms / (angle * (1 + angle * angle))) : real(1)});

    const independent::cutting of_wheel = cutting_of(wheel, mesh.wheel_root());
    const independent::root_by_pinion wheel_root = independent::root_of(of_wheel);
    worst.record("root form diameter of the wheel", mesh.root_form_diameter().wheel, real(2 * wheel_root.form_radius),
                 {root_form_error_bound, real(0)});
    const independent::root pinion_root = independent::root_of(independent::gear(exact.pinion.numbers));

    // The line of action: distances along it, whose errors are those of the rolls near the base circles.
    const real scale = real(size * (1 + tan(angle)) / 2);
    const real wheel_tip = exact.of_wheel_circle(wheel.d_a_effective());
    const real pinion_form = exact.of_pinion_circle(real(2 * pinion_root.form_radius));
    const real pinion_tip = exact.of_pinion_circle(exact.pinion.d_a_effective());
    const real wheel_form = exact.of_wheel_circle(real(2 * wheel_root.form_radius));
    const real begin = wheel_tip > pinion_form ? wheel_tip : pinion_form;
    const real end = pinion_tip < wheel_form ? pinion_tip : wheel_form;
    const real path = end > begin ? real(end - begin) : real(0);
    const auto roll_condition = [](const signed_gear& g, const real& diameter) {
        const real ratio = real(g.d_b / diameter);
        const real square = real(1 - ratio * ratio);
        return square > real("1e-12") ? real(1 / sqrt(square)) : real("1e6");
    };
    // d(roll) = R/roll dR: the nearer to the base circle, the more.
    // An undercut's corner is as well known as its curves cross.
    const real amplified =
        real(roll_condition(wheel, wheel.d_a_effective()) +
             roll_condition(exact.pinion, real(2 * pinion_root.form_radius)) / pinion_root.sine_of_crossing +
             roll_condition(exact.pinion, exact.pinion.d_a_effective()) + 2 * (nominal ? of_sum : real(1 / squared_tangent + 1)));
    worst.record("path between the base circles", mesh.path_between_base_circles(), real(-exact.a * sin(angle)),
                 {working_size_error_bound, real(0), nominal ? real(of_sum + 1) : of_cosine});
    worst.record("reach of the wheel's tip", mesh.reach_of_mating_tip().pinion, wheel_tip, {working_size_error_bound, scale, amplified});
    worst.record("reach of the pinion's tip", mesh.reach_of_mating_tip().wheel, real(-exact.a * sin(angle) + pinion_tip),
                 {working_size_error_bound, scale, amplified});
    worst.record("length of the path of contact", mesh.length_of_path_of_contact(), path, {working_size_error_bound, scale, amplified});
    const real base_pitch = real(independent::pi() * exact.pinion.d_b / exact.pinion.z);
    worst.record("transverse contact ratio", mesh.transverse_contact_ratio(), real(path / base_pitch),
                 {working_size_error_bound, real(scale / base_pitch), amplified});
    if (path > 0) {
        worst.record("active root diameter of the pinion", mesh.active_root_diameter().pinion, exact.pinion_diameter_at(begin),
                     {root_form_error_bound, scale, amplified});
        worst.record("active tip diameter of the pinion", mesh.active_tip_diameter().pinion, exact.pinion_diameter_at(end),
                     {root_form_error_bound, scale, amplified});
        worst.record("active tip diameter of the wheel", mesh.active_tip_diameter().wheel, exact.wheel_diameter_at(begin),
                     {root_form_error_bound, scale, amplified});
        worst.record("active root diameter of the wheel", mesh.active_root_diameter().wheel, exact.wheel_diameter_at(end),
                     {root_form_error_bound, scale, amplified});
    }
    const real width =
        exact.pinion.numbers.face_width < wheel.numbers.face_width ? exact.pinion.numbers.face_width : wheel.numbers.face_width;
    worst.record("overlap ratio", mesh.overlap_contact_ratio(),
                 real(width * abs(exact.pinion.twist()) * exact.pinion.z / (2 * independent::pi())), {8});

    worst.record("bottom clearance at the pinion's tip", mesh.bottom_clearance().pinion,
                 exact.clearance_of_pinion_tip(real(2 * of_wheel.root_radius())), {working_size_error_bound, size});
    worst.record("bottom clearance at the wheel's tip", mesh.bottom_clearance().wheel,
                 exact.clearance_of_wheel_tip(exact.pinion.d_f_generated()), {working_size_error_bound, size});

    const real tenth = real(-exact.working_diameter_2() / 10);
    const real gap = exact.circumferential_backlash();
    worst.record("circumferential backlash", mesh.circumferential_backlash(), gap, {backlash_error_bound, tenth});
    worst.record("normal backlash", mesh.normal_backlash(), exact.normal_backlash(), {backlash_error_bound, tenth});
    worst.record("angular backlash of the wheel", mesh.angular_backlash().wheel.rad(), real(-2 * gap / exact.working_diameter_2()),
                 {backlash_error_bound, real(-2 * tenth / exact.working_diameter_2())});
    if (exact.closes()) {
        worst.record("radial backlash", mesh.radial_backlash(), exact.radial_backlash(), {backlash_error_bound, tenth});
    } else {
        CHECK_THROWS_AS(static_cast<void>(mesh.double_flank_centre_distance()), rackwork::geometry_error);
    }
}

template <class T>
void sweep_pairs(std::uint64_t seed, int pairs) {
    support::random_source random(seed);
    reference::ledger at_nominal_distance;
    reference::ledger at_given_distance;
    reference::tally possible;
    for (int i = 0; i < pairs; ++i) {
        auto of_wheel = reference::random_ring(random);
        auto of_pinion = of_wheel;
        of_pinion.teeth = random.integer(std::max(5, of_wheel.teeth / 8), of_wheel.teeth - random.integer(5, 20));
        reference::choose_own(random, of_pinion, -0.5, 0.8);
        if (random.coin()) of_pinion.profile_shift = -of_wheel.profile_shift;
        const double closer = random.uniform(-0.05, 0.2);
        const std::string where = reference::description(of_pinion) + " | internal " + reference::description(of_wheel);
        at_nominal_distance.at(where);
        at_given_distance.at(where);
        INFO(where);
        const auto p = reference::parameters_as<T>(of_pinion);
        const auto w = reference::ring_as<T>(of_wheel);
        if (rackwork::check(p) || rackwork::check(w)) {
            possible.count(false);
            continue;
        }
        const rackwork::gear<T> pinion(p);
        const rackwork::gear<T> wheel(w);
        const bool fits = !rackwork::mesh<T>::check(pinion, wheel);
        possible.count(fits);
        if (!fits) continue;
        const signed_gear exact_pinion(reference::exact_numbers(p), false);
        const signed_gear exact_wheel(reference::exact_numbers(w), true);
        const rackwork::mesh<T> nominal(pinion, wheel);
        const signed_pair exact_nominal(exact_pinion, exact_wheel);
        compare_pair(at_nominal_distance, nominal, exact_nominal, true);
        const T distance = T(nominal.centre_distance() - static_cast<T>(closer) * p.normal_module);
        if (rackwork::mesh<T>::check(pinion, wheel, distance)) {
            CHECK(real(distance) <= -(exact_pinion.d_b + exact_wheel.d_b) / 2 * (1 + 8 * real((std::numeric_limits<T>::epsilon)())));
            continue;
        }
        compare_pair(at_given_distance, rackwork::mesh<T>(pinion, wheel, distance), signed_pair(exact_pinion, exact_wheel, real(distance)),
                     false);
    }
    CHECK(possible.share() > 0.4);
    at_nominal_distance.check("at the nominal centre distance");
    at_given_distance.check("at a given centre distance");
}

} // namespace

TEST_CASE("internal pairs of doubles run as the standard's formulas for negative tooth numbers say") { sweep_pairs<double>(403, 500); }
TEST_CASE("internal pairs of long doubles do so too") { sweep_pairs<long double>(404, 120); }
TEST_CASE("internal pairs of floats do so too") { sweep_pairs<float>(405, 120); }
