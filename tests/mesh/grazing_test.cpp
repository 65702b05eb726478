#include "mesh/line_graph.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "tests/mesh/map_faces.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

// A square with a line from its first corner that leaves its lower side at an angle, to the right
// side; what is left of its edges.
LineGraph grazed(double degrees, Rank rank, std::vector<Omission>& omitted) {
    const double height = std::tan(degrees * std::numbers::pi / 180);
    LineGraph graph = polygon_graph({{0, 0}, {1, 0}, {1, height}, {1, 1}, {0, 1}});
    add_edge(graph, 0, 2, rank, 7);
    drop_grazing_lines(graph, omitted);
    return graph;
}

// A line of each of two ranks from the middle of the lower side, 5 degrees apart about the upright;
// the ranks that stay.
std::vector<Rank> of_two(Rank left, Rank right) {
    const double reach = std::tan(2.5 * std::numbers::pi / 180);
    LineGraph graph =
        polygon_graph({{-1, 0}, {0, 0}, {1, 0}, {1, 1}, {reach, 1}, {-reach, 1}, {-1, 1}});
    add_edge(graph, 1, 5, left, 1);
    add_edge(graph, 1, 4, right, 2);
    std::vector<Omission> omitted;
    drop_grazing_lines(graph, omitted);
    std::vector<Rank> stay;
    for (const GraphEdge& edge : graph.edges) {
        if (edge.line > 0) {
            stay.push_back(edge.rank);
        }
    }
    CHECK(stay.size() + omitted.size() == 2);
    return stay;
}

} // namespace

TEST_CASE("a hard line goes below 8 degrees, a soft one below 25, and the corner it left too") {
    std::vector<Omission> omitted;
    const LineGraph dropped = grazed(7.9, Rank::zone, omitted);
    CHECK(dropped.edges.size() == 4); // the right side is one again
    REQUIRE(omitted.size() == 1);
    CHECK(omitted[0].line == 7);
    CHECK(omitted[0].from == 0);
    CHECK(omitted[0].to == Approx(1 / std::cos(7.9 * std::numbers::pi / 180)));
    for (const GraphEdge& edge : dropped.edges) {
        CHECK(edge.rank == Rank::outline);
        CHECK(edge.to - edge.from == Approx(1));
    }
    CHECK(grazed(8.1, Rank::zone, omitted).edges.size() == 6);
    CHECK(grazed(8.1, Rank::foot, omitted).edges.size() == 6);
    CHECK(grazed(24.9, Rank::wanted_band, omitted).edges.size() == 4);
    CHECK(grazed(25.1, Rank::axis, omitted).edges.size() == 6);
    CHECK(grazed(1, Rank::band, omitted).edges.size() == 6); // what the section needs stays
}

TEST_CASE("of two lines that graze the one of lower rank gives way, a band to a case's station") {
    CHECK(of_two(Rank::zone, Rank::station) == std::vector<Rank>{Rank::station});
    CHECK(of_two(Rank::station, Rank::zone) == std::vector<Rank>{Rank::station});
    CHECK(of_two(Rank::station, Rank::band) == std::vector<Rank>{Rank::band});
    CHECK(of_two(Rank::band, Rank::wanted_station) == std::vector<Rank>{Rank::wanted_station});
    CHECK(of_two(Rank::wanted_station, Rank::band) == std::vector<Rank>{Rank::wanted_station});
    CHECK(of_two(Rank::zone, Rank::zone).size() == 1);
    CHECK(of_two(Rank::band, Rank::band).size() == 2);
}

TEST_CASE("what ends nowhere goes, link by link, and angles are measured all the way round") {
    LineGraph graph = polygon_graph({{0, 0}, {1, 0}, {1, 1}, {0, 1}});
    graph.vertices.emplace_back(0.3, 0.3);
    graph.vertices.emplace_back(0.6, 0.5);
    add_edge(graph, 0, 4, Rank::zone, 1);
    add_edge(graph, 4, 5, Rank::zone, 1);
    std::vector<Omission> omitted;
    drop_grazing_lines(graph, omitted);
    CHECK(graph.edges.size() == 4);
    CHECK(omitted.size() == 2);
    // two lines to the left, above and below the border of the angles at 180 degrees
    LineGraph wide = polygon_graph({{-1, -1}, {1, -1}, {1, 1}, {-1, 1}, {-1, 0.05}, {-1, -0.05}});
    wide.vertices.emplace_back(0, 0);
    add_edge(wide, 6, 4, Rank::zone, 1);
    add_edge(wide, 6, 5, Rank::station, 2);
    add_edge(wide, 6, 1, Rank::station, 3);
    omitted.clear();
    drop_grazing_lines(wide, omitted);
    REQUIRE(omitted.size() == 1);
    CHECK(omitted[0].line == 1);
}
