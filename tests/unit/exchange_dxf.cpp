// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// DXF drawings read back: the outline is the exact one, the file says what its numbers mean, and its parts hang together.
#include "exchange_drawings.hpp"
#include "form_gears.hpp"

#include <rackwork/form/outline.hpp>
#include <rackwork/form/tooth.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <string>
#include <variant>
#include <vector>

namespace {

using namespace exchange_drawings;
using form_gears::described;
using form_gears::epsilon;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;
using rackwork::outline_of;
using rackwork::segment;

double circle_radius(const dxf_record& circle) { return circle.real(40); }

mesh<double> mill_pair() {
    return mesh(gear{gear_parameters<double>{.normal_module = 3, .teeth = 15, .profile_shift = 0.2, .thickness_allowance = -0.05}},
                gear{gear_parameters<double>{.normal_module = 3, .teeth = 46, .thickness_allowance = -0.05}}, 92.);
}

} // namespace

TEST_CASE("a gear is one closed polyline on its own layer") {
    const std::string file = dxf(gear{gear_parameters<double>{.normal_module = 2, .teeth = 24}});
    const auto polylines = entities_of(file, "LWPOLYLINE");
    REQUIRE(polylines.size() == 1);
    CHECK(polylines[0].text(8) == "GEAR");
    CHECK(polylines[0].text(70) == "1");
    CHECK(number(polylines[0].text(90)) == static_cast<double>(curve_of(polylines[0]).size()));
}

TEST_CASE("every joint of the exact outline is a vertex to the last bit, and every vertex lies on the exact outline") {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        CAPTURE(each.name);
        const gear<double> g(each.parameters);
        const closed_curve curve = dxf_outline(dxf(g), "GEAR");
        const auto exact = outline_of(g);
        const double rounding = 64 * epsilon * g.tip_diameter();
        const double base_radius = g.base_diameter() / 2;
        std::size_t i = 0;
        for (const segment<double>& s : exact.segments) {
            // A land that is no wider than a rounding error is left out.
            if (distance(s.start, s.end) < rounding) continue;
            REQUIRE(i < curve.size());
            REQUIRE(curve[i].at == s.start);
            const bool is_arc = form_gears::is_arc(s);
            REQUIRE((curve[i].arc != 0) == is_arc);
            if (is_arc) {
                // The very arc: about the gear's axis, by the angle of the land.
                const corner& next = curve[(i + 1) % curve.size()];
                CHECK(length(centre_of_arc(curve[i], next)) < 1e3 * rounding / std::sin(curve[i].arc / 2));
                CHECK(curve[i].arc == doctest::Approx(s.to - s.from).epsilon(1e-14));
            }
            const std::size_t first = i++;
            for (; i < curve.size() && distance(curve[i].at, s.end) > rounding; ++i) {
                REQUIRE(curve[i].arc == 0);
                if (!form_gears::is_flank(s)) continue;
                // Along an involute the polar angle is that of its start, plus or minus the involute function.
                const auto& flank = std::get<rackwork::involute<double>>(s.curve);
                const double roll = std::sqrt(std::max(0., rackwork::square(length(curve[i].at) / base_radius) - 1));
                const double hand = flank.unwinding == rackwork::sense::counter_clockwise ? 1 : -1;
                const point<double> expected =
                    length(curve[i].at) * rackwork::direction(flank.start_angle + hand * (roll - std::atan(roll)));
                // Close to the base circle the roll angle loses half of its places, but the involute function's angle only its last.
                CHECK(distance(curve[i].at, expected) < 16 * rounding);
            }
            if (is_arc) CHECK(i == first + 1);
        }
        CHECK(i == curve.size());
    }
}

TEST_CASE("the lands are arcs of the tip circle and of the root circle, as many as there are teeth") {
    const gear g{gear_parameters<double>{.normal_module = 2.5, .teeth = 17, .profile_shift = 0.3}};
    const closed_curve curve = dxf_outline(dxf(g), "GEAR");
    int tips = 0;
    int roots = 0;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        if (curve[i].arc == 0) continue;
        const double radius = distance(curve[i].at, curve[(i + 1) % curve.size()].at) / 2 / std::sin(curve[i].arc / 2);
        if (radius == doctest::Approx(g.tip_diameter() / 2).epsilon(1e-12)) ++tips;
        if (radius == doctest::Approx(g.root_diameter() / 2).epsilon(1e-12)) ++roots;
        CHECK(curve[i].arc > 0);
    }
    CHECK(tips == 17);
    CHECK(roots == 17);
}

