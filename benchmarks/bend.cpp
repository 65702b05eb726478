// The bent board: what it costs against the seven cases at rest (targets: one bending case to 60 mm
// with its twists, bars included, below 12 plain solves, the bent edge below 20, derivatives below
// one more). Its bars: bend_bars.cpp. Argument: rounds (default 5).
#include <cstdio>
#include <cstdlib>

#include "benchmarks/measure/bend_cost.hpp"
#include "benchmarks/measure/runs.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"

using namespace vrid;
using namespace vrid::measure;

int main(int count, char** words) {
    const int rounds = count > 1 ? std::atoi(words[1]) : 5;
    const BendCost cost = bend_cost(
        read_board(VRID_SOURCE_DIR "/examples/nh-157-querwind/board.toml", load_material_library()),
        rounds);
    for (std::size_t i = 0; i < cost.plain.size(); ++i) {
        std::printf("seven cases %.2f s, one bending case to 60 mm with two twists %.2f s, with "
                    "derivatives %.2f s, bent edge %.2f s\n",
                    cost.plain[i], cost.bent[i], cost.slopes[i], cost.edge[i]);
    }
    std::printf("bending: %.1f plain solves (target below 12), its derivatives %.1f more (target "
                "below 1), bent edge %.1f (target below 20); medians of %d runs in turn\n",
                median(cost.over_plain(cost.bent)), median(cost.slopes_over_plain()),
                median(cost.over_plain(cost.edge)), rounds);
    return 0;
}
