// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The path of contact, and what happens along it, from first principles.
#include <rackwork/analysis/contact.hpp>
#include <rackwork/form/segment.hpp>
#include <rackwork/form/tooth.hpp>

#include "random_source.hpp"
#include "ulp.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include <boost/math/tools/minima.hpp>
#include <doctest/doctest.h>

using rackwork::contact_point;
using rackwork::deg;
using rackwork::for_both;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;
using rackwork::path_of_contact;
using rackwork::point;
using support::wide;

namespace {

constexpr double epsilon = std::numeric_limits<double>::epsilon();

constexpr gear_parameters<double> parameters(int teeth, double helix, double shift) {
    return {.normal_module = 2.5, .teeth = teeth, .helix_angle = deg(helix), .profile_shift = shift, .face_width = 30};
}

/// Pairs of all kinds that run: undercut pinions, all approach or all recess, contact ratios from 0 up to more than 2.
std::vector<mesh<double>> pairs() {
    std::vector<mesh<double>> result;
    support::random_source random{610};
    while (result.size() < 300) {
        const double helix = random.coin() ? 0 : random.uniform(-35, 35);
        const int pinion_teeth = random.integer(7, 40);
        auto pinion = parameters(pinion_teeth, helix, random.uniform(-0.4, 0.9));
        const int wheel_teeth = random.integer(7, 120);
        auto wheel = parameters(wheel_teeth, -helix, random.uniform(-0.8, 0.9));
        const double degrees = random.coin() ? 20 : random.uniform(14, 26);
        pinion.rack.pressure_angle = wheel.rack.pressure_angle = deg(degrees);
        pinion.rack.dedendum = wheel.rack.dedendum = 1.2;
        pinion.rack.root_fillet_radius = wheel.rack.root_fillet_radius = 0.2;
        pinion.rack.addendum = wheel.rack.addendum = random.uniform(0.8, 1.05);
        if (rackwork::check(pinion) || rackwork::check(wheel)) continue;
        const gear<double> g1{pinion};
        const gear<double> g2{wheel};
        if (mesh<double>::check(g1, g2)) continue;
        const mesh<double> pair{g1, g2};
        if (!path_of_contact<double>::check(pair)) result.push_back(pair);
    }
    return result;
}

/// The gear at fifty digits: every number that was given, to the bit.
gear<wide> widened(const gear<double>& g) {
    const gear_parameters<double>& p = g.parameters();
    return gear<wide>{{.normal_module = p.normal_module,
                       .teeth = p.teeth,
                       .helix_angle = rackwork::rad(wide(p.helix_angle.rad())),
                       .rack = {.pressure_angle = rackwork::rad(wide(p.rack.pressure_angle.rad())),
                                .addendum = p.rack.addendum,
                                .dedendum = p.rack.dedendum,
                                .root_fillet_radius = p.rack.root_fillet_radius},
                       .profile_shift = p.profile_shift,
                       .face_width = p.face_width}};
}

/// Scale of the rounding errors of lengths along the line of action, and of the diameters that follow from them.
double scale(const mesh<double>& pair) { return pair.path_between_base_circles() + pair.centre_distance(); }

} // namespace

TEST_CASE("the path of contact begins and ends at the active diameters of the pair, undercut or not") {
    int undercut = 0;
    for (const mesh<double>& pair : pairs()) {
        const path_of_contact<double> path{pair};
        const for_both<double> tip = pair.active_tip_diameter();
        const for_both<double> root = pair.active_root_diameter();
        const double allowed = 8 * epsilon * scale(pair);
        // A diameter near the base circle says little about the place on the line of action; the reverse is well conditioned.
        CHECK(std::fabs(path.point_a().diameter().pinion - root.pinion) <= allowed);
        CHECK(std::fabs(path.point_a().diameter().wheel - tip.wheel) <= allowed);
        CHECK(std::fabs(path.point_e().diameter().pinion - tip.pinion) <= allowed);
        CHECK(std::fabs(path.point_e().diameter().wheel - root.wheel) <= allowed);
        CHECK(std::fabs(path.length() - pair.length_of_path_of_contact()) <= allowed);
        CHECK(std::fabs(path.length_of_approach() + path.length_of_recess() - path.length()) <= allowed);
        if (tip.wheel < pair.wheel().effective_tip_diameter() - 1e-9) ++undercut;
    }
    CHECK(undercut > 20); // contact that is lost to the pinion's undercut is among them
}

