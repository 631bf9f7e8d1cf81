// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Pairs of gears to fifty digits: their centre distance, and the mesh at it and at others.
#include "compare_pair.hpp"

namespace {

using independent::real;

template <class T>
void sweep(std::uint64_t seed, int pairs) {
    support::random_source random(seed);
    reference::ledger at_nominal_distance;
    reference::ledger at_given_distance;
    reference::ledger proportions;
    reference::tally possible;
    for (int i = 0; i < pairs; ++i) {
        const auto drawn = reference::make_random_pair(random);
        const double wider = random.uniform(-0.05, 0.25);
        const std::string where = reference::description(drawn.pinion) + " | " + reference::description(drawn.wheel);
        at_nominal_distance.at(where);
        at_given_distance.at(where);
        proportions.at(where);
        INFO(where);
        const auto of_pinion = reference::parameters_as<T>(drawn.pinion);
        const auto of_wheel = reference::parameters_as<T>(drawn.wheel);
        if (rackwork::check(of_pinion) || rackwork::check(of_wheel)) {
            possible.count(false);
            continue;
        }
        const rackwork::gear<T> pinion(of_pinion);
        const rackwork::gear<T> wheel(of_wheel);
        const independent::gear exact_pinion(reference::exact_numbers(of_pinion));
        const independent::gear exact_wheel(reference::exact_numbers(of_wheel));

        const rackwork::pair_proportions<T> shared{.normal_module = of_pinion.normal_module,
                                                   .pinion_teeth = of_pinion.teeth,
                                                   .wheel_teeth = of_wheel.teeth,
                                                   .helix_angle = of_pinion.helix_angle,
                                                   .normal_pressure_angle = of_pinion.rack.pressure_angle};
        const T sum = T(of_pinion.profile_shift + of_wheel.profile_shift);
        const reference::exact_proportions nominal(exact_pinion, exact_wheel, real(sum));
        if (!nominal.possible()) {
            possible.count(false);
            CHECK_THROWS_AS(rackwork::mesh<T>(pinion, wheel), rackwork::geometry_error);
            continue;
        }
        const T distance = T(static_cast<T>(nominal.centre_distance()) + of_pinion.normal_module * static_cast<T>(wider));
        reference::compare_proportions(proportions, shared, exact_pinion, exact_wheel, sum, distance);

        const bool has_flanks = reference::leaves_a_flank(exact_pinion, independent::root_of(exact_pinion)) &&
                                reference::leaves_a_flank(exact_wheel, independent::root_of(exact_wheel));
        possible.count(has_flanks);
        if (!has_flanks) continue;
        reference::compare_mesh(at_nominal_distance, rackwork::mesh<T>(pinion, wheel),
                                independent::mesh(exact_pinion, exact_wheel), true);
        if (real(distance) > nominal.bases()) {
            reference::compare_mesh(at_given_distance, rackwork::mesh<T>(pinion, wheel, distance),
                                    independent::mesh(exact_pinion, exact_wheel, real(distance)), false);
        } else {
            CHECK_THROWS_AS(rackwork::mesh<T>(pinion, wheel, distance), rackwork::geometry_error);
        }
    }
    CHECK(possible.share() > 0.7);
    proportions.check();
    at_nominal_distance.check("at the nominal centre distance");
    at_given_distance.check("at a given centre distance");
}

} // namespace

TEST_CASE("two gears of doubles run as their circles and lines say") { sweep<double>(50, 1000); }
TEST_CASE("two gears of long doubles run as their circles and lines say") { sweep<long double>(51, 200); }
TEST_CASE("two gears of floats run as their circles and lines say") { sweep<float>(52, 200); }
