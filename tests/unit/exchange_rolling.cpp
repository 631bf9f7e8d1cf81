// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The drawn pair, read back from its file, is rolled through one pitch: the teeth must run as the pair says that they do.
#include "exchange_drawings.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>
#include <vector>

namespace {

using namespace exchange_drawings;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;

constexpr int phases = 50;

struct line {
    point<double> from;
    point<double> to;
};

double distance_to(const point<double>& p, const line& l) {
    const point<double> way = l.to - l.from;
    const double share = std::clamp(dot(p - l.from, way) / dot(way, way), 0., 1.);
    return distance(p, l.from + share * way);
}

bool cross_each_other(const line& a, const line& b) {
    const point<double> along_a = a.to - a.from;
    const point<double> along_b = b.to - b.from;
    return cross(along_a, b.from - a.from) * cross(along_a, b.to - a.from) < 0 &&
           cross(along_b, a.from - b.from) * cross(along_b, a.to - b.from) < 0;
}

/// The lines of an outline near the pitch point; `flank` tells the two sides of a tooth from each other and from the rest.
struct drawn_line {
    line where;
    int flank; // 1 left, -1 right, 0 fillet or land
};

/// One gear of the drawing, about its own axis, as it stands in the file.
struct drawn_gear {
    point<double> axis;
    std::vector<drawn_line> lines;

    drawn_gear(const closed_curve& curve, const point<double>& centre, const gear<double>& g, double root_form_diameter,
               double angle_of_a_tooth)
        : axis(centre) {
        const double pitch = 2 * std::numbers::pi / g.teeth();
        // Tip lands are convex: chords would cut them off, so points closer than that are taken; the rest are lines already.
        const std::vector<point<double>> points = points_along(curve);
        for (std::size_t i = 0; i < points.size(); ++i) {
            const line l{points[i] - axis, points[(i + 1) % points.size()] - axis};
            const double least = std::min(length(l.from), length(l.to));
            const double most = std::max(length(l.from), length(l.to));
            int flank = 0;
            if (least > root_form_diameter / 2 * (1 - 1e-12) && most - least > 0.2 * distance(l.from, l.to)) {
                const point<double> middle = 0.5 * (l.from + l.to);
                const double from_tooth = std::remainder(std::atan2(middle.y, middle.x) - angle_of_a_tooth, pitch);
                flank = from_tooth > 0 ? 1 : -1;
            }
            lines.push_back({l, flank});
        }
    }

    /// The lines within `reach` of a place, after turning the gear by an angle.
    std::vector<drawn_line> turned_lines(double angle, const point<double>& place, double reach) const {
        const point<double> way = rackwork::direction(angle);
        std::vector<drawn_line> result;
        for (const drawn_line& l : lines) {
            const line moved{axis + turned(l.where.from, way), axis + turned(l.where.to, way)};
            if (distance(moved.from, place) < reach) result.push_back({moved, l.flank});
        }
        return result;
    }
};

bool overlap(const std::vector<drawn_line>& a, const std::vector<drawn_line>& b) {
    return std::any_of(a.begin(), a.end(), [&](const drawn_line& one) {
        return std::any_of(b.begin(), b.end(), [&](const drawn_line& other) { return cross_each_other(one.where, other.where); });
    });
}

/// Least distance between flanks of one side. (Left flanks of the pinion meet left flanks of the wheel.)
double gap(const std::vector<drawn_line>& a, const std::vector<drawn_line>& b, int flank) {
    double least = std::numeric_limits<double>::infinity();
    for (const drawn_line& one : a) {
        if (one.flank != flank) continue;
        for (const drawn_line& other : b) {
            if (other.flank != flank) continue;
            least = std::min({least, distance_to(one.where.from, other.where), distance_to(one.where.to, other.where),
                              distance_to(other.where.from, one.where), distance_to(other.where.to, one.where)});
        }
    }
    return least;
}

/// The drawing of a pair, rolling.
class rolling_pair {
public:
    explicit rolling_pair(const mesh<double>& pair, double tolerance)
        : pair_(pair), file_(dxf(pair, rackwork::dxf_options{.tolerance = tolerance})),
          pinion_(dxf_outline(file_, "PINION"), {0, 0}, pair.pinion(), pair.root_form_diameter().pinion, 0),
          wheel_(dxf_outline(file_, "WHEEL"), {pair.centre_distance(), 0}, pair.wheel(), pair.root_form_diameter().wheel,
                 // A space of the wheel faces the pinion's tooth on the line of centres.
                 std::numbers::pi + std::numbers::pi / pair.wheel().teeth()) {}

