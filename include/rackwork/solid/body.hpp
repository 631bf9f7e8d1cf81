// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a gear's body is made of besides its teeth: bore, keyway, hub, web, rim, and the gap of a double helix.
#ifndef RACKWORK_SOLID_BODY_HPP
#define RACKWORK_SOLID_BODY_HPP

#include "../core/angle.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "../form/section.hpp"
#include "../gear.hpp"
#include "keyway.hpp"

#include <cmath>
#include <optional>

namespace rackwork {

/// The two halves of a double helical gear. The half above the middle plane has the gear's own helix, the half below it the opposite one;
/// carried on through the gap, their teeth would meet in the middle plane.
struct double_helix {
    /// Width of the gap between the halves; the face width contains it. 0 for halves that meet.
    double gap_width = 0;
    /// Diameter at the bottom of the gap: less than the root diameter. Without a meaning where there is no gap.
    double gap_diameter = 0;
};

/// The body of a gear, for designated initialisers. Its middle plane is z = 0 and its axis the z axis; in the middle plane tooth 0 is centred
/// on the x axis. Lengths in the module's unit. The face width is the gear's own (gear_parameters::face_width).
struct body_parameters {
    /// Bore, hub and web of an external gear.
    gear_blank<double> blank{};
    /// Keyway along the whole bore, on the positive x axis.
    std::optional<keyway> key_slot{};
    /// Chamfer under 45 degrees at both ends of the bore, measured along the radius; 0 for sharp edges. In a bore with a keyway it takes the
    /// keyway's edges as far as its cone reaches, which is not to the corners.
    double bore_chamfer = 0;
    /// Outer diameter of an internal gear's rim; must be given for one.
    double rim_diameter = 0;
    /// For a double helical gear.
    std::optional<double_helix> halves{};
    /// Chamfer of the blank between the tip cylinder and both ends of the teeth, measured along the radius: a cone about the axis, outside on an
    /// external gear, in the tip bore of an internal one. 0 for sharp edges. It is less deep than the teeth; beyond the tips it takes the ends of
    /// the flanks. Of a double helical gear it is at the outer ends only.
    double tip_end_chamfer = 0;
    /// Angle between that cone and the end's plane, between 0 and 90 degrees: along the axis the chamfer takes its size times the tangent.
    angle<double> tip_end_chamfer_angle = deg(45.);
    /// Chamfer under 45 degrees at both ends of a rim, measured along the radius: of an internal gear outside, of an external one with a web
    /// inside. 0 for sharp edges.
    double rim_chamfer = 0;
    /// Chamfer under 45 degrees at both outer edges of a hub that stands out of its web, measured along the radius. 0 for sharp edges.
    double hub_chamfer = 0;

