// A map of 100 edge conditions against one condition on the same board: pairs of runs, medians, and
// the bars that come with them.
#include <algorithm>
#include <cstdio>
#include <string>

#include "benchmarks/measure/edge_map_time.hpp"
#include "benchmarks/measure/runs.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"

using namespace vrid;
using namespace vrid::measure;

int main() {
    const Board board =
        read_board(std::string(VRID_SOURCE_DIR) + "/examples/nh-157-querwind/board.toml",
                   load_material_library());
    const EdgeMapTime time = edge_map_time(board, 7);
    double bar = 0;
    int steps = 0;
    for (const EdgeConditionResult& condition : time.map.conditions) {
        const Quantity& peak = condition.numbers.front().quantity;
        bar = std::max(bar, peak.error / peak.value);
        steps = std::max(steps, condition.steps);
    }
    std::printf("one condition %.3f s, 100 conditions %.3f s, ratio %.2f (medians of %zu pairs)\n",
                median(time.one), median(time.hundred), median(time.ratio), time.ratio.size());
    std::printf("%d unknowns, largest bar of a peak %.2g %%, at most %d Newton steps\n",
                time.map.unknowns, 100 * bar, steps);
}
