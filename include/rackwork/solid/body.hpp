// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a gear's body is made of besides its teeth: bore, keyway, hub, web, rim, and the gap of a double helix.
#ifndef RACKWORK_SOLID_BODY_HPP
#define RACKWORK_SOLID_BODY_HPP

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
    /// Chamfer under 45 degrees at both ends of the bore, measured along the radius; 0 for sharp edges. Not together with a keyway.
    double bore_chamfer = 0;
    /// Outer diameter of an internal gear's rim; must be given for one.
    double rim_diameter = 0;
    /// For a double helical gear.
    std::optional<double_helix> halves{};
};

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
    if (g.is_internal()) {
        if (const violation v =
                first_of(check_at_most("bore_diameter of an internal gear", blank.bore_diameter, 0.),
                         check_at_most("rim_inner_diameter of an internal gear", blank.rim_inner_diameter, 0.),
                         check_at_most("bore_chamfer of an internal gear", body.bore_chamfer, 0.),
                         check_greater("rim_diameter", body.rim_diameter, larger(root, g.root_diameter())))) {
            return v;
        }
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
    double reach = larger(blank.bore_diameter + 2 * body.bore_chamfer, blank.rim_inner_diameter);
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
    if (body.key_slot) {
        const keyway& k = *body.key_slot;
        if (const violation v =
                first_of(check_greater("bore_diameter of a bore with a keyway", blank.bore_diameter, 0.),
                         check_greater("width of the keyway", k.width, 0.),
                         check_less("width of the keyway", k.width, blank.bore_diameter),
                         check_greater("hub_depth of the keyway", k.hub_depth, 0.),
                         check_at_most("bore_chamfer of a bore with a keyway", body.bore_chamfer, 0.))) {
            return v;
        }
        const double corner = 2 * length(point<double>{blank.bore_diameter / 2 + k.hub_depth, k.width / 2});
        if (const violation v = check_less("diameter that the keyway's corners reach", corner, end_of_hub)) return v;
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
