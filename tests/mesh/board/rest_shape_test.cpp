#include "mesh/board/rest_shape.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

Board with_heights(std::vector<double> x, std::vector<double> z) {
    Board board;
    board.planform = polygon_planform({{-0.5, -0.1}, {0.5, -0.1}, {0.5, 0.1}, {-0.5, 0.1}}, 0.8);
    board.rest_shape = Profile{Interpolation::smooth, std::move(x), std::move(z)};
    return board;
}

} // namespace

TEST_CASE("a height's slope is the sine of the angle, and the floor is shorter by the cosine") {
    const auto shape =
        rest_shape(with_heights({-0.5, -0.4, 0, 0.4, 0.5}, {0.03, 0, 5e-3, 0, 0.04}));
    REQUIRE(shape);
    for (const double x : {-0.47, -0.2, 0.1, 0.45}) {
        constexpr double h = 1e-6;
        const RestFrame frame = shape->frame(x);
        CHECK(frame.S == Approx((shape->z(x + h) - shape->z(x - h)) / (2 * h)).margin(1e-8));
        CHECK(std::hypot(frame.C, frame.S) == Approx(1));
        CHECK(frame.C ==
              Approx((shape->place(x + h) - shape->place(x - h)) / (2 * h)).epsilon(1e-7));
        const double bend = (shape->frame(x + h).S - shape->frame(x - h).S) / (2 * h);
        CHECK(frame.kap == Approx(bend / frame.C).epsilon(1e-6));
    }
    CHECK(shape->place(0.5) < 0.5);
    CHECK(rest_shape(with_heights({-0.5, 0, 0.5}, {0.01, 0.01, 0.01})) == nullptr);
}

TEST_CASE("before the tip a rising curve goes on straight, a falling one level") {
    const auto tips = rest_shape(with_heights({-0.49, -0.4, 0.4, 0.48}, {0.03, 0, 0, 0.04}));
    REQUIRE(tips);
    CHECK(tips->frame(0.495).S == Approx(tips->frame(0.48).S));
    CHECK(tips->frame(0.495).kap == 0);
    CHECK(tips->frame(-0.495).S == Approx(tips->frame(-0.49).S));
    CHECK(tips->z(0.49) == Approx(0.04 + 0.01 * tips->frame(0.48).S));
    CHECK(tips->z(-0.5) == Approx(0.03 - 0.01 * tips->frame(-0.49).S));
    const auto camber = rest_shape(with_heights({-0.4, 0, 0.4}, {0, 5e-3, 0}));
    REQUIRE(camber);
    CHECK(camber->frame(0.45).S == 0);
    CHECK(camber->z(0.45) == 0);
}
