// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The critical root section: from the tool's motion, from the outline, by the standard's formulas.
#include <rackwork/analysis/contact.hpp>
#include <rackwork/analysis/tooth_root.hpp>
#include <rackwork/analysis/tooth_root_iso_6336.hpp>

#include "random_source.hpp"
#include "ulp.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <boost/math/tools/roots.hpp>
#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::for_both;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;
using rackwork::tooth_root;
using rackwork::virtual_spur_gear;
using support::wide;

namespace {

constexpr double epsilon = std::numeric_limits<double>::epsilon();

/// Gears for which a rating by ISO 6336-3 could be asked.
std::vector<gear<double>> gears() {
    std::vector<gear<double>> result;
    support::random_source random{63363};
    while (result.size() < 400) {
        gear_parameters<double> p{.normal_module = random.uniform(0.5, 12),
                                  .teeth = random.integer(8, 150),
                                  .helix_angle = deg(random.coin() ? 0 : random.uniform(-40, 40)),
                                  .profile_shift = random.uniform(-0.4, 0.8)};
        p.rack.pressure_angle = deg(random.coin() ? 20 : random.uniform(14, 26));
        p.rack.dedendum = random.uniform(1.1, 1.35);
        p.rack.root_fillet_radius =
            random.uniform(0, 1) * rackwork::full_root_fillet_radius(p.rack.pressure_angle, p.rack.dedendum);
        if (random.coin()) p.thickness_allowance = -0.03 * p.normal_module;
        if (rackwork::check(p) || rackwork::generated_root<double>::check(gear<double>{p})) continue;
        result.emplace_back(p);
    }
    return result;
}

template <class T>
gear<T> at_precision(const gear<double>& g) {
    const gear_parameters<double>& p = g.parameters();
    return gear<T>{gear_parameters<T>{.normal_module = T(p.normal_module),
                                      .teeth = p.teeth,
                                      .helix_angle = rackwork::rad(T(p.helix_angle.rad())),
                                      .rack = {.pressure_angle = rackwork::rad(T(p.rack.pressure_angle.rad())),
                                               .addendum = T(p.rack.addendum),
                                               .dedendum = T(p.rack.dedendum),
                                               .root_fillet_radius = T(p.rack.root_fillet_radius)},
                                      .profile_shift = T(p.profile_shift),
                                      .thickness_allowance = T(p.thickness_allowance)}};
}

/// Chord, fillet radius and arm, load at the tip, from the motion of the tool to fifty digits: the centre of the tool's
/// rounding runs along a trochoid; the fillet is its parallel; everything else is points and lines.
struct root_by_motion {
    wide chord;
    wide fillet_radius;
    wide arm;
};

root_by_motion by_motion(const gear<double>& g) {
    const wide pi = boost::math::constants::pi<wide>();
    const auto& p = g.parameters();
    const wide m = p.normal_module;
    const wide alpha = p.rack.pressure_angle.rad();
    const wide beta = p.helix_angle.rad();
    const wide base_helix = asin(wide(sin(beta) * cos(alpha)));
    const wide z = p.teeth / (cos(base_helix) * cos(base_helix) * cos(beta));
    const wide r = m * z / 2;
    const wide x = p.profile_shift + p.thickness_allowance / (2 * m * tan(alpha));
    const wide rho = m * p.rack.root_fillet_radius;
    const wide depth = m * (wide(p.rack.dedendum) - x) - rho; // of the rounding's centre below the rolling line
    const wide offset = m * pi / 4 - m * p.rack.dedendum * tan(alpha) - rho * (1 - sin(alpha)) / cos(alpha);

    struct spot {
        wide x, y, slope_x, slope_y;
    };
    // The gear has turned by chi, the rack has moved by r chi; space's centre line on the x axis at chi = 0. Turned into the
    // gear, and on to the tooth, whose middle is half a pitch on.
    const auto at = [&](const wide& chi) {
        const wide cx = r - depth;
        const wide cy = offset - r * chi;
        // From the pitch point (r, 0) through the centre: the normal of fillet and tool.
        const wide nx = cx - r;
        const wide ny = cy;
        const wide n = sqrt(wide(nx * nx + ny * ny));
        const wide side =
            depth >= 0
                ? 1
                : -1; // beyond the centre, seen from the pitch point, unless the centre is above the rolling line
        const wide px = cx + side * rho * nx / n;
        const wide py = cy + side * rho * ny / n;
        const wide turn = chi - pi / z;
        const wide c = cos(turn);
        const wide s = sin(turn);
        const wide tx = ny * side / n; // outward
        const wide ty = -nx * side / n;
        return spot{wide(px * c - py * s), wide(px * s + py * c), wide(tx * c - ty * s), wide(tx * s + ty * c)};
    };
    // Tangent of the fillet at 30 degrees to the tooth's middle.
    const auto off = [&](const wide& chi) {
        const spot here = at(chi);
        return wide(here.slope_y * cos(wide(pi / 6)) - here.slope_x * sin(wide(pi / 6)));
    };
    // The normal leans by 90 degrees - phi; chi = (offset - depth tan phi)/r runs from phi = 0 to where the flank begins.
    const wide first = offset / r;
    const wide last = (offset - depth * tan(wide(pi / 2 - alpha))) / r;
    boost::uintmax_t most = 400;
    const auto bracket = boost::math::tools::toms748_solve(off, (std::min)(first, last), (std::max)(first, last),
                                                           boost::math::tools::eps_tolerance<wide>(155), most);
    const wide chi = (bracket.first + bracket.second) / 2;
    const spot root = at(chi);
    // Radius of curvature from three neighbouring points' normals.
    const wide h = wide(1) / wide("1e12");
    const spot a = at(chi - h);
    const spot b = at(chi + h);
    const wide turned = asin(wide(a.slope_x * b.slope_y - a.slope_y * b.slope_x));
    const wide way = sqrt(wide((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y)));
    // The load goes along the flank's normal at the tip, a tangent of the base circle, to the tooth's middle.
    const wide base = r * cos(alpha);
    const wide tip = r + g.effective_tip_diameter() / 2 - g.reference_diameter() / 2;
    const wide t = sqrt(wide(tip * tip - base * base)) / base;
    const wide half_tooth = (pi / 2 + 2 * x * tan(alpha)) / z + tan(alpha) - alpha - (t - atan(t)); // at the tip
    const wide crossing = base / cos(wide(atan(t) - half_tooth));
    return {wide(2 * abs(root.y)), wide(abs(way / turned)), wide(crossing - root.x)};
}

} // namespace

