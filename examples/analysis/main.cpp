// Example analysis: what happens between the teeth of one pair, in numbers and in six pictures.
//
// The pair drives the piston pump of an orchard sprayer from its gearbox: helical, module 2.5, 23 and 57 teeth, 34 mm wide. The files are
// written into the current directory.
#include <rackwork/rackwork.hpp>

#include <rackwork/exchange/plot_contact.hpp>
#include <rackwork/exchange/plot_design.hpp>
#include <rackwork/exchange/plot_svg.hpp>

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <stdexcept>
#include <string>

namespace {

using namespace rackwork;
using namespace rackwork::literals;

void write(const std::string& name, const plot& picture) {
    std::ofstream file(name, std::ios::binary);
    if (!file) throw std::runtime_error("The file " + name + " cannot be written.");
    write_svg(file, picture);
    std::printf("  %-26s %s\n", name.c_str(), picture.description.c_str());
}

void print(const char* what, double pinion, double wheel, const char* unit) {
    std::printf("  %-44s %10.4f %10.4f  %s\n", what, pinion, wheel, unit);
}

void analyse() {
    const shiftable_pair<double> blank{
        .normal_module = 2.5, .pinion_teeth = 23, .wheel_teeth = 57, .helix_angle = 16_deg, .face_width = 34};
    const shift_choice<double> shifts = choose_profile_shift(blank, 105.0);
    const mesh<double> pair = blank.with(shifts.profile_shift);
    const path_of_contact<double> path(pair);
    const contact_lines<double> lines(pair);

    std::printf("Orchard sprayer's pump drive: 23 and 57 teeth, module 2.5 mm, helix 16 degrees, centre distance %.3f mm\n\n",
                pair.centre_distance());
    std::printf("  %-44s %10s %10s\n", "", "pinion", "wheel");
    print("profile shift coefficient", pair.pinion().profile_shift(), pair.wheel().profile_shift(), "");
    print("tip diameter", pair.pinion().tip_diameter(), pair.wheel().tip_diameter(), "mm");
    print("active root diameter", pair.active_root_diameter().pinion, pair.active_root_diameter().wheel, "mm");
    print("specific sliding where the mate's tip works", path.point_a().specific_sliding().pinion, path.point_e().specific_sliding().wheel,
          "");
    print("radius of curvature at the pitch point", path.point_c().curvature_radius().pinion, path.point_c().curvature_radius().wheel,
          "mm");
    const tooth_root<double> of_pinion = root_under_tip_load(pair.pinion());
    const tooth_root<double> of_wheel = root_under_tip_load(pair.wheel());
    print("chord of the critical section, s_Fn", of_pinion.chord, of_wheel.chord, "mm");
    print("form factor, Y_Fa", of_pinion.form_factor(), of_wheel.form_factor(), "");
    print("stress correction factor, Y_Sa", of_pinion.stress_correction_factor(), of_wheel.stress_correction_factor(), "");
    std::printf("\n  contact ratio %.3f transverse, %.3f by overlap, %.3f in all\n", pair.transverse_contact_ratio(),
                pair.overlap_contact_ratio(), pair.total_contact_ratio());
    std::printf("  contact lines %.2f to %.2f mm long in all, %.2f mm in the mean\n", lines.least_total_length(),
                lines.greatest_total_length(), lines.mean_total_length());
    std::printf("  zone factor Z_H %.3f, contact ratio factors Z_eps %.3f and Y_eps %.3f\n\n", zone_factor(pair),
                contact_ratio_factor_for_flank(pair), contact_ratio_factor_for_root(pair));

    for (const finding<double>& f : findings(pair)) std::printf("  Note: %s\n", f.sentence);
    std::puts("\nPictures:");
    write("analysis_sliding.svg", sliding_plot(pair));
    write("analysis_curvature.svg", curvature_plot(pair));
    write("analysis_contact_lines.svg", contact_lines_plot(pair));
    write("analysis_line_length.svg", contact_line_length_plot(pair));
    write("analysis_shifts.svg", shift_region_plot(shift_region<double>(blank), shifts.profile_shift));
    write("analysis_root.svg", root_section_plot(pair.pinion()));
    std::puts("\nGeometry only. Rating the pair is for ISO 6336, or the code in force where it runs, in licensed hands.");
}

} // namespace

int main() {
    try {
        analyse();
        return EXIT_SUCCESS;
    } catch (const std::exception& error) {
        std::fprintf(stderr, "analysis: %s\n", error.what());
        return EXIT_FAILURE;
    }
}