    /// Both gears at a phase, in fractions of a pitch; the wheel turned on by `further` from where the drawing's phase would have it.
    struct position {
        std::vector<drawn_line> pinion;
        std::vector<drawn_line> wheel;
    };
    position at(double phase, double further) const {
        const point<double> pitch_point{pair_.working_diameter().pinion / 2, 0};
        const double reach = 1.8 * pair_.pinion().transverse_pitch();
        const double pinion_pitch = 2 * std::numbers::pi / pair_.pinion().teeth();
        const double wheel_pitch = 2 * std::numbers::pi / pair_.wheel().teeth();
        return {pinion_.turned_lines(phase * pinion_pitch, pitch_point, reach),
                wheel_.turned_lines(further - phase * wheel_pitch, pitch_point, reach)};
    }

private:
    mesh<double> pair_;
    std::string file_;
    drawn_gear pinion_;
    drawn_gear wheel_;
};

struct named_pair {
    const char* name;
    mesh<double> pair;
};

std::vector<named_pair> pairs_with_backlash() {
    const auto make = [](const gear_parameters<double>& pinion, int wheel_teeth, double wheel_shift, double extra_distance) {
        gear_parameters<double> wheel = pinion;
        wheel.teeth = wheel_teeth;
        wheel.profile_shift = wheel_shift;
        wheel.helix_angle = -pinion.helix_angle;
        const gear<double> one(pinion);
        const gear<double> other(wheel);
        return mesh<double>(one, other, mesh<double>(one, other).centre_distance() + extra_distance);
    };
    return {
        {"spur, shifted, thinned",
         make({.normal_module = 3, .teeth = 15, .profile_shift = 0.3, .thickness_allowance = -0.05}, 46, 0.1, 0)},
        {"spur, even and even, apart", make({.normal_module = 2, .teeth = 20}, 40, 0, 0.1)},
        {"helical", make({.normal_module = 2.5, .teeth = 23, .helix_angle = deg(20), .thickness_allowance = -0.04}, 41, -0.2, 0.02)},
        {"undercut pinion", make({.normal_module = 2, .teeth = 10, .thickness_allowance = -0.03}, 33, 0, 0)},
        {"inches", make({.normal_module = 0.05, .teeth = 24, .rack = rackwork::ansi_b6_1_coarse_20, .thickness_allowance = -0.001}, 61, 0,
              0)},
    };
}

} // namespace

TEST_CASE("the pinion's tooth on the line of centres points at a space of the wheel") {
    for (const int wheel_teeth : {1 + 30, 32, 45, 46}) {
        CAPTURE(wheel_teeth);
        const mesh<double> pair(gear{gear_parameters<double>{.normal_module = 2, .teeth = 19}},
                                gear{gear_parameters<double>{.normal_module = 2, .teeth = wheel_teeth}});
        const auto place = placement_in_mesh(pair);
        CHECK(place.pinion({30, 0}) == point<double>{30, 0});
        // The middle of some space of the wheel, half a pitch from a tooth.
        double nearest = 1e9;
        for (int i = 0; i < wheel_teeth; ++i) {
            const double radius = pair.working_diameter().wheel / 2;
            const point<double> middle = radius * rackwork::direction((2 * i + 1) * std::numbers::pi / wheel_teeth);
            nearest = std::min(nearest, distance(place.wheel(middle), {pair.working_diameter().pinion / 2, 0}));
        }
        CHECK(nearest < 1e-13);
    }
}

TEST_CASE("the pinion's turn turns the wheel the other way by the ratio of the tooth numbers") {
    const mesh<double> pair(gear{gear_parameters<double>{.normal_module = 2, .teeth = 20}},
                            gear{gear_parameters<double>{.normal_module = 2, .teeth = 50}});
    const auto before = placement_in_mesh(pair);
    const auto after = placement_in_mesh(pair, deg(10.));
    CHECK((after.pinion.turn - before.pinion.turn).deg() == doctest::Approx(10).epsilon(1e-14));
    CHECK((after.wheel.turn - before.wheel.turn).deg() == doctest::Approx(-4).epsilon(1e-13));
    CHECK(after.wheel.centre == before.wheel.centre);
}

