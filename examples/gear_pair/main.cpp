// Example gear_pair: numbers of a pair in, its data tables, findings and drawings out.
#include "design.hpp"
#include "options.hpp"
#include "report.hpp"
#include "values.hpp"

#include <rackwork/core/error.hpp>
#include <rackwork/exchange/dxf.hpp>
#include <rackwork/exchange/svg.hpp>

#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iostream>
#include <string>

namespace {

using namespace gear_pair;

/// Writes a file whole or not at all: under another name first, which takes the file's own when everything is on the disk.
void write_whole(const std::filesystem::path& path, const std::function<void(std::ostream&)>& write) {
    const std::filesystem::path unfinished = path.string() + ".unfinished";
    try {
        std::ofstream out(unfinished, std::ios::binary);
        if (!out) throw usage_error("The file " + path.string() + " cannot be written.");
        out.exceptions(std::ios::badbit | std::ios::failbit);
        write(out);
        out.close();
        std::filesystem::rename(unfinished, path);
    } catch (...) {
        std::error_code ignored;
        std::filesystem::remove(unfinished, ignored);
        throw;
    }
}

void draw(const rackwork::mesh<double>& m, const options& o, const std::filesystem::path& folder) {
    const rackwork::length_unit unit = o.inch ? rackwork::length_unit::inch : rackwork::length_unit::millimetre;
    const std::string title =
        "Gears of " + std::to_string(m.pinion().teeth()) + " and " + std::to_string(m.wheel().teeth()) + " teeth in mesh";
    std::error_code failed;
    std::filesystem::create_directories(folder, failed);
    if (failed) throw usage_error("The folder " + folder.string() + " cannot be made: " + failed.message() + ".");
    write_whole(folder / "pair.svg", [&](std::ostream& out) {
        rackwork::write_svg(out, m, rackwork::svg_options{.tolerance = o.tolerance, .unit = unit, .title = title});
    });
    write_whole(folder / "pinion.dxf", [&](std::ostream& out) {
        rackwork::write_dxf(out, m.pinion(), rackwork::dxf_options{.tolerance = o.tolerance, .unit = unit});
    });
    write_whole(folder / "wheel.dxf", [&](std::ostream& out) {
        rackwork::write_dxf(out, m.wheel(), rackwork::dxf_options{.tolerance = o.tolerance, .unit = unit});
    });
}

} // namespace

int main(int argument_count, char** arguments) {
    try {
        const options o = read_options(argument_count, arguments);
        const rackwork::mesh<double> m = design_pair(o);
        const sheet s = make_sheet(m, o);
        const bool drawn = !o.values || o.folder;
        const std::filesystem::path folder = o.folder.value_or("gear_pair_drawings");
        if (drawn) draw(m, o, folder);
        if (o.values) {
            print_values(std::cout, s);
        } else {
            print_report(std::cout, m, o, s);
            std::cout << "\nDrawings: pair.svg, pinion.dxf and wheel.dxf in the folder " << std::filesystem::absolute(folder).lexically_normal().string()
                      << '\n';
        }
        std::cout.flush();
        if (!std::cout) throw usage_error("The output could not be written.");
        return EXIT_SUCCESS;
    } catch (const std::exception& error) {
        std::cerr << "gear_pair: " << error.what() << '\n';
        return EXIT_FAILURE;
    }
}
