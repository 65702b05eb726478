#include "io/toml/ascii_text.hpp"

#include <catch2/catch.hpp>

#include "io/toml/read_text.hpp"

using namespace vrid;

TEST_CASE("letters beyond ASCII are spelled in strings and turned back, in comments dropped") {
    const std::string text = "a = \"\xc3\xb6~x\" # \xe2\x82\xac ~\nb = 'y'\n";
    const AsciiText ascii = fit_for_toml(text, "f");
    CHECK(ascii.text == "a = \"~c3b6~~7e~x\" # ? ~\nb = 'y'\n");
    CHECK(unspelled("~c3b6~~7e~x") == "\xc3\xb6~x");
    CHECK(file_column(ascii.widened, 1, 5) == 5);   // the quote
    CHECK(file_column(ascii.widened, 1, 6) == 6);   // the first spelling
    CHECK(file_column(ascii.widened, 1, 12) == 7);  // the second
    CHECK(file_column(ascii.widened, 1, 16) == 8);  // x
    CHECK(file_column(ascii.widened, 2, 16) == 16); // another line
}

TEST_CASE("what only looks like a spelling stays as it is") {
    for (const char* text : {"~", "~~", "~x~", "~c3b~", "~c3b6", "c3b6~", "~0123456789~"}) {
        CHECK(unspelled(text) == text);
    }
}
