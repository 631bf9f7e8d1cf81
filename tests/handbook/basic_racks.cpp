// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Printed proportions of the standard basic racks, and tables of pitches.
#include <rackwork/mesh.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using handbook::prints;
using handbook::prints_off_by_one;
using rackwork::basic_rack;
using rackwork::deg;
using rackwork::gear;

namespace {

/// A gear of diametral pitch 1 and the clearance under its teeth. Inches.
gear<double> of_diametral_pitch(double pitch, const basic_rack<double>& rack) {
    return gear<double>{{.normal_module = rackwork::module_from_diametral_pitch(pitch), .teeth = 40, .rack = rack}};
}

double bottom_clearance(const gear<double>& g) { return rackwork::mesh<double>{g, g}.bottom_clearance().pinion; }

} // namespace

TEST_CASE("the basic racks of ISO 53") {
    // ISO 53:1998, table A.1; from memory. Profile A also Elements of Metric Gear Technology, page T-9 (read).
    const basic_rack<double> a = rackwork::iso_53_a;
    const basic_rack<double> b = rackwork::iso_53_b;
    const basic_rack<double> c = rackwork::iso_53_c;
    for (const basic_rack<double>& rack : {a, b, c}) {
        CHECK(prints(rack.pressure_angle.deg(), 20, 10));
        CHECK(prints(rack.addendum, 1.00, 2));
        CHECK(prints(rack.dedendum, 1.25, 2));
        CHECK(prints(bottom_clearance(gear<double>{{.normal_module = 1, .teeth = 40, .rack = rack}}), 0.25, 2));
    }
    CHECK(prints(a.root_fillet_radius, 0.38, 2));
    CHECK(prints(b.root_fillet_radius, 0.30, 2));
    CHECK(prints(c.root_fillet_radius, 0.25, 2));
    // A has the largest radius, rounded to two places, that leaves the flank straight down to the depth of the mate's addendum:
    // 0.25 / (1 - sin 20 degrees) = 0.379951, ISO 53:1998, from memory. A rack with exactly that radius proves it.
    basic_rack<double> largest = a;
    largest.root_fillet_radius = 0.25 / (1 - sin(deg(20.0)));
    CHECK(prints(largest.root_fillet_radius, 0.379951, 6));
    CHECK(largest.form_dedendum() == doctest::Approx(1).epsilon(1e-15));
    CHECK(prints(largest.root_fillet_radius, a.root_fillet_radius, 2));
    CHECK(a.form_dedendum() < 1);
    CHECK(b.form_dedendum() > 1);
}

TEST_CASE("the American coarse-pitch racks of diametral pitch 1") {
    // Machinery's Handbook, chapter on gearing; from memory. Inches.
    struct entry {
        basic_rack<double> rack;
        double degrees;
        double addendum;
        double dedendum;
        double depth;
        double fillet;
        double clearance;
    };
    const entry table[] = {
        // ANSI B6.1 coarse pitch, full depth
        {rackwork::ansi_b6_1_coarse_20, 20.0, 1.000, 1.250, 2.250, 0.300, 0.250},
        {rackwork::ansi_b6_1_coarse_25, 25.0, 1.000, 1.250, 2.250, 0.300, 0.250},
        // American standard, full depth of 14.5 degrees and stub of 20 degrees
        {rackwork::asa_b6_1_full_depth_14_5, 14.5, 1.000, 1.157, 2.157, 0.209, 0.157},
        {rackwork::asa_b6_1_stub_20, 20.0, 0.800, 1.000, 1.800, 0.300, 0.200},
    };
    for (const entry& e : table) {
        CAPTURE(e.degrees);
        CAPTURE(e.addendum);
        const gear<double> g = of_diametral_pitch(1, e.rack);
        CHECK(prints(g.normal_pressure_angle().deg(), e.degrees, 1));
        CHECK(prints(g.addendum(), e.addendum, 3));
        CHECK(prints(g.dedendum(), e.dedendum, 3));
        CHECK(prints(g.tooth_depth(), e.depth, 3));
        CHECK(prints(e.rack.root_fillet_radius, e.fillet, 3));
        CHECK(prints(bottom_clearance(g), e.clearance, 3));
        CHECK(prints(g.normal_tooth_thickness(), 1.5708, 4));
    }
}

TEST_CASE("the fine-pitch teeth of diametral pitch 20") {
    // ANSI B6.7, addendum 1/P, dedendum 1.200/P + 0.002 in, depth 2.200/P + 0.002, clearance 0.200/P + 0.002; from memory.
    const gear<double> g = of_diametral_pitch(20, rackwork::ansi_b6_7_fine_20(20.0));
    CHECK(prints(g.addendum(), 0.0500, 4));
    CHECK(prints(g.dedendum(), 0.0620, 4));
    CHECK(prints(g.tooth_depth(), 0.1120, 4));
    CHECK(prints(bottom_clearance(g), 0.0120, 4));
}

TEST_CASE("the parts of a tooth of diametral pitch 1 in the old 14.5 degree system") {
    // US Navy, Machinery Repairman (NAVEDTRA 14345), appendix IV (read): a clearance of a tenth of the thickness. Inches.
    const gear<double> g = of_diametral_pitch(1, {.pressure_angle = deg(14.5),
                                                  .addendum = 1,
                                                  .dedendum = 1 + rackwork::pi<double>() / 20,
                                                  .root_fillet_radius = 0});
    CHECK(prints(g.normal_tooth_thickness(), 1.5708, 4));
    CHECK(prints(bottom_clearance(g), 0.15708, 5));
    CHECK(prints(g.dedendum(), 1.15708, 5));
    CHECK(prints(2 * g.addendum(), 2.000, 3)); // working depth
    // Our rack of that system has the dedendum as the standard later rounded it.
    CHECK(prints(g.dedendum(), basic_rack<double>(rackwork::asa_b6_1_full_depth_14_5).dedendum, 3));
}

