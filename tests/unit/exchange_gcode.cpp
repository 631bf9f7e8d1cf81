// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Machine programs read back word by word: nothing but ISO 6983, nothing that a control could take otherwise, free ways in and out.
#include "../exchange/gcode_measure.hpp"
#include "exchange_gcode_blocks.hpp"
#include "exchange_streams.hpp"

#include <rackwork/exchange/gcode.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <ios>
#include <locale>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace gcode_blocks;
using namespace gcode_measure;
using namespace rackwork;
using streams::comma;
using streams::full_disk;

const gear<double>& pump_gear() {
    static const gear<double> g({.normal_module = 2.5, .teeth = 13, .profile_shift = 0.3});
    return g;
}

std::vector<cut_contour> pump_contours() { return {contour_of(pump_gear()), circular_contour(12)}; }

const tool_path_options thin_wire{.tool_radius = 0.15, .tolerance = 0.002, .approach = 2, .lead_radius = 0.5};
const wire_cutting slow{.feed = 2};
const milling mill{.feed = 300, .plunge_feed = 60, .spindle_speed = 8000, .depth = 6, .depth_of_pass = 2, .clearance = 10};

tool_path_options with(tool_path_options options, tool_compensation compensation, cutting_direction direction) {
    options.compensation = compensation;
    options.direction = direction;
    return options;
}

template <class Machine>
std::string program_of(const tool_path& path, const Machine& machine, const gcode_options& options = {}) {
    std::ostringstream out;
    write_gcode(out, path, machine, options);
    return out.str();
}

/// Twice the enclosed area of the chords: its sign says which way round.
double sense_of(const std::vector<arc<double>>& contour) {
    double twice = 0;
    for (const arc<double>& a : contour) twice += cross(a.start, a.end);
    return twice;
}

} // namespace

TEST_CASE("a program has no words but those of ISO 6983, each number with a decimal point") {
    const std::set<std::string> known{"G00", "G01", "G02", "G03", "G17", "G20", "G21", "G40", "G41", "G42", "G90", "G94", "M00", "M03", "M05", "M30"};
    for (const tool_compensation compensation : {tool_compensation::in_path, tool_compensation::by_machine}) {
        for (const length_unit unit : {length_unit::millimetre, length_unit::inch}) {
            const tool_path path = tool_path_round(pump_contours(), with(thin_wire, compensation, cutting_direction::climb));
            for (const std::string& program : {program_of(path, slow, {.unit = unit}), program_of(path, mill, {.unit = unit})}) {
                for (const block& b : blocks_of(program)) {
                    for (const word& w : b) {
                        CAPTURE(w.text);
                        if (w.letter == 'G' || w.letter == 'M') {
                            CHECK(known.count(w.text) == 1);
                        } else if (w.letter == 'N' || w.letter == 'D' || w.letter == 'S') {
                            CHECK(w.text.find('.') == std::string::npos);
                        } else {
                            CHECK(std::string("XYZIJF").find(w.letter) != std::string::npos);
                            CHECK(w.text.find('.') != std::string::npos);
                            CHECK(std::isdigit(static_cast<unsigned char>(w.text.back())));
                        }
                    }
                }
                CHECK((program.find("G21") != std::string::npos) == (unit == length_unit::millimetre));
                CHECK((program.find("G20") != std::string::npos) == (unit == length_unit::inch));
                CHECK(program.substr(0, 2) == "%\n");
                CHECK(program.find("M30\n%\n") == program.size() - 6);
            }
        }
    }
}

TEST_CASE("both ends of each arc are equally far from its centre, and no arc is a full circle by mistake") {
    for (const double tolerance : {0.0005, 0.002, 0.02}) {
        tool_path_options options = thin_wire;
        options.tolerance = tolerance;
        const double last_place = std::pow(10., -detail::decimals_of(tool_path_round(pump_contours(), options), {}));
        CHECK(2.5 * last_place <= 0.25 * tolerance * (1 + 1e-12));
        int arcs = 0;
        for (const move& m : moves_of(program_of(tool_path_round(pump_contours(), options), slow))) {
            if (m.turns == 0) continue;
            ++arcs;
            CHECK(std::abs(length(m.to - m.centre) - length(m.from - m.centre)) < 1.5 * last_place);
            CHECK(length(m.to - m.from) > 2 * last_place);
            // The way to the middle of an arc is more than half of the way to its end, and no arc turns by more than 135 degrees.
            const double half = length(at(m, 0.5) - m.from);
            CHECK(half < 0.6 * length(m.to - m.from) / std::cos(0.375 * 3.1416));
            CHECK(half < length(m.to - m.from));
        }
        CHECK(arcs > 100);
    }
}

