#include "io/design/new_board.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("a written board says by its name and on its first line what wrote it, once") {
    const std::string text = "# ours\r\nformat = 1\r\nname = \"Tarn 156\"\r\n";
    const std::string once = new_board_text(text, "board.toml", "match");
    CHECK(once == "# Values changed by vrid match; strength was not looked at.\r\n"
                  "# ours\r\nformat = 1\r\nname = \"Tarn 156 (match)\"\r\n");
    CHECK(new_board_text(once, "board.toml", "match") == once);
    const std::string marked = new_board_text("\xEF\xBB\xBFname = 'a'\n", "board.toml", "match");
    CHECK(marked == "\xEF\xBB\xBF# Values changed by vrid match; strength was not looked at.\n"
                    "name = \"a (match)\"\n");
}
