// Conditions of an edge with their curves, against values written by hand.
#include <catch2/catch.hpp>

#include "io/batch/folder_results.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

FoundEdge two_conditions() {
    FoundEdge edge;
    FoundCondition one;
    one.name = "first";
    one.angle_deg = 45;
    one.force_N = 800;
    one.hardness = 5;
    one.share = 0.5;
    one.side = "left";
    one.law = "volume";
    FoundCondition two = one;
    two.name = "second";
    two.hardness = 2.5;
    two.share = 0.25;
    two.side = "right";
    two.law = "linear";
    edge.conditions = {one, two};
    return edge;
}

} // namespace

TEST_CASE("a state is named by its side, its share if that is no half, and the snow of its law") {
    const auto states = edge_states(two_conditions(), "/nowhere/edge.csv");
    REQUIRE(states.size() == 2);
    CHECK(states[0].stand == "left edge");
    CHECK(states[0].snow == "5 N/mm3");
    CHECK(states[0].angle_deg == 45);
    CHECK(states[1].stand == "right edge, share of the front foot 0.25");
    CHECK(states[1].snow == "2.5 N/mm2");
    CHECK(states[1].x.empty());
}

TEST_CASE("each curve goes to the condition whose number it has, whatever the order of columns") {
    const TestFolder folder("edge-curves");
    const std::string file = folder.write("edge.csv", "angle_deg,q_Npmm,y_mm,x_mm,condition\n"
                                                      "44,0.5,120,-500,2\n"
                                                      "45,1.5,130,0,2\n"
                                                      "41,2.5,140,250,1\n"
                                                      "1,1,1,1,3\n"
                                                      "1,1,1,1,0\n"
                                                      "46,3.5,125,500,2\n");
    const auto states = edge_states(two_conditions(), file);
    CHECK(states[0].x == std::vector<double>{250});
    CHECK(states[0].angle_line == std::vector<double>{41});
    CHECK(states[1].x == std::vector<double>{-500, 0, 500});
    CHECK(states[1].y == std::vector<double>{120, 130, 125});
    CHECK(states[1].force_line == std::vector<double>{0.5, 1.5, 3.5});
    CHECK(states[1].angle_line == std::vector<double>{44, 45, 46});
    const std::string other = folder.write("edge.csv", "angle_deg,q_Npmm,y_mm,x_mm\n44,1,2,3\n");
    CHECK(edge_states(two_conditions(), other)[0].x.empty());
}
