// Target of the live page: from a change to first-order numbers within 50 ms, to solved numbers
// within 1.1 plain solves, process start left out. Paired runs, alternating, medians.
// Arguments: a board file (default: the example NH-157).
#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "io/live/sitting.hpp"
#include "solver/study.hpp"
#include "solver/system/stopwatch.hpp"

using namespace vrid;

namespace {

double median(std::vector<double> all) {
    std::sort(all.begin(), all.end());
    return all[all.size() / 2];
}

template <class Work> double seconds_of(const Work& work) {
    double seconds = 0;
    {
        const Stopwatch watch(seconds);
        work();
    }
    return seconds;
}

} // namespace

int main(int count, char** words) {
    const std::string file =
        count > 1 ? words[1]
                  : std::string(VRID_SOURCE_DIR) + "/examples/nh-157-querwind/board.toml";
    const Board board = read_board(file, load_material_library());
    Sitting sitting(file, {});
    const std::string revision = sitting.opened()["revision"];
    sitting.solved(revision, {}, "page", false); // the first makes the mesh
    std::vector<double> plain, still, sloped, moved, drawn;
    constexpr int runs = 9;
    constexpr double step = 0.01; // [mm]: each run is another board
    for (int run = 1; run <= runs; ++run) {
        const std::vector<Change> station{{"core.thickness_mm[3]", 2.5 + step * run, ""}};
        const std::vector<Change> foot{{"stance.width_mm", 560 - step * run, ""}};
        plain.push_back(seconds_of([&] { run_study(board, {}); }));
        drawn.push_back(seconds_of([&] { sitting.drawn(revision, station, 0).dump(); }));
        const auto solve = [&](const std::vector<Change>& changes, bool slopes) {
            return seconds_of([&] { sitting.solved(revision, changes, "page", slopes).dump(); });
        };
        still.push_back(solve(station, false));
        sloped.push_back(solve(station, true));
        moved.push_back(solve(foot, false));
    }
    const double one = median(plain);
    std::printf("%s\n", board.name.c_str());
    std::printf("a plain solve                                %6.3f s\n", one);
    std::printf("shape and check before first-order numbers   %6.3f s\n", median(drawn));
    std::printf("solved after a station moved                 %6.3f s, %.2f plain solves\n",
                median(still), median(still) / one);
    std::printf("the same with all slopes                     %6.3f s, %.2f plain solves\n",
                median(sloped), median(sloped) / one);
    std::printf("solved after the feet moved, on a new mesh   %6.3f s, %.2f plain solves\n",
                median(moved), median(moved) / one);
}
