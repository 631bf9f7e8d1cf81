// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Plots: scales, dashes, words, and that the curves drawn are those of the pair.
#include "exchange_streams.hpp"
#include "random_source.hpp"

#include <doctest/doctest.h>

#include <rackwork/core/error.hpp>
#include <rackwork/design/profile_shift.hpp>
#include <rackwork/exchange/plot_contact.hpp>
#include <rackwork/exchange/plot_design.hpp>
#include <rackwork/exchange/plot_svg.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <ios>
#include <limits>
#include <locale>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace rackwork;
using namespace rackwork::literals;

std::string svg_of(const plot& p) {
    std::ostringstream out;
    write_svg(out, p);
    return out.str();
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++n;
    return n;
}

plot simple_plot() {
    plot p{.title = "A line & its <kind>",
           .description = "From corner to corner.",
           .across = {.name = "way", .unit = "mm"},
           .up = {.name = "height"}};
    p.lines.push_back({.name = "first", .points = {{0, 0}, {10, 5}}});
    return p;
}

const shiftable_pair<double> spur{.normal_module = 3, .pinion_teeth = 15, .wheel_teeth = 46, .face_width = 30};
const shiftable_pair<double> helical{.normal_module = 2.5, .pinion_teeth = 23, .wheel_teeth = 57, .helix_angle = 16_deg, .face_width = 34};

mesh<double> spur_pair() { return spur.with(choose_profile_shift(spur, 92.0).profile_shift); }
mesh<double> helical_pair() { return helical.with({.pinion = 0.3, .wheel = 0.1}); }

const plot_line& line_named(const plot& p, const std::string& name) {
    for (const plot_line& line : p.lines) {
        if (line.name == name) return line;
    }
    FAIL("no line is called " << name);
    return p.lines.front();
}

} // namespace

TEST_CASE("a plot has its title, description, axis names with units, and legend, with XML's signs written out") {
    const std::string svg = svg_of(simple_plot());
    CHECK(count(svg, "<title>A line &amp; its &lt;kind&gt;</title>") == 1);
    CHECK(count(svg, "<desc>From corner to corner.</desc>") == 1);
    CHECK(count(svg, ">way [mm]</text>") == 1);
    CHECK(count(svg, ">height</text>") == 1);
    CHECK(count(svg, ">first</text>") == 1);
    CHECK(svg.substr(svg.size() - 7) == "</svg>\n");
}

TEST_CASE("the scales are round numbers, and points are where the scales say") {
    plot p = simple_plot();
    p.across.least = 0;
    p.across.greatest = 10;
    p.up.least = 0;
    p.up.greatest = 5;
    const std::string svg = svg_of(p);
    // From the lower left corner of the frame to the upper right one: the frame is 640 by 400 at 76, 46.
    CHECK(count(svg, "d=\"M76 446L716 46\"") == 1);
    for (const char* label : {">0</text>", ">2</text>", ">4</text>", ">10</text>"}) CHECK(count(svg, label) >= 1);
    p.across.greatest = 1e-3;
    CHECK(count(svg_of(p), ">0.0005</text>") == 1);
    p.across.greatest = 3e6;
    CHECK(count(svg_of(p), ">2000000</text>") == 1);
}

TEST_CASE("the step of a scale is 1, 2 or 5 times a power of ten, and steps fill the length") {
    support::random_source random{7};
    for (int i = 0; i < 2000; ++i) {
        const double length = std::pow(10, random.uniform(-9, 9));
        const int steps = random.integer(2, 12);
        const double step = detail::round_step(length, steps);
        const double digit = step / std::pow(10, std::floor(std::log10(step) + 1e-9));
        CHECK(std::min({std::fabs(digit - 1), std::fabs(digit - 2), std::fabs(digit - 5)}) < 1e-6);
        CHECK(length / step >= steps * (1 - 1e-9));
        CHECK(length / step <= steps * 2.5 * (1 + 1e-9));
    }
}

