// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// SVG drawings read back: to scale, closed, within the tolerance, and with words for those who cannot see them.
#include "exchange_drawings.hpp"
#include "form_gears.hpp"

#include <rackwork/form/outline.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace {

using namespace exchange_drawings;
using form_gears::described;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::length_unit;
using rackwork::mesh;
using rackwork::outline_of;
using rackwork::svg_options;

mesh<double> mill_pair() {
    return mesh(gear{gear_parameters<double>{.normal_module = 3, .teeth = 15, .profile_shift = 0.2, .thickness_allowance = -0.05}},
                gear{gear_parameters<double>{.normal_module = 3, .teeth = 46, .thickness_allowance = -0.05}}, 92.);
}

struct sheet {
    double left;
    double right;
    double low;
    double high;
};

/// What the view box shows, with y up again.
sheet sheet_of(const std::string& file) {
    const std::vector<double> box = numbers(attribute(file, "<svg ", "viewBox"));
    REQUIRE(box.size() == 4);
    return {box[0], box[0] + box[2], -box[1] - box[3], -box[1]};
}

void check_all_on(const sheet& s, const closed_curve& curve) {
    for (const point<double>& p : points_along(curve)) {
        REQUIRE(p.x > s.left);
        REQUIRE(p.x < s.right);
        REQUIRE(p.y > s.low);
        REQUIRE(p.y < s.high);
    }
}

point<double> centre_of(const std::string& file, const std::string& mark) {
    return {number(attribute(file, mark, "cx")), number(attribute(file, mark, "cy"))};
}

} // namespace

TEST_CASE("a drawing is to scale: its width and height on paper are those of its view box, in the gear's unit") {
    const gear g{gear_parameters<double>{.normal_module = 0.125, .teeth = 20}};
    for (const length_unit unit : {length_unit::millimetre, length_unit::inch}) {
        const std::string file = svg(g, svg_options{.unit = unit});
        const std::vector<std::string> words{attribute(file, "<svg ", "width"), attribute(file, "<svg ", "height")};
        const std::vector<double> box = numbers(attribute(file, "<svg ", "viewBox"));
        for (const std::size_t i : {0U, 1U}) {
            CHECK(words[i].substr(words[i].size() - 2) == (unit == length_unit::inch ? "in" : "mm"));
            CHECK(number(words[i].substr(0, words[i].size() - 2)) == box[i + 2]);
        }
        CHECK(box[2] > g.tip_diameter());
        CHECK(box[2] < 1.2 * g.tip_diameter());
        CHECK(number(attribute(file, "reference_circle", "r")) == 1.25);
    }
    CHECK(svg(g) == svg(g, svg_options{.unit = length_unit::millimetre}));
}

TEST_CASE("the outline is closed, within the tolerance and on the sheet, for every kind of gear") {
    for (const gear<double>& g : form_gears::named_and_random_gears(40, 23)) {
        CAPTURE(described(g));
        for (const double part : {0.001, 0.05}) {
            const double tolerance = part * g.normal_module();
            const std::string file = svg(g, svg_options{.tolerance = tolerance});
            const closed_curve curve = svg_outline(file, "gear");
            CHECK(std::abs(enclosed_area(curve) - outline_of(g).area()) < perimeter(curve) * tolerance);
            check_all_on(sheet_of(file), curve);
        }
    }
}

TEST_CASE("rounding to the decimals that are written moves no vertex by more than a hundredth of the tolerance") {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        CAPTURE(each.name);
        const gear<double> g(each.parameters);
        const double tolerance = g.normal_module() / 1000;
        const closed_curve curve = svg_outline(svg(g), "gear");
        const auto exact = outline_of(g);
        // Joints of the exact outline, in the drawing's order.
        std::size_t i = 0;
        for (const auto& s : exact.segments) {
            if (distance(s.start, s.end) < tolerance / 50) continue;
            while (i < curve.size() && distance(curve[i].at, s.start) > tolerance / 100) ++i;
        }
        CHECK(i < curve.size());
    }
}

