// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The outline against the tool that makes it: a rack is rolled round the gear in small steps, and what it leaves is compared.
#include "form_gears.hpp"

#include <rackwork/form/outline.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

namespace {

using form_gears::described;
using form_gears::epsilon;
using form_gears::is_arc;
using form_gears::parameter_at;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::point;
using rackwork::segment;

constexpr double pi = std::numbers::pi;

/// The cutting rack, written down from the basic rack's definition alone: a tooth with straight flanks and a flat tip whose corners are
/// rounded by a circle in the normal section. It stands at its depth in the gear and rolls on the reference circle without slipping.
class cutting_rack {
public:
    explicit cutting_rack(const gear<double>& g)
        : rolling_radius_(g.teeth() * g.normal_module() / std::cos(g.helix_angle().rad()) / 2),
          cos_helix_(std::cos(g.helix_angle().rad())), normal_pitch_(pi * g.normal_module()),
          sine_(std::sin(g.normal_pressure_angle().rad())), cosine_(std::cos(g.normal_pressure_angle().rad())),
          rounding_(g.normal_module() * g.parameters().rack.root_fillet_radius),
          datum_depth_(-g.normal_module() * g.generating_profile_shift()),
          tip_depth_(g.normal_module() * (g.parameters().rack.dedendum - g.generating_profile_shift())) {
        // The centre of the rounding has the distance `rounding_` from the tip line and from the flank, which goes through the point
        // a quarter of the pitch beside the centre line on the datum line.
        centre_depth_ = tip_depth_ - rounding_;
        centre_offset_ = normal_pitch_ / 4 - (rounding_ + (centre_depth_ - datum_depth_) * sine_) / cosine_;
    }

    /// How far a point of the gear lies outside the tool when the gear has turned by `turn`; negative inside. Measured in the normal
    /// section: along the pitch line the transverse distance is larger by 1 / cos beta.
    double clearance(const point<double>& in_gear, double turn) const {
        const point<double> standing = turned(in_gear, -turn);
        const double depth = rolling_radius_ - standing.x;
        const double along = (standing.y + rolling_radius_ * turn) * cos_helix_;
        // All the rack's teeth are alike; only the nearest counts. Tool tooth 0 stands in the space beside the x axis at turn 0.
        const double beside = std::fabs(std::remainder(along, normal_pitch_));
        const double below_centre = depth - centre_depth_;
        const double beside_centre = beside - centre_offset_;
        const double from_tip_line = below_centre - rounding_;
        const double from_flank = beside_centre * cosine_ + below_centre * sine_ - rounding_;
        if (beside_centre <= 0 && below_centre >= 0) return from_tip_line; // straight below the tip land
        const double up_the_flank = beside_centre * sine_ - below_centre * cosine_;
        if (up_the_flank >= 0) return std::max(from_flank, from_tip_line);
        if (below_centre < 0 && from_flank < -rounding_) return std::max(from_flank, from_tip_line); // in the body
        return std::hypot(below_centre, beside_centre) - rounding_;
    }

    /// Turns at which a point at this radius and polar angle can be within the tool's reach at all.
    double reach(double radius) const {
        const double cosine = (rolling_radius_ - tip_depth_) / radius;
        return cosine >= 1 ? 0.02 : std::acos(std::max(cosine, -1.)) + 0.02;
    }

private:
    double rolling_radius_;
    double cos_helix_;
    double normal_pitch_;
    double sine_;
    double cosine_;
    double rounding_;
    double datum_depth_;
    double tip_depth_;
    double centre_depth_ = 0;
    double centre_offset_ = 0;
};

struct closest_approach {
    double on_the_grid;
    double refined;
};

/// The tool's least clearance from a point while it rolls past in so many steps, and the true least value near the best of them.
closest_approach roll_past(const cutting_rack& tool, const point<double>& p, double middle, int steps) {
    const double reach = tool.reach(length(p));
    const double step = 2 * reach / steps;
    const auto at = [&](double i) { return tool.clearance(p, middle - reach + i * step); };
    double least = at(0);
    int best = 0;
    for (int i = 1; i <= steps; ++i) {
        const double here = at(i);
        if (here < least) {
            least = here;
            best = i;
        }
    }
    // Golden section: the clearance has one minimum between the neighbours of the best step.
    double low = best - 1.;
    double high = best + 1.;
    constexpr double golden = 0.6180339887498949;
    for (int i = 0; i < 60; ++i) {
        const double a = high - golden * (high - low);
        const double b = low + golden * (high - low);
        (at(a) < at(b) ? high : low) = at(a) < at(b) ? b : a;
    }
    return {least, std::min(least, at((low + high) / 2))};
}

/// In the outline tooth 0 is on the x axis; the rack's tooth 0 is in a space, so the gear is turned back by half a pitch.
point<double> seen_from_space(const point<double>& p, const gear<double>& g) {
    return turned(p, rackwork::direction(pi / g.teeth()));
}

double rounding_of(const gear<double>& g) {
    return 4 * epsilon * g.effective_tip_diameter() * (1 + g.base_half_angle()) /
           std::sin(g.normal_pressure_angle().rad());
}

/// Polar angle on the branch nearest to the space's centre line.
double polar_angle(const point<double>& p) { return std::atan2(p.y, p.x); }

void hold_against_tool(const gear<double>& g, int points_per_segment, int steps, double& worst_cut,
                       double& worst_left) {
    INFO(described(g));
    const cutting_rack tool(g);
    const double allowed = rounding_of(g);
    // The right half of tooth 0: fillet and flank; then, from the left half, nothing new but the land and the tip.
    for (const segment<double>& s : form_gears::one_tooth(g)) {
        const bool tip = is_arc(s) && length(s.start) > (g.effective_tip_diameter() + g.generated_root_diameter()) / 4;
        for (int i = 0; i <= points_per_segment; ++i) {
            const point<double> p = seen_from_space(s.position(parameter_at(s, i / double(points_per_segment))), g);
            const closest_approach found = roll_past(tool, p, polar_angle(p), steps);
            CHECK(found.refined >= -allowed); // the tool cuts nothing of the metal away
            worst_cut = std::max(worst_cut, -found.refined / allowed);
            if (tip) continue;               // made by the blank, not by the tool
            CHECK(found.refined <= allowed); // and leaves nothing on it
            worst_left = std::max(worst_left, found.refined / allowed);
        }
    }
}

} // namespace

