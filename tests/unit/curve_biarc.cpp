// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Outlines as arcs with common tangents: how near, how few, and how they join.
#include "curve_distance.hpp"
#include "form_gears.hpp"
#include "refusal.hpp"

#include <rackwork/curve/biarc.hpp>

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <variant>
#include <vector>

using namespace curve_distance;
using rackwork::arc;
using rackwork::arc_path;
using rackwork::biarcs_of;
using rackwork::gear;
using rackwork::outline;
using rackwork::outline_of;

namespace {

constexpr double epsilon = form_gears::epsilon;

double size_of(const gear<double>& g) { return g.tip_diameter() / 2; }

/// The circle of an arc to 50 digits, from its ends and its turning alone.
struct precise_arc {
    point<wide> start;
    point<wide> end;
    point<wide> centre;
    wide radius = 0;
    int sign = 0; // 0 for a straight line

    explicit precise_arc(const arc<double>& a) : start(widened(a.start)), end(widened(a.end)) {
        if (a.is_line()) return;
        sign = a.turning > 0 ? 1 : -1;
        const point<wide> chord = end - start;
        const wide half = wide(a.turning) / 2;
        const wide distance = cos(half) / (2 * sin(half));
        centre = wide(0.5) * (start + end) + distance * point<wide>{-chord.y, chord.x};
        radius = length(start - centre);
    }

    wide distance(const point<wide>& p) const {
        const wide to_ends = std::min(wide(length(p - start)), wide(length(p - end)));
        if (sign == 0) {
            const point<wide> chord = end - start;
            const wide along = dot(p - start, chord);
            if (along < 0 || along > dot(chord, chord)) return to_ends;
            return abs(wide(cross(chord, p - start) / length(chord)));
        }
        const bool beside = sign * cross(start - centre, p - centre) >= 0 && sign * cross(p - centre, end - centre) >= 0;
        return beside ? wide(abs(wide(length(p - centre) - radius))) : to_ends;
    }
};

double true_deviation_of_arcs(const arc_path<double>& path, const segment<wide>& exact) {
    std::vector<precise_arc> arcs;
    for (const arc<double>& a : path.arcs) arcs.emplace_back(a);
    const auto distance = [&](const wide& t) {
        const point<wide> p = exact.position(t);
        wide best = arcs.front().distance(p);
        for (const precise_arc& a : arcs) best = std::min(best, a.distance(p));
        return best;
    };
    return static_cast<double>(greatest(distance, exact.from, exact.to, 12 * static_cast<int>(arcs.size())));
}

/// A distance that no circle can be nearer to four points in a row than: that of the circle which passes them alternately by the same
/// distance on either side. (A nearer one would have to cross it three times, and two circles cross at most twice.)
double least_distance_of_a_circle(const std::array<point<double>, 4>& p) {
    // The circle is (x - s)^2 + (y - t)^2 = r^2; Newton's method from the circle through three of the points.
    const point<double> a = p[1] - p[0];
    const point<double> b = p[3] - p[0];
    const double twice_area = 2 * cross(a, b);
    if (twice_area == 0) return 0;
    const point<double> from_first{(dot(a, a) * b.y - dot(b, b) * a.y) / twice_area, (dot(b, b) * a.x - dot(a, a) * b.x) / twice_area};
    std::array<double, 4> x{p[0].x + from_first.x, p[0].y + from_first.y, length(from_first), 0};
    for (int step = 0; step < 8; ++step) {
        double m[4][5];
        for (int j = 0; j < 4; ++j) {
            const point<double> to = p[static_cast<std::size_t>(j)] - point<double>{x[0], x[1]};
            const double far = length(to);
            const double sign = j % 2 == 0 ? 1 : -1;
            m[j][0] = -to.x / far;
            m[j][1] = -to.y / far;
            m[j][2] = -1;
            m[j][3] = -sign;
            m[j][4] = -(far - x[2] - sign * x[3]);
        }
        for (int i = 0; i < 4; ++i) {
            int pivot = i;
            for (int j = i + 1; j < 4; ++j) {
                if (std::abs(m[j][i]) > std::abs(m[pivot][i])) pivot = j;
            }
            for (int k = 0; k < 5; ++k) std::swap(m[i][k], m[pivot][k]);
            for (int j = 0; j < 4; ++j) {
                if (j == i) continue;
                const double factor = m[j][i] / m[i][i];
                for (int k = i; k < 5; ++k) m[j][k] -= factor * m[i][k];
            }
        }
        for (int i = 0; i < 4; ++i) x[static_cast<std::size_t>(i)] += m[i][4] / m[i][i];
    }
    return std::abs(x[3]);
}

/// A number of arcs with which no sequence of arcs, joined or not, can do: each is laid as far as any arc might reach.
int least_number_of_arcs(const segment<double>& s, double tolerance) {
    const auto too_long = [&](double from, double to) {
        // Any four points give a true bound; these give nearly the best one for an involute.
        const double middle = (from + to) / 2;
        const double half = (to - from) / 2;
        const std::array<point<double>, 4> points{s.position(from), s.position(middle - half / 2), s.position(middle + half / 2),
                                                  s.position(to)};
        return least_distance_of_a_circle(points) > tolerance;
    };
    int count = 1;
    double here = s.from;
    for (;;) {
        // Where an arc first reaches too far: beyond an inflection four points may lie on a circle again, which means nothing.
        double near = here;
        double way = (s.to - s.from) / 4096;
        double far = here + way;
        while (!too_long(here, far)) {
            if (far == s.to) return count;
            near = far;
            way *= 1.25;
            const bool beyond = way > 0 ? far + way > s.to : far + way < s.to;
            far = beyond ? s.to : far + way;
        }
        for (int step = 0; step < 50; ++step) {
            const double between = (near + far) / 2;
            (too_long(here, between) ? far : near) = between;
        }
        here = near;
        ++count;
    }
}

} // namespace

