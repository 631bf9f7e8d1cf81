// Example gear_pair: what is said of each gear, whatever it runs with.
#include "gear_values.hpp"

#include "tools.hpp"

#include <rackwork/form/outline.hpp>

#include <variant>

namespace gear_pair {

std::string hand_of(const rackwork::angle<double>& helix_angle) {
    if (helix_angle.rad() == 0) return "spur";
    return helix_angle.rad() > 0 ? "right" : "left";
}

void add_gear(sheet_maker& to, const rackwork::gear<double>& g, const rackwork::generated_root<double>& root, const gear_options& asked,
              const options& o) {
    const rackwork::gear_parameters<double>& given = g.parameters();
    to.text("kind", g.is_internal() ? "internal" : "external");
    to.text("hand", hand_of(g.helix_angle()));
    to.text("tool", tool_words(root.tool(), tool_is_stated(asked, o.hob, g.kind())));
    const auto* hob = std::get_if<rackwork::rack_type_cutter<double>>(&root.tool());
    const bool meant = hob != nullptr && hob->protuberance > 0;
    to.text("undercut", !root.is_undercut() ? "no" : meant ? "intended" : "yes");
    to.number("teeth", g.teeth());
    to.size("normal_module", g.normal_module());
    to.size("transverse_module", g.transverse_module());
    to.turn("normal_pressure_angle", g.normal_pressure_angle());
    to.turn("transverse_pressure_angle", g.transverse_pressure_angle());
    to.turn("helix_angle", g.helix_angle());
    to.turn("base_helix_angle", g.base_helix_angle());
    to.number("profile_shift", g.profile_shift());
    to.number("generating_profile_shift", g.generating_profile_shift());
    to.number("tip_alteration", given.tip_alteration);
    to.size("thickness_allowance", given.thickness_allowance);
    if (given.face_width > 0) to.size("face_width", given.face_width);
    to.size("reference_diameter", g.reference_diameter());
    to.size("base_diameter", g.base_diameter());
    to.size("tip_diameter", g.tip_diameter());
    to.size("tip_form_diameter", g.tip_form_diameter());
    to.size("root_diameter", g.root_diameter());
    to.size("generated_root_diameter", root.root_diameter());
    to.size("root_form_diameter", root.root_form_diameter());
    // Some internal teeth grow thicker all the way to the base circle.
    if (g.kind_sign() * g.base_half_angle() >= 0) to.size("pointed_tip_diameter", g.pointed_tip_diameter());
    to.size("addendum", g.addendum());
    to.size("dedendum", g.dedendum());
    to.size("tooth_depth", g.tooth_depth());
    to.size("normal_pitch", g.normal_pitch());
    to.size("transverse_pitch", g.transverse_pitch());
    to.size("normal_base_pitch", g.normal_base_pitch());
    to.size("transverse_base_pitch", g.transverse_base_pitch());
    if (g.helix_angle().rad() != 0) {
        to.size("axial_pitch", g.axial_pitch());
        to.size("lead", g.lead());
    }
    to.size("normal_tooth_thickness", g.normal_tooth_thickness());
    to.size("transverse_tooth_thickness", g.transverse_tooth_thickness());
    to.size("tip_thickness", g.tip_thickness());
    to.size("normal_tip_thickness", g.normal_tooth_thickness(g.tip_diameter()));
    if (given.tip_chamfer > 0) {
        to.size("tip_chamfer", given.tip_chamfer);
        to.turn("tip_chamfer_angle", given.tip_chamfer_angle);
    }
    if (given.tip_rounding > 0) to.size("tip_rounding", given.tip_rounding);
    const double area = rackwork::outline_of(g, root.tool()).area();
    to.area(g.is_internal() ? "area_within_teeth" : "transverse_section_area", area);
}

} // namespace gear_pair
