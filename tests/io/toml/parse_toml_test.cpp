// Problems of a reading and places of syntax errors.
#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"
#include "tests/io/toml/read_table.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

TEST_CASE("two hundred problems are listed, then that there are more; warnings apart from them") {
    Reading reading{"f.toml", {}, {}, {}};
    for (int i = 0; i < 300; ++i) {
        note_problem(reading, "f.toml:1:1", "wrong");
    }
    note_warning(reading, "f.toml:2:1", "odd");
    REQUIRE(reading.problems.size() == 201);
    CHECK(reading.problems[199].message == "wrong");
    CHECK(reading.problems[200].message == "further ones are not listed");
    CHECK(reading.problems[200].place == "f.toml");
    REQUIRE(reading.warnings.size() == 1);
    CHECK(reading.warnings[0].place == "f.toml:2:1");
}

TEST_CASE("a syntax error is told at its column, counted in letters, in the file's own spelling") {
    const auto complaint = [](const std::string& text) {
        return complaint_of([&] {
            Reading reading{"f.toml", {}, {}, {}};
            (void)parse_toml(text, reading);
        });
    };
    CHECK(complaint("a = 1\nb = 2\n").empty());
    CHECK_THAT(complaint("a = 1\nb = = 2\n"), Catch::StartsWith("f.toml:2:5"));
    const std::string twice = complaint("\"\xc3\xb6\" = 1\n\"\xc3\xb6\" = 1\n");
    CHECK_THAT(twice,
               Catch::StartsWith("f.toml:2:") && Contains("\xc3\xb6") && !Contains("~c3b6~"));
    CHECK_THAT(complaint("a = [\"\xc3\xb6\xc3\xb6\xc3\xb6\" \"b\"]\n"),
               Catch::StartsWith("f.toml:1:12"));
}
