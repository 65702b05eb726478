// The sheet on a terminal, against rows written by hand.
#include <catch2/catch.hpp>

#include "tests/io/sheet/sheet_example.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

TEST_CASE("the sheet's figures are in mm and g, weights summed up with their spread") {
    ShopSheet sheet = sheet_example();
    std::string text = sheet_text(sheet);
    CHECK(text_rows(text).front() == "plank, file 0123abcd");
    CHECK(text_row(text, "1 base") == "1 base uhmwpe 300.0 100.0 34.5");
    CHECK(text_row(text, "2 Lower") == "2 Lower \"glass\" triax 45.0 300.0 100.0 34.5");
    CHECK(text_row(text, "3 Lower") == "3 Lower \"glass\" (mirror) triax 45.0 300.0 100.0 34.5");
    CHECK(text_row(text, "glass, twice") == "glass, twice 100.0 134.5 3.4");
    CHECK_THAT(text, !Contains("core blank"));
    CoreBlank& core = sheet.core.emplace();
    core.size = {{-0.2, 0.21}, {-0.05, 0.06}};
    core.thickest = 0.00712;
    CHECK_THAT(sheet_text(sheet), Contains("  core blank 410.0 x 110.0 x 7.12 mm\n"));
}

TEST_CASE("a roll's line tells its length for all boards, its waste, and what must be joined") {
    ShopSheet sheet = sheet_example();
    CHECK_THAT(sheet_text(sheet), Contains("  triax: 2.25 m of roll for 5 boards, 12 % waste\n"));
    CHECK_THAT(sheet_text(sheet), Contains("  veil: 0.150 m2 net; roll_width_mm is not given\n"));
    sheet.options.boards = 1;
    sheet.rolls[0].length = 2.5;
    sheet.rolls[0].joined = 1;
    CHECK_THAT(sheet_text(sheet), Contains("  triax: 2.50 m of roll for 1 board, 12 % waste; 1 "
                                           "piece is wider than the roll and must be joined\n"));
    sheet.rolls[0].joined = 2;
    CHECK_THAT(sheet_text(sheet), Contains("; 2 pieces are wider than"));
}