TEST_CASE("the pitch point lies on the working pitch circles, and B and D a base pitch from E and A") {
    for (const mesh<double>& pair : pairs()) {
        const path_of_contact<double> path{pair};
        const double allowed = 8 * epsilon * scale(pair);
        CHECK(std::fabs(path.point_c().diameter().pinion - pair.working_diameter().pinion) <= allowed);
        CHECK(std::fabs(path.point_c().diameter().wheel - pair.working_diameter().wheel) <= allowed);
        CHECK(std::fabs(path.point_e().distance_from_pitch_point() - path.point_b().distance_from_pitch_point() -
                        pair.pinion().transverse_base_pitch()) <= allowed);
        CHECK(std::fabs(path.point_d().distance_from_pitch_point() - path.point_a().distance_from_pitch_point() -
                        pair.pinion().transverse_base_pitch()) <= allowed);
        // While the pinion turns through a pitch the contact moves on by a base pitch.
        const double turned = path.point_d().roll_angle().pinion.rad() - path.point_a().roll_angle().pinion.rad();
        CHECK(turned == doctest::Approx(2 * rackwork::pi<double>() / pair.pinion().teeth()).epsilon(1e-12));
    }
}

TEST_CASE("a diameter of either gear is found again on the path") {
    for (const mesh<double>& pair : pairs()) {
        const path_of_contact<double> path{pair};
        const double between = 0.3 * pair.active_tip_diameter().pinion + 0.7 * pair.active_root_diameter().pinion;
        const contact_point<double> here = path.at_pinion_diameter(between);
        CHECK(here.diameter().pinion == doctest::Approx(between).epsilon(1e-14));
        CHECK(path.at_wheel_diameter(here.diameter().wheel).distance_from_pitch_point() ==
              doctest::Approx(here.distance_from_pitch_point()).epsilon(1e-9).scale(1));
    }
}

TEST_CASE("as many pairs of teeth touch as there are flanks on the path, a base pitch apart") {
    int with_three = 0;
    for (const mesh<double>& pair : pairs()) {
        const path_of_contact<double> path{pair};
        const double begin = path.point_a().distance_from_pitch_point();
        const double end = path.point_e().distance_from_pitch_point();
        // Brute force at points that do not fall on a change.
        for (int i = 0; i < 97; ++i) {
            const double g = begin + path.length() * (i + 0.37) / 97;
            int count = 0;
            for (int k = -5; k <= 5; ++k) {
                const double other = g + k * path.base_pitch();
                if (begin <= other && other <= end) ++count;
            }
            CHECK(path.pairs_in_contact(g) == count);
            for (int z = 0; z < path.zones(); ++z) {
                const auto zone = path.zone(z);
                if (zone.begin < g && g < zone.end) CHECK(zone.pairs == count);
            }
            if (count == 3) ++with_three;
        }
        CHECK(path.pairs_in_contact(begin - 1e-6) == 0);
        CHECK(path.pairs_in_contact(end + 1e-6) == 0);
        // The zones follow one another from A to E.
        CHECK(path.zone(0).begin == begin);
        CHECK(path.zone(path.zones() - 1).end == doctest::Approx(end).epsilon(1e-13));
        for (int z = 1; z < path.zones(); ++z) CHECK(path.zone(z).begin == path.zone(z - 1).end);
        CHECK_THROWS_AS(path.zone(path.zones()), rackwork::geometry_error);
        CHECK_THROWS_AS(path.zone(-1), rackwork::geometry_error);
    }
    CHECK(with_three > 0);
}

TEST_CASE("single contact of an ordinary pair is from B to D") {
    constexpr mesh<double> pair{gear<double>{parameters(20, 0, 0.2)}, gear<double>{parameters(47, 0, 0)}};
    constexpr path_of_contact<double> path{pair};
    static_assert(path.zones() == 3);
    static_assert(path.zone(0).pairs == 2 && path.zone(1).pairs == 1 && path.zone(2).pairs == 2);
    static_assert(path.pairs_in_contact(0) == 1);
    CHECK(path.zone(1).begin == doctest::Approx(path.point_b().distance_from_pitch_point()).epsilon(1e-13));
    CHECK(path.zone(1).end == doctest::Approx(path.point_d().distance_from_pitch_point()).epsilon(1e-13));
    static_assert(path.point_c().sliding_velocity() == 0);
    static_assert(path.point_a().specific_sliding().pinion < 0 && path.point_a().specific_sliding().wheel > 0);
    static_assert(path.point_e().specific_sliding().pinion > 0 && path.point_e().specific_sliding().wheel < 0);
}