TEST_CASE("no arcs stray farther than they say, and none say twice as much, judged to 50 digits") {
    double greatest_overstatement = 0;
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const gear<double> g(each.parameters);
        const auto exact = form_gears::one_tooth(form_gears::at_precision<wide>(g));
        const auto tooth = form_gears::one_tooth(g);
        CAPTURE(std::string(each.name));
        for (const double relative_tolerance : {1e-2, 1e-4}) {
            CAPTURE(relative_tolerance);
            for (std::size_t i = 0; i < 2; ++i) {
                const auto path = biarcs_of(outline<double>{{tooth[i]}}, relative_tolerance * g.normal_module());
                CHECK(path.deviation <= relative_tolerance * g.normal_module());
                const double found = true_deviation_of_arcs(path, exact[i]);
                CHECK(found <= path.deviation);
                CHECK(path.deviation <= 2 * found + 1000 * epsilon * size_of(g));
                if (found > 1e6 * epsilon * size_of(g)) greatest_overstatement = std::max(greatest_overstatement, path.deviation / found);
            }
        }
    }
    MESSAGE("stated over true deviation, at most: " << greatest_overstatement);
}

TEST_CASE("neighbouring arcs have the same tangent, to a few units in the last place of their ends") {
    for (const gear<double>& g : form_gears::named_and_random_gears(30, 4711)) {
        CAPTURE(form_gears::described(g));
        const auto path = biarcs_of(outline_of(g), 1e-4 * g.normal_module());
        CHECK(path.closed);
        for (std::size_t i = 0; i < path.arcs.size(); ++i) {
            const arc<double>& here = path.arcs[i];
            const arc<double>& next = path.arcs[(i + 1) % path.arcs.size()];
            CHECK(here.end == next.start);
            const double kink = std::abs(cross(here.tangent_at_end(), next.tangent_at_start()));
            if (here.corner_at_end) continue;
            const double shorter = std::min(length(here.end - here.start), length(next.end - next.start));
            CHECK(kink <= 64 * epsilon * (1 + size_of(g) / shorter));
            CHECK(dot(here.tangent_at_end(), next.tangent_at_start()) > 0);
        }
    }
}

TEST_CASE("arcs have the exact ends to the bit, the exact directions there, and joints on the curve") {
    for (const gear<double>& g : form_gears::named_and_random_gears(10, 99)) {
        CAPTURE(form_gears::described(g));
        const auto tooth = form_gears::one_tooth(g);
        for (const auto& s : {tooth[0], tooth[1]}) {
            const auto path = biarcs_of(outline<double>{{s}}, 1e-3 * g.normal_module());
            const arc<double>& first = path.arcs.front();
            const arc<double>& last = path.arcs.back();
            CHECK(first.start == s.start);
            CHECK(last.end == s.end);
            const double shorter = std::min(length(first.end - first.start), length(last.end - last.start));
            const double rounding = 256 * epsilon * (1 + size_of(g) / shorter);
            CHECK(std::abs(cross(first.tangent_at_start(), s.tangent(s.from))) <= rounding);
            CHECK(std::abs(cross(last.tangent_at_end(), s.tangent(s.to))) <= rounding);
            for (const arc<double>& a : path.arcs) {
                if (a.is_line()) continue;
                const double in_radius = 8 * epsilon * (a.radius + size_of(g));
                CHECK(std::abs(length(a.start - a.centre) - a.radius) <= in_radius);
                CHECK(std::abs(length(a.end - a.centre) - a.radius) <= in_radius);
                CHECK(length(a.position(0.5) - a.centre) == doctest::Approx(a.radius).epsilon(1e-9));
            }
        }
    }
}

