// Example inspection: what the command line says.
#ifndef INSPECTION_OPTIONS_HPP
#define INSPECTION_OPTIONS_HPP

#include <rackwork/gear.hpp>
#include <rackwork/tolerance/thickness.hpp>

#include <stdexcept>
#include <string>
#include <vector>

namespace inspection {

/// Input that cannot be used; the message is one sentence for the user.
struct usage_error : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// What the inspector measures with.
enum class instrument { span, pins, balls };

struct options {
    std::string drawing; // one line that says which gear this is
    rackwork::gear_parameters<double> gear;
    rackwork::thickness_allowances<double> allowances;
    int tolerance_class = 0; // of ISO 1328-1:2013; 0 for none
    instrument measured_with = instrument::span;
    int teeth_spanned = 0;   // 0: as recommended
    double pin_diameter = 0; // 0: the preferred one that fits best
    std::vector<double> readings;
};

/// Reads the command line. Throws usage_error; prints the help and ends the program where that is asked for.
options read_options(int argument_count, char** arguments);

} // namespace inspection

#endif