TEST_CASE("up in the gear is up on the sheet: the drawing is turned over once, the letters are not") {
    const std::string file = svg(mill_pair());
    const std::size_t turned_over = file.find("<g transform=\"scale(1 -1)\"");
    REQUIRE(turned_over != std::string::npos);
    CHECK(file.find("-1)", turned_over + 30) == std::string::npos);
    const std::size_t outline = file.find("class=\"wheel\"");
    const std::size_t scale_bar = file.find("class=\"scale\"");
    CHECK(file.find("<path") > turned_over);
    CHECK(outline > turned_over);
    // Every group that was begun is ended before the scale bar's.
    int depth = 0;
    for (std::size_t i = turned_over; i < scale_bar - 3; ++i) {
        if (file.compare(i, 2, "<g") == 0) ++depth;
        if (file.compare(i, 4, "</g>") == 0) --depth;
    }
    CHECK(depth == 0);
    CHECK(file.find("<text") > scale_bar);
}

TEST_CASE("the lands are true arcs") {
    const gear g{gear_parameters<double>{.normal_module = 2, .teeth = 31, .helix_angle = rackwork::deg(15)}};
    const closed_curve curve = svg_outline(svg(g), "gear");
    int tips = 0;
    int roots = 0;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        if (curve[i].arc == 0) continue;
        CHECK(curve[i].arc > 0);
        const double middle = length(centre_of_arc(curve[i], curve[(i + 1) % curve.size()]));
        CHECK(middle < 0.002 * g.normal_module()); // ends rounded to the drawing's decimals turn the short arc a little
        const double radius = length(curve[i].at);
        if (radius == doctest::Approx(g.tip_diameter() / 2).epsilon(1e-6)) ++tips;
        if (radius == doctest::Approx(g.root_diameter() / 2).epsilon(1e-6)) ++roots;
    }
    CHECK(tips == 31);
    CHECK(roots == 31);
}

TEST_CASE("a pair's drawing shows both gears, the circles that roll on each other, and both axes") {
    const mesh<double> pair = mill_pair();
    const std::string file = svg(pair);
    const sheet s = sheet_of(file);
    check_all_on(s, svg_outline(file, "pinion"));
    check_all_on(s, svg_outline(file, "wheel"));
    const std::size_t second = file.find("working_pitch_circle", file.find("working_pitch_circle") + 1);
    REQUIRE(second != std::string::npos);
    const std::string rest = file.substr(second - 20);
    CHECK(centre_of(file, "working_pitch_circle") == point<double>{0, 0});
    CHECK(centre_of(rest, "working_pitch_circle") == point<double>{92, 0});
    // They touch.
    CHECK(number(attribute(file, "working_pitch_circle", "r")) + number(attribute(rest, "working_pitch_circle", "r")) ==
          doctest::Approx(92).epsilon(1e-6));
}

TEST_CASE("the path of contact lies on the common tangent of the base circles, from the wheel's tip circle to the pinion's") {
    for (const double helix : {0., 22.}) {
        const gear pinion{gear_parameters<double>{.normal_module = 3, .teeth = 22, .helix_angle = rackwork::deg(helix)}};
        const gear wheel{gear_parameters<double>{.normal_module = 3, .teeth = 46, .helix_angle = rackwork::deg(-helix)}};
        const mesh<double> pair(pinion, wheel, mesh<double>(pinion, wheel).centre_distance() + 0.3);
        const auto path = rackwork::detail::drawn_path_of_contact(pair);
        const point<double> wheel_axis{pair.centre_distance(), 0};
        const point<double> way = path.end - path.begin;
        CHECK(length(way) == doctest::Approx(pair.length_of_path_of_contact()).epsilon(1e-12));
        CHECK(way.x > 0);
        CHECK(way.y > 0);
        CHECK(cross(path.begin, way) / length(way) == doctest::Approx(pinion.base_diameter() / 2).epsilon(1e-12));
        CHECK(cross(path.begin - wheel_axis, way) / length(way) == doctest::Approx(-wheel.base_diameter() / 2).epsilon(1e-12));
        CHECK(distance(path.begin, wheel_axis) == doctest::Approx(wheel.tip_diameter() / 2).epsilon(1e-12));
        CHECK(length(path.end) == doctest::Approx(pinion.tip_diameter() / 2).epsilon(1e-12));
    }
}