TEST_CASE("sliding is the difference of the two bodies' velocities at the point of contact") {
    for (const mesh<double>& pair : pairs()) {
        const path_of_contact<double> path{pair};
        // Pinion's axis at the origin, wheel's on the x axis. The pinion turns counter-clockwise by one radian in the unit of
        // time, so at the pitch point it moves along y, and contact runs along the line of action from its root to its tip.
        const double working = pair.working_pressure_angle().rad();
        const point<double> line{std::sin(working), std::cos(working)};
        const point<double> tangent{std::cos(working), -std::sin(working)}; // of the flanks, outward on the pinion
        const point<double> pitch_point{pair.working_diameter().pinion / 2, 0};
        const double wheel_speed = -double(pair.pinion().teeth()) / pair.wheel().teeth();
        const double allowed = 16 * epsilon * scale(pair);
        for (const double share : {0.0, 0.2, 0.5, 0.8, 1.0}) {
            const double g = path.point_a().distance_from_pitch_point() + share * path.length();
            const point<double> place = pitch_point + g * line;
            const auto velocity = [&](double speed, double axis) {
                return point<double>{-speed * place.y, speed * (place.x - axis)};
            };
            const point<double> v1 = velocity(1, 0);
            const point<double> v2 = velocity(wheel_speed, pair.centre_distance());
            // Neither gap nor overlap opens.
            CHECK(std::fabs(rackwork::dot(v1 - v2, line)) <= allowed);
            // The place of contact does not move along the tangent, so it runs over a flank as fast as the flank moves the
            // other way.
            const contact_point<double> here = path.at(g);
            CHECK(std::fabs(-rackwork::dot(v1, tangent) - here.rolling_velocity().pinion) <= allowed);
            CHECK(std::fabs(-rackwork::dot(v2, tangent) - here.rolling_velocity().wheel) <= allowed);
            CHECK(std::fabs(rackwork::dot(v2 - v1, tangent) - here.sliding_velocity()) <= allowed);
            CHECK(std::fabs(here.sliding_factor() * pair.working_diameter().pinion / 2 - here.sliding_velocity()) <=
                  allowed);
        }
    }
}

TEST_CASE("specific sliding and slide-roll ratio follow from the rolling velocities") {
    for (const mesh<double>& pair : pairs()) {
        const path_of_contact<double> path{pair};
        for (const double share : {0.1, 0.4, 0.9}) {
            const contact_point<double> here =
                path.at(path.point_a().distance_from_pitch_point() + share * path.length());
            const for_both<double> v = here.rolling_velocity();
            const for_both<double> zeta = here.specific_sliding();
            CHECK(zeta.pinion == doctest::Approx(1 - v.wheel / v.pinion).epsilon(1e-11));
            CHECK(zeta.wheel == doctest::Approx(1 - v.pinion / v.wheel).epsilon(1e-11));
            CHECK((1 - zeta.pinion) * (1 - zeta.wheel) == doctest::Approx(1).epsilon(1e-11));
            CHECK(here.slide_roll_ratio() ==
                  doctest::Approx(2 * (v.pinion - v.wheel) / (v.pinion + v.wheel)).epsilon(1e-11));
        }
    }
}

TEST_CASE("radii of curvature are those of the tooth form's involutes at the same diameters") {
    for (const mesh<double>& pair : pairs()) {
        const path_of_contact<double> path{pair};
        const contact_point<double> here = path.at(path.point_a().distance_from_pitch_point() + 0.6 * path.length());
        const auto radius = [](const gear<double>& g, double diameter) {
            std::vector<rackwork::segment<double>> tooth;
            rackwork::tooth_form<double>(g).append_tooth(tooth, 0);
            return 1 / tooth[1].curvature(g.tangent_of_pressure_angle(diameter));
        };
        CHECK(here.curvature_radius().pinion ==
              doctest::Approx(radius(pair.pinion(), here.diameter().pinion)).epsilon(1e-11));
        CHECK(here.curvature_radius().wheel ==
              doctest::Approx(radius(pair.wheel(), here.diameter().wheel)).epsilon(1e-11));
        CHECK(here.curvature_radius().pinion + here.curvature_radius().wheel ==
              doctest::Approx(pair.path_between_base_circles()).epsilon(1e-14));
        const for_both<double> rho = here.normal_curvature_radius();
        CHECK(here.normal_relative_curvature() == doctest::Approx(1 / rho.pinion + 1 / rho.wheel).epsilon(1e-11));
        CHECK(here.relative_curvature() * std::cos(pair.pinion().base_helix_angle().rad()) ==
              doctest::Approx(here.normal_relative_curvature()).epsilon(1e-14));
    }
}

