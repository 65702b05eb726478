#include <algorithm>
#include <cmath>

#include "io/report/edge_ridges.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/svg.hpp"
#include "io/write/csv_cell.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr double ridge_top = 44;
constexpr double ridge_band = 84; // of one edging angle
constexpr double gap = 16;
Points placed(const EdgeState& state, const std::vector<double>& line, const Axis& x,
              const Axis& y) {
    Points points;
    for (std::size_t i = 0; i < state.x.size(); ++i) {
        points.emplace_back(x.at(state.x[i]), y.at(line[i]));
    }
    return simplified(points, 0.15);
}

/// What lies behind every band: feet, contact stations, the floor.
void draw_ground(Svg& svg, const EdgePlaces& places, const Axis& y) {
    for (const auto& foot : places.feet) {
        svg.rectangle(places.x.at(foot[0]), y.to, places.x.at(foot[2]) - places.x.at(foot[0]),
                      y.from - y.to, "under-foot");
    }
    for (const double x : places.contact) {
        svg.line(places.x.at(x), y.to, places.x.at(x), y.from, "contact");
    }
}

void draw_head(Svg& svg, const Ridges& ridges, const std::string& title) {
    svg.text(stations_left, 14, title, "start", "head");
    svg.text(stations_left, 30, ridges.heading, "start", "note");
    draw_keys(svg, each_of(ridges.forces, force_name));
}

void draw_length(Svg& svg, const Axis& x, double base) {
    draw_stations(svg, x, base);
    svg.text(picture_width - stations_right, base + 33, "nose, x in mm", "end", "note");
    svg.text(stations_left, base + 33, "tail", "start", "note");
}

Axis band_axis(std::size_t row, double low, double high) {
    const double base = ridge_top + (ridge_band + gap) * static_cast<double>(row) + ridge_band;
    return {low, high, base, base - ridge_band};
}

void draw_no_rest(Svg& svg, const Axis& y, const std::string& force, std::size_t line) {
    svg.text(stations_left + 70, y.to + 14 + 14 * static_cast<double>(line),
             force + ": no equilibrium", "start", "label");
}

/// The peak with its number, unless that would stand on one of `taken`.
void label_peak(Svg& svg, const EdgeState& state, const Axis& x, const Axis& y, Points& taken) {
    constexpr double wide = 34; // of a number [px]
    constexpr double high = 15;
    const auto peak = std::ranges::max_element(state.force_line);
    if (peak == state.force_line.end() || *peak <= 0) {
        return;
    }
    const std::pair<double, double> at{
        x.at(state.x[static_cast<std::size_t>(peak - state.force_line.begin())]), y.at(*peak)};
    svg.circle(at.first, at.second, 2.6, "peak");
    const bool free = std::ranges::none_of(taken, [&](const auto& other) {
        return std::abs(other.first - at.first) < wide && std::abs(other.second - at.second) < high;
    });
    if (free) {
        taken.push_back(at);
        svg.text(std::clamp(at.first, stations_left + 40, picture_width - stations_right - 40),
                 at.second - 6, significant(*peak, 3), "middle", "label");
    }
}

/// Thick where the edge holds, thin where it is in the air.
void draw_angle(Svg& svg, const EdgeState& state, const EdgePlaces& places, const Axis& y,
                std::size_t number) {
    const std::string colour = " C" + std::to_string(number);
    svg.polyline(placed(state, state.angle_line, places.x, y), "curve air" + colour);
    Points held;
    for (std::size_t i = 0; i <= state.x.size(); ++i) {
        if (i < state.x.size() && state.force_line[i] > 0) {
            held.emplace_back(places.x.at(state.x[i]), y.at(state.angle_line[i]));
        } else if (!held.empty()) {
            svg.polyline(simplified(held, 0.15), "curve held" + colour);
            held.clear();
        }
    }
}

} // namespace

const EdgeState* Ridges::at(double angle, double force) const {
    const auto found = std::ranges::find_if(states, [&](const EdgeState* one) {
        return one->angle_deg == angle && one->force_N == force;
    });
    return found == states.end() ? nullptr : *found;
}