TEST_CASE("the number of arcs is near the least with which any arcs could do") {
    double greatest_ratio = 0;
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const gear<double> g(each.parameters);
        CAPTURE(std::string(each.name));
        const auto tooth = form_gears::one_tooth(g);
        for (const double tolerance : {1e-2, 1e-3, 1e-4, 1e-5, 1e-6}) {
            CAPTURE(tolerance);
            for (std::size_t i = 0; i < 2; ++i) {
                // A piece hardly longer than the tolerance is asked for its form as well.
                const double asked = std::min(tolerance * g.normal_module(), length(tooth[i].end - tooth[i].start) / 32);
                const auto path = biarcs_of(outline<double>{{tooth[i]}}, tolerance * g.normal_module());
                const int count = static_cast<int>(path.arcs.size());
                const int least = least_number_of_arcs(tooth[i], asked);
                CHECK(count >= least);
                // Some are lost where a flank begins close to its base circle, and at each place of greatest curvature within a fillet.
                CHECK(3 * count <= 4 * least + 12);
                const bool ordinary = g.teeth() >= 15 && g.helix_angle().rad() == 0;
                if (ordinary) CHECK(4 * count <= 5 * least + 8);
                if (least >= 10) greatest_ratio = std::max(greatest_ratio, static_cast<double>(count) / least);
            }
        }
    }
    MESSAGE("arcs over the least number, from ten on, at most: " << greatest_ratio);
}

TEST_CASE("tip and root lands stay single arcs of the exact circles") {
    const gear<double> g({.normal_module = 2, .teeth = 24});
    const outline<double> whole = outline_of(g);
    const auto path = biarcs_of(whole, 1e-3);
    std::size_t of_circles = 0;
    for (const arc<double>& a : path.arcs) of_circles += a.centre == point<double>{0, 0} ? std::size_t{1} : std::size_t{0};
    CHECK(of_circles == 48);
    CHECK(path.arcs.size() % 24 == 0);
}

TEST_CASE("teeth are divided alike, left flanks as right ones") {
    const gear<double> g({.normal_module = 2, .teeth = 24, .profile_shift = 0.1});
    const auto path = biarcs_of(outline_of(g), 1e-5);
    const std::size_t per_tooth = path.arcs.size() / 24;
    for (std::size_t i = per_tooth; i < path.arcs.size(); ++i) {
        CHECK(std::abs(path.arcs[i].turning - path.arcs[i - per_tooth].turning) <= 32 * epsilon);
    }
    // From fillet to fillet the tooth is its own mirror image; the root land follows.
    for (std::size_t i = 0; i + 1 < per_tooth; ++i) {
        CHECK(std::abs(path.arcs[i].turning - path.arcs[per_tooth - 2 - i].turning) <= 32 * epsilon);
    }
}

TEST_CASE("the arc through two points in a given direction is the circle of the schoolbook") {
    const point<double> start{1, 2};
    const arc<double> half = rackwork::arc_from_tangent<double>(start, {1, 0}, {1, 4}, 0);
    CHECK(half.turning == doctest::Approx(std::numbers::pi));
    CHECK(half.radius == doctest::Approx(1));
    CHECK(length(half.centre - point<double>{1, 3}) < 4 * epsilon);
    const arc<double> clockwise = rackwork::arc_from_tangent<double>(start, {1, 0}, {2, 1}, 0);
    CHECK(clockwise.turning == doctest::Approx(-std::numbers::pi / 2));
    CHECK(length(clockwise.centre - point<double>{1, 1}) < 4 * epsilon);
    const arc<double> three_quarters = rackwork::arc_from_tangent<double>({0, 0}, {1, 0}, {-1, 1}, 0);
    CHECK(three_quarters.turning == doctest::Approx(3 * std::numbers::pi / 2));
    const arc<double> straight = rackwork::arc_from_tangent<double>({0, 0}, {1, 0}, {5, 0}, 0);
    CHECK(straight.is_line());
    CHECK(straight.position(0.25) == point<double>{1.25, 0});
    CHECK(straight.tangent_at_end() == point<double>{1, 0});
}

TEST_CASE("impossible requests for arcs are refused by name") {
    const gear<double> g({.normal_module = 2, .teeth = 20});
    const auto quantity = [](const outline<double>& o, double tolerance) {
        return support::refused_quantity([&] { return biarcs_of(o, tolerance); });
    };
    CHECK(quantity(outline_of(g), 0) == "tolerance");
    CHECK(quantity(outline_of(g), -1e-3) == "tolerance");
    CHECK(quantity(outline_of(g), 1e-14) == "tolerance");
    CHECK(quantity(outline_of(g), std::nan("")) == "tolerance");
    CHECK(quantity({}, 1e-3) == "number of segments");
    CHECK(quantity(outline_of(g), 1e-3).empty());
}
