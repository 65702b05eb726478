// What a square millimetre of width does, against values by hand; the field: tests/whole.
#include "io/write/sense_report.hpp"

#include <catch2/catch.hpp>

#include "tests/degree.hpp"

using namespace vrid;
using namespace vrid::tests;

TEST_CASE("gains are in the number's bench unit per mm2, places in mm, others told why not") {
    Sense sense;
    sense.board.planform = rectangle_planform(1.0, 0.2);
    BoardNumber mass;
    mass.request = {NumberId::Kind::mass};
    BoardNumber twist;
    twist.request = {NumberId::Kind::bench_case, "nose-twist"};
    twist.quantity = {10 / degree, 0, Unit::twist_stiffness};
    BoardNumber edge;
    edge.request.kind = NumberId::Kind::edge;
    edge.request.edge_number = "peak";
    sense.numbers.numbers = {mass, twist, edge};
    OutlineDensity& outline = sense.numbers.outline;
    outline.numbers = {1};
    outline.at = Eigen::Matrix2Xd{{-0.5, 0.25}, {0.1, -0.1}};
    outline.outward = Eigen::Matrix2Xd{{0, 0.6}, {1, -0.8}};
    outline.length = Eigen::Vector2d(0.05, 0.0625);
    outline.density = Eigen::MatrixXd{{30 / degree}, {-2 / degree}}; // N m/deg per m2: 30 and -2
    const FoundOutline found = found_outline(sense);
    using Places = std::vector<std::pair<double, double>>;
    CHECK(found.at == Places{{-500, 100}, {250, -100}});
    CHECK(found.outward == Places{{0, 1}, {0.6, -0.8}});
    CHECK(found.length.value == std::vector<double>{50, 62.5});
    REQUIRE(found.gains.size() == 1);
    CHECK(found.gains[0].of == "nose-twist");
    CHECK(found.gains[0].unit.value == "N m/deg per mm2");
    REQUIRE(found.gains[0].gain.size() == 2);
    CHECK(found.gains[0].gain[0] == Approx(30e-6));
    CHECK(found.gains[0].gain[1] == Approx(-2e-6));
    REQUIRE(found.omitted.size() == 2);
    CHECK(found.omitted[0].first == "mass");
    CHECK(found.omitted[0].second.find("needs no solve") == 0);
    CHECK(found.omitted[1].first == "edge.peak");
    CHECK(found.omitted[1].second.find("derivatives by the places of the nodes") == 0);
}
