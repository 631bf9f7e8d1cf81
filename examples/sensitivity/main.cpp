// Example sensitivity: how span, pin size, backlash and contact ratio move with each tolerance of a pair.
//
//     sensitivity [CHART.svg]        prints a table and draws it as bars; sensitivity.svg unless another file is named
//
// The numbers are derivatives times tolerances, taken by running the library with numbers that carry derivatives (pair.hpp is written once
// for both). The last rows compute the extremes anew, to show what the straight-line estimate leaves out.
#include "chart.hpp"
#include "influence.hpp"

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>

namespace {

using namespace sensitivity;

void print_row(const char* name, const char* range, const changes& values, const char* format) {
    std::printf("%-30s%-14s", name, range);
    for (std::size_t k = 0; k < results.size(); ++k) std::printf(format, values[k]);
    std::printf("\n");
}

changes in_small_units(changes values) {
    for (std::size_t k = 0; k < results.size(); ++k) values[k] /= results[k].unit_of_change;
    return values;
}

void print_table(const influence& all) {
    std::printf("Log carriage drive: 19 and 57 teeth, module 2.5, 15 degrees of helix, centre distance 99 mm\n"
                "What each tolerance changes at its upper end\n\n%-30s%-14s",
                "", "");
    for (const result& r : results) std::printf("%18s", r.name);
    std::printf("\n%-44s", "");
    for (const result& r : results) std::printf("%18s", r.change);
    std::printf("\n");
    for (std::size_t i = 0; i < tolerances.size(); ++i) {
        char range[32];
        std::snprintf(range, sizeof range, "+-%g %s", tolerances[i].half_range, tolerances[i].unit);
        print_row(tolerances[i].name, range, in_small_units(all.of[i]), "%18.3f");
    }
    std::printf("\n");
    print_row("all at their worst", "", in_small_units(all.worst), "%18.3f");
    print_row("root of the sum of squares", "", in_small_units(all.likely), "%18.3f");
    std::printf("\n%-44s", "");
    for (const result& r : results) std::printf("%18s", r.unit);
    std::printf("\n");
    print_row("least, computed anew", "", all.least, "%18.4f");
    print_row("nominal", "", all.nominal, "%18.4f");
    print_row("greatest, computed anew", "", all.greatest, "%18.4f");
    std::printf("\nSpan and pins see only their own gear: what the centre distance does to the backlash is found on the housing.\n"
                "Geometry only: no strength or load rating is implied, and the tolerances are an example, not a recommendation.\n");
}

} // namespace

int main(int argument_count, char** arguments) {
    if (argument_count > 2) {
        std::fprintf(stderr, "usage: sensitivity [CHART.svg]\n");
        return EXIT_FAILURE;
    }
    try {
        const influence all = influence_of_tolerances();
        print_table(all);
        const char* path = argument_count == 2 ? arguments[1] : "sensitivity.svg";
        std::ofstream chart(path, std::ios::binary);
        draw_chart(chart, all);
        chart.close();
        if (!chart) {
            std::fprintf(stderr, "sensitivity: %s cannot be written\n", path);
            return EXIT_FAILURE;
        }
        std::printf("\nChart: %s\n", path);
        return std::fflush(stdout) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
    } catch (const std::exception& error) {
        std::fprintf(stderr, "sensitivity: %s\n", error.what());
        return EXIT_FAILURE;
    }
}
