// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Diameters, tools and readings that cannot be.
#include "bad_input_audit.hpp"
#include "bad_input_sheets.hpp"
#include "random_source.hpp"

#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

namespace {

using bad_input::audit;
using bad_input::awkward_numbers;
using bad_input::awkward_whole_numbers;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;

/// Gears whose measures go different ways: spur and helical, odd and even, few teeth and as many as an int holds.
template <class T>
std::vector<gear<T>> gears_to_measure() {
    std::vector<gear<T>> all;
    for (const int teeth : {1, 2, 3, 17, 18, 101, (std::numeric_limits<int>::max)() - 1, (std::numeric_limits<int>::max)()}) {
        for (const T& helix : {T(0), T(-20), T(44), T(46), T(80)}) {
            gear_parameters<T> p{.normal_module = T(2), .teeth = teeth, .helix_angle = deg(helix), .face_width = T(20)};
            if (teeth < 4) p.profile_shift = T(1.5);
            if (!rackwork::check(p)) all.emplace_back(p);
        }
    }
    return all;
}

template <class T>
audit awkward_measures() {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    std::vector<T> numbers = awkward_numbers<T>();
    for (const gear<T>& g : gears_to_measure<T>()) {
        std::vector<T> lengths = numbers;
        for (const T& size : {g.base_diameter(), g.tip_diameter(), g.reference_diameter()}) {
            lengths.push_back(size);
            lengths.push_back(std::nextafter(size, T(0)));
            lengths.push_back(std::nextafter(size, 2 * size));
        }
        for (const T& length : lengths) {
            judge.describe = [&] { return std::to_string(static_cast<double>(length) / g.normal_module()) + " modules on " + bad_input::described(g.parameters()); };
            bad_input::sizes_at_diameter(g, length, judge);
            bad_input::measures_with_length(g, length, judge);
        }
        std::vector<int> counts = awkward_whole_numbers();
        counts.push_back(g.teeth());
        counts.push_back(g.teeth() - 1);
        for (const int count : counts) {
            judge.describe = [&] { return std::to_string(count) + " teeth of " + bad_input::described(g.parameters()); };
            bad_input::measures_over_teeth(g, count, judge);
        }
        judge.describe = [&] { return bad_input::described(g.parameters()); };
        bad_input::sizes_of_gear(g, judge);
        bad_input::recommended_measures(g, judge);
    }
    return judge;
}

} // namespace

TEST_CASE("measures with impossible tools and readings are refused truthfully or finite") {
    const audit judge = awkward_measures<double>();
    CHECK_MESSAGE(judge.clean(), judge);
    CHECK(judge.results() > 1000);
    CHECK(judge.refusals() > 1000);
    const audit narrow = awkward_measures<float>();
    CHECK_MESSAGE(narrow.clean(), narrow);
    const audit extended = awkward_measures<long double>();
    CHECK_MESSAGE(extended.clean(), extended);
}

TEST_CASE_TEMPLATE("only a pin that is smaller than one touching at the base circle is called too small", T, float, double, long double) {
    int too_small = 0;
    int wrongly = 0;
    std::string example;
    for (const gear<T>& g : gears_to_measure<T>()) {
        T least = 0; // touching at the base circle, where such a pin exists
        try {
            least = rackwork::pin_diameter_touching_at(g, g.base_diameter());
        } catch (const rackwork::geometry_error&) {
            least = 0;
        }
        const T rounding = 64 * std::numeric_limits<T>::epsilon() * g.base_diameter();
        // Of every size, and closely spaced up to the one that touches at the base circle: those that fall through are few.
        std::vector<T> pins;
        for (T pin = T(1e-6); pin < T(1e24); pin *= T(1.25)) pins.push_back(pin);
        for (int i = 1; i <= 4000; ++i) pins.push_back(least * (T(0.8) + T(i) / 20000));
        for (const T pin : pins) {
            if (!(pin > 0)) continue;
            try {
                static_cast<void>(rackwork::position_of_pin(g, pin));
            } catch (const rackwork::geometry_error& error) {
                const std::string requirement = error.cause().requirement;
                if (requirement.find("great enough") == std::string::npos) continue;
                ++too_small;
                if (pin <= least + rounding) continue;
                ++wrongly;
                example = std::string{error.what()} + " [" + bad_input::described(g.parameters()) + "]";
            }
        }
    }
    CHECK(too_small > 10);
    CHECK_MESSAGE(wrongly == 0, example);
}

TEST_CASE("no number of teeth from 1 on can be spanned all round, and none is not a span") {
    const gear<double> g{{.normal_module = 2, .teeth = 9}};
    for (int spanned = 1; spanned < 9; ++spanned) CHECK_NOTHROW(rackwork::span_measurement(g, spanned));
    for (const int spanned : {(std::numeric_limits<int>::min)(), -1, 0, 9, 10, (std::numeric_limits<int>::max)()}) {
        CAPTURE(spanned);
        try {
            rackwork::span_measurement(g, spanned);
            FAIL_CHECK("a span that cannot be was computed");
        } catch (const rackwork::geometry_error& error) {
            CHECK(std::string{error.cause().quantity} == "teeth_spanned");
            CHECK(error.cause().value == spanned);
            CHECK(bad_input::untruth(error.cause()) == "");
        }
    }
}

TEST_CASE("a gear of one tooth is not measured over its single space twice") {
    // Both balls lie in the same space, so the dimension is the ball's own and says nothing of the thickness.
    const gear<double> g{{.normal_module = 2, .teeth = 1, .helix_angle = deg(70.0), .profile_shift = 1}};
    CHECK_THROWS_AS(rackwork::normal_tooth_thickness_from_balls(g, 3.5, g.tip_diameter() + 2), rackwork::geometry_error);
}
