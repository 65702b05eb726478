// How the bench cases of a page are held and loaded.
#include <algorithm>

#include "io/report/report.hpp"
#include "solver/cases/cases.hpp"

namespace vrid {
namespace {

bool is_shown(const Report& report, const std::string& name) {
    return std::any_of(report.rows.begin(), report.rows.end(), [&](const ReportRow& row) {
        return std::any_of(row.numbers.begin(), row.numbers.end(), [&](const ReportNumber& number) {
            return number.name == name || number.name.starts_with(name + " ") ||
                   number.name.starts_with(name + ".");
        });
    });
}

} // namespace

std::string cases_table(const Report& report) {
    DataTable table{"how each case is held and loaded (w is vertical)",
                    {"case", "held", "loaded", "reported"},
                    {}};
    for (const CaseInfo& one : bench_cases()) {
        if (is_shown(report, one.name)) {
            table.rows.push_back({one.name, one.held, one.loaded, one.reported});
        }
    }
    return table.rows.empty() ? "" : folded(table);
}

} // namespace vrid
