// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Room for putting a pinion into its ring, against points all along the teeth; passing tips, against the closed condition of the trade.
#include <rackwork/analysis/radial_assembly.hpp>
#include <rackwork/analysis/tip_passage.hpp>
#include <rackwork/design/ring_limits.hpp>
#include <rackwork/form/outline.hpp>
#include <rackwork/form/tooth.hpp>

#include "random_source.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <vector>

namespace {

using rackwork::gear;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::mesh;
using rackwork::point;

/// The upper side of a pinion's tooth that points along the x axis, above the root form diameter, in so many points a segment.
std::vector<point<double>> upper_side(const mesh<double>& pair, int points) {
    const rackwork::tooth_form<double> form(pair.pinion(), pair.pinion_root());
    rackwork::outline<double> right;
    form.append_right_side(right.segments, 0);
    const double form_radius = pair.pinion_root().root_form_diameter() / 2;
    std::vector<point<double>> result;
    for (const auto& s : right.segments) {
        for (int i = 0; i <= points; ++i) {
            const point<double> p = mirrored(s.position(s.from + (s.to - s.from) * i / points));
            if (length(p) >= form_radius * (1 - 1e-12)) result.push_back(p);
        }
    }
    return result;
}

/// Room on one way in, as points of the pinion see it.
double room_of_points(const mesh<double>& pair, const std::vector<point<double>>& side, bool tooth_ahead) {
    constexpr double pi = std::numbers::pi;
    const double start = tooth_ahead ? 0 : 0.5;
    const double ring_tip = pair.wheel().effective_tip_diameter() / 2;
    const double ring_space = pi / pair.wheel().teeth() - std::max(pair.wheel().tip_land_half_angle(), 0.);
    double least = ring_tip;
    for (int i = 0; i < pair.pinion().teeth(); ++i) {
        const double in_ring = (i + start) * 2 * pi / pair.wheel().teeth() + ring_space;
        const double middle = (i + start) * 2 * pi / pair.pinion().teeth();
        if (in_ring >= pi / 2 || middle >= pi / 2) break;
        const point<double> edge = ring_tip * rackwork::direction(in_ring);
        for (const point<double>& p : side) {
            const point<double> q = point<double>{pair.centre_distance(), 0} + turned(p, middle);
            if (q.x >= edge.x) least = std::min(least, edge.y - q.y);
        }
    }
    return least;
}

struct random_pair {
    gear_parameters<double> pinion;
    gear_parameters<double> ring;
};

random_pair next_pair(support::random_source& random, bool sharp) {
    random_pair p{{.normal_module = 1, .teeth = random.integer(8, 60), .profile_shift = random.uniform(-0.2, 0.8)}, {}};
    p.ring = {.normal_module = 1,
              .teeth = p.pinion.teeth + random.integer(3, 60),
              .kind = gear_kind::internal,
              .rack = {.addendum = random.uniform(0.5, 1)},
              .profile_shift = random.uniform(-0.6, 0.3)};
    if (sharp) return p;
    if (random.coin())
        p.pinion.tip_chamfer = random.uniform(0, 0.15);
    else
        p.pinion.tip_rounding = random.uniform(0, 0.2);
    return p;
}

bool possible(const random_pair& p) {
    if (check(p.pinion) || check(p.ring)) return false;
    return !mesh<double>::check(gear<double>(p.pinion), gear<double>(p.ring));
}

template <class T>
mesh<T> made(const random_pair& p) {
    const auto same = [](const gear_parameters<double>& g) {
        return gear_parameters<T>{.normal_module = T(g.normal_module),
                                  .teeth = g.teeth,
                                  .kind = g.kind,
                                  .rack = {.addendum = T(g.rack.addendum)},
                                  .profile_shift = T(g.profile_shift),
                                  .tip_chamfer = T(g.tip_chamfer),
                                  .tip_rounding = T(g.tip_rounding)};
    };
    return mesh<T>(gear<T>(same(p.pinion)), gear<T>(same(p.ring)));
}

} // namespace

TEST_CASE("no point of the pinion leaves less room than is stated, and one leaves hardly more, with sharp, chamfered and rounded tips") {
    support::random_source random(8);
    int looked_at = 0;
    for (int i = 0; i < 90; ++i) {
        const random_pair p = next_pair(random, i % 3 == 0);
        if (!possible(p)) continue;
        const mesh<double> pair = made<double>(p);
        const std::vector<point<double>> side = upper_side(pair, 1000);
        for (const bool tooth_ahead : {true, false}) {
            const double stated = rackwork::detail::room_for_radial_assembly(pair, tooth_ahead);
            const double seen = room_of_points(pair, side, tooth_ahead);
            CAPTURE(i);
            CHECK(seen >= stated - 1e-11); // points of the form and closed forms are computed by different ways
            CHECK(seen <= stated + 5e-3);  // a thousand steps along a flank of about two modules, where the edge cuts it off
            ++looked_at;
        }
    }
    CHECK(looked_at > 80);
}

