// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Where the involute begins on teeth that are hardly undercut, to fifty digits. The fillet then crosses the flank beside the base circle, at
// the sharpest of angles, where radii and polar angles agree to all their places.
#include "compare_root.hpp"
#include "independent_pinion_root.hpp"
#include "ledger.hpp"
#include "random_gears.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <sstream>
#include <string>

#include <rackwork/generated_root.hpp>
#include <rackwork/undercut_limits.hpp>

namespace {

using independent::real;
using rackwork::root_form_error_bound;

/// By how many modules the tool stands too deep.
constexpr std::array<double, 10> too_deep{0.1, 1e-2, 1e-3, 1e-4, 1e-5, 1e-6, 1e-8, 1e-9, 1e-10, 1e-12};

/// The type holds so small an undercut, beside a shift of about one, to some three places at least.
template <class T>
bool holds(double depth) {
    return depth > 1000 * static_cast<double>(std::numeric_limits<T>::epsilon());
}

std::string circumstance(const rackwork::gear_parameters<double>& drawn, double depth) {
    std::ostringstream text;
    text << "too deep by " << depth << ", for x " << reference::description(drawn);
    return text.str();
}

/// Where the involute begins.
struct beginning {
    real base_radius;
    real roll;
    real form_radius;
    real end_angle;
};

template <class T>
void compare(reference::ledger& worst, const rackwork::generated_root<T>& root, const beginning& exact, const real& size) {
    CHECK(root.is_undercut());
    worst.record("roll angle at the root form diameter", root.root_form_roll(), exact.roll, {root_form_error_bound, size});
    worst.record("root form diameter", root.root_form_diameter(), real(2 * exact.form_radius), {root_form_error_bound});
    worst.record("end of the fillet", root.end_parameter(), exact.end_angle, {root_form_error_bound, real(1)});
}

/// Gears of any helix by rack-type tools with any tip rounding.
template <class T>
void by_rack_type_tools(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::ledger worst;
    for (int i = 0; i < gears; ++i) {
        auto drawn = reference::random_gear(random);
        drawn.teeth = random.integer(7, 40);
        drawn.tip_alteration = 0;
        drawn.thickness_allowance = 0;
        auto p = reference::parameters_as<T>(drawn);
        const T limit = rackwork::least_profile_shift_without_undercut(p.rack, p.teeth, p.helix_angle);
        for (const double depth : too_deep) {
            if (!holds<T>(depth)) continue;
            p.profile_shift = static_cast<T>(limit - static_cast<T>(depth));
            if (rackwork::check(p)) continue;
            const rackwork::gear<T> g(p);
            const independent::gear exact(reference::exact_numbers(p));
            const independent::root root = independent::root_of(exact);
            if (!root.undercut || !reference::leaves_a_flank(exact, root)) continue;
            worst.at(circumstance(drawn, depth));
            INFO(circumstance(drawn, depth));
            const real tangent = tan(exact.transverse_pressure_angle);
            const real sine = sin(exact.transverse_pressure_angle);
            const real depths = real(exact.numbers.dedendum * exact.numbers.normal_module + abs(exact.generating_distance));
            compare(worst, rackwork::generated_root<T>(g),
                    {exact.base_radius, independent::unwound_to(exact.base_radius, root.form_radius), root.form_radius, root.end_angle},
                    real(tangent + 1 / tangent + depths / (exact.base_radius * sine)));
        }
    }
    CHECK(worst.count("root form diameter") > gears * 2);
    worst.check();
}

/// The shift at which a pinion-type cutter begins to undercut, found by halving.
template <class T>
T limit_of(rackwork::gear_parameters<T> p, const rackwork::pinion_type_cutter<T>& tool) {
    T low = T(-1);
    T high = T(3) / T(2);
    for (int i = 0; i < 100; ++i) {
        p.profile_shift = (low + high) / T(2);
        const rackwork::gear<T> g(p);
        if (rackwork::generating_mesh<T>::check(g, tool)) return T(-2);
        const rackwork::generating_mesh<T> cut(g, tool);
        (cut.path_between_base_circles() < cut.tool_tip_form_roll() ? low : high) = p.profile_shift;
    }
    return high;
}

template <class T>
void by_pinion_type_cutters(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::ledger worst;
    for (int i = 0; i < gears; ++i) {
        auto drawn = reference::random_gear(random);
        drawn.teeth = random.integer(7, 25);
        drawn.rack.root_fillet_radius = 0;
        drawn.tip_alteration = 0;
        drawn.thickness_allowance = 0;
        auto p = reference::parameters_as<T>(drawn);
        const rackwork::pinion_type_cutter<T> tool{.teeth = random.integer(15, 60),
                                                   .profile_shift = static_cast<T>(random.uniform(-0.2, 0.4)),
                                                   .addendum = static_cast<T>(random.uniform(1.05, 1.3)),
                                                   .tip_radius = static_cast<T>(random.coin() ? 0.0 : random.uniform(0.0, 0.25))};
        const T limit = limit_of(p, tool);
        for (const double depth : too_deep) {
            if (!holds<T>(depth)) continue;
            p.profile_shift = static_cast<T>(limit - static_cast<T>(depth));
            if (!(p.profile_shift > T(-1)) || rackwork::check(p)) continue;
            const rackwork::gear<T> g(p);
            if (rackwork::generated_root<T>::check(g, tool)) continue;
            const independent::cutting c(independent::signed_gear(reference::exact_numbers(p), false),
                                         {tool.teeth, real(tool.profile_shift), real(tool.addendum), real(tool.tip_radius)});
            const independent::root_by_pinion root = independent::root_of(c);
            if (!root.undercut) continue;
            worst.at(circumstance(drawn, depth));
            INFO(circumstance(drawn, depth));
            const real base = real(c.gear_made.d_b / 2);
            const real tool_base = real(c.tool.d_b / 2);
            const real tangent = tan(c.working_angle);
            // The working angle comes from a sum of involute functions, the cutter's last point from the distance of its rounding's centre.
            const real of_shifts = real(abs(c.gear_made.x_E + c.tool.numbers.shift) * 2 * tan(drawn.rack.pressure_angle.rad()) /
                                        (c.tool.z + c.gear_made.z));
            const real involute = independent::inv(c.gear_made.transverse_pressure_angle);
            const real of_angle = real(1 + (involute + of_shifts) / (tangent * tangent * tangent));
            const real of_end = sqrt(real(c.centre_radius * c.centre_radius - tool_base * tool_base));
            const real lengths = real((base + tool_base) * tangent * of_angle + c.tool_tip_radius * c.tool_tip_radius / of_end);
            compare(worst, rackwork::generated_root<T>(g, tool),
                    {base, independent::unwound_to(base, root.form_radius), root.form_radius, root.end_angle},
                    real(lengths / base + 1 / tangent));
        }
    }
    CHECK(worst.count("root form diameter") > gears * 2);
    worst.check();
}

} // namespace

TEST_CASE("the roll angle at which hardly undercut flanks begin is exact to its absolute places: doubles") {
    by_rack_type_tools<double>(430, 50);
    by_pinion_type_cutters<double>(431, 16);
}
TEST_CASE("long doubles") {
    by_rack_type_tools<long double>(432, 15);
    by_pinion_type_cutters<long double>(433, 6);
}
TEST_CASE("floats") {
    by_rack_type_tools<float>(434, 30);
    by_pinion_type_cutters<float>(435, 12);
}
