// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The closed outline of a whole gear as a sequence of exact segments, and its area.
#ifndef RACKWORK_FORM_OUTLINE_HPP
#define RACKWORK_FORM_OUTLINE_HPP

#include "../core/scalar.hpp"
#include "../cutter.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "segment.hpp"
#include "tooth.hpp"

#include <cstddef>
#include <type_traits>
#include <vector>

namespace rackwork {

/// A sequence of exact segments; the end of each is, to the bit, the start of the next. Closed when the last meets the first.
template <scalar T>
struct outline {
    std::vector<segment<T>> segments;

    /// Enclosed area, every integral in closed form; counter-clockwise positive. Accuracy: 8 (1 + z (1 + tan alpha_at) / (2 pi)) epsilon,
    /// because the turns of the teeth are rounded.
    T area() const {
        T sum = T(0);
        for (const segment<T>& s : segments) sum += s.swept_area();
        return sum;
    }
};

/// The same outline run through the other way. Where a function speaks of the material's side it lies on the left: of an internal gear's
/// outline, which goes counter-clockwise round a hole, that is reversed(outline). Its area is then negative, as a hole's.
template <scalar T>
outline<T> reversed(const outline<T>& exact) {
    outline<T> result;
    result.segments.reserve(exact.segments.size());
    const bool closed = !exact.segments.empty() && exact.segments.front().start == exact.segments.back().end;
    for (std::size_t i = exact.segments.size(); i-- > 0;) {
        const segment<T>& s = exact.segments[i];
        const bool corner = i > 0 ? exact.segments[i - 1].corner_at_end : closed && exact.segments.back().corner_at_end;
        result.segments.push_back({s.curve, s.to, s.from, s.end, s.start, corner});
    }
    return result;
}

/// The closed outline of a tooth form all round its gear, counter-clockwise about the axis, beginning at the right fillet of tooth 0, which
/// is centred on the x axis. It goes round the metal of an external gear, and round the hole in an internal one.
template <scalar T>
outline<T> outline_of(const tooth_form<T>& form) {
    outline<T> result;
    result.segments.reserve(8 * static_cast<std::size_t>(form.teeth()));
    for (int i = 0; i < form.teeth(); ++i) form.append_tooth(result.segments, i);
    // Rounding makes the same corner, reached from two teeth, differ in its last place: the earlier segment's point counts.
    for (std::size_t i = 1; i < result.segments.size(); ++i) result.segments[i].start = result.segments[i - 1].end;
    result.segments.back().end = result.segments.front().start;
    return result;
}

/// The closed outline of a gear as its customary tool makes it. Throws geometry_error as generated_root does.
template <scalar T>
outline<T> outline_of(const gear<T>& g) {
    return outline_of(tooth_form<T>(g));
}

/// The closed outline of a gear as a tool makes it. Throws geometry_error as generated_root does.
template <scalar T>
outline<T> outline_of(const gear<T>& g, const std::type_identity_t<cutter<T>>& tool) {
    return outline_of(tooth_form<T>(g, tool));
}

/// The closed outline of a gear with a root of the same gear, as its tool has made it.
template <scalar T>
outline<T> outline_of(const gear<T>& g, const generated_root<T>& root) {
    return outline_of(tooth_form<T>(g, root));
}

} // namespace rackwork

#endif
