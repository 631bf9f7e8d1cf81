// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What changing one number of a gear does to the others: scale, hand, shift, allowance, helix, unit.
#include "gear_support.hpp"

#include <rackwork/gear.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <string>

namespace {

using gear_support::lengths;
using gear_support::named_numbers;
using gear_support::pure_numbers;
using gear_support::random_gears;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;

constexpr double epsilon = std::numeric_limits<double>::epsilon();

/// The list of one gear is the other's times a factor, to the bit.
void check_same(const named_numbers& a, const named_numbers& b, double factor) {
    REQUIRE(a.size() == b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (a[i].second == b[i].second * factor) continue;
        CAPTURE(a[i].first);
        CHECK(a[i].second == b[i].second * factor);
    }
}

} // namespace

TEST_CASE("twice the module makes everything exactly twice as long and turns nothing") {
    for (const gear<double>& g : random_gears(11, 3000)) {
        for (const double factor : {2.0, 0.5, 1024.0}) {
            gear_parameters<double> p = g.parameters();
            p.normal_module *= factor;
            p.thickness_allowance *= factor;
            p.face_width *= factor;
            const gear<double> scaled{p};
            check_same(lengths(scaled), lengths(g), factor);
            check_same(pure_numbers(scaled), pure_numbers(g), 1);
            CHECK(scaled.base_helix_angle() == g.base_helix_angle());
        }
    }
}

TEST_CASE("twice the module gives exactly twice the root form diameter, undercut or not") {
    int undercut = 0;
    for (const gear<double>& g : random_gears(12, 2000)) {
        gear_parameters<double> p = g.parameters();
        p.normal_module *= 2;
        p.thickness_allowance *= 2;
        try {
            const rackwork::generated_root<double> root{g};
            const rackwork::generated_root<double> scaled{gear<double>{p}};
            undercut += root.is_undercut() ? 1 : 0;
            CHECK(scaled.root_form_diameter() == 2 * root.root_form_diameter());
            CHECK(scaled.is_undercut() == root.is_undercut());
        } catch (const rackwork::geometry_error&) {
            CHECK_THROWS_AS(rackwork::generated_root<double>{gear<double>{p}}, rackwork::geometry_error);
        }
    }
    CHECK(undercut > 20);
}

TEST_CASE("the hand of the helix changes no size") {
    for (const gear<double>& g : random_gears(13, 3000)) {
        gear_parameters<double> p = g.parameters();
        p.helix_angle = -p.helix_angle;
        const gear<double> mirrored{p};
        check_same(lengths(mirrored), lengths(g), 1);
        check_same(pure_numbers(mirrored), pure_numbers(g), 1);
        CHECK(mirrored.base_helix_angle() == -g.base_helix_angle());
        CHECK(mirrored.helix_angle(g.tip_diameter()) == -g.helix_angle(g.tip_diameter()));
        if (!rackwork::generated_root<double>::check(g)) CHECK(rackwork::root_form_diameter(mirrored) == rackwork::root_form_diameter(g));
    }
}

TEST_CASE("a spur gear is what a helical one becomes as its helix goes") {
    for (const gear<double>& g : random_gears(14, 1000)) {
        gear_parameters<double> p = g.parameters();
        p.helix_angle = {};
        const gear<double> spur{p};
        CHECK(spur.transverse_module() == spur.normal_module());
        CHECK(spur.transverse_pressure_angle().rad() == doctest::Approx(spur.normal_pressure_angle().rad()).epsilon(4 * epsilon));
        CHECK(spur.base_helix_angle().rad() == 0);
        CHECK(spur.transverse_tooth_thickness() == spur.normal_tooth_thickness());
        // All sizes are even in the helix angle, so what is left of it is of its square: below 10 beta^2, and of its sign nothing.
        for (const double helix : {1e-3, 1e-5, 1e-9, 1e-160, std::numeric_limits<double>::denorm_min()}) {
            p.helix_angle = rackwork::rad(helix);
            const gear<double> helical{p};
            const named_numbers limit = lengths(spur);
            const named_numbers near = lengths(helical);
            for (std::size_t i = 0; i < limit.size(); ++i) {
                const double allowed = (10 * helix * helix + 32 * epsilon) * spur.tip_diameter();
                if (std::fabs(near[i].second - limit[i].second) <= allowed) continue;
                CAPTURE(limit[i].first);
                CAPTURE(helix);
                CHECK(near[i].second == limit[i].second);
            }
        }
    }
}

TEST_CASE("a gear in inches is the gear in millimetres") {
    for (const double pitch : {1.0, 2.5, 4.0, 5.0, 8.0, 12.0, 20.0, 32.0, 48.0, 64.0}) {
        for (const int teeth : {9, 17, 24, 100}) {
            for (const double helix : {0.0, 23.0}) {
                gear_parameters<double> p{.normal_module = rackwork::module_from_diametral_pitch(pitch), .teeth = teeth,
                                          .helix_angle = deg(helix), .rack = rackwork::ansi_b6_1_coarse_20, .profile_shift = 0.3};
                const gear<double> inches{p};
                p.normal_module = rackwork::module_in_millimetres_from_diametral_pitch(pitch);
                const gear<double> millimetres{p};
                const named_numbers small = lengths(inches);
                const named_numbers large = lengths(millimetres);
                REQUIRE(small.size() == large.size());
                for (std::size_t i = 0; i < small.size(); ++i) {
                    CAPTURE(small[i].first);
                    CHECK(std::fabs(large[i].second - 25.4 * small[i].second) <=
                          8 * epsilon * std::fmax(std::fabs(large[i].second), millimetres.transverse_pitch()));
                }
            }
        }
    }
}

