// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What must hold between the sizes of one gear, whatever gear it is.
#include "gear_support.hpp"

#include <rackwork/gear.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <type_traits>

namespace {

using gear_support::random_gears;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;

constexpr double pi = std::numbers::pi;
constexpr double epsilon = std::numeric_limits<double>::epsilon();

/// Equal within a number of epsilon of a size that the rounding errors go by.
bool equal_within(double a, double b, double epsilons, double size) { return std::fabs(a - b) <= epsilons * epsilon * std::fabs(size); }

/// Equal within the accuracies that the header states for the two sides: 4 ulp, that is up to 8 epsilon, each.
bool equal(double a, double b) { return equal_within(a, b, 8, std::fmax(std::fabs(a), std::fabs(b))); }

} // namespace

// A gear is a value: cheap to copy, never empty, never half right.
static_assert(std::is_trivially_copyable_v<gear<double>> && !std::is_default_constructible_v<gear<double>>);
static_assert(std::is_trivially_destructible_v<gear<double>> && std::is_copy_assignable_v<gear<double>>);
static_assert(!std::is_convertible_v<gear_parameters<double>, gear<double>>);
static_assert(sizeof(gear<double>) <= 32 * sizeof(double));

TEST_CASE("diameters and pitches belong together") {
    for (const gear<double>& g : random_gears(1, 5000)) {
        const double z = g.teeth();
        const double cos_transverse = std::cos(g.transverse_pressure_angle().rad());
        CHECK(equal(g.reference_diameter(), z * g.transverse_module()));
        CHECK(equal(g.base_diameter(), g.reference_diameter() * cos_transverse));
        CHECK(equal(g.transverse_base_pitch() * z, pi * g.base_diameter()));
        CHECK(equal(g.transverse_pitch() * z, pi * g.reference_diameter()));
        CHECK(equal(g.normal_base_pitch(), g.transverse_base_pitch() * std::cos(g.base_helix_angle().rad())));
        CHECK(equal(g.normal_pitch(), g.transverse_pitch() * std::cos(g.helix_angle().rad())));
        CHECK(equal_within(g.tip_diameter() - g.root_diameter(), 2 * g.tooth_depth(), 8, g.tip_diameter()));
        CHECK(equal_within(g.tip_diameter(), g.reference_diameter() + 2 * g.addendum(), 8, g.tip_diameter()));
        CHECK(equal_within(g.root_diameter(), g.reference_diameter() - 2 * g.dedendum(), 8, g.reference_diameter()));
        CHECK(g.tip_form_diameter() == g.effective_tip_diameter());
    }
}

TEST_CASE("angles belong together") {
    for (const gear<double>& g : random_gears(2, 5000)) {
        const double normal = g.normal_pressure_angle().rad();
        const double transverse = g.transverse_pressure_angle().rad();
        const double helix = g.helix_angle().rad();
        const double base_helix = g.base_helix_angle().rad();
        CHECK(equal(std::tan(normal), std::tan(transverse) * std::cos(helix)));
        CHECK(equal(std::sin(base_helix), std::sin(helix) * std::cos(normal)));
        CHECK(equal(std::sin(normal), std::sin(transverse) * std::cos(base_helix)));
        CHECK(std::fabs(base_helix) <= std::fabs(helix));
        CHECK(transverse >= normal * (1 - 4 * epsilon));
        // An error of 4 ulp of the base diameter turns this angle by 8 epsilon / tan alpha_t.
        CHECK(equal_within(g.pressure_angle(g.reference_diameter()).rad(), transverse, 8 + 8 / (std::tan(transverse) * transverse), transverse));
        CHECK(g.pressure_angle(g.base_diameter()).rad() == 0);
        CHECK(equal(g.helix_angle(g.reference_diameter()).rad(), helix));
        CHECK(equal(g.helix_angle(g.base_diameter()).rad(), base_helix));
        CHECK(equal(std::cos(g.pressure_angle(g.tip_diameter()).rad()), g.base_diameter() / g.tip_diameter()));
        if (helix == 0) continue;
        CHECK(equal(g.lead(), pi * g.reference_diameter() / std::fabs(std::tan(helix))));
        CHECK(equal(g.lead(), pi * g.base_diameter() / std::fabs(std::tan(base_helix))));
        CHECK(equal(g.axial_pitch() * std::fabs(std::tan(helix)), g.transverse_pitch()));
        CHECK(std::signbit(base_helix) == std::signbit(helix));
    }
}

TEST_CASE("tooth and space fill the pitch at every diameter") {
    support::random_source random{4};
    for (const gear<double>& g : random_gears(3, 3000)) {
        for (int i = 0; i < 5; ++i) {
            const double diameter = g.base_diameter() + random.uniform(0, 1.2) * (g.tip_diameter() - g.base_diameter());
            const double pitch = pi * diameter / g.teeth();
            CHECK(equal_within(g.tooth_thickness(diameter) + g.space_width(diameter), pitch, 8, pitch));
            CHECK(equal_within(g.tooth_half_angle(diameter) * diameter, g.tooth_thickness(diameter), 1, diameter));
        }
    }
}

