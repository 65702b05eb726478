#include "io/write/limits.hpp"

#include <catch2/catch.hpp>

#include "tests/io/write/solved_example.hpp"

using namespace vrid;

TEST_CASE("limits are held against numbers in bench units") {
    const std::vector<NamedQuantity> numbers{{"nose-twist", {230.0, 1.0, Unit::twist_stiffness}}};
    const auto verdicts = judge({{"nose-twist", {3.0, 4.0}}, {"tail-twist", {1.0, {}}}}, numbers);
    REQUIRE(verdicts.size() == 2);
    CHECK(verdicts[0].found->value == Approx(4.0143).epsilon(1e-4));
    CHECK(verdicts[0].exceeded);
    CHECK(verdicts[0].unresolved); // the bar of 0.017 reaches back over 4.0
    CHECK_FALSE(verdicts[1].found);
    CHECK_FALSE(verdicts[1].exceeded);
    CHECK(any_exceeded(verdicts));
}

TEST_CASE("numbers of the section and of the mass can be limited without a solve") {
    const SolvedBoard solved = tests::solved_example();
    Board board = solved.board;
    board.limits = {
        {"EI@-100", {1.0, {}}},           {"GJ@+100", {1.0, {}}},     {"EI@x", {1.0, {}}},
        {"EI@9999", {1.0, {}}}, // off the board
        {"balance_point.x", {-1.0, 1.0}}, {"thickness@0", {1.9, 2.1}}};
    const auto numbers = plain_numbers(board, solved.outline, solved.mass);
    const auto verdicts = judge(board.limits, numbers);
    CHECK(verdicts[0].found->value == Approx(200e9 * 0.2 * 8e-9 / 12).epsilon(0.1));
    CHECK(verdicts[1].name == "EI@9999");
    CHECK_FALSE(verdicts[1].found);
    CHECK(verdicts[2].name == "EI@x");
    CHECK_FALSE(verdicts[2].found);
    CHECK(verdicts[3].found);
    CHECK(verdicts[4].found->unit == "mm");
    CHECK(verdicts[5].found->value == Approx(2)); // the plate of 2 mm
}
