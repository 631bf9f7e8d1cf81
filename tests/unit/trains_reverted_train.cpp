// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Two stages on one centre distance.
#include <rackwork/gear.hpp>
#include <rackwork/mesh.hpp>
#include <rackwork/trains/reverted_train.hpp>

#include "random_source.hpp"

#include <boost/math/differentiation/autodiff.hpp>

#include <cmath>

#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::mesh;
using rackwork::pair_proportions;
using rackwork::reverted_train;

namespace {

/// A train whose stages have nearly the same reference centre distance.
reverted_train<double> random_train(support::random_source& random) {
    for (;;) {
        const auto stage = [&] {
            pair_proportions<double> p{.normal_module = random.uniform(1, 5),
                                       .pinion_teeth = random.integer(14, 30),
                                       .wheel_teeth = random.integer(31, 90),
                                       .helix_angle = deg(random.uniform(-20, 20))};
            if (random.integer(0, 4) == 0) {
                p.wheel_kind = gear_kind::internal;
                p.wheel_teeth += 60;
            }
            return p;
        };
        reverted_train<double> train{stage(), stage()};
        const double ratio = reference_centre_distance(train.second) / reference_centre_distance(train.first);
        train.second.normal_module *= random.uniform(0.985, 1.015) / ratio;
        return train;
    }
}

mesh<double> mesh_with_sum(const pair_proportions<double>& p, double sum) {
    const gear<double> pinion{{.normal_module = p.normal_module, .teeth = p.pinion_teeth, .helix_angle = p.helix_angle, .profile_shift = sum / 2}};
    const gear<double> wheel{{.normal_module = p.normal_module,
                              .teeth = p.wheel_teeth,
                              .kind = p.wheel_kind,
                              .helix_angle = p.wheel_kind == gear_kind::internal ? p.helix_angle : -p.helix_angle,
                              .profile_shift = sum / 2}};
    return {pinion, wheel};
}

} // namespace

TEST_CASE("with the sums of shifts for a centre distance both stages run on it without backlash") {
    support::random_source random{1801};
    int trains = 0;
    for (int i = 0; i < 300; ++i) {
        const reverted_train<double> train = random_train(random);
        const double a = balanced_centre_distance(train);
        const auto sums = profile_shift_sums(train, a);
        if (std::fabs(sums.first) > 0.6) continue;
        ++trains;
        CHECK(mesh_with_sum(train.first, sums.first).centre_distance() == doctest::Approx(a).epsilon(1e-13));
        CHECK(mesh_with_sum(train.second, sums.second).centre_distance() == doctest::Approx(a).epsilon(1e-13));
    }
    CHECK(trains > 100);
}

TEST_CASE("no other common centre distance has a smaller greater sum of shifts than the balanced one") {
    support::random_source random{1802};
    for (int i = 0; i < 200; ++i) {
        const reverted_train<double> train = random_train(random);
        const double a = balanced_centre_distance(train);
        const auto worse = [&](double at) {
            const auto sums = profile_shift_sums(train, at);
            return std::fmax(std::fabs(sums.first), std::fabs(sums.second));
        };
        const double balanced = worse(a);
        const auto sums = profile_shift_sums(train, a);
        CHECK(std::fabs(sums.first) == doctest::Approx(std::fabs(sums.second)).epsilon(1e-9));
        const double near = reference_centre_distance(train.first);
        const double far = reference_centre_distance(train.second);
        for (int step = -20; step <= 120; ++step) CHECK(worse(near + (far - near) * step / 100) >= balanced * (1 - 1e-9));
    }
    // Equal reference centre distances need no shifts.
    const reverted_train<double> even{{.normal_module = 2, .pinion_teeth = 20, .wheel_teeth = 60}, {.normal_module = 2.5, .pinion_teeth = 17, .wheel_teeth = 47}};
    CHECK(balanced_centre_distance(even) == doctest::Approx(80).epsilon(1e-15));
    CHECK(even.gear_ratio() == doctest::Approx(3.0 * 47 / 17).epsilon(1e-15));
}

