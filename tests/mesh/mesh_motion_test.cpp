#include "mesh/mesh_motion.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "mesh/board/outline_piece.hpp"
#include "tests/mesh/grid_mesh.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Index;
using Eigen::Vector2d;

namespace {

constexpr double longer = 1e-4; // of a board, to either side [m]

Board plate_of(double length, double width) {
    Board board;
    board.planform = rectangle_planform(length, width);
    return board;
}

// Calls see(point, velocity) for all points of a mesh.
template <class See>
void for_points(const Mesh& mesh, const MeshVelocity& velocity, const See& see) {
    REQUIRE(velocity.size() == mesh.quads.size());
    for (std::size_t q = 0; q < mesh.quads.size(); ++q) {
        for (Index k = 0; k < mesh.geometry[q].cols(); ++k) {
            see(Vector2d(mesh.geometry[q].col(k)), Vector2d(velocity[q].col(k)));
        }
    }
}

// Lines uneven: the least sum of squares runs evenly only with each edge by its length.
const std::vector<double> stations{-0.5, -0.45, -0.1, 0.15, 0.45, 0.5};
const std::vector<double> levels{-0.2, -0.15, 0.08, 0.15, 0.2};

StraightLine station_line(double x) {
    return {{x, -0.3}, {x, 0.3}, Rank::station, ""};
}

} // namespace

TEST_CASE("a plate that is stretched takes its mesh along evenly, in both directions") {
    const Board board = plate_of(1, 0.4);
    const Mesh mesh = grid_mesh(stations, levels, 3);
    const MeshLines none;
    const Board low = plate_of(1 - longer, 0.4 - 2 * longer);
    const Board high = plate_of(1 + longer, 0.4 + 2 * longer);
    const MeshVelocity velocity =
        MeshMotion(mesh, board, none).velocity({low, high, none, none, 2 * longer});
    for_points(mesh, velocity, [](const Vector2d& at, const Vector2d& v) {
        CHECK((v - Vector2d(at.x(), 5 * at.y())).norm() < 1e-9); // 1 a metre of length, 2 of 0.4
    });
}

TEST_CASE("a line keeps its points, what lies between two lines is shared") {
    const Board board = plate_of(1, 0.4);
    const Mesh mesh = grid_mesh(stations, levels, 3);
    MeshLines lines, low, high;
    lines.straight = {station_line(-0.1), station_line(0.15)};
    low.straight = {station_line(-0.1), station_line(0.15 - longer)};
    high.straight = {station_line(-0.1), station_line(0.15 + longer)};
    const MeshVelocity velocity =
        MeshMotion(mesh, board, lines).velocity({board, board, low, high, 2 * longer});
    for_points(mesh, velocity, [](const Vector2d& at, const Vector2d& v) {
        const double wanted = at.x() < -0.1   ? 0
                              : at.x() < 0.15 ? (at.x() + 0.1) / 0.25
                                              : (0.5 - at.x()) / 0.35;
        CHECK((v - Vector2d(wanted, 0)).norm() < 1e-9);
    });
}

TEST_CASE("a band's border moves inwards with its distance, its corners both ways") {
    const Board board = plate_of(1, 0.4);
    const Mesh mesh = grid_mesh(stations, levels, 2);
    MeshLines lines, low, high;
    lines.parallels = {{0.05, Rank::band, ""}};
    low.parallels = {{0.05 - longer, Rank::band, ""}};
    high.parallels = {{0.05 + longer, Rank::band, ""}};
    const MeshVelocity velocity =
        MeshMotion(mesh, board, lines).velocity({board, board, low, high, 2 * longer});
    int corners = 0;
    for_points(mesh, velocity, [&](const Vector2d& at, const Vector2d& v) {
        const Vector2d inwards(at.x() > 0 ? -1 : 1, at.y() > 0 ? -1 : 1);
        const bool x = std::abs(std::abs(at.x()) - 0.45) < 1e-9 && std::abs(at.y()) < 0.15 + 1e-9;
        const bool y = std::abs(std::abs(at.y()) - 0.15) < 1e-9 && std::abs(at.x()) < 0.45 + 1e-9;
        CHECK((!x || v.x() == Approx(inwards.x())));
        CHECK((!y || v.y() == Approx(inwards.y())));
        CHECK((std::abs(at.x()) < 0.5 - 1e-9 || std::abs(v.x()) < 1e-9));
        CHECK((std::abs(at.y()) < 0.2 - 1e-9 || std::abs(v.y()) < 1e-9));
        corners += x && y ? 1 : 0;
    });
    CHECK(corners == 16);
}

