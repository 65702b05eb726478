// The table of speed: every target of the list with what is measured here and now, met or not.
//     cmake --build build --target measure
// or single parts: bench_measure [library elimination start bend scatter build growth lot suite
// derivatives edge-map]. Ten minutes or so on a quiet machine. The targets, by number:
//  1  at least ten times as fast as a general finite element library at equal error, on every row
//  2  factorisation at 1e6 unknowns within 1.5 of the limit set by dense multiplication, at 1e5
//     within 2, all within 2.5; memory like N log N
//  3  `vrid --version` and `check` under 30 ms, `solve` under 60 ms beyond its phases
//  4  a bending case to 60 mm with its twists and bars below 12 solves of the seven cases, the bent
//     edge below 20, derivatives of bent numbers below one more
//  5  `scatter`: deviation and yield as sure as 2000 plain samples, for at most 25 solves
//  6  README's first command under 4 minutes, its test command under 8
//  7  nothing worse than N^1.5 up to 1e6 unknowns; lots of 1e5 boards under 10 s; suites of 1e4
//  jobs
//     without a slow summary
//  0  what the guide for developers says beside these
#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <string>
#include <vector>

#include <unistd.h>

#include "benchmarks/measure/machine.hpp"
#include "benchmarks/measure/parts.hpp"
#include "benchmarks/measure/runs.hpp"
#include "solver/system/large_memory.hpp"

namespace {

using namespace vrid::measure;

struct Part {
    const char* name;
    std::vector<Row> (*rows)(const Means&);
};
constexpr Part parts[]{{"library", library_rows},  {"elimination", elimination_rows},
                       {"start", start_rows},      {"bend", bend_rows},
                       {"scatter", scatter_rows},  {"build", build_rows},
                       {"growth", growth_rows},    {"lot", lot_rows},
                       {"suite", suite_rows},      {"derivatives", derivative_rows},
                       {"edge-map", edge_map_rows}};

// What goes wrong in one part does not take the others' figures along.
std::vector<Row> rows_of(const Part& part, const Means& means) {
    try {
        return part.rows(means);
    } catch (const std::exception& error) {
        return {not_here(0, part.name, "-", error.what())};
    }
}

bool known(const std::string& name) {
    return std::any_of(std::begin(parts), std::end(parts),
                       [&](const Part& part) { return name == part.name; });
}

} // namespace

int main(int count, char** words) {
    const std::vector<std::string> chosen(words + 1, words + count);
    for (const std::string& name : chosen) {
        if (!known(name)) {
            std::fprintf(stderr, "%s is no part; parts:", name.c_str());
            for (const Part& part : parts) {
                std::fprintf(stderr, " %s", part.name);
            }
            std::fprintf(stderr, "\n");
            return 2;
        }
    }
    vrid::keep_freed_memory(); // as the program does
    const auto folder =
        std::filesystem::temp_directory_path() / ("vrid-measure-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder);
    const Means means{VRID_PROGRAM, VRID_SOURCE_DIR, VRID_GENERAL_FE, VRID_PYTHON, folder.string()};
    const std::string machine = machine_text();
    std::vector<Row> rows;
    for (const Part& part : parts) {
        if (!chosen.empty() && std::find(chosen.begin(), chosen.end(), part.name) == chosen.end()) {
            continue;
        }
        const double start = wall_seconds();
        std::fprintf(stderr, "%s ...", part.name);
        const std::vector<Row> found = rows_of(part, means);
        rows.insert(rows.end(), found.begin(), found.end());
        std::fprintf(stderr, " %.0f s\n", wall_seconds() - start);
    }
    std::filesystem::remove_all(folder);
    std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) {
        const auto place = [](const Row& row) { return row.target == 0 ? 99 : row.target; };
        return place(a) < place(b);
    });
    std::printf("%s\n%s", machine.c_str(), table_text(rows).c_str());
    return 0;
}
