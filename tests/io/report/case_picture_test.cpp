#include <catch2/catch.hpp>

#include "io/report/report.hpp"
#include "solver/cases/cases.hpp"

using namespace vrid;
using Catch::Contains;

TEST_CASE("every bench case has a drawing of its own, and nothing else has one") {
    std::vector<std::string> seen;
    for (const CaseInfo& one : bench_cases()) {
        const std::string picture = case_picture(one.name, "id");
        CAPTURE(one.name);
        CHECK_THAT(picture, Contains("How " + one.name + " holds and loads the board"));
        const std::string drawn = picture.substr(picture.find("</desc>") + 1);
        CHECK(std::count(seen.begin(), seen.end(), drawn) ==
              (one.name == "cold" ? 1 : 0)); // both cool down and lie free
        seen.push_back(drawn);
    }
    CHECK(case_picture("nose-press", "id").empty());
}

TEST_CASE("the page draws the cases it has numbers of, and says what is held and loaded") {
    Report report;
    ReportRow row;
    row.board = "one";
    ReportNumber number;
    number.name = "nose-twist";
    row.numbers.push_back(number);
    report.rows.push_back(row);
    CHECK_THAT(cases_table(report), Contains("rigid bar on the contact line of that end") &&
                                        Contains("every freedom on the foot strip") &&
                                        !Contains("centre-flex") &&
                                        Contains("id=\"case-nose-twist"));
    CHECK(cases_table(Report{}).empty());
}

TEST_CASE("what a variant changes stands once for all boards that have it so, escaped") {
    Report report;
    for (const std::string board : {"a", "b", "c"}) {
        ReportRow drawn;
        drawn.board = board;
        report.rows.push_back(drawn);
        ReportRow variant = drawn;
        variant.variant = "glass < 70";
        variant.variant_changes = {{"material.e-glass.E_GPa", board == "c" ? "73" : "72.4", "70"}};
        report.rows.push_back(variant);
    }
    const std::string table = variants_table(report);
    CHECK_THAT(table, Contains("glass &lt; 70") && Contains(">72.4<") && Contains(">a, b<") &&
                          Contains(">73<") && Contains(">c<") && !Contains("< 70"));
    report.rows.resize(1);
    CHECK(variants_table(report).empty());
}
