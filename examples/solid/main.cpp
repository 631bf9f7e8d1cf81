// Example solid: a helical pair in mesh as STEP and STL, for programs that take solids, and a picture of it.
#include "pair.hpp"
#include "picture.hpp"

#include <rackwork/exchange/step.hpp>
#include <rackwork/exchange/stl.hpp>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <functional>
#include <iostream>
#include <stdexcept>
#include <string>

namespace {

/// Writes a file and says how large it has become. The writers report a stream that does not take everything.
void write_file(const std::string& name, const std::function<void(std::ostream&)>& write) {
    std::ofstream out(name, std::ios::binary);
    write(out);
    out.flush();
    if (!out) throw std::runtime_error("The file " + name + " cannot be written.");
    std::printf("  %-12s %8.0f kB\n", name.c_str(), static_cast<double>(out.tellp()) / 1000);
}

void run() {
    using rackwork::brep_of;
    using rackwork::facets_of;
    const rackwork::brep pinion = brep_of(solid::pinion, solid::pinion_body);
    const rackwork::brep wheel = brep_of(solid::wheel, solid::wheel_body);
    std::printf("Winch of a sluice gate: %d and %d teeth at %.3f mm, normal backlash %.3f mm.\n", solid::pinion.teeth(),
                solid::wheel.teeth(), solid::pair.centre_distance(), solid::pair.normal_backlash());
    std::printf("Solids: %zu and %zu faces, within %.1e mm of the exact form.\n", pinion.faces.size(),
                wheel.faces.size(), std::max(pinion.deviation, wheel.deviation));
    write_file("pinion.step", [&](std::ostream& out) { write_step(out, pinion, {.name = "Winch pinion"}); });
    write_file("wheel.step", [&](std::ostream& out) { write_step(out, wheel, {.name = "Winch wheel"}); });
    write_file("pair.step", [&](std::ostream& out) {
        write_step(out, solid::in_mesh(pinion, wheel), {.name = "Winch pair in mesh"});
    });

    const rackwork::facet_options fine{.chordal_tolerance = 0.01};
    const auto printed = [&](const rackwork::gear<double>& g, const rackwork::body_parameters& body) {
        return facets_of(g, body, fine);
    };
    const rackwork::facet_solid fine_pinion = printed(solid::pinion, solid::pinion_body);
    const rackwork::facet_solid fine_wheel = printed(solid::wheel, solid::wheel_body);
    std::printf("Facets: %zu and %zu, within %.3f mm.\n", fine_pinion.facets.size(), fine_wheel.facets.size(),
                std::max(fine_pinion.deviation, fine_wheel.deviation));
    write_file("pinion.stl", [&](std::ostream& out) { write_stl(out, fine_pinion, {.header = "Winch pinion, mm"}); });
    write_file("wheel.stl", [&](std::ostream& out) { write_stl(out, fine_wheel, {.header = "Winch wheel, mm"}); });

    const rackwork::facet_options coarse{.chordal_tolerance = 0.4, .angular_tolerance = rackwork::deg(10.)};
    write_file("pair.svg", [&](std::ostream& out) {
        solid::draw(out,
                    solid::in_mesh(facets_of(solid::pinion, solid::pinion_body, coarse),
                                   facets_of(solid::wheel, solid::wheel_body, coarse)),
                    720);
    });
}

} // namespace

int main() {
    try {
        run();
        return EXIT_SUCCESS;
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return EXIT_FAILURE;
    }
}
