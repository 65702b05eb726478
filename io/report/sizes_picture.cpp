#include <algorithm>

#include "io/report/axis.hpp"
#include "io/report/findings.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/svg.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

constexpr double sizes_head = 30;

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

} // namespace

std::string sizes_picture(const std::vector<FoundSize>& sizes, const std::string& id) {
    const std::vector<std::string> names = each_of(sizes, &FoundSize::name);
    Reach along{0, 0};
    Reach across{0, 0};
    for (const FoundSize& size : sizes) {
        for (const auto& [x, y] : size.drawing.value.outline) {
            along.add(x);
            across.add(y);
        }
    }
    if (!(along.high > along.low) || !(across.high > across.low)) {
        return "";
    }
    constexpr double beside = 12; // for the contact lines
    const double scale =
        (picture_width - stations_left - stations_right) / (along.high - along.low);
    const double high = std::min((across.high - across.low) * scale, 2000.0);
    const Axis x{along.low, along.high, stations_left, picture_width - stations_right};
    const Axis y{across.low, across.high, sizes_head + beside + high, sizes_head + beside};
    Svg svg(picture_width, y.from + beside + 24);
    svg.line(stations_left, y.at(0), picture_width - stations_right, y.at(0), "axis");
    svg.text(stations_left, 14, "Outlines", "start", "head");
    draw_keys(svg, names, 16);
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        Points line;
        for (const auto& [px_x, px_y] : sizes[i].drawing.value.outline) {
            line.emplace_back(x.at(px_x), y.at(px_y));
        }
        const std::string style = curve_class(i);
        svg.polygon(line, style);
        draw_contact(svg, sizes[i], x, y, style);
    }
    draw_stations(svg, x, y.from + beside, false);
    return svg.markup(id, "Outlines of the sizes over each other",
                      "The boards from above, nose to the right, millimetres from the middle of "
                      "the running length; short lines beside them are their contact lines: " +
                          joined(names) + ".");
}

} // namespace vrid
