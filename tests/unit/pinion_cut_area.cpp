// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Area and polar second moment of what a pinion-type cutter leaves, external and internal: against polygons, against another quadrature in
// fifty digits, and the library's own quadrature against integrals that have a closed form.
#include <rackwork/core/quadrature.hpp>
#include <rackwork/curve/polyline.hpp>
#include <rackwork/form/outline.hpp>
#include <rackwork/form/section.hpp>

#include "random_source.hpp"

#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <string>
#include <variant>
#include <vector>

#include <boost/math/quadrature/gauss.hpp>
#include <boost/multiprecision/cpp_bin_float.hpp>

#include <doctest/doctest.h>

using rackwork::cutter;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::outline;
using rackwork::pinion_type_cutter;
using rackwork::point;
using rackwork::segment;

namespace {

constexpr double pi = std::numbers::pi;
using wide = boost::multiprecision::number<boost::multiprecision::cpp_bin_float<50>, boost::multiprecision::et_off>;

struct cut_gear {
    std::string name;
    gear<double> made;
    cutter<double> tool;
};

cut_gear cut(const char* name, const gear_parameters<double>& p, const pinion_type_cutter<double>& tool) { return {name, gear<double>(p), tool}; }

std::vector<cut_gear> kinds() {
    const gear_kind internal = gear_kind::internal;
    return {
        cut("external", {.normal_module = 2, .teeth = 30}, {.teeth = 24, .tip_radius = 0.25}),
        cut("external, undercut", {.normal_module = 2, .teeth = 10}, {.teeth = 40, .tip_radius = 0.2}),
        cut("external, large shift", {.normal_module = 2, .teeth = 40, .profile_shift = 1.2}, {.teeth = 30, .addendum = 1.3, .tip_radius = 0.3}),
        cut("internal", {.normal_module = 2, .teeth = 60, .kind = internal}, {.teeth = 24, .tip_radius = 0.25}),
        cut("internal, sharp cutter", {.normal_module = 2, .teeth = 60, .kind = internal}, {.teeth = 24}),
        cut("internal, thinned", {.normal_module = 3, .teeth = 47, .kind = internal, .thickness_allowance = -0.2}, {.teeth = 20, .tip_radius = 0.2}),
        cut("internal, large cutter", {.normal_module = 2, .teeth = 60, .kind = internal, .profile_shift = -0.3}, {.teeth = 50, .profile_shift = 0.1, .tip_radius = 0.2}),
        cut("internal, helical", {.normal_module = 1, .teeth = 90, .kind = internal, .helix_angle = deg(-30.0)}, {.teeth = 30, .tip_radius = 0.3}),
    };
}

/// Area and polar second moment of a polygon about the origin.
struct polygon {
    double area = 0;
    double polar_moment = 0;
    double perimeter = 0;

    explicit polygon(const std::vector<point<double>>& points) {
        long double twice_area = 0;
        long double moment = 0;
        for (std::size_t i = 0; i < points.size(); ++i) {
            const point<double>& a = points[i];
            const point<double>& b = points[(i + 1) % points.size()];
            const long double c = static_cast<long double>(a.x) * b.y - static_cast<long double>(a.y) * b.x;
            twice_area += c;
            moment += c * static_cast<long double>(dot(a, a) + dot(a, b) + dot(b, b)) / 12;
            perimeter += length(b - a);
        }
        area = static_cast<double>(twice_area / 2);
        polar_moment = static_cast<double>(moment);
    }
};

/// The fillet in fifty digits, the same numbers.
template <class Shape>
rackwork::pinion_trochoid<wide> widened(const Shape& t) {
    return {wide(t.rolling_radius), wide(t.tool_rolling_radius), wide(t.tip_rounding), wide(t.centre_radius), wide(t.centre_angle), wide(t.kind_sign)};
}

struct swept {
    wide area = 0;
    wide moment = 0;
};

/// The sums 1/2 (x dy - y dx) and 1/4 r^2 (x dy - y dx) along the fillet by Gauss's rule on so many pieces, from its points and velocities.
swept by_gauss(const rackwork::pinion_trochoid<wide>& shape, const wide& end, int pieces) {
    const auto rate = [&](const wide& phi) {
        const auto at = shape.at(phi);
        return wide(cross(at.position(), wide(at.speed) * at.tangent()) / 2);
    };
    const auto moment_rate = [&](const wide& phi) {
        const point<wide> p = shape.at(phi).position();
        return wide(rate(phi) * dot(p, p) / 2);
    };
    swept sum;
    for (int i = 0; i < pieces; ++i) {
        const wide from = wide(end * i / pieces);
        const wide to = wide(end * (i + 1) / pieces);
        sum.area += boost::math::quadrature::gauss<wide, 30>::integrate(rate, from, to);
        sum.moment += boost::math::quadrature::gauss<wide, 30>::integrate(moment_rate, from, to);
    }
    return sum;
}

} // namespace

TEST_CASE("a polygon's area and moment differ from the exact ones by less than its perimeter times its deviation, and converge with it") {
    for (const cut_gear& kind : kinds()) {
        CAPTURE(kind.name);
        const outline<double> exact = rackwork::outline_of(kind.made, kind.tool);
        const auto section = rackwork::section_of(exact);
        CHECK(section.area == doctest::Approx(exact.area()).epsilon(1e-14));
        const double module = kind.made.normal_module();
        const double greatest = std::max(kind.made.tip_diameter(), kind.made.root_diameter()) / 2 + 0.2 * module;
        std::vector<double> off_by;
        for (const double tolerance : {1e-2 * module, 1e-4 * module, 1e-6 * module}) {
            const auto lines = rackwork::polyline_of(exact, tolerance);
            const polygon found(lines.points);
            const double off = std::fabs(found.area - section.area);
            CHECK(off <= found.perimeter * lines.deviation);
            // Each piece of the difference counts by the square of its distance from the axis.
            CHECK(std::fabs(found.polar_moment - section.polar_moment) <= found.perimeter * lines.deviation * greatest * greatest);
            off_by.push_back(off);
        }
        // The tolerance falls by a hundred, and so does the error; but where a curve takes only one or two chords, the coarser polygon may
        // be 2 1/2 times better than it was asked to be.
        CHECK(off_by[2] <= off_by[1] / 40);
    }
}

