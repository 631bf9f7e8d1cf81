// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The screw motion as a B-spline: within its stated bound of the exact rotation, exact at its ends, smooth where spans meet.
#include "solid_support.hpp"

#include <rackwork/solid/screw.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

namespace {

using rackwork::point;
using rackwork::screw;
using rackwork::screw_between;
using solid_support::spline_point;

struct worst_of_screw {
    double deviation = 0;
    double height = 0;
};

/// Greatest distances from the exact rotation at the same height, which is proportional to the parameter.
worst_of_screw measured(const screw& s, double low, double high, double twist) {
    worst_of_screw worst;
    for (int i = 0; i <= 2000; ++i) {
        const double u = i / 2000.;
        const point<double> turn = spline_point(s.degree, s.knots, s.turns, u);
        const double height = spline_point(s.degree, s.knots, s.heights, u);
        const long double angle = static_cast<long double>(twist) * (low + static_cast<long double>(high - low) * u);
        const long double x = turn.x - std::cos(angle);
        const long double y = turn.y - std::sin(angle);
        worst.deviation = std::fmax(worst.deviation, static_cast<double>(std::sqrt(x * x + y * y)));
        worst.height = std::fmax(worst.height, std::abs(height - (low + (high - low) * u)));
    }
    return worst;
}

} // namespace

TEST_CASE("the screw stays within its stated bound, which is hardly above the true deviation") {
    for (const double turning : {1e-3, 0.04, 0.3, 0.9, 2.5, -0.7, 7.}) {
        for (const double tolerance : {1e-4, 1e-7, 1e-10, 1e-12}) {
            CAPTURE(turning);
            CAPTURE(tolerance);
            const double low = -3;
            const double high = 8;
            const screw s = screw_between(low, high, turning / (high - low), tolerance);
            const worst_of_screw worst = measured(s, low, high, turning / (high - low));
            CHECK(s.deviation <= tolerance + 16 * std::numeric_limits<double>::epsilon());
            CHECK(worst.deviation <= s.deviation);
            CHECK(s.deviation <= 1.5 * worst.deviation + 32 * std::numeric_limits<double>::epsilon());
            CHECK(worst.height <= 1e-14);
        }
    }
}

TEST_CASE("no turning is a straight line, and the ends of a screw are exact") {
    const screw straight = screw_between(-2, 5, 0, 1e-9);
    CHECK(straight.degree == 1);
    CHECK(straight.deviation == 0);
    CHECK(straight.turns == std::vector<point<double>>{{1, 0}, {1, 0}});
    const screw s = screw_between(-2, 5, 0.4, 1e-11);
    CHECK(s.turns.front() == rackwork::direction(0.4 * -2));
    CHECK(s.turns.back() == rackwork::direction(0.4 * 5));
    CHECK(s.heights.front() == -2);
    CHECK(s.heights.back() == 5);
    CHECK(s.knots.size() == s.size() + static_cast<std::size_t>(s.degree) + 1);
}

TEST_CASE("where spans meet the screw's velocity goes on") {
    const screw s = screw_between(0, 1, 3., 1e-12);
    REQUIRE(s.knots[static_cast<std::size_t>(s.degree) + 1] < 1); // there is more than one span
    const double step = 1e-6;
    for (std::size_t i = static_cast<std::size_t>(s.degree) + 1; s.knots[i] < 1; ++i) {
        const double u = s.knots[i];
        const auto at = [&](double t) { return spline_point(s.degree, s.knots, s.turns, t); };
        const point<double> before = (1 / step) * (at(u) - at(u - step));
        const point<double> after = (1 / step) * (at(u + step) - at(u));
        // Both differ by the acceleration, 9, times the step.
        CHECK(length(after - before) < 9.5 * step);
    }
}
