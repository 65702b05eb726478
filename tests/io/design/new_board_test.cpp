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

TEST_CASE("a written board keeps the letters of its name beyond ASCII, quotes and tildes") {
    const std::string text = "name = 'K\xC3\xBCste \"9\" ~41~ \xF0\x9F\x8F\x82'\n";
    const std::string once = new_board_text(text, "board.toml", "match");
    CHECK_THAT(once, Catch::Matchers::EndsWith(
                         "name = \"K\xC3\xBCste \\\"9\\\" ~41~ \xF0\x9F\x8F\x82 (match)\"\n"));
    CHECK(new_board_text(once, "board.toml", "match") == once);
}
