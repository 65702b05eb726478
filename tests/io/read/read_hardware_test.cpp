// Edge, sidewall, spacer, stance, mass and rest shape, each key with a value of its own.
#include <catch2/catch.hpp>

#include "tests/io/construction_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

std::string hardware_text(const std::string& tables) {
    return construction_text(plain_strips, "") + tables;
}

Board with_hardware(const std::string& tables) {
    return read_text_board(hardware_text(tables));
}

} // namespace

TEST_CASE("every key of the hardware goes to its own member, in SI") {
    const Board board =
        with_hardware("[tip_spacer]\nmaterial = \"other\"\nx_mm = [-150, 160]\n"
                      "[edge]\nmaterial = \"steel\"\nwidth_mm = 2.1\n"
                      "x_mm = [-140, 141]\n"
                      "flange = { width_mm = 6.5, thickness_mm = 0.6, fill = 0.45 }\n"
                      "[sidewall]\nmaterial = \"abs\"\nwidth_mm = 8.2\n"
                      "x_mm = [-130, 131]\n"
                      "[stance]\nwidth_mm = 200\nsetback_mm = 12.5\n"
                      "foot_length_mm = 90\nfoot_width_mm = 80\n"
                      "[mass_only]\nresin_gsm = 310\ninserts_per_foot = 7\n"
                      "insert_mass_g = 8.4\n"
                      "[rest_shape]\nz_mm = [[-200, 5], [0, 1], [190, 6]]\n");
    CHECK(board.tip_spacer->material == "other");
    CHECK(board.tip_spacer->x == Range{-0.15, 0.16});
    CHECK(board.edge->material == "steel");
    CHECK(board.edge->width == Approx(0.0021));
    CHECK(*board.edge->x == Range{-0.14, 0.141});
    CHECK(board.edge->flange->width == 0.0065);
    CHECK(board.edge->flange->thickness == 0.0006);
    CHECK(board.edge->flange->fill == 0.45);
    CHECK(board.sidewall->material == "abs");
    CHECK(board.sidewall->width == Approx(0.0082));
    CHECK(*board.sidewall->x == Range{-0.13, 0.131});
    CHECK(board.stance->width == 0.2);
    CHECK(board.stance->setback == 0.0125);
    CHECK(board.stance->foot_length == 0.09);
    CHECK(board.stance->foot_width == 0.08);
    CHECK(board.mass_only.resin == 0.31);
    CHECK(board.mass_only.inserts_per_foot == 7);
    CHECK(board.mass_only.insert_mass == Approx(0.0084));
    CHECK(board.rest_shape->x == std::vector<double>{-0.2, 0, 0.19});
    CHECK(board.rest_shape->value == std::vector<double>{0.005, 0.001, 0.006});
}

TEST_CASE("hardware that the file does not name is not there; what it leaves out is the default") {
    const Board bare = with_hardware("");
    CHECK_FALSE(bare.edge);
    CHECK_FALSE(bare.sidewall);
    CHECK_FALSE(bare.tip_spacer);
    CHECK_FALSE(bare.stance);
    CHECK_FALSE(bare.rest_shape);
    CHECK(bare.mass_only.resin == 0);
    CHECK(bare.mass_only.inserts_per_foot == 0);
    const Board board =
        with_hardware("[edge]\nmaterial = \"steel\"\nwidth_mm = 2\n"
                      "flange = { width_mm = 6, thickness_mm = 0.5 }\n"
                      "[stance]\nwidth_mm = 200\nfoot_length_mm = 90\nfoot_width_mm = 80\n");
    CHECK_FALSE(board.edge->x);
    CHECK(board.edge->flange->fill == 1);
    CHECK(board.stance->setback == 0);
}

TEST_CASE("a spacer without its ends, and inserts without their number, are refused") {
    const auto complaint = [](const std::string& tables) {
        return complaint_of([&] { (void)with_hardware(tables); });
    };
    CHECK_THAT(complaint("[tip_spacer]\nmaterial = \"abs\"\n"),
               Contains("tip_spacer.x_mm: missing; accepted: the two stations [tail, nose]"));
    CHECK_THAT(complaint("[mass_only]\ninsert_mass_g = 8\n"),
               Contains("mass_only.insert_mass_g: inserts_per_foot and insert_mass_g"));
    CHECK_THAT(complaint("[sidewall]\nmaterial = \"abz\"\nwidth_mm = 8\n"),
               Contains("sidewall.material") && Contains("'abs'"));
}
