// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What the spans of B-splines rest on: where they are fitted, and what is claimed of the curves for the proof of their deviation.
#include "curve_distance.hpp"
#include "form_gears.hpp"
#include "random_source.hpp"
#include "ulp.hpp"

#include <rackwork/curve/bspline.hpp>
#include <rackwork/curve/detail/local_curve.hpp>
#include <rackwork/curve/detail/majorant.hpp>
#include <rackwork/curve/detail/span_fit.hpp>
#include <rackwork/curve/offset_segment.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <variant>
#include <vector>

using rackwork::bspline;
using rackwork::gear;
using rackwork::offset_segment;
using rackwork::outline;
using rackwork::pinion_cut_fillet;
using rackwork::point;
using rackwork::segment;
using rackwork::detail::local_curve;
using support::wide;

namespace {

constexpr int terms = 12;
using majorant = rackwork::detail::majorant<double, terms>;

/// The fillet of a gear of that rolling radius by a pinion-type cutter with 20 mm, as far as an angle round the cutter's rounding.
template <class T>
segment<T> fillet_by_pinion(double rolling_radius, double kind_sign, double end) {
    pinion_cut_fillet<T> c{{T(rolling_radius), T(20), T(0.5), T(21.75), T(0.0625), T(kind_sign)}, T(0), rackwork::sense::counter_clockwise};
    return {.curve = c, .from = T(0), .to = T(end), .start = c.position(T(0)), .end = c.position(T(end))};
}

template <class T>
std::vector<segment<T>> fillets_by_pinion() {
    return {fillet_by_pinion<T>(45, 1, 0.875), fillet_by_pinion<T>(60, -1, 0.625), fillet_by_pinion<T>(25, 1, 1.125)};
}

/// In standard position.
offset_segment<double> standard(const segment<double>& s, double distance) {
    offset_segment<double> parallel(s);
    parallel.distance = distance;
    return rackwork::detail::standard_segment<double>(parallel).shape_with_ends();
}

/// The same curve to 50 digits, a piece of it.
offset_segment<wide> widened(const offset_segment<double>& s, double from, double to) {
    offset_segment<wide> result;
    std::visit([&](const auto& c) { result.curve = rackwork::detail::converted<wide>(c); }, s.curve);
    result.distance = wide(s.distance);
    result.from = wide(from);
    result.to = wide(to);
    return result;
}

/// The k-th divided differences of a curve over k + 1 of its points: each is the k-th derivative somewhere between them, divided by k!.
std::vector<point<wide>> divided_differences(const std::vector<wide>& x, std::vector<point<wide>> p) {
    std::vector<point<wide>> result{p[0]};
    for (std::size_t k = 1; k < x.size(); ++k) {
        for (std::size_t i = 0; i + k < x.size(); ++i) p[i] = wide(1 / (x[i + k] - x[i])) * (p[i + 1] - p[i]);
        result.push_back(p[0]);
    }
    return result;
}

} // namespace

TEST_CASE("the crossings of a span leave equal extremes between them, and no other place is worse") {
    for (int degree = 3; degree <= 7; ++degree) {
        CAPTURE(degree);
        const auto& table = rackwork::detail::least_distance[static_cast<std::size_t>(degree - 3)];
        const auto count = static_cast<std::size_t>(degree - 2);
        const auto distance = [&](double x) {
            double product = (1 - x * x) * (1 - x * x);
            for (std::size_t i = 0; i < count; ++i) product *= x * x - table.crossings[i] * table.crossings[i];
            return product;
        };
        const double level = distance(0);
        double sign = -1;
        for (std::size_t i = 0; i < count; ++i, sign = -sign) {
            CHECK(distance(table.extremes[i]) == doctest::Approx(sign * level).epsilon(1e-12));
            CHECK(table.crossings[i] < table.extremes[i]);
            if (i > 0) CHECK(table.extremes[i - 1] < table.crossings[i]);
        }
        for (int i = 0; i <= 1000; ++i) CHECK(std::abs(distance(i / 1000.)) <= std::abs(level) * (1 + 1e-12));
    }
}

