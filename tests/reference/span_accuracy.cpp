// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The span to fifty digits.
#include "compare_measures.hpp"

namespace {

template <class T>
void sweep(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::ledger worst;
    reference::tally possible;
    for (int i = 0; i < gears; ++i) {
        const auto drawn = reference::random_gear(random);
        const double fraction = random.uniform(0.0, 1.0);
        const auto parameters = reference::parameters_as<T>(drawn);
        worst.at(reference::description(drawn));
        if (rackwork::check(parameters)) {
            possible.count(false);
            continue;
        }
        const rackwork::gear<T> g(parameters);
        const independent::gear exact(reference::exact_numbers(parameters));
        // Up to where the anvils would touch at twice the base circle, whether there is a flank or not.
        const int widest = std::min(g.teeth() - 1, 2 + g.teeth() / 2);
        reference::compare_span(worst, g, exact, 1 + static_cast<int>(fraction * widest));
        const independent::root root = independent::root_of(exact);
        possible.count(reference::leaves_a_flank(exact, root));
        if (!reference::leaves_a_flank(exact, root)) continue;
        INFO(reference::description(drawn));
        reference::compare_recommended_span(g, exact, root);
    }
    CHECK(possible.share() > 0.7);
    worst.check();
}

} // namespace

TEST_CASE("the span of a gear of doubles is the distance of two planes") { sweep<double>(60, 2000); }
TEST_CASE("the span of a gear of long doubles is the distance of two planes") { sweep<long double>(61, 300); }
TEST_CASE("the span of a gear of floats is the distance of two planes") { sweep<float>(62, 300); }
