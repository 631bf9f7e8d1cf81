// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Draws outlines as arcs and as splines, and beside each drawing lists exact points of the outline.
//
//     dxf_curves_drawings FOLDER
//
// NAME.dxf is the drawing. NAME.txt begins with a line for each outline, "LAYER TOLERANCE"; after it, one a line, the points "X Y" of the
// closed outline in its order, so dense that chords between them stray by less than a fiftieth of the tolerance.
#include <rackwork/exchange/dxf.hpp>
#include <rackwork/form/outline.hpp>

#include <cmath>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>
#include <string_view>

namespace {

using namespace rackwork;

void list_points(std::ostream& out, std::string_view layer, const gear<double>& g, double tolerance, const placement<double>& where) {
    out << layer << ' ' << detail::exact_text(tolerance) << '\n';
    for (const segment<double>& s : outline_of(g).segments) {
        // Chords stray by length * turning / (8 n^2), if all is even; twice as many points as that needs.
        const double way = length(s.end - s.start) * 1.3;
        const int steps = 8 + static_cast<int>(2 * std::sqrt(way * 2 / (8 * 0.02 * tolerance)));
        for (int i = 0; i < steps; ++i) {
            const point<double> p = where(s.position(s.from + (s.to - s.from) * i / steps));
            out << detail::exact_text(p.x) << ' ' << detail::exact_text(p.y) << '\n';
        }
    }
}

void draw(const std::filesystem::path& folder, const std::string& name, const gear<double>& g, dxf_options options) {
    options.tolerance = options.tolerance.value_or(g.normal_module() / 1000);
    std::ofstream drawing(folder / (name + ".dxf"), std::ios::binary);
    write_dxf(drawing, g, options);
    std::ofstream points(folder / (name + ".txt"));
    list_points(points, "GEAR", g, *options.tolerance, {});
}

void draw_pair(const std::filesystem::path& folder, const std::string& name, const mesh<double>& pair, dxf_options options) {
    options.tolerance = options.tolerance.value_or(pair.pinion().normal_module() / 1000);
    std::ofstream drawing(folder / (name + ".dxf"), std::ios::binary);
    write_dxf(drawing, pair, options);
    const for_both<placement<double>> place = placement_in_mesh(pair);
    std::ofstream points(folder / (name + ".txt"));
    list_points(points, "PINION", pair.pinion(), *options.tolerance, place.pinion);
    list_points(points, "WHEEL", pair.wheel(), *options.tolerance, place.wheel);
}

} // namespace

int main(int argument_count, char** arguments) {
    try {
        if (argument_count != 2) return EXIT_FAILURE;
        const std::filesystem::path folder = arguments[1];
        const gear<double> spur({.normal_module = 2, .teeth = 17, .profile_shift = 0.2});
        const gear<double> helical({.normal_module = 3, .teeth = 11, .helix_angle = deg(25.), .profile_shift = 0.35});
        const gear<double> undercut({.normal_module = 4, .teeth = 8});
        const gear<double> ring({.normal_module = 2, .teeth = 50, .kind = gear_kind::internal});
        draw(folder, "spur_arcs", spur, {.curves = dxf_curves::arcs});
        draw(folder, "spur_splines", spur, {.curves = dxf_curves::splines});
        draw(folder, "helical_splines", helical, {.tolerance = 1e-4, .curves = dxf_curves::splines, .degree = 5});
        draw(folder, "helical_arcs", helical, {.tolerance = 0.01, .curves = dxf_curves::arcs});
        draw(folder, "undercut_rational", undercut, {.curves = dxf_curves::splines, .degree = 7, .arcs = arc_form::rational});
        draw(folder, "ring_splines", ring, {.curves = dxf_curves::splines, .arcs = arc_form::rational});
        const mesh<double> pair(gear<double>({.normal_module = 2, .teeth = 14, .profile_shift = 0.3}),
                                gear<double>({.normal_module = 2, .teeth = 23, .profile_shift = 0.1}));
        draw_pair(folder, "pair_splines", pair, {.curves = dxf_curves::splines});
        draw_pair(folder, "pair_arcs", pair, {.curves = dxf_curves::arcs});
        return EXIT_SUCCESS;
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return EXIT_FAILURE;
    }
}
