// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The entry point that every test program shares: compiled once, linked into each of them.
#define DOCTEST_CONFIG_IMPLEMENT
#include <doctest/doctest.h>

#include <iostream>

namespace {

unsigned test_cases_run = 0;

/// Counts what was run, because the framework calls a run of nothing a success.
struct run_counter : doctest::IReporter {
    explicit run_counter(const doctest::ContextOptions&) {}
    void report_query(const doctest::QueryData&) override {}
    void test_run_start() override {}
    void test_run_end(const doctest::TestRunStats& stats) override {
        test_cases_run = stats.numTestCasesPassingFilters;
    }
    void test_case_start(const doctest::TestCaseData&) override {}
    void test_case_reenter(const doctest::TestCaseData&) override {}
    void test_case_end(const doctest::CurrentTestCaseStats&) override {}
    void test_case_exception(const doctest::TestCaseException&) override {}
    void subcase_start(const doctest::SubcaseSignature&) override {}
    void subcase_end() override {}
    void log_assert(const doctest::AssertData&) override {}
    void log_message(const doctest::MessageData&) override {}
    void test_case_skipped(const doctest::TestCaseData&) override {}
};

} // namespace

DOCTEST_REGISTER_LISTENER("run_counter", 1, run_counter);

int main(int argument_count, char** arguments) {
    doctest::Context context{argument_count, arguments};
    const int outcome = context.run();
    if (context.shouldExit()) return outcome;
    if (test_cases_run == 0) {
        std::cerr << "No test case was run; an empty run does not count as a success.\n";
        return 1;
    }
    return outcome;
}
