// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The area of an outline in closed form: against 50 digits, against polygons, against the discs that bound it.
#include "form_gears.hpp"
#include "ulp.hpp"

#include <rackwork/curve/polyline.hpp>
#include <rackwork/form/outline.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

namespace {

using form_gears::described;
using form_gears::epsilon;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::outline;
using rackwork::outline_of;
using rackwork::point;
using rackwork::polyline;
using support::wide;

constexpr double pi = std::numbers::pi;

double polygon_area(const std::vector<point<double>>& points) {
    long double sum = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const point<double>& a = points[i];
        const point<double>& b = points[(i + 1) % points.size()];
        sum += static_cast<long double>(a.x) * b.y - static_cast<long double>(a.y) * b.x;
    }
    return static_cast<double>(sum / 2);
}

double perimeter(const std::vector<point<double>>& points) {
    double sum = 0;
    for (std::size_t i = 0; i < points.size(); ++i) sum += length(points[(i + 1) % points.size()] - points[i]);
    return sum;
}

/// One tooth at 50 digits, as many times as there are teeth. (That the closed forms are right is shown by quadrature elsewhere.)
wide area_at_fifty_digits(const gear<double>& g) {
    wide sum = 0;
    for (const auto& s : form_gears::one_tooth(form_gears::at_precision<wide>(g))) sum += s.swept_area();
    return wide(sum * g.teeth());
}

} // namespace

TEST_CASE("the area lies between those of the root circle's and the tip circle's disc") {
    for (const gear<double>& g : form_gears::named_and_random_gears(200, 51)) {
        INFO(described(g));
        const double area = outline_of(g).area();
        const auto disc = [](double diameter) { return pi / 4 * diameter * diameter; };
        CHECK(area > disc(g.generated_root_diameter()));
        CHECK(area < disc(g.effective_tip_diameter()));
    }
}

TEST_CASE("the area in double is the one at 50 digits to a few roundings of the angles that it is made of") {
    double worst = 0;
    std::string where;
    for (const gear<double>& g : form_gears::named_and_random_gears(250, 52)) {
        INFO(described(g));
        const wide exact = area_at_fifty_digits(g);
        const double area = outline_of(g).area();
        const double off = static_cast<double>(abs(wide(wide(area) - exact)) / exact) / epsilon;
        // Each tooth's angles are right to a rounding of their own size (the roll angle at the tip, a turn), and an angle's error counts
        // as a share of the pitch angle.
        const double tip_roll = g.tangent_of_pressure_angle(g.effective_tip_diameter());
        const double allowed = 8 * (1 + g.teeth() * (1 + tip_roll) / (2 * pi));
        CHECK(off <= allowed);
        if (off / allowed > worst) {
            worst = off / allowed;
            std::ostringstream text;
            text << off << " epsilon at " << described(g);
            where = text.str();
        }
    }
    MESSAGE("worst: " << worst << " of the bound, " << where);
}

TEST_CASE("a polygon's area differs from the exact one by less than its perimeter times its deviation, and converges "
          "with it") {
    for (const gear<double>& g : form_gears::named_and_random_gears(20, 53)) {
        INFO(described(g));
        const outline<double> exact = outline_of(g);
        const double area = exact.area();
        const double module = g.normal_module();
        std::vector<double> off;
        for (const double tolerance : {1e-2 * module, 1e-4 * module, 1e-6 * module}) {
            const polyline<double> lines = polyline_of(exact, tolerance);
            off.push_back(std::fabs(polygon_area(lines.points) - area));
            CHECK(off.back() <= perimeter(lines.points) * lines.deviation);
        }
        // The tolerance falls by a hundred, and so does the error; but where a curve takes only one or two chords, the coarser
        // polygon may be 2 1/2 times better than it was asked to be.
        CHECK(off[2] <= off[1] / 40);
    }
}

TEST_CASE("mirroring a gear's helix leaves the transverse area as it is, to the bit; a longer tip adds to it") {
    const gear_parameters<double> right{
        .normal_module = 3, .teeth = 23, .helix_angle = rackwork::deg(25.), .profile_shift = 0.2};
    gear_parameters<double> left = right;
    left.helix_angle = -right.helix_angle;
    CHECK(outline_of(gear<double>(right)).area() == outline_of(gear<double>(left)).area());
    // d(area)/d(tip radius) is z times the length of the tip arc.
    gear_parameters<double> longer = right;
    constexpr double step = 1e-4;
    longer.tip_alteration = step;
    const gear<double> before(right);
    const gear<double> after(longer);
    const double arcs = 23 * (before.tip_thickness() + after.tip_thickness()) / 2;
    const double expected = arcs * step * right.normal_module;
    CHECK(std::fabs(outline_of(after).area() - outline_of(before).area() - expected) <= 1e-6 * expected);
}
