// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The true normal section of a helical tooth against a cut through the tooth in space, and against the virtual spur gear.
#include <rackwork/analysis/normal_section.hpp>
#include <rackwork/analysis/tooth_root.hpp>
#include <rackwork/form/tooth.hpp>

#include "ulp.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include <boost/math/tools/roots.hpp>
#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::normal_section;
using rackwork::point;
using rackwork::tooth_root;
using support::wide;

namespace {

template <class T = double>
gear<T> helical(double helix, int teeth, double shift = 0) {
    return gear<T>{gear_parameters<T>{
        .normal_module = T(3), .teeth = teeth, .helix_angle = deg(T(helix)), .profile_shift = T(shift)}};
}

/// A point of the transverse outline carried by the screw to the plane through the tooth's middle that is square to its helix
/// at the reference cylinder: coordinates in that plane. Everything in space, to fifty digits.
point<wide> cut_in_space(const gear<wide>& g, const point<wide>& p) {
    const wide beta = g.helix_angle().rad();
    const wide twist = tan(beta) / (g.reference_diameter() / 2); // radians per length along the axis
    const auto at = [&](const wide& z) { return rackwork::turned(p, wide(twist * z)); };
    // The helix of the tooth's middle at the reference cylinder runs along (0, sin beta, cos beta).
    const auto off_plane = [&](const wide& z) { return wide(at(z).y * sin(beta) + z * cos(beta)); };
    boost::uintmax_t most = 500;
    const wide reach = g.tip_diameter();
    const auto bracket = boost::math::tools::toms748_solve(off_plane, wide(-reach), reach,
                                                           boost::math::tools::eps_tolerance<wide>(160), most);
    const wide z = (bracket.first + bracket.second) / 2;
    return {at(z).x, wide(at(z).y * cos(beta) - z * sin(beta))};
}

/// The segments of tooth 0: fillet, right flank, ...
std::vector<rackwork::segment<wide>> tooth_of(const gear<wide>& g) {
    std::vector<rackwork::segment<wide>> segments;
    rackwork::tooth_form<wide>(g).append_tooth(segments, 0);
    return segments;
}

} // namespace

TEST_CASE("the normal section's points, tangents and curvatures are those of a plane cut through the tooth in space") {
    for (const double helix : {12.0, -30.0, 45.0}) {
        for (const int teeth : {9, 17, 60}) {
            const gear<wide> g = helical<wide>(helix, teeth, 0.1);
            const auto tooth = tooth_of(g);
            const normal_section<wide> section(g);
            const auto compare = [&](const normal_section<wide>::place& here, const rackwork::segment<wide>& s,
                                     const wide& t) {
                const wide h = wide("1e-12") * (1 + abs(t));
                const point<wide> before = cut_in_space(g, s.position(wide(t - h)));
                const point<wide> at = cut_in_space(g, s.position(t));
                const point<wide> after = cut_in_space(g, s.position(wide(t + h)));
                CHECK(abs(wide(at.x - here.position.x)) < wide("1e-40"));
                CHECK(abs(wide(at.y - here.position.y)) < wide("1e-40"));
                const point<wide> way = after - before;
                CHECK(abs(wide(rackwork::cross(way, here.tangent) /
                               (rackwork::length(way) * rackwork::length(here.tangent)))) < wide("1e-20"));
                CHECK(rackwork::dot(way, here.tangent) > 0);
                // Curvature of the circle through three points.
                const point<wide> a = at - before;
                const point<wide> b = after - at;
                const wide curvature =
                    2 * rackwork::cross(a, b) / (rackwork::length(a) * rackwork::length(b) * rackwork::length(way));
                CHECK(abs(wide(curvature - here.curvature)) < wide("1e-9"));
            };
            for (const double share : {0.2, 0.5, 0.9}) {
                const wide phi = share * section.root().end_parameter();
                compare(section.on_fillet(phi), tooth[0], phi);
                const wide roll = tooth[1].from + share * (tooth[1].to - tooth[1].from);
                compare(section.on_involute(wide(2 * rackwork::length(tooth[1].position(roll)))), tooth[1], roll);
            }
        }
    }
}

TEST_CASE("a spur gear's normal section is its transverse one, and both roads to the root section meet") {
    for (const int teeth : {9, 17, 40, 150}) {
        for (const double shift : {-0.1, 0.0, 0.5}) {
            const gear<double> g = helical(0, teeth, shift);
            const tooth_root<double> one = rackwork::root_in_normal_section(g, g.effective_tip_diameter());
            const tooth_root<double> other = rackwork::root_under_tip_load(g);
            CHECK(one.chord == doctest::Approx(other.chord).epsilon(1e-13));
            CHECK(one.arm == doctest::Approx(other.arm).epsilon(1e-13));
            CHECK(one.fillet_radius == doctest::Approx(other.fillet_radius).epsilon(1e-13));
            CHECK(one.load_angle.rad() == doctest::Approx(other.load_angle.rad()).epsilon(1e-13));
        }
    }
}

