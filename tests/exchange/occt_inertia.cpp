// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Volume and moments of inertia in closed form against those that Open CASCADE integrates over the solid read back from its file.
#include "occt_shape.hpp"

#include <rackwork/form/section.hpp>
#include <rackwork/solid/gear_solid.hpp>

#include <gp_Dir.hxx>
#include <gp_Mat.hxx>
#include <gp_Pln.hxx>
#include <gp_Pnt.hxx>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace {

using rackwork::body_parameters;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;

double worst_share = 0;

void compare(double kernel, double closed_form, double greatest_share) {
    const double share = std::abs(kernel / closed_form - 1);
    worst_share = std::max(worst_share, share);
    CHECK(share <= greatest_share);
}

/// The kernel's adaptive quadrature: from the faces' cones to the axis; with a web's rings, for which that takes half a minute, from the prisms
/// between faces and middle plane.
GProp_GProps integrated(const TopoDS_Shape& shape, bool web) {
    GProp_GProps result;
    if (web) {
        const gp_Pln middle(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1));
        BRepGProp::VolumePropertiesGK(shape, result, middle, 1e-6, false, false, false, true);
    } else {
        BRepGProp::VolumePropertiesGK(shape, result, 1e-6, false, false, false, true);
    }
    return result;
}

void check_inertia(const gear<double>& g, const body_parameters& body) {
    const rackwork::body_properties<double> exact =
        g.is_internal() ? rackwork::ring_body_of(g, body.rim_diameter) : rackwork::body_of(g, body.blank);
    const rackwork::brep solid = brep_of(g, body);
    const TopoDS_Shape shape = occt::read(occt::step(solid));
    const GProp_GProps properties = integrated(shape, body.blank.rim_inner_diameter > 0);
    // Between the solid and the exact one is no more than a skin as thick as the stated deviation; the rest is the kernel's.
    GProp_GProps surface;
    BRepGProp::SurfaceProperties(shape, surface);
    constexpr double quadrature = 2e-9;
    const double skin = solid.deviation * surface.Mass();
    compare(properties.Mass(), exact.volume, skin / exact.volume + quadrature);
    // About the centre of gravity, which is the middle of the axis.
    const double reach = (g.is_internal() ? body.rim_diameter : g.tip_diameter()) / 2;
    CHECK(properties.CentreOfMass().Distance(gp_Pnt(0, 0, 0)) <= 1e-7 * reach);
    const gp_Mat inertia = properties.MatrixOfInertia();
    const double half_length = std::max(g.parameters().face_width, body.blank.hub_length) / 2;
    const double of_skin = skin * (reach * reach + half_length * half_length);
    const double about = of_skin / exact.moment_about_axis + quadrature;
    const double across = of_skin / exact.moment_across_axis + quadrature;
    compare(inertia(3, 3), exact.moment_about_axis, about);
    compare(inertia(1, 1), exact.moment_across_axis, across);
    compare(inertia(2, 2), exact.moment_across_axis, across);
    for (const double product : {inertia(1, 2), inertia(1, 3), inertia(2, 3)}) {
        CHECK(std::abs(product) <= about * exact.moment_about_axis);
    }
    MESSAGE("agreement " << worst_share << ", of which " << skin / exact.volume << " is allowed to the solid's deviation");
    worst_share = 0;
}

} // namespace

TEST_CASE("moments of inertia of spur gears are the kernel's: solid, with a bore, with web and hub") {
    const gear<double> g({.normal_module = 2, .teeth = 28, .profile_shift = 0.2, .face_width = 18});
    check_inertia(g, {});
    check_inertia(g, {.blank = {.bore_diameter = 14}});
    check_inertia(g, {.blank = {.bore_diameter = 14,
                                .rim_inner_diameter = 42,
                                .hub_diameter = 24,
                                .hub_length = 26,
                                .web_thickness = 6}});
}

TEST_CASE("those of helical gears are, of either hand, and of an undercut pinion") {
    gear_parameters<double> p{.normal_module = 2, .teeth = 21, .helix_angle = deg(22.), .face_width = 20};
    check_inertia(gear<double>(p), {.blank = {.bore_diameter = 12}});
    p.helix_angle = deg(-30.);
    check_inertia(gear<double>(p), {.blank = {.bore_diameter = 10}});
    check_inertia(gear<double>({.normal_module = 4, .teeth = 8, .face_width = 12}), {.blank = {.bore_diameter = 7}});
}

TEST_CASE("those of internal gears are") {
    gear_parameters<double> p{.normal_module = 2, .teeth = 36, .kind = gear_kind::internal, .face_width = 15};
    check_inertia(gear<double>(p), {.rim_diameter = 95});
    p.helix_angle = deg(18.);
    check_inertia(gear<double>(p), {.rim_diameter = 90});
}
