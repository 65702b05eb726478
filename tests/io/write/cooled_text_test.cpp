// What is printed of a board out of the press, against sentences written by hand.
#include "io/write/study_text.hpp"

#include <numbers>

#include <catch2/catch.hpp>

#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

CooledShape shape_of_two_layers() {
    CooledShape shape;
    shape.by_layer = {{"base", -0.00123, 0.00025, 0},
                      {"upper glass", 0.00456, -0.0001, -std::numbers::pi / 360}};
    return shape;
}

SolvedBoard released_board(const CooledShape& shape) {
    SolvedBoard solved;
    CaseResult result;
    result.name = "release";
    result.cooled = std::make_shared<CooledShape>(shape);
    solved.study.cases = {CaseResult{}, result};
    return solved;
}

std::vector<std::string> warnings_of(const StretchShare& stretch) {
    CooledShape shape = shape_of_two_layers();
    shape.stretch = stretch;
    return stretch_warnings(released_board(shape).study);
}

} // namespace

TEST_CASE("each layer's part of the shape is printed in mm and degrees, with the caution") {
    SolvedBoard solved = released_board(shape_of_two_layers());
    const std::string text = cooled_text(solved);
    CHECK(text_row(text, "release by layer") == "release by layer camber hollow at x = 0 twist");
    CHECK(text_row(text, "[mm]") == "[mm] [mm] [deg]");
    CHECK(text_row(text, "base") == "base -1.23 0.25 0.00");
    CHECK(text_row(text, "upper glass") == "upper glass 4.56 -0.10 -0.50");
    CHECK_THAT(squeezed(text), Catch::EndsWith(squeezed(cooled_caution)));
    CHECK_THAT(text, !Contains("eta"));
    solved.study.cases.pop_back();
    CHECK(cooled_text(solved).empty());
}

TEST_CASE("a curvature overstated by up to a twentieth is not worth saying, more is, all is void") {
    CHECK(warnings_of({0.05, 0.05, 0, 0}).empty());
    CHECK(warnings_of({0, 0.0501, -0.3, 0.62}) ==
          std::vector<std::string>{
              "release: the hollow is overstated by about 5.0 % at x = 620 mm, where the board "
              "bends both ways and must stretch (eta = 0.050)"});
    CHECK(warnings_of({1, 0, -0.3004, 0.62}) ==
          std::vector<std::string>{
              "release: the camber is overstated by about 100 % at x = -300 mm, where the board "
              "bends both ways and must stretch (eta = 1.0)"});
    CHECK(
        warnings_of({1.234, 0.2, -0.3, 0.62}) ==
        std::vector<std::string>{
            "release: the hollow is overstated by about 20 % at x = 620 mm, where the board bends "
            "both ways and must stretch (eta = 0.20)",
            "release: the camber is not valid at x = -300 mm: the board bends so far both ways "
            "that it must stretch, and may snap to another shape (eta = 1.2)"});
    CooledShape shape;
    shape.stretch.along = 0.3;
    CHECK_THAT(cooled_text(released_board(shape)), Contains("overstated by about 30 %"));
}
