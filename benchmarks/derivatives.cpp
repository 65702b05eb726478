// Target of design-space: all derivatives of the seven static cases to 50 design values cost less
// than one more solve of the seven cases. Paired runs, alternating, medians.
#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "io/read/read_board.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/system/stopwatch.hpp"

using namespace vrid;

namespace {

double median(std::vector<double> all) {
    std::sort(all.begin(), all.end());
    return all[all.size() / 2];
}

double seconds_of(const Board& board, const std::vector<NumberId>& requests, bool slopes) {
    NumbersOptions options;
    options.slopes = slopes;
    double seconds = 0;
    {
        const Stopwatch watch(seconds);
        board_numbers(board, requests, options);
    }
    return seconds;
}

} // namespace

int main(int argc, char** argv) {
    const std::string file = argc > 1 ? argv[1] : "examples/nh-157-querwind/board.toml";
    const Board board = read_board(file, load_material_library());
    std::vector<NumberId> requests = plain_requests(board);
    std::erase_if(requests,
                  [](const NumberId& one) { return one.kind != NumberId::Kind::bench_case; });
    seconds_of(board, requests, true); // the first run finds cold caches
    std::vector<double> ratio;
    for (int run = 0; run < 11; ++run) {
        const double plain = seconds_of(board, requests, false);
        const double both = seconds_of(board, requests, true);
        ratio.push_back((both - plain) / plain);
        std::printf("solve %.3f s, with derivatives %.3f s\n", plain, both);
    }
    std::printf("derivatives of %zu numbers to %zu values: %.2f of a solve (median of paired "
                "runs; target below 1)\n",
                requests.size(), design_board(board).values.size(), median(ratio));
    return median(ratio) < 1 ? 0 : 1;
}