TEST_CASE("the bounds of products, turns and roots are not below the derivatives, and what should be sharp is sharp") {
    // f = 1/(2 - x) over [-1, 1]: derivatives k!/(2 - x)^(k + 1), greatest at 1.
    majorant f;
    for (int k = 0; k < terms; ++k) f[k] = 1;
    const majorant squared = f * f; // (k + 1)/(2 - x)^(k + 2)
    const majorant root = f.root(1. / 3, 1, false);
    const majorant inverse = f.root(1. / 3, std::sqrt(3.), true);
    const majorant turn = majorant::circular(2.).turn();
    double binomial = 1; // of (2 - x)^(-1/2): the coefficients of (1 - y)^(-1/2)
    double factorial = 1;
    for (int k = 0; k < terms; ++k) {
        if (k > 0) factorial *= k;
        CHECK(squared[k] == doctest::Approx(k + 1.));
        CHECK(root[k] >= binomial);
        if (k == 1) CHECK(inverse[k] >= 0.5); // (2 - x)^(1/2)
        binomial *= (0.5 + k) / (k + 1);
        CHECK(majorant::circular(2.)[k] == doctest::Approx(std::pow(2., k) / factorial));
    }
    // e^(i sin 2x): 1 + 2 i x - 2 x^2 + ...
    CHECK(turn[1] == doctest::Approx(2.));
    CHECK(turn[2] == doctest::Approx(2. + 2.));
}

TEST_CASE("no derivative of a flank, a fillet or a parallel of one exceeds what the proof takes it for, to 50 digits") {
    support::random_source random{20240611};
    std::vector<segment<double>> curves = fillets_by_pinion<double>();
    for (const gear<double>& g : form_gears::named_and_random_gears(20, 5)) {
        const auto tooth = form_gears::one_tooth(g);
        curves.insert(curves.end(), tooth.begin(), tooth.begin() + 2);
    }
    for (const segment<double>& s : curves) {
        const bool is_parallel = random.coin() && !std::holds_alternative<rackwork::involute<double>>(s.curve);
        const double size = length(s.end - s.start);
        const offset_segment<double> curve = standard(s, is_parallel ? random.uniform(-0.2, 0.2) * size : 0.);
        const double first = curve.from + (curve.to - curve.from) * random.uniform(0, 0.6);
        const double last = first + (curve.to - first) * random.uniform(0.1, 1);
        const local_curve<double> part(curve, first, last);
        const auto bounds = part.bounds<terms>();

        const offset_segment<wide> exact = widened(curve, first, last);
        const local_curve<wide> precise(exact, wide(first), wide(last));
        for (int i = 0; i < 4; ++i) {
            std::vector<wide> x;
            std::vector<point<wide>> p;
            for (int k = 0; k < terms; ++k) {
                // Near an end for some, where derivatives are greatest; near the middle, and spread out, for others.
                const wide share = wide(k) / terms;
                const std::array<wide, 4> places{wide(share / 32 - 1), wide(1 - share / 32), wide(share / 32), wide(2 * share - 1)};
                x.push_back(places[static_cast<std::size_t>(i)]);
                p.push_back(exact.on_curve(precise.parameter(x.back())));
            }
            const auto differences = divided_differences(x, p);
            for (int k = 1; k < terms; ++k) {
                CAPTURE(k);
                // Rounding the points to 50 digits, over the distances between them.
                const double rounding = 1e-48 * length(curve.end) * std::pow(2. * 32 * terms, k);
                CHECK(static_cast<double>(length(differences[static_cast<std::size_t>(k)])) <= bounds[k] * (1 + 1e-9) + rounding);
            }
        }
        for (const double x : {-1., -0.3, 0., 0.7, 1.}) {
            const point<rackwork::detail::interval<double>> enclosed = part.position(x);
            // The parts of double and of 50 digits differ by rounding.
            const point<wide> there = exact.on_curve(precise.parameter(wide(x)));
            CHECK(std::abs(enclosed.x.centre() - static_cast<double>(there.x)) < 1e-11 * length(curve.end) + 1e-11);
            CHECK(std::abs(enclosed.y.centre() - static_cast<double>(there.y)) < 1e-11 * length(curve.end) + 1e-11);
            CHECK(enclosed.x.radius() < 1e-11 * length(curve.end) + 1e-11);
        }
    }
}

