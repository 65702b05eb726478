#include <algorithm>
#include <cmath>

#include "io/report/findings.hpp"
#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "io/write/csv_cell.hpp"

namespace vrid {
namespace {

constexpr std::size_t told_apart = 6; // lines of one picture

std::string sizes_table(const std::string& title, const std::vector<std::string>& columns,
                        const std::string& rows) {
    return "<h3>" + title + "</h3>\n" + html_table(title, columns, rows) + "\n";
}

std::string row_head(const std::string& text) {
    return "<th scope=\"row\">" + escaped(text) + "</th>";
}

std::string quantity_cell(const BenchQuantity& quantity, const std::string& mark = "") {
    const RoundedNumber shown = rounded(quantity.value, quantity.error);
    return "<td>" + shown.value +
           (shown.error.empty()
                ? ""
                : " <span class=\"bar\">&plusmn;&#8239;" + shown.error + "</span>") +
           mark + "</td>";
}

/// Names with units, each once, in the order in which they first appear.
using UnitsByName = std::vector<std::pair<std::string, std::string>>;

void add_name(UnitsByName& all, const std::string& name, const std::string& unit) {
    if (std::ranges::none_of(all, [&](const auto& one) { return one.first == name; })) {
        all.emplace_back(name, unit);
    }
}

std::string targets_table(const FoundFamily& found) {
    UnitsByName numbers;
    for (const FoundSize& size : found.sizes) {
        for (const FoundSizeTarget& target : size.targets) {
            add_name(numbers, target.number, target.value.unit);
        }
    }
    std::vector<std::string> head{"size", "rider, kg", ""};
    for (const auto& [name, unit] : numbers) {
        head.push_back(escaped(name) + "<br>wanted, " + escaped(unit));
        head.push_back(escaped(name) + "<br>found");
    }
    std::string rows;
    for (const FoundSize& size : found.sizes) {
        std::string row = row_head(size.name) + "<td>" +
                          (size.rider_kg ? csv_cell(*size.rider_kg) : "") + "</td><td>" +
                          (size.met ? "met" : "<span class=\"out\">not met</span>") + "</td>";
        for (const auto& number : numbers) {
            const auto target =
                std::ranges::find(size.targets, number.first, &FoundSizeTarget::number);
            row += target == size.targets.end()
                       ? "<td></td><td></td>"
                       : "<td>" + wanted_text(*target) + "</td>" +
                             quantity_cell(target->value,
                                           target->met ? "" : " <span class=\"out\">missed</span>");
        }
        rows += "<tr>" + row + "</tr>\n";
    }
    return sizes_table("Targets, wanted and found", head, rows);
}

std::string figures_table(const FoundFamily& found) {
    UnitsByName figures;
    for (const FoundSize& size : found.sizes) {
        for (const auto& [name, quantity] : size.figures) {
            add_name(figures, name, quantity.unit);
        }
    }
    if (figures.empty()) {
        return "";
    }
    std::vector<std::string> head{"size"};
    for (const auto& [name, unit] : figures) {
        std::string plain = name;
        std::ranges::replace(plain, '_', ' ');
        head.push_back(escaped(plain) + ",<br>" + escaped(unit));
    }
    std::string rows;
    for (const FoundSize& size : found.sizes) {
        std::string row = row_head(size.name);
        for (const auto& figure : figures) {
            const BenchQuantity* quantity = size.figure(figure.first);
            row += quantity != nullptr && std::isfinite(quantity->value) ? quantity_cell(*quantity)
                                                                         : "<td></td>";
        }
        rows += "<tr>" + row + "</tr>\n";
    }
    return sizes_table("Weights and lengths", head, rows);
}

/// A row a value, as there may be many; a column a size.
std::string values_table(const FoundFamily& found) {
    UnitsByName paths;
    std::vector<std::string> head{"value, as the file names it"};
    for (const FoundSize& size : found.sizes) {
        head.push_back(escaped(size.name));
        for (const auto& [path, value] : size.values) {
            add_name(paths, path, "");
        }
    }
    std::string rows;
    for (const auto& path : paths) {
        std::string row = row_head(path.first);
        for (const FoundSize& size : found.sizes) {
            const auto value = size.values.find(path.first);
            row += "<td>" + (value == size.values.end() ? "" : csv_cell(value->second)) + "</td>";
        }
        rows += "<tr>" + row + "</tr>\n";
    }
    return rows.empty() ? "" : sizes_table("Values set, stretched or free", head, rows);
}

struct SizeColumn {
    const char *column, *title, *unit;
};

constexpr SizeColumn drawn_columns[] = {{"width_mm", "Width", "mm"},
                                        {"thickness_mm", "Thickness", "mm"},
                                        {"EI_Nm2", "Bending stiffness EI", "N m2"},
                                        {"GJ_Nm2", "Torsional stiffness GJ", "N m2"}};

Chart chart_of(const std::vector<FoundSize>& sizes, const SizeColumn& drawn) {
    Chart chart;
    chart.title = drawn.title;
    chart.unit = drawn.unit;
    chart.over = "place in % of the running length";
    for (const FoundSize& size : sizes) {
        const BenchQuantity* running = size.figure("running_length");
        const auto* x = size.column("x_mm");
        const auto* y = size.column(drawn.column);
        if (running == nullptr || !(running->value > 0) || x == nullptr || y == nullptr) {
            continue;
        }
        Curve curve{size.name, *x, *y};
        for (double& place : curve.x) {
            place *= 100 / running->value;
        }
        chart.curves.push_back(std::move(curve));
    }
    chart.marks = {-50, 50};
    return chart;
}

DataTable share_table(const Chart& chart) {
    DataTable table{chart.title + ", " + chart.unit, {"place, %"}, {}};
    for (const Curve& curve : chart.curves) {
        table.columns.push_back(curve.name);
    }
    for (int place = -100; place <= 100; place += 5) {
        std::vector<std::string> row{std::to_string(place)};
        bool any = false;
        for (const Curve& curve : chart.curves) {
            const double value = value_at(curve, place);
            any = any || std::isfinite(value);
            row.push_back(std::isfinite(value) ? significant(value, 4) : "");
        }
        if (any) {
            table.rows.push_back(row);
        }
    }
    return table;
}

std::string drawn_sizes(const std::vector<FoundSize>& sizes, const std::string& id) {
    std::string html = sizes_picture(sizes, id + "o");
    for (const SizeColumn& drawn : drawn_columns) {
        const Chart chart = chart_of(sizes, drawn);
        const std::string picture = chart_picture(chart, id + drawn.column);
        html += picture.empty() ? "" : picture + folded(share_table(chart));
    }
    return html.empty() ? "" : "<figure>" + html + "</figure>\n";
}

} // namespace

std::string family_section(const FoundFamily& found) {
    std::string html = targets_table(found) + figures_table(found);
    std::string drawn;
    for (std::size_t from = 0; from < found.sizes.size(); from += told_apart) {
        const auto begin = found.sizes.begin() + static_cast<std::ptrdiff_t>(from);
        const auto count = std::min(told_apart, found.sizes.size() - from);
        drawn += drawn_sizes({begin, begin + static_cast<std::ptrdiff_t>(count)},
                             "size" + std::to_string(from));
    }
    if (!drawn.empty()) {
        html += "<h3>The sizes over each other</h3>\n<p>Outlines with the middles of their running "
                "lengths on one line. Below, the place along each board in percent of its own "
                "running length: the contact lines of all sizes stand at -50 and 50.</p>\n" +
                drawn;
    }
    return html + values_table(found);
}

} // namespace vrid