TEST_CASE("the drawn teeth do not overlap at any phase, with half of the normal backlash on either side") {
    for (const named_pair& each : pairs_with_backlash()) {
        CAPTURE(each.name);
        const mesh<double>& pair = each.pair;
        const double tolerance = pair.pinion().normal_module() / 1000;
        // The drawing is the transverse section, and the shortest distance there is longer than the one square to the teeth.
        const double transverse_backlash = pair.normal_backlash() / cos(pair.pinion().base_helix_angle());
        REQUIRE(transverse_backlash > 4 * tolerance);
        const rolling_pair rolling(pair, tolerance);
        for (int i = 0; i < phases; ++i) {
            CAPTURE(i);
            const auto [pinion, wheel] = rolling.at(static_cast<double>(i) / phases, 0);
            REQUIRE_FALSE(overlap(pinion, wheel));
            for (const int flank : {1, -1}) {
                // Chords of a flank lie inside the metal, so that the drawn gap is never too narrow.
                const double drawn = gap(pinion, wheel, flank);
                CHECK(drawn > transverse_backlash / 2 - 1e-12 * pair.centre_distance());
                CHECK(drawn < transverse_backlash / 2 + 2 * tolerance);
            }
        }
    }
}

TEST_CASE("with the backlash taken up one side touches and the other has all of it") {
    for (const named_pair& each : pairs_with_backlash()) {
        CAPTURE(each.name);
        const mesh<double>& pair = each.pair;
        const double tolerance = pair.pinion().normal_module() / 1000;
        const double transverse_backlash = pair.normal_backlash() / cos(pair.pinion().base_helix_angle());
        const double half_play = pair.angular_backlash().wheel.rad() / 2;
        const double rounding = 1e-12 * pair.centre_distance();
        // As much further as two chords' deviation lets the flanks come, and a little.
        const double too_far = 3 * tolerance / (pair.wheel().base_diameter() / 2);
        const rolling_pair rolling(pair, tolerance);
        for (int i = 0; i < phases; ++i) {
            CAPTURE(i);
            const double phase = static_cast<double>(i) / phases;
            for (const int flank : {1, -1}) {
                // The wheel turned back against the pinion that drives it: with left flanks counter-clockwise.
                const auto [pinion, wheel] = rolling.at(phase, flank * half_play * (1 - 1e-9));
                REQUIRE_FALSE(overlap(pinion, wheel));
                CHECK(gap(pinion, wheel, flank) < 2 * tolerance);
                const double other_side = gap(pinion, wheel, -flank);
                CHECK(other_side > transverse_backlash * (1 - 1e-8) - rounding);
                CHECK(other_side < transverse_backlash + 2 * tolerance);
                const auto [pressed_pinion, pressed_wheel] = rolling.at(phase, flank * (half_play + too_far));
                CHECK(overlap(pressed_pinion, pressed_wheel));
            }
        }
    }
}

TEST_CASE("a pair without backlash touches on both sides at every phase") {
    const mesh<double> pair(gear{gear_parameters<double>{.normal_module = 3, .teeth = 17, .profile_shift = 0.4}},
                            gear{gear_parameters<double>{.normal_module = 3, .teeth = 28, .profile_shift = 0.2}});
    const double tolerance = 0.001;
    const rolling_pair rolling(pair, tolerance);
    for (int i = 0; i < phases; ++i) {
        CAPTURE(i);
        const auto [pinion, wheel] = rolling.at(static_cast<double>(i) / phases, 0);
        for (const int flank : {1, -1}) CHECK(gap(pinion, wheel, flank) < 2 * tolerance);
        const auto [thick_pinion, thick_wheel] = rolling.at(static_cast<double>(i) / phases, 3 * tolerance / 40);
        CHECK(overlap(thick_pinion, thick_wheel));
    }
}

TEST_CASE("the drawn pair rolled by hand is the pair as it is placed at that turn") {
    const mesh<double> pair = pairs_with_backlash().front().pair;
    const auto before = placement_in_mesh(pair);
    const auto after = placement_in_mesh(pair, deg(7.));
    for (const point<double>& p : {point<double>{70, 3}, point<double>{-10, 44}}) {
        const point<double> by_hand = before.wheel.centre + turned(before.wheel(p) - before.wheel.centre, deg(-7. * 15 / 46).rad());
        CHECK(distance(after.wheel(p), by_hand) < 1e-12);
        CHECK(distance(after.pinion(p), turned(p, deg(7.).rad())) < 1e-12);
    }
}
