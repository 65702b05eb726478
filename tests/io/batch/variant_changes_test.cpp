#include "io/batch/job.hpp"

#include <catch2/catch.hpp>

#include "tests/shipped.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;

TEST_CASE("a variant's changes stand beside what the board as drawn has, in the file's units") {
    const Board board = example("nh-157-querwind");
    Variant variant{"v",
                    {{"core.thickness_scale", 1.03, ""},
                     {"material.e-glass.E_GPa", 70.0, ""},
                     {"layer.lower glass.fabric", std::string("biax-680"), ""},
                     {"material.flax.E1_GPa", 50.0, ""}}};
    const std::vector<VariantChange> changes = value_changes(board, variant);
    REQUIRE(changes.size() == 4);
    CHECK(changes[0] == VariantChange{"core.thickness_scale", "1", "1.03"});
    CHECK(changes[1] == VariantChange{"material.e-glass.E_GPa", "72.4", "70"});
    CHECK(changes[2].after == "biax-680");
    CHECK_FALSE(changes[2].before.empty());
    CHECK(changes[3].before.empty()); // this board has none
}

TEST_CASE("layers that differ in plies, thickness or place are told, and those of one board only") {
    LaidLayer base{"base", "uhmwpe", "", 1.3};
    LaidLayer glass{"glass", "triax", "", 0.58, {{"e-glass", 0, 340}}, "epoxy", 300.0};
    LaidLayer turned = glass;
    turned.plies.front().angle_deg = 10;
    LaidLayer ribbon{"ribbon", "ud", "x 100 to 200", 0.2};
    CHECK(layup_changes({base, glass}, {base, glass}).empty());
    const std::vector<VariantChange> changes = layup_changes({base, glass}, {base, turned, ribbon});
    REQUIRE(changes.size() == 2);
    CHECK(changes[0] == VariantChange{"layer glass", "triax; e-glass 0 deg 340, 0.580 mm",
                                      "triax; e-glass 10 deg 340, 0.580 mm"});
    CHECK(changes[1] == VariantChange{"layer ribbon", "", "ud, 0.200 mm, x 100 to 200"});
}
