// Example gear_pair: numbers of a pair in, its data tables, limits, findings and drawings out.
#include "design.hpp"
#include "drawing.hpp"
#include "options.hpp"
#include "report.hpp"
#include "values.hpp"

#include <cstdlib>
#include <exception>
#include <filesystem>
#include <iostream>
#include <string>

namespace {

using namespace gear_pair;

/// Computes, draws, prints, in this order, so that nothing is written about a pair that is impossible.
template <class Pair>
void work(const Pair& pair, const options& o) {
    const sheet s = make_sheet(pair, o);
    const std::filesystem::path folder = o.folder.value_or("gear_pair_drawings");
    const std::string drawings = !o.values || o.folder ? draw(pair, o, folder) : std::string();
    if (o.values) {
        print_values(std::cout, s);
    } else {
        print_report(std::cout, o, s);
        const std::filesystem::path place = std::filesystem::absolute(folder).lexically_normal();
        std::cout << "\nDrawings: " << drawings << " in the folder " << place.string() << '\n';
    }
    std::cout.flush();
    if (!std::cout) throw usage_error("The output could not be written.");
}

} // namespace

int main(int argument_count, char** arguments) {
    try {
        const options o = read_options(argument_count, arguments);
        if (o.toothed_rack) {
            work(design_rack_pair(o), o);
        } else {
            work(design_pair(o), o);
        }
        return EXIT_SUCCESS;
    } catch (const std::exception& error) {
        std::cerr << "gear_pair: " << error.what() << '\n';
        return EXIT_FAILURE;
    }
}
