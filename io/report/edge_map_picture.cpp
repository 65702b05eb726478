#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/edge_report.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr double block_gap = 36;
constexpr double label = 44; // room for the angles beside a panel
constexpr double cell_high = 28;
constexpr int map_shades = 6;

struct Measure {
    const char* key;
    const char* title;
};

// What a designer asks of an edge, in the order of README's reading guide.
constexpr std::array<Measure, 6> measures{{{"peak", "Peak force"},
                                           {"effective_length", "Effective length"},
                                           {"loss_nose", "Edge angle lost at the nose"},
                                           {"loss_tail", "Edge angle lost at the tail"},
                                           {"contact_length", "Contact length"},
                                           {"turn_radius", "Turn radius on the snow"}}};

/// The values that the map runs over, and its conditions.
struct Map {
    const std::vector<const EdgeState*>& states;
    std::set<double> angles, forces;
    std::vector<std::string> snows; // in the order of the map
};

Map map_of(const std::vector<const EdgeState*>& states) {
    Map map{states, {}, {}, {}};
    for (const EdgeState* state : states) {
        map.angles.insert(state->angle_deg);
        map.forces.insert(state->force_N);
        add_once(map.snows, state->snow);
    }
    return map;
}

const BenchQuantity* number_of(const EdgeState& state, const char* key) {
    const auto found = state.numbers.find(key);
    return found == state.numbers.end() || !std::isfinite(found->second.value) ? nullptr
                                                                               : &found->second;
}

struct Range : Reach {
    std::string unit;
};

Range range_of(const Map& map, const char* key) {
    Range range;
    for (const EdgeState* state : map.states) {
        if (const BenchQuantity* number = number_of(*state, key)) {
            range.add(number->value);
            range.unit = number->unit;
        }
    }
    return range;
}

int shade(const Range& range, double value) {
    const double share =
        range.high > range.low ? (value - range.low) / (range.high - range.low) : 0;
    return std::clamp(static_cast<int>(share * map_shades), 0, map_shades - 1);
}

struct MapFrame {
    double left = 0, top = 0, cell = 0; // of a panel [px]
};

/// Empty without the number.
std::string cell_text(const EdgeState& state, const char* key, const char* between) {
    const BenchQuantity* number = number_of(state, key);
    if (number == nullptr) {
        return "";
    }
    const RoundedNumber shown = rounded(number->value, number->error);
    return shown.value + (shown.error.empty() ? "" : between + shown.error);
}

void draw_cell(Svg& svg, const EdgeState& state, const MapFrame& at, const Measure& measure,
               const Range& range) {
    const BenchQuantity* number = number_of(state, measure.key);
    const std::string level =
        number == nullptr ? "none" : "M" + std::to_string(shade(range, number->value));
    svg.rectangle(at.left, at.top, at.cell - 2, cell_high - 2, "cell " + level,
                  state.name + ": " +
                      (number == nullptr
                           ? std::string(state.no_equilibrium)
                           : std::string(measure.title) + " " +
                                 cell_text(state, measure.key, " +- ") + " " + number->unit));
    svg.text(at.left + at.cell / 2 - 1, at.top + cell_high / 2 + 3,
             number == nullptr ? "none" : significant(number->value, 3), "middle",
             "value V" + level.substr(level.size() - 1));
}

/// One snow: forces across, angles upwards.
void draw_panel(Svg& svg, const Map& map, const std::string& snow, const MapFrame& frame,
                const Measure& measure) {
    const Range range = range_of(map, measure.key);
    const double base = frame.top + cell_high * static_cast<double>(map.angles.size());
    for (const EdgeState* state : map.states) {
        if (state->snow != snow) {
            continue;
        }
        const auto column = std::distance(map.forces.begin(), map.forces.find(state->force_N));
        const auto row = std::distance(map.angles.begin(), map.angles.find(state->angle_deg));
        draw_cell(svg, *state,
                  {frame.left + frame.cell * static_cast<double>(column),
                   base - cell_high * static_cast<double>(row + 1), frame.cell},
                  measure, range);
    }
    double at = frame.left + frame.cell / 2 - 1;
    for (const double force : map.forces) {
        svg.text(at, base + 12, csv_cell(force) + " N", "middle", "tick");
        at += frame.cell;
    }
    svg.text(frame.left + frame.cell * static_cast<double>(map.forces.size()) / 2, base + 27,
             "snow " + snow, "middle", "note");
}

