// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Pairs, centre distances and shift sums given impossible numbers.
#include "bad_input_audit.hpp"
#include "bad_input_sheets.hpp"
#include "random_source.hpp"

#include <rackwork/centre_distance.hpp>
#include <rackwork/mesh.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <sstream>
#include <string>
#include <vector>

namespace {

using bad_input::audit;
using bad_input::awkward_numbers;
using bad_input::awkward_whole_numbers;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;
using rackwork::pair_proportions;

template <class T>
std::string described(const pair_proportions<T>& p, const T& x, const T& y) {
    std::ostringstream text;
    text.precision(21);
    text << "module " << p.normal_module << ", teeth " << p.pinion_teeth << " and " << p.wheel_teeth << ", helix "
         << p.helix_angle.deg() << ", pressure angle " << p.normal_pressure_angle.deg() << ", numbers " << x << " and " << y;
    return text.str();
}

template <class T>
void judge_pair(const pair_proportions<T>& p, const T& x, const T& y, audit& judge) {
    judge.describe = [&] { return described(p, x, y); };
    judge("check(pair_proportions)", [&] {
        const rackwork::violation v = rackwork::check(p);
        if (v) throw rackwork::geometry_error{v};
        return true;
    });
    judge("check_shift_sum", [&] {
        const rackwork::violation v = rackwork::check_shift_sum(p, x);
        if (v) throw rackwork::geometry_error{v};
        return rackwork::centre_distance(p, x);
    });
    judge("check_centre_distance", [&] {
        const rackwork::violation v = rackwork::check_centre_distance(p, x);
        if (v) throw rackwork::geometry_error{v};
        return rackwork::profile_shift_sum(p, x);
    });
    judge("transverse_pressure_angle", [&] { return rackwork::transverse_pressure_angle(p); });
    judge("reference_centre_distance", [&] { return rackwork::reference_centre_distance(p); });
    judge("working_pressure_angle", [&] { return rackwork::working_pressure_angle(p, x); });
    judge("centre_distance", [&] { return rackwork::centre_distance(p, x); });
    judge("tangent_of_working_pressure_angle", [&] { return rackwork::tangent_of_working_pressure_angle(p, x); });
    judge("profile_shift_sum", [&] { return rackwork::profile_shift_sum(p, x); });
    judge("tip_alteration_for_clearance", [&] { return rackwork::tip_alteration_for_clearance(p, x, y); });
    judge("split_profile_shift", [&] { return rackwork::split_profile_shift(x, p.pinion_teeth, p.wheel_teeth, y); });
}

template <class T>
audit spoilt_pairs() {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    const pair_proportions<T> sound{.normal_module = T(2), .pinion_teeth = 17, .wheel_teeth = 43, .helix_angle = deg(T(12))};
    const std::vector<T> numbers = awkward_numbers<T>();
    for (const T& x : numbers) {
        for (const T& y : numbers) {
            judge_pair(sound, x, y, judge);
            pair_proportions<T> p = sound;
            p.normal_module = y;
            judge_pair(p, x, T(0), judge);
            p.helix_angle = deg(x);
            judge_pair(p, T(100), T(0.5), judge);
            p = sound;
            p.helix_angle = deg(y);
            judge_pair(p, x, T(0), judge);
            p.normal_pressure_angle = deg(x);
            judge_pair(p, T(100), T(0.5), judge);
            p = sound;
            p.normal_pressure_angle = deg(y);
            judge_pair(p, x, T(0), judge);
        }
        for (const int first : awkward_whole_numbers()) {
            for (const int second : awkward_whole_numbers()) {
                pair_proportions<T> p = sound;
                p.pinion_teeth = first;
                p.wheel_teeth = second;
                judge_pair(p, x, T(1), judge);
                judge_pair(p, T(1), x, judge);
            }
        }
    }
    return judge;
}

/// check() must say exactly what the constructor does; the roots are asked for themselves.
template <class T, class... CentreDistance>
void judge_mesh(const gear_parameters<T>& first, const gear_parameters<T>& second, audit& judge, const CentreDistance&... a) {
    judge("mesh", [&] {
        const gear<T> pinion{first};
        const gear<T> wheel{second};
        std::string said;
        for (const rackwork::violation& v : {mesh<T>::check(pinion, wheel, a...), rackwork::generated_root<T>::check(pinion),
                                             rackwork::generated_root<T>::check(wheel)}) {
            if (said.empty()) said = rackwork::sentence(v);
        }
        try {
            const mesh<T> m{pinion, wheel, a...};
            if (!said.empty()) judge.complain("mesh::check", "objects to what can be built", said);
            bad_input::sizes_of_mesh(m, judge);
        } catch (const rackwork::geometry_error& error) {
            if (said != error.what()) judge.complain("mesh::check", "says something else than the constructor: " + said, error.what());
            throw;
        }
        return true;
    });
}

template <class T>
audit spoilt_meshes() {
    audit judge;
    judge.rounded = bad_input::wider_than_double<T>;
    const gear_parameters<T> pinion{.normal_module = T(2), .teeth = 17, .helix_angle = deg(T(12)), .profile_shift = T(0.3), .face_width = T(20)};
    for (const T& x : awkward_numbers<T>()) {
        judge.describe = [&] { return "number " + std::to_string(static_cast<double>(x)); };
        for (int spoilt = 0; spoilt < 9; ++spoilt) {
            gear_parameters<T> wheel = pinion;
            wheel.teeth = 43;
            wheel.helix_angle = -pinion.helix_angle;
            switch (spoilt) {
            case 0: wheel.normal_module = x; break;
            case 1: wheel.helix_angle = deg(x); break;
            case 2: wheel.rack.pressure_angle = deg(x); break;
            case 3: wheel.rack.dedendum = x; break;
            case 4: wheel.rack.root_fillet_radius = x; break;
            case 5: wheel.profile_shift = x; break;
            case 6: wheel.tip_alteration = x; break;
            case 7: wheel.thickness_allowance = x; break;
            default: wheel.face_width = x; break;
            }
            judge_mesh(pinion, wheel, judge);
            judge_mesh(wheel, pinion, judge, T(65));
        }
        gear_parameters<T> wheel = pinion;
        wheel.helix_angle = -pinion.helix_angle;
        judge_mesh(pinion, wheel, judge, x);
    }
    return judge;
}

} // namespace

