// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The caliper's chord and the constant chord to fifty digits.
#include "compare_measures.hpp"

namespace {

using independent::real;

template <class T>
void sweep(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::ledger worst;
    reference::tally possible;
    for (int i = 0; i < gears; ++i) {
        const auto drawn = reference::random_gear(random);
        const T fraction = static_cast<T>(random.uniform(0.0, 0.95));
        const auto parameters = reference::parameters_as<T>(drawn);
        worst.at(reference::description(drawn));
        possible.count(!rackwork::check(parameters));
        if (rackwork::check(parameters)) continue;
        const rackwork::gear<T> g(parameters);
        const independent::gear exact(reference::exact_numbers(parameters));
        INFO(reference::description(drawn));
        reference::compare_constant_chord(worst, g, exact);
        const T base = g.base_diameter();
        const T lowest = T(base * (T(1) + T(4) * std::numeric_limits<T>::epsilon()));
        const T tip = static_cast<T>(real(2 * exact.effective_tip_radius()));
        reference::compare_chord(worst, g, exact, T(lowest + fraction * (tip - lowest)));
    }
    CHECK(possible.share() > 0.7);
    worst.check();
}

} // namespace

TEST_CASE("the chord of a gear of doubles is the least distance of two helices") { sweep<double>(80, 1500); }
TEST_CASE("the chord of a gear of long doubles is the least distance of two helices") { sweep<long double>(81, 250); }
TEST_CASE("the chord of a gear of floats is the least distance of two helices") { sweep<float>(82, 250); }
