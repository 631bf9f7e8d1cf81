// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What holds of every pair: symmetries, round trips, and the pairs that cannot be.
#include <rackwork/mesh.hpp>

#include "mesh_random_pairs.hpp"

#include <cmath>
#include <string>

#include <doctest/doctest.h>

using measure::mesh_of;
using measure::pair_parameters;
using measure::random_pair;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::geometry_error;
using rackwork::mesh;
using rackwork::pair_proportions;

namespace {

constexpr int pairs = 300;

/// Rounding of a few operations.
doctest::Approx nearly(double value) { return doctest::Approx(value).epsilon(1e-14); }

/// Differences of lengths: to the places of the lengths.
void check_same_length(double a, double b, double scale) { CHECK(std::fabs(a - b) <= 1e-14 * scale); }

mesh<double> at_random_distance(support::random_source& random, const pair_parameters& pair) {
    return mesh_of(pair, mesh_of(pair).centre_distance() + random.uniform(0.0, 0.1) * pair.pinion.normal_module);
}

/// What is said when a pinion and a wheel are put together; an empty violation when they fit.
rackwork::violation complaint(const gear_parameters<double>& pinion, const gear_parameters<double>& wheel) {
    try {
        static_cast<void>(mesh<double>{gear<double>{pinion}, gear<double>{wheel}});
    } catch (const geometry_error& e) {
        CHECK(std::string{e.what()}.find("must, to fit the pinion, be") != std::string::npos);
        return e.cause();
    }
    return {};
}

} // namespace

TEST_CASE("which of the gears is called the pinion makes no difference") {
    support::random_source random{701};
    for (int i = 0; i < pairs; ++i) {
        const pair_parameters pair = random_pair(random);
        const mesh<double> m = at_random_distance(random, pair);
        const mesh<double> swapped{m.wheel(), m.pinion(), m.centre_distance()};
        const double a = m.centre_distance();
        CHECK(swapped.working_pressure_angle().rad() == nearly(m.working_pressure_angle().rad()));
        CHECK(swapped.reference_centre_distance() == nearly(m.reference_centre_distance()));
        CHECK(swapped.gear_ratio() == nearly(1 / m.gear_ratio()));
        CHECK(swapped.working_diameter().pinion == nearly(m.working_diameter().wheel));
        CHECK(swapped.working_diameter().wheel == nearly(m.working_diameter().pinion));
        CHECK(swapped.root_form_diameter().pinion == m.root_form_diameter().wheel);
        CHECK(swapped.active_tip_diameter().pinion == nearly(m.active_tip_diameter().wheel));
        CHECK(swapped.active_root_diameter().wheel == nearly(m.active_root_diameter().pinion));
        check_same_length(swapped.length_of_path_of_contact(), m.length_of_path_of_contact(), a);
        check_same_length(swapped.bottom_clearance().pinion, m.bottom_clearance().wheel, a);
        check_same_length(swapped.reach_of_mating_tip().wheel, m.reach_of_mating_tip().pinion, a);
        check_same_length(swapped.circumferential_backlash(), m.circumferential_backlash(), a);
        check_same_length(swapped.normal_backlash(), m.normal_backlash(), a);
        check_same_length(swapped.radial_backlash(), m.radial_backlash(), 10 * a);
        CHECK(std::fabs(swapped.angular_backlash().pinion.rad() - m.angular_backlash().wheel.rad()) < 1e-13);
    }
}

TEST_CASE("a pair and its mirror image with the helices of the other hand have the same sizes") {
    support::random_source random{702};
    for (int i = 0; i < pairs; ++i) {
        pair_parameters pair = random_pair(random, {.spur_too = false});
        pair.pinion.face_width = 20;
        pair.wheel.face_width = 18;
        pair_parameters mirrored = pair;
        mirrored.pinion.helix_angle = -pair.pinion.helix_angle;
        mirrored.wheel.helix_angle = -pair.wheel.helix_angle;
        const mesh<double> m = mesh_of(pair);
        const mesh<double> image = mesh_of(mirrored);
        CHECK(image.centre_distance() == m.centre_distance());
        CHECK(image.working_pressure_angle() == m.working_pressure_angle());
        CHECK(image.working_diameter().pinion == m.working_diameter().pinion);
        CHECK(image.length_of_path_of_contact() == m.length_of_path_of_contact());
        CHECK(image.overlap_contact_ratio() == m.overlap_contact_ratio());
        CHECK(image.total_contact_ratio() == m.total_contact_ratio());
        CHECK(image.active_root_diameter().wheel == m.active_root_diameter().wheel);
        CHECK(image.bottom_clearance().pinion == m.bottom_clearance().pinion);
        CHECK(image.circumferential_backlash() == m.circumferential_backlash());
        CHECK(image.radial_backlash() == m.radial_backlash());
        CHECK(image.normal_backlash() == m.normal_backlash());
    }
}

