// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Tolerances by class: steps, rounding, range, units, and fifty digits.
#include <rackwork/tolerance/flank.hpp>
#include <rackwork/tolerance/radial_composite.hpp>

#include "random_source.hpp"
#include "ulp.hpp"

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <cmath>
#include <limits>
#include <string>

#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::gear;
using rackwork::toothing_in_millimetres;
using wide = boost::multiprecision::cpp_bin_float_50;

namespace {

toothing_in_millimetres<double> random_toothing(support::random_source& random) {
    const int teeth = random.integer(5, 1000);
    const double module = random.uniform(0.5, 15);
    return {.teeth = teeth,
            .normal_module = module,
            .reference_diameter = std::fmax(5, std::fmin(15000, teeth * module)),
            .face_width = random.uniform(4, 1200),
            .helix_angle = deg(random.uniform(-45, 45))};
}

/// sqrt(2)^n by a power of two's fourth root, and not by steps.
wide class_step(int tolerance_class) { return pow(wide(2), wide(tolerance_class - 5) / 2); }

constexpr int draws = 2000;

} // namespace

TEST_CASE("every unrounded tolerance is the formula's to its last places") {
    support::random_source random{1301};
    support::worst_case worst;
    for (int i = 0; i < draws; ++i) {
        const toothing_in_millimetres<double> g = random_toothing(random);
        const int a = random.integer(1, 11);
        const wide step = class_step(a);
        const wide d = g.reference_diameter;
        const wide m = g.normal_module;
        const wide b = g.face_width;
        const auto hundredths = [](int n) { return wide(n) / 100; };
        const wide single = (d / 1000 + hundredths(40) * m + 5) * step;
        const wide cumulative = (d / 500 + hundredths(55) * sqrt(d) + hundredths(70) * m + 12) * step;
        const auto pitch = unrounded_pitch_tolerances_in_micrometres(g, a);
        worst.record(pitch.single_pitch, single, g.reference_diameter);
        worst.record(pitch.cumulative_pitch, cumulative, g.reference_diameter);
        worst.record(pitch.runout, wide(cumulative * 9 / 10), g.reference_diameter);
        const wide profile_slope = (hundredths(40) * m + d / 1000 + 4) * step;
        const wide profile_form = (hundredths(55) * m + 5) * step;
        const auto profile = unrounded_profile_tolerances_in_micrometres(g, a);
        worst.record(profile.slope, profile_slope, g.reference_diameter);
        worst.record(profile.form, profile_form, g.reference_diameter);
        worst.record(profile.total, wide(sqrt(profile_slope * profile_slope + profile_form * profile_form)), g.reference_diameter);
        const wide helix_slope = (hundredths(5) * sqrt(d) + hundredths(35) * sqrt(b) + 4) * step;
        const wide helix_form = (hundredths(7) * sqrt(d) + hundredths(45) * sqrt(b) + 4) * step;
        const auto helix = unrounded_helix_tolerances_in_micrometres(g, a);
        worst.record(helix.slope, helix_slope, g.reference_diameter);
        worst.record(helix.form, helix_form, g.reference_diameter);
        worst.record(helix.total, wide(sqrt(helix_slope * helix_slope + helix_form * helix_form)), g.reference_diameter);
    }
    CHECK_MESSAGE(worst.error() <= 8, worst);
}

TEST_CASE("two classes further on a tolerance is exactly twice as wide, one class further by the root of two") {
    support::random_source random{1302};
    for (int i = 0; i < draws; ++i) {
        const toothing_in_millimetres<double> g = random_toothing(random);
        for (int a = 1; a <= 9; ++a) {
            CHECK(unrounded_pitch_tolerances_in_micrometres(g, a + 2).single_pitch == 2 * unrounded_pitch_tolerances_in_micrometres(g, a).single_pitch);
            CHECK(unrounded_helix_tolerances_in_micrometres(g, a + 2).total == 2 * unrounded_helix_tolerances_in_micrometres(g, a).total);
            const double one_on = unrounded_profile_tolerances_in_micrometres(g, a + 1).total;
            CHECK(support::within_ulp(one_on, std::sqrt(2.0L) * unrounded_profile_tolerances_in_micrometres(g, a).total, 4));
        }
    }
}

