// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// One gear from impossible, forgotten and mixed-up numbers.
#include "bad_input_audit.hpp"
#include "bad_input_sheets.hpp"
#include "random_source.hpp"

#include <rackwork/gear.hpp>

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

namespace {

using bad_input::audit;
using bad_input::awkward_numbers;
using bad_input::awkward_whole_numbers;
using rackwork::gear;
using rackwork::gear_parameters;

template <class T>
gear_parameters<T> sound_gear() {
    return {.normal_module = T(3), .teeth = 17, .helix_angle = rackwork::deg(T(15)), .profile_shift = T(0.25), .face_width = T(30)};
}

/// The numbers of a gear one by one, so that each can be spoilt alone and together with others.
template <class T>
struct setting {
    const char* quantity;
    void (*set)(gear_parameters<T>&, T);
};

template <class T>
constexpr std::array<setting<T>, 10> settings{{
    {"normal_module", [](gear_parameters<T>& p, T v) { p.normal_module = v; }},
    {"helix_angle (deg)", [](gear_parameters<T>& p, T v) { p.helix_angle = rackwork::deg(v); }},
    {"pressure_angle (deg)", [](gear_parameters<T>& p, T v) { p.rack.pressure_angle = rackwork::deg(v); }},
    {"addendum", [](gear_parameters<T>& p, T v) { p.rack.addendum = v; }},
    {"dedendum", [](gear_parameters<T>& p, T v) { p.rack.dedendum = v; }},
    {"root_fillet_radius", [](gear_parameters<T>& p, T v) { p.rack.root_fillet_radius = v; }},
    {"profile_shift", [](gear_parameters<T>& p, T v) { p.profile_shift = v; }},
    {"tip_alteration", [](gear_parameters<T>& p, T v) { p.tip_alteration = v; }},
    {"thickness_allowance", [](gear_parameters<T>& p, T v) { p.thickness_allowance = v; }},
    {"face_width", [](gear_parameters<T>& p, T v) { p.face_width = v; }},
}};

/// check() must say exactly what the constructor does; a gear that exists must answer everything.
template <class T>
void judge_gear(const gear_parameters<T>& p, audit& judge) {
    judge.describe = [&] { return bad_input::described(p); };
    std::optional<gear<T>> built;
    std::string thrown;
    judge("constructor", [&] {
        try {
            built.emplace(p);
        } catch (const rackwork::geometry_error& error) {
            thrown = error.what();
            throw;
        }
        return true;
    });
    judge("check", [&] {
        try {
            if (rackwork::sentence(rackwork::check(p)) != thrown) judge.complain("check", "says something else than the constructor", thrown);
        } catch (const rackwork::geometry_error& error) {
            judge.complain("check", "throws", error.what());
        }
        return true;
    });
    if (!built) return;
    std::string root_refused;
    try {
        static_cast<void>(rackwork::generated_root<T>{*built});
    } catch (const rackwork::geometry_error& error) {
        root_refused = error.what();
    }
    if (rackwork::sentence(rackwork::generated_root<T>::check(*built)) != root_refused)
        judge.complain("generated_root::check", "says something else than the constructor", root_refused);
    bad_input::sizes_of_gear(*built, judge);
    bad_input::recommended_measures(*built, judge);
    bad_input::measures_over_teeth(*built, 2, judge);
}

template <class T>
audit spoil_one_and_two_numbers() {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    const std::vector<T> numbers = awkward_numbers<T>();
    for (const auto& first : settings<T>) {
        for (const T& a : numbers) {
            gear_parameters<T> one = sound_gear<T>();
            first.set(one, a);
            judge_gear(one, judge);
            for (const auto& second : settings<T>) {
                if (&second <= &first) continue;
                for (const T& b : numbers) {
                    gear_parameters<T> two = one;
                    second.set(two, b);
                    judge_gear(two, judge);
                }
            }
            for (const int teeth : awkward_whole_numbers()) {
                gear_parameters<T> two = one;
                two.teeth = teeth;
                judge_gear(two, judge);
            }
        }
    }
    return judge;
}

template <class T>
audit spoil_several_numbers(int gears) {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    const std::vector<T> numbers = awkward_numbers<T>();
    support::random_source random{20260101};
    for (int i = 0; i < gears; ++i) {
        gear_parameters<T> p = sound_gear<T>();
        // Some from the list, some at any size that the type has, so that gears come about as well as refusals.
        for (const auto& one : settings<T>) {
            switch (random.integer(0, 5)) {
            case 0: one.set(p, numbers[static_cast<std::size_t>(random.integer(0, static_cast<int>(numbers.size()) - 1))]); break;
            case 1: one.set(p, static_cast<T>(std::exp2(random.uniform(-140, 120)))); break;
            case 2: one.set(p, static_cast<T>(std::exp2(random.uniform(-12, 6)) * (random.coin() ? 1 : -1))); break;
            default: break;
            }
        }
        if (random.coin()) p.teeth = static_cast<int>(std::exp2(random.uniform(0, 30.9)));
        judge_gear(p, judge);
    }
    return judge;
}

} // namespace

