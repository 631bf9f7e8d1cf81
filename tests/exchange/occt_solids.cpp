// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Open CASCADE reads the solids that we write: one each, valid, closed, of the exact volume, with the exact form's flanks.
//
//     occt_solids [--gears=N] [doctest's arguments]        N random gears instead of two dozen
#define DOCTEST_CONFIG_IMPLEMENT
#include "../unit/solid_volume.hpp"
#include "occt_form.hpp"
#include "occt_shape.hpp"
#include "random_source.hpp"

#include <rackwork/solid/gear_solid.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <cstring>
#include <optional>
#include <sstream>
#include <string>

namespace {

using rackwork::body_parameters;
using rackwork::brep;
using rackwork::brep_of;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using solid_support::exact_volume;

int random_gears = 24;

struct expectation {
    int along = 6;
    int across = 3;
    std::size_t points_back = 3;
};

void check_solid(const gear<double>& g, const body_parameters& body, const expectation& how = {}) {
    const brep solid = brep_of(g, body);
    const double tolerance = 1e-6 * g.normal_module();
    CHECK(solid.deviation > 0);
    CHECK(solid.deviation <= tolerance);
    CHECK(solid.edge_deviation <= solid.deviation);

    const TopoDS_Shape shape = occt::read(occt::step(solid));
    const std::vector<TopoDS_Shape> faces = occt::parts(shape, TopAbs_FACE);
    CHECK(occt::parts(shape, TopAbs_SOLID).size() == 1);
    REQUIRE(occt::parts(shape, TopAbs_SHELL).size() == 1);
    CHECK(occt::parts(shape, TopAbs_SHELL).front().Closed());
    CHECK(faces.size() == solid.faces.size());
    CHECK(occt::parts(shape, TopAbs_EDGE).size() == solid.edges.size());
    CHECK(occt::parts(shape, TopAbs_VERTEX).size() == solid.vertices.size());
    CHECK(occt::is_valid(shape));
    CHECK(occt::open_edges(shape) == 0);
    // The kernel had to open no edge beyond what the file states.
    CHECK(occt::edge_tolerance(shape) <= std::max(1e-7, 1e-8 * solid.size) * 1.01 + solid.edge_deviation);
    const double volume = exact_volume(g, body);
    CHECK(occt::volume(shape) == doctest::Approx(volume).epsilon(1e-6));

    // Reading gives coordinates at the kernel's 10^-7 at worst, evaluating them less.
    const double rounding = 1e-13 * solid.size;
    const std::vector<TopoDS_Face> teeth = occt::tooth_faces(faces);
    const rackwork::outline<double> exact = outline_of(g);
    const double twist = 2 * g.tangent_of_helix_angle() / g.reference_diameter();
    const occt::exact_form upper(g, exact, twist);
    const occt::exact_form lower(g, exact, body.halves ? -twist : twist);
    REQUIRE(teeth.size() >= 2 * static_cast<std::size_t>(g.teeth()));
    double worst = 0;
    for (std::size_t i = 0; i < teeth.size(); i += 1 + teeth.size() / 12) {
        double u1 = 0, u2 = 0, v1 = 0, v2 = 0;
        BRepTools::UVBounds(teeth[i], u1, u2, v1, v2);
        const bool above = BRep_Tool::Surface(teeth[i])->Value(u1, (v1 + v2) / 2).Z() > 0;
        worst = std::max(worst, occt::farthest_from(above ? upper : lower, teeth[i], how.along, how.across));
    }
    CHECK(worst <= solid.deviation + rounding);
    CHECK(worst > 0);

    const double height = 0.37 * g.parameters().face_width;
    for (std::size_t i = 0, done = 0; done < how.points_back && i < exact.segments.size(); ++i) {
        if (std::holds_alternative<rackwork::circle<double>>(exact.segments[i].curve)) continue;
        ++done;
        CHECK(occt::distance_from(teeth, upper.position(i, 0.43, height)) <= solid.deviation + rounding);
    }
}

std::string described(const gear_parameters<double>& p) {
    std::ostringstream text;
    text.precision(17);
    text << (p.kind == gear_kind::internal ? "internal, module " : "module ") << p.normal_module << ", " << p.teeth
         << " teeth, helix " << p.helix_angle.deg() << ", shift " << p.profile_shift << ", width " << p.face_width;
    return text.str();
}

} // namespace

