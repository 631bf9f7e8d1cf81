// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Two solids in mesh, as Open CASCADE sees them: they do not overlap, and what is between their flanks is the stated backlash.
#include "occt_shape.hpp"

#include <rackwork/exchange/placement.hpp>
#include <rackwork/mesh.hpp>
#include <rackwork/solid/gear_solid.hpp>

#include <BRepAlgoAPI_Common.hxx>
#include <BRepBndLib.hxx>
#include <BRepClass3d_SolidClassifier.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRep_Tool.hxx>
#include <Bnd_Box.hxx>
#include <Geom_Plane.hxx>
#include <TopoDS.hxx>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace {

using rackwork::body_parameters;
using rackwork::brep;
using rackwork::deg;
using rackwork::for_both;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::mesh;

/// The two solids of a pair in mesh, the wheel turned further by an angle in radians.
for_both<TopoDS_Shape> in_mesh(const mesh<double>& pair, const for_both<body_parameters>& bodies, double wheel_turn) {
    const auto place = placement_in_mesh(pair);
    const brep pinion = moved(brep_of(pair.pinion(), bodies.pinion), place.pinion.turn.rad(),
                              {place.pinion.centre.x, place.pinion.centre.y, 0});
    const brep wheel = moved(brep_of(pair.wheel(), bodies.wheel), place.wheel.turn.rad() + wheel_turn,
                             {place.wheel.centre.x, place.wheel.centre.y, 0});
    return {.pinion = occt::read(occt::step(pinion)), .wheel = occt::read(occt::step(wheel))};
}

Bnd_Box box_of(const TopoDS_Shape& shape) {
    Bnd_Box box;
    BRepBndLib::Add(shape, box);
    return box;
}

/// The faces that are not planes: with straight or helical teeth all round, and one end beyond the other's, two gears that overlap do so
/// there.
std::vector<std::pair<TopoDS_Shape, Bnd_Box>> walls_of(const TopoDS_Shape& shape) {
    std::vector<std::pair<TopoDS_Shape, Bnd_Box>> walls;
    for (const TopoDS_Shape& f : occt::parts(shape, TopAbs_FACE)) {
        if (!BRep_Tool::Surface(TopoDS::Face(f))->IsKind(STANDARD_TYPE(Geom_Plane))) walls.emplace_back(f, box_of(f));
    }
    return walls;
}

/// Least distance of the walls of two solids, looked for only among faces whose boxes are nearer than a known upper limit, which is what comes
/// back where there are none.
double distance(const for_both<TopoDS_Shape>& shapes, double nearer_than) {
    double least = nearer_than;
    const auto of_wheel = walls_of(shapes.wheel);
    for (const auto& [face, box] : walls_of(shapes.pinion)) {
        for (const auto& [other, other_box] : of_wheel) {
            if (box.Distance(other_box) >= least) continue;
            const BRepExtrema_DistShapeShape between(face, other);
            REQUIRE(between.IsDone());
            least = std::min(least, between.Value());
        }
    }
    return least;
}

double common_volume(const for_both<TopoDS_Shape>& shapes) {
    BRepAlgoAPI_Common common(shapes.pinion, shapes.wheel);
    REQUIRE(common.IsDone());
    return occt::parts(common.Shape(), TopAbs_SOLID).empty() ? 0 : occt::volume(common.Shape());
}

/// True when a corner of the pinion lies within the wheel's material.
bool is_inside(const for_both<TopoDS_Shape>& shapes) {
    const TopoDS_Shape corner = occt::parts(shapes.pinion, TopAbs_VERTEX).front();
    const BRepClass3d_SolidClassifier where(shapes.wheel, BRep_Tool::Pnt(TopoDS::Vertex(corner)), 1e-7);
    return where.State() != TopAbs_OUT;
}

void check_pair(const mesh<double>& pair, const for_both<body_parameters>& bodies) {
    // Otherwise something else than the flanks could be what is closest.
    REQUIRE(pair.transverse_contact_ratio() > 1);
    const double backlash = pair.normal_backlash();
    const double turn = pair.angular_backlash().wheel.rad() / 2;
    const double deviation =
        brep_of(pair.pinion(), bodies.pinion).deviation + brep_of(pair.wheel(), bodies.wheel).deviation;
    REQUIRE(backlash > 1000 * deviation);
    // In the middle half of the backlash is on either side; turned by a share of it, what is left is on one side.
    for (const double share : {0., 0.8, -0.8}) {
        CAPTURE(share);
        const for_both<TopoDS_Shape> shapes = in_mesh(pair, bodies, share * turn);
        const double expected = (1 - std::abs(share)) * backlash / 2;
        const double gap = distance(shapes, expected + 4 * deviation);
        CHECK(std::abs(gap - expected) <= deviation + 1e-7);
        // Walls that are apart: the solids do not overlap unless one is within the other.
        CHECK(gap > 0);
        CHECK_FALSE(is_inside(shapes));
    }
}

} // namespace

TEST_CASE("a spur pair in mesh leaves the stated backlash") {
    gear_parameters<double> p{
        .normal_module = 2, .teeth = 12, .profile_shift = 0.3, .thickness_allowance = -0.05, .face_width = 5};
    const gear<double> pinion(p);
    p.face_width = 6;
    p.teeth = 17;
    p.profile_shift = 0.1;
    check_pair(mesh<double>(pinion, gear<double>(p)), {});
}

TEST_CASE("the solids of a spur pair have nothing in common, until it is turned further than its backlash") {
    gear_parameters<double> p{
        .normal_module = 2, .teeth = 9, .profile_shift = 0.5, .thickness_allowance = -0.05, .face_width = 6};
    const gear<double> pinion(p);
    p.teeth = 10;
    const mesh<double> pair(pinion, gear<double>(p));
    const double turn = pair.angular_backlash().wheel.rad() / 2;
    CHECK(common_volume(in_mesh(pair, {}, 0.95 * turn)) == 0);
    CHECK(common_volume(in_mesh(pair, {}, 1.5 * turn)) > 0);
    CHECK(common_volume(in_mesh(pair, {}, -1.5 * turn)) > 0);
}

TEST_CASE("a helical pair in mesh leaves the stated backlash") {
    gear_parameters<double> p{.normal_module = 2,
                              .teeth = 12,
                              .helix_angle = deg(18.),
                              .profile_shift = 0.3,
                              .thickness_allowance = -0.05,
                              .face_width = 6};
    const gear<double> pinion(p);
    p.face_width = 7;
    p.teeth = 15;
    p.helix_angle = deg(-18.);
    p.profile_shift = 0;
    check_pair(mesh<double>(pinion, gear<double>(p)), {});
}

TEST_CASE("a pinion in an internal wheel leaves the stated backlash") {
    gear_parameters<double> p{.normal_module = 2,
                              .teeth = 13,
                              .helix_angle = deg(12.),
                              .profile_shift = 0.3,
                              .thickness_allowance = -0.05,
                              .face_width = 4};
    const gear<double> pinion(p);
    p.face_width = 5;
    p.kind = gear_kind::internal;
    p.teeth = 33;
    p.profile_shift = -0.3;
    p.tip_alteration = -0.2; // or the wheel's tips would reach below the pinion's form diameter
    check_pair(mesh<double>(pinion, gear<double>(p)), {.pinion = {}, .wheel = {.rim_diameter = 84}});
}
