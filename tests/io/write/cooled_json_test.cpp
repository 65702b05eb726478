// A board out of the press in documents, and the line of its mould, against values by hand.
#include "io/write/result_json.hpp"

#include <numbers>

#include <catch2/catch.hpp>

#include "io/write/result_document.hpp"
#include "io/write/solved_board.hpp"

using namespace vrid;

namespace {

// Rises by 1, 2 and 3 mm at x = -500, 0 and 500 mm.
CaseResult cooled_by_hand(const std::string& name) {
    auto shape = std::make_shared<CooledShape>();
    shape->axis = {{-0.5, 0.001}, {0, 0.002}, {0.5, 0.003}};
    shape->by_layer = {{"base", -0.0012, 0.0003, -std::numbers::pi / 360}};
    shape->across = {{0.25, {{-0.1, 0.0004}, {0.1, -0.0005}}}};
    shape->stretch = {0.12345, 0.06789, -0.3, 0.62};
    CaseResult result;
    result.name = name;
    result.numbers = {{"camber", {0.0042, 0.0001, Unit::length}},
                      {"concavity", {-0.0007, 0.00002, Unit::length}, -0.27}};
    result.cooled = shape;
    return result;
}

} // namespace

TEST_CASE("a cooled case's document has its numbers by station, its parts by layer and its lines "
          "in mm and degrees") {
    const FoundCase found = found_cooled(cooled_by_hand("cold"));
    const Json all = written(found);
    const auto quantity = [](double value, double error) {
        return Json{{"value", value}, {"unit", "mm"}, {"error", error}};
    };
    CHECK(all["camber"] == quantity(4.2, 0.1));
    CHECK(
        all["by_layer"] ==
        Json::array({{{"layer", "base"}, {"camber", -1.2}, {"concavity", 0.3}, {"twist", -0.5}}}));
    CHECK(all["axis"] == Json::array({{{"x_mm", -500}, {"rise_mm", 1}},
                                      {{"x_mm", 0}, {"rise_mm", 2}},
                                      {{"x_mm", 500}, {"rise_mm", 3}}}));
    CHECK(all["across"] ==
          Json::array({{{"x_mm", 250},
                        {"points", Json::array({{{"y_mm", -100}, {"rise_mm", 0.4}},
                                                {{"y_mm", 100}, {"rise_mm", -0.5}}})}}}));
    CHECK(all["stretch"] ==
          Json{{"eta_x", 0.123}, {"eta_x_at_mm", -300}, {"eta_y", 0.0679}, {"eta_y_at_mm", 620}});
    REQUIRE(found.concavity.size() == 1);
    CHECK(found.concavity[0].x_mm.value == -270);
    CHECK(found.concavity[0].hollow.value == -0.7);
    CHECK(found.concavity[0].hollow.error == 0.02);
}

TEST_CASE(
    "a mould's line is what is wanted less what the press does, of the released board alone") {
    SolvedBoard solved;
    solved.board.cure.emplace();
    solved.board.rest_shape =
        Profile{Interpolation::linear, {-0.6, -0.5, 0, 0.5, 0.6}, {0.02, 0.01, 0.005, 0.01, 0.02}};
    solved.study.cases = {cooled_by_hand("cold")};
    CHECK(mould_csv(solved).empty());
    solved.study.cases.push_back(cooled_by_hand("release"));
    CHECK(mould_csv(solved) == "x_mm,wanted_mm,change_mm,mould_mm\n"
                               "-500,10,1,9\n0,5,2,3\n500,10,3,7\n");
    solved.board.cure->mould = Profile{Interpolation::linear, {-0.6, 0.6}, {0.004, 0.016}};
    CHECK(mould_csv(solved) == "x_mm,wanted_mm,change_mm,mould_mm,existing_mould_mm,out_of_it_mm\n"
                               "-500,10,1,9,5,6\n0,5,2,3,10,12\n500,10,3,7,15,18\n");
    const std::vector<FoundMould> line = found_mould(solved);
    REQUIRE(line.size() == 3);
    CHECK(line[2].mould_mm.value == Approx(7));
    CHECK(line[2].existing_mould_mm->value == Approx(15));
}
