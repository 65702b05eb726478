#include <algorithm>

#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

struct PlanFrame {
    double x0 = 0, scale = 1, y0 = 0;
    [[nodiscard]] double x(double mm) const { return stations_left + (mm - x0) * scale; }
    [[nodiscard]] double y(double mm) const { return y0 - mm * scale; }
};

Points placed(const PlanFrame& frame, const std::vector<std::pair<double, double>>& points) {
    Points all;
    for (const auto& [x, y] : points) {
        all.emplace_back(frame.x(x), std::clamp(frame.y(y), -1000.0, 2000.0));
    }
    return all;
}

/// A band is the outline drawn with a wide pen and cut to the outline and to its stations.
void draw_band(Svg& svg, const PlanFrame& frame, const DrawnZone& zone, const Points& outline,
               const std::string& style, const std::string& id) {
    const std::string clip = id + "-x";
    svg.raw("<clipPath id=\"" + clip + "\"><rect x=\"" + px(frame.x(zone.x->first)) +
            "\" y=\"-9\" width=\"" + px((zone.x->second - zone.x->first) * frame.scale) +
            "\" height=\"999\"/></clipPath><g clip-path=\"url(#" + clip + ")\">");
    const double wide = std::max(2 * *zone.to * frame.scale, 2.4);
    svg.polygon(outline, "band " + style, "stroke-width=\"" + px(wide) + "\"",
                zone.layer + ": " + significant(*zone.from, 3) + " to " + significant(*zone.to, 3) +
                    " mm from the outline");
    svg.raw("</g>");
}

void draw_zones(Svg& svg, const PlanFrame& frame, const Drawing& drawing, const Points& outline,
                const std::string& id) {
    const std::vector<std::string> layers = layer_names(drawing);
    svg.raw("<clipPath id=\"" + id + "-c\"><polygon points=\"");
    for (const auto& [x, y] : outline) {
        svg.raw(px(x) + "," + px(y) + " ");
    }
    svg.raw("\"/></clipPath><g clip-path=\"url(#" + id + "-c)\">");
    int number = 0;
    for (const DrawnZone& zone : drawing.zones) {
        const std::string style = layer_class(layers, zone.layer);
        if (zone.points.empty()) {
            draw_band(svg, frame, zone, outline, style, id + "-z" + std::to_string(number++));
        } else {
            svg.polygon(placed(frame, zone.points), "zone " + style, "", zone.layer);
        }
    }
    svg.raw("</g>");
}

std::string zone_list(const Drawing& drawing) {
    std::vector<std::string> names;
    for (const DrawnZone& zone : drawing.zones) {
        add_once(names, zone.layer);
    }
    const std::vector<std::string> layers = layer_names(drawing);
    std::string all;
    for (const std::string& name : names) {
        all += "<li><span class=\"key " + layer_class(layers, name) + "\"></span>" + escaped(name) +
               "</li>";
    }
    return all.empty() ? "" : "<ul class=\"keys\">" + all + "</ul>\n";
}

} // namespace

std::string planform_picture(const Drawing& drawing, const std::string& id) {
    if (drawing.outline.empty()) {
        return "";
    }
    const auto by_x = std::minmax_element(drawing.outline.begin(), drawing.outline.end());
    const auto by_y =
        std::minmax_element(drawing.outline.begin(), drawing.outline.end(),
                            [](const auto& a, const auto& b) { return a.second < b.second; });
    const double length = by_x.second->first - by_x.first->first;
    const double scale = (picture_width - stations_left - stations_right) / length;
    const PlanFrame frame{by_x.first->first, scale, 28 + by_y.second->second * scale};
    const double height = frame.y(by_y.first->second) + 30;
    Svg svg(picture_width, height);
    const Points outline = placed(frame, drawing.outline);
    svg.polygon(outline, "board");
    draw_zones(svg, frame, drawing, outline, id);
    svg.polygon(outline, "outline");
    for (const auto& foot : drawing.feet) {
        svg.rectangle(frame.x(foot[0]), frame.y(foot[3]), (foot[2] - foot[0]) * scale,
                      (foot[3] - foot[1]) * scale, "foot", "foot patch");
    }
    for (const DrawnSection& section : drawing.sections) {
        const double x = frame.x(section.x);
        svg.line(x, 18, x, height - 22, "cut");
        svg.text(x, height - 8, section.label, "middle", "note");
    }
    for (const double x : drawing.contact) {
        svg.line(frame.x(x), 18, frame.x(x), height - 22, "contact");
        svg.text(frame.x(x), 12, "contact " + significant(x, 4), "middle", "note");
    }
    svg.line(stations_left, frame.y0, picture_width - stations_right, frame.y0, "axis");
    svg.text(picture_width - stations_right, height - 8, "nose", "end", "note");
    svg.text(stations_left, height - 8, "tail", "start", "note");
    return svg.markup(id, "Planform",
                      "The board from above, nose to the right, with zones of "
                      "layers, foot patches, contact stations and the stations of the "
                      "cross-sections. Length " +
                          significant(length, 4) + " mm.") +
           zone_list(drawing);
}

} // namespace vrid