TEST_CASE("the rolling rack touches every point of land, fillet and flank and cuts into none: gears of all kinds") {
    double worst_cut = 0;
    double worst_left = 0;
    for (const form_gears::named_gear& each : form_gears::gears()) {
        INFO(each.name);
        hold_against_tool(gear<double>(each.parameters), 24, 1500, worst_cut, worst_left);
    }
    MESSAGE("deepest cut " << worst_cut << ", most left standing " << worst_left << " of the bound");
}

TEST_CASE("the rolling rack touches every point of land, fillet and flank and cuts into none: random gears") {
    double worst_cut = 0;
    double worst_left = 0;
    for (const gear<double>& g : form_gears::random_gears(150, 31))
        hold_against_tool(g, 10, 1500, worst_cut, worst_left);
    MESSAGE("deepest cut " << worst_cut << ", most left standing " << worst_left << " of the bound");
}

TEST_CASE("what a rack in finite steps leaves standing falls as the square of the step, and as the step where its "
          "corner is sharp") {
    for (const form_gears::named_gear& each : form_gears::gears()) {
        const gear<double> g(each.parameters);
        INFO(each.name);
        const cutting_rack tool(g);
        const std::vector<segment<double>> tooth = form_gears::one_tooth(g);
        const auto left_standing = [&](int steps) {
            double worst = 0;
            for (const segment<double>& s : {tooth[0], tooth[1]}) {
                // Off the corner of an undercut, which two different parts of the tool reach.
                for (int i = 1; i < 50; ++i) {
                    const point<double> p = seen_from_space(s.position(parameter_at(s, i / 50.)), g);
                    // Wherever the grid of positions happens to begin.
                    const double step = 2 * tool.reach(length(p)) / steps;
                    for (const double begin : {0., 0.25, 0.5, 0.75}) {
                        worst = std::max(worst, roll_past(tool, p, polar_angle(p) + begin * step, steps).on_the_grid);
                    }
                }
            }
            return worst;
        };
        // A sharp corner leaves ridges between its positions whose height goes with the step, anything round with its square.
        const double order = g.parameters().rack.root_fillet_radius > 0 ? 2 : 1;
        const double coarse = left_standing(1000);
        const double fine = left_standing(4000);
        CHECK(coarse > 0);
        CHECK(std::log(coarse / fine) / std::log(4.) > order - 0.25);
    }
}

TEST_CASE(
    "the tool does cut into an outline that is a thousandth of the module too thick, or leaves one that is too thin") {
    // So that the checks above are known to be able to fail.
    const gear<double> g({.normal_module = 2, .teeth = 21, .helix_angle = rackwork::deg(15.), .profile_shift = 0.1});
    const cutting_rack tool(g);
    for (const double shift : {-0.001, 0.001}) {
        gear_parameters<double> other = g.parameters();
        other.profile_shift += shift;
        const segment<double> flank = form_gears::one_tooth(gear<double>(other))[1];
        const point<double> p = seen_from_space(flank.position(parameter_at(flank, 0.5)), g);
        const double clearance = roll_past(tool, p, polar_angle(p), 2000).refined;
        const double expected = -shift * g.normal_module() * std::sin(g.normal_pressure_angle().rad());
        CHECK(std::fabs(clearance - expected) <= 0.02 * std::fabs(expected));
    }
}
