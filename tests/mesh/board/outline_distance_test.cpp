#include <cmath>
#include <random>

#include <catch2/catch.hpp>

#include "mesh/board/planform.hpp"

using Eigen::Vector2d;
using vrid::OutlineDistance;
using vrid::Planform;

TEST_CASE("the distance to a rectangle's outline is that to its nearest side, in and outside") {
    const OutlineDistance distance(vrid::rectangle_planform(0.4, 0.1));
    CHECK(distance({0, 0}) == Approx(0.05).epsilon(1e-12));
    CHECK(distance({0.19, 0.02}) == Approx(0.01).epsilon(1e-12));
    CHECK(distance({0.23, 0.09}) == Approx(0.05).epsilon(1e-12)); // 3-4-5 from the corner
    CHECK(distance({1.2, 0}) == Approx(1.0).epsilon(1e-12));
}

TEST_CASE(
    "the nearest place is where the point lies on the outline's normal, and nothing is nearer") {
    const Planform planform =
        vrid::parametric_planform({1.135, 0.25, 0.291, 0.286, -0.0185, 0.22, 0.215, 0.9, 0.3});
    const OutlineDistance distance(planform);
    std::vector<std::pair<double, double>> fine;
    constexpr int n = 4000;
    for (int piece = 0; piece < static_cast<int>(planform.outline.size()); ++piece) {
        for (int k = 0; k < n; ++k) {
            const Vector2d q = point_at(planform, {piece, static_cast<double>(k) / n});
            fine.emplace_back(q[0], q[1]);
        }
    }
    std::mt19937 random(7);
    std::uniform_real_distribution<double> x(-0.8, 0.8);
    std::uniform_real_distribution<double> y(-0.15, 0.15);
    for (int k = 0; k < 300; ++k) {
        const Vector2d p(x(random), y(random));
        const vrid::OutlinePlace place = distance.nearest(p);
        const Vector2d offset = point_at(planform, place) - p;
        CHECK(std::abs(offset.norm() - distance(p)) < 1e-12);
        CHECK(std::abs(offset.dot(tangent_at(planform, place).normalized())) < 1e-9);
        double least = 1; // squared
        for (const auto& [qx, qy] : fine) {
            least = std::min(least, (qx - p[0]) * (qx - p[0]) + (qy - p[1]) * (qy - p[1]));
        }
        CHECK(distance(p) < std::sqrt(least) + 1e-12);
    }
}
