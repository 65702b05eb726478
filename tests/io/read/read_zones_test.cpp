// Zones, each kind with values of its own; what is refused: construction_test.
#include <catch2/catch.hpp>

#include "tests/io/construction_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Layer zoned(const std::string& zone) {
    return read_text_board(construction_text(plain_strips, rubber_layer(zone))).layers.at(1);
}

} // namespace

TEST_CASE(
    "a zone is a part of the length, with a part of the width, a band, a polygon or a ribbon") {
    const Zone part = zoned("zone = { x_mm = [-50, 51], y_mm = [-20, 22] }").zone;
    CHECK(*part.x == Range{-0.05, 0.051});
    CHECK(*part.y == Range{-0.02, 0.022});
    CHECK_FALSE(part.outline);
    CHECK_FALSE(part.ribbon);
    CHECK(part.polygon.empty());
    const Zone band = zoned("zone = { outline_mm = [3, 25] }").zone;
    CHECK(*band.outline == Range{0.003, 0.025});
    CHECK_FALSE(band.x);
    CHECK_FALSE(band.y);
    const Zone polygon =
        zoned("zone = { x_mm = [-50, 51], polygon_mm = [[0, 1], [40, 2], [3, 40]] }").zone;
    REQUIRE(polygon.polygon.size() == 3);
    CHECK(polygon.polygon[1] == Eigen::Vector2d(0.04, 0.002));
    CHECK(*polygon.x == Range{-0.05, 0.051});
    const Zone ribbon =
        zoned("zone = { from_mm = [-100, 10], to_mm = [110, 12], width_mm = 15 }").zone;
    REQUIRE(ribbon.ribbon);
    CHECK(ribbon.ribbon->from == Eigen::Vector2d(-0.1, 0.01));
    CHECK(ribbon.ribbon->to == Eigen::Vector2d(0.11, 0.012));
    CHECK(ribbon.ribbon->width == 0.015);
    CHECK_FALSE(ribbon.y);
}

TEST_CASE("several zones keep their order; a layer without any is everywhere") {
    const Layer several = zoned("zones = [{ x_mm = [-50, -40] }, { outline_mm = [0, 5] }, "
                                "{ y_mm = [10, 20] }]");
    CHECK(*several.zone.x == Range{-0.05, -0.04});
    REQUIRE(several.more_zones.size() == 2);
    CHECK(*several.more_zones[0].outline == Range{0, 0.005});
    CHECK(*several.more_zones[1].y == Range{0.01, 0.02});
    const Layer everywhere = zoned("");
    CHECK_FALSE(everywhere.zone.x);
    CHECK_FALSE(everywhere.zone.y);
    CHECK(everywhere.more_zones.empty());
}

TEST_CASE("one zone is told in one way only") {
    const auto refused = [](const std::string& zone, const std::string& why) {
        CHECK_THAT(complaint_of([&] { (void)zoned("zone = { " + zone + " }"); }), Contains(why));
    };
    const std::string ribbon = "from_mm = [0, 0], to_mm = [50, 0], width_mm = 5, ";
    refused(ribbon + "y_mm = [0, 5]", "zone.y_mm: not accepted beside a ribbon");
    refused(ribbon + "outline_mm = [0, 5]", "zone.outline_mm: not accepted beside a ribbon");
    refused(ribbon + "polygon_mm = [[0, 0], [9, 0], [0, 9]]", "zone.polygon_mm: not accepted");
    refused("outline_mm = [0, 5], y_mm = [0, 5]", "zone.y_mm: not accepted beside outline_mm");
    refused("outline_mm = [0, 5], polygon_mm = [[0, 0], [9, 0], [0, 9]]",
            "zone.polygon_mm: not accepted beside a ribbon or outline_mm");
    refused("width_mm = 5", "zone.from_mm: missing");
}