TEST_CASE("lines are told apart without colours") {
    plot p = simple_plot();
    p.lines.clear();
    for (const plot_dash dash : {plot_dash::solid, plot_dash::dashed, plot_dash::dotted, plot_dash::dash_dotted, plot_dash::long_dashed,
                                 plot_dash::dash_dot_dotted}) {
        p.lines.push_back({.name = "x", .points = {{0, 0}, {1, 1}}, .dash = dash});
    }
    const std::string svg = svg_of(p);
    for (const char* dashes : {"\"8 5\"", "\"2 4\"", "\"11 4 2 4\"", "\"17 6\"", "\"12 4 2 4 2 4\""}) CHECK(count(svg, dashes) == 2);
    // Every colour is a grey.
    for (std::size_t at = svg.find("\"#"); at != std::string::npos; at = svg.find("\"#", at + 1)) {
        CHECK(svg.substr(at + 2, 2) == svg.substr(at + 4, 2));
        CHECK(svg.substr(at + 2, 2) == svg.substr(at + 6, 2));
    }
}

TEST_CASE("points that are not finite interrupt a line, and nothing that is not a number is written") {
    plot p = simple_plot();
    p.lines[0].points = {{0, 0}, {1, 1}, plot_gap(), {2, 2}, {3, (std::numeric_limits<double>::infinity)()}, {4, 4}, {5, 1e300}};
    p.up.greatest = 10;
    const std::string svg = svg_of(p);
    CHECK(count(svg, "nan") == 0);
    CHECK(count(svg, "inf") == 0);
    const std::size_t at = svg.find("d=\"M", svg.find("clip-path"));
    const std::string path = svg.substr(at, svg.find("\"/>", at) - at);
    CHECK(count(path, "M") == 3);
    CHECK(count(path, "L") == 2);
}

TEST_CASE("an empty plot and one of a single value can be drawn; an axis without length cannot") {
    plot p = simple_plot();
    p.lines.clear();
    CHECK(count(svg_of(p), "</svg>") == 1);
    p.lines.push_back({.points = {{2, 3}}});
    CHECK(count(svg_of(p), "nan") == 0);
    p.across.least = 1;
    p.across.greatest = 1;
    std::ostringstream out;
    CHECK_THROWS_AS(write_svg(out, p), geometry_error);
    CHECK(out.str().empty());
}

TEST_CASE("a word that would run over the frame stands on the other side of its point, or is shifted along") {
    // The frame of a plot without equal scales reaches from 76 to 716; a letter takes some 6.5.
    const std::string word = "tip at reference circle";
    const double width = 6.5 * static_cast<double>(word.size());
    for (const double at : {0.0, 0.1, 5.0, 9.9, 10.0}) {
        for (const plot_side side : {plot_side::above, plot_side::below, plot_side::left, plot_side::right}) {
            CAPTURE(at);
            plot p = simple_plot();
            p.across.least = 0;
            p.across.greatest = 10;
            p.marks.push_back({.at = {at, 2}, .text = word, .side = side});
            const std::string svg = svg_of(p);
            const std::size_t end = svg.find(">" + word);
            const std::size_t begin = svg.rfind("<text x=\"", end);
            const std::string element = svg.substr(begin, end - begin);
            const double x = std::stod(element.substr(9));
            const double reach_left = count(element, "\"end\"") > 0 ? width : count(element, "\"middle\"") > 0 ? width / 2 : 0;
            CHECK(x - reach_left >= 76);
            CHECK(x - reach_left + width <= 716);
            // Where there is room it stands where it was asked for.
            if (at == 5.0) {
                CHECK(count(element, "\"end\"") == (side == plot_side::left ? 1 : 0));
                CHECK(std::fabs(x - (76 + 640 / 2)) <= 5);
            }
        }
    }
}

TEST_CASE("a legend whose names are too long for two columns has one") {
    plot p = simple_plot();
    p.lines.push_back({.name = "second", .points = {{0, 1}, {10, 2}}, .dash = plot_dash::dashed});
    const auto place_of = [&](const std::string& name) {
        const std::string svg = svg_of(p);
        return std::stod(svg.substr(svg.rfind("<text x=\"", svg.find(">" + name)) + 9));
    };
    CHECK(place_of("second") > place_of("first"));
    p.lines.back().name = "second, of which much more is to be said than fits";
    CHECK(place_of("second") == place_of("first"));
}

