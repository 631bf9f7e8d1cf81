// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The short way past the checks of a gear's parameters lets nothing through that they refuse.
#include "random_source.hpp"

#include <rackwork/gear.hpp>

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>

using rackwork::basic_rack;
using rackwork::gear_kind;
using rackwork::gear_parameters;

namespace {

/// Numbers of either sign over many powers of ten, and now and then none at all.
template <class T>
T any_number(support::random_source& random) {
    const std::array<T, 4> odd{T(0), std::numeric_limits<T>::infinity(), std::numeric_limits<T>::quiet_NaN(), (std::numeric_limits<T>::max)()};
    if (random.uniform(0, 1) < 0.02) return odd[static_cast<std::size_t>(random.uniform(0, 3.99))];
    const T size = static_cast<T>(std::pow(10, random.uniform(-6, 6)));
    return random.uniform(0, 1) < 0.1 ? -size : size;
}

/// Racks all about the limits of what is possible: addendum and dedendum up to the points of tooth and space, the root fillet up to full.
template <class T>
basic_rack<T> rack_at_the_limits(support::random_source& random) {
    basic_rack<T> rack;
    rack.pressure_angle = rackwork::rad(static_cast<T>(random.uniform(-0.05, 1.6)));
    const T most = std::numbers::pi_v<T> / 4 / tan(rack.pressure_angle);
    rack.addendum = most * static_cast<T>(random.uniform(-0.02, 1.02));
    rack.dedendum = most * static_cast<T>(random.uniform(-0.02, 1.02));
    rack.root_fillet_radius =
        rackwork::full_root_fillet_radius(rack.pressure_angle, rack.dedendum) * static_cast<T>(random.uniform(-0.02, 1.02));
    return rack;
}

} // namespace

TEST_CASE_TEMPLATE("a rack that is taken for ordinary passes each check", T, float, double, long double) {
    support::random_source random{1701};
    int ordinary = 0;
    for (int i = 0; i < 200000; ++i) {
        const basic_rack<T> rack = rack_at_the_limits<T>(random);
        const T tangent = tan(rack.pressure_angle);
        if (!rackwork::detail::is_ordinary(rack, tangent)) continue;
        ++ordinary;
        const rackwork::violation v = rackwork::detail::check_one_by_one(rack, tangent);
        if (v) FAIL(rackwork::sentence(v));
    }
    CHECK(ordinary > 50000);
}

TEST_CASE_TEMPLATE("so do the parameters of a gear", T, float, double, long double) {
    support::random_source random{1702};
    int ordinary = 0;
    for (int i = 0; i < 200000; ++i) {
        gear_parameters<T> p{.normal_module = any_number<T>(random), .teeth = static_cast<int>(random.uniform(-2, 400))};
        p.kind = random.uniform(0, 1) < 0.01 ? static_cast<gear_kind>(2) : random.coin() ? gear_kind::external : gear_kind::internal;
        p.helix_angle = rackwork::rad(static_cast<T>(random.uniform(-1.6, 1.6)));
        if (random.coin()) p.profile_shift = any_number<T>(random);
        if (random.coin()) p.tip_alteration = any_number<T>(random);
        if (random.coin()) p.thickness_allowance = any_number<T>(random);
        if (random.coin()) p.face_width = any_number<T>(random);
        if (random.uniform(0, 1) < 0.1) p.tip_chamfer = any_number<T>(random);
        if (random.uniform(0, 1) < 0.1) p.tip_rounding = any_number<T>(random);
        const T tangent = tan(p.rack.pressure_angle);
        if (!rackwork::detail::is_ordinary(p, tangent)) continue;
        ++ordinary;
        const rackwork::violation v = rackwork::detail::check_one_by_one(p, tangent);
        if (v) FAIL(rackwork::sentence(v));
    }
    CHECK(ordinary > 2000);
}

TEST_CASE("the racks of the standards are ordinary") {
    for (const rackwork::standard_rack& standard : {rackwork::iso_53_a, rackwork::iso_53_b, rackwork::iso_53_c, rackwork::ansi_b6_1_coarse_20,
                                                    rackwork::asa_b6_1_full_depth_14_5, rackwork::asa_b6_1_stub_20}) {
        const basic_rack<double> rack = standard;
        CHECK(rackwork::detail::is_ordinary(rack, tan(rack.pressure_angle)));
    }
}
