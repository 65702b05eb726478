// Lists of texts and numbers, and values by dotted path.
#include <catch2/catch.hpp>

#include "tests/io/toml/read_table.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

TEST_CASE("lists keep their order and are in SI; every wrong entry is told") {
    ReadTable table("cases = [\"nose-flex\", \"mass\"]\nbend_mm = [20, 40.5]\n");
    CHECK(table.reader.texts("cases") == std::vector<std::string>{"nose-flex", "mass"});
    CHECK(table.reader.number_list("bend_mm") == std::vector<double>{0.02, 0.0405});
    CHECK(table.problems().empty());
    ReadTable wrong("cases = [\"a\", 3]\nbend_mm = [20, 0, -1]\nempty = []\n");
    CHECK(wrong.reader.texts("cases").size() == 2);
    CHECK(wrong.problems().size() == 1);
    CHECK(wrong.reader.number_list("bend_mm").size() == 3);
    const auto told = wrong.problems();
    REQUIRE(told.size() == 2);
    CHECK_THAT(told[0], Contains("2:16 bend_mm[1]: found 0; accepted: a number above 0"));
    CHECK_THAT(told[1], Contains("2:19 bend_mm[2]: found -1;"));
    CHECK(wrong.reader.texts("empty").empty());
    CHECK(wrong.problems() == std::vector<std::string>{"3:9 empty: found an array of 0; accepted: "
                                                       "an array of at least one entry"});
    CHECK(wrong.reader.texts("none").empty());
    CHECK(wrong.problems().size() == 1);
}

TEST_CASE("values of tables within tables come by dotted path, as the file writes them") {
    ReadTable table("core.thickness_scale = 1.1\n[layer.\"gl\xc3\xa4s\"]\nangle_deg = 45\n"
                    "fabric = \"tri\xc3\xa4x\"\nflip = true\n");
    const auto values = table.reader.flat_values();
    REQUIRE(values.size() == 3);
    CHECK(values[0].path == "core.thickness_scale");
    CHECK(std::get<double>(values[0].value) == 1.1);
    CHECK(values[0].place == "f.toml:1:24");
    CHECK(values[1].path == "layer.gl\xc3\xa4s.angle_deg");
    CHECK(std::get<double>(values[1].value) == 45); // in no unit yet
    CHECK(std::get<std::string>(values[2].value) == "tri\xc3\xa4x");
    CHECK(table.problems() ==
          std::vector<std::string>{"5:8 layer.gl\xc3\xa4s.flip: accepted: a number or a text"});
}

TEST_CASE("a number or a text is either, or told") {
    ReadTable table("a = 3\nb = \"3 %\"\nc = true\n");
    CHECK(std::get<double>(table.reader.number_or_text_if("a").value()) == 3);
    CHECK(std::get<std::string>(table.reader.number_or_text_if("b").value()) == "3 %");
    CHECK_FALSE(table.reader.number_or_text_if("d"));
    CHECK(table.problems().empty());
    CHECK_FALSE(table.reader.number_or_text_if("c"));
    CHECK(table.problems() ==
          std::vector<std::string>{"3:5 c: found true; accepted: a number or a text"});
}
