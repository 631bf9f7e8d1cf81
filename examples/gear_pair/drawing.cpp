// Example gear_pair: the drawings.
#include "drawing.hpp"

#include "rack_picture.hpp"

#include <rackwork/exchange/dxf.hpp>
#include <rackwork/exchange/svg.hpp>

#include <fstream>
#include <functional>
#include <ostream>

namespace gear_pair {

namespace {

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

void make_folder(const std::filesystem::path& folder) {
    std::error_code failed;
    std::filesystem::create_directories(folder, failed);
    if (failed) throw usage_error("The folder " + folder.string() + " cannot be made: " + failed.message() + ".");
}

rackwork::length_unit unit_of(const options& o) {
    return o.inch ? rackwork::length_unit::inch : rackwork::length_unit::millimetre;
}

void write_gear_dxf(const std::filesystem::path& path, const rackwork::gear<double>& g, const rackwork::generated_root<double>& root,
                    const options& o) {
    write_whole(path, [&](std::ostream& out) {
        rackwork::write_dxf(out, g, root, rackwork::dxf_options{.tolerance = o.tolerance, .unit = unit_of(o)});
    });
}

} // namespace

std::string draw(const rackwork::mesh<double>& m, const options& o, const std::filesystem::path& folder) {
    const std::string title = (m.is_internal() ? "Pinion of " + std::to_string(m.pinion().teeth()) + " teeth in an internal gear of "
                                               : "Gears of " + std::to_string(m.pinion().teeth()) + " and ") +
                              std::to_string(m.wheel().teeth()) + (m.is_internal() ? "" : " teeth in mesh");
    make_folder(folder);
    write_whole(folder / "pair.svg", [&](std::ostream& out) {
        rackwork::write_svg(out, m, rackwork::svg_options{.tolerance = o.tolerance, .unit = unit_of(o), .title = title});
    });
    write_gear_dxf(folder / "pinion.dxf", m.pinion(), m.pinion_root(), o);
    write_gear_dxf(folder / "wheel.dxf", m.wheel(), m.wheel_root(), o);
    return "pair.svg, pinion.dxf and wheel.dxf";
}

std::string draw(const rackwork::rack_mesh<double>& m, const options& o, const std::filesystem::path& folder) {
    make_folder(folder);
    write_whole(folder / "pair.svg", [&](std::ostream& out) { write_rack_picture(out, m, o); });
    write_gear_dxf(folder / "pinion.dxf", m.pinion(), m.pinion_root(), o);
    return "pair.svg and pinion.dxf";
}

} // namespace gear_pair
