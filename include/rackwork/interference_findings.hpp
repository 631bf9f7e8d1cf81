// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Findings about metal in the way of metal: tips in fillets, tips in tips, assembly, and tips that the tool has trimmed.
#ifndef RACKWORK_INTERFERENCE_FINDINGS_HPP
#define RACKWORK_INTERFERENCE_FINDINGS_HPP

#include "analysis/radial_assembly.hpp"
#include "analysis/tip_passage.hpp"
#include "analysis/tip_trimming.hpp"
#include "core/scalar.hpp"
#include "cutter.hpp"
#include "finding.hpp"
#include "gear.hpp"
#include "generated_root.hpp"
#include "mesh.hpp"

#include <variant>

namespace rackwork {

/// Findings about what a pinion-type cutter leaves of a gear's tips. None for rack-type tools, which cannot reach a tip that they do not
/// generate. Throws geometry_error as trimming_by does.
template <scalar T>
finding_list<T> trimming_findings(const gear<T>& g, const generated_root<T>& root) {
    finding_list<T> list;
    const auto* tool = std::get_if<pinion_type_cutter<T>>(&root.tool());
    if (tool == nullptr) return list;
    const tip_trimming<T> left = trimming_by(*tool, g);
    // What rounding leaves of a touch is not a cut.
    const T rounding = T(1 << 14) * epsilon<T>() * g.tip_diameter();
    if (left.cutter_roll < -rounding) {
        list.add({.code = finding_code::cutter_trims_tip,
                  .severity = severity::fault,
                  .quantity = "roll length of the cutter at the gear's tip",
                  .value = left.cutter_roll,
                  .limit = T(0),
                  .sentence = "The cutter's involute does not reach the gear's tip, which is trimmed: take a cutter with more teeth, or "
                              "shorten the tip."});
    }
    if (left.passage < -rounding) {
        list.add({.code = finding_code::cutter_trims_tip,
                  .severity = severity::fault,
                  .quantity = "clearance of the cutter's tip from the gear's",
                  .value = left.passage,
                  .limit = T(0),
                  .sentence = "The cutter's tips trim the gear's tips as they pass: take a cutter with fewer teeth."});
    }
    if (left.infeed < T(0)) {
        list.add({.code = finding_code::cutter_trims_tip,
                  .severity = severity::warning,
                  .quantity = "room for the cutter's radial infeed",
                  .value = left.infeed,
                  .limit = T(0),
                  .sentence = "Fed in radially the cutter trims the tips beside it: take a cutter with fewer teeth, or feed it along the axis."});
    }
    return list;
}

/// Findings about interference in a pair, by search along the whole passage of the tips (not in constant expressions). They come on top of
/// findings(pair): true penetration is told apart from lost contact there. A pair that overlaps at its working circles has none here.
template <scalar T>
finding_list<T> interference_findings(const mesh<T>& pair) {
    finding_list<T> list;
    const T rounding = T(1 << 14) * epsilon<T>() * larger(pair.pinion().tip_diameter(), pair.wheel().root_diameter());
    if (pair.circumferential_backlash() < -rounding) return list;
    const auto add_passage = [&](finding_code code, finding_subject subject, const tip_passage<T>& passage, const char* sentence) {
        if (!passage.reaches || !(passage.clearance < -rounding)) return;
        list.add({.code = code,
                  .severity = severity::fault,
                  .subject = subject,
                  .quantity = "clearance of the mate's tip",
                  .value = passage.clearance,
                  .limit = T(0),
                  .sentence = sentence});
    };
    const for_both<tip_passage<T>> at_fillets = passage_at_fillets(pair);
    const char* cuts = "The edge of the mate's tip cuts into the root fillet: shorten or chamfer the mate's tip, or cut the root deeper.";
    add_passage(finding_code::tip_cuts_fillet, finding_subject::pinion, at_fillets.pinion, cuts);
    add_passage(finding_code::tip_cuts_fillet, finding_subject::wheel, at_fillets.wheel, cuts);
    if (pair.is_internal()) {
        // Both views see the same tips; the wheel's is as good as the pinion's.
        const for_both<tip_passage<T>> at_flanks = passage_at_flanks(pair);
        const bool pinion_worse = at_flanks.pinion.clearance < at_flanks.wheel.clearance;
        add_passage(finding_code::tip_interference, finding_subject::pair, pinion_worse ? at_flanks.pinion : at_flanks.wheel,
                    "The tips of pinion and internal gear run into each other outside the path of contact: the tooth numbers are too "
                    "close for this addendum.");
        if (const T room = radial_assembly_clearance(pair); room < T(0)) {
            list.add({.code = finding_code::axial_assembly_only,
                      .severity = severity::note,
                      .subject = finding_subject::pair,
                      .quantity = "room for radial assembly",
                      .value = room,
                      .limit = T(0),
                      .sentence = "The pinion cannot be put into the internal gear radially, only along the axis."});
        }
    }
    list.add(trimming_findings(pair.pinion(), pair.pinion_root()), finding_subject::pinion);
    list.add(trimming_findings(pair.wheel(), pair.wheel_root()), finding_subject::wheel);
    return list;
}

} // namespace rackwork

#endif
