#include <algorithm>
#include <cmath>

#include "io/report/axis.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/profile_picture.hpp"
#include "io/report/svg.hpp"

namespace vrid {

namespace {

constexpr double profile_top = 30; // [px]
constexpr double raised = 20;      // heights over lengths
constexpr double most_high = 380;  // of the plot [px]

struct ProfileReach {
    double low = HUGE_VAL, high = -HUGE_VAL;
    void add(double value) {
        if (std::isfinite(value)) {
            low = std::min(low, value);
            high = std::max(high, value);
        }
    }
};

void draw_profile_axes(Svg& svg, const Axis& x, const Axis& y) {
    const int count = std::max(2, static_cast<int>((y.from - y.to) / 40));
    const double step = ticks_step(y.low, y.high, count);
    for (const double v : ticks(y.low, y.high, count)) {
        svg.line(stations_left, y.at(v), picture_width - stations_right, y.at(v),
                 std::abs(v) < step / 2 ? "zero" : "grid");
        svg.text(stations_left - 6, y.at(v) + 4, tick_text(v, step), "end", "tick");
    }
    for (const double v : ticks(x.low, x.high, 9)) {
        svg.line(x.at(v), y.from, x.at(v), y.from + 4, "zero");
        svg.text(x.at(v), y.from + 17, tick_text(v, ticks_step(x.low, x.high, 9)), "middle",
                 "tick");
    }
}

void draw_profile_keys(Svg& svg, const std::vector<Curve>& curves) {
    constexpr double letter = 6.4;
    double at = picture_width - stations_right;
    for (std::size_t i = curves.size(); i-- > 0;) {
        svg.text(at, 14, curves[i].name, "end", "label");
        at -= letter * static_cast<double>(curves[i].name.size()) + 8;
        svg.line(at - 24, 10, at, 10, "curve C" + std::to_string(i % 6));
        at -= 40;
    }
}

} // namespace

std::string profile_picture(const std::vector<Curve>& curves, const std::vector<double>& contact,
                            const std::string& id) {
    ProfileReach along;
    ProfileReach heights;
    for (const Curve& curve : curves) {
        std::ranges::for_each(curve.x, [&](double x) { along.add(x); });
        std::ranges::for_each(curve.y, [&](double y) { heights.add(y); });
    }
    if (!(along.high > along.low) || !(heights.high >= heights.low)) {
        return "";
    }
    const Axis x{along.low, along.high, stations_left, picture_width - stations_right};
    const double per_mm = raised * (x.to - x.from) / (x.high - x.low);
    constexpr double room = 8; // above and below [px]
    const double whole = (heights.high - heights.low) * per_mm + 2 * room;
    const double plot = std::clamp(whole, 60.0, most_high);
    const Axis y{heights.low - room / per_mm, heights.low + (plot - room) / per_mm,
                 profile_top + plot, profile_top};
    Svg svg(picture_width, profile_top + plot + 24);
    draw_profile_axes(svg, x, y);
    for (const double mark : contact) {
        svg.line(x.at(mark), profile_top, x.at(mark), profile_top + plot, "contact");
    }
    svg.raw("<clipPath id=\"" + id + "-c\"><rect x=\"0\" y=\"" + px(profile_top) +
            "\" width=\"1000\" height=\"" + px(plot) + "\"/></clipPath><g clip-path=\"url(#" + id +
            "-c)\">");
    for (std::size_t i = 0; i < curves.size(); ++i) {
        Points points;
        for (std::size_t k = 0; k < curves[i].x.size(); ++k) {
            if (std::isfinite(curves[i].y[k])) {
                points.emplace_back(x.at(curves[i].x[k]), y.at(curves[i].y[k]));
            }
        }
        svg.polyline(points, "curve C" + std::to_string(i % 6));
    }
    svg.raw("</g>");
    svg.text(stations_left, 14, "Long profile, mm, heights x 20", "start", "head");
    draw_profile_keys(svg, curves);
    std::string names;
    for (const Curve& curve : curves) {
        names += (names.empty() ? "" : ", ") + curve.name;
    }
    return svg.markup(
        id, "Long profile: the mould and what comes out of it",
        "Heights over the station x in mm, tail to nose, drawn 20 times too high" +
            std::string(whole > most_high ? "; the tips rise out of the picture" : "") + ": " +
            names + ". From " + significant(heights.low, 3) + " to " +
            significant(heights.high, 3) + " mm.");
}

} // namespace vrid
