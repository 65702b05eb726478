#include <algorithm>
#include <array>
#include <cmath>

#include "benchmarks/measured/measured.hpp"
#include "io/report/svg.hpp"

namespace vrid::measured {

namespace {

constexpr double width = 400;                     // of a panel
constexpr double left = 62, right = 24, top = 40; // around its plots
constexpr double side = width - left - right;     // both axes of the upper plot
constexpr double gap = 26, low = 110;             // to the lower plot, its height
constexpr double most_percent = 25;               // lower plot, either way
constexpr const char* style =
    "<style>.paper{fill:#fff}text{font:12px sans-serif;fill:#222}"
    ".title{font-weight:bold;font-size:13px}.tick{font-size:11px;fill:#555}"
    ".grid{stroke:#ddd}.axis{stroke:#555}.same{stroke:#555;stroke-width:1}"
    ".band{stroke:none;fill-opacity:.2}.dot{stroke:#fff;stroke-width:.7}"
    ".a{fill:#06c}.b{fill:#c70}.c{fill:#080}.d{fill:#a3a}"
    ".none{fill:none;stroke:#555;stroke-width:1.2}</style>";

// Sets that share axes: log-log above, difference in percent below.
struct Panel {
    std::string title, unit;
    double from, to; // both axes
    std::vector<double> ticks;
    std::vector<const SetOutcome*> sets;
    double x0 = 0;
    [[nodiscard]] double share(double value) const {
        return std::log(value / from) / std::log(to / from);
    }
    [[nodiscard]] double x(double value) const { return x0 + left + side * share(value); }
    [[nodiscard]] double y(double value) const { return top + side * (1 - share(value)); }
    [[nodiscard]] static double y_percent(double percent) {
        const double inside = std::clamp(percent, -most_percent, most_percent);
        return top + side + gap + low / 2 * (1 - inside / most_percent);
    }
};

std::string shown(double value) {
    std::string text = std::to_string(value);
    text.erase(text.find_last_not_of('0') + 1);
    return text.back() == '.' ? text.substr(0, text.size() - 1) : text;
}

void draw_frame(Svg& svg, const Panel& panel) {
    const double x1 = panel.x(panel.from);
    const double x2 = panel.x(panel.to);
    svg.text(x1, 22, panel.title + ", " + panel.unit, "start", "title");
    for (const double tick : panel.ticks) {
        svg.line(x1, panel.y(tick), x2, panel.y(tick), "grid");
        svg.line(panel.x(tick), top, panel.x(tick), top + side, "grid");
        svg.text(x1 - 6, panel.y(tick) + 4, shown(tick), "end", "tick");
        const double bottom = Panel::y_percent(-most_percent);
        svg.line(panel.x(tick), Panel::y_percent(most_percent), panel.x(tick), bottom, "grid");
        svg.text(panel.x(tick), bottom + 15, shown(tick), "middle", "tick");
    }
    for (const double percent : {-20.0, -10.0, 0.0, 10.0, 20.0}) {
        const double y = Panel::y_percent(percent);
        svg.line(x1, y, x2, y, percent == 0 ? "same" : "grid");
        svg.text(x1 - 6, y + 4, (percent > 0 ? "+" : "") + shown(percent) + " %", "end", "tick");
    }
    svg.line(x1, panel.y(panel.from), x2, panel.y(panel.to), "same");
    svg.text((x1 + x2) / 2, Panel::y_percent(-most_percent) + 32, "measured", "middle", "tick");
    svg.text(x1 + 4, top + 12, "predicted", "start", "tick");
}

// The corners of the band that lie in the frame.
void draw_band(Svg& svg, const Panel& panel, double percent, const std::string& colour) {
    const double factor = 1 + percent / 100;
    const double x1 = panel.x(panel.from);
    const double x2 = panel.x(panel.to);
    svg.polygon({{x1, panel.y(panel.from)},
                 {x1, panel.y(panel.from * factor)},
                 {panel.x(panel.to / factor), panel.y(panel.to)},
                 {x2, panel.y(panel.to)},
                 {x2, panel.y(panel.to / factor)},
                 {panel.x(panel.from * factor), panel.y(panel.from)}},
                "band " + colour);
    svg.rectangle(x1, Panel::y_percent(percent), x2 - x1,
                  Panel::y_percent(-percent) - Panel::y_percent(percent), "band " + colour);
}

void dot(Svg& svg, double x, double y, const std::string& style_class) {
    svg.raw("<circle cx=\"" + px(x) + "\" cy=\"" + px(y) + "\" r=\"3.4\" class=\"" + style_class +
            "\"/>");
}

void draw(Svg& svg, const Panel& panel) {
    constexpr std::array<const char*, 4> colours{"a", "b", "c", "d"};
    for (std::size_t k = 0; k < panel.sets.size(); ++k) {
        if (panel.sets[k]->set.band > 0) {
            draw_band(svg, panel, panel.sets[k]->set.band, colours[k]);
        }
    }
    draw_frame(svg, panel);
    for (std::size_t k = 0; k < panel.sets.size(); ++k) {
        const SetOutcome& set = *panel.sets[k];
        const std::string mark =
            set.set.band > 0 ? "dot " + std::string(colours[k]) : std::string("none");
        for (const Outcome& one : set.outcomes) {
            dot(svg, panel.x(one.row.measured), panel.y(one.predicted), mark);
            dot(svg, panel.x(one.row.measured), Panel::y_percent(one.percent()), mark);
        }
        const double y = top + side - 14 - 16 * static_cast<double>(k);
        dot(svg, panel.x(panel.to) - 8, y - 4, mark);
        const std::string band =
            set.set.band > 0 ? ", +-" + shown(set.set.band) + " %" : ", no band";
        svg.text(panel.x(panel.to) - 16, y, set.set.short_title + band, "end");
    }
}

std::vector<Panel> panels_of(const std::vector<SetOutcome>& sets) {
    std::vector<Panel> all{
        {"Sandwich panels", "N/mm", 100, 3000, {100, 200, 500, 1000, 2000}, {}, 0},
        {"Plates", "Hz", 40, 900, {50, 100, 200, 500}, {}, width},
        {"Strips", "N/mm", 0.007, 0.02, {0.008, 0.01, 0.015, 0.02}, {}, 2 * width}};
    for (const SetOutcome& set : sets) {
        const std::string& unit = set.outcomes.front().unit;
        const bool strips = set.outcomes.front().row.measured < 1;
        all[unit == "Hz" ? 1 : (strips ? 2 : 0)].sets.push_back(&set);
    }
    return all;
}

} // namespace

std::string picture(const std::vector<SetOutcome>& sets) {
    const std::vector<Panel> all = panels_of(sets);
    const double whole = width * static_cast<double>(all.size());
    const double tall = Panel::y_percent(-most_percent) + 44;
    Svg svg(whole, tall);
    svg.raw(style);
    svg.rectangle(0, 0, whole, tall, "paper");
    for (const Panel& panel : all) {
        draw(svg, panel);
    }
    std::string text =
        svg.markup("measured", "Measured specimens",
                   "Predicted over measured with the fair bands; below, the difference in percent");
    // a file of its own needs what a page around it would say
    return text.replace(0, 4,
                        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + px(whole) +
                            "\" height=\"" + px(tall) + "\"");
}

} // namespace vrid::measured
