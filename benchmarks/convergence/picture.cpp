#include <algorithm>
#include <cmath>

#include "benchmarks/convergence/problem.hpp"
#include "io/report/svg.hpp"

namespace vrid::convergence {

namespace {

constexpr double panel_width = 360, panel_height = 270;
constexpr double left = 62, right = 92, top = 34, bottom = 46; // around the plot of a panel
constexpr double least = 1e-10, most = 1;                      // errors shown
constexpr const char* style =
    "<style>.paper{fill:#fff}text{font:12px "
    "sans-serif;fill:#222}.title{font-weight:bold;font-size:13px}"
    ".tick{font-size:11px;fill:#555}.grid{stroke:#ddd}.axis{stroke:#555}"
    "polyline{fill:none;stroke-width:1.8}circle{stroke:#fff;stroke-width:.7}"
    ".d1{stroke:#a33}.d2{stroke:#c80}.d3{stroke:#080}.d4{stroke:#06c}.d5{stroke:#639}"
    "circle.d1{fill:#a33}circle.d2{fill:#c80}circle.d3{fill:#080}circle.d4{fill:#06c}"
    "circle.d5{fill:#639}</style>";

// A panel's corner and scales.
struct Panel {
    const Problem& problem;
    double x0, y0;
    [[nodiscard]] double x(std::size_t k) const {
        const double from = std::log(problem.size.front());
        const double share =
            (std::log(problem.size[k]) - from) / (std::log(problem.size.back()) - from);
        return x0 + left + share * (panel_width - left - right);
    }
    [[nodiscard]] double y(double error) const {
        const double inside = std::clamp(error, least, most);
        const double share = std::log10(most / inside) / std::log10(most / least);
        return y0 + top + share * (panel_height - top - bottom);
    }
};

void draw_frame(Svg& svg, const Panel& panel) {
    svg.text(panel.x0 + left, panel.y0 + 20, panel.problem.title + ": relative error", "start",
             "title");
    const double from = panel.x(0);
    const double to = panel.x(panel.problem.size.size() - 1);
    for (int power = 0; power >= -10; power -= 2) {
        const double y = panel.y(std::pow(10.0, power));
        svg.line(from, y, to, y, "grid");
        svg.text(from - 8, y + 4, power == 0 ? "1" : "1e" + std::to_string(power), "end", "tick");
    }
    for (std::size_t k = 0; k < panel.problem.size.size(); ++k) {
        const double y = panel.y(least);
        svg.line(panel.x(k), y, panel.x(k), y + 4, "axis");
        svg.text(panel.x(k), y + 17, px(panel.problem.size[k]), "middle", "tick");
    }
    svg.text((from + to) / 2, panel.y(least) + 34,
             panel.problem.by_quads ? "quads a side" : "longest quad side [mm]", "middle", "tick");
}

// Names beside the lines' ends, moved up where the ends meet.
void draw_names(Svg& svg, const Panel& panel) {
    constexpr double line_height = 13;
    double last = 1e9;
    for (std::size_t d = panel.problem.degrees.size(); d-- > 0;) {
        const double y = std::min(panel.y(panel.problem.error[d].back()), last - line_height);
        last = y;
        svg.text(panel.x(panel.problem.size.size() - 1) + 9, y + 4,
                 "degree " + std::to_string(panel.problem.degrees[d]));
    }
}

void draw(Svg& svg, const Panel& panel) {
    draw_frame(svg, panel);
    for (std::size_t d = 0; d < panel.problem.degrees.size(); ++d) {
        const std::string colour = "d" + std::to_string(panel.problem.degrees[d]);
        Points points;
        for (std::size_t k = 0; k < panel.problem.size.size(); ++k) {
            points.emplace_back(panel.x(k), panel.y(panel.problem.error[d][k]));
        }
        svg.polyline(points, colour);
        for (const auto& [x, y] : points) {
            svg.raw("<circle cx=\"" + px(x) + "\" cy=\"" + px(y) + "\" r=\"3.2\" class=\"" +
                    colour + "\"/>");
        }
    }
    draw_names(svg, panel);
}

} // namespace

std::string picture(const std::vector<Problem>& problems) {
    constexpr int columns = 3;
    const int rows = (static_cast<int>(problems.size()) + columns - 1) / columns;
    Svg svg(columns * panel_width, rows * panel_height);
    svg.raw(style);
    svg.rectangle(0, 0, columns * panel_width, rows * panel_height, "paper");
    for (std::size_t i = 0; i < problems.size(); ++i) {
        draw(svg, {problems[i], panel_width * static_cast<double>(i % columns),
                   panel_height * static_cast<double>(i / columns)});
    }
    std::string all = svg.markup("convergence", "Convergence",
                                 "Relative error against mesh size, a line for every degree");
    // a file of its own needs what a page around it would say
    return all.replace(0, 4,
                       "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" +
                           px(columns * panel_width) + "\" height=\"" + px(rows * panel_height) +
                           "\"");
}

} // namespace vrid::convergence