TEST_CASE("a pointed tooth has no arc at its tip and a full-radius root none at its bottom") {
    const auto count_arcs = [](const gear<double>& g) {
        const closed_curve curve = dxf_outline(dxf(g), "GEAR");
        return std::count_if(curve.begin(), curve.end(), [](const corner& c) { return c.arc != 0; });
    };
    const gear pointed{gear_parameters<double>{.normal_module = 2, .teeth = 8, .profile_shift = 0.9}};
    REQUIRE(pointed.tip_thickness() < 0);
    CHECK(count_arcs(pointed) == 8);
    for (const double helix : {0., -31., 12.5}) {
        for (const double pressure_angle : {14.5, 20., 25.}) {
            // The width of the root land is zero or, either way, a rounding error.
            const gear full{gear_parameters<double>{.normal_module = 3,
                                                    .teeth = 33,
                                                    .helix_angle = rackwork::deg(helix),
                                                    .rack = form_gears::full_radius_rack(pressure_angle, 1.25)}};
            CHECK(count_arcs(full) == 33);
        }
    }
}

TEST_CASE("no two vertices that follow each other are the same point, not even nearly") {
    for (const gear<double>& g : form_gears::named_and_random_gears(60, 22)) {
        CAPTURE(described(g));
        const closed_curve curve = dxf_outline(dxf(g), "GEAR");
        for (std::size_t i = 0; i < curve.size(); ++i) {
            REQUIRE(distance(curve[i].at, curve[(i + 1) % curve.size()].at) > 64 * epsilon * g.tip_diameter());
        }
    }
}

TEST_CASE("the area within the file's outline is the exact area but for the tolerance along the perimeter") {
    for (const gear<double>& g : form_gears::named_and_random_gears(40, 21)) {
        CAPTURE(described(g));
        for (const double part : {0.001, 0.02}) {
            const double tolerance = part * g.normal_module();
            const closed_curve curve = dxf_outline(dxf(g, rackwork::dxf_options{.tolerance = tolerance}), "GEAR");
            const double exact = outline_of(g).area();
            CHECK(std::abs(enclosed_area(curve) - exact) < perimeter(curve) * tolerance);
        }
    }
}

TEST_CASE("the stated tolerance is kept, a thousandth of the module unless stated") {
    const gear g{gear_parameters<double>{.normal_module = 4, .teeth = 13, .profile_shift = 0.25}};
    CHECK(dxf(g) == dxf(g, rackwork::dxf_options{.tolerance = 0.004}));
    double before = 1e9;
    for (const double tolerance : {0.2, 0.02, 0.002, 0.0002}) {
        const closed_curve curve = dxf_outline(dxf(g, rackwork::dxf_options{.tolerance = tolerance}), "GEAR");
        // From each chord's middle to the curve through a much finer drawing's vertices.
        const closed_curve fine = dxf_outline(dxf(g, rackwork::dxf_options{.tolerance = tolerance / 2500}), "GEAR");
        double worst = 0;
        std::size_t f = 0;
        for (std::size_t i = 0; i < curve.size() / 13; ++i) {
            if (curve[i].arc != 0) continue;
            const point<double>& a = curve[i].at;
            const point<double>& b = curve[i + 1].at;
            while (dot(fine[f].at - a, b - a) < 0) ++f;
            for (; dot(fine[f].at - b, b - a) < 0; ++f) {
                worst = std::max(worst, std::abs(cross(b - a, fine[f].at - a)) / distance(a, b));
            }
        }
        CAPTURE(tolerance);
        CHECK(worst <= tolerance);
        CHECK(worst >= tolerance / 4); // no finer than asked
        CHECK(worst < before);
        before = worst;
    }
}

