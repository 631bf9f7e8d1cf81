// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Centre distance and profile shift of a pair, and everything a mesh is asked for, against the independent computation.
#pragma once

#include "compare_root.hpp"
#include "independent_pair.hpp"
#include "ledger.hpp"
#include "random_gears.hpp"

#include <rackwork/mesh.hpp>

namespace reference {

using rackwork::backlash_error_bound;
using rackwork::profile_shift_sum_error_bound;
using rackwork::root_form_error_bound;
using rackwork::working_size_error_bound;

/// Two gears without tip alteration and allowance that share a sum of shifts: enough for what a pair's proportions say.
struct exact_proportions {
    independent::gear pinion;
    independent::gear wheel;

    exact_proportions(const independent::gear& a, const independent::gear& b, const real& shift_sum)
        : pinion(bare(a.numbers, real(shift_sum / 4))), wheel(bare(b.numbers, real(3 * shift_sum / 4))) {}

    static independent::gear_numbers bare(independent::gear_numbers n, const real& shift) {
        n.shift = shift;
        n.allowance = 0;
        n.tip_alteration = 0;
        return n;
    }
    real bases() const { return real(pinion.base_radius + wheel.base_radius); }
    real reference_distance() const { return real(pinion.reference_radius + wheel.reference_radius); }
    bool possible() const { return independent::can_be_without_gap(pinion, wheel, pinion.tooth_half_angle, wheel.tooth_half_angle); }
    real centre_distance() const {
        return independent::centre_distance_without_gap(pinion, wheel, pinion.tooth_half_angle, wheel.tooth_half_angle);
    }
};

/// Pair functions for a sum of shifts and for a centre distance.
template <class T>
void compare_proportions(ledger& worst, const rackwork::pair_proportions<T>& p, const independent::gear& a, const independent::gear& b,
                         const T& shift_sum, const T& distance) {
    const exact_proportions pair(a, b, real(shift_sum));
    const real teeth = real(p.pinion_teeth + p.wheel_teeth);
    const real m = a.numbers.normal_module;
    const real slope = real(tan(a.numbers.pressure));
    worst.record("pair: transverse pressure angle", rackwork::transverse_pressure_angle(p).rad(), a.transverse_pressure_angle, {4});
    worst.record("pair: reference centre distance", rackwork::reference_centre_distance(p), pair.reference_distance(), {4});
    if (pair.possible()) {
        const real exact = pair.centre_distance();
        worst.record("pair: centre distance", rackwork::centre_distance(p, shift_sum), exact, {working_size_error_bound});
        const real angle = real(acos(real(pair.bases() / exact)));
        // An involute function is flat near zero: its inverse amplifies what the sum behind it has lost.
        const real t = real(tan(a.transverse_pressure_angle));
        const real behind = real(a.transverse_pressure_angle * t * t + abs(real(2 * real(shift_sum) * slope / teeth)));
        const real flat = real(angle * tan(angle) * tan(angle));
        worst.record("pair: working pressure angle", rackwork::working_pressure_angle(p, shift_sum).rad(), angle,
                     {8, real(0), real(1 + behind / flat)});
        const auto alteration = rackwork::tip_alteration_for_clearance(p, distance, shift_sum);
        // The clearance of a tip and the mate's root: a - r_1 - m (h_a + x_1 + k) - r_2 + m (h_f - x_2), and it shall be m (h_f - h_a).
        const real clearance = real(real(distance) - pair.pinion.tip_radius() - pair.wheel.root_radius());
        const real wanted = real(m * (a.numbers.dedendum - a.numbers.addendum));
        worst.record("pair: tip alteration for clearance", alteration, real((clearance - wanted) / m), {8, real(real(distance) / m)});
    }
    if (real(distance) > pair.bases()) {
        // Sum of the shifts that leaves no gap: the gap is a linear function of it.
        const auto gap = [&](const real& sum) {
            const exact_proportions with(a, b, sum);
            return independent::gap_at(with.pinion, with.wheel, with.pinion.tooth_half_angle, with.wheel.tooth_half_angle, real(distance));
        };
        const real sum = independent::root_near(gap, real(shift_sum), real(1));
        const real cosine = real(pair.bases() / real(distance));
        const real sine_squared = real(1 - cosine * cosine);
        const real tangent = real(sqrt(sine_squared) / cosine);
        const real of_reference = tan(a.transverse_pressure_angle);
        worst.record("pair: sum of shifts", rackwork::profile_shift_sum(p, distance), sum,
                     {profile_shift_sum_error_bound,
                      real(teeth * (tangent > of_reference ? tangent : of_reference) / (2 * slope))});
        worst.record("pair: tangent of the working pressure angle", rackwork::tangent_of_working_pressure_angle(p, distance),
                     real(sqrt(sine_squared) / cosine), {8, real(0), real(1 / sine_squared)});
    }
    const T lambda = T(T(3) / T(4));
    const auto split = rackwork::split_profile_shift(shift_sum, p.pinion_teeth, p.wheel_teeth, lambda);
    const real u = real(real(p.wheel_teeth) / p.pinion_teeth);
    const real of_pinion = real((real(lambda) * (u - 1) + real(shift_sum)) / (u + 1));
    const real size = real(1 + abs(real(shift_sum)));
    worst.record("pair: pinion's part of the shifts", split.pinion, of_pinion, {4, size});
    worst.record("pair: wheel's part of the shifts", split.wheel, real(real(shift_sum) - of_pinion), {4, size});
}

/// What errors along the line of action grow from. The distance of its feet and the places of circles on it are roots of differences
/// of squares, and grow the more uncertain the nearer a circle comes to its base circle.
struct along_the_line {
    real whole;
    real pinion_form;
    real wheel_form;

