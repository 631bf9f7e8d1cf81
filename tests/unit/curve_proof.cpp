// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The arithmetic on which the curves' deviations are proved: it must enclose what it claims to.
#include "form_gears.hpp"
#include "random_source.hpp"
#include "ulp.hpp"

#include <rackwork/curve/detail/exact_curve.hpp>
#include <rackwork/curve/detail/interval.hpp>
#include <rackwork/curve/detail/jet.hpp>
#include <rackwork/curve/detail/proven_maximum.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <string>

using rackwork::point;
using rackwork::detail::interval;
using rackwork::detail::jet;
using rackwork::detail::proof_jet;
using support::wide;

namespace {

using I = interval<double>;

bool holds(const I& i, const wide& value) { return abs(wide(value - wide(i.centre()))) <= wide(i.radius()); }

wide anywhere_in(support::random_source& random, const I& i) {
    return wide(i.centre()) + wide(i.radius()) * wide(random.uniform(-1, 1));
}

I random_interval(support::random_source& random) {
    const double centre = random.uniform(-3, 3) * std::pow(10., random.integer(-3, 3));
    return I::around(centre, random.coin() ? 0. : std::abs(centre) * random.uniform(0, 0.3));
}

} // namespace

TEST_CASE("an operation on intervals holds the operation on any of their numbers, to 50 digits") {
    support::random_source random{42};
    for (int i = 0; i < 20000; ++i) {
        const I a = random_interval(random);
        const I b = random_interval(random);
        const wide x = anywhere_in(random, a);
        const wide y = anywhere_in(random, b);
        CHECK(holds(a + b, wide(x + y)));
        CHECK(holds(a - b, wide(x - y)));
        CHECK(holds(a * b, wide(x * y)));
        CHECK(holds(a / b, wide(x / y)));
        CHECK(holds(sin(a), wide(sin(x))));
        CHECK(holds(cos(a), wide(cos(x))));
        if (x > 0 && a.lower() > 0) CHECK(holds(sqrt(a), wide(sqrt(x))));
        CHECK(wide(a.lower()) <= x);
        CHECK(abs(x) <= wide(a.greatest_magnitude()));
        I::sum_of_products sum;
        sum.add(a, b);
        sum.subtract(b, b);
        sum.add(a, a);
        CHECK(holds(sum.value(), wide(x * y - y * y + x * x)));
    }
}

TEST_CASE("intervals of exact numbers stay narrow") {
    const I third = I(1) / I(3);
    CHECK(third.radius() < 8 * form_gears::epsilon);
    CHECK(sqrt(I(2.)).radius() < 8 * form_gears::epsilon);
    CHECK(sin(I(1.)).radius() < 8 * form_gears::epsilon);
}

TEST_CASE("what is unbounded stays unbounded, whatever is done with it") {
    const I zero_within = I::around(0, 1);
    const auto unbounded = [](const I& i) { return !(i.radius() <= std::numeric_limits<double>::max()); };
    CHECK(unbounded(I(1) / zero_within));
    CHECK(unbounded(I(1) / I(0)));
    CHECK(unbounded(sqrt(zero_within)));
    CHECK(unbounded(sqrt(I(-1.))));
    CHECK(unbounded(I(0) * (I(1) / zero_within)));
    CHECK(unbounded(sin(I(1) / zero_within) + I(1)));
    I::sum_of_products sum;
    sum.add(I(1) / zero_within, I(0));
    CHECK(unbounded(sum.value()));
}

