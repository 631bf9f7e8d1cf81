// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Printed values of the involute function.
#include <rackwork/gear.hpp>
#include <rackwork/involute.hpp>
#include <rackwork/mesh.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using handbook::prints;
using handbook::prints_off_by_one;
using rackwork::deg;
using rackwork::inv;
using rackwork::inverse_inv;

namespace {

struct entry {
    double degrees;
    double involute;
    int decimals;
};

// Standard table of the involute function, as Machinery's Handbook (chapter on gearing) has it; from memory.
constexpr entry table[] = {{15, 0.0061498, 7}, {16, 0.0074927, 7}, {17, 0.0090247, 7}, {18, 0.010760, 6},
                           {19, 0.012715, 6},  {21, 0.017345, 6},  {22, 0.020054, 6},  {22.5, 0.021514, 6},
                           {24, 0.026350, 6},  {25, 0.029975, 6},  {26, 0.033947, 6},  {28, 0.043017, 6},
                           {29, 0.048164, 6},  {31, 0.059809, 6},  {32, 0.066364, 6},  {33, 0.073449, 6},
                           {34, 0.081097, 6},  {35, 0.089342, 6},  {36, 0.098224, 6},  {38, 0.11806, 5},
                           {40, 0.14097, 5},   {45, 0.21460, 5}};

} // namespace

TEST_CASE("the involute function is the one that the tables print") {
    for (const entry& e : table) {
        CAPTURE(e.degrees);
        CHECK(prints(inv(deg(e.degrees)), e.involute, e.decimals));
    }
}

TEST_CASE("the table read backwards gives its angles to the places that its digits hold") {
    for (const entry& e : table) {
        CAPTURE(e.degrees);
        // Half a unit of the last digit, divided by the slope tan^2 of the function, is what rounding did to the angle.
        const double slope = std::pow(std::tan(deg(e.degrees).rad()), 2);
        const double allowed = 0.5 * std::pow(10.0, -e.decimals) / slope;
        // A second-order term that is below a thousandth of the first.
        CHECK(std::fabs(inverse_inv(e.involute).rad() - deg(e.degrees).rad()) <= allowed * 1.001);
    }
}

TEST_CASE("two gears of one tooth each run together at a pressure angle of 72 degrees 21 minutes") {
    // Gear Technology, Back to Basics, Design of Involute Gear Teeth, figure 1 (read): base circles of 1 1/2 in, and the line of
    // action between them is one base pitch long, pi times the base diameter. So tan alpha_w = pi.
    const double base_diameter = 1.5;
    const rackwork::angle<double> working = rackwork::arctangent(rackwork::pi<double>());
    CHECK(prints_off_by_one(working.deg(), 72.35, 2)); // 72 degrees 21 minutes as a decimal
    const double working_diameter = base_diameter / cos(working);
    CHECK(prints_off_by_one(rackwork::pi<double>() * working_diameter, 15.537, 3)); // circular pitch
    CHECK(prints(1 / working_diameter, 0.2022, 4));                                 // diametral pitch

    // The same gears from the library's parameters: a rack of that pressure angle whose module is the working diameter.
    const rackwork::gear<double> one_tooth{
        {.normal_module = working_diameter,
         .teeth = 1,
         .rack = {.pressure_angle = working, .addendum = 0.2, .dedendum = 0.2, .root_fillet_radius = 0}}};
    CHECK(one_tooth.base_diameter() == doctest::Approx(base_diameter).epsilon(1e-14));
    const rackwork::mesh<double> pair{one_tooth, one_tooth};
    CHECK(pair.path_between_base_circles() == doctest::Approx(one_tooth.transverse_base_pitch()).epsilon(1e-14));
}
