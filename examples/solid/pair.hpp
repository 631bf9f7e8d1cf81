// Example solid: the pair, and its two bodies in their places.
#ifndef SOLID_PAIR_HPP
#define SOLID_PAIR_HPP

#include <rackwork/exchange/placement.hpp>
#include <rackwork/mesh.hpp>
#include <rackwork/solid/facets.hpp>
#include <rackwork/solid/gear_solid.hpp>

#include <vector>

namespace solid {

/// The first stage of a sluice gate's hand winch: a pinion on a shaft of 25 mm, a wheel with a web on one of 40 mm. Millimetres.
inline const rackwork::gear<double> pinion({.normal_module = 4,
                                            .teeth = 16,
                                            .helix_angle = rackwork::deg(14.),
                                            .profile_shift = 0.25,
                                            .thickness_allowance = -0.06,
                                            .face_width = 38});
inline const rackwork::gear<double> wheel({.normal_module = 4,
                                           .teeth = 41,
                                           .helix_angle = rackwork::deg(-14.),
                                           .thickness_allowance = -0.08,
                                           .face_width = 34});
inline const rackwork::mesh<double> pair(pinion, wheel);

/// The teeth are chamfered at their ends, at half of a module and a quarter; so are the bores.
inline const rackwork::body_parameters pinion_body{.blank = {.bore_diameter = 25},
                                                   .key_slot = rackwork::metric_keyway(25),
                                                   .bore_chamfer = 1,
                                                   .tip_end_chamfer = 2};
inline const rackwork::body_parameters wheel_body{.blank = {.bore_diameter = 40,
                                                            .rim_inner_diameter = 136,
                                                            .hub_diameter = 70,
                                                            .hub_length = 34,
                                                            .web_thickness = 14},
                                                  .key_slot = rackwork::metric_keyway(40),
                                                  .bore_chamfer = 1.5,
                                                  .tip_end_chamfer = 1,
                                                  .rim_chamfer = 1.5};

/// Two bodies as they are made, turned and moved to where they mesh: half of the backlash on either side of the pinion's tooth 0. Both stand
/// on the same middle plane, so the helices meet as the sections do.
template <class Body>
std::vector<Body> in_mesh(const Body& of_pinion, const Body& of_wheel) {
    const auto place = placement_in_mesh(pair);
    const auto put = [](const Body& body, const rackwork::placement<double>& where) {
        return moved(body, where.turn.rad(), {where.centre.x, where.centre.y, 0});
    };
    return {put(of_pinion, place.pinion), put(of_wheel, place.wheel)};
}

} // namespace solid

#endif
