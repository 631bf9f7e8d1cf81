// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The geometry factors of a pair from what they stand for.
#include <rackwork/analysis/contact.hpp>
#include <rackwork/analysis/contact_lines.hpp>
#include <rackwork/analysis/pair_factors.hpp>

#include <cmath>

#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::gear;
using rackwork::mesh;

namespace {

constexpr mesh<double> pair_of(double helix, double width, double pinion_shift = 0, double wheel_shift = 0) {
    return mesh<double>{gear<double>{{.normal_module = 4,
                                      .teeth = 21,
                                      .helix_angle = deg(helix),
                                      .profile_shift = pinion_shift,
                                      .face_width = width}},
                        gear<double>{{.normal_module = 4,
                                      .teeth = 50,
                                      .helix_angle = deg(-helix),
                                      .profile_shift = wheel_shift,
                                      .face_width = width}}};
}

} // namespace

TEST_CASE("the zone factor is the normal relative curvature at the pitch point, made free of size and of the force's "
          "direction") {
    // Z_H^2 = (1/rho_1 + 1/rho_2) cos beta_b  d_1 u/(u + 1) / cos alpha_t.
    for (const double helix : {0.0, 12.0, 30.0}) {
        for (const double shift : {-0.2, 0.0, 0.6}) {
            const mesh<double> pair = pair_of(helix, 40, shift, 0.1);
            const double u = pair.gear_ratio();
            const double squared = rackwork::path_of_contact<double>(pair).point_c().normal_relative_curvature() *
                                   pair.pinion().reference_diameter() * u / (u + 1) /
                                   cos(pair.pinion().transverse_pressure_angle());
            CHECK(rackwork::zone_factor(pair) == doctest::Approx(std::sqrt(squared)).epsilon(1e-13));
        }
    }
    // Common practice: 2.495 for standard spur gears of 20 degrees, sqrt(2/(cos 20 sin 20)).
    static_assert(rackwork::zone_factor(pair_of(0, 40)) > 2.4945 && rackwork::zone_factor(pair_of(0, 40)) < 2.4955);
}

TEST_CASE("the contact ratio factors run from the spur gear's to that of an overlap ratio of one and stay there") {
    const mesh<double> spur = pair_of(0, 40);
    const double e = spur.transverse_contact_ratio();
    CHECK(rackwork::contact_ratio_factor_for_flank(spur) == doctest::Approx(std::sqrt((4 - e) / 3)).epsilon(1e-14));
    CHECK(rackwork::contact_ratio_factor_for_root(spur) == doctest::Approx(0.25 + 0.75 / e).epsilon(1e-14));
    const mesh<double> wide = pair_of(15, 200);
    const double w = wide.transverse_contact_ratio();
    CHECK(wide.overlap_contact_ratio() > 1);
    CHECK(rackwork::contact_ratio_factor_for_flank(wide) == doctest::Approx(std::sqrt(1 / w)).epsilon(1e-14));
    // Z_eps^2 then is one full contact line over the mean length of all that touch.
    const rackwork::contact_lines<double> lines{wide};
    CHECK(rackwork::square(rackwork::contact_ratio_factor_for_flank(wide)) ==
          doctest::Approx(lines.full_length() / lines.mean_total_length()).epsilon(1e-13));
    double before = rackwork::contact_ratio_factor_for_flank(pair_of(15, 1));
    for (double width = 5; width < 50; width += 5) { // overlap ratio up to 1
        const double now = rackwork::contact_ratio_factor_for_flank(pair_of(15, width));
        CHECK(now < before);
        before = now;
    }
}

TEST_CASE("the helix factors are 1 for spur gears, and stop where the standard stops them") {
    CHECK(rackwork::helix_factor_for_flank(pair_of(0, 40)) == 1);
    CHECK(rackwork::helix_factor_for_root(pair_of(0, 40)) == 1);
    CHECK(rackwork::helix_factor_for_flank(pair_of(20, 40)) ==
          doctest::Approx(1 / std::sqrt(std::cos(rackwork::pi<double>() / 9))));
    // 1 - 1 * 24/120 and no less than 1 - 30/120.
    CHECK(rackwork::helix_factor_for_root(pair_of(24, 200)) == doctest::Approx(0.8).epsilon(1e-14));
    CHECK(rackwork::helix_factor_for_root(pair_of(-24, 200)) == doctest::Approx(0.8).epsilon(1e-14));
    CHECK(rackwork::helix_factor_for_root(pair_of(36, 200)) == doctest::Approx(0.75).epsilon(1e-14));
    const mesh<double> narrow = pair_of(24, 10);
    CHECK(rackwork::helix_factor_for_root(narrow) ==
          doctest::Approx(1 - narrow.overlap_contact_ratio() * 0.2).epsilon(1e-14));
}

TEST_CASE("a helical pair without face width has no factors that depend on the overlap, and without contact there are "
          "none at all") {
    CHECK_THROWS_AS(rackwork::contact_ratio_factor_for_flank(pair_of(15, 0)), rackwork::geometry_error);
    CHECK_THROWS_AS(rackwork::helix_factor_for_root(pair_of(15, 0)), rackwork::geometry_error);
    const mesh<double> touching = pair_of(0, 40);
    const mesh<double> apart{touching.pinion(), touching.wheel(), touching.centre_distance() + 5};
    CHECK(apart.transverse_contact_ratio() < 1);
    CHECK_THROWS_AS(rackwork::contact_ratio_factor_for_flank(apart), rackwork::geometry_error);
    CHECK_THROWS_AS(rackwork::contact_ratio_factor_for_root(apart), rackwork::geometry_error);
}