TEST_CASE("the room for radial assembly keeps its places") {
    support::random_source random(9);
    double worst = 0;
    for (int i = 0; i < 300; ++i) {
        const random_pair p = next_pair(random, i % 3 == 0);
        if (!possible(p)) continue;
        const double room = radial_assembly_clearance(made<double>(p));
        const long double exact = radial_assembly_clearance(made<long double>(p));
        const double ulp = std::numeric_limits<double>::epsilon() * made<double>(p).wheel().tip_diameter();
        worst = std::max(worst, static_cast<double>(std::fabs(static_cast<long double>(room) - exact)) / ulp);
    }
    CHECK(worst > 0);
    CHECK(worst < 64);
}

TEST_CASE("the search along the passage of the tips finds them in each other's way exactly where the closed condition says") {
    support::random_source random(10);
    int in_the_way = 0;
    int clear = 0;
    for (int i = 0; i < 1500; ++i) {
        random_pair p = next_pair(random, true);
        if (random.coin()) p.ring.teeth = p.pinion.teeth + random.integer(3, 8);
        if (!possible(p)) continue;
        const mesh<double> pair = made<double>(p);
        // Where the ring's tip reaches below the beginning of the pinion's involute, that comes first.
        if (pair.reach_of_mating_tip().pinion < pair.pinion().base_diameter() / 2 * pair.pinion_root().root_form_roll()) continue;
        const auto tip_of = [](const gear<double>& g) {
            return rackwork::detail::tip_circle<double>{double(g.teeth()), g.tip_diameter() / 2, g.tip_form_roll()};
        };
        const double room = rackwork::detail::room_of_passing_tips(tip_of(pair.pinion()), tip_of(pair.wheel()), pair.centre_distance(),
                                                                   rackwork::inv_from_tangent(pair.tangent_of_working_pressure_angle()));
        if (std::fabs(room) < 1e-8) continue;
        const auto passages = passage_at_flanks(pair);
        double clearance = 0;
        for (const auto& passage : {passages.pinion, passages.wheel}) {
            if (passage.reaches) clearance = std::min(clearance, passage.clearance);
        }
        CAPTURE(i);
        CHECK((clearance < -1e-11) == (room < 0));
        ++(room < 0 ? in_the_way : clear);
    }
    CHECK(in_the_way > 50);
    CHECK(clear > 200);
}

TEST_CASE("a look at very many places of the teeth finds no less clearance than the search, with sharp, chamfered and rounded tips") {
    support::random_source random(11);
    int looked_at = 0;
    for (int i = 0; i < 160; ++i) {
        const bool internal = random.coin();
        const double dedendum = random.uniform(1.02, 1.4);
        gear_parameters<double> a{
            .normal_module = 1,
            .teeth = random.integer(10, 60),
            .rack = {.addendum = random.uniform(0.7, 1.1),
                     .dedendum = dedendum,
                     .root_fillet_radius = random.uniform(0, 1) * rackwork::full_root_fillet_radius(rackwork::deg(20.), dedendum)},
            .profile_shift = random.uniform(-0.5, 0.8)};
        gear_parameters<double> b = a;
        b.teeth = internal ? a.teeth + random.integer(3, 60) : random.integer(10, 90);
        b.kind = internal ? gear_kind::internal : gear_kind::external;
        b.profile_shift = random.uniform(-0.6, 0.5);
        if (random.coin())
            a.tip_chamfer = random.uniform(0, 0.15);
        else if (random.coin())
            a.tip_rounding = random.uniform(0, 0.2);
        if (random.coin()) b.tip_rounding = random.uniform(0, 0.2);
        if (!possible({a, b})) continue;
        const mesh<double> pair{gear<double>(a), gear<double>(b)};
        for (const bool at_wheel : {false, true}) {
            const rackwork::detail::passing_tip<double> tip(pair, at_wheel);
            rackwork::tip_passage<double> at_fillet;
            rackwork::tip_passage<double> at_flank;
            constexpr int places = 3000;
            const double form = tip.passed_root().root_form_roll();
            for (int k = 0; k <= places; ++k) {
                tip.look_at_fillet(at_fillet, tip.passed_root().end_parameter() * k / places);
                tip.look_at_flank(at_flank, form + (tip.passed_gear().tip_form_roll() - form) * k / places);
            }
            const auto fillets = passage_at_fillets(pair);
            const auto flanks = passage_at_flanks(pair);
            const auto& found_at_fillet = at_wheel ? fillets.wheel : fillets.pinion;
            const auto& found_at_flank = at_wheel ? flanks.wheel : flanks.pinion;
            CAPTURE(i);
            CHECK((found_at_fillet.reaches || !at_fillet.reaches));
            CHECK((found_at_flank.reaches || !at_flank.reaches));
            if (at_fillet.reaches) CHECK(found_at_fillet.clearance <= at_fillet.clearance + 1e-11);
            if (at_flank.reaches) CHECK(found_at_flank.clearance <= at_flank.clearance + 1e-11);
            ++looked_at;
        }
    }
    CHECK(looked_at > 100);
}
