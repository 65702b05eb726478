#include <algorithm>
#include <cmath>

#include "io/report/axis.hpp"
#include "io/report/findings.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "io/write/csv_cell.hpp"

namespace vrid {
namespace {

constexpr std::size_t most_bars = 10;
constexpr double least_percent = 1e-3; // what a table shows
constexpr double least_change = 1e-9;  // in a bench unit: below it is rounding
constexpr double step_right = 420;     // end of the column of steps [px]
constexpr double sense_left = 440;
constexpr double bars_right = 986;
constexpr double sense_room = 66; // beyond a bar's end, for its value
constexpr double bar_row = 21;
constexpr double sense_head = 28;

/// In percent of the number, or in its unit where percent say nothing.
bool in_percent(const SensedNumber& number) {
    return std::ranges::all_of(
        number.steps, [](const StepChange& step) { return step.percent_per_step.has_value(); });
}

double shown(const StepChange& step, bool percent) {
    return percent ? step.percent_per_step.value_or(0) : step.change();
}

std::string signed_text(double value) {
    return (value > 0 ? "+" : "") + significant(value, 3);
}

std::string place(const StepChange& step) {
    return step.to + (step.x ? " at x = " + csv_cell(*step.x) + " mm" : "");
}

std::string step_text(const StepChange& step) {
    return "+" + csv_cell(round_significant(step.step, 3)) +
           (step.step_unit.empty() ? "" : " " + step.step_unit);
}

bool counts(double value, bool percent) {
    return percent ? std::abs(value) >= least_percent : std::abs(value) > least_change;
}

/// The steps that change anything, the largest first.
std::vector<StepChange> telling(const SensedNumber& number, std::size_t most) {
    const bool percent = in_percent(number);
    std::vector<StepChange> all;
    for (const StepChange& step : number.steps) {
        const double value = shown(step, percent);
        if (all.size() < most && std::isfinite(value) && counts(value, percent)) {
            all.push_back(step);
        }
    }
    return all;
}

void draw_bar(Svg& svg, const StepChange& step, double value, const Axis& x, double top) {
    const double zero = x.at(0);
    const double end = x.at(value);
    svg.text(0, top + 14, clipped(place(step), 52));
    svg.text(step_right, top + 14, step_text(step), "end", "note");
    svg.rectangle(std::min(zero, end), top + 3, std::max(std::abs(end - zero), 0.5), bar_row - 7,
                  value > 0 ? "up" : "down", place(step) + ": " + signed_text(value));
    svg.text(end + (value > 0 ? 6 : -6), top + 14, signed_text(value), value > 0 ? "start" : "end",
             "value");
}

} // namespace

std::string sense_picture(const SensedNumber& number, const std::string& id) {
    const std::vector<StepChange> steps = telling(number, most_bars);
    if (steps.empty()) {
        return "";
    }
    const bool percent = in_percent(number);
    Reach changes{0, 0};
    for (const StepChange& step : steps) {
        changes.add(shown(step, percent));
    }
    const auto [low, high] = changes;
    const Axis x{low, high, sense_left + (low < 0 ? sense_room : 0),
                 bars_right - (high > 0 ? sense_room : 0)};
    const double bottom = sense_head + bar_row * static_cast<double>(steps.size());
    Svg svg(picture_width, bottom + 20);
    const std::string unit = percent ? "%" : number.quantity.unit;
    svg.text(0, 14, "design value", "start", "note");
    svg.text(step_right, 14, "one step", "end", "note");
    svg.text(sense_left, 14, "change of " + number.name + ", " + unit, "start", "head");
    draw_ticks(svg, x, sense_head, bottom);
    std::string said;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const double value = shown(steps[i], percent);
        draw_bar(svg, steps[i], value, x, sense_head + bar_row * static_cast<double>(i));
        said += (i == 0 ? "" : "; ") + place(steps[i]) + " " + step_text(steps[i]) + ": " +
                signed_text(value) + " " + unit;
    }
    return svg.markup(id, "What one workshop step changes of " + number.name, said + ".");
}

std::string core_stations_picture(const SensedNumber& number, const std::string& id) {
    constexpr double drawn_step = 0.1; // [mm]
    const bool percent = in_percent(number);
    std::vector<std::pair<double, double>> points;
    for (const StepChange& step : number.steps) {
        if (step.to.starts_with("core.thickness_mm[") && std::isfinite(step.change())) {
            const double index = std::strtod(step.to.c_str() + step.to.find('[') + 1, nullptr);
            points.emplace_back(step.x.value_or(index),
                                shown(step, percent) * drawn_step / step.step);
        }
    }
    const bool known = std::ranges::all_of(number.steps, [](const auto& step) {
        return step.x || !step.to.starts_with("core.thickness_mm[");
    });
    std::ranges::sort(points);
    const bool none = std::ranges::none_of(points, [&](const auto& point) {
        return counts(point.second, percent); // of the outline alone, say
    });
    if (none || points.size() < 2 || !(points.back().first > points.front().first)) {
        return "";
    }
    const Stems stems{"Where the core counts: change of " + number.name + " for +0.1 mm at each " +
                          "station, " + (percent ? "%" : number.quantity.unit),
                      known ? "station x in mm, tail to nose" : "station by its index",
                      percent ? "%" : number.quantity.unit, points};
    return stems_picture(stems, id);
}

namespace {

DataTable steps_table(const SensedNumber& number) {
    DataTable table{
        "steps that change " + number.name,
        {"design value", "x, mm", "step", "change, %", "change, " + number.quantity.unit},
        {}};
    for (const StepChange& step : telling(number, number.steps.size())) {
        table.rows.push_back({step.to, step.x ? csv_cell(*step.x) : "", step_text(step),
                              step.percent_per_step ? signed_text(*step.percent_per_step) : "",
                              signed_text(step.change())});
    }
    return table;
}

} // namespace

std::string sense_section(const SenseFindings& found) {
    std::string html;
    for (std::size_t i = 0; i < found.numbers.size(); ++i) {
        const SensedNumber& number = found.numbers[i];
        const std::string id = "sense" + std::to_string(i);
        html += number_head(number.name, number.quantity);
        const std::string bars = sense_picture(number, id + "b");
        html += bars.empty() ? "<p>None of the chosen values changes it.</p>\n"
                             : "<figure>" + bars + core_stations_picture(number, id + "s") +
                                   folded(steps_table(number)) + "</figure>\n";
        const std::string widening =
            found.outline ? widening_picture(*found.outline, number, id + "w") : "";
        html += widening.empty() ? "" : "<figure>" + widening + "</figure>\n";
    }
    if (found.outline && !found.outline->omitted.empty()) {
        html += "<p>Where to add width is not drawn for";
        for (const auto& [name, why] : found.outline->omitted) {
            html += (&name == &found.outline->omitted.front().first ? " " : "; ") + escaped(name) +
                    ": " + escaped(why);
        }
        html += ".</p>\n";
    }
    return html;
}

} // namespace vrid
