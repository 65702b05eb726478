#include "solver/response/edge_curve.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

// A line that no circle fits, in contact where |x - 0.1| < half.
double curvature(int points, double half) {
    EdgeCurve curve;
    curve.x = Eigen::VectorXd::LinSpaced(points, -0.7, 0.7);
    curve.y = Eigen::VectorXd::Zero(points);
    curve.along = curve.x;
    curve.ds = Eigen::VectorXd::Constant(points, 1.4 / (points - 1));
    curve.H = (curve.x.array() - 0.1).abs() - half;
    curve.w = 0.1 * curve.x.array().square() + 0.3 * curve.x.array().pow(4);
    return bending_curvature(curve);
}

} // namespace

TEST_CASE("the circle through the edge in contact does not hang on where the points lie") {
    for (const double half : {0.41, 0.44, 0.47, 0.5}) { // every 18 mm a point: ends anywhere
        INFO(half);
        CHECK(curvature(81, half) == Approx(curvature(8001, half)).epsilon(2e-3));
    }
    const auto slope = [](double at) {
        return curvature(41, at + 1e-4) - curvature(41, at - 1e-4);
    };
    for (double half = 0.41; half < 0.5; half += 0.001) { // where an end passes a point, too
        INFO(half);
        CHECK(slope(half) == Approx(slope(half + 0.001)).epsilon(0.1));
    }
}
