#include "io/batch/folder_results.hpp"

#include "io/batch/file_bytes.hpp"
#include "io/write/csv_cell.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

EdgeState state_of(const FoundCondition& condition) {
    EdgeState state{condition};
    state.snow = csv_cell(state.hardness) + (state.law == "volume" ? " N/mm3" : " N/mm2");
    state.stand = state.side + " edge";
    if (state.share != 0.5) {
        state.stand += ", share of the front foot " + csv_cell(state.share);
    }
    return state;
}

void add_curves(std::vector<EdgeState>& states, const StationTable& table) {
    const auto* condition = table.column("condition");
    const auto* x = table.column("x_mm");
    const auto* y = table.column("y_mm");
    const auto* q = table.column("q_Npmm");
    const auto* angle = table.column("angle_deg");
    if (condition == nullptr || x == nullptr || y == nullptr || q == nullptr || angle == nullptr) {
        return;
    }
    for (std::size_t i = 0; i < angle->size(); ++i) { // a line that was cut off has fewer cells
        const double number = (*condition)[i];
        if (number >= 1 && number <= static_cast<double>(states.size())) {
            EdgeState& state = states[static_cast<std::size_t>(number) - 1];
            state.x.push_back((*x)[i]);
            state.y.push_back((*y)[i]);
            state.force_line.push_back((*q)[i]);
            state.angle_line.push_back((*angle)[i]);
        }
    }
}

} // namespace

std::vector<EdgeState> edge_states(const FoundEdge& edge, const std::filesystem::path& curves) {
    std::vector<EdgeState> states =
        each_of(edge.conditions, [](const FoundCondition& one) { return state_of(one); });
    add_curves(states, number_table(file_bytes(curves), curves.string()));
    return states;
}

} // namespace vrid