TEST_CASE("the range of common centre distances is where both sums are within their limits, and nowhere else") {
    support::random_source random{1803};
    int ranges = 0;
    for (int i = 0; i < 300; ++i) {
        const reverted_train<double> train = random_train(random);
        const rackwork::for_stages<rackwork::size_limits<double>> limits{{random.uniform(-0.3, 0), random.uniform(0, 0.8)},
                                                                        {random.uniform(-0.3, 0), random.uniform(0, 0.8)}};
        const auto range = common_centre_distances(train, limits);
        const double low = std::fmin(reference_centre_distance(train.first), reference_centre_distance(train.second)) * 0.98;
        const double high = low * 1.06;
        int allowed = 0;
        for (int step = 0; step <= 60; ++step) {
            const double a = low + (high - low) * step / 60;
            const auto sums = profile_shift_sums(train, a);
            const bool both = limits.first.contains(sums.first) && limits.second.contains(sums.second);
            CHECK(range.centre_distance.contains(a) == both);
            allowed += both;
        }
        if (allowed > 0) CHECK(range.exists());
        ranges += range.exists();
    }
    CHECK(ranges > 100);
    // Stages that are too unlike have none in common.
    const reverted_train<double> unlike{{.normal_module = 2, .pinion_teeth = 20, .wheel_teeth = 60}, {.normal_module = 2, .pinion_teeth = 20, .wheel_teeth = 64}};
    CHECK_FALSE(common_centre_distances(unlike, {{-0.3, 0.8}, {-0.3, 0.8}}).exists());
}

TEST_CASE("how the balanced centre distance changes with a module is what its neighbours say") {
    using with_derivative = boost::math::differentiation::autodiff_fvar<double, 1>;
    const auto balanced = [](const auto& module) {
        using T = std::decay_t<decltype(module)>;
        return balanced_centre_distance(reverted_train<T>{{.normal_module = T(2), .pinion_teeth = 20, .wheel_teeth = 60},
                                                          {.normal_module = module, .pinion_teeth = 18, .wheel_teeth = 47}});
    };
    const double step = 1e-5;
    const double slope = (balanced(2.5 + step) - balanced(2.5 - step)) / (2 * step);
    const with_derivative found = balanced(boost::math::differentiation::make_fvar<double, 1>(2.5));
    CHECK(found.derivative(1) == doctest::Approx(slope).epsilon(1e-8));
    CHECK(found.derivative(0) == balanced(2.5));
}

TEST_CASE("impossible trains and limits are refused") {
    const pair_proportions<double> stage{.normal_module = 2, .pinion_teeth = 20, .wheel_teeth = 60};
    auto none = stage;
    none.pinion_teeth = 0;
    CHECK(check(reverted_train<double>{stage, none}));
    CHECK_THROWS_AS(balanced_centre_distance(reverted_train<double>{none, stage}), rackwork::geometry_error);
    auto twice = stage;
    twice.normal_module = 4;
    CHECK_THROWS_AS(balanced_centre_distance(reverted_train<double>{stage, twice}), rackwork::geometry_error);
    CHECK_THROWS_AS(profile_shift_sums(reverted_train<double>{stage, stage}, 70), rackwork::geometry_error);
    CHECK_THROWS_AS(profile_shift_sums(reverted_train<double>{stage, stage}, std::nan("")), rackwork::geometry_error);
    CHECK_THROWS_AS(common_centre_distances(reverted_train<double>{stage, stage}, {{0.5, 0}, {0, 0.5}}), rackwork::geometry_error);
    CHECK_THROWS_AS(common_centre_distances(reverted_train<double>{stage, stage}, {{-50, 0}, {0, 0.5}}), rackwork::geometry_error);
}
