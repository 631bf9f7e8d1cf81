// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The root fillet of a gear, whichever tool made it.
#ifndef RACKWORK_ROOT_TROCHOID_HPP
#define RACKWORK_ROOT_TROCHOID_HPP

#include "core/point.hpp"
#include "core/scalar.hpp"
#include "fillet_state.hpp"
#include "pinion_trochoid.hpp"
#include "rack_trochoid.hpp"

#include <variant>

namespace rackwork {

/// Root fillet made by the rounded tip of a rack-type tool or of a pinion-type cutter. Parameter: the angle phi round the rounding, radians;
/// 0 at the root land.
template <scalar T>
class root_trochoid {
public:
    using state = fillet_state<T>;

    constexpr root_trochoid(const rack_trochoid<T>& by_rack) : shape_(by_rack) {}
    constexpr root_trochoid(const pinion_trochoid<T>& by_pinion) : shape_(by_pinion) {}

    /// The curve of the tool that made it.
    constexpr const std::variant<rack_trochoid<T>, pinion_trochoid<T>>& shape() const { return shape_; }

    /// Radius of the circle on which the tool rolls while it cuts.
    constexpr T rolling_radius() const {
        return std::visit([](const auto& s) { return s.rolling_radius; }, shape_);
    }
    /// Radius of the tool's tip rounding.
    constexpr T tip_rounding() const {
        return std::visit([](const auto& s) { return s.tip_rounding; }, shape_);
    }

    constexpr state at(const T& phi) const {
        return std::visit([&](const auto& s) { return s.at(phi); }, shape_);
    }
    /// What is different on the way back from one parameter to a lesser one, with its own places however short the way is.
    constexpr fillet_change<T> change_back(const T& from, const T& back) const {
        return std::visit([&](const auto& s) { return s.change_back(from, back); }, shape_);
    }
    constexpr point<T> position(const T& phi) const { return at(phi).position(); }
    constexpr point<T> tangent(const T& phi) const { return at(phi).tangent(); }
    constexpr T curvature(const T& phi) const { return at(phi).curvature(); }

private:
    std::variant<rack_trochoid<T>, pinion_trochoid<T>> shape_;
};

} // namespace rackwork

#endif
