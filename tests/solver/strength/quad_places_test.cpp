#include "solver/strength/quad_places.hpp"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "tests/mesh/grid_mesh.hpp"

using namespace vrid;
using Eigen::Vector2d;

namespace {

// Quads of 20 to 30 mm, bent by a square of the place: their sides are parabolas.
Vector2d bent_place(const Vector2d& p) {
    return {p.x() + 2 * p.y() * p.y(), p.y() + 1.5 * p.x() * p.x()};
}

Mesh bent_mesh() {
    return tests::grid_mesh({-0.03, -0.01, 0.02}, {-0.02, 0, 0.03}, 2, bent_place);
}

} // namespace

TEST_CASE("places in a quad are found again, in no other quad, on a side in both") {
    const QuadPlaces places(bent_mesh());
    REQUIRE(places.count() == 4);
    for (int quad = 0; quad < 4; ++quad) {
        for (const Vector2d& xi : {Vector2d(0.3, -0.8), Vector2d(-0.95, 0.6), Vector2d(0, 0)}) {
            const Vector2d p = places.position(quad, xi);
            const double x = quad % 2 == 0 ? -0.02 + 0.01 * xi.x() : 0.005 + 0.015 * xi.x();
            const double y = quad < 2 ? -0.01 + 0.01 * xi.y() : 0.015 + 0.015 * xi.y();
            CHECK((p - bent_place({x, y})).norm() < 1e-15);
            for (int other = 0; other < 4; ++other) {
                const auto found = places.inside(other, p);
                CHECK(found.has_value() == (other == quad));
                CHECK((!found || (*found - xi).norm() < 1e-10));
            }
            CHECK(std::count(places.near(p).begin(), places.near(p).end(), quad) == 1);
        }
    }
    const Vector2d shared = places.position(0, {1, 0.2});
    CHECK(places.inside(0, shared));
    CHECK(places.inside(1, shared));
    const Vector2d outside = places.position(0, {-1.001, 0});
    CHECK_FALSE(places.inside(0, outside));
    CHECK(places.inside(0, outside, 0.002));
    CHECK(places.near({1, 1}).empty());
    CHECK(places.near({-1, 0}).empty());
    Vector2d xi(0, 0);
    CHECK_FALSE(places.to_place(0, {5, 5}, xi));
}

TEST_CASE("a disc overlaps the quads that it shares an area with, and lies in one or not") {
    const QuadPlaces places(bent_mesh());
    const Vector2d corner = places.position(0, {1, 1});
    CHECK(places.overlapped(corner, 1e-3) == std::vector<int>{0, 1, 2, 3});
    const Vector2d middle = places.position(3, {0, 0});
    const std::vector<int> near = places.overlapped(middle, 2e-3);
    CHECK(std::is_sorted(near.begin(), near.end()));
    CHECK(std::count(near.begin(), near.end(), 3) == 1);
    CHECK(places.wholly_inside(3, middle, 5e-3));
    CHECK_FALSE(places.wholly_inside(3, middle, 16e-3)); // half a side is 15 mm
    CHECK_FALSE(places.wholly_inside(3, places.position(3, {0.9, 0}), 5e-3));
    CHECK(places.overlapped({0.5, 0.5}, 1e-3).empty());
    for (int i = 0; i < 60; ++i) { // every quad that a point of the rim lies in is among them
        const Vector2d centre(-0.04 + 1.3e-3 * i, 0.03 * std::sin(i));
        const std::vector<int> quads = places.overlapped(centre, 6e-3);
        for (int k = 0; k < 12; ++k) {
            const Vector2d rim = centre + 6e-3 * Vector2d(std::cos(k), std::sin(k));
            for (int quad = 0; quad < 4; ++quad) {
                CHECK((!places.inside(quad, rim) ||
                       std::count(quads.begin(), quads.end(), quad) == 1));
            }
        }
    }
}

TEST_CASE("a rim runs counter-clockwise, straight sides in one part, curved ones in eight") {
    const QuadPlaces straight(tests::grid_mesh({0, 0.02, 0.05}, {0, 0.03}, 2));
    REQUIRE(straight.rim(1).size() == 4);
    CHECK((straight.rim(1)[0] - Vector2d(0.02, 0)).norm() < 1e-15);
    CHECK((straight.rim(1)[1] - Vector2d(0.05, 0)).norm() < 1e-15);
    CHECK((straight.rim(1)[2] - Vector2d(0.05, 0.03)).norm() < 1e-15);
    const QuadPlaces bent(bent_mesh());
    REQUIRE(bent.rim(0).size() == 32);
    CHECK((bent.rim(0)[4] - bent.position(0, {0, -1})).norm() < 1e-15);
    CHECK((bent.rim(0)[20] - bent.position(0, {0, 1})).norm() < 1e-15);
    double twice = 0;
    for (std::size_t k = 0; k < 32; ++k) {
        const Vector2d &a = bent.rim(0)[k], &b = bent.rim(0)[(k + 1) % 32];
        twice += a.x() * b.y() - a.y() * b.x();
    }
    // det J = 1 - 12 x y, over -0.03..-0.01 and -0.02..0, and a chord's sag an eighth squared of it
    CHECK(twice / 2 == Approx(4e-4 - 12 * 4e-4 * 2e-4).epsilon(2e-3));
}
