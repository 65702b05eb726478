// Doubts about a board, worded by hand.
#include "io/read/board_problems.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE(
    "a value inside its usual range, its ends too, is not doubted; outside it is told with it") {
    Board board;
    board.file = "b.toml";
    const std::map<std::string, std::string> places{{"core.thickness_mm", "b.toml:12:3"}};
    Judge judge(board, places);
    for (const double value : {2.0, 10.0, 20.0}) {
        judge.hold(Judged::total, value, "core.thickness_mm", "the board");
    }
    judge.hold(Judged::beyond_tip, 20.00000000000002, "core.thickness_mm", "the station");
    judge.hold(Judged::rest_radius, 1e9, "rest_shape.z_mm", "the radius");
    CHECK(judge.found().empty());
    judge.hold(Judged::total, 20.00049, "core.thickness_mm", "the board", " at x = 3 mm");
    judge.hold(Judged::fibre_fraction, 0.29, "fabric.f.fibre_volume_fraction", "the share");
    judge.hold(Judged::rest_radius, 199, "rest_shape.z_mm", "the radius");
    REQUIRE(judge.found().size() == 3);
    CHECK(judge.found()[0].place == "b.toml:12:3");
    CHECK(judge.found()[0].message.starts_with(
        "core.thickness_mm: the board is 20.0005 mm at x = 3 mm; "
        "usual: 2 to 20 mm, "));
    CHECK(judge.found()[1].place == "b.toml"); // this key stands nowhere
    CHECK(judge.found()[1].message.starts_with(
        "fabric.f.fibre_volume_fraction: the share is 0.29; usual: 0.3 to 0.65, "));
    CHECK(judge.found()[2].message.starts_with(
        "rest_shape.z_mm: the radius is 199 mm; usual: 200 mm or more, "));
}
