// Edits of a text by byte, and numbers as a file writes them.
#include "io/design/board_draft.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

// Where the parser's line and column are in a text that it read.
std::string rest_at(const std::string& text, int line, int column) {
    Reading reading{"f", {}, {}, {}};
    (void)parse_toml(text, reading);
    toml::source_position position{};
    position.line = static_cast<toml::source_index>(line);
    position.column = static_cast<toml::source_index>(column);
    return text.substr(offset_of(text, reading, position));
}

} // namespace

TEST_CASE("edits are made at their places in any order; insertions at one place keep theirs") {
    CHECK(with_edits("abcdef", {}) == "abcdef");
    CHECK(with_edits("abcdef", {{4, 1, "X"}, {1, 2, "Y"}}) == "aYdXf");
    CHECK(with_edits("abcdef", {{3, 0, "1"}, {3, 0, "2"}, {6, 0, "!"}, {0, 0, "^"}}) ==
          "^abc12def!");
    CHECK(with_edits("abcdef", {{2, 0, "1"}, {2, 3, ""}}) == "ab1f");
}

TEST_CASE("a place of the parser's is found in the file's own bytes: letters of several bytes, a "
          "byte order mark, a string that was spelled out") {
    CHECK(rest_at("a = 1\nb = 2\n", 2, 5) == "2\n");
    CHECK(rest_at("a = 1\r\nb = 2\r\n", 2, 1) == "b = 2\r\n");
    CHECK(rest_at("\xef\xbb\xbf"
                  "a = 1\n",
                  1, 5) == "1\n");
    // Line 1 reaches the parser as  a = "~c3b6~", b: the spelling has 6 letters for one.
    CHECK(rest_at("x = { a = \"\xc3\xb6\", b = 3 }\n", 1, 25) == "3 }\n");
    CHECK(rest_at("# \xe2\x82\xac\nb = 2 # \xc3\xb6\n", 2, 5) == "2 # \xc3\xb6\n");
}

TEST_CASE("a number is written with the fewest digits that twelve significant ones give") {
    CHECK(file_number(6.8500000000000005) == "6.85");
    CHECK(file_number(0.1 + 0.2) == "0.3");
    CHECK(file_number(1.0 / 3) == "0.333333333333");
    CHECK(file_number(-0.0) == "0");
    CHECK(file_number(-12) == "-12");
    CHECK(file_number(123456789012) == "123456789012");
    CHECK(file_number(1e12) == "1e+12");
    CHECK(file_number(1e-6) == "0.000001");
    CHECK(file_number(9.5e-7) == "9.5e-07");
}

TEST_CASE("a text is quoted so that the parser gives it back") {
    CHECK(quoted("a") == "\"a\"");
    const std::string odd = "say \"\\\" \xc3\xb6";
    CHECK(quoted(odd) == "\"say \\\"\\\\\\\" \xc3\xb6\"");
    Reading reading{"f", {}, {}, {}};
    const toml::table parsed = parse_toml("a = " + quoted(odd) + "\n", reading);
    CHECK(unspelled(*parsed["a"].value<std::string>()) == odd);
}
