// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// DXF drawings of arcs and splines read back: they are the approximations that the library proves, number by number.
#include "exchange_drawings.hpp"

#include <rackwork/curve/biarc.hpp>
#include <rackwork/curve/bspline.hpp>
#include <rackwork/form/outline.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <numbers>
#include <set>
#include <sstream>
#include <string>
#include <variant>
#include <vector>

namespace {

using namespace exchange_drawings;
using namespace rackwork;

const gear<double>& feed_gear() {
    static const gear<double> g({.normal_module = 3, .teeth = 13, .profile_shift = 0.25});
    return g;
}

/// Every value under a code, in the file's order.
std::vector<double> all(const dxf_record& r, int code) {
    std::vector<double> result;
    for (const dxf_group& g : r.groups) {
        if (g.code == code) result.push_back(number(g.value));
    }
    return result;
}

std::vector<point<double>> control_points(const dxf_record& r) {
    const std::vector<double> x = all(r, 10);
    const std::vector<double> y = all(r, 20);
    std::vector<point<double>> result;
    for (std::size_t i = 0; i < x.size(); ++i) result.push_back({x[i], y.at(i)});
    return result;
}

/// All that is on the layer of a gear, in the file's order.
std::vector<dxf_record> outline_entities(const std::string& file, const std::string& layer = "GEAR") {
    std::vector<dxf_record> result;
    for (const dxf_record& r : dxf_records_of(file)) {
        if (r.section == "ENTITIES" && r.has(8) && r.text(8) == layer) result.push_back(r);
    }
    return result;
}

/// Degrees between two directions, at most 180.
double between(double a, double b) { return std::abs(std::remainder(a - b, 360.)); }

} // namespace

TEST_CASE("splines are the library's to the last bit: knots, control points, degree") {
    for (const int degree : {3, 5, 7}) {
        const std::string file = dxf(feed_gear(), dxf_options{.tolerance = 0.0001, .curves = dxf_curves::splines, .degree = degree});
        const auto exact = bsplines_of(outline_of(feed_gear()), 0.0001, {.degree = degree, .arcs = arc_form::arc});
        const std::vector<dxf_record> entities = outline_entities(file);
        REQUIRE(entities.size() == exact.curves.size());
        for (std::size_t i = 0; i < entities.size(); ++i) {
            const dxf_record& e = entities[i];
            const auto* s = std::get_if<bspline<double>>(&exact.curves[i]);
            REQUIRE(e.type == (s == nullptr ? "ARC" : "SPLINE"));
            if (s == nullptr) continue;
            CHECK(e.real(71) == degree);
            CHECK(e.text(70) == "8"); // planar, neither closed nor rational
            CHECK(all(e, 40) == s->knots);
            CHECK(all(e, 41).empty());
            CHECK(control_points(e) == s->control_points);
            CHECK(e.real(72) == static_cast<double>(s->knots.size()));
            CHECK(e.real(73) == static_cast<double>(s->control_points.size()));
            CHECK(s->knots.size() == s->control_points.size() + static_cast<std::size_t>(degree) + 1);
        }
    }
}

TEST_CASE("lands among splines can be rational splines, with their weights") {
    const std::string file = dxf(feed_gear(), dxf_options{.curves = dxf_curves::splines, .arcs = arc_form::rational});
    int rational = 0;
    for (const dxf_record& e : outline_entities(file)) {
        REQUIRE(e.type == "SPLINE");
        if (e.text(70) != "12") continue;
        ++rational;
        CHECK(e.real(71) == 2);
        const std::vector<double> weights = all(e, 41);
        CHECK(weights.size() == control_points(e).size());
        // The middle weight of a quadratic arc is the cosine of half of its angle: the land's.
        const std::vector<point<double>> p = control_points(e);
        const double angle = std::acos(dot(p.front(), p.back()) / length(p.front()) / length(p.back()));
        CHECK(weights.at(1) == doctest::Approx(std::cos(angle / 2)).epsilon(1e-12));
    }
    CHECK(rational == 26);
}

