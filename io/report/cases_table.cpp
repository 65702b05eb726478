// How the bench cases of a page are held and loaded.
#include <algorithm>

#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "solver/cases/cases.hpp"

namespace vrid {
namespace {

bool is_shown(const Report& report, const std::string& name) {
    return std::ranges::any_of(report.rows, [&](const ReportRow& row) {
        return std::ranges::any_of(row.numbers, [&](const ReportNumber& number) {
            return number.name == name || number.name.starts_with(name + " ") ||
                   number.name.starts_with(name + ".");
        });
    });
}

} // namespace

std::string cases_table(const Report& report) {
    std::string html;
    for (const CaseInfo& one : bench_cases()) {
        if (is_shown(report, one.name)) {
            html += "<div>" + case_picture(one.name, "case-" + one.name) + "<p><b>" +
                    escaped(one.name) + "</b><br>held: " + escaped(one.held) +
                    "<br>loaded: " + escaped(one.loaded) +
                    "<br>reported: " + escaped(one.reported) + "</p></div>\n";
        }
    }
    return html.empty() ? ""
                        : "<h3>How each case is held and loaded</h3>\n<p class=\"sub\">Flex from "
                          "the side, twist from above, the nose to the right. Hatched: held. "
                          "Arrow: load. w is vertical.</p>\n<div class=\"cases\">" +
                              html + "</div>\n";
}

} // namespace vrid
