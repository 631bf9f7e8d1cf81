// Example gear_pair: the command line.
#include "options.hpp"

#include <CLI/CLI.hpp>

#include <cmath>
#include <cstdlib>
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

/// What is read before it is known how it fits together.
struct raw_input {
    options o;
    std::optional<double> module;
    std::optional<double> diametral_pitch;
    std::optional<double> pressure_angle;
    std::optional<double> addendum;
    std::optional<double> dedendum;
    std::optional<double> root_fillet_radius;
    std::optional<double> tolerance;
};

void add_allowance_options(CLI::App& app, const std::string& prefix, const std::string& group, allowance_options& allowance) {
    app.add_option(prefix + "-allowance", allowance.nominal,
                   "tooth thickness allowance E_sn, normal section; negative thins the teeth")
        ->group(group);
    app.add_option(prefix + "-upper-allowance", allowance.upper,
                   "upper thickness allowance E_sns; sizes are then computed at the mean of upper and lower")
        ->group(group);
    app.add_option(prefix + "-lower-allowance", allowance.lower, "lower thickness allowance E_sni")->group(group);
}

void add_gear_options(CLI::App& app, const std::string& name, gear_options& gear) {
    const std::string group = name == "pinion" ? "Pinion" : "Wheel";
    const std::string prefix = "--" + name;
    const std::string cut = "pinion-type cutter that makes the " + name + ": ";
    app.add_option(prefix + "-teeth", gear.teeth, "number of teeth")->group(group);
    app.add_option(prefix + "-shift", gear.profile_shift,
                   "profile shift coefficient x; positive thickens the teeth, of an internal gear too")
        ->group(group);
    app.add_option(prefix + "-tip-alteration", gear.tip_alteration, "tip alteration coefficient k; negative shortens the tips")
        ->group(group);
    add_allowance_options(app, prefix, group, gear.allowance);
    app.add_option(prefix + "-chamfer", gear.tip_chamfer, "height of a 45 degree chamfer on the tip edges, a length")->group(group);
    app.add_option(prefix + "-tip-rounding", gear.tip_rounding, "radius of the rounding of the tip edges, a length")->group(group);
    app.add_option(prefix + "-span", gear.teeth_spanned, "number of teeth to span")->group(group);
    app.add_option(prefix + "-pin", gear.pin_diameter, "diameter of the measuring pins or balls")->group(group);
    app.add_option(prefix + "-cutter-teeth", gear.cutter.teeth, cut + "its number of teeth")->group(group);
    app.add_option(prefix + "-cutter-shift", gear.cutter.profile_shift, cut + "its profile shift coefficient; 0 unless given")
        ->group(group);
    app.add_option(prefix + "-cutter-addendum", gear.cutter.addendum,
                   cut + "its addendum factor; the rack's dedendum factor unless given")
        ->group(group);
    app.add_option(prefix + "-cutter-tip-radius", gear.cutter.tip_radius,
                   cut + "its tip radius factor; the rack's fillet radius, or the full radius if that is smaller, unless given")
        ->group(group);
}

void add_pair_options(CLI::App& app, raw_input& in) {
    options& o = in.o;
    app.add_option("--module", in.module, "normal module, mm")->group("Pair");
    app.add_option("--diametral-pitch", in.diametral_pitch, "normal diametral pitch, teeth per inch")->group("Pair");
    app.add_option("--pressure-angle", in.pressure_angle, "normal pressure angle, in place of the rack's own")->group("Pair");
    app.add_option("--helix", o.helix_angle, "helix angle of the pinion, right hand positive")->group("Pair");
    app.add_option("--centre-distance", o.centre_distance,
                   "centre distance; shifts that are not given then follow from it: split between external gears, an internal wheel's "
                   "from the pinion's")
        ->group("Pair");
    app.add_option("--face-width", o.face_width, "face width of both gears")->group("Pair");
    app.add_option("--backlash", o.backlash, "normal backlash, made by thinning the teeth of both gears alike")->group("Pair");
    app.add_flag("--keep-clearance", o.keep_clearance, "alter both tips so that the bottom clearance of the rack is kept")
        ->group("Pair");
    app.add_flag("--internal", o.internal, "the wheel is an internal gear, with the pinion inside it")->group("Pair");
}

void add_rack_options(CLI::App& app, raw_input& in) {
    options& o = in.o;
    app.add_option("--rack", o.rack_name, rack_help)->group("Basic rack");
    app.add_option("--addendum", in.addendum, "addendum factor, in place of the rack's own")->group("Basic rack");
    app.add_option("--dedendum", in.dedendum, "dedendum factor, in place of the rack's own")->group("Basic rack");
    app.add_option("--fillet-radius", in.root_fillet_radius, "root fillet radius factor, in place of the rack's own")
        ->group("Basic rack");

    toothed_rack_options& mate = o.mating_rack;
    const char* const group = "Toothed rack as mate";
    app.add_flag("--toothed-rack", o.toothed_rack, "the pinion runs on a toothed rack of the basic rack's proportions, in place of a wheel")
        ->group(group);
    app.add_option("--pinion-height", mate.pinion_height,
                   "height of the pinion's axis over the rack's mounting face; unless given, where the shifted teeth alone have no "
                   "backlash")
        ->group(group);
    app.add_option("--datum-height", mate.datum_height,
                   "height of the rack's datum line over its mounting face; heights count from the datum line unless given")
        ->group(group);
    add_allowance_options(app, "--toothed-rack", group, mate.allowance);
    app.add_option("--toothed-rack-pin", mate.pin_diameter, "diameter of the measuring pin in the rack's spaces")->group(group);
}

