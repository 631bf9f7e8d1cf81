// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Pins and balls to fifty digits.
#include "compare_measures.hpp"

namespace {

using independent::real;

template <class T>
void sweep(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::ledger worst;
    reference::tally possible;
    for (int i = 0; i < gears; ++i) {
        const auto drawn = reference::random_gear(random, 43.5);
        const T fraction = static_cast<T>(random.uniform(0.02, 1.0));
        const T any = static_cast<T>(drawn.normal_module * random.uniform(0.1, 3.0));
        const auto parameters = reference::parameters_as<T>(drawn);
        worst.at(reference::description(drawn));
        if (rackwork::check(parameters)) {
            possible.count(false);
            continue;
        }
        const rackwork::gear<T> g(parameters);
        const independent::gear exact(reference::exact_numbers(parameters));
        reference::compare_any_pin(worst, g, exact, any);
        const independent::root root = independent::root_of(exact);
        possible.count(reference::leaves_a_flank(exact, root));
        if (!reference::leaves_a_flank(exact, root)) continue;
        INFO(reference::description(drawn));
        const T form = static_cast<T>(real(2 * root.form_radius));
        const T tip = static_cast<T>(real(2 * exact.effective_tip_radius()));
        reference::compare_ideal_pin(worst, g, exact, root);
        reference::compare_pins(worst, g, exact, T(form + fraction * (tip - form)), i % 3 == 0);
    }
    CHECK(possible.share() > 0.7);
    CHECK(worst.count("dimension over pins") > gears / 2);
    worst.check();
}

} // namespace

TEST_CASE("a pin in the space of a gear of doubles touches both helicoids") { sweep<double>(70, 1600); }
TEST_CASE("a pin in the space of a gear of long doubles touches both helicoids") { sweep<long double>(71, 200); }
TEST_CASE("a pin in the space of a gear of floats touches both helicoids") { sweep<float>(72, 200); }

TEST_CASE("the nearest preferred pin is the nearest of the series") {
    support::random_source random(73);
    for (int i = 0; i < 2000; ++i) {
        const double wanted = random.uniform(0.3, 60.0);
        const double chosen = rackwork::nearest_preferred_pin_diameter(wanted);
        CAPTURE(wanted);
        if (wanted < 0.5 || wanted > 50) {
            CHECK(chosen == wanted);
            continue;
        }
        bool in_series = false;
        for (const double d : rackwork::preferred_pin_diameters_in_millimetres) {
            in_series = in_series || d == chosen;
            CHECK(abs(real(real(d) - wanted)) >= abs(real(real(chosen) - wanted)));
        }
        CHECK(in_series);
    }
}
