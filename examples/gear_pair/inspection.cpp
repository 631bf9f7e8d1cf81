// Example gear_pair: what the inspector reads of a gear.
#include "gear_values.hpp"

#include "table.hpp"
#include "tools.hpp"

#include <rackwork/core/error.hpp>
#include <rackwork/cutter.hpp>
#include <rackwork/findings.hpp>
#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/radial_ball.hpp>
#include <rackwork/measure/span.hpp>

#include <algorithm>
#include <cmath>
#include <variant>

namespace gear_pair {

namespace {

void add_span(sheet_maker& to, const rackwork::gear<double>& g, const rackwork::generated_root<double>& root,
              const std::optional<int>& asked) {
    const int k = asked ? *asked : rackwork::recommended_teeth_spanned(g, root);
    to.number("teeth_spanned", k);
    to.size("span_measurement", rackwork::span_measurement(g, k));
    to.size("span_contact_diameter", rackwork::span_contact_diameter(g, k));
    if (g.helix_angle().rad() != 0) to.size("span_face_width", rackwork::span_face_width(g, k));
    const auto* hob = std::get_if<rackwork::rack_type_cutter<double>>(&root.tool());
    if (hob != nullptr && hob->finishing_allowance > 0) {
        // The span is taken square to the flanks, where the stock lies on either side.
        to.size("span_before_finishing", rackwork::span_measurement(g, k) + 2 * hob->finishing_allowance * g.normal_module());
    }
}

/// True if a pin lies in the space and nothing speaks against measuring with it.
bool measurable(const rackwork::gear<double>& g, const rackwork::generated_root<double>& root, double pin) {
    try {
        return rackwork::pin_findings(g, root, pin).empty();
    } catch (const rackwork::geometry_error&) {
        return false;
    }
}

/// The preferred diameter nearest to the ideal one with which the library has no fault to find (the ideal pin of an internal gear often
/// lies below the tip circle), or just the nearest. In inches the wire tables' diameter.
double customary_pin(const rackwork::gear<double>& g, const rackwork::generated_root<double>& root, double ideal, bool inch) {
    if (inch) return (g.is_internal() ? rackwork::wire_table_internal_pin_factor : rackwork::wire_table_pin_factor) * g.normal_module();
    double best = rackwork::nearest_preferred_pin_diameter(ideal);
    if (measurable(g, root, best)) return best;
    double distance = ideal / 4; // further away it touches too near to the ends of the flank
    for (const double pin : rackwork::preferred_pin_diameters_in_millimetres) {
        if (std::fabs(pin - ideal) >= distance || !measurable(g, root, pin)) continue;
        best = pin;
        distance = std::fabs(pin - ideal);
    }
    return best;
}

} // namespace

void add_inspection(sheet_maker& to, const rackwork::gear<double>& g, const rackwork::generated_root<double>& root,
                    const gear_options& asked, const options& o, rackwork::finding_subject subject) {
    to.measurement("span measurement", [&] { add_span(to, g, root, asked.teeth_spanned); });
    double pin = asked.pin_diameter.value_or(0);
    to.measurement("ideal pin diameter", [&] {
        const double ideal = rackwork::ideal_pin_diameter(g, root);
        if (!asked.pin_diameter) pin = customary_pin(g, root, ideal, o.inch);
        to.size("ideal_pin_diameter", ideal);
    });
    const bool internal = g.is_internal();
    to.measurement(internal ? "dimension between balls" : "dimension over balls", [&] {
        const rackwork::pin_position<double> position = rackwork::position_of_pin(g, pin);
        to.size("pin_diameter", pin);
        to.size("pin_centre_diameter", position.centre_diameter);
        to.size("pin_contact_diameter", position.contact_diameter);
        if (internal) {
            to.size("dimension_between_balls", rackwork::dimension_between_balls(g, pin));
        } else {
            to.size("dimension_over_balls", rackwork::dimension_over_balls(g, pin));
        }
    });
    if (to.find("pin_diameter") != nullptr) {
        to.measurement(internal ? "dimension between pins" : "dimension over pins", [&] {
            if (internal) {
                to.size("dimension_between_pins", rackwork::dimension_between_pins(g, pin));
            } else {
                to.size("dimension_over_pins", rackwork::dimension_over_pins(g, pin));
            }
        });
        to.measurement("radial dimension over one ball",
                       [&] { to.size("radial_dimension_over_ball", rackwork::radial_dimension_over_ball(g, pin)); });
    }
    to.measurement("chord", [&] {
        const rackwork::chord<double> chord = rackwork::chord_at(g, g.reference_diameter());
        to.size("chordal_thickness", chord.thickness);
        to.size("chordal_height", chord.height);
    });
    to.measurement("constant chord", [&] {
        const rackwork::chord<double> constant = rackwork::constant_chord(g);
        to.size("constant_chord_thickness", constant.thickness);
        to.size("constant_chord_height", constant.height);
    });

    to.measurement("findings about the measurements", [&] {
        if (const named_value* k = to.find("teeth_spanned")) to.findings(rackwork::span_findings(g, root, static_cast<int>(k->value)), subject);
        if (to.find("pin_diameter") != nullptr) to.findings(rackwork::pin_findings(g, root, pin), subject);
        if (to.find("chordal_thickness") != nullptr) to.findings(rackwork::chord_findings(g, root, g.reference_diameter()), subject);
    });
}

} // namespace gear_pair
