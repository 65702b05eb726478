#include "io/report/picture_rows.hpp"

#include <algorithm>
#include <cmath>

#include "io/report/report.hpp"
#include "io/write/csv_cell.hpp"

namespace vrid {

std::string clipped(const std::string& text, std::size_t letters) {
    const auto begins = [&](std::size_t i) { // not the second byte of a letter or a later one
        return (static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U;
    };
    std::size_t count = 0;
    std::size_t last = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (begins(i) && ++count == letters) {
            last = i;
        }
    }
    return count <= letters ? text : text.substr(0, last) + "\u2026";
}

std::string short_text(double value) {
    return csv_cell(round_significant(value, 4));
}

std::string percent_text(double share) {
    return fixed(100 * share, share > 0.9995 || share < 0.0005 ? 2 : 1) + " %";
}

Axis axis_over(double low, double high, double from, double to) {
    constexpr double least = 1e-9; // of the values: finer steps would not be told apart
    const double room = least * std::max({std::abs(low), std::abs(high), least});
    return high - low > room ? Axis{low, high, from, to} : Axis{low - room, high + room, from, to};
}

void draw_ticks(Svg& svg, const Axis& x, double top, double bottom) {
    constexpr int count = 8;
    const double step = ticks_step(x.low, x.high, count);
    for (const double v : ticks(x.low, x.high, count)) {
        svg.line(x.at(v), top, x.at(v), bottom, std::abs(v) < step / 2 ? "zero" : "grid");
        svg.text(x.at(v), bottom + 15, tick_text(v, step), "middle", "tick");
    }
}

void draw_levels(Svg& svg, const Axis& y, int count, double strong) {
    constexpr double close = 1e-6; // of a step
    const double step = ticks_step(y.low, y.high, count);
    for (const double v : ticks(y.low, y.high, count)) {
        svg.line(stations_left, y.at(v), picture_width - stations_right, y.at(v),
                 std::abs(v - strong) < close * step ? "zero" : "grid");
        svg.text(stations_left - 6, y.at(v) + 4, tick_text(v, step), "end", "tick");
    }
}

void draw_stations(Svg& svg, const Axis& x, double base, bool marked) {
    constexpr int count = 9;
    const double step = ticks_step(x.low, x.high, count);
    for (const double v : ticks(x.low, x.high, count)) {
        if (marked) {
            svg.line(x.at(v), base, x.at(v), base + 4, "zero");
        }
        svg.text(x.at(v), base + 17, tick_text(v, step), "middle", "tick");
    }
}

std::string curve_class(std::size_t number) {
    constexpr std::size_t colours = 6;
    return "curve C" + std::to_string(number % colours);
}

void draw_curve(Svg& svg, const Curve& curve, const Axis& x, const Axis& y, std::size_t number) {
    Points points;
    for (std::size_t i = 0; i < curve.x.size(); ++i) {
        if (std::isfinite(curve.y[i])) {
            points.emplace_back(x.at(curve.x[i]), y.at(curve.y[i]));
        }
    }
    svg.polyline(points, curve_class(number));
}

void draw_keys(Svg& svg, const std::vector<std::string>& names, std::size_t letters) {
    constexpr double letter = 6.4; // its width [px]
    double at = picture_width - stations_right;
    for (std::size_t i = names.size(); i-- > 0;) {
        svg.text(at, 14, clipped(names[i], letters), "end", "label");
        at -= letter * static_cast<double>(std::min(names[i].size(), letters)) + 8;
        svg.line(at - 24, 10, at, 10, curve_class(i));
        at -= 40;
    }
}

std::string stems_picture(const Stems& stems, const std::string& id) {
    constexpr double top = 26;
    constexpr double plot = 120;
    Reach values{0, 0};
    for (const auto& [at, value] : stems.points) {
        values.add(value);
    }
    const auto [low, high] = values;
    const double room = 0.06 * (high - low);
    const double aside = 0.03 * (stems.points.back().first - stems.points.front().first);
    const Axis x = axis_over(stems.points.front().first - aside, stems.points.back().first + aside,
                             stations_left, picture_width - stations_right);
    const Axis y =
        axis_over(low - (low < 0 ? room : 0), high + (high > 0 ? room : 0), top + plot, top);
    Svg svg(picture_width, top + plot + 38);
    draw_levels(svg, y, 4);
    draw_stations(svg, x, top + plot, false);
    for (const auto& [at, value] : stems.points) {
        svg.line(x.at(at), y.at(0), x.at(at), y.at(value), "stem");
        svg.circle(x.at(at), y.at(value), 4, value < 0 ? "down" : "up");
    }
    svg.text(stations_left, 14, stems.title, "start", "head");
    svg.text(picture_width - stations_right, top + plot + 33, stems.along, "end", "note");
    return svg.markup(id, stems.title,
                      "A stem at each of " + std::to_string(stems.points.size()) + " stations; " +
                          stems.along + ". From " + significant(low, 3) + " to " +
                          significant(high, 3) + " " + stems.unit + ".");
}

std::string number_head(const std::string& name, const BenchQuantity& quantity) {
    constexpr double least = 1e-9; // in a bench unit: below it is rounding
    const double value = std::abs(quantity.value) < least ? 0 : quantity.value;
    const RoundedNumber shown = rounded(value, quantity.error);
    return "<h3>" + escaped(name) + " = " +
           (std::isfinite(quantity.value) ? shown.value : "not finite") +
           (shown.error.empty()
                ? ""
                : " <span class=\"bar\">&plusmn;&#8239;" + shown.error + "</span>") +
           " " + escaped(quantity.unit) + "</h3>\n";
}

} // namespace vrid
