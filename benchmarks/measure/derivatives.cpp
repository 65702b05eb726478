#include "benchmarks/measure/derivative_share.hpp"
#include "benchmarks/measure/parts.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"

namespace vrid::measure {

std::vector<Row> derivative_rows(const Means& means) {
    const Board board = read_board(means.example("nh-157-querwind"), load_material_library());
    return {at_most(0, "all derivatives of the static cases, beyond one solve",
                    derivative_share(board, 7), 1, "solves")};
}

} // namespace vrid::measure
