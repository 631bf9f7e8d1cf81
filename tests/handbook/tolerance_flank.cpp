// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Tolerances by class: values of the standards.
#include <rackwork/tolerance/flank.hpp>
#include <rackwork/tolerance/radial_composite.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using handbook::prints;
using rackwork::toothing_in_millimetres;

TEST_CASE("the tolerances of class 5 for a gear of 100 mm, module 4 and 40 mm width") {
    // ISO 1328-1:2013, formulas of clause 5 evaluated; from memory. Micrometres.
    constexpr toothing_in_millimetres<double> g{.teeth = 25, .normal_module = 4, .reference_diameter = 100, .face_width = 40};
    constexpr auto pitch = unrounded_pitch_tolerances_in_micrometres(g, 5);
    constexpr auto profile = unrounded_profile_tolerances_in_micrometres(g, 5);
    constexpr auto helix = unrounded_helix_tolerances_in_micrometres(g, 5);
    CHECK(prints(pitch.single_pitch, 6.7, 4));
    CHECK(prints(pitch.cumulative_pitch, 20.5, 4));
    CHECK(prints(pitch.runout, 18.45, 4));
    CHECK(prints(profile.form, 7.2, 4));
    CHECK(prints(profile.slope, 5.7, 4));
    CHECK(prints(profile.total, 9.1831, 4));
    CHECK(prints(helix.form, 7.546, 3));
    CHECK(prints(helix.slope, 6.7136, 4));
    CHECK(prints(helix.total, 10.1, 2));
}

TEST_CASE("the same tolerances as the standard rounds them, in the classes from 4 to 7") {
    // ISO 1328-1:2013: the formulas and the rounding rule from memory, the values worked out by hand from the ones above.
    const rackwork::gear<double> g{{.normal_module = 4, .teeth = 25, .face_width = 40}};
    const auto class_4 = flank_tolerances_in_micrometres(g, 4); // 6.7/sqrt 2 = 4.738, 9.1831/sqrt 2 = 6.494, 10.1004/sqrt 2 = 7.142
    CHECK(class_4.pitch.single_pitch == 4.7);
    CHECK(class_4.profile.total == 6.5);
    CHECK(class_4.helix.total == 7);
    const auto class_5 = flank_tolerances_in_micrometres(g, 5);
    CHECK(class_5.pitch.single_pitch == 6.5);
    CHECK(class_5.pitch.cumulative_pitch == 21); // a tie, 20.5: up
    CHECK(class_5.pitch.runout == 18);
    CHECK(class_5.profile.slope == 5.5);
    CHECK(class_5.profile.form == 7);
    CHECK(class_5.profile.total == 9);
    CHECK(class_5.helix.slope == 6.5);
    CHECK(class_5.helix.form == 7.5);
    CHECK(class_5.helix.total == 10);
    const auto class_6 = flank_tolerances_in_micrometres(g, 6); // 6.7 sqrt 2 = 9.475, 20.5 sqrt 2 = 28.99, 9.1831 sqrt 2 = 12.987
    CHECK(class_6.pitch.single_pitch == 9.5);
    CHECK(class_6.pitch.cumulative_pitch == 29);
    CHECK(class_6.profile.total == 13);
    const auto class_7 = flank_tolerances_in_micrometres(g, 7);
    CHECK(class_7.pitch.single_pitch == 13); // 13.4
    CHECK(class_7.pitch.cumulative_pitch == 41);
    CHECK(class_7.profile.slope == 11); // 11.4
    CHECK(class_7.helix.total == 20);   // 20.2
}