TEST_CASE("a jet's coefficients are those of the known series") {
    using J = jet<I, 8>;
    const J x = J::linear(I(0.), I(1.));
    const J s = sin(x);
    const J c = cos(x);
    const J root = sqrt(J(1) + x);
    const J inverse = J(1) / (J(1) - x);
    double factorial = 1;
    double binomial = 1;
    for (int k = 0; k < 8; ++k) {
        if (k > 0) factorial *= k;
        const double sign = k % 4 < 2 ? 1 : -1;
        CHECK(s[k].centre() == doctest::Approx(k % 2 == 1 ? sign / factorial : 0).epsilon(1e-14));
        CHECK(c[k].centre() == doctest::Approx(k % 2 == 0 ? sign / factorial : 0).epsilon(1e-14));
        CHECK(inverse[k].centre() == doctest::Approx(1).epsilon(1e-14));
        CHECK(root[k].centre() == doctest::Approx(binomial).epsilon(1e-14)); // binomial(1/2, k)
        binomial *= (0.5 - k) / (k + 1);
        CHECK((s * s + c * c)[k].centre() == doctest::Approx(k == 0 ? 1 : 0).epsilon(1e-14));
        if (k + 1 < 8) CHECK(s.derivative()[k].centre() == doctest::Approx(c[k].centre()).epsilon(1e-14));
    }
}

TEST_CASE("Taylor's series with its remainder holds the curves of teeth, to 50 digits") {
    support::random_source random{7};
    using J = proof_jet<double>;
    for (const auto& g : form_gears::named_and_random_gears(20, 3)) {
        CAPTURE(form_gears::described(g));
        for (const auto& s : form_gears::one_tooth(g)) {
            const rackwork::offset_segment<double> segment(s);
            const rackwork::detail::exact_curve<J> exact(segment);
            const double low = std::min(s.from, s.to);
            const double high = std::max(s.from, s.to);
            const double w = (high - low) * random.uniform(0.01, 0.1);
            const double middle = random.uniform(low + w, high - w);
            const auto here = exact.position(J::linear(I(middle), I(1)));
            const auto whole = exact.position(J::linear(I::around(middle, w), I(1)));
            const auto narrow = rackwork::detail::narrowed(here, whole, w);
            const double off = w * random.uniform(-1, 1);
            const point<wide> precise = std::visit(
                [&](const auto& c) { return rackwork::detail::converted<wide>(c).position(wide(wide(middle) + wide(off))); }, s.curve);
            I x = whole.x[rackwork::detail::proof_coefficients - 1];
            I y = whole.y[rackwork::detail::proof_coefficients - 1];
            for (int k = rackwork::detail::proof_coefficients - 1; k-- > 0;) {
                x = x * I(off) + here.x[k];
                y = y * I(off) + here.y[k];
            }
            CHECK(holds(x, precise.x));
            CHECK(holds(y, precise.y));
            CHECK(holds(narrow.x[0], precise.x));
            CHECK(holds(narrow.y[0], precise.y));
            CHECK(narrow.x[0].radius() <= 3 * (whole.x[0].radius() + w * std::abs(here.x[1].centre())) + 1e-12 * g.tip_diameter());
        }
    }
}

TEST_CASE("the proven maximum of a function with known maximum is at most a tenth too large") {
    using J = proof_jet<double>;
    for (const double frequency : {1., 3., 10.}) {
        const auto bounds = [&](double from, double to) -> rackwork::detail::distance_bounds<double> {
            const double middle = from + (to - from) / 2;
            const double w = rackwork::detail::half_width(from, to);
            const auto f = [&](const J& t) { return point<J>{sin(J(I(frequency)) * t) * J(I(1e-7)), J(0)}; };
            const auto here = f(J::linear(I(middle), I(1)));
            const auto whole = f(J::linear(I::around(middle, w), I(1)));
            const double bound = rackwork::detail::bound_of_length(here, whole, rackwork::detail::proof_coefficients - 1, w);
            return {std::abs(here.x[0].centre()), bound < 1e300 ? bound : std::numeric_limits<double>::max()};
        };
        const auto found = rackwork::detail::proven_maximum(bounds, 0., 3., 0., 1., 4);
        CHECK(found.bound >= 1e-7);
        CHECK(found.bound <= 1.1e-7 * (1 + 1e-9));
        CHECK(found.reached <= 1e-7 * (1 + 1e-9));
    }
}