TEST_CASE("a gear with one or two spoilt numbers is refused truthfully or answers everything with finite numbers") {
    const audit judge = spoil_one_and_two_numbers<double>();
    CHECK_MESSAGE(judge.clean(), judge);
    CHECK(judge.results() > judge.computations() / 4);
    CHECK(judge.refusals() > judge.computations() / 20);
}

TEST_CASE("so does one of float, and one of long double") {
    const audit narrow = spoil_one_and_two_numbers<float>();
    CHECK_MESSAGE(narrow.clean(), narrow);
    const audit extended = spoil_one_and_two_numbers<long double>();
    CHECK_MESSAGE(extended.clean(), extended);
}

TEST_CASE("a gear with any of its numbers spoilt is refused truthfully or answers everything with finite numbers") {
    const audit judge = spoil_several_numbers<double>(40000);
    CHECK_MESSAGE(judge.clean(), judge);
    CHECK(judge.results() > judge.computations() / 20);
    const audit narrow = spoil_several_numbers<float>(20000);
    CHECK_MESSAGE(narrow.clean(), narrow);
}

TEST_CASE_TEMPLATE("gears with both angles close to 90 degrees too", T, float, double, long double) {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    // Down to the last number below 90 degrees.
    std::vector<T> near;
    for (T gap = 1; gap > 8 * std::numeric_limits<T>::epsilon(); gap /= 3) near.push_back(90 - gap);
    T last = 90;
    for (int i = 0; i < 6; ++i) near.push_back(last = std::nextafter(last, T(0)));
    for (const T& helix : near) {
        for (const T& pressure_angle : near) {
            gear_parameters<T> p = sound_gear<T>();
            p.helix_angle = rackwork::deg(helix);
            // A rack as low as such flanks allow.
            const T depth = std::numbers::pi_v<T> / 8 / std::tan(rackwork::deg(pressure_angle).rad());
            p.rack = {.pressure_angle = rackwork::deg(pressure_angle), .addendum = depth, .dedendum = depth, .root_fillet_radius = 0};
            p.profile_shift = 0;
            judge_gear(p, judge);
        }
    }
    CHECK_MESSAGE(judge.clean(), judge);
    CHECK(judge.results() > 200); // in float most such teeth are lower than its last place
}

TEST_CASE("a number that cannot be is named with the value that it has") {
    for (const auto& one : settings<double>) {
        for (const double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(),
                                 -std::numeric_limits<double>::infinity()}) {
            gear_parameters<double> p = sound_gear<double>();
            one.set(p, bad);
            const rackwork::violation v = rackwork::check(p);
            CAPTURE(one.quantity);
            CAPTURE(bad);
            REQUIRE(v);
            CHECK(std::string{v.quantity} == one.quantity);
            CHECK(bad_input::same_double(v.value, bad));
        }
    }
    for (const int teeth : {0, -1, -17, (std::numeric_limits<int>::min)()}) {
        gear_parameters<double> p = sound_gear<double>();
        p.teeth = teeth;
        const rackwork::violation v = rackwork::check(p);
        REQUIRE(v);
        CHECK(std::string{v.quantity} == "teeth");
        CHECK(v.value == teeth);
    }
}

TEST_CASE("a forgotten module and forgotten teeth are named") {
    CHECK(rackwork::sentence(rackwork::check(gear_parameters<double>{})) == "normal_module is 0 but must be greater than 0");
    CHECK(rackwork::sentence(rackwork::check(gear_parameters<double>{.normal_module = 2})) == "teeth is 0 but must be at least 1");
    CHECK_THROWS_WITH_AS(gear{gear_parameters<double>{.teeth = 20}}, "normal_module is 0 but must be greater than 0",
                         rackwork::geometry_error);
}
