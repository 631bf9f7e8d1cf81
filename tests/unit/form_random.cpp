// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Gears drawn from far wider limits than the trade's: an outline is refused with a sentence, or it is closed, simple and whole.
#include "form_gears.hpp"

#include <rackwork/curve/polyline.hpp>
#include <rackwork/form/outline.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

namespace {

using form_gears::described;
using form_gears::epsilon;
using form_gears::is_flank;
using form_gears::parameter_at;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::outline;
using rackwork::point;
using rackwork::segment;

constexpr double pi = std::numbers::pi;

/// What is wrong with an outline, or nothing. No check framework in here: it is asked a hundred thousand times.
std::string fault_of(const gear<double>& g, const outline<double>& exact) {
    std::ostringstream fault;
    const double size = g.effective_tip_diameter();
    const double rounding = 16 * epsilon * size * std::max(1., g.base_half_angle());
    const auto teeth = static_cast<std::size_t>(g.teeth());
    const std::size_t count = exact.segments.size() / teeth;
    if (exact.segments.size() != count * teeth || count < 4 || count > 6) fault << "odd number of segments; ";

    const auto is_number = [](const point<double>& p) { return std::isfinite(p.x) && std::isfinite(p.y); };
    for (std::size_t i = 0; i < exact.segments.size(); ++i) {
        const segment<double>& s = exact.segments[i];
        if (!(s.end == exact.segments[(i + 1) % exact.segments.size()].start))
            fault << "gap after segment " << i << "; ";
        if (!is_number(s.start) || !std::isfinite(s.from) || !std::isfinite(s.to))
            fault << "not a number in segment " << i << "; ";
        for (const double share : {0., 0.5, 1.}) {
            const double t = parameter_at(s, share);
            if (!is_number(s.position(t))) fault << "position is not a number in segment " << i << "; ";
            if (!(std::fabs(length(s.tangent(t)) - 1) < 1e-12))
                fault << "tangent is no unit vector in segment " << i << "; ";
        }
        if (!std::isfinite(s.swept_area())) fault << "area is not a number in segment " << i << "; ";
    }

    // Half a tooth from the middle of the space to the middle of the tooth: within its sector, and outward all the way, so that it
    // cannot cross itself; the other half mirrors it and the other teeth are the same turned.
    const point<double> middle_of_space = rackwork::direction(-pi / g.teeth());
    double radius = g.generated_root_diameter() / 2 - rounding;
    for (std::size_t i = 0; i < 2; ++i) {
        const segment<double>& s = exact.segments[i];
        for (int j = 0; j <= 64; ++j) {
            const point<double> p = s.position(parameter_at(s, j / 64.));
            if (cross(middle_of_space, p) < -rounding) fault << "beyond the middle of the space; ";
            if (p.y > rounding) fault << "beyond the middle of the tooth; ";
            if (length(p) < radius - rounding) fault << (is_flank(s) ? "flank" : "fillet") << " turns back inward; ";
            radius = std::max(radius, length(p));
        }
    }
    if (!(exact.area() > 0)) fault << "area is not positive; ";
    return fault.str();
}

struct tally {
    int outlines = 0;
    std::map<std::string, int> refused;
};

void judge(const gear_parameters<double>& p, tally& counted) {
    try {
        const gear<double> g(p);
        const std::string fault = fault_of(g, rackwork::outline_of(g));
        ++counted.outlines;
        if (!fault.empty()) FAIL_CHECK(fault << "at " << described(p));
    } catch (const rackwork::geometry_error& error) {
        ++counted.refused[error.cause().quantity];
    }
}

} // namespace

TEST_CASE("a random gear's outline is refused with a sentence, or closed, simple, of positive area and free of NaN") {
    support::random_source random{61};
    tally counted;
    for (int i = 0; i < 20000; ++i) judge(form_gears::random_parameters(random), counted);
    CHECK(counted.outlines > 8000);
    for (const auto& [quantity, times] : counted.refused) MESSAGE("refused for " << quantity << ": " << times);
}

TEST_CASE("few teeth, small pressure angles and a rounding whose centre lies beyond the reference circle make no "
          "crossing fillets") {
    // Where the centre of the tool's rounding is above the rolling line and its lowest point is below it, a large rounding on a small
    // gear can cut into what it has itself made.
    support::random_source random{62};
    tally counted;
    for (int i = 0; i < 20000; ++i) {
        gear_parameters<double> p = form_gears::random_parameters(random);
        const double degrees = random.uniform(1, 20);
        p.teeth = random.integer(1, 12);
        p.rack.pressure_angle = deg(degrees);
        p.rack.addendum = random.uniform(0.2, 1);
        p.rack.dedendum = std::min(random.uniform(0.2, 2), 0.99 * pi / 4 / std::tan(degrees * pi / 180));
        p.rack.root_fillet_radius =
            random.uniform(0.5, 1) * rackwork::full_root_fillet_radius(deg(degrees), p.rack.dedendum);
        p.profile_shift = p.rack.dedendum - p.rack.root_fillet_radius * random.uniform(0.6, 1);
        judge(p, counted);
    }
    CHECK(counted.outlines > 3000);
    MESSAGE(counted.outlines << " outlines");
}

TEST_CASE(
    "undercut of every depth: where the root form diameter reaches the tip, or the tooth is cut off, it is refused") {
    support::random_source random{63};
    tally counted;
    for (int i = 0; i < 5000; ++i) {
        gear_parameters<double> p = form_gears::random_parameters(random);
        p.teeth = random.integer(4, 30);
        p.rack.pressure_angle = deg(random.uniform(8, 22));
        p.rack.addendum = 1;
        p.rack.dedendum = random.uniform(1, 1.6);
        p.rack.root_fillet_radius =
            random.uniform(0, 0.99) * rackwork::full_root_fillet_radius(p.rack.pressure_angle, p.rack.dedendum);
        p.profile_shift = random.uniform(-1, 0.3);
        judge(p, counted);
    }
    CHECK(counted.outlines > 1000);
    int cut_off = 0;
    for (const auto& [quantity, times] : counted.refused) {
        if (quantity.find("narrowest") != std::string::npos) cut_off += times;
    }
    CHECK(cut_off > 50);
    CHECK(counted.refused["tip_diameter"] > 50);
}

TEST_CASE("the polyline of any random outline ends, within its tolerance, whether that is fine or absurdly coarse") {
    support::random_source random{64};
    int lines = 0;
    for (const gear<double>& g : form_gears::random_gears(250, 65)) {
        INFO(described(g));
        const outline<double> exact = rackwork::outline_of(g);
        const double tolerance = g.effective_tip_diameter() * std::pow(10, random.uniform(-6, 1));
        const rackwork::polyline<double> points = rackwork::polyline_of(exact, tolerance);
        CHECK(points.deviation <= tolerance);
        CHECK(points.points.size() >= exact.segments.size());
        CHECK(std::all_of(points.points.begin(), points.points.end(), [&](const point<double>& p) {
            return length(p) <= g.effective_tip_diameter() / 2 * (1 + 64 * epsilon);
        }));
        ++lines;
    }
    CHECK(lines == 250);
}