TEST_CASE("the critical section is where the tool's motion puts it, to fifty digits") {
    double worst = 0;
    double worst_radius = 0;
    int count = 0;
    for (const gear<double>& g : gears()) {
        const tooth_root<double> root = rackwork::root_under_tip_load(g);
        if (g.parameters().rack.root_fillet_radius == 0) continue;
        const root_by_motion exact = by_motion(g);
        const double unit = epsilon * virtual_spur_gear<double>(g).reference_diameter();
        worst = std::max({worst, static_cast<double>(abs(wide(wide(root.chord) - exact.chord))) / unit,
                          static_cast<double>(abs(wide(wide(root.arm) - exact.arm))) / unit});
        worst_radius = std::max(worst_radius,
                                static_cast<double>(abs(wide(wide(root.fillet_radius) - exact.fillet_radius))) / unit);
        ++count;
    }
    MESSAGE(count << " gears: chord and arm " << worst << ", fillet radius " << worst_radius
                  << " epsilon of the virtual reference diameter");
    CHECK(worst <= 4);
    // The reference's finite difference leaves 10^-20 or so; the rest is ours.
    CHECK(worst_radius <= 4);
}

TEST_CASE("the formulas of ISO 6336-3 describe the rack's fillet exactly, for spur gears and for virtual spur gears") {
    double worst = 0;
    for (const gear<double>& g : gears()) {
        const auto wide_gear = at_precision<wide>(g);
        const tooth_root<wide> exact = rackwork::root_under_tip_load(wide_gear);
        const tooth_root<wide> formulas = rackwork::iso_6336_root_under_tip_load(wide_gear);
        for (const wide& off : {wide(exact.chord - formulas.chord), wide(exact.arm - formulas.arm),
                                wide(exact.fillet_radius - formulas.fillet_radius)}) {
            worst = std::max(worst, static_cast<double>(abs(off)) / g.reference_diameter());
        }
        worst = std::max(worst, std::fabs(static_cast<double>(exact.load_angle.rad() - formulas.load_angle.rad())));
        // And in double.
        const tooth_root<double> ours = rackwork::root_under_tip_load(g);
        const tooth_root<double> standard = rackwork::iso_6336_root_under_tip_load(g);
        CHECK(ours.form_factor() == doctest::Approx(standard.form_factor()).epsilon(1e-12));
        CHECK(ours.stress_correction_factor() == doctest::Approx(standard.stress_correction_factor()).epsilon(1e-12));
    }
    MESSAGE("largest difference at fifty digits, of the reference diameter: " << worst);
    CHECK(worst < 1e-46);
}