TEST_CASE("the hand of the helix does not matter to the normal section") {
    const tooth_root<double> right = rackwork::root_in_normal_section(helical(25, 21, 0.2), 70.0);
    const tooth_root<double> left = rackwork::root_in_normal_section(helical(-25, 21, 0.2), 70.0);
    CHECK(right.chord == left.chord);
    CHECK(right.arm == left.arm);
    CHECK(right.fillet_radius == left.fillet_radius);
}

TEST_CASE("the virtual spur gear comes as near to the true normal section as is stated") {
    struct limits {
        double helix, chord, fillet_radius, form_factor, stress_correction_factor;
    };
    // As the docstring has them.
    for (const limits& stated : {limits{15, 0.002, 0.005, 0.009, 0.001}, limits{30, 0.0025, 0.015, 0.017, 0.003}}) {
        limits worst{stated.helix, 0, 0, 0, 0};
        int smaller = 0;
        int all = 0;
        for (int teeth = 9; teeth <= 200; teeth += teeth < 30 ? 1 : 10) {
            for (const double shift : {0.0, 0.25, 0.5}) {
                const gear<double> g = helical(stated.helix, teeth, shift);
                const tooth_root<double> exact = rackwork::root_in_normal_section(g, g.effective_tip_diameter());
                const tooth_root<double> of_virtual = rackwork::root_under_tip_load(g);
                const auto off = [](double a, double b) { return std::fabs(a / b - 1); };
                worst.chord = std::max(worst.chord, off(of_virtual.chord, exact.chord));
                worst.fillet_radius = std::max(worst.fillet_radius, off(of_virtual.fillet_radius, exact.fillet_radius));
                worst.form_factor = std::max(worst.form_factor, off(of_virtual.form_factor(), exact.form_factor()));
                worst.stress_correction_factor =
                    std::max(worst.stress_correction_factor,
                             off(of_virtual.stress_correction_factor(), exact.stress_correction_factor()));
                ++all;
                if (of_virtual.form_factor() < exact.form_factor()) ++smaller;
            }
        }
        MESSAGE("helix " << stated.helix << ": chord " << worst.chord << ", fillet radius " << worst.fillet_radius
                         << ", Y_Fa " << worst.form_factor << ", Y_Sa " << worst.stress_correction_factor
                         << "; smaller Y_Fa in " << smaller << " of " << all);
        CHECK(worst.chord <= stated.chord);
        CHECK(worst.fillet_radius <= stated.fillet_radius);
        CHECK(worst.form_factor <= stated.form_factor);
        CHECK(worst.stress_correction_factor <= stated.stress_correction_factor);
        // They are limits, not wishes: half of each is exceeded.
        CHECK(worst.chord > stated.chord / 2);
        CHECK(worst.fillet_radius > stated.fillet_radius / 2);
        CHECK(worst.form_factor > stated.form_factor / 2);
        CHECK(worst.stress_correction_factor > stated.stress_correction_factor / 2);
    }
}

TEST_CASE("the root in the normal section is right to its bound and a constant expression") {
    double worst = 0;
    for (const double helix : {8.0, 20.0, 33.0, -45.0}) {
        for (const int teeth : {9, 14, 25, 70, 160}) {
            const gear<double> g = helical(helix, teeth, 0.2);
            const gear<wide> exact_gear{
                gear_parameters<wide>{.normal_module = 3,
                                      .teeth = teeth,
                                      .helix_angle = rackwork::rad(wide(g.helix_angle().rad())),
                                      .rack = {.pressure_angle = rackwork::rad(wide(g.normal_pressure_angle().rad())),
                                               .root_fillet_radius = g.parameters().rack.root_fillet_radius},
                                      .profile_shift = wide(0.2)}};
            const double load = g.tip_diameter() * 0.98;
            const tooth_root<double> ours = rackwork::root_in_normal_section(g, load);
            const tooth_root<wide> exact = rackwork::root_in_normal_section(exact_gear, wide(load));
            const double unit = std::numeric_limits<double>::epsilon() * g.reference_diameter();
            for (const wide& off : {wide(ours.chord - exact.chord), wide(ours.arm - exact.arm),
                                    wide(ours.fillet_radius - exact.fillet_radius)}) {
                worst = std::max(worst, std::fabs(static_cast<double>(off)) / unit);
            }
        }
    }
    MESSAGE("largest error: " << worst << " epsilon of the reference diameter");
    CHECK(worst <= 4);

    constexpr gear<double> g{gear_parameters<double>{.normal_module = 3, .teeth = 21, .helix_angle = deg(25.0)}};
    constexpr tooth_root<double> root = rackwork::root_in_normal_section(g, 72.0);
    static_assert(root.chord > 6 && root.arm > 0);
}

TEST_CASE("a normal section without a tangent of that angle, or a load below the base circle, is refused") {
    gear_parameters<double> steep{.normal_module = 2, .teeth = 80, .helix_angle = deg(10.0)};
    steep.rack = {.pressure_angle = deg(35.0), .addendum = 0.8, .dedendum = 1, .root_fillet_radius = 0.1};
    const gear<double> g{steep};
    CHECK_THROWS_AS(rackwork::root_in_normal_section(g, g.tip_diameter()), rackwork::geometry_error);
    CHECK_THROWS_AS(rackwork::root_in_normal_section(helical(10, 30), 0.9 * helical(10, 30).base_diameter()),
                    rackwork::geometry_error);
}
