#include <algorithm>
#include <cmath>

#include "io/report/findings.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

constexpr double lots_left = 200;
constexpr double lots_right = picture_width - 14;
constexpr double strip = 78;
constexpr double lot_band = 16;

Axis time_axis(const LotStrips& strips) {
    return {-0.5, static_cast<double>(strips.serials.size()) - 0.5, lots_left, lots_right};
}

// Neighbours with the same word are one piece of the band.
void draw_band(Svg& svg, const Axis& x, const std::vector<std::string>& words, double top) {
    std::size_t from = 0;
    int piece = 0;
    for (std::size_t i = 1; i <= words.size(); ++i) {
        if (i < words.size() && words[i] == words[from]) {
            continue;
        }
        const double a = x.at(static_cast<double>(from) - 0.5);
        const double b = x.at(static_cast<double>(i) - 0.5);
        if (!words[from].empty()) {
            svg.rectangle(a, top, b - a, lot_band - 3, piece % 2 == 0 ? "M1" : "M2", words[from]);
            if (b - a > 7.5 * static_cast<double>(words[from].size()) + 4) {
                svg.text((a + b) / 2, top + 10, words[from], "middle", "tick V1");
            }
        }
        ++piece;
        from = i;
    }
}

std::pair<double, double> range_of_strip(const LotStrip& strip) {
    Reach values{strip.centre, strip.centre};
    for (std::size_t i = 0; i < strip.readings.size(); ++i) {
        values.add(strip.readings[i]);
        values.add(strip.ewma[i]);
    }
    const auto [low, high] = values;
    const double edge = high > low ? 0.06 * (high - low) : 1;
    return {low - edge, high + edge};
}

void draw_strip(Svg& svg, const LotStrips& strips, const LotStrip& one, double top) {
    const Axis x = time_axis(strips);
    const auto [low, high] = range_of_strip(one);
    const Axis y{low, high, top + strip - 6, top + 4};
    Points limits;
    Points back;
    Points line;
    for (std::size_t i = 0; i < one.ewma.size(); ++i) {
        const double at = x.at(static_cast<double>(i));
        limits.emplace_back(at, y.at(std::min(high, one.centre + one.half_width[i])));
        back.emplace_back(at, y.at(std::max(low, one.centre - one.half_width[i])));
        line.emplace_back(at, y.at(one.ewma[i]));
    }
    limits.insert(limits.end(), back.rbegin(), back.rend());
    svg.polygon(limits, "fill C0");
    svg.line(lots_left, y.at(one.centre), lots_right, y.at(one.centre), "grid");
    for (std::size_t i = 0; i < one.readings.size(); ++i) {
        const bool out = contains(strips.outliers, i);
        if (std::isfinite(one.readings[i])) {
            svg.circle(x.at(static_cast<double>(i)), y.at(one.readings[i]), out ? 3.6 : 1.6,
                       out ? "misfit" : "peak");
        }
    }
    svg.polyline(line, "curve C0");
    svg.text(0, top + 18, one.number, "start", "head");
    svg.text(0, top + 34, one.unit, "start", "note");
    svg.text(lots_left - 6, y.at(high) + 8, significant(high, 3), "end", "tick");
    svg.text(lots_left - 6, y.at(low), significant(low, 3), "end", "tick");
}

void draw_change(Svg& svg, const LotStrips& strips, double top, double bottom) {
    if (!strips.change) {
        return;
    }
    const Axis x = time_axis(strips);
    const auto at = [&](std::size_t k) {
        return x.at(static_cast<double>((*strips.change)[k]) - 0.5);
    };
    svg.rectangle(at(1), top, std::max(1.0, at(2) - at(1)), bottom - top, "beyond",
                  "boards that may be the first");
    svg.line(at(0), top, at(0), bottom, "limit");
}

// Serials below, as many as there is room for.
void draw_serials(Svg& svg, const LotStrips& strips, double top) {
    const Axis x = time_axis(strips);
    const std::size_t each = std::max<std::size_t>(1, (strips.serials.size() + 8) / 9);
    for (std::size_t i = 0; i < strips.serials.size(); i += each) {
        svg.text(x.at(static_cast<double>(i)), top + 12, clipped(strips.serials[i], 12), "middle",
                 "tick");
        svg.text(x.at(static_cast<double>(i)), top + 26, strips.dates[i].substr(0, 10), "middle",
                 "tick");
    }
}

