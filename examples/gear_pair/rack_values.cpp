// Example gear_pair: fills the sheet of a pinion on a toothed rack.
#include "gear_values.hpp"
#include "limits.hpp"
#include "values.hpp"

#include <rackwork/findings.hpp>
#include <rackwork/measure/rack.hpp>

namespace gear_pair {

namespace {

void add_rack(sheet_maker& to, const rackwork::rack_mesh<double>& m, const options& o) {
    const rackwork::toothed_rack<double> rack = rackwork::rack_to_measure(m);
    const rackwork::gear<double>& pinion = m.pinion();
    const rackwork::basic_rack<double>& profile = m.rack().profile;
    to.start("rack");
    to.text("kind", "rack");
    to.text("hand", hand_of(-pinion.helix_angle()));
    to.size("normal_module", pinion.normal_module());
    to.size("transverse_module", pinion.transverse_module());
    to.turn("normal_pressure_angle", pinion.normal_pressure_angle());
    to.turn("transverse_pressure_angle", pinion.transverse_pressure_angle());
    to.turn("helix_angle", -pinion.helix_angle());
    to.size("normal_pitch", pinion.normal_pitch());
    to.size("transverse_pitch", pinion.transverse_pitch());
    to.size("normal_base_pitch", pinion.normal_base_pitch());
    to.size("thickness_allowance", m.rack().thickness_allowance);
    to.size("normal_tooth_thickness", rackwork::normal_tooth_thickness(rack));
    to.size("addendum", pinion.normal_module() * profile.addendum);
    to.size("dedendum", pinion.normal_module() * profile.dedendum);
    to.size("tooth_depth", pinion.normal_module() * (profile.addendum + profile.dedendum));
    if (m.rack().face_width > 0) to.size("face_width", m.rack().face_width);
    to.size("bottom_clearance", m.clearance_of_rack_tip());
    if (m.rack().datum_height > 0) to.size("datum_height", m.rack().datum_height);

    const double pin = o.mating_rack.pin_diameter ? *o.mating_rack.pin_diameter
                       : o.inch                   ? rackwork::wire_table_pin_factor * pinion.normal_module()
                                                  : rackwork::nearest_preferred_pin_diameter(rackwork::ideal_pin_diameter(rack));
    to.size("ideal_pin_diameter", rackwork::ideal_pin_diameter(rack));
    to.measurement("height over a pin", [&] {
        to.size("pin_diameter", pin);
        to.size("height_over_pin", rackwork::height_over_pin(rack, pin));
    });
    const rackwork::chord<double> chord = rackwork::chord_at(rack, 0.);
    to.size("chordal_thickness", chord.thickness);
    to.size("chordal_height", chord.height);
}

void add_rack_limits(sheet_maker& to, const rackwork::rack_mesh<double>& m, const allowance_options& allowance) {
    if (!allowance.has_limits()) return;
    rackwork::toothed_rack<double> thickest = rackwork::rack_to_measure(m);
    rackwork::toothed_rack<double> thinnest = thickest;
    thickest.thickness_allowance = *allowance.upper;
    thinnest.thickness_allowance = *allowance.lower;
    to.size("upper_thickness_allowance", *allowance.upper);
    to.size("lower_thickness_allowance", *allowance.lower);
    to.size("thickness_tolerance", *allowance.upper - *allowance.lower);
    const auto limits = [&](const std::string& name, const auto& measure) {
        to.measurement("limits of the " + name,
                       [&] { to.limits(name, rackwork::limits_between<double>(measure(thickest), measure(thinnest))); });
    };
    limits("normal_tooth_thickness", [](const auto& rack) { return rackwork::normal_tooth_thickness(rack); });
    limits("chordal_thickness", [](const auto& rack) { return rackwork::chord_at(rack, 0.).thickness; });
    if (to.find("height_over_pin") != nullptr) {
        const double pin = to.find("pin_diameter")->value;
        limits("height_over_pin", [pin](const auto& rack) { return rackwork::height_over_pin(rack, pin); });
    }
}

void add_pair(sheet_maker& to, const rackwork::rack_mesh<double>& m) {
    to.start("pair");
    to.size("pinion_height", m.pinion_height());
    to.size("distance_to_datum_line", m.distance_to_datum_line());
    to.size("travel_per_turn", m.travel_per_turn());
    to.size("travel_per_degree", m.travel(rackwork::deg(1.)));
    to.turn("working_pressure_angle", m.working_pressure_angle());
    to.size("length_of_path_of_contact", m.length_of_path_of_contact());
    to.number("transverse_contact_ratio", m.transverse_contact_ratio());
    to.measurement("overlap ratio", [&] {
        to.number("overlap_contact_ratio", m.overlap_contact_ratio());
        to.number("total_contact_ratio", m.total_contact_ratio());
    });
    to.size("circumferential_backlash", m.circumferential_backlash());
    to.size("normal_backlash", m.normal_backlash());
    to.size("radial_backlash", m.radial_backlash());
}

} // namespace

sheet make_sheet(const rackwork::rack_mesh<double>& m, const options& o) {
    sheet result;
    result.mate = "rack";
    sheet_maker to(result, o.unit());
    to.findings(rackwork::findings(m));
    to.start("pinion");
    add_gear(to, m.pinion(), m.pinion_root(), o.pinion, o);
    to.size("bottom_clearance", m.clearance_of_pinion_tip());
    to.turn("angular_backlash", m.angular_backlash());
    add_inspection(to, m.pinion(), m.pinion_root(), o.pinion, o, rackwork::finding_subject::pinion);
    add_size_limits(to, m.pinion(), o.pinion.allowance);
    if (o.tolerance_class) add_flank_tolerances(to, m.pinion(), *o.tolerance_class, o.inch);
    add_rack(to, m, o);
    add_rack_limits(to, m, o.mating_rack.allowance);
    add_pair(to, m);
    add_backlash_limits(to, m, o);
    return result;
}

} // namespace gear_pair
