#include "io/design/new_board.hpp"

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

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

TEST_CASE("a written board says what is known of its strength, and forgets what an earlier run "
          "said") {
    const std::string first =
        new_board_text("name = 'a'\n", "board.toml", "match", "nose-flex gives earlier");
    CHECK(first == "# Values changed by vrid match; nose-flex gives earlier.\n"
                   "name = \"a (match)\"\n");
    CHECK(new_board_text(first, "board.toml", "match") ==
          "# Values changed by vrid match; strength was not looked at.\n"
          "name = \"a (match)\"\n");
    CHECK_THAT(new_board_text(first, "board.toml", "calibrate"),
               Catch::Contains("vrid calibrate") && Catch::Contains("vrid match"));
}

TEST_CASE("a written board keeps the letters of its name beyond ASCII, quotes and tildes") {
    const std::string text = "name = 'K\xC3\xBCste \"9\" ~41~ \xF0\x9F\x8F\x82'\n";
    const std::string once = new_board_text(text, "board.toml", "match");
    CHECK_THAT(once, Catch::Matchers::EndsWith(
                         "name = \"K\xC3\xBCste \\\"9\\\" ~41~ \xF0\x9F\x8F\x82 (match)\"\n"));
    CHECK(new_board_text(once, "board.toml", "match") == once);
}

TEST_CASE("a board that names files is written where these are found, any other anywhere") {
    const tests::TestFolder here("answer-here");
    const tests::TestFolder there("answer-there");
    const std::string stock = "[material.ours]\nE_GPa = 9\nnu = 0.3\ndensity_kgm3 = 450\n";
    (void)here.write("ours.toml", stock);
    const auto refused = [&](const std::string& before, const std::string& out) {
        const BoardText source{before + tests::demo_board_text(), "board.toml", here.path()};
        const Board board = read_board_text(source, tests::shipped_library());
        return tests::complaint_of([&] {
            check_answer(out, "--out", {source, board, tests::shipped_library()});
        });
    };
    const std::string include = "include = \"ours.toml\"\n";
    CHECK(refused("", there.path() + "/new.toml").empty());
    CHECK(refused(include, here.path() + "/new.toml").empty());
    CHECK(refused(include, "").empty()); // nothing is written
    CHECK_THAT(refused(include, there.path() + "/new.toml"),
               Catch::Contains("--out") &&
                   Catch::Contains("include) is found from its own folder"));
    (void)there.write("ours.toml", stock + "# another\n");
    CHECK_FALSE(refused(include, there.path() + "/new.toml").empty());
}
