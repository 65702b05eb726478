// What `vrid solve` prints, against rows written by hand. Its parts: cooled_text, bent_numbers.
#include "io/write/study_text.hpp"

#include <catch2/catch.hpp>

#include "tests/io/write/solved_example.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

TEST_CASE("a solved board's page has mass, a row a number with its bar, what was skipped and the "
          "mesh") {
    SolvedBoard solved = solved_example();
    const auto rows = text_rows(study_text(solved));
    CHECK(rows.at(0) == "plate, 3.1400 +- 0.0004 kg");
    CHECK(rows.at(1) == "case stiffness error bar unit");
    CHECK(rows.at(2) == "centre-flex 7.512 +- 0.004 N/mm");
    CHECK(rows.at(3) == "full-twist 1.396 +- 0.005 N m/deg"); // 80 and 0.25 N m/rad
    CHECK(text_row(study_text(solved), "stance-twist") ==
          "stance-twist the board file has no [stance]");
    CHECK(rows.back() ==
          "2 elements of degree 3, " + std::to_string(solved.study.unknowns) + " unknowns, 0.30 s");
    CHECK_THAT(study_text(solved), !Contains("no error bars") && !Contains("limit"));
}

TEST_CASE("with numbers other than stiffnesses the column is of values, each by its full name") {
    SolvedBoard solved = solved_example();
    CaseResult modes;
    modes.name = "free-modes";
    modes.numbers = {{"mode 1", {17.34, 0.02, Unit::frequency}}};
    solved.study.cases.push_back(modes);
    const std::string text = study_text(solved);
    CHECK(text_rows(text).at(1) == "case value error bar unit");
    CHECK(text_row(text, "free-modes mode 1") == "free-modes mode 1 17.34 +- 0.02 Hz");
}

TEST_CASE("limits stand below the numbers; degree 1 says that it has no bars") {
    SolvedBoard solved = solved_example();
    solved.board.limits = {{"centre-flex", {8, {}}}, {"mass", {{}, 3.5}}};
    std::string text = study_text(solved);
    CHECK(text_row(text, "centre-flex 8") == "centre-flex 8 7.512 +- 0.004 N/mm EXCEEDED");
    CHECK(text_row(text, "mass") == "mass 3.1400 +- 0.0004 3.5 kg within");
    CHECK_THAT(text, !Contains("vrid edge"));
    solved.board.limits["edge.peak"] = {{}, 10};
    CHECK_THAT(study_text(solved), Contains("limits on the edge are judged by vrid edge"));
    solved.study.numbering.degree = 1;
    CHECK_THAT(study_text(solved), Contains("no error bars"));
}
