// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Open CASCADE reads the facets that we write: as many, one closed shell, no facet lost as degenerate, volume and extent of the exact body.
#include "../unit/solid_volume.hpp"
#include "occt_shape.hpp"

#include <rackwork/exchange/stl.hpp>
#include <rackwork/solid/facets.hpp>

#include <BRepBndLib.hxx>
#include <Bnd_Box.hxx>
#include <Poly_Triangulation.hxx>
#include <RWStl.hxx>
#include <StlAPI_Reader.hxx>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <string>

namespace {

using rackwork::body_parameters;
using rackwork::deg;
using rackwork::facet_solid;
using rackwork::facets_of;
using rackwork::gear;
using rackwork::gear_kind;

/// A file in the working directory as long as it is looked at.
class stl_file {
public:
    explicit stl_file(const facet_solid& solid) {
        std::ofstream out(name_, std::ios::binary);
        rackwork::write_stl(out, solid);
    }
    ~stl_file() { static_cast<void>(std::remove(name_)); }
    stl_file(const stl_file&) = delete;
    stl_file& operator=(const stl_file&) = delete;

    const char* name() const { return name_; }

private:
    static constexpr const char* name_ = "occt_stl_solids.stl";
};

void check_file(const gear<double>& g, const body_parameters& body, const rackwork::facet_options& options = {}) {
    const facet_solid solid = facets_of(g, body, options);
    const stl_file file(solid);

    // The bare reader, which makes one of equal points: a solid with one hole through it has V - E + F = 0 and E = 3 F/2, one without 2.
    const Handle(Poly_Triangulation) read = RWStl::ReadFile(file.name());
    REQUIRE(!read.IsNull());
    CHECK(static_cast<std::size_t>(read->NbTriangles()) == solid.facets.size());
    CHECK(static_cast<std::size_t>(read->NbNodes()) == solid.points.size());
    const bool hole = g.is_internal() || body.blank.bore_diameter > 0;
    CHECK(2 * read->NbNodes() - read->NbTriangles() == (hole ? 0 : 4));

    // As a shape: a shell of one plane face for each facet.
    TopoDS_Shape shape;
    REQUIRE(StlAPI_Reader().Read(shape, file.name()));
    CHECK(occt::parts(shape, TopAbs_FACE).size() == solid.facets.size());
    CHECK(occt::open_edges(shape) == 0);
    GProp_GProps volume;
    BRepGProp::VolumeProperties(shape, volume);
    GProp_GProps area;
    BRepGProp::SurfaceProperties(shape, area);
    // Single precision moves each point by half a unit in the last place at most.
    const double single = 0x1p-24 * g.tip_diameter();
    const double exact = solid_support::exact_volume(g, body);
    CHECK(std::abs(volume.Mass() - exact) <= (solid.deviation + single) * area.Mass());
    CHECK(volume.Mass() == doctest::Approx(exact).epsilon(0.01));

    Bnd_Box box;
    BRepBndLib::Add(shape, box, false);
    box.SetGap(0);
    double low[3], high[3];
    box.Get(low[0], low[1], low[2], high[0], high[1], high[2]);
    const double half_width =
        std::max(g.parameters().face_width, body.blank.hub_diameter > body.blank.bore_diameter ? body.blank.hub_length : 0.) / 2;
    const double reach = (g.is_internal() ? body.rim_diameter : g.tip_diameter()) / 2;
    CHECK(low[2] == doctest::Approx(-half_width).epsilon(1e-6));
    CHECK(high[2] == doctest::Approx(half_width).epsilon(1e-6));
    for (const double extent : {-low[0], -low[1], high[0], high[1]}) {
        CHECK(extent <= reach + 1e-5);
        // A tooth of an external gear need not point along an axis of coordinates.
        CHECK(extent >= (g.is_internal() ? reach - solid.deviation : reach * std::cos(2 * rackwork::pi<double>() / g.teeth())));
    }
}

} // namespace

TEST_CASE("the facets of spur and helical gears are read as one closed shell") {
    check_file(gear<double>({.normal_module = 2, .teeth = 19, .face_width = 12}), {.blank = {.bore_diameter = 14}}, {.chordal_tolerance = 0.05});
    check_file(gear<double>({.normal_module = 2, .teeth = 15, .helix_angle = deg(18.), .face_width = 10}), {},
               {.chordal_tolerance = 0.15});
}

TEST_CASE("so are those of gears with keyway, web, hub and chamfers") {
    check_file(gear<double>({.normal_module = 2, .teeth = 32, .face_width = 20}),
               {.blank = {.bore_diameter = 16,
                          .rim_inner_diameter = 50,
                          .hub_diameter = 28,
                          .hub_length = 26,
                          .web_thickness = 8},
                .key_slot = rackwork::metric_keyway(16),
                .bore_chamfer = 0.6,
                .tip_end_chamfer = 1,
                .rim_chamfer = 1,
                .hub_chamfer = 1.2},
               {.chordal_tolerance = 0.15});
    check_file(gear<double>({.normal_module = 2, .teeth = 17, .helix_angle = deg(-20.), .face_width = 12}),
               {.blank = {.bore_diameter = 12}, .tip_end_chamfer = 0.8}, {.chordal_tolerance = 0.2});
}

TEST_CASE("so are those of internal and of double helical gears") {
    check_file(gear<double>({.normal_module = 2, .teeth = 34, .kind = gear_kind::internal, .face_width = 10}),
               {.rim_diameter = 90, .tip_end_chamfer = 0.8, .rim_chamfer = 1}, {.chordal_tolerance = 0.15});
    check_file(gear<double>({.normal_module = 2, .teeth = 14, .helix_angle = deg(20.), .face_width = 14}),
               {.halves = {{.gap_width = 3, .gap_diameter = 22}}, .tip_end_chamfer = 0.6}, {.chordal_tolerance = 0.2});
}