TEST_CASE("what is written stays within the tolerance of the exact offset, whatever decimals it needs") {
    for (const double tolerance : {0.0002, 0.003, 0.05}) {
        for (const cutting_direction direction : {cutting_direction::climb, cutting_direction::conventional}) {
            tool_path_options options = with(thin_wire, tool_compensation::in_path, direction);
            options.tolerance = tolerance;
            const cut_contour contour = contour_of(pump_gear());
            const tool_path path = tool_path_round({contour}, options);
            CHECK(path.deviation <= 0.75 * tolerance);
            const dense_curve exact = dense_points_of(contour.shape.segments);
            std::vector<move> moves = moves_of(program_of(path, slow));
            moves.erase(moves.begin(), moves.begin() + 3); // the rapid and the way in
            moves.resize(moves.size() - 2);
            double worst = 0;
            for (const move& m : moves) {
                for (int i = 0; i <= 6; ++i) worst = std::max(worst, std::abs(exact.distance_to(at(m, i / 6.)) - options.tool_radius));
            }
            CHECK(worst < tolerance + resolution);
            CHECK(worst > tolerance / 20); // no finer than it has to be
        }
    }
}

TEST_CASE("holes come first, in their order, and the outside last") {
    const gear<double> ring({.normal_module = 2, .teeth = 60, .kind = gear_kind::internal});
    const tool_path path = tool_path_round({circular_contour(150, false), contour_of(ring)}, thin_wire);
    REQUIRE(path.cuts.size() == 2);
    CHECK(path.cuts[0].hole);
    CHECK(path.cuts[0].contour.size() > 100);
    CHECK_FALSE(path.cuts[1].hole);
    const std::string program = program_of(path, slow);
    CHECK(program.find("(hole)") < program.find("(outside)"));
    // The wire's start hole of a hole is on the axis, that of the outside beyond the metal.
    CHECK(path.cuts[0].start == point<double>{0, 0});
    CHECK(length(path.cuts[1].start) > 75 + 2);
}

TEST_CASE("climb milling has the metal on the right of the path, conventional milling on the left") {
    for (const cutting_direction direction : {cutting_direction::climb, cutting_direction::conventional}) {
        const tool_path path = tool_path_round(pump_contours(), with(thin_wire, tool_compensation::by_machine, direction));
        const bool climb = direction == cutting_direction::climb;
        CHECK((sense_of(path.cuts[0].contour) > 0) == climb); // round a bore counter-clockwise
        CHECK((sense_of(path.cuts[1].contour) < 0) == climb); // round the teeth clockwise
        for (const tool_cut& cut : path.cuts) CHECK(cut.compensation == (climb ? machine_offset::left : machine_offset::right));
        const std::string program = program_of(path, mill, {.offset_number = 7});
        CHECK((program.find("G41 D7") != std::string::npos) == climb);
        CHECK((program.find("G42 D7") != std::string::npos) == !climb);
        CHECK(program.find("offset 7 must hold the radius 0.15") != std::string::npos);
    }
}

TEST_CASE("the ways in and out keep clear of the metal and meet the contour along its tangent") {
    for (const tool_compensation compensation : {tool_compensation::in_path, tool_compensation::by_machine}) {
        for (const cutting_direction direction : {cutting_direction::climb, cutting_direction::conventional}) {
            const std::vector<cut_contour> contours = pump_contours();
            const tool_path path = tool_path_round(contours, with(thin_wire, compensation, direction));
            for (const tool_cut& cut : path.cuts) {
                const dense_curve exact = dense_points_of(contours[cut.hole ? 1 : 0].shape.segments);
                const double clear = compensation == tool_compensation::in_path ? thin_wire.tool_radius : 0;
                REQUIRE(cut.lead_in.size() == 2);
                REQUIRE(cut.lead_out.size() == 2);
                CHECK(cut.lead_in[0].start == cut.start);
                CHECK(cut.lead_in[1].end == cut.contour.front().start);
                CHECK(cut.lead_out[0].start == cut.contour.back().end);
                CHECK(cut.contour.front().start == cut.contour.back().end);
                CHECK(dot(cut.lead_in[1].tangent_at_end(), cut.contour.front().tangent_at_start()) == doctest::Approx(1).epsilon(1e-12));
                CHECK(dot(cut.lead_out[0].tangent_at_start(), cut.contour.back().tangent_at_end()) == doctest::Approx(1).epsilon(1e-12));
                for (const auto* lead : {&cut.lead_in, &cut.lead_out}) {
                    for (const arc<double>& a : *lead) {
                        for (int i = 0; i <= 10; ++i) CHECK(exact.distance_to(a.position(i / 10.)) > clear - resolution);
                    }
                }
                for (std::size_t i = 0; i + 1 < cut.contour.size(); ++i) CHECK(cut.contour[i].end == cut.contour[i + 1].start);
            }
        }
    }
}

