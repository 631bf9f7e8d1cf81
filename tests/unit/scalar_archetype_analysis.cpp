// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The templates of analysis/ and those of exchange/ that hold geometry, with a scalar that can do what is documented and nothing else.
// (Stress correction factors need pow, as their docstring says, and are left out.)
#include "support_archetype.hpp"

#include <rackwork/analysis/contact.hpp>
#include <rackwork/analysis/contact_lines.hpp>
#include <rackwork/analysis/contact_point.hpp>
#include <rackwork/analysis/lewis_form_factor.hpp>
#include <rackwork/analysis/normal_section.hpp>
#include <rackwork/analysis/tooth_root.hpp>
#include <rackwork/analysis/tooth_root_iso_6336.hpp>
#include <rackwork/analysis/virtual_spur_gear.hpp>
#include <rackwork/exchange/arc_polyline.hpp>
#include <rackwork/exchange/placement.hpp>

#include <doctest/doctest.h>

#include <cmath>

using archetype::number;

template class rackwork::path_of_contact<number>;
template class rackwork::contact_lines<number>;
template class rackwork::contact_point<number>;
template class rackwork::normal_section<number>;
template class rackwork::virtual_spur_gear<number>;
template struct rackwork::arc_polyline<number>;
template struct rackwork::placement<number>;

namespace {

template <class T>
rackwork::gear<T> some_gear(int teeth, double helix) {
    return rackwork::gear<T>{{.normal_module = T(2), .teeth = teeth, .helix_angle = rackwork::deg(T(helix)), .face_width = T(20)}};
}

/// Root sections and a drawing, each summed up in one number.
template <class T>
double analysed(int teeth, double helix) {
    const rackwork::gear<T> g = some_gear<T>(teeth, helix);
    const rackwork::mesh<T> pair{g, some_gear<T>(teeth + 10, -helix)};
    double sum = static_cast<double>(rackwork::root_under_tip_load(g).chord);
    sum += static_cast<double>(rackwork::iso_6336_root_under_tip_load(g).chord);
    sum += static_cast<double>(rackwork::iso_6336_root_under_single_contact_load(pair).wheel.chord);
    static_cast<void>(rackwork::lewis_section_under_tip_load(g));
    static_cast<void>(rackwork::placement_in_mesh(pair));
    const rackwork::arc_polyline<T> drawn = rackwork::arc_polyline_of(rackwork::outline_of(g), T(0.01));
    static_cast<void>(rackwork::bounding_box_of(drawn));
    return sum;
}

} // namespace

TEST_CASE("analysis with the documented operations alone gives the numbers of double") {
    for (const int teeth : {12, 25}) {
        for (const double helix : {0.0, 20.0}) {
            CAPTURE(teeth);
            CAPTURE(helix);
            CHECK(std::fabs(analysed<number>(teeth, helix) - analysed<double>(teeth, helix)) < 1e-9);
        }
    }
}
