// Runs the catalogue of published checks. With a folder: writes verify.txt and verify.json there.
// With a second one, the folder benchmarks: computes its measured specimens too and writes the page
// README.md and the picture measured.svg there. Exit status 1: a check fails that is not on the
// open list.
#include <atomic>
#include <chrono>
#include <cmath>
#include <fstream>
#include <iostream>
#include <thread>

#include "benchmarks/measured/measured.hpp"
#include "benchmarks/published/open.hpp"
#include "benchmarks/published/report.hpp"
#include "mesh/board/error.hpp"

using namespace vrid::published;

namespace {

Outcome run(const std::string& family, const Check& check) {
    Ours ours{std::nan(""), 0}; // a check that cannot be solved fails, the others go on
    try {
        ours = check.ours();
    } catch (const vrid::SolveError& error) {
        std::cerr << check.name << ": " << error.what() << "\n";
    }
    return {family, &check, ours};
}

// Two families at a time; a family's checks share what they solved and stay on one thread.
std::vector<Outcome> run_all(const std::vector<Family>& families) {
    std::vector<std::vector<Outcome>> found(families.size());
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        for (std::size_t f = next++; f < families.size(); f = next++) {
            for (const Check& check : families[f].checks) {
                found[f].push_back(run(families[f].title, check));
            }
        }
    };
    {
        const std::jthread other(work);
        work();
    }
    std::vector<Outcome> all;
    for (const std::vector<Outcome>& part : found) {
        all.insert(all.end(), part.begin(), part.end());
    }
    return all;
}

void write_page(const std::vector<Outcome>& outcomes, const std::string& benchmarks) {
    const std::string folder = benchmarks + "/measured";
    const auto specimens = vrid::measured::run_all(folder, 0);
    std::cout << vrid::measured::text_table(specimens);
    const std::string section =
        vrid::measured::section(specimens, vrid::measured::line_supports(folder));
    std::ofstream(benchmarks + "/README.md") << page(outcomes, section);
    std::ofstream(benchmarks + "/measured.svg") << vrid::measured::picture(specimens);
}

} // namespace

int main(int argc, char** argv) try {
    const std::vector<Family> families = catalogue();
    const auto start = std::chrono::steady_clock::now();
    const std::vector<Outcome> outcomes = run_all(families);
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
    const std::string table = text_table(outcomes);
    std::cout << table << spent.count() << " s\n";
    if (argc > 1) {
        std::ofstream(std::string(argv[1]) + "/verify.txt") << table;
        std::ofstream(std::string(argv[1]) + "/verify.json") << json(outcomes);
    }
    if (argc > 2) {
        write_page(outcomes, argv[2]);
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