DataTable bells_table(const FoundLot& found) {
    DataTable table{"numbers of the lot", {"number", "predicted", "sd", "found", "sd", "unit"}, {}};
    for (const FoundLotNumber& one : found.numbers) {
        if (one.cells > 1) {
            table.rows.push_back({one.number, significant(one.predicted.mean, 5),
                                  significant(one.predicted.sd, 3), significant(one.found.mean, 5),
                                  significant(one.found.sd, 3), one.unit});
        }
    }
    return table;
}

DataTable strips_table(const LotStrips& strips, bool outliers) {
    DataTable table{
        outliers ? "boards that do not belong" : "readings by board", {"serial", "date"}, {}};
    for (const LotStrip& one : strips.numbers) {
        table.columns.push_back(one.number + (one.unit.empty() ? "" : ", " + one.unit));
    }
    for (std::size_t i = 0; i < strips.serials.size(); ++i) {
        if (outliers && !contains(strips.outliers, i)) {
            continue;
        }
        std::vector<std::string> row{strips.serials[i], strips.dates[i]};
        for (const LotStrip& one : strips.numbers) {
            row.push_back(std::isfinite(one.readings[i]) ? significant(one.readings[i], 5) : "");
        }
        table.rows.push_back(row);
    }
    return table;
}

/// Over the values' tolerances.
std::vector<FoundShift> largest_shifts(const FoundLot& found) {
    constexpr std::size_t most = 14;
    std::vector<FoundShift> all;
    for (FoundShift one : found.shifts) {
        if (one.tolerance > 0) {
            one.shift = one.shift / one.tolerance;
            one.sd = one.sd / one.tolerance;
            all.push_back(one);
        }
    }
    std::ranges::stable_sort(all, [](const FoundShift& a, const FoundShift& b) {
        return std::abs(a.shift) > std::abs(b.shift);
    });
    all.resize(std::min(most, all.size()));
    return all;
}

DataTable shifts_table(const FoundLot& found) {
    DataTable table{"shifts in tolerances", {"value", "shift", "sd"}, {}};
    for (const FoundShift& bar : largest_shifts(found)) {
        table.rows.push_back({bar.value, fixed(bar.shift, 2), fixed(bar.sd, 2)});
    }
    return table;
}

} // namespace

std::string lot_strips_picture(const LotStrips& strips, const std::string& id) {
    if (strips.serials.size() < 2 || strips.numbers.empty()) {
        return "";
    }
    const double bands = lot_band * static_cast<double>(strips.texts.size());
    const double top = 4 + bands;
    const double bottom = top + strip * static_cast<double>(strips.numbers.size());
    Svg svg(picture_width, bottom + 34);
    for (std::size_t t = 0; t < strips.texts.size(); ++t) {
        const double at = 4 + lot_band * static_cast<double>(t);
        svg.text(0, at + 10, strips.texts[t].column, "start", "note");
        draw_band(svg, time_axis(strips), strips.texts[t].words, at);
    }
    draw_change(svg, strips, top, bottom);
    for (std::size_t k = 0; k < strips.numbers.size(); ++k) {
        draw_strip(svg, strips, strips.numbers[k], top + strip * static_cast<double>(k));
    }
    draw_serials(svg, strips, bottom);
    return svg.markup(id, "Readings of the lot in order of time",
                      "Points are readings, the line their moving average, the band its limits.");
}

