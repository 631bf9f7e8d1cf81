// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What bounds the permissible profile shifts of a pair.
#ifndef RACKWORK_DESIGN_SHIFT_LIMIT_HPP
#define RACKWORK_DESIGN_SHIFT_LIMIT_HPP

#include "../core/scalar.hpp"

namespace rackwork {

/// What can bound the permissible profile shifts of a pair.
enum class shift_limit : unsigned char {
    /// A tip circle no longer stands outside its reference circle (an internal wheel's: inside it, or no longer outside its base circle): here
    /// the study ends.
    tip_at_reference,
    pinion_undercut,        ///< the tool undercuts the pinion
    wheel_undercut,         ///< the tool undercuts the wheel; an internal wheel's cutter does not reach its tips with its involute
    pinion_tip,             ///< the pinion's tip is as thin as the limit allows (or pointed, for a limit of 0)
    wheel_tip,              ///< the wheel's tip is
    pinion_interference,    ///< the wheel's tip reaches down to the pinion's root form diameter
    wheel_interference,     ///< the pinion's tip reaches down to the wheel's root form diameter
    contact_ratio_approach, ///< the contact ratio is at its limit, with the long part of the path before the pitch point
    contact_ratio_recess,   ///< the contact ratio is at its limit, with the long part of the path after the pitch point
    tip_interference,       ///< the tips of pinion and internal wheel touch outside the path of contact
    wheel_space             ///< an internal wheel's spaces close at their bottom, or no customary cutter fits into them
};

/// The permissible shifts of the pinion at one sum of profile shifts. Nothing is permissible if the least is greater than the greatest.
template <scalar T>
struct shift_range {
    T least;
    T greatest;
    /// What bounds them.
    shift_limit least_by;
    shift_limit greatest_by;

    constexpr bool empty() const { return greatest < least; }
    constexpr T width() const { return T(greatest - least); }
};

} // namespace rackwork

#endif