TEST_CASE("moved outwards the outline takes its bands along, and no straight line") {
    const Board board = plate_of(1, 0.4);
    const Mesh mesh = grid_mesh(stations, levels, 2);
    MeshLines lines;
    lines.straight = {station_line(0.15)};
    lines.parallels = {{0.05, Rank::band, ""}};
    // by 1 + y on the right side, by 2 on the others
    const auto outwards = [&](const OutlinePlace& place) {
        const Vector2d p = point_at(board.planform, place);
        return p.x() > 0.5 - 1e-9 ? 1 + p.y() : 2;
    };
    const MeshVelocity velocity = MeshMotion(mesh, board, lines).of_outline(outwards);
    for_points(mesh, velocity, [](const Vector2d& at, const Vector2d& v) {
        CHECK(
            (at.x() < 0.5 - 1e-9 || std::abs(at.y()) > 0.2 - 1e-9 || v.x() == Approx(1 + at.y())));
        CHECK((std::abs(at.x() - 0.45) > 1e-9 || std::abs(at.y()) > 0.15 - 1e-9 ||
               v.x() == Approx(1 + at.y())));
        CHECK((at.x() > -0.5 + 1e-9 || v.x() == Approx(-2)));
        CHECK((at.y() < 0.2 - 1e-9 || v.y() == Approx(2)));
        CHECK((std::abs(at.x() - 0.15) > 1e-9 || v.x() == Approx(0).margin(1e-9)));
        CHECK((std::abs(at.y() + 0.15) > 1e-9 || std::abs(at.x()) > 0.45 - 1e-9 ||
               v.y() == Approx(-2)));
    });
}

TEST_CASE("points a little off their lines are brought back onto them") {
    const Board board = plate_of(1, 0.4);
    MeshLines lines;
    lines.straight = {station_line(0.15)};
    lines.parallels = {{0.05, Rank::band, ""}};
    std::vector<double> off = stations;
    off[1] += 2e-5; // inwards
    off[3] -= 3e-5;
    const Mesh mesh = grid_mesh(off, levels, 2);
    const Mesh back = moved_mesh(mesh, MeshMotion(mesh, board, lines).onto_lines(), 1);
    const Mesh wanted = grid_mesh(stations, levels, 2);
    for (std::size_t q = 0; q < mesh.quads.size(); ++q) {
        const std::size_t column = q % 5;
        for (const Index k : {Index(0), Index(2), Index(6), Index(8)}) {
            const bool end = k == 2 || k == 8;
            const std::size_t line = column + (end ? 1 : 0);
            const double y = wanted.geometry[q](1, k);
            if (line == 3 || (line == 1 && std::abs(y) < 0.15 - 1e-9)) {
                CHECK(back.geometry[q](0, k) == Approx(stations[line]).epsilon(1e-12));
            }
        }
    }
}

TEST_CASE("a moved mesh has its vertices, points and stations where the velocity takes them") {
    const Mesh mesh = grid_mesh({0, 1, 3}, {0, 2}, 2);
    MeshVelocity velocity;
    for (const Eigen::Matrix2Xd& points : mesh.geometry) {
        Eigen::Matrix2Xd speed = points;
        speed.row(0) = 2 * points.row(0).array() + points.row(0).array() * points.row(1).array();
        speed.row(1) = 1 - points.row(0).array();
        velocity.push_back(speed);
    }
    const Mesh moved = moved_mesh(mesh, velocity, 0.1);
    for (std::size_t v = 0; v < mesh.vertices.size(); ++v) {
        const Vector2d p = mesh.vertices[v];
        CHECK(
            (moved.vertices[v] - p - 0.1 * Vector2d(2 * p.x() + p.x() * p.y(), 1 - p.x())).norm() <
            1e-15);
    }
    CHECK((moved.geometry[1] - mesh.geometry[1] - 0.1 * velocity[1]).norm() < 1e-15);
    CHECK(moved.lines[1].x == Approx(1.2));
    CHECK(moved.lines[2].x == Approx(3.6));
}
