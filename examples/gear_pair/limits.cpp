// Example gear_pair: limits of the sizes and of the backlash, tolerances of the flanks.
#include "limits.hpp"

#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/radial_ball.hpp>
#include <rackwork/measure/span.hpp>
#include <rackwork/tolerance/backlash.hpp>
#include <rackwork/tolerance/flank.hpp>
#include <rackwork/tolerance/thickness.hpp>

namespace gear_pair {

namespace {

/// The limits that are given, or twice the allowance that the sizes are computed with.
rackwork::thickness_allowances<double> limits_of(const allowance_options& given, double computed) {
    if (given.has_limits()) return {.upper = *given.upper, .lower = *given.lower};
    return {.upper = computed, .lower = computed};
}

/// Reads a gear with the thickest and with the thinnest teeth.
template <class Measure>
rackwork::size_limits<double> between(const rackwork::gear<double>& g, const rackwork::thickness_allowances<double>& allowances,
                                      const Measure& measure) {
    return rackwork::limits_between<double>(measure(rackwork::with_thickness_allowance(g, allowances.upper)),
                                            measure(rackwork::with_thickness_allowance(g, allowances.lower)));
}

} // namespace

void add_size_limits(sheet_maker& to, const rackwork::gear<double>& g, const allowance_options& allowance) {
    if (!allowance.has_limits()) return;
    const rackwork::thickness_allowances<double> allowances{.upper = *allowance.upper, .lower = *allowance.lower};
    to.size("upper_thickness_allowance", allowances.upper);
    to.size("lower_thickness_allowance", allowances.lower);
    to.size("thickness_tolerance", allowances.tolerance());
    to.limits("normal_tooth_thickness", rackwork::normal_tooth_thickness_limits(g, allowances));
    const auto add = [&](const std::string& name, const auto& measure) {
        if (to.find(name) == nullptr) return;
        to.measurement("limits of the " + name, [&] { to.limits(name, between(g, allowances, measure)); });
    };
    if (const named_value* found = to.find("teeth_spanned")) {
        const int k = static_cast<int>(found->value);
        add("span_measurement", [k](const rackwork::gear<double>& of) { return rackwork::span_measurement(of, k); });
    }
    if (const named_value* found = to.find("pin_diameter")) {
        const double pin = found->value;
        add("dimension_over_pins", [pin](const rackwork::gear<double>& of) { return rackwork::dimension_over_pins(of, pin); });
        add("dimension_over_balls", [pin](const rackwork::gear<double>& of) { return rackwork::dimension_over_balls(of, pin); });
        add("dimension_between_pins", [pin](const rackwork::gear<double>& of) { return rackwork::dimension_between_pins(of, pin); });
        add("dimension_between_balls", [pin](const rackwork::gear<double>& of) { return rackwork::dimension_between_balls(of, pin); });
        add("radial_dimension_over_ball",
            [pin](const rackwork::gear<double>& of) { return rackwork::radial_dimension_over_ball(of, pin); });
    }
    add("chordal_thickness", [](const rackwork::gear<double>& of) { return rackwork::chord_at(of, of.reference_diameter()).thickness; });
}

void add_flank_tolerances(sheet_maker& to, const rackwork::gear<double>& g, int tolerance_class, bool inch) {
    const rackwork::toothing_in_millimetres<double> toothing = rackwork::toothing_of(g, inch ? 25.4 : 1.);
    to.measurement("tolerances of the pitch and profile", [&] {
        const rackwork::pitch_tolerances<double> pitch = rackwork::pitch_tolerances_in_micrometres(toothing, tolerance_class);
        const rackwork::trace_tolerances<double> profile = rackwork::profile_tolerances_in_micrometres(toothing, tolerance_class);
        to.number("tolerance_class", tolerance_class);
        to.tolerance("single_pitch_tolerance", pitch.single_pitch);
        to.tolerance("cumulative_pitch_tolerance", pitch.cumulative_pitch);
        to.tolerance("runout_tolerance", pitch.runout);
        to.tolerance("profile_slope_tolerance", profile.slope);
        to.tolerance("profile_form_tolerance", profile.form);
        to.tolerance("profile_tolerance", profile.total);
    });
    to.measurement("tolerances of the helix", [&] {
        const rackwork::trace_tolerances<double> helix = rackwork::helix_tolerances_in_micrometres(toothing, tolerance_class);
        to.tolerance("helix_slope_tolerance", helix.slope);
        to.tolerance("helix_form_tolerance", helix.form);
        to.tolerance("helix_tolerance", helix.total);
    });
}

void add_backlash_limits(sheet_maker& to, const rackwork::mesh<double>& m, const options& o) {
    const double deviation = o.distance_deviation.value_or(0);
    const double distance = m.centre_distance();
    if (o.distance_deviation) to.limits("centre_distance", {.lower = distance - deviation, .upper = distance + deviation});
    if (!o.distance_deviation && !o.pinion.allowance.has_limits() && !o.wheel.allowance.has_limits()) return;
    to.measurement("backlash limits", [&] {
        const rackwork::backlash_conditions<double> conditions{
            .allowances = {limits_of(o.pinion.allowance, m.pinion().parameters().thickness_allowance),
                           limits_of(o.wheel.allowance, m.wheel().parameters().thickness_allowance)},
            .centre_distance = {.lower = distance - deviation, .upper = distance + deviation}};
        const rackwork::backlash_range<double> range = rackwork::backlash_between_limits(m.pinion(), m.wheel(), conditions);
        to.limits("normal_backlash", {.lower = range.least.normal, .upper = range.greatest.normal});
        to.limits("circumferential_backlash", {.lower = range.least.circumferential, .upper = range.greatest.circumferential});
        to.findings(rackwork::backlash_findings(range));
    });
    // The recommendation's table goes no further.
    const double millimetres = o.inch ? 25.4 : 1;
    const double a = distance * millimetres;
    const double module = o.module * millimetres;
    if (50 <= a && a <= 1600 && 1.5 <= module && module <= 18) {
        to.size("recommended_minimum_backlash", rackwork::recommended_minimum_backlash_in_millimetres(a, module) / millimetres);
    }
}

void add_backlash_limits(sheet_maker& to, const rackwork::rack_mesh<double>& m, const options& o) {
    const double deviation = o.distance_deviation.value_or(0);
    if (o.distance_deviation) {
        to.limits("pinion_height", {.lower = m.pinion_height() - deviation, .upper = m.pinion_height() + deviation});
    }
    if (!o.distance_deviation && !o.pinion.allowance.has_limits() && !o.mating_rack.allowance.has_limits()) return;
    const auto pinion = limits_of(o.pinion.allowance, m.pinion().parameters().thickness_allowance);
    const auto rack = limits_of(o.mating_rack.allowance, m.rack().thickness_allowance);
    const auto at = [&](double pinion_allowance, double rack_allowance, double height) {
        rackwork::rack_parameters<double> p = m.rack();
        p.thickness_allowance = rack_allowance;
        return rackwork::rack_mesh<double>(rackwork::with_thickness_allowance(m.pinion(), pinion_allowance), p, height);
    };
    to.measurement("backlash limits", [&] {
        const rackwork::rack_mesh<double> least = at(pinion.upper, rack.upper, m.pinion_height() - deviation);
        const rackwork::rack_mesh<double> greatest = at(pinion.lower, rack.lower, m.pinion_height() + deviation);
        to.limits("normal_backlash", {.lower = least.normal_backlash(), .upper = greatest.normal_backlash()});
        to.limits("circumferential_backlash", {.lower = least.circumferential_backlash(), .upper = greatest.circumferential_backlash()});
    });
}

} // namespace gear_pair
