// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The library itself run in fifty digits, once as Boost.Multiprecision makes the type and once with expression templates, against the
// independent computation to 45 digits: what is left there is no rounding but a wrong formula.
#include "compare_gear.hpp"
#include "compare_measures.hpp"
#include "compare_pair.hpp"
#include "compare_root.hpp"

namespace {

using independent::real;
using with_expressions = boost::multiprecision::number<boost::multiprecision::cpp_bin_float<50>, boost::multiprecision::et_on>;

/// The drawn parameters with digits beyond those of a double.
template <class T>
rackwork::gear_parameters<T> all_digits(const rackwork::gear_parameters<double>& drawn) {
    const T factor = T(T(1) + T(0x1p-54) / T(3));
    const auto longer = [&](const T& x) { return T(x * factor); };
    rackwork::gear_parameters<T> p = reference::parameters_as<T>(drawn);
    p.normal_module = longer(p.normal_module);
    p.helix_angle = rackwork::rad(longer(p.helix_angle.rad()));
    p.rack.pressure_angle = rackwork::rad(longer(p.rack.pressure_angle.rad()));
    p.rack.addendum = longer(p.rack.addendum);
    p.rack.dedendum = longer(p.rack.dedendum);
    p.profile_shift = longer(p.profile_shift);
    p.tip_alteration = longer(p.tip_alteration);
    p.thickness_allowance = longer(p.thickness_allowance);
    // A full radius must not become more than that.
    p.rack.root_fillet_radius = T(p.rack.root_fillet_radius * (T(1) - T(0x1p-40) / T(3)));
    return p;
}

template <class T>
void one_gear(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::ledger worst;
    reference::tally possible;
    for (int i = 0; i < gears; ++i) {
        auto drawn = reference::random_gear(random, 43.5);
        if (random.coin()) drawn.teeth = random.integer(5, 30);
        const T fraction = T(T(random.uniform(0.05, 0.9)) / T(3) * T(3));
        const auto parameters = all_digits<T>(drawn);
        worst.at(reference::description(drawn));
        INFO(reference::description(drawn));
        if (rackwork::check(parameters)) {
            possible.count(false);
            continue;
        }
        const rackwork::gear<T> g(parameters);
        const independent::gear exact(reference::exact_numbers(parameters));
        reference::compare_rack(worst, parameters.rack, exact.numbers);
        reference::compare_gear(worst, g, exact, fraction);
        reference::compare_limits(worst, g, exact);
        const int widest = std::min(g.teeth() - 1, 2 + g.teeth() / 2);
        reference::compare_span(worst, g, exact, 1 + static_cast<int>(drawn.face_width) % widest);
        reference::compare_constant_chord(worst, g, exact);
        const independent::root root = independent::root_of(exact);
        possible.count(reference::leaves_a_flank(exact, root));
        if (!reference::leaves_a_flank(exact, root)) {
            CHECK_THROWS_AS(rackwork::generated_root<T>{g}, rackwork::geometry_error);
            continue;
        }
        reference::compare_recommended_span(g, exact, root);
        const rackwork::generated_root<T> computed_root(g);
        reference::compare_root(worst, computed_root, exact, root);
        reference::compare_fillet(worst, computed_root, exact, fraction);
        const T form = static_cast<T>(real(2 * root.form_radius));
        const T tip = static_cast<T>(real(2 * exact.effective_tip_radius()));
        const T diameter = T(form + fraction * (tip - form));
        reference::compare_chord(worst, g, exact, diameter);
        reference::compare_ideal_pin(worst, g, exact, root);
        reference::compare_pins(worst, g, exact, diameter);
    }
    CHECK(possible.share() > 0.7);
    CHECK(worst.count("root form diameter, undercut") > gears / 10);
    CHECK(worst.count("dimension over pins") > gears / 3);
    worst.check();
}

template <class T>
void one_pair(std::uint64_t seed, int pairs) {
    support::random_source random(seed);
    reference::ledger worst;
    reference::tally possible;
    for (int i = 0; i < pairs; ++i) {
        const auto drawn = reference::make_random_pair(random);
        const T wider = T(random.uniform(0.0, 0.25));
        const std::string where = reference::description(drawn.pinion) + " | " + reference::description(drawn.wheel);
        worst.at(where);
        INFO(where);
        const auto of_pinion = all_digits<T>(drawn.pinion);
        const auto of_wheel = all_digits<T>(drawn.wheel);
        if (rackwork::check(of_pinion) || rackwork::check(of_wheel)) {
            possible.count(false);
            continue;
        }
        const rackwork::gear<T> pinion(of_pinion);
        const rackwork::gear<T> wheel(of_wheel);
        const independent::gear exact_pinion(reference::exact_numbers(of_pinion));
        const independent::gear exact_wheel(reference::exact_numbers(of_wheel));
        const T sum = T(of_pinion.profile_shift + of_wheel.profile_shift);
        const reference::exact_proportions nominal(exact_pinion, exact_wheel, real(sum));
        const bool can_run = nominal.possible() &&
                             reference::leaves_a_flank(exact_pinion, independent::root_of(exact_pinion)) &&
                             reference::leaves_a_flank(exact_wheel, independent::root_of(exact_wheel));
        possible.count(can_run);
        if (!can_run) {
            CHECK_THROWS_AS(rackwork::mesh<T>(pinion, wheel), rackwork::geometry_error);
            continue;
        }
        const rackwork::mesh<T> mesh(pinion, wheel);
        const T distance = T(static_cast<T>(nominal.centre_distance()) + of_pinion.normal_module * wider);
        reference::compare_proportions(worst, mesh.proportions(), exact_pinion, exact_wheel, sum, distance);
        reference::compare_mesh(worst, mesh, independent::mesh(exact_pinion, exact_wheel), true);
        reference::compare_mesh(worst, rackwork::mesh<T>(pinion, wheel, distance),
                                independent::mesh(exact_pinion, exact_wheel, real(distance)), false);
    }
    CHECK(possible.share() > 0.7);
    worst.check();
}

} // namespace

TEST_CASE("a gear of fifty digits has the sizes of its definition") { one_gear<real>(100, 80); }
TEST_CASE("a gear of fifty digits is the same with expression templates") { one_gear<with_expressions>(101, 40); }
TEST_CASE("a pair of fifty digits runs as its circles and lines say") { one_pair<real>(102, 60); }
TEST_CASE("a pair of fifty digits is the same with expression templates") { one_pair<with_expressions>(103, 30); }
