// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The interpreter of an open machine control runs our programs; the path that it reports is measured against the exact outline.
#include "gcode_measure.hpp"

#include <rackwork/basic_rack.hpp>
#include <rackwork/exchange/gcode.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

using namespace gcode_measure;
using namespace rackwork;

/// What the interpreter reports: cuts, each a list of moves at cutting feed between rapids, and how often it stopped.
struct report {
    std::vector<std::vector<move>> cuts;
    int stops = 0;
    bool inches = false;
    bool ended = false;
};

/// The numbers between the brackets of a reported command.
std::vector<double> arguments_of(const std::string& line) {
    std::vector<double> result;
    const char* at = line.data() + line.find('(') + 1;
    const char* const end = line.data() + line.size();
    while (at < end && *at != ')') {
        double value = 0;
        const auto [next, error] = std::from_chars(at, end, value);
        if (error != std::errc{}) throw std::runtime_error("cannot be read: " + line);
        result.push_back(value);
        at = next;
        while (at < end && (*at == ',' || *at == ' ')) ++at;
    }
    return result;
}

/// Runs a program. `tool_radius` is what the machine's offset 1 holds.
report interpreted(const std::string& name, const std::string& program, double tool_radius, length_unit unit = length_unit::millimetre) {
    std::ofstream(name + ".ngc", std::ios::binary) << program;
    {
        // The stand-alone interpreter takes the diameters of its tool table for inches.
        std::ofstream table(name + ".tbl");
        table.precision(17);
        table << "T1 P1 D" << 2 * tool_radius / (unit == length_unit::inch ? 1 : 25.4) << " ;the tool\n";
    }
    const std::string command = std::string("\"") + RACKWORK_INTERPRETER + "\" -t " + name + ".tbl -g " + name + ".ngc > " + name + ".out 2> " + name + ".err";
    const int status = std::system(command.c_str()); // NOLINT(concurrency-mt-unsafe)
    std::ifstream errors(name + ".err");
    std::stringstream said;
    said << errors.rdbuf();
    INFO("the interpreter said: ", said.str());
    REQUIRE(status == 0);

    report result;
    point<double> here{};
    double height = 0;
    std::ifstream lines(name + ".out");
    std::string line;
    while (std::getline(lines, line)) {
        if (line.find("USE_LENGTH_UNITS(CANON_UNITS_INCHES)") != std::string::npos) result.inches = true;
        if (line.find("USE_LENGTH_UNITS(CANON_UNITS_MM)") != std::string::npos) result.inches = false;
        if (line.find("PROGRAM_STOP()") != std::string::npos) ++result.stops;
        if (line.find("PROGRAM_END()") != std::string::npos) result.ended = true;
        const bool rapid = line.find(" STRAIGHT_TRAVERSE(") != std::string::npos;
        const bool straight = line.find(" STRAIGHT_FEED(") != std::string::npos;
        if (rapid || straight) {
            const std::vector<double> a = arguments_of(line);
            if (rapid) {
                if (result.cuts.empty() || !result.cuts.back().empty()) result.cuts.emplace_back();
            } else if (a[2] == height) {
                result.cuts.back().push_back({.from = here, .to = {a[0], a[1]}, .height = a[2]});
            }
            here = {a[0], a[1]};
            height = a[2];
        } else if (line.find(" ARC_FEED(") != std::string::npos) {
            const std::vector<double> a = arguments_of(line);
            const int turns = a[4] > 0 ? 1 : -1;
            result.cuts.back().push_back({.from = here, .to = {a[0], a[1]}, .centre = {a[2], a[3]}, .turns = turns, .height = a[5]});
            here = {a[0], a[1]};
        }
    }
    while (!result.cuts.empty() && result.cuts.back().empty()) result.cuts.pop_back();
    CHECK(result.ended);
    return result;
}

/// It reports four decimals, so that each coordinate of an end and of a centre is up to half of the last away; and what we measure with.
constexpr double reading = 0.0002 + resolution;

