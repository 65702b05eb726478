// Parts that documents share, against values written by hand.
#include "io/write/json_parts.hpp"

#include <cmath>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace vrid;

TEST_CASE("a quantity has ten digits and its bar three; what is not finite becomes null") {
    CHECK(json_of(BenchQuantity{1.23456789012, 0.0123456, "N/mm"}).dump() ==
          R"({"value":1.23456789,"unit":"N/mm","error":0.0123})");
    CHECK(json_of(BenchQuantity{2, HUGE_VAL, ""}).dump() ==
          R"({"value":2.0,"unit":"","error":null})");
    CHECK(json_of(BenchQuantity{HUGE_VAL, 0, "m"}).dump() ==
          R"({"value":null,"unit":"m","error":0.0})");
    CHECK(json_of(Quantity{0.0125, 0.0005, Unit::length}).dump() ==
          R"({"value":12.5,"unit":"mm","error":0.5})");
}

TEST_CASE("an outline's places and radii go to their own keys") {
    OutlineFigures outline;
    outline.waist_x = -0.0185;
    outline.sidecut_radius = {7.5, 8.5};
    const Json all = json_of(outline);
    CHECK(all["waist_x"]["value"] == -18.5);
    CHECK(all["sidecut_radius"]["left"]["value"] == 7.5);
    CHECK(all["sidecut_radius"]["right"]["value"] == 8.5);
}

TEST_CASE("a balance point is in mm to a millionth, and never a minus zero") {
    CHECK(
        balance_point({3, -0.0123456789012, -1e-12, {}}).dump() ==
        R"({"x":{"value":-12.345679,"unit":"mm","error":0.0},"y":{"value":0.0,"unit":"mm","error":0.0}})");
}

TEST_CASE("a document is indented by two, ends its last line and survives a stray byte") {
    Json json;
    json["z"] = 1;
    json["a"] = "b\xFF";
    CHECK(json_text(json) == "{\n  \"z\": 1,\n  \"a\": \"b\xEF\xBF\xBD\"\n}\n");
}

TEST_CASE("a document in one line holds what the one in many does; what is none is told") {
    const Json json{{"name", "a \xff byte"}, {"all", {1, 2.5, nullptr}}};
    const std::string line = json_line(json);
    CHECK(line == "{\"name\":\"a \xef\xbf\xbd byte\",\"all\":[1,2.5,null]}");
    CHECK(read_json(line) == read_json(json_text(json)));
    CHECK(read_json("{\"name\":").is_discarded());
}
