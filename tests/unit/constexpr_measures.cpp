// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// All measures and their inverses, the root and the bad-input questions computed by the compiler, under its default limits.
#include <rackwork/generated_root.hpp>
#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>

namespace {

using namespace rackwork;
using namespace rackwork::literals;

constexpr double distance(double a, double b) { return a < b ? b - a : a - b; }

constexpr gear_parameters<double> spur_parameters{.normal_module = 4, .teeth = 25, .profile_shift = 0.15, .thickness_allowance = -0.08, .face_width = 40};
constexpr gear_parameters<double> even_parameters{.normal_module = 4, .teeth = 26, .profile_shift = 0.15, .face_width = 40};
constexpr gear_parameters<double> helical_parameters{
    .normal_module = 2, .teeth = 31, .helix_angle = -22_deg, .profile_shift = -0.1, .thickness_allowance = -0.04, .face_width = 30};
constexpr gear_parameters<double> undercut_parameters{.normal_module = 5, .teeth = 9, .rack = iso_53_d, .face_width = 50};

/// All that inspection reads of a gear, and what it makes of the readings.
template <class T>
constexpr std::array<T, 20> sheet(const gear<T>& g) {
    const int k = recommended_teeth_spanned(g);
    const T span = span_measurement(g, k);
    const T pin = ideal_pin_diameter(g);
    const pin_position<T> position = position_of_pin(g, pin);
    const T balls = dimension_over_balls(g, pin);
    const T pins = dimension_over_pins(g, pin);
    const T diameter = (g.effective_tip_diameter() + g.reference_diameter()) / 2;
    const chord<T> at_diameter = chord_at(g, diameter);
    const chord<T> constant = constant_chord(g);
    return {T(k),
            span,
            span_contact_diameter(g, k),
            span_face_width(g, k, g.normal_module()),
            normal_tooth_thickness_from_span(g, k, span),
            pin,
            nearest_preferred_pin_diameter(pin),
            position.centre_diameter,
            position.contact_diameter,
            pin_diameter_touching_at(g, g.tip_diameter()),
            balls,
            normal_tooth_thickness_from_balls(g, pin, balls),
            pins,
            normal_tooth_thickness_from_pins(g, pin, pins),
            at_diameter.thickness,
            at_diameter.height,
            normal_tooth_thickness_from_chord(g, diameter, at_diameter.thickness),
            constant.thickness,
            normal_tooth_thickness_from_constant_chord(g, constant.thickness),
            constant_chord_diameter(g)};
}

constexpr auto spur = sheet(gear{spur_parameters});
constexpr auto even = sheet(gear{even_parameters});
constexpr auto helical = sheet(gear{helical_parameters});
constexpr auto undercut = sheet(gear{undercut_parameters});
constexpr auto of_float = sheet(gear{gear_parameters<float>{.normal_module = 4, .teeth = 25, .helix_angle = deg(10.0F)}});
constexpr auto of_long_double = sheet(gear{gear_parameters<long double>{.normal_module = 4, .teeth = 25, .helix_angle = deg(10.0L)}});

// The compiler finds each thickness again from its reading.
template <std::size_t n>
constexpr bool thickness_comes_back(const std::array<double, n>& s, const gear_parameters<double>& p) {
    const double thickness = gear{p}.normal_tooth_thickness();
    return distance(s[4], thickness) < 1e-12 && distance(s[11], thickness) < 1e-12 && distance(s[13], thickness) < 1e-12 &&
           distance(s[16], thickness) < 1e-12 && distance(s[18], thickness) < 1e-12;
}
static_assert(thickness_comes_back(spur, spur_parameters) && thickness_comes_back(even, even_parameters));
static_assert(thickness_comes_back(helical, helical_parameters) && thickness_comes_back(undercut, undercut_parameters));

// Pins over even spur teeth are balls; over odd helical teeth they read less than balls in one plane.
static_assert(distance(even[10], even[12]) < 1e-12 && helical[12] > 0 && distance(spur[10], spur[12]) < 1e-12);
static_assert(helical[12] != helical[10]);

// The root: a corner where it is undercut, and a smooth joint where it is not.
constexpr generated_root<double> smooth_root{gear{helical_parameters}};
constexpr generated_root<double> undercut_root{gear{undercut_parameters}};
static_assert(!smooth_root.is_undercut() && undercut_root.is_undercut());
static_assert(undercut_root.root_form_diameter() > gear{undercut_parameters}.base_diameter());
static_assert(smooth_root.root_form_diameter() > smooth_root.fillet().rolling_radius() * 1.7);
static_assert(root_form_diameter(gear{helical_parameters}) == smooth_root.root_form_diameter());

// Asking is possible too: a wrong gear is a sentence here and a compile error where it is built.
static_assert(check(gear_parameters<double>{}) && !check(spur_parameters));
static_assert(check(gear_parameters<double>{.normal_module = 1, .teeth = 0}).limit == 1);
static_assert(check(gear_parameters<double>{.normal_module = std::numeric_limits<double>::quiet_NaN(), .teeth = 9}));
static_assert(check(gear_parameters<double>{.normal_module = 1, .teeth = 9, .helix_angle = 90_deg}));
static_assert(!check(gear_parameters<float>{.normal_module = 1, .teeth = 9}) && !check(gear_parameters<long double>{.normal_module = 1, .teeth = 9}));

template <class T, std::size_t n>
void same_numbers(const std::array<T, n>& compiled, const gear_parameters<T>& p) {
    const volatile T module = p.normal_module;
    gear_parameters<T> q = p;
    q.normal_module = module;
    const gear<T> g{q};
    const std::array<T, n> computed = sheet(g);
    for (std::size_t i = 0; i < n; ++i) {
        CAPTURE(i);
        CHECK(std::isfinite(compiled[i]));
        // Elementary functions 2 epsilon apart: a few more of the diameter, which all the measures hang on.
        CHECK(std::fabs(compiled[i] - computed[i]) <= 64 * std::numeric_limits<T>::epsilon() * g.tip_diameter());
    }
}

} // namespace

TEST_CASE("the measures of the compiler are the measures of the program") {
    same_numbers(spur, spur_parameters);
    same_numbers(even, even_parameters);
    same_numbers(helical, helical_parameters);
    same_numbers(undercut, undercut_parameters);
    same_numbers(of_float, gear_parameters<float>{.normal_module = 4, .teeth = 25, .helix_angle = deg(10.0F)});
    same_numbers(of_long_double, gear_parameters<long double>{.normal_module = 4, .teeth = 25, .helix_angle = deg(10.0L)});
}
