// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Prints how exact every quantity is, as a table in Markdown: largest and mean error over random gears against fifty digits.
//
//     accuracy [GEARS] [--compare FILE]
//
// GEARS: how many gears are drawn (2000 unless given; a million takes a night). With --compare: fails where a quantity is missing from
// the table in FILE or has another bound there, or is further off than that table says by more than a quarter and half an ulp.
// Always: fails where an error is beyond its bound.
#define DOCTEST_CONFIG_IMPLEMENT
#include "sweeps.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <iostream>
#include <map>
#include <stdexcept>
#include <string>

namespace {

int failed_checks = 0;

void note_check(const doctest::AssertData& check) {
    if (!check.m_failed) return;
    ++failed_checks;
    std::fprintf(stderr, "%s:%d: %s\n", check.m_file, check.m_line, check.m_expr);
}

struct row {
    double largest = 0;
    double bound = 0;
};

/// The rows of a table that this program printed, by quantity.
std::map<std::string, row> rows_of(const std::string& path) {
    std::ifstream in(path);
    if (!in) throw std::runtime_error("cannot read " + path);
    std::map<std::string, row> rows;
    for (std::string line; std::getline(in, line);) {
        // | quantity | largest | mean | bound | ulp of | values |
        if (line.rfind("| ", 0) != 0) continue;
        const std::size_t end = line.find(" | ");
        row r;
        double mean = 0;
        if (std::sscanf(line.c_str() + end, " | %lf | %lf | %lf", &r.largest, &mean, &r.bound) == 3) rows[line.substr(2, end - 2)] = r;
    }
    return rows;
}

int complaints = 0;

void complain(const std::string& quantity, const char* what, double number, double limit) {
    ++complaints;
    std::fprintf(stderr, "%s: %s %.4g, expected %.4g\n", quantity.c_str(), what, number, limit);
}

void print(const char* heading, const reference::ledger& all) {
    std::printf("\n## %s\n\n| quantity | largest | mean | bound | ulp of | values |\n|---|---|---|---|---|---|\n", heading);
    for (const auto& [name, e] : all.entries()) {
        std::printf("| %s | %.2f | %.2f | %g | %s | %ld |\n", name.c_str(), e.worst, e.mean(), e.allowed,
                    e.of_itself ? "the value" : "its size, conditioned", e.count);
    }
}

/// Holds every error to its bound and, where there is a table, to that.
void judge(const reference::ledger& all, const std::map<std::string, row>& committed) {
    for (const auto& [name, e] : all.entries()) {
        if (!(e.worst <= e.allowed)) {
            complain(name, "error in ulp", e.worst, e.allowed);
            std::fprintf(stderr, "    %s\n", e.sentence.c_str());
        }
        if (committed.empty()) continue;
        const auto found = committed.find(name);
        if (found == committed.end()) {
            complain(name, "the table has no such quantity; its error is", e.worst, 0);
            continue;
        }
        const row& r = found->second;
        if (r.bound != e.allowed) complain(name, "the table has another bound than", e.allowed, r.bound);
        if (e.worst > 1.25 * r.largest + 0.5) complain(name, "the error has grown to", e.worst, r.largest);
    }
}

int run(int argument_count, char** arguments) {
    long gears = 2000;
    std::string table;
    for (int i = 1; i < argument_count; ++i) {
        const std::string argument = arguments[i];
        if (argument == "--compare" && i + 1 < argument_count) {
            table = arguments[++i];
        } else {
            std::size_t used = 0;
            gears = std::stol(argument, &used);
            if (used != argument.size() || gears < 1) throw std::runtime_error("usage: accuracy [GEARS] [--compare FILE]");
        }
    }
    const auto committed = table.empty() ? std::map<std::string, row>{} : rows_of(table);
    if (!table.empty() && committed.empty()) throw std::runtime_error("there is no table in " + table);

    // The comparisons check on the way, outside any test case.
    doctest::Context context;
    context.setAsDefaultForAssertsOutOfTestCases();
    context.setAssertHandler(note_check);
    reference::ledger functions;
    reference::ledger independently;
    reference::ledger same_formulas;
    accuracy::sweep_involute(functions, 4 * gears);
    accuracy::sweep_gears(independently, gears);
    accuracy::sweep_pairs(independently, std::max(1L, gears / 4));
    accuracy::sweep_same_formulas(same_formulas, std::max(1L, gears / 8));

    std::printf("# Accuracy, measured\n\n"
                "Errors in units in the last place of `double` (of the type named) against fifty digits, over %ld random gears and %ld\n"
                "arguments of the involute functions, printed by `tests/accuracy`. \"Its size, conditioned\": the unit is the last place of\n"
                "the size that the value is a small difference of, times the condition number where the inputs' own last places weigh more.\n",
                gears, 4 * gears);
    print("Involute functions", functions);
    print("Against independently written definitions", independently);
    print("Against the same formulas in fifty digits", same_formulas);
    std::fflush(stdout);

    judge(functions, committed);
    judge(independently, committed);
    judge(same_formulas, committed);
    for (const auto& named : committed) {
        const bool printed = functions.count(named.first) + independently.count(named.first) + same_formulas.count(named.first) > 0;
        if (!printed) complain(named.first, "is in the table only, with", named.second.largest, 0);
    }
    return complaints + failed_checks == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

} // namespace

int main(int argument_count, char** arguments) {
    try {
        return run(argument_count, arguments);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "accuracy: %s\n", error.what());
        return EXIT_FAILURE;
    }
}
