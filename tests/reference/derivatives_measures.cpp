// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Derivatives of the inspector's sizes, and of the thicknesses found from them, with respect to every input.
#include "compare_measures.hpp"
#include "differentiate.hpp"

namespace {

using independent::real;
using reference::differentiable;
using inputs = std::array<differentiable, reference::gear_inputs>;
using exact_inputs = std::array<real, reference::gear_inputs>;

void sweep(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::derivative_ledger worst(1e-14);
    reference::tally possible;
    for (int i = 0; i < gears; ++i) {
        auto p = reference::random_smooth_gear(random, 40);
        // With next to no helix the references' differences would lose what they have left.
        if (std::abs(p.helix_angle.rad()) < 0.01) p.helix_angle = {};
        const double fraction = random.uniform(0.2, 0.8);
        worst.at(reference::description(p));
        INFO(reference::description(p));
        if (rackwork::check(p)) {
            possible.count(false);
            continue;
        }
        const rackwork::gear<double> g(p);
        const independent::gear exact(reference::exact_numbers(p));
        const independent::root root = independent::root_of(exact);
        possible.count(reference::leaves_a_flank(exact, root));
        if (!reference::leaves_a_flank(exact, root)) continue;

        using G = rackwork::gear<differentiable>;
        using E = independent::gear;
        using D = differentiable;
        const double d = g.reference_diameter();
        const auto compare = [&](const char* name, double further, double size, double condition, const auto& library,
                                 const auto& independently) {
            auto in = reference::inputs_of(p, further, further);
            // Every measure is even in the helix angle, so a spur gear's do not change with it.
            if (p.helix_angle.rad() == 0) in.size[1] = 0;
            worst.record(
                {name, size, condition}, in, [&](const inputs& x) { return differentiable(library(reference::gear_from(x, p.teeth), x[10])); },
                [&](const exact_inputs& x) { return real(independently(reference::exact_gear_from(x, p.teeth), x[10])); });
        };
        const auto inverse = [](const E& a, const real& value, const auto& measure) {
            return reference::thickness_that_measures(a, value, measure);
        };

        const int k = rackwork::recommended_teeth_spanned(g);
        const double span = rackwork::span_measurement(g, k);
        const auto exact_span = [&](const E& a) { return independent::span_over(a, k).distance; };
        compare("span", 1, span, 1, [&](const G& a, const D&) { return rackwork::span_measurement(a, k); },
                [&](const E& a, const real&) { return exact_span(a); });
        compare("diameter of the anvils' contact", 1, d, 1, [&](const G& a, const D&) { return rackwork::span_contact_diameter(a, k); },
                [&](const E& a, const real&) { return real(2 * independent::span_over(a, k).contact_radius); });
        compare("thickness from the span", span, span, 1,
                [&](const G& a, const D& x) { return rackwork::normal_tooth_thickness_from_span(a, k, x); },
                [&](const E& a, const real& x) { return inverse(a, x, exact_span); });

        compare("constant chord", 1, d, 1, [](const G& a, const D&) { return rackwork::constant_chord(a).thickness; },
                [](const E& a, const real&) { return independent::constant_chord(a).thickness; });
        compare("height of the constant chord", 1, d, 1, [](const G& a, const D&) { return rackwork::constant_chord(a).height; },
                [](const E& a, const real&) { return independent::constant_chord(a).height; });
        compare("diameter of the constant chord's ends", 1, d, 1, [](const G& a, const D&) { return rackwork::constant_chord_diameter(a); },
                [](const E& a, const real&) { return real(2 * radius(independent::constant_chord_end(a))); });

        const double form = static_cast<double>(real(2 * root.form_radius));
        const double contact = form + fraction * (g.effective_tip_diameter() - form);
        const double near_base = 1 / (1 - g.base_diameter() / contact);
        const double thickness = g.tooth_thickness(contact);
        compare("chordal thickness", contact, d, near_base, [](const G& a, const D& x) { return rackwork::chord_at(a, x).thickness; },
                [](const E& a, const real& x) { return independent::chord_at(a, x).thickness; });
        compare("chordal height", contact, d, near_base, [](const G& a, const D& x) { return rackwork::chord_at(a, x).height; },
                [](const E& a, const real& x) { return independent::chord_at(a, x).height; });
        const double caliper = rackwork::chord_at(g, contact).thickness;
        if (thickness > 0.01 * p.normal_module) {
            compare("thickness from the chord", caliper, d, near_base,
                    [&](const G& a, const D& x) { return rackwork::normal_tooth_thickness_from_chord(a, D(contact), x); },
                    [&](const E& a, const real& x) {
                        return inverse(a, x, [&](const E& of) { return independent::chord_at(of, real(contact)).thickness; });
                    });
        }

        const auto touching = independent::ball_touching_at(exact, real(real(contact) / 2));
        if (!reference::is_a_ball_to_measure_with(touching, exact) || touching->diameter <= 0) continue;
        const double grows = static_cast<double>(real(reference::size_behind_pin(exact, *touching) / d)) * near_base;
        compare("pin that touches at a diameter", contact, d, grows,
                [](const G& a, const D& x) { return rackwork::pin_diameter_touching_at(a, x); },
                [](const E& a, const real& x) { return independent::ball_touching_at(a, real(x / 2)).value().diameter; });
        const double pin = rackwork::pin_diameter_touching_at(g, contact);
        const auto ball = [](const E& a, const real& x) { return independent::ball_in_space(a, x).value(); };
        compare("diameter of the pins' centres", pin, d, near_base,
                [](const G& a, const D& x) { return rackwork::position_of_pin(a, x).centre_diameter; },
                [&](const E& a, const real& x) { return real(2 * ball(a, x).centre_radius); });
        compare("diameter of the pins' contact", pin, d, near_base,
                [](const G& a, const D& x) { return rackwork::position_of_pin(a, x).contact_diameter; },
                [&](const E& a, const real& x) { return real(2 * ball(a, x).contact_radius); });
        compare("dimension over balls", pin, d, near_base, [](const G& a, const D& x) { return rackwork::dimension_over_balls(a, x); },
                [&](const E& a, const real& x) { return independent::over_balls(a, ball(a, x)); });
        const double over_balls = rackwork::dimension_over_balls(g, pin);
        compare("thickness from the dimension over balls", over_balls, d, near_base,
                [&](const G& a, const D& x) { return rackwork::normal_tooth_thickness_from_balls(a, D(pin), x); },
                [&](const E& a, const real& x) {
                    return inverse(a, x, [&](const E& of) { return independent::over_balls(of, ball(of, real(pin))); });
                });

        // Close to 45 degrees at the pin the least reading is ill-defined.
        const double slope = std::tan(g.helix_angle(rackwork::position_of_pin(g, pin).centre_diameter).rad());
        if (std::abs(slope) > 0.95) continue;
        const double steep = near_base / (1 - slope * slope);
        compare("dimension over pins", pin, d, steep, [](const G& a, const D& x) { return rackwork::dimension_over_pins(a, x); },
                [&](const E& a, const real& x) { return independent::over_pins(a, ball(a, x)); });
        const double over_pins = rackwork::dimension_over_pins(g, pin);
        const bool skew = p.helix_angle.rad() != 0 && p.teeth % 2 != 0;
        compare(skew ? "thickness from the dimension over skew pins" : "thickness from the dimension over pins", over_pins, d, steep,
                [&](const G& a, const D& x) { return rackwork::normal_tooth_thickness_from_pins(a, D(pin), x); },
                [&](const E& a, const real& x) {
                    return inverse(a, x, [&](const E& of) { return independent::over_pins(of, ball(of, real(pin))); });
                });
    }
    CHECK(possible.share() > 0.7);
    CHECK(worst.count("thickness from the dimension over skew pins") > gears);
    CHECK(worst.count("thickness from the dimension over pins") > gears);
    worst.check();
}

} // namespace

TEST_CASE("the inspector's sizes change with a gear's inputs as the independent computation says") { sweep(120, 40); }
