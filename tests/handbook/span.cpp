// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Printed values of span measurements.
#include <rackwork/measure/span.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using handbook::prints;
using rackwork::deg;
using rackwork::gear;
using rackwork::recommended_teeth_spanned;
using rackwork::span_measurement;

namespace {
gear<double> standard_gear(int teeth) { return gear<double>{{.normal_module = 1, .teeth = teeth}}; }
} // namespace

TEST_CASE(
    "the spans of standard spur gears of module 1 are those of the tables, over the number of teeth that they give") {
    // Table of base tangent lengths for module 1 and 20 degrees in mechanical design handbooks; from memory.
    struct entry {
        int teeth;
        int spanned;
        double span;
    };
    constexpr entry table[] = {{8, 2, 4.5402},   {9, 2, 4.5542},  {10, 2, 4.5683},  {12, 2, 4.5963},  {14, 2, 4.6243},
                               {16, 2, 4.6523},  {18, 3, 7.6324}, {20, 3, 7.6604},  {21, 3, 7.6744},  {24, 3, 7.7165},
                               {25, 3, 7.7305},  {26, 3, 7.7445}, {27, 4, 10.7106}, {30, 4, 10.7526}, {35, 4, 10.8227},
                               {45, 6, 16.8670}, {50, 6, 16.9370}};
    for (const entry& e : table) {
        CAPTURE(e.teeth);
        CHECK(recommended_teeth_spanned(standard_gear(e.teeth)) == e.spanned);
        CHECK(prints(span_measurement(standard_gear(e.teeth), e.spanned), e.span, 4));
    }
}

TEST_CASE("the span over 12 teeth of a gear of 100") {
    // The same table is remembered with 35.3503, two units of the last digit above the formula. From memory, so the slip may be ours.
    CHECK(prints(span_measurement(standard_gear(100), 12), 35.3501, 4));
}

TEST_CASE("the span over 2 teeth of a 12-tooth gear of 14.5 degrees, diametral pitch 1") {
    // Machinery's Handbook, chordal dimensions over spur gear teeth of 1 diametral pitch; from memory. Inches.
    const gear<double> g{{.normal_module = rackwork::module_from_diametral_pitch(1.0),
                          .teeth = 12,
                          .rack = rackwork::asa_b6_1_full_depth_14_5}};
    CHECK(prints(span_measurement(g, 2), 4.6267, 4));
}

TEST_CASE("the constants of the workshop's span formula for 20 degrees") {
    // W = m (2.9521 (k - 0.5) + 0.014 z + 0.684 x), handbooks that follow DIN 3960; from memory.
    const gear<double> g = standard_gear(30);
    const gear<double> one_tooth_more = standard_gear(31);
    const gear<double> shifted{{.normal_module = 1, .teeth = 30, .profile_shift = 1}};
    CHECK(prints(span_measurement(g, 5) - span_measurement(g, 4), 2.9521, 4));
    CHECK(prints(span_measurement(one_tooth_more, 4) - span_measurement(g, 4), 0.0140055, 7));
    CHECK(prints(span_measurement(shifted, 4) - span_measurement(g, 4), 0.68404, 5));
}

TEST_CASE("the constants of the workshop's span formula for 14.5 degrees") {
    // Machinery's Handbook, constants for checking gear size over two or more teeth; from memory.
    const auto of_teeth = [](int teeth) {
        return gear<double>{{.normal_module = 1, .teeth = teeth, .rack = rackwork::asa_b6_1_full_depth_14_5}};
    };
    const double pitch = span_measurement(of_teeth(40), 4) - span_measurement(of_teeth(40), 3);
    const double per_tooth = span_measurement(of_teeth(41), 4) - span_measurement(of_teeth(40), 4);
    CHECK(prints(pitch, 3.0415, 4));
    CHECK(prints(per_tooth, 0.00537, 5));
    CHECK(prints(span_measurement(of_teeth(40), 1) - 40 * per_tooth, 1.5208, 4)); // half a base pitch
}

TEST_CASE("the span over 4 teeth of a shifted helical gear given in the transverse system") {
    // Elements of Metric Gear Technology, table 10-11; from memory. Transverse module 3, 20 degrees in the transverse section, helix
    // 22.5 degrees, 24 teeth, transverse shift coefficient 0.4. In the normal section:
    //   m_n = m_t cos beta, tan alpha_n = tan alpha_t cos beta, x_n = x_t / cos beta.
    const double cosine = cos(deg(22.5));
    const gear<double> g{{.normal_module = 3 * cosine,
                          .teeth = 24,
                          .helix_angle = deg(22.5),
                          .rack = {.pressure_angle = rackwork::arctangent(tan(deg(20.0)) * cosine)},
                          .profile_shift = 0.4 / cosine}};
    CHECK(prints(g.normal_pressure_angle().deg(), 18.58597, 5));
    CHECK(recommended_teeth_spanned(g) == 4);
    CHECK(prints(span_measurement(g, 4), 30.5910, 4));
    // The broken number of teeth whose span would touch exactly on the circle d + 2 x m: spans grow by a base pitch a tooth.
    const double d_v = g.shifted_reference_diameter();
    const double wanted = std::sqrt(d_v * d_v - g.base_diameter() * g.base_diameter()) / cos(g.base_helix_angle());
    CHECK(prints(4 + (wanted - span_measurement(g, 4)) / g.normal_base_pitch(), 4.31728, 5));
}
