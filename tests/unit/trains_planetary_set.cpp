// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Planetary sets: put together tooth by tooth, and looked at from the axis.
#include <rackwork/trains/planetary_findings.hpp>
#include <rackwork/trains/planetary_set.hpp>

#include "random_source.hpp"

#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <vector>

#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::mesh;
using rackwork::planetary_finding_code;
using rackwork::planetary_proportions;
using rackwork::planetary_set;

namespace {

constexpr double turn = 2 * 3.141592653589793238462643383279502884;

/// How far from a whole number.
double off_whole(double x) { return std::fabs(x - std::round(x)); }

/// A set of spur or helical gears with the shifts that a centre distance asks for.
planetary_set<double> set_of(const planetary_proportions<double>& p, double centre_distance, double planet_shift, int planets) {
    const auto shifts = planetary_shifts_at(p, centre_distance, planet_shift);
    gear_parameters<double> g{.normal_module = p.normal_module, .teeth = p.sun_teeth, .helix_angle = p.helix_angle, .profile_shift = shifts.sun};
    g.rack.pressure_angle = p.normal_pressure_angle;
    g.rack.root_fillet_radius = 0.25;
    gear_parameters<double> planet = g;
    planet.teeth = p.planet_teeth;
    planet.helix_angle = -p.helix_angle;
    planet.profile_shift = shifts.planet;
    gear_parameters<double> ring = planet;
    ring.kind = gear_kind::internal;
    ring.teeth = p.ring_teeth;
    ring.profile_shift = shifts.ring;
    return {.sun = gear<double>{g}, .planet = gear<double>{planet}, .ring = gear<double>{ring}, .planets = planets, .centre_distance = centre_distance};
}

planetary_set<double> plain_set(int sun, int planet, int ring, int planets) {
    return set_of({.normal_module = 2, .sun_teeth = sun, .planet_teeth = planet, .ring_teeth = ring}, sun + planet, 0, planets);
}

} // namespace

namespace {

/// Where the ring must have the middle of a space, in ring pitches, for a planet at an angle that has gone into mesh with the sun. The sun's
/// tooth 0 is on the x axis. Followed tooth by tooth along the pitch circles.
double space_of_ring(int sun, int planet, int ring, double theta) {
    // The sun's tooth next to the planet stands behind the line of centres by delta; rolling runs backwards on the planet.
    const double sun_pitch = turn / sun;
    const double delta = theta - sun_pitch * std::floor(theta / sun_pitch);
    const double planet_space = theta + turn / 2 + delta * sun / planet;
    const double planet_tooth = planet_space + turn / planet / 2;
    // On the far side a tooth of the planet, off the line of centres by epsilon, finds the ring's space off it the same way.
    const double epsilon = planet_tooth - theta;
    return (theta + epsilon * planet / ring) / (turn / ring);
}

} // namespace

TEST_CASE("evenly spaced planets go in exactly where the ring has a space for each of them") {
    support::random_source random{1701};
    int fitting = 0;
    int not_fitting = 0;
    for (int i = 0; i < 400; ++i) {
        const int sun = random.integer(10, 40);
        const int planet = random.integer(10, 30);
        const int ring = sun + 2 * planet;
        const int planets = random.integer(2, 7);
        // The ring stands as the first planet demands.
        const double first = space_of_ring(sun, planet, ring, 0);
        bool all_fit = true;
        for (int k = 1; k < planets; ++k) {
            all_fit = all_fit && off_whole(space_of_ring(sun, planet, ring, turn * k / planets) - first) < 1e-9;
        }
        CAPTURE(sun);
        CAPTURE(ring);
        CAPTURE(planets);
        CHECK(rackwork::can_be_evenly_spaced(sun, ring, planets) == all_fit);
        ++(all_fit ? fitting : not_fitting);
        // Whatever their number, in the places that angle_of_planet states they all go in.
        const auto set = plain_set(sun + 5, planet + 5, sun + 2 * planet + 15, planets);
        const double at_first = space_of_ring(sun + 5, planet + 5, sun + 2 * planet + 15, 0);
        for (int k = 1; k < planets; ++k) {
            const double at = angle_of_planet(set, k).rad();
            CHECK(off_whole(space_of_ring(sun + 5, planet + 5, sun + 2 * planet + 15, at) - at_first) < 1e-9);
        }
    }
    CHECK(fitting > 50);
    CHECK(not_fitting > 50);
}

