// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The path of contact: where on the line of action both flanks really are.
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

namespace {

/// Diameters between which a gear has involute flanks.
struct flank {
    double base_radius;
    double inner;
    double outer;

    explicit flank(const gear<double>& g)
        : base_radius(g.base_diameter() / 2), inner(rackwork::root_form_diameter(g) / 2),
          outer(g.effective_tip_diameter() / 2) {}
    bool reaches(double radius) const { return inner <= radius && radius <= outer; }
};

/// Length of the path of contact, found by walking along the line of action from one base circle to the other and asking at every
/// step whether both gears have a flank there.
struct walk {
    double length = 0;
    double step = 0;
    double pinion_inner = 1e300;
    double pinion_outer = 0;

    explicit walk(const mesh<double>& m, int steps = 20000) {
        const flank pinion{m.pinion()};
        const flank wheel{m.wheel()};
        const double whole =
            std::sqrt(std::pow(m.centre_distance(), 2) - std::pow(pinion.base_radius + wheel.base_radius, 2));
        step = whole / steps;
        for (int i = 0; i < steps; ++i) {
            const double from_pinion = (i + 0.5) * step;
            const double pinion_radius = std::hypot(pinion.base_radius, from_pinion);
            const double wheel_radius = std::hypot(wheel.base_radius, whole - from_pinion);
            if (!pinion.reaches(pinion_radius) || !wheel.reaches(wheel_radius)) continue;
            length += step;
            pinion_inner = std::fmin(pinion_inner, pinion_radius);
            pinion_outer = std::fmax(pinion_outer, pinion_radius);
        }
    }
};

/// The contact ratio as the tip circles alone would have it, on involutes without end.
double from_tip_circles(const mesh<double>& m) {
    const auto roll = [](const gear<double>& g) {
        return std::sqrt(std::pow(g.tip_diameter() / 2, 2) - std::pow(g.base_diameter() / 2, 2));
    };
    return (roll(m.pinion()) + roll(m.wheel()) - m.path_between_base_circles()) / m.pinion().transverse_base_pitch();
}

mesh<double> standard_pair(int pinion_teeth, int wheel_teeth, double face_width = 0, double helix = 0) {
    return mesh<double>{
        gear<double>{{.normal_module = 2, .teeth = pinion_teeth, .helix_angle = deg(helix), .face_width = face_width}},
        gear<double>{{.normal_module = 2, .teeth = wheel_teeth, .helix_angle = deg(-helix), .face_width = face_width}}};
}

} // namespace

TEST_CASE("the path of contact is as long as a walk along the line of action finds it") {
    support::random_source random{601};
    for (int i = 0; i < 100; ++i) {
        const pair_parameters pair = random_pair(random);
        const mesh<double> m =
            mesh_of(pair, mesh_of(pair).centre_distance() + random.uniform(-0.02, 0.1) * pair.pinion.normal_module);
        const walk walked{m};
        CAPTURE(pair.pinion.teeth);
        CAPTURE(pair.wheel.teeth);
        CHECK(std::fabs(m.length_of_path_of_contact() - walked.length) <= walked.step * 1.001);
        CHECK(m.transverse_contact_ratio() ==
              doctest::Approx(m.length_of_path_of_contact() / m.pinion().transverse_base_pitch()).epsilon(1e-15));
        // The active diameters of the pinion are the innermost and outermost that were met.
        CHECK(std::fabs(m.active_root_diameter().pinion / 2 - walked.pinion_inner) <= walked.step);
        CHECK(std::fabs(m.active_tip_diameter().pinion / 2 - walked.pinion_outer) <= walked.step);
    }
}

TEST_CASE("active diameters lie between form diameter and tip") {
    support::random_source random{602};
    for (int i = 0; i < 300; ++i) {
        const mesh<double> m = mesh_of(random_pair(random));
        const auto check_gear = [](const gear<double>& g, double form, double root, double tip) {
            CHECK(form == rackwork::root_form_diameter(g));
            CHECK(root >= form);
            CHECK(root < tip);
            CHECK(tip <= g.tip_diameter());
        };
        check_gear(m.pinion(), m.root_form_diameter().pinion, m.active_root_diameter().pinion,
                   m.active_tip_diameter().pinion);
        check_gear(m.wheel(), m.root_form_diameter().wheel, m.active_root_diameter().wheel,
                   m.active_tip_diameter().wheel);
        // The pitch circles lie between them when contact takes place on both sides of the pitch point.
        CHECK(m.active_root_diameter().pinion < m.active_tip_diameter().pinion);
    }
}

