#include "mesh/line_stops.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using Eigen::Vector2d;
using vrid::Loop;
using vrid::OutlineDistance;
using vrid::Planform;

namespace {

double enclosed(const Loop& loop) {
    double twice = 0;
    constexpr int n = 20000;
    for (int k = 0; k < n; ++k) {
        const Vector2d a = loop.point(loop.length() * k / n);
        const Vector2d b = loop.point(loop.length() * (k + 1) / n);
        twice += a.x() * b.y() - a.y() * b.x();
    }
    return twice / 2;
}

void check_distances(const Planform& planform, double distance) {
    const OutlineDistance outline(planform);
    for (const Loop& loop : parallel_loops(planform, outline, distance)) {
        for (int k = 0; k < 500; ++k) {
            const Vector2d p = loop.point(loop.length() * (k + 0.5) / 500);
            CHECK(std::abs(outline(p) - distance) < 1e-7);
        }
    }
}

} // namespace

TEST_CASE("every point of a parallel keeps its distance, at blunt and pointed tips too") {
    for (const double fullness : {0.2, 0.6, 0.9}) {
        const Planform planform = vrid::parametric_planform(
            {1.135, 0.25, 0.291, 0.286, 0, 0.22, 0.1, fullness, fullness});
        for (const double distance : {0.002, 0.008, 0.03, 0.09}) {
            check_distances(planform, distance);
        }
    }
}

TEST_CASE("the parallel of a rectangle is a smaller rectangle, and none beyond its middle") {
    const Planform plate = vrid::rectangle_planform(0.4, 0.1);
    const OutlineDistance outline(plate);
    const auto loops = parallel_loops(plate, outline, 0.01);
    REQUIRE(loops.size() == 1);
    CHECK(loops[0].corners().size() == 4);
    CHECK(enclosed(loops[0]) == Approx(0.38 * 0.08).epsilon(1e-4));
    CHECK(parallel_loops(plate, outline, 0.051).empty());
}

TEST_CASE("a parallel goes round a corner at which the board is re-entrant") {
    const Planform angle = vrid::polygon_planform(
        {{0, 0}, {0.3, 0}, {0.3, 0.1}, {0.1, 0.1}, {0.1, 0.3}, {0, 0.3}}, 0.2);
    check_distances(angle, 0.01);
    const auto loops = parallel_loops(angle, OutlineDistance(angle), 0.01);
    REQUIRE(loops.size() == 1);
    // six strips less five square corners, and a quarter disc at the re-entrant one
    const double band = 1.2 * 0.01 - 5 * 1e-4 + std::acos(-1.0) / 4 * 1e-4;
    CHECK(enclosed(loops[0]) == Approx(0.05 - band).epsilon(1e-4));
}

TEST_CASE("a board with a narrow waist has two parallels beyond half the waist's width") {
    const Planform bone = vrid::polygon_planform({{-0.4, -0.1},
                                                  {-0.2, -0.1},
                                                  {-0.1, -0.02},
                                                  {0.1, -0.02},
                                                  {0.2, -0.1},
                                                  {0.4, -0.1},
                                                  {0.4, 0.1},
                                                  {0.2, 0.1},
                                                  {0.1, 0.02},
                                                  {-0.1, 0.02},
                                                  {-0.2, 0.1},
                                                  {-0.4, 0.1}},
                                                 0.6);
    CHECK(parallel_loops(bone, OutlineDistance(bone), 0.01).size() == 1);
    CHECK(parallel_loops(bone, OutlineDistance(bone), 0.04).size() == 2);
    check_distances(bone, 0.04);
}