    /// How far the chamfer of the tips goes along the axis.
    double tip_end_chamfer_depth() const {
        return tip_end_chamfer == 0 ? 0 : tip_end_chamfer * tan(tip_end_chamfer_angle);
    }
};

namespace detail {

/// What is impossible about the chamfers of the tips' ends.
inline violation check_tip_ends(const body_parameters& body, const gear<double>& g, double root) {
    if (const violation v = check_at_least("tip_end_chamfer", body.tip_end_chamfer, 0.)) return v;
    if (body.tip_end_chamfer == 0) return {};
    const double angle = body.tip_end_chamfer_angle.deg();
    const double turn_per_length = 2 * magnitude(g.tangent_of_helix_angle()) / g.reference_diameter();
    const double gap = body.halves ? body.halves->gap_width : 0;
    // Of a double helix each half has one such end.
    const double room = body.halves ? (g.parameters().face_width - gap) / 2 : g.parameters().face_width / 2;
    if (const violation v = first_of(check_greater("tip_end_chamfer_angle (deg)", angle, 0.),
                                     check_less("tip_end_chamfer_angle (deg)", angle, 90.),
                                     check_less("tip_end_chamfer", body.tip_end_chamfer,
                                                magnitude(g.tip_diameter() - root) / 2))) {
        return v;
    }
    return first_of(check_less("tip_end_chamfer along the axis", body.tip_end_chamfer_depth(), room),
                    check_at_most("turn of the helix within tip_end_chamfer (rad)",
                                  turn_per_length * body.tip_end_chamfer_depth(), 1.));
}

/// What is impossible about the chamfers of rim and hub.
inline violation check_rim_and_hub(const body_parameters& body, const gear<double>& g, double root) {
    if (const violation v =
            first_of(check_at_least("rim_chamfer", body.rim_chamfer, 0.), check_at_least("hub_chamfer", body.hub_chamfer, 0.))) {
        return v;
    }
    const double width = g.parameters().face_width;
    const gear_blank<double>& blank = body.blank;
    if (g.is_internal()) {
        if (body.rim_chamfer > 0) {
            if (const violation v = first_of(
                    check_greater("rim_diameter less its chamfer", body.rim_diameter - 2 * body.rim_chamfer, root),
                    check_less("rim_chamfer at both ends", 2 * body.rim_chamfer, width))) {
                return v;
            }
        }
        return check_at_most("hub_chamfer of an internal gear", body.hub_chamfer, 0.);
    }
    const bool web = blank.rim_inner_diameter > 0;
    if (body.rim_chamfer > 0) {
        if (!web) return check_at_most("rim_chamfer of a gear without a web", body.rim_chamfer, 0.);
        if (const violation v = first_of(
                check_less("rim_inner_diameter with its chamfer", blank.rim_inner_diameter + 2 * body.rim_chamfer, root),
                check_less("rim_chamfer", body.rim_chamfer, larger(0., (width - blank.web_thickness) / 2)))) {
            return v;
        }
    }
    if (body.hub_chamfer == 0) return {};
    if (!web || !(blank.hub_diameter > blank.bore_diameter))
        return check_at_most("hub_chamfer of a gear without a hub", body.hub_chamfer, 0.);
    return check_less("hub_chamfer", body.hub_chamfer, larger(0., (blank.hub_length - blank.web_thickness) / 2));
}

} // namespace detail

/// What is impossible about a body for a gear whose root, as its tool makes it, has the given diameter; or nothing.
inline violation check(const body_parameters& body, const gear<double>& g, double root) {
    const double width = g.parameters().face_width;
    const gear_blank<double>& blank = body.blank;
    if (const violation v =
            first_of(check_greater("face_width", width, 0.), check_at_least("bore_chamfer", body.bore_chamfer, 0.),
                     check_at_least("rim_diameter", body.rim_diameter, 0.))) {
        return v;
    }
    if (body.halves) {
        if (g.helix_angle().rad() == 0)
            return {"helix_angle (deg)", 0, "must not be zero for a double helical gear", 0, false};
        if (const violation v = first_of(check_at_least("gap_width", body.halves->gap_width, 0.),
                                         check_less("gap_width", body.halves->gap_width, width))) {
            return v;
        }
    }
    const bool gap = body.halves && body.halves->gap_width > 0;
    if (const violation v = detail::check_tip_ends(body, g, root)) return v;
    if (g.is_internal()) {
        if (const violation v =
                first_of(check_at_most("bore_diameter of an internal gear", blank.bore_diameter, 0.),
                         check_at_most("rim_inner_diameter of an internal gear", blank.rim_inner_diameter, 0.),
                         check_at_most("bore_chamfer of an internal gear", body.bore_chamfer, 0.),
                         check_greater("rim_diameter", body.rim_diameter, larger(root, g.root_diameter())))) {
            return v;
        }
        if (const violation v = detail::check_rim_and_hub(body, g, root)) return v;
        if (body.key_slot)
            return {"keyway width of an internal gear", body.key_slot->width, "must not be given", 0, false};
        if (!gap) return {};
        return first_of(check_greater("gap_diameter of an internal gear", body.halves->gap_diameter, root),
                        check_less("gap_diameter of an internal gear", body.halves->gap_diameter, body.rim_diameter));
    }
    if (const violation v = first_of(check(blank, g), check_less("bore_diameter", blank.bore_diameter, root),
                                     check_less("rim_inner_diameter", blank.rim_inner_diameter, root))) {
        return v;
    }
    if (const violation v = check_at_most("rim_diameter of an external gear", body.rim_diameter, 0.)) return v;
    const bool web = blank.rim_inner_diameter > 0;
    // What lies within: the bore, or the rim's inner side where there is a web.
    double reach = larger(blank.bore_diameter + 2 * body.bore_chamfer,
                          blank.rim_inner_diameter > 0 ? blank.rim_inner_diameter + 2 * body.rim_chamfer : 0.);
    double end_of_hub = web ? blank.hub_diameter : (gap ? body.halves->gap_diameter : root);
    double length_of_bore = width;
    if (web) {
        length_of_bore = blank.hub_diameter > blank.bore_diameter ? blank.hub_length : blank.web_thickness;
        if (const violation v = first_of(check_greater("web_thickness", blank.web_thickness, 0.),
                                         check_at_most("web_thickness", blank.web_thickness, width),
                                         check_less("hub_diameter", blank.hub_diameter, blank.rim_inner_diameter))) {
            return v;
        }
        if (blank.hub_diameter > blank.bore_diameter) {
            if (const violation v = check_at_least("hub_length", blank.hub_length, blank.web_thickness)) return v;
        } else {
            end_of_hub = blank.rim_inner_diameter;
        }
    }
    if (const violation v = detail::check_rim_and_hub(body, g, root)) return v;
    if (body.hub_chamfer > 0) end_of_hub -= 2 * body.hub_chamfer;
    if (body.key_slot) {
        const keyway& k = *body.key_slot;
        if (const violation v =
                first_of(check_greater("bore_diameter of a bore with a keyway", blank.bore_diameter, 0.),
                         check_greater("width of the keyway", k.width, 0.),
                         check_less("width of the keyway", k.width, blank.bore_diameter),
                         check_greater("hub_depth of the keyway", k.hub_depth, 0.))) {
            return v;
        }
        const double corner = 2 * length(point<double>{blank.bore_diameter / 2 + k.hub_depth, k.width / 2});
        if (const violation v = check_less("diameter that the keyway's corners reach", corner, end_of_hub)) return v;
        // Beyond the corners nothing of the keyway would be left in the end.
        if (const violation v = check_less("diameter of the chamfer of a bore with a keyway",
                                           blank.bore_diameter + 2 * body.bore_chamfer, corner)) {
            return v;
        }
        reach = larger(reach, corner);
    }
    if (body.bore_chamfer > 0) {
        if (const violation v = first_of(
                check_greater("bore_diameter of a bore with chamfers", blank.bore_diameter, 0.),
                check_less("diameter of the bore's chamfer", blank.bore_diameter + 2 * body.bore_chamfer, end_of_hub),
                check_less("bore_chamfer at both ends", 2 * body.bore_chamfer, length_of_bore))) {
            return v;
        }
    }
    if (body.hub_chamfer > 0) {
        if (const violation v = check_greater("hub_diameter less its chamfer", end_of_hub, blank.bore_diameter)) return v;
    }
    if (!gap) return {};
    return first_of(check_greater("gap_diameter", body.halves->gap_diameter, reach),
                    check_less("gap_diameter", body.halves->gap_diameter, root));
}

/// The same for the root that the gear's own rack makes.
inline violation check(const body_parameters& body, const gear<double>& g) {
    return check(body, g, g.generated_root_diameter());
}

namespace detail {

/// Diameter of the root of an outline all round a gear: the end of the teeth that is away from their tips.
inline double root_diameter_of(const gear<double>& g, const outline<double>& section) {
    double root = g.is_internal() ? 0 : g.tip_diameter();
    for (const segment<double>& s : section.segments) {
        const double diameter = 2 * length(s.start);
        root = g.is_internal() ? larger(root, diameter) : smaller(root, diameter);
    }
    return root;
}

} // namespace detail

} // namespace rackwork

#endif
