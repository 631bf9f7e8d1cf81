// Example inspection: the command line.
#include "options.hpp"

#include <CLI/CLI.hpp>

#include <cstdlib>

namespace inspection {

namespace {

/// A gear of the project's own: the drum wheel of a boat winch, its span taken at four places round the rim.
void use_winch_wheel(options& o) {
    o.drawing = "Drum wheel of a boat winch";
    o.gear = {.normal_module = 2.5, .teeth = 34, .helix_angle = rackwork::deg(-12.0), .profile_shift = 0.15, .face_width = 28};
    o.allowances = {.upper = -0.07, .lower = -0.11};
    o.tolerance_class = 8;
    o.readings = {34.651, 34.644, 34.656, 34.659};
}

} // namespace

options read_options(int argument_count, char** arguments) {
    options o;
    o.drawing = "Gear";
    double helix = 0;
    double pressure_angle = 20;
    double pin = -1;
    double ball = -1;
    bool internal = false;

    CLI::App app{"From a measured span, or a dimension over pins or balls, to the tooth thickness and a verdict.\n"
                 "Without options it inspects the drum wheel of a boat winch. Lengths are millimetres, angles degrees.\n"
                 "Ends with status 0 if all teeth are within their limits, 1 if not, 2 if the input cannot be used.",
                 "inspection"};
    app.add_option("--module", o.gear.normal_module, "normal module")->group("Gear");
    app.add_option("--teeth", o.gear.teeth, "number of teeth")->group("Gear");
    app.add_flag("--internal", internal, "internal gear; pins and balls are then measured between")->group("Gear");
    app.add_option("--helix", helix, "helix angle, right hand positive")->group("Gear");
    app.add_option("--shift", o.gear.profile_shift, "profile shift coefficient x; positive thickens the teeth")->group("Gear");
    app.add_option("--pressure-angle", pressure_angle, "normal pressure angle; 20 unless given")->group("Gear");
    app.add_option("--face-width", o.gear.face_width, "face width")->group("Gear");
    app.add_option("--upper", o.allowances.upper, "upper tooth thickness allowance E_sns")->group("Limits");
    app.add_option("--lower", o.allowances.lower, "lower tooth thickness allowance E_sni")->group("Limits");
    app.add_option("--class", o.tolerance_class, "flank tolerance class of ISO 1328-1:2013, 1 to 11")->group("Limits");
    app.add_option("--span", o.teeth_spanned, "the readings are spans over so many teeth (0: as recommended)")->group("Measured");
    app.add_option("--pins", pin, "the readings are dimensions over pins of this diameter (0: a preferred one)")->group("Measured");
    app.add_option("--balls", ball, "the readings are dimensions over balls of this diameter (0: a preferred one)")->group("Measured");
    app.add_option("readings", o.readings, "what was read, at one place or more; none: only the limits are printed");

    try {
        app.parse(argument_count, arguments);
    } catch (const CLI::CallForHelp& help) {
        app.exit(help);
        std::exit(EXIT_SUCCESS);
    } catch (const CLI::ParseError& error) {
        throw usage_error(error.what());
    }

    const int instruments = (app.count("--span") > 0) + (app.count("--pins") > 0) + (app.count("--balls") > 0);
    if (instruments > 1) throw usage_error("Give one of --span, --pins and --balls.");
    if (pin >= 0) o.measured_with = instrument::pins;
    if (ball >= 0) o.measured_with = instrument::balls;
    if (o.measured_with != instrument::span) o.pin_diameter = pin >= 0 ? pin : ball;
    if (argument_count == 1) {
        use_winch_wheel(o);
        return o;
    }
    if (app.count("--module") == 0 || app.count("--teeth") == 0) throw usage_error("Give --module and --teeth.");
    o.gear.helix_angle = rackwork::deg(helix);
    o.gear.rack.pressure_angle = rackwork::deg(pressure_angle);
    if (internal) o.gear.kind = rackwork::gear_kind::internal;
    if (app.count("--lower") == 0) {
        if (!o.readings.empty()) throw usage_error("Give the limits, --upper and --lower, to judge the readings by.");
        o.allowances.lower = o.allowances.upper;
    }
    return o;
}

} // namespace inspection
