// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How far a polyline really strays from its outline, by dense sampling, against the deviation that it states.
#include "form_gears.hpp"

#include <rackwork/curve/polyline.hpp>
#include <rackwork/form/outline.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <variant>
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
using rackwork::polyline_of;
using rackwork::segment;

double distance_from_chord(const point<double>& p, const point<double>& a, const point<double>& b) {
    const point<double> along = b - a;
    const double squared = dot(along, along);
    const double share = squared > 0 ? std::clamp(dot(p - a, along) / squared, 0., 1.) : 0;
    return length(p - (a + share * along));
}

/// The parameter of the point of the segment nearest to a vertex. Knows nothing of how the polyline was divided.
double parameter_of(const segment<double>& s, const point<double>& p) {
    if (p == s.start) return s.from;
    if (p == s.end) return s.to;
    // Arcs go round, flanks and fillets outward or inward: a bisection finds the place, Newton's iteration its last digits.
    double low = s.from;
    double high = s.to;
    const bool outward = length(s.end) > length(s.start);
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        const point<double> here = s.position(middle);
        const bool ahead =
            form_gears::is_arc(s) ? dot(p - here, s.tangent(middle)) > 0 : (length(here) < length(p)) == outward;
        (ahead ? low : high) = middle;
    }
    double t = (low + high) / 2;
    for (int i = 0; i < 4; ++i) {
        const point<double> velocity = std::visit([&](const auto& curve) { return curve.velocity(t); }, s.curve);
        t += dot(p - s.position(t), velocity) / dot(velocity, velocity);
    }
    return t;
}

struct truth {
    /// Greatest sampled distance of the curve from its chord.
    double deviation = 0;
    /// Greatest distance of a vertex from the curve.
    double off_the_curve = 0;
};

/// Walks along outline and polyline together.
truth measured(const outline<double>& exact, const polyline<double>& lines, int samples) {
    truth result;
    std::size_t vertex = 0;
    const std::size_t count = lines.points.size();
    for (const segment<double>& s : exact.segments) {
        if (vertex == count || !(lines.points[vertex] == s.start)) {
            result.off_the_curve = 1e300; // a joint of the outline is missing
            return result;
        }
        double before = s.from;
        for (bool last = false; !last;) {
            const point<double>& a = lines.points[vertex];
            const point<double>& b = lines.points[(vertex + 1) % count];
            ++vertex;
            last = b == s.end;
            const double here = parameter_of(s, b);
            result.off_the_curve = std::max(result.off_the_curve, length(s.position(here) - b));
            for (int i = 1; i < samples; ++i) {
                const point<double> p = s.position(before + (here - before) * i / samples);
                result.deviation = std::max(result.deviation, distance_from_chord(p, a, b));
            }
            before = here;
            if (vertex == count) break;
        }
    }
    return result;
}

/// The first teeth of an outline are enough where the others are the same turned.
outline<double> some_teeth(const gear<double>& g) {
    outline<double> result;
    const rackwork::tooth_form<double> form(g);
    for (int i = 0; i < std::min(2, g.teeth()); ++i) form.append_tooth(result.segments, i);
    for (std::size_t i = 1; i < result.segments.size(); ++i) result.segments[i].start = result.segments[i - 1].end;
    return result;
}

void judge(const gear<double>& g, double tolerance) {
    INFO(described(g));
    INFO("tolerance " << tolerance);
    const outline<double> exact = some_teeth(g);
    polyline<double> lines = polyline_of(exact, tolerance);
    lines.points.push_back(exact.segments.back().end);
    const double size = g.effective_tip_diameter();
    const double rounding = 16 * epsilon * size * std::max(1., g.base_half_angle());
    CHECK(lines.deviation <= tolerance);
    const truth found = measured(exact, lines, 200);
    CHECK(found.deviation <= lines.deviation + rounding);
    // Reached, but for what 200 samples to a chord can miss of its highest point.
    CHECK(found.deviation >= 0.99 * lines.deviation - rounding);
    CHECK(found.off_the_curve <= rounding);
}

} // namespace

TEST_CASE("the true deviation of a polyline is the one that it states, and that is within the tolerance: gears of all "
          "kinds") {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const gear<double> g(each.parameters);
        INFO(each.name);
        for (const double share : {1e-1, 1e-2, 1e-3, 1e-4}) judge(g, share * g.normal_module());
    }
}

TEST_CASE(
    "the true deviation of a polyline is the one that it states: random gears and tolerances from fine to absurd") {
    support::random_source random{71};
    for (const gear<double>& g : form_gears::random_gears(400, 72))
        judge(g, g.normal_module() * std::pow(10, random.uniform(-5, 1.5)));
}

TEST_CASE("the true deviation is the stated one also where fillets have two inflections and flanks turn more than half "
          "round") {
    // Steep helices with few teeth and large shifts.
    support::random_source random{73};
    int judged = 0;
    for (int tries = 0; judged < 300 && tries < 20000; ++tries) {
        gear_parameters<double> p = form_gears::random_parameters(random);
        p.teeth = random.integer(1, 10);
        p.helix_angle = rackwork::deg(random.uniform(50, 80));
        p.profile_shift = random.uniform(0, 20);
        const auto g = form_gears::gear_with_a_form(p);
        if (!g) continue;
        ++judged;
        judge(*g, g->normal_module() * std::pow(10, random.uniform(-5, 1.5)));
    }
    CHECK(judged == 300);
}

TEST_CASE("the deviation falls in proportion to the tolerance down to the finest one allowed") {
    const gear<double> g({.normal_module = 2, .teeth = 17, .profile_shift = 0.2});
    const outline<double> exact = some_teeth(g);
    double size = 0;
    for (const segment<double>& s : exact.segments) size = std::max(size, length(s.start));
    for (const double tolerance : {1e-6, 1e-8, 1e-10, 2000 * epsilon * size}) {
        const polyline<double> lines = polyline_of(exact, tolerance);
        CHECK(lines.deviation <= tolerance);
        CHECK(lines.deviation >= 0.7 * tolerance);
    }
}
