// Example gear_pair: the command line.
#include "options.hpp"

#include <CLI/CLI.hpp>

#include <cstdlib>
#include <iostream>
#include <map>

namespace gear_pair {

namespace {

const std::map<std::string, rackwork::standard_rack> racks{
    {"iso-53-a", rackwork::iso_53_a},
    {"iso-53-b", rackwork::iso_53_b},
    {"iso-53-c", rackwork::iso_53_c},
    {"iso-53-d", rackwork::iso_53_d},
    {"coarse-20", rackwork::ansi_b6_1_coarse_20},
    {"coarse-25", rackwork::ansi_b6_1_coarse_25},
    {"full-depth-14.5", rackwork::asa_b6_1_full_depth_14_5},
    {"stub-20", rackwork::asa_b6_1_stub_20},
};

const char* const rack_help =
    "basic rack: iso-53-a (default), iso-53-b, iso-53-c, iso-53-d; inch standards: coarse-20, coarse-25 (ANSI B6.1), "
    "full-depth-14.5, stub-20 (ASA B6.1), fine-20 (ANSI B6.7, with --diametral-pitch)";

void add_gear_options(CLI::App& app, const std::string& name, gear_options& gear) {
    const std::string group = name == "pinion" ? "Pinion" : "Wheel";
    app.add_option("--" + name + "-teeth", gear.teeth, "number of teeth")->group(group);
    app.add_option("--" + name + "-shift", gear.profile_shift, "profile shift coefficient x")->group(group);
    app.add_option("--" + name + "-allowance", gear.thickness_allowance,
                   "tooth thickness allowance E_sn, normal section; negative thins the teeth")
        ->group(group);
    app.add_option("--" + name + "-span", gear.teeth_spanned, "number of teeth to span")->group(group);
    app.add_option("--" + name + "-pin", gear.pin_diameter, "diameter of the measuring pins or balls")->group(group);
}

/// A pair of the project's own: the last stage of a hand-cranked grain mill.
void use_grain_mill(options& o) {
    o.module = 3;
    o.pinion.teeth = 15;
    o.wheel.teeth = 46;
    o.centre_distance = 92;
    o.face_width = 25;
    o.backlash = 0.12;
}

rackwork::basic_rack<double> chosen_rack(const std::string& name, const std::optional<double>& diametral_pitch) {
    if (name == "fine-20") {
        if (!diametral_pitch) throw usage_error("The rack fine-20 depends on the diametral pitch: give --diametral-pitch.");
        return rackwork::ansi_b6_7_fine_20(*diametral_pitch);
    }
    const auto found = racks.find(name);
    if (found == racks.end()) throw usage_error("There is no rack called '" + name + "'; --help lists them.");
    return found->second;
}

} // namespace

options read_options(int argument_count, char** arguments) {
    options o;
    std::optional<double> module;
    std::optional<double> diametral_pitch;
    std::optional<double> pressure_angle;
    std::optional<double> addendum;
    std::optional<double> dedendum;
    std::optional<double> root_fillet_radius;
    std::optional<double> tolerance;
    o.rack_name = "iso-53-a";

    CLI::App app{"Sizes, inspection data, findings and drawings of a pair of external involute gears, spur or helical.\n"
                 "Without options it works on the last stage of a hand-cranked grain mill: 15 and 46 teeth of module 3 at 92 mm.\n"
                 "Lengths are millimetres; with --diametral-pitch they are inches. Angles are degrees.",
                 "gear_pair"};
    app.add_option("--module", module, "normal module, mm")->group("Pair");
    app.add_option("--diametral-pitch", diametral_pitch, "normal diametral pitch, teeth per inch")->group("Pair");
    app.add_option("--pressure-angle", pressure_angle, "normal pressure angle, in place of the rack's own")->group("Pair");
    app.add_option("--helix", o.helix_angle, "helix angle of the pinion, right hand positive")->group("Pair");
    app.add_option("--centre-distance", o.centre_distance,
                   "centre distance; shifts that are not given then follow from it and are split between the gears")
        ->group("Pair");
    app.add_option("--face-width", o.face_width, "face width of both gears")->group("Pair");
    app.add_option("--backlash", o.backlash, "normal backlash, made by thinning the teeth of both gears alike")->group("Pair");
    app.add_flag("--keep-clearance", o.keep_clearance, "shorten both tips so that the bottom clearance of the rack is kept")
        ->group("Pair");
    app.add_option("--rack", o.rack_name, rack_help)->group("Rack");
    app.add_option("--addendum", addendum, "addendum factor, in place of the rack's own")->group("Rack");
    app.add_option("--dedendum", dedendum, "dedendum factor, in place of the rack's own")->group("Rack");
    app.add_option("--fillet-radius", root_fillet_radius, "root fillet radius factor, in place of the rack's own")->group("Rack");
    add_gear_options(app, "pinion", o.pinion);
    add_gear_options(app, "wheel", o.wheel);
    app.add_option("--tolerance", tolerance, "chordal tolerance of the drawings; a thousandth of the module unless given")
        ->group("Output");
    app.add_option("--folder", o.folder, "folder for the drawings; gear_pair_drawings unless given")->group("Output");
    app.add_flag("--values", o.values,
                 "print one name<TAB>value<TAB>unit a line instead of tables, and draw only if a folder is given")
        ->group("Output");

    try {
        app.parse(argument_count, arguments);
    } catch (const CLI::CallForHelp& help) {
        app.exit(help);
        std::exit(EXIT_SUCCESS);
    } catch (const CLI::ParseError& error) {
        throw usage_error(error.what());
    }

    if (module && diametral_pitch) throw usage_error("Give either --module or --diametral-pitch, not both.");
    const bool own_pair = module || diametral_pitch || o.pinion.teeth != 0 || o.wheel.teeth != 0;
    if (own_pair) {
        if (!module && !diametral_pitch) throw usage_error("Give --module or --diametral-pitch with the numbers of teeth.");
        if (o.pinion.teeth == 0 || o.wheel.teeth == 0) throw usage_error("Give both --pinion-teeth and --wheel-teeth, at least 1.");
        o.inch = diametral_pitch.has_value();
        o.module = module ? *module : rackwork::module_from_diametral_pitch(*diametral_pitch);
    } else {
        const options asked = o;
        use_grain_mill(o);
        if (asked.centre_distance) o.centre_distance = asked.centre_distance;
        if (asked.face_width != 0) o.face_width = asked.face_width;
        if (asked.backlash) o.backlash = asked.backlash;
        const bool thinned = asked.pinion.thickness_allowance || asked.wheel.thickness_allowance;
        if (thinned && !asked.backlash) o.backlash.reset();
    }
    if (o.backlash && (o.pinion.thickness_allowance || o.wheel.thickness_allowance)) {
        throw usage_error("Give either --backlash or thickness allowances, not both.");
    }

    o.rack = chosen_rack(o.rack_name, diametral_pitch);
    if (pressure_angle || addendum || dedendum || root_fillet_radius) o.rack_name += ", altered";
    if (pressure_angle) o.rack.pressure_angle = rackwork::deg(*pressure_angle);
    if (addendum) o.rack.addendum = *addendum;
    if (dedendum) o.rack.dedendum = *dedendum;
    if (root_fillet_radius) o.rack.root_fillet_radius = *root_fillet_radius;
    o.tolerance = tolerance ? *tolerance : o.module / 1000;
    return o;
}

} // namespace gear_pair
