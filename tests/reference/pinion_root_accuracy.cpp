// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The root that a pinion-type cutter leaves on external and internal gears, to fifty digits.
#include "independent_pinion_root.hpp"
#include "ledger.hpp"
#include "random_gears.hpp"

#include <rackwork/generated_root.hpp>

#include <algorithm>
#include <limits>

namespace {

using rackwork::root_form_error_bound;

using independent::real;
using independent::signed_gear;
using rackwork::gear_kind;

real square(const real& x) { return real(x * x); }

/// What the results hang on: the two rolling circles and the sum of shifts.
struct sizes {
    real lengths;   ///< of the two axes and circles together
    real condition; ///< by which the working angle magnifies the roundings of its involute function

    explicit sizes(const independent::cutting& c) {
        const signed_gear& g = c.gear_made;
        lengths = real((abs(g.d) + c.tool.d) / 2);
        const real t = real(tan(c.working_angle));
        const real of_shifts = real(abs(real(2 * tan(g.numbers.pressure) * (g.x_E + c.tool.numbers.shift) / (c.tool.z + g.z))));
        const real terms = real(independent::inv(g.transverse_pressure_angle) + of_shifts);
        condition = real(1 + terms / (t * t * t));
    }
};

template <class T>
void compare(reference::ledger& worst, const rackwork::gear<T>& g, const rackwork::pinion_type_cutter<T>& tool, const signed_gear& exact,
             const T& fraction) {
    const independent::cutting cutting(exact, {tool.teeth, real(tool.profile_shift), real(tool.addendum), real(tool.tip_radius)});
    const independent::root_by_pinion exact_root = independent::root_of(cutting);
    const rackwork::generating_mesh<T> mesh(g, tool);
    const rackwork::generated_root<T> root(g, tool);
    const sizes size(cutting);
    const real m = exact.numbers.normal_module;
    const bool internal = exact.z < 0;
    const std::string kind = internal ? "internal: " : "external: ";

    const real squared_tangent = real(tan(cutting.working_angle) * tan(cutting.working_angle));
    worst.record("generating: tangent of the working angle", mesh.tangent_of_working_pressure_angle(), real(tan(cutting.working_angle)),
                 {8, real(0), size.condition});
    worst.record("generating: centre distance", mesh.centre_distance(), real(abs(cutting.a_0)),
                 {8, real(0), real(1 + squared_tangent * size.condition)});
    worst.record("generating: cutter's tip radius", mesh.tool_tip_radius(), cutting.tool_tip_radius, {4, real(cutting.tool.d / 2 + 2 * m)});
    worst.record("generating: cutter's base radius", mesh.tool_base_radius(), real(cutting.tool.d_b / 2), {4});
    // inv alpha_C changes by tan alpha_C times the relative change of the centre's radius.
    const real tool_angles =
        real(independent::pi() / cutting.tool.z + sqrt(real(square(cutting.centre_radius / (cutting.tool.d_b / 2)) - 1)));
    worst.record("generating: angle of the rounding's centre", mesh.centre_angle(), cutting.centre_angle, {8, tool_angles});

    worst.record(kind + "root diameter", root.root_diameter(), real(2 * cutting.root_radius()), {8, real(2 * size.lengths)});
    worst.record(kind + "root land", root.root_land_half_angle(),
                 real(cutting.centre_angle * cutting.tool_rolling_radius() / abs(cutting.rolling_radius())),
                 {8, real(tool_angles * cutting.tool.z / exact.numbers.teeth)});
    CHECK(root.is_undercut() == exact_root.undercut);
    const bool undercut = exact_root.undercut;
    worst.record(kind + (undercut ? "root form diameter, undercut" : "root form diameter"), root.root_form_diameter(),
                 real(2 * exact_root.form_radius), {root_form_error_bound, real(2 * size.lengths)});
    worst.record(
        kind + "end of the fillet", root.end_parameter(), exact_root.end_angle,
        {64, real(0),
         undercut ? real(size.condition * size.lengths / (m * exact_root.sine_of_crossing)) : real(1 / cos(exact_root.end_angle))});

    // The fillet as a curve.
    const T phi = T(root.end_parameter() * fraction);
    const auto state = root.fillet().at(phi);
    const independent::vector3<> point = cutting.cut(real(phi));
    const auto position = state.position();
    worst.record(kind + "fillet: along the space", position.x, point.x, {16, size.lengths});
    worst.record(kind + "fillet: across the space", position.y, point.y, {16, size.lengths});
    const real h("1e-13");
    const independent::vector3<> velocity = real(1 / (2 * h)) * (cutting.cut(real(real(phi) + h)) - cutting.cut(real(real(phi) - h)));
    // The way of the rounding on the cutter, and what the gear's own turning adds to it.
    const real with_turning = real(size.lengths * (1 + real(cutting.tool.z) / exact.numbers.teeth));
    worst.record(kind + "fillet: speed", state.speed, independent::length(velocity), {16, with_turning});
}

template <class T>
void sweep(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::ledger worst;
    reference::tally possible;
    int kinds[2] = {0, 0};
    for (int i = 0; i < gears; ++i) {
        auto drawn = reference::random_gear(random);
        const bool internal = random.coin();
        if (!internal && random.coin()) drawn.teeth = random.integer(6, 30);
        if (internal && drawn.teeth < 30) drawn.teeth += 30;
        if (internal) reference::choose_own(random, drawn, -0.8, 0.5);
        drawn.rack.root_fillet_radius = 0;
        const int teeth = internal ? random.integer(10, std::min(drawn.teeth - 6, 80)) : random.integer(10, 80);
        const double shift = random.integer(0, 3) == 0 ? -drawn.profile_shift : random.uniform(-0.4, 0.6);
        const double addendum = random.uniform(1.0, 1.4);
        const double share = random.coin() ? 0.0 : random.uniform(0.0, 0.98);
        const T fraction = static_cast<T>(random.uniform(0.0, 1.0));
        auto p = reference::parameters_as<T>(drawn);
        if (internal) p.kind = gear_kind::internal;
        rackwork::pinion_type_cutter<T> tool{.teeth = teeth, .profile_shift = static_cast<T>(shift), .addendum = static_cast<T>(addendum)};
        std::ostringstream where;
        where.precision(17);
        where << (internal ? "internal " : "external ") << reference::description(drawn) << "; cutter z " << teeth << " x " << shift
              << " h " << addendum;
        INFO(where.str());
        if (rackwork::check(p) || rackwork::generating_mesh<T>::check(rackwork::gear<T>(p), tool)) {
            possible.count(false);
            continue;
        }
        const rackwork::gear<T> g(p);
        const signed_gear exact(reference::exact_numbers(p), internal);
        const real full = independent::full_rounding(exact, {tool.teeth, real(tool.profile_shift), real(tool.addendum), real(0)});
        worst.at(where.str());
        // Where the cutter's tooth is thin or its centre comes down to the base circle, half a land is flat in the radius.
        worst.record("full tip radius", rackwork::full_tip_radius(g, tool), real(full / exact.numbers.normal_module),
                     {64, real(tool.teeth), real(1)});
        tool.tip_radius = T(rackwork::full_tip_radius(g, tool) * static_cast<T>(share));
        where << " share " << share;
        worst.at(where.str());
        const bool made = !rackwork::generated_root<T>::check(g, tool);
        possible.count(made);
        if (!made) continue;
        ++kinds[internal ? 1 : 0];
        compare(worst, g, tool, exact, fraction);
    }
    CHECK(possible.share() > 0.5);
    CHECK(kinds[0] > gears / 5);
    CHECK(kinds[1] > gears / 5);
    CHECK(worst.count("external: root form diameter, undercut") > gears / 20);
    worst.check();
}

} // namespace

TEST_CASE("the root of a gear of doubles is the one that the pinion-type cutter leaves") { sweep<double>(420, 600); }
TEST_CASE("the root of a gear of long doubles is so too") { sweep<long double>(421, 150); }
TEST_CASE("the root of a gear of floats is so too") { sweep<float>(422, 150); }
