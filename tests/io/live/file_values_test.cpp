#include "io/live/board_values.hpp"

#include <catch2/catch.hpp>

using namespace vrid;
using Catch::Contains;

namespace {

const std::string strip_text = R"(format = 1
name = "strip"
[planform]
rectangle_mm = [300, 40] # kept
[core]
thickness_mm = [[-150, 7.0], [150, 7.0]]
strips = [ { material = "poplar", width_mm = 12, x_mm = [-90, 90], fill = "ash" } ]
[[layer]]
name = "core"
core = true
[[layer]]
name = "Lage 2.ö"
fabric = "carbon-ud-150"
zones = [{ x_mm = [-100, -50] }, { from_mm = [50, 0], to_mm = [90, 10], width_mm = 8 }]
[edge]
width_mm = 2
material = "steel"
flange = { width_mm = 6.5, thickness_mm = 0.5 }
)";
const BoardText source{strip_text, "strip.toml", ""};

std::string with(const std::vector<Change>& changes) {
    return with_file_values(source, changes);
}

} // namespace

TEST_CASE("numbers and materials of a file are listed in its order; each set to itself changes "
          "nothing") {
    std::vector<std::string> paths;
    for (const FileValue& value : file_values(source)) {
        paths.push_back(value.path);
        CAPTURE(value.path);
        CHECK(with({{value.path, value.value, ""}}) == strip_text);
    }
    CHECK(paths == std::vector<std::string>{
                       "planform.rectangle_mm[0]", "planform.rectangle_mm[1]",
                       "core.strips[0].material", "core.strips[0].width_mm",
                       "core.strips[0].x_mm[0]", "core.strips[0].x_mm[1]", "core.strips[0].fill",
                       "layer.Lage 2.ö.zones[0].x_mm[0]", "layer.Lage 2.ö.zones[0].x_mm[1]",
                       "layer.Lage 2.ö.zones[1].from_mm[0]", "layer.Lage 2.ö.zones[1].from_mm[1]",
                       "layer.Lage 2.ö.zones[1].to_mm[0]", "layer.Lage 2.ö.zones[1].to_mm[1]",
                       "layer.Lage 2.ö.zones[1].width_mm", "edge.width_mm", "edge.material",
                       "edge.flange.width_mm", "edge.flange.thickness_mm"});
}

TEST_CASE("several values of a file are set at once, and nothing else moves") {
    std::string expected = strip_text;
    expected.replace(expected.find(", 40]"), 4, ", 41.5");
    expected.replace(expected.find("\"ash\""), 5, "\"beech\"");
    expected.replace(expected.find("width_mm = 8"), 12, "width_mm = 9.25");
    CHECK(with({{"layer.Lage 2.ö.zones[1].width_mm", 9.25, ""},
                {"planform.rectangle_mm[1]", 41.5, ""},
                {"core.strips[0].fill", "beech", ""}}) == expected);
    CHECK_THROWS_WITH(with({{"planform.rectangle_mm[2]", 1.0, ""}}),
                      Contains("the file has no such value"));
    CHECK_THROWS_WITH(with({{"edge.width_mm", "wide", ""}}), Contains("accepted: a number"));
    CHECK_THROWS_WITH(with({{"edge.material", 2.0, ""}}), Contains("accepted: a text"));
}
