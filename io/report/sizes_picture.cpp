#include <algorithm>

#include "io/report/axis.hpp"
#include "io/report/findings.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/svg.hpp"

namespace vrid {
namespace {

constexpr double sizes_head = 30;

struct SizesReach {
    double x_low = 0, x_high = 0, y_low = 0, y_high = 0;
};

SizesReach reach_of(const std::vector<FoundSize>& sizes) {
    SizesReach all;
    for (const FoundSize& size : sizes) {
        for (const auto& [x, y] : size.drawing.value.outline) {
            all = {std::min(all.x_low, x), std::max(all.x_high, x), std::min(all.y_low, y),
                   std::max(all.y_high, y)};
        }
    }
    return all;
}

/// The contact lines as short lines outside the board, on both sides.
void draw_contact(Svg& svg, const FoundSize& size, const Axis& x, const Axis& y,
                  const std::string& style) {
    constexpr double tick = 7;
    const BenchQuantity* running = size.figure("running_length");
    for (const double end : {-0.5, 0.5}) {
        if (running != nullptr) {
            const double at = x.at(end * running->value);
            svg.line(at, y.to - 2 - tick, at, y.to - 2, style);
            svg.line(at, y.from + 2, at, y.from + 2 + tick, style);
        }
    }
}

void draw_size_keys(Svg& svg, const std::vector<FoundSize>& sizes) {
    constexpr double letter = 6.4;
    constexpr std::size_t letters = 16;
    double at = picture_width - stations_right;
    for (std::size_t i = sizes.size(); i-- > 0;) {
        const std::string name = clipped(sizes[i].name, letters);
        svg.text(at, 14, name, "end", "label");
        at -= letter * static_cast<double>(std::min(name.size(), letters)) + 8;
        svg.line(at - 24, 10, at, 10, "curve C" + std::to_string(i % 6));
        at -= 40;
    }
}

} // namespace

std::string sizes_picture(const std::vector<FoundSize>& sizes, const std::string& id) {
    const SizesReach reach = reach_of(sizes);
    if (!(reach.x_high > reach.x_low) || !(reach.y_high > reach.y_low)) {
        return "";
    }
    constexpr double beside = 12; // for the contact lines
    const double scale =
        (picture_width - stations_left - stations_right) / (reach.x_high - reach.x_low);
    const double high = std::min((reach.y_high - reach.y_low) * scale, 2000.0);
    const Axis x{reach.x_low, reach.x_high, stations_left, picture_width - stations_right};
    const Axis y{reach.y_low, reach.y_high, sizes_head + beside + high, sizes_head + beside};
    Svg svg(picture_width, y.from + beside + 24);
    svg.line(stations_left, y.at(0), picture_width - stations_right, y.at(0), "axis");
    svg.text(stations_left, 14, "Outlines", "start", "head");
    draw_size_keys(svg, sizes);
    std::string names;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        Points line;
        for (const auto& [px_x, px_y] : sizes[i].drawing.value.outline) {
            line.emplace_back(x.at(px_x), y.at(px_y));
        }
        const std::string style = "curve C" + std::to_string(i % 6);
        svg.polygon(line, style);
        draw_contact(svg, sizes[i], x, y, style);
        names += (names.empty() ? "" : ", ") + sizes[i].name;
    }
    constexpr int x_ticks = 9;
    for (const double at : ticks(x.low, x.high, x_ticks)) {
        svg.text(x.at(at), y.from + beside + 17, tick_text(at, ticks_step(x.low, x.high, x_ticks)),
                 "middle", "tick");
    }
    return svg.markup(id, "Outlines of the sizes over each other",
                      "The boards from above, nose to the right, millimetres from the middle of "
                      "the running length; short lines beside them are their contact lines: " +
                          names + ".");
}

} // namespace vrid
