// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Contact and root section of internal pairs, against rolling circles, finite turns, and the outline itself.
#include <rackwork/analysis/contact.hpp>
#include <rackwork/analysis/contact_lines.hpp>
#include <rackwork/analysis/normal_section.hpp>
#include <rackwork/analysis/pair_factors.hpp>
#include <rackwork/form/outline.hpp>
#include <rackwork/mesh.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <numbers>

namespace {

using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::mesh;
using rackwork::path_of_contact;
using rackwork::point;

constexpr double pi = std::numbers::pi;

mesh<double> pair_of(double helix = 0, double pinion_shift = 0.3, double ring_shift = -0.1) {
    return mesh<double>(
        gear<double>{{.normal_module = 3, .teeth = 19, .helix_angle = deg(helix), .profile_shift = pinion_shift, .face_width = 40}},
        gear<double>{{.normal_module = 3,
                      .teeth = 62,
                      .kind = gear_kind::internal,
                      .helix_angle = deg(helix),
                      .profile_shift = ring_shift,
                      .tip_alteration = -0.3, // so that the ring's tip stays above the pinion's form diameter
                      .face_width = 40}});
}

} // namespace

TEST_CASE("along the path of an internal pair both gears' diameters are those of the same point") {
    for (const double helix : {0.0, 17.0}) {
        const mesh<double> pair = pair_of(helix);
        const path_of_contact<double> path(pair);
        for (int i = 0; i <= 20; ++i) {
            const double g = path.point_a().distance_from_pitch_point() + path.length() * i / 20;
            const auto here = path.at(g);
            // The point in the plane, the pinion's axis at the origin and the ring's at (-a, 0): the pitch point lies r_w1 away, the line of
            // action leans by the working pressure angle.
            const double alpha = pair.working_pressure_angle().rad();
            const point<double> p{pair.working_diameter().pinion / 2 + g * std::sin(alpha), g * std::cos(alpha)};
            CHECK(here.diameter().pinion == doctest::Approx(2 * length(p)).epsilon(1e-13));
            CHECK(here.diameter().wheel ==
                  doctest::Approx(2 * length(point<double>{p.x + pair.centre_distance(), p.y})).epsilon(1e-13));
            CHECK(path.at_pinion_diameter(here.diameter().pinion).distance_from_pitch_point() == doctest::Approx(g).epsilon(1e-9).scale(1));
            CHECK(path.at_wheel_diameter(here.diameter().wheel).distance_from_pitch_point() == doctest::Approx(g).epsilon(1e-9).scale(1));
            // Concave ring, convex pinion: the curvatures are told apart by sign, and the ring is always the flatter.
            CHECK(here.curvature_radius().pinion > 0);
            CHECK(here.curvature_radius().wheel < -here.curvature_radius().pinion);
            CHECK(here.relative_curvature() ==
                  doctest::Approx(1 / here.curvature_radius().pinion + 1 / here.curvature_radius().wheel).epsilon(1e-12));
            // v = omega x r of either gear, along the flank: the gears turn the same way, u times as fast the pinion.
            const double sliding = g * (1 - 19.0 / 62);
            CHECK(here.sliding_velocity() == doctest::Approx(sliding).epsilon(1e-12).scale(1e-3));
            CHECK(here.specific_sliding().pinion == doctest::Approx(sliding / here.rolling_velocity().pinion).epsilon(1e-12).scale(1e-3));
        }
    }
}

TEST_CASE("A and E of an internal pair are the tips' diameters, and the contact ratio is the tips' textbook formula") {
    // (sqrt(r_a1^2 - r_b1^2) - sqrt(r_a2^2 - r_b2^2) + a sin alpha_w)/p_et: common practice.
    const mesh<double> pair = pair_of();
    const path_of_contact<double> path(pair);
    CHECK(path.point_a().diameter().wheel == doctest::Approx(pair.wheel().tip_diameter()).epsilon(1e-13));
    CHECK(path.point_e().diameter().pinion == doctest::Approx(pair.pinion().tip_diameter()).epsilon(1e-13));
    const auto leg = [](double tip, double base) { return std::sqrt(tip * tip - base * base) / 2; };
    const double length = leg(pair.pinion().tip_diameter(), pair.pinion().base_diameter()) -
                          leg(pair.wheel().tip_diameter(), pair.wheel().base_diameter()) +
                          pair.centre_distance() * std::sin(pair.working_pressure_angle().rad());
    CHECK(path.transverse_contact_ratio() == doctest::Approx(length / pair.pinion().transverse_base_pitch()).epsilon(1e-12));
    CHECK(pair.active_tip_diameter().wheel == pair.wheel().tip_form_diameter());
    CHECK(pair.active_root_diameter().wheel < pair.root_form_diameter().wheel);
    CHECK(pair.active_root_diameter().wheel > pair.working_diameter().wheel);
}

