#include "benchmarks/measure/edge_map_time.hpp"

#include <numbers>

#include "benchmarks/measure/runs.hpp"
#include "benchmarks/plate.hpp"

namespace vrid::measure {

namespace {

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

} // namespace

EdgeMapTime edge_map_time(const Board& board, int rounds) {
    const std::vector<EdgeCondition> map = map_of_100();
    EdgeOptions options;
    options.threads = 1;
    EdgeMapTime time;
    for (int pair = 0; pair < rounds; ++pair) {
        time.one.push_back(seconds_of(cpu_seconds, [&] { run_edge(board, {map[37]}, options); }));
        time.hundred.push_back(
            seconds_of(cpu_seconds, [&] { time.map = run_edge(board, map, options); }));
        time.ratio.push_back(time.hundred.back() / time.one.back());
    }
    return time;
}

} // namespace vrid::measure
