#include "mesh/board/planform.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

#include <catch2/catch.hpp>

#include "mesh/board/outline_piece.hpp"
#include "mesh/board/same_place.hpp"

using Eigen::Vector2d;
using vrid::OutlinePiece;
using vrid::Planform;

namespace {

// A disc of radius r in two arcs.
Planform disc(double r) {
    Planform planform;
    for (int k = 0; k < 2; ++k) {
        OutlinePiece arc;
        arc.radius = r;
        arc.centre = {0.1, 0.02};
        arc.angle_from = k * std::numbers::pi;
        arc.angle_to = (k + 1) * std::numbers::pi;
        planform.outline.push_back(arc);
    }
    planform.running_length = r;
    return planform;
}

} // namespace

TEST_CASE("area and centroid of a disc are exact") {
    const Planform planform = disc(0.3);
    CHECK(area(planform) == Approx(std::numbers::pi * 0.09).epsilon(1e-12));
    CHECK((centroid(planform) - Vector2d(0.1, 0.02)).norm() < 1e-13);
}

TEST_CASE("crossings of a station lie on it and are even in number") {
    const Planform planform =
        vrid::parametric_planform({1.135, 0.25, 0.291, 0.286, -0.0185, 0.22, 0.215, 0.6, 0.6});
    for (int k = 0; k <= 200; ++k) {
        const double x = -0.8 + 0.008 * k;
        const auto places = crossings(planform, x);
        REQUIRE(places.size() % 2 == 0);
        for (const auto& place : places) {
            CHECK(std::abs(point_at(planform, place).x() - x) < 1e-13);
        }
    }
}

TEST_CASE("width integrated over the stations is the area") {
    const Planform planform = disc(0.3);
    double sum = 0;
    constexpr int n = 2000; // midpoints in the angle, where the integrand is smooth
    for (int k = 0; k < n; ++k) {
        const double angle = std::numbers::pi * (k + 0.5) / n;
        sum += width_at(planform, 0.1 - 0.3 * std::cos(angle)) * 0.3 * std::sin(angle) *
               std::numbers::pi / n;
    }
    CHECK(sum == Approx(area(planform)).epsilon(1e-6));
}

namespace {

// Stations where rounding bites: ends of pieces, contact stations, and their neighbours.
std::vector<double> awkward_stations(const Planform& planform) {
    std::vector<double> bare{planform.running_length / 2, -planform.running_length / 2};
    for (const OutlinePiece& piece : planform.outline) {
        bare.push_back(point_at(piece, 0).x());
        bare.push_back(point_at(piece, 1).x());
    }
    std::vector<double> all;
    for (const double x : bare) {
        all.insert(all.end(), {x, x - 1e-15, x + 1e-15, x - 1e-12, x + 1e-12, x - 1e-9, x + 1e-9,
                               std::nextafter(x, 10), std::nextafter(x, -10)});
    }
    return all;
}

vrid::PlanformShape random_shape(std::mt19937& random, bool round) {
    const auto between = [&](double low, double high, double step) {
        const double value = low + (high - low) * static_cast<double>(random()) / 4294967296.0;
        return round ? std::round(value / step) * step : value;
    };
    vrid::PlanformShape shape;
    shape.running_length = between(0.8, 1.3, 0.01);
    shape.waist_width = between(0.22, 0.28, 0.001);
    shape.nose_width = shape.waist_width + between(0, 0.06, 0.001);
    shape.tail_width = shape.waist_width + between(0, 0.06, 0.001);
    shape.waist_x = between(-0.05, 0.05, 0.0005);
    shape.nose_length = between(0.08, 0.35, 0.005);
    shape.tail_length = between(0.06, 0.3, 0.005);
    shape.nose_fullness = between(0.2, 0.9, 0.01);
    shape.tail_fullness = between(0.2, 0.9, 0.01);
    return shape;
}

} // namespace

TEST_CASE("every station between tail and nose is crossed by both sides, rounding or not") {
    std::mt19937 random(11);
    for (int board = 0; board < 400; ++board) {
        const auto shape = random_shape(random, board % 2 == 0);
        const Planform planform = parametric_planform(shape);
        CAPTURE(board, shape.running_length, shape.waist_x);
        const auto [tail, nose] = x_extent(planform);
        for (const double x : awkward_stations(planform)) {
            CAPTURE(x);
            const auto places = crossings(planform, x);
            if (x < tail - vrid::same_place || x > nose + vrid::same_place) {
                CHECK(places.empty());
                continue;
            }
            REQUIRE(places.size() == 2);
            const auto y = y_extent(planform, x);
            CHECK(std::abs((*y)[0] + (*y)[1]) < 1e-7); // at a tip y is a root of x's rounding
            CHECK(width_at(planform, x) == Approx((*y)[1] - (*y)[0]));
        }
        const double half = shape.running_length / 2;
        CHECK(width_at(planform, half) == Approx(shape.nose_width).epsilon(1e-9));
        CHECK(width_at(planform, -half) == Approx(shape.tail_width).epsilon(1e-9));
    }
}

TEST_CASE("what lies on the outline is on the board, at every corner alike") {
    const Planform planform = vrid::rectangle_planform(0.299999999999, 0.04);
    for (const double x : {-0.15, 0.15}) {
        CHECK(width_at(planform, x) == Approx(0.04));
        for (const double y : {-0.02, 0.02, -0.02 - 1e-12, 0.02 + 1e-12}) {
            CHECK(contains(planform, {x, y}));
        }
        CHECK_FALSE(contains(planform, {x, 0.02 + 2 * vrid::same_place}));
        CHECK(width_at(planform, x + (x > 0 ? 2 : -2) * vrid::same_place) == 0);
    }
}

TEST_CASE("width beside a step and at pointed tips is that of the polygon") {
    // a paddle: blade 0.1 wide from -0.5 to 0.1, handle 0.02 wide to a point at 0.5
    const Planform paddle = vrid::polygon_planform({{-0.5, -0.05},
                                                    {0.1, -0.05},
                                                    {0.1, -0.01},
                                                    {0.4, -0.01},
                                                    {0.5, 0},
                                                    {0.4, 0.01},
                                                    {0.1, 0.01},
                                                    {0.1, 0.05},
                                                    {-0.5, 0.05}},
                                                   0.8);
    CHECK(width_at(paddle, -0.5) == Approx(0.1));
    CHECK(width_at(paddle, 0.1 - 1e-9) == Approx(0.1));
    CHECK(width_at(paddle, 0.1 + 1e-9) == Approx(0.02));
    CHECK(width_at(paddle, 0.45) == Approx(0.01));
    CHECK(width_at(paddle, 0.5) == Approx(0).margin(1e-12));
    CHECK(width_at(paddle, 0.5 + 1e-5) == 0);
}
