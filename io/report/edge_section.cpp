#include <algorithm>
#include <set>

#include "io/report/edge_ridges.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/svg.hpp"
#include "io/write/csv_cell.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr std::size_t most_angles = 6;
constexpr std::size_t most_forces = 4;

/// At most `most` of the values, evenly, the ends among them.
std::vector<double> chosen(const std::set<double>& values, std::size_t most) {
    const std::vector<double> all(values.begin(), values.end());
    if (all.size() <= most) {
        return all;
    }
    std::vector<double> some;
    for (std::size_t i = 0; i < most; ++i) {
        some.push_back(all[i * (all.size() - 1) / (most - 1)]);
    }
    return some;
}

std::string tables(const Ridges& ridges, const std::string& what, const std::string& unit,
                   std::vector<double> EdgeState::*line) {
    std::vector<Curve> curves;
    for (const double angle : ridges.angles) {
        for (const double force : ridges.forces) {
            const EdgeState* state = ridges.at(angle, force);
            if (state != nullptr && !state->x.empty()) {
                curves.push_back(
                    {csv_cell(angle) + "\u00b0 " + force_name(force), state->x, state->*line});
            }
        }
    }
    return folded(curve_table(what + ", " + ridges.heading, unit, curves));
}

EdgePlaces places_of(const ReportRow& row) {
    EdgePlaces places;
    Reach along{1e9, -1e9};
    for (const EdgeState& state : row.edge) {
        if (!state.x.empty()) {
            along.add(state.x.front());
            along.add(state.x.back());
        }
    }
    if (row.drawing) {
        for (const auto& [x, y] : row.drawing->outline) {
            along.add(x);
        }
        places.outline = row.drawing->outline;
        places.contact = row.drawing->contact;
        places.feet = row.drawing->feet;
    }
    places.x = {along.low, std::max(along.high, along.low + 1), stations_left,
                picture_width - stations_right};
    return places;
}

std::string stand_pictures(const std::vector<const EdgeState*>& states, const EdgePlaces& places,
                           const std::string& id) {
    std::vector<std::string> snows; // in the order of the map
    for (const EdgeState* state : states) {
        add_once(snows, state->snow);
    }
    std::string html = "<figure>" + edge_map_picture(states, id + "m") + "</figure>\n";
    for (std::size_t k = 0; k < snows.size(); ++k) {
        Ridges ridges;
        ridges.heading = states.front()->stand + ", snow of " + snows[k];
        std::set<double> angles;
        std::set<double> forces;
        for (const EdgeState* state : states) {
            if (state->snow == snows[k]) {
                ridges.states.push_back(state);
                angles.insert(state->angle_deg);
                forces.insert(state->force_N);
            }
        }
        ridges.angles = chosen(angles, most_angles);
        ridges.forces = chosen(forces, most_forces);
        const std::string number = std::to_string(k);
        html += "<figure>" + edge_plan_picture(ridges, places, id + "p" + number) +
                force_picture(ridges, places, id + "q" + number) +
                tables(ridges, "force along the edge", "N/mm", &EdgeState::force_line) +
                angle_picture(ridges, places, id + "a" + number) +
                tables(ridges, "local edging angle", "deg", &EdgeState::angle_line) + "</figure>\n";
    }
    return html;
}

} // namespace

std::string edge_pictures(const ReportRow& row, const std::string& id) {
    if (row.edge.empty()) {
        return "";
    }
    std::vector<std::string> stands;
    for (const EdgeState& state : row.edge) {
        add_once(stands, state.stand);
    }
    EdgePlaces places = places_of(row);
    std::string html = "<h3>On its edge</h3>\n";
    for (std::size_t k = 0; k < stands.size(); ++k) {
        std::vector<const EdgeState*> states;
        for (const EdgeState& state : row.edge) {
            if (state.stand == stands[k]) {
                states.push_back(&state);
            }
        }
        if (row.drawing) {
            places.contact = row.drawing->contact_of(states.front()->side);
        }
        html += stand_pictures(states, places, id + std::to_string(k));
    }
    return html + edge_table(row.edge);
}

} // namespace vrid
