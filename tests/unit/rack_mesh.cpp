// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A pinion on a rack: printed examples, the limit of a wheel of many teeth, and what the drawing of a straight rack gives directly.
#include "random_source.hpp"

#include <rackwork/analysis/contact.hpp>
#include <rackwork/findings.hpp>
#include <rackwork/mesh.hpp>
#include <rackwork/rack_mesh.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

namespace {

using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::generated_root;
using rackwork::mesh;
using rackwork::rack_mesh;
using rackwork::rack_parameters;

constexpr double pi = std::numbers::pi;

gear<double> pinion_of(double helix, double shift = 0, double allowance = 0) {
    return gear<double>{{.normal_module = 2.5,
                         .teeth = 20,
                         .helix_angle = deg(helix),
                         .profile_shift = shift,
                         .thickness_allowance = allowance,
                         .face_width = 25}};
}

} // namespace

TEST_CASE("the helical rack and pinion of the handbook stand 52.965 mm apart and travel 160 mm a turn") {
    // Elements of Metric Gear Technology, table 6-5 (helical rack, normal system); from memory. Height of the pitch line 27.5 mm.
    const double helix = 10 + 57.0 / 60 + 49.0 / 3600;
    const rack_mesh<double> pair(pinion_of(helix), {.datum_height = 27.5});
    CHECK(std::fabs(pair.pinion_height() - 52.965) <= 0.0005);
    CHECK(std::fabs(pair.pinion().transverse_pressure_angle().deg() - 20.34160) <= 0.00001);
    CHECK(std::fabs(pair.travel_per_turn() - 160) < 0.001);
    CHECK(std::fabs(pair.travel(deg(90.)) - 40) < 0.001);
    CHECK(pair.circumferential_backlash() == 0);
}

TEST_CASE("the contact ratio of 17 teeth on a rack is the table's 1.748") {
    // A gear maker's technical data, table of contact ratios, row of racks; from memory.
    const rack_mesh<double> pair(gear<double>{{.normal_module = 1, .teeth = 17}}, {});
    // The table goes by the tips alone. In truth the rack reaches just below the base circle of 17 teeth, and a little contact is lost.
    const double from_tips = pair.pinion_roll_at_end_of_contact() - pair.reach_of_rack_tip();
    CHECK(std::fabs(from_tips / pair.pinion().transverse_base_pitch() - 1.748) <= 0.0005);
    CHECK(pair.reach_of_rack_tip() < 0);
    CHECK(pair.transverse_contact_ratio() < 1.748);
    CHECK(pair.transverse_contact_ratio() > 1.73);
    CHECK(pair.transverse_contact_ratio() == pair.total_contact_ratio());
}

TEST_CASE("a rack is the limit of wheels of ever more teeth") {
    for (const double helix : {0.0, 14.0, -31.0}) {
        for (const double shift : {-0.2, 0.0, 0.45}) {
            CAPTURE(helix);
            CAPTURE(shift);
            const gear<double> pinion = pinion_of(helix, shift, -0.04);
            const gear<double> wheel{{.normal_module = 2.5,
                                      .teeth = 4000000,
                                      .helix_angle = deg(-helix),
                                      .thickness_allowance = -0.06,
                                      .face_width = 25}};
            const double wheel_radius = wheel.reference_diameter() / 2;
            const rack_mesh<double> closed(pinion, {.thickness_allowance = -0.06, .face_width = 25});
            const mesh<double> closed_wheel(pinion, wheel);
            CHECK(closed.pinion_height() == doctest::Approx(closed_wheel.centre_distance() - wheel_radius).epsilon(1e-7));
            const rack_mesh<double> pair(pinion, closed.rack(), closed.pinion_height() + 0.15);
            const mesh<double> limit(pinion, wheel, closed_wheel.centre_distance() + 0.15);
            CHECK(pair.transverse_contact_ratio() == doctest::Approx(limit.transverse_contact_ratio()).epsilon(1e-5));
            CHECK(pair.total_contact_ratio() == doctest::Approx(limit.total_contact_ratio()).epsilon(1e-5));
            CHECK(pair.circumferential_backlash() == doctest::Approx(limit.circumferential_backlash()).epsilon(1e-4));
            CHECK(pair.normal_backlash() == doctest::Approx(limit.normal_backlash()).epsilon(1e-4));
            CHECK(pair.radial_backlash() == doctest::Approx(limit.radial_backlash()).epsilon(1e-3));
            CHECK(pair.clearance_of_pinion_tip() == doctest::Approx(limit.bottom_clearance().pinion).epsilon(1e-5));
            CHECK(pair.clearance_of_rack_tip() == doctest::Approx(limit.bottom_clearance().wheel).epsilon(1e-5));
            CHECK(pair.reach_of_rack_tip() == doctest::Approx(limit.reach_of_mating_tip().pinion).epsilon(1e-4));
        }
    }
}

