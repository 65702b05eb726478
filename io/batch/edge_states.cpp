#include "io/batch/edge_states.hpp"

#include "io/batch/file_bytes.hpp"
#include "io/batch/number_table.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/edge_condition.hpp"

namespace vrid {

namespace {

EdgeState state_of(const Json& json) {
    const auto condition = read_part<WrittenCondition>(json);
    EdgeState state;
    state.name = condition.name;
    state.angle = condition.angle_deg;
    state.force = condition.force_N;
    state.hardness = condition.hardness;
    state.snow = csv_cell(state.hardness) + (condition.law == "volume" ? " N/mm3" : " N/mm2");
    state.side = condition.side;
    state.stand = state.side + " edge";
    if (condition.share != 0.5) {
        state.stand += ", share of the front foot " + csv_cell(condition.share);
    }
    state.no_equilibrium = json.value("no_equilibrium", "");
    for (const auto& [key, number] : json.items()) {
        if (number.is_object() && number.contains("value")) { // not a difference
            state.numbers[key] = quantity_in(number);
        }
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

std::vector<EdgeState> edge_states(const std::filesystem::path& folder, bool compared) {
    const Json all = Json::parse(file_bytes(folder / "edge.json"), nullptr, false);
    std::vector<EdgeState> states;
    if (!all.is_object()) {
        return states;
    }
    for (const Json& one : (compared ? all.at("compared") : all).at("conditions")) {
        states.push_back(state_of(one));
    }
    const auto file = folder / (compared ? "edge-compared.csv" : "edge.csv");
    add_curves(states, number_table(file_bytes(file), file.string()));
    return states;
}

} // namespace vrid
