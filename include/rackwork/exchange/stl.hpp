// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Facets as binary STL.
#ifndef RACKWORK_EXCHANGE_STL_HPP
#define RACKWORK_EXCHANGE_STL_HPP

#include "../core/error.hpp"
#include "../solid/brep.hpp"
#include "../solid/facets.hpp"
#include "text_output.hpp"

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <ostream>
#include <string>
#include <string_view>

namespace rackwork {

static_assert(std::numeric_limits<float>::is_iec559 && sizeof(float) == 4, "STL holds IEEE single precision");

/// What can be chosen about an STL file. The format knows no unit.
struct stl_options {
    /// Up to 80 bytes for the header, which programs show or ignore. Must not begin with "solid", which says that the file is text.
    std::string_view header = "Rackwork facets";
};

namespace detail {

/// The bytes of a number, lowest first, whatever the machine's order.
inline void append_little_endian(std::string& bytes, std::uint32_t number) {
    for (int shift = 0; shift < 32; shift += 8) bytes += static_cast<char>((number >> shift) & 0xFFU);
}

inline void append_single(std::string& bytes, float number) {
    append_little_endian(bytes, std::bit_cast<std::uint32_t>(number));
}

inline std::array<float, 3> single(const point3& p) {
    // The sums turn -0 into 0, so that equal points are equal bytes.
    return {static_cast<float>(p.x) + 0.0F, static_cast<float>(p.y) + 0.0F, static_cast<float>(p.z) + 0.0F};
}

/// Normal of the corners as written.
inline point3 normal_of(const std::array<std::array<float, 3>, 3>& corners) {
    const auto in_space = [](const std::array<float, 3>& c) {
        return point3{static_cast<double>(c[0]), static_cast<double>(c[1]), static_cast<double>(c[2])};
    };
    const point3 a = in_space(corners[0]);
    const point3 normal = cross(in_space(corners[1]) - a, in_space(corners[2]) - a);
    const double size = length(normal);
    return size > 0 ? (1 / size) * normal : point3{};
}

} // namespace detail

/// Writes facets as binary STL. Neighbours have the very same corners, so the file is as watertight as the solid; each normal is that of the
/// corners as they stand in the file, in single precision.
/// Throws geometry_error, before the first byte, if the header is too long or begins with "solid", or there are 2^32 facets or more;
/// std::ios_base::failure unless the stream (binary, where a system tells the two apart) has taken every byte.
inline void write_stl(std::ostream& stream, const facet_solid& solid, const stl_options& options = {}) {
    require(check_at_most("length of the header", static_cast<double>(options.header.size()), 80.));
    if (options.header.substr(0, 5) == "solid")
        impossible_geometry({"first word of the header", 0, "must not be \"solid\"", 0, false});
    require(check_less("number of facets", static_cast<double>(solid.facets.size()), 0x1p32));

    detail::text_output out(stream);
    std::string bytes(options.header);
    bytes.resize(80, ' ');
    detail::append_little_endian(bytes, static_cast<std::uint32_t>(solid.facets.size()));
    out.text(bytes);
    for (const std::array<std::size_t, 3>& facet : solid.facets) {
        std::array<std::array<float, 3>, 3> corners{};
        for (std::size_t i = 0; i < 3; ++i) corners[i] = detail::single(solid.points[facet[i]]);
        bytes.clear();
        for (const float c : detail::single(detail::normal_of(corners))) detail::append_single(bytes, c);
        for (const std::array<float, 3>& corner : corners) {
            for (const float c : corner) detail::append_single(bytes, c);
        }
        bytes.append(2, '\0');
        out.text(bytes);
    }
    out.finish();
}

} // namespace rackwork

#endif