TEST_CASE(
    "the working circles roll on each other: they add up to twice the centre distance, in the ratio of the teeth") {
    support::random_source random{703};
    for (int i = 0; i < pairs; ++i) {
        const mesh<double> m = at_random_distance(random, random_pair(random));
        CHECK(m.working_diameter().pinion + m.working_diameter().wheel == nearly(2 * m.centre_distance()));
        CHECK(m.working_diameter().wheel / m.working_diameter().pinion == nearly(m.gear_ratio()));
        // On them both gears have the working pressure angle.
        CHECK(m.pinion().pressure_angle(m.working_diameter().pinion).rad() ==
              doctest::Approx(m.working_pressure_angle().rad()).epsilon(1e-12));
        CHECK(m.wheel().pressure_angle(m.working_diameter().wheel).rad() ==
              doctest::Approx(m.working_pressure_angle().rad()).epsilon(1e-12));
    }
}

TEST_CASE("the line of action between the base circles is the inner common tangent") {
    support::random_source random{704};
    for (int i = 0; i < pairs; ++i) {
        const mesh<double> m = at_random_distance(random, random_pair(random));
        const double base = (m.pinion().base_diameter() + m.wheel().base_diameter()) / 2;
        CHECK(m.path_between_base_circles() ==
              doctest::Approx(std::sqrt(m.centre_distance() * m.centre_distance() - base * base)).epsilon(1e-12));
        CHECK(m.path_between_base_circles() ==
              doctest::Approx(m.centre_distance() * sin(m.working_pressure_angle())).epsilon(1e-13));
    }
}

TEST_CASE("from the sum of shifts to the centre distance and back") {
    support::random_source random{705};
    for (int i = 0; i < pairs; ++i) {
        const pair_proportions<double> p = mesh_of(random_pair(random)).proportions();
        const double sum = random.uniform(-0.4, 1.5);
        const double distance = centre_distance(p, sum);
        // The sum comes from a difference of involute functions times the teeth: a place of those is lost for every digit of teeth.
        const double teeth = p.pinion_teeth + p.wheel_teeth;
        CHECK(std::fabs(profile_shift_sum(p, distance) - sum) < 1e-14 * teeth);
        const double given = reference_centre_distance(p) + random.uniform(-0.3, 1.0) * p.normal_module;
        CHECK(centre_distance(p, profile_shift_sum(p, given)) == nearly(given));
        // Without shift the gears stand at the sum of their reference radii.
        CHECK(centre_distance(p, 0.0) == nearly(reference_centre_distance(p)));
        CHECK(std::fabs(profile_shift_sum(p, reference_centre_distance(p))) < 1e-14 * teeth);
        // More shift, further apart, but by less than the shift itself.
        const double further = centre_distance(p, sum + 0.1) - distance;
        CHECK(further > 0);
        if (sum > 0) CHECK(further < 0.1 * p.normal_module);
    }
}

TEST_CASE("a pair put at the centre distance of its shifts is the pair that finds it by itself") {
    support::random_source random{706};
    for (int i = 0; i < pairs; ++i) {
        const pair_parameters pair = random_pair(random);
        const mesh<double> by_itself = mesh_of(pair);
        const mesh<double> given = mesh_of(pair, by_itself.centre_distance());
        const double a = by_itself.centre_distance();
        check_same_length(given.circumferential_backlash(), by_itself.circumferential_backlash(), 10 * a);
        check_same_length(given.length_of_path_of_contact(), by_itself.length_of_path_of_contact(), 10 * a);
        CHECK(given.working_pressure_angle().rad() ==
              doctest::Approx(by_itself.working_pressure_angle().rad()).epsilon(1e-13));
    }
}

TEST_CASE("the tip alteration gives both gears exactly the bottom clearance of their rack") {
    support::random_source random{707};
    for (int i = 0; i < pairs; ++i) {
        pair_parameters pair = random_pair(random); // with that alteration
        pair.pinion.thickness_allowance = 0;
        pair.wheel.thickness_allowance = 0;
        const mesh<double> m = mesh_of(pair);
        const double of_rack = pair.pinion.normal_module * (pair.pinion.rack.dedendum - pair.pinion.rack.addendum);
        check_same_length(m.bottom_clearance().pinion, of_rack, m.centre_distance());
        check_same_length(m.bottom_clearance().wheel, of_rack, m.centre_distance());
        CHECK(pair.pinion.tip_alteration <= 1e-13 * (pair.pinion.teeth + pair.wheel.teeth));
        // Left unaltered the tips would come nearer to the roots, by the alteration.
        pair_parameters unaltered = pair;
        unaltered.pinion.tip_alteration = 0;
        check_same_length(mesh_of(unaltered).bottom_clearance().pinion,
                          of_rack + pair.pinion.tip_alteration * pair.pinion.normal_module, m.centre_distance());
    }
}

