#include "benchmarks/measure/bend_cost.hpp"
#include "benchmarks/measure/parts.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"

namespace vrid::measure {

std::vector<Row> bend_rows(const Means& means) {
    const BendCost cost =
        bend_cost(read_board(means.example("nh-157-querwind"), load_material_library()), 3);
    const std::string unit = "plain solves";
    return {
        at_most(4, "centre-flex to 60 mm, two twists, bars", cost.over_plain(cost.bent), 12, unit),
        at_most(4, "edge hold --bent, one condition, bars", cost.over_plain(cost.edge), 20, unit),
        at_most(4, "derivatives of three bent numbers, beyond them", cost.slopes_over_plain(), 1,
                unit)};
}

} // namespace vrid::measure