TEST_CASE("planets that cannot be even stand in the nearest places") {
    support::random_source random{1702};
    for (int i = 0; i < 200; ++i) {
        const int sun = random.integer(14, 40);
        const int planet = random.integer(14, 30);
        const int planets = random.integer(2, 6);
        const auto set = plain_set(sun, planet, sun + 2 * planet, planets);
        const int places = 2 * sun + 2 * planet;
        double least = turn;
        for (int k = 0; k < planets; ++k) {
            const double angle = angle_of_planet(set, k).rad();
            // A whole number of places from the first, and no further from even spacing than half a place.
            CHECK(off_whole(angle * places / turn) < 1e-9);
            CHECK(std::fabs(angle - turn * k / planets) < turn / places * (0.5 + 1e-9));
            const double next = k + 1 < planets ? angle_of_planet(set, k + 1).rad() : turn;
            least = std::fmin(least, next - angle);
        }
        // Neighbours' tip circles: by the distance of their centres.
        const double centres = std::hypot(set.centre_distance * (std::cos(least) - 1), set.centre_distance * std::sin(least));
        CHECK(neighbour_clearance(set) == doctest::Approx(centres - set.planet.tip_diameter()).epsilon(1e-10));
    }
}

TEST_CASE("the shifts for a centre distance make both meshes run there without backlash") {
    support::random_source random{1703};
    int sets = 0;
    for (int i = 0; i < 300; ++i) {
        const int sun = random.integer(15, 40);
        const int planet = random.integer(15, 35);
        const planetary_proportions<double> p{.normal_module = random.uniform(0.5, 6),
                                              .sun_teeth = sun,
                                              .planet_teeth = planet,
                                              .ring_teeth = sun + 2 * planet + random.integer(-1, 1),
                                              .helix_angle = deg(random.uniform(-25, 25)),
                                              .normal_pressure_angle = deg(random.uniform(18, 25))};
        const double reference = reference_centre_distance(p.sun_and_planet());
        const double a = reference + random.uniform(-0.2, 0.4) * p.normal_module;
        const double planet_shift = random.uniform(-0.2, 0.4);
        CAPTURE(sun);
        CAPTURE(planet);
        const auto shifts = planetary_shifts_at(p, a, planet_shift);
        CHECK(shifts.planet == planet_shift);
        if (std::fabs(shifts.sun) > 0.5 || std::fabs(shifts.ring) > 0.7) continue; // such gears may not exist
        const auto set = set_of(p, a, planet_shift, 3);
        if (check(set)) continue;
        ++sets;
        const auto own = centre_distances_of(set);
        CHECK(own.of_sun_mesh == doctest::Approx(a).epsilon(1e-13));
        CHECK(own.of_ring_mesh == doctest::Approx(a).epsilon(1e-13));
        CHECK(std::fabs(sun_mesh(set).normal_backlash()) < 1e-12 * a);
        CHECK(std::fabs(ring_mesh(set).normal_backlash()) < 1e-12 * a);
        CHECK_FALSE(findings(set).has(planetary_finding_code::meshes_disagree));
    }
    CHECK(sets > 100);
    // At the reference centre distance, with the tooth numbers that fit it, sun and ring have the planet's shift with the other sign.
    const auto even = planetary_shifts_at(planetary_proportions<double>{.normal_module = 2, .sun_teeth = 20, .planet_teeth = 25, .ring_teeth = 70}, 45, 0.25);
    CHECK(even.sun == doctest::Approx(-0.25).epsilon(1e-12));
    CHECK(even.ring == doctest::Approx(-0.25).epsilon(1e-12));
}

TEST_CASE("what turns how fast: the sun's teeth that pass a planet are the ring's that pass it on the other side") {
    support::random_source random{1704};
    for (int i = 0; i < 100; ++i) {
        const int sun = random.integer(10, 50);
        const int ring = random.integer(60, 150);
        const auto ratio = rackwork::planetary_ratios_of(sun, ring);
        // Seen from the carrier: teeth of the sun forward, as many of the ring backward.
        const double carrier = random.uniform(0.5, 2);
        CHECK((ratio.ring_standing * carrier - carrier) * sun == doctest::Approx((carrier - 0) * ring).epsilon(1e-13));
        CHECK((0 - carrier) * sun == doctest::Approx(-(ratio.sun_standing * carrier - carrier) * ring).epsilon(1e-13));
        CHECK(ratio.carrier_standing * sun == doctest::Approx(-ring).epsilon(1e-14));
        // Two members together turn the third as one piece: 1/i_ring + 1/i_sun = 1.
        CHECK(1 / ratio.ring_standing + 1 / ratio.sun_standing == doctest::Approx(1).epsilon(1e-14));
    }
}