TEST_CASE("a tool that thins the teeth goes deeper, and the mate's tip has that much more clearance") {
    support::random_source random{708};
    for (int i = 0; i < pairs; ++i) {
        pair_parameters pair = random_pair(random);
        pair.pinion.thickness_allowance = 0;
        pair.wheel.thickness_allowance = 0;
        const mesh<double> full = mesh_of(pair);
        pair.wheel.thickness_allowance = -0.04 * pair.wheel.normal_module;
        const mesh<double> thinned = mesh_of(pair);
        const double deeper = 0.04 * pair.wheel.normal_module / (2 * tan(pair.wheel.rack.pressure_angle));
        check_same_length(thinned.bottom_clearance().pinion - full.bottom_clearance().pinion, deeper,
                          2 * full.centre_distance());
        CHECK(thinned.bottom_clearance().wheel == full.bottom_clearance().wheel);
    }
}

TEST_CASE("a split of the shifts adds up, and is the customary one") {
    support::random_source random{709};
    for (int i = 0; i < pairs; ++i) {
        const double sum = random.uniform(-0.5, 1.5);
        const int pinion = random.integer(8, 60);
        const int wheel = random.integer(8, 200);
        const double lambda = random.uniform(0, 0.75);
        const auto split = rackwork::split_profile_shift(sum, pinion, wheel, lambda);
        check_same_length(split.pinion + split.wheel, sum, 2);
        const double u = static_cast<double>(wheel) / pinion;
        check_same_length(split.pinion, lambda * (u - 1) / (u + 1) + sum / (u + 1), 10);
        // Exchanging the gears exchanges the shifts.
        const auto other = rackwork::split_profile_shift(sum, wheel, pinion, lambda);
        check_same_length(other.pinion, split.wheel, 10);
        // Equal gears share alike.
        CHECK(rackwork::split_profile_shift(sum, pinion, pinion, lambda).pinion == nearly(sum / 2));
    }
    // Without a sum the pinion gains what the wheel gives.
    const auto balanced = rackwork::split_profile_shift(0.0, 15, 60);
    CHECK(balanced.pinion == nearly(0.3));
    CHECK(balanced.wheel == nearly(-0.3));
}

TEST_CASE("gears of different modules, pressure angles or helices do not fit, and the error says which of the three") {
    const gear_parameters<double> pinion{.normal_module = 2, .teeth = 20, .helix_angle = deg(15.0)};
    gear_parameters<double> wheel{.normal_module = 2, .teeth = 40, .helix_angle = deg(-15.0)};
    const auto check_complaint = [&](const std::string& quantity, double value, double fitting) {
        const rackwork::violation v = complaint(pinion, wheel);
        REQUIRE(v);
        CHECK(std::string{v.quantity} == quantity);
        CHECK(v.value == nearly(value));
        CHECK(v.limit == nearly(fitting));
    };
    CHECK_FALSE(complaint(pinion, wheel));
    wheel.normal_module = 2.5;
    check_complaint("normal_module of the wheel", 2.5, 2);
    wheel.normal_module = 2;
    wheel.rack.pressure_angle = deg(14.5);
    check_complaint("pressure_angle of the wheel (deg)", 14.5, 20);
    wheel.rack.pressure_angle = deg(20.0);
    for (const double helix : {15.0, -15.1, 0.0}) { // two right-hand gears; a slip; a spur gear
        wheel.helix_angle = deg(helix);
        check_complaint("helix_angle of the wheel (deg)", helix, -15);
    }
    // A different depth or fillet of the mate's rack is nobody's error.
    wheel.helix_angle = deg(-15.0);
    wheel.rack.dedendum = 1.4;
    wheel.rack.root_fillet_radius = 0.3;
    CHECK_FALSE(complaint(pinion, wheel));
}

TEST_CASE("gears cannot stand so near that their base circles would overlap, nor run without backlash when too thin") {
    const gear<double> pinion{{.normal_module = 3, .teeth = 20}};
    const gear<double> wheel{{.normal_module = 3, .teeth = 40}};
    const double base = (pinion.base_diameter() + wheel.base_diameter()) / 2;
    CHECK_THROWS_AS((mesh<double>{pinion, wheel, base * (1 - 1e-12)}), geometry_error);
    CHECK_NOTHROW((mesh<double>{pinion, wheel, base * (1 + 1e-12)}));
    const pair_proportions<double> p = mesh<double>{pinion, wheel}.proportions();
    // The sum of shifts at which the working pressure angle would be zero.
    const double least = -60 * inv(deg(20.0)) / (2 * tan(deg(20.0)));
    CHECK_THROWS_AS(static_cast<void>(centre_distance(p, least - 1e-9)), geometry_error);
    CHECK_NOTHROW(static_cast<void>(centre_distance(p, least + 1e-9)));
    CHECK(centre_distance(p, least + 1e-9) == doctest::Approx(base).epsilon(1e-5));
}
