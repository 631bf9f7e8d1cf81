// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Whether a pinion-type cutter makes the whole flank of a gear and spares the tips that it passes.
#ifndef RACKWORK_ANALYSIS_TIP_TRIMMING_HPP
#define RACKWORK_ANALYSIS_TIP_TRIMMING_HPP

#include "../centre_distance.hpp"
#include "../core/scalar.hpp"
#include "../cutter.hpp"
#include "../gear.hpp"
#include "../gear_parameters.hpp"
#include "../mesh.hpp"
#include "radial_assembly.hpp"
#include "tip_passage.hpp"

namespace rackwork {

/// What a pinion-type cutter leaves of a gear's tips.
template <scalar T>
struct tip_trimming {
    /// Radius of curvature of the cutter's flank where it makes the last of the gear's flank, at the tip form diameter. Negative: the
    /// cutter's base circle does not reach so far, and the tip does not become an involute.
    T cutter_roll;
    /// Least clearance of the cutter's tip from the flank and tip of an internal gear outside the path of contact; negative: it cuts the
    /// tips off. 0 for external gears, and where it only touches.
    T passage;
    /// Room for the cutter as it is fed in radially, as radial_assembly_clearance has it for a pinion, but in the worse of its two ways, since
    /// the cutter turns meanwhile; negative: fed in so it trims the tips beside. 0 for external gears.
    T infeed;
};

/// Trimming of a gear's tips by a cutter. Throws geometry_error if the cutter cannot make the gear.
template <scalar T>
tip_trimming<T> trimming_by(const pinion_type_cutter<T>& tool, const gear<T>& g) {
    const generating_mesh<T> cut(g, tool);
    const T at_tip = g.base_diameter() / T(2) * g.tip_form_roll();
    tip_trimming<T> result{.cutter_roll = T(g.kind_sign() * (cut.path_between_base_circles() - at_tip)), .passage = T(0), .infeed = T(0)};
    if (!g.is_internal()) return result;
    // The cutter as a pinion in the ring that it makes, without backlash. Its root does not matter here.
    const gear_parameters<T> as_pinion{.normal_module = g.normal_module(),
                                       .teeth = tool.teeth,
                                       .helix_angle = g.helix_angle(),
                                       .rack = {.pressure_angle = g.normal_pressure_angle(),
                                                .addendum = tool.addendum,
                                                .dedendum = g.parameters().rack.addendum,
                                                .root_fillet_radius = T(0)},
                                       .profile_shift = tool.profile_shift,
                                       .tip_rounding = T(g.normal_module() * tool.tip_radius)};
    if (gear<T>::check(as_pinion)) return result;
    const gear<T> pinion(as_pinion);
    if (generated_root<T>::check(pinion)) return result;
    const mesh<T> pair(pinion, g, cut.centre_distance(), {.pinion = counterpart_of(as_pinion.rack), .wheel = tool});
    const tip_passage<T> passage = detail::passage_at_flank(pair, true);
    if (passage.reaches) result.passage = smaller(passage.clearance, T(0));
    result.infeed = smaller(detail::room_for_radial_assembly(pair, true), detail::room_for_radial_assembly(pair, false));
    return result;
}

} // namespace rackwork

#endif
