// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The same gears in float, double, long double, fifty digits (binary and decimal) and with derivatives attached.
#include "bad_input_sheets.hpp"
#include "scalar_notebook.hpp"

#include <rackwork/findings.hpp>
#include <rackwork/form/outline.hpp>

#include <doctest/doctest.h>

#include <boost/math/differentiation/autodiff.hpp>
#include <boost/multiprecision/cpp_bin_float.hpp>
#include <boost/multiprecision/cpp_dec_float.hpp>

#include <algorithm>
#include <cmath>
#include <concepts>
#include <string>
#include <type_traits>

namespace {

using boost::multiprecision::cpp_bin_float_50;
using boost::multiprecision::cpp_dec_float_50;
using scalar_support::named_values;
using scalar_support::notebook;
using with_derivative = boost::math::differentiation::autodiff_fvar<double, 1>;

// Plain floating-point results stay in their type: nothing is computed in double on the side.
static_assert(std::same_as<decltype(rackwork::gear{rackwork::gear_parameters<float>{}}.tip_diameter()), float>);
static_assert(std::same_as<decltype(rackwork::inv(rackwork::deg(20.0L))), long double>);
static_assert(std::same_as<decltype(rackwork::inverse_inv(cpp_bin_float_50{})), rackwork::angle<cpp_bin_float_50>>);
static_assert(rackwork::scalar<float> && rackwork::scalar<double> && rackwork::scalar<long double>);
static_assert(rackwork::scalar<cpp_bin_float_50> && rackwork::scalar<cpp_dec_float_50> && rackwork::scalar<with_derivative>);
static_assert(!rackwork::scalar<int> && !rackwork::scalar<bool> && !rackwork::scalar<std::string> && !rackwork::scalar<double*>);

/// A data sheet of a pair. All inputs are exact in every type, so that only the arithmetic differs.
template <class T>
named_values sheet(int teeth, int helix_degrees, double shift) {
    rackwork::gear_parameters<T> p{.normal_module = T(2.5), .teeth = teeth, .rack = rackwork::iso_53_b, .face_width = T(30)};
    p.helix_angle = rackwork::deg(T(helix_degrees));
    p.profile_shift = T(shift);
    p.thickness_allowance = T(-0.0625);
    const rackwork::gear<T> g{p};
    p.teeth = teeth + 17;
    p.helix_angle = -p.helix_angle;
    p.profile_shift = T(0.125);
    const rackwork::gear<T> mate{p};

    notebook note;
    bad_input::sizes_of_gear(g, note);
    bad_input::recommended_measures(g, note);
    bad_input::measures_over_teeth(g, 3, note);
    bad_input::measures_with_length(g, T(4.5), note);
    bad_input::sizes_at_diameter(g, T(g.reference_diameter() + T(0.5)), note);
    const rackwork::mesh<T> m{g, mate};
    bad_input::sizes_of_mesh(m, note);
    const rackwork::mesh<T> apart{g, mate, T(m.centre_distance() + T(0.25))};
    bad_input::sizes_of_mesh(apart, note);
    note("findings", [&] { return T(static_cast<int>(rackwork::findings(m).size())); });
    note("area", [&] { return rackwork::outline_of(g).area(); });
    return note.values();
}

template <class T>
void agrees_with_double(double tolerance) {
    for (const int teeth : {9, 20, 41}) {
        for (const int helix : {0, 15, -30}) {
            for (const double shift : {0.0, 0.375}) {
                CAPTURE(teeth);
                CAPTURE(helix);
                CAPTURE(shift);
                const named_values expected = sheet<double>(teeth, helix, shift);
                const named_values found = sheet<T>(teeth, helix, shift);
                CHECK(expected.size() > 100);
                REQUIRE(found.size() == expected.size());
                for (std::size_t i = 0; i < expected.size(); ++i) {
                    // The diameters of these gears are about a hundred; all other numbers come from their differences.
                    const double size = std::max(100.0, std::fabs(expected[i].second));
                    if (found[i].first == expected[i].first && std::fabs(found[i].second - expected[i].second) <= tolerance * size) continue;
                    CAPTURE(expected[i].first);
                    CAPTURE(found[i].first);
                    CHECK(found[i].second == doctest::Approx(expected[i].second).epsilon(1e-15));
                }
            }
        }
    }
}

} // namespace

TEST_CASE("float gives what its seven places allow") { agrees_with_double<float>(64 * 1.2e-7); }
TEST_CASE("long double agrees with double to the places of double") { agrees_with_double<long double>(64 * 2.3e-16); }
TEST_CASE("so do fifty binary digits, with expression templates") { agrees_with_double<cpp_bin_float_50>(64 * 2.3e-16); }

TEST_CASE("fifty decimal digits will do as well as binary ones") {
    const rackwork::gear<cpp_dec_float_50> g{
        {.normal_module = cpp_dec_float_50(3), .teeth = 15, .profile_shift = cpp_dec_float_50(2) / 5}};
    CHECK(g.tip_diameter() == cpp_dec_float_50("53.4"));
    // Its digits are counted in tens, and its epsilon is 1e-49.
    using wider = boost::multiprecision::cpp_bin_float_100;
    for (const char* radians : {"0.001", "0.1", "0.35", "0.7", "0.999", "1", "1.001", "1.5"}) {
        const wider exact = tan(wider(radians)) - wider(radians);
        const wider computed(rackwork::inv(rackwork::rad(cpp_dec_float_50(radians))));
        const wider inverse(rackwork::inverse_inv(cpp_dec_float_50(exact)).rad());
        CAPTURE(std::string{radians});
        CHECK(abs(computed - exact) <= exact * rackwork::inv_error_bound * wider("1e-49"));
        CHECK(abs(inverse - wider(radians)) <= wider(radians) * rackwork::inverse_inv_error_bound * wider("1e-49"));
    }
    CHECK(abs(g.tooth_thickness(g.pointed_tip_diameter())) < cpp_dec_float_50("1e-45"));
}

TEST_CASE("derivatives are carried along without changing the numbers") { agrees_with_double<with_derivative>(64 * 2.3e-16); }

TEST_CASE("fifty digits are refused like sixteen") {
    using wide = cpp_bin_float_50;
    CHECK(rackwork::sentence(rackwork::check(rackwork::gear_parameters<wide>{})) == "normal_module is 0 but must be greater than 0");
    const wide none = std::numeric_limits<wide>::quiet_NaN();
    const wide endless = std::numeric_limits<wide>::infinity();
    for (const wide& bad : {none, endless, wide(-endless)}) {
        CHECK(rackwork::check(rackwork::gear_parameters<wide>{.normal_module = bad, .teeth = 20}));
        CHECK(rackwork::check(rackwork::gear_parameters<wide>{.normal_module = wide(1), .teeth = 20, .helix_angle = rackwork::deg(bad)}));
        CHECK(rackwork::check(rackwork::gear_parameters<wide>{.normal_module = wide(1), .teeth = 20, .profile_shift = bad}));
        CHECK_THROWS_AS(rackwork::inv(rackwork::rad(bad)), rackwork::geometry_error);
        CHECK_THROWS_AS(rackwork::inverse_inv(bad), rackwork::geometry_error);
    }
    for (const double bad : {std::nan(""), HUGE_VAL, -HUGE_VAL, 0.0, -1.0}) {
        CHECK(rackwork::check(rackwork::gear_parameters<with_derivative>{.normal_module = with_derivative(bad), .teeth = 20}));
    }
}
