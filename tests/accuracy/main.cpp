// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Prints how exact every quantity is, as a table in Markdown: largest and mean error over random gears against fifty digits.
//
//     accuracy [GEARS] [--compare FILE]
//
// GEARS: how many gears are drawn (2000 unless given). With --compare: fails where a quantity is missing from the table in FILE or has
// another bound there, or is further off than that table says: at worst by more than a quarter and half an ulp, or in the mean, which shows
// in a short run what its worst does not, by more than a quarter and what the mean of so few may stray. Interrupted, it prints what it has.
// Always: fails where an error is beyond its bound.
#define DOCTEST_CONFIG_IMPLEMENT
#include "sweeps.hpp"

#include <algorithm>
#include <cmath>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>
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
    double mean = 0;
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
        if (std::sscanf(line.c_str() + end, " | %lf | %lf | %lf", &r.largest, &r.mean, &r.bound) == 3) rows[line.substr(2, end - 2)] = r;
    }
    return rows;
}

int complaints = 0;

volatile std::sig_atomic_t interrupted = 0;

extern "C" void interrupt(int) { interrupted = 1; }

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
        // No error is beyond the largest, so that its square bounds the variance.
        const double strays = 0.05 + r.largest / std::sqrt(static_cast<double>(e.count));
        if (e.mean() > 1.25 * r.mean + strays) complain(name, "the mean error has grown to", e.mean(), r.mean);
    }
}

/// Lets a sweep go on until so many have been drawn. One gear without reference, or refused by the library, is a failure, but shall not
/// take the rest of a long run with it.
template <class Sweep>
void go_on(const Sweep& sweep, reference::ledger& all, accuracy::stream& from, long until) {
    while (from.drawn < until) {
        try {
            sweep(all, from, until);
        } catch (const std::exception& error) {
            ++complaints;
            std::fprintf(stderr, "%s: %s\n", all.where().c_str(), error.what());
        } catch (const doctest::detail::TestFailureException&) {
            std::fprintf(stderr, "%s: the check above\n", all.where().c_str());
        }
    }
}

long number_of(const std::string& argument) {
    std::size_t used = 0;
    const long number = std::stol(argument, &used);
    if (used != argument.size() || number < 1) {
        throw std::runtime_error("usage: accuracy [GEARS] [--compare FILE]");
    }
    return number;
}

int run(int argument_count, char** arguments) {
    long gears = 2000;
    std::string table;
    for (int i = 1; i < argument_count; ++i) {
        const std::string argument = arguments[i];
        if (argument == "--compare" && i + 1 < argument_count) {
            table = arguments[++i];
        } else {
            gears = number_of(argument);
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
    accuracy::stream floats(900);
    accuracy::stream doubles(900);
    accuracy::stream long_doubles(900);
    accuracy::stream single_gears(910);
    accuracy::stream pairs(920);
    accuracy::stream pairs_again(930);
    std::signal(SIGINT, interrupt);
    std::signal(SIGTERM, interrupt);
    const long asked_for = gears;
    // All sweeps in turn, so that an interruption leaves none of them behind.
    for (gears = 0; gears < asked_for && interrupted == 0;) {
        gears = std::min(asked_for, gears + 64);
        go_on(accuracy::sweep_involute_of_float, functions, floats, 4 * gears);
        go_on(accuracy::sweep_involute_of_double, functions, doubles, 4 * gears);
        go_on(accuracy::sweep_involute_of_long_double, functions, long_doubles, 4 * gears);
        go_on(accuracy::sweep_gears, independently, single_gears, gears);
        go_on(accuracy::sweep_pairs, independently, pairs, std::max(1L, gears / 4));
        go_on(accuracy::sweep_same_formulas, same_formulas, pairs_again, std::max(1L, gears / 8));
    }

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
