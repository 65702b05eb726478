#include "mesh/board/check_zones.hpp"

#include <limits>

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

const Planform bench_plate = rectangle_planform(1.0, 0.2);

std::vector<BoardFault> zone_faults(const Layer& layer, bool known = true) {
    std::vector<BoardFault> faults;
    PartCheck check(faults, {PartOfBoard::layer, layer.name, 0});
    check_zones(layer, known ? &bench_plate : nullptr, check);
    return faults;
}

Layer in_zone(const Zone& zone, bool mirror = false) {
    Layer layer;
    layer.zone = zone;
    layer.mirror = mirror;
    return layer;
}

} // namespace

TEST_CASE("stations must reach the board, as far as it is known") {
    const auto off = [](const std::optional<Range>& x, bool known = true) {
        std::vector<BoardFault> faults;
        PartCheck check(faults, {PartOfBoard::edge});
        check_stations(x, known ? &bench_plate : nullptr, check);
        return faults.size();
    };
    CHECK(off(std::nullopt) == 0);
    CHECK(off(Range{-2, -0.499}) == 0);
    CHECK(off(Range{-2, -0.5}) == 1);
    CHECK(off(Range{0.499, 2}) == 0);
    CHECK(off(Range{0.5, 2}) == 1);
    CHECK(off(Range{0.5, 2}, false) == 0);
    CHECK(off(Range{2, 0.1}) == 1); // out of order, and not off the board beside
}

TEST_CASE("each zone of a layer is looked at in its place") {
    Layer layer = in_zone({Range{0, 0.1}, {}, {}, {}, {}});
    layer.more_zones = {{{}, Range{0.05, 0.01}, {}, {}, {}},
                        {{}, {}, {}, {}, {{0, 0}, {0.1, 0}}},
                        {{}, {}, Ribbon{{0, 0}, {5e-5, 0}, 0.01}, {}, {}},
                        {{}, {}, {}, {}, {{0, 0}, {0.1, 0.05}, {0.1, 0}, {0, 0.05}}},
                        {Range{0.6, 0.7}, {}, {}, {}, {}}};
    const auto faults = zone_faults(layer);
    REQUIRE(faults.size() == 5);
    const std::vector<Fault> wanted{Fault::no_order, Fault::few_corners, Fault::short_ribbon,
                                    Fault::crossing_sides, Fault::misses_board};
    for (std::size_t k = 0; k < 5; ++k) {
        CHECK(faults[k].what == wanted[k]);
        CHECK(faults[k].at.list == "zone");
        CHECK(faults[k].at.item == static_cast<int>(k) + 1);
    }
    CHECK(zone_faults(layer, false).size() == 4); // where the board lies is not known
    Layer odd = in_zone(
        {{}, {}, {}, {}, {{0, 0}, {0.1, 0}, {0.1, std::numeric_limits<double>::quiet_NaN()}}});
    REQUIRE(zone_faults(odd).size() == 1);
    CHECK(zone_faults(odd)[0].at.entry == 2);
}

TEST_CASE("a mirrored layer has a zone that is not its own image and does not lie on it") {
    const auto kind = [](const Zone& zone) {
        const auto faults = zone_faults(in_zone(zone, true));
        return faults.empty() ? std::optional<Fault>() : faults[0].what;
    };
    CHECK_FALSE(kind({{}, Range{0.01, 0.05}, {}, {}, {}}));
    CHECK(kind({}) == Fault::mirror_everywhere);
    CHECK(kind({{}, Range{-0.05, 0.05}, {}, {}, {}}) == Fault::mirror_whole);
    CHECK(kind({{}, Range{-0.01, 0.05}, {}, {}, {}}) == Fault::mirror_overlap);
    CHECK(kind({{}, {}, Ribbon{{-0.2, -0.05}, {0.2, 0.05}, 0.01}, {}, {}}) ==
          Fault::mirror_crossing);
    CHECK(zone_faults(in_zone({{}, Range{-0.01, 0.05}, {}, {}, {}})).empty()); // not mirrored
    // what is wrong already is not mirrored
    CHECK(zone_faults(in_zone({Range{0.2, 0.1}, Range{-0.01, 0.05}, {}, {}, {}}, true)).size() ==
          1);
    Layer partly = in_zone({{}, Range{-0.01, 0.05}, {}, {}, {}}, true);
    partly.more_zones = {{Range{0.6, 0.7}, {}, {}, {}, {}}};
    REQUIRE(zone_faults(partly).size() == 1);
    CHECK(zone_faults(partly)[0].what == Fault::misses_board);
    const auto area = zone_faults(in_zone({Range{0, 0.1}, Range{-0.01, 0.05}, {}, {}, {}}, true));
    REQUIRE(area.size() == 1);
    REQUIRE(area[0].told.size() == 1);
    CHECK(area[0].told[0] == Approx(0.1 * 0.02).epsilon(1e-2));
}
