#include "mesh/quality.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/mesh/grid_mesh.hpp"

using namespace vrid;
using Eigen::Vector2d;

TEST_CASE("the smallest sine of a quad is that of its sharpest corner, with the sign of its way "
          "round") {
    const double c = std::sqrt(3.0) / 2; // a rhombus of 30 degrees
    const std::array<Vector2d, 4> rhombus{{{0, 0}, {1, 0}, {1 + c, 0.5}, {c, 0.5}}};
    CHECK(smallest_sine(rhombus) == Approx(0.5));
    // clockwise the corners of 150 and of 30 degrees have one sine
    CHECK(smallest_sine({rhombus[3], rhombus[2], rhombus[1], rhombus[0]}) == Approx(-0.5));
    // a kite whose last corner, of 36.87 and 53.13 degrees, is the sharpest: its sides and their
    // product tell (4, 3) x (0, 3)
    CHECK(smallest_sine({{{4, 3}, {0, 6}, {0, 0}, {4, 0}}}) == Approx(0.8));
    CHECK(smallest_sine({{{0, 0}, {4, 0}, {4, 3}, {0, 6}}}) == Approx(0.8));
    // re-entrant at its third vertex: (0.2, 0.2) x its neighbours' ways turns the other way
    CHECK(smallest_sine({{{0, 0}, {1, 0}, {0.2, 0.2}, {0, 1}}}) < 0);
    CHECK(smallest_sine({{{0, 0}, {0, 0}, {1, 1}, {0, 1}}}) == Approx(0).margin(1e-15));
}

TEST_CASE("the worst place of a mesh is where its curved lines meet at the least angle") {
    // A unit square whose lower side's middle is lifted by h: a parabola. Along it dy/du = 4 h at
    // its ends, and across it dy/dv = 1 - 3 h at its middle.
    const auto bent = [](double h, int sides) {
        Mesh mesh = tests::grid_mesh({0, 1, 2}, {0, 1}, 2);
        mesh.geometry[1](1, sides == 0 ? 1 : 5) += sides == 0 ? h : 0;
        mesh.geometry[1](0, sides == 0 ? 1 : 5) += sides == 0 ? 0 : h;
        return worst_place(mesh);
    };
    const WorstPlace mild = bent(0.1, 0);
    CHECK(mild.corner_sine == Approx(1 / std::sqrt(1 + 16 * 0.01)));
    CHECK(mild.corner_quad == 1);
    CHECK(mild.inner_sine == Approx(mild.corner_sine));
    const WorstPlace folded = bent(0.4, 0);
    CHECK(folded.corner_sine == Approx(1 / std::sqrt(1 + 16 * 0.16)));
    CHECK(folded.inner_sine == Approx(-1));
    CHECK(folded.inner_quad == 1);
    // the right side bulges outwards: seen along the other direction
    CHECK(bent(0.1, 1).corner_sine == Approx(1 / std::sqrt(1 + 16 * 0.01)));
    CHECK(bent(-0.4, 1).inner_sine == Approx(-1));
    const WorstPlace square = worst_place(tests::grid_mesh({0, 1}, {0, 1}, 3));
    CHECK(square.corner_sine == Approx(1));
    CHECK(square.inner_sine == Approx(1));
}
