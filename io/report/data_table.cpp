#include <algorithm>
#include <cmath>

#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr int table_stations = 25;
constexpr int digits = 4;

std::string cell(double value) {
    return std::isfinite(value) ? significant(value, digits) : "";
}

} // namespace

double value_at(const Curve& curve, double x) {
    const auto after = std::ranges::lower_bound(curve.x, x);
    if (after == curve.x.end() || (after == curve.x.begin() && *after != x)) {
        return std::nan("");
    }
    const auto i = static_cast<std::size_t>(after - curve.x.begin());
    if (i == 0 || *after == x) {
        return curve.y[i];
    }
    const double share = (x - curve.x[i - 1]) / (curve.x[i] - curve.x[i - 1]);
    return curve.y[i - 1] + share * (curve.y[i] - curve.y[i - 1]);
}

DataTable curve_table(const std::string& title, const std::string& unit,
                      const std::vector<Curve>& curves) {
    DataTable table{title + ", " + unit, {"x, mm"}, {}};
    if (curves.empty() || curves.front().x.empty()) {
        return table;
    }
    for (const Curve& curve : curves) {
        table.columns.push_back(curve.name);
    }
    const double from = curves.front().x.front();
    const double to = curves.front().x.back();
    for (int i = 0; i < table_stations; ++i) {
        const double x =
            i + 1 == table_stations ? to : from + (to - from) * i / (table_stations - 1);
        std::vector<std::string> row{fixed(x, 0)};
        for (const Curve& curve : curves) {
            row.push_back(cell(value_at(curve, x)));
        }
        table.rows.push_back(row);
    }
    return table;
}

std::string html_table(const std::string& label, const std::vector<std::string>& columns,
                       const std::string& rows, const std::vector<std::string>& words) {
    const auto number = [](const std::string& one) { return "<th scope=\"col\">" + one + "</th>"; };
    const auto word = [](const std::string& one) {
        return "<th scope=\"col\" class=\"text\">" + one + "</th>";
    };
    return "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"" + label +
           "\"><table><thead><tr>" + joined(columns, "", number) + joined(words, "", word) +
           "</tr></thead><tbody>\n" + rows + "</tbody></table></div>";
}

std::string folded(const DataTable& table) {
    const std::string title = "Table: " + escaped(table.title);
    std::string rows;
    for (const std::vector<std::string>& row : table.rows) {
        rows += "<tr>";
        for (std::size_t i = 0; i < row.size(); ++i) {
            rows += (i == 0 ? "<th scope=\"row\">" : "<td>") + escaped(row[i]) +
                    (i == 0 ? "</th>" : "</td>");
        }
        rows += "</tr>\n";
    }
    return "<details><summary>" + title + "</summary>" +
           html_table(title, each_of(table.columns, escaped), rows) + "</details>\n";
}

} // namespace vrid