TEST_CASE("the section's tangent touches the fillet from outside: no point of the outline is nearer to the tooth's "
          "middle along it") {
    for (const gear<double>& g : gears()) {
        const virtual_spur_gear<double> v(g);
        const tooth_root<double> root = rackwork::root_under_tip_load(g);
        // Distance of the outline from a line at 30 degrees to the tooth's middle, through the apex on it.
        const double pi = rackwork::pi<double>();
        const auto support = [&](const virtual_spur_gear<double>::place& p) {
            return p.half_chord * std::cos(pi / 6) + p.height * std::sin(pi / 6);
        };
        double least = std::numeric_limits<double>::infinity();
        double chord = 0;
        for (int i = 0; i <= 4000; ++i) {
            const auto p = v.on_fillet(v.last_parameter() * i / 4000);
            if (p.inclination < 0) break; // undercut: beyond the narrowest place
            if (support(p) < least) {
                least = support(p);
                chord = 2 * p.half_chord;
            }
        }
        // The place of a flat minimum.
        CHECK(chord == doctest::Approx(root.chord).epsilon(2e-3));
        // Where the tangent lies: half the chord and the height that the arm leaves.
        const double height = v.base_diameter() / 2 / cos(root.load_angle) - root.arm;
        CHECK(least == doctest::Approx(root.chord / 2 * std::cos(pi / 6) + height * std::sin(pi / 6)).epsilon(1e-6));
        CHECK(least >=
              root.chord / 2 * std::cos(pi / 6) + height * std::sin(pi / 6) - 64 * epsilon * v.reference_diameter());
    }
}

TEST_CASE(
    "for spur gears the load at the outer point of single contact acts at D on the pinion and at B on the wheel") {
    for (const double shift : {0.0, 0.3, 0.6}) {
        const mesh<double> pair{gear<double>{{.normal_module = 4, .teeth = 19, .profile_shift = shift}},
                                gear<double>{{.normal_module = 4, .teeth = 44, .profile_shift = -0.1}}};
        const rackwork::path_of_contact<double> path{pair};
        const for_both<tooth_root<double>> roots = rackwork::root_under_single_contact_load(pair);
        const auto by_hand = [](const gear<double>& g, double diameter, const tooth_root<double>& at_tip,
                                const tooth_root<double>& root) {
            // The flank's normal at the point, from its pressure angle and the tooth's half angle there.
            const double gamma = g.tooth_thickness(diameter) / diameter;
            const double load = g.pressure_angle(diameter).rad() - gamma;
            CHECK(root.load_angle.rad() == doctest::Approx(load).epsilon(1e-12));
            CHECK(root.arm - at_tip.arm ==
                  doctest::Approx(g.base_diameter() / 2 * (1 / std::cos(load) - 1 / std::cos(at_tip.load_angle.rad())))
                      .epsilon(1e-10));
            CHECK(root.chord == at_tip.chord);
            CHECK(root.fillet_radius == at_tip.fillet_radius);
        };
        by_hand(pair.pinion(), path.point_d().diameter().pinion, rackwork::root_under_tip_load(pair.pinion()),
                roots.pinion);
        by_hand(pair.wheel(), path.point_b().diameter().wheel, rackwork::root_under_tip_load(pair.wheel()),
                roots.wheel);
        CHECK(roots.pinion.form_factor() < rackwork::root_under_tip_load(pair.pinion()).form_factor());
    }
}

