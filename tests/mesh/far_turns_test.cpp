#include <array>
#include <cmath>
#include <cstdio>
#include <numbers>

#include <catch2/catch.hpp>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "mesh/block_plan.hpp"
#include "mesh/index.hpp"
#include "mesh/mesher.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using Eigen::Vector2d;

namespace {

CurveSpan turning(const Vector2d& centre, double radius, double from, double to) {
    CurveSpan span;
    span.piece.centre = centre;
    span.piece.radius = radius;
    span.piece.angle_from = from;
    span.piece.angle_to = to;
    return span;
}

// The map of one loop with vertices at the starts of its spans.
PlanarMap turning_map(std::vector<CurveSpan> spans) {
    LineGraph graph;
    graph.names = {"outline"};
    const int count = static_cast<int>(spans.size());
    graph.loops.emplace_back(std::move(spans));
    const Loop& loop = graph.loops[0];
    std::vector<double> at(index(count) + 1, loop.length());
    for (auto sample = loop.samples().rbegin() + 1; sample != loop.samples().rend(); ++sample) {
        at[index(sample->span)] = sample->s;
    }
    for (int k = 0; k < count; ++k) {
        graph.vertices.push_back(loop.point(at[index(k)]));
        graph.edges.push_back(
            {k, (k + 1) % count, 0, at[index(k)], at[index(k + 1)], 0, Rank::outline, true});
    }
    return PlanarMap(graph);
}

// A circle of 100 mm in even arcs, run through to the left (1) or to the right (-1), and how many
// vertices it has once far turns are split.
std::size_t vertices_of_circle(int arcs, int way) {
    std::vector<CurveSpan> spans;
    for (int k = 0; k < arcs; ++k) {
        spans.push_back(turning({0, 0}, 0.1, way * 2 * std::numbers::pi * k / arcs,
                                way * 2 * std::numbers::pi * (k + 1) / arcs));
    }
    PlanarMap map = turning_map(spans);
    split_far_turns(map);
    return map.graph().vertices.size();
}

const std::string notched = R"(format = 1
name = "notched"
planform = { outline_csv = "notched.csv", running_length_mm = 1150 }
layer = [
    { name = "base", material = "uhmwpe", thickness_mm = 1.2 },
    { name = "core", core = true },
    { name = "cross", fabric = "carbon-ud-150", mirror = true, zones = [
        { from_mm = [-562.629, -82.547], to_mm = [504.099, 69.859], width_mm = 9.84 },
        { from_mm = [-527.059, 33.725], to_mm = [421.660, 64.342], width_mm = 8.73 },
        { from_mm = [-500.560, 74.165], to_mm = [346.258, -100.778], width_mm = 26.35 } ] },
    { name = "patch", fabric = "glass-ud-300", angle_deg = 45, zone = { x_mm = [-433.20, -25.49], y_mm = [-99.19, 53.60] } },
    { name = "upper glass", fabric = "triax-680", flip = true },
    { name = "top", material = "polyamide", thickness_mm = 0.5 } ]
edge = { material = "steel", width_mm = 2.2, flange = { width_mm = 5.5, thickness_mm = 0.5, fill = 0.7 } }
sidewall = { material = "abs", width_mm = 10.81 }
stance = { width_mm = 520, setback_mm = 7.2, foot_length_mm = 95, foot_width_mm = 166.19 }
[core]
interpolation = "smooth"
thickness_mm = [[-782, 1.8], [-598, 2.1], [-310.5, 6.2], [-1.4, 6.8], [287.5, 6.3], [575, 2.3], [793.5, 1.8]]
strips = [
    { material = "balsa", width_mm = 20.22, x_mm = [-215.50, 260.14], fill = "paulownia" },
    { material = "balsa", width_mm = 11.41 }, { material = "balsa", width_mm = 24.35 } ]
)";

} // namespace

TEST_CASE("a curve is split that turns by more than 110 degrees, or by more than 45 to the right") {
    CHECK(vertices_of_circle(2, 1) == 8); // pieces of 45 degrees
    CHECK(vertices_of_circle(3, 1) == 9); // of 40
    CHECK(vertices_of_circle(4, 1) == 4);
    CHECK(vertices_of_circle(4, -1) == 8);
    CHECK(vertices_of_circle(7, -1) == 14);
    CHECK(vertices_of_circle(9, -1) == 9);
}

