#include <algorithm>
#include <cmath>
#include <numbers>

#include "io/report/findings.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"

namespace vrid {
namespace {

constexpr std::size_t most_sources = 10;
constexpr double least_share = 5e-4; // of the variance that is shown

double sum(const std::vector<int>& counts) {
    double all = 0;
    for (const double count : counts) {
        all += count;
    }
    return all;
}

bool has_histogram(const ScatteredNumber& number) {
    return number.histogram().width > 0 && sum(number.histogram().counts) > 0;
}

/// The first-order bell, 1 at its top.
double bell(const FoundSpread& spread, double value) {
    const double z = (value - spread.mean) / spread.sd;
    return std::exp(-z * z / 2);
}

/// A bin's height on the scale of the bell.
double bin_height(const ScatteredNumber& number, std::size_t bin) {
    const Histogram& h = number.histogram();
    const double density = h.counts[bin] / (sum(h.counts) * h.width);
    return density * number.first_order().sd * std::sqrt(2 * std::numbers::pi);
}

/// Four deviations to both sides, the samples, and limits that are not far away.
std::pair<double, double> extent(const ScatteredNumber& number) {
    constexpr double sides = 4;
    constexpr double far = 10;
    const FoundSpread first = number.first_order();
    double low = first.mean - sides * first.sd;
    double high = first.mean + sides * first.sd;
    if (has_histogram(number)) {
        const Histogram& h = number.histogram();
        low = std::min(low, h.from);
        high = std::max(high, h.from + h.width * static_cast<double>(h.counts.size()));
    }
    for (const auto& limit : {number.min, number.max}) {
        if (limit && std::abs(*limit - first.mean) < far * first.sd) {
            low = std::min(low, *limit - first.sd / 2);
            high = std::max(high, *limit + first.sd / 2);
        }
    }
    return {low, high};
}

struct Plot {
    Axis x, y; ///< y: 1 at the bell's top
    double top = 0, bottom = 0;
};

/// The line of a limit, the ground beyond it, and its name at the top.
void draw_limit(Svg& svg, const Plot& plot, double limit, bool is_min) {
    if (limit < plot.x.low || limit > plot.x.high) {
        return;
    }
    const double at = plot.x.at(limit);
    const double end = is_min ? plot.x.from : plot.x.to;
    svg.rectangle(std::min(at, end), plot.top, std::abs(end - at), plot.bottom - plot.top,
                  "beyond");
    svg.line(at, plot.top, at, plot.bottom, "limit");
    svg.text(at + (is_min ? 5 : -5), plot.top + 12, (is_min ? "min " : "max ") + short_text(limit),
             is_min ? "start" : "end", "label");
}

void draw_histogram(Svg& svg, const Plot& plot, const ScatteredNumber& number) {
    const Histogram& h = number.histogram();
    for (std::size_t i = 0; i < h.counts.size(); ++i) {
        const double from = h.from + h.width * static_cast<double>(i);
        const double top = plot.y.at(bin_height(number, i));
        svg.rectangle(plot.x.at(from), top, plot.x.at(from + h.width) - plot.x.at(from),
                      plot.bottom - top, "hist",
                      significant(from, 4) + " to " + significant(from + h.width, 4) + ": " +
                          fixed(h.counts[i], 0) + " samples");
    }
}

void draw_bell(Svg& svg, const Plot& plot, const FoundSpread& spread) {
    constexpr int pieces = 160;
    Points line;
    for (int i = 0; i <= pieces; ++i) {
        const double value = plot.x.low + (plot.x.high - plot.x.low) * i / pieces;
        line.emplace_back(plot.x.at(value), plot.y.at(bell(spread, value)));
    }
    Points area = line;
    area.emplace_back(plot.x.to, plot.bottom);
    area.emplace_back(plot.x.from, plot.bottom);
    svg.polygon(area, "fill C0");
    svg.polyline(line, "curve C0");
    svg.line(plot.x.at(spread.mean), plot.top, plot.x.at(spread.mean), plot.bottom, "cut");
}

void draw_keys(Svg& svg, const ScatteredNumber& number) {
    double right = picture_width - 14;
    if (has_histogram(number)) {
        const std::string name = fixed(sum(number.histogram().counts), 0) + " samples";
        svg.text(right, 14, name, "end", "label");
        right -= 6.4 * static_cast<double>(name.size()) + 8;
        svg.rectangle(right - 20, 5, 20, 10, "hist");
        right -= 40;
    }
    svg.text(right, 14, "first order, nominal dotted", "end", "label");
    svg.line(right - 190, 10, right - 164, 10, "curve C0");
}

constexpr double spread_left = 330;    // [px]
constexpr double longest_spread = 220; // of the bars

struct Row {
    double top = 0;       ///< [px]
    double per_share = 0; ///< length of a bar of all the variance [px]
};

/// A row: name, bar of the share, what halving buys.
void draw_source(Svg& svg, const FoundSource& source, const ScatteredNumber& number,
                 const Row& row) {
    const double top = row.top;
    const double end = spread_left + source.share * row.per_share;
    svg.text(0, top + 14, clipped(source.source, 50));
    svg.rectangle(spread_left, top + 3, std::max(0.5, end - spread_left), 14, "up");
    svg.text(end + 6, top + 14, fixed(100 * source.share, 1) + " %", "start", "value");
    svg.text(800, top + 14,
             significant(number.first_order().sd, 3) + " \u2192 " +
                 significant(source.sd_if_halved, 3),
             "end");
    if (number.first_order().yield && source.yield_if_halved) {
        svg.text(986, top + 14,
                 percent_text(*number.first_order().yield) + " \u2192 " +
                     percent_text(*source.yield_if_halved),
                 "end");
    }
}

} // namespace

std::string bell_picture(const ScatteredNumber& number, const std::string& id) {
    constexpr double least = 1e-9; // of the mean: what does not scatter has no bell
    const FoundSpread first = number.first_order();
    const auto [low, high] = extent(number);
    if (!std::isfinite(high - low) || !(first.sd > least * std::abs(first.mean))) {
        return "";
    }
    Plot plot;
    plot.top = 26;
    plot.bottom = 196;
    double highest = 1;
    for (std::size_t i = 0; has_histogram(number) && i < number.histogram().counts.size(); ++i) {
        highest = std::max(highest, bin_height(number, i));
    }
    plot.x = axis_over(low, high, 14, picture_width - 14);
    plot.y = {0, 1.12 * highest, plot.bottom, plot.top};
    Svg svg(picture_width, plot.bottom + 22);
    draw_ticks(svg, plot.x, plot.bottom, plot.bottom + 4);
    if (has_histogram(number)) {
        draw_histogram(svg, plot, number);
    }
    draw_bell(svg, plot, first);
    svg.line(plot.x.from, plot.bottom, plot.x.to, plot.bottom, "zero");
    for (const bool is_min : {true, false}) {
        if (const auto& limit = is_min ? number.min : number.max) {
            draw_limit(svg, plot, *limit, is_min);
        }
    }
    svg.text(14, 14, number.name + " from board to board, " + number.quantity.unit, "start",
             "head");
    draw_keys(svg, number);
    return svg.markup(id, "How " + number.name + " scatters from board to board",
                      yield_words(number));
}

std::string sources_picture(const ScatteredNumber& number, const std::string& id) {
    constexpr double row = 21;
    constexpr double head = 26;
    std::vector<FoundSource> sources;
    double rest = 0;
    for (const FoundSource& source : number.sources) {
        if (source.share >= least_share && sources.size() < most_sources) {
            sources.push_back(source);
        } else if (std::isfinite(source.share)) {
            rest += source.share;
        }
    }
    if (sources.empty()) {
        return "";
    }
    const bool more = rest >= least_share;
    const double per_share = longest_spread / std::max(sources.front().share, rest);
    Svg svg(picture_width, head + row * static_cast<double>(sources.size() + (more ? 1 : 0)) + 4);
    const std::string unit = number.quantity.unit.empty() ? "" : ", " + number.quantity.unit;
    svg.text(0, 14, "source", "start", "note");
    svg.text(spread_left, 14, "share of the variance", "start", "head");
    svg.text(800, 14, "its scatter halved: sd" + unit, "end", "note");
    svg.text(986, 14, number.first_order().yield ? "yield" : "", "end", "note");
    std::string said;
    for (std::size_t i = 0; i < sources.size(); ++i) {
        draw_source(svg, sources[i], number, {head + row * static_cast<double>(i), per_share});
        said += (i == 0 ? "" : "; ") + sources[i].source + " " + fixed(100 * sources[i].share, 1) +
                " %";
    }
    if (more) {
        const double top = head + row * static_cast<double>(sources.size());
        svg.text(0, top + 14, "all others together", "start", "note");
        svg.rectangle(spread_left, top + 3, per_share * rest, 14, "none");
        svg.text(spread_left + per_share * rest + 6, top + 14, fixed(100 * rest, 1) + " %", "start",
                 "note");
    }
    return svg.markup(id, "What " + number.name + " scatters by, share of the variance",
                      said + ".");
}

} // namespace vrid