namespace {

/// The angle to which the wheel can be turned before its flank meets the pinion's, and the roll angle of the pinion where it
/// does. Pinion at the origin with tooth 0 turned by `turn` from the line of centres, wheel on the x axis with a space there.
struct met {
    double wheel_turn;
    double pinion_roll;
};

met turned_until_flanks_meet(const mesh<double>& pair, double turn) {
    using involute = rackwork::involute<double>;
    const auto flank = [](const gear<double>& g, std::size_t which) {
        std::vector<rackwork::segment<double>> tooth;
        rackwork::tooth_form<double>(g).append_tooth(tooth, 0);
        return tooth[which];
    };
    // The left flank of the pinion's tooth 0 (the last but one side), the left flank of the wheel's tooth behind the space.
    const std::size_t left_of_pinion = pair.pinion().tip_thickness() > 0 ? 3 : 2;
    const std::size_t left_of_wheel = pair.wheel().tip_thickness() > 0 ? 3 : 2;
    const rackwork::segment<double> driving = flank(pair.pinion(), left_of_pinion);
    const involute driven = std::get<involute>(flank(pair.wheel(), left_of_wheel).curve);
    const double pi = rackwork::pi<double>();
    const double wheel_tooth = pi - pi / pair.wheel().teeth(); // direction of the wheel's tooth, seen from its axis
    // How far a point of the pinion's flank is beyond the wheel's involute, as an angle at the wheel's axis.
    const auto beyond = [&](double roll) {
        const point<double> p =
            rackwork::turned(driving.position(roll), turn) - point<double>{pair.centre_distance(), 0};
        const double radius = rackwork::length(p);
        const double excess = radius * radius - driven.base_radius * driven.base_radius;
        if (excess <= 0) return -1.0;
        const double t = std::sqrt(excess) / driven.base_radius;
        const double involute_angle = wheel_tooth + driven.start_angle - (t - std::atan(t));
        double angle = std::atan2(p.y, p.x);
        if (angle < 0) angle += 2 * pi;
        return -(angle - involute_angle);
    };
    const auto found =
        boost::math::tools::brent_find_minima([&](double roll) { return -beyond(roll); }, driving.to, driving.from, 40);
    return {found.second, found.first};
}

} // namespace

TEST_CASE("rolled together, exact flanks transmit the ratio of the tooth numbers without error") {
    const std::vector<mesh<double>> some{
        mesh<double>{gear<double>{parameters(20, 0, 0)}, gear<double>{parameters(47, 0, 0)}},
        mesh<double>{gear<double>{parameters(15, 0, 0.45)}, gear<double>{parameters(31, 0, -0.2)}},
        mesh<double>{gear<double>{parameters(24, 25, 0.1)}, gear<double>{parameters(33, -25, 0.3)}},
        mesh<double>{gear<double>{parameters(9, 0, 0)}, gear<double>{parameters(40, 0, 0.3)}}, // undercut
    };
    for (const mesh<double>& pair : some) {
        CAPTURE(pair.pinion().teeth());
        const path_of_contact<double> path{pair};
        const double ratio = double(pair.pinion().teeth()) / pair.wheel().teeth();
        const double base_radius = pair.pinion().base_diameter() / 2;
        double least = std::numeric_limits<double>::infinity();
        double greatest = -least;
        for (int i = 1; i < 40; ++i) {
            const double g = path.point_a().distance_from_pitch_point() + path.length() * i / 40;
            // The left flank passes the pitch point when the tooth's middle is half a working tooth thickness behind the line
            // of centres.
            const double half_thickness =
                pair.pinion().tooth_thickness(pair.working_diameter().pinion) / pair.working_diameter().pinion;
            const double turn = -half_thickness + g / base_radius;
            const met here = turned_until_flanks_meet(pair, turn);
            // Without backlash, and both gears in their middle at turn 0, the wheel's turn is the pinion's, reversed, over the
            // ratio.
            const double error = here.wheel_turn + ratio * turn;
            least = std::min(least, error);
            greatest = std::max(greatest, error);
            // A flat extremum: its place is found to half the digits only.
            const double expected_roll = path.at(g).curvature_radius().pinion / base_radius;
            CHECK(std::fabs(here.pinion_roll - expected_roll) < 1e-6);
        }
        MESSAGE("kinematic error of " << pair.pinion().teeth() << " teeth: " << least << " to " << greatest << " rad");
        CHECK(least > -4e-15);
        CHECK(greatest < 4e-15);
    }
}