TEST_CASE("what is split has even turns between its vertices, however far apart they are") {
    // 60 degrees of 200 mm go on into 60 of 20 mm: thirds lie at 40 degrees on one, at 80 on the
    // other
    const auto ray = [](double angle) { return Vector2d(std::cos(angle), std::sin(angle)); };
    const Vector2d centre = 0.18 * ray(std::numbers::pi / 3);
    CurveSpan wide = turning({0, 0}, 0.2, 0, std::numbers::pi / 3);
    CurveSpan tight = turning(centre, 0.02, std::numbers::pi / 3, 2 * std::numbers::pi / 3);
    PlanarMap map = turning_map(
        {wide, tight, turning(centre, 0.02, 2 * std::numbers::pi / 3, std::numbers::pi)});
    LineGraph graph = map.graph(); // the first two arcs as one edge
    graph.edges[0].b = graph.edges[1].b;
    graph.edges[0].to = graph.edges[1].to;
    graph.edges.erase(graph.edges.begin() + 1);
    PlanarMap joined(graph);
    split_far_turns(joined);
    REQUIRE(joined.graph().vertices.size() == 5);
    const double probe = (graph.edges[0].to - graph.edges[0].from) / 64; // turns are added up by
    CHECK((joined.graph().vertices[3] - 0.2 * ray(2 * std::numbers::pi / 9)).norm() < probe);
    CHECK((joined.graph().vertices[4] - centre - 0.02 * ray(4 * std::numbers::pi / 9)).norm() <
          probe);
}

// One of 260 strange boards: whatever lines were given up round its notch, a quad stayed folded.
TEST_CASE("a swallow tail under crossing ribbons is meshed: round its notch far turns are split") {
    const std::vector<std::array<double, 2>> left{{775, 0},
                                                  {774.507, 18.764},
                                                  {773.028, 32.589},
                                                  {770.567, 44.891},
                                                  {767.13, 56.182},
                                                  {762.725, 66.662},
                                                  {757.362, 76.427},
                                                  {751.053, 85.522},
                                                  {743.809, 93.969},
                                                  {735.645, 101.776},
                                                  {726.572, 108.942},
                                                  {716.601, 115.463},
                                                  {705.739, 121.332},
                                                  {693.987, 126.538},
                                                  {681.333, 131.073},
                                                  {667.747, 134.927},
                                                  {653.166, 138.093},
                                                  {637.457, 140.564},
                                                  {620.342, 142.332},
                                                  {601.106, 143.395},
                                                  {575, 143.75},
                                                  {503.125, 139.355},
                                                  {431.25, 135.547},
                                                  {359.375, 132.324},
                                                  {287.5, 129.688},
                                                  {215.625, 127.637},
                                                  {143.75, 126.172},
                                                  {71.875, 125.293},
                                                  {0, 125},
                                                  {-71.875, 125.293},
                                                  {-143.75, 126.172},
                                                  {-215.625, 127.637},
                                                  {-287.5, 129.688},
                                                  {-359.375, 132.324},
                                                  {-431.25, 135.547},
                                                  {-503.125, 139.355},
                                                  {-575, 143.75},
                                                  {-599.8, 143.203},
                                                  {-624.176, 141.573},
                                                  {-647.71, 138.886},
                                                  {-670, 135.189},
                                                  {-690.665, 130.546},
                                                  {-709.35, 125.035},
                                                  {-725.737, 118.751},
                                                  {-739.545, 111.801},
                                                  {-750.537, 104.305},
                                                  {-758.526, 96.39},
                                                  {-763.375, 88.192},
                                                  {-765, 79.852},
                                                  {-702.354, 59.889},
                                                  {-658.216, 39.926},
                                                  {-619.121, 19.963},
                                                  {-582.98, 0}}; // [mm], nose to notch
    std::string outline = "x_mm,y_mm\n";
    const auto add = [&](double x, double y) {
        std::array<char, 64> line{};
        std::snprintf(line.data(), line.size(), "%.3f,%.3f\n", x, y);
        outline += line.data();
    };
    for (const auto& [x, y] : left) {
        add(x, y);
    }
    for (std::size_t k = left.size() - 1; k-- > 1;) {
        add(left[k][0], -left[k][1]);
    }
    const tests::TemporaryFolder folder;
    REQUIRE(folder.file("notched.csv", outline).ends_with("csv"));
    const std::string file = folder.file("board.toml", notched);
    const Board board = read_board(file, load_material_library());
    CHECK(mesh_planform(board, {}).min_scaled_jacobian > 0.1);
}
