// Example cam_path: from the numbers of a gear to programs for two machines. The gear hoists the gate of a sluice: 19 teeth of module 4.
// A wire cuts it out of plate with its bore; a cutter mills a second one, whose bore is turned.
//
// Programs hold nothing but words of ISO 6983. Prove each in the air before it meets metal: what a control does with a word is
// written in its own manual, and local rules for working with the machine stand above all of this.
#include "picture.hpp"

#include <rackwork/exchange/gcode.hpp>

#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <stdexcept>

namespace {

using namespace rackwork;

const gear<double> hoist_gear({.normal_module = 4, .teeth = 19, .profile_shift = 0.1, .thickness_allowance = -0.06});
constexpr double bore = 30;

/// The wire is 0.25 mm thick and burns 0.02 mm more on either side; the cutter is 3 mm thick.
const tool_path_options by_wire{.tool_radius = 0.25 / 2 + 0.02, .tolerance = 0.002, .approach = 3, .lead_radius = 1};
const tool_path_options by_cutter{.tool_radius = 3. / 2, .tolerance = 0.004, .approach = 2, .lead_radius = 2};

template <class Write>
void write_file(const std::filesystem::path& path, const Write& write) {
    std::ofstream out(path, std::ios::binary);
    write(out);
    out.close();
    if (!out) throw std::runtime_error("The file " + path.string() + " could not be written.");
    std::cout << "    " << path.string() << '\n';
}

void tell(const char* what, const tool_path& path) {
    std::size_t pieces = 0;
    std::size_t unreached = 0;
    for (const tool_cut& cut : path.cuts) {
        pieces += cut.contour.size();
        unreached += cut.unreached.size();
    }
    std::cout << what << ": " << path.cuts.size() << " contours of " << pieces << " lines and arcs, off by " << path.deviation * 1000
              << " um at most (" << path.tolerance * 1000 << " um with the rounding of the numbers), "
              << (unreached == 0 ? "the whole form is reached" : "the tool is too large for the roots") << '\n';
}

} // namespace

int main() {
    try {
        const std::vector<cut_contour> with_bore{contour_of(hoist_gear), circular_contour(bore)};
        const std::vector<cut_contour> teeth{contour_of(hoist_gear)};
        const tool_path wire = tool_path_round(with_bore, by_wire);
        const tool_path mill = tool_path_round(teeth, by_cutter);

        std::cout << "The whole form can be cut with a tool of up to " << 2 * largest_tool_radius(hoist_gear) << " mm diameter.\n";
        tell("Wire", wire);
        tell("Cutter", mill);

        const std::filesystem::path folder = "cam_path_programs";
        std::filesystem::create_directories(folder);
        std::cout << "Written:\n";
        write_file(folder / "wire.nc", [&](std::ostream& out) {
            write_gcode(out, wire, wire_cutting{.feed = 2.5, .stop_before_end = 2}, {.title = "sluice hoist gear"});
        });
        write_file(folder / "mill.nc", [&](std::ostream& out) {
            write_gcode(out, mill,
                        milling{.feed = 240, .plunge_feed = 60, .spindle_speed = 6400, .depth = 12, .depth_of_pass = 1.5, .clearance = 10},
                        {.title = "sluice hoist gear"});
        });
        // The same again with the machine's own compensation: the program is the outline, and the tool's radius an entry of its table.
        tool_path_options left_to_machine = by_cutter;
        left_to_machine.compensation = tool_compensation::by_machine;
        write_file(folder / "mill_by_offset.nc", [&](std::ostream& out) {
            write_gcode(out, tool_path_round(teeth, left_to_machine),
                        milling{.feed = 240, .plunge_feed = 60, .spindle_speed = 6400, .depth = 12, .depth_of_pass = 1.5, .clearance = 10},
                        {.offset_number = 1, .title = "sluice hoist gear"});
        });
        write_file(folder / "paths.svg", [&](std::ostream& out) {
            const double tip = hoist_gear.tip_diameter() / 2;
            cam_path::write_picture(out, with_bore, {{"wire: its middle", "#0060c0", wire}, {"3 mm cutter: its middle", "#d05000", mill}},
                                    tip + 8, {tip - 3, 0}, 11);
        });
        std::cout << "Prove the programs in the air before they meet metal.\n";
        return EXIT_SUCCESS;
    } catch (const std::exception& error) {
        std::cerr << "cam_path: " << error.what() << '\n';
        return EXIT_FAILURE;
    }
}
