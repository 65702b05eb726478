// What each variant of a page changes.
#include <algorithm>

#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

struct ChangedRow {
    std::string variant;
    VariantChange change;
    std::vector<std::string> boards;
};

/// The same change of the same variant stands once, with all its boards.
std::vector<ChangedRow> changed_rows(const Report& report) {
    std::vector<ChangedRow> rows;
    for (const ReportRow& row : report.rows) {
        for (const VariantChange& change : row.variant_changes) {
            auto found = std::ranges::find_if(rows, [&](const ChangedRow& one) {
                return one.variant == row.variant && one.change == change;
            });
            if (found == rows.end()) {
                found = rows.insert(found, {row.variant, change, {}});
            }
            found->boards.push_back(row.board);
        }
    }
    std::vector<std::string> order; // of the variants, as the suite lists them
    for (const ReportRow& row : report.rows) {
        order.push_back(row.variant);
    }
    const auto place = [&](const ChangedRow& row) {
        return std::ranges::find(order, row.variant) - order.begin();
    };
    std::ranges::stable_sort(
        rows, [&](const ChangedRow& a, const ChangedRow& b) { return place(a) < place(b); });
    return rows;
}

std::string variant_cell(const std::string& text) {
    return "<td class=\"text\">" + escaped(text.empty() ? "none" : text) + "</td>";
}

} // namespace

std::string variants_table(const Report& report) {
    const std::vector<ChangedRow> rows = changed_rows(report);
    if (rows.empty()) {
        return "";
    }
    std::string html =
        "<h3>What each variant changes</h3>\n<div class=\"scroll layup\" tabindex=\"0\" "
        "role=\"region\" aria-label=\"What each variant changes\"><table><thead><tr>"
        "<th scope=\"col\">variant</th><th class=\"text\" scope=\"col\">what</th>"
        "<th class=\"text\" scope=\"col\">as drawn</th><th class=\"text\" scope=\"col\">variant"
        "</th><th class=\"text\" scope=\"col\">boards</th></tr></thead><tbody>\n";
    for (const ChangedRow& row : rows) {
        html += "<tr><th scope=\"row\">" + escaped(row.variant) + "</th>" +
                variant_cell(row.change.what) + variant_cell(row.change.before) +
                variant_cell(row.change.after) + variant_cell(joined(row.boards)) + "</tr>\n";
    }
    return html + "</tbody></table></div>\n";
}

} // namespace vrid