TEST_CASE("arcs and lines are the library's, and follow one another") {
    for (const double tolerance : {0.05, 0.003, 0.0001}) {
        const std::string file = dxf(feed_gear(), dxf_options{.tolerance = tolerance, .curves = dxf_curves::arcs});
        const auto exact = biarcs_of(outline_of(feed_gear()), tolerance);
        const std::vector<dxf_record> entities = outline_entities(file);
        REQUIRE(entities.size() == exact.arcs.size());
        int clockwise = 0;
        for (std::size_t i = 0; i < entities.size(); ++i) {
            const dxf_record& e = entities[i];
            const arc<double>& a = exact.arcs[i];
            if (a.is_line()) {
                REQUIRE(e.type == "LINE");
                CHECK(e.at(10) == a.start);
                CHECK(e.at(11) == a.end);
                continue;
            }
            REQUIRE(e.type == "ARC");
            CHECK(e.at(10) == a.centre);
            CHECK(e.real(40) == a.radius);
            CHECK(e.real(50) >= 0);
            CHECK(e.real(50) < 360);
            // Counter-clockwise from the first angle to the second, by as much as the arc turns.
            const double turns = std::fmod(e.real(51) - e.real(50) + 360, 360.);
            CHECK(turns == doctest::Approx(std::abs(a.turning) * 180 / std::numbers::pi).epsilon(1e-9));
            const point<double> begin = (a.turning > 0 ? a.start : a.end) - a.centre;
            CHECK(between(e.real(50), std::atan2(begin.y, begin.x) * 180 / std::numbers::pi) < 1e-9);
            clockwise += a.turning < 0;
        }
        CHECK(clockwise > 0);
    }
}

TEST_CASE("frame and construction lines are the polyline drawing's, whatever the curves") {
    const std::string plain = dxf(feed_gear());
    for (const dxf_curves curves : {dxf_curves::arcs, dxf_curves::splines}) {
        const std::string file = dxf(feed_gear(), dxf_options{.curves = curves});
        CHECK(outline_entities(file, "CONSTRUCTION").size() == outline_entities(plain, "CONSTRUCTION").size());
        auto header = dxf_header_of(file);
        auto plain_header = dxf_header_of(plain);
        CHECK(header["EXTMIN"] == plain_header["EXTMIN"]);
        CHECK(header["EXTMAX"] == plain_header["EXTMAX"]);
        CHECK(entities_of(file, "LWPOLYLINE").empty());
        std::set<unsigned long> handles;
        for (const dxf_record& r : dxf_records_of(file)) {
            if (r.section == "ENTITIES" && r.has(5)) CHECK(handles.insert(std::stoul(r.text(5), nullptr, 16)).second);
        }
        CHECK(*handles.rbegin() + 1 == std::stoul(header["HANDSEED"].at(0), nullptr, 16));
    }
    CHECK(plain == dxf(feed_gear(), dxf_options{.curves = dxf_curves::polyline}));
}

TEST_CASE("a pair of splines stands as the pair of polylines does") {
    const mesh<double> pair(feed_gear(), gear<double>({.normal_module = 3, .teeth = 24}));
    const std::string file = dxf(pair, dxf_options{.curves = dxf_curves::splines});
    const auto place = placement_in_mesh(pair);
    const auto exact = bsplines_of(outline_of(pair.wheel()), 0.003, {.degree = 3, .arcs = arc_form::arc});
    const std::vector<dxf_record> entities = outline_entities(file, "WHEEL");
    REQUIRE(entities.size() == exact.curves.size());
    for (std::size_t i = 0; i < entities.size(); ++i) {
        const auto* s = std::get_if<bspline<double>>(&exact.curves[i]);
        if (s == nullptr) continue;
        const std::vector<point<double>> p = control_points(entities[i]);
        for (std::size_t k = 0; k < p.size(); ++k) CHECK(distance(p[k], place.wheel(s->control_points[k])) < 1e-13);
    }
    CHECK(outline_entities(file, "PINION").size() == 6U * 13U);
}

TEST_CASE("impossible wishes are refused before the first byte") {
    for (const dxf_options& options : {dxf_options{.curves = dxf_curves::splines, .degree = 4},
                                       dxf_options{.tolerance = 0., .curves = dxf_curves::arcs},
                                       dxf_options{.tolerance = -1., .curves = dxf_curves::splines}}) {
        std::ostringstream out;
        CHECK_THROWS_AS(write_dxf(out, feed_gear(), options), geometry_error);
        CHECK(out.str().empty());
    }
}
