#include <catch2/catch.hpp>

#include "io/report/report.hpp"

using namespace vrid;
using Catch::Contains;

namespace {

ReportNumber twist(double value, bool exceeded, bool unresolved) {
    ReportNumber number;
    number.name = "nose-twist";
    number.quantity = {value, 0.01, "N m/deg"};
    LimitVerdict verdict;
    verdict.name = number.name;
    verdict.limit = {9.0, 10.0};
    verdict.exceeded = exceeded;
    verdict.unresolved = unresolved;
    number.limit = verdict;
    return number;
}

Report of(std::vector<ReportRow> rows) {
    Report report;
    report.rows = std::move(rows);
    return report;
}

ReportRow row(const std::string& board, std::vector<ReportNumber> numbers) {
    ReportRow one;
    one.board = board;
    one.numbers = std::move(numbers);
    return one;
}

} // namespace

TEST_CASE("each problem of a board that failed has a line of the page") {
    ReportRow failed;
    failed.board = "Broken";
    failed.error = "b.toml:1:1: <format>: missing\nb.toml:1:1: name: missing";
    CHECK_THAT(report_html(of({failed})),
               Contains("failed: b.toml:1:1: &lt;format&gt;: missing<br>b.toml:1:1: name") &&
                   Contains("</b>: b.toml:1:1: &lt;format&gt;: missing<br>b.toml:1:1: name"));
}

TEST_CASE("a page says first what failed, left its limits, drifted or warned, in this order") {
    ReportRow failed;
    failed.board = "<Broken>";
    failed.error = "no mesh";
    ReportRow warned = row("Tarn", {});
    warned.facts = {{"program", "vrid"}, {"warning", "thin sheet"}};
    ReportNumber drifted = twist(9.5, false, false);
    drifted.percent = -1.25;
    drifted.drift = true;
    const std::string page =
        needs_a_look(of({warned, row("Moved", {drifted}), row("Soft", {twist(8.5, true, false)}),
                         row("Edgy", {twist(9.001, false, true)}), failed}));
    std::size_t at = 0;
    for (const char* wanted :
         {"Needs a look", "Failed (1)", "&lt;Broken&gt;</b>: no mesh", "Outside its limits (1)",
          "Soft</b>: nose-twist 8.5", "N m/deg, limits 9 to 10", "Drifted (1)", "Moved</b>",
          "-1.25 % since the baseline", "less than the error bar (1)", "Edgy</b>", "Warnings (1)",
          "Tarn</b>: thin sheet"}) {
        CAPTURE(wanted);
        const std::size_t found = page.find(wanted, at);
        REQUIRE(found != std::string::npos);
        at = found;
    }
}

TEST_CASE("one limit that is left in many conditions of the edge is one line of the page") {
    std::vector<ReportNumber> numbers;
    for (const int angle : {30, 45, 60}) {
        ReportNumber number = twist(angle / 20.0, angle > 40, false);
        number.name = "edge " + std::to_string(angle) + " deg 800 N 5 N/mm3 loss nose";
        number.limit->name = number.name;
        number.limit->limit = {{}, 2.0};
        number.limit->found = Measured{number.quantity};
        numbers.push_back(number);
    }
    const std::string page = needs_a_look(of({row("Soft", numbers)}));
    CHECK_THAT(page, Contains("Outside its limits (1)") &&
                         Contains("edge 60 deg 800 N 5 N/mm3 loss nose 3.000") &&
                         Contains("limit at most 2; outside in 2 of 3 conditions") &&
                         !Contains("edge 45 deg"));
}

TEST_CASE("a page with nothing to look at says so, of drift only against a baseline") {
    Report report = of({row("Tarn", {twist(9.5, false, false)})});
    CHECK_THAT(needs_a_look(report),
               Contains("Nothing: no failure, no limit exceeded, no warning"));
    report.has_baseline = true;
    CHECK_THAT(needs_a_look(report), Contains("no drift") && !Contains("<li>"));
}

TEST_CASE("a warning that rows share but for its numbers is shown once, a long list is folded") {
    ReportRow first = row("Tarn", {}), second = row("Moor", {});
    first.facts = {{"warning", "b^2 / (R h) = 1.8"}, {"warning", "thin sheet"}};
    second.facts = {{"warning", "b^2 / (R h) = 1.5"}};
    CHECK_THAT(needs_a_look(of({first, second})),
               Contains("Warnings (2)") && Contains("Tarn</b> and 1 more: b^2 / (R h) = 1.8") &&
                   !Contains("1.5") && Contains("Tarn</b>: thin sheet"));
    std::vector<ReportRow> rows;
    for (int i = 0; i < 20; ++i) {
        ReportRow one = row("Tarn", {});
        one.variant = "variant " + std::to_string(i);
        one.error = "no mesh";
        rows.push_back(one);
    }
    CHECK_THAT(needs_a_look(of(rows)), Contains("Failed (20)") && Contains("8 more</summary>"));
}