TEST_CASE("a tolerance is rounded to whole micrometres above 10, to halves from 5, to tenths below") {
    using rackwork::rounded_flank_tolerance;
    static_assert(rounded_flank_tolerance(4.94) == 4.9 && rounded_flank_tolerance(4.96) == 5.0 && rounded_flank_tolerance(0.04) == 0.0);
    static_assert(rounded_flank_tolerance(5.2) == 5.0 && rounded_flank_tolerance(5.3) == 5.5 && rounded_flank_tolerance(9.8) == 10.0);
    static_assert(rounded_flank_tolerance(10.4) == 10.0 && rounded_flank_tolerance(10.6) == 11.0 && rounded_flank_tolerance(1234.4) == 1234.0);
    // Ties go up, also where rounding errors have put the value a hair below.
    CHECK(rounded_flank_tolerance(20.5) == 21);
    CHECK(rounded_flank_tolerance(std::nextafter(20.5, 0.0)) == 21);
    CHECK(rounded_flank_tolerance(6.75) == 7);
    CHECK(rounded_flank_tolerance(0.35) == 0.4);
    CHECK(rounded_flank_tolerance(20.4999) == 20);
    for (int tenths = 0; tenths < 50; ++tenths) CHECK(rounded_flank_tolerance(tenths / 10.0) == tenths / 10.0);
    for (int halves = 10; halves <= 20; ++halves) CHECK(rounded_flank_tolerance(halves / 2.0) == halves / 2.0);
    for (int whole = 10; whole <= 1500; ++whole) CHECK(rounded_flank_tolerance(double(whole)) == whole);
    // The older rule of the radial composite tolerances has no tenths.
    CHECK(rackwork::rounded_radial_composite_tolerance(1.77) == 2);
    CHECK(rackwork::rounded_radial_composite_tolerance(1.2) == 1);
    CHECK(rackwork::rounded_radial_composite_tolerance(36.06) == 36);
    CHECK_THROWS_AS(rounded_flank_tolerance(-1.0), rackwork::geometry_error);
    CHECK_THROWS_AS(rounded_flank_tolerance(std::nan("")), rackwork::geometry_error);
    CHECK_THROWS_AS(rounded_flank_tolerance(1e300), rackwork::geometry_error);
}

TEST_CASE("a stated tolerance is never further from the formula's than half its step, and the total is rounded by itself") {
    support::random_source random{1303};
    bool parts_would_differ = false;
    for (int i = 0; i < draws; ++i) {
        const toothing_in_millimetres<double> g = random_toothing(random);
        const int a = random.integer(1, 11);
        const auto exact = unrounded_helix_tolerances_in_micrometres(g, a);
        const auto stated = helix_tolerances_in_micrometres(g, a);
        const double half_step = exact.total > 10 ? 0.5 : exact.total < 5 ? 0.05 : 0.25;
        CHECK(std::fabs(stated.total - exact.total) <= half_step * (1 + 1e-12));
        const double from_rounded_parts = std::sqrt(stated.slope * stated.slope + stated.form * stated.form);
        parts_would_differ = parts_would_differ || rackwork::rounded_flank_tolerance(from_rounded_parts) != stated.total;
    }
    CHECK(parts_would_differ); // so the order of the two steps matters, and the one taken is the standard's
}

TEST_CASE("the pitch over a sector reaches the cumulative pitch over a quarter, and half way there over an eighth") {
    support::random_source random{1304};
    for (int i = 0; i < draws; ++i) {
        toothing_in_millimetres<double> g = random_toothing(random);
        g.teeth = 8 * random.integer(1, 125);
        const int a = random.integer(1, 11);
        const auto pitch = unrounded_pitch_tolerances_in_micrometres(g, a);
        CHECK(unrounded_sector_pitch_tolerance_in_micrometres(g, g.teeth / 4, a) == doctest::Approx(pitch.cumulative_pitch).epsilon(1e-14));
        CHECK(unrounded_sector_pitch_tolerance_in_micrometres(g, g.teeth / 8, a) ==
              doctest::Approx((pitch.single_pitch + pitch.cumulative_pitch) / 2).epsilon(1e-14));
        CHECK_THROWS_AS(sector_pitch_tolerance_in_micrometres(g, g.teeth / 4 + 1, a), rackwork::geometry_error);
        CHECK_THROWS_AS(sector_pitch_tolerance_in_micrometres(g, 0, a), rackwork::geometry_error);
    }
}

