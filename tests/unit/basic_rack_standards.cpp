// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The standard profiles have the proportions that the standards print, in every scalar type; racks, modules, pitches.
#include "random_source.hpp"
#include "ulp.hpp"

#include <rackwork/basic_rack.hpp>

#include <doctest/doctest.h>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <array>
#include <cmath>
#include <numbers>
#include <string>

namespace {

using rackwork::basic_rack;
using rackwork::deg;
using rackwork::standard_rack;
using support::wide;

/// As printed: degrees, and factors of the module (or of 1/P).
struct printed_rack {
    const char* name;
    standard_rack rack;
    const char* pressure_angle;
    const char* addendum;
    const char* dedendum;
    const char* root_fillet_radius;
};

const std::array<printed_rack, 8> printed{{
    // ISO 53:1998, basic rack types A to D; from memory.
    {"ISO 53 A", rackwork::iso_53_a, "20", "1", "1.25", "0.38"},
    {"ISO 53 B", rackwork::iso_53_b, "20", "1", "1.25", "0.3"},
    {"ISO 53 C", rackwork::iso_53_c, "20", "1", "1.25", "0.25"},
    {"ISO 53 D", rackwork::iso_53_d, "20", "1", "1.4", "0.39"},
    // ANSI B6.1 coarse pitch; from memory.
    {"ANSI 20", rackwork::ansi_b6_1_coarse_20, "20", "1", "1.25", "0.3"},
    {"ANSI 25", rackwork::ansi_b6_1_coarse_25, "25", "1", "1.25", "0.3"},
    // The older American full-depth and stub teeth; from memory.
    {"14.5 full depth", rackwork::asa_b6_1_full_depth_14_5, "14.5", "1", "1.157", "0.209"},
    {"20 stub", rackwork::asa_b6_1_stub_20, "20", "0.8", "1", "0.3"},
}};

} // namespace

TEST_CASE_TEMPLATE("every standard rack has its printed proportions to the last place", T, float, double, long double) {
    for (const printed_rack& p : printed) {
        const basic_rack<T> rack = p.rack;
        CAPTURE(std::string{p.name});
        // Half a unit: the nearest number that the type has.
        CHECK(support::within_ulp(rack.addendum, wide(p.addendum), 0.5));
        CHECK(support::within_ulp(rack.dedendum, wide(p.dedendum), 0.5));
        CHECK(support::within_ulp(rack.root_fillet_radius, wide(p.root_fillet_radius), 0.5));
        CHECK(support::within_ulp(rack.pressure_angle.rad(), wide(p.pressure_angle) * boost::math::constants::pi<wide>() / 180, 1));
        CHECK(support::within_ulp(rack.pressure_angle.deg(), wide(p.pressure_angle), 1));
        CHECK(rackwork::sentence(rackwork::check(rack)) == "");
    }
}

TEST_CASE("in fifty digits they still have every one") {
    using boost::multiprecision::cpp_bin_float_50;
    const basic_rack<cpp_bin_float_50> rack = rackwork::asa_b6_1_full_depth_14_5;
    CHECK(rack.dedendum == cpp_bin_float_50("1.157"));
    CHECK(rack.root_fillet_radius == cpp_bin_float_50("0.209"));
    CHECK(abs(rack.pressure_angle.deg() - cpp_bin_float_50("14.5")) < cpp_bin_float_50("1e-48"));
}

TEST_CASE_TEMPLATE("a rack without words is ISO 53 profile A", T, float, double, long double) {
    CHECK(basic_rack<T>{} == basic_rack<T>(rackwork::iso_53_a));
    CHECK_FALSE(basic_rack<T>{} == basic_rack<T>(rackwork::iso_53_b));
    CHECK_FALSE(basic_rack<T>{} == basic_rack<T>(rackwork::asa_b6_1_stub_20));
}

TEST_CASE_TEMPLATE("the dedendum of fine-pitch teeth has two thousandths of an inch more clearance", T, float, double, long double) {
    for (const int pitch : {20, 24, 32, 48, 64, 72, 80, 96, 120}) {
        const basic_rack<T> rack = rackwork::ansi_b6_7_fine_20(static_cast<T>(pitch));
        CAPTURE(pitch);
        CHECK(support::within_ulp(rack.dedendum, wide("1.2") + wide(pitch) / 500, 1));
        // In inches: whole depth 2.2/P + 0.002. ANSI B6.7, from memory.
        const T whole_depth = (rack.addendum + rack.dedendum) * rackwork::module_from_diametral_pitch(static_cast<T>(pitch));
        CHECK(support::within_ulp(whole_depth, wide("2.2") / pitch + wide("0.002"), 3));
        CHECK(rack.addendum == 1);
        CHECK(rack.root_fillet_radius == 0);
        CHECK(rackwork::sentence(rackwork::check(rack)) == "");
    }
}