/// Neither way may the path stray from the offset outline, and nowhere may the tool come nearer to the outline than its radius.
void check_cut(const std::vector<move>& cut, const tool_cut& planned, const cut_contour& contour, double tool_radius, double tolerance) {
    const dense_curve exact = dense_points_of(contour.shape.segments);
    const std::size_t in = planned.lead_in.size();
    const std::size_t out = planned.lead_out.size();
    REQUIRE(cut.size() > in + out + 4);
    const std::vector<move> round(cut.begin() + static_cast<std::ptrdiff_t>(in), cut.end() - static_cast<std::ptrdiff_t>(out));
    double nearest = 1e9;
    double farthest = 0;
    for (const move& m : round) {
        for (int i = 0; i <= 8; ++i) {
            const double distance = exact.distance_to(at(m, i / 8.));
            nearest = std::min(nearest, distance);
            farthest = std::max(farthest, distance);
        }
    }
    CHECK(nearest >= tool_radius - tolerance - reading);
    CHECK(farthest <= tool_radius + tolerance + reading);
    for (const move& m : cut) {
        for (int i = 0; i <= 8; ++i) CHECK(exact.distance_to(at(m, i / 8.)) >= tool_radius - tolerance - reading);
    }
    CHECK(length(round.front().from - round.back().to) < 2 * reading);

    const dense_curve path = dense_points_of_moves(round);
    double missed = 0;
    if (tool_radius == 0) {
        exact.each_fourth([&](const point<double>& p) { missed = std::max(missed, path.distance_to(p)); });
    } else {
        const auto parallel = offset_of(contour.shape, contour.hole ? -tool_radius : tool_radius);
        dense_points_of(parallel.loops.front().segments).each_fourth([&](const point<double>& p) {
            missed = std::max(missed, path.distance_to(p));
        });
        REQUIRE(parallel.loops.size() == 1);
    }
    CHECK(missed <= tolerance + reading);
}

template <class Machine>
std::string program_of(const tool_path& path, const Machine& machine, const gcode_options& options = {}) {
    std::ostringstream out;
    write_gcode(out, path, machine, options);
    return out.str();
}

const wire_cutting wire{.feed = 2, .stop_before_end = 1.5};

} // namespace

TEST_CASE("a wire cuts bore and teeth of a pinion: its centre keeps half the kerf from the exact outline") {
    const gear<double> pinion({.normal_module = 2, .teeth = 17, .profile_shift = 0.2});
    const std::vector<cut_contour> contours{contour_of(pinion), circular_contour(12)};
    for (const cutting_direction direction : {cutting_direction::climb, cutting_direction::conventional}) {
        const tool_path path = tool_path_round(
            contours, {.tool_radius = 0.165, .tolerance = 0.002, .approach = 3, .lead_radius = 0.8, .direction = direction});
        const report run = interpreted("wire", program_of(path, wire), 0);
        REQUIRE(run.cuts.size() == 2);
        check_cut(run.cuts[0], path.cuts[0], contours[1], 0.165, 0.002); // the bore first
        check_cut(run.cuts[1], path.cuts[1], contours[0], 0.165, 0.002);
        CHECK(run.stops == 6);
    }
}

TEST_CASE("left to the machine's own compensation the tool takes the same path") {
    const gear<double> pinion({.normal_module = 3, .teeth = 12, .helix_angle = deg(20.), .profile_shift = 0.4});
    const std::vector<cut_contour> contours{circular_contour(10), contour_of(pinion)};
    for (const double lead : {0.3, 1.}) {
        for (const cutting_direction direction : {cutting_direction::climb, cutting_direction::conventional}) {
            const tool_path path = tool_path_round(contours, {.tool_radius = 0.25,
                                                              .tolerance = 0.003,
                                                              .approach = 2,
                                                              .lead_radius = lead,
                                                              .compensation = tool_compensation::by_machine,
                                                              .direction = direction});
            const report run = interpreted("machine", program_of(path, wire_cutting{.feed = 3}), 0.25);
            REQUIRE(run.cuts.size() == 2);
            for (const std::size_t i : {0U, 1U}) check_cut(run.cuts[i], path.cuts[i], contours[i], 0.25, 0.003);
        }
    }
}