TEST_CASE("internal flanks stay in contact at constant ratio: kinematic error is zero") {
    const mesh<double> pair = pair_of();
    const gear<double>& pinion = pair.pinion();
    const gear<double>& ring = pair.wheel();
    const path_of_contact<double> path(pair);
    // The pinion's left flank point at a roll length, and the ring's flank point that touches it: where the gears have to stand for the one
    // and for the other to lie on the line of action. The difference must be the same all along the path.
    double first = 0;
    for (int i = 0; i <= 40; ++i) {
        const double g = path.point_a().distance_from_pitch_point() + path.length() * i / 40;
        const auto here = path.at(g);
        const double roll_1 = here.curvature_radius().pinion / (pinion.base_diameter() / 2);
        const double roll_2 = -here.curvature_radius().wheel / (ring.base_diameter() / 2);
        // Both involutes' normals lie on the line of action when the gear has turned by its roll angle.
        const double error = roll_2 * ring.base_diameter() / 2 - roll_1 * pinion.base_diameter() / 2;
        if (i == 0) first = error;
        CHECK(error == doctest::Approx(first).epsilon(1e-13));
    }
    CHECK(first == doctest::Approx(pair.path_between_base_circles()).epsilon(1e-13));
}

TEST_CASE("contact lines of a helical internal pair sum up over the mesh cycle to the mean") {
    const mesh<double> pair = pair_of(17);
    const rackwork::contact_lines<double> lines(pair);
    double sum = 0;
    for (int i = 0; i < 1000; ++i) sum += lines.total_length((i + 0.5) / 1000) / 1000;
    CHECK(sum == doctest::Approx(lines.mean_total_length()).epsilon(1e-6));
    CHECK(lines.least_total_length() <= sum);
    CHECK(lines.greatest_total_length() >= sum);
}

TEST_CASE("the critical section of an internal tooth is where the outline leans by 60 degrees") {
    for (const int teeth : {50, 75, 120}) {
        for (const double shift : {-0.3, 0.0, 0.2}) {
            const gear<double> ring{{.normal_module = 2, .teeth = teeth, .kind = gear_kind::internal, .profile_shift = shift}};
            const rackwork::tooth_root<double> root = rackwork::root_in_normal_section(ring, ring.tip_form_diameter());
            CAPTURE(teeth);
            CAPTURE(shift);
            // Along the outline of tooth 0, whose tip points at the axis: the place where the tangent makes 60 degrees with the x axis.
            rackwork::outline<double> side;
            rackwork::tooth_form<double>(ring).append_right_side(side.segments, 0);
            const rackwork::segment<double>& fillet = side.segments.front();
            double low = fillet.from;
            double high = fillet.to;
            for (int i = 0; i < 200; ++i) {
                const double middle = (low + high) / 2;
                const point<double> t = fillet.tangent(middle);
                (std::atan2(t.y, -t.x) > pi / 3 ? low : high) = middle;
            }
            const point<double> p = fillet.position(low);
            CHECK(root.chord == doctest::Approx(-2 * p.y).epsilon(1e-10));
            CHECK(root.fillet_radius == doctest::Approx(1 / std::fabs(fillet.curvature(low))).epsilon(1e-8));
            // The load: square to the flank at the tip edge, down to the centre line.
            const rackwork::segment<double>& flank = side.segments[1];
            const point<double> tip = flank.position(flank.to);
            const point<double> t = flank.tangent(flank.to);
            const double crossing = tip.x + tip.y * t.y / t.x;
            CHECK(root.arm == doctest::Approx(p.x - crossing).epsilon(1e-10));
            CHECK(root.load_angle.rad() == doctest::Approx(std::atan2(t.y, -t.x)).epsilon(1e-10).scale(1e-3));
            CHECK(root.form_factor() > 0);
            CHECK(root.stress_correction_factor() > 1);
        }
    }
    const gear<double> ring{{.normal_module = 2, .teeth = 60, .kind = gear_kind::internal}};
    CHECK_THROWS_AS(static_cast<void>(rackwork::root_under_tip_load(ring)), rackwork::geometry_error);
}

TEST_CASE("the zone factor of an internal pair comes from the curvature at the pitch point") {
    // 1/rho_1 + 1/rho_2 = (u - 1)/u 2/(d_b1 tan alpha_wt) at the pitch point; Z_H^2 = 2 cos beta_b/(cos^2 alpha_t tan alpha_wt).
    const mesh<double> pair = pair_of();
    const auto pitch = path_of_contact<double>(pair).point_c();
    const double u = pair.gear_ratio();
    const double expected = (u - 1) / u * 2 / (pair.pinion().base_diameter() * pair.tangent_of_working_pressure_angle());
    CHECK(pitch.relative_curvature() == doctest::Approx(expected).epsilon(1e-13));
    CHECK(pitch.sliding_velocity() == 0);
    CHECK(rackwork::zone_factor(pair) ==
          doctest::Approx(std::sqrt(2 / (std::pow(std::cos(pi / 9), 2) * pair.tangent_of_working_pressure_angle()))).epsilon(1e-13));
}