TEST_CASE("tip alteration moves the tip and nothing else") {
    for (const gear<double>& g : random_gears(15, 1000)) {
        gear_parameters<double> p = g.parameters();
        p.tip_alteration -= 0.125;
        if (rackwork::check(p)) continue;
        const gear<double> shortened{p};
        CHECK(std::fabs((g.tip_diameter() - shortened.tip_diameter()) - 0.25 * g.normal_module()) <= 8 * epsilon * g.tip_diameter());
        CHECK(std::fabs((g.addendum() - shortened.addendum()) - 0.125 * g.normal_module()) <= 8 * epsilon * g.normal_module() * 3);
        CHECK(shortened.root_diameter() == g.root_diameter());
        CHECK(shortened.generated_root_diameter() == g.generated_root_diameter());
        CHECK(shortened.dedendum() == g.dedendum());
        CHECK(shortened.base_diameter() == g.base_diameter());
        CHECK(shortened.normal_tooth_thickness() == g.normal_tooth_thickness());
        CHECK(shortened.pointed_tip_diameter() == g.pointed_tip_diameter());
    }
}

TEST_CASE("a thickness allowance thins the tooth and deepens the root as generated, and leaves the drawing's diameters") {
    for (const gear<double>& g : random_gears(16, 1000)) {
        gear_parameters<double> p = g.parameters();
        p.thickness_allowance = 0;
        const gear<double> nominal{p};
        const double allowance = -p.normal_module / 64;
        p.thickness_allowance = allowance;
        if (rackwork::check(p)) continue;
        const gear<double> thinned{p};
        const double size = g.normal_pitch();
        CHECK(nominal.generating_profile_shift() == nominal.profile_shift());
        CHECK(std::fabs(nominal.generated_root_diameter() - nominal.root_diameter()) <= 8 * epsilon * nominal.reference_diameter());
        CHECK(std::fabs(thinned.normal_tooth_thickness() - nominal.normal_tooth_thickness() - allowance) <= 4 * epsilon * size);
        CHECK(thinned.tip_diameter() == nominal.tip_diameter());
        CHECK(thinned.root_diameter() == nominal.root_diameter());
        CHECK(thinned.shifted_reference_diameter() == nominal.shifted_reference_diameter());
        CHECK(thinned.profile_shift() == nominal.profile_shift());
        CHECK(thinned.generated_root_diameter() < nominal.generated_root_diameter());
        CHECK(thinned.generating_profile_shift() < nominal.generating_profile_shift());
        // The flanks stand closer by the same angle at every diameter: E_sn / (m_n z) at the axis, half on either side.
        for (const double part : {0.1, 0.5, 0.9}) {
            const double d = g.base_diameter() + part * (g.tip_diameter() - g.base_diameter());
            const double thinner = nominal.tooth_thickness(d) - thinned.tooth_thickness(d);
            CHECK(std::fabs(thinner + allowance / (p.normal_module * g.teeth()) * d) <= 16 * epsilon * std::numbers::pi * d / g.teeth());
        }
        // The same tooth as that of the shift which the allowance amounts to.
        gear_parameters<double> q = nominal.parameters();
        q.profile_shift = thinned.generating_profile_shift();
        const gear<double> shifted{q};
        CHECK(std::fabs(shifted.normal_tooth_thickness() - thinned.normal_tooth_thickness()) <= 8 * epsilon * size);
        CHECK(shifted.generated_root_diameter() == thinned.generated_root_diameter());
        // Each is off by so much at most.
        const double half_angle = thinned.base_half_angle();
        CHECK(std::fabs(shifted.base_half_angle() - half_angle) <= 2 * rackwork::reference_thickness_error_bound * epsilon * half_angle);
    }
}

TEST_CASE("profile shift moves tip and root alike, thickens the tooth, and leaves pitches and base circle") {
    for (const gear<double>& g : random_gears(17, 1000)) {
        gear_parameters<double> p = g.parameters();
        p.profile_shift += 0.25;
        if (rackwork::check(p)) continue;
        const gear<double> shifted{p};
        const double moved = 0.5 * g.normal_module();
        CHECK(std::fabs(shifted.tip_diameter() - g.tip_diameter() - moved) <= 8 * epsilon * g.tip_diameter());
        CHECK(std::fabs(shifted.root_diameter() - g.root_diameter() - moved) <= 8 * epsilon * g.tip_diameter());
        CHECK(std::fabs(shifted.tooth_depth() - g.tooth_depth()) <= 8 * epsilon * g.tooth_depth());
        CHECK(std::fabs(shifted.normal_tooth_thickness() - g.normal_tooth_thickness() - moved * std::tan(g.normal_pressure_angle().rad())) <=
              8 * epsilon * g.normal_pitch());
        CHECK(shifted.base_diameter() == g.base_diameter());
        CHECK(shifted.reference_diameter() == g.reference_diameter());
        CHECK(shifted.transverse_base_pitch() == g.transverse_base_pitch());
        CHECK(shifted.pointed_tip_diameter() > g.pointed_tip_diameter());
    }
}

TEST_CASE("the face width changes nothing of the transverse section") {
    for (const gear<double>& g : random_gears(18, 200)) {
        gear_parameters<double> p = g.parameters();
        p.face_width = 0;
        check_same(lengths(gear<double>{p}), lengths(g), 1);
    }
}