TEST_CASE("a spur gear with a bore is one valid, closed solid of the exact volume") {
    check_solid(gear<double>({.normal_module = 2, .teeth = 20, .face_width = 18}), {.blank = {.bore_diameter = 14}});
}

TEST_CASE("helical gears of either hand are") {
    check_solid(gear<double>(
                    {.normal_module = 2, .teeth = 17, .helix_angle = deg(22.), .profile_shift = 0.2, .face_width = 25}),
                {.blank = {.bore_diameter = 12}});
    check_solid(
        gear<double>(
            {.normal_module = 2, .teeth = 17, .helix_angle = deg(-22.), .profile_shift = 0.2, .face_width = 25}),
        {});
}

TEST_CASE("a steep helix that goes more than once round the axis is") {
    check_solid(
        gear<double>(
            {.normal_module = 1.5, .teeth = 5, .helix_angle = deg(62.), .profile_shift = 0.4, .face_width = 60}),
        {});
}

TEST_CASE("teeth that are undercut or pointed, and very few, are") {
    check_solid(gear<double>({.normal_module = 3, .teeth = 8, .face_width = 12}), {.blank = {.bore_diameter = 6}});
    check_solid(gear<double>({.normal_module = 2, .teeth = 8, .profile_shift = 0.9, .face_width = 12}), {});
    check_solid(
        gear<double>({.normal_module = 3, .teeth = 4, .helix_angle = deg(30.), .profile_shift = 0.6, .face_width = 9}),
        {});
}

TEST_CASE("a bore with the keyway of its diameter is") {
    check_solid(gear<double>({.normal_module = 3, .teeth = 18, .helix_angle = deg(10.), .face_width = 30}),
                {.blank = {.bore_diameter = 25}, .key_slot = rackwork::metric_keyway(25)});
}

TEST_CASE("hub, web and chamfered bore are") {
    check_solid(gear<double>({.normal_module = 2, .teeth = 32, .face_width = 20}), {.blank = {.bore_diameter = 16,
                                                                                              .rim_inner_diameter = 50,
                                                                                              .hub_diameter = 28,
                                                                                              .hub_length = 30,
                                                                                              .web_thickness = 8},
                                                                                    .bore_chamfer = 1});
    // A hub shorter than the face, with a keyway; a web without a hub; a web as wide as the face; no bore at all.
    check_solid(
        gear<double>({.normal_module = 2, .teeth = 32, .helix_angle = deg(15.), .face_width = 20}),
        {.blank =
             {.bore_diameter = 16, .rim_inner_diameter = 50, .hub_diameter = 28, .hub_length = 14, .web_thickness = 8},
         .key_slot = rackwork::metric_keyway(16)});
    check_solid(gear<double>({.normal_module = 2, .teeth = 32, .face_width = 20}),
                {.blank = {.bore_diameter = 16, .rim_inner_diameter = 50, .hub_diameter = 16, .web_thickness = 8}});
    check_solid(gear<double>({.normal_module = 2, .teeth = 32, .face_width = 20}), {.blank = {.bore_diameter = 16,
                                                                                              .rim_inner_diameter = 50,
                                                                                              .hub_diameter = 30,
                                                                                              .hub_length = 26,
                                                                                              .web_thickness = 20},
                                                                                    .bore_chamfer = 0.5});
    check_solid(gear<double>({.normal_module = 2, .teeth = 32, .face_width = 20}),
                {.blank = {.rim_inner_diameter = 50, .web_thickness = 6}});
}

TEST_CASE("double helical gears with a gap and without are") {
    const gear<double> g({.normal_module = 2, .teeth = 16, .helix_angle = deg(25.), .face_width = 40});
    check_solid(g, {.blank = {.bore_diameter = 10}, .halves = {{.gap_width = 6, .gap_diameter = 26}}});
    check_solid(g, {.blank = {.bore_diameter = 10}, .halves = {{}}});
}

TEST_CASE("gears with chamfered or rounded tips are") {
    gear_parameters<double> p{.normal_module = 2, .teeth = 15, .helix_angle = deg(20.), .face_width = 14, .tip_chamfer = 0.3};
    check_solid(gear<double>(p), {.blank = {.bore_diameter = 10}});
    p.tip_chamfer = 0;
    p.tip_rounding = 0.25;
    check_solid(gear<double>(p), {.blank = {.bore_diameter = 10}});
    p.helix_angle = {};
    check_solid(gear<double>(p), {});
    p.kind = gear_kind::internal;
    p.teeth = 34;
    check_solid(gear<double>(p), {.rim_diameter = 95});
}