TEST_CASE("units: millimetres are metric, inches are not, and the numbers are the same") {
    const gear g{gear_parameters<double>{.normal_module = 0.125, .teeth = 20}};
    const std::string metric = dxf(g);
    const std::string inch = dxf(g, rackwork::dxf_options{.unit = rackwork::length_unit::inch});
    CHECK(dxf_header_of(metric)["INSUNITS"].at(0) == "4");
    CHECK(dxf_header_of(metric)["MEASUREMENT"].at(0) == "1");
    CHECK(dxf_header_of(inch)["INSUNITS"].at(0) == "1");
    CHECK(dxf_header_of(inch)["MEASUREMENT"].at(0) == "0");
    CHECK(circle_radius(entities_of(metric, "CIRCLE").at(0)) == 1.25);
    CHECK(metric.substr(metric.find("ENTITIES")) == inch.substr(inch.find("ENTITIES")));
}

TEST_CASE("the extents are the bounding box of what is drawn") {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        CAPTURE(each.name);
        const gear<double> g(each.parameters);
        const std::string file = dxf(g);
        auto header = dxf_header_of(file);
        double left = -g.reference_diameter() / 2;
        double right = -left;
        double low = left;
        double high = -left;
        for (const point<double>& p : points_along(dxf_outline(file, "GEAR"))) {
            left = std::min(left, p.x);
            right = std::max(right, p.x);
            low = std::min(low, p.y);
            high = std::max(high, p.y);
        }
        const double module = g.normal_module(); // the arms of the cross
        left = std::min(left, -module);
        right = std::max(right, module);
        low = std::min(low, -module);
        high = std::max(high, module);
        const double rounding = 2e-6 * g.tip_diameter();
        CHECK(std::abs(number(header["EXTMIN"].at(0)) - left) < rounding);
        CHECK(std::abs(number(header["EXTMIN"].at(1)) - low) < rounding);
        CHECK(std::abs(number(header["EXTMAX"].at(0)) - right) < rounding);
        CHECK(std::abs(number(header["EXTMAX"].at(1)) - high) < rounding);
    }
}

TEST_CASE("a gear with a tooth in each of the four directions is as wide and as high as its tip circle") {
    const gear g{gear_parameters<double>{.normal_module = 2, .teeth = 24}};
    auto header = dxf_header_of(dxf(g));
    CHECK(number(header["EXTMAX"].at(0)) - number(header["EXTMIN"].at(0)) == doctest::Approx(52).epsilon(1e-14));
    CHECK(number(header["EXTMAX"].at(1)) - number(header["EXTMIN"].at(1)) == doctest::Approx(52).epsilon(1e-14));
}

TEST_CASE("the construction layer holds the reference circle and the axis, dash-dotted") {
    const gear g{gear_parameters<double>{.normal_module = 2, .teeth = 24, .profile_shift = 0.1}};
    const std::string file = dxf(g);
    const auto circles = entities_of(file, "CIRCLE");
    REQUIRE(circles.size() == 1);
    CHECK(circles[0].text(8) == "CONSTRUCTION");
    CHECK(circle_radius(circles[0]) == 24);
    CHECK(circles[0].at(10) == point<double>{0, 0});
    const auto points = entities_of(file, "POINT");
    REQUIRE(points.size() == 1);
    CHECK(points[0].at(10) == point<double>{0, 0});
    for (const dxf_record& arm : entities_of(file, "LINE")) {
        CHECK(arm.text(8) == "CONSTRUCTION");
        CHECK(0.5 * (arm.at(10) + arm.at(11)) == point<double>{0, 0});
        CHECK(distance(arm.at(10), arm.at(11)) == 4);
    }
    CHECK(entities_of(file, "LINE").size() == 2);
    for (const dxf_record& record : dxf_records_of(file)) {
        if (record.type == "LAYER" && record.has(2) && record.text(2) == "CONSTRUCTION") CHECK(record.text(6) == "CENTER");
    }
}

