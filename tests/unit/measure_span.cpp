// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The span measurement from first principles: two parallel planes on opposite flanks.
#include <rackwork/measure/span.hpp>

#include "measure_helicoid.hpp"

#include <cmath>

#include <doctest/doctest.h>

using measure::helicoid;
using measure::least;
using measure::teeth_in_space;
using measure::vector3;
using rackwork::gear;
using rackwork::gear_parameters;

namespace {

/// How far a flank reaches in a direction: the place of a plane square to it that is brought up to the flank from outside. And the roll
/// angle at which it touches.
struct touch {
    double place;
    double roll;
};
touch bring_up(const helicoid& flank, const vector3& direction, double z) {
    const measure::least_value found = least([&](double u) { return -dot(flank.at(u, z), direction); }, 0.0, 3.0);
    return {-found.value, found.argument};
}

/// Anvils of a span over teeth 0 ... k-1 of a gear of a face width, held square to a direction.
struct anvils {
    helicoid first;
    helicoid last;
    /// Middle of the spanned teeth at z = 0, seen from the axis.
    double middle;
    double half_face;

    anvils(const gear_parameters<double>& p, int teeth_spanned, double face_width)
        : first(teeth_in_space(p).right_flank(0)), last(teeth_in_space(p).left_flank(teeth_spanned - 1)),
          middle((teeth_spanned - 1) * measure::circle / p.teeth), half_face(face_width / 2) {}

    static vector3 direction(double azimuth, double tilt) {
        return {-std::sin(azimuth) * std::cos(tilt), std::cos(azimuth) * std::cos(tilt), std::sin(tilt)};
    }
    double reading(double azimuth, double tilt) const {
        return furthest(last, direction(azimuth, tilt)) + furthest(first, -1 * direction(azimuth, tilt));
    }
    double reading(double tilt) const { return reading(middle, tilt); }

    /// Whether the anvils, held as the flanks lean, touch the involute over the whole face.
    bool full_contact(double tilt) const {
        for (const double z : {-half_face, half_face}) {
            if (bring_up(last, direction(middle, tilt), z).roll < 0.05) return false;
            if (bring_up(first, -1 * direction(middle, tilt), z).roll < 0.05) return false;
        }
        return true;
    }

private:
    double furthest(const helicoid& flank, const vector3& to) const {
        // A plane that leans otherwise than the flank touches it at an end of the face.
        return std::fmax(bring_up(flank, to, -half_face).place, bring_up(flank, to, half_face).place);
    }
};

/// How the caliper leans on flanks of a gear: on a right-hand helix the flank that looks counter-clockwise faces downward.
double lean(const gear<double>& g) { return -g.base_helix_angle().rad(); }

constexpr double narrow = 0.1; // modules

} // namespace

TEST_CASE("a span is the distance of two parallel planes on opposite flanks, wherever the caliper has rolled to") {
    support::random_source random{102};
    for (int i = 0; i < 100; ++i) {
        const gear_parameters<double> p = measure::random_gear(random, {.least_teeth = 8});
        const gear<double> g{p};
        const int k = rackwork::recommended_teeth_spanned(g);
        const anvils jaws{p, k, narrow * p.normal_module};
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        for (const double roll : {-0.1, 0.0, 0.07}) {
            // The reading is known to the rounding of its terms, which are a few times as long.
            CHECK(jaws.reading(jaws.middle + roll, lean(g)) ==
                  doctest::Approx(rackwork::span_measurement(g, k)).epsilon(1e-12));
        }
    }
}

TEST_CASE("on the least face width a caliper that is tilted reads more, on a narrower face it tilts over") {
    support::random_source random{101};
    int tried = 0;
    for (int i = 0; i < 100; ++i) {
        const gear_parameters<double> p = measure::random_gear(random, {.least_teeth = 8});
        const gear<double> g{p};
        const int k = rackwork::recommended_teeth_spanned(g);
        const double span = rackwork::span_measurement(g, k);
        const double margin = 0.02 * p.normal_module;
        const double tilt =
            0.2 * margin / span; // so little that the cosine of the tilt takes less than the margin gives
        const double width = rackwork::span_face_width(g, k);
        const anvils wide_enough{p, k, width + margin};
        if (!wide_enough.full_contact(lean(g)))
            continue; // long spans of steep helices roll off the flank before they end
        ++tried;
        CAPTURE(p.teeth);
        CAPTURE(p.helix_angle.deg());
        CHECK(wide_enough.reading(lean(g)) == doctest::Approx(span).epsilon(1e-12));
        CHECK(wide_enough.reading(lean(g) + tilt) > span * (1 + 1e-11));
        CHECK(wide_enough.reading(lean(g) - tilt) > span * (1 + 1e-11));
        if (width <= 2 * margin) continue; // a spur gear needs no width at all
        const anvils too_narrow{p, k, width - margin};
        const double steeper = lean(g) + (lean(g) < 0 ? -tilt : tilt);
        CHECK(too_narrow.reading(steeper) < span * (1 - 1e-11));
    }
    CHECK(tried > 50);
}

