#include "io/toml/csv_text.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

std::vector<std::string> cells(const std::string& line) {
    std::vector<std::string> texts;
    const CsvText csv = csv_text(line, "a.csv");
    for (const CsvCell& cell : csv.rows.at(0).cells) {
        texts.push_back(cell.text);
    }
    return texts;
}

std::optional<double> number(const std::string& cell, char separator = ';') {
    CsvText csv{"a.csv", separator, {}};
    const auto value = csv_number(csv, {1, {}}, {cell, 1});
    CHECK(csv.problems.empty());
    return value;
}

using Texts = std::vector<std::string>;

} // namespace

TEST_CASE("cells are split at commas, semicolons or tabs, as the first row has them") {
    CHECK(cells("a,b , c") == Texts{"a", "b", "c"});
    CHECK(cells("a;b,5;c") == Texts{"a", "b,5", "c"});
    CHECK(cells("a\tb;c\t d ") == Texts{"a", "b;c", "d"});
    CHECK(cells(",") == Texts{"", ""});
    CHECK(cells(" \"a;b\" , \"say \"\"c\"\"\"") == Texts{"a;b", "say \"c\""});
    CHECK(cells("\"a,b\";c") == Texts{"a,b", "c"});
}

TEST_CASE("rows know their line and cells their column, whatever ends the lines") {
    const CsvText csv =
        csv_text("\xef\xbb\xbfx;y\r\n\r\n  1;\"2\"\r3;\xc3\xa5\xc3\xa5;4\n;;\n", "");
    REQUIRE(csv.rows.size() == 4);
    CHECK(csv.rows[0].cells[0].text == "x");
    CHECK(csv.rows[1].line == 3);
    CHECK(csv.rows[1].cells[0].column == 3);
    CHECK(csv.rows[1].cells[1].column == 5);
    CHECK(csv.rows[2].line == 4);
    CHECK(csv.rows[2].cells[2].column == 6); // two letters of two bytes each
    CHECK(csv.rows[3].cells.size() == 3);
    CHECK(csv.problems.empty());
}

TEST_CASE("an open quote and text behind one are problems at their place") {
    const CsvText csv = csv_text("a,b\n1,\"2\n\"3\"x,4\n", "q.csv");
    REQUIRE(csv.problems.size() == 2);
    CHECK(csv.problems[0].place == "q.csv:2:3");
    CHECK(csv.problems[1].place == "q.csv:3:4");
    CHECK(csv.rows[2].cells[1].text == "4"); // reading goes on at the next cell
}

TEST_CASE("numbers have a decimal point, or a comma where commas do not separate the cells") {
    CHECK(number("1200") == 1200);
    CHECK(number("+3.25") == 3.25);
    CHECK(number("-3,25") == -3.25);
    CHECK(number("1.2e3") == 1200);
    CHECK_FALSE(number("3,25", ','));
    for (const char* bad : {"", "1.200,5", "1,200.5", "1 200", "0x10", "+-3", "12mm", "."}) {
        INFO(bad);
        CHECK_FALSE(number(bad));
    }
}

TEST_CASE("a file that uses a decimal point and a decimal comma is not guessed at") {
    CsvText csv = csv_text("a;b\n1.200;1,5\n", "m.csv");
    const CsvRow row = csv.rows[1];
    CHECK(csv_number(csv, row, row.cells[0]) == 1.2);
    (void)csv_number(csv, row, row.cells[1]);
    REQUIRE(csv.problems.size() == 1);
    CHECK(csv.problems[0].place == "m.csv:2:7");
    CHECK(csv.problems[0].message.find("decimal point") != std::string::npos);
}

TEST_CASE("the digits after the decimal mark are counted, an exponent with them") {
    CHECK(decimals_of("770") == 0);
    CHECK(decimals_of("-770.50") == 2);
    CHECK(decimals_of("770,125") == 3);
    CHECK(decimals_of("7.7050e+02") == 2);
    CHECK(decimals_of("7.7e-1") == 2);
    CHECK(decimals_of("77e1") == -1);
}

TEST_CASE("of many problems the first twenty are told, and how many more there are") {
    CsvText csv{"many.csv", ',', {}};
    for (int line = 1; line <= 20; ++line) {
        note_problem(csv, line, 1, "odd");
    }
    CHECK(first_problems(csv).size() == 20);
    note_problem(csv, 21, 1, "odd");
    note_problem(csv, 22, 1, "odd");
    const auto first = first_problems(csv);
    REQUIRE(first.size() == 21);
    CHECK(first.back().message == "and 2 more");
    CHECK(first.back().place == "many.csv");
}
