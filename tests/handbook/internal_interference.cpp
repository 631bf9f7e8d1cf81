// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Printed limits of interference of internal pairs and of the cutters that make them.
#include <rackwork/analysis/tip_passage.hpp>
#include <rackwork/analysis/tip_trimming.hpp>
#include <rackwork/interference_findings.hpp>
#include <rackwork/mesh.hpp>

#include <doctest/doctest.h>

namespace {

using rackwork::finding_code;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::mesh;

gear<double> ring_of(int teeth, double shift = 0) {
    return gear<double>{{.normal_module = 1, .teeth = teeth, .kind = gear_kind::internal, .profile_shift = shift}};
}
gear<double> pinion_of(int teeth) { return gear<double>{{.normal_module = 1, .teeth = teeth}}; }

} // namespace

TEST_CASE("the least internal teeth that a pinion-type cutter does not trim are the table's") {
    // Elements of Metric Gear Technology, table 5-3a: x_0 = 0, x_2 = 0, 20 degrees; from memory. The cutter's addendum of 1.25 is inferred
    // from the table's numbers.
    struct entry {
        int cutter_teeth;
        int least_teeth;
    };
    for (const entry& e : {entry{17, 35}, entry{18, 36}, entry{19, 37}, entry{22, 40}, entry{24, 42}, entry{25, 43}, entry{28, 46},
                           entry{40, 58}, entry{60, 78}}) {
        CAPTURE(e.cutter_teeth);
        const rackwork::pinion_type_cutter<double> tool{.teeth = e.cutter_teeth, .addendum = 1.25};
        CHECK(trimming_by(tool, ring_of(e.least_teeth)).infeed > 0);
        CHECK(trimming_by(tool, ring_of(e.least_teeth - 1)).infeed < 0);
    }
}

TEST_CASE("standard internal pairs are free of tip interference from a difference of 9 teeth on") {
    // Elements of Metric Gear Technology, section 5.2 (trochoid interference); from memory.
    for (const int teeth : {30, 40, 50}) {
        CAPTURE(teeth);
        const auto interferes = [&](int difference) {
            return interference_findings(mesh<double>(pinion_of(teeth), ring_of(teeth + difference))).has(finding_code::tip_interference);
        };
        CHECK(interferes(8));
        CHECK_FALSE(interferes(9));
    }
}

TEST_CASE("the table's shifts keep internal pairs of small tooth difference free of tip interference") {
    // Elements of Metric Gear Technology, table 5-4: 50 internal teeth, 20 degrees; from memory. The handbook's x_2 has the opposite sign.
    struct entry {
        int pinion_teeth;
        double handbook_shift;
    };
    for (const entry& e : {entry{49, 1.0}, entry{48, 0.6}, entry{47, 0.4}, entry{45, 0.2}, entry{44, 0.11}, entry{43, 0.06}, entry{42, 0.01}}) {
        CAPTURE(e.pinion_teeth);
        const mesh<double> pair(pinion_of(e.pinion_teeth), ring_of(50, -e.handbook_shift));
        CHECK_FALSE(interference_findings(pair).has(finding_code::tip_interference));
        // Trimming interference the table does not exclude: such pinions go in along the axis.
        CHECK(interference_findings(pair).has(finding_code::axial_assembly_only));
    }
}
