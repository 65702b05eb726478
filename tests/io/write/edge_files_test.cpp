// edge.csv against rows written by hand; the field files: tests/whole.
#include <catch2/catch.hpp>

#include "io/write/edge_report.hpp"
#include "tests/degree.hpp"

using namespace vrid;
using vrid::tests::degree;

TEST_CASE("edge.csv has a row a point: places in mm, force in N/mm, a depth where the edge is in "
          "the snow, the edging angle that is left") {
    EdgeConditionResult lost;
    lost.condition = {Side::left, 30 * degree, 650, 2e9};
    EdgeConditionResult one;
    one.condition = {Side::right, 45 * degree, 800, 3e6, 0.4, SnowLaw::linear};
    EdgeCurve& curve = one.curve;
    curve.x = Eigen::Vector2d(-0.5, 0.25);
    curve.y = Eigen::Vector2d(-0.125, -0.13);
    curve.q = Eigen::Vector2d(0, 4200);
    curve.H = Eigen::Vector2d(0.002, -0.0015);
    curve.w = Eigen::Vector2d(0.003, -0.004);
    curve.loss = Eigen::Vector2d(0.5 * degree, -degree);
    EdgeResult result;
    result.conditions = {lost, one};
    CHECK(edge_csv(result) ==
          "condition,x_mm,y_mm,q_Npmm,depth_mm,angle_deg,w_mm,side,edging_deg,force_N,hardness,"
          "share\n"
          "2,-500,-125,0,0,44.5,3,right,45,800,3,0.4\n"
          "2,250,-130,4.2,1.5,46,-4,right,45,800,3,0.4\n");
    result.conditions[1].condition = {Side::left, 45 * degree, 800, 3e9};
    const std::string text = edge_csv(result);
    CHECK(text.ends_with("\n2,250,-130,4.2,1.5,46,-4,left,45,800,3,0.5\n"));
}
