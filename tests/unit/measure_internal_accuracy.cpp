// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The measures of internal gears to fifty digits.
#include "../reference/independent_pins.hpp"
#include "../reference/ledger.hpp"
#include "../reference/random_gears.hpp"

#include "measure_internal.hpp"

#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/radial_ball.hpp>
#include <rackwork/measure/span.hpp>

#include <array>
#include <cstdint>
#include <type_traits>

namespace {

using independent::ball;
using independent::real;
using independent::vector3;
using reference::ledger;

/// The space of an internal gear is the tooth of an external one, with the space's width for the thickness.
independent::gear space_as_tooth(const independent::gear_numbers& n) {
    independent::gear_numbers outside = n;
    const independent::gear nominal(outside);
    const real wanted = real(nominal.normal_pitch - nominal.normal_thickness);
    return independent::with_thickness(nominal, wanted);
}

/// One flank of that space; by a half turn about the x axis the other follows. The normal looks out of the space.
independent::helicoid<real> flank_of_space(const independent::gear& space) {
    return {space.base_radius, space.tooth_half_angle, space.twist(), real(-1)};
}

/// The ball of a diameter in the space; from a place near that where it touches.
ball ball_inside(const independent::gear& space, const real& diameter, double near_roll) {
    const auto flank = flank_of_space(space);
    const auto centre = [&](const std::array<real, 2>& at) {
        const real z = real(at[1] * space.base_radius);
        return flank.point(at[0], z) - real(diameter / 2) * flank.normal(at[0], z);
    };
    const auto off_axis = [&](const std::array<real, 2>& at) {
        const vector3<> c = centre(at);
        return std::array<real, 2>{real(c.y / space.base_radius), real(c.z / space.base_radius)};
    };
    std::array<real, 2> x{real(near_roll), real(0)};
    REQUIRE(independent::newton<2, real>(off_axis, x, {real(1), real(1)}, real("0.2"), 60));
    return {diameter, centre(x).x, radius(flank.point(x[0], real(x[1] * space.base_radius))), x[0]};
}

/// The ball that touches at a radius: along the normal from there to the middle of the space.
ball ball_inside_touching_at(const independent::gear& space, const real& contact_radius) {
    const auto flank = flank_of_space(space);
    const real t = independent::unwound_to(space.base_radius, contact_radius);
    const auto centre = [&](const std::array<real, 2>& at) {
        const real z = real(at[1] * space.base_radius);
        return flank.point(t, z) - real(at[0] * space.base_radius) * flank.normal(t, z);
    };
    const auto off_axis = [&](const std::array<real, 2>& at) {
        const vector3<> c = centre(at);
        return std::array<real, 2>{real(c.y / space.base_radius), real(c.z / space.base_radius)};
    };
    std::array<real, 2> x{real(space.normal_pitch / space.base_radius / 4), real(0)};
    REQUIRE(independent::newton<2, real>(off_axis, x, {real("0.1"), real("0.1")}, real(1), 100));
    return {real(2 * x[0] * space.base_radius), centre(x).x, contact_radius, t};
}

real between_balls(const independent::gear& space, const ball& b) {
    const vector3<> first{b.centre_radius, real(0), real(0)};
    return real(length(turned(first, independent::angle_of_opposite_spaces(space)) - first) - b.diameter);
}

/// Shortest distance of two helices on a cylinder, twice `half` apart in each transverse section; and how far its middle is from the axis.
struct shortest {
    real length;
    real middle;
};
shortest between_helices(const real& radius, const real& half, const real& twist) {
    const auto apart = [&](const auto& z) {
        using R = std::decay_t<decltype(z)>;
        const R r = static_cast<R>(radius);
        const vector3<R> from{r, R(0), R(0)};
        vector3<R> to = turned(from, R(static_cast<R>(2 * half) + static_cast<R>(twist) * z));
        to.z = z;
        return length(to - from);
    };
    const real slope = real(abs(twist * radius));
    const real place = slope == 0 ? real(0) : independent::place_of_minimum(apart, real(-2 * half * radius), real(2 * half * radius));
    const real between = real(2 * half + twist * place);
    return {apart(place), real(radius * cos(real(between / 2)))};
}

template <class T>
void compare_ring(ledger& worst, const rackwork::gear_parameters<T>& p, double fraction, bool also_thickness) {
    const rackwork::gear<T> g(p);
    const independent::gear_numbers numbers = reference::exact_numbers(p);
    const independent::gear space = space_as_tooth(numbers);
    const real d = real(2 * space.reference_radius);
    const T tip = g.tip_diameter();
    const T contact = T(tip + static_cast<T>(0.02 + 0.9 * fraction) * (g.root_diameter() - tip));

    // Pins and balls.
    const ball touching = ball_inside_touching_at(space, real(real(contact) / 2));
    const real c = real(cos(space.base_helix_angle));
    const real centre_roll = independent::unwound_to(space.base_radius, touching.centre_radius);
    const real rate = real(1 / (1 + centre_roll * centre_roll) + 1 / (c * c) - 1);
    const real size = real(2 * space.base_radius / c * (touching.unwound + (touching.unwound / (c * c) + space.tooth_half_angle) / rate));
    if (touching.diameter > 0) {
        const T pin = rackwork::pin_diameter_touching_at(g, contact);
        worst.record("ball that touches at a diameter", pin, touching.diameter, {16, size});
        const ball lies = ball_inside(space, real(pin), static_cast<double>(touching.unwound));
        const auto position = rackwork::position_of_pin(g, pin);
        const real tangent = independent::unwound_to(space.base_radius, lies.centre_radius);
        const real condition = tangent < 1 ? real(1 / tangent) : real(1);
        worst.record("diameter of the balls' centres", position.centre_diameter, real(2 * lies.centre_radius), {16, real(0), condition});
        worst.record("diameter of the balls' contact", position.contact_diameter, real(2 * lies.contact_radius), {16, real(0), condition});
        const reference::bound over_centre{16, real(2 * lies.centre_radius), condition};
        const real expected = between_balls(space, lies);
        const T reading = rackwork::dimension_between_balls(g, pin);
        worst.record("dimension between balls", reading, expected, over_centre);
        worst.record("radial dimension of a ball", rackwork::radial_dimension_over_ball(g, pin),
                     real(lies.centre_radius - lies.diameter / 2), over_centre);
        if (also_thickness) {
            const T measured = T(reading * T(T(4097) / T(4096)));
            const auto reads_more = [&](const real& width) {
                const independent::gear other = independent::with_thickness(space, width);
                return real(between_balls(other, ball_inside(other, real(pin), static_cast<double>(touching.unwound))) - real(measured));
            };
            const real width = independent::root_near(reads_more, space.normal_thickness, real(numbers.normal_module / 10));
            worst.record("thickness from the dimension between balls", rackwork::normal_tooth_thickness_from_balls(g, pin, measured),
                         real(space.normal_pitch - width), {16, d});
        }
    }

    // Chords.
    const real half_space = real(space.tooth_half_angle - space.flank_turn(real(real(contact) / 2)));
    const real half_tooth = real(independent::pi() / numbers.teeth - half_space);
    const shortest tooth = between_helices(real(real(contact) / 2), half_tooth, space.twist());
    const auto chord = rackwork::chord_at(g, contact);
    worst.record("chord of an internal tooth", chord.thickness, tooth.length, {4, real(contact)});
    const real tip_radius = real(space.reference_radius - numbers.normal_module * (numbers.addendum + numbers.shift + numbers.tip_alteration));
    worst.record("height of the chord of an internal tooth", chord.height, real(tooth.middle - tip_radius), {4, real(contact)});
    if (half_space > 0) {
        const shortest across = between_helices(real(real(contact) / 2), half_space, space.twist());
        const auto of_space = rackwork::space_chord_at(g, contact);
        worst.record("chord of an internal space", of_space.width, across.length, {4, real(contact)});
        worst.record("depth of the chord of an internal space", of_space.depth, real(across.middle - tip_radius), {4, real(contact)});
    }

    // The span, of spur gears.
    if (p.helix_angle.rad() != T(0)) return;
    for (const int spaces : {1, 2, g.teeth() / 7, g.teeth() / 4}) {
        if (spaces < 1) continue;
        const independent::span s = independent::span_over(space, spaces);
        worst.record("span over internal spaces", rackwork::span_measurement(g, spaces), s.distance, {8});
        worst.record("diameter of its contact", rackwork::span_contact_diameter(g, spaces), real(2 * s.contact_radius), {8});
    }
}

template <class T>
void sweep_rings(std::uint64_t seed, int rings) {
    support::random_source random(seed);
    ledger worst;
    for (int i = 0; i < rings; ++i) {
        const auto drawn = measure::random_ring(random, {.least_teeth = 18, .most_teeth = 200, .steepest_helix = 40});
        const double fraction = random.uniform(0, 1);
        auto p = reference::parameters_as<T>(drawn);
        p.kind = rackwork::gear_kind::internal;
        worst.at(reference::description(drawn));
        INFO(reference::description(drawn));
        if (rackwork::check(p)) continue;
        compare_ring<T>(worst, p, fraction, i % 4 == 0);
    }
    CHECK(worst.count("dimension between balls") > rings / 2);
    CHECK(worst.count("span over internal spaces") > rings / 2);
    worst.check();
}

} // namespace

TEST_CASE("balls, chords and spans of internal gears of doubles are those of true helicoids") { sweep_rings<double>(651, 250); }
TEST_CASE("balls, chords and spans of internal gears of long doubles are those of true helicoids") { sweep_rings<long double>(652, 60); }
TEST_CASE("balls, chords and spans of internal gears of floats are those of true helicoids") { sweep_rings<float>(653, 60); }
