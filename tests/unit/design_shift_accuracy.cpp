// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Limits of profile shifts in double against the same limits to fifty digits.
#include <doctest/doctest.h>

#include "random_source.hpp"

#include <rackwork/design/shift_line.hpp>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

namespace {

using namespace rackwork;
using wide = boost::multiprecision::number<boost::multiprecision::cpp_bin_float<50>, boost::multiprecision::et_off>;

/// How fast what is limited changes with the shift, lengths in modules.
double slope(const shift_line<wide>& line, shift_limit which, const wide& x) {
    const auto limited = [&](const wide& at) -> wide {
        switch (which) {
        case shift_limit::pinion_tip: return line.tip_thickness(at).pinion;
        case shift_limit::wheel_tip: return line.tip_thickness(at).wheel;
        case shift_limit::pinion_interference: return line.root_reserve(at).pinion;
        case shift_limit::wheel_interference: return line.root_reserve(at).wheel;
        // Contact ratio times pitch is the length of the path.
        case shift_limit::contact_ratio_approach:
        case shift_limit::contact_ratio_recess: return line.contact_ratio(at) * pi<wide>();
        // Times the radius, a length.
        case shift_limit::tip_interference: return line.room_of_passing_tips(at) * line.pair().wheel_teeth / 2;
        default: return at;
        }
    };
    const wide step = wide(1) / 1000000000;
    return static_cast<double>((limited(x + step) - limited(x - step)) / (2 * step));
}

/// The same numbers to the bit.
shiftable_pair<wide> in_fifty_digits(const shiftable_pair<double>& p) {
    return {.pinion_teeth = p.pinion_teeth,
            .wheel_teeth = p.wheel_teeth,
            .helix_angle = rad(wide(p.helix_angle.rad())),
            .rack = {.pressure_angle = rad(wide(p.rack.pressure_angle.rad())),
                     .addendum = wide(p.rack.addendum),
                     .dedendum = wide(p.rack.dedendum),
                     .root_fillet_radius = wide(p.rack.root_fillet_radius)},
            .tips = p.tips,
            .wheel_kind = p.wheel_kind};
}

} // namespace

TEST_CASE("the limits of profile shifts are right to the bound that is stated") {
    support::random_source random{31};
    double worst = 0;
    int met[9] = {};
    for (int i = 0; i < 250; ++i) {
        const int z1 = random.integer(8, 60);
        const int z2 = random.integer(8, 160);
        const angle<double> helix = random.coin() ? deg(random.uniform(-35, 35)) : deg(0.);
        const tip_rule tips = random.coin() ? tip_rule::clearance : tip_rule::full_depth;
        const double sum = random.uniform(-0.5, 1.5);
        const basic_rack<double> rack = iso_53_a;
        const shiftable_pair<double> pair{.pinion_teeth = z1, .wheel_teeth = z2, .helix_angle = helix, .rack = rack, .tips = tips};
        if (shift_line<double>::check(pair, sum)) continue;
        const finding_limits<double> limits{};
        const shift_line<double> line(pair, sum, limits);
        const shift_line<wide> exact(in_fifty_digits(pair), wide(sum),
                                     {.tip_thickness = wide(limits.tip_thickness), .contact_ratio = wide(limits.contact_ratio)});
        const double unit = 0x1p-52 * std::max(z1, z2) / 10;
        for (const shift_limit which : shift_line<double>::every_limit) {
            const std::optional<double> x = line.limit(which);
            const std::optional<wide> y = exact.limit(which);
            REQUIRE(x.has_value() == y.has_value());
            const closed_range<wide> all = exact.domain();
            if (!y || *y == all.least || *y == all.greatest) continue; // a limit that is missed all along
            const double off = std::fabs(static_cast<double>(wide(*x) - *y)) / unit * std::min(1.0, std::fabs(slope(exact, which, *y)));
            CAPTURE(static_cast<int>(which));
            CHECK(off <= 128);
            worst = std::max(worst, off);
            ++met[static_cast<int>(which)];
        }
        const std::optional<double> x = line.shift_of_equal_sliding();
        const std::optional<wide> y = exact.shift_of_equal_sliding();
        REQUIRE(x.has_value() == y.has_value());
        if (x) CHECK(std::fabs(static_cast<double>(wide(*x) - *y)) <= 16 * unit);
    }
    CHECK(worst > 0);
    for (const shift_limit which : shift_line<double>::every_limit) CHECK(met[static_cast<int>(which)] > 5);
}

TEST_CASE("so are those of internal pairs") {
    support::random_source random{32};
    double worst = 0;
    int met[11] = {};
    for (int i = 0; i < 70; ++i) {
        const int z1 = random.integer(16, 90);
        const int z2 = z1 + (random.coin() ? random.integer(3, 6) : random.integer(10, 90));
        const angle<double> helix = random.coin() ? deg(random.uniform(-35, 35)) : deg(0.);
        const double sum = random.uniform(-1.2, 0.3);
        const basic_rack<double> rack =
            random.coin() ? iso_53_a : basic_rack<double>{.pressure_angle = deg(30.), .dedendum = 1.02, .root_fillet_radius = 0.1};
        const shiftable_pair<double> pair{
            .pinion_teeth = z1, .wheel_teeth = z2, .helix_angle = helix, .rack = rack, .wheel_kind = gear_kind::internal};
        if (shift_line<double>::check(pair, sum)) continue;
        const finding_limits<double> limits{.tip_thickness = 0.45};
        const shift_line<double> line(pair, sum, limits);
        const shift_line<wide> exact(in_fifty_digits(pair), wide(sum),
                                     {.tip_thickness = wide(limits.tip_thickness), .contact_ratio = wide(limits.contact_ratio)});
        const double unit = 0x1p-52 * z2 / 10;
        for (const shift_limit which : {shift_limit::pinion_tip, shift_limit::wheel_tip, shift_limit::pinion_interference,
                                        shift_limit::contact_ratio_recess, shift_limit::tip_interference}) {
            const std::optional<double> x = line.limit(which);
            const std::optional<wide> y = exact.limit(which);
            CAPTURE(static_cast<int>(which));
            REQUIRE(x.has_value() == y.has_value());
            const closed_range<wide> all = exact.domain();
            if (!y || *y <= all.least || *y >= all.greatest) continue;  // a limit that is missed all along
            if (check(pair.parameters(line.split(*x)).wheel)) continue; // no such ring
            const double off = std::fabs(static_cast<double>(wide(*x) - *y)) / unit * std::min(1.0, std::fabs(slope(exact, which, *y)));
            CHECK(off <= 128);
            worst = std::max(worst, off);
            ++met[static_cast<int>(which)];
        }
        const std::optional<double> x = line.shift_of_equal_sliding();
        const std::optional<wide> y = exact.shift_of_equal_sliding();
        REQUIRE(x.has_value() == y.has_value());
        if (x) CHECK(std::fabs(static_cast<double>(wide(*x) - *y)) <= 16 * unit);
    }
    CHECK(worst > 0);
    for (const shift_limit which : {shift_limit::pinion_tip, shift_limit::wheel_tip, shift_limit::pinion_interference,
                                    shift_limit::contact_ratio_recess, shift_limit::tip_interference}) {
        CAPTURE(static_cast<int>(which));
        CHECK(met[static_cast<int>(which)] > 0);
    }
}
