#include <algorithm>
#include <cctype>
#include <cmath>

#include "io/report/report_style.hpp"
#include "io/report/strength_pictures.hpp"
#include "io/report/svg.hpp"
#include "io/write/caution.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/json_parts.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

std::string name_of(const ReportRow& row) {
    return row.variant.empty() ? row.board : row.board + ", " + row.variant;
}

std::string bar_text(const ReportNumber& number, const RoundedNumber& shown) {
    const std::string bar = bar_markup(number, shown);
    return bar.empty() ? "" : " <span class=\"bar\">" + bar + "</span>";
}

bool is_exceeded(const ReportNumber& number) {
    return number.limit && number.limit->exceeded;
}

RoundedNumber shown_number(const ReportNumber& number) {
    return number.limit ? rounded(number.quantity, *number.limit)
                        : rounded(number.quantity.value, number.quantity.error);
}

std::string number_cell(const ReportNumber& number) {
    const RoundedNumber shown = shown_number(number);
    std::string mark;
    if (is_exceeded(number)) {
        mark += " <span class=\"out\" title=\"outside its limits\">outside</span>";
    }
    if (number.drift) {
        mark += " <span class=\"drift\">drift</span>";
    }
    return "<td>" + shown.value + bar_text(number, shown) + mark + "</td>";
}

/// Names and units of all numbers, in the order in which they first appear.
std::vector<std::pair<std::string, std::string>> all_numbers(const Report& report) {
    std::vector<std::pair<std::string, std::string>> all;
    for (const ReportRow& row : report.rows) {
        for (const ReportNumber& number : row.numbers) {
            const std::pair<std::string, std::string> one{number.name, number.quantity.unit};
            if (number.is_shown() && !contains(all, one)) {
                all.push_back(one);
            }
        }
    }
    return all;
}

std::string overview_row(const ReportRow& row, std::size_t index,
                         const std::vector<std::pair<std::string, std::string>>& numbers) {
    const bool drawn = row.variant.empty();
    const std::string name = escaped(drawn ? row.board : row.variant);
    const bool linked = drawn && row.error.empty();
    std::string html =
        std::string(drawn ? "<tr>" : "<tr class=\"variant\">") + "<th scope=\"row\">" +
        (linked ? "<a href=\"#b" + std::to_string(index) + "\">" + name + "</a>" : name) + "</th>";
    if (!row.error.empty()) {
        return html + "<td class=\"failed\" colspan=\"" + std::to_string(numbers.size()) +
               "\">failed: " + escaped_lines(row.error) + "</td></tr>\n";
    }
    for (const auto& [wanted, unit] : numbers) {
        const auto found =
            std::ranges::find_if(row.numbers, [&name = wanted](const ReportNumber& number) {
                return number.name == name;
            });
        html += found == row.numbers.end() ? "<td></td>" : number_cell(*found);
    }
    return html + "</tr>\n";
}

/// A line may end between the parts of a name: strength.nose-twist.travel is wider than its
/// numbers.
std::string name_in_parts(const std::string& name) {
    std::string html;
    for (std::size_t from = 0, to = 0; from < name.size(); from = to) {
        to = std::min(name.find('.', from), name.size() - 1) + 1;
        const bool part =
            to < name.size() && std::isalpha(static_cast<unsigned char>(name[to])) != 0;
        html += escaped(name.substr(from, to - from)) + (part ? "<wbr>" : "");
    }
    return html;
}

std::string overview(const Report& report) {
    const auto numbers = all_numbers(report);
    std::vector<std::string> columns{"board"};
    for (const auto& [name, unit] : numbers) {
        columns.push_back(name_in_parts(name) + "<br>" + escaped(unit));
    }
    std::string rows;
    for (std::size_t i = 0; i < report.rows.size(); ++i) {
        rows += overview_row(report.rows[i], i, numbers);
    }
    return "<h2 id=\"overview\">Overview</h2>\n" + html_table("Overview table", columns, rows) +
           "\n<p class=\"sub\">&plusmn; is the error bar of the computation. "
           "It does not cover materials, cloth and press: they are the larger doubt.</p>\n" +
           variants_table(report) + cases_table(report);
}

std::string overlay() {
    return "<h2 id=\"compare\">Two boards overlaid</h2>\n<div class=\"choose\">"
           "<label>first<select id=\"first\"></select></label>"
           "<label>second<select id=\"second\"></select></label>"
           "<label>curve<select id=\"what\"></select></label></div>\n"
           "<figure id=\"overlay\" aria-live=\"polite\"></figure>\n"
           "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Comparison\">"
           "<table><thead><tr><th scope=\"col\">number</th>"
           "<th scope=\"col\">first</th><th scope=\"col\">second</th><th scope=\"col\">change</th>"
           "<th scope=\"col\"></th><th scope=\"col\">unit</th></tr></thead>"
           "<tbody id=\"against\"></tbody></table></div>\n";
}

