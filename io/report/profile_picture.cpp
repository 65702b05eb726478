#include "io/report/report.hpp"

#include <algorithm>
#include <cmath>

#include "io/report/axis.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/svg.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr double profile_top = 30; // [px]
constexpr double raised = 20;      // heights over lengths
constexpr double most_high = 380;  // of the plot [px]

} // namespace

std::string profile_picture(const std::vector<Curve>& curves, const std::vector<double>& contact,
                            const std::string& id) {
    Reach along;
    Reach heights;
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
    draw_levels(svg, y, std::max(2, static_cast<int>((y.from - y.to) / 40)));
    draw_stations(svg, x, y.from);
    for (const double mark : contact) {
        svg.line(x.at(mark), profile_top, x.at(mark), profile_top + plot, "contact");
    }
    svg.raw("<clipPath id=\"" + id + "-c\"><rect x=\"0\" y=\"" + px(profile_top) +
            "\" width=\"1000\" height=\"" + px(plot) + "\"/></clipPath><g clip-path=\"url(#" + id +
            "-c)\">");
    for (std::size_t i = 0; i < curves.size(); ++i) {
        draw_curve(svg, curves[i], x, y, i);
    }
    svg.raw("</g>");
    svg.text(stations_left, 14, "Long profile, mm, heights x 20", "start", "head");
    draw_keys(svg, each_of(curves, &Curve::name));
    return svg.markup(
        id, "Long profile: the mould and what comes out of it",
        "Heights over the station x in mm, tail to nose, drawn 20 times too high" +
            std::string(whole > most_high ? "; the tips rise out of the picture" : "") + ": " +
            joined(curves, ", ", &Curve::name) + ". From " + significant(heights.low, 3) + " to " +
            significant(heights.high, 3) + " mm.");
}

} // namespace vrid
