// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Printed sliding along the path of contact.
#include <rackwork/analysis/contact.hpp>

#include "printed.hpp"

#include <doctest/doctest.h>

using handbook::prints;
using rackwork::contact_point;
using rackwork::deg;
using rackwork::gear;
using rackwork::mesh;
using rackwork::path_of_contact;

namespace {

mesh<double> standard_pair(double module, int pinion_teeth, int wheel_teeth) {
    return mesh<double>{gear<double>{{.normal_module = module, .teeth = pinion_teeth}},
                        gear<double>{{.normal_module = module, .teeth = wheel_teeth}}};
}

} // namespace

TEST_CASE("specific sliding of the test gears of type A at both ends of contact") {
    // ISO 14635-1, table of gear data; from memory. Module 4.5, 16 and 24 teeth, centre distance 91.5, tip diameters 88.77 and
    // 112.5.
    const gear<double> pinion{{.normal_module = 4.5,
                               .teeth = 16,
                               .profile_shift = 0.8532,
                               .tip_alteration = (88.77 - 72.0) / 9 - 1 - 0.8532}};
    const gear<double> wheel{
        {.normal_module = 4.5, .teeth = 24, .profile_shift = -0.5, .tip_alteration = (112.5 - 108.0) / 9 - 1 + 0.5}};
    const path_of_contact<double> path{mesh<double>{pinion, wheel, 91.5}};
    const contact_point<double> at_pinion_tip = path.at_pinion_diameter(88.77);
    CHECK(prints(at_pinion_tip.specific_sliding().pinion, 0.86, 2));
    CHECK(prints(at_pinion_tip.specific_sliding().wheel, -5.96, 2));
    const contact_point<double> at_wheel_tip = path.at_wheel_diameter(112.5);
    CHECK(prints(at_wheel_tip.specific_sliding().pinion, -0.52, 2));
    CHECK(prints(at_wheel_tip.specific_sliding().wheel, 0.34, 2));
    // Sliding at E is 0.67 of the pitch line velocity (same table).
    CHECK(prints(at_pinion_tip.sliding_factor(), 0.67, 2));
    // Approach 3.3 (same table, a weak witness: written down with the formula's result in view).
    CHECK(prints(path.length_of_approach(), 3.3, 1));
}

TEST_CASE("greatest sliding velocity of 20 and 40 teeth of module 5 at 1.2 m/s") {
    // Khurmi and Gupta, Theory of Machines, worked example; from memory: 455.4 mm/s, at the beginning of contact, from the
    // approach rounded to 12.65 mm. Exactly 455.3.
    const path_of_contact<double> path{standard_pair(5, 20, 40)};
    const double pinion_speed = 1200.0 / 50; // radians per second
    const contact_point<double> first = path.at_wheel_diameter(210);
    CHECK(prints(-first.sliding_velocity() * pinion_speed, 455.3, 1));
    CHECK(prints(-path.at(-12.65).sliding_velocity() * pinion_speed, 455.4, 1));
    CHECK(-first.sliding_velocity() > path.at_pinion_diameter(110).sliding_velocity());
    CHECK(prints(-first.distance_from_pitch_point(), 12.65, 2));
    CHECK(prints(path.at_pinion_diameter(110).distance_from_pitch_point(), 11.5, 1));
}

TEST_CASE("ratio of sliding to rolling of 17 and 49 teeth of module 6 at both ends of contact") {
    // Khurmi and Gupta, Theory of Machines, worked example; from memory: 0.41 at the start, 0.354 at the end. The book divides
    // the sliding velocity by that of the pitch circles, which is the sliding factor.
    const mesh<double> pair = standard_pair(6, 17, 49);
    const path_of_contact<double> path{pair};
    CHECK(prints(-path.at_wheel_diameter(6 * 51).sliding_factor(), 0.41, 2));
    CHECK(prints(path.at_pinion_diameter(6 * 19).sliding_factor(), 0.354, 3));
    // 17 teeth are a little undercut, but the wheel's tip does not reach down so far: contact begins at its tip circle.
    CHECK(pair.pinion_root().is_undercut());
    CHECK(pair.active_root_diameter().pinion > pair.root_form_diameter().pinion);
    const double at_tip_circle = path.at_wheel_diameter(6 * 51).distance_from_pitch_point();
    CHECK(path.point_a().distance_from_pitch_point() == doctest::Approx(at_tip_circle).epsilon(1e-14));
}
