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
#include <utility>
#include <variant>
#include <vector>

namespace rackwork {

namespace detail {

/// Indices of a tooth's right and left flank among its segments.
template <scalar T>
std::pair<std::size_t, std::size_t> flanks_of(const std::vector<segment<T>>& tooth) {
    std::size_t right = 0;
    while (!std::holds_alternative<involute<T>>(tooth[right].curve)) ++right;
    std::size_t left = right + 1;
    while (!std::holds_alternative<involute<T>>(tooth[left].curve)) ++left;
    return {right, left};
}

} // namespace detail

/// Open outline of tooth i, from root land to root land without these: fillet, right flank, tip, left flank, fillet. Tooth 0 is centred
/// on the x axis. Throws geometry_error as tooth_form does.
template <scalar T>
outline<T> outline_of_tooth(const gear<T>& g, int i = 0) {
    outline<T> result;
    std::vector<segment<T>>& s = result.segments;
    tooth_form<T>(g).append_tooth(s, i);
    // The root land is the only circle behind the left flank.
    if (std::holds_alternative<circle<T>>(s.back().curve)) s.pop_back();
    for (std::size_t k = 1; k < s.size(); ++k) s[k].start = s[k - 1].end;
    return result;
}

/// Open outline of the space that follows tooth i, from tip to tip without these: left flank of tooth i, fillet, root land, fillet,
/// right flank of tooth i + 1. Throws geometry_error as tooth_form does.
template <scalar T>
outline<T> outline_of_space(const gear<T>& g, int i = 0) {
    const tooth_form<T> form(g);
    std::vector<segment<T>> before;
    std::vector<segment<T>> after;
    form.append_tooth(before, i);
    form.append_tooth(after, i + 1);
    outline<T> result;
    std::vector<segment<T>>& s = result.segments;
    s.assign(before.begin() + static_cast<std::ptrdiff_t>(detail::flanks_of(before).second), before.end());
    s.insert(s.end(), after.begin(), after.begin() + static_cast<std::ptrdiff_t>(detail::flanks_of(after).first + 1));
    for (std::size_t k = 1; k < s.size(); ++k) s[k].start = s[k - 1].end;
    return result;
}

} // namespace rackwork

#endif
