// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Interference, found by moving whole outlines against each other, is where the findings say and as deep.
#include "random_source.hpp"

#include <rackwork/findings.hpp>
#include <rackwork/form/outline.hpp>
#include <rackwork/interference_findings.hpp>
#include <rackwork/mesh.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

namespace {

using rackwork::basic_rack;
using rackwork::deg;
using rackwork::finding_code;
using rackwork::gear;
using rackwork::gear_kind;
using rackwork::mesh;
using rackwork::point;

constexpr double pi = std::numbers::pi;

/// One side of a gear's space as a table of half angles over the radius, and points all over one tooth.
struct profile {
    int teeth;
    bool internal;
    double tip;
    double root;
    std::vector<point<double>> tooth;                 // polar angle from the middle of the tooth
    std::vector<std::pair<double, double>> half_space; // radius, half angle; by radius

    explicit profile(const gear<double>& g)
        : teeth(g.teeth()), internal(g.is_internal()), tip(g.effective_tip_diameter() / 2) {
        const rackwork::tooth_form<double> form(g);
        root = form.root_radius();
        rackwork::outline<double> side;
        form.append_right_side(side.segments, 0);
        for (const auto& s : side.segments) {
            for (int i = 0; i <= 400; ++i) {
                const point<double> p = s.position(s.from + (s.to - s.from) * i / 400);
                tooth.push_back(p);
                tooth.push_back(mirrored(p));
                half_space.emplace_back(length(p), pi / teeth + std::atan2(p.y, p.x));
            }
        }
        for (int i = 0; i <= 50; ++i) {
            const double at = g.tip_land_half_angle() * (2 * i / 50.0 - 1);
            tooth.push_back({tip * std::cos(at), tip * std::sin(at)});
        }
        std::sort(half_space.begin(), half_space.end());
    }

    /// How deep a point lies in the metal, square to the outline; 0 outside it.
    double depth(const point<double>& p) const {
        const double r = length(p);
        if (internal ? r < tip : r > tip) return 0;
        if (internal ? r > root : r < root) return std::fabs(r - root);
        const double pitch = 2 * pi / teeth;
        // From the middle of the nearest space; the middle of tooth 0 is at 0.
        double from_space = std::atan2(p.y, p.x) / pitch - 0.5;
        from_space = (from_space - std::round(from_space)) * pitch;
        const auto above = std::lower_bound(half_space.begin(), half_space.end(), std::pair{r, -10.0});
        if (above == half_space.begin() || above == half_space.end()) return 0;
        const auto below = above - 1;
        const double dr = above->first - below->first;
        if (!(dr > 0)) return 0;
        const double share = (r - below->first) / dr;
        const double half = below->second + (above->second - below->second) * share;
        const double slope = r * (above->second - below->second) / dr;
        return std::max(0.0, std::min(std::fabs(r - tip), (std::fabs(from_space) - half) * r / std::sqrt(1 + slope * slope)));
    }
};

/// The deepest overlap of two outlines while the pair turns through one pitch, contact on one flank.
double deepest_overlap(const mesh<double>& pair, int steps) {
    const profile pinion(pair.pinion());
    const profile wheel(pair.wheel());
    const double a = pair.centre_distance();
    const double ratio = double(pinion.teeth) / wheel.teeth * (pair.is_internal() ? 1 : -1);
    const double closing = pair.circumferential_backlash() / pair.working_diameter().wheel;
    double deepest = 0;
    for (int step = 0; step < steps; ++step) {
        const double turn = 2 * pi / pinion.teeth * (double(step) / steps);
        // In the beginning pinion tooth 0 points at the middle of a wheel's space; the wheel's axis is at (a, 0), or at (-a, 0).
        const double wheel_at = pair.is_internal() ? -a : a;
        const double space = pair.is_internal() ? pi / wheel.teeth : pi + pi / wheel.teeth;
        const double wheel_turn = space + turn * ratio + closing;
        for (int i = 0; i < pinion.teeth; ++i) {
            const double at = turn + 2 * pi / pinion.teeth * i;
            for (const point<double>& p : pinion.tooth) {
                const point<double> fixed = turned(p, at);
                const point<double> seen = turned(point<double>{fixed.x - wheel_at, fixed.y}, -wheel_turn);
                deepest = std::max(deepest, wheel.depth(seen));
            }
        }
        for (int i = 0; i < wheel.teeth; ++i) {
            const double at = wheel_turn + 2 * pi / wheel.teeth * i;
            for (const point<double>& p : wheel.tooth) {
                const point<double> fixed = turned(p, at);
                const point<double> seen = turned(point<double>{fixed.x + wheel_at, fixed.y}, -turn);
                if (length(seen) > pinion.tip * 1.001) continue;
                deepest = std::max(deepest, pinion.depth(seen));
            }
        }
    }
    return deepest;
}

mesh<double> internal_pair(int pinion_teeth, int ring_teeth, double pinion_addendum, double ring_addendum, double pinion_shift = 0,
                           double ring_shift = 0) {
    return mesh<double>(gear<double>{{.normal_module = 1,
                                      .teeth = pinion_teeth,
                                      .rack = {.addendum = pinion_addendum},
                                      .profile_shift = pinion_shift}},
                        gear<double>{{.normal_module = 1,
                                      .teeth = ring_teeth,
                                      .kind = gear_kind::internal,
                                      .rack = {.addendum = ring_addendum},
                                      .profile_shift = ring_shift}});
}

bool has(const rackwork::finding_list<double>& list, finding_code code) { return list.has(code); }

double worst_passage(const mesh<double>& pair) {
    const auto fillets = passage_at_fillets(pair);
    const auto flanks = passage_at_flanks(pair);
    double worst = 0;
    for (const auto& p : {fillets.pinion, fillets.wheel, flanks.pinion, flanks.wheel}) {
        if (p.reaches) worst = std::min(worst, p.clearance);
    }
    return worst;
}

} // namespace

