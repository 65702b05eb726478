#include "io/write/table.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("a table lines up decimal points and shows units under the titles") {
    const Table table{
        {left("case"), decimal("stiffness", "N/mm"), left("")},
        {{"centre-flex", "7.512", "+- 0.004"}, {"nose-flex", "129.13", "+- 0.04"}, {"odd", "12"}}};
    CHECK(text(table) == "  case         stiffness\n"
                         "                  [N/mm]\n"
                         "  --------------------------------\n"
                         "  centre-flex      7.512  +- 0.004\n"
                         "  nose-flex      129.13   +- 0.04\n"
                         "  odd             12\n");
}

TEST_CASE("a column without title, unit and cells takes no room") {
    const Table table{{left("a"), left(""), right("b")}, {{"1", "", "2"}}};
    CHECK(text(table) == "  a  b\n  ----\n  1  2\n");
}

TEST_CASE("letters of more than one byte count once") {
    const Table table{{left("name"), right("n")}, {{"M\xC3\xB6we", "1"}, {"tern", "2"}}};
    CHECK(text(table) == "  name  n\n  -------\n  M\xC3\xB6we  1\n  tern  2\n");
}

TEST_CASE("text is broken at blanks, indented, and loses no word") {
    CHECK(wrapped("one two three four", 10) == "one two\nthree four\n");
    CHECK(wrapped("one two three", 8, 2) == "  one\n  two\n  three\n");
    CHECK(wrapped("incomprehensible word", 5) == "incomprehensible\nword\n");
    CHECK(wrapped("", 5).empty());
}
