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

TEST_CASE("a point is in no quad that it lies beside, though Newton's steps wander about there, as "
          "outside a flat or a sharp corner") {
    for (const Vector2d& corner : {Vector2d(0.016, 0.016), Vector2d(0.0152, 0.0152),
                                   Vector2d(0.09, 0.09), Vector2d(0.012, 0.024)}) {
        const auto bilinear = [&](const Vector2d& p) {
            return Vector2d(p.x() * (1 - p.y()) * 0.03 + p.x() * p.y() * corner.x(),
                            p.y() * (1 - p.x()) * 0.03 + p.x() * p.y() * corner.y());
        };
        const QuadPlaces places(tests::grid_mesh({0, 1}, {0, 1}, 2, bilinear));
        int held = 0;
        int elsewhere = 0;
        for (int i = -40; i <= 200; ++i) {
            for (int j = -40; j <= 200; ++j) {
                const Vector2d p(0.5e-3 * i + 1e-5, 0.5e-3 * j + 2e-5);
                if (const auto xi = places.inside(0, p)) {
                    ++held;
                    elsewhere += (places.position(0, *xi) - p).norm() > 1e-9 ? 1 : 0;
                }
            }
        }
        CAPTURE(corner, held);
        CHECK(held > 1000);
        CHECK(elsewhere == 0);
        int missed = 0;
        for (int i = -20; i <= 20; ++i) {
            for (int j = -20; j <= 20; ++j) {
                const Vector2d xi(i / 20.0, j / 20.0);
                const auto found = places.inside(0, places.position(0, xi));
                missed += found && (*found - xi).norm() < 1e-6 ? 0 : 1;
            }
        }
        CHECK(missed == 0);
    }
}
