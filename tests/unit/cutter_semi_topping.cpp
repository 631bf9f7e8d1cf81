// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The tip chamfer that a semi-topping tool cuts, against the tool moved past the gear step by step.
#include <rackwork/form/tooth.hpp>
#include <rackwork/generated_root.hpp>

#include "random_source.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::rack_type_cutter;

namespace {

constexpr double circle = 3.141592653589793238462643383279502884;

/// The tool's flank and the steeper flank beyond it that cuts the chamfer, in the transverse section. Height counts from the rolling line,
/// away from the gear's axis.
struct blank {
    double rolling_radius;
    double module;
    double cos_helix;
    double tangent;
    double chamfer_tangent;
    double half_width; // of the tool's tooth on the rolling line, normal section
    double height_of_chamfer;

    blank(const gear_parameters<double>& p, const rack_type_cutter<double>& tool) {
        const double m = p.normal_module;
        module = m;
        cos_helix = std::cos(p.helix_angle.rad());
        tangent = std::tan(p.rack.pressure_angle.rad());
        chamfer_tangent = std::tan(tool.chamfer_angle.rad());
        rolling_radius = p.teeth * m / cos_helix / 2;
        const double shift = p.profile_shift * m + p.thickness_allowance / (2 * tangent);
        half_width = circle / 4 * m - shift * tangent - tool.finishing_allowance * m / std::cos(p.rack.pressure_angle.rad());
        height_of_chamfer = tool.chamfer_height * m + shift;
    }
    double flank(double height) const { return (half_width + height * tangent) / cos_helix; }
    double chamfer(double height) const { return flank(height_of_chamfer) + (height - height_of_chamfer) * chamfer_tangent / cos_helix; }

    /// The greatest half angle, from the middle of the space, that the chamfering flank, however long, opens on a circle of the gear, and
    /// the one that the tool opens with its two flanks as they are.
    double opened_by_chamfer(double radius) const {
        return opened(radius, [&](double height) { return chamfer(height); });
    }
    double opened_by_tool(double radius) const {
        return opened(radius, [&](double height) { return height < height_of_chamfer ? flank(height) : chamfer(height); });
    }

private:
    template <class Width>
    double opened(double radius, const Width& width) const {
        const auto met = [&](double a) { return a - (radius * std::sin(a) - width(radius * std::cos(a) - rolling_radius)) / rolling_radius; };
        // The best of a fine grid and golden section between its neighbours. Down to half a module below the rolling line: what the tool's
        // tip does further down has been looked at elsewhere.
        const int steps = 2000;
        const double widest = std::acos((rolling_radius - module / 2) / radius);
        const auto grid = [&](int i) { return widest * (2.0 * i / steps - 1); };
        int best = 0;
        for (int i = 1; i <= steps; ++i) {
            if (met(grid(i)) > met(grid(best))) best = i;
        }
        const double golden = 0.618033988749894848;
        double low = grid(best - 1);
        double high = grid(best + 1);
        for (int k = 0; k < 80; ++k) {
            const double a = high - golden * (high - low);
            const double b = low + golden * (high - low);
            if (met(a) > met(b)) {
                high = b;
            } else {
                low = a;
            }
        }
        return met((low + high) / 2);
    }
};

/// The chamfered gear's outline against the tool: chamfer, and where it begins.
void check_chamfer(const gear_parameters<double>& sharp, const rack_type_cutter<double>& tool) {
    const gear_parameters<double> p = chamfered_by(tool, sharp);
    REQUIRE(p.tip_chamfer > 0);
    const gear<double> g(p);
    const blank swept(p, tool);
    const double m = p.normal_module;
    const double form = g.tip_form_diameter() / 2;
    const auto space_of_flank = [&](double r) { return circle / g.teeth() - g.tooth_thickness(2 * r) / (2 * r); };
    // There the tool's chamfering flank crosses the finished flank: inside it cuts nothing of it, outside it does.
    CHECK(std::fabs(swept.opened_by_chamfer(form) - space_of_flank(form)) * form < 1e-11 * m);
    CHECK(swept.opened_by_chamfer(form - 0.01 * m) < space_of_flank(form - 0.01 * m));
    CHECK(swept.opened_by_chamfer(form + 0.005 * m) > space_of_flank(form + 0.005 * m));
    // From there on the outline is what the chamfering flank leaves.
    const rackwork::tooth_form<double> made(g, rackwork::cutter<double>(tool));
    std::vector<rackwork::segment<double>> tooth;
    made.append_right_side(tooth, 0);
    const rackwork::segment<double>& chamfer = tooth.back();
    REQUIRE(std::holds_alternative<rackwork::involute<double>>(chamfer.curve));
    for (int i = 0; i <= 8; ++i) {
        const rackwork::point<double> q = chamfer.position(chamfer.from + (chamfer.to - chamfer.from) * i / 8);
        const double radius = length(q);
        const double in_space = circle / g.teeth() + std::atan2(q.y, q.x); // the right side lies below the tooth's middle
        CAPTURE(i);
        CHECK(std::fabs(swept.opened_by_chamfer(radius) - in_space) * radius < 1e-11 * m);
    }
    CHECK(length(chamfer.end) == doctest::Approx(g.tip_diameter() / 2).epsilon(1e-14));
    // The tool as it is opens the circles on either side of it by one flank and by the other; with stock on the flanks it does so further out.
    for (const double further : {-0.1, -0.01, 0.0, 0.01, 0.05}) {
        const double radius = form + further * m;
        CAPTURE(further);
        const double stock = tool.finishing_allowance * m / std::cos(g.normal_pressure_angle().rad()) / swept.cos_helix;
        const double by_flank = space_of_flank(radius) - stock / swept.rolling_radius;
        const double expected = std::max(by_flank, swept.opened_by_chamfer(radius));
        CHECK(std::fabs(swept.opened_by_tool(radius) - expected) * radius < 1e-11 * m);
        if (stock == 0 && further < 0) CHECK(by_flank == doctest::Approx(expected).epsilon(1e-12));
        if (further > 0) CHECK(swept.opened_by_chamfer(radius) == expected);
    }
}

rack_type_cutter<double> semi_topping(double height, double degrees, double allowance = 0) {
    rack_type_cutter<double> tool;
    tool.tip_radius = 0.2;
    tool.chamfer_height = height;
    tool.chamfer_angle = deg(degrees);
    tool.finishing_allowance = allowance;
    tool.protuberance = allowance > 0 ? allowance + 0.02 : 0;
    tool.protuberance_angle = deg(allowance > 0 ? 10.0 : 0.0);
    return tool;
}

gear_parameters<double> spur(int teeth, double shift = 0) {
    gear_parameters<double> p;
    p.normal_module = 2;
    p.teeth = teeth;
    p.profile_shift = shift;
    return p;
}

} // namespace