TEST_CASE("shares of a curve grow from one end to the other") {
    for (const gear<double>& g : form_gears::named_and_random_gears(20, 9)) {
        CAPTURE(form_gears::described(g));
        for (const segment<double>& s : form_gears::one_tooth(g)) {
            if (std::holds_alternative<rackwork::circle<double>>(s.curve)) continue;
            const offset_segment<double> curve = standard(s, 0);
            const rackwork::detail::natural_shares<double> shares(curve);
            CHECK(shares.parameter(0) == doctest::Approx(curve.from).epsilon(1e-15));
            CHECK(shares.parameter(1) == doctest::Approx(curve.to).epsilon(1e-15));
            double before = shares.parameter(0);
            for (int i = 1; i <= 64; ++i) {
                const double here = shares.parameter(i / 64.);
                CHECK(here > before);
                before = here;
            }
        }
    }
}

TEST_CASE("fillets by pinion-type cutters are as near as is said, judged to 50 digits") {
    const auto fillets = fillets_by_pinion<double>();
    const auto exact = fillets_by_pinion<wide>();
    for (std::size_t i = 0; i < fillets.size(); ++i) {
        for (const double tolerance : {1e-3, 1e-6}) {
            for (const int degree : {5, rackwork::fewest_control_points}) {
                const auto path = bsplines_of(outline<double>{{fillets[i]}}, tolerance, {.degree = degree});
                const auto& b = std::get<bspline<double>>(path.curves[0]);
                CHECK(b.deviation <= tolerance);
                const double found = static_cast<double>(curve_distance::true_deviation(curve_distance::widened(b), exact[i], 64));
                CHECK(found <= b.deviation);
                CHECK(b.deviation <= 2 * found);
            }
        }
    }
}

TEST_CASE("left the choice, no curve has more control points than with any one degree") {
    for (const gear<double>& g : form_gears::random_gears(12, 31)) {
        CAPTURE(form_gears::described(g));
        const outline<double> tooth{form_gears::one_tooth(g)};
        for (const double relative : {1e-2, 1e-4, 1e-6, 1e-8}) {
            const double tolerance = relative * g.normal_module();
            const auto chosen = bsplines_of(tooth, tolerance, {.degree = rackwork::fewest_control_points});
            CHECK(chosen.deviation <= tolerance);
            for (const int degree : {3, 5, 7}) {
                const auto given = bsplines_of(tooth, tolerance, {.degree = degree});
                for (std::size_t i = 0; i < tooth.segments.size(); ++i) {
                    CHECK(std::get<bspline<double>>(chosen.curves[i]).control_points.size() <=
                          std::get<bspline<double>>(given.curves[i]).control_points.size());
                }
            }
        }
    }
}

TEST_CASE("curves of the degree that the library chose are exact where they must be, and as near as is said") {
    for (const char* what : {"spur, 24 teeth", "helical, 23 teeth", "undercut, 9 teeth"}) {
        for (const form_gears::named_gear& each : form_gears::gears()) {
            if (each.name != what) continue;
            CAPTURE(each.name);
            const gear<double> g(each.parameters);
            const auto exact = form_gears::one_tooth(form_gears::at_precision<wide>(g));
            const outline<double> tooth{form_gears::one_tooth(g)};
            const double size = g.tip_diameter() / 2;
            for (const double relative : {1e-3, 1e-5}) {
                const auto path = bsplines_of(tooth, relative * g.normal_module(), {.degree = rackwork::fewest_control_points});
                for (std::size_t i = 0; i < 2; ++i) {
                    const auto& b = std::get<bspline<double>>(path.curves[i]);
                    const auto& s = tooth.segments[i];
                    CHECK(b.degree >= 3);
                    CHECK(b.degree <= 7);
                    CHECK(b.control_points.front() == s.start);
                    CHECK(b.control_points.back() == s.end);
                    const point<double> leg = b.control_points[1] - b.control_points[0];
                    CHECK(std::abs(cross(leg, s.tangent(s.from))) <= 64 * form_gears::epsilon * size);
                    const double found = static_cast<double>(curve_distance::true_deviation(curve_distance::widened(b), exact[i], 48));
                    CHECK(found <= b.deviation);
                    CHECK(b.deviation <= 2 * found + 1000 * form_gears::epsilon * size);
                }
            }
        }
    }
}