TEST_CASE("the tips of an internal pair with too close tooth numbers run into each other, and nowhere else") {
    int interfering = 0;
    int clear = 0;
    for (const int difference : {3, 4, 5, 6, 8, 11, 15}) {
        for (const double addendum : {0.6, 0.8, 1.0}) {
            const mesh<double> pair = internal_pair(22, 22 + difference, addendum, 0.5);
            CAPTURE(difference);
            CAPTURE(addendum);
            const double overlap = deepest_overlap(pair, 60);
            const bool found = has(interference_findings(pair), finding_code::tip_interference);
            (found ? interfering : clear)++;
            if (found) {
                // Edge on edge the overlap comes and goes quickly: the steps see only the deeper ones.
                if (worst_passage(pair) < -1e-3) CHECK(overlap > 1e-3);
            } else {
                CHECK(overlap < 2e-5); // the tables' interpolation
            }
        }
    }
    CHECK(interfering >= 3);
    CHECK(clear >= 8);
}

TEST_CASE("a tip with a small clearance cuts a large fillet although contact stays above the form diameter") {
    const basic_rack<double> rack{.dedendum = 1.02, .root_fillet_radius = 0.118};
    const mesh<double> pair(gear<double>{{.normal_module = 1, .teeth = 20, .rack = rack, .profile_shift = 0.3}},
                            gear<double>{{.normal_module = 1, .teeth = 80, .rack = rack}});
    CHECK(pair.bottom_clearance().wheel > 0.01);
    const auto list = interference_findings(pair);
    CHECK(list.has(finding_code::tip_cuts_fillet, rackwork::finding_subject::pinion));
    CHECK_FALSE(findings(pair).has(finding_code::mate_below_form_diameter, rackwork::finding_subject::pinion));
    const double overlap = deepest_overlap(pair, 400);
    CHECK(overlap == doctest::Approx(-worst_passage(pair)).epsilon(0.1));
}

TEST_CASE("a mate's tip below the form diameter of an undercut pinion loses contact and cuts nothing") {
    const mesh<double> pair(gear<double>{{.normal_module = 1, .teeth = 12}}, gear<double>{{.normal_module = 1, .teeth = 60}});
    CHECK(findings(pair).has(finding_code::mate_below_form_diameter, rackwork::finding_subject::pinion));
    CHECK(interference_findings(pair).empty());
    CHECK(deepest_overlap(pair, 200) < 2e-5);
}

TEST_CASE("over random external pairs the overlap is where the finding says, and as deep") {
    support::random_source random(5);
    int cut = 0;
    int clear = 0;
    for (int i = 0; i < 60; ++i) {
        const double dedendum = random.uniform(1.02, 1.3);
        const double fillet = random.uniform(0.0, 1.0) * rackwork::full_root_fillet_radius(deg(20.), dedendum);
        const basic_rack<double> rack{.dedendum = dedendum, .root_fillet_radius = fillet};
        const double shift = random.uniform(-0.3, 0.5);
        const mesh<double> pair(
            gear<double>{{.normal_module = 1, .teeth = random.integer(14, 40), .rack = rack, .profile_shift = shift}},
            gear<double>{{.normal_module = 1,
                          .teeth = random.integer(20, 70),
                          .rack = rack,
                          .profile_shift = random.uniform(-0.3, 0.3),
                          .thickness_allowance = random.uniform(-0.06, 0.0)}});
        const double expected = -worst_passage(pair);
        const double overlap = deepest_overlap(pair, 60);
        CAPTURE(i);
        if (expected > 3e-4) {
            ++cut;
            CHECK(has(interference_findings(pair), finding_code::tip_cuts_fillet));
            CHECK(overlap > 0.5 * expected); // the steps may miss the deepest moment
            CHECK(overlap < 1.3 * expected + 2e-5);
        } else if (expected < 1e-12) {
            ++clear;
            CHECK_FALSE(has(interference_findings(pair), finding_code::tip_cuts_fillet));
            CHECK(overlap < 2e-5);
        }
    }
    CHECK(cut > 5);
    CHECK(clear > 20);
}