TEST_CASE("numbers along the path are right to the bound that is stated, against fifty digits") {
    double worst_length = 0;
    double worst_sliding = 0;
    for (const mesh<double>& pair : pairs()) {
        const path_of_contact<double> path{pair};
        // From the circles alone: where the tip circles and the root form circles cross the common tangent of the base circles.
        const mesh<wide> exact{widened(pair.pinion()), widened(pair.wheel())};
        const wide rb1 = exact.pinion().base_diameter() / 2;
        const wide rb2 = exact.wheel().base_diameter() / 2;
        const wide a = exact.centre_distance();
        const wide between = sqrt(wide(a * a - (rb1 + rb2) * (rb1 + rb2)));
        const auto on_tangent = [](const wide& diameter, const wide& base) {
            return wide(sqrt(wide(diameter * diameter / 4 - base * base)));
        };
        const for_both<wide> form = exact.root_form_diameter();
        const wide pitch_point = between * rb1 / (rb1 + rb2);
        const auto error = [&](double value, const wide& expected) {
            return std::fabs(static_cast<double>(wide(value) - expected)) / (epsilon * static_cast<double>(between));
        };
        const auto judge = [&](const contact_point<double>& here, const wide& rho, const wide& diameter,
                               const wide& own_rho) {
            // An error of one epsilon in the diameter that ends the path moves the place by d/(4 rho) of that.
            const double condition = static_cast<double>(1 + diameter * diameter / (4 * own_rho * between));
            const double worst = std::max({error(here.distance_from_pitch_point(), rho - pitch_point),
                                           error(here.curvature_radius().pinion, rho),
                                           error(here.curvature_radius().wheel, between - rho),
                                           error(here.sliding_velocity(), rho - (between - rho) * rb1 / rb2)});
            worst_length = std::max(worst_length, worst / condition);
            const wide zeta = 1 - (between - rho) * rb1 / (rb2 * rho);
            const wide off =
                abs(wide(here.specific_sliding().pinion) - zeta) * rho / (epsilon * between * (1 + abs(zeta)));
            worst_sliding = std::max(worst_sliding, static_cast<double>(off) / condition);
        };
        // Each end is where the tip of one gear ends or the involute of the other.
        const wide tip_a = on_tangent(exact.wheel().effective_tip_diameter(), rb2);
        const wide form_a = on_tangent(form.pinion, rb1);
        if (form_a > between - tip_a) {
            judge(path.point_a(), form_a, form.pinion, form_a);
        } else {
            judge(path.point_a(), between - tip_a, exact.wheel().effective_tip_diameter(), tip_a);
        }
        const wide tip_e = on_tangent(exact.pinion().effective_tip_diameter(), rb1);
        const wide form_e = on_tangent(form.wheel, rb2);
        if (form_e > between - tip_e) {
            judge(path.point_e(), between - form_e, form.wheel, form_e);
        } else {
            judge(path.point_e(), tip_e, exact.pinion().effective_tip_diameter(), tip_e);
        }
    }
    MESSAGE("largest errors in epsilon of the length between the base circles: lengths "
            << worst_length << ", specific sliding " << worst_sliding);
    CHECK(worst_length <= 8);
    CHECK(worst_sliding <= 8);
}

TEST_CASE("gears that do not reach each other have no path of contact") {
    const gear<double> pinion{parameters(20, 0, 0)};
    const gear<double> wheel{parameters(40, 0, 0)};
    const mesh<double> apart{pinion, wheel, 1.08 * mesh<double>{pinion, wheel}.centre_distance()};
    CHECK(path_of_contact<double>::check(apart));
    CHECK_THROWS_AS(path_of_contact<double>{apart}, rackwork::geometry_error);
    const path_of_contact<double> path{mesh<double>{pinion, wheel}};
    CHECK_THROWS_AS(path.at(std::numeric_limits<double>::quiet_NaN()), rackwork::geometry_error);
    CHECK_THROWS_AS(path.at_pinion_diameter(0.9 * pinion.base_diameter()), rackwork::geometry_error);
    // So many flanks in contact at once that counting them makes no sense any more.
    gear_parameters<double> flat{.normal_module = 1, .teeth = 1'000'000'000};
    flat.rack.pressure_angle = deg(1e-5);
    const gear<double> rack_like{flat};
    CHECK(path_of_contact<double>::check(mesh<double>{rack_like, rack_like}));
    // On a base circle the flank has no radius left.
    const contact_point<double> on_base = path.at(-path.line().pitch_point_radius);
    CHECK(on_base.curvature_radius().pinion == 0);
    CHECK_THROWS_AS(on_base.specific_sliding(), rackwork::geometry_error);
    CHECK_THROWS_AS(on_base.relative_curvature(), rackwork::geometry_error);
    CHECK(on_base.slide_roll_ratio() == -2);
}
