// Layers and zones, each key with a value of its own; zones that are refused: construction_test.
#include <numbers>

#include <catch2/catch.hpp>

#include "tests/io/construction_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

// The layer between the lower sheet and the core.
Layer layer_of(const std::string& keys) {
    return read_text_board(construction_text(plain_strips, keys)).layers.at(1);
}

std::string said_of(const std::string& keys) {
    return complaint_of([&] { (void)layer_of(keys); });
}

} // namespace

TEST_CASE("a sheet has material and thickness, a fabric its name, each its angle, side and place") {
    const Layer sheet = layer_of(rubber_layer("angle_deg = 30\nflip = true\ninlay = true\n"
                                              "zone = { x_mm = [-50, 51] }\n"));
    CHECK(sheet.name == "rubber");
    CHECK(sheet.kind == LayerKind::material);
    CHECK(sheet.material == "rubber");
    CHECK(sheet.thickness == 0.002);
    CHECK(sheet.angle == Approx(std::numbers::pi / 6));
    CHECK(sheet.flip);
    CHECK(sheet.inlay);
    CHECK_FALSE(sheet.mirror);
    CHECK(*sheet.zone.x == Range{-0.05, 0.051});
    const Layer two = layer_of(rubber_layer("zones = [{ y_mm = [1, 5] }, { y_mm = [10, 20] }]"));
    CHECK(*two.zone.y == Range{0.001, 0.005});
    REQUIRE(two.more_zones.size() == 1);
    CHECK(*two.more_zones[0].y == Range{0.01, 0.02});
    const Layer cloth = layer_of("[[layer]]\nname = \"cloth\"\nfabric = \"carbon-ud-300\"\n"
                                 "mirror = true\nzone = { y_mm = [5, 20] }\n");
    CHECK(cloth.kind == LayerKind::fabric);
    CHECK(cloth.fabric == "carbon-ud-300");
    CHECK(cloth.material.empty());
    CHECK(cloth.angle == 0);
    CHECK_FALSE(cloth.flip);
    CHECK_FALSE(cloth.inlay);
    CHECK(cloth.mirror);
    CHECK(cloth.more_zones.empty());
    CHECK_FALSE(cloth.zone.x);
    CHECK(*cloth.zone.y == Range{0.005, 0.02});
}

TEST_CASE(
    "a layer is of one material or fabric, or is the core, and only a sheet has a thickness") {
    CHECK_THAT(said_of("[[layer]]\nname = \"n\"\n"),
               Contains("layer.n: found 0 of the keys material, fabric and core = true"));
    CHECK_THAT(said_of(rubber_layer("fabric = \"carbon-ud-300\"")),
               Contains("found 2 of the keys"));
    CHECK_THAT(said_of("[[layer]]\nname = \"n\"\nfabric = \"carbon-ud-300\"\nthickness_mm = 1\n"),
               Contains("layer.n.thickness_mm: not accepted: the plies"));
    std::string none = construction_text(plain_strips, "");
    none = none.substr(0, none.find("[[layer]]")); // and no table after it
    CHECK_THAT(complaint_of([&] { (void)read_text_board(none); }),
               Contains("at least one [[layer]]"));
}

TEST_CASE("core = \"yes\" is one problem, not four of a board without a core") {
    std::string text = construction_text(plain_strips, "");
    const std::string key = "core = true";
    REQUIRE(text.find(key) != std::string::npos);
    text.replace(text.find(key), key.size(), "core = \"yes\"");
    const std::string said = complaint_of([&] { (void)read_text_board(text); });
    CHECK_THAT(said, Contains(".core: found the text \"yes\"; accepted: true or false") &&
                         !Contains("no layer has core = true") && !Contains("found 0 of the keys"));
}