TEST_CASE("a semi-topping tool's chamfer is what its steeper flank leaves, and it begins where that flank does") {
    check_chamfer(spur(30), semi_topping(0.7, 45));
    check_chamfer(spur(20, 0.3), semi_topping(0.65, 50));
    check_chamfer(spur(80, -0.2), semi_topping(0.8, 40));
    gear_parameters<double> helical = spur(25, 0.1);
    helical.helix_angle = deg(25.0);
    helical.thickness_allowance = -0.05;
    check_chamfer(helical, semi_topping(0.7, 45));
}

TEST_CASE("with stock for finishing, the chamfer is that of the tool and begins on the finished flank") {
    check_chamfer(spur(30), semi_topping(0.65, 45, 0.04));
    check_chamfer(spur(60, 0.2), semi_topping(0.75, 40, 0.03));
}

TEST_CASE("the same for random tools and gears") {
    support::random_source random{351};
    int seen = 0;
    for (int i = 0; i < 80; ++i) {
        gear_parameters<double> p = spur(random.integer(15, 120), random.uniform(-0.3, 0.5));
        if (random.coin()) p.helix_angle = deg(random.uniform(-35, 35));
        p.thickness_allowance = random.uniform(-0.06, 0);
        const rack_type_cutter<double> tool = semi_topping(random.uniform(0.55, 0.85), random.uniform(35, 60), random.coin() ? 0 : random.uniform(0.01, 0.05));
        if (check(p) || rackwork::generated_root<double>::check(gear<double>(p), semi_topping(0, 45))) continue;
        try {
            if (!(chamfered_by(tool, p).tip_chamfer > 0.05) || check(chamfered_by(tool, p))) continue;
            if (rackwork::generated_root<double>::check(gear<double>(chamfered_by(tool, p)), tool)) continue;
        } catch (const rackwork::geometry_error&) {
            continue;
        }
        CAPTURE(i);
        ++seen;
        check_chamfer(p, tool);
    }
    CHECK(seen > 40);
}

TEST_CASE("a semi-topping tool is refused for a gear that does not have its chamfer") {
    const rack_type_cutter<double> tool = semi_topping(0.7, 45);
    const gear_parameters<double> sharp = spur(30);
    CHECK(static_cast<bool>(rackwork::generated_root<double>::check(gear<double>(sharp), tool)));
    CHECK_FALSE(static_cast<bool>(rackwork::generated_root<double>::check(gear<double>(chamfered_by(tool, sharp)), tool)));
    // A tool whose chamfer begins beyond the tip leaves the edge sharp.
    CHECK(chamfered_by(semi_topping(1.2, 45), sharp).tip_chamfer == 0);
}