std::string lot_bell_picture(const FoundLotNumber& one, const std::string& id) {
    const double sd = std::max(one.predicted.sd, one.found.sd);
    if (one.cells < 2 || !(one.predicted.sd > 0) || !(one.found.sd > 0)) {
        return "";
    }
    double low = std::min(one.predicted.mean, one.found.mean) - 3.5 * sd;
    double high = std::max(one.predicted.mean, one.found.mean) + 3.5 * sd;
    const Axis x = axis_over(low, high, lots_left, lots_right);
    const double highest = sd / std::min(one.predicted.sd, one.found.sd);
    const Axis y{0, 1.08 * highest, 76, 6};
    Svg svg(picture_width, 98);
    draw_ticks(svg, x, 76, 80);
    const auto draw = [&](double mean, double width, const std::string& style) {
        Points line;
        for (int i = 0; i <= 160; ++i) {
            const double value = x.low + (x.high - x.low) * i / 160;
            const double z = (value - mean) / width;
            line.emplace_back(x.at(value), y.at(sd / width * std::exp(-z * z / 2)));
        }
        svg.polyline(line, "curve " + style);
    };
    const LotBounds bounds = one.limits.value_or(LotBounds{});
    for (const auto& limit : {bounds.min, bounds.max}) {
        if (limit && *limit > x.low && *limit < x.high) {
            svg.line(x.at(*limit), 6, x.at(*limit), 76, "limit");
        }
    }
    draw(one.predicted.mean, one.predicted.sd, "C1");
    draw(one.found.mean, one.found.sd, "C0");
    svg.line(x.from, 76, x.to, 76, "zero");
    svg.text(0, 18, one.number, "start", "head");
    svg.text(0, 34, one.unit, "start", "note");
    svg.text(0, 52, "found: full line", "start", "note");
    svg.text(0, 66, "predicted: dashed", "start", "note");
    return svg.markup(id, one.number + ", predicted and found",
                      "predicted " + significant(one.predicted.mean, 5) + ", found " +
                          significant(one.found.mean, 5) + " " + one.unit);
}

std::string lot_shifts_picture(const FoundLot& found, const std::string& id) {
    const std::vector<FoundShift> bars = largest_shifts(found);
    if (bars.empty()) {
        return "";
    }
    constexpr double row = 20;
    constexpr double names = 330;
    double reach = 1;
    for (const FoundShift& bar : bars) {
        reach = std::max(reach, std::abs(bar.shift) + bar.sd);
    }
    const Axis x = axis_over(-reach, reach, names, lots_right);
    const double bottom = 24 + row * static_cast<double>(bars.size());
    Svg svg(picture_width, bottom + 22);
    svg.text(0, 14, "value", "start", "note");
    svg.text(names, 14, "shift in tolerances, each value held by its own", "start", "head");
    draw_ticks(svg, x, 20, bottom);
    for (std::size_t i = 0; i < bars.size(); ++i) {
        const double top = 24 + row * static_cast<double>(i);
        const double zero = x.at(0);
        const double end = x.at(bars[i].shift);
        svg.text(0, top + 13, clipped(bars[i].value, 50));
        svg.rectangle(std::min(zero, end), top + 3, std::abs(end - zero), 12,
                      bars[i].shift < 0 ? "down" : "up");
        svg.line(x.at(bars[i].shift - bars[i].sd), top + 9, x.at(bars[i].shift + bars[i].sd),
                 top + 9, "whisker");
    }
    return svg.markup(id, "How far values moved, in tolerances", "The largest first.");
}

std::string lot_section(const FoundLot& found) {
    std::string html = "<ul>";
    for (const std::string& line : found.findings) {
        html += "<li>" + escaped(line) + "</li>";
    }
    html += found.findings.empty() ? "<li>Nothing found: the lot is what was predicted.</li>" : "";
    for (const std::string& note : found.notes) {
        html += "<li>" + escaped(note) + "</li>";
    }
    html += "</ul>\n<figure>" + lot_strips_picture(found.strips, "lots") +
            (found.strips.outliers.empty() ? "" : folded(strips_table(found.strips, true))) +
            folded(strips_table(found.strips, false)) + "</figure>\n<figure>";
    for (std::size_t i = 0; i < found.numbers.size(); ++i) {
        html += lot_bell_picture(found.numbers[i], "lotb" + std::to_string(i));
    }
    html += folded(bells_table(found)) + "</figure>\n<figure>" + lot_shifts_picture(found, "lotm") +
            folded(shifts_table(found)) + "</figure>\n";
    return html;
}

} // namespace vrid
