#include "solver/system/edge_line.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "mesh/mesher.hpp"
#include "solver/system/loading.hpp"
#include "tests/plate_problem.hpp"
#include "tests/solver/system/grid_model.hpp"

using namespace vrid;
using Eigen::Index;
using Eigen::Vector2d;

namespace {

// Its sides are parabolas, so that tangents and gradients turn along them.
PlateModel bulged_model(int degree) {
    return make_model(tests::grid_mesh({-0.5, -0.1, 0.2, 0.5}, {-0.2, 0.05, 0.2}, 2,
                                       [](const Vector2d& p) {
                                           return Vector2d(p.x(), p.y() * (1 - p.x() * p.x()));
                                       }),
                      degree, tests::sheet_section());
}

/// A tail of two lobes, cut in to x = -0.55; the left one ends `longer` behind the right one's
/// -0.7. The notch lies on the axis.
PlateModel swallow_tail(double longer) {
    Board board;
    board.planform = polygon_planform({{-0.55, 0},
                                       {-0.70, -0.04},
                                       {-0.70, -0.10},
                                       {0, -0.12},
                                       {0.55, -0.14},
                                       {0.70, -0.05},
                                       {0.70, 0.05},
                                       {0.55, 0.14},
                                       {0, 0.12},
                                       {-0.70, 0.10},
                                       {-0.70 - longer, 0.095},
                                       {-0.70 - longer, 0.05}},
                                      1.0);
    return make_model(mesh_planform(board, {}), 2, tests::isotropic_section(10e9, 0.3, 0.008));
}

} // namespace

TEST_CASE("an edge runs from tail to nose on its side, its segments joined, without the ends") {
    const PlateModel model = bulged_model(2);
    for (const Side side : {Side::left, Side::right}) {
        const EdgeLine line = edge_line(model, side);
        CHECK(line.side == side);
        REQUIRE(line.nodes() == 7);
        REQUIRE(line.segments.size() == 3);
        const double sign = side == Side::left ? 1 : -1;
        for (Index k = 0; k < 7; ++k) {
            const double x = line.X(0, k);
            CHECK(line.X(1, k) == Approx(sign * 0.2 * (1 - x * x)));
            CHECK((k == 0 || x > line.X(0, k - 1)));
            CHECK(line.X.col(k) ==
                  model.numbering.position.col(line.node[static_cast<std::size_t>(k)]));
        }
        for (std::size_t s = 0; s < 3; ++s) {
            const int first = 2 * static_cast<int>(s);
            CHECK(line.segments[s].node == std::vector<int>{first, first + 1, first + 2});
            CHECK(line.segments[s].side == (side == Side::left ? 2 : 0));
        }
    }
}

TEST_CASE("points on an edge have its places and add up to its length") {
    const PlateModel model = bulged_model(2);
    const EdgeLine line = edge_line(model, Side::right);
    const EdgePoints points = edge_points(line, gauss(5));
    REQUIRE(points.X.cols() == 15);
    // of the parabola y = 0.2 (1 - x^2), dy/dx = 0.4 x: x sqrt(1 + c^2 x^2) + asinh(c x) / c over
    // -0.5..0.5, c = 0.4, halved twice
    const double c = 0.4, end = 0.5;
    const double length = end * std::sqrt(1 + c * c * end * end) + std::asinh(c * end) / c;
    CHECK(points.ds.sum() == Approx(length).epsilon(1e-9));
    CHECK(points.ds.minCoeff() > 0);
    for (Index k = 0; k < 15; ++k) {
        const double x = points.X(0, k);
        CHECK(points.X(1, k) == Approx(-0.2 * (1 - x * x)));
        CHECK((k == 0 || x > points.X(0, k - 1)));
    }
    // one is the other's transpose
    Eigen::VectorXd nodal(7), values(15);
    for (Index k = 0; k < 15; ++k) {
        values(k) = std::sin(2.0 * static_cast<double>(k));
        nodal(k % 7) = std::cos(3.0 * static_cast<double>(k));
    }
    CHECK(values.dot(at_points(line, points, nodal).col(0)) ==
          Approx(to_nodes(line, points, values).dot(nodal)));
}

TEST_CASE("slopes along an edge are those of the motion, the chords' those of the sections") {
    const PlateModel model = bulged_model(4); // holds a square of the place on a bulged quad
    for (const Side side : {Side::left, Side::right}) {
        EdgeLine line = edge_line(model, side);
        line.chords = {-0.1, 0.2};
        const Eigen::SparseMatrix<double> loads = edge_slope_loads(model, line);
        const Index count = 15; // 3 segments of 5 nodes
        REQUIRE(loads.cols() == 2 * count + 2);
        Eigen::VectorXd u = Eigen::VectorXd::Zero(model.unknowns());
        for (int node = 0; node < model.numbering.nodes; ++node) {
            const double x = model.numbering.position(0, node),
                         y = model.numbering.position(1, node);
            u(unknown(node, comp_w)) = 2 * x + 3 * y + x * x - 2 * x * y + 0.5 * y * y;
        }
        const Eigen::VectorXd slopes = loads.transpose() * u;
        Index row = 0;
        for (const EdgeSegment& segment : line.segments) {
            for (const int place : segment.node) {
                const double x = line.X(0, place), y = line.X(1, place);
                CHECK(slopes(row) == Approx(2 + 2 * x - 2 * y).epsilon(1e-9));
                CHECK(slopes(count + row) == Approx(3 - 2 * x + y).epsilon(1e-9));
                ++row;
            }
        }
        // widths from -0.2 to 0.2 times 1 - x^2: symmetric, so y^2 has no part in the slope
        CHECK(slopes(2 * count) == Approx(3 + 2 * 0.1));
        CHECK(slopes(2 * count + 1) == Approx(3 - 2 * 0.2));
    }
}

TEST_CASE("the running edge of a swallow tail ends at its own lobe, as the other side's does") {
    const double longer = GENERATE(0.01, 0.0005);
    const PlateModel model = swallow_tail(longer);
    for (const Side side : {Side::left, Side::right}) {
        const EdgeLine line = edge_line(model, side);
        const double sign = side == Side::left ? 1 : -1;
        const double tail = side == Side::left ? -0.7 - longer : -0.7;
        INFO("longer by " << longer << ", side " << sign);
        CHECK(line.X(0, 0) == Approx(tail).epsilon(1e-9));
        CHECK((sign * line.X.row(1)).minCoeff() >= 0.05 - 1e-9); // nothing of the notch
        for (Eigen::Index i = 1; i < line.nodes(); ++i) {
            CHECK(line.X(0, i) > line.X(0, i - 1));
        }
        CHECK(line.X(0, line.nodes() - 1) == Approx(0.7).epsilon(1e-9));
    }
}
