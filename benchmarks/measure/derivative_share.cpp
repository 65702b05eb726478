#include "benchmarks/measure/derivative_share.hpp"

#include "benchmarks/measure/runs.hpp"
#include "benchmarks/plate.hpp"
#include "solver/design/board_numbers.hpp"

namespace vrid::measure {

std::vector<double> derivative_share(const Board& board, int rounds) {
    std::vector<NumberId> requests = plain_requests(board);
    std::erase_if(requests,
                  [](const NumberId& one) { return one.kind != NumberId::Kind::bench_case; });
    const auto seconds = [&](bool slopes) {
        NumbersOptions options;
        options.threads = 1;
        options.slopes = slopes;
        return seconds_of(cpu_seconds, [&] { board_numbers(board, requests, options); });
    };
    seconds(true); // the first run finds cold caches
    std::vector<double> share;
    for (int run = 0; run < rounds; ++run) {
        const double plain = seconds(false);
        share.push_back((seconds(true) - plain) / plain);
    }
    return share;
}

} // namespace vrid::measure
