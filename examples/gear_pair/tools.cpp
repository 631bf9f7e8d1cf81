// Example gear_pair: the tools that make the gears.
#include "tools.hpp"

#include "table.hpp"

#include <algorithm>
#include <variant>

namespace gear_pair {

namespace {

rackwork::pinion_type_cutter<double> pinion_cutter_for(const rackwork::gear<double>& g, const pinion_cutter_options& asked) {
    rackwork::pinion_type_cutter<double> tool{.teeth = *asked.teeth,
                                              .profile_shift = asked.profile_shift.value_or(0),
                                              .addendum = asked.addendum.value_or(g.parameters().rack.dedendum)};
    tool.tip_radius = asked.tip_radius
                          ? *asked.tip_radius
                          : std::min(g.parameters().rack.root_fillet_radius, rackwork::full_tip_radius(g, tool));
    return tool;
}

std::string factor(double value) { return rounded(value, 3); }

std::string words(const rackwork::rack_type_cutter<double>& tool) {
    std::string text = "hob or rack cutter, addendum " + factor(tool.addendum) + ", tip radius " + factor(tool.tip_radius);
    if (tool.protuberance > 0) {
        text += ", protuberance " + factor(tool.protuberance) + " at " + rounded(tool.protuberance_angle.deg(), 2) + " deg";
    }
    if (tool.finishing_allowance > 0) text += ", finishing allowance " + factor(tool.finishing_allowance);
    if (tool.chamfer_height > 0) {
        text += ", semi-topping from " + factor(tool.chamfer_height) + " over the datum line at " + rounded(tool.chamfer_angle.deg(), 2) +
                " deg";
    }
    return text;
}

std::string words(const rackwork::pinion_type_cutter<double>& tool) {
    return "pinion-type cutter of " + std::to_string(tool.teeth) + " teeth, shift " + factor(tool.profile_shift) + ", addendum " +
           factor(tool.addendum) + ", tip radius " + factor(tool.tip_radius);
}

} // namespace

bool tool_is_stated(const gear_options& asked, const hob_options& hob, rackwork::gear_kind kind) {
    return asked.cutter.teeth.has_value() || (hob.stated() && kind == rackwork::gear_kind::external);
}

rackwork::rack_type_cutter<double> hob_for(const hob_options& hob, const rackwork::basic_rack<double>& rack) {
    return {.addendum = hob.addendum.value_or(rack.dedendum),
            .tip_radius = hob.tip_radius.value_or(rack.root_fillet_radius),
            .protuberance = hob.protuberance.value_or(0),
            .protuberance_angle = rackwork::deg(hob.protuberance_angle.value_or(0)),
            .finishing_allowance = hob.finishing_allowance.value_or(0),
            .chamfer_height = hob.chamfer_height.value_or(0),
            .chamfer_angle = rackwork::deg(hob.chamfer_angle.value_or(45))};
}

rackwork::cutter<double> tool_for(const rackwork::gear<double>& g, const gear_options& asked, const hob_options& hob) {
    if (asked.cutter.teeth) return pinion_cutter_for(g, asked.cutter);
    if (g.is_internal()) return rackwork::customary_cutter(g);
    return hob_for(hob, g.parameters().rack);
}

std::string tool_words(const rackwork::cutter<double>& tool, bool stated) {
    const std::string text = std::visit([](const auto& kind) { return words(kind); }, tool);
    return text + (stated ? "." : "; the customary tool, as none is stated.");
}

} // namespace gear_pair
