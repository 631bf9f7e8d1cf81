// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A gear's solid as plane triangular facets within a chordal and an angular tolerance.
#ifndef RACKWORK_SOLID_FACETS_HPP
#define RACKWORK_SOLID_FACETS_HPP

#include "../core/angle.hpp"
#include "../core/error.hpp"
#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "../gear.hpp"
#include "body.hpp"
#include "brep.hpp"
#include "end_chamfer.hpp"
#include "facet_builder.hpp"
#include "gear_assembly.hpp"
#include "section_polygon.hpp"
#include "tip_chamfer.hpp"

#include <optional>

namespace rackwork {

/// How fine facets are to be.
struct facet_options {
    /// Greatest distance between facets and the exact boundary, a length. A hundredth of the normal module unless stated.
    std::optional<double> chordal_tolerance{};
    /// Greatest angle by which the section turns from one end of a chord to the other, or the helix from one layer to the next.
    angle<double> angular_tolerance = deg(12.);
};

/// The facets of a gear whose transverse section is a stated outline, such as outline_of(g, tool). The points of each layer lie on the exact
/// section; alike teeth have alike facets. Throws geometry_error if check(body, g, its root) finds something, and unless the chordal tolerance
/// is finite and at least 2^-18 of the section's size, which single precision can still tell, and the angular tolerance greater than 0
/// and at most 45 degrees. For chamfers that cut flanks or a keyway the chordal tolerance must be at least 2^-14 of the section's size,
/// and under angles near 90 degrees more: no chord can be held to less than 2^-18.
inline facet_solid facets_of(const gear<double>& g, const outline<double>& section, const body_parameters& body,
                             const facet_options& options = {}) {
    require(check(body, g, detail::root_diameter_of(g, section)));
    const double chordal = options.chordal_tolerance.value_or(g.normal_module() / 100);
    double size = 0;
    for (const segment<double>& s : section.segments) size = larger(size, length(s.start));
    require(check_at_least("chordal_tolerance", chordal, 0x1p-18 * size));
    require(first_of(check_greater("angular_tolerance (deg)", options.angular_tolerance.deg(), 0.),
                     check_at_most("angular_tolerance (deg)", options.angular_tolerance.deg(), 45.)));
    const double angular = options.angular_tolerance.rad();
    const bool helical = g.helix_angle().rad() != 0;
    const bool chamfers = body.tip_end_chamfer > 0 || (body.bore_chamfer > 0 && body.key_slot);
    if (!chamfers) {
        const detail::section_polygon polygon = detail::polygon_of(section, helical ? chordal / 2 : chordal, angular);
        const detail::tip_chamfer none(g, body, section, 0);
        detail::facet_builder builder(chordal, chordal, angular);
        detail::gear_assembly(g, body, polygon, none.cone, 0, builder).assemble();
        return builder.finished(none, 0);
    }
    // What facets stray from a cone that cuts flanks is known only when they are there; as often as it is too much they are made finer.
    require(check_at_least("chordal_tolerance of a body with chamfers", chordal, 0x1p-14 * size));
    const double slack = smaller(0x1p-17 * size, chordal / 64);
    const detail::tip_chamfer chamfer(g, body, section, slack);
    double of_teeth = chordal / chamfer.of_flank;
    double of_cones = chordal;
    while (true) {
        require(check_at_least("chordal_tolerance within chamfers", smaller(of_teeth, of_cones), 0x1p-18 * size));
        outline<double> divided = section;
        if (body.tip_end_chamfer > 0) {
            for (const detail::end_chamfer& band : detail::bands_of(chamfer.cone, of_cones)) {
                // None that would leave a sliver before a joint.
                if (detail::settled_end_radius(section, band.end_radius, slack) == band.end_radius)
                    divided = detail::divided_at(divided, band);
            }
        }
        const detail::section_polygon polygon = detail::polygon_of(divided, helical ? of_teeth / 2 : of_teeth, angular);
        detail::facet_builder builder(of_teeth, of_cones, angular);
        const double bore_settled = detail::gear_assembly(g, body, polygon, chamfer.cone, slack, builder).assemble();
        const bool cones_are_coarse = builder.cones_are_coarse(chordal, chamfer);
        facet_solid result = builder.finished(chamfer, bore_settled);
        if (result.deviation <= chordal) return result;
        // Cones have some of their points from the teeth, so these must not lag behind for ever.
        if (cones_are_coarse) of_cones /= 1.5;
        if (!cones_are_coarse || of_cones < of_teeth / 4) of_teeth /= 1.25;
    }
}

/// The facets of a gear as its customary tool makes it. Throws geometry_error also as outline_of does.
inline facet_solid facets_of(const gear<double>& g, const body_parameters& body = {},
                             const facet_options& options = {}) {
    require(check(body, g));
    return facets_of(g, outline_of(g), body, options);
}

/// The facets turned about the z axis by an angle in radians, counter-clockwise positive, and then moved.
inline facet_solid moved(facet_solid solid, double turn, const point3& shift) {
    const point<double> by = direction(turn);
    double size = 0;
    for (point3& p : solid.points) {
        p = detail::moved(p, by, shift);
        size = larger(size, length(p) + length(shift));
    }
    solid.deviation += 8 * epsilon<double>() * size;
    return solid;
}

} // namespace rackwork

#endif
