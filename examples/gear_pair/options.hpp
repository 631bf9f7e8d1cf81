// Example gear_pair: what the command line says.
#ifndef GEAR_PAIR_OPTIONS_HPP
#define GEAR_PAIR_OPTIONS_HPP

#include <rackwork/basic_rack.hpp>

#include <optional>
#include <stdexcept>
#include <string>

namespace gear_pair {

/// Input that cannot be used; the message is one sentence for the user.
struct usage_error : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// What is asked for one of the two gears.
struct gear_options {
    int teeth = 0;
    std::optional<double> profile_shift;
    std::optional<double> thickness_allowance;
    std::optional<int> teeth_spanned;
    std::optional<double> pin_diameter;
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
    std::optional<double> centre_distance;
    std::optional<double> backlash; // normal
    bool keep_clearance = false;
    double tolerance = 0;
    bool values = false;            // machine-readable text instead of tables
    std::optional<std::string> folder;
};

/// Reads the command line. Throws usage_error; prints the help and ends the program where that is asked for.
options read_options(int argument_count, char** arguments);

} // namespace gear_pair

#endif
