// Names of all numbers of a solved board, of its mould, and the loads that fields are written at.
#include "io/write/solved_board.hpp"

#include <catch2/catch.hpp>

#include "tests/degree.hpp"
#include "tests/io/write/solved_example.hpp"
#include "tests/io/write/strength_example.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

CaseResult released_case(const std::string& name) {
    CaseResult result;
    result.name = name;
    result.cooled = std::make_shared<CooledShape>();
    result.numbers = {{"camber", {0.004, 0.0001, Unit::length}},
                      {"nose_height", {0.007, 0.0002, Unit::length}},
                      {"twist", {degree, 0, Unit::angle}},
                      {"concavity", {-0.001, 0, Unit::length}, -0.27}};
    return result;
}

// A plate of 1000 mm with a wanted camber of 6 mm and a mould of 9 mm that rises 20 mm at the nose.
Board moulded_plate() {
    Board board = solved_example().board;
    board.rest_shape = Profile{Interpolation::linear, {-0.5, 0, 0.5}, {0, 0.006, 0}};
    board.cure.emplace().mould =
        Profile{Interpolation::linear, {-0.5, 0, 0.4, 0.5}, {0.001, 0.010, 0.001, 0.021}};
    board.planform.running_length = 0.8;
    board.rest_shape->x = {-0.4, 0, 0.4};
    board.cure->mould->x[0] = -0.4;
    return board;
}

std::vector<std::string> names_in(const std::vector<NamedQuantity>& numbers) {
    std::vector<std::string> names;
    for (const NamedQuantity& number : numbers) {
        names.push_back(number.name);
    }
    return names;
}

} // namespace

TEST_CASE("a number is named by its case, its own name unless a stiffness, a shape's by station") {
    CaseResult flex;
    flex.name = "nose-flex";
    CHECK(number_name(flex, {"stiffness", {}}) == "nose-flex");
    CHECK(number_name(flex, {"mode 1", {}}) == "nose-flex mode 1");
    const CaseResult cold = released_case("cold");
    CHECK(number_name(cold, cold.numbers[0]) == "cold.camber");
    CHECK(number_name(cold, cold.numbers[3]) == "cold.concavity@-270");
}

TEST_CASE("a mould's camber is what is wanted less what the press adds; a board out of a mould "
          "that exists has both") {
    const Board board = moulded_plate();
    const auto numbers = mould_numbers(board, released_case("release"));
    CHECK(names_in(numbers) ==
          std::vector<std::string>{"mould.camber", "pressed.camber", "pressed.nose_height"});
    CHECK(numbers[0].quantity.value == Approx(0.006 - 0.004));
    CHECK(numbers[0].quantity.error == 0.0001);
    CHECK(numbers[1].quantity.value == Approx(0.009 + 0.004)); // 10 mm over contacts at 1 mm
    CHECK(numbers[2].quantity.value == Approx(0.020 + 0.007));
    CHECK(numbers[2].quantity.error == 0.0002);
    CHECK(mould_numbers(board, released_case("cold")).empty());
    Board without = board;
    without.cure->mould.reset();
    CHECK(names_in(mould_numbers(without, released_case("release"))) ==
          std::vector<std::string>{"mould.camber"});
}

TEST_CASE("all numbers of a board are its mass, its cases, bent cases, strength and edge") {
    SolvedBoard solved = solved_example();
    BentCase bent;
    bent.name = "centre-flex";
    bent.travel = 0.06;
    bent.numbers = {{"force", {400, 1, Unit::force}}};
    solved.study.bent = {bent};
    solved.strength = strength_example().result;
    EdgeHold& hold = solved.edge.emplace();
    EdgeConditionResult one;
    one.condition = {Side::left, 45 * degree, 800, 5e9};
    one.numbers = {{"peak", {4200, 1, Unit::line_force}}, {"peak_x", {0.3, 0, Unit::length}}};
    hold.result.conditions = {one};
    CHECK(names_in(numbers_of(solved)) ==
          std::vector<std::string>{"mass", "centre-flex", "full-twist",
                                   "centre-flex at 60 mm.force", "strength.nose-flex",
                                   "strength.nose-flex.travel", "edge 45 deg 800 N 5 N/mm3 peak"});
    solved.board.limits = {{"full-twist", {2, {}}}, {"area", {{}, 0.3}}};
    const Verdicts verdicts = verdicts_of(solved);
    REQUIRE(verdicts.size() == 2);
    CHECK_FALSE(verdicts[0].exceeded); // 0.2 m2
    CHECK(verdicts[1].exceeded);       // 1.4 N m/deg
}

TEST_CASE("fields are written at 1 N or at 1 deg of the loaded end, shapes as they are") {
    CaseResult result;
    result.numbers = {{"stiffness", {7500, 0, Unit::bending_stiffness}}};
    CHECK(written_load(result).factor == 1);
    CHECK(written_load(result).text == "1 N");
    result.numbers = {{"stiffness", {80, 0, Unit::twist_stiffness}}};
    CHECK(written_load(result).factor == Approx(degree)); // the study's motion is at 1 rad
    CHECK(written_load(result).text == "1 deg");
    result.numbers = {{"mode 1", {17, 0, Unit::frequency}}};
    CHECK(written_load(result).factor == 1);
    CHECK(written_load(result).text == "scaled");
    CHECK(written_load(released_case("cold")).text == "cooled");
}