TEST_CASE("teeth that come to a point are entered straight at a tip") {
    const gear<double> pointed({.normal_module = 2, .teeth = 8, .profile_shift = 0.9});
    REQUIRE(pointed.tip_thickness() < 0);
    tool_path_options options = thin_wire;
    options.tool_radius = 0;
    const tool_path path = tool_path_round({contour_of(pointed)}, options);
    const tool_cut& cut = path.cuts[0];
    CHECK(cut.lead_in.size() == 1);
    CHECK(std::abs(cut.start.y) < 1e-9);
    CHECK(cut.start.x == doctest::Approx(pointed.effective_tip_diameter() / 2 + options.approach));
    CHECK_THROWS_AS(tool_path_round({contour_of(pointed)}, with(thin_wire, tool_compensation::by_machine, cutting_direction::climb)),
                    geometry_error);
    // With a tool that has a radius the path goes round the tip in an arc, which is entered in its middle.
    CHECK(tool_path_round({contour_of(pointed)}, thin_wire).cuts[0].lead_in.size() == 2);
}

TEST_CASE("milling goes down in equal passes no deeper than asked, at the feed for that, and travels at the clearance") {
    const tool_path path = tool_path_round({contour_of(pump_gear())}, thin_wire);
    for (const double pass : {6., 3., 2.5, 2., 0.7}) {
        milling machine = mill;
        machine.depth_of_pass = pass;
        std::vector<double> depths;
        double height = 1e9;
        bool compared = false;
        for (const block& b : blocks_of(program_of(path, machine))) {
            if (has(b, 'Z')) height = value(b, 'Z');
            if (has(b, 'Z') && text(b, 'G') == "G01") {
                depths.push_back(-height);
                CHECK(value(b, 'F') == 60);
                compared = false;
            }
            if (has(b, 'X') && text(b, 'G') == "G00") CHECK(height == 10);
            if (has(b, 'X') && text(b, 'G') != "G00" && !compared) {
                CHECK(value(b, 'F') == 300);
                compared = true;
            }
        }
        CHECK(depths.size() == static_cast<std::size_t>(std::ceil(6 / pass)));
        for (std::size_t i = 0; i < depths.size(); ++i) {
            CHECK(depths[i] == doctest::Approx(6. * static_cast<double>(i + 1) / static_cast<double>(depths.size())).epsilon(1e-3));
        }
        CHECK(depths.back() == 6);
    }
}

TEST_CASE("the wire stops where it is threaded, where it is cut, and before what it cuts out falls") {
    const tool_path path = tool_path_round(pump_contours(), thin_wire);
    const auto stops = [&](double before) {
        int count = 0;
        for (const block& b : blocks_of(program_of(path, wire_cutting{.feed = 2, .stop_before_end = before}))) count += text(b, 'M') == "M00";
        return count;
    };
    CHECK(stops(0) == 4);
    CHECK(stops(1) == 6);
    // From that stop to the end of the contour it is as long as asked.
    const std::string program = program_of(path, wire_cutting{.feed = 2, .stop_before_end = 3});
    const std::size_t stop = program.rfind("(hold");
    std::vector<move> all = moves_of(program);
    const std::size_t after = moves_of(program.substr(stop)).size();
    double way = 0;
    for (std::size_t i = all.size() - after; i + 2 < all.size(); ++i) {
        for (int k = 0; k < 50; ++k) way += length(at(all[i], (k + 1) / 50.) - at(all[i], k / 50.));
    }
    CHECK(way == doctest::Approx(3).epsilon(0.001));
}

