// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Each exact curve's derivative, curvature and swept area against its own positions; how the segments of a tooth join.
#include "form_gears.hpp"
#include "ulp.hpp"

#include <rackwork/form/segment.hpp>
#include <rackwork/form/tooth.hpp>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace {

using form_gears::described;
using form_gears::epsilon;
using form_gears::parameter_at;
using rackwork::gear;
using rackwork::point;
using rackwork::segment;
using support::wide;

template <class T>
point<T> on_curve(const segment<T>& s, const T& t) {
    return std::visit([&](const auto& curve) { return point<T>(curve.position(t)); }, s.curve);
}
template <class T>
point<T> velocity_on_curve(const segment<T>& s, const T& t) {
    return std::visit([&](const auto& curve) { return point<T>(curve.velocity(t)); }, s.curve);
}

double distance(const point<double>& a, const point<double>& b) { return length(a - b); }
double distance(const point<double>& a, const point<wide>& b) {
    return static_cast<double>(length(point<wide>{wide(a.x), wide(a.y)} - b));
}

/// Inside a segment: off the ends, where a fillet's speed or an involute's may be zero.
constexpr double inner_shares[] = {0.03, 0.31, 0.5, 0.77, 0.98};

/// Rounding grows with the angles that are turned by (many turns on a gear of one tooth with a large shift), and like 1 / sin alpha_n at
/// the end of a fillet, where the cotangent of the pressure angle is formed.
double rounding(const gear<double>& g) {
    return epsilon * (1 + g.base_half_angle()) / std::sin(g.normal_pressure_angle().rad());
}

} // namespace

TEST_CASE("at 50 digits the derivative of the position along each curve is its velocity") {
    double worst = 0;
    for (const gear<double>& g : form_gears::named_and_random_gears(12, 11)) {
        const gear<wide> exact = form_gears::at_precision<wide>(g);
        INFO(described(g));
        for (const segment<wide>& s : form_gears::one_tooth(exact)) {
            const wide step = (s.to - s.from) * wide(1e-15); // central differences: error of the order of step^2
            if (s.from == s.to) continue;
            for (const double share : inner_shares) {
                const wide t = parameter_at(s, wide(share));
                const point<wide> difference = on_curve(s, wide(t + step)) - on_curve(s, wide(t - step));
                const point<wide> numeric = wide(1 / (2 * step)) * difference;
                const point<wide> stated = velocity_on_curve(s, t);
                worst = std::max(worst, static_cast<double>(length(numeric - stated) / length(stated)));
            }
        }
    }
    CHECK(worst < 1e-22);
    CHECK(worst > 0); // the sweep was not empty
}

TEST_CASE("at 50 digits the stated curvature is the turning of the tangent along the arc") {
    double worst = 0;
    for (const gear<double>& g : form_gears::named_and_random_gears(12, 12)) {
        const gear<wide> exact = form_gears::at_precision<wide>(g);
        INFO(described(g));
        const wide size = exact.effective_tip_diameter();
        for (const segment<wide>& s : form_gears::one_tooth(exact)) {
            if (s.from == s.to) continue;
            const wide step =
                (s.to - s.from) * wide(1e-9); // error of the order of step^2; smaller steps drown in rounding
            for (const double share : inner_shares) {
                const wide t = parameter_at(s, wide(share));
                // Running direction: the step has the sign of to - from.
                const point<wide> before = on_curve(s, wide(t - step));
                const point<wide> here = on_curve(s, t);
                const point<wide> after = on_curve(s, wide(t + step));
                const point<wide> first = wide(0.5) * (after - before);
                const point<wide> second = (after - here) - (here - before);
                const wide numeric = cross(first, second) / (dot(first, first) * length(first));
                const wide stated = s.curvature(t);
                const wide scale = abs(stated) + 1 / size;
                worst = std::max(worst, static_cast<double>(abs(wide(numeric - stated)) / scale));
            }
        }
    }
    CHECK(worst < 1e-14);
    CHECK(worst > 0);
}

TEST_CASE("the tangent is a unit vector along the velocity, in the running direction") {
    for (const gear<double>& g : form_gears::named_and_random_gears(60, 13)) {
        INFO(described(g));
        for (const segment<double>& s : form_gears::one_tooth(g)) {
            if (s.from == s.to) continue;
            for (const double share : inner_shares) {
                const double t = parameter_at(s, share);
                const point<double> tangent = s.tangent(t);
                CHECK(std::fabs(length(tangent) - 1) <= 4 * epsilon);
                // The chord over a thousandth of the segment goes the same way.
                const point<double> ahead =
                    s.position(parameter_at(s, share + 0.001)) - s.position(parameter_at(s, share - 0.001));
                CHECK(dot(ahead, tangent) > 0.99 * length(ahead));
            }
        }
    }
}