TEST_CASE("gears whose teeth are chamfered at their ends are: spur, helical of either hand, double helical, pointed, undercut") {
    gear_parameters<double> p{.normal_module = 2, .teeth = 21, .profile_shift = 0.1, .face_width = 18};
    const body_parameters body{.blank = {.bore_diameter = 12}, .tip_end_chamfer = 1};
    check_solid(gear<double>(p), body);
    p.helix_angle = deg(24.);
    check_solid(gear<double>(p), body);
    check_solid(gear<double>(p), {.blank = {.bore_diameter = 10},
                                  .halves = {{.gap_width = 4, .gap_diameter = 26}},
                                  .tip_end_chamfer = 0.8});
    check_solid(gear<double>(p), {.halves = {{}}, .tip_end_chamfer = 0.8, .tip_end_chamfer_angle = deg(30.)});
    p.helix_angle = deg(-35.);
    check_solid(gear<double>(p), {.blank = {.bore_diameter = 12}, .tip_end_chamfer = 2, .tip_end_chamfer_angle = deg(60.)});
    check_solid(gear<double>({.normal_module = 2, .teeth = 8, .profile_shift = 0.9, .face_width = 12}), {.tip_end_chamfer = 1.5});
    check_solid(gear<double>({.normal_module = 5, .teeth = 9, .face_width = 30}),
                {.blank = {.bore_diameter = 8}, .tip_end_chamfer = 8});
}

TEST_CASE("tips that are chamfered or rounded all along are chamfered at their ends as well") {
    gear_parameters<double> p{.normal_module = 2, .teeth = 15, .helix_angle = deg(20.), .face_width = 14, .tip_chamfer = 0.3};
    check_solid(gear<double>(p), {.tip_end_chamfer = 0.15});
    check_solid(gear<double>(p), {.tip_end_chamfer = 0.8});
    p.tip_chamfer = 0;
    p.tip_rounding = 0.25;
    check_solid(gear<double>(p), {.tip_end_chamfer = 0.1});
    check_solid(gear<double>(p), {.tip_end_chamfer = 0.8});
}

TEST_CASE("internal gears are chamfered at their tip bores' ends and at their rims") {
    gear_parameters<double> p{.normal_module = 2, .teeth = 36, .kind = gear_kind::internal, .face_width = 15};
    check_solid(gear<double>(p), {.rim_diameter = 95, .tip_end_chamfer = 1, .rim_chamfer = 1.5});
    p.helix_angle = deg(-18.);
    check_solid(gear<double>(p), {.rim_diameter = 95, .tip_end_chamfer = 1, .tip_end_chamfer_angle = deg(20.)});
    check_solid(gear<double>(p), {.rim_diameter = 95, .halves = {{}}, .tip_end_chamfer = 0.5});
}

TEST_CASE("a bore with a keyway is chamfered, less deep than the keyway and deeper; so are hub and web") {
    const gear<double> g({.normal_module = 3, .teeth = 18, .face_width = 30});
    for (const double chamfer : {1.5, 3.29, 3.3, 3.4}) {
        check_solid(g, {.blank = {.bore_diameter = 25}, .key_slot = rackwork::metric_keyway(25), .bore_chamfer = chamfer});
    }
    check_solid(
        gear<double>({.normal_module = 2, .teeth = 32, .helix_angle = deg(15.), .face_width = 20}),
        {.blank =
             {.bore_diameter = 16, .rim_inner_diameter = 50, .hub_diameter = 28, .hub_length = 26, .web_thickness = 8},
         .key_slot = rackwork::metric_keyway(16),
         .bore_chamfer = 0.6,
         .tip_end_chamfer = 1,
         .rim_chamfer = 1,
         .hub_chamfer = 1.2});
}

TEST_CASE("internal gears are: spur, helical, double helical") {
    gear_parameters<double> p{.normal_module = 2, .teeth = 36, .kind = gear_kind::internal, .face_width = 15};
    check_solid(gear<double>(p), {.rim_diameter = 95});
    p.helix_angle = deg(-18.);
    check_solid(gear<double>(p), {.rim_diameter = 95});
    check_solid(gear<double>(p), {.rim_diameter = 95, .halves = {{.gap_width = 3, .gap_diameter = 85}}});
    check_solid(gear<double>(p), {.rim_diameter = 95, .halves = {{}}});
}

