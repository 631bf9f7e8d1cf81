// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What a rack-type tool with protuberance and finishing allowance leaves at the root, against the tool moved past the gear step by step.
#include <rackwork/generated_root.hpp>

#include "random_source.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::generated_root;
using rackwork::rack_type_cutter;

namespace {

constexpr double circle = 3.141592653589793238462643383279502884;

/// One tooth of the tool, from its definition: a straight flank that leaves the allowance, a rounding that touches the parallel of that
/// flank at the distance of the protuberance and the tip line, and an edge that touches the rounding. Depth counts from the rolling line
/// towards the gear's axis, width from the middle of the tooth, in the normal section.
struct tool_tooth {
    double cos_helix;
    double tangent;
    double edge_tangent;
    double half_width;  // of the tooth between its flanks, on the rolling line
    double radius;
    double depth_of_tip;
    double depth_of_centre;
    double width_of_centre;
    double depth_of_edge_end;
    double width_of_edge_end;

    tool_tooth(const gear_parameters<double>& p, const rack_type_cutter<double>& tool) {
        const double m = p.normal_module;
        const double alpha = p.rack.pressure_angle.rad();
        const double edge = tool.protuberance_angle.rad();
        cos_helix = std::cos(p.helix_angle.rad());
        tangent = std::tan(alpha);
        edge_tangent = std::tan(edge);
        const double shift = p.profile_shift * m + p.thickness_allowance / (2 * tangent);
        // On the datum line, which lies `shift` outside the rolling line, the flanks of a tool without allowance are half a pitch apart.
        half_width = circle / 4 * m - shift * tangent - tool.finishing_allowance * m / std::cos(alpha);
        radius = tool.tip_radius * m;
        depth_of_tip = tool.addendum * m - shift;
        depth_of_centre = depth_of_tip - radius;
        // The parallel of the flank, square to it, and the centre as far inside that.
        width_of_centre = half_width - depth_of_centre * tangent + (tool.protuberance * m - radius) / std::cos(alpha);
        depth_of_edge_end = depth_of_centre + radius * std::sin(edge);
        width_of_edge_end = width_of_centre + radius * std::cos(edge);
    }
    /// Half widths at a depth, transverse section: of the tip with its edge, however long the edge; and of the body above it. (Where the
    /// edge ends, at the flank, it goes on inside the body.)
    double of_tip(double depth) const {
        if (depth <= depth_of_edge_end) return (width_of_edge_end + (depth_of_edge_end - depth) * edge_tangent) / cos_helix;
        const double below = depth - depth_of_centre;
        return (width_of_centre + std::sqrt(std::max((radius - below) * (radius + below), 0.0))) / cos_helix;
    }
    double of_body(double depth) const { return (half_width - depth * tangent) / cos_helix; }
};

/// Angles count from the middle of a space.
struct blank {
    tool_tooth tool;
    double rolling_radius;
    double base_radius;
    double involute_start; // half the finished space's angle at the base circle

    blank(const gear_parameters<double>& p, const rack_type_cutter<double>& cutter) : tool(p, cutter) {
        rolling_radius = p.teeth * p.normal_module / tool.cos_helix / 2;
        const double pressure = std::atan(tool.tangent / tool.cos_helix);
        base_radius = rolling_radius * std::cos(pressure);
        const double shift = p.profile_shift * p.normal_module + p.thickness_allowance / (2 * tool.tangent);
        const double space = circle / 2 * p.normal_module - 2 * shift * tool.tangent;
        involute_start = space / tool.cos_helix / 2 / rolling_radius - (std::tan(pressure) - pressure);
    }