TEST_CASE("the involutes of gears without undercut begin below where the mate's tip works, so the tip circles decide") {
    support::random_source random{603};
    int decided = 0;
    for (int i = 0; i < 300; ++i) {
        const mesh<double> m = mesh_of(random_pair(random));
        CHECK(m.transverse_contact_ratio() <= from_tip_circles(m) * (1 + 1e-12));
        const auto reach = m.reach_of_mating_tip();
        const auto form_roll = [](const gear<double>& g) {
            return std::sqrt(std::pow(rackwork::root_form_diameter(g) / 2, 2) - std::pow(g.base_diameter() / 2, 2));
        };
        if (reach.pinion < form_roll(m.pinion()) || reach.wheel < form_roll(m.wheel())) continue;
        CHECK(m.transverse_contact_ratio() == doctest::Approx(from_tip_circles(m)).epsilon(1e-12));
        CHECK(m.active_tip_diameter().pinion == m.pinion().tip_diameter());
        CHECK(m.active_tip_diameter().wheel == m.wheel().tip_diameter());
        ++decided;
    }
    CHECK(decided > 200);
}

TEST_CASE("undercut costs contact") {
    for (const int teeth : {7, 8, 10, 12, 14}) {
        CAPTURE(teeth);
        const mesh<double> m = standard_pair(teeth, 60);
        CHECK(rackwork::generated_root<double>{m.pinion()}.is_undercut());
        CHECK(m.transverse_contact_ratio() < from_tip_circles(m));
        CHECK(m.active_root_diameter().pinion == m.root_form_diameter().pinion);
        CHECK(m.active_tip_diameter().wheel < m.wheel().tip_diameter());
        const walk walked{m};
        CHECK(std::fabs(m.length_of_path_of_contact() - walked.length) <= walked.step * 1.001);
        // The same where it is the wheel that is undercut.
        const mesh<double> reducing = standard_pair(60, teeth);
        CHECK(reducing.length_of_path_of_contact() == doctest::Approx(m.length_of_path_of_contact()).epsilon(1e-13));
        CHECK(reducing.active_root_diameter().wheel == reducing.root_form_diameter().wheel);
        CHECK(reducing.active_tip_diameter().pinion < reducing.pinion().tip_diameter());
    }
    // 40 teeth of the same rack are not undercut and lose nothing.
    const mesh<double> sound = standard_pair(40, 60);
    CHECK(sound.transverse_contact_ratio() == doctest::Approx(from_tip_circles(sound)).epsilon(1e-13));
}

TEST_CASE("gears so far apart that their teeth do not reach each other have no path of contact") {
    const mesh<double> near = standard_pair(20, 30);
    const mesh<double> far{near.pinion(), near.wheel(), near.centre_distance() + 4.5};
    CHECK(far.length_of_path_of_contact() == 0);
    CHECK(far.transverse_contact_ratio() == 0);
    const mesh<double> almost{near.pinion(), near.wheel(), near.centre_distance() + 3.5};
    CHECK(almost.length_of_path_of_contact() > 0);
}

TEST_CASE("a helical pair has a tooth more in contact for every axial pitch of its face width") {
    const mesh<double> m = standard_pair(20, 41, 30, 18);
    CHECK(m.overlap_contact_ratio() == doctest::Approx(30 / m.pinion().axial_pitch()).epsilon(1e-14));
    CHECK(m.total_contact_ratio() ==
          doctest::Approx(m.transverse_contact_ratio() + m.overlap_contact_ratio()).epsilon(1e-15));
    const mesh<double> one_pitch = standard_pair(20, 41, m.pinion().axial_pitch(), -18);
    CHECK(one_pitch.overlap_contact_ratio() == doctest::Approx(1).epsilon(1e-14));
    // The narrower gear counts.
    gear_parameters<double> wide = m.pinion().parameters();
    wide.face_width = 45;
    CHECK(mesh<double>{gear<double>{wide}, m.wheel()}.overlap_contact_ratio() == m.overlap_contact_ratio());
    CHECK(mesh<double>{m.wheel(), gear<double>{wide}}.overlap_contact_ratio() == m.overlap_contact_ratio());
}

TEST_CASE("a spur pair has no overlap and needs no face width for it, a helical one does") {
    const mesh<double> spur = standard_pair(20, 41);
    CHECK(spur.overlap_contact_ratio() == 0);
    CHECK(spur.total_contact_ratio() == spur.transverse_contact_ratio());
    const mesh<double> helical = standard_pair(20, 41, 0, 18);
    CHECK(helical.transverse_contact_ratio() > 1);
    CHECK_THROWS_AS(static_cast<void>(helical.overlap_contact_ratio()), geometry_error);
    CHECK_THROWS_AS(static_cast<void>(helical.total_contact_ratio()), geometry_error);
    try {
        static_cast<void>(helical.overlap_contact_ratio());
    } catch (const geometry_error& e) {
        CHECK(std::string{e.what()} == "face_width is 0 but must be greater than 0");
    }
}
