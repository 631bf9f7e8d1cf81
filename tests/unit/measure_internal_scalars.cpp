// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The measures of internal gears, over one ball, over three pins and of racks: computed by the compiler, with a scalar that can do what is
// documented and nothing else, and with numbers that carry derivatives.
#include "support_archetype.hpp"

#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/rack.hpp>
#include <rackwork/measure/radial_ball.hpp>
#include <rackwork/measure/span.hpp>

#include <boost/math/differentiation/autodiff.hpp>

#include <cmath>
#include <vector>

#include <doctest/doctest.h>

using namespace rackwork;

namespace {

/// A ring, spur or helical, with a thickness allowance.
template <class T>
constexpr gear<T> ring(const T& module, const T& allowance, int helix_in_degrees) {
    return gear<T>{gear_parameters<T>{.normal_module = module,
                                      .teeth = 61,
                                      .kind = gear_kind::internal,
                                      .helix_angle = deg(T(helix_in_degrees)),
                                      .profile_shift = T(1) / T(5),
                                      .thickness_allowance = allowance}};
}
template <class T>
constexpr gear<T> wheel(const T& module, const T& allowance) {
    return gear<T>{gear_parameters<T>{.normal_module = module, .teeth = 31, .thickness_allowance = allowance}};
}
template <class T>
constexpr toothed_rack<T> straight(const T& module, const T& allowance) {
    return {.normal_module = module, .thickness_allowance = allowance, .datum_height = T(20)};
}

/// Everything that is measured, as functions of module and allowance.
template <class T>
std::vector<T> sheet(const T& m, const T& allowance) {
    std::vector<T> all;
    const T pin = T(17) / T(5);
    const gear<T> spur = ring(m, allowance, 0);
    const gear<T> helical = ring(m, allowance, 15);
    const gear<T> external = wheel(m, allowance);
    const toothed_rack<T> rack = straight(m, allowance);
    all.push_back(ideal_pin_diameter(spur));
    all.push_back(ideal_pin_diameter(helical));
    all.push_back(position_of_pin(helical, pin).contact_diameter);
    all.push_back(dimension_between_pins(spur, pin));
    all.push_back(dimension_between_balls(helical, pin));
    all.push_back(radial_dimension_over_ball(helical, pin));
    all.push_back(radial_dimension_over_ball(external, pin));
    all.push_back(dimension_over_three_pins(external, pin));
    all.push_back(normal_tooth_thickness_from_pins(spur, pin, T(T(117) + m)));
    all.push_back(normal_tooth_thickness_from_balls(helical, pin, T(T(121) + m)));
    all.push_back(normal_tooth_thickness_from_radial_dimension(helical, pin, T(T(60) + m)));
    all.push_back(normal_tooth_thickness_from_three_pins(external, pin, T(T(64) + m)));
    all.push_back(span_measurement(spur, 8));
    all.push_back(span_contact_diameter(spur, 8));
    all.push_back(normal_tooth_thickness_from_span(spur, 8, T(T(43) + m)));
    all.push_back(T(recommended_teeth_spanned(spur)));
    const T diameter = spur.reference_diameter();
    all.push_back(chord_at(spur, diameter).thickness);
    all.push_back(chord_at(helical, helical.reference_diameter()).thickness);
    all.push_back(chord_at(helical, helical.reference_diameter()).height);
    all.push_back(space_chord_at(helical, helical.reference_diameter()).width);
    all.push_back(space_chord_at(external, external.reference_diameter()).depth);
    all.push_back(normal_tooth_thickness_from_space_chord(helical, helical.reference_diameter(), T(T(1) + m)));
    all.push_back(constant_chord(helical).thickness);
    all.push_back(constant_chord(helical).height);
    all.push_back(constant_chord_diameter(helical));
    all.push_back(ideal_pin_diameter(rack));
    all.push_back(height_over_pin(rack, pin));
    all.push_back(normal_tooth_thickness_from_height_over_pin(rack, pin, T(T(20) + m)));
    all.push_back(length_over_pins(rack, 4, pin));
    all.push_back(chord_at(rack, T(1) / T(2)).thickness);
    all.push_back(span_measurement(rack, 3, T(1) / T(4)));
    all.push_back(normal_tooth_thickness_from_span(rack, 3, T(1) / T(4), T(T(14) + m)));
    all.push_back(length_over_pitches(rack, 3));
    return all;
}

} // namespace

// Here the compiler measures.
constexpr gear<double> constant_ring = ring(2.0, -0.05, 0);
static_assert(dimension_between_pins(constant_ring, 3.4) < constant_ring.reference_diameter());
static_assert(dimension_between_balls(ring(2.0, -0.05, 15), 3.4) > dimension_between_pins(constant_ring, 3.4));
static_assert(recommended_teeth_spanned(constant_ring) > 2 && span_measurement(constant_ring, 8) > 40);
static_assert(chord_at(constant_ring, 122.0).thickness > space_chord_at(constant_ring, 122.0).width * 0.9);
static_assert(dimension_over_three_pins(wheel(2.0, 0.0), 3.4) < dimension_over_pins(wheel(2.0, 0.0), 3.4));
static_assert(height_over_pin(straight(2.0, 0.0), 3.4) > 20);

TEST_CASE("a scalar that can do what is documented measures what double measures") {
    const std::vector<double> expected = sheet(2.0, -0.05);
    const auto found = sheet(archetype::number(2.0), archetype::number(-0.05));
    REQUIRE(found.size() == expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
        CAPTURE(i);
        CHECK(static_cast<double>(found[i]) == doctest::Approx(expected[i]).epsilon(1e-13));
    }
}

TEST_CASE("derivatives of every measure by module and allowance are those of differences") {
    using variable = boost::math::differentiation::autodiff_fvar<double, 1>;
    const double h = 1e-6;
    const auto compare = [h](const std::vector<variable>& exact, const std::vector<double>& more, const std::vector<double>& less) {
        REQUIRE(exact.size() == more.size());
        for (std::size_t i = 0; i < exact.size(); ++i) {
            CAPTURE(i);
            const double slope = (more[i] - less[i]) / (2 * h);
            CHECK(std::fabs(exact[i].derivative(1) - slope) < 1e-7 * (1 + std::fabs(slope)));
        }
    };
    const auto by = [](double x) { return boost::math::differentiation::make_fvar<double, 1>(x); };
    compare(sheet<variable>(by(2), variable(-0.05)), sheet(2 + h, -0.05), sheet(2 - h, -0.05));
    compare(sheet<variable>(variable(2), by(-0.05)), sheet(2.0, -0.05 + h), sheet(2.0, -0.05 - h));
}
