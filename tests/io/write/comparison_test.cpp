#include "io/write/comparison.hpp"

#include <catch2/catch.hpp>

#include "tests/io/write/solved_example.hpp"

using namespace vrid;
using Catch::Contains;

namespace {

std::vector<SolvedBoard> three_boards() {
    std::vector<SolvedBoard> boards(3, tests::solved_example());
    boards[1].board.name = "stiffer";
    boards[1].study.cases[0].numbers[0].quantity.value *= 1.05; // far outside the bars
    boards[2].board.name = "nearly the same";
    boards[2].study.cases[0].numbers[0].quantity.value += 5;        // bars are 4 + 4
    boards[2].study.cases.erase(boards[2].study.cases.begin() + 1); // no twist
    return boards;
}

const ComparedNumber& row(const Comparison& comparison, const std::string& name) {
    for (const ComparedNumber& number : comparison.numbers) {
        if (number.name == name) {
            return number;
        }
    }
    throw std::out_of_range(name);
}

} // namespace

TEST_CASE("a difference counts only beyond the sum of the two error bars") {
    const Comparison comparison = compare_boards(three_boards());
    const auto& flex = row(comparison, "centre-flex").by_board;
    CHECK_FALSE(flex[0].percent);
    CHECK(*flex[1].percent == Approx(5));
    CHECK(flex[1].resolved);
    CHECK_FALSE(flex[2].resolved);
    CHECK_FALSE(row(comparison, "full-twist").by_board[2].quantity);
}

TEST_CASE("the comparison names boards by letters, changes in percent, and fits 80 columns") {
    const std::string shown = text(compare_boards(three_boards()));
    CHECK_THAT(shown, Contains("A  plate") && Contains("B  stiffer") && Contains("B - A") &&
                          Contains("C - A") && Contains("+5.00 %") && Contains("not resolved") &&
                          Contains("A skipped stance-twist: the board file has no [stance]"));
    for (std::size_t at = 0; at < shown.size();) {
        const std::size_t end = shown.find('\n', at);
        CHECK(end - at <= 80);
        at = end + 1;
    }
}

TEST_CASE("two boards of one name are told apart by their files, and what is equal is the same") {
    std::vector<SolvedBoard> boards(2, tests::solved_example());
    boards[1].board.file = "other.toml";
    boards[1].study.cases[0].numbers[0].quantity.value += 5; // bars are 4 + 4
    const std::string shown = text(compare_boards(boards));
    CHECK_THAT(shown, Contains("A  plate (plate.toml)") && Contains("B  plate (other.toml)"));
    const auto line = [&](const std::string& name) {
        const auto at = shown.find("\n  " + name);
        return shown.substr(at, shown.find('\n', at + 1) - at);
    };
    CHECK_THAT(line("mass"), Contains("  same"));
    CHECK_THAT(line("centre-flex"), Contains("not resolved"));
    boards[1].board.name = "another";
    CHECK_THAT(text(compare_boards(boards)), Contains("A  plate\n") && Contains("B  another\n"));
}
