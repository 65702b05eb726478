#include "io/design/number_names.hpp"

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using Catch::Contains;

TEST_CASE("a limit on what is no number of the board is warned of at its place, with the nearest") {
    const std::string text = tests::demo_board_text();
    const auto at = text.find("[limits]\n");
    REQUIRE(at != std::string::npos);
    const auto warned = [&](const std::string& name) {
        std::string changed = text;
        changed.insert(at + 9, "\"" + name + "\" = { max = 3 }\n");
        return unknown_limits(
            read_named_board({changed, "board.toml", ""}, load_material_library()));
    };
    const auto line = std::count(text.begin(), text.begin() + static_cast<long>(at), '\n') + 2;
    const auto slip = warned("tail-twits");
    REQUIRE(slip.size() == 1);
    CHECK_THAT(slip[0].place, Contains(":" + std::to_string(line) + ":"));
    CHECK_THAT(slip[0].message,
               Contains("limits.tail-twits: ") && Contains("did you mean 'tail-twist'?"));
    const auto off = warned("EI@9999");
    REQUIRE(off.size() == 1);
    CHECK_THAT(off[0].message, Contains("a station off the board"));
    for (const char* name :
         {"tail-twist", "thickness@0", "balance_point.x", "nose-flex at 40 mm", "edge.peak",
          "strength.nose-flex", "sidecut-radius", "edge 45 deg 800 N 5 N/mm3 loss nose"}) {
        INFO(name);
        CHECK(warned(name).empty());
    }
}
