#include "solver/design/outline_hats.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/mesh/grid_mesh.hpp"

using namespace vrid;
using Eigen::Index;
using Eigen::Vector2d;

TEST_CASE("hats sum to 1 everywhere on the outline, each 1 at its vertex and 0 at the next") {
    const Planform planform = rectangle_planform(1, 0.4);
    const Mesh mesh = tests::grid_mesh({-0.5, -0.1, 0.3, 0.5}, {-0.2, 0.05, 0.2});
    const OutlineHats hats(mesh, planform);
    REQUIRE(hats.vertices().size() == 10);
    for (int piece = 0; piece < 4; ++piece) {
        for (const double t : {0.0, 0.07, 0.5, 0.93}) {
            const OutlinePlace place{piece, t};
            double sum = 0;
            for (std::size_t hat = 0; hat < 10; ++hat) {
                sum += hats.value(hat, place);
            }
            CHECK(sum == Approx(1));
            const auto shares = hats.at_place(place);
            CHECK(shares[0].value + shares[1].value == Approx(1));
            for (const auto& share : shares) {
                CHECK(hats.value(static_cast<std::size_t>(share.hat), place) ==
                      Approx(share.value).margin(1e-12));
            }
            // linear between its neighbours: they bring back the place along a straight side
            const Vector2d back = shares[0].value * hats.at().col(shares[0].hat) +
                                  shares[1].value * hats.at().col(shares[1].hat);
            CHECK((back - point_at(planform, place)).norm() < 1e-9);
        }
    }
    const OutlineDistance distance(planform);
    for (std::size_t i = 0; i < 10; ++i) {
        const auto vertex = static_cast<std::size_t>(hats.vertices()[i]);
        const auto here = static_cast<Index>(i);
        CHECK((hats.at().col(here) - mesh.vertices[vertex]).norm() == 0);
        for (std::size_t hat = 0; hat < 10; ++hat) {
            CHECK(hats.value(hat, distance.nearest(mesh.vertices[vertex])) ==
                  Approx(hat == i ? 1 : 0).margin(1e-9));
        }
    }
}

TEST_CASE(
    "a hat's integral is half the way to both neighbours, its normal the mean of the sides'") {
    const Planform planform = rectangle_planform(1, 0.4);
    const Mesh mesh = tests::grid_mesh({-0.5, -0.1, 0.3, 0.5}, {-0.2, 0.05, 0.2});
    const OutlineHats hats(mesh, planform);
    CHECK(hats.length().sum() == Approx(2.8));
    for (Index i = 0; i < 10; ++i) {
        const Vector2d p = hats.at().col(i);
        const Vector2d out(std::abs(p.x()) == 0.5 ? p.x() : 0, std::abs(p.y()) == 0.2 ? p.y() : 0);
        const Vector2d sign(out.x() == 0 ? 0 : std::copysign(1, out.x()),
                            out.y() == 0 ? 0 : std::copysign(1, out.y()));
        CHECK((hats.outward().col(i) - sign.normalized()).norm() < 1e-9);
        if (p == Vector2d(-0.1, -0.2)) {
            CHECK(hats.length()(i) == Approx(0.4));
        } else if (p == Vector2d(-0.5, 0.2)) {
            CHECK(hats.length()(i) == Approx((0.4 + 0.15) / 2));
        }
    }
}

TEST_CASE("along a curve a hat is linear in the length, not in the parameter") {
    Planform planform = rectangle_planform(1, 0.4); // its lower side runs unevenly
    planform.outline[0].control = {Vector2d(-0.5, -0.2), Vector2d(-0.4, -0.2), Vector2d(0, -0.2),
                                   Vector2d(0.5, -0.2)};
    const OutlineHats hats(tests::grid_mesh({-0.5, 0.5}, {-0.2, 0.2}), planform);
    const OutlinePlace place{0, 0.3};
    const double share = point_at(planform, place).x() + 0.5;
    CHECK(std::abs(share - 0.3) > 0.05);
    for (std::size_t hat = 0; hat < 4; ++hat) {
        const Vector2d at = hats.at().col(static_cast<Index>(hat));
        const double wanted = at.y() > 0 ? 0 : at.x() < 0 ? 1 - share : share;
        CHECK(hats.value(hat, place) == Approx(wanted).margin(1e-9));
    }
}