TEST_CASE("a solid in inches is read in millimetres") {
    const gear<double> g({.normal_module = 0.1, .teeth = 18, .face_width = 0.75});
    const body_parameters body{.blank = {.bore_diameter = 0.5}, .key_slot = rackwork::inch_keyway(0.5)};
    const TopoDS_Shape shape = occt::read(occt::step(brep_of(g, body), {.unit = rackwork::length_unit::inch}));
    CHECK(occt::is_valid(shape));
    CHECK(occt::volume(shape) == doctest::Approx(exact_volume(g, body) * 25.4 * 25.4 * 25.4).epsilon(1e-6));
}

TEST_CASE("a file of two bodies is two solids") {
    const gear<double> g({.normal_module = 2, .teeth = 12, .profile_shift = 0.3, .face_width = 5});
    const brep one = brep_of(g);
    const std::vector<brep> two{one, moved(one, 0.3, {60, 5, 2})};
    const TopoDS_Shape shape = occt::read(occt::step(two));
    CHECK(occt::parts(shape, TopAbs_SOLID).size() == 2);
    CHECK(occt::is_valid(shape));
    CHECK(occt::volume(shape) == doctest::Approx(2 * exact_volume(g, {})).epsilon(1e-6));
}

TEST_CASE("random gears are: spur, helical, double helical, internal") {
    support::random_source random{404};
    int made = 0;
    int kinds[4] = {};
    while (made < random_gears) {
        const int kind = made % 4;
        gear_parameters<double> p;
        p.normal_module = random.uniform(0.5, 8);
        p.teeth = random.integer(kind == 3 ? 24 : 7, kind == 3 ? 45 : 30);
        p.kind = kind == 3 ? gear_kind::internal : gear_kind::external;
        const bool helical = kind == 1 || kind == 2 || (kind == 3 && random.coin());
        if (helical) p.helix_angle = deg((random.coin() ? 1 : -1) * random.uniform(5, 40));
        if (random.coin()) p.rack.pressure_angle = deg(random.uniform(15, 28));
        p.profile_shift = random.uniform(-0.3, 0.6);
        p.thickness_allowance = random.coin() ? 0 : -0.02 * p.normal_module;
        p.face_width = p.normal_module * random.uniform(3, 14);
        std::optional<gear<double>> g;
        try {
            g.emplace(p);
            static_cast<void>(outline_of(*g));
        } catch (const rackwork::geometry_error&) {
            continue;
        }
        const double root = g->generated_root_diameter();
        body_parameters body;
        if (kind == 3) body.rim_diameter = root + p.normal_module * random.uniform(2, 6);
        if (kind != 3) body.blank.bore_diameter = random.coin() ? 0. : root * random.uniform(0.2, 0.5);
        if (kind == 2)
            body.halves = {.gap_width = p.face_width * random.uniform(0.05, 0.3),
                           .gap_diameter = root * random.uniform(0.8, 0.98)};
        // Two of three have chamfers at their teeth, some of them down to the fillets, and some at bore or rim.
        if (random.integer(0, 2) > 0) {
            body.tip_end_chamfer = std::abs(g->tip_diameter() - root) / 2 * random.uniform(0.02, 0.95);
            if (random.coin()) body.tip_end_chamfer_angle = deg(random.uniform(10, 65));
            if (kind == 3 && random.coin()) body.rim_chamfer = 0.5 * p.normal_module;
            if (kind != 3 && body.blank.bore_diameter > 0 && random.coin()) {
                body.key_slot = {.width = body.blank.bore_diameter * random.uniform(0.1, 0.3),
                                 .hub_depth = body.blank.bore_diameter * random.uniform(0.06, 0.12)};
                body.bore_chamfer = body.key_slot->hub_depth * random.uniform(0.2, 1.05);
            }
        }
        if (check(body, *g)) continue;
        CAPTURE(described(p));
        CAPTURE(made);
        CAPTURE(body.tip_end_chamfer);
        CAPTURE(body.tip_end_chamfer_angle.deg());
        CAPTURE(body.bore_chamfer);
        check_solid(*g, body, {.along = 4, .across = 2, .points_back = 1});
        ++made;
        ++kinds[kind];
    }
    for (const int count : kinds) CHECK(count >= random_gears / 4);
}

int main(int argc, char** argv) {
    for (int i = 1; i < argc; ++i) {
        if (std::strncmp(argv[i], "--gears=", 8) == 0) random_gears = std::atoi(argv[i] + 8);
    }
    doctest::Context context(argc, argv);
    return context.run();
}
