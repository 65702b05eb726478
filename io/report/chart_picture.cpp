#include <algorithm>
#include <cmath>

#include "io/report/axis.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr double chart_top = 26;
constexpr double plot = 120;

} // namespace

std::string chart_picture(const Chart& chart, const std::string& id) {
    Reach across;
    Reach values;
    for (const Curve& curve : chart.curves) {
        for (std::size_t i = 0; i < curve.x.size(); ++i) {
            across.add(curve.x[i]);
            values.add(curve.y[i]);
        }
    }
    if (!across.any() || !values.any()) {
        return "";
    }
    for (const double station : chart.extent) {
        across.add(station);
    }
    if (chart.from_zero) {
        values.add(0);
    }
    const double room = std::max((values.high - values.low) * 0.04, 1e-12);
    const Axis x{across.low, std::max(across.high, across.low + 1e-9), stations_left,
                 picture_width - stations_right};
    const Axis y{values.low - (values.low < 0 ? room : 0), values.high + room, chart_top + plot,
                 chart_top};
    const double named = chart.over.empty() ? 0 : 16; // below the ticks: no curve runs there
    Svg svg(picture_width, chart_top + plot + 22 + named);
    draw_levels(svg, y, 4);
    draw_stations(svg, x, chart_top + plot);
    for (const double mark : chart.marks) {
        svg.line(x.at(mark), chart_top, x.at(mark), chart_top + plot, "contact");
    }
    for (std::size_t i = 0; i < chart.curves.size(); ++i) {
        draw_curve(svg, chart.curves[i], x, y, i);
    }
    if (!chart.over.empty()) { // stations need no name
        svg.text(picture_width - stations_right, chart_top + plot + 33, chart.over, "end", "note");
    }
    svg.text(stations_left, 14, chart.title + ", " + chart.unit, "start", "head");
    if (chart.curves.size() > 1) {
        draw_keys(svg, each_of(chart.curves, &Curve::name));
    }
    const std::string over = !chart.over.empty() ? chart.over + ": "
                             : chart.across      ? "y in mm, right to left: "
                                                 : "the station x in mm, tail to nose: ";
    const std::string where = !chart.over.empty() ? " over " + chart.over
                              : chart.across      ? " across the board"
                                                  : " along the board";
    return svg.markup(id, chart.title + where,
                      "Curves over " + over + joined(chart.curves, ", ", &Curve::name) + ". From " +
                          significant(values.low, 3) + " to " + significant(values.high, 3) + " " +
                          chart.unit + ".");
}

const std::vector<double>* StationTable::column(const std::string& name) const {
    const auto found = std::ranges::find(columns, name);
    return found == columns.end() ? nullptr
                                  : &values[static_cast<std::size_t>(found - columns.begin())];
}

namespace {

void add(Chart& chart, const StationTable& table, const std::string& column,
         const std::string& name) {
    const auto* x = table.column("x_mm");
    const auto* y = table.column(column);
    if (x != nullptr && y != nullptr) {
        chart.curves.push_back({name, *x, *y});
    }
}

/// Columns that end so, of the cases with that unit: deflection under force, twist under turn.
Chart case_chart(const ReportRow& row, const std::string& ending, const std::string& unit) {
    Chart chart;
    const StationTable& fine = row.lines.columns.empty() ? row.stations : row.lines;
    for (const ReportNumber& number : row.numbers) {
        if (number.quantity.unit == unit) {
            add(chart, fine, number.name + ending, number.name);
        }
    }
    return chart;
}

/// Tip to tip: a station stands under the same station of the planform.
std::vector<double> extent_of(const ReportRow& row) {
    std::vector<double> ends;
    if (row.drawing && !row.drawing->outline.empty()) {
        const auto& outline = row.drawing->outline;
        const auto [tail, nose] = std::minmax_element(outline.begin(), outline.end());
        ends = {tail->first, nose->first};
    }
    return ends;
}

} // namespace

std::string curve_pictures(const ReportRow& row, const std::string& id) {
    std::vector<double> marks = row.drawing ? row.drawing->contact : std::vector<double>{};
    Chart thickness{"Thickness", "mm", {}, marks, true, {}};
    const StationTable& fine = row.sections.columns.empty() ? row.stations : row.sections;
    add(thickness, fine, "thickness_mm", "board");
    add(thickness, fine, "core_thickness_mm", "core");
    Chart EI{"Bending stiffness EI", "N m2", {}, marks, true, {}};
    add(EI, fine, "EI_Nm2", "EI");
    Chart GJ{"Torsional stiffness GJ", "N m2", {}, marks, true, {}};
    add(GJ, fine, "GJ_Nm2", "GJ");
    Chart deflection = case_chart(row, "_deflection_mm", "N/mm");
    deflection.title = "Deflection lines at 1 N";
    deflection.unit = "mm";
    deflection.marks = marks;
    Chart twist = case_chart(row, "_twist_deg", "N m/deg");
    twist.title = "Twist lines at 1 deg";
    twist.unit = "deg";
    twist.marks = marks;
    std::string all;
    int number = 0;
    for (Chart* chart : {&thickness, &EI, &GJ, &deflection, &twist}) {
        chart->extent = extent_of(row);
        const std::string picture = chart_picture(*chart, id + std::to_string(number++));
        all += picture;
        if (!picture.empty()) {
            all += folded(curve_table(chart->title, chart->unit, chart->curves));
        }
    }
    return all;
}

} // namespace vrid