TEST_CASE("area and moment lie between those of the root circle's and the tip circle's disc") {
    support::random_source random{341};
    int seen = 0;
    for (int i = 0; i < 400; ++i) {
        gear_parameters<double> p;
        p.normal_module = random.uniform(0.3, 8);
        p.kind = random.coin() ? gear_kind::internal : gear_kind::external;
        p.teeth = random.integer(p.kind == gear_kind::internal ? 40 : 8, 120);
        p.profile_shift = random.uniform(-0.5, 0.5);
        const pinion_type_cutter<double> tool{.teeth = random.integer(12, 36), .tip_radius = random.uniform(0, 0.2)};
        if (check(p) || rackwork::generated_root<double>::check(gear<double>(p), tool)) continue;
        ++seen;
        const gear<double> g(p);
        const outline<double> exact = rackwork::outline_of(g, tool);
        const auto section = rackwork::section_of(exact);
        const double tip = g.effective_tip_diameter();
        const double root = rackwork::generated_root<double>(g, tool).root_diameter();
        CAPTURE(i);
        CHECK(section.area > pi / 4 * std::min(tip * tip, root * root));
        CHECK(section.area < pi / 4 * std::max(tip * tip, root * root));
        CHECK(section.polar_moment > pi / 32 * std::min(std::pow(tip, 4), std::pow(root, 4)));
        CHECK(section.polar_moment < pi / 32 * std::max(std::pow(tip, 4), std::pow(root, 4)));
    }
    CHECK(seen > 300);
}

TEST_CASE("area and moment under a pinion-cut fillet are those of another quadrature in fifty digits") {
    for (const cut_gear& kind : kinds()) {
        CAPTURE(kind.name);
        const rackwork::generated_root<double> root(kind.made, kind.tool);
        const auto& shape = std::get<rackwork::pinion_trochoid<double>>(root.fillet().shape());
        const double end = root.end_parameter();
        // Thirty points on each of eight pieces, and on twelve: they agree to all that is asked for below.
        const swept exact = by_gauss(widened(shape), wide(end), 8);
        const swept finer = by_gauss(widened(shape), wide(end), 12);
        CHECK(abs(exact.area - finer.area) < wide("1e-40") * abs(finer.area));
        CHECK(abs(exact.moment - finer.moment) < wide("1e-40") * abs(finer.moment));
        const auto off = [](const wide& value, const wide& expected) { return static_cast<double>(abs(value - expected) / abs(expected)); };
        CHECK(off(wide(rackwork::area_under(shape, end)), exact.area) < 8 * std::numeric_limits<double>::epsilon());
        CHECK(off(wide(rackwork::polar_moment_under(shape, end)), exact.moment) < 8 * std::numeric_limits<double>::epsilon());
        // The library's own, in fifty digits.
        CHECK(off(rackwork::area_under(widened(shape), wide(end)), exact.area) < 1e-38);
        CHECK(off(rackwork::polar_moment_under(widened(shape), wide(end)), exact.moment) < 1e-38);
    }
}

TEST_CASE("the quadrature finds integrals that have a closed form to the last places of float, double, long double and fifty digits") {
    const auto run = [](auto one) {
        using T = decltype(one);
        using std::exp;
        using std::log;
        using std::sin;
        using std::sqrt;
        const T eps = (std::numeric_limits<T>::epsilon)();
        const auto close = [&](const T& value, const T& expected) { return rackwork::magnitude(T(value - expected)) <= T(8 * eps * rackwork::magnitude(expected)); };
        const auto integral = [](const auto& f, const T& a, const T& b) { return rackwork::integral(f, a, b); };
        CHECK(close(integral([](const T& x) { return T(x * x * x); }, T(0), T(2)), T(4)));
        CHECK(close(integral([](const T& x) { return T(x * x * x); }, T(2), T(0)), T(-4)));
        CHECK(close(integral([](const T& x) { return T(T(1) / (T(1) + x * x)); }, T(0), T(1)), T(rackwork::pi<T>() / T(4))));
        CHECK(close(integral([](const T& x) { return T(exp(x)); }, T(-1), T(1)), T(exp(T(1)) - exp(T(-1)))));
        CHECK(close(integral([](const T& x) { return T(sin(x)); }, T(0), rackwork::pi<T>()), T(2)));
        // A square root at an end, where the derivative is without bound, does not disturb it.
        CHECK(close(integral([](const T& x) { return T(sqrt(x)); }, T(0), T(1)), T(T(2) / T(3))));
        CHECK(close(integral([](const T& x) { return T(T(1) / (x + T(1))); }, T(0), T(9)), T(log(T(10)))));
        CHECK(integral([](const T&) { return T(7); }, T(3), T(3)) == T(0));
        CHECK(integral([](const T&) { return T(0); }, T(3), T(4)) == T(0));
        // Far from zero, where the ends of the interval lie near each other.
        CHECK(close(integral([](const T& x) { return T(x); }, T(1000), T(1001)), T(T(2001) / T(2))));
    };
    run(1.0F);
    run(1.0);
    run(1.0L);
    run(wide(1));
}
