#include <algorithm>
#include <cmath>

#include "io/report/findings.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"

namespace vrid {
namespace {

constexpr double plot_left = 470;
constexpr double plot_right = 850;
constexpr double telling_correlation = 0.9; // that a person should know of

std::string with_sd(double value, double sd) {
    const RoundedNumber shown = rounded(value, sd);
    return shown.value + (shown.error.empty() ? "" : " \u00b1 " + shown.error);
}

/// A mark of its own shape for each state: ring before, dot after, square held, diamond off.
enum class ReadingMark { before, after, held, off };

void draw_mark(Svg& svg, double x, double y, ReadingMark mark) {
    if (!std::isfinite(x)) {
        return; // its number says so
    }
    switch (mark) {
    case ReadingMark::before:
        svg.circle(x, y, 5, "before");
        break;
    case ReadingMark::after:
        svg.circle(x, y, 5, "after");
        break;
    case ReadingMark::held:
        svg.rectangle(x - 5, y - 5, 10, 10, "after");
        break;
    case ReadingMark::off:
        svg.polygon({{x - 8, y}, {x, y - 8}, {x + 8, y}, {x, y + 8}}, "misfit");
        break;
    }
}

void draw_whisker(Svg& svg, double from, double to, double y, const std::string& kind) {
    if (!std::isfinite(to - from)) {
        return;
    }
    svg.line(from, y, to, y, "whisker" + kind);
    svg.line(from, y - 4, from, y + 4, "whisker" + kind);
    svg.line(to, y - 4, to, y + 4, "whisker" + kind);
}

/// Ring and dot with their names, from `left` on.
void draw_keys(Svg& svg, double left) {
    draw_mark(svg, left + 6, 10, ReadingMark::before);
    svg.text(left + 16, 14, "before");
    draw_mark(svg, left + 72, 10, ReadingMark::after);
    svg.text(left + 82, 14, "after");
}

void draw_value(Svg& svg, const CalibratedValue& value, double top) {
    const double prior = value.prior_sd.value_or(0);
    double low = std::min(value.before - prior, value.after - value.sd);
    double high = std::max(value.before + prior, value.after + value.sd);
    const double room = 0.05 * (high - low);
    low -= room;
    high += room;
    const Axis x = axis_over(low, high, plot_left, picture_width - 30);
    svg.text(0, top + 16, clipped(value.path, 62));
    const std::string unit = value.unit.empty() ? "" : " " + value.unit;
    const std::string was =
        value.prior_sd ? with_sd(value.before, prior) : significant(value.before, 5) + " (open)";
    const std::string is =
        value.at_limit ? significant(value.after, 5) : with_sd(value.after, value.sd);
    svg.text(0, top + 33, was + " \u2192 " + is + unit, "start", "note");
    if (value.at_limit) {
        svg.text(plot_left - 16, top + 33, "at its limit", "end", "alert");
    }
    draw_ticks(svg, x, top + 4, top + 36);
    if (value.prior_sd) {
        draw_whisker(svg, x.at(value.before - prior), x.at(value.before + prior), top + 13, "");
    }
    if (!value.at_limit) {
        draw_whisker(svg, x.at(value.after - value.sd), x.at(value.after + value.sd), top + 27,
                     " now");
    }
    draw_mark(svg, x.at(value.before), top + 13, ReadingMark::before);
    draw_mark(svg, x.at(value.after), top + 27,
              value.at_limit ? ReadingMark::held : ReadingMark::after);
}

/// Computed less bench, in deviations of the reading.
double off(const CalibratedReading& reading, double computed) {
    return (computed - reading.value) / reading.sd;
}

/// All answers after the fit, those before it as far as they do not squeeze the rest.
double reach(const std::vector<CalibratedReading>& readings) {
    constexpr double least = 3;
    constexpr double most_before = 8;
    double after = least;
    double before = least;
    for (const CalibratedReading& reading : readings) {
        after = std::max(after, std::abs(off(reading, reading.after.value)));
        before = std::max(before, std::abs(off(reading, reading.before.value)));
    }
    return 1.08 * std::max(after, std::min(before, std::max(most_before, 2 * after)));
}

/// A mark, or where it would lie beyond the picture an arrow with how far.
void draw_before(Svg& svg, const Axis& x, double value, double y) {
    if (!(std::abs(value) > x.high)) {
        draw_mark(svg, x.at(value), y, ReadingMark::before);
        return;
    }
    const double side = value > 0 ? 1 : -1;
    const double tip = value > 0 ? x.to : x.from;
    svg.polygon({{tip, y}, {tip - side * 9, y - 5}, {tip - side * 9, y + 5}}, "before");
    svg.text(tip - side * 13, y + 4, fixed(value, 0), value > 0 ? "end" : "start", "note");
}

void draw_reading(Svg& svg, const CalibratedReading& reading, const Axis& x, double top) {
    const double y = top + 14;
    svg.text(0, y + 4, clipped(reading.number, 32));
    svg.text(plot_left - 16, y + 4,
             with_sd(reading.value, reading.sd) + (reading.unit.empty() ? "" : " " + reading.unit),
             "end", "note");
    svg.line(x.from, y, x.to, y, "grid");
    draw_before(svg, x, off(reading, reading.before.value), y);
    draw_mark(svg, x.at(off(reading, reading.after.value)), y,
              reading.fits ? ReadingMark::after : ReadingMark::off);
    svg.text(plot_right + 16, y + 4,
             (reading.fits ? "fits, " : "does not fit, ") + fixed(std::abs(reading.residual), 1),
             "start", reading.fits ? "note" : "alert");
}

DataTable values_table(const std::vector<CalibratedValue>& values) {
    DataTable table{
        "fitted values", {"value", "unit", "before", "sd", "after", "sd after", ""}, {}};
    for (const CalibratedValue& one : values) {
        table.rows.push_back({one.path, one.unit, significant(one.before, 5),
                              one.prior_sd ? significant(*one.prior_sd, 2) : "open",
                              significant(one.after, 5), one.at_limit ? "" : significant(one.sd, 2),
                              one.at_limit ? "at its limit" : ""});
    }
    return table;
}

DataTable readings_table(const std::vector<CalibratedReading>& readings) {
    DataTable table{
        "readings", {"reading", "unit", "bench", "sd", "before", "after", "off by, sd", ""}, {}};
    for (const CalibratedReading& one : readings) {
        table.rows.push_back({one.number, one.unit, significant(one.value, 5),
                              significant(one.sd, 2), significant(one.before.value, 5),
                              significant(one.after.value, 5), fixed(one.residual, 1),
                              one.fits ? "fits" : "does not fit"});
    }
    return table;
}

std::string doubts(const CalibrationFindings& found) {
    std::string items;
    const auto add = [&](const std::string& text) {
        items.append("<li>").append(escaped(text)).append("</li>\n");
    };
    for (const CalibratedReading& one : found.readings) {
        if (!one.fits) {
            add("The reading of " + one.number + " does not fit: it is " +
                fixed(std::abs(one.residual), 1) +
                " standard deviations off what all the others allow. Measure it again.");
        }
    }
    for (const IndistinctPair& pair : found.indistinct) {
        add("These readings cannot tell " + pair.a + " and " + pair.b +
            " apart; how the change is shared between them follows from their tolerances.");
    }
    for (const std::string& path : found.untouched) {
        add(std::string("These readings say almost nothing about ").append(path).append("."));
    }
    const std::size_t count = found.values.size();
    for (std::size_t i = 0; i < std::min(found.correlation.size(), count); ++i) {
        for (std::size_t j = i + 1; j < std::min(found.correlation[i].size(), count); ++j) {
            if (const double c = found.correlation[i][j]; std::abs(c) > telling_correlation) {
                add("Correlated: " + found.values[i].path + " and " + found.values[j].path + ", " +
                    fixed(c, 2) + ".");
            }
        }
    }
    return items.empty() ? "" : "<h3>What to doubt</h3>\n<ul>" + items + "</ul>\n";
}

} // namespace

std::string values_picture(const std::vector<CalibratedValue>& values, const std::string& id) {
    constexpr double row = 58;
    constexpr double head = 28;
    if (values.empty()) {
        return "";
    }
    Svg svg(picture_width, head + row * static_cast<double>(values.size()));
    svg.text(0, 14, "Fitted values", "start", "head");
    draw_keys(svg, plot_left);
    svg.text(986, 14, "bars: one standard deviation; each row has its own scale", "end", "note");
    std::string said;
    for (std::size_t i = 0; i < values.size(); ++i) {
        draw_value(svg, values[i], head + row * static_cast<double>(i));
        said += (i == 0 ? "" : "; ") + values[i].path + " from " +
                significant(values[i].before, 5) + " to " + significant(values[i].after, 5) + " " +
                values[i].unit + (values[i].at_limit ? ", at its limit" : "");
    }
    return svg.markup(id, "Fitted values before and after", said + ".");
}

std::string readings_picture(const std::vector<CalibratedReading>& readings,
                             const std::string& id) {
    constexpr double row = 28;
    constexpr double head = 28;
    if (readings.empty()) {
        return "";
    }
    const double far = reach(readings);
    const double bottom = head + row * static_cast<double>(readings.size());
    const Axis x{-far, far, plot_left, plot_right};
    Svg svg(picture_width, bottom + 36);
    svg.rectangle(x.at(-1), head, x.at(1) - x.at(-1), bottom - head, "board");
    draw_ticks(svg, x, head, bottom);
    svg.text(0, 14, "Readings", "start", "head");
    svg.text(plot_left - 16, 14, "bench", "end", "note");
    draw_keys(svg, plot_left);
    svg.text(plot_right + 16, 14, "off by, deviations", "start", "note");
    svg.text((plot_left + plot_right) / 2, bottom + 31,
             "computed less bench, in deviations of the reading", "middle", "note");
    std::string said;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        draw_reading(svg, readings[i], x, head + row * static_cast<double>(i));
        said += (i == 0 ? "" : "; ") + readings[i].number +
                (readings[i].fits ? " fits" : " does not fit") + ", off by " +
                fixed(std::abs(readings[i].residual), 1) + " deviations";
    }
    return svg.markup(id, "Readings before and after the fit, against the bench", said + ".");
}

std::string calibration_section(const CalibrationFindings& found) {
    std::string html;
    if (const std::string picture = values_picture(found.values, "calibrationv");
        !picture.empty()) {
        html += "<figure>" + picture + folded(values_table(found.values)) + "</figure>\n";
    }
    if (const std::string picture = readings_picture(found.readings, "calibrationr");
        !picture.empty()) {
        html += "<figure>" + picture + folded(readings_table(found.readings)) + "</figure>\n";
    }
    return html + doubts(found);
}

} // namespace vrid
