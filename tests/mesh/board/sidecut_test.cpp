#include <cmath>

#include <catch2/catch.hpp>

#include "mesh/board/planform.hpp"

using Eigen::Vector2d;

namespace {

// Left side on a circle of this radius, right side straight; ends square at +-0.6.
vrid::Planform hollow_left(double radius, double running_length) {
    std::vector<Vector2d> corners{{-0.6, -0.12}, {0.6, -0.12}};
    constexpr int parts = 400;
    for (int k = 0; k <= parts; ++k) {
        const double x = 0.6 - 1.2 * k / parts;
        corners.emplace_back(x, 0.12 + radius - std::sqrt(radius * radius - x * x));
    }
    return vrid::polygon_planform(corners, running_length);
}

} // namespace

TEST_CASE("a hollow side has the radius of its circle, a straight one none") {
    const auto radius = sidecut_radius(hollow_left(8, 1.1));
    CHECK(radius[0] == Approx(8).epsilon(1e-4)); // chords of 3 mm leave the circle by 0.14 um
    CHECK(std::isinf(radius[1]));
}

TEST_CASE(
    "a side that touches elsewhere than the running length ends has the radius between its own "
    "contact stations") {
    // the left side's circle ends at 0.36, from where it runs on straight
    std::vector<Vector2d> corners{{-0.6, -0.12}, {0.6, -0.12}};
    constexpr int parts = 400;
    for (int k = 0; k <= parts; ++k) {
        const double x = 0.6 - 1.2 * k / parts;
        const double round = std::min(x, 0.36);
        corners.emplace_back(x, 0.12 + 8 - std::sqrt(64 - round * round));
    }
    vrid::Planform planform = vrid::polygon_planform(corners, 1.1);
    planform.edge_contact[0] = {-0.5, 0.36};
    const auto radius = sidecut_radius(planform);
    CHECK(radius[0] == Approx(8).epsilon(1e-4));
    CHECK(std::isinf(radius[1]));
}

TEST_CASE("sides that taper or bulge have no sidecut radius") {
    // straight from tail to nose between the contact stations, narrow beyond them
    const auto taper = vrid::polygon_planform({{-0.7, -0.02},
                                               {-0.52, -0.096},
                                               {0.52, -0.15},
                                               {0.7, -0.06},
                                               {0.7, 0.06},
                                               {0.52, 0.15},
                                               {-0.52, 0.096},
                                               {-0.7, 0.02}},
                                              1.0);
    CHECK(std::isinf(sidecut_radius(taper)[0]));
    CHECK(std::isinf(sidecut_radius(taper)[1]));
    const auto bulge = vrid::polygon_planform(
        {{-0.5, -0.1}, {0, -0.12}, {0.5, -0.1}, {0.5, 0.1}, {0, 0.12}, {-0.5, 0.1}}, 0.9);
    CHECK(std::isinf(sidecut_radius(bulge)[0]));
}

TEST_CASE("the search for the narrowest place stays between the contact stations") {
    // widest at 780, a point there; a running length of 0.1 mm about x = 0
    const auto odd = vrid::polygon_planform(
        {{0.78, 0}, {-0.624, 0.246}, {-0.631, -0.082}, {0.241, -0.133}}, 1e-4);
    CHECK(std::isinf(sidecut_radius(odd)[0]));
    CHECK(std::isinf(sidecut_radius(odd)[1]));
}

TEST_CASE("a waist wider than the line from tail to nose makes no sidecut, whatever its circle") {
    vrid::PlanformShape shape;
    shape.running_length = 1.135;
    shape.tail_width = 0.286;
    shape.nose_width = 0.291;
    shape.tail_length = 0.215;
    shape.nose_length = 0.22;
    shape.waist_width = 0.25;
    CHECK(sidecut_radius(vrid::parametric_planform(shape))[0] == Approx(8.38).epsilon(0.01));
    shape.waist_width = 0.4;
    CHECK(std::isinf(sidecut_radius(vrid::parametric_planform(shape))[0]));
    shape.waist_width = 0.2875; // wider than the tail, inside the line to the nose
    CHECK(std::isfinite(sidecut_radius(vrid::parametric_planform(shape))[1]));
}