TEST_CASE_TEMPLATE("diametral pitches give their modules in inches and in millimetres", T, float, double, long double) {
    for (const int pitch : {1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 16, 20, 24, 32, 48, 64, 80, 96, 120, 200}) {
        CAPTURE(pitch);
        CHECK(support::within_ulp(rackwork::module_from_diametral_pitch(static_cast<T>(pitch)), wide(1) / pitch, 0.5));
        CHECK(support::within_ulp(rackwork::module_in_millimetres_from_diametral_pitch(static_cast<T>(pitch)), wide("25.4") / pitch, 1));
    }
    CHECK(rackwork::module_in_millimetres_from_diametral_pitch(T(10)) == T(2.54L));
    CHECK(rackwork::module_in_millimetres_from_diametral_pitch(T(1)) == T(25.4L));
}

TEST_CASE("the lands of a rack and its flanks fill its pitch") {
    support::random_source random{3};
    for (int i = 0; i < 2000; ++i) {
        const double degrees = random.uniform(5, 40);
        const double tangent = std::tan(deg(degrees).rad());
        const double deepest = std::numbers::pi / 4 / tangent;
        basic_rack<double> rack{.pressure_angle = deg(degrees), .addendum = random.uniform(0.1, 0.9) * deepest,
                                .dedendum = random.uniform(0.1, 0.9) * deepest};
        rack.root_fillet_radius = random.uniform(0, 0.99) * rackwork::full_root_fillet_radius(rack.pressure_angle, rack.dedendum);
        CAPTURE(degrees);
        // The fillet's arc spans the height h_fP - h_FfP and the width rho cos alpha.
        const double rounding_width = rack.root_fillet_radius * std::cos(deg(degrees).rad());
        CHECK(rack.dedendum - rack.form_dedendum() ==
              doctest::Approx(rack.root_fillet_radius * (1 - std::sin(deg(degrees).rad()))).epsilon(1e-13));
        CHECK(rack.half_root_land() + rounding_width + rack.form_dedendum() * tangent == doctest::Approx(std::numbers::pi / 4).epsilon(1e-13));
        CHECK(rack.half_tip_land() + rack.addendum * tangent == doctest::Approx(std::numbers::pi / 4).epsilon(1e-13));
        // A full radius leaves no land.
        rack.root_fillet_radius = rackwork::full_root_fillet_radius(rack.pressure_angle, rack.dedendum);
        CHECK(std::fabs(rack.half_root_land()) <= 1e-15 * (1 + rack.dedendum + rack.root_fillet_radius));
    }
}

TEST_CASE("a fillet is refused where the tool has no room for it, and a rack where its teeth overlap") {
    const auto complaint = [](const basic_rack<double>& rack) { return std::string{rackwork::check(rack) ? rackwork::check(rack).quantity : ""}; };
    const double full = rackwork::full_root_fillet_radius(deg(20.0), 1.25);
    CHECK(full == doctest::Approx(0.4719).epsilon(1e-4)); // the 0.47 of a full-radius 20 degree hob: common practice
    CHECK(complaint({.root_fillet_radius = full}) == "");
    CHECK(complaint({.root_fillet_radius = full * 1.0001}) == "root_fillet_radius");
    CHECK(complaint({.root_fillet_radius = -0.001}) == "root_fillet_radius");
    CHECK(complaint({.addendum = 2.2}) == "addendum"); // pi/4 / tan 20 degrees = 2.158
    CHECK(complaint({.addendum = 2.1}) == "");
    CHECK(complaint({.dedendum = 2.2}) == "dedendum");
    CHECK(complaint({.addendum = 0}) == "addendum");
    CHECK(complaint({.dedendum = 0}) == "dedendum");
    CHECK(complaint({.pressure_angle = deg(0.0)}) == "pressure_angle (deg)");
    CHECK(complaint({.pressure_angle = deg(90.0)}) == "pressure_angle (deg)");
    CHECK(complaint({.pressure_angle = deg(-20.0)}) == "pressure_angle (deg)");
    // A short dedendum with a great fillet: the straight flank would end above the tip line.
    CHECK(complaint({.addendum = 0.01, .dedendum = 0.1, .root_fillet_radius = 1}) == "form_dedendum");
}

// Proportions while compiling.
static_assert(basic_rack<double>(rackwork::iso_53_a).dedendum == 1.25 && basic_rack<double>(rackwork::iso_53_a).root_fillet_radius == 0.38);
static_assert(basic_rack<float>(rackwork::iso_53_d).dedendum == 1.4F && basic_rack<long double>(rackwork::iso_53_d).root_fillet_radius == 0.39L);
static_assert(basic_rack<double>(rackwork::asa_b6_1_full_depth_14_5).pressure_angle == deg(14.5));
static_assert(rackwork::module_from_diametral_pitch(4.0) == 0.25 && rackwork::module_in_millimetres_from_diametral_pitch(10.0) == 2.54);