std::string force_name(double force) {
    return csv_cell(force) + " N";
}

std::string force_picture(const Ridges& ridges, const EdgePlaces& places, const std::string& id) {
    double high = 0;
    for (const EdgeState* state : ridges.states) {
        for (const double q : state->force_line) {
            high = std::max(high, q);
        }
    }
    if (high <= 0) {
        return "";
    }
    Svg svg(picture_width, band_axis(ridges.angles.size() - 1, 0, 1).from + 38);
    for (std::size_t row = 0; row < ridges.angles.size(); ++row) {
        const Axis y = band_axis(row, 0, high * 1.18); // room for the peak's number
        draw_ground(svg, places, y);
        draw_levels(svg, y, 3);
        svg.text(stations_left + 8, y.to + 14, csv_cell(ridges.angles[row]) + "\u00b0", "start",
                 "big");
        std::size_t missing = 0;
        Points taken;
        for (std::size_t i = ridges.forces.size(); i-- > 0;) { // the heaviest behind
            const EdgeState* state = ridges.at(ridges.angles[row], ridges.forces[i]);
            if (state != nullptr && state->x.empty()) {
                draw_no_rest(svg, y, force_name(ridges.forces[i]), missing++);
            } else if (state != nullptr) {
                Points points = placed(*state, state->force_line, places.x, y);
                const Points line = points;
                points.emplace_back(points.back().first, y.from);
                points.emplace_back(points.front().first, y.from);
                svg.polygon(points, "fill C" + std::to_string(i));
                svg.polyline(line, curve_class(i));
                label_peak(svg, *state, places.x, y, taken);
            }
        }
    }
    draw_head(svg, ridges, "Force along the edge, N/mm");
    draw_length(svg, places.x, band_axis(ridges.angles.size() - 1, 0, 1).from);
    return svg.markup(id, "Force along the edge, " + ridges.heading,
                      "One band for each edging angle, one filled curve for each load, tail to "
                      "nose, with the peak marked. Up to " +
                          significant(high, 3) +
                          " N/mm. Grey: the feet; dashed: the contact "
                          "stations.");
}

std::string angle_picture(const Ridges& ridges, const EdgePlaces& places, const std::string& id) {
    double span = 0;
    for (const EdgeState* state : ridges.states) {
        for (const double angle : state->angle_line) {
            span = std::max(span, std::abs(angle - state->angle_deg));
        }
    }
    if (span <= 0) {
        return "";
    }
    Svg svg(picture_width, band_axis(ridges.angles.size() - 1, 0, 1).from + 38);
    for (std::size_t row = 0; row < ridges.angles.size(); ++row) {
        const double angle = ridges.angles[row];
        const Axis y = band_axis(row, angle - 1.1 * span, angle + 1.1 * span);
        draw_ground(svg, places, y);
        draw_levels(svg, y, 4, angle);
        svg.line(stations_left, y.at(angle), picture_width - stations_right, y.at(angle),
                 "zero"); // often between two ticks
        svg.text(picture_width - stations_right - 4, y.at(angle) - 4, csv_cell(angle) + "\u00b0",
                 "end", "tick");
        svg.text(stations_left + 8, y.to + 14, csv_cell(angle) + "\u00b0", "start", "big");
        for (std::size_t i = ridges.forces.size(); i-- > 0;) {
            const EdgeState* state = ridges.at(angle, ridges.forces[i]);
            if (state != nullptr && !state->x.empty()) {
                draw_angle(svg, *state, places, y, i);
            }
        }
    }
    draw_head(svg, ridges, "Local edging angle, deg; thin where the edge is in the air");
    draw_length(svg, places.x, band_axis(ridges.angles.size() - 1, 0, 1).from);
    return svg.markup(id, "Local edging angle, " + ridges.heading,
                      "One band for each edging angle, one curve for each load, tail to nose: "
                      "below the middle line edge angle is lost. Thick where the edge is in the "
                      "snow, thin where it is in the air.");
}

} // namespace vrid