void add_tool_options(CLI::App& app, hob_options& hob) {
    const char* const group = "Hob or rack cutter (for external gears without a pinion-type cutter; factors of the module)";
    app.add_option("--hob-addendum", hob.addendum, "addendum factor of the tool; the rack's dedendum factor unless given")->group(group);
    app.add_option("--hob-tip-radius", hob.tip_radius, "tip radius factor of the tool; the rack's fillet radius unless given")
        ->group(group);
    app.add_option("--protuberance", hob.protuberance, "protuberance factor: how far the tip stands out of the tool's flank")->group(group);
    app.add_option("--protuberance-angle", hob.protuberance_angle, "angle of the protuberance's edge; 0 unless given")->group(group);
    app.add_option("--finishing-allowance", hob.finishing_allowance, "stock factor left on either flank for finishing")->group(group);
    app.add_option("--hob-chamfer-height", hob.chamfer_height,
                   "of a semi-topping tool: height factor over the datum line from which it chamfers the gear's tips")
        ->group(group);
    app.add_option("--hob-chamfer-angle", hob.chamfer_angle, "pressure angle of the tool's chamfering flank; 45 unless given")
        ->group(group);
}

void add_limit_options(CLI::App& app, options& o) {
    app.add_option("--tolerance-class", o.tolerance_class, "flank tolerance class of ISO 1328-1, 1 to 11, for both gears")
        ->group("Limits");
    app.add_option("--distance-deviation", o.distance_deviation,
                   "permissible deviation of the centre distance (on a toothed rack: of the pinion's height), plus and minus")
        ->group("Limits");
}

void add_output_options(CLI::App& app, raw_input& in) {
    app.add_option("--tolerance", in.tolerance, "chordal tolerance of the drawings; a thousandth of the module unless given")
        ->group("Output");
    app.add_option("--folder", in.o.folder, "folder for the drawings; gear_pair_drawings unless given")->group("Output");
    app.add_flag("--values", in.o.values,
                 "print one name<TAB>value<TAB>unit a line instead of tables, and draw only if a folder is given")
        ->group("Output");
}