TEST_CASE("where undercut ends the contact early, the path begins on the root form circle") {
    const gear pinion{gear_parameters<double>{.normal_module = 2, .teeth = 10}};
    const gear wheel{gear_parameters<double>{.normal_module = 2, .teeth = 60}};
    const mesh<double> pair(pinion, wheel);
    const auto path = rackwork::detail::drawn_path_of_contact(pair);
    CHECK(length(path.begin) == doctest::Approx(pair.root_form_diameter().pinion / 2).epsilon(1e-12));
    CHECK(distance(path.begin, path.end) == doctest::Approx(pair.length_of_path_of_contact()).epsilon(1e-12));
}

TEST_CASE("teeth that do not reach each other are drawn without a path of contact") {
    const gear g{gear_parameters<double>{.normal_module = 2, .teeth = 20}};
    const mesh<double> apart(g, g, 45.);
    REQUIRE(apart.length_of_path_of_contact() == 0);
    const std::string file = svg(apart);
    CHECK(file.find("path_of_contact") == std::string::npos);
    CHECK(file.find("path of contact") == std::string::npos);
    CHECK(svg(mill_pair()).find("path_of_contact") != std::string::npos);
}

TEST_CASE("the drawing says in words what it shows") {
    const std::string file = svg(mill_pair());
    CHECK(file.find("<title>Gear pair with 15 and 46 teeth</title>") != std::string::npos);
    CHECK(file.find("normal module 3 mm, centre distance 92 mm.") != std::string::npos);
    CHECK(svg(mill_pair(), svg_options{.title = "Grain mill"}).find("<title>Grain mill</title>") != std::string::npos);
    const gear helical{gear_parameters<double>{.normal_module = 0.1, .teeth = 20, .helix_angle = rackwork::deg(15)}};
    const std::string inch = svg(helical, svg_options{.unit = length_unit::inch});
    CHECK(inch.find("Gear with 20 teeth, normal module 0.1 in, helix angle 15 degrees, transverse section.") != std::string::npos);
    CHECK(inch.find("diameter 2.070552 in.") != std::string::npos); // 2/cos 15 degrees
}

TEST_CASE("the scale bar is a round length, about a fifth of the drawing, and says which") {
    for (const double module : {1e-4, 0.03, 0.125, 0.7, 1., 3., 8., 250., 4e5}) {
        CAPTURE(module);
        const gear<double> g(gear_parameters<double>{.normal_module = module, .teeth = 27});
        const std::string file = svg(g);
        const std::string bar = file.substr(file.find("class=\"scale\""));
        const std::size_t begin = bar.find('h', bar.find(" d=\"")) + 1;
        const double length = number(bar.substr(begin, bar.find_first_not_of("0123456789.", begin) - begin));
        const std::size_t text = bar.find('>', bar.find("<text")) + 1;
        const std::string words = bar.substr(text, bar.find('<', text) - text);
        CHECK(words.substr(words.size() - 3) == " mm");
        CHECK(number(words.substr(0, words.size() - 3)) == length);
        CHECK(length <= 0.25 * g.tip_diameter());
        CHECK(length > 0.09 * g.tip_diameter());
        double mantissa = length;
        while (mantissa >= 9.999) mantissa /= 10;
        while (mantissa < 0.9999) mantissa *= 10;
        const bool round = std::abs(mantissa - 1) < 1e-9 || std::abs(mantissa - 2) < 1e-9 || std::abs(mantissa - 5) < 1e-9;
        CHECK(round);
    }
}
