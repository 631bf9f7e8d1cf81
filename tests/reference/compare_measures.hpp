// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Span, pins, balls and chords against the independent computation, for any scalar.
#pragma once

#include "compare_root.hpp"
#include "independent_chord.hpp"
#include "independent_pins.hpp"
#include "independent_span.hpp"
#include "ledger.hpp"
#include "random_gears.hpp"

#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>

namespace reference {

using rackwork::chord_error_bound;
using rackwork::pin_error_bound;
using rackwork::span_error_bound;

/// The thickness with which a measure of the gear takes a value: from the forward measure alone, by secants.
template <class Measure>
real thickness_that_measures(const independent::gear& g, const real& value, const Measure& measure) {
    const auto excess = [&](const real& thickness) { return real(measure(independent::with_thickness(g, thickness)) - value); };
    return independent::root_near(excess, g.normal_thickness, real(g.numbers.normal_module / 10));
}

template <class T>
void compare_span(ledger& worst, const rackwork::gear<T>& g, const independent::gear& exact, int teeth) {
    const independent::span s = independent::span_over(exact, teeth);
    worst.record("span", rackwork::span_measurement(g, teeth), s.distance, {span_error_bound});
    worst.record("diameter of the anvils' contact", rackwork::span_contact_diameter(g, teeth), real(2 * s.contact_radius),
                 {span_error_bound});
    worst.record("face width for the span", rackwork::span_face_width(g, teeth), s.height_of_contacts, {span_error_bound});
    const T contact = T(g.normal_module() / T(3));
    // Contact along the flank line of that length: it leans by the base helix angle.
    worst.record("face width for the span and a length of contact", rackwork::span_face_width(g, teeth, contact),
                 real(s.height_of_contacts + real(contact) * cos(exact.base_helix_angle)), {span_error_bound});

    const T measured = T(rackwork::span_measurement(g, teeth) * T(T(1023) / T(1024)));
    const real thickness = thickness_that_measures(exact, real(measured),
                                                   [&](const independent::gear& of) { return independent::span_over(of, teeth).distance; });
    worst.record("thickness from the span", rackwork::normal_tooth_thickness_from_span(g, teeth, measured), thickness,
                 {span_error_bound, s.distance});
}

/// The number of teeth to span: where the anvils would touch the shifted reference circle, to the nearest whole number.
template <class T>
void compare_recommended_span(const rackwork::gear<T>& g, const independent::gear& exact, const independent::root& root) {
    const real d = real(exact.reference_radius + exact.numbers.shift * exact.numbers.normal_module);
    const real target = d > exact.base_radius ? d : exact.base_radius;
    // As a broken number, by linear interpolation of the span itself: it grows by one base pitch per tooth.
    const real one = independent::span_over(exact, 1).distance;
    const real pitch = real(independent::span_over(exact, 2).distance - one);
    // The contact lies as far from the base circle's tangent point as the span reaches, seen in the transverse section.
    const real wanted = real(2 * sqrt(real(target * target - exact.base_radius * exact.base_radius)) / cos(exact.base_helix_angle));
    const real broken = real(1 + (wanted - one) / pitch);
    const real nearest = floor(real(broken + real("0.5")));
    if (abs(real(abs(real(broken - nearest)) - real("0.5"))) < real("1e-6")) return; // a tie, or next to one
    const int least = exact.numbers.teeth > 2 ? 2 : 1;
    int k = static_cast<int>(nearest);
    k = std::max(least, std::min(k, exact.numbers.teeth - 1));
    const auto touches_at = [&](int teeth) { return independent::span_over(exact, teeth).contact_radius; };
    if (touches_at(k) > exact.effective_tip_radius()) {
        if (k > least && touches_at(k - 1) >= root.form_radius) --k;
    } else if (touches_at(k) < root.form_radius) {
        if (k + 1 < exact.numbers.teeth && touches_at(k + 1) <= exact.effective_tip_radius()) ++k;
    }
    CHECK(rackwork::recommended_teeth_spanned(g) == k);
}

/// Between few wide open teeth the ball becomes larger than the gear, or there is none: nobody measures with that.
inline bool is_a_ball_to_measure_with(const std::optional<independent::ball>& b, const independent::gear& exact) {
    return b && b->diameter < 2 * exact.base_radius;
}

/// What the errors of a pin found from its contact grow from: the sum of angles that its centre satisfies, and how slowly that sum
/// changes with the centre's place.
inline real size_behind_pin(const independent::gear& exact, const independent::ball& b) {
    const real c = real(cos(exact.base_helix_angle));
    const real centre = independent::unwound_to(exact.base_radius, b.centre_radius);
    const real sum = real(b.unwound / (c * c) + abs(exact.space_half_angle));
    const real rate = real(1 / (1 + centre * centre) + 1 / (c * c) - 1);
    return real(2 * exact.base_radius / c * (b.unwound + sum / rate));
}

/// Pins and balls of the diameter that touches at a diameter.
template <class T>
void compare_pins(ledger& worst, const rackwork::gear<T>& g, const independent::gear& exact, const T& contact_diameter,
                  bool also_thicknesses = true) {
    const auto touching = independent::ball_touching_at(exact, real(real(contact_diameter) / 2));
    if (!is_a_ball_to_measure_with(touching, exact)) return;
    if (touching->diameter <= 0) {
        CHECK_THROWS_AS(static_cast<void>(rackwork::pin_diameter_touching_at(g, contact_diameter)), rackwork::geometry_error);
        return;
    }
    const T pin = rackwork::pin_diameter_touching_at(g, contact_diameter);
    worst.record("pin that touches at a diameter", pin, touching->diameter, {pin_error_bound, size_behind_pin(exact, *touching)});

    const auto found = independent::ball_in_space(exact, real(pin));
    REQUIRE(found);
    const independent::ball& ball = *found;
    const auto position = rackwork::position_of_pin(g, pin);
    const real tangent = independent::unwound_to(exact.base_radius, ball.centre_radius);
    const bound stated{pin_error_bound, real(0), real(1 / tangent)};
    worst.record("diameter of the pins' centres", position.centre_diameter, real(2 * ball.centre_radius), stated);
    worst.record("diameter of the pins' contact", position.contact_diameter, real(2 * ball.contact_radius), stated);
    const real over_balls = independent::over_balls(exact, ball);
    worst.record("dimension over balls", rackwork::dimension_over_balls(g, pin), over_balls, {pin_error_bound});
    const real helix = real(abs(exact.helix_angle(real(2 * ball.centre_radius))) * 180 / independent::pi());
    if (helix > real("45.000001")) {
        CHECK_THROWS_AS(static_cast<void>(rackwork::dimension_over_pins(g, pin)), rackwork::geometry_error);
    }
    if (helix < 44)
        worst.record("dimension over pins", rackwork::dimension_over_pins(g, pin), independent::over_pins(exact, ball), {pin_error_bound});
    if (!also_thicknesses) return;

    const T ball_reading = T(rackwork::dimension_over_balls(g, pin) * T(T(4095) / T(4096)));
    const auto over_ball = [&](const independent::gear& of) {
        return independent::over_balls(of, independent::ball_in_space(of, real(pin)).value());
    };
    worst.record("thickness from the dimension over balls", rackwork::normal_tooth_thickness_from_balls(g, pin, ball_reading),
                 thickness_that_measures(exact, real(ball_reading), over_ball), {pin_error_bound, real(2 * exact.reference_radius)});

    if (helix >= 44) return;
    const T pin_reading = T(rackwork::dimension_over_pins(g, pin) * T(T(4095) / T(4096)));
    const auto over_pin = [&](const independent::gear& of) {
        return independent::over_pins(of, independent::ball_in_space(of, real(pin)).value());
    };
    worst.record("thickness from the dimension over pins", rackwork::normal_tooth_thickness_from_pins(g, pin, pin_reading),
                 thickness_that_measures(exact, real(pin_reading), over_pin), {pin_error_bound, real(2 * exact.reference_radius)});
}

/// A pin of any diameter: either it touches both flanks above the base circle, or it is refused.
template <class T>
void compare_any_pin(ledger& worst, const rackwork::gear<T>& g, const independent::gear& exact, const T& pin) {
    const auto found = independent::ball_in_space(exact, real(pin));
    if (!found || found->unwound < real("-1e-3")) {
        CHECK_THROWS_AS(static_cast<void>(rackwork::position_of_pin(g, pin)), rackwork::geometry_error);
    } else if (found->unwound > real("1e-3")) {
        const auto position = rackwork::position_of_pin(g, pin);
        const bound stated{pin_error_bound, real(0), real(1 / independent::unwound_to(exact.base_radius, found->centre_radius))};
        worst.record("diameter of any pins' centres", position.centre_diameter, real(2 * found->centre_radius), stated);
        worst.record("diameter of any pins' contact", position.contact_diameter, real(2 * found->contact_radius), stated);
    }
}

template <class T>
void compare_ideal_pin(ledger& worst, const rackwork::gear<T>& g, const independent::gear& exact, const independent::root& root) {
    const real shifted = real(exact.reference_radius + exact.numbers.shift * exact.numbers.normal_module);
    const real tip = exact.effective_tip_radius();
    const bool on_involute = root.form_radius < shifted && shifted < tip;
    const real contact = on_involute ? shifted : real((root.form_radius + tip) / 2);
    const auto touching = independent::ball_touching_at(exact, contact);
    if (!is_a_ball_to_measure_with(touching, exact)) return;
    if (touching->diameter <= 0) {
        CHECK_THROWS_AS(static_cast<void>(rackwork::ideal_pin_diameter(g)), rackwork::geometry_error);
        return;
    }
    worst.record("ideal pin", rackwork::ideal_pin_diameter(g), touching->diameter,
                 {16, size_behind_pin(exact, *touching), real(1 / root.sine_of_crossing)});
}

template <class T>
void compare_chord(ledger& worst, const rackwork::gear<T>& g, const independent::gear& exact, const T& diameter) {
    const independent::chord c = independent::chord_at(exact, real(diameter));
    const auto computed = rackwork::chord_at(g, diameter);
    worst.record("chordal thickness", computed.thickness, c.thickness, {chord_error_bound, real(diameter)});
    worst.record("chordal height", computed.height, c.height, {chord_error_bound, real(2 * exact.effective_tip_radius())});

    const T measured = T(computed.thickness * T(T(1023) / T(1024)));
    const real from = thickness_that_measures(
        exact, real(measured), [&](const independent::gear& of) { return independent::chord_at(of, real(diameter)).thickness; });
    worst.record("thickness from the chord", rackwork::normal_tooth_thickness_from_chord(g, diameter, measured), from,
                 {16, real(2 * exact.reference_radius)});
}

template <class T>
void compare_constant_chord(ledger& worst, const rackwork::gear<T>& g, const independent::gear& exact) {
    const independent::chord c = independent::constant_chord(exact);
    const auto computed = rackwork::constant_chord(g);
    worst.record("constant chord", computed.thickness, c.thickness, {8});
    worst.record("height of the constant chord", computed.height, c.height, {chord_error_bound, real(2 * exact.effective_tip_radius())});
    const independent::vector3<> end = independent::constant_chord_end(exact);
    worst.record("diameter of the constant chord's ends", rackwork::constant_chord_diameter(g), real(2 * radius(end)), {8});
    if (radius(end) > exact.base_radius) {
        // It is a point of the flank: turned back by the helix it lies where the involute has run to.
        const real turn = real(exact.tooth_half_angle - exact.flank_turn(radius(end)) + exact.twist() * end.z);
        CHECK(abs(real(polar_angle(end) - turn)) < real("1e-46"));
    }
    const T measured = T(computed.thickness * T(T(1023) / T(1024)));
    const real from = thickness_that_measures(exact, real(measured),
                                              [](const independent::gear& of) { return independent::constant_chord(of).thickness; });
    worst.record("thickness from the constant chord", rackwork::normal_tooth_thickness_from_constant_chord(g, measured), from, {8});
}

} // namespace reference