/// A pair of the project's own: the last stage of a hand-cranked grain mill. What is asked for besides stands.
void use_grain_mill(options& o) {
    o.module = 3;
    o.pinion.teeth = 15;
    o.wheel.teeth = 46;
    if (!o.centre_distance) o.centre_distance = 92;
    if (o.face_width == 0) o.face_width = 25;
    if (!o.distance_deviation) o.distance_deviation = 0.045;
    if (!o.tolerance_class) o.tolerance_class = 9;
    if (!o.backlash && !o.pinion.allowance.stated() && !o.wheel.allowance.stated()) {
        o.pinion.allowance = {.nominal = {}, .upper = -0.09, .lower = -0.15};
        o.wheel.allowance = {.nominal = {}, .upper = -0.09, .lower = -0.16};
    }
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

void check_allowances(const allowance_options& allowance, const std::string& prefix) {
    const std::string both = prefix + "-upper-allowance and " + prefix + "-lower-allowance";
    if (allowance.upper.has_value() != allowance.lower.has_value()) throw usage_error("Give both " + both + ", or neither.");
    if (allowance.nominal && allowance.upper) throw usage_error("Give either " + prefix + "-allowance or " + both + ".");
    if (allowance.upper && !(*allowance.lower <= *allowance.upper)) {
        throw usage_error("The value of " + prefix + "-lower-allowance must not be greater than that of " + prefix + "-upper-allowance.");
    }
}

void check_cutter(const pinion_cutter_options& cutter, const std::string& name) {
    if (!cutter.teeth && (cutter.profile_shift || cutter.addendum || cutter.tip_radius)) {
        throw usage_error("Give --" + name + "-cutter-teeth with the other numbers of that cutter.");
    }
}

void check_toothed_rack(const options& o) {
    if (!o.toothed_rack) {
        if (o.mating_rack.stated()) throw usage_error("The numbers of a toothed rack need --toothed-rack.");
        return;
    }
    const gear_options& w = o.wheel;
    const bool wheel = w.teeth != 0 || w.profile_shift || w.tip_alteration || w.allowance.stated() || w.tip_chamfer || w.tip_rounding ||
                       w.teeth_spanned || w.pin_diameter || w.cutter.teeth;
    if (o.internal || wheel) throw usage_error("With --toothed-rack there is no wheel: leave out --internal and the wheel's options.");
    if (o.centre_distance) throw usage_error("With --toothed-rack give --pinion-height in place of --centre-distance.");
    if (o.keep_clearance) throw usage_error("On a toothed rack the bottom clearance is the basic rack's: leave out --keep-clearance.");
}

void check_together(const options& o) {
    check_allowances(o.pinion.allowance, "--pinion");
    check_allowances(o.wheel.allowance, "--wheel");
    check_allowances(o.mating_rack.allowance, "--toothed-rack");
    check_cutter(o.pinion.cutter, "pinion");
    check_cutter(o.wheel.cutter, "wheel");
    check_toothed_rack(o);
    if (o.backlash && (o.pinion.allowance.stated() || o.wheel.allowance.stated() || o.mating_rack.allowance.stated())) {
        throw usage_error("Give either --backlash or thickness allowances, not both.");
    }
    if (o.keep_clearance && (o.pinion.tip_alteration || o.wheel.tip_alteration)) {
        throw usage_error("Give either --keep-clearance or tip alterations, not both.");
    }
    if (o.hob.stated() && o.pinion.cutter.teeth && (o.internal || o.toothed_rack || o.wheel.cutter.teeth)) {
        throw usage_error("No gear is left for the hob: what it could cut has a pinion-type cutter.");
    }
    if (o.tolerance_class && (*o.tolerance_class < 1 || *o.tolerance_class > 11)) {
        throw usage_error("ISO 1328-1 has the tolerance classes 1 to 11.");
    }
    if (o.internal && o.pinion.teeth != 0 && o.wheel.teeth != 0 && o.wheel.teeth <= o.pinion.teeth) {
        throw usage_error("An internal wheel needs more teeth than its pinion.");
    }
    if (o.distance_deviation && !(*o.distance_deviation >= 0 && std::isfinite(*o.distance_deviation))) {
        throw usage_error("The value of --distance-deviation must be a number of at least 0.");
    }
}

/// Fits together what has been read.
options settled(raw_input in) {
    options& o = in.o;
    if (in.module && in.diametral_pitch) throw usage_error("Give either --module or --diametral-pitch, not both.");
    const bool own_pair = in.module || in.diametral_pitch || o.pinion.teeth != 0 || o.wheel.teeth != 0 || o.internal || o.toothed_rack;
    check_together(o);
    if (own_pair) {
        if (!in.module && !in.diametral_pitch) throw usage_error("Give --module or --diametral-pitch with the numbers of teeth.");
        if (o.toothed_rack && o.pinion.teeth == 0) throw usage_error("Give --pinion-teeth, at least 1, with --toothed-rack.");
        if (!o.toothed_rack && (o.pinion.teeth == 0 || o.wheel.teeth == 0)) {
            throw usage_error("Give both --pinion-teeth and --wheel-teeth, at least 1.");
        }
        o.inch = in.diametral_pitch.has_value();
        o.module = in.module ? *in.module : rackwork::module_from_diametral_pitch(*in.diametral_pitch);
    } else {
        use_grain_mill(o);
    }

    o.rack = chosen_rack(o.rack_name, in.diametral_pitch);
    if (in.pressure_angle || in.addendum || in.dedendum || in.root_fillet_radius) o.rack_name += ", altered";
    if (in.pressure_angle) o.rack.pressure_angle = rackwork::deg(*in.pressure_angle);
    if (in.addendum) o.rack.addendum = *in.addendum;
    if (in.dedendum) o.rack.dedendum = *in.dedendum;
    if (in.root_fillet_radius) o.rack.root_fillet_radius = *in.root_fillet_radius;
    o.tolerance = in.tolerance ? *in.tolerance : o.module / 1000;
    return o;
}

} // namespace

options read_options(int argument_count, char** arguments) {
    raw_input in;
    in.o.rack_name = "iso-53-a";
    CLI::App app{"Sizes, inspection data, limits, findings and drawings of a pair of involute gears, spur or helical:\n"
                 "two external gears, a pinion in an internal wheel, or a pinion on a toothed rack.\n"
                 "Without options it works on the last stage of a hand-cranked grain mill: 15 and 46 teeth of module 3 at 92 mm.\n"
                 "Lengths are millimetres; with --diametral-pitch they are inches. Angles are degrees.",
                 "gear_pair"};
    add_pair_options(app, in);
    add_rack_options(app, in);
    add_gear_options(app, "pinion", in.o.pinion);
    add_gear_options(app, "wheel", in.o.wheel);
    add_tool_options(app, in.o.hob);
    add_limit_options(app, in.o);
    add_output_options(app, in);
    try {
        app.parse(argument_count, arguments);
    } catch (const CLI::CallForHelp& help) {
        app.exit(help);
        std::exit(EXIT_SUCCESS);
    } catch (const CLI::ParseError& error) {
        throw usage_error(error.what());
    }
    return settled(in);
}

} // namespace gear_pair
