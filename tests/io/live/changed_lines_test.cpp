#include "io/live/board_values.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("changed lines are the fewest, with the numbers they have in their own text") {
    CHECK(changed_lines("a\nb\n", "a\nb\n").empty());
    const auto lines = changed_lines("a\nb\nc\nd\n", "a\nB\nc\nnew\nd\n");
    REQUIRE(lines.size() == 3);
    CHECK((lines[0].line == 2 && !lines[0].added && lines[0].text == "b"));
    CHECK((lines[1].line == 2 && lines[1].added && lines[1].text == "B"));
    CHECK((lines[2].line == 4 && lines[2].added && lines[2].text == "new"));
}
