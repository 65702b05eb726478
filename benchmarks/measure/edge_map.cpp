#include "benchmarks/measure/edge_map_time.hpp"
#include "benchmarks/measure/parts.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"

namespace vrid::measure {

std::vector<Row> edge_map_rows(const Means& means) {
    const Board board = read_board(means.example("nh-157-querwind"), load_material_library());
    return {at_most(0, "a map of 100 edge conditions", edge_map_time(board, 5).ratio, 2,
                    "times one condition")};
}

} // namespace vrid::measure