std::string bound(const std::optional<double>& value) {
    return value ? csv_cell(*value) : "";
}

std::string numbers_table(const ReportRow& row, bool has_baseline) {
    std::vector<std::string> columns{"number", "value", "error bar", "unit", "min", "max", "limit"};
    if (has_baseline) {
        columns.emplace_back("since baseline");
    }
    std::string html;
    for (const ReportNumber& number : row.numbers) {
        if (!number.is_shown()) {
            continue;
        }
        const RoundedNumber shown = shown_number(number);
        const Limit limit = number.limit ? number.limit->limit : Limit{};
        html += "<tr><th scope=\"row\">" + escaped(number.name) + "</th><td>" + shown.value +
                "</td><td class=\"bar\">" + bar_markup(number, shown) + "</td><td>" +
                escaped(number.quantity.unit) + "</td><td>" + bound(limit.min) + "</td><td>" +
                bound(limit.max) + "</td><td>" +
                (!number.limit              ? ""
                 : is_exceeded(number)      ? "<span class=\"out\">outside</span>"
                 : number.limit->unresolved ? "within, margin inside the error bar"
                                            : "within") +
                "</td>";
        if (has_baseline) {
            html += "<td>" +
                    (!number.percent ? ""
                                     : fixed(*number.percent, 2) + " % " +
                                           (number.drift   ? "<span class=\"drift\">drift</span>"
                                            : number.moved ? "small"
                                                           : "within the bars")) +
                    "</td>";
        }
        html += "</tr>\n";
    }
    return html_table("Numbers of " + escaped(row.board), columns, html) + "\n";
}

std::string sections(const Drawing& drawing, const std::string& id) {
    double widest = 1;
    for (const DrawnSection& section : drawing.sections) {
        if (!section.parts.empty()) {
            widest =
                std::max(widest, section.parts.back().y.second - section.parts.front().y.first);
        }
    }
    std::string html = "<h3>Cross-sections</h3>\n";
    for (std::size_t i = 0; i < drawing.sections.size(); ++i) {
        html += "<figure>" +
                section_picture(drawing.sections[i], widest, layer_names(drawing),
                                id + "s" + std::to_string(i)) +
                "</figure>\n";
    }
    return html;
}

std::string board_section(const ReportRow& row, const StrengthFindings& strength, std::size_t index,
                          bool has_baseline) {
    const std::string id = "b" + std::to_string(index);
    std::string html = "<section aria-labelledby=\"" + id + "\"><h2 id=\"" + id + "\">" +
                       escaped(name_of(row)) + "</h2>\n";
    const bool any_number =
        std::ranges::any_of(row.numbers, [](const ReportNumber& one) { return one.is_shown(); });
    html += any_number ? numbers_table(row, has_baseline) : "";
    html += "<h3>Along the board</h3>\n<figure>" +
            (row.drawing ? planform_picture(*row.drawing, id + "p") : "") +
            curve_pictures(row, id + "c") + "</figure>\n";
    html += bent_section(row, id + "t");
    html += strength_section(
        strength, row.drawing ? row.drawing->outline : std::vector<std::pair<double, double>>{},
        id + "w");
    html += cooled_section(row, id + "f");
    html += edge_pictures(row, id + "e");
    html += row.drawing ? layup_table(*row.drawing) + sections(*row.drawing, id) : "";
    html += "<h3>What was run</h3>\n<dl>";
    for (const auto& [what, value] : row.facts) {
        html += "<dt>" + escaped(what) + "</dt><dd>" + escaped(value) + "</dd>";
    }
    return html + "</dl></section>\n";
}

nlohmann::ordered_json number_json(double value, int digits) {
    return std::isfinite(value) ? nlohmann::ordered_json(round_significant(value, digits))
                                : nlohmann::ordered_json();
}

/// Force and local angle of every condition at the same even stations.
void add_edge(nlohmann::ordered_json& one, const ReportRow& row) {
    constexpr int points = 121;
    one["edge_x"] = nlohmann::ordered_json::array();
    one["edge"] = nlohmann::ordered_json::object();
    const auto first =
        std::ranges::find_if(row.edge, [](const EdgeState& state) { return !state.x.empty(); });
    if (first == row.edge.end()) {
        return;
    }
    std::vector<double> x;
    for (int i = 0; i < points; ++i) {
        x.push_back(first->x.front() + (first->x.back() - first->x.front()) * i / (points - 1));
        one["edge_x"].push_back(round_significant(x.back(), 5));
    }
    for (const EdgeState& state : row.edge) {
        const std::string stand = state.name.substr(std::string("edge").size());
        for (const auto& [what, line] : {std::pair("edge force, N/mm:", &state.force_line),
                                         std::pair("edge angle, deg:", &state.angle_line)}) {
            auto& column = one["edge"][what + stand] = nlohmann::ordered_json::array();
            for (const double at : x) {
                column.push_back(number_json(value_at({"", state.x, *line}, at), 4));
            }
        }
    }
}

