// Arrays and tables within a table.
#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "tests/io/toml/read_table.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

using Told = std::vector<std::string>;

} // namespace

TEST_CASE("a range or a pair is two numbers in SI, in the order of the file") {
    ReadTable table(
        "x_mm = [-420, 415]\nfrom_mm = [-520, 60]\ny_mm = [1, 2, 3]\nto_mm = [0, \"a\"]\n",
        "layer.zone");
    CHECK(*table.reader.range_if("x_mm") == Range{-0.42, 0.415});
    CHECK(*table.reader.pair("from_mm") == Eigen::Vector2d(-0.52, 0.06));
    CHECK_FALSE(table.reader.range_if("outline_mm"));
    CHECK(table.problems().empty());
    CHECK(std::isnan((*table.reader.range_if("y_mm"))[0]));
    CHECK(table.problems() ==
          Told{"3:8 layer.zone.y_mm: found an array of 3; accepted: an array of two numbers"});
    CHECK_FALSE(table.reader.pair("to_mm"));
    CHECK_THAT(table.problems().at(0),
               Contains("4:13 layer.zone.to_mm[1]: found the text \"a\"; accepted"));
}

TEST_CASE("stations have a place each and keep their numbers when one of them is wrong") {
    ReadTable table("thickness_mm = [[-700, 1.8], [0, 7.1, 3], [650, 2.5], [9000, 0]]\n", "core");
    const auto stations = table.reader.stations("thickness_mm");
    REQUIRE(stations.size() == 4);
    CHECK(stations[0] == Eigen::Vector2d(-0.7, 0.0018));
    CHECK(std::isnan(stations[1].x()));
    CHECK(stations[2] == Eigen::Vector2d(0.65, 0.0025));
    CHECK(std::isnan(stations[3].x()));
    const Told told = table.problems();
    REQUIRE(told.size() == 3);
    CHECK(told[0] == "1:30 core.thickness_mm[1]: found an array of 3; accepted: a pair of numbers, "
                     "[x, value]");
    CHECK(told[1] == "1:56 core.thickness_mm[3], first: found 9000; accepted: a number from -5000 "
                     "to 5000 (mm)");
    CHECK_THAT(told[2], Contains("1:62 core.thickness_mm[3], second: found 0; accepted"));
    CHECK(table.reading().places.at("core.thickness_mm[2]") == "f.toml:1:43");
}

TEST_CASE("a list that is empty, no list, or longer than a thousand is none") {
    std::string pairs;
    for (int i = 0; i < 1001; ++i) {
        pairs += (i > 0 ? ", [" : "[") + std::to_string(i) + ", 1]";
    }
    ReadTable table("thickness_mm = [" + pairs + "]\n", "core");
    CHECK(table.reader.stations("thickness_mm").empty());
    CHECK(table.problems() == Told{"1:16 core.thickness_mm: found an array of 1001; accepted: at "
                                   "most 1000 entries"});
    ReadTable empty("thickness_mm = []\n", "core");
    CHECK(empty.reader.stations("thickness_mm").empty());
    CHECK(empty.problems() ==
          Told{"1:16 core.thickness_mm: found an array of 0; accepted: an array "
               "of [x, value] pairs"});
}

TEST_CASE("a table within is of the kind of its path; an array of them is numbered") {
    ReadTable table("flange = { width_mm = 6.5 }\nwidth_mm = { x = 1 }\n", "edge");
    auto flange = table.reader.table_if("flange");
    REQUIRE(flange);
    CHECK(flange->path() == "edge.flange");
    CHECK(flange->number("width_mm") == 0.0065);
    CHECK_FALSE(table.reader.table_if("none"));
    CHECK(table.problems().empty());
    ReadTable root("layer = [{ thickness_mm = 1 }, 3, { thickness_mm = 2 }]\nedge = 3\n");
    auto layers = root.reader.tables("layer");
    REQUIRE(layers.size() == 2);
    CHECK(layers[1].path() == "layer[2]");
    CHECK(layers[1].number("thickness_mm") == 0.002);
    CHECK(root.reader.tables("none").empty());
    CHECK_FALSE(root.reader.table_if("edge"));
    CHECK(root.problems() ==
          Told{"1:32 layer[1]: accepted: a table", "2:8 edge: found 3; accepted: a table"});
}

TEST_CASE("named tables are read by name; what is no table or has a long name is told") {
    ReadTable table("ash = { nu = 0.3 }\noak = 3\n" + std::string(81, 'x') + " = { nu = 0.3 }\n",
                    "material");
    auto entries = table.reader.entries("material");
    REQUIRE(entries.size() == 1);
    CHECK(entries[0].first == "ash");
    CHECK(entries[0].second.path() == "material.ash");
    CHECK(entries[0].second.number("nu") == 0.3);
    const Told told = table.problems();
    REQUIRE(told.size() == 2);
    CHECK(told[0] == "2:7 material.oak: found 3; accepted: a table");
    CHECK_THAT(told[1], Contains("accepted: a name of 1 to 80 bytes"));
}
