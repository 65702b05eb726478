#include "io/write/csv_cell.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("no text cell begins as a formula does, and every text is read back as it was") {
    const std::vector<std::string> texts{"+3 %",      "-5 % core",  "=cmd|' /C calc'!A0",
                                         "@sum",      "\t=1",       "\r1",
                                         "'=1",       "''+1",       "plain",
                                         "it's",      "'quoted'",   "",
                                         "a,b",       "say \"=1\"", "two\nlines",
                                         "=\"a\",b\n"};
    std::string row;
    for (const std::string& text : texts) {
        CAPTURE(text);
        const std::string cell = csv_text(text);
        const std::size_t first = cell.find_first_not_of('"');
        CHECK((first == std::string::npos ||
               std::string("=+-@\t\r").find(cell[first]) == std::string::npos));
        row += (row.empty() ? "" : ",") + cell;
    }
    row += "\n-4.25,0.00001\n";
    std::size_t at = 0;
    CHECK(csv_row(row, at) == texts);
    CHECK(csv_row(row, at) == std::vector<std::string>{csv_cell(-4.25), csv_cell(1e-5)});
    CHECK(at == row.size());
}

TEST_CASE("a cell is written out in digits, and reads back as the number it was") {
    CHECK(csv_cell(3e5) == "300000");
    CHECK(csv_cell(-1e-5) == "-0.00001");
    CHECK(csv_cell(1e6) == "1000000");
    CHECK(csv_cell(0.0) == "0");
    CHECK(csv_cell(-0.0) == "0");
    CHECK(csv_cell(1.25e-7) == "1.25e-07"); // zeros alone would follow
    CHECK(csv_cell(2e20) == "2e+20");
    CHECK(csv_cell(123456789.25) == "123456789");
    for (const double value : {3e5, 1e-6, 9.87654321e11, 0.1, 7e-9, 1e12, -450000.0}) {
        CHECK(std::stod(csv_cell(value)) == value);
    }
}

TEST_CASE("a plain text is its own cell") {
    CHECK(csv_text("NH-157 Querwind") == "NH-157 Querwind");
    CHECK(csv_text("it's") == "it's");
    CHECK(csv_text("+3 %") == "'+3 %");
    CHECK(csv_text("a,b") == "\"a,b\"");
}
