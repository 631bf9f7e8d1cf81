// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The free functions and the basic rack given impossible numbers.
#include "bad_input_audit.hpp"

#include <rackwork/basic_rack.hpp>
#include <rackwork/generated_root.hpp>
#include <rackwork/involute.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/undercut_limits.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

namespace {

using bad_input::audit;
using bad_input::awkward_numbers;
using bad_input::awkward_whole_numbers;
using rackwork::basic_rack;
using rackwork::deg;
using rackwork::rad;

template <class... Numbers>
std::string listed(const Numbers&... numbers) {
    std::ostringstream text;
    text.precision(21);
    ((text << numbers << "; "), ...);
    return text.str();
}

/// What a function of one number says when it refuses; empty when it does not.
template <class F>
std::string refusal(const F& compute) {
    try {
        static_cast<void>(compute());
    } catch (const rackwork::geometry_error& error) {
        return error.what();
    }
    return {};
}

template <class T>
audit functions_of_one_number() {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    for (const T& x : awkward_numbers<T>()) {
        judge.describe = [&] { return listed(x); };
        judge("inv", [&] { return rackwork::inv(rad(x)); });
        judge("inv of degrees", [&] { return rackwork::inv(deg(x)); });
        judge("inv_from_tangent", [&] { return rackwork::inv_from_tangent(x); });
        judge("inverse_inv", [&] { return rackwork::inverse_inv(x); });
        judge("module_from_diametral_pitch", [&] { return rackwork::module_from_diametral_pitch(x); });
        judge("module_in_millimetres_from_diametral_pitch",
              [&] { return rackwork::module_in_millimetres_from_diametral_pitch(x); });
        judge("ansi_b6_7_fine_20", [&] { return rackwork::ansi_b6_7_fine_20(x); });
        judge("nearest_preferred_pin_diameter", [&] { return rackwork::nearest_preferred_pin_diameter(x); });
    }
    return judge;
}

template <class T>
audit racks_of_awkward_numbers() {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    std::vector<T> numbers = awkward_numbers<T>();
    numbers.push_back(std::numbers::pi_v<T> / 4); // as deep as 45 degrees allow
    numbers.push_back(T(45));
    for (const T& alpha : numbers) {
        for (const T& addendum : {T(1), numbers[3], std::numeric_limits<T>::quiet_NaN()}) {
            for (const T& dedendum : numbers) {
                for (const T& fillet : numbers) {
                    const basic_rack<T> rack{.pressure_angle = deg(alpha), .addendum = addendum, .dedendum = dedendum,
                                             .root_fillet_radius = fillet};
                    judge.describe = [&] { return listed(alpha, addendum, dedendum, fillet); };
                    judge("check(basic_rack)", [&] {
                        const rackwork::violation v = rackwork::check(rack);
                        if (v) throw rackwork::geometry_error{v};
                        return true;
                    });
                    if (rackwork::check(rack)) continue;
                    judge("form_dedendum", [&] { return rack.form_dedendum(); });
                    judge("half_root_land", [&] { return rack.half_root_land(); });
                    judge("half_tip_land", [&] { return rack.half_tip_land(); });
                    judge("full_root_fillet_radius", [&] { return rackwork::full_root_fillet_radius(rack.pressure_angle, rack.dedendum); });
                }
            }
        }
    }
    return judge;
}

template <class T>
audit limits_of_undercut() {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    for (const T& x : awkward_numbers<T>()) {
        for (const T& y : awkward_numbers<T>()) {
            const basic_rack<T> spoilt{.pressure_angle = deg(x), .addendum = T(0.5), .dedendum = T(0.001), .root_fillet_radius = T(0)};
            const basic_rack<T> standard = rackwork::iso_53_a;
            judge.describe = [&] { return listed(x, y); };
            judge("least_teeth_without_undercut of a pressure angle and a shift",
                  [&] { return rackwork::least_teeth_without_undercut(spoilt, y); });
            judge("least_teeth_without_undercut of a pressure angle and a helix",
                  [&] { return rackwork::least_teeth_without_undercut(spoilt, T(0), deg(y)); });
            judge("least_teeth_without_undercut of a shift and a helix",
                  [&] { return rackwork::least_teeth_without_undercut(standard, x, deg(y)); });
            judge("least_profile_shift_without_undercut of a pressure angle and a helix",
                  [&] { return rackwork::least_profile_shift_without_undercut(spoilt, 17, deg(y)); });
        }
        for (const int teeth : awkward_whole_numbers()) {
            judge.describe = [&] { return listed(x, teeth); };
            judge("least_profile_shift_without_undercut of a helix",
                  [&] { return rackwork::least_profile_shift_without_undercut(basic_rack<T>(rackwork::iso_53_a), teeth, deg(x)); });
        }
    }
    return judge;
}

} // namespace