TEST_CASE("findings of planetary sets") {
    // 18, 24 and 66 teeth: 84 places, for 3 planets evenly, for 5 not; 5 planets of 26 modules each at 21 modules collide.
    const auto three = findings(plain_set(18, 24, 66, 3));
    CHECK_FALSE(three.has(planetary_finding_code::not_evenly_spaced));
    CHECK_FALSE(three.has(planetary_finding_code::planets_collide));
    CHECK_FALSE(three.has(planetary_finding_code::meshes_disagree));
    CHECK(three.has(planetary_finding_code::teeth_meet_repeatedly)); // 6
    const auto five = findings(plain_set(18, 24, 66, 5));
    CHECK(five.has(planetary_finding_code::not_evenly_spaced));
    CHECK(five.has(planetary_finding_code::planets_collide));
    for (const auto& f : five) {
        if (f.code == planetary_finding_code::not_evenly_spaced) CHECK(f.value == 4);
        if (f.code == planetary_finding_code::planets_collide) {
            CHECK(f.severity == rackwork::severity::fault);
            CHECK(f.value < 0);
        }
        CHECK(std::string{f.sentence}.size() > 20);
        CHECK(std::string{f.quantity}.size() > 3);
    }
    // Little room is a finding where it is less than is asked for.
    const auto close = plain_set(18, 24, 66, 4);
    const double gap = neighbour_clearance(close) / close.planet.normal_module();
    REQUIRE(gap > 0);
    CHECK_FALSE(findings(close, {.neighbour_clearance = gap * 0.99}).has(planetary_finding_code::planets_collide));
    CHECK(findings(close, {.neighbour_clearance = gap * 1.01}).has(planetary_finding_code::planets_collide));
    // Tooth numbers that hunt.
    CHECK_FALSE(findings(plain_set(19, 23, 65, 3)).has(planetary_finding_code::teeth_meet_repeatedly));
    // A ring with a tooth too few and no shifts: overlap in the ring mesh, and no common centre distance.
    auto wrong = plain_set(18, 24, 66, 3);
    auto ring = wrong.ring.parameters();
    ring.teeth = 65;
    wrong.ring = gear<double>{ring};
    const auto found = findings(wrong);
    CHECK(found.has(planetary_finding_code::meshes_disagree));
    CHECK(found.ring_mesh.has(rackwork::finding_code::overlap));
    CHECK_FALSE(found.sun_mesh.has(rackwork::finding_code::overlap));
}

TEST_CASE("a set that cannot be is refused with the reason") {
    auto set = plain_set(18, 24, 66, 3);
    CHECK_FALSE(check(set));
    set.planets = 0;
    CHECK(rackwork::sentence(check(set)) == "planets is 0 but must be at least 1");
    CHECK_THROWS_AS(findings(set), rackwork::geometry_error);
    set.planets = 1;
    CHECK_THROWS_AS(neighbour_clearance(set), rackwork::geometry_error);
    CHECK_FALSE(check(set)); // one planet is a set
    CHECK_FALSE(findings(set).has(planetary_finding_code::planets_collide));
    set = plain_set(18, 24, 66, 3);
    set.centre_distance = std::nan("");
    CHECK(check(set));
    set.centre_distance = 20;
    CHECK(check(set)); // inside the base circles
    set = plain_set(18, 24, 66, 3);
    auto ring = set.ring.parameters();
    ring.kind = gear_kind::external;
    set.ring = gear<double>{ring};
    CHECK(rackwork::sentence(check(set)) == "kind of the ring is 0 but must be internal");
    set = plain_set(18, 24, 66, 3);
    set.sun = gear<double>{gear_parameters<double>{.normal_module = 3, .teeth = 18}};
    CHECK(check(set));
    CHECK_THROWS_AS(rackwork::can_be_evenly_spaced(18, 66, 0), rackwork::geometry_error);
    CHECK_THROWS_AS(rackwork::planet_places(0, 66), rackwork::geometry_error);
    CHECK_THROWS_AS(rackwork::place_of_planet(18, 66, 3, 3), rackwork::geometry_error);
    CHECK_THROWS_AS(rackwork::place_of_planet(18, 66, 3, -1), rackwork::geometry_error);
    // As many as an int holds do not overflow.
    constexpr int most = (std::numeric_limits<int>::max)();
    static_assert(rackwork::planet_places(most, most) == 2 * static_cast<std::int64_t>(most));
    static_assert(rackwork::place_of_planet(most, most, most, most - 1) == 2 * static_cast<std::int64_t>(most - 1));
}
