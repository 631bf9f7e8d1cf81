// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Backlash from first principles: a tooth of the pinion in a space of the wheel, and the gaps left and right of it.
#include <rackwork/mesh.hpp>

#include "mesh_random_pairs.hpp"

#include <cmath>

#include <doctest/doctest.h>

using measure::circle;
using measure::helicoid;
using measure::mesh_of;
using measure::pair_parameters;
using measure::random_pair;
using measure::teeth_in_space;
using measure::vector3;
using rackwork::gear;
using rackwork::mesh;

namespace {

/// The gaps between a pinion's tooth and the wheel's teeth to its left (counter-clockwise) and right.
struct gaps {
    double left;
    double right;
};

/// Shortest distance of two flanks in space; the second one's gear has its axis at a centre distance along x.
/// One point of the line in which they come nearest lies at z = 0 of the first.
double gap(const helicoid& first, const helicoid& second, double centre_distance, double module) {
    const auto from_roll = [&](double u) {
        const vector3 p = first.at(u, 0);
        return measure::nearest(second, {p.x - centre_distance, p.y, p.z}, 0, 1.2, 0.5 * module).distance;
    };
    return measure::least(from_roll, 0.0, 1.2, 50).value;
}

/// The gaps when the pinion has turned by an angle and the wheel, rolling with it, by as much as its teeth demand and a bit more.
gaps rolled(const pair_parameters& pair, double centre_distance, double pinion_turn, double wheel_turn = 0) {
    const teeth_in_space pinion{pair.pinion};
    const teeth_in_space wheel{pair.wheel};
    // The wheel's space between its teeth 0 and 1 receives the pinion's tooth 0.
    const double wheel_stands =
        circle - wheel.pitch_angle / 2 - pinion_turn * pair.pinion.teeth / pair.wheel.teeth + wheel_turn;
    const auto turned = [](helicoid flank, double by) {
        flank.start += by;
        return flank;
    };
    const double module = pair.pinion.normal_module;
    return {.left = gap(turned(pinion.left_flank(0), pinion_turn), turned(wheel.left_flank(0), wheel_stands),
                        centre_distance, module),
            .right = gap(turned(pinion.right_flank(0), pinion_turn), turned(wheel.right_flank(1), wheel_stands),
                         centre_distance, module)};
}

/// A pair whose teeth have been thinned for certain.
pair_parameters thinned_pair(support::random_source& random) {
    pair_parameters pair = random_pair(random, {.least_teeth = 12, .most_teeth = 50, .steepest_helix = 30});
    pair.pinion.thickness_allowance = random.uniform(-0.06, -0.01) * pair.pinion.normal_module;
    pair.wheel.thickness_allowance = random.uniform(-0.06, -0.01) * pair.wheel.normal_module;
    return pair;
}

} // namespace

TEST_CASE("the gaps left and right of a tooth add up to the normal backlash, wherever the gears have rolled to") {
    support::random_source random{501};
    for (int i = 0; i < 8; ++i) {
        const pair_parameters pair = thinned_pair(random);
        const mesh<double> nominal = mesh_of(pair);
        // At the nominal centre distance, and a little further apart.
        for (const double apart : {0.0, 0.05}) {
            const double distance = nominal.centre_distance() + apart * pair.pinion.normal_module;
            const mesh<double> m = mesh_of(pair, distance);
            CAPTURE(pair.pinion.teeth);
            CAPTURE(pair.wheel.teeth);
            CAPTURE(pair.pinion.helix_angle.deg());
            CAPTURE(apart);
            for (const double turn : {0.0, 0.06}) {
                const gaps found = rolled(pair, distance, turn);
                CHECK(found.left + found.right == doctest::Approx(m.normal_backlash()).epsilon(1e-8));
                CHECK(found.left == doctest::Approx(found.right).epsilon(1e-8)); // it stands in the middle
            }
        }
    }
}

TEST_CASE("turning the wheel by half its angular backlash closes the gap on one side") {
    support::random_source random{502};
    for (int i = 0; i < 8; ++i) {
        const pair_parameters pair = thinned_pair(random);
        const mesh<double> m = mesh_of(pair);
        const double module = pair.pinion.normal_module;
        // The wheel turns counter-clockwise: its tooth at the left of the pinion's comes down on it.
        const double half = m.angular_backlash().wheel.rad() / 2;
        const gaps one_side = rolled(pair, m.centre_distance(), 0.03, half * (1 - 1e-6));
        CHECK(one_side.left < 1e-6 * module);
        CHECK(one_side.right == doctest::Approx(m.normal_backlash()).epsilon(1e-5));
        const gaps other_side = rolled(pair, m.centre_distance(), 0.03, -half * (1 - 1e-6));
        CHECK(other_side.right < 1e-6 * module);
        CHECK(other_side.left == doctest::Approx(m.normal_backlash()).epsilon(1e-5));
        // Turning the pinion instead does the same.
        CHECK(m.angular_backlash().pinion.rad() * pair.pinion.teeth ==
              doctest::Approx(m.angular_backlash().wheel.rad() * pair.wheel.teeth).epsilon(1e-14));
    }
}