TEST_CASE("equal scales make a circle round") {
    plot p = simple_plot();
    p.equal_scales = true;
    p.across = {.name = "x", .least = -2, .greatest = 2};
    p.up = {.name = "y", .least = -1, .greatest = 1};
    p.lines[0].points = {{-1, 0}, {1, 0}, plot_gap(), {0, -1}, {0, 1}};
    CHECK(count(svg_of(p), "M236 206L556 206M396 366L396 46") == 1);
}

TEST_CASE("the same bytes under every locale, and a stream that takes nothing is noticed") {
    const plot p = sliding_plot(spur_pair());
    const std::string before = svg_of(p);
    std::ostringstream out;
    out.imbue(std::locale(std::locale::classic(), new streams::comma));
    write_svg(out, p);
    CHECK(out.str() == before);
    streams::full_disk disk(0);
    std::ostream full(&disk);
    CHECK_THROWS_AS(write_svg(full, p), std::ios_base::failure);
}

TEST_CASE("the sliding that is drawn is that of the path of contact, from A to E") {
    const mesh<double> pair = spur_pair();
    const path_of_contact<double> path(pair);
    const plot p = sliding_plot(pair);
    const plot_line& pinion = line_named(p, "pinion, specific sliding");
    CHECK(pinion.points.front().x == path.point_a().distance_from_pitch_point());
    CHECK(pinion.points.back().x == path.point_e().distance_from_pitch_point());
    CHECK(pinion.points.front().y == path.point_a().specific_sliding().pinion);
    const plot_line& wheel = line_named(p, "wheel, specific sliding");
    CHECK(wheel.points.back().y == path.point_e().specific_sliding().wheel);
    // Contact of a single pair from B to D.
    const plot_line& single = line_named(p, "one pair of teeth in contact");
    CHECK(single.points[0].x == doctest::Approx(path.point_b().distance_from_pitch_point()));
    CHECK(single.points[1].x == doctest::Approx(path.point_d().distance_from_pitch_point()));
    for (const char* letter : {"A", "B", "C", "D", "E"}) {
        CHECK(std::count_if(p.marks.begin(), p.marks.end(), [&](const plot_mark& m) { return m.text == letter; }) == 1);
    }
}

TEST_CASE("the curvature that is drawn adds up: radii to the distance between the base circles, curvatures to the relative one") {
    const mesh<double> pair = helical_pair();
    const plot p = curvature_plot(pair);
    const plot_line& pinion = line_named(p, "pinion's flank");
    const plot_line& wheel = line_named(p, "wheel's flank");
    const plot_line& both = line_named(p, "both together (relative radius)");
    for (std::size_t i = 0; i < pinion.points.size(); ++i) {
        CHECK(pinion.points[i].y + wheel.points[i].y == doctest::Approx(pair.path_between_base_circles()).epsilon(1e-12));
        CHECK(1 / pinion.points[i].y + 1 / wheel.points[i].y == doctest::Approx(1 / both.points[i].y).epsilon(1e-12));
    }
}

TEST_CASE("the contact lines that are drawn are as long as they are said to be, and lean by the base helix angle") {
    const mesh<double> pair = helical_pair();
    const contact_lines<double> lines(pair);
    for (const double phase : {0.0, 0.3, 0.5, 0.9}) {
        const plot p = contact_lines_plot(pair, phase);
        double drawn = 0;
        for (const plot_line& line : p.lines) {
            if (line.weight != 1.6) continue;
            const point<double> way = line.points[1] - line.points[0];
            drawn += length(way);
            CHECK(std::fabs(way.x / way.y) == doctest::Approx(std::fabs(std::tan(pair.pinion().base_helix_angle().rad()))).epsilon(1e-10));
        }
        CHECK(drawn == doctest::Approx(lines.total_length(phase)).epsilon(1e-12));
    }
    const plot over_cycle = contact_line_length_plot(pair);
    const plot_line& total = line_named(over_cycle, "total length");
    double mean = 0;
    for (std::size_t i = 1; i < total.points.size(); ++i) {
        CHECK(total.points[i].y >= lines.least_total_length() * (1 - 1e-12));
        CHECK(total.points[i].y <= lines.greatest_total_length() * (1 + 1e-12));
        mean += total.points[i].y / static_cast<double>(total.points.size() - 1);
    }
    CHECK(mean == doctest::Approx(lines.mean_total_length()).epsilon(1e-3));
}

