// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Facets: closed, oriented, none degenerate even in the single precision of the file, within their tolerance of the exact body.
#include "random_source.hpp"
#include "solid_support.hpp"

#include <rackwork/exchange/stl.hpp>
#include <rackwork/solid/facets.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <sstream>
#include <string>
#include <utility>

namespace {

using namespace solid_support;
using rackwork::facet_solid;
using rackwork::facets_of;

std::string stl(const facet_solid& solid, const rackwork::stl_options& options = {}) {
    std::ostringstream out(std::ios::binary);
    rackwork::write_stl(out, solid, options);
    return out.str();
}

using corner = std::array<float, 3>;
struct read_facet {
    corner normal;
    std::array<corner, 3> corners;
};

/// Reads a binary STL, knowing nothing of how it was made.
std::vector<read_facet> read(const std::string& file) {
    const auto whole = [&](std::size_t at) {
        std::uint32_t number = 0;
        for (std::size_t i = 0; i < 4; ++i)
            number |= static_cast<std::uint32_t>(static_cast<unsigned char>(file.at(at + i))) << (8 * i);
        return number;
    };
    std::vector<read_facet> facets(whole(80));
    REQUIRE(file.size() == 84 + 50 * facets.size());
    for (std::size_t f = 0; f < facets.size(); ++f) {
        std::array<float, 12> numbers{};
        for (std::size_t i = 0; i < 12; ++i) numbers[i] = std::bit_cast<float>(whole(84 + 50 * f + 4 * i));
        facets[f].normal = {numbers[0], numbers[1], numbers[2]};
        for (std::size_t i = 0; i < 3; ++i)
            facets[f].corners[i] = {numbers[3 + 3 * i], numbers[4 + 3 * i], numbers[5 + 3 * i]};
        REQUIRE(file.substr(84 + 50 * f + 48, 2) == std::string(2, '\0'));
    }
    return facets;
}

point3 in_space(const corner& c) { return {c[0], c[1], c[2]}; }

struct stl_facts {
    int sides_without_a_neighbour = 0;
    int degenerate = 0;
    double worst_normal = 0;
    double volume = 0;
    double area = 0;
};

stl_facts facts_of(const std::vector<read_facet>& facets) {
    stl_facts facts;
    std::map<std::pair<corner, corner>, int> sides;
    for (const read_facet& f : facets) {
        const point3 a = in_space(f.corners[0]);
        const point3 b = in_space(f.corners[1]);
        const point3 c = in_space(f.corners[2]);
        const point3 normal = cross(b - a, c - a);
        for (std::size_t i = 0; i < 3; ++i) ++sides[{f.corners[i], f.corners[(i + 1) % 3]}];
        // Degenerate: no area that single precision can tell from none.
        const double longest = std::max({length(b - a), length(c - b), length(a - c)});
        if (!(length(normal) > 0) || length(normal) / longest < 8 * std::numeric_limits<float>::epsilon() * longest)
            ++facts.degenerate;
        facts.worst_normal = std::max(facts.worst_normal, length((1 / length(normal)) * normal - in_space(f.normal)));
        facts.volume += dot(a, cross(b, c)) / 6;
        facts.area += length(normal) / 2;
    }
    for (const auto& [side, count] : sides) {
        const auto back = sides.find({side.second, side.first});
        if (count != 1 || back == sides.end() || back->second != 1) ++facts.sides_without_a_neighbour;
    }
    return facts;
}

void check_file(const gear<double>& g, const body_parameters& body, const rackwork::facet_options& options) {
    const facet_solid solid = facets_of(g, body, options);
    CHECK(solid.deviation <= options.chordal_tolerance.value_or(g.normal_module() / 100) * (1 + 1e-9));
    const stl_facts facts = facts_of(read(stl(solid)));
    CHECK(facts.sides_without_a_neighbour == 0);
    CHECK(facts.degenerate == 0);
    CHECK(facts.worst_normal <= 1e-6);
    // No point is farther from the exact boundary than the deviation, so no more volume than a skin of that thickness can be lost.
    const double exact = exact_volume(g, body);
    CHECK(std::abs(facts.volume - exact) <= solid.deviation * facts.area * 1.01);
    CHECK(facts.volume == doctest::Approx(exact).epsilon(0.01));
}

} // namespace

TEST_CASE("facets of bodies of every kind are closed, oriented and none is degenerate, in the file as it is read") {
    for (const named_body& each : bodies()) {
        CAPTURE(each.name);
        check_file(each.g, each.body, {});
    }
}

TEST_CASE("so are those of random gears, coarse and fine") {
    support::random_source random{77};
    int made = 0;
    while (made < 24) {
        gear_parameters<double> p{.normal_module = random.uniform(0.3, 10), .teeth = random.integer(5, 40)};
        if (random.coin()) p.helix_angle = deg(random.uniform(-45, 45));
        p.profile_shift = random.uniform(-0.4, 0.8);
        p.face_width = p.normal_module * random.uniform(0.5, 12);
        const bool internal = random.integer(0, 3) == 0;
        body_parameters body;
        if (internal) {
            p.kind = gear_kind::internal;
            p.teeth += 20;
        }
        try {
            const gear<double> g(p);
            static_cast<void>(outline_of(g));
            const double root = g.generated_root_diameter();
            if (internal) body.rim_diameter = root * random.uniform(1.01, 1.4);
            if (!internal) body.blank.bore_diameter = random.coin() ? 0. : root * random.uniform(0.1, 0.99);
            if (random.coin()) {
                body.tip_end_chamfer = std::abs(g.tip_diameter() - root) / 2 * random.uniform(0.02, 0.95);
                if (random.coin()) body.tip_end_chamfer_angle = deg(random.uniform(10, 65));
            }
            if (body.blank.bore_diameter > 0 && random.coin()) {
                body.key_slot = {.width = body.blank.bore_diameter * random.uniform(0.1, 0.3),
                                 .hub_depth = body.blank.bore_diameter * random.uniform(0.06, 0.12)};
                body.bore_chamfer = body.key_slot->hub_depth * random.uniform(0.2, 1.05);
            }
            if (check(body, g)) continue;
            CAPTURE(body.tip_end_chamfer);
            CAPTURE(p.teeth);
            CAPTURE(p.normal_module);
            CAPTURE(p.helix_angle.deg());
            CAPTURE(p.profile_shift);
            const double coarse = p.normal_module * random.uniform(0.002, 0.1);
            const double least = has_chamfers(body) ? 0x1p-13 : 0x1p-17;
            check_file(g, body,
                       {.chordal_tolerance = std::max(coarse, least * g.reference_diameter()),
                        .angular_tolerance = deg(random.uniform(5, 40))});
            ++made;
        } catch (const rackwork::geometry_error&) {
            continue;
        }
    }
}