    double root_radius() const { return rolling_radius - tool.depth_of_tip; }
    /// Half the angle of the finished space at a radius from the base circle on.
    double involute(double radius) const {
        const double roll = std::sqrt(std::max((radius - base_radius) * (radius + base_radius), 0.0)) / base_radius;
        return involute_start + roll - std::atan(roll);
    }
    /// Half the angle that the tip and its edge open on a circle of the gear.
    double opened_by_tip(double radius) const {
        return opened(radius, [&](double depth) { return tool.of_tip(depth); });
    }
    /// Half the angle that the body's flank opens, wherever it would go on above the tip.
    double opened_by_body(double radius) const {
        return opened(radius, [&](double depth) { return tool.of_body(depth); });
    }

private:
    /// Over all positions of the tool, the greatest angle at which its outline crosses the circle: in three stretches, between the places
    /// where the rounding begins, the best of a fine grid and golden section between its neighbours.
    template <class Width>
    double opened(double radius, const Width& width) const {
        const auto met = [&](double a) {
            const double depth = std::min(rolling_radius - radius * std::cos(a), tool.depth_of_tip);
            return a - (radius * std::sin(a) - width(depth)) / rolling_radius;
        };
        const double outer = std::acos(std::min(root_radius() / radius, 1.0));
        const double end = std::acos(std::min((rolling_radius - tool.depth_of_edge_end) / radius, 1.0));
        return std::max({greatest(met, -outer, -end), greatest(met, -end, end), greatest(met, end, outer)});
    }
    template <class F>
    static double greatest(const F& met, double from, double to) {
        const int steps = 400;
        const auto grid = [&](int i) { return from + (to - from) * i / steps; };
        int best = 0;
        double most = met(from);
        for (int i = 1; i <= steps; ++i) {
            const double here = met(grid(i));
            if (here > most) {
                most = here;
                best = i;
            }
        }
        const double golden = 0.618033988749894848;
        double low = grid(std::max(best - 1, 0));
        double high = grid(std::min(best + 1, steps));
        for (int k = 0; k < 60; ++k) {
            const double a = high - golden * (high - low);
            const double b = low + golden * (high - low);
            (met(a) > met(b) ? high : low) = met(a) > met(b) ? b : a;
        }
        return std::max(most, met((low + high) / 2));
    }
};

struct cut_gear {
    std::string name;
    gear_parameters<double> parameters;
    rack_type_cutter<double> tool;
};

rack_type_cutter<double> tool_with(double protuberance, double edge_degrees, double allowance, double tip_radius = 0.3, double addendum = 1.4) {
    return {.addendum = addendum,
            .tip_radius = tip_radius,
            .protuberance = protuberance,
            .protuberance_angle = deg(edge_degrees),
            .finishing_allowance = allowance};
}

std::vector<cut_gear> kinds() {
    return {
        {"24 teeth, edge of 10 degrees", {.normal_module = 2, .teeth = 24}, tool_with(0.08, 10, 0.05)},
        {"60 teeth, edge of 10 degrees", {.normal_module = 2, .teeth = 60}, tool_with(0.08, 10, 0.05)},
        {"200 teeth, edge of 10 degrees", {.normal_module = 2, .teeth = 200}, tool_with(0.08, 10, 0.05)},
        {"200 teeth, edge along the tool's middle", {.normal_module = 2, .teeth = 200}, tool_with(0.1, 0, 0.05)},
        {"200 teeth, edge of 16 degrees", {.normal_module = 2, .teeth = 200}, tool_with(0.08, 16, 0.05)},
        {"80 teeth, edge of 18 degrees", {.normal_module = 1, .teeth = 80}, tool_with(0.05, 18, 0.02, 0.35)},
        {"298 teeth, edge along the tool's middle that begins outside the rolling line",
         {.normal_module = 25, .teeth = 298, .profile_shift = 1.1392770850062612},
         tool_with(0.084, 0, 0.0475, 0.2288336, 1.368041)},
        {"500 teeth, edge of 5 degrees", {.normal_module = 1, .teeth = 500}, tool_with(0.06, 5, 0.03)},
        {"12 teeth, undercut besides", {.normal_module = 3, .teeth = 12}, tool_with(0.06, 10, 0.04)},
        {"10 teeth, much undercut besides", {.normal_module = 3, .teeth = 10}, tool_with(0.06, 8, 0.03, 0.2, 1.3)},
        {"no allowance", {.normal_module = 2, .teeth = 40}, tool_with(0.05, 8, 0)},
        {"sharp corner", {.normal_module = 2, .teeth = 30}, tool_with(0.05, 10, 0.02, 0)},
        {"sharp corner, 150 teeth", {.normal_module = 2, .teeth = 150}, tool_with(0.05, 12, 0.02, 0)},
        {"helical", {.normal_module = 2, .teeth = 35, .helix_angle = deg(25.0), .profile_shift = 0.2}, tool_with(0.08, 10, 0.04)},
        {"helical, many teeth", {.normal_module = 2, .teeth = 120, .helix_angle = deg(-30.0)}, tool_with(0.08, 12, 0.04)},
        {"shifted outward", {.normal_module = 2, .teeth = 18, .profile_shift = 0.6}, tool_with(0.08, 10, 0.05)},
        {"shifted inward", {.normal_module = 2, .teeth = 90, .profile_shift = -0.5}, tool_with(0.08, 14, 0.05)},
        {"thinned teeth", {.normal_module = 2, .teeth = 40, .thickness_allowance = -0.1}, tool_with(0.08, 10, 0.05)},
        {"25 degrees", {.normal_module = 2, .teeth = 70, .rack = {.pressure_angle = deg(25.0), .root_fillet_radius = 0.3}}, tool_with(0.08, 15, 0.05, 0.2, 1.3)},
    };
}

std::string described(const cut_gear& c) {
    std::ostringstream text;
    text.precision(17);
    const auto& p = c.parameters;
    text << "module " << p.normal_module << ", " << p.teeth << " teeth, helix " << p.helix_angle.deg() << ", pressure angle "
         << p.rack.pressure_angle.deg() << ", shift " << p.profile_shift << ", allowance " << p.thickness_allowance << "; tool: addendum "
         << c.tool.addendum << ", tip radius " << c.tool.tip_radius << ", protuberance " << c.tool.protuberance << " at "
         << c.tool.protuberance_angle.deg() << ", allowance " << c.tool.finishing_allowance;
    return text.str();
}

cut_gear random_cut_gear(support::random_source& random) {
    for (;;) {
        cut_gear c;
        gear_parameters<double>& p = c.parameters;
        p.normal_module = random.uniform(0.5, 8);
        p.teeth = random.coin() ? random.integer(8, 40) : random.integer(40, 300);
        p.rack.pressure_angle = deg(random.coin() ? 20 : random.uniform(18, 26));
        p.rack.root_fillet_radius = 0.2; // of no concern: the tool is stated
        if (random.coin()) p.helix_angle = deg(random.uniform(-35, 35));
        p.profile_shift = random.coin() ? random.uniform(-0.4, 0.6) : random.uniform(0.6, 1.3);
        p.thickness_allowance = random.uniform(-0.05, 0) * p.normal_module;
        const double allowance = random.integer(0, 3) == 0 ? 0 : random.uniform(0.005, 0.06);
        c.tool = tool_with(allowance + random.uniform(0.005, 0.06), random.integer(0, 3) == 0 ? 0 : random.uniform(0, 18), allowance,
                           random.integer(0, 3) == 0 ? 0 : random.uniform(0, 0.35), random.uniform(1.2, 1.5));
        if (check(p)) continue;
        const gear<double> g{p};
        if (generated_root<double>::check(g, c.tool)) continue;
        if (g.tip_diameter() - generated_root<double>{g, c.tool}.root_form_diameter() < 0.2 * p.normal_module) continue;
        c.name = described(c);
        return c;
    }
}

struct counts {
    int edges = 0;
    int corners_below_edges = 0;
    int fillets_only = 0;
};

/// Everything about one gear. Lengths in fractions of the module or the reference diameter.
void check_root(const cut_gear& c, counts& counted) {
    CAPTURE(c.name);
    const gear<double> g{c.parameters};
    const generated_root<double> root{g, c.tool};
    const blank swept{c.parameters, c.tool};
    const double d = g.reference_diameter();
    const double m = g.normal_module();
    const double form = root.root_form_diameter() / 2;
    CHECK(std::fabs(root.root_diameter() / 2 - swept.root_radius()) < 1e-13 * d);
    CHECK(std::fabs(root.root_land_half_angle() - swept.tool.width_of_centre / swept.tool.cos_helix / swept.rolling_radius) < 1e-14);

    // The fillet is what the tip leaves.
    for (int i = 1; i <= 24; ++i) {
        const auto at = root.fillet().at(root.end_parameter() * i / 24);
        const rackwork::point<double> q = at.position();
        const double radius = rackwork::length(q);
        if (radius < swept.root_radius() * (1 + 1e-9)) continue;
        const double outward = std::fabs(dot(at.tangent(), q)) / radius;
        CAPTURE(i);
        CHECK(std::fabs(swept.opened_by_tip(radius) - std::atan2(q.y, q.x)) * radius * outward < 1e-11 * m);
    }
    const double fillet_end = rackwork::length(root.fillet().position(root.end_parameter()));
    const auto& edge = root.edge();
    if (edge.exists) {
        // So is the edge's involute, which goes on from the fillet to the flank.
        const double half_space = circle / g.teeth() - edge.base_half_angle;
        const auto radius_at = [&](double roll) { return edge.base_radius * std::hypot(1, roll); };
        CHECK(std::fabs(radius_at(edge.from) - fillet_end) < 1e-12 * d);
        CHECK(std::fabs(radius_at(edge.to) - form) < 1e-12 * d);
        CHECK(edge.from <= edge.to);
        for (int i = 0; i <= 12; ++i) {
            const double roll = edge.from + (edge.to - edge.from) * i / 12;
            CAPTURE(i);
            // Square to the curve, which leaves the radius by its pressure angle.
            const double apart = std::fabs(swept.opened_by_tip(radius_at(roll)) - half_space - roll + std::atan(roll)) * radius_at(roll);
            CHECK(apart / std::hypot(1, roll) < 1e-11 * m);
        }
        ++counted.edges;
        if (edge.undercut) ++counted.corners_below_edges;
    } else {
        CHECK(std::fabs(fillet_end - form) < 1e-12 * d);
        ++counted.fillets_only;
    }

    // The form diameter: there what the tip leaves crosses the finished flank, and outside it nothing of that flank is taken away.
    CHECK(std::fabs(swept.opened_by_tip(form) - swept.involute(form)) * form < 1e-11 * m);
    const double tip = g.effective_tip_diameter() / 2;
    for (int i = 1; i <= 20; ++i) {
        const double above = form + (tip - form) * i / 20;
        CAPTURE(i);
        CHECK(swept.opened_by_tip(above) < swept.involute(above));
    }
    const double below = form - std::min(0.01 * m, (form - std::max(swept.root_radius(), swept.base_radius)) / 2);
    if (below > swept.base_radius) CHECK(swept.opened_by_tip(below) > swept.involute(below));
    // What finishing takes off is the allowance, square to the flank, over the whole of the flank.
    // Along the rolling line the tool's flank stands back by it over cos alpha_n cos beta, and square to the transverse flank by cos alpha_t
    // of that.
    const double transverse = std::atan(swept.tool.tangent / swept.tool.cos_helix);
    const double expected = c.tool.finishing_allowance * m / std::cos(g.normal_pressure_angle().rad()) / swept.tool.cos_helix * std::cos(transverse);
    const double middle = (form + tip) / 2;
    const double stock = (swept.involute(middle) - swept.opened_by_body(middle)) * swept.base_radius;
    CHECK(std::fabs(stock - expected) < 1e-11 * m);
}

} // namespace

TEST_CASE("fillet, edge and form diameter of every kind of gear are those that the tool with protuberance leaves") {
    counts counted;
    for (const cut_gear& kind : kinds()) check_root(kind, counted);
    CHECK(counted.edges > 3);
    CHECK(counted.fillets_only > 3);
    MESSAGE(counted.edges << " with an edge, " << counted.corners_below_edges << " of them with a corner below it, " << counted.fillets_only
                          << " with a fillet alone");
}

TEST_CASE("the same for random gears and tools") {
    support::random_source random{311};
    counts counted;
    for (int i = 0; i < 250; ++i) check_root(random_cut_gear(random), counted);
    CHECK(counted.edges > 30);
    CHECK(counted.fillets_only > 30);
    MESSAGE(counted.edges << " with an edge, " << counted.corners_below_edges << " of them with a corner below it, " << counted.fillets_only
                          << " with a fillet alone");
}
