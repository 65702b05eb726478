#include <algorithm>

#include "io/report/edge_ridges.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/svg.hpp"
#include "io/write/csv_cell.hpp"

namespace vrid {

namespace {

constexpr double tallest = 110; // of the force on the edge [px]
constexpr double above = 40;    // for the title

/// Board and force on one scale of length; the force stands off the edge.
struct Plan {
    Axis x;
    double scale = 1;     // [px/mm]
    double y0 = 0;        // of the long axis [px]
    double outward = 1;   // -1: up the page, a left edge
    double per_force = 0; // [px per N/mm]
    [[nodiscard]] std::pair<double, double> at(double x_mm, double y_mm, double q) const {
        return {x.at(x_mm), y0 - y_mm * scale + outward * q * per_force};
    }
};

/// The heaviest load in every angle that has an equilibrium.
std::vector<const EdgeState*> heaviest(const Ridges& ridges) {
    std::vector<const EdgeState*> all;
    for (const double angle : ridges.angles) {
        const EdgeState* state = ridges.at(angle, ridges.forces.back());
        if (state != nullptr && !state->x.empty()) {
            all.push_back(state);
        }
    }
    return all;
}

double highest(const std::vector<const EdgeState*>& states) {
    double high = 0;
    for (const EdgeState* state : states) {
        for (const double q : state->force_line) {
            high = std::max(high, q);
        }
    }
    return high;
}

void draw_board(Svg& svg, const Plan& plan, const EdgePlaces& places) {
    Points outline;
    for (const auto& [x, y] : places.outline) {
        outline.push_back(plan.at(x, y, 0));
    }
    svg.polygon(outline, "board");
    svg.polygon(outline, "outline");
    for (const auto& foot : places.feet) {
        const auto [x, y] = plan.at(foot[0], foot[3], 0);
        svg.rectangle(x, y, (foot[2] - foot[0]) * plan.scale, (foot[3] - foot[1]) * plan.scale,
                      "foot", "foot patch");
    }
}

/// The force of one condition: a band between the edge and the edge moved outwards by it.
void draw_force(Svg& svg, const Plan& plan, const EdgeState& state, std::size_t number) {
    Points crest;
    Points edge;
    for (std::size_t i = 0; i < state.x.size(); ++i) {
        if (state.force_line[i] > 0) {
            crest.push_back(plan.at(state.x[i], state.y[i], state.force_line[i]));
            edge.push_back(plan.at(state.x[i], state.y[i], 0));
        }
    }
    if (crest.size() < 2) {
        return;
    }
    crest.insert(crest.begin(), edge.front());
    crest.push_back(edge.back());
    crest = simplified(crest, 0.15);
    Points band = crest;
    edge = simplified(edge, 0.15);
    band.insert(band.end(), edge.rbegin(), edge.rend());
    svg.polygon(band, "fill C" + std::to_string(number));
    svg.polyline(crest, curve_class(number));
}

void draw_keys(Svg& svg, const std::vector<const EdgeState*>& states) {
    double at = picture_width - stations_right;
    for (std::size_t i = states.size(); i-- > 0;) {
        svg.text(at, 14, csv_cell(states[i]->angle_deg) + "\u00b0", "end", "label");
        svg.line(at - 54, 10, at - 30, 10, curve_class(i));
        at -= 70;
    }
}

/// How far the highest curve stands from the long axis.
double reach_of(const Plan& plan, const std::vector<const EdgeState*>& states) {
    double most = 0;
    for (const EdgeState* state : states) {
        for (std::size_t i = 0; i < state->x.size(); ++i) {
            most = std::max(most, plan.scale * std::abs(state->y[i]) +
                                      plan.per_force * state->force_line[i]);
        }
    }
    return most;
}

/// How long a force is, beside the tail.
void draw_ruler(Svg& svg, const Plan& plan, double high, double base) {
    const double step = ticks_step(0, high, 4);
    const double length = step * plan.per_force;
    svg.line(stations_left - 24, base, stations_left - 24, base - length, "zero");
    svg.line(stations_left - 28, base, stations_left - 20, base, "zero");
    svg.line(stations_left - 28, base - length, stations_left - 20, base - length, "zero");
    svg.text(stations_left - 14, base - length / 2 + 4, tick_text(step, step) + " N/mm", "start",
             "tick");
}

} // namespace

std::string edge_plan_picture(const Ridges& ridges, const EdgePlaces& places,
                              const std::string& id) {
    const std::vector<const EdgeState*> states = heaviest(ridges);
    const double high = highest(states);
    if (places.outline.empty() || high <= 0) {
        return "";
    }
    const auto by_y =
        std::minmax_element(places.outline.begin(), places.outline.end(),
                            [](const auto& a, const auto& b) { return a.second < b.second; });
    Plan plan{places.x,
              (picture_width - stations_left - stations_right) / (places.x.high - places.x.low), 0,
              -1, tallest / high};
    const bool left_edge = states.front()->y[states.front()->y.size() / 2] > 0;
    const double half = plan.scale * std::max(by_y.second->second, -by_y.first->second);
    plan.outward = left_edge ? -1 : 1;
    // The waist leaves 20 px, unless the peak stands where the board is widest.
    const double more =
        left_edge ? std::max(0.0, reach_of(plan, states) - (tallest - 20 + half)) : 0;
    plan.y0 = above + (left_edge ? tallest - 20 + more : 10) + half;
    const double height = plan.y0 + half + (left_edge ? 12 : tallest);
    Svg svg(picture_width, height);
    draw_board(svg, plan, places);
    for (std::size_t i = states.size(); i-- > 0;) {
        draw_force(svg, plan, *states[i], i);
    }
    for (const double x : places.contact) {
        svg.line(plan.x.at(x), above, plan.x.at(x), height - 6, "contact");
    }
    const double base = left_edge ? above + tallest - 30 + more : height - 10;
    draw_ruler(svg, plan, high, base);
    svg.text(stations_left, 14, "Where the edge carries " + force_name(ridges.forces.back()),
             "start", "head");
    svg.text(stations_left, 30, ridges.heading, "start", "note");
    draw_keys(svg, states);
    return svg.markup(id, "Where the edge carries, " + ridges.heading,
                      "The board from above, nose to the right, with the force on its edge drawn "
                      "outwards, one curve for each edging angle. Up to " +
                          significant(high, 3) + " N/mm.");
}

} // namespace vrid