TEST_CASE("the chosen shifts stand in the region, on the line of their centre distance and on the curve that was asked for") {
    const shift_region<double> region(spur);
    const for_both<double> chosen = choose_profile_shift(spur, 92.0).profile_shift;
    const plot p = shift_region_plot(region, chosen);
    const plot_line& line = line_named(p, "centre distance 92");
    for (const point<double>& q : line.points) CHECK(q.x + q.y == doctest::Approx(chosen.pinion + chosen.wheel).epsilon(1e-12));
    for (const point<double>& q : line_named(p, "equal specific sliding").points) {
        if (!(q.x == q.x)) continue;
        const shift_line<double> at = region.line(q.x + q.y);
        CHECK(std::fabs(at.specific_sliding(q.x).pinion - at.specific_sliding(q.x).wheel) < 1e-9);
    }
    for (const point<double>& q : line_named(p, "contact ratio 1.2").points) {
        if (!(q.x == q.x)) continue;
        CHECK(region.line(q.x + q.y).contact_ratio(q.x) == doctest::Approx(1.2).epsilon(1e-9));
    }
    CHECK_THROWS_AS(shift_region_plot(shift_region<double>({.pinion_teeth = 5, .wheel_teeth = 5})), geometry_error);
}

TEST_CASE("the root section's tangents touch the tooth that is drawn, and nothing of the tooth stands beyond them") {
    for (const gear<double>& g :
         {spur_pair().pinion(), spur_pair().wheel(), helical_pair().pinion(), gear<double>{{.normal_module = 2, .teeth = 12}}}) {
        const plot p = root_section_plot(g);
        const std::vector<point<double>>& tooth = line_named(p, "tooth").points;
        const std::vector<point<double>>& tangent = line_named(p, "30 degree tangents of the fillet").points;
        REQUIRE(tangent.size() == 3);
        // Distance of each point of the right side from its tangent, outward positive.
        const point<double> along = tangent[1] - tangent[0];
        double nearest = 1e9;
        for (const point<double>& q : tooth) {
            if (q.x <= 0 || q.y < tangent[0].y) continue;
            const double off = cross(q - tangent[0], along) / length(along);
            CHECK(off > -1e-9 * g.normal_module());
            nearest = std::min(nearest, off);
        }
        CHECK(nearest < 0.002 * g.normal_module());
        CHECK(std::atan2(-along.x, along.y) == doctest::Approx(std::acos(-1.0) / 6).epsilon(1e-12));
        // The tip of the tooth lies on its tip circle, and the load is square to the flank there.
        const std::vector<point<double>>& load = line_named(p, "load at the tip").points;
        CHECK(std::any_of(tooth.begin(), tooth.end(), [&](const point<double>& q) { return q == load[1]; }));
        const virtual_spur_gear<double> v(g);
        CHECK(length(load[1]) == doctest::Approx(v.tip_diameter() / 2).epsilon(1e-12));
        const auto flank = v.on_involute(v.roll_angle(v.tip_diameter()) - 1e-6);
        const point<double> to_tip = load[1] - point<double>{flank.half_chord, flank.height};
        const point<double> of_load = load[1] - load[0];
        CHECK(std::fabs(dot(to_tip, of_load)) < 1e-5 * length(to_tip) * length(of_load));
    }
    CHECK_THROWS_AS(root_section_plot(gear<double>{{.normal_module = 2, .teeth = 60, .kind = gear_kind::internal}}), geometry_error);
    CHECK_THROWS_AS(root_section_plot(gear<double>{{.normal_module = 2, .teeth = 8, .helix_angle = 10_deg}}), geometry_error);
}