TEST_CASE("modules in millimetres as diametral pitches, and their teeth in inches") {
    // A gear maker's chart for racks and pinions (read). It cuts digits off as often as it rounds.
    struct entry {
        double module;
        double diametral_pitch;
        double pitch;
        double addendum;
        double dedendum;
        double depth;
    };
    const auto in_inches = [](double module) { return gear<double>{{.normal_module = module / 25.4, .teeth = 20}}; };
    const auto pitch_of = [](double module) { return rackwork::module_in_millimetres_from_diametral_pitch(module); };
    // The relation is its own inverse: P = 25.4 / m as m = 25.4 / P.
    CHECK(prints(pitch_of(1), 25.4000, 4));
    CHECK(prints_off_by_one(in_inches(1).normal_pitch(), 0.1236, 4));
    CHECK(prints(in_inches(1).addendum(), 0.0394, 4));
    CHECK(prints(in_inches(1).dedendum(), 0.0492, 4));
    CHECK(prints(in_inches(1).tooth_depth(), 0.0886, 4));

    CHECK(prints(pitch_of(2), 12.7000, 4));
    CHECK(prints_off_by_one(in_inches(2).normal_pitch(), 0.2473, 4));
    CHECK(prints(in_inches(2).addendum(), 0.0787, 4));
    CHECK(prints(in_inches(2).dedendum(), 0.0984, 4));
    CHECK(prints_off_by_one(in_inches(2).tooth_depth(), 0.1771, 4));

    CHECK(prints_off_by_one(pitch_of(2.75), 9.2363, 4));
    CHECK(prints(in_inches(2.75).normal_pitch(), 0.3401, 4));
    CHECK(prints(in_inches(2.75).addendum(), 0.1083, 4));
    CHECK(prints(in_inches(2.75).dedendum(), 0.1353, 4));
    CHECK(prints(in_inches(2.75).tooth_depth(), 0.2436, 4));

    CHECK(prints_off_by_one(pitch_of(3), 8.4666, 4));
    CHECK(prints_off_by_one(in_inches(3).normal_pitch(), 0.3710, 4));
    CHECK(prints(in_inches(3).addendum(), 0.1181, 4));
    CHECK(prints(in_inches(3).dedendum(), 0.1476, 4));
    CHECK(prints(in_inches(3).tooth_depth(), 0.2657, 4));

    CHECK(prints(pitch_of(5), 5.0800, 4));
    CHECK(prints(in_inches(5).normal_pitch(), 0.6184, 4));
    CHECK(prints(in_inches(5).addendum(), 0.1969, 4));
    CHECK(prints(in_inches(5).dedendum(), 0.2461, 4));
    CHECK(prints_off_by_one(in_inches(5).tooth_depth(), 0.4430, 4));

    CHECK(prints_off_by_one(pitch_of(5.5), 4.6181, 4));
    CHECK(prints_off_by_one(in_inches(5.5).normal_pitch(), 0.6802, 4));
    // The chart prints 0.2156 for the addendum, a misprint: 5.5 / 25.4 is 0.2165.
    CHECK(prints(in_inches(5.5).addendum(), 0.2165, 4));
    CHECK(prints(in_inches(5.5).dedendum(), 0.2707, 4));
    CHECK(prints(in_inches(5.5).tooth_depth(), 0.4872, 4));
}

TEST_CASE("pitches and base pitches of small modules") {
    // A gear maker's technical pages, table of pitches (read).
    const auto of_20 = [](double module) { return gear<double>{{.normal_module = module, .teeth = 30}}; };
    const auto of_14_5 = [](double module) {
        return gear<double>{{.normal_module = module, .teeth = 30, .rack = rackwork::asa_b6_1_full_depth_14_5}};
    };
    CHECK(prints_off_by_one(of_20(0.2).normal_pitch(), 0.62831, 5));
    CHECK(prints(of_14_5(0.2).normal_base_pitch(), 0.6083, 4));
    CHECK(prints(of_20(0.2).normal_base_pitch(), 0.5904, 4));
    CHECK(prints(of_20(0.3).normal_pitch(), 0.94248, 5));
    CHECK(prints(of_14_5(0.3).normal_base_pitch(), 0.9125, 4));
    CHECK(prints(of_20(0.3).normal_base_pitch(), 0.8856, 4));
    CHECK(prints(of_20(0.32).normal_pitch(), 1.00531, 5));
    CHECK(prints(of_14_5(0.32).normal_base_pitch(), 0.9733, 4));
    CHECK(prints(of_20(0.32).normal_base_pitch(), 0.9447, 4));
    CHECK(prints(of_20(0.4).normal_pitch(), 1.25664, 5));
    CHECK(prints(of_14_5(0.4).normal_base_pitch(), 1.2166, 4));
    CHECK(prints(of_20(0.4).normal_base_pitch(), 1.1809, 4));
    // Diametral pitch 80.
    const double module = rackwork::module_in_millimetres_from_diametral_pitch(80.0);
    CHECK(prints(module, 0.3175, 4));
    CHECK(prints(of_20(module).normal_pitch(), 0.99746, 5));
    CHECK(prints(of_14_5(module).normal_base_pitch(), 0.9657, 4));
    CHECK(prints(of_20(module).normal_base_pitch(), 0.9373, 4));
}