TEST_CASE("a cutter mills an internal gear and the rim of its ring in passes") {
    const gear<double> ring({.normal_module = 5, .teeth = 45, .kind = gear_kind::internal});
    const std::vector<cut_contour> contours{circular_contour(270, false), contour_of(ring)};
    const double radius = 0.9 * largest_tool_radius(ring);
    const tool_path path = tool_path_round(contours, {.tool_radius = radius, .tolerance = 0.004, .approach = 5, .lead_radius = 6});
    const milling machine{.feed = 400, .plunge_feed = 80, .spindle_speed = 6000, .depth = 10, .depth_of_pass = 4, .clearance = 15};
    const report run = interpreted("ring", program_of(path, machine, {.title = "ring"}), 0);
    REQUIRE(run.cuts.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        for (const move& m : run.cuts[i]) CHECK(m.height == doctest::Approx(-10. / 3 * static_cast<double>(1 + i % 3)).epsilon(1e-4));
        if (i % 3 == 0) check_cut(run.cuts[i], path.cuts[i / 3], contours[i < 3 ? 1 : 0], radius, 0.004);
        if (i % 3 != 0) CHECK(run.cuts[i].size() == run.cuts[i - 1].size());
    }
}

TEST_CASE("a tool too large for the roots leaves metal there but cuts nowhere too deep, and that is said") {
    const gear<double> g({.normal_module = 4, .teeth = 21});
    const double radius = 1.3 * largest_tool_radius(g);
    const cut_contour contour = contour_of(g);
    const tool_path path = tool_path_round({contour}, {.tool_radius = radius, .tolerance = 0.002, .approach = 3, .lead_radius = 2});
    CHECK(path.cuts[0].unreached.size() >= 21);
    const report run = interpreted("too_large", program_of(path, wire_cutting{.feed = 3}), 0);
    REQUIRE(run.cuts.size() == 1);
    check_cut(run.cuts[0], path.cuts[0], contour, radius, 0.002);
}

TEST_CASE("a gear in inches stays in inches") {
    const gear<double> g({.normal_module = 1. / 8, .teeth = 24, .rack = ansi_b6_1_coarse_20});
    const cut_contour contour = contour_of(g);
    const tool_path path = tool_path_round({contour}, {.tool_radius = 0.006, .tolerance = 0.0005, .approach = 0.1, .lead_radius = 0.03});
    const report run = interpreted("inches", program_of(path, wire_cutting{.feed = 0.1}, {.unit = length_unit::inch}), 0, length_unit::inch);
    CHECK(run.inches);
    REQUIRE(run.cuts.size() == 1);
    check_cut(run.cuts[0], path.cuts[0], contour, 0.006, 0.0005);
}

TEST_CASE("gears of many shapes, tools of many radii") {
    int number = 0;
    for (const int teeth : {7, 9, 33, 80}) {
        for (const double share : {0.2, 0.9}) {
            const gear<double> g({.normal_module = 5, .teeth = teeth, .helix_angle = deg(number % 2 == 0 ? 0. : -25.),
                                  .profile_shift = teeth < 10 ? 0.45 : -0.1});
            const double radius = share * largest_tool_radius(g);
            const cut_contour contour = contour_of(g);
            CAPTURE(teeth);
            CAPTURE(radius);
            const tool_path path =
                tool_path_round({contour}, {.tool_radius = radius, .tolerance = 0.005, .approach = 4, .lead_radius = number % 3 * 1.});
            CHECK(path.cuts[0].unreached.empty());
            const report run = interpreted("many", program_of(path, wire_cutting{.feed = 3}), 0);
            REQUIRE(run.cuts.size() == 1);
            check_cut(run.cuts[0], path.cuts[0], contour, radius, 0.005);
            ++number;
        }
    }
}