TEST_CASE("both anvils of a caliper that is held straight touch at the stated diameter, a span apart") {
    support::random_source random{103};
    int tried = 0;
    for (int i = 0; i < 60; ++i) {
        const gear_parameters<double> p = measure::random_gear(random, {.least_teeth = 8});
        const gear<double> g{p};
        for (int k = 1; k <= p.teeth / 3; k += 2) {
            const anvils jaws{p, k, narrow * p.normal_module};
            const vector3 direction = anvils::direction(jaws.middle, lean(g));
            const double span = rackwork::span_measurement(g, k);
            // The points that face each other lie as much above and below the middle as the caliper leans.
            const double height = span / 2 * direction.z;
            const touch on_last = bring_up(jaws.last, direction, height);
            const touch on_first = bring_up(jaws.first, -1 * direction, -height);
            if (on_last.roll > 2.9) continue; // beyond the flank that the search looks at
            ++tried;
            CAPTURE(p.teeth);
            CAPTURE(p.helix_angle.deg());
            CAPTURE(k);
            // A flat maximum is known to the root of what its value is known to.
            CHECK(std::fabs(on_last.roll - on_first.roll) < 1e-6);
            CHECK(2 * jaws.last.base_radius * std::hypot(1.0, on_last.roll) ==
                  doctest::Approx(rackwork::span_contact_diameter(g, k)).epsilon(1e-6));
            const vector3 apart = jaws.last.at(on_last.roll, height) - jaws.first.at(on_first.roll, -height);
            CHECK(measure::length(apart - span * direction) < 1e-6 * span);
        }
    }
    CHECK(tried > 300);
}

TEST_CASE("the recommended number of teeth touches nearest to the circle d + 2 x m") {
    support::random_source random{104};
    for (int i = 0; i < 400; ++i) {
        const gear<double> g{measure::random_gear(random, {.least_teeth = 8})};
        const int k = rackwork::recommended_teeth_spanned(g);
        CAPTURE(g.teeth());
        CAPTURE(k);
        const double form = rackwork::root_form_diameter(g);
        // It always touches the involute, on gears whose flank is long enough for a base pitch.
        CHECK(rackwork::span_contact_diameter(g, k) >= form);
        CHECK(rackwork::span_contact_diameter(g, k) <= g.tip_diameter());
        const auto off = [&](int teeth_spanned) {
            // Along the base tangent, where one tooth more is always one base pitch more.
            const double wanted =
                std::sqrt(std::pow(g.shifted_reference_diameter(), 2) - std::pow(g.base_diameter(), 2)) /
                cos(g.base_helix_angle());
            return std::fabs(rackwork::span_measurement(g, teeth_spanned) - wanted);
        };
        // Its neighbour is at best as near, unless it would not touch the flank or only one tooth would be spanned.
        for (const int other : {k - 1, k + 1}) {
            if (other < 2 || other >= g.teeth()) continue;
            const double diameter = rackwork::span_contact_diameter(g, other);
            if (diameter < form || diameter > g.tip_diameter()) continue;
            CHECK(off(k) <= off(other) + 1e-10 * g.normal_module());
        }
    }
}

TEST_CASE("a length of contact asked for along the flank line needs more face width by its axial part") {
    support::random_source random{105};
    for (int i = 0; i < 100; ++i) {
        const gear_parameters<double> p = measure::random_gear(random, {.least_teeth = 8});
        const gear<double> g{p};
        const int k = rackwork::recommended_teeth_spanned(g);
        const anvils jaws{p, k, narrow * p.normal_module};
        const vector3 direction = anvils::direction(jaws.middle, lean(g));
        // The line in which the anvil touches, from one end of the narrow face to the other.
        const double low = bring_up(jaws.last, direction, -jaws.half_face).roll;
        const double high = bring_up(jaws.last, direction, jaws.half_face).roll;
        const double along = measure::distance(jaws.last.at(high, jaws.half_face), jaws.last.at(low, -jaws.half_face));
        CHECK(rackwork::span_face_width(g, k, along) - rackwork::span_face_width(g, k) ==
              doctest::Approx(2 * jaws.half_face).epsilon(1e-6));
    }
    const gear<double> spur{{.normal_module = 2, .teeth = 30}};
    CHECK(rackwork::span_face_width(spur, 4) == 0);
    CHECK(rackwork::span_face_width(spur, 4, 3.0) == 3);
}
