// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#pragma once

#include <rackwork/core/error.hpp>

#include <string>

namespace support {

/// What a call says is impossible; an empty violation when it refuses nothing.
template <class F>
rackwork::violation refusal(const F& call) {
    try {
        static_cast<void>(call());
    } catch (const rackwork::geometry_error& error) {
        return error.cause();
    }
    return {};
}

/// The quantity that a call names when it refuses; empty when it does not.
template <class F>
std::string refused_quantity(const F& call) {
    const rackwork::violation cause = refusal(call);
    return cause ? cause.quantity : std::string{};
}

} // namespace support