TEST_CASE("a pair is drawn in mesh, each gear on its layer, with the circles on which they roll") {
    const mesh<double> pair = mill_pair();
    const std::string file = dxf(pair);
    CHECK(entities_of(file, "LWPOLYLINE").size() == 2);
    CHECK(dxf_outline(file, "PINION") == dxf_outline(dxf(pair.pinion()), "GEAR")); // not turned, not moved
    const auto circles = entities_of(file, "CIRCLE");
    REQUIRE(circles.size() == 4);
    CHECK(circle_radius(circles[0]) == 22.5);
    CHECK(circle_radius(circles[1]) + circle_radius(circles[3]) == doctest::Approx(92).epsilon(1e-14));
    CHECK(circle_radius(circles[3]) / circle_radius(circles[1]) == doctest::Approx(46. / 15).epsilon(1e-14));
    for (const std::size_t i : {0U, 1U}) CHECK(circles[i].at(10) == point<double>{0, 0});
    for (const std::size_t i : {2U, 3U}) CHECK(circles[i].at(10) == point<double>{92, 0});
    CHECK(entities_of(file, "POINT").size() == 2);

    // At the reference centre distance the working pitch circles are the reference circles and are not drawn twice.
    const mesh<double> plain(gear{gear_parameters<double>{.normal_module = 3, .teeth = 20}},
                             gear{gear_parameters<double>{.normal_module = 3, .teeth = 33}});
    CHECK(entities_of(dxf(plain), "CIRCLE").size() == 2);
}

TEST_CASE("every handle is used once, every owner and pointer leads somewhere, and new handles begin beyond") {
    for (const std::string& file : {dxf(mill_pair()), dxf(mill_pair().wheel())}) {
        std::set<unsigned long> handles;
        std::set<unsigned long> pointers;
        for (const dxf_record& record : dxf_records_of(file)) {
            for (const dxf_group& g : record.groups) {
                if (record.section == "HEADER" || record.section.empty()) continue;
                const bool own = g.code == (record.type == "DIMSTYLE" ? 105 : 5);
                if (own) CHECK(handles.insert(std::stoul(g.value, nullptr, 16)).second);
                if (g.code == 330 || g.code == 340 || g.code == 350 || g.code == 390) {
                    pointers.insert(std::stoul(g.value, nullptr, 16));
                }
            }
        }
        CHECK(handles.count(0) == 0);
        pointers.erase(0); // 'no owner'
        for (const unsigned long pointer : pointers) CHECK(handles.count(pointer) == 1);
        const unsigned long seed = std::stoul(dxf_header_of(file)["HANDSEED"].at(0), nullptr, 16);
        CHECK(*handles.rbegin() < seed);
        CHECK(handles.size() > 40);
    }
}

TEST_CASE("the file is plain ASCII in pairs of lines and says where it ends") {
    const std::string file = dxf(mill_pair());
    CHECK(std::all_of(file.begin(), file.end(), [](char c) { return c == '\n' || (c >= ' ' && c <= '~'); }));
    CHECK(file.substr(file.size() - 6) == "0\nEOF\n");
    std::vector<std::string> sections;
    for (const dxf_record& record : dxf_records_of(file)) {
        if (record.type == "SECTION") sections.push_back(record.section);
    }
    CHECK(sections == std::vector<std::string>{"HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"});
    CHECK(dxf_header_of(file)["ACADVER"].at(0) == "AC1015");
    // A count that a table states is the number of its records.
    std::string table;
    double stated = 0;
    int counted = 0;
    for (const dxf_record& record : dxf_records_of(file)) {
        if (record.section != "TABLES" || record.type == "SECTION" || record.type == "ENDSEC") continue;
        if (record.type == "TABLE") {
            table = record.text(2);
            stated = record.real(70);
            counted = 0;
        } else if (record.type == "ENDTAB") {
            CAPTURE(table);
            CHECK(counted == stated);
        } else {
            CHECK(record.type == table);
            ++counted;
        }
    }
}

TEST_CASE("the smallest and the largest module that a gear can have give the same drawing, only scaled") {
    const auto outline_at = [](double module) {
        return dxf_outline(dxf(gear<double>(gear_parameters<double>{.normal_module = module, .teeth = 21})), "GEAR");
    };
    const closed_curve at_one = outline_at(1);
    for (const double module : {1e-138, 1e-30, 1e30, 1e138}) {
        CAPTURE(module);
        const closed_curve curve = outline_at(module);
        REQUIRE(curve.size() == at_one.size());
        for (std::size_t i = 0; i < curve.size(); ++i) {
            REQUIRE(distance((1 / module) * curve[i].at, at_one[i].at) < 1e-13);
            REQUIRE(curve[i].arc == doctest::Approx(at_one[i].arc).epsilon(1e-12));
        }
    }
}