void draw_block(Svg& svg, const Map& map, const Measure& measure, const MapFrame& block,
                double panel) {
    const Range range = range_of(map, measure.key);
    svg.text(block.left, block.top + 12,
             std::string(measure.title) + (range.unit.empty() ? "" : ", " + range.unit), "start",
             "head");
    const double first = block.top + 24;
    double row = first + cell_high * static_cast<double>(map.angles.size()) - cell_high / 2 + 3;
    for (const double angle : map.angles) {
        svg.text(block.left + label - 8, row, csv_cell(angle) + "\u00b0", "end", "tick");
        row -= cell_high;
    }
    double left = block.left + label;
    for (const std::string& snow : map.snows) {
        draw_panel(svg, map, snow, {left, first, block.cell}, measure);
        left += panel;
    }
}

} // namespace

std::string edge_map_picture(const std::vector<const EdgeState*>& states, const std::string& id) {
    const Map map = map_of(states);
    const auto panels = static_cast<double>(map.snows.size());
    const auto columns = static_cast<double>(map.forces.size());
    constexpr double narrowest = 46; // of a cell with its number
    const double half = (picture_width - block_gap) / 2;
    const bool two = (half - label) / panels - 14 >= narrowest * columns; // side by side
    const double wide = two ? half : picture_width;
    const double panel = (wide - label) / panels;
    const double cell = (panel - (panels > 1 ? 14 : 0)) / columns;
    const double high = 24 + cell_high * static_cast<double>(map.angles.size()) + 50;
    const auto count = static_cast<double>(measures.size());
    Svg svg(picture_width, 36 + high * (two ? count / 2 : count));
    svg.text(0, 14, "The map: edging angle, load and snow", "start", "head");
    svg.text(picture_width, 14, states.front()->stand + "; the stronger the colour, the more",
             "end", "note");
    for (std::size_t i = 0; i < measures.size(); ++i) {
        const double left = two && i % 2 == 1 ? half + block_gap : 0;
        const double row = static_cast<double>(two ? i / 2 : i);
        draw_block(svg, map, measures[i], {left, 36 + row * high, cell}, panel);
    }
    return svg.markup(
        id, "The map over edging angle, load and snow, " + states.front()->stand,
        "Six tables in colour: peak force, effective length, edge angle lost at nose and tail, "
        "contact length, turn radius. Angles upwards, loads across, a panel for each snow; every "
        "cell says its number. All are in the table below.");
}

std::string edge_table(const std::vector<EdgeState>& edge) {
    DataTable table{"all numbers of the edge", {"condition"}, {}};
    std::map<std::string, std::string> units;
    for (const EdgeState& state : edge) {
        for (const auto& [key, number] : state.numbers) {
            units.emplace(key, number.unit);
        }
    }
    for (const auto& [key, unit] : units) {
        table.columns.push_back(in_words(key) + (unit.empty() ? "" : ", " + unit));
    }
    for (const EdgeState& state : edge) {
        std::vector<std::string> row{state.name +
                                     (state.no_equilibrium.empty() ? "" : ": no equilibrium, ") +
                                     state.no_equilibrium};
        for (const auto& [key, unit] : units) {
            row.push_back(cell_text(state, key.c_str(), " \u00b1 "));
        }
        table.rows.push_back(row);
    }
    return folded(table);
}

} // namespace vrid
