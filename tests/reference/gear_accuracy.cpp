// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The rack and one gear, to fifty digits.
#include "compare_gear.hpp"

namespace {

template <class T>
void sweep(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::ledger worst;
    reference::tally possible;
    for (int i = 0; i < gears; ++i) {
        const auto drawn = reference::random_gear(random);
        const T fraction = static_cast<T>(random.uniform(0.0, 1.0));
        const auto parameters = reference::parameters_as<T>(drawn);
        worst.at(reference::description(drawn));
        possible.count(!rackwork::check(parameters));
        if (rackwork::check(parameters)) continue;
        const rackwork::gear<T> g(parameters);
        const independent::gear exact(reference::exact_numbers(parameters));
        reference::compare_rack(worst, parameters.rack, exact.numbers);
        reference::compare_gear(worst, g, exact, fraction);
    }
    CHECK(possible.share() > 0.7);
    worst.check();
}

} // namespace

TEST_CASE("a gear of doubles has the sizes of its definition") { sweep<double>(20, 3000); }
TEST_CASE("a gear of long doubles has the sizes of its definition") { sweep<long double>(21, 400); }
TEST_CASE("a gear of floats has the sizes of its definition") { sweep<float>(22, 400); }