TEST_CASE("a chamfer or a rounding of the mate's tip takes the edge out of the fillet") {
    const basic_rack<double> rack{.dedendum = 1.1, .root_fillet_radius = 0.4};
    const gear<double> pinion{{.normal_module = 1, .teeth = 20, .rack = rack}};
    for (const double size : {0.0, 0.03, 0.08}) {
        const mesh<double> chamfered(pinion, gear<double>{{.normal_module = 1, .teeth = 40, .rack = rack, .tip_chamfer = size}});
        const mesh<double> rounded(pinion, gear<double>{{.normal_module = 1, .teeth = 40, .rack = rack, .tip_rounding = 2 * size}});
        CAPTURE(size);
        for (const mesh<double>& pair : {chamfered, rounded}) {
            const double expected = -worst_passage(pair);
            const double overlap = deepest_overlap(pair, 400);
            CHECK(overlap == doctest::Approx(std::max(expected, 0.0)).epsilon(0.15).scale(1e-3));
        }
    }
    CHECK(worst_passage(mesh<double>(pinion, gear<double>{{.normal_module = 1, .teeth = 40, .rack = rack, .tip_chamfer = 0.08}})) > -1e-12);
}

TEST_CASE("where the findings leave room, the pinion slides into its ring radially; where not, it is stopped") {
    int possible = 0;
    int impossible = 0;
    for (const int difference : {6, 8, 9, 10, 11, 12, 14, 18}) {
        for (const double addendum : {0.75, 1.0}) {
            const mesh<double> pair = internal_pair(24, 24 + difference, addendum, 0.55);
            if (has(interference_findings(pair), finding_code::tip_interference)) continue;
            const double room = radial_assembly_clearance(pair);
            const profile pinion(pair.pinion());
            const profile ring(pair.wheel());
            double least = 1; // of the deepest overlaps on the two ways in
            for (const double ahead : {0.0, 0.5}) {
                double deepest = 0;
                for (int step = 0; step <= 120; ++step) {
                    const double at = pair.centre_distance() * step / 120;
                    for (int i = 0; i < pinion.teeth; ++i) {
                        for (const point<double>& p : pinion.tooth) {
                            const point<double> fixed = turned(p, (i + ahead) * 2 * pi / pinion.teeth);
                            deepest = std::max(deepest, ring.depth(turned(point<double>{fixed.x + at, fixed.y}, -(ahead + 0.5) * 2 * pi / ring.teeth)));
                        }
                    }
                }
                least = std::min(least, deepest);
            }
            CAPTURE(difference);
            CAPTURE(addendum);
            CAPTURE(room);
            if (room > 0.005) {
                ++possible;
                CHECK(least < 2e-4);
            } else if (room < -0.005) {
                ++impossible;
                CHECK(least > 1e-3);
            }
        }
    }
    CHECK(possible > 3);
    CHECK(impossible > 3);
}

TEST_CASE("a pinion-type cutter with too few teeth does not reach the tip, one with too many trims it") {
    const gear<double> ring{{.normal_module = 1, .teeth = 40, .kind = gear_kind::internal, .rack = {.addendum = 0.7}}};
    const auto found = [&](int teeth) {
        const rackwork::pinion_type_cutter<double> tool{.teeth = teeth, .addendum = 1.25, .tip_radius = 0.1};
        return trimming_findings(ring, rackwork::generated_root<double>(ring, tool)).has(finding_code::cutter_trims_tip);
    };
    CHECK(found(10));
    CHECK_FALSE(found(18));
    CHECK_FALSE(found(22));
    CHECK(found(35));
    CHECK_FALSE(has(trimming_findings(ring, rackwork::generated_root<double>(ring)), finding_code::cutter_trims_tip));
    // An external gear: the cutter's base circle must reach the tip's path.
    const gear<double> wheel{{.normal_module = 1, .teeth = 90}};
    const rackwork::pinion_type_cutter<double> small{.teeth = 9, .addendum = 1.25};
    const rackwork::pinion_type_cutter<double> usual{.teeth = 25, .addendum = 1.25};
    CHECK(trimming_by(small, wheel).cutter_roll < 0);
    CHECK(trimming_by(usual, wheel).cutter_roll > 0);
    CHECK(trimming_findings(wheel, rackwork::generated_root<double>(wheel, small)).has(finding_code::cutter_trims_tip));
    CHECK(trimming_findings(wheel, rackwork::generated_root<double>(wheel)).empty());
}
