#include "solver/response/curve_peak.hpp"

#include <array>
#include <utility>

#include <catch2/catch.hpp>

using namespace vrid;

// Three forces are three directions: what is exact for 1, t and t^2 is exact for all.
TEST_CASE("the peak's derivatives by the forces are those of a parabola's top") {
    // q = 500 + 60 t - 900 t^2 about the second point, at uneven places
    const Eigen::VectorXd x = Eigen::Vector4d(0.2, 0.25, 0.33, 0.40);
    const Eigen::ArrayXd t = x.array() - 0.25;
    Eigen::VectorXd q = 500 + 60 * t - 900 * t.square();
    q(3) = 7; // not of the parabola

    const CurvePeak peak = curve_peak(x, q, 1);
    // top at t = -b / 2c, as high as a - b^2 / 4c
    const double at = 60. / 1800;
    CHECK(peak.x == Approx(0.25 + at));
    CHECK(peak.value == Approx(501));
    const auto change = [&](const Eigen::ArrayXd& dq) {
        return Eigen::RowVector2d(dq.matrix().transpose() * peak.slopes);
    };
    const Eigen::RowVector2d by_a = change(Eigen::ArrayXd::Ones(4));
    CHECK(by_a(0) == Approx(1));
    CHECK(by_a(1) == Approx(0).margin(1e-15));
    const Eigen::RowVector2d by_b = change(t);
    CHECK(by_b(0) == Approx(at));
    CHECK(by_b(1) == Approx(1. / 1800));
    const Eigen::RowVector2d by_c = change(t.square());
    CHECK(by_c(0) == Approx(at * at));
    CHECK(by_c(1) == Approx(60. / (2 * 900. * 900)));
}

TEST_CASE("a peak beside the end of a segment is found on either side, and none across a kink") {
    // up to x = 0 a slope, from there on 500 + 60 x - 900 x^2: the top at 1/30 is 501
    const auto peak_of = [](double slope, double sign) {
        const Eigen::VectorXd x =
            sign * (Eigen::VectorXd(7) << -0.10, -0.05, 0, 0, 0.05, 0.10, 0.15).finished();
        const Eigen::ArrayXd t = sign * x.array();
        Eigen::VectorXd q = 500 + 60 * t - 900 * t.square();
        q.head<3>() = 500 + slope * t.head<3>();
        return sign > 0 ? std::pair{x, q}
                        : std::pair{Eigen::VectorXd(x.reverse()), Eigen::VectorXd(q.reverse())};
    };
    for (const double sign : {1.0, -1.0}) {
        const auto [x, q] = peak_of(300, sign);
        for (const Eigen::Index at : sign > 0 ? std::array<Eigen::Index, 3>{2, 3, 4}
                                              : std::array<Eigen::Index, 3>{4, 3, 2}) {
            INFO(at);
            const CurvePeak peak = curve_peak(x, q, at);
            CHECK(peak.value == Approx(501));
            CHECK(peak.x == Approx(sign / 30));
            CHECK(peak.slopes.col(0).sum() == Approx(1));
        }
    }
    const Eigen::VectorXd x = (Eigen::VectorXd(6) << -0.2, -0.1, 0, 0, 0.1, 0.2).finished();
    const Eigen::VectorXd roof = 500 - 100 * x.array().abs(); // the kink itself is the top
    const CurvePeak top = curve_peak(x, roof, 2);
    CHECK(top.value == 500);
    CHECK(top.x == 0);
    CHECK(top.slopes.col(0).isApprox(Eigen::VectorXd::Unit(6, 2)));
    CHECK(top.slopes.col(1).isZero(0));
}
