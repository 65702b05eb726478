// Every legal board is taken: `check` of many random board files in one process, through the
// reader. Prints how many were refused, slow, crashed or had a number that is not finite, with
// their seeds; the target is none of 20,000. A crash ends the process, and with it the count: the
// seed at hand is in the file named last. Arguments: first seed (default 0), boards (default
// 20000), every how manieth board is meshed and solved as well (default 0: none), that file.
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "benchmarks/plate.hpp"
#include "mesh/board/error.hpp"
#include "solver/study.hpp"
#include "tests/board_file_checks.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

constexpr double slow = 5; // seconds of processor time

struct Finding {
    unsigned seed;
    std::string what;
};

struct Count {
    std::vector<Finding> refused, slow, not_finite, unsolved;
    double longest = 0;
    int solved = 0;
};

void check(unsigned seed, const std::string& folder, const MaterialLibrary& library, bool solve,
           Count& count) {
    const double start = cpu_seconds();
    const RandomBoardFile file = random_board_file(seed);
    try {
        const Board board = read_file(file, folder, library);
        const BoardFigures figures = board_figures(board, {});
        for (const std::string& name : not_finite(figures)) {
            count.not_finite.push_back({seed, name});
        }
        const double seconds = cpu_seconds() - start;
        count.longest = std::max(count.longest, seconds);
        if (seconds > slow) {
            count.slow.push_back({seed, std::to_string(seconds) + " s"});
        }
        if (solve) {
            ++count.solved;
            run_study(board, {});
        }
    } catch (const InputError& error) {
        count.refused.push_back({seed, error.what()});
    } catch (const SolveError& error) {
        count.unsolved.push_back({seed, error.what()});
    }
}

void print(const char* what, const std::vector<Finding>& found) {
    std::printf("%-12s %zu\n", what, found.size());
    for (const Finding& one : found) {
        std::printf("    seed %u: %s\n", one.seed, one.what.c_str());
    }
}

} // namespace

int main(int words, char** word) {
    const unsigned first = words > 1 ? static_cast<unsigned>(std::atoi(word[1])) : 0;
    const unsigned boards = words > 2 ? static_cast<unsigned>(std::atoi(word[2])) : 20000;
    const unsigned solve_every = words > 3 ? static_cast<unsigned>(std::atoi(word[3])) : 0;
    const auto folder = std::filesystem::temp_directory_path() / "vrid-bench-random-boards";
    std::filesystem::create_directories(folder);
    const std::string at_hand = words > 4 ? word[4] : (folder / "seed").string();
    const MaterialLibrary library = load_material_library();
    Count count;
    for (unsigned seed = first; seed < first + boards; ++seed) {
        std::ofstream(at_hand) << seed << '\n';
        check(seed, folder.string(), library, solve_every > 0 && seed % solve_every == 0, count);
    }
    std::printf(
        "%u random board files, %.0f s of processor time, longest check %.2f s, crashes 0\n",
        boards, cpu_seconds(), count.longest);
    print("refused", count.refused);
    print("over 5 s", count.slow);
    print("not finite", count.not_finite);
    if (solve_every > 0) {
        std::printf("%d solved besides\n", count.solved);
        print("not solved", count.unsolved);
    }
    return 0;
}
