// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The generated root and its fillet against the independent computation, for any scalar.
#pragma once

#include "independent_root.hpp"
#include "ledger.hpp"
#include "random_gears.hpp"

#include <rackwork/generated_root.hpp>
#include <rackwork/undercut_limits.hpp>

namespace reference {

using rackwork::root_form_error_bound;

/// True if the tool leaves a tooth with a flank on it.
inline bool leaves_a_flank(const independent::gear& exact, const independent::root& root) {
    return root.narrowest_half_angle > 0 && exact.effective_tip_radius() > root.form_radius;
}

/// The fillet as a curve, at a fraction of its parameter range.
template <class T>
void compare_fillet(ledger& worst, const rackwork::generated_root<T>& root, const independent::gear& exact, const T& fraction) {
    using independent::rolling_tip;
    using independent::vector3;
    const rolling_tip<real> tip(exact);
    const T phi = T(root.end_parameter() * fraction);
    const real at(phi);
    const auto state = root.fillet().at(phi);
    const vector3<> point = tip.cut(at);
    const real r = exact.reference_radius;
    // The normal runs nearly along the rolling line at the end of a flat fillet; its way to that line is what errors grow with.
    const real scale = real(r + abs(real(state.lateral)));
    const auto position = state.position();
    worst.record("fillet: along the space", position.x, point.x, {16, scale});
    worst.record("fillet: across the space", position.y, point.y, {16, scale});
    worst.record("fillet: polar angle", state.polar_angle(), polar_angle(point), {16, real(scale / radius(point))});
    worst.record("fillet: squared radius", state.squared_radius(), real(radius(point) * radius(point)),
                 {16, real(scale * scale)});
    if constexpr (std::numeric_limits<T>::digits < 100) {
        // From differences: good to 24 digits.
        const real h("1e-13");
        const vector3<> before = tip.cut(real(at - h));
        const vector3<> after = tip.cut(real(at + h));
        const vector3<> velocity = real(1 / (2 * h)) * (after - before);
        const vector3<> acceleration = real(1 / (h * h)) * (after - real(2) * point + before);
        const real speed = length(velocity);
        const real sign = state.speed < T(0) ? real(-1) : real(1);
        // The speed is a sum of two terms that may be of either sign.
        const real rounding = real(exact.numbers.fillet * exact.numbers.normal_module);
        const real terms = real(speed + 2 * rounding / cos(exact.numbers.helix));
        // Its depth below the rolling line is a difference of factors of the module, nothing at all where the shift takes the tip there.
        const real m = exact.numbers.normal_module;
        const real factors = real(exact.numbers.dedendum + abs(real(exact.generating_distance / m)) + exact.numbers.fillet);
        const real cancelled = real(1 + m * factors / abs(real(root.fillet().rolling_radius() - state.radial)));
        worst.record("fillet: speed", state.speed, real(sign * speed), {16, terms, cancelled});
        const real condition = real(cancelled + terms / speed);
        const vector3<> tangent = real(sign / speed) * velocity;
        const auto direction = state.tangent();
        worst.record("fillet: tangent along", direction.x, tangent.x, {16, real(scale / r)});
        worst.record("fillet: tangent across", direction.y, tangent.y, {16, real(scale / r)});
        const real curvature = real(cross(velocity, acceleration).z / (speed * speed * speed) * sign);
        const real rates = real((abs(real(state.pressure_rate)) + abs(real(state.turn_rate))) / speed);
        worst.record("fillet: curvature", state.curvature(), curvature, {16, rates, condition});
    }
}

template <class T>
void compare_root(ledger& worst, const rackwork::generated_root<T>& root, const independent::gear& exact,
                  const independent::root& exact_root) {
    worst.record(exact_root.undercut ? "root form diameter, undercut" : "root form diameter", root.root_form_diameter(),
                 real(2 * exact_root.form_radius), {root_form_error_bound});
    CHECK(root.is_undercut() == exact_root.undercut);
    worst.record("end of the fillet", root.end_parameter(), exact_root.end_angle, {16, real(1)});
    const real m = exact.numbers.normal_module;
    const independent::rolling_tip<real> tip(exact);
    const auto& by_rack = std::get<rackwork::rack_trochoid<T>>(root.fillet().shape());
    worst.record("tool tip: rounding", by_rack.tip_rounding, tip.radius_normal, {4});
    worst.record("tool tip: depth of its centre", by_rack.centre_depth, tip.centre_depth, {4, real(4 * m)});
    worst.record("tool tip: place of its centre", by_rack.centre_offset, tip.centre_offset, {4, m});
}

template <class T>
void compare_limits(ledger& worst, const rackwork::gear<T>& g, const independent::gear& exact) {
    const auto& p = g.parameters();
    const independent::gear_numbers& n = exact.numbers;
    const real m = n.normal_module;
    // The flank's end cuts at the foot of the perpendicular from the axis when it lies r sin^2 alpha_t below the rolling line.
    const real sine = real(sin(exact.transverse_pressure_angle));
    const real deepest = real(exact.reference_radius * sine * sine / m);
    const real form = real(independent::normal_rack(n).flank_end_depth / m);
    worst.record("least shift without undercut",
                 rackwork::least_profile_shift_without_undercut(p.rack, p.teeth, p.helix_angle), real(form - deepest),
                 {8, real(form + deepest)});
    const real per_tooth = real(deepest / n.teeth);
    const T shift = p.profile_shift;
    worst.record("least teeth without undercut", rackwork::least_teeth_without_undercut(p.rack, shift, p.helix_angle),
                 real((form - n.shift) / per_tooth), {8, real((form + abs(n.shift)) / per_tooth)});
}

} // namespace reference