TEST_CASE("functions of one number refuse truthfully or give a finite number") {
    const audit judge = functions_of_one_number<double>();
    CHECK_MESSAGE(judge.clean(), judge);
    CHECK(judge.results() > 100);
    const audit narrow = functions_of_one_number<float>();
    CHECK_MESSAGE(narrow.clean(), narrow);
    const audit extended = functions_of_one_number<long double>();
    CHECK_MESSAGE(extended.clean(), extended);
}

TEST_CASE("a basic rack is refused truthfully or has finite proportions") {
    const audit judge = racks_of_awkward_numbers<double>();
    CHECK_MESSAGE(judge.clean(), judge);
    CHECK(judge.results() > 100);
    const audit narrow = racks_of_awkward_numbers<float>();
    CHECK_MESSAGE(narrow.clean(), narrow);
    const audit extended = racks_of_awkward_numbers<long double>();
    CHECK_MESSAGE(extended.clean(), extended);
}

TEST_CASE("the limits of undercut are refused truthfully or finite") {
    const audit judge = limits_of_undercut<double>();
    CHECK_MESSAGE(judge.clean(), judge);
    const audit narrow = limits_of_undercut<float>();
    CHECK_MESSAGE(narrow.clean(), narrow);
}

TEST_CASE_TEMPLATE("the involute function has the sign of its angle wherever it is defined", T, float, double, long double) {
    // The nearest T to 90 degrees may lie beyond them, where the tangent is negative.
    T angle = std::numbers::pi_v<T> / 2;
    for (int i = 0; i < 5; ++i) {
        CAPTURE(i);
        T value = 1;
        if (refusal([&] { return value = rackwork::inv(rad(angle)); }).empty()) CHECK(value > 0);
        if (refusal([&] { return value = -rackwork::inv(rad(-angle)); }).empty()) CHECK(value > 0);
        angle = std::nextafter(angle, T(0));
    }
    CHECK(rackwork::inv(rad(angle)) > 0);
}

TEST_CASE("an angle beyond the involute function's range is named with its sign") {
    CHECK(refusal([] { return rackwork::inv(rad(-2.0)); }).find(" is -2 but must be ") != std::string::npos);
    CHECK(refusal([] { return rackwork::inv(rad(2.0)); }).find(" is 2 but must be ") != std::string::npos);
    CHECK(refusal([] { return rackwork::inv(rad(-INFINITY)); }).find(" is -inf but must be a finite number") != std::string::npos);
}

TEST_CASE("a pin that is no pin has no preferred neighbour") {
    for (const double bad : {std::nan(""), 0.0, -1.0, -0.6, double{INFINITY}, -double{INFINITY}}) {
        CAPTURE(bad);
        CHECK_THROWS_AS(rackwork::nearest_preferred_pin_diameter(bad), rackwork::geometry_error);
    }
}

TEST_CASE("a rack whose space comes to a point is possible with a sharp corner") {
    // As deep as the flanks allow: they meet at the root, and a full radius there is no radius at all.
    for (double degrees = 1; degrees < 89.5; degrees += 0.5) {
        CAPTURE(degrees);
        const double depth = std::numbers::pi / (4 * std::tan(deg(degrees).rad()));
        const basic_rack<double> rack{.pressure_angle = deg(degrees), .addendum = depth, .dedendum = depth, .root_fillet_radius = 0};
        CHECK(rackwork::sentence(rackwork::check(rack)) == "");
    }
}

TEST_CASE("a full root radius as the library computes it is possible") {
    for (double degrees = 0.5; degrees < 89.9; degrees += 0.1) {
        for (const double part : {1e-6, 0.01, 0.3, 0.8, 0.99}) {
            CAPTURE(degrees);
            CAPTURE(part);
            const double deepest = std::numbers::pi / (4 * std::tan(deg(degrees).rad()));
            const double dedendum = part * deepest;
            const basic_rack<double> rack{.pressure_angle = deg(degrees), .addendum = deepest, .dedendum = dedendum,
                                          .root_fillet_radius = rackwork::full_root_fillet_radius(deg(degrees), dedendum)};
            const rackwork::violation v = rackwork::check(rack);
            // Only its form dedendum may then be out of reach.
            if (v) CHECK(std::string{v.quantity} == "form_dedendum");
        }
    }
}
