// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Polylines that stay on the material side or on the free side of an outline.
#include "curve_distance.hpp"
#include "form_gears.hpp"

#include <rackwork/curve/one_sided_polyline.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

using namespace curve_distance;
using rackwork::gear;
using rackwork::one_sided_polyline_of;
using rackwork::outline;
using rackwork::outline_of;
using rackwork::outline_side;
using rackwork::polyline;

namespace {

constexpr double epsilon = form_gears::epsilon;

double size_of(const gear<double>& g) { return g.tip_diameter() / 2; }

double area_of(const polyline<double>& p) {
    double twice = 0;
    for (std::size_t i = 0; i < p.points.size(); ++i) twice += cross(p.points[i], p.points[(i + 1) % p.points.size()]);
    return twice / 2;
}

/// Greatest distance from an exact segment of the polyline between its ends, to the left and to the right of it, to 50 digits.
struct excursions {
    wide left = 0;
    wide right = 0;
};
excursions excursions_of(const std::vector<point<double>>& points, const segment<wide>& exact) {
    excursions found;
    const int samples = 8 * static_cast<int>(points.size());
    for (int i = 0; i <= samples; ++i) {
        const wide t = form_gears::parameter_at(exact, wide(wide(i) / samples));
        const point<wide> p = exact.position(t);
        const point<wide> tangent = exact.tangent(t);
        const point<wide> normal{-tangent.y, tangent.x};
        // Where the normal meets the polyline nearest.
        wide nearest = 1e30;
        for (std::size_t k = 0; k + 1 < points.size(); ++k) {
            const point<wide> a = widened(points[k]) - p;
            const point<wide> b = widened(points[k + 1]) - p;
            const wide before = dot(a, tangent);
            const wide after = dot(b, tangent);
            if (before > 0 || after < 0 || before == after) continue;
            const wide height = (dot(a, normal) * after - dot(b, normal) * before) / (after - before);
            if (abs(height) < abs(nearest)) nearest = height;
        }
        if (nearest > 1e29) continue; // beside an end, by rounding
        found.left = std::max(found.left, nearest);
        found.right = std::max(found.right, wide(-nearest));
    }
    return found;
}

} // namespace

TEST_CASE("a polyline on one side of the outline is not on the other, and keeps the tolerance") {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const gear<double> g(each.parameters);
        CAPTURE(std::string(each.name));
        const auto exact = form_gears::one_tooth(form_gears::at_precision<wide>(g));
        const auto tooth = form_gears::one_tooth(g);
        for (const double relative_tolerance : {1e-2, 1e-4}) {
            const double tolerance = relative_tolerance * g.normal_module();
            CAPTURE(relative_tolerance);
            for (const outline_side side : {outline_side::material, outline_side::free}) {
                for (std::size_t i = 0; i < 3 && i < tooth.size(); ++i) {
                    CAPTURE(i);
                    const auto p = one_sided_polyline_of(outline<double>{{tooth[i]}}, tolerance, side);
                    CHECK_FALSE(p.closed);
                    CHECK(p.points.front() == tooth[i].start);
                    CHECK(p.points.back() == tooth[i].end);
                    CHECK(p.deviation <= tolerance);
                    const excursions found = excursions_of(p.points, exact[i]);
                    const double wanted = static_cast<double>(side == outline_side::material ? found.left : found.right);
                    const double other = static_cast<double>(side == outline_side::material ? found.right : found.left);
                    CHECK(other <= 64 * epsilon * size_of(g));
                    CHECK(wanted <= p.deviation);
                    CHECK(p.deviation <= 2 * wanted + 100 * epsilon * size_of(g));
                }
            }
        }
    }
}

TEST_CASE("the exact area lies between those of the two polylines") {
    for (const gear<double>& g : form_gears::named_and_random_gears(20, 31)) {
        CAPTURE(form_gears::described(g));
        const outline<double> whole = outline_of(g);
        const double tolerance = 1e-3 * g.normal_module();
        const auto inside = one_sided_polyline_of(whole, tolerance, outline_side::material);
        const auto outside = one_sided_polyline_of(whole, tolerance, outline_side::free);
        CHECK(inside.closed);
        CHECK(outside.closed);
        CHECK(area_of(inside) < whole.area());
        CHECK(area_of(outside) > whole.area());
    }
}

TEST_CASE("a tolerance a hundred times smaller needs ten times the points") {
    const gear<double> g({.normal_module = 2, .teeth = 40});
    for (const outline_side side : {outline_side::material, outline_side::free}) {
        const double few = static_cast<double>(one_sided_polyline_of(outline_of(g), 1e-4, side).points.size());
        const double many = static_cast<double>(one_sided_polyline_of(outline_of(g), 1e-6, side).points.size());
        CHECK(many / few > 8);
        CHECK(many / few < 11);
    }
}

TEST_CASE("every joint of the outline is a point of the polyline, and teeth are divided alike") {
    const gear<double> g({.normal_module = 2, .teeth = 19});
    const outline<double> whole = outline_of(g);
    const auto p = one_sided_polyline_of(whole, 1e-3, outline_side::free);
    CHECK(p.points.size() % 19 == 0);
    for (const auto& s : whole.segments) CHECK(std::find(p.points.begin(), p.points.end(), s.start) != p.points.end());
    const std::size_t per_tooth = p.points.size() / 19;
    for (std::size_t i = 0; i < p.points.size(); ++i) {
        CHECK(std::abs(length(p.points[i]) - length(p.points[i % per_tooth])) < 16 * epsilon * size_of(g));
    }
}

TEST_CASE("impossible requests for polylines on one side are refused by name") {
    const gear<double> g({.normal_module = 2, .teeth = 20});
    for (const double tolerance : {0., -1., 1e-15, std::nan(""), std::numeric_limits<double>::infinity()}) {
        try {
            one_sided_polyline_of(outline_of(g), tolerance, outline_side::free);
            FAIL("accepted");
        } catch (const rackwork::geometry_error& error) {
            CHECK(std::string(error.cause().quantity) == "tolerance");
        }
    }
}
