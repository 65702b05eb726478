// Target of design-space: all derivatives of the seven static cases to 50 design values cost less
// than one more solve of the seven cases. Paired runs, alternating, medians.
#include <cstdio>
#include <string>

#include "benchmarks/measure/derivative_share.hpp"
#include "benchmarks/measure/runs.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "solver/design/design_board.hpp"

using namespace vrid;
using namespace vrid::measure;

int main(int argc, char** argv) {
    const std::string file = argc > 1 ? argv[1] : "examples/nh-157-querwind/board.toml";
    const Board board = read_board(file, load_material_library());
    const double share = median(derivative_share(board, 11));
    std::printf("derivatives of the static cases to %zu values: %.2f of a solve (median of paired "
                "runs; target below 1)\n",
                design_board(board).values.size(), share);
    return share < 1 ? 0 : 1;
}
