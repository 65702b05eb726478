#include <algorithm>
#include <cmath>

#include "io/report/axis.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/number.hpp"
#include "io/write/study_text.hpp"

namespace vrid {

namespace {

constexpr double row_height = 21;
constexpr double parts_head = 28;
constexpr double parts_right = 190; // [px]
constexpr double panel = 260;
constexpr double parts_room = 58; // beyond a bar's end, for its value
constexpr std::array<const char*, 3> panels{"camber, mm", "hollow at x = 0, mm", "twist, deg"};
constexpr std::array shares{&LayerShare::camber, &LayerShare::concavity, &LayerShare::twist};

void draw_panel(Svg& svg, const std::vector<LayerShare>& parts, std::size_t which) {
    double largest = 1e-9;
    for (const LayerShare& part : parts) {
        largest = std::max(largest, std::abs(double{part.*shares.at(which)}));
    }
    const double left = parts_right + 8 + static_cast<double>(which) * (panel + 8);
    const Axis x{-largest, largest, left + parts_room, left + panel - parts_room};
    svg.text(left + panel / 2, 14, panels.at(which), "middle", "head");
    svg.line(x.at(0), parts_head - 4, x.at(0),
             parts_head + row_height * static_cast<double>(parts.size()), "zero");
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const double value = parts[i].*shares.at(which);
        const double top = parts_head + row_height * static_cast<double>(i);
        const double end = x.at(value);
        const std::string shown = (value > 0 ? "+" : "") + fixed(value, 2);
        svg.rectangle(std::min(x.at(0), end), top + 3, std::max(std::abs(end - x.at(0)), 0.5),
                      row_height - 7, value > 0 ? "up" : "down", parts[i].layer + ": " + shown);
        svg.text(end + (value < 0 ? -6 : 6), top + 14, shown, value < 0 ? "end" : "start", "value");
    }
}

// The top layer on top, as it lies.
std::string layers_picture(const CooledDrawing& drawing, const std::string& id) {
    std::vector<LayerShare> parts(drawing.by_layer.rbegin(), drawing.by_layer.rend());
    Svg svg(picture_width, parts_head + row_height * static_cast<double>(parts.size()) + 8);
    std::string said;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        svg.text(parts_right, parts_head + row_height * static_cast<double>(i) + 14,
                 clipped(parts[i].layer, 26), "end");
        said += (said.empty() ? "" : "; ") + parts[i].layer + " camber " +
                fixed(parts[i].camber, 2) + " mm, hollow " + fixed(parts[i].concavity, 2) +
                " mm, twist " + fixed(parts[i].twist, 2) + " deg";
    }
    for (std::size_t which = 0; which < panels.size(); ++which) {
        draw_panel(svg, parts, which);
    }
    return svg.markup(id, "What each layer does to the shape, released", said + ".");
}

DataTable layers_table(const CooledDrawing& drawing) {
    DataTable table{"what each layer does, released",
                    {"layer", "camber, mm", "hollow at x = 0, mm", "twist, deg"},
                    {}};
    for (const LayerShare& part : drawing.by_layer) {
        table.rows.push_back(
            {part.layer, fixed(part.camber, 3), fixed(part.concavity, 3), fixed(part.twist, 3)});
    }
    return table;
}

} // namespace

std::string cooled_section(const ReportRow& row, const std::string& id) {
    const CooledDrawing& drawing = row.cooled;
    if (!drawing.any()) {
        return "";
    }
    const std::vector<double> marks = row.drawing ? row.drawing->contact : std::vector<double>{};
    std::string html = "<h3>Out of the press</h3>\n<p>" + escaped(cooled_caution) +
                       "</p>\n<figure>" + profile_picture(drawing.profile, marks, id + "l") +
                       folded(curve_table("long profile", "mm", drawing.profile)) +
                       "</figure>\n<figure>";
    int number = 0;
    for (const CooledDrawing::Across& across : drawing.across) {
        const Chart chart{"Rise against the mould across, at x = " + csv_cell(across.x) + " mm",
                          "mm",
                          across.curves,
                          {},
                          false,
                          {},
                          true};
        html += chart_picture(chart, id + "a" + std::to_string(number++));
    }
    html += "</figure>\n<figure>" + layers_picture(drawing, id + "b") +
            folded(layers_table(drawing)) + "</figure>\n";
    return html;
}

} // namespace vrid