TEST_CASE("lowering the pinion by the radial backlash closes the backlash") {
    const rack_mesh<double> open(pinion_of(18, 0.2, -0.05), {.thickness_allowance = -0.08}, 26.9);
    REQUIRE(open.circumferential_backlash() > 0);
    const rack_mesh<double> closed(open.pinion(), open.rack(), open.pinion_height() - open.radial_backlash());
    CHECK(std::fabs(closed.circumferential_backlash()) < 1e-14);
    CHECK(open.angular_backlash().rad() * open.pinion().reference_diameter() / 2 ==
          doctest::Approx(open.circumferential_backlash()).epsilon(1e-15));
}

TEST_CASE("straight flanks seen directly: gaps on both sides of a pinion tooth on a rack add up to the backlash") {
    support::random_source random(11);
    for (int i = 0; i < 200; ++i) {
        const double helix = random.uniform(-40.0, 40.0);
        const double shift = random.uniform(0.0, 0.6);
        const gear<double> pinion = pinion_of(helix, shift, random.uniform(-0.1, 0.0));
        const rack_mesh<double> pair(pinion, {.thickness_allowance = random.uniform(-0.1, 0.0)},
                                     25 / std::cos(helix * pi / 180) + 2.5 * shift + random.uniform(0.0, 0.3));
        // On the pitch line, a reference radius from the axis, the rack's space is wider than the pinion's tooth by the backlash.
        const double over_datum = pair.distance_to_datum_line() - pinion.reference_diameter() / 2;
        const double rack_space = (pi * 2.5 / 2 + 2 * over_datum * std::tan(20 * pi / 180) - pair.rack().thickness_allowance) /
                                  std::cos(helix * pi / 180);
        const double tooth = pinion.tooth_thickness(pinion.reference_diameter());
        CHECK(pair.circumferential_backlash() == doctest::Approx(rack_space - tooth).epsilon(1e-11));
    }
}

TEST_CASE("an impossible rack is refused with the quantity") {
    const gear<double> pinion = pinion_of(0);
    const auto refused = [&](const rack_parameters<double>& rack, double height) {
        const rackwork::violation v = rack_mesh<double>::check(pinion, rack, height);
        return std::string(v ? v.quantity : "");
    };
    CHECK(refused({}, 25) == "");
    CHECK(refused({}, 2.5) == "pinion_height");
    CHECK(refused({}, std::nan("")) == "pinion_height");
    CHECK(refused({.thickness_allowance = std::nan("")}, 25) == "thickness_allowance");
    CHECK(refused({.profile = {.addendum = -1}}, 25) == "addendum");
    CHECK_THROWS_AS(rack_mesh<double>(pinion, {}, 1.0), rackwork::geometry_error);
    const gear<double> ring{{.normal_module = 2.5, .teeth = 60, .kind = rackwork::gear_kind::internal}};
    CHECK_THROWS_AS(rack_mesh<double>(ring, {}), rackwork::geometry_error);
    CHECK_THROWS_AS(static_cast<void>(rack_mesh<double>(pinion_of(10), {}).overlap_contact_ratio()), rackwork::geometry_error);
}

TEST_CASE("a pair of pinion and rack is a constant") {
    constexpr rack_mesh<double> pair(gear<double>{{.normal_module = 2, .teeth = 24}}, {.datum_height = 18});
    static_assert(pair.pinion_height() == 42);
    static_assert(pair.transverse_contact_ratio() > 1.7 && pair.transverse_contact_ratio() < 1.85);
    CHECK(pair.clearance_of_rack_tip() == doctest::Approx(0.5));
}