TEST_CASE("outside the standard's range the refusal names the quantity, its value and the limit") {
    const toothing_in_millimetres<double> good{.teeth = 25, .normal_module = 4, .reference_diameter = 100, .face_width = 40};
    const auto said = [](const toothing_in_millimetres<double>& g, int tolerance_class) {
        return rackwork::sentence(check_helix_tolerance_class(g, tolerance_class));
    };
    CHECK(said(good, 5).empty());
    CHECK(said(good, 0) == "tolerance_class is 0 but must be at least 1");
    CHECK(said(good, 12) == "tolerance_class is 12 but must be at most 11");
    auto g = good;
    g.teeth = 4;
    CHECK(said(g, 5) == "teeth is 4 but must be at least 5");
    g.teeth = 1001;
    CHECK(said(g, 5) == "teeth is 1001 but must be at most 1000");
    g = good;
    g.normal_module = 0.4;
    CHECK(said(g, 5) == "normal_module (mm) is 0.4 but must be at least 0.5");
    g.normal_module = 71;
    CHECK(said(g, 5) == "normal_module (mm) is 71 but must be at most 70");
    g = good;
    g.reference_diameter = 4.9;
    CHECK(said(g, 5) == "reference_diameter (mm) is 4.9 but must be at least 5");
    g.reference_diameter = 15001;
    CHECK(said(g, 5) == "reference_diameter (mm) is 15001 but must be at most 15000");
    g = good;
    g.face_width = 3;
    CHECK(said(g, 5) == "face_width (mm) is 3 but must be at least 4");
    CHECK_FALSE(check_tolerance_class(g, 5)); // pitch and profile do not ask for it
    g.face_width = 1201;
    CHECK(said(g, 5) == "face_width (mm) is 1201 but must be at most 1200");
    g = good;
    g.helix_angle = deg(46.0);
    CHECK(said(g, 5) == "helix_angle (deg) is 46 but must be at most 45");
    g.helix_angle = deg(-46.0);
    CHECK(said(g, 5) == "helix_angle (deg) is -46 but must be at least -45");
    for (const double both : {45.0, -45.0}) {
        g.helix_angle = deg(both);
        CHECK(said(g, 5).empty());
    }
    for (const double bad : {std::nan(""), HUGE_VAL, -HUGE_VAL}) {
        g = good;
        g.helix_angle = deg(bad);
        CHECK(check_tolerance_class(g, 5));
        g = good;
        g.normal_module = bad;
        CHECK(check_tolerance_class(g, 5));
        g = good;
        g.reference_diameter = bad;
        CHECK(check_tolerance_class(g, 5));
        g = good;
        g.face_width = bad;
        CHECK(check_helix_tolerance_class(g, 5));
    }
    CHECK_THROWS_WITH_AS(flank_tolerances_in_micrometres(gear<double>{{.normal_module = 4, .teeth = 25}}, 5),
                         "face_width (mm) is 0 but must be at least 4", rackwork::geometry_error);
    CHECK(check_radial_composite_grade(good, 3));
    CHECK(check_radial_composite_grade(good, 13));
    g = good;
    g.reference_diameter = 1001;
    CHECK(rackwork::sentence(check_radial_composite_grade(g, 6)) == "reference_diameter (mm) is 1001 but must be at most 1000");
}

TEST_CASE("a gear in inches has the tolerances of the same gear in millimetres") {
    const gear<double> inches{{.normal_module = 1.0 / 8, .teeth = 32, .helix_angle = deg(20.0), .face_width = 1.5}};
    const gear<double> millimetres{{.normal_module = 25.4 / 8, .teeth = 32, .helix_angle = deg(20.0), .face_width = 38.1}};
    for (int a = 1; a <= 11; ++a) {
        const auto one = flank_tolerances_in_micrometres(inches, a, 25.4);
        const auto other = flank_tolerances_in_micrometres(millimetres, a);
        CHECK(one.pitch.cumulative_pitch == other.pitch.cumulative_pitch);
        CHECK(one.profile.total == other.profile.total);
        CHECK(one.helix.total == other.helix.total);
    }
    CHECK_THROWS_AS(flank_tolerances_in_micrometres(inches, 5), rackwork::geometry_error); // a module of 0.125 mm is out of range
    CHECK_THROWS_AS(toothing_of(inches, 0), rackwork::geometry_error);
}

TEST_CASE("a diameter or module on the limit of a range has the radial composite tolerances of the range below") {
    const auto of = [](double module, double diameter) {
        return unrounded_radial_composite_tolerances_in_micrometres(
            toothing_in_millimetres<double>{.teeth = 20, .normal_module = module, .reference_diameter = diameter}, 5);
    };
    CHECK(of(2, 50).total == of(2, 20.001).total);
    CHECK(of(2, 50.001).total > of(2, 50).total);
    CHECK(of(2.5, 60).tooth_to_tooth == of(1.501, 60).tooth_to_tooth);
    CHECK(of(2.501, 60).tooth_to_tooth > of(2.5, 60).tooth_to_tooth);
    // And the geometric means are those of the limits: 1.5 and 2.5, 50 and 125.
    const double module = std::sqrt(1.5 * 2.5);
    const double root_diameter = std::sqrt(std::sqrt(50.0 * 125.0));
    CHECK(of(2, 80).total == doctest::Approx(3.2 * module + 1.01 * root_diameter + 6.4).epsilon(1e-14));
    CHECK(of(2, 80).tooth_to_tooth == doctest::Approx(2.96 * module + 0.01 * root_diameter + 0.8).epsilon(1e-14));
}

TEST_CASE("tolerances of a constexpr gear are known to the compiler") {
    constexpr gear<double> wheel{{.normal_module = 3, .teeth = 40, .face_width = 25}};
    constexpr auto tolerances = flank_tolerances_in_micrometres(wheel, 7);
    static_assert(tolerances.pitch.single_pitch == 13); // (0.12 + 1.2 + 5) 2 = 12.64
    static_assert(radial_composite_tolerances_in_micrometres(wheel, 7).total == 51);
    static_assert(tolerances.profile.total == 17); // 2 sqrt(5.32^2 + 6.65^2) = 17.03
}
