// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The root that the tool leaves, to fifty digits.
#include "compare_root.hpp"

namespace {

template <class T>
void sweep(std::uint64_t seed, int gears) {
    support::random_source random(seed);
    reference::ledger worst;
    reference::tally possible;
    for (int i = 0; i < gears; ++i) {
        auto drawn = reference::random_gear(random);
        // Every other gear small, so that undercut ones are not rare.
        if (random.coin()) drawn.teeth = random.integer(5, 40);
        const T fraction = static_cast<T>(random.uniform(0.0, 1.0));
        const auto parameters = reference::parameters_as<T>(drawn);
        worst.at(reference::description(drawn));
        if (rackwork::check(parameters)) {
            possible.count(false);
            continue;
        }
        const rackwork::gear<T> g(parameters);
        const independent::gear exact(reference::exact_numbers(parameters));
        reference::compare_limits(worst, g, exact);
        const independent::root exact_root = independent::root_of(exact);
        possible.count(reference::leaves_a_flank(exact, exact_root));
        INFO(reference::description(drawn));
        if (!reference::leaves_a_flank(exact, exact_root)) {
            CHECK_THROWS_AS(rackwork::generated_root<T>{g}, rackwork::geometry_error);
            continue;
        }
        const rackwork::generated_root<T> root(g);
        reference::compare_root(worst, root, exact, exact_root);
        reference::compare_fillet(worst, root, exact, fraction);
        CHECK(rackwork::root_form_diameter(g) == root.root_form_diameter());
    }
    CHECK(possible.share() > 0.7);
    // Both kinds of root in good number.
    CHECK(worst.count("root form diameter, undercut") > gears / 10);
    CHECK(worst.count("root form diameter") > gears / 10);
    worst.check();
}

} // namespace

TEST_CASE("the involute of a gear of doubles begins where the tool lets it") { sweep<double>(40, 3000); }
TEST_CASE("the involute of a gear of long doubles begins where the tool lets it") { sweep<long double>(41, 400); }
TEST_CASE("the involute of a gear of floats begins where the tool lets it") { sweep<float>(42, 400); }
