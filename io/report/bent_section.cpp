#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

#include "io/report/report.hpp"
#include "io/report/svg.hpp"

namespace vrid {

namespace {

// "nose-flex at 60 mm.force": case, travel and what of it.
struct BentName {
    std::string bench;
    double travel = 0; // [mm]
    std::string rest;  // ".force"
};

std::optional<BentName> bent_name_in(const std::string& name, const std::string& between) {
    const auto at = name.find(between);
    if (at == std::string::npos) {
        return std::nullopt;
    }
    BentName found{name.substr(0, at), 0, ""};
    const char* end = name.data() + name.size();
    const auto read = std::from_chars(name.data() + at + between.size(), end, found.travel);
    const std::string after(read.ptr, end);
    if (read.ec != std::errc{} || !after.starts_with(" mm")) {
        return std::nullopt;
    }
    found.rest = after.substr(3);
    return found;
}

Curve& curve_of(const std::string& bench, double at_rest, std::vector<Curve>& curves) {
    const auto found = std::ranges::find(curves, bench, &Curve::name);
    if (found != curves.end()) {
        return *found;
    }
    return curves.emplace_back(Curve{bench, {0}, {at_rest}});
}

double plain_number(const ReportRow& row, const std::string& name) {
    const auto found = std::ranges::find(row.numbers, name, &ReportNumber::name);
    return found == row.numbers.end() ? std::nan("") : found->quantity.value;
}

} // namespace

std::string bent_section(const ReportRow& row, const std::string& id) {
    Chart force;
    Chart twist;
    force.title = "force that holds the board bent";
    force.unit = "N";
    twist.title = "twist stiffness while bent";
    force.over = twist.over = "travel, mm";
    for (const ReportNumber& number : row.numbers) {
        if (const auto flex = bent_name_in(number.name, " at "); flex && flex->rest == ".force") {
            Curve& curve = curve_of(flex->bench, 0, force.curves);
            curve.x.push_back(flex->travel);
            curve.y.push_back(number.quantity.value);
        } else if (const auto turn = bent_name_in(number.name, " bent ")) {
            Curve& curve = curve_of(turn->bench, plain_number(row, turn->bench), twist.curves);
            curve.x.push_back(turn->travel);
            curve.y.push_back(number.quantity.value);
            twist.unit = number.quantity.unit;
        }
    }
    if (force.curves.empty() && twist.curves.empty()) {
        return "";
    }
    std::string html = "<h3>Bent as in riding</h3>\n<p>Over the travel: centre pushed down, tips "
                       "lifted up, from the rest shape. A twist is a small turn of the board while "
                       "it is held bent.</p>\n<figure>";
    for (const Chart* chart : {&force, &twist}) {
        html += chart_picture(*chart, id + (chart == &force ? "f" : "t"));
    }
    html += "</figure>\n";
    for (const Chart* chart : {&force, &twist}) {
        DataTable table{chart->title, {"case", "travel, mm", chart->unit}, {}};
        for (const Curve& curve : chart->curves) {
            for (std::size_t i = 0; i < curve.x.size(); ++i) {
                table.rows.push_back(
                    {curve.name, significant(curve.x[i], 6), significant(curve.y[i], 4)});
            }
        }
        html += table.rows.empty() ? "" : folded(table);
    }
    return html;
}

} // namespace vrid
