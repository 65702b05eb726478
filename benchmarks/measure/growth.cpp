#include <cmath>

#include "benchmarks/measure/elimination_time.hpp"
#include "benchmarks/measure/parts.hpp"
#include "benchmarks/measure/runs.hpp"
#include "io/batch/batch_run.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "solver/study.hpp"
#include "solver/system/free_memory.hpp"

namespace vrid::measure {

namespace {

struct Study {
    double unknowns = 0, seconds = 0;
};

StudyOptions with_quads(double size) {
    StudyOptions options;
    options.threads = 1;
    options.max_size = size;
    return options;
}

// All cases and modes with bars, mesh and sections included.
Study study(const Board& board, double size) {
    Study one;
    one.seconds = seconds_of(cpu_seconds,
                             [&] { one.unknowns = run_study(board, with_quads(size)).unknowns; });
    return one;
}

// Quads for about so many unknowns: strips and bands do not follow the size, so by trying meshes.
double size_for(const Board& board, double unknowns) {
    double size = 0.01; // [m]
    for (int i = 0; i < 5; ++i) {
        const double found = prepare_study(board, with_quads(size))->unknowns;
        if (std::abs(found / unknowns - 1) < 0.1) {
            break;
        }
        size *= std::sqrt(found / unknowns);
    }
    return size;
}

} // namespace

std::vector<Row> growth_rows(const Means& means) {
    const Board board = read_board(means.example("nh-157-querwind"), load_material_library());
    constexpr double target = 1e6;
    const double free = free_memory().process;
    if (free < job_bytes(static_cast<int>(1.1 * target))) {
        return {not_here(7, "whole study: exponent of N up to 1e6", "at most 1.5",
                         "it takes 10 GB of free memory")};
    }
    constexpr double usual = 0.08; // [m]
    study(board, usual);           // finds cold caches
    std::vector<double> seconds;
    Study small;
    for (int i = 0; i < 3; ++i) {
        small = study(board, usual);
        seconds.push_back(small.seconds);
    }
    small.seconds = median(seconds);
    const Study large = study(board, size_for(board, target));
    Row row =
        at_most(7, "whole study, modes and bars: exponent of N",
                {exponent(small.unknowns, large.unknowns, small.seconds, large.seconds)}, 1.5);
    row.figure += ", " + number_text(small.unknowns) + " to " + number_text(large.unknowns) +
                  " unknowns, " + number_text(small.seconds) + " to " + number_text(large.seconds) +
                  " s";
    return {row};
}

} // namespace vrid::measure
