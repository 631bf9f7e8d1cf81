// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// One tooth or one space of a gear as an outline of its own, for programs that copy it round the axis themselves.
#ifndef RACKWORK_CURVE_OUTLINE_PART_HPP
#define RACKWORK_CURVE_OUTLINE_PART_HPP

#include "../core/scalar.hpp"
#include "../form/outline.hpp"
#include "../form/segment.hpp"
#include "../form/tooth.hpp"
#include "../gear.hpp"

#include <cstddef>
#include <vector>

namespace rackwork {

/// Open outline of tooth i, from root land to root land without these: right side, tip land, left side. Tooth 0 is centred on the x axis.
/// Throws geometry_error as tooth_form does.
template <scalar T>
outline<T> outline_of_tooth(const gear<T>& g, int i = 0) {
    outline<T> result;
    std::vector<segment<T>>& s = result.segments;
    const tooth_form<T> form(g);
    form.append_right_side(s, i);
    form.append_tip_land(s, i);
    form.append_left_side(s, i);
    for (std::size_t k = 1; k < s.size(); ++k) s[k].start = s[k - 1].end;
    return result;
}

/// Open outline of the space that follows tooth i, from tip land to tip land without these: left side of tooth i, root land, right side of
/// tooth i + 1. Throws geometry_error as tooth_form does.
template <scalar T>
outline<T> outline_of_space(const gear<T>& g, int i = 0) {
    const tooth_form<T> form(g);
    outline<T> result;
    std::vector<segment<T>>& s = result.segments;
    form.append_left_side(s, i);
    form.append_root_land(s, i);
    form.append_right_side(s, i + 1);
    for (std::size_t k = 1; k < s.size(); ++k) s[k].start = s[k - 1].end;
    return result;
}

} // namespace rackwork

#endif
