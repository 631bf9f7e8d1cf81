// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What is possible but doubtful about a gear, its measurement, or a pair. Returned, never printed; nothing stops.
#ifndef RACKWORK_FINDINGS_HPP
#define RACKWORK_FINDINGS_HPP

#include "core/scalar.hpp"
#include "cutter.hpp"
#include "finding.hpp"
#include "gear.hpp"
#include "generated_root.hpp"
#include "measure/chord.hpp"
#include "measure/pins.hpp"
#include "measure/span.hpp"
#include "mesh.hpp"
#include "rack_mesh.hpp"
#include "undercut_limits.hpp"

#include <variant>

namespace rackwork {

namespace detail {

/// Which end of the usable flank a diameter misses, if any: beyond the root form diameter, or beyond the tip form diameter.
enum class flank_end : unsigned char { none, root, tip };
template <scalar T>
constexpr flank_end missed_end(const gear<T>& g, const T& diameter, const T& form) {
    if (g.is_internal() ? diameter > form : diameter < form) return flank_end::root;
    if (g.is_internal() ? diameter < g.tip_form_diameter() : diameter > g.tip_form_diameter()) return flank_end::tip;
    return flank_end::none;
}

} // namespace detail

/// Findings about the teeth of one gear with a root that its tool has made: undercut, pointed or thin tip.
template <scalar T>
constexpr finding_list<T> findings(const gear<T>& g, const generated_root<T>& root, const finding_limits<T>& limits = {}) {
    finding_list<T> list;
    // What a protuberance cuts away is meant to be.
    const auto* rack = std::get_if<rack_type_cutter<T>>(&root.tool());
    const bool meant = rack != nullptr && rack->protuberance > T(0);
    if (root.is_undercut() && !meant) {
        list.add({.code = finding_code::undercut,
                  .severity = severity::warning,
                  .quantity = "generating_profile_shift",
                  .value = g.generating_profile_shift(),
                  .limit = least_profile_shift_without_undercut(g.parameters().rack, g.teeth(), g.helix_angle()),
                  .sentence = "The tool undercuts the teeth: with less profile shift than the limit (for the basic rack) it cuts away the "
                              "beginning of the involute, which weakens the root and shortens the contact."});
    }
    const T tip = g.tip_diameter();
    if (g.tip_thickness() <= T(0)) {
        list.add({.code = finding_code::pointed_tip,
                  .severity = severity::fault,
                  .quantity = "tip_diameter",
                  .value = tip,
                  .limit = g.pointed_tip_diameter(),
                  .sentence = "The flanks cross before the tip circle: the teeth come to a point and the tip diameter is never reached."});
    } else if (const T least = limits.tip_thickness * g.normal_module(); g.normal_tooth_thickness(tip) < least) {
        list.add({.code = finding_code::thin_tip,
                  .severity = severity::warning,
                  .quantity = "normal_tip_thickness",
                  .value = g.normal_tooth_thickness(tip),
                  .limit = least,
                  .sentence = "The tips are thin: they may chip, and harden through."});
    }
    return list;
}

/// The same with the root that the customary tool makes. Throws geometry_error as generated_root does.
template <scalar T>
constexpr finding_list<T> findings(const gear<T>& g, const finding_limits<T>& limits = {}) {
    return findings(g, generated_root<T>(g), limits);
}

/// Findings about a span over a number of teeth of a gear with a root that its tool has made. Throws geometry_error as span_measurement does.
template <scalar T>
constexpr finding_list<T> span_findings(const gear<T>& g, const generated_root<T>& root, int teeth_spanned) {
    finding_list<T> list;
    const T contact = span_contact_diameter(g, teeth_spanned);
    const T form = root.root_form_diameter();
    if (const detail::flank_end missed = detail::missed_end(g, contact, form); missed != detail::flank_end::none) {
        list.add({.code = finding_code::span_off_involute,
                  .severity = severity::fault,
                  .quantity = "span_contact_diameter",
                  .value = contact,
                  .limit = missed == detail::flank_end::root ? form : g.tip_form_diameter(),
                  .sentence = "The anvils would not touch the involute: the span over this number of teeth cannot be measured."});
    }
    const T width = g.parameters().face_width;
    if (const T needed = span_face_width(g, teeth_spanned); width > T(0) && width <= needed) {
        list.add({.code = finding_code::span_wider_than_gear,
                  .severity = severity::fault,
                  .quantity = "face_width",
                  .value = width,
                  .limit = needed,
                  .sentence = "The face is too narrow for both anvils to touch the helical teeth: measure over pins or balls."});
    }
    return list;
}

/// The same with the root that the customary tool makes. Throws geometry_error as generated_root does, too.
template <scalar T>
constexpr finding_list<T> span_findings(const gear<T>& g, int teeth_spanned) {
    return span_findings(g, generated_root<T>(g), teeth_spanned);
}

/// Findings about pins or balls of a diameter on a gear with a root that its tool has made. Throws geometry_error as position_of_pin does.
template <scalar T>
constexpr finding_list<T> pin_findings(const gear<T>& g, const generated_root<T>& root, const T& pin_diameter) {
    finding_list<T> list;
    const pin_position<T> pin = position_of_pin(g, pin_diameter);
    const T form = root.root_form_diameter();
    if (const detail::flank_end missed = detail::missed_end(g, pin.contact_diameter, form); missed != detail::flank_end::none) {
        list.add({.code = finding_code::pin_off_involute,
                  .severity = severity::fault,
                  .quantity = "pin_contact_diameter",
                  .value = pin.contact_diameter,
                  .limit = missed == detail::flank_end::root ? form : g.tip_form_diameter(),
                  .sentence = "Pins of this diameter do not touch the involute."});
    }
    // Measured is over pins on external, between pins on internal gears.
    const T sign = g.kind_sign();
    const T measured_side = pin.centre_diameter + sign * pin_diameter;
    const T tip = g.effective_tip_diameter();
    if (sign * measured_side <= sign * tip) {
        list.add({.code = finding_code::pin_below_tip,
                  .severity = severity::fault,
                  .quantity = g.is_internal() ? "diameter under the pin" : "diameter over the pin",
                  .value = measured_side,
                  .limit = tip,
                  .sentence = "Pins of this diameter do not stand out of the tip circle and cannot be measured over."});
    }
    const T root_side = pin.centre_diameter - sign * pin_diameter;
    if (sign * root_side <= sign * root.root_diameter()) {
        list.add({.code = finding_code::pin_on_root,
                  .severity = severity::fault,
                  .quantity = g.is_internal() ? "diameter over the pin" : "diameter under the pin",
                  .value = root_side,
                  .limit = root.root_diameter(),
                  .sentence = "Pins of this diameter rest on the root instead of the flanks."});
    }
    return list;
}

/// The same with the root that the customary tool makes. Throws geometry_error as generated_root does, too.
template <scalar T>
constexpr finding_list<T> pin_findings(const gear<T>& g, const T& pin_diameter) {
    return pin_findings(g, generated_root<T>(g), pin_diameter);
}

/// Findings about a caliper on the chord at a diameter of a gear with a root that its tool has made.
template <scalar T>
constexpr finding_list<T> chord_findings(const gear<T>& g, const generated_root<T>& root, const T& diameter) {
    finding_list<T> list;
    const T form = root.root_form_diameter();
    if (const detail::flank_end missed = detail::missed_end(g, diameter, form); missed != detail::flank_end::none) {
        list.add({.code = finding_code::chord_off_involute,
                  .severity = severity::fault,
                  .quantity = "diameter of the chord",
                  .value = diameter,
                  .limit = missed == detail::flank_end::root ? form : g.tip_form_diameter(),
                  .sentence = "The caliper's jaws would not touch the involute at this diameter."});
    }
    return list;
}

/// The same with the root that the customary tool makes. Throws geometry_error as generated_root does.
template <scalar T>
constexpr finding_list<T> chord_findings(const gear<T>& g, const T& diameter) {
    return chord_findings(g, generated_root<T>(g), diameter);
}

namespace detail {

/// Finding about the room between the mate's tip and the bottom of the spaces.
template <scalar T>
constexpr void add_clearance_finding(finding_list<T>& list, finding_subject subject, const T& clearance, const T& least) {
    if (clearance < least) {
        list.add({.code = finding_code::low_bottom_clearance,
                  .severity = clearance > T(0) ? severity::warning : severity::fault,
                  .subject = subject,
                  .quantity = "bottom_clearance",
                  .value = clearance,
                  .limit = least,
                  .sentence = clearance > T(0) ? "The mate's tip comes near to the bottom of the tooth spaces: shorten it."
                                               : "The mate's tip strikes the bottom of the tooth spaces."});
    }
}

/// Findings about the mate's tip at the root of one gear of a pair.
template <scalar T>
constexpr void add_root_findings(finding_list<T>& list, const gear<T>& g, const generated_root<T>& root, finding_subject subject,
                                 const T& reach, const T& clearance, const finding_limits<T>& limits) {
    const T form_roll = g.base_diameter() / T(2) * root.root_form_roll();
    // Equal to rounding is not beyond.
    if (g.kind_sign() * (form_roll - reach) > T(64) * epsilon<T>() * g.base_diameter()) {
        list.add({.code = finding_code::mate_below_form_diameter,
                  .severity = severity::warning,
                  .subject = subject,
                  .quantity = "roll length reached by the mate's tip",
                  .value = reach,
                  .limit = form_roll,
                  .sentence = "The mate's tip reaches beyond the root form diameter, where there is no involute: contact is lost there. "
                              "Whether it also cuts the fillet is another finding."});
    }
    add_clearance_finding(list, subject, clearance, T(limits.bottom_clearance * g.normal_module()));
}

/// Findings about the contact ratio of a pair, of gears or of pinion and rack.
template <scalar T, class Pair>
constexpr void add_contact_findings(finding_list<T>& list, const Pair& m, bool has_width, const finding_limits<T>& limits) {
    // A helical pair's overlap helps, where the face width is stated.
    const bool total = has_width && m.pinion().helix_angle().rad() != T(0);
    const T ratio = total ? m.total_contact_ratio() : m.transverse_contact_ratio();
    if (ratio < limits.contact_ratio) {
        list.add({.code = finding_code::low_contact_ratio,
                  .severity = ratio < T(1) ? severity::fault : severity::warning,
                  .subject = finding_subject::pair,
                  .quantity = total ? "total_contact_ratio" : "transverse_contact_ratio",
                  .value = ratio,
                  .limit = limits.contact_ratio,
                  .sentence = ratio < T(1) ? "The contact ratio is below 1: motion is not passed on evenly from tooth to tooth."
                                           : "The contact ratio is low: errors and wear may break the contact."});
    }
}

/// Findings about the backlash of a pair.
template <scalar T>
constexpr void add_backlash_findings(finding_list<T>& list, const T& backlash, const T& size) {
    const T rounding = T(256) * epsilon<T>() * size;
    if (backlash < -rounding) {
        list.add({.code = finding_code::overlap,
                  .severity = severity::fault,
                  .subject = finding_subject::pair,
                  .quantity = "normal_backlash",
                  .value = backlash,
                  .limit = T(0),
                  .sentence = "The teeth are too thick for this centre distance: they would have to overlap."});
    } else if (backlash <= rounding) {
        list.add({.code = finding_code::no_backlash,
                  .severity = severity::note,
                  .subject = finding_subject::pair,
                  .quantity = "normal_backlash",
                  .value = backlash,
                  .limit = T(0),
                  .sentence = "The pair has no backlash: thin the teeth or open the centre distance before cutting."});
    }
}

} // namespace detail

/// Findings about a pair: those of either gear, contact ratio, the tips at the mate's roots, backlash.
template <scalar T>
constexpr finding_list<T> findings(const mesh<T>& m, const finding_limits<T>& limits = {}) {
    finding_list<T> list;
    list.add(findings(m.pinion(), m.pinion_root(), limits), finding_subject::pinion);
    list.add(findings(m.wheel(), m.wheel_root(), limits), finding_subject::wheel);

    const bool has_width = m.pinion().parameters().face_width > T(0) && m.wheel().parameters().face_width > T(0);
    detail::add_contact_findings(list, m, has_width, limits);

    const for_both<T> reach = m.reach_of_mating_tip();
    // bottom_clearance() goes by the gear whose tip it is; here it is looked at from the root.
    const for_both<T> clearance = m.bottom_clearance();
    detail::add_root_findings(list, m.pinion(), m.pinion_root(), finding_subject::pinion, reach.pinion, clearance.wheel, limits);
    detail::add_root_findings(list, m.wheel(), m.wheel_root(), finding_subject::wheel, reach.wheel, clearance.pinion, limits);

    detail::add_backlash_findings(list, m.normal_backlash(), m.centre_distance());
    return list;
}

/// Findings about a pinion on a rack: those of the pinion, contact ratio, the tips at the mate's roots, backlash. The subject `wheel` is the
/// rack.
template <scalar T>
constexpr finding_list<T> findings(const rack_mesh<T>& m, const finding_limits<T>& limits = {}) {
    finding_list<T> list;
    list.add(findings(m.pinion(), m.pinion_root(), limits), finding_subject::pinion);
    const bool has_width = m.pinion().parameters().face_width > T(0) && m.rack().face_width > T(0);
    detail::add_contact_findings(list, m, has_width, limits);
    // The standard racks leave room for their own addendum but for hundred-thousandths of the module: that is nothing to report.
    const T form_roll = m.pinion().base_diameter() / T(2) * m.pinion_root().root_form_roll();
    const T reach = m.reach_of_rack_tip() < form_roll - m.pinion().normal_module() / T(1000) ? m.reach_of_rack_tip() : form_roll;
    detail::add_root_findings(list, m.pinion(), m.pinion_root(), finding_subject::pinion, reach, m.clearance_of_rack_tip(), limits);
    detail::add_clearance_finding(list, finding_subject::wheel, m.clearance_of_pinion_tip(), T(limits.bottom_clearance * m.pinion().normal_module()));
    detail::add_backlash_findings(list, m.normal_backlash(), m.pinion().reference_diameter());
    return list;
}

} // namespace rackwork

#endif
