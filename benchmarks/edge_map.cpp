// A map of 100 edge conditions against one condition on the same board: pairs of runs, medians, and
// the bars that come with them.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <numbers>
#include <string>
#include <vector>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "solver/edge.hpp"

using namespace vrid;

namespace {

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

std::vector<EdgeCondition> map_of_100() {
    std::vector<EdgeCondition> all;
    for (const double angle : {25., 35., 45., 55., 65.}) {
        for (const double hardness : {5e7, 5e8, 5e9, 5e10}) {
            for (const double force : {600., 800., 1000., 1200., 1600.}) {
                EdgeCondition one;
                one.tilt = angle * std::numbers::pi / 180;
                one.hardness = hardness;
                one.force = force;
                all.push_back(one);
            }
        }
    }
    return all;
}

double seconds(const Board& board, const std::vector<EdgeCondition>& conditions,
               EdgeResult& result) {
    const auto start = std::chrono::steady_clock::now();
    EdgeOptions options;
    options.threads = 1;
    result = run_edge(board, conditions, options);
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

} // namespace

int main() {
    const Board board =
        read_board(std::string(VRID_SOURCE_DIR) + "/examples/nh-157-querwind/board.toml",
                   load_material_library());
    const std::vector<EdgeCondition> map = map_of_100();
    EdgeResult result;
    std::vector<double> one;
    std::vector<double> hundred;
    std::vector<double> ratio;
    for (int pair = 0; pair < 7; ++pair) {
        one.push_back(seconds(board, {map[37]}, result));
        hundred.push_back(seconds(board, map, result));
        ratio.push_back(hundred.back() / one.back());
    }
    double bar = 0;
    int steps = 0;
    for (const EdgeConditionResult& condition : result.conditions) {
        const Quantity& peak = condition.numbers.front().quantity;
        bar = std::max(bar, peak.error / peak.value);
        steps = std::max(steps, condition.steps);
    }
    std::printf("one condition %.3f s, 100 conditions %.3f s, ratio %.2f (medians of %zu pairs)\n",
                median(one), median(hundred), median(ratio), ratio.size());
    std::printf("%d unknowns, largest bar of a peak %.2g %%, at most %d Newton steps\n",
                result.unknowns, 100 * bar, steps);
}