TEST_CASE("under single contact the standard's formulas agree too, unless undercut ends contact below the tip") {
    support::random_source random{5};
    int cut_short = 0;
    int whole = 0;
    double largest = 0;
    for (int i = 0; i < 400; ++i) {
        const double helix = random.coin() ? 0 : random.uniform(5, 30);
        const gear_parameters<double> p{.normal_module = 3,
                                        .teeth = random.integer(9, 30),
                                        .helix_angle = deg(helix),
                                        .profile_shift = random.uniform(-0.2, 0.5)};
        const gear_parameters<double> w{
            .normal_module = 3, .teeth = random.integer(20, 90), .helix_angle = deg(-helix)};
        if (rackwork::check(p) || mesh<double>::check(gear<double>{p}, gear<double>{w})) continue;
        const mesh<double> pair{gear<double>{p}, gear<double>{w}};
        if (pair.transverse_contact_ratio() < 1) continue;
        const for_both<tooth_root<double>> ours = rackwork::root_under_single_contact_load(pair);
        const for_both<tooth_root<double>> standard = rackwork::iso_6336_root_under_single_contact_load(pair);
        CHECK(ours.pinion.form_factor() == doctest::Approx(standard.pinion.form_factor()).epsilon(1e-11));
        if (pair.active_tip_diameter().wheel < pair.wheel().tip_diameter() * (1 - 1e-12)) {
            ++cut_short;
            CHECK(ours.wheel.form_factor() < standard.wheel.form_factor());
            largest = std::max(largest, standard.wheel.form_factor() / ours.wheel.form_factor() - 1);
        } else {
            ++whole;
            CHECK(ours.wheel.form_factor() == doctest::Approx(standard.wheel.form_factor()).epsilon(1e-11));
        }
    }
    MESSAGE(cut_short << " wheels lose contact at their tips; the formulas' Y_F is then up to " << 100 * largest
                      << " % too large");
    CHECK(cut_short > 20);
    CHECK(whole > 100);
}

TEST_CASE("form factor and stress correction factor of a section with round numbers are those of the standard's two "
          "formulas") {
    // s_Fn = 2, h_F = 1, rho_F = 0.25, alpha_F = 60 degrees, module 1.5: L = 2, q_s = 4.
    constexpr tooth_root<double> root{.normal_module = 1.5,
                                      .normal_pressure_angle = deg(0.0),
                                      .chord = 2,
                                      .fillet_radius = 0.25,
                                      .arm = 1,
                                      .load_angle = deg(60.0)};
    CHECK(root.form_factor() == doctest::Approx(6 * (1 / 1.5) * 0.5 / ((2 / 1.5) * (2 / 1.5))).epsilon(1e-14));
    CHECK(root.notch_parameter() == 4);
    // (1.2 + 0.13 * 2) * 4^(1/(1.21 + 2.3/2)) = 1.46 * 4^(1/2.36)
    CHECK(root.stress_correction_factor() == doctest::Approx(1.46 * std::pow(4, 1 / 2.36)).epsilon(1e-14));
}

TEST_CASE("a root section is a constant expression") {
    constexpr gear<double> g{gear_parameters<double>{.normal_module = 1, .teeth = 20}};
    constexpr tooth_root<double> root = rackwork::root_under_tip_load(g);
    constexpr tooth_root<double> standard = rackwork::iso_6336_root_under_tip_load(g);
    static_assert(root.chord > 1.94 && root.chord < 1.95);
    CHECK(root.chord == doctest::Approx(standard.chord).epsilon(1e-14));
    CHECK(root.chord ==
          doctest::Approx(rackwork::root_under_tip_load(gear<double>{g.parameters()}).chord).epsilon(1e-14));
}

TEST_CASE("a root without a 30 degree tangent on its fillet has no critical section") {
    // The flank itself leans by more than 30 degrees all the way down.
    gear_parameters<double> steep{.normal_module = 2, .teeth = 80};
    steep.rack = {.pressure_angle = deg(35.0), .addendum = 0.8, .dedendum = 1, .root_fillet_radius = 0.1};
    CHECK_THROWS_AS(rackwork::root_under_tip_load(gear<double>{steep}), rackwork::geometry_error);
    CHECK_NOTHROW(rackwork::root_under_tip_load(gear<double>{steep}, deg(45.0)));
    // On a gear of two teeth already the root land leans by less.
    const gear<double> two{
        {.normal_module = 2, .teeth = 2, .rack = {.addendum = 0.7, .dedendum = 0.8, .root_fillet_radius = 0.2}}};
    CHECK_THROWS_AS(rackwork::root_under_tip_load(two), rackwork::geometry_error);
    // Where the standard's iteration creeps, because the fillet is nearly straight at the tangent, the search still finds it.
    gear_parameters<double> straight{.normal_module = 1, .teeth = 3, .profile_shift = 2};
    straight.rack = {.pressure_angle = deg(25.0), .addendum = 0.5, .dedendum = 1.1, .root_fillet_radius = 0.2};
    CHECK_THROWS_AS(rackwork::iso_6336_root_under_tip_load(gear<double>{straight}), rackwork::geometry_error);
    CHECK(rackwork::root_under_tip_load(gear<double>{straight}).chord > 0);
}
