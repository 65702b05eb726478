#include "solver/response/edge_curve.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

// Three forces are three directions: what is exact for 1, t and t^2 is exact for all.
TEST_CASE("the peak's derivatives by the forces are those of a parabola's top") {
    // q = 500 + 60 t - 900 t^2 about the second point, at uneven places
    EdgeCurve curve;
    curve.x = Eigen::Vector4d(0.2, 0.25, 0.33, 0.40);
    const Eigen::ArrayXd t = curve.x.array() - 0.25;
    curve.q = 500 + 60 * t - 900 * t.square();
    const Eigen::Index top = top_of(curve);
    REQUIRE(top == 1);
    curve.q(3) = 7; // not of the parabola

    const Eigen::MatrixX2d by_q = peak_slopes(curve, top);
    const auto change = [&](const Eigen::ArrayXd& dq) {
        return Eigen::RowVector2d(dq.matrix().transpose() * by_q);
    };
    // top at t = -b / 2c, as high as a - b^2 / 4c
    const double at = 60. / 1800;
    const Eigen::RowVector2d by_a = change(Eigen::ArrayXd::Ones(4));
    CHECK(by_a(0) == Approx(1));
    CHECK(by_a(1) == Approx(0).margin(1e-15));
    const Eigen::RowVector2d by_b = change(t);
    CHECK(by_b(0) == Approx(at));
    CHECK(by_b(1) == Approx(1. / 1800));
    const Eigen::RowVector2d by_c = change(t.square());
    CHECK(by_c(0) == Approx(at * at));
    CHECK(by_c(1) == Approx(60. / (2 * 900. * 900)));

    const Eigen::MatrixX2d at_end = peak_slopes(curve, 0); // no neighbour: the point itself
    CHECK(at_end.col(0).isApprox(Eigen::Vector4d::UnitX()));
    CHECK(at_end.col(1).isZero(0));
}
