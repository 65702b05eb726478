// Runs the catalogue of published checks. With a folder: writes verify.txt and verify.json there.
// With a second argument: writes the page benchmarks/README.md to it. Exit status 1: a check
// fails that is not on the open list.
#include <chrono>
#include <cmath>
#include <fstream>
#include <iostream>

#include "benchmarks/published/open.hpp"
#include "benchmarks/published/report.hpp"
#include "mesh/board/error.hpp"

using namespace vrid::published;

namespace {

Outcome run(const std::string& family, const Check& check) {
    const auto start = std::chrono::steady_clock::now();
    Ours ours{std::nan(""), 0}; // a check that cannot be solved fails, the others go on
    try {
        ours = check.ours();
    } catch (const vrid::SolveError& error) {
        std::cerr << check.name << ": " << error.what() << "\n";
    }
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
    return {family, &check, ours, spent.count()};
}

} // namespace

int main(int argc, char** argv) try {
    const std::vector<Family> families = catalogue();
    std::vector<Outcome> outcomes;
    double seconds = 0;
    for (const Family& family : families) {
        double here = 0;
        for (const Check& check : family.checks) {
            outcomes.push_back(run(family.title, check));
            here += outcomes.back().seconds;
        }
        std::cerr << family.title << ": " << here << " s\n";
        seconds += here;
    }
    const std::string table = text_table(outcomes);
    std::cout << table << seconds << " s\n";
    if (argc > 1) {
        std::ofstream(std::string(argv[1]) + "/verify.txt") << table;
        std::ofstream(std::string(argv[1]) + "/verify.json") << json(outcomes);
    }
    if (argc > 2) {
        std::ofstream(argv[2]) << page(outcomes);
    }
    bool as_known = true;
    for (const Outcome& one : outcomes) {
        const bool open = open_checks().count(one.check->name) > 0;
        if (one.verdict() == "FAILED" && !open) {
            std::cerr << one.check->name << ": fails\n";
            as_known = false;
        } else if (one.verdict() == "passed" && open) {
            std::cerr << one.check->name << ": passes, take it off the open list\n";
        }
    }
    return as_known ? 0 : 1;
} catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 3;
}