    explicit along_the_line(const independent::mesh& exact) {
        const auto place = [](const independent::gear& g, const real& r, const real& sine) {
            const real unwound = real(g.base_radius * independent::unwound_to(g.base_radius, r));
            return real(unwound + r * r / (unwound * sine));
        };
        const real t = real(tan(exact.working_pressure_angle()));
        pinion_form = place(exact.pinion, exact.pinion_root.form_radius, exact.pinion_root.sine_of_crossing);
        wheel_form = place(exact.wheel, exact.wheel_root.form_radius, exact.wheel_root.sine_of_crossing);
        whole = real(exact.distance_of_feet * (1 + 1 / (t * t)) + place(exact.pinion, exact.pinion.effective_tip_radius(), real(1)) +
                     place(exact.wheel, exact.wheel.effective_tip_radius(), real(1)));
    }
    real all() const { return real(whole + pinion_form + wheel_form); }
};

/// The size behind a diameter that is found from a place on the line of action.
inline real size_behind_active(const independent::gear& g, const real& radius, const real& place) {
    const real unwound = real(g.base_radius * independent::unwound_to(g.base_radius, radius));
    return real(2 * radius + 2 * unwound / radius * place);
}

template <class T>
void compare_mesh(ledger& worst, const rackwork::mesh<T>& mesh, const independent::mesh& exact, bool nominal) {
    const auto size = [&](const char* name, const T& value, const real& expected) {
        worst.record(name, value, expected, {working_size_error_bound});
    };
    const independent::gear& a = exact.pinion;
    const independent::gear& b = exact.wheel;
    const real distance = exact.centre_distance;
    const real per_tooth = real(2 * distance / (a.numbers.teeth + b.numbers.teeth));
    const real pinion_working = real(per_tooth * a.numbers.teeth);
    const real wheel_working = real(per_tooth * b.numbers.teeth);

    size("gear ratio", mesh.gear_ratio(), real(real(b.numbers.teeth) / a.numbers.teeth));
    size("centre distance", mesh.centre_distance(), distance);
    size("reference centre distance", mesh.reference_centre_distance(), real(a.reference_radius + b.reference_radius));
    // Given the centre distance, the angle hangs on the last places of cos alpha_wt; given the shifts, on those of the sum of involute
    // functions behind it, of which a negative sum of shifts leaves little.
    const real angle = exact.working_pressure_angle();
    const real squared_tangent = real(tan(angle) * tan(angle));
    const real of_reference = real(a.transverse_pressure_angle * tan(a.transverse_pressure_angle) * tan(a.transverse_pressure_angle));
    const real of_sum = real(1 + 2 * of_reference / (angle * squared_tangent));
    const real of_cosine = real(1 + 1 / squared_tangent);
    worst.record("working pressure angle", mesh.working_pressure_angle().rad(), angle,
                 {working_size_error_bound, real(0), nominal ? of_sum : of_cosine});
    size("working diameter of the pinion", mesh.working_diameter().pinion, pinion_working);
    size("working diameter of the wheel", mesh.working_diameter().wheel, wheel_working);

    worst.record("mesh: root form diameter of the pinion", mesh.root_form_diameter().pinion, real(2 * exact.pinion_root.form_radius),
                 {root_form_error_bound});
    worst.record("mesh: root form diameter of the wheel", mesh.root_form_diameter().wheel, real(2 * exact.wheel_root.form_radius),
                 {root_form_error_bound});
    const along_the_line line(exact);
    const auto active = [&](const char* name, const T& value, const independent::gear& g, const real& r) {
        worst.record(name, value, real(2 * r), {root_form_error_bound, size_behind_active(g, r, line.all())});
    };
    active("active tip diameter of the pinion", mesh.active_tip_diameter().pinion, a, exact.pinion_active_tip());
    active("active tip diameter of the wheel", mesh.active_tip_diameter().wheel, b, exact.wheel_active_tip());
    active("active root diameter of the pinion", mesh.active_root_diameter().pinion, a, exact.pinion_active_root());
    active("active root diameter of the wheel", mesh.active_root_diameter().wheel, b, exact.wheel_active_root());

    const real base_pitch = real(2 * independent::pi() * a.base_radius / a.numbers.teeth);
    worst.record("distance between the feet on the base circles", mesh.path_between_base_circles(), exact.distance_of_feet,
                 {working_size_error_bound, line.whole});
    worst.record("reach of the wheel's tip", mesh.reach_of_mating_tip().pinion, exact.on_line_from_wheel(b.effective_tip_radius()),
                 {working_size_error_bound, line.whole});
    worst.record("reach of the pinion's tip", mesh.reach_of_mating_tip().wheel,
                 real(exact.distance_of_feet - exact.on_line_from_pinion(a.effective_tip_radius())),
                 {working_size_error_bound, line.whole});
    worst.record("length of the path of contact", mesh.length_of_path_of_contact(), exact.length_of_path(),
                 {working_size_error_bound, line.all()});
    worst.record("transverse contact ratio", mesh.transverse_contact_ratio(), real(exact.length_of_path() / base_pitch),
                 {working_size_error_bound, real(line.all() / base_pitch)});
    const real width = a.numbers.face_width < b.numbers.face_width ? a.numbers.face_width : b.numbers.face_width;
    // Face width over axial pitch.
    const real overlap = real(width * abs(a.twist()) * a.numbers.teeth / (2 * independent::pi()));
    size("overlap ratio", mesh.overlap_contact_ratio(), overlap);
    worst.record("total contact ratio", mesh.total_contact_ratio(), real(exact.length_of_path() / base_pitch + overlap),
                 {working_size_error_bound, real(line.all() / base_pitch + overlap)});

    worst.record("bottom clearance at the pinion's tip", mesh.bottom_clearance().pinion,
                 real(distance - a.effective_tip_radius() - b.generated_root_radius()), {working_size_error_bound, distance});
    worst.record("bottom clearance at the wheel's tip", mesh.bottom_clearance().wheel,
                 real(distance - b.effective_tip_radius() - a.generated_root_radius()), {working_size_error_bound, distance});

    const real tenth = real((pinion_working > wheel_working ? pinion_working : wheel_working) / 10);
    const real gap = exact.circumferential_backlash();
    worst.record("circumferential backlash", mesh.circumferential_backlash(), gap, {backlash_error_bound, tenth});
    worst.record("normal backlash", mesh.normal_backlash(), exact.normal_backlash(), {backlash_error_bound, tenth});
    const real twice_tangent = real(2 * tan(exact.working_pressure_angle()));
    worst.record("radial backlash, first order", mesh.approximate_radial_backlash(), real(gap / twice_tangent),
                 {backlash_error_bound, real((tenth + abs(gap) * (1 + 4 / (twice_tangent * twice_tangent))) / twice_tangent)});
    worst.record("angular backlash of the pinion", mesh.angular_backlash().pinion.rad(), real(2 * gap / pinion_working),
                 {backlash_error_bound, real(2 * tenth / pinion_working)});
    worst.record("angular backlash of the wheel", mesh.angular_backlash().wheel.rad(), real(2 * gap / wheel_working),
                 {backlash_error_bound, real(2 * tenth / wheel_working)});
    if (exact.has_double_flank_centre_distance()) {
        const real tight = exact.double_flank_centre_distance();
        size("double-flank centre distance", mesh.double_flank_centre_distance(), tight);
        worst.record("radial backlash", mesh.radial_backlash(), real(distance - tight), {backlash_error_bound, tenth});
    } else {
        CHECK_THROWS_AS(static_cast<void>(mesh.double_flank_centre_distance()), rackwork::geometry_error);
    }
}

} // namespace reference