TEST_CASE("positions of double agree with 50 digits to a few roundings of the tip diameter") {
    double worst = 0;
    for (const gear<double>& g : form_gears::named_and_random_gears(60, 14)) {
        INFO(described(g));
        const std::vector<segment<double>> tooth = form_gears::one_tooth(g);
        const std::vector<segment<wide>> exact = form_gears::one_tooth(form_gears::at_precision<wide>(g));
        REQUIRE(tooth.size() == exact.size());
        const double allowed = 2 * rounding(g) * g.effective_tip_diameter();
        for (std::size_t i = 0; i < tooth.size(); ++i) {
            for (const double share : inner_shares) {
                // The same parameter for both, so that only the curve is judged.
                const double t = parameter_at(tooth[i], share);
                const double off = distance(tooth[i].position(t), on_curve(exact[i], wide(t)));
                CHECK(off <= allowed);
                worst = std::max(worst, off / allowed);
            }
        }
    }
    MESSAGE("worst: " << worst << " of the bound");
}

TEST_CASE("the area that each segment sweeps is the integral of half r^2 over the polar angle") {
    using boost::math::quadrature::gauss_kronrod;
    double worst = 0;
    for (const gear<double>& g : form_gears::named_and_random_gears(40, 15)) {
        INFO(described(g));
        const double size = g.effective_tip_diameter() * g.effective_tip_diameter();
        for (const segment<double>& s : form_gears::one_tooth(g)) {
            const auto rate = [&](double t) { return cross(on_curve(s, t), velocity_on_curve(s, t)) / 2; };
            const double numeric = gauss_kronrod<double, 61>::integrate(rate, s.from, s.to, 12, 1e-14);
            const double off = std::fabs(s.swept_area() - numeric) / size;
            CHECK(off <= 1e-12);
            worst = std::max(worst, off);
        }
    }
    MESSAGE("worst: " << worst << " of the tip diameter's square");
}

TEST_CASE("the ends that a segment states are its curve's points at `from` and `to`") {
    double worst = 0;
    for (const gear<double>& g : form_gears::named_and_random_gears(200, 16)) {
        INFO(described(g));
        const rackwork::outline<double> exact = rackwork::outline_of(g);
        // At an undercut's corner the error is divided by the sine of the angle at which the curves cross.
        double sine = 1;
        for (const segment<double>& s : exact.segments) {
            if (s.corner_at_end && form_gears::is_fillet(s)) {
                const segment<double>& flank = *(&s + 1);
                sine = std::fabs(cross(s.tangent(s.to), flank.tangent(flank.from)));
                break;
            }
        }
        const double allowed = 32 * epsilon * g.effective_tip_diameter() * std::max(1., g.base_half_angle()) / sine;
        for (const segment<double>& s : exact.segments) {
            const double off = std::max(distance(s.start, on_curve(s, s.from)), distance(s.end, on_curve(s, s.to)));
            CHECK(off <= allowed);
            worst = std::max(worst, off / allowed);
            CHECK(s.position(s.from) == s.start);
            CHECK(s.position(s.to) == s.end);
        }
    }
    MESSAGE("worst: " << worst << " of the bound");
}

TEST_CASE("neighbours share their end point to the bit, and the last segment ends where the first begins") {
    for (const gear<double>& g : form_gears::named_and_random_gears(100, 17)) {
        INFO(described(g));
        const std::vector<segment<double>> s = rackwork::outline_of(g).segments;
        for (std::size_t i = 0; i < s.size(); ++i) CHECK(s[i].end == s[(i + 1) % s.size()].start);
    }
}

TEST_CASE("the outline is tangent-continuous except at the corners that it names, and those are corners") {
    double worst = 0;
    for (const gear<double>& g : form_gears::named_and_random_gears(200, 18)) {
        INFO(described(g));
        const std::vector<segment<double>> s = rackwork::outline_of(g).segments;
        for (std::size_t i = 0; i < s.size(); ++i) {
            const segment<double>& next = s[(i + 1) % s.size()];
            const point<double> before = s[i].tangent(s[i].to);
            const point<double> after = next.tangent(next.from);
            const double turning = std::atan2(cross(before, after), dot(before, after));
            if (s[i].corner_at_end) {
                CHECK(std::fabs(turning) > 1e-3);
            } else {
                CHECK(std::fabs(turning) <= 8 * rounding(g));
                worst = std::max(worst, std::fabs(turning) / (8 * rounding(g)));
            }
        }
    }
    MESSAGE("worst: " << worst << " of the bound");
}

TEST_CASE("a corner stands at each edge of the tip and, with undercut, where fillet and flank cross; nowhere else") {
    for (const gear<double>& g : form_gears::named_and_random_gears(100, 19)) {
        INFO(described(g));
        const bool undercut = rackwork::generated_root<double>(g).is_undercut();
        const std::vector<segment<double>> s = rackwork::outline_of(g).segments;
        for (std::size_t i = 0; i < s.size(); ++i) {
            const segment<double>& next = s[(i + 1) % s.size()];
            const bool flank_meets_fillet = (form_gears::is_flank(s[i]) && form_gears::is_fillet(next)) ||
                                            (form_gears::is_fillet(s[i]) && form_gears::is_flank(next));
            const bool at_the_tip = !flank_meets_fillet && (form_gears::is_flank(s[i]) || form_gears::is_flank(next));
            CHECK(s[i].corner_at_end == (at_the_tip || (flank_meets_fillet && undercut)));
        }
    }
}
