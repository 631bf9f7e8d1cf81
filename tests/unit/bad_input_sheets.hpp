// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Every number that a gear, its measures and a pair have, handed one by one to a visitor(name, computation).
#pragma once

#include <rackwork/generated_root.hpp>
#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>
#include <rackwork/mesh.hpp>

namespace bad_input {

/// All that a gear says of itself.
template <class T, class Visit>
void sizes_of_gear(const rackwork::gear<T>& g, Visit& visit) {
    visit("generating_profile_shift", [&] { return g.generating_profile_shift(); });
    visit("transverse_module", [&] { return g.transverse_module(); });
    visit("transverse_pressure_angle", [&] { return g.transverse_pressure_angle(); });
    visit("base_helix_angle", [&] { return g.base_helix_angle(); });
    visit("reference_diameter", [&] { return g.reference_diameter(); });
    visit("base_diameter", [&] { return g.base_diameter(); });
    visit("tip_diameter", [&] { return g.tip_diameter(); });
    visit("tip_form_diameter", [&] { return g.tip_form_diameter(); });
    visit("root_diameter", [&] { return g.root_diameter(); });
    visit("generated_root_diameter", [&] { return g.generated_root_diameter(); });
    visit("shifted_reference_diameter", [&] { return g.shifted_reference_diameter(); });
    visit("addendum", [&] { return g.addendum(); });
    visit("dedendum", [&] { return g.dedendum(); });
    visit("tooth_depth", [&] { return g.tooth_depth(); });
    visit("normal_pitch", [&] { return g.normal_pitch(); });
    visit("transverse_pitch", [&] { return g.transverse_pitch(); });
    visit("normal_base_pitch", [&] { return g.normal_base_pitch(); });
    visit("transverse_base_pitch", [&] { return g.transverse_base_pitch(); });
    visit("axial_pitch", [&] { return g.axial_pitch(); });
    visit("lead", [&] { return g.lead(); });
    visit("normal_tooth_thickness", [&] { return g.normal_tooth_thickness(); });
    visit("transverse_tooth_thickness", [&] { return g.transverse_tooth_thickness(); });
    visit("tip_thickness", [&] { return g.tip_thickness(); });
    visit("pointed_tip_diameter", [&] { return g.pointed_tip_diameter(); });
    visit("effective_tip_diameter", [&] { return g.effective_tip_diameter(); });
    visit("base_half_angle", [&] { return g.base_half_angle(); });
    visit("root_form_diameter", [&] { return rackwork::root_form_diameter(g); });
    visit("point of the fillet", [&] {
        const rackwork::generated_root<T> root{g};
        return root.fillet().position(root.end_parameter());
    });
}

/// What a gear says about a diameter.
template <class T, class Visit>
void sizes_at_diameter(const rackwork::gear<T>& g, const T& diameter, Visit& visit) {
    visit("pressure_angle(diameter)", [&] { return g.pressure_angle(diameter); });
    visit("helix_angle(diameter)", [&] { return g.helix_angle(diameter); });
    visit("tooth_thickness(diameter)", [&] { return g.tooth_thickness(diameter); });
    visit("normal_tooth_thickness(diameter)", [&] { return g.normal_tooth_thickness(diameter); });
    visit("space_width(diameter)", [&] { return g.space_width(diameter); });
    visit("tangent_of_pressure_angle(diameter)", [&] { return g.tangent_of_pressure_angle(diameter); });
    visit("chord_at", [&] { return rackwork::chord_at(g, diameter); });
    visit("pin_diameter_touching_at", [&] { return rackwork::pin_diameter_touching_at(g, diameter); });
}

/// Measures that choose their tools themselves.
template <class T, class Visit>
void recommended_measures(const rackwork::gear<T>& g, Visit& visit) {
    visit("recommended_teeth_spanned", [&] { return rackwork::recommended_teeth_spanned(g); });
    visit("span over the recommended teeth",
          [&] { return rackwork::span_measurement(g, rackwork::recommended_teeth_spanned(g)); });
    visit("ideal_pin_diameter", [&] { return rackwork::ideal_pin_diameter(g); });
    visit("dimension over ideal balls", [&] { return rackwork::dimension_over_balls(g, rackwork::ideal_pin_diameter(g)); });
    visit("dimension over ideal pins", [&] { return rackwork::dimension_over_pins(g, rackwork::ideal_pin_diameter(g)); });
    visit("constant_chord", [&] { return rackwork::constant_chord(g); });
    visit("constant_chord_diameter", [&] { return rackwork::constant_chord_diameter(g); });
    visit("chord at the reference circle", [&] { return rackwork::chord_at(g, g.reference_diameter()); });
}

/// Measures with a length that comes from outside: a tool's size or a reading.
template <class T, class Visit>
void measures_with_length(const rackwork::gear<T>& g, const T& length, Visit& visit) {
    visit("position_of_pin", [&] { return rackwork::position_of_pin(g, length); });
    visit("dimension_over_balls", [&] { return rackwork::dimension_over_balls(g, length); });
    visit("dimension_over_pins", [&] { return rackwork::dimension_over_pins(g, length); });
    visit("nearest_preferred_pin_diameter", [&] { return rackwork::nearest_preferred_pin_diameter(length); });
    visit("normal_tooth_thickness_from_balls",
          [&] { return rackwork::normal_tooth_thickness_from_balls(g, g.normal_module(), length); });
    visit("normal_tooth_thickness_from_balls of that size",
          [&] { return rackwork::normal_tooth_thickness_from_balls(g, length, g.tip_diameter()); });
    visit("normal_tooth_thickness_from_pins",
          [&] { return rackwork::normal_tooth_thickness_from_pins(g, g.normal_module(), length); });
    visit("normal_tooth_thickness_from_pins of that size",
          [&] { return rackwork::normal_tooth_thickness_from_pins(g, length, g.tip_diameter()); });
    visit("normal_tooth_thickness_from_chord",
          [&] { return rackwork::normal_tooth_thickness_from_chord(g, g.reference_diameter(), length); });
    visit("normal_tooth_thickness_from_chord at that diameter",
          [&] { return rackwork::normal_tooth_thickness_from_chord(g, length, g.normal_module()); });
    visit("normal_tooth_thickness_from_constant_chord",
          [&] { return rackwork::normal_tooth_thickness_from_constant_chord(g, length); });
    visit("normal_tooth_thickness_from_span", [&] { return rackwork::normal_tooth_thickness_from_span(g, 2, length); });
    visit("span_face_width", [&] { return rackwork::span_face_width(g, 2, length); });
}

/// Measures over a number of teeth.
template <class T, class Visit>
void measures_over_teeth(const rackwork::gear<T>& g, int teeth_spanned, Visit& visit) {
    visit("span_measurement", [&] { return rackwork::span_measurement(g, teeth_spanned); });
    visit("span_contact_diameter", [&] { return rackwork::span_contact_diameter(g, teeth_spanned); });
    visit("span_face_width", [&] { return rackwork::span_face_width(g, teeth_spanned); });
    visit("normal_tooth_thickness_from_span",
          [&] { return rackwork::normal_tooth_thickness_from_span(g, teeth_spanned, g.normal_pitch()); });
}

/// All that a pair says of itself.
template <class T, class Visit>
void sizes_of_mesh(const rackwork::mesh<T>& m, Visit& visit) {
    visit("gear_ratio", [&] { return m.gear_ratio(); });
    visit("centre_distance", [&] { return m.centre_distance(); });
    visit("reference_centre_distance", [&] { return m.reference_centre_distance(); });
    visit("working_pressure_angle", [&] { return m.working_pressure_angle(); });
    visit("working_diameter", [&] { return m.working_diameter(); });
    visit("root_form_diameter", [&] { return m.root_form_diameter(); });
    visit("active_tip_diameter", [&] { return m.active_tip_diameter(); });
    visit("active_root_diameter", [&] { return m.active_root_diameter(); });
    visit("length_of_path_of_contact", [&] { return m.length_of_path_of_contact(); });
    visit("transverse_contact_ratio", [&] { return m.transverse_contact_ratio(); });
    visit("overlap_contact_ratio", [&] { return m.overlap_contact_ratio(); });
    visit("total_contact_ratio", [&] { return m.total_contact_ratio(); });
    visit("bottom_clearance", [&] { return m.bottom_clearance(); });
    visit("circumferential_backlash", [&] { return m.circumferential_backlash(); });
    visit("normal_backlash", [&] { return m.normal_backlash(); });
    visit("radial_backlash", [&] { return m.radial_backlash(); });
    visit("approximate_radial_backlash", [&] { return m.approximate_radial_backlash(); });
    visit("angular_backlash", [&] { return m.angular_backlash(); });
    visit("double_flank_centre_distance", [&] { return m.double_flank_centre_distance(); });
    visit("path_between_base_circles", [&] { return m.path_between_base_circles(); });
    visit("reach_of_mating_tip", [&] { return m.reach_of_mating_tip(); });
}

} // namespace bad_input