/// EI, GJ and thickness, every third of the fine stations: the overlay is as wide as a screen.
void add_section(nlohmann::ordered_json& one, const ReportRow& row) {
    constexpr std::size_t every = 3;
    one["section"] = nlohmann::ordered_json::object();
    for (std::size_t c = 0; c < row.sections.columns.size(); ++c) {
        auto& column = one["section"][row.sections.columns[c]] = nlohmann::ordered_json::array();
        for (std::size_t i = 0; i < row.sections.values[c].size(); i += every) {
            column.push_back(number_json(row.sections.values[c][i], 5));
        }
    }
}

/// Names, numbers and curves of all rows for the script.
std::string script_data(const Report& report) {
    using Json = nlohmann::ordered_json;
    Json all = Json::array();
    for (const ReportRow& row : report.rows) {
        if (!row.error.empty()) {
            continue;
        }
        Json one{{"name", name_of(row)}, {"numbers", Json::object()}, {"curves", Json::object()}};
        for (const ReportNumber& number : row.numbers) {
            const BenchQuantity& q = number.quantity;
            const RoundedNumber shown = rounded(q.value, q.error);
            one["numbers"][number.name] = {q.value, q.error, q.unit,
                                           shown.value + (!number.resolved ? ", not resolved"
                                                          : shown.error.empty()
                                                              ? ""
                                                              : " \u00b1 " + shown.error)};
        }
        for (std::size_t c = 0; c < row.stations.columns.size(); ++c) {
            Json& column = one["curves"][row.stations.columns[c]] = Json::array();
            for (const double value : row.stations.values[c]) {
                column.push_back(number_json(value, 5));
            }
        }
        add_section(one, row);
        add_edge(one, row);
        all.push_back(one);
    }
    std::string text = json_line(all);
    for (std::size_t at = text.find('<'); at != std::string::npos; at = text.find('<', at)) {
        text.replace(at, 1, "\\u003c"); // nothing in a name may end the script
    }
    return text;
}

} // namespace

std::string bar_markup(const ReportNumber& number, const RoundedNumber& rounded) {
    return !number.resolved        ? "not resolved"
           : rounded.error.empty() ? ""
                                   : "&plusmn;&#8239;" + rounded.error;
}

std::string report_html(const Report& report) {
    return report_html(report, {});
}

std::string report_html(const Report& report, const std::vector<StrengthFindings>& strength) {
    const bool solo = report.rows.empty(); // findings alone
    const std::string first = !solo                         ? "overview"
                              : report.findings.sense       ? "sense"
                              : report.findings.scatter     ? "scatter"
                              : report.findings.calibration ? "calibration"
                              : report.findings.lot         ? "lot"
                                                            : "family";
    std::string html =
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
        "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">"
        "<link rel=\"icon\" href=\"data:,\"><title>" +
        escaped(report.title) + "</title>\n<style>\n" + report_style +
        "</style></head><body>\n<a class=\"skip\" href=\"#" + first + "\">to the " +
        (solo ? "results" : "overview") +
        "</a>"
        "<main>\n<h1>" +
        escaped(report.title) + "</h1>\n<p class=\"sub\">" + escaped(report.program) +
        (solo ? ""
              : "; " + std::to_string(report.rows.size()) +
                    (report.rows.size() == 1 ? " board" : " rows")) +
        "</p>\n" + "<aside class=\"caution\" aria-label=\"Caution\"><p>" + caution +
        "</p></aside>\n" +
        (report.notice.empty()
             ? ""
             : "<p class=\"notice\" role=\"note\">" + escaped(report.notice) + "</p>\n") +
        (solo ? "" : needs_a_look(report) + overview(report));
    const auto solved =
        std::ranges::count_if(report.rows, [](const ReportRow& row) { return row.error.empty(); });
    if (solved > 1) {
        html += overlay();
    }
    for (std::size_t i = 0; i < report.rows.size(); ++i) {
        const ReportRow& row = report.rows[i];
        if (row.error.empty() && row.variant.empty()) { // variants differ in numbers and curves
            html += board_section(row, i < strength.size() ? strength[i] : StrengthFindings{}, i,
                                  report.has_baseline);
        }
    }
    html += findings_html(report.findings, report.hash);
    return html + "</main>\n<script type=\"application/json\" id=\"data\">" + script_data(report) +
           "</script>\n<script>\n" + report_script + "</script></body></html>\n";
}

} // namespace vrid
