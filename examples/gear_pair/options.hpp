// Example gear_pair: what the command line says.
#ifndef GEAR_PAIR_OPTIONS_HPP
#define GEAR_PAIR_OPTIONS_HPP

#include <rackwork/basic_rack.hpp>
#include <rackwork/gear_parameters.hpp>

#include <optional>
#include <stdexcept>
#include <string>

namespace gear_pair {

/// Input that cannot be used; the message is one sentence for the user.
struct usage_error : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Tooth thickness allowances, normal section: one, or the two limits.
struct allowance_options {
    std::optional<double> nominal;
    std::optional<double> upper;
    std::optional<double> lower;

    bool stated() const { return nominal || upper || lower; }
    bool has_limits() const { return upper && lower; }
    /// The allowance that all sizes are computed with: the one that is given, the mean of the two limits, or zero.
    double computed() const { return has_limits() ? (*upper + *lower) / 2 : nominal.value_or(0); }
};

/// A pinion-type cutter. Lengths are factors of the module.
struct pinion_cutter_options {
    std::optional<int> teeth;
    std::optional<double> profile_shift;
    std::optional<double> addendum;
    std::optional<double> tip_radius;
};

/// A rack-type tool that is more than the counterpart of the basic rack. Lengths are factors of the module, angles degrees.
struct hob_options {
    std::optional<double> addendum;
    std::optional<double> tip_radius;
    std::optional<double> protuberance;
    std::optional<double> protuberance_angle;
    std::optional<double> finishing_allowance;
    std::optional<double> chamfer_height;
    std::optional<double> chamfer_angle;

    bool stated() const {
        return addendum || tip_radius || protuberance || protuberance_angle || finishing_allowance || chamfer_height || chamfer_angle;
    }
};

/// What is asked for one of the two gears.
struct gear_options {
    int teeth = 0;
    std::optional<double> profile_shift;
    std::optional<double> tip_alteration;
    allowance_options allowance;
    std::optional<double> tip_chamfer;
    std::optional<double> tip_rounding;
    std::optional<int> teeth_spanned;
    std::optional<double> pin_diameter;
    pinion_cutter_options cutter;
};

/// What is asked for a toothed rack as mate.
struct toothed_rack_options {
    allowance_options allowance;
    std::optional<double> datum_height;
    std::optional<double> pinion_height;
    std::optional<double> pin_diameter;

    bool stated() const { return allowance.stated() || datum_height || pinion_height || pin_diameter; }
};

struct options {
    bool inch = false;   // lengths in inches, from a diametral pitch
    double module = 0;   // in the unit of length
    rackwork::basic_rack<double> rack;
    std::string rack_name;
    double helix_angle = 0; // degrees, the pinion's; right hand positive
    double face_width = 0;
    gear_options pinion;
    gear_options wheel;
    bool internal = false;     // the wheel is an internal gear
    bool toothed_rack = false; // a toothed rack stands in the wheel's place
    toothed_rack_options mating_rack;
    hob_options hob;
    std::optional<double> centre_distance;
    std::optional<double> distance_deviation; // of the centre distance or the pinion's height, plus and minus
    std::optional<double> backlash;           // normal
    std::optional<int> tolerance_class;
    bool keep_clearance = false;
    double tolerance = 0;
    bool values = false;                      // machine-readable text instead of tables
    std::optional<std::string> folder;

    /// The gears' unit of length.
    std::string unit() const { return inch ? "in" : "mm"; }
};

/// Reads the command line. Throws usage_error; prints the help and ends the program where that is asked for.
options read_options(int argument_count, char** arguments);

} // namespace gear_pair

#endif
