// What variants change, against rows written by hand.
#include <catch2/catch.hpp>

#include "io/report/report.hpp"

using namespace vrid;
using Catch::Contains;

namespace {

ReportRow varied(const std::string& board, const std::string& variant,
                 const std::vector<VariantChange>& changes) {
    ReportRow row;
    row.board = board;
    row.variant = variant;
    row.variant_changes = changes;
    return row;
}

} // namespace

TEST_CASE("a change that several boards have alike stands once, variants in the suite's order") {
    const VariantChange thick{"core.thickness_scale", "1", "1.05"};
    const VariantChange added{"layer <veil>", "", "veil"};
    Report report;
    report.rows = {varied("a", "", {}),
                   varied("a", "thick", {thick}),
                   varied("a", "veiled", {added}),
                   varied("b", "", {}),
                   varied("b", "thick", {thick}),
                   varied("b", "veiled", {{"layer <veil>", "old", "veil"}})};
    const std::string table = variants_table(report);
    const auto row = [](const std::string& variant, const std::string& what,
                        const std::string& before, const std::string& after,
                        const std::string& boards) {
        std::string all = "<tr><th scope=\"row\">" + variant + "</th>";
        for (const std::string& cell : {what, before, after, boards}) {
            all += "<td class=\"text\">" + cell + "</td>";
        }
        return all + "</tr>\n";
    };
    CHECK_THAT(table,
               Contains("<tbody>\n" + row("thick", "core.thickness_scale", "1", "1.05", "a, b") +
                        row("veiled", "layer &lt;veil&gt;", "none", "veil", "a") +
                        row("veiled", "layer &lt;veil&gt;", "old", "veil", "b") + "</tbody>"));
    report.rows.resize(1);
    CHECK(variants_table(report).empty());
}