TEST_CASE("no tolerance is further than one class from that of the edition before, but the profile's of the smallest gears") {
    // ISO 1328-1:1995, tables 1 to 4, and ISO 1328-2:1997, annex B (runout); from memory. Micrometres, for ranges of size, here taken
    // at their geometric means. The runout was 0.8 of the cumulative pitch then and is 0.9 now.
    struct row {
        double least_diameter, greatest_diameter, least_module, greatest_module, least_width, greatest_width;
        int grade;
        double single_pitch, cumulative_pitch, total_profile, runout, total_helix;
    };
    constexpr row table[] = {{5, 20, 0.5, 2, 4, 10, 5, 4.7, 11, 4.6, 9, 6},         {5, 20, 0.5, 2, 4, 10, 6, 6.5, 16, 6.5, 13, 8.5},
                             {5, 20, 0.5, 2, 4, 10, 7, 9.5, 23, 9, 18, 12},         {50, 125, 2, 3.5, 20, 40, 5, 6, 19, 8, 15, 8.5},
                             {50, 125, 2, 3.5, 20, 40, 6, 8.5, 27, 11, 21, 12},     {50, 125, 2, 3.5, 20, 40, 8, 17, 53, 22, 43, 24},
                             {50, 125, 3.5, 6, 20, 40, 6, 9, 28, 13, 22, 12},       {50, 125, 3.5, 6, 20, 40, 8, 18, 55, 27, 44, 24},
                             {20, 50, 2, 3.5, 20, 40, 6, 7.5, 21, 10, 17, 11},      {20, 50, 2, 3.5, 20, 40, 7, 11, 30, 14, 24, 16},
                             {125, 280, 3.5, 6, 40, 80, 6, 10, 36, 15, 29, 15},     {125, 280, 3.5, 6, 40, 80, 7, 14, 51, 21, 41, 21}};
    for (const row& r : table) {
        CAPTURE(r.least_diameter);
        CAPTURE(r.grade);
        const toothing_in_millimetres<double> g{.teeth = 20,
                                                .normal_module = std::sqrt(r.least_module * r.greatest_module),
                                                .reference_diameter = std::sqrt(r.least_diameter * r.greatest_diameter),
                                                .face_width = std::sqrt(r.least_width * r.greatest_width)};
        const auto within_a_class = [](double now, double before) { return now < before * std::sqrt(2.0) && now > before / std::sqrt(2.0); };
        const auto pitch = unrounded_pitch_tolerances_in_micrometres(g, r.grade);
        CHECK(within_a_class(pitch.single_pitch, r.single_pitch));
        CHECK(within_a_class(pitch.cumulative_pitch, r.cumulative_pitch));
        CHECK(within_a_class(pitch.runout, r.runout / 0.8 * 0.9));
        // The new edition's formulas give gears below 20 mm half as much again.
        const double profile = unrounded_profile_tolerances_in_micrometres(g, r.grade).total;
        if (r.greatest_diameter > 20) CHECK(within_a_class(profile, r.total_profile));
        CHECK(within_a_class(unrounded_helix_tolerances_in_micrometres(g, r.grade).total, r.total_helix));
    }
}

TEST_CASE("the radial composite tolerances are those of the tables, in every accuracy grade") {
    // ISO 1328-2:1997, annex A, tables A.1 and A.2; from memory. Micrometres, grades 4 to 12. (A few printed values of the tooth-to-tooth
    // row for the finest module are not remembered for certain and left out.)
    struct row {
        double diameter, module;
        double total[9];
        double tooth_to_tooth[9];
    };
    constexpr row table[] = {{12, 0.4, {7.5, 11, 15, 21, 30, 42, 60, 85, 120}, {0, 2, 2.5, 3.5, 5, 7, 10, 14, 20}},
                             {80, 3, {18, 25, 36, 51, 72, 102, 144, 204, 288}, {7, 10, 14, 20, 29, 41, 58, 82, 116}}};
    for (const row& r : table) {
        for (int grade = 4; grade <= 12; ++grade) {
            CAPTURE(r.diameter);
            CAPTURE(grade);
            const toothing_in_millimetres<double> g{.teeth = 27, .normal_module = r.module, .reference_diameter = r.diameter};
            const auto exact = unrounded_radial_composite_tolerances_in_micrometres(g, grade);
            CHECK(rackwork::rounded_radial_composite_tolerance(exact.total) == r.total[grade - 4]);
            if (r.tooth_to_tooth[grade - 4] == 0) continue;
            CHECK(rackwork::rounded_radial_composite_tolerance(exact.tooth_to_tooth) == r.tooth_to_tooth[grade - 4]);
        }
    }
}
