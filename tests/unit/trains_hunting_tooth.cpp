// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Which teeth meet: by letting pairs run.
#include <rackwork/trains/hunting_tooth.hpp>

#include "random_source.hpp"

#include <limits>
#include <set>

#include <doctest/doctest.h>

TEST_CASE("a pair that is let run meets as the numbers say") {
    support::random_source random{1601};
    for (int i = 0; i < 60; ++i) {
        const int pinion = random.integer(1, 40);
        const int wheel = random.integer(1, 90);
        const auto said = rackwork::hunting_tooth(pinion, wheel);
        CAPTURE(pinion);
        CAPTURE(wheel);
        // Tooth 0 meets tooth 0; from meshing to meshing either gear moves on by one tooth.
        std::set<int> mates_of_first;
        long meshings = 0;
        int of_pinion = 0;
        int of_wheel = 0;
        do {
            if (of_pinion == 0) mates_of_first.insert(of_wheel);
            of_pinion = (of_pinion + 1) % pinion;
            of_wheel = (of_wheel + 1) % wheel;
            ++meshings;
        } while (of_pinion != 0 || of_wheel != 0);
        CHECK(said.meshings == meshings);
        CHECK(said.pinion_revolutions == meshings / pinion);
        CHECK(said.wheel_revolutions == meshings / wheel);
        CHECK(static_cast<int>(mates_of_first.size()) == wheel / said.common_divisor);
        for (const int mate : mates_of_first) CHECK(mate % said.common_divisor == 0);
        CHECK(said.is_hunting() == (static_cast<int>(mates_of_first.size()) == wheel));
    }
}

TEST_CASE("as many teeth as an int holds do not overflow, and no teeth are refused") {
    constexpr int most = (std::numeric_limits<int>::max)(); // a prime number
    constexpr auto huge = rackwork::hunting_tooth(most, most - 1);
    static_assert(huge.meshings == static_cast<std::int64_t>(most) * (most - 1));
    CHECK(huge.is_hunting());
    CHECK(rackwork::hunting_tooth(most, most).meshings == most);
    CHECK_THROWS_WITH_AS(rackwork::hunting_tooth(0, 12), "pinion_teeth is 0 but must be at least 1", rackwork::geometry_error);
    CHECK_THROWS_AS(rackwork::hunting_tooth(12, -3), rackwork::geometry_error);
}