TEST_CASE("the thickness at the reference circle is the one that shift and allowance make") {
    for (const gear<double>& g : random_gears(5, 5000)) {
        const gear_parameters<double>& p = g.parameters();
        const double tangent = std::tan(g.normal_pressure_angle().rad());
        const double expected = g.normal_module() * (pi / 2 + 2 * g.generating_profile_shift() * tangent);
        CHECK(equal_within(g.normal_tooth_thickness(), expected, 8, g.normal_pitch()));
        CHECK(equal_within(g.transverse_tooth_thickness() * std::cos(g.helix_angle().rad()), g.normal_tooth_thickness(), 8, g.normal_pitch()));
        // The same thickness by way of the base circle: 4 ulp of its diameter count tan alpha_t times in a thickness.
        const double conditioned = g.transverse_pitch() + g.reference_diameter() * std::tan(g.transverse_pressure_angle().rad());
        CHECK(equal_within(g.tooth_thickness(g.reference_diameter()), g.transverse_tooth_thickness(), 8, conditioned));
        CHECK(equal_within(g.normal_tooth_thickness(g.reference_diameter()), g.normal_tooth_thickness(), 8, conditioned));
        CHECK(equal_within(g.generating_profile_shift(), p.profile_shift + p.thickness_allowance / (2 * p.normal_module * tangent), 8, 1));
        CHECK(equal_within(g.generated_root_diameter(), g.root_diameter() + p.thickness_allowance / tangent, 16, g.reference_diameter()));
    }
}

TEST_CASE("a tooth comes to a point where its thickness is nothing") {
    int pointed = 0;
    for (const gear<double>& workshop : random_gears(6, 5000)) {
        gear_parameters<double> p = workshop.parameters();
        p.tip_alteration += 0.5; // so that some are pointed
        if (rackwork::check(p)) continue;
        const gear<double> g{p};
        const double diameter = g.pointed_tip_diameter();
        CHECK(diameter > g.base_diameter());
        // The diameter's own error of 4 ulp moves the thickness by tan alpha times as much; thicknesses are good to 8 ulp of the pitch.
        const double slope = std::tan(g.pressure_angle(diameter).rad());
        CHECK(std::fabs(g.tooth_thickness(diameter)) <= (16 * pi * diameter / g.teeth() + 8 * diameter * slope) * epsilon);
        CHECK(g.tooth_thickness(diameter * (1 + 1e-6)) < 0);
        CHECK(g.tooth_thickness(diameter / (1 + 1e-6)) > 0);
        CHECK(g.effective_tip_diameter() <= g.tip_diameter());
        if (g.tip_thickness() < 0) {
            ++pointed;
            CHECK(g.effective_tip_diameter() == diameter);
            CHECK(diameter < g.tip_diameter());
        } else {
            CHECK(g.effective_tip_diameter() == g.tip_diameter());
            CHECK(diameter >= g.tip_diameter() * (1 - 8 * epsilon));
        }
    }
    CHECK(pointed > 50);
}

TEST_CASE("teeth grow thinner outward from where they are thickest") {
    // d s/d d = s/d - tan alpha: once it falls it keeps falling.
    for (const gear<double>& g : random_gears(7, 1000)) {
        double before = g.tooth_thickness(g.base_diameter());
        bool falling = false;
        for (int i = 1; i <= 40; ++i) {
            const double s = g.tooth_thickness(g.base_diameter() + i * (g.tip_diameter() - g.base_diameter()) / 40);
            if (falling) CHECK(s < before);
            if (s < before) falling = true;
            before = s;
        }
        CHECK(falling);
    }
}

TEST_CASE("below the base circle there is no involute, and a spur gear has no lead") {
    const gear<double> spur{{.normal_module = 2, .teeth = 20}};
    const double inside = std::nextafter(spur.base_diameter(), 0);
    CHECK_THROWS_AS(spur.tooth_thickness(inside), rackwork::geometry_error);
    CHECK_THROWS_AS(spur.tooth_half_angle(inside), rackwork::geometry_error);
    CHECK_THROWS_AS(spur.space_width(inside), rackwork::geometry_error);
    CHECK_THROWS_AS(spur.pressure_angle(inside), rackwork::geometry_error);
    CHECK_NOTHROW(spur.tooth_thickness(spur.base_diameter()));
    CHECK_THROWS_WITH_AS(spur.lead(), "helix_angle (deg) is 0 but must not be zero for a lead or an axial pitch", rackwork::geometry_error);
    CHECK_THROWS_AS(spur.axial_pitch(), rackwork::geometry_error);
    CHECK_THROWS_WITH_AS(spur.helix_angle(0.0), "diameter is 0 but must be greater than 0", rackwork::geometry_error);
    CHECK(spur.helix_angle(1.0).rad() == 0);
}