TEST_CASE("the path of contact of a rack is the limit of wheels of ever more teeth") {
    const gear<double> pinion = pinion_of(12, 0.25);
    const rackwork::path_of_contact<double> path(rack_mesh<double>(pinion, {}));
    const gear<double> wheel{{.normal_module = 2.5, .teeth = 4000000, .helix_angle = deg(-12.)}};
    const rackwork::path_of_contact<double> limit(mesh<double>(pinion, wheel));
    CHECK(path.length() == doctest::Approx(limit.length()).epsilon(1e-6));
    CHECK(path.point_a().distance_from_pitch_point() == doctest::Approx(limit.point_a().distance_from_pitch_point()).epsilon(1e-5));
    for (int i = 0; i <= 10; ++i) {
        const double g = path.point_a().distance_from_pitch_point() + path.length() * i / 10;
        const auto here = path.at(g);
        const auto there = limit.at(g);
        CHECK(here.relative_curvature() == doctest::Approx(there.relative_curvature()).epsilon(1e-5));
        CHECK(here.relative_curvature() == doctest::Approx(1 / here.pinion_curvature_radius()));
        CHECK(here.sliding_velocity() == g); // the rack travels by r for a turn of one radian, and nothing but g slides
        CHECK(here.specific_sliding().wheel == doctest::Approx(there.specific_sliding().wheel).epsilon(1e-5));
        CHECK(here.pinion_diameter() == doctest::Approx(there.diameter().pinion).epsilon(1e-6));
        CHECK_THROWS_AS(static_cast<void>(here.diameter()), rackwork::geometry_error);
        CHECK_THROWS_AS(static_cast<void>(here.curvature_radius()), rackwork::geometry_error);
    }
}

TEST_CASE("a pinion on a rack has findings as a pair has") {
    using rackwork::finding_code;
    using rackwork::finding_subject;
    const gear<double> pinion = pinion_of(0, 0.3, -0.05);
    CHECK(findings(rack_mesh<double>(pinion, {.thickness_allowance = -0.05})).empty());
    CHECK(findings(rack_mesh<double>(pinion_of(0, 0.3), {})).has(finding_code::no_backlash, finding_subject::pair));
    const rack_mesh<double> low(pinion, {.thickness_allowance = -0.05}, 25.75 - 0.5);
    CHECK(findings(low).has(finding_code::overlap));
    CHECK(findings(low).has(finding_code::low_bottom_clearance, finding_subject::pinion));
    CHECK(findings(low).has(finding_code::low_bottom_clearance, finding_subject::wheel));
    CHECK(findings(rack_mesh<double>(pinion, {}, 25.75 + 2)).has(finding_code::low_contact_ratio));
    CHECK(findings(rack_mesh<double>(gear<double>{{.normal_module = 2.5, .teeth = 12}}, {}))
              .has(finding_code::mate_below_form_diameter, finding_subject::pinion));
}

TEST_CASE("a pinion on a rack keeps its height, and its contact begins where the stated tool's root lets it") {
    const gear<double> pinion{{.normal_module = 2.5, .teeth = 15, .profile_shift = 0.1}};
    const rack_parameters<double> rack{.thickness_allowance = -0.1, .datum_height = 20};
    const rack_mesh<double> customary(pinion, rack);
    // A tool with sharp corners that goes deeper undercuts the pinion further up.
    const generated_root<double> undercut(pinion, rackwork::rack_type_cutter<double>{.addendum = 1.4, .tip_radius = 0});
    const rack_mesh<double> stated(pinion, rack, undercut);
    CHECK(stated.pinion_height() == customary.pinion_height());
    CHECK(stated.normal_backlash() == customary.normal_backlash());
    CHECK(stated.pinion_root().root_form_diameter() == undercut.root_form_diameter());
    CHECK(undercut.root_form_diameter() > customary.pinion_root().root_form_diameter());
    CHECK(stated.transverse_contact_ratio() < customary.transverse_contact_ratio());
    CHECK(stated.clearance_of_rack_tip() == doctest::Approx(customary.clearance_of_rack_tip() + 0.15 * 2.5));
}