TEST_CASE("a tighter chordal tolerance brings the volume nearer to the exact one") {
    const named_body each = bodies()[6];
    double before = 1;
    for (const double tolerance : {0.1, 0.01, 0.001}) {
        const stl_facts facts = facts_of(
            read(stl(facets_of(each.g, each.body, {.chordal_tolerance = tolerance, .angular_tolerance = deg(45.)}))));
        const double error = std::abs(facts.volume / exact_volume(each.g, each.body) - 1);
        CHECK(error < before / 4);
        before = error;
    }
}

TEST_CASE(
    "each point of the teeth lies on the exact section, and no middle of a facet strays by more than the deviation") {
    // On the flanks: against the exact involute, turned back by the helix.
    const gear<double> g({.normal_module = 2, .teeth = 25, .helix_angle = deg(-30.), .face_width = 20});
    for (const double tolerance : {0.05, 0.002}) {
        const facet_solid solid = facets_of(g, {}, {.chordal_tolerance = tolerance});
        const double base = g.base_diameter() / 2;
        const double twist = 2 * std::tan(g.helix_angle().rad()) / g.reference_diameter();
        const double form = rackwork::generated_root<double>(g).root_form_diameter() / 2;
        const auto stray = [&](const point3& p) {
            const double radius = std::hypot(p.x, p.y);
            const double roll = std::sqrt(radius * radius / (base * base) - 1);
            const double polar = std::atan2(p.y, p.x) - twist * p.z;
            const double pitch = 2 * std::numbers::pi / g.teeth();
            const double in_tooth = std::abs(polar - pitch * std::round(polar / pitch));
            return std::abs(in_tooth - (g.base_half_angle() - (roll - std::atan(roll)))) * base;
        };
        int on_flank = 0;
        double worst = 0;
        for (const auto& f : solid.facets) {
            const point3& a = solid.points[f[0]];
            const point3& b = solid.points[f[1]];
            const point3& c = solid.points[f[2]];
            // Walls on flanks only: all three corners on the involute, not all at one height.
            const auto is_on_flank = [&](const point3& p) {
                const double radius = std::hypot(p.x, p.y);
                return radius > form + 1e-9 && radius < g.tip_diameter() / 2 - 1e-9 && stray(p) < 1e-9;
            };
            if ((a.z == b.z && b.z == c.z) || !is_on_flank(a) || !is_on_flank(b) || !is_on_flank(c)) continue;
            ++on_flank;
            worst = std::max(worst, stray((1. / 3) * (a + b + c)));
            worst = std::max(worst, stray(0.5 * (a + b)));
        }
        CHECK(on_flank > 100);
        CHECK(worst <= solid.deviation);
        CHECK(worst > solid.deviation / 50);
    }
}

TEST_CASE("tolerances that cannot be met are refused") {
    const gear<double> g({.normal_module = 2, .teeth = 25, .face_width = 20});
    for (const double tolerance : {0., -1., 1e-5, std::numeric_limits<double>::quiet_NaN()}) {
        CHECK_THROWS_AS(facets_of(g, {}, {.chordal_tolerance = tolerance}), rackwork::geometry_error);
    }
    for (const double angle : {0., -5., 46., std::numeric_limits<double>::quiet_NaN()}) {
        CHECK_THROWS_AS(facets_of(g, {}, {.angular_tolerance = deg(angle)}), rackwork::geometry_error);
    }
}

TEST_CASE("chamfers that cut flanks ask for a tolerance that single precision can tell of their facets") {
    const gear<double> g({.normal_module = 2, .teeth = 25, .face_width = 20});
    CHECK_NOTHROW(facets_of(g, {.tip_end_chamfer = 1}, {.chordal_tolerance = 0x1p-13 * g.tip_diameter()}));
    CHECK_THROWS_AS(facets_of(g, {.tip_end_chamfer = 1}, {.chordal_tolerance = 0x1p-16 * g.tip_diameter()}),
                    rackwork::geometry_error);
    CHECK_NOTHROW(facets_of(g, {}, {.chordal_tolerance = 0x1p-16 * g.tip_diameter()}));
}

TEST_CASE("the header is the caller's, but must not say that the file is text") {
    const facet_solid solid = facets_of(gear<double>({.normal_module = 2, .teeth = 12, .face_width = 2}));
    const std::string file = stl(solid, {.header = "Pinion of a winch"});
    CHECK(file.substr(0, 80) == "Pinion of a winch" + std::string(63, ' '));
    CHECK(stl(solid) == stl(solid));
    CHECK_THROWS_AS(stl(solid, {.header = "solid gear"}), rackwork::geometry_error);
    CHECK_THROWS_AS(stl(solid, {.header = std::string(81, 'x')}), rackwork::geometry_error);
}
