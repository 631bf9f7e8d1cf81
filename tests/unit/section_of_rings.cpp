// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Area and moments of internal gears with their rims, against a fine polygon.
#include <rackwork/curve/polyline.hpp>
#include <rackwork/form/section.hpp>

#include <doctest/doctest.h>

#include <cstddef>
#include <numbers>

using rackwork::gear;
using rackwork::gear_kind;

TEST_CASE("a ring's section is its rim's disc less the hole, teeth and all") {
    for (const int teeth : {46, 71}) {
        for (const double shift : {-0.4, 0.0, 0.3}) {
            const gear<double> ring{
                {.normal_module = 2, .teeth = teeth, .kind = gear_kind::internal, .profile_shift = shift, .face_width = 15, .tip_chamfer = 0.2}};
            const double rim = 2.0 * teeth + 20;
            const auto hole = rackwork::polyline_of(rackwork::outline_of(ring), 1e-6).points;
            double area = 0;
            double polar = 0;
            for (std::size_t i = 0; i < hole.size(); ++i) {
                const auto& p = hole[i];
                const auto& q = hole[(i + 1) % hole.size()];
                area += cross(p, q) / 2;
                polar += cross(p, q) * (dot(p, p) + dot(p, q) + dot(q, q)) / 12;
            }
            const auto section = rackwork::ring_section(ring, rim);
            const double disc = std::numbers::pi * rim * rim / 4;
            CHECK(section.area == doctest::Approx(disc - area).epsilon(1e-6));
            CHECK(section.polar_moment == doctest::Approx(disc * rim * rim / 8 - polar).epsilon(1e-6));
            const auto body = rackwork::ring_body_of(ring, rim);
            CHECK(body.volume == doctest::Approx(15 * section.area).epsilon(1e-14));
            CHECK(body.moment_about_axis == doctest::Approx(15 * section.polar_moment).epsilon(1e-14));
        }
    }
}

TEST_CASE("rings and wheels are not mistaken for each other") {
    const gear<double> ring{{.normal_module = 2, .teeth = 50, .kind = gear_kind::internal, .face_width = 10}};
    const gear<double> wheel{{.normal_module = 2, .teeth = 50, .face_width = 10}};
    CHECK_THROWS_AS(static_cast<void>(rackwork::transverse_section(ring)), rackwork::geometry_error);
    CHECK_THROWS_AS(static_cast<void>(rackwork::body_of(ring)), rackwork::geometry_error);
    CHECK_THROWS_AS(static_cast<void>(rackwork::ring_section(wheel, 200.0)), rackwork::geometry_error);
    CHECK_THROWS_AS(static_cast<void>(rackwork::ring_section(ring, 100.0)), rackwork::geometry_error);
}
