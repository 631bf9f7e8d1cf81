// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Recommended minimum backlash: the printed table.
#include <rackwork/tolerance/backlash.hpp>

#include "printed.hpp"

#include <cmath>

#include <doctest/doctest.h>

using rackwork::recommended_minimum_backlash_in_millimetres;

TEST_CASE("the recommended minimum backlash is that of the table, which rounds up to hundredths") {
    // ISO/TR 10064-2:1996, table A.1; from memory. Millimetres.
    struct entry {
        double module, centre_distance, backlash;
    };
    constexpr entry table[] = {{1.5, 50, 0.09}, {1.5, 100, 0.11}, {2, 50, 0.10},  {2, 100, 0.12}, {2, 200, 0.15}, {3, 50, 0.12},
                               {3, 200, 0.17},  {3, 400, 0.24},   {5, 100, 0.18}, {5, 400, 0.28}, {8, 100, 0.24}, {8, 200, 0.27},
                               {8, 800, 0.47},  {12, 200, 0.35},  {12, 400, 0.42}, {18, 400, 0.54}, {18, 1600, 0.94}};
    for (const entry& e : table) {
        CAPTURE(e.module);
        CAPTURE(e.centre_distance);
        const double exact = recommended_minimum_backlash_in_millimetres(e.centre_distance, e.module);
        CHECK(handbook::prints(std::ceil(exact * 100 - 1e-9) / 100, e.backlash, 2));
    }
}

TEST_CASE("the formula behind the table") {
    // ISO/TR 10064-2:1996: j_bn,min = 2/3 (0.06 + 0.0005 a + 0.03 m_n); from memory.
    CHECK(handbook::prints(recommended_minimum_backlash_in_millimetres(50.0, 1.5), 0.086667, 6));
    CHECK(handbook::prints(recommended_minimum_backlash_in_millimetres(100.0, 5.0), 0.17333, 5));
    CHECK(handbook::prints(recommended_minimum_backlash_in_millimetres(1600.0, 18.0), 0.93333, 5));
    constexpr double at_compile_time = recommended_minimum_backlash_in_millimetres(180.0, 5.0);
    CHECK(handbook::prints(at_compile_time, 0.2, 12));
}