TEST_CASE("at the double flank centre distance a tooth touches on both sides") {
    support::random_source random{503};
    for (int i = 0; i < 8; ++i) {
        const pair_parameters pair = thinned_pair(random);
        const double distance = mesh_of(pair).double_flank_centre_distance();
        const gaps found = rolled(pair, distance, 0.02);
        CHECK(found.left < 1e-8 * pair.pinion.normal_module);
        CHECK(found.right < 1e-8 * pair.pinion.normal_module);
        // A hair further apart it does not.
        const gaps apart = rolled(pair, distance + 1e-4 * pair.pinion.normal_module, 0.02);
        CHECK(apart.left > 1e-5 * pair.pinion.normal_module);
    }
}

TEST_CASE("at the centre distance of their nominal shifts gears of full thickness have no backlash at all") {
    support::random_source random{504};
    for (int i = 0; i < 300; ++i) {
        pair_parameters pair = random_pair(random);
        pair.pinion.thickness_allowance = 0;
        pair.wheel.thickness_allowance = 0;
        const mesh<double> m = mesh_of(pair);
        CHECK(m.circumferential_backlash() == 0);
        CHECK(m.normal_backlash() == 0);
        CHECK(m.angular_backlash().pinion.rad() == 0);
        CHECK(m.approximate_radial_backlash() == 0);
        CHECK(std::fabs(m.radial_backlash()) < 1e-13 * m.centre_distance());
        // And what the thicknesses on the working circles leave of the pitch there is nothing.
        const auto working = m.working_diameter();
        const double left = circle * working.pinion / pair.pinion.teeth - m.pinion().tooth_thickness(working.pinion) -
                            m.wheel().tooth_thickness(working.wheel);
        CHECK(std::fabs(left) < 1e-13 * m.centre_distance());
    }
}

TEST_CASE("thinning the teeth opens a gap of the thinning times the cosine of the pressure angle") {
    support::random_source random{505};
    for (int i = 0; i < 300; ++i) {
        const pair_parameters pair = random_pair(random);
        const mesh<double> m = mesh_of(pair);
        const double thinned = -(pair.pinion.thickness_allowance + pair.wheel.thickness_allowance);
        CAPTURE(thinned);
        // A bit taken off a flank in the normal section is that bit times the cosine on the base cylinder, and it is the base cylinders'
        // tangent planes on which the gap is measured, whatever the centre distance.
        const double scale = pair.pinion.normal_module;
        CHECK(std::fabs(m.normal_backlash() - thinned * cos(m.pinion().normal_pressure_angle())) < 1e-13 * scale);
        // On the working circle the same gap is an arc that has grown with the centre distance.
        const double arc =
            thinned / cos(m.pinion().helix_angle()) * m.centre_distance() / m.reference_centre_distance();
        CHECK(std::fabs(m.circumferential_backlash() - arc) < 1e-13 * scale);
    }
}

TEST_CASE("the backlash at any centre distance is what the thicknesses leave of the pitch on the working circle") {
    support::random_source random{506};
    for (int i = 0; i < 300; ++i) {
        const pair_parameters pair = random_pair(random);
        const double distance =
            mesh_of(pair).centre_distance() + random.uniform(-0.05, 0.2) * pair.pinion.normal_module;
        const mesh<double> m = mesh_of(pair, distance);
        const auto working = m.working_diameter();
        const double left = circle * working.pinion / pair.pinion.teeth - m.pinion().tooth_thickness(working.pinion) -
                            m.wheel().tooth_thickness(working.wheel);
        CHECK(std::fabs(m.circumferential_backlash() - left) < 1e-13 * distance);
    }
}

TEST_CASE("moved together by the radial backlash the gears have no backlash left") {
    support::random_source random{507};
    for (int i = 0; i < 300; ++i) {
        const pair_parameters pair = random_pair(random);
        const double distance =
            mesh_of(pair).centre_distance() + random.uniform(-0.03, 0.2) * pair.pinion.normal_module;
        const mesh<double> m = mesh_of(pair, distance);
        const mesh<double> together = mesh_of(pair, distance - m.radial_backlash());
        CHECK(together.centre_distance() == doctest::Approx(m.double_flank_centre_distance()).epsilon(1e-15));
        CHECK(std::fabs(together.circumferential_backlash()) < 1e-13 * distance);
        CHECK((m.radial_backlash() > 0) == (m.circumferential_backlash() > 0));
    }
}

TEST_CASE("the first-order formula for the radial backlash is a little below the exact value") {
    support::random_source random{508};
    for (int i = 0; i < 300; ++i) {
        const pair_parameters pair = random_pair(random);
        const double module = pair.pinion.normal_module;
        const double flush = mesh_of(pair).double_flank_centre_distance();
        const double radial = random.uniform(0.01, 0.3) * module;
        const mesh<double> m = mesh_of(pair, flush + radial);
        CAPTURE(pair.pinion.teeth);
        CHECK(m.radial_backlash() == doctest::Approx(radial).epsilon(1e-10));
        CHECK(m.approximate_radial_backlash() < m.radial_backlash());
        CHECK(m.approximate_radial_backlash() > 0.9 * m.radial_backlash());
        // What it lacks falls with the square of the backlash.
        const mesh<double> tenth = mesh_of(pair, flush + radial / 10);
        const double lack = m.radial_backlash() - m.approximate_radial_backlash();
        const double lack_of_tenth = tenth.radial_backlash() - tenth.approximate_radial_backlash();
        CHECK(lack_of_tenth < lack / 70);
        CHECK(lack_of_tenth > lack / 130);
    }
}