TEST_CASE("what a tool does not reach is said, and a machine is not left to cut into the sides of a space") {
    const double largest = largest_tool_radius(pump_gear());
    tool_path_options options = thin_wire;
    options.tool_radius = 0.98 * largest;
    CHECK(tool_path_round(pump_contours(), options).cuts[1].unreached.empty());
    CHECK_NOTHROW(tool_path_round(pump_contours(), with(options, tool_compensation::by_machine, cutting_direction::climb)));
    options.tool_radius = 1.1 * largest;
    CHECK(tool_path_round(pump_contours(), options).cuts[1].unreached.size() >= 13);
    CHECK_THROWS_AS(tool_path_round(pump_contours(), with(options, tool_compensation::by_machine, cutting_direction::climb)), geometry_error);
    // The largest tool of an internal gear, the free side of which is the inner one.
    const gear<double> ring({.normal_module = 3, .teeth = 50, .kind = gear_kind::internal});
    const double of_ring = largest_tool_radius(ring);
    options.tool_radius = 0.98 * of_ring;
    CHECK(tool_path_round({contour_of(ring)}, options).cuts[0].unreached.empty());
    options.tool_radius = 1.1 * of_ring;
    CHECK(tool_path_round({contour_of(ring)}, options).cuts[0].unreached.size() >= 50);
    options.tool_radius = 80;
    CHECK_THROWS_AS(tool_path_round({contour_of(ring)}, options), geometry_error);
}

TEST_CASE("the same path is the same bytes, whatever the locale, and a full disk is reported") {
    const tool_path path = tool_path_round(pump_contours(), thin_wire);
    const std::string program = program_of(path, mill);
    const std::locale before = std::locale::global(std::locale(std::locale::classic(), new comma));
    CHECK(program_of(tool_path_round(pump_contours(), thin_wire), mill) == program);
    std::locale::global(before);
    for (const std::size_t room : {std::size_t{0}, std::size_t{1}, program.size() / 2, program.size() - 1}) {
        full_disk disk(room);
        std::ostream out(&disk);
        CHECK_THROWS_AS(write_gcode(out, path, mill), std::ios_base::failure);
    }
    full_disk disk(program.size());
    std::ostream out(&disk);
    CHECK_NOTHROW(write_gcode(out, path, mill));
}

TEST_CASE("remarks are plain and cannot end early; blocks are numbered, or not") {
    const tool_path path = tool_path_round(pump_contours(), thin_wire);
    const std::string program = program_of(path, slow, {.title = "Pump (no. 3)\n%M30; \xc3\xa4"});
    CHECK(program.find("(Pump  no. 3   M30    )\n") != std::string::npos);
    CHECK(std::count(program.begin(), program.end(), '%') == 2);
    int last = 0;
    for (const block& b : blocks_of(program)) {
        CHECK(value(b, 'N') == last + 1);
        ++last;
    }
    for (const block& b : blocks_of(program_of(path, slow, {.block_numbers = false}))) CHECK_FALSE(has(b, 'N'));
    const tool_path many = tool_path_round({contour_of(gear<double>({.normal_module = 1, .teeth = 500}))},
                                           {.tool_radius = 0.1, .tolerance = 0.0005, .approach = 1});
    double highest = 0;
    for (const block& b : blocks_of(program_of(many, mill))) highest = std::max(highest, value(b, 'N'));
    CHECK(highest == 9999);
}

TEST_CASE("impossible wishes are refused before the first byte") {
    const auto refused = [](auto change) {
        tool_path_options options = thin_wire;
        change(options);
        CHECK_THROWS_AS(tool_path_round(pump_contours(), options), geometry_error);
    };
    refused([](tool_path_options& o) { o.tool_radius = -0.1; });
    refused([](tool_path_options& o) { o.tool_radius = 7; }); // not into the bore
    refused([](tool_path_options& o) { o.tolerance = 0; });
    refused([](tool_path_options& o) { o.tolerance = std::nan(""); });
    refused([](tool_path_options& o) { o.approach = 0; });
    refused([](tool_path_options& o) { o.lead_radius = -1; });
    CHECK_THROWS_AS(tool_path_round({}, thin_wire), geometry_error);
    CHECK_THROWS_AS(circular_contour(0), geometry_error);

    const tool_path path = tool_path_round(pump_contours(), thin_wire);
    const auto unwritten = [&](const auto& machine, const gcode_options& options = {}) {
        std::ostringstream out;
        CHECK_THROWS_AS(write_gcode(out, path, machine, options), geometry_error);
        CHECK(out.str().empty());
    };
    unwritten(wire_cutting{});
    unwritten(wire_cutting{.feed = 1, .stop_before_end = -1});
    unwritten(slow, {.decimals = 2});
    unwritten(slow, {.offset_number = 0});
    milling machine = mill;
    machine.depth_of_pass = 0;
    unwritten(machine);
    machine = mill;
    machine.depth_of_pass = 1e-9;
    unwritten(machine);
    machine = mill;
    machine.clearance = 0;
    unwritten(machine);
}