TEST_CASE("a pair's proportions, centre distance and shifts are refused truthfully or finite") {
    const audit judge = spoilt_pairs<double>();
    CHECK_MESSAGE(judge.clean(), judge);
    CHECK(judge.results() > 1000);
    CHECK(judge.refusals() > 1000);
    const audit narrow = spoilt_pairs<float>();
    CHECK_MESSAGE(narrow.clean(), narrow);
    const audit extended = spoilt_pairs<long double>();
    CHECK_MESSAGE(extended.clean(), extended);
}

TEST_CASE("a mesh with one spoilt number is refused truthfully or answers everything with finite numbers") {
    const audit judge = spoilt_meshes<double>();
    CHECK_MESSAGE(judge.clean(), judge);
    CHECK(judge.results() > 1000);
    const audit narrow = spoilt_meshes<float>();
    CHECK_MESSAGE(narrow.clean(), narrow);
}

TEST_CASE("a huge sum of shifts still gives the centre distance of its thick teeth") {
    // For large x the working angle nears 90 degrees, inv alpha nears tan alpha and a nears a_d cos alpha_t (value + pi/2).
    const pair_proportions<double> p{.normal_module = 1, .pinion_teeth = 20, .wheel_teeth = 30};
    for (const double sum : {1e8, 1e10, 1e12, 1e15, 1e18, 1e30}) {
        CAPTURE(sum);
        const double value = rackwork::inv(deg(20.0)) + 2 * sum * std::tan(deg(20.0).rad()) / 50;
        const double expected = 25 * std::cos(deg(20.0).rad()) * (value + std::acos(-1.0) / 2);
        double found = expected;
        try {
            found = rackwork::centre_distance(p, sum);
        } catch (const rackwork::geometry_error&) {
        }
        CHECK(found == doctest::Approx(expected).epsilon(1e-9));
    }
}

TEST_CASE("gears that do not fit are told apart by the quantity in which they differ") {
    const gear_parameters<double> p{.normal_module = 2, .teeth = 17, .helix_angle = deg(10.0), .rack = rackwork::iso_53_c};
    const auto quantity_of = [&](gear_parameters<double> wheel) {
        try {
            const mesh<double> m{gear{p}, gear{wheel}};
        } catch (const rackwork::geometry_error& error) {
            CHECK(bad_input::untruth(error.cause()) == "");
            return std::string{error.cause().quantity};
        }
        return std::string{};
    };
    gear_parameters<double> wheel = p;
    wheel.helix_angle = -p.helix_angle;
    CHECK(quantity_of(wheel) == "");
    wheel.normal_module = 2.5;
    CHECK(quantity_of(wheel) == "normal_module of the wheel");
    wheel.normal_module = 2;
    wheel.rack.pressure_angle = deg(25.0);
    CHECK(quantity_of(wheel) == "pressure_angle of the wheel (deg)");
    CHECK(quantity_of(p) == "helix_angle of the wheel (deg)");
}
