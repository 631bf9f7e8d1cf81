// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The picture of an internal pair's permissible shifts shows the curves of its limits and no others.
#include <doctest/doctest.h>

#include <rackwork/exchange/plot_design.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

using namespace rackwork;

namespace {

/// The greatest distance, along lines of one sum, of a drawn line's points from a limit's own curve; none if it is not drawn.
std::optional<double> off_the_limit(const plot& p, const shift_region<double>& region, const std::string& name, shift_limit which) {
    const auto line = std::find_if(p.lines.begin(), p.lines.end(), [&](const plot_line& l) { return l.name == name; });
    if (line == p.lines.end()) return std::nullopt;
    double worst = 0;
    for (const point<double>& q : line->points) {
        if (!std::isfinite(q.x)) continue; // a gap
        const std::optional<for_both<double>> at = region.boundary(which, q.x + q.y);
        REQUIRE(at.has_value());
        worst = std::max(worst, std::fabs(at->pinion - q.x));
    }
    return worst;
}

} // namespace

TEST_CASE("each drawn curve of an internal pair is that of its limit, and limits that are never met have no name") {
    const shiftable_pair<double> close{.pinion_teeth = 40, .wheel_teeth = 46, .wheel_kind = gear_kind::internal};
    const shift_region<double> region(close, {}, {-1.5, 0.6});
    const plot p = shift_region_plot(region);
    CHECK(p.title == "Permissible profile shifts, 40 and 46 internal teeth");
    const auto off = [&](const char* name, shift_limit which) { return off_the_limit(p, region, name, which); };
    // A step along the sum is rounded to its last places, which the flattest curve enlarges.
    CHECK(off("contact ratio 1.2", shift_limit::contact_ratio_recess).value() < 1e-9);
    CHECK(off("tips touch outside the path of contact", shift_limit::tip_interference).value() < 1e-9);
    CHECK(off("mate's tip at the form diameter", shift_limit::pinion_interference).value() < 1e-9);
    CHECK(off("tips of the ring reached by its cutter", shift_limit::wheel_undercut).value() < 1e-9);

    // What its cutter makes of the ring is drawn where nothing else bounds the region before it.
    for (const plot_line& l : p.lines) {
        if (l.name != "tips of the ring reached by its cutter") continue;
        for (const point<double>& q : l.points) {
            if (std::isfinite(q.x)) CHECK(region.line(q.x + q.y).permissible().least_by == shift_limit::wheel_undercut);
        }
    }

    const shiftable_pair<double> apart{.pinion_teeth = 19, .wheel_teeth = 64, .wheel_kind = gear_kind::internal};
    const plot far = shift_region_plot(shift_region<double>(apart, {}, {-2.5, 0.8}));
    CHECK(std::none_of(far.lines.begin(), far.lines.end(),
                       [](const plot_line& l) { return l.name == "tips touch outside the path of contact"; }));
    CHECK(std::any_of(far.lines.begin(), far.lines.end(), [](const plot_line& l) { return l.name == "equal specific sliding"; }));
}
